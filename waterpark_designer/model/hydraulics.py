"""Pipe runs, pumps and the losses of equipment, as they are entered."""

from typing import Annotated

from pydantic import Field, StringConstraints

from waterpark_designer.model.kinds import FrictionMethod, LineKind, PipeStandard, SupplyVoltage
from waterpark_designer.model.node import Node, Part
from waterpark_designer.units import EnergyPrice, Flow, Head, Hours, Length, Ratio, Share

NominalSize = Annotated[str, StringConstraints(pattern=r"^[0-9.]{0,5}$")]
Branch = Annotated[str, StringConstraints(max_length=20, strip_whitespace=True)]
FittingCount = Annotated[int, Field(ge=0, le=500)]


class PipeRun(Node):
    """A run of pipe of one size, or several like runs side by side, in flow order with the runs beside it."""

    kind: LineKind = Field(LineKind.PUMP_DISCHARGE, description="What the run carries; it sets the velocity limit.")
    length: Length = Field(10.0, ge=0, le=5000, description="Length of one run.")
    count: int = Field(1, ge=1, le=1000, description="Like runs side by side, which divide the flow evenly.")
    flow_share: Share = Field(
        1.0,
        gt=0,
        le=2,
        description="Flow of all like runs together, as a share of the design flow, or of the "
        "backwash flow in a backwash line; in branches that of all branches.",
    )
    branch: Branch = Field(
        "",
        description="Runs with the same word or number here stand side by side between the same two points, each a "
        "branch of its own: the flow divides so that all lose the same head, and the share of flow is that of all of "
        "them together. Leave blank for a run in the row.",
    )
    standard: PipeStandard = Field(PipeStandard.PVC_40, description="Material and schedule.")
    size: NominalSize = Field(
        "",
        description="Nominal size in inches. Leave blank to have the smallest chosen that keeps to the velocity limit.",
    )
    elbows_90: FittingCount = Field(0, description="Standard 90° elbows on one run.")
    elbows_45: FittingCount = Field(0, description="Standard 45° elbows on one run.")
    tees_run: FittingCount = Field(0, description="Tees that the flow passes straight.")
    tees_branch: FittingCount = Field(0, description="Tees in which the flow turns.")
    butterfly_valves: FittingCount = Field(0, description="Butterfly valves, open.")
    check_valves: FittingCount = Field(0, description="Swing check valves.")
    entrances: FittingCount = Field(0, description="Sharp-edged entrances from a tank or basin.")
    exits: FittingCount = Field(0, description="Exits into a tank or basin.")
    available_head: Length | None = Field(
        None,
        gt=0,
        le=60,
        description="Difference of water levels that drives a gravity line. Leave blank where a pump drives it. Count "
        "its entrance and exit.",
    )
    in_pump_head: bool = Field(
        True, description="Lies on the longest path of the pump's water, so that its loss counts in the head."
    )
    assumed: bool = Field(True, description="A sensible assumption, to be replaced by what the drawing shows.")


class CurvePoint(Part):
    """One point of a pump's curve, from its supplier."""

    flow: Flow = Field(ge=0, le=20, description="Flow of one pump.")
    head: Head = Field(ge=0, le=300, description="Head at that flow.")


class PumpPlan(Part):
    """The pump of a recirculation system or of a feature."""

    count: int = Field(1, ge=1, le=12, description="Like pumps that run side by side.")
    curve: tuple[CurvePoint, ...] = Field(
        (),
        max_length=50,
        description="Points of one pump's curve from its supplier, least flow first. Leave empty for a generic "
        "curve through the duty.",
    )
    shutoff_ratio: Ratio = Field(
        1.25, gt=1, le=3, description="Head at no flow over head at duty, of the generic curve; 1.15 to 1.4 is common."
    )
    efficiency: Share | None = Field(
        None, gt=0.05, le=0.95, description="Pump efficiency at duty. Leave blank for an estimate by flow."
    )
    suction_head_required: Head | None = Field(
        None, gt=0, le=50, description="Net positive suction head that the pump requires at duty, from its supplier."
    )
    water_above_pump: Length = Field(
        0.5, ge=-8, le=20, description="Water level on the suction side above the pump; negative where it lifts."
    )
    static_head: Length = Field(
        0.0, ge=-20, le=60, description="Level to which water is lifted above the level it is drawn from."
    )
    voltage: SupplyVoltage = Field(SupplyVoltage.V460, description="Three-phase supply of the motor.")
    service_factor: Ratio = Field(
        1.0, ge=1, le=1.25, description="Overload of the motor that is used; none is the safe choice."
    )
    running_hours: Hours = Field(86400.0, ge=0, le=86400, description="Hours the pump runs on a day of the season.")
    night_flow: Share = Field(
        1.0, gt=0.1, le=1, description="Flow while closed as a share of the design flow, by variable speed."
    )
    drive: bool = Field(
        False,
        description="A variable-speed drive is fitted, and its losses count. It is in any case where the flow is "
        "reduced while closed.",
    )

    @property
    def has_drive(self) -> bool:
        """Whether a variable-speed drive stands between the mains and each motor."""
        return self.drive or self.night_flow < 1


ALLOWANCES = "Usual allowances"
"""What a new system's heads of equipment are, until the suppliers' take their place."""


class EquipmentLosses(Part):
    """Head that equipment takes at design flow, from its suppliers or as an allowance of common practice."""

    strainer: Head = Field(0.6, ge=0, le=30, description="Strainer ahead of the pump, partly loaded.")
    filter_clean: Head | None = Field(
        None, ge=0, le=60, description="Clean filter with its piping. Leave blank for an estimate from the bed."
    )
    filter_dirt: Head | None = Field(
        None,
        ge=0,
        le=60,
        description="What dirt adds before the filter is washed. Leave blank to take the code basis' allowance.",
    )
    heater: Head = Field(0.0, ge=0, le=30, description="Heater or heat exchanger.")
    reactor: Head = Field(0.0, ge=0, le=30, description="Ultraviolet or ozone reactor.")
    generator: Head = Field(0.0, ge=0, le=30, description="Salt cells in the return.")
    valves: Head = Field(0.6, ge=0, le=30, description="Control valves and flow meter.")
    inlets: Head = Field(1.5, ge=0, le=30, description="Inlet fittings into the basin.")
    source: str = Field(
        ALLOWANCES, max_length=200, description="Where these heads are from: suppliers' sheets with their date, say."
    )


class HydraulicTerms(Part):
    """What holds for all pipes and pumps of the site."""

    method: FrictionMethod = Field(FrictionMethod.DARCY_WEISBACH, description="How friction in pipes is reckoned.")
    altitude: Length = Field(
        0.0, ge=-400, le=4500, description="Height above sea level; it lowers what a pump can draw."
    )
    energy_price: EnergyPrice = Field(
        0.12 / 3.6e6, ge=0, le=1e-5, description="Price of electric energy, in the project's currency."
    )

"""Recirculation systems: one loop of pump, filter and disinfection for the attractions it serves."""

from typing import Any

from pydantic import Field

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.catalogue import LONGEST_ITEM_NAME
from waterpark_designer.model.hydraulics import EquipmentLosses, PipeRun, PumpPlan
from waterpark_designer.model.kinds import (
    AttractionKind,
    FilterMedium,
    PrimaryDisinfection,
    SecondaryDisinfection,
    SecondaryFlow,
    ZoneCombination,
)
from waterpark_designer.model.node import Many, Node, Part
from waterpark_designer.model.openings import TankPlan
from waterpark_designer.units import (
    Concentration,
    Days,
    FilterRate,
    Flow,
    Head,
    Minutes,
    Ratio,
    Share,
    SmallLength,
    Volume,
)


class FilterPlan(Part):
    """How the system's water is filtered."""

    medium: FilterMedium = Field(FilterMedium.HIGH_RATE_SAND, description="What the filter is made of.")
    bed_depth: SmallLength = Field(0.60, gt=0, le=3, description="Depth of the filter bed, where it has one.")
    continuous_feed: bool = Field(False, description="Precoat medium is fed continuously (body feed).")
    pressure_vessel: bool = Field(True, description="Pressure filter; otherwise vacuum or gravity.")
    item: str = Field(
        "",
        max_length=LONGEST_ITEM_NAME,
        description="Filter from the catalogue. Leave blank to have the smallest suitable one chosen.",
    )
    count: int | None = Field(
        None, ge=1, le=200, description="Number of filters in duty. Leave blank to have it computed."
    )
    spare: bool = Field(False, description="One filter more than the duty needs.")
    backwash_rate: FilterRate | None = Field(
        None,
        gt=0,
        le=0.05,
        description="Backwash flow per bed area. Leave blank to take the least rate of the code basis.",
    )
    backwash_duration: Minutes = Field(
        300.0, gt=0, le=3600, description="Time one filter is backwashed; 3 to 5 minutes is common practice."
    )
    backwash_interval: Days = Field(
        7 * 86400.0, gt=0, le=365 * 86400.0, description="Time between backwashes of one filter, expected in season."
    )


class DisinfectionPlan(Part):
    """How chlorine is made, fed and backed up."""

    primary: PrimaryDisinfection = Field(
        PrimaryDisinfection.IN_RETURN_CELLS,
        description="Cells in the return make chlorine from the pool's own salt; a brine-fed generator makes it from "
        "bought salt that stays in the pool.",
    )
    item: str = Field(
        "",
        max_length=LONGEST_ITEM_NAME,
        description="Generator from the catalogue. Leave blank to have the smallest suitable one chosen.",
    )
    count: int | None = Field(
        None, ge=1, le=200, description="Number of generators in duty. Leave blank to have it computed."
    )
    spare: bool = Field(False, description="One generator more than the duty needs.")
    demand_factor: Ratio = Field(
        1.5, ge=1, le=5, description="Design factor on the bathers' chlorine demand; 1.5 to 2 is common practice."
    )
    daily_loss: Concentration = Field(
        0.0,
        ge=0,
        le=0.1,
        description="Chlorine that sunlight and the water itself use in a day, per volume of water; your own estimate. "
        "Outdoors without stabiliser it can exceed what bathers use.",
    )
    salt_per_chlorine: Ratio = Field(
        3.2,
        ge=1.65,
        le=5,
        description="Salt that a brine-fed generator uses per mass of chlorine; 3.0 to 3.5 is usual.",
    )
    backup_share: Share = Field(
        1.0, ge=0, le=2, description="Share of the required capacity that the backup hypochlorite feed must give."
    )
    hypochlorite_strength: Share = Field(
        0.125,
        gt=0.005,
        le=0.2,
        description="Available chlorine of the hypochlorite in trade per cent (grams in 100 millilitres).",
    )
    backup_storage: Days = Field(
        7 * 86400.0, gt=0, le=120 * 86400.0, description="Days of backup feed that the hypochlorite tank must hold."
    )


class SecondaryPlan(Part):
    """Ultraviolet or ozone treatment besides the residual."""

    kind: SecondaryDisinfection = Field(
        SecondaryDisinfection.NONE, description="What treats the water besides chlorine."
    )
    flow: SecondaryFlow = Field(
        SecondaryFlow.DILUTION, description="Least flow by the dilution formula, or the whole recirculation flow."
    )
    log_reduction: Ratio = Field(
        3.0, gt=0, le=8, description="Cryptosporidium inactivation in one pass, powers of ten, at the rated flow."
    )


class RecirculationSystem(Node):
    """Pump, filter and disinfection loop; the attractions on it share their water."""

    combination: ZoneCombination = Field(
        ZoneCombination.SUM, description="How zones with different turnover limits combine in one body of water."
    )
    design_margin: Share = Field(
        0.10, ge=0, le=2, description="Flow above the least that the limits ask for, as reserve."
    )
    fixed_flow: Flow | None = Field(
        None,
        gt=0,
        le=20,
        description="Design flow you have settled on, such as a pump that is there already. Leave blank to compute it.",
    )
    surge_volume: Volume = Field(0.0, ge=0, le=1e5, description="Water in the surge or balance tank while running.")
    piping_volume: Volume = Field(0.0, ge=0, le=1e5, description="Water in pipes and filters.")
    pump_head: Head | None = Field(
        None, gt=0, le=200, description="Total head the recirculation pump must give, from your hydraulic calculation."
    )
    standby_pump: bool = Field(True, description="A second recirculation pump of the same size stands by.")
    filters: FilterPlan = Field(default_factory=FilterPlan, description="How the water is filtered.")
    disinfection: DisinfectionPlan = Field(
        default_factory=DisinfectionPlan, description="How chlorine is made and backed up."
    )
    secondary: SecondaryPlan = Field(default_factory=SecondaryPlan, description="Ultraviolet or ozone treatment.")
    pump: PumpPlan = Field(default_factory=PumpPlan, description="The recirculation pump.")
    equipment: EquipmentLosses = Field(default_factory=EquipmentLosses, description="Head that equipment takes.")
    tanks: TankPlan = Field(default_factory=TankPlan, description="Surge tank and waste sump.")
    pipe_runs: Many[PipeRun] = Field((), max_length=500, description="Pipe runs in flow order.")
    attractions: Many[Attraction] = Field((), max_length=2000, description="Bodies of water that share this loop.")

    @property
    def kinds(self) -> tuple[AttractionKind, ...]:
        """The kinds of water on the loop, each once."""
        return tuple(dict.fromkeys(kind for body in self.attractions for kind in body.kinds))

    @property
    def children(self) -> tuple[Node, ...]:
        return self.attractions + self.pipe_runs

    def with_children(self, children: tuple[Any, ...]) -> "RecirculationSystem":
        return self.revised(
            attractions=tuple(child for child in children if isinstance(child, Attraction)),
            pipe_runs=tuple(child for child in children if isinstance(child, PipeRun)),
        )

"""Jets of a river at other speeds than the one entered: slow ones take much flow, fast ones much power."""

from dataclasses import dataclass

from waterpark_designer.engine.formulas import river
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Worked
from waterpark_designer.model.features import Feature

SLOWEST, FASTEST = 1.4, 6.0
"""Over the speed of the current: slower jets push with next to nothing."""
USUAL_SPEEDS = (2.0, 4.0, 6.0, 8.0)
"""Over the speed of the current: jets of least power, and faster ones that need smaller pumps."""
SAME_SPEED = 1e-3


@dataclass(frozen=True, slots=True)
class JetDuty:
    """What jets of one speed [m/s] take: flow [m³/s], power [W], useful share, head behind each [m], bore [m]."""

    speed: float
    flow: float
    power: float
    efficiency: float
    head: float
    bore: float


@dataclass(frozen=True, slots=True)
class JetSpeeds:
    """The thrust [N] that jets must give, in water of a density [kg/m³], to a current [m/s].

    `chosen` is the jet speed entered, where it is fast enough to push.
    """

    thrust: float
    density: float
    current: float
    jets: int
    chosen: float | None

    @property
    def slowest(self) -> float:
        return SLOWEST * self.current

    @property
    def fastest(self) -> float:
        return max(FASTEST * self.current, 1.2 * (self.chosen or 0.0))

    @property
    def of_least_power(self) -> float:
        return float(river.jet_speed_of_least_power(self.current))

    def at(self, speed: float) -> JetDuty:
        """The jets at another speed [m/s], faster than the current."""
        flow = float(river.jet_flow(self.thrust, self.density, speed, self.current))
        power = float(river.jet_power(self.density, flow, speed))
        useful = float(river.propulsive_efficiency(river.useful_power(self.thrust, self.current), power))
        bore = float(river.jet_bore(flow, self.jets, speed))
        return JetDuty(speed, flow, power, useful, float(river.jet_head(speed)), bore)

    def evenly(self, steps: int) -> list[JetDuty]:
        """The jets at speeds from the slowest to the fastest worth showing."""
        span = self.fastest - self.slowest
        return [self.at(self.slowest + span * number / steps) for number in range(steps + 1)]

    def compared(self) -> list[JetDuty]:
        """The jets at multiples of the current and at the speed entered, slowest first."""
        speeds = [times * self.current for times in USUAL_SPEEDS]
        chosen = self.chosen
        if chosen and all(abs(speed - chosen) > SAME_SPEED * chosen for speed in speeds):
            speeds.append(chosen)
        return [self.at(speed) for speed in sorted(speeds)]


def jet_speeds(feature: Feature, sheet: Sheet) -> JetSpeeds | None:
    """What to compare of a river's jets; None while the thrust is not known."""
    thrust, density, current = sheet["jet_thrust"], _density(sheet), feature.current_speed
    if not isinstance(thrust, Worked) or density is None or current is None or thrust <= 0:
        return None
    chosen = feature.jet_speed if feature.jet_speed and feature.jet_speed > SLOWEST * current else None
    return JetSpeeds(float(thrust), density, current, feature.count, chosen)


def _density(sheet: Sheet) -> float | None:
    """Density [kg/m³] of the water that people stand in, also where their drag is set by hand."""
    figure = sheet.figures.get("people_drag")
    value = figure and figure.as_computed
    if not isinstance(value, Worked) or value.step.formula is None:
        return None
    return float(dict(zip(value.step.formula.parameters, value.step.values, strict=True))["density"])

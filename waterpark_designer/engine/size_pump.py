"""Pump of one circuit: duty, operating points, suction head, and what its motor must give."""

from dataclasses import dataclass

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.curves import curve_through
from waterpark_designer.engine.formulas import openings, pumps
from waterpark_designer.engine.formulas import water as water_formulas
from waterpark_designer.engine.head_build_up import Circuit, states_of_filters
from waterpark_designer.engine.pump_curves import (
    GenericCurve,
    InParallel,
    OperatingPoint,
    PointsCurve,
    PumpCurve,
    operating_point,
    speed_for_flow,
)
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_motor import Service, size_motor
from waterpark_designer.engine.system_curve import SystemCurve
from waterpark_designer.engine.water_at import Water
from waterpark_designer.engine.worked import Missing, Value, Worked, given, leaf
from waterpark_designer.model.hydraulics import PumpPlan
from waterpark_designer.sources import AFFINITY, GENERIC_CURVE, Provenance, Source
from waterpark_designer.units import FLOW, HEAD, RATIO, SHARE

SOLVED = Source("Where the pump's curve and the system's curve cross, found by bracketing", Provenance.DEFINITION)
HEAD_BY_HAND = "What is set by hand of the head is taken to grow with the square of the flow"
HEADS = ("static_head", "pipe_loss", "equipment_loss", "head_clean", "filter_dirt", "head_dirty")
NO_CROSSING = "The pump's curve does not meet the system's. Choose a pump with more head, or check its points."
NO_HEAD = Missing(
    "No head is left for the pump to give: the water falls by as much as it loses. Check the lift and the losses, or "
    "do without the pump."
)


@dataclass(frozen=True, slots=True)
class PumpCurves:
    """What is drawn: the pumps together, the system with clean and with dirty filters, and where they meet."""

    pumps: PumpCurve
    clean: SystemCurve
    dirty: SystemCurve
    at_clean: OperatingPoint | None
    at_dirty: OperatingPoint | None
    duty_flow: float
    duty_head: float


def size_pump(
    sheet: Sheet,
    plan: PumpPlan,
    circuit: Circuit,
    flow: Value,
    duty_head: Value,
    strainer: Value,
    water: Water,
    warmest: Water,
    context: Context,
    own: str = "",
) -> PumpCurves | None:
    """Enter the pump's figures; returns its curves where all on them is known.

    `water` is the coldest, which takes the most head; `warmest` the one that boils first at the pump's eye. `own`
    stands before the keys of figures that have a sum of several pumps beside them.
    """
    each = sheet.work("pump_flow", openings.flow_of_each, flow, given(plan, "count"))
    head = sheet.record("duty_head", duty_head)
    curves = _curves(sheet, plan, circuit, flow, head, water, context)
    _operating(sheet, plan, curves)
    _suction(sheet, plan, circuit, strainer, warmest, context)
    night = _night(sheet, plan, curves, flow, head) if plan.night_flow < 1 else None
    given_by_pump = NO_HEAD if isinstance(head, Worked) and head <= 0 else head
    size_motor(Service(sheet, plan, each, given_by_pump, water, night, own), context)
    return curves


def _curves(
    sheet: Sheet, plan: PumpPlan, circuit: Circuit, flow: Value, head: Value, water: Water, context: Context
) -> PumpCurves | None:
    both = circuit.curves(sheet, flow, water, context)
    if both is None or isinstance(flow, Missing) or isinstance(head, Missing) or head <= 0:
        return None
    one = _curve_of(plan, float(flow) / plan.count, float(head))
    if one is None:
        return None
    together = InParallel(one, plan.count) if plan.count > 1 else one
    clean, dirty = both
    at_clean = operating_point(together, clean)
    at_dirty = at_clean if dirty is clean else operating_point(together, dirty)
    return PumpCurves(together, clean, dirty, at_clean, at_dirty, float(flow), float(head))


def _curve_of(plan: PumpPlan, flow: float, head: float) -> PumpCurve | None:
    """The curve of one pump: through the supplier's points, or a generic one through the duty."""
    if not plan.curve:
        return GenericCurve(plan.shutoff_ratio * head, flow, head)
    points = curve_through([(point.flow, point.head) for point in plan.curve])
    return PointsCurve(points) if points is not None and points.falls else None


def _operating(sheet: Sheet, plan: PumpPlan, curves: PumpCurves | None) -> None:
    for suffix in states_of_filters(sheet):
        point: OperatingPoint | None = getattr(curves, f"at_{suffix}") if curves is not None else None
        if point is None:
            lack = Missing(NO_CROSSING) if curves is not None else _what_lacks(sheet)
            sheet.record(f"operating_flow_{suffix}", lack)
            sheet.record(f"operating_head_{suffix}", lack)
        else:
            source = _how_solved(sheet, plan)
            sheet.record(f"operating_flow_{suffix}", leaf(point.flow, "Operating flow", source, measure=FLOW))
            sheet.record(f"operating_head_{suffix}", leaf(point.head, "Operating head", source, measure=HEAD))


def _how_solved(sheet: Sheet, plan: PumpPlan) -> Source:
    """What an operating point rests on; on a generic curve it is no more than common practice."""
    curve = SOLVED if plan.curve else GENERIC_CURVE
    told = dict.fromkeys((SOLVED.text, curve.text, *((HEAD_BY_HAND,) if by_hand(sheet) else ())))
    return Source(". ".join(told), curve.provenance)


def by_hand(sheet: Sheet) -> bool:
    """Whether any part of the head is set by hand, so that the system's curve is drawn through it."""
    return any(sheet.figures[key].override for key in HEADS if key in sheet.figures)


def _what_lacks(sheet: Sheet) -> Missing:
    for key in ("duty_head", "head_clean", "head_dirty", "pump_flow"):
        value = sheet[key]
        if isinstance(value, Missing) and key in sheet.figures:
            return value
    duty = sheet["duty_head"]
    if isinstance(duty, Worked) and duty <= 0:
        return NO_HEAD
    return Missing("Enter a pump curve of at least two points whose head falls as the flow grows.")


def _suction(sheet: Sheet, plan: PumpPlan, circuit: Circuit, strainer: Value, water: Water, context: Context) -> None:
    """Suction head that there is, and that the pump needs with a margin."""
    atmosphere = water_formulas.atmospheric_pressure(given(context.hydraulics, "altitude"))
    loss = sheet.record("suction_loss", circuit.suction_loss(strainer))
    sheet.work(
        "suction_head_available",
        pumps.suction_head_available,
        atmosphere,
        water.vapour_pressure,
        water.density,
        given(plan, "water_above_pump"),
        loss,
    )
    if plan.suction_head_required is not None:
        sheet.work("suction_head_needed", pumps.suction_head_needed, given(plan, "suction_head_required"))


def _night(sheet: Sheet, plan: PumpPlan, curves: PumpCurves | None, flow: Value, head: Value) -> Value:
    """Hydraulic power at the reduced flow over that at duty; lift and speed are solved, not guessed."""
    if curves is None or not isinstance(flow, Worked) or not isinstance(head, Worked):
        return _what_lacks(sheet)
    reduced = float(flow) * plan.night_flow
    if curves.dirty.head(reduced) <= 0:
        return NO_HEAD
    speed = speed_for_flow(curves.pumps, curves.dirty, reduced)
    if speed is None:
        return Missing(NO_CROSSING)
    sheet.record("night_speed", leaf(speed, "Speed at night", AFFINITY, measure=SHARE))
    ratio = reduced * curves.dirty.head(reduced) / (flow * head)
    return leaf(ratio, "Hydraulic power at night over duty", SOLVED, measure=RATIO)

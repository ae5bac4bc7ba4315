"""Pump and motor of one circuit: duty, operating points, suction head, power and energy."""

from dataclasses import dataclass

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.curves import curve_through
from waterpark_designer.engine.formulas import pumps
from waterpark_designer.engine.formulas import water as water_formulas
from waterpark_designer.engine.head_build_up import Circuit
from waterpark_designer.engine.next_size import next_motor
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
from waterpark_designer.engine.system_curve import SystemCurve
from waterpark_designer.engine.water_at import Water
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, Step, Value, Worked, given, greatest, leaf, total
from waterpark_designer.model.hydraulics import PumpPlan
from waterpark_designer.sources import ARITHMETIC, Provenance, Source
from waterpark_designer.units import CURRENT, ELECTRIC_POWER, FLOW, HEAD, POWER, SHARE, VOLTAGE

SOLVED = Source("Where the pump's curve and the system's curve cross, found by bracketing", Provenance.DEFINITION)
LEAST_EFFICIENCY = 0.1
NO_CROSSING = "The pump's curve does not meet the system's. Choose a pump with more head, or check its points."


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
) -> PumpCurves | None:
    """Enter the pump's figures; returns its curves where all on them is known.

    `water` is the coldest, which takes the most head; `warmest` the one that boils first at the pump's eye.
    """
    each = sheet.work("pump_flow", pumps.flow_of_each_pump, flow, given(plan, "count"))
    head = sheet.record("duty_head", duty_head)
    curves = _curves(plan, circuit, flow, head, water, context)
    _operating(sheet, curves)
    _suction(sheet, plan, circuit, strainer, warmest, context)
    _power(sheet, plan, curves, each, head, water, context)
    _energy(sheet, plan, curves, flow, head, context)
    return curves


def _curves(
    plan: PumpPlan, circuit: Circuit, flow: Value, head: Value, water: Water, context: Context
) -> PumpCurves | None:
    both = circuit.curves(flow, water, context)
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


def _operating(sheet: Sheet, curves: PumpCurves | None) -> None:
    for suffix, name in (("clean", "at_clean"), ("dirty", "at_dirty")):
        point: OperatingPoint | None = getattr(curves, name) if curves is not None else None
        if point is None:
            lack = Missing(NO_CROSSING) if curves is not None else _what_lacks(sheet)
            sheet.record(f"operating_flow_{suffix}", lack)
            sheet.record(f"operating_head_{suffix}", lack)
        else:
            sheet.record(f"operating_flow_{suffix}", leaf(point.flow, "Operating flow", SOLVED, measure=FLOW))
            sheet.record(f"operating_head_{suffix}", leaf(point.head, "Operating head", SOLVED, measure=HEAD))


def _what_lacks(sheet: Sheet) -> Missing:
    for key in ("duty_head", "head_clean", "head_dirty", "pump_flow"):
        value = sheet[key]
        if isinstance(value, Missing) and key in sheet.figures:
            return value
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


def _power(
    sheet: Sheet, plan: PumpPlan, curves: PumpCurves | None, each: Value, head: Value, water: Water, context: Context
) -> None:
    """Power of one pump at duty, its motor, and what all pumps in duty draw where they draw most."""
    hydraulic = sheet.work("hydraulic_power", pumps.hydraulic_power, water.density, each, head)
    efficiency = given(plan, "efficiency") if plan.efficiency is not None else _usual_efficiency(each)
    efficiency = sheet.record("pump_efficiency", efficiency)
    shaft = sheet.work("shaft_power", pumps.shaft_power, hydraulic, efficiency)
    hardest = _hardest(sheet, plan, curves, shaft, water)
    needed = pumps.motor_rating_needed(hardest, given(plan, "service_factor"))
    rating, motor_efficiency, current = _motor(needed, plan, context)
    sheet.record("motor_rating", rating)
    motor_efficiency = sheet.record("motor_efficiency", motor_efficiency)
    sheet.record("motor_current", current)
    drawn = pumps.electric_power(hardest, motor_efficiency)
    parts = [(f"Pump {number}", drawn) for number in range(1, plan.count + 1)]
    sheet.record("electric_power", total("Power drawn by pumps in duty", parts, ELECTRIC_POWER, ARITHMETIC))


def _hardest(sheet: Sheet, plan: PumpPlan, curves: PumpCurves | None, shaft: Value, water: Water) -> Value:
    """Most that the motor must give: at duty, or where the pump runs with clean or with dirty filters."""
    parts = [("At duty", shaft)]
    for suffix, name in (("clean", "at_clean"), ("dirty", "at_dirty")):
        if curves is not None and getattr(curves, name) is not None:
            each = pumps.flow_of_each_pump(sheet[f"operating_flow_{suffix}"], given(plan, "count"))
            power = pumps.hydraulic_power(water.density, each, sheet[f"operating_head_{suffix}"])
            parts.append((f"With {suffix} filters", pumps.shaft_power(power, sheet["pump_efficiency"])))
    return greatest("Most power at the shaft", parts, POWER, ARITHMETIC)


def _usual_efficiency(flow: Value) -> Value:
    """Efficiency by flow; the equation falls below nothing for a flow of a few litres a minute."""
    estimate = pumps.pump_efficiency_estimate(flow)
    if isinstance(estimate, Worked) and estimate < LEAST_EFFICIENCY:
        return Missing("Enter the pump's efficiency; there is no estimate for so small a flow.")
    return estimate


def _motor(needed: Value, plan: PumpPlan, context: Context) -> tuple[Value, Value, Value]:
    """Rating, efficiency and full-load current of the smallest standard motor that suffices."""
    if isinstance(needed, Missing):
        return needed, needed, needed
    motor = next_motor(needed, context.stock.motors, plan.voltage.frequency)
    if motor is None:
        lack = Missing("One motor of the standard ratings does not suffice. Run more pumps side by side.")
        return lack, lack, lack
    step = Step("Next standard motor", motor.source, parts=(("Power needed", needed),), measure=POWER)
    rating = Worked(motor.power, step)
    efficiency = leaf(motor.efficiency_4_pole, "Efficiency of a 4-pole enclosed motor", motor.source, measure=SHARE)
    volts, title = float(plan.voltage.value), f"Full-load current at {plan.voltage.label}"
    amperes = motor.current(volts)
    if amperes is None:
        supply = leaf(volts, "Supply voltage", YOUR_ENTRY, measure=VOLTAGE)
        return rating, efficiency, pumps.motor_current_estimate(rating, supply, efficiency)
    return rating, efficiency, leaf(amperes, title, motor.source, measure=CURRENT)


def _energy(
    sheet: Sheet, plan: PumpPlan, curves: PumpCurves | None, flow: Value, head: Value, context: Context
) -> None:
    """Energy at full flow, less what reduced flow at night saves."""
    power = sheet["electric_power"]
    full = pumps.energy_a_day(power, given(plan, "running_hours"))
    saved = _saving(sheet, plan, curves, flow, head, context) if plan.night_flow < 1 else None
    if saved is not None:
        sheet.record("energy_saved_a_day", saved)
        daily = sheet.work("energy_a_day", pumps.energy_less, full, saved)
    else:
        daily = sheet.record("energy_a_day", full)
    season = sheet.work("energy_of_season", pumps.energy_of_season, daily, given(context.operation, "season"))
    sheet.work("energy_cost", pumps.energy_cost, season, given(context.hydraulics, "energy_price"))


def _saving(
    sheet: Sheet, plan: PumpPlan, curves: PumpCurves | None, flow: Value, head: Value, context: Context
) -> Value:
    """Energy that reduced flow saves while the site is closed; lift and speed are solved, not guessed.

    Reckoned from the power at duty, which is no more than what is drawn.
    """
    if curves is None or not isinstance(flow, Worked) or not isinstance(head, Worked):
        return _what_lacks(sheet)
    reduced = float(flow) * plan.night_flow
    speed = speed_for_flow(curves.pumps, curves.dirty, reduced)
    if speed is None:
        return Missing(NO_CROSSING)
    sheet.record("night_speed", leaf(speed, "Speed at night", SOLVED, measure=SHARE))
    ratio = leaf(reduced * curves.dirty.head(reduced) / (flow * head), "Hydraulic power at night over duty", SOLVED)
    each = pumps.electric_power(sheet["shaft_power"], sheet["motor_efficiency"])
    duty = total("Power at duty", [(f"Pump {n}", each) for n in range(1, plan.count + 1)], ELECTRIC_POWER, ARITHMETIC)
    time = pumps.running_time_while_closed(given(plan, "running_hours"), given(context.operation, "closed_hours"))
    return pumps.energy_saved_a_day(duty, pumps.power_share(duty, ratio), time)

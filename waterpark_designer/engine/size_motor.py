"""Motor and drive of one circuit's pumps, the power they draw and their energy."""

from dataclasses import dataclass

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import openings, pumps
from waterpark_designer.engine.head_build_up import states_of_filters
from waterpark_designer.engine.next_size import next_motor
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.water_at import Water
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, Step, Value, Worked, given, greatest, leaf, total
from waterpark_designer.model.hydraulics import PumpPlan
from waterpark_designer.sources import ARITHMETIC, Provenance, Source
from waterpark_designer.units import CURRENT, ELECTRIC_POWER, POWER, SHARE, VOLTAGE

LEAST_EFFICIENCY = 0.1
NO_DRIVE = leaf(1.0, "No drive", ARITHMETIC, measure=SHARE)
DRIVE_VALIDITY = (
    "Straight between the table's ratings of 3 to 400 hp and loads of 1.6 to 100 %; beyond them the nearest. Losses of "
    "filters and long cables are not in it."
)


@dataclass(frozen=True, slots=True)
class Service:
    """What the motor serves: the sheet it is entered on, the pump, its flow and head at duty, and the water.

    `night` is the hydraulic power at reduced flow over that at duty, where the flow is reduced; `own` stands before
    the keys of figures that have a sum of several pumps beside them.
    """

    sheet: Sheet
    plan: PumpPlan
    each: Value
    head: Value
    water: Water
    night: Value | None
    own: str = ""

    def record(self, key: str, value: Value) -> Value:
        """Enter a figure of this pump that has a sum beside it."""
        return self.sheet.record(f"{self.own}{key}", value)

    def together(self, drawn: Value) -> Value:
        """What all pumps in duty draw when each draws this."""
        parts = [(f"Pump {number}", drawn) for number in range(1, self.plan.count + 1)]
        return total("Power drawn by pumps in duty", parts, ELECTRIC_POWER, ARITHMETIC)


def size_motor(service: Service, context: Context) -> None:
    """Enter motor, drive, power and energy."""
    sheet, plan = service.sheet, service.plan
    hydraulic = sheet.work("hydraulic_power", pumps.hydraulic_power, service.water.density, service.each, service.head)
    efficiency = given(plan, "efficiency") if plan.efficiency is not None else _usual_efficiency(service.each)
    shaft = sheet.work("shaft_power", pumps.shaft_power, hydraulic, sheet.record("pump_efficiency", efficiency))
    hardest = _hardest(service, shaft)
    _motor(sheet, pumps.motor_rating_needed(hardest, given(plan, "service_factor")), plan, context)
    drive = sheet.record("drive_efficiency", _drive(sheet, hardest, context)) if plan.has_drive else NO_DRIVE
    power = pumps.electric_power(hardest, sheet["motor_efficiency"], drive)
    power = service.record("electric_power", service.together(power))
    _energy(service, hardest, power, context)


def _hardest(service: Service, shaft: Value) -> Value:
    """Most that the motor must give: at duty, or where the pump runs with clean or with dirty filters."""
    sheet, parts = service.sheet, [("At duty", shaft)]
    states = states_of_filters(sheet)
    for suffix in states:
        if isinstance(sheet[f"operating_flow_{suffix}"], Worked):
            each = openings.flow_of_each(sheet[f"operating_flow_{suffix}"], given(service.plan, "count"))
            power = pumps.hydraulic_power(service.water.density, each, sheet[f"operating_head_{suffix}"])
            where = f"With {suffix} filters" if len(states) > 1 else "Where the pump runs"
            parts.append((where, pumps.shaft_power(power, sheet["pump_efficiency"])))
    return greatest("Most power at the shaft", parts, POWER, ARITHMETIC)


def _usual_efficiency(flow: Value) -> Value:
    """Efficiency by flow; the equation falls below nothing for a flow of a few litres a minute."""
    estimate = pumps.pump_efficiency_estimate(flow)
    if isinstance(estimate, Worked) and estimate < LEAST_EFFICIENCY:
        return Missing("Enter the pump's efficiency; there is no estimate for so small a flow.")
    return estimate


def _motor(sheet: Sheet, needed: Value, plan: PumpPlan, context: Context) -> None:
    """Enter rating, efficiency and full-load current of the smallest standard motor that suffices."""
    for key, value in zip(("rating", "efficiency", "current"), _next_motor(needed, plan, context), strict=True):
        sheet.record(f"motor_{key}", value)


def _next_motor(needed: Value, plan: PumpPlan, context: Context) -> tuple[Value, Value, Value]:
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


def _drive(sheet: Sheet, shaft: Value, context: Context) -> Value:
    """Efficiency of a drive of the motor's rating while the motor gives this power at its shaft."""
    table, rating = context.stock.drives, sheet["motor_rating"]
    load = pumps.drive_load(shaft, rating)
    if isinstance(load, Missing) or isinstance(rating, Missing) or table is None:
        return load if isinstance(load, Missing) else Missing("There is no table of drives.")
    return Worked(
        table.efficiency(rating, load),
        Step(
            "Efficiency of a drive of the motor's rating at this load",
            Source(table.source, Provenance.SECONDARY),
            parts=(("Load of the drive", load),),
            measure=SHARE,
            note=DRIVE_VALIDITY,
        ),
    )


def _energy(service: Service, hardest: Value, power: Value, context: Context) -> None:
    """Energy at full flow, less what reduced flow at night saves once the drive has taken its own."""
    sheet, hours = service.sheet, given(service.plan, "running_hours")
    if service.night is None:
        daily = service.record("energy_a_day", pumps.energy_a_day(power, hours))
    else:
        direct = service.together(pumps.electric_power(hardest, sheet["motor_efficiency"]))
        lost = pumps.energy_saved_a_day(power, direct, hours)
        saved = sheet.work("energy_saved_a_day", pumps.energy_less, _saved_by_flow(service, context), lost)
        daily = service.record("energy_a_day", pumps.energy_less(pumps.energy_a_day(direct, hours), saved))
    season = pumps.energy_of_season(daily, given(context.operation, "season"))
    season = service.record("energy_of_season", season)
    service.record("energy_cost", pumps.energy_cost(season, given(context.hydraulics, "energy_price")))


def _saved_by_flow(service: Service, context: Context) -> Value:
    """Energy a day that the drive draws less while the flow is reduced.

    Reckoned from the power at duty, which is no more than what is drawn; the motor's efficiency is taken as unchanged.
    """
    sheet, shaft = service.sheet, service.sheet["shaft_power"]
    reduced = pumps.shaft_power_share(shaft, service.night)
    drive = sheet.record("night_drive_efficiency", _drive(sheet, reduced, context))
    motor = sheet["motor_efficiency"]
    duty = service.together(pumps.electric_power(shaft, motor, _drive(sheet, shaft, context)))
    night = sheet.record("night_power", service.together(pumps.electric_power(reduced, motor, drive)))
    closed = given(context.operation, "closed_hours")
    time = pumps.running_time_while_closed(given(service.plan, "running_hours"), closed)
    return pumps.energy_saved_a_day(duty, night, time)

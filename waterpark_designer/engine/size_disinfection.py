"""Disinfection of one system: feed capacity, generators, hypochlorite and secondary treatment."""

from dataclasses import dataclass

from waterpark_designer.engine.choose import Choice, choose, with_spare
from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import disinfection
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing, Value, Worked, given, greatest, leaf, least, total
from waterpark_designer.model.catalogue import ItemKind
from waterpark_designer.model.kinds import PrimaryDisinfection, SecondaryDisinfection, SecondaryFlow
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.rules.rule_set import Fact
from waterpark_designer.sources import ARITHMETIC
from waterpark_designer.units import DAILY_VOLUME, FLOW, HOURS, MASS_RATE, SHARE, SMALL_VOLUME, VOLUME

GENERATOR_KINDS = {
    PrimaryDisinfection.IN_RETURN_CELLS: ItemKind.IN_RETURN_CELLS,
    PrimaryDisinfection.BRINE_FED: ItemKind.BRINE_FED_GENERATOR,
}
REACTOR_KINDS = {
    SecondaryDisinfection.ULTRAVIOLET: ItemKind.ULTRAVIOLET_REACTOR,
    SecondaryDisinfection.OZONE: ItemKind.OZONE_CONTACTOR,
}


@dataclass(frozen=True, slots=True)
class DisinfectionChoices:
    """What was chosen from the catalogue.

    `generator` is None where chlorine is not made on site, `feed_pump` and `tank` where there is no hypochlorite, and
    `reactor` where there is no secondary treatment.
    """

    generator: Choice | None
    feed_pump: Choice | None
    tank: Choice | None
    reactor: Choice | None


def size_disinfection(
    sheet: Sheet, bodies: list[Sheet], system: RecirculationSystem, facts: dict[str, Fact], context: Context
) -> DisinfectionChoices:
    """Fill in the disinfection figures and return what was chosen."""
    plan = system.disinfection
    needed = _feed_capacity(sheet, bodies, system, facts, context)
    generator = _generators(sheet, system, needed, context) if plan.primary in GENERATOR_KINDS else None
    pump, tank = _hypochlorite(sheet, system, needed, context) or (None, None)
    reactor = size_secondary(sheet, system, context)
    return DisinfectionChoices(generator, pump, tank, reactor)


def _feed_capacity(
    sheet: Sheet, bodies: list[Sheet], system: RecirculationSystem, facts: dict[str, Fact], context: Context
) -> Value:
    by_volume = _feed_by_volume(sheet, bodies, context)
    if isinstance(by_volume, Worked) or not by_volume.stated_nowhere:
        sheet.record("feed_by_volume", by_volume)
    concentration = context.strictest(sheet, "feed_per_flow", system.kinds, facts)
    if isinstance(concentration, Worked):
        sheet.work("feed_by_flow", disinfection.feed_by_flow, sheet["design_flow"], concentration)
    _demand(sheet, system)
    parts = [
        (sheet.figures[key].kind.label, sheet[key])
        for key in ("feed_by_volume", "feed_by_flow", "feed_by_demand")
        if key in sheet.figures
    ]
    return sheet.record("feed_capacity", greatest("Chlorine feed capacity needed", parts, MASS_RATE, ARITHMETIC))


def _demand(sheet: Sheet, system: RecirculationSystem) -> None:
    """Chlorine that is used, and the feed that covers it."""
    plan = system.disinfection
    bathers = sheet.work("chlorine_demand", disinfection.chlorine_demand, sheet["bathers_a_day"])
    parts = [("Bathers", bathers)]
    if plan.daily_loss:
        loss = given(plan, "daily_loss")
        parts.append(
            (
                "Sunlight and the water",
                sheet.work("background_demand", disinfection.background_demand, sheet["volume"], loss),
            )
        )
    use = sheet.record("chlorine_use", total("Chlorine used", parts, MASS_RATE, ARITHMETIC))
    sheet.work("feed_by_demand", disinfection.feed_by_demand, given(plan, "demand_factor"), use)


def _feed_by_volume(sheet: Sheet, bodies: list[Sheet], context: Context) -> Value:
    parts: list[tuple[str, Value]] = []
    silence = Missing("Add a body of water to this system.")
    for body in bodies:
        setting: dict[str, Fact] = {"setting": body.node.setting.value}  # type: ignore[attr-defined]
        limit = context.strictest(sheet, "feed_per_volume", body.node.kinds, setting, body.node.name)  # type: ignore[attr-defined]
        if isinstance(limit, Missing) and limit.stated_nowhere:
            silence = limit
        else:
            parts.append((body.node.name, disinfection.feed_by_volume(body["volume"], limit)))
    if not parts:
        return silence
    return total("Feed by volume", parts, MASS_RATE, ARITHMETIC)


def _generators(sheet: Sheet, system: RecirculationSystem, needed: Value, context: Context) -> Choice:
    plan = system.disinfection
    choice = choose(
        context,
        GENERATOR_KINDS[plan.primary],
        plan.item,
        plan.count,
        1,
        needed,
        MASS_RATE,
        disinfection.generators_needed,
    )
    size = sheet.record("generator_size", choice.size)
    count = sheet.record("generator_count", choice.count)
    installed = with_spare(count, plan.spare)
    output = sheet.work("generator_capacity", disinfection.generator_capacity, installed, size)
    sheet.work("capacity_one_out", disinfection.capacity_one_out, installed, size, needed)
    hydrogen = sheet.work("hydrogen", disinfection.hydrogen_flow, output)
    sheet.work("dilution_air", disinfection.hydrogen_dilution_air, hydrogen)
    return choice


def _hypochlorite(
    sheet: Sheet, system: RecirculationSystem, needed: Value, context: Context
) -> tuple[Choice, Choice] | None:
    """Feed pump and tank; none where the plan has no backup."""
    plan = system.disinfection
    if plan.primary is not PrimaryDisinfection.HYPOCHLORITE and plan.backup_share == 0:
        return None
    share: Value = given(plan, "backup_share")
    if plan.primary is PrimaryDisinfection.HYPOCHLORITE:
        share = leaf(1.0, "All of the feed: hypochlorite is the only chlorine", ARITHMETIC, measure=SHARE)
    feed = sheet.work(
        "backup_feed", disinfection.hypochlorite_flow, share, needed, given(plan, "hypochlorite_strength")
    )
    pump = choose(context, ItemKind.FEED_PUMP, "", None, 1, feed, DAILY_VOLUME, disinfection.feed_pumps_needed)
    sheet.record("feed_pump_size", pump.size)
    sheet.record("feed_pump_count", pump.count)
    storage = sheet.work("hypochlorite_storage", disinfection.hypochlorite_storage, feed, given(plan, "backup_storage"))
    tank = choose(context, ItemKind.SOLUTION_TANK, "", None, 1, storage, SMALL_VOLUME, disinfection.tanks_needed)
    sheet.record("hypochlorite_tank", tank.size)
    return pump, tank


def size_secondary(sheet: Sheet, system: RecirculationSystem, context: Context) -> Choice | None:
    """Flow of ultraviolet or ozone treatment, by the dilution formula or the whole recirculation, and its reactor."""
    plan = system.secondary
    if plan.kind is SecondaryDisinfection.NONE:
        return None
    full = plan.flow is SecondaryFlow.FULL_FLOW
    parts = [("Design flow", sheet["design_flow"]) if full else ("By dilution", _dilution_flow(sheet, system, context))]
    flow = sheet.record("secondary_flow", total(plan.flow.label, parts, FLOW, ARITHMETIC))
    return choose(context, REACTOR_KINDS[plan.kind], "", None, 1, flow, FLOW, disinfection.reactors_needed)


def _dilution_flow(sheet: Sheet, system: RecirculationSystem, context: Context) -> Value:
    longest = context.strictest(sheet, "secondary_longest_time", system.kinds, {})
    share = context.strictest(sheet, "secondary_closed_share", system.kinds, {})
    by_closing = disinfection.secondary_time_by_closing(share, given(context.operation, "closed_hours"))
    parts = [("At most", longest), ("By closed time", by_closing)]
    time = sheet.record("secondary_time", least("Time for secondary treatment", parts, HOURS, ARITHMETIC))
    if isinstance(time, Worked) and time <= 0:
        time = Missing("Enter the hours closed without interruption; the dilution formula counts on them.")
    parts = [
        ("Bodies of water", sheet["volume"]),
        ("Surge tank", given(system, "surge_volume")),
        ("Piping", given(system, "piping_volume")),
    ]
    volume = total("Water of the whole system", parts, VOLUME, ARITHMETIC)
    return sheet.work("secondary_flow_by_dilution", disinfection.secondary_dilution_flow, volume, time)

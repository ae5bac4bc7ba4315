"""Filtration of one system: area, number, rates and backwash."""

from waterpark_designer.engine.choose import Choice, choose, with_spare
from waterpark_designer.engine.context import Context
from waterpark_designer.engine.expand_bed import expand_bed
from waterpark_designer.engine.formulas import filtration
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing, Value, Worked, given
from waterpark_designer.model.catalogue import ItemKind
from waterpark_designer.model.kinds import FilterMedium
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.rules.rule_set import Fact
from waterpark_designer.units import AREA, FOOT

ITEM_KINDS = {
    FilterMedium.HIGH_RATE_SAND: ItemKind.HIGH_RATE_SAND_FILTER,
    FilterMedium.RAPID_SAND: ItemKind.RAPID_SAND_FILTER,
    FilterMedium.TWO_LAYER: ItemKind.TWO_LAYER_FILTER,
    FilterMedium.PRECOAT: ItemKind.PRECOAT_FILTER,
    FilterMedium.CARTRIDGE: ItemKind.CARTRIDGE_FILTER,
}
BACKWASHED = (FilterMedium.HIGH_RATE_SAND, FilterMedium.RAPID_SAND, FilterMedium.TWO_LAYER)
LARGEST_SINGLE_BED = 12.6 * FOOT**2
"""Small systems run on one bed up to a 48-inch tank; common practice."""


def size_filters(sheet: Sheet, system: RecirculationSystem, facts: dict[str, Fact], context: Context) -> Choice:
    """Fill in the filtration figures and return the chosen filter."""
    plan, flow = system.filters, sheet["design_flow"]
    rate = sheet.record("filter_rate_limit", _rate_limit(sheet, system, facts, context))
    needed = sheet.work("filter_area_needed", filtration.filter_area_needed, flow, rate)
    in_beds = plan.medium in BACKWASHED and isinstance(needed, Worked) and needed > LARGEST_SINGLE_BED
    fewest = 2 if in_beds else 1
    choice = choose(
        context, ITEM_KINDS[plan.medium], plan.item, plan.count, fewest, needed, AREA, filtration.filters_needed
    )
    size = sheet.record("filter_size", choice.size)
    count = sheet.record("filter_count", choice.count)
    area = sheet.work("filter_area", filtration.filter_area, count, size)
    sheet.work("filter_rate", filtration.filter_rate, flow, area)
    sheet.record("filter_rate_one_out", _rate_one_out(flow, with_spare(count, plan.spare), size))
    if plan.medium in BACKWASHED:
        _backwash(sheet, system, facts, context)
    if plan.medium is FilterMedium.PRECOAT:
        sheet.work("precoat_charge", filtration.precoat_charge, area)
    return choice


def _rate_limit(sheet: Sheet, system: RecirculationSystem, facts: dict[str, Fact], context: Context) -> Value:
    """The lowest rate that the code basis allows for any kind of water on the system."""
    where = f"{system.filters.medium.label.lower()} filters"
    return context.strictest(sheet, "filter_rate", system.kinds, facts, where)


def _rate_one_out(flow: Value, count: Value, size: Value) -> Value:
    if isinstance(count, Worked) and count < 2:
        return Missing("There is one filter only; nothing is filtered while it is washed.")
    return filtration.filter_rate_one_out(flow, count, size)


def _backwash(sheet: Sheet, system: RecirculationSystem, facts: dict[str, Fact], context: Context) -> None:
    plan = system.filters
    rate = given(plan, "backwash_rate")
    if isinstance(rate, Missing):
        rate = context.strictest(
            sheet, "backwash_rate_least", system.kinds, facts, f"{plan.medium.label.lower()} filters"
        )
    rate = sheet.record("backwash_rate", rate)
    expand_bed(sheet, system)
    flow = sheet.work("backwash_flow", filtration.backwash_flow, rate, sheet["filter_size"])
    volume = sheet.work("backwash_volume", filtration.backwash_volume, flow, given(plan, "backwash_duration"))
    daily = sheet.work(
        "backwash_water_a_day",
        filtration.backwash_water_a_day,
        sheet["filter_count"],
        volume,
        given(plan, "backwash_interval"),
    )
    sheet.work("backwash_water_a_season", filtration.water_of_a_season, daily, given(context.operation, "season"))

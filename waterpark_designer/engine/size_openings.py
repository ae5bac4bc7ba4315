"""Overflow, return inlets, skimmers and suction outlets of one body of water."""

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import flow_features, openings, pipes
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing, Value, Worked, given, greatest, leaf
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.kinds import Overflow
from waterpark_designer.rules.rule_set import Fact
from waterpark_designer.sources import ARITHMETIC, CRANE
from waterpark_designer.units import COUNT

NO_SKIMMER_RULE = Missing("Enter the skimmer rating or the number of skimmers; the code basis counts none by surface.")


def size_openings(sheet: Sheet, context: Context) -> None:
    """Enter the openings of a body of water; a spray deck has none but its drains."""
    attraction = sheet.node
    assert isinstance(attraction, Attraction)
    if "greatest_depth" not in sheet.figures:
        return
    _inlets(sheet, attraction, context)
    overflow = attraction.openings.overflow
    if overflow in (Overflow.GUTTER, Overflow.SKIMMERS):
        sheet.work("surface_flow", pipes.part_of_flow, sheet["design_flow"], surface_share(sheet, context))
    if overflow is Overflow.GUTTER:
        _gutter(sheet, attraction)
    elif overflow is not Overflow.NEITHER:
        _skimmers(sheet, attraction, context)
    _outlets(sheet, attraction, context)


def overflow_facts(attraction: Attraction) -> dict[str, Fact]:
    """What rule sets may ask about how a body overflows."""
    return {"overflow": attraction.openings.overflow.value}


def surface_share(sheet: Sheet, context: Context) -> Value:
    """Part of the flow drawn from the surface: what is entered, else what the code asks."""
    attraction = sheet.node
    assert isinstance(attraction, Attraction)
    if attraction.openings.surface_share is not None:
        return given(attraction.openings, "surface_share")
    return context.strictest(sheet, "surface_share", attraction.kinds, overflow_facts(attraction), "this body")


def _inlets(sheet: Sheet, attraction: Attraction, context: Context) -> None:
    rules: list[tuple[str, Value]] = []
    per_area = context.strictest(sheet, "area_per_inlet", attraction.kinds, {})
    if isinstance(per_area, Worked):
        rules.append(("By surface", openings.inlets_by_area(sheet["surface_area"], per_area)))
    per_edge = context.strictest(sheet, "perimeter_per_inlet", attraction.kinds, {})
    if isinstance(per_edge, Worked):
        rules.append(("By edge", openings.inlets_by_perimeter(sheet["perimeter"], per_edge)))
    fewest = context.strictest(sheet, "inlet_count", attraction.kinds, {})
    if isinstance(fewest, Worked):
        rules.append(("At least", fewest))
    plan, count = attraction.openings, None
    if rules:
        count = sheet.record("inlets", greatest("Return inlets", rules, COUNT, ARITHMETIC))
    if plan.inlets is not None:
        count = given(plan, "inlets")
    if count is None:
        return
    each = sheet.work("inlet_flow", openings.flow_of_each, sheet["design_flow"], count)
    if plan.inlet_bore is not None:
        velocity = sheet.work("inlet_velocity", openings.inlet_velocity, each, given(plan, "inlet_bore"))
        exit_loss = leaf(pipes.FIXED_LOSS_COEFFICIENTS["exit"], "Exit", CRANE)
        sheet.work("inlet_head", pipes.minor_loss, exit_loss, velocity)


def _gutter(sheet: Sheet, attraction: Attraction) -> None:
    plan = attraction.openings
    lip = sheet["perimeter"] if plan.gutter_length is None else given(plan, "gutter_length")
    over = sheet.work("lip_flow", flow_features.flow_per_length, sheet["surface_flow"], lip)
    head = sheet.work("lip_head", flow_features.weir_head, over)
    sheet.work("water_above_rim", openings.water_above_rim, sheet["surface_area"], head)
    sheet.work("gutter_water", openings.water_in_gutters, lip, given(plan, "gutter_section"))


def _skimmers(sheet: Sheet, attraction: Attraction, context: Context) -> None:
    """The least number by surface and by flow; where it is not stated how the body overflows, by surface alone."""
    plan, rules = attraction.openings, list[tuple[str, Value]]()
    per_area = context.strictest(sheet, "area_per_skimmer", attraction.kinds, {})
    if isinstance(per_area, Worked) or not per_area.stated_nowhere:
        rules.append(("By surface", openings.skimmers_by_area(sheet["surface_area"], per_area)))
    if plan.overflow is not Overflow.SKIMMERS:
        if rules:
            sheet.record("skimmers", rules[0][1])
        return
    if plan.skimmer_rating is not None:
        by_flow = openings.skimmers_by_flow(sheet["surface_flow"], given(plan, "skimmer_rating"))
        rules.append(("By flow", by_flow))
    count = NO_SKIMMER_RULE if plan.skimmers is None else given(plan, "skimmers")
    if rules:
        least = sheet.record("skimmers", greatest("Skimmers", rules, COUNT, ARITHMETIC))
        count = least if plan.skimmers is None else count
    sheet.work("skimmer_flow", openings.flow_of_each, sheet["surface_flow"], count)


def _outlets(sheet: Sheet, attraction: Attraction, context: Context) -> None:
    """Covers for the flow with one of several blocked. A single one takes it all, which no rating makes safe."""
    outlets, plan = given(attraction, "suction_outlets"), attraction.openings
    if isinstance(outlets, Missing) or outlets < 1:
        return
    each = sheet["design_flow"]
    if outlets > 1:
        each = sheet.work("outlet_flow", openings.outlet_flow_one_blocked, each, outlets)
    limit = context.strictest(sheet, "cover_velocity", attraction.kinds, {})
    if isinstance(limit, Worked):
        sheet.work("cover_area_needed", openings.open_area_needed, each, limit)
    if plan.cover_area is not None:
        sheet.work("cover_velocity", openings.approach_velocity, each, given(plan, "cover_area"))

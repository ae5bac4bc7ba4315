"""Return inlets, skimmers and suction outlets of one body of water."""

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import openings
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing, Value, Worked, given, greatest
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.sources import ARITHMETIC
from waterpark_designer.units import COUNT


def size_openings(sheet: Sheet, context: Context) -> None:
    """Enter the openings of a body of water; a spray deck has none but its drains."""
    attraction = sheet.node
    assert isinstance(attraction, Attraction)
    if "greatest_depth" not in sheet.figures:
        return
    _inlets(sheet, attraction, context)
    _skimmers(sheet, attraction, context)
    outlets = given(attraction, "suction_outlets")
    if isinstance(outlets, Worked) and outlets > 1:
        sheet.work("outlet_flow", openings.outlet_flow_one_blocked, sheet["design_flow"], outlets)


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
    if rules:
        count = sheet.record("inlets", greatest("Return inlets", rules, COUNT, ARITHMETIC))
        sheet.work("inlet_flow", openings.flow_of_each, sheet["design_flow"], count)


def _skimmers(sheet: Sheet, attraction: Attraction, context: Context) -> None:
    per_area = context.strictest(sheet, "area_per_skimmer", attraction.kinds, {})
    if not isinstance(per_area, Missing):
        sheet.work("skimmers", openings.skimmers_by_area, sheet["surface_area"], per_area)

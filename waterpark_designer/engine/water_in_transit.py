"""Water that the features of a body keep out of its basin or tank while they run, and the drawdown that follows."""

from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.formulas import drawdown, openings
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Value, given, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.devices import BroadCrest, TippingBucket, Weir
from waterpark_designer.model.features import Feature
from waterpark_designer.sources import ARITHMETIC
from waterpark_designer.units import SMALL_VOLUME

KEY = "feature_water_in_transit"


def keep_in_transit(sheet: Sheet, feature: Feature) -> None:
    """Enter the water that a feature keeps in transit; nothing where nothing is entered of it."""
    parts = _parts(sheet, feature)
    if parts:
        sheet.record(KEY, parts[0][1] if len(parts) == 1 else _together(parts))


def draw_down(sheet: Sheet, features: list[Sheet]) -> None:
    """Enter the water in transit of a body whose geometry and tank are known, and how far it draws them down."""
    body = sheet.node
    assert isinstance(body, Attraction)
    parts = [(one.node.name, one[KEY]) for one in features if KEY in one.figures]
    if not parts:
        return
    in_transit = sheet.record(KEY, _together(parts))
    if body.has_spray_deck:
        sheet.work("tank_share_in_transit", drawdown.share_of_tank, in_transit, sheet["tank_volume"])
    else:
        sheet.work("level_drop", openings.level_change, in_transit, sheet["surface_area"])


def _parts(sheet: Sheet, feature: Feature) -> list[tuple[str, Value]]:
    device, count = feature.device, given(feature, "count")
    parts: list[tuple[str, Value]] = []
    if feature.transit_time is not None:
        on_its_way = drawdown.water_on_its_way(sheet["feature_flow"], given(feature, "transit_time"))
        parts.append(("On its way back", on_its_way))
    if isinstance(device, TippingBucket):
        parts.append(("In buckets", drawdown.water_of_buckets(count, given(device, "bucket_volume"))))
    if isinstance(device, Weir | BroadCrest) and device.basin_area is not None:
        behind = drawdown.water_behind_crests(count, given(device, "basin_area"), sheet["device_head"])
        parts.append(("Behind the crest", behind))
    return parts


def _together(parts: list[tuple[str, Value]]) -> Value:
    return total(FIGURE_KINDS[KEY].label, parts, SMALL_VOLUME, ARITHMETIC)

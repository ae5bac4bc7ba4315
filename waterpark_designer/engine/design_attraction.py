"""Figures of one body of water, from its zones and features; the first stage needs nothing of its system's size."""

from dataclasses import dataclass

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.design_zone import (
    apply_limits_to_zone,
    draw_up_zone,
    longest_turnover,
    occupy_zone,
    zone_facts,
)
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.formulas import geometry, turnover
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, Value, Worked, given, greatest, leaf, least, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.kinds import FeatureKind, FeaturePump, FeatureWater, ZoneCombination
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.zones import SprayDeck, Zone
from waterpark_designer.rules.rule_set import Fact
from waterpark_designer.sources import ARITHMETIC, GEOMETRY, TURNOVER_SHORTEST, TURNOVER_SUM, TURNOVER_WEIGHTED
from waterpark_designer.units import AREA, BATHERS, FLOW, HOURS, LENGTH, SHARE, VOLUME, VOLUME_TIME, Measure


@dataclass(frozen=True, slots=True)
class AttractionStage:
    """Sheets of an attraction, its zones and features before its system is sized."""

    attraction: Attraction
    sheet: Sheet
    below: tuple[Sheet, ...]


@dataclass(frozen=True, slots=True)
class SystemTerms:
    """What an attraction's first stage takes from its system."""

    combination: ZoneCombination
    margin: float
    facts: tuple[tuple[str, Fact], ...]


def terms_of(system: RecirculationSystem) -> SystemTerms:
    """The terms under which a system's attractions are designed."""
    plan = system.filters
    facts = (
        ("secondary", system.secondary.kind.value),
        ("medium", plan.medium.value),
        ("bed_depth", plan.bed_depth),
        ("continuous_feed", plan.continuous_feed),
        ("pressure_vessel", plan.pressure_vessel),
    )
    return SystemTerms(system.combination, system.design_margin, facts)


def stage_attraction(attraction: Attraction, terms: SystemTerms, context: Context) -> AttractionStage:
    """Geometry, occupancy, features and least flow of a body of water."""
    sheet = Sheet(attraction)
    features = [_stage_feature(feature) for feature in attraction.features]
    _feature_flows(sheet, attraction, features)
    zones = [_draw_up(zone, sheet, attraction, terms, context) for zone in attraction.zones]
    _geometry(sheet, zones)
    for zone_sheet, zone in zip(zones, attraction.zones, strict=True):
        occupy_zone(zone_sheet, zone, attraction, context)
    _occupancy(sheet, zones, attraction, context)
    per_bather = _volume_per_bather(sheet)
    facts = dict(terms.facts) | _body_facts(sheet)
    for zone_sheet, zone in zip(zones, attraction.zones, strict=True):
        apply_limits_to_zone(zone_sheet, zone, attraction, context, per_bather, facts)
    _turnover(sheet, zones, terms)
    _flow_by_load(sheet, zones, attraction, terms, context)
    _least_flow(sheet)
    return AttractionStage(attraction, sheet, (*zones, *features))


def _stage_feature(feature: Feature) -> Sheet:
    sheet = Sheet(feature)
    sheet.work("feature_flow", turnover.flow_of_several, given(feature, "count"), given(feature, "flow_each"))
    return sheet


def _feature_flows(sheet: Sheet, attraction: Attraction, features: list[Sheet]) -> None:
    if not features:
        return
    flows = [(feature, one["feature_flow"]) for feature, one in zip(attraction.features, features, strict=True)]
    recycled = [(feature, flow) for feature, flow in flows if feature.water is FeatureWater.RECYCLED]
    drawn = [(feature, flow) for feature, flow in flows if feature.pump is FeaturePump.RECIRCULATION]
    for key, parts in (
        ("feature_flow", flows),
        ("recycled_feature_flow", recycled),
        ("circulation_feature_flow", drawn),
    ):
        named = [(feature.name, flow) for feature, flow in parts]
        sheet.record(key, total(FIGURE_KINDS[key].label, named, FLOW, ARITHMETIC))


def _draw_up(zone: Zone, sheet: Sheet, attraction: Attraction, terms: SystemTerms, context: Context) -> Sheet:
    """A zone's geometry; a spray deck's tank is sized first, on the attraction's sheet."""
    if not isinstance(zone.shape, SprayDeck):
        return draw_up_zone(zone, Missing(""))
    kind = attraction.kind_of(zone)
    trial = Sheet(zone)
    facts: dict[str, Fact] = dict(terms.facts) | zone_facts(trial, attraction, Missing(""))
    time = longest_turnover(trial, kind, facts | {"area": zone.shape.area}, context)
    flow = sheet["feature_flow"] if attraction.features else leaf(0.0, "Feature flow, none", ARITHMETIC, measure=FLOW)
    needed = sheet.record("least_tank_volume", _least_tank(sheet, zone, attraction, flow, time, terms, context))
    given_volume = given(zone.shape, "tank_volume")
    tank = sheet.record("tank_volume", needed if isinstance(given_volume, Missing) else given_volume)
    return draw_up_zone(zone, tank)


def _least_tank(
    sheet: Sheet, zone: Zone, attraction: Attraction, flow: Value, time: Value, terms: SystemTerms, context: Context
) -> Value:
    """The greater of a fixed least and the reserve for pumps; a large tank may go by splash area instead."""
    kind = attraction.kind_of(zone)
    fixed = context.limit(sheet, "tank_least_volume", kind, {})
    reserve_time = context.limit(sheet, "tank_feature_time", kind, {})
    reserve = _reserve(reserve_time, flow, time, terms.margin)
    large = context.limit(sheet, "tank_large_volume", kind, {})
    per_area = context.limit(sheet, "tank_volume_per_area", kind, {})
    if isinstance(reserve, Worked) and isinstance(large, Worked) and reserve > large:
        by_area = turnover.tank_volume_by_area(given(zone.shape, "area"), per_area)
        reserve = least(
            "Reserve of a large tank", [("By time", reserve), ("By splash area", by_area)], VOLUME, ARITHMETIC
        )
    return greatest("Least holding tank volume", [("Fixed", fixed), ("Reserve", reserve)], VOLUME, ARITHMETIC)


def _reserve(reserve_time: Value, flow: Value, time: Value, margin: float) -> Value:
    if isinstance(reserve_time, Worked) and isinstance(time, Worked) and reserve_time * (1 + margin) >= time:
        return Missing(
            "The tank's reserve time is as long as its turnover time, so no tank would do. Amend one of them."
        )
    return turnover.tank_volume_by_reserve(
        reserve_time, flow, time, leaf(margin, "Design margin", YOUR_ENTRY, measure=SHARE)
    )


def _geometry(sheet: Sheet, zones: list[Sheet]) -> None:
    area = sheet.record("surface_area", _sum(zones, "surface_area", "Surface area", AREA))
    volume = sheet.record("volume", _sum(zones, "volume", "Volume", VOLUME))
    sheet.record("perimeter", _sum(zones, "perimeter", "Edges of the zones", LENGTH))
    if any("greatest_depth" in zone.figures for zone in zones):
        depths = [(zone.node.name, zone["greatest_depth"]) for zone in zones if "greatest_depth" in zone.figures]
        sheet.record("greatest_depth", greatest("Greatest depth", depths, LENGTH, GEOMETRY))
        sheet.work("mean_depth", geometry.mean_depth, volume, area)


def _sum(zones: list[Sheet], key: str, title: str, measure: Measure) -> Value:
    """The sum over zones; a single zone's own figure."""
    if len(zones) == 1:
        return zones[0][key]
    return total(title, [(zone.node.name, zone[key]) for zone in zones], measure, ARITHMETIC)


def _occupancy(sheet: Sheet, zones: list[Sheet], attraction: Attraction, context: Context) -> None:
    parts = [(zone.node.name, zone["peak_occupancy"]) for zone in zones]
    if attraction.slide_capacity is not None:
        parts = [(name, value) for name, value in parts if isinstance(value, Worked)]
        parts.append(("Capacity stated by the supplier", given(attraction, "slide_capacity")))
    peak = sheet.record("peak_occupancy", total("Peak occupancy", parts, BATHERS, ARITHMETIC))
    entered = given(attraction, "bathers_a_day")
    if isinstance(entered, Missing):
        entered = turnover.bathers_on_design_day(given(context.operation, "visits_per_place"), peak)
    sheet.record("bathers_a_day", entered)


def _body_facts(sheet: Sheet) -> dict[str, Fact]:
    """What rule sets ask about the whole body, not about one zone of it."""
    area = sheet["surface_area"]
    return {} if isinstance(area, Missing) else {"area": float(area)}


def _volume_per_bather(sheet: Sheet) -> Value:
    volume, peak = sheet["volume"], sheet["peak_occupancy"]
    if isinstance(volume, Worked) and isinstance(peak, Worked) and peak > 0:
        return leaf(volume / peak, "Volume for each bather", ARITHMETIC, measure=VOLUME)
    return Missing("Volume for each bather is not known.")


def _turnover(sheet: Sheet, zones: list[Sheet], terms: SystemTerms) -> None:
    """The body's longest turnover, by the system's way of combining zones, and the flow that follows."""
    by_load = all("least_flow_by_load" in zone.figures for zone in zones)
    by_time = any("longest_turnover" in zone.figures for zone in zones)
    if by_load and not by_time and not sheet.node.override_of("longest_turnover"):
        return
    limit = sheet.record("longest_turnover", _combined(sheet, zones, terms.combination))
    sheet.work("least_flow_by_time", turnover.turnover_flow, sheet["volume"], limit)


def _combined(sheet: Sheet, zones: list[Sheet], combination: ZoneCombination) -> Value:
    if len(zones) == 1:
        return zones[0]["longest_turnover"]
    times = [(zone.node.name, zone["longest_turnover"]) for zone in zones]
    for _, value in times:
        if isinstance(value, Missing):
            return value
    if combination is ZoneCombination.SHORTEST:
        return least("Shortest time of the zones", times, HOURS, TURNOVER_SHORTEST)
    if combination is ZoneCombination.SUM:
        flows = [(zone.node.name, zone["least_flow_by_time"]) for zone in zones]
        return turnover.turnover_of_zone_flows(sheet["volume"], total("Zone flows", flows, FLOW, TURNOVER_SUM))
    products = [(zone.node.name, turnover.volume_time(zone["volume"], zone["longest_turnover"])) for zone in zones]
    weighted = total("Volumes times turnover times", products, VOLUME_TIME, TURNOVER_WEIGHTED)
    return turnover.volume_weighted_turnover(weighted, sheet["volume"])


def _flow_by_load(
    sheet: Sheet, zones: list[Sheet], attraction: Attraction, terms: SystemTerms, context: Context
) -> None:
    """Flow by surface and load, with a floor for the basin and what features add, where the code sizes that way."""
    parts = [(zone.node.name, zone["least_flow_by_load"]) for zone in zones if "least_flow_by_load" in zone.figures]
    if not parts:
        return
    facts = dict(terms.facts) | zone_facts(sheet, attraction, Missing(""))
    flow = total("Flow by surface and load", parts, FLOW, ARITHMETIC) if len(parts) > 1 else parts[0][1]
    floor = context.limit(sheet, "least_basin_flow", attraction.kind, facts)
    if isinstance(floor, Worked):
        flow = greatest("Flow by surface and load", [("By load", flow), ("At least", floor)], FLOW, ARITHMETIC)
    flow = sheet.record("least_flow_by_load", flow)
    surcharges = [
        (feature.name, value)
        for feature in attraction.features
        if isinstance(value := _surcharge(feature, attraction, facts, sheet, context), Worked)
    ]
    if surcharges:
        sheet.record("feature_surcharge", total("Flow added for features", surcharges, FLOW, ARITHMETIC))


def _surcharge(
    feature: Feature, attraction: Attraction, facts: dict[str, Fact], sheet: Sheet, context: Context
) -> Value:
    """Treated flow that the code adds for one feature group; Missing where it adds none."""
    kind = attraction.kind
    if feature.kind is FeatureKind.SLIDE:
        each = context.limit(sheet, "surcharge_slide", kind, facts | {"start_height": feature.start_height})
        return turnover.flow_of_several(given(feature, "count"), each)
    if feature.large_area:
        each = context.limit(sheet, "surcharge_large_area", kind, facts)
        return turnover.flow_of_several(given(feature, "count"), each)
    if feature.user_places:
        each = context.limit(sheet, "surcharge_per_place", kind, facts)
        return turnover.flow_of_several(given(feature, "user_places"), each)
    return Missing("No surcharge.")


def _least_flow(sheet: Sheet) -> None:
    """The greater of the flows by time and by load; one is enough."""
    by_load = sheet["least_flow_by_load"]
    if "feature_surcharge" in sheet.figures:
        by_load = turnover.flow_with_surcharge(by_load, sheet["feature_surcharge"])
    parts = [("By turnover time", sheet["least_flow_by_time"]), ("By surface and load", by_load)]
    stated = [
        part
        for part, key in zip(parts, ("least_flow_by_time", "least_flow_by_load"), strict=True)
        if key in sheet.figures
    ]
    sheet.record("least_flow", greatest("Least recirculation flow", stated, FLOW, ARITHMETIC))

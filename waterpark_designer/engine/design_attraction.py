"""Figures of one body of water, from its zones and features; the first stage needs nothing of its system's size."""

from collections.abc import Mapping
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
from waterpark_designer.engine.flow_of_device import enter_flow
from waterpark_designer.engine.formulas import geometry, turnover
from waterpark_designer.engine.hydraulics_of_feature import pipe_the_feature
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pump import PumpCurves
from waterpark_designer.engine.size_tank import size_tank, spray_decks
from waterpark_designer.engine.water_in_transit import draw_down, keep_in_transit
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, Value, Worked, given, greatest, leaf, least, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.kinds import FeatureKind, FeaturePump, FeatureWater, ZoneCombination
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.zones import Zone
from waterpark_designer.rules.rule_set import Fact
from waterpark_designer.sources import ARITHMETIC, GEOMETRY, TURNOVER_SHORTEST, TURNOVER_SUM, TURNOVER_WEIGHTED
from waterpark_designer.units import AREA, BATHERS, FLOW, HOURS, LENGTH, VOLUME, VOLUME_TIME, Measure


@dataclass(frozen=True, slots=True)
class AttractionStage:
    """Sheets of an attraction, its zones and features before its system is sized."""

    attraction: Attraction
    sheet: Sheet
    below: tuple[Sheet, ...]
    curves: Mapping[str, PumpCurves]


@dataclass(frozen=True, slots=True)
class SystemTerms:
    """What an attraction's first stage takes from its system; `fixed_flow` where it is this attraction's alone."""

    combination: ZoneCombination
    margin: float
    facts: tuple[tuple[str, Fact], ...]
    fixed_flow: float | None


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
    alone = len(system.attractions) == 1
    return SystemTerms(system.combination, system.design_margin, facts, system.fixed_flow if alone else None)


def stage_attraction(attraction: Attraction, terms: SystemTerms, context: Context) -> AttractionStage:
    """Geometry, occupancy, features and least flow of a body of water."""
    sheet = Sheet(attraction)
    features = [_stage_feature(feature, attraction) for feature in attraction.features]
    _feature_flows(sheet, attraction, features)
    zones = [_draw_up(zone, sheet, attraction, terms, context) for zone in attraction.zones]
    _geometry(sheet, zones)
    draw_down(sheet, features)
    facts = dict(terms.facts) | _body_facts(sheet)
    for zone_sheet, zone in zip(zones, attraction.zones, strict=True):
        occupy_zone(zone_sheet, zone, attraction, context, facts)
    _occupancy(sheet, zones, attraction, context)
    per_bather = _volume_per_bather(sheet)
    for zone_sheet, zone in zip(zones, attraction.zones, strict=True):
        apply_limits_to_zone(zone_sheet, zone, attraction, context, per_bather, facts)
    _turnover(sheet, zones, terms)
    _flow_by_load(sheet, zones, attraction, terms, context)
    _least_flow(sheet)
    runs, curves = _pipe_features(features, attraction, context)
    return AttractionStage(attraction, sheet, (*zones, *features, *runs), curves)


def _pipe_features(
    features: list[Sheet], attraction: Attraction, context: Context
) -> tuple[list[Sheet], dict[str, PumpCurves]]:
    """Hydraulics of the features: the sheets of their pipe runs, and their pumps' curves."""
    runs: list[Sheet] = []
    curves = {}
    for feature in features:
        own_runs, own_curves = pipe_the_feature(feature, attraction, context)
        runs.extend(own_runs)
        if own_curves is not None:
            curves[feature.node.id] = own_curves
    return runs, curves


def _stage_feature(feature: Feature, attraction: Attraction) -> Sheet:
    sheet = Sheet(feature)
    enter_flow(sheet, feature, attraction.water_temperature)
    keep_in_transit(sheet, feature)
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
    """A zone's geometry; the tank is sized with the first spray deck, and others drain to it."""
    decks = spray_decks(attraction)
    if zone not in decks:
        return draw_up_zone(zone, Missing(""))
    if zone is not decks[0]:
        own = given(zone.shape, "tank_volume")
        drains = leaf(0.0, f"Drains to the tank of {decks[0].name}", YOUR_ENTRY, measure=VOLUME)
        return draw_up_zone(zone, drains if isinstance(own, Missing) else own)
    trial = Sheet(zone)
    facts = dict(terms.facts) | zone_facts(trial, attraction, Missing("")) | {"area": zone.shape.area}  # type: ignore[union-attr]
    time = trial.record("longest_turnover", longest_turnover(trial, attraction.kind_of(zone), facts, context))
    return draw_up_zone(zone, size_tank(sheet, attraction, time, terms.margin, terms.fixed_flow, context))


def _geometry(sheet: Sheet, zones: list[Sheet]) -> None:
    area = sheet.record("surface_area", _sum(zones, "surface_area", "Surface area", AREA))
    volume = sheet.record("volume", _sum(zones, "volume", "Volume", VOLUME))
    sheet.record("perimeter", _sum(zones, "perimeter", "Edges of the zones", LENGTH))
    wet = [zone for zone in zones if "greatest_depth" in zone.figures]
    if wet:
        depths = [(zone.node.name, zone["greatest_depth"]) for zone in wet]
        sheet.record("greatest_depth", greatest("Greatest depth", depths, LENGTH, GEOMETRY))
        if len(wet) < len(zones):
            area, volume = _sum(wet, "surface_area", "Surface area", AREA), _sum(wet, "volume", "Volume", VOLUME)
        sheet.work("mean_depth", geometry.mean_depth, volume, area)


def _sum(zones: list[Sheet], key: str, title: str, measure: Measure) -> Value:
    """The sum over zones; a single zone's own figure."""
    if len(zones) == 1:
        return zones[0][key]
    return total(title, [(zone.node.name, zone[key]) for zone in zones], measure, ARITHMETIC)


def _occupancy(sheet: Sheet, zones: list[Sheet], attraction: Attraction, context: Context) -> None:
    parts = [(zone.node.name, zone["peak_occupancy"]) for zone in zones if "peak_occupancy" in zone.figures]
    if attraction.slide_capacity is not None:
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
    for zone in sorted(zones, key=lambda zone: "longest_turnover" not in zone.figures):
        if isinstance(zone["longest_turnover"], Missing):
            return zone["longest_turnover"]
    times = [(zone.node.name, zone["longest_turnover"]) for zone in zones]
    # An override of the body's volume changes its flow, not the time that its zones allow.
    volume = sheet.figures["volume"].as_computed
    if combination is ZoneCombination.SHORTEST:
        return least("Shortest time of the zones", times, HOURS, TURNOVER_SHORTEST)
    if combination is ZoneCombination.SUM:
        flows = [(zone.node.name, zone["least_flow_by_time"]) for zone in zones]
        return turnover.turnover_of_zone_flows(volume, total("Zone flows", flows, FLOW, TURNOVER_SUM))
    products = [(zone.node.name, turnover.volume_time(zone["volume"], zone["longest_turnover"])) for zone in zones]
    weighted = total("Volumes times turnover times", products, VOLUME_TIME, TURNOVER_WEIGHTED)
    return turnover.volume_weighted_turnover(weighted, volume)


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
    added = [(feature.name, _surcharge(feature, attraction, facts, sheet, context)) for feature in attraction.features]
    surcharges = [
        (name, flow)
        for name, flow in added
        if flow is not None and not (isinstance(flow, Missing) and flow.stated_nowhere)
    ]
    if surcharges:
        sheet.record("feature_surcharge", total("Flow added for features", surcharges, FLOW, ARITHMETIC))


def _surcharge(
    feature: Feature, attraction: Attraction, facts: dict[str, Fact], sheet: Sheet, context: Context
) -> Value | None:
    """Treated flow that the code adds for one feature group; None for features of which codes ask nothing."""
    if feature.kind is FeatureKind.SLIDE:
        if feature.start_height is not None:
            facts = facts | {"start_height": feature.start_height}
        quantity, number = "surcharge_slide", given(feature, "count")
    elif feature.large_area:
        quantity, number = "surcharge_large_area", given(feature, "count")
    elif feature.user_places:
        quantity, number = "surcharge_per_place", given(feature, "user_places")
    else:
        return None
    each = context.limit(sheet, quantity, attraction.kind, facts, f"“{feature.name}”")
    return turnover.flow_of_several(number, each)


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

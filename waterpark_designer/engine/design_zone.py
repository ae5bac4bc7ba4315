"""Figures of one zone: its geometry, occupancy and turnover limit."""

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import geometry, turnover
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, Value, Worked, given, greatest, leaf, least, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.node import Part
from waterpark_designer.model.zones import (
    BeachEntry,
    Channel,
    DepthStation,
    Ellipse,
    Outline,
    OutlinePoint,
    PlainShape,
    Rectangle,
    SprayDeck,
    Zone,
)
from waterpark_designer.rules.rule_set import Fact
from waterpark_designer.sources import ARITHMETIC, GEOMETRY, Provenance
from waterpark_designer.units import AREA, HOURS, LENGTH, VOLUME

Solid = tuple[Value, Value, Value, Value]
"""Surface area, volume, perimeter and greatest depth of a shape, before deductions."""


def draw_up_zone(zone: Zone, tank: Value) -> Sheet:
    """Geometry of a zone; `tank` is the holding tank's volume where the zone is a spray deck."""
    sheet = Sheet(zone)
    area, volume, perimeter, deepest = solid_of(zone, tank)
    volume, area, perimeter = _after_deductions(zone, volume, area, perimeter)
    area = sheet.record("surface_area", area)
    volume = sheet.record("volume", volume)
    sheet.record("perimeter", perimeter)
    if not isinstance(zone.shape, SprayDeck):
        sheet.record("greatest_depth", deepest)
        sheet.work("mean_depth", geometry.mean_depth, volume, area)
    return sheet


def apply_limits_to_zone(
    sheet: Sheet,
    zone: Zone,
    attraction: Attraction,
    context: Context,
    volume_per_bather: Value,
    system: dict[str, Fact],
) -> None:
    """Turnover limit and least flows of a zone; a zone's limits follow its own kind."""
    kind = attraction.kind_of(zone)
    facts = zone_facts(sheet, attraction, volume_per_bather) | system
    by_load = _flow_by_load(sheet, kind, facts, context)
    if isinstance(by_load, Worked):
        sheet.record("least_flow_by_load", by_load)
    by_time = longest_turnover(sheet, kind, facts, context)
    if isinstance(by_load, Missing) or isinstance(by_time, Worked) or zone.override_of("longest_turnover"):
        limit = sheet.record("longest_turnover", by_time)
        sheet.work("least_flow_by_time", turnover.turnover_flow, sheet["volume"], limit)


def occupy_zone(sheet: Sheet, zone: Zone, attraction: Attraction, context: Context, system: dict[str, Fact]) -> None:
    """Theoretical peak occupancy of a zone; none where the supplier's capacity stands for it."""
    kind = attraction.kind_of(zone)
    facts = zone_facts(sheet, attraction, Missing("")) | system
    share = context.limit(sheet, "area_per_bather", kind, facts)
    if isinstance(share, Missing) and attraction.slide_capacity is not None and not zone.override_of("peak_occupancy"):
        return
    sheet.work("peak_occupancy", turnover.peak_occupancy, sheet["surface_area"], share)


def zone_facts(sheet: Sheet, attraction: Attraction, volume_per_bather: Value) -> dict[str, Fact]:
    """What rule sets may ask about a zone; what is not known is left out."""
    facts: dict[str, Fact] = {
        "temperature": attraction.water_temperature,
        "salinity": attraction.target_salinity,
        "setting": attraction.setting.value,
        "small_children": attraction.for_small_children,
        "features": bool(attraction.features),
    }
    for name, value in (
        ("depth", sheet["mean_depth"]),
        ("area", sheet["surface_area"]),
        ("volume", sheet["volume"]),
        ("volume_per_bather", volume_per_bather),
    ):
        if not isinstance(value, Missing):
            facts[name] = float(value)
    return facts


def longest_turnover(sheet: Sheet, kind: AttractionKind, facts: dict[str, Fact], context: Context) -> Value:
    """The time limit, by mean depth where the code grows it with depth up to the time stated beside it."""
    stated = context.limit(sheet, "longest_turnover", kind, facts)
    per_depth = context.limit(sheet, "turnover_per_depth", kind, facts)
    if isinstance(per_depth, Missing) or isinstance(sheet["mean_depth"], Missing) or not _together(per_depth, stated):
        return stated
    by_depth = turnover.turnover_by_depth(per_depth, sheet["mean_depth"])
    return least("Longest turnover allowed", [("By mean depth", by_depth), ("At most", stated)], HOURS, ARITHMETIC)


def _together(per_depth: Worked, stated: Value) -> bool:
    """Whether a time by depth and a stated time are one rule: two codes' rules are not mixed, an amendment is meant."""
    codes = {value.step.limit.partition(":")[0] for value in (per_depth, stated) if isinstance(value, Worked)}
    return len(codes) == 1 or per_depth.step.source.provenance is Provenance.AMENDMENT


def _flow_by_load(sheet: Sheet, kind: AttractionKind, facts: dict[str, Fact], context: Context) -> Value:
    area = sheet["surface_area"]
    per_surface = context.limit(sheet, "flow_per_surface", kind, facts)
    if not isinstance(per_surface, Missing):
        return turnover.flow_by_surface(area, per_surface)
    load_area = context.limit(sheet, "load_area", kind, facts)
    load_per_water = context.limit(sheet, "load_per_water", kind, facts)
    return turnover.flow_by_load(area, load_area, load_per_water)


def solid_of(zone: Zone, tank: Value) -> Solid:
    """Area, volume, perimeter and greatest depth of the zone's shape."""
    shape = zone.shape
    if isinstance(shape, Rectangle):
        return _rectangle(shape)
    if isinstance(shape, BeachEntry):
        return _beach(shape)
    if isinstance(shape, Ellipse):
        return _ellipse(shape)
    if isinstance(shape, Channel):
        return _channel(shape)
    if isinstance(shape, Outline):
        return _outline(shape)
    if isinstance(shape, SprayDeck):
        return given(shape, "area"), tank, given(shape, "perimeter"), Missing("A spray deck holds no water.")
    return _plain(shape)


def _rectangle(shape: Rectangle) -> Solid:
    length, width = given(shape, "length"), given(shape, "width")
    runs = floor_runs(shape.stations, shape.length)
    sections = [(f"Stretch {number}", _section(before, after)) for number, (before, after) in enumerate(runs, 1)]
    section = total("Longitudinal section", sections, AREA, GEOMETRY)
    depths = [("Starting wall", given(runs[0][0], "depth"))]
    depths += [(f"End of stretch {number}", given(end, "depth")) for number, (_, end) in enumerate(runs, 1)]
    return (
        geometry.rectangle_area(length, width),
        geometry.prism_volume(section, width),
        geometry.rectangle_perimeter(length, width),
        _deepest(depths),
    )


def _section(before: DepthStation, after: DepthStation) -> Value:
    run = leaf(after.distance - before.distance, "Distance between the depth stations", YOUR_ENTRY, measure=LENGTH)
    return geometry.section_area(given(before, "depth"), given(after, "depth"), run)


def floor_runs(stations: tuple[DepthStation, ...], length: float) -> list[tuple[DepthStation, DepthStation]]:
    """The straight stretches of a floor between the end walls; level before the first and after the last station."""
    ends = sorted({0.0, length, *(s.distance for s in stations if s.distance < length)})
    points = [DepthStation(distance=at, depth=depth_at(stations, at)) for at in ends]
    return list(zip(points, points[1:], strict=False))


def depth_at(stations: tuple[DepthStation, ...], distance: float) -> float:
    """Water depth [m] at a distance [m], on the straight line between stations."""
    before = stations[0]
    for station in stations:
        if station.distance >= distance:
            span = station.distance - before.distance
            share = (distance - before.distance) / span if span > 0 else 1.0
            return before.depth + (station.depth - before.depth) * min(max(share, 0.0), 1.0)
        before = station
    return before.depth


def _beach(shape: BeachEntry) -> Solid:
    length, width = given(shape, "length"), given(shape, "width")
    edge, end = given(shape, "edge_depth"), given(shape, "end_depth")
    area = geometry.rectangle_area(length, width)
    return (
        area,
        geometry.sloping_volume(area, edge, end),
        geometry.rectangle_perimeter(length, width),
        _deepest([("Edge", edge), ("End", end)]),
    )


def _ellipse(shape: Ellipse) -> Solid:
    length, width = given(shape, "length"), given(shape, "width")
    shallow, deep = given(shape, "shallow_depth"), given(shape, "deep_depth")
    area = geometry.ellipse_area(length, width)
    return (
        area,
        geometry.sloping_volume(area, shallow, deep),
        geometry.ellipse_perimeter(length, width),
        _deepest([("Shallow", shallow), ("Deep", deep)]),
    )


def _channel(shape: Channel) -> Solid:
    length, width, depth = given(shape, "length"), given(shape, "width"), given(shape, "depth")
    area = geometry.rectangle_area(length, width)
    perimeter = (
        geometry.closed_channel_perimeter(length) if shape.closed else geometry.rectangle_perimeter(length, width)
    )
    return area, geometry.level_volume(area, depth), perimeter, depth


def _plain(shape: PlainShape) -> Solid:
    return (given(shape, "area"), given(shape, "volume"), given(shape, "perimeter"), given(shape, "greatest_depth"))


def _outline(shape: Outline) -> Solid:
    points = anticlockwise(shape.points)
    first, areas, volumes, sides = points[0], [], [], []
    for number, (second, third) in enumerate(zip(points[1:], points[2:], strict=False), 2):
        name = f"Triangle 1, {number}, {number + 1}"
        area = geometry.triangle_area(*_corners(first, second, third))
        areas.append((name, area))
        volumes.append(
            (name, geometry.triangle_volume(area, *(given(corner, "depth") for corner in (first, second, third))))
        )
    for number, (start, end) in enumerate(zip(points, (*points[1:], first), strict=True), 1):
        sides.append((f"Side {number}", geometry.side_length(*_corners(start, end))))
    depths = [(f"Corner {number}", given(point, "depth")) for number, point in enumerate(points, 1)]
    return (
        total("Area of the outline", areas, AREA, GEOMETRY),
        total("Water over the outline", volumes, VOLUME, GEOMETRY),
        total("Edge of the outline", sides, LENGTH, GEOMETRY),
        _deepest(depths),
    )


def _corners(*points: OutlinePoint) -> tuple[Value, ...]:
    """The x and y of corners, as entries."""
    return tuple(given(point, name) for point in points for name in ("x", "y"))


def _entries(part: Part, *fields: str) -> tuple[Value, ...]:
    return tuple(given(part, field) for field in fields)


def anticlockwise(points: tuple[OutlinePoint, ...]) -> tuple[OutlinePoint, ...]:
    """The corners in the order in which areas count as positive."""
    twice = sum(a.x * b.y - b.x * a.y for a, b in zip(points, (*points[1:], points[0]), strict=True))
    return points if twice >= 0 else points[::-1]


def _deepest(depths: list[tuple[str, Value]]) -> Value:
    return greatest("Greatest depth", depths, LENGTH, GEOMETRY)


def _after_deductions(zone: Zone, volume: Value, area: Value, perimeter: Value) -> tuple[Value, Value, Value]:
    """Volume, area and perimeter once steps, benches and islands are taken off; the tank of a deck keeps its water."""
    if not zone.deductions:
        return volume, area, perimeter
    taken, islands, edges = [], [], []
    for number, part in enumerate(zone.deductions, 1):
        name = f"{part.takes.capitalize()} {number}"
        if part.takes == "steps":
            taken.append((name, geometry.steps_volume(*_entries(part, "width", "run", "depth"))))
        elif part.takes == "bench":
            taken.append((name, geometry.bench_volume(*_entries(part, "length", "width", "height"))))
        else:
            taken.append((name, geometry.level_volume(*_entries(part, "area", "depth"))))
            islands.append((name, given(part, "area")))
            edges.append((name, given(part, "perimeter")))
    if not isinstance(zone.shape, SprayDeck):
        volume = geometry.volume_less_deductions(volume, total("Deductions", taken, VOLUME, GEOMETRY))
    if islands:
        area = geometry.area_less_islands(area, total("Islands", islands, AREA, GEOMETRY))
        perimeter = geometry.perimeter_with_islands(perimeter, total("Edges of islands", edges, LENGTH, GEOMETRY))
    return _if_positive(volume, "volume"), _if_positive(area, "surface_area"), perimeter


NOTHING_LEFT = {
    "volume": Missing("Steps, benches and islands take more water than the zone has. Make them smaller."),
    "surface_area": Missing("Islands take more surface than the zone has. Make them smaller."),
}


def _if_positive(value: Value, figure: str) -> Value:
    return value if isinstance(value, Missing) or value > 0 else NOTHING_LEFT[figure]

"""One form of water as another: whatever length, width, depth, area and volume can be kept is kept."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from waterpark_designer.engine.design_zone import solid_of
from waterpark_designer.engine.worked import Missing, Value
from waterpark_designer.model.node import Part
from waterpark_designer.model.starting_points import rectangle
from waterpark_designer.model.zones import (
    BeachEntry,
    Channel,
    Ellipse,
    Outline,
    OutlinePoint,
    PlainShape,
    Rectangle,
    SprayDeck,
    Zone,
)

USUAL_DEPTH = 1.0
"""Water depth [m] of a form made from one that has no water."""


@dataclass(frozen=True, slots=True)
class _Form:
    """What two forms can have in common, in metres."""

    length: float
    width: float
    shallow: float
    deep: float
    area: float
    volume: float
    perimeter: float

    @property
    def mean_depth(self) -> float:
        return self.volume / self.area


def converted(zone: Zone, wanted: str) -> Part:
    """The zone's shape as the wanted kind, a key of SHAPES; the same shape where it is that kind."""
    if zone.shape.shape == wanted:
        return zone.shape
    return MAKERS[wanted](_form_of(zone))


def _form_of(zone: Zone) -> _Form:
    shape = zone.shape
    solid = solid_of(zone, Missing("A spray deck holds no water."))
    area, volume, perimeter, deepest = (_number(value) for value in solid)
    deep = deepest or USUAL_DEPTH
    volume = volume or area * deep
    length, width = _plan_of(shape, area)
    return _Form(length, width, _shallow_of(shape, volume / area, deep), deep, area, volume, perimeter)


def _number(value: Value) -> float:
    return 0.0 if isinstance(value, Missing) else float(value)


def _plan_of(shape: Part, area: float) -> tuple[float, float]:
    """Length and width: its own, those of the box round an outline, or a square of the same area."""
    if isinstance(shape, Rectangle | BeachEntry | Ellipse | Channel):
        return shape.length, shape.width
    if isinstance(shape, Outline):
        easts, norths = [point.x for point in shape.points], [point.y for point in shape.points]
        return max(easts) - min(easts), max(norths) - min(norths)
    return math.sqrt(area), math.sqrt(area)


def _shallow_of(shape: Part, mean: float, deep: float) -> float:
    """The least depth: its own, or the one that gives an even slope the same mean depth."""
    if isinstance(shape, Rectangle):
        return min(station.depth for station in shape.stations)
    if isinstance(shape, BeachEntry):
        return min(shape.edge_depth, shape.end_depth)
    if isinstance(shape, Ellipse):
        return min(shape.shallow_depth, shape.deep_depth)
    if isinstance(shape, Outline):
        return min(point.depth for point in shape.points)
    return min(max(2 * mean - deep, 0.0), deep)


def _rectangle(form: _Form) -> Part:
    return rectangle((form.length, form.width, form.shallow, form.deep))


def _beach(form: _Form) -> Part:
    return BeachEntry(length=form.length, width=form.width, edge_depth=form.shallow, end_depth=form.deep)


def _ellipse(form: _Form) -> Part:
    return Ellipse(length=form.length, width=form.width, shallow_depth=form.shallow, deep_depth=form.deep)


def _channel(form: _Form) -> Part:
    return Channel(length=form.length, width=form.width, depth=form.mean_depth, closed=False)


def _outline(form: _Form) -> Part:
    """The corners of a rectangle, its floor falling to the east."""
    corners = (
        (0.0, 0.0, form.shallow),
        (form.length, 0.0, form.deep),
        (form.length, form.width, form.deep),
        (0.0, form.width, form.shallow),
    )
    return Outline(points=tuple(OutlinePoint(x=x, y=y, depth=depth) for x, y, depth in corners))


def _spray_deck(form: _Form) -> Part:
    return SprayDeck(area=form.area, perimeter=form.perimeter, tank_volume=None)


def _plain(form: _Form) -> Part:
    return PlainShape(volume=form.volume, area=form.area, perimeter=form.perimeter, greatest_depth=form.deep)


MAKERS: dict[str, Callable[[_Form], Part]] = {
    "rectangle": _rectangle,
    "beach_entry": _beach,
    "ellipse": _ellipse,
    "channel": _channel,
    "outline": _outline,
    "spray_deck": _spray_deck,
    "plain": _plain,
}

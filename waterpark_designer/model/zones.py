"""Zones: the shapes of water, and what is taken off them."""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.node import Many, Node, Part
from waterpark_designer.units import Area, Length, Volume

LONGEST = 5000.0
DEEPEST = 20.0
LEAST_AREA = 1e-4


class DepthStation(Part):
    """Water depth at a distance from the starting wall."""

    distance: Length = Field(ge=0, le=LONGEST, description="Distance from the wall at which the length starts.")
    depth: Length = Field(ge=0, le=DEEPEST, description="Water depth there.")


class Rectangle(Part):
    """Rectangle in plan; the floor runs straight between depth stations along the length."""

    shape: Literal["rectangle"] = "rectangle"
    length: Length = Field(
        12.0, gt=0, le=LONGEST, description="Length of the water surface, in the direction in which the depth changes."
    )
    width: Length = Field(6.0, gt=0, le=LONGEST, description="Width of the water surface.")
    stations: Many[DepthStation] = Field(
        (DepthStation(distance=0.0, depth=1.0), DepthStation(distance=12.0, depth=1.5)),
        min_length=1,
        max_length=200,
        description="Depths along the length, in order; level before the first and after the last.",
    )

    @model_validator(mode="after")
    def _in_order(self) -> "Rectangle":
        distances = [station.distance for station in self.stations]
        if any(later <= earlier for earlier, later in zip(distances, distances[1:], strict=False)):
            raise ValueError("Depth stations must stand in order, each farther from the wall than the one before.")
        return self


class BeachEntry(Part):
    """Rectangle in plan whose floor falls from the waterline to its deep end."""

    shape: Literal["beach_entry"] = "beach_entry"
    length: Length = Field(8.0, gt=0, le=LONGEST, description="Run from the waterline to the deep end of the beach.")
    width: Length = Field(6.0, gt=0, le=LONGEST, description="Width of the beach.")
    edge_depth: Length = Field(0.0, ge=0, le=DEEPEST, description="Water depth at the entry edge, usually none.")
    end_depth: Length = Field(0.6, ge=0, le=DEEPEST, description="Water depth at the deep end of the beach.")


class Ellipse(Part):
    """Ellipse or circle in plan with an evenly sloping floor."""

    shape: Literal["ellipse"] = "ellipse"
    length: Length = Field(6.0, gt=0, le=LONGEST, description="Longer diameter.")
    width: Length = Field(
        6.0, gt=0, le=LONGEST, description="Shorter diameter; the same as the longer one for a circle."
    )
    shallow_depth: Length = Field(1.0, ge=0, le=DEEPEST, description="Least water depth.")
    deep_depth: Length = Field(1.0, ge=0, le=DEEPEST, description="Greatest water depth.")


class Channel(Part):
    """River channel of constant section, closed on itself or open-ended."""

    shape: Literal["channel"] = "channel"
    length: Length = Field(150.0, gt=0, le=LONGEST, description="Length along the centreline.")
    width: Length = Field(3.0, gt=0, le=LONGEST, description="Width of the water surface.")
    depth: Length = Field(0.9, ge=0, le=DEEPEST, description="Water depth.")
    closed: bool = Field(True, description="The channel closes on itself, as a lazy river does.")


class OutlinePoint(Part):
    """Corner of an outline, with the water depth there."""

    x: Length = Field(ge=-LONGEST, le=LONGEST, description="Distance to the east of the origin.")
    y: Length = Field(ge=-LONGEST, le=LONGEST, description="Distance to the north of the origin.")
    depth: Length = Field(1.0, ge=0, le=DEEPEST, description="Water depth at this corner.")


class Outline(Part):
    """Polygon in plan with a depth at each corner; exact where the floor is a plane."""

    shape: Literal["outline"] = "outline"
    points: Many[OutlinePoint] = Field(
        (
            OutlinePoint(x=0.0, y=0.0),
            OutlinePoint(x=10.0, y=0.0),
            OutlinePoint(x=10.0, y=6.0),
            OutlinePoint(x=0.0, y=6.0),
        ),
        min_length=3,
        max_length=2000,
        description="Corners in order round the water's edge.",
    )

    @model_validator(mode="after")
    def _simple(self) -> "Outline":
        corners = [(point.x, point.y) for point in self.points]
        if crosses_itself(corners):
            raise ValueError("The outline crosses itself: give its corners in order round the edge.")
        if enclosed_area(corners) < LEAST_AREA:
            raise ValueError("The outline encloses no water: its corners lie on one line.")
        return self


class SprayDeck(Part):
    """Wet deck without standing water, draining to a holding tank."""

    shape: Literal["spray_deck"] = "spray_deck"
    area: Area = Field(100.0, gt=0, le=1e6, description="Area of the deck that drains to the tank.")
    perimeter: Length = Field(
        0.0, ge=0, le=LONGEST, description="Edge of the deck; leave none where it does not matter."
    )
    tank_volume: Volume | None = Field(
        None,
        gt=0,
        le=1e5,
        description="Water kept in the holding tank. Leave blank to take the least the code basis asks for.",
    )


class PlainShape(Part):
    """Volume, surface area and perimeter taken from elsewhere, such as a drawing."""

    shape: Literal["plain"] = "plain"
    volume: Volume = Field(100.0, gt=0, le=1e7, description="Volume of water.")
    area: Area = Field(80.0, gt=0, le=1e7, description="Area of the water surface.")
    perimeter: Length = Field(40.0, ge=0, le=LONGEST, description="Length of the water's edge.")
    greatest_depth: Length = Field(1.5, ge=0, le=DEEPEST, description="Greatest water depth.")


Shape = Annotated[
    Rectangle | BeachEntry | Ellipse | Channel | Outline | SprayDeck | PlainShape, Field(discriminator="shape")
]

SHAPE_LABELS: dict[str, str] = {
    "rectangle": "Rectangle",
    "beach_entry": "Beach entry",
    "ellipse": "Circle or ellipse",
    "channel": "Channel",
    "outline": "Outline",
    "spray_deck": "Spray deck with tank",
    "plain": "Volume and area",
}
SHAPES: dict[str, type[Part]] = {
    "rectangle": Rectangle,
    "beach_entry": BeachEntry,
    "ellipse": Ellipse,
    "channel": Channel,
    "outline": Outline,
    "spray_deck": SprayDeck,
    "plain": PlainShape,
}


class Steps(Part):
    """A flight of steps of even treads down to the floor: takes half of the block it stands in."""

    takes: Literal["steps"] = "steps"
    width: Length = Field(2.0, gt=0, le=LONGEST, description="Width of the flight.")
    run: Length = Field(1.0, gt=0, le=LONGEST, description="Horizontal run of the flight, from wall to last nosing.")
    depth: Length = Field(1.0, gt=0, le=DEEPEST, description="Water depth at the foot of the flight.")


class Bench(Part):
    """A solid bench along a wall."""

    takes: Literal["bench"] = "bench"
    length: Length = Field(3.0, gt=0, le=LONGEST, description="Length along the wall.")
    width: Length = Field(0.45, gt=0, le=LONGEST, description="Width of the seat.")
    height: Length = Field(0.45, gt=0, le=DEEPEST, description="Height of the solid bench above the floor.")


class Island(Part):
    """Dry island: takes water, surface, and adds its edge to the perimeter."""

    takes: Literal["island"] = "island"
    area: Area = Field(10.0, gt=0, le=1e6, description="Area at the waterline.")
    perimeter: Length = Field(12.0, gt=0, le=LONGEST, description="Edge of the island at the waterline.")
    depth: Length = Field(1.0, gt=0, le=DEEPEST, description="Mean water depth round the island.")


Deduction = Annotated[Steps | Bench | Island, Field(discriminator="takes")]
DEDUCTIONS: dict[str, type[Part]] = {"steps": Steps, "bench": Bench, "island": Island}


class Zone(Node):
    """Part of a body of water with a shape, and with limits of its own where its kind differs."""

    kind: AttractionKind | None = Field(
        None,
        description="Kind of water in this zone where it differs from the whole, such as a slide "
        "landing in a leisure pool.",
    )
    shape: Shape = Field(default_factory=Rectangle, description="Form of the water in plan and depth.")
    deductions: Many[Deduction] = Field((), max_length=200, description="Steps, benches and islands in the zone.")


def crosses_itself(corners: list[tuple[float, float]]) -> bool:
    """Whether two sides of a closed polygon cross; sides that only touch do not."""
    sides = sorted(
        (min(a[0], b[0]), max(a[0], b[0]), min(a[1], b[1]), max(a[1], b[1]), a, b)
        for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
    # A sweep from west to east: only sides that are beside each other are compared.
    beside: list[tuple[float, float, float, float, tuple[float, float], tuple[float, float]]] = []
    for side in sides:
        west, _, south, north, a, b = side
        beside = [other for other in beside if other[1] >= west]
        for _, _, other_south, other_north, c, d in beside:
            if other_south <= north and south <= other_north and _cross(a, b, c, d):
                return True
        beside.append(side)
    return False


def enclosed_area(corners: list[tuple[float, float]]) -> float:
    """Area within a closed polygon that does not cross itself, in the square of its unit."""
    # Measured from a corner, so that little is lost to rounding far from the origin.
    east, north = corners[0]
    from_corner = [(x - east, y - north) for x, y in corners]
    return (
        abs(
            sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(from_corner, [*from_corner[1:], from_corner[0]], strict=True))
        )
        / 2
    )


def off_plane(corners: tuple[OutlinePoint, ...]) -> float:
    """How far the depth at a corner is from the plane that fits all corners best, at most [m]."""
    count = len(corners)
    east, north, deep = (sum(getattr(corner, name) for corner in corners) / count for name in ("x", "y", "depth"))
    points = [(corner.x - east, corner.y - north, corner.depth - deep) for corner in corners]
    xx, yy, xy = (sum(p[i] * p[j] for p in points) for i, j in ((0, 0), (1, 1), (0, 1)))
    xd, yd = (sum(p[i] * p[2] for p in points) for i in (0, 1))
    spread = xx * yy - xy * xy
    slopes = ((xd * yy - yd * xy) / spread, (yd * xx - xd * xy) / spread)
    return max(abs(depth - slopes[0] * x - slopes[1] * y) for x, y, depth in points)


def _cross(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]) -> bool:
    def turn(p: tuple[float, float], q: tuple[float, float], r: tuple[float, float]) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0

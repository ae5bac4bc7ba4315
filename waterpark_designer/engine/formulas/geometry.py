"""Volume, surface and edge of the shapes of water."""

import math

from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import GEOMETRY, RAMANUJAN
from waterpark_designer.units import Area, Length, Volume


@formula("A = L · w", GEOMETRY, length="L", width="w")
def rectangle_area(length: Length, width: Length) -> Area:
    """Area A [m²] of a rectangle of length L [m] and width w [m]."""
    return length * width


@formula("P = 2 · (L + w)", GEOMETRY, length="L", width="w")
def rectangle_perimeter(length: Length, width: Length) -> Length:
    """Edge P [m] of a rectangle of length L [m] and width w [m]."""
    return 2 * (length + width)


@formula("S = (d1 + d2) / 2 · x", GEOMETRY, first_depth="d1", second_depth="d2", run="x")
def section_area(first_depth: Length, second_depth: Length, run: Length) -> Area:
    """Area S [m²] of a vertical section with a straight floor between depths d1 and d2 [m] over a run x [m]."""
    return (first_depth + second_depth) / 2 * run


@formula("V = S · w", GEOMETRY, section="S", width="w")
def prism_volume(section: Area, width: Length) -> Volume:
    """Volume V [m³] of constant section S [m²] over a width w [m]."""
    return section * width


@formula("V = A · (d1 + d2) / 2", GEOMETRY, area="A", shallow_depth="d1", deep_depth="d2")
def sloping_volume(area: Area, shallow_depth: Length, deep_depth: Length) -> Volume:
    """Volume V [m³] over a plane floor, for a surface A [m²] symmetric across the slope; depths d1, d2 [m]."""
    return area * (shallow_depth + deep_depth) / 2


@formula("V = A · d", GEOMETRY, area="A", depth="d")
def level_volume(area: Area, depth: Length) -> Volume:
    """Volume V [m³] of a surface A [m²] at one depth d [m]."""
    return area * depth


@formula("A = π / 4 · a · b", GEOMETRY, length="a", width="b")
def ellipse_area(length: Length, width: Length) -> Area:
    """Area A [m²] of an ellipse with diameters a and b [m]."""
    return math.pi / 4 * length * width


@formula("P = π / 2 · (3·(a + b) − √((3·a + b)·(a + 3·b)))", RAMANUJAN, length="a", width="b")
def ellipse_perimeter(length: Length, width: Length) -> Length:
    """Edge P [m] of an ellipse with diameters a and b [m]; within 0.5 % to any flatness."""
    return math.pi / 2 * (3 * (length + width) - ((3 * length + width) * (length + 3 * width)) ** 0.5)


@formula("P = 2 · L", GEOMETRY, length="L")
def closed_channel_perimeter(length: Length) -> Length:
    """Both walls P [m] of a closed channel with centreline L [m]: what one bend adds outside it takes inside."""
    return 2 * length


@formula(
    "A = ((x2 − x1)·(y3 − y1) − (x3 − x1)·(y2 − y1)) / 2",
    GEOMETRY,
    x1="x1",
    y1="y1",
    x2="x2",
    y2="y2",
    x3="x3",
    y3="y3",
)
def triangle_area(x1: Length, y1: Length, x2: Length, y2: Length, x3: Length, y3: Length) -> Area:
    """Signed area A [m²] of a triangle, corners x1, y1, x2, y2, x3, y3 [m]; positive where they run anticlockwise."""
    return ((x2 - x1) * (y3 - y1) - (x3 - x1) * (y2 - y1)) / 2


@formula("V = A · (d1 + d2 + d3) / 3", GEOMETRY, area="A", d1="d1", d2="d2", d3="d3")
def triangle_volume(area: Area, d1: Length, d2: Length, d3: Length) -> Volume:
    """Volume V [m³] under a triangle A [m²] with corner depths d1, d2, d3 [m] and a plane floor."""
    return area * (d1 + d2 + d3) / 3


@formula("l = √((x2 − x1)² + (y2 − y1)²)", GEOMETRY, x1="x1", y1="y1", x2="x2", y2="y2")
def side_length(x1: Length, y1: Length, x2: Length, y2: Length) -> Length:
    """Length l [m] of a side between two corners at x1, y1, x2, y2 [m]."""
    return ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5


@formula("V = w · r · d / 2", GEOMETRY, width="w", run="r", depth="d")
def steps_volume(width: Length, run: Length, depth: Length) -> Volume:
    """Water V [m³] taken by even steps of width w, run r and depth d [m]: half the block, for any number of treads."""
    return width * run * depth / 2


@formula("V = L · w · h", GEOMETRY, length="L", width="w", height="h")
def bench_volume(length: Length, width: Length, height: Length) -> Volume:
    """Water V [m³] taken by a solid bench of length L, width w and height h [m]."""
    return length * width * height


@formula("V = V0 − V1", GEOMETRY, gross="V0", taken="V1")
def volume_less_deductions(gross: Volume, taken: Volume) -> Volume:
    """Volume V [m³] of the shape V0 less steps, benches and islands V1 [m³]."""
    return gross - taken


@formula("A = A0 − A1", GEOMETRY, gross="A0", taken="A1")
def area_less_islands(gross: Area, taken: Area) -> Area:
    """Surface A [m²] of the shape A0 less islands A1 [m²]."""
    return gross - taken


@formula("P = P0 + P1", GEOMETRY, outer="P0", islands="P1")
def perimeter_with_islands(outer: Length, islands: Length) -> Length:
    """Edge P [m] of the shape P0 and of islands P1 [m]."""
    return outer + islands


@formula("d = V / A", GEOMETRY, volume="V", area="A")
def mean_depth(volume: Volume, area: Area) -> Length:
    """Mean depth d [m] of a volume V [m³] under a surface A [m²]."""
    return volume / area

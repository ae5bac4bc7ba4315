"""Volumes, surfaces and edges against closed forms and sums worked apart from the program."""

import math

import pytest
from scipy.special import ellipe

from waterpark_designer.engine.formulas import geometry
from waterpark_designer.model.zones import (
    BeachEntry,
    Bench,
    Channel,
    DepthStation,
    Ellipse,
    Island,
    Outline,
    OutlinePoint,
    Rectangle,
    Steps,
)
from waterpark_designer.units import FOOT, GALLON, LENGTH, VOLUME


def stations(*pairs):
    return tuple(DepthStation(distance=distance, depth=depth) for distance, depth in pairs)


@pytest.fixture
def measured(build, design):
    """Surface, volume, edge and greatest depth of a shape drawn as the only zone of a pool."""

    def measure(shape, *deductions):
        basin = build.zone("Basin", shape=shape, deductions=deductions)
        sheet = design(build.site(build.pool(zones=(basin,)))).sheets["Basin"]
        return [sheet[key] for key in ("surface_area", "volume", "perimeter", "greatest_depth")]

    return measure


def l_shape(depth):
    """10 × 6 m with a 4 × 3 m corner cut out; `depth` gives the depth at (x, y)."""
    corners = ((0, 0), (10, 0), (10, 3), (6, 3), (6, 6), (0, 6))
    return Outline(points=tuple(OutlinePoint(x=x, y=y, depth=depth(x, y)) for x, y in corners))


def test_l_shape_by_hand(measured):
    # 60 − 12 = 48 m² by the cut; a polygon with square corners keeps the edge of its box, 32 m.
    area, volume, edge, deepest = measured(l_shape(lambda x, y: 1.5))
    assert (area, volume, edge, deepest) == pytest.approx((48, 72, 32, 1.5))


def test_l_shape_over_a_plane_floor(measured):
    # Under a plane the volume is the surface times the depth at its centroid:
    # x = (60 · 5 − 12 · 8) / 48 = 4.25, y = (60 · 3 − 12 · 4.5) / 48 = 2.625.
    _, volume, _, deepest = measured(l_shape(lambda x, y: 1 + 0.1 * x + 0.05 * y))
    assert volume == pytest.approx(48 * (1 + 0.1 * 4.25 + 0.05 * 2.625))
    assert deepest == pytest.approx(2.15)


def test_an_outline_may_run_either_way(measured):
    shape = l_shape(lambda x, y: 1 + 0.1 * x)
    assert measured(shape.revised(points=shape.points[::-1])) == pytest.approx(measured(shape))


def test_cylinder(measured):
    area, volume, edge, _ = measured(Ellipse(length=8.0, width=8.0, shallow_depth=1.2, deep_depth=1.2))
    assert area == pytest.approx(math.pi * 16)
    assert volume == pytest.approx(math.pi * 16 * 1.2)
    assert edge == pytest.approx(math.pi * 8)


def test_sloping_floor_under_a_circle_by_summing_strips(measured):
    strips = 20_000
    width = 8.0 / strips
    volume = 0.0
    for strip in range(strips):
        x = (strip + 0.5) * width - 4
        volume += 2 * math.sqrt(16 - x * x) * width * (1.0 + (x + 4) / 8 * 0.8)
    assert measured(Ellipse(length=8.0, width=8.0, shallow_depth=1.0, deep_depth=1.8))[1] == pytest.approx(volume)


@pytest.mark.parametrize("flatness", [1.0, 0.9, 0.5, 0.2, 0.05, 0.001])
def test_edge_of_an_ellipse_by_the_elliptic_integral(flatness):
    # Exact: 4 · a · E(1 − (b/a)²) with the semi-axes; the approximation is stated to hold within 0.5 %.
    exact = 4 * 5.0 * ellipe(1 - flatness**2)
    assert geometry.ellipse_perimeter(10.0, 10.0 * flatness) == pytest.approx(exact, rel=0.005)
    if flatness >= 0.2:
        assert geometry.ellipse_perimeter(10.0, 10.0 * flatness) == pytest.approx(exact, rel=0.0025)


def test_pool_with_a_hopper(measured):
    # 25 × 10 m: 1 m deep for 10 m, down to 3 m at 18 m, level to the end. Section 10 + 16 + 21 = 47 m².
    shape = Rectangle(length=25.0, width=10.0, stations=stations((0, 1.0), (10, 1.0), (18, 3.0)))
    assert measured(shape) == pytest.approx([250, 470, 70, 3.0])


def test_one_station_is_a_level_floor(measured):
    shape = Rectangle(length=25.0, width=10.0, stations=stations((5, 1.4)))
    assert measured(shape)[1] == pytest.approx(25 * 10 * 1.4)


def test_floor_beyond_the_wall_is_cut_off(measured):
    # Down to 2 m at 20 m, of which 10 m are built: 1.5 m at the wall.
    shape = Rectangle(length=10.0, width=4.0, stations=stations((0, 1.0), (20, 2.0)))
    assert measured(shape) == pytest.approx([40, 50, 28, 1.5])


def test_operators_rule_for_a_rectangular_pool(measured):
    # Operator training (common practice): length × width × mean depth × 7.48 gal; 75 × 45 ft, 3.5 to 6.5 ft.
    shape = Rectangle(length=75 * FOOT, width=45 * FOOT, stations=stations((0, 3.5 * FOOT), (75 * FOOT, 6.5 * FOOT)))
    assert VOLUME.us.from_si(measured(shape)[1]) == pytest.approx(75 * 45 * 5 * 7.48, rel=0.005 / 7.48)


def test_beach_is_a_wedge(measured):
    assert measured(BeachEntry(length=9.0, width=6.0, edge_depth=0.0, end_depth=0.6)) == pytest.approx(
        [54, 9 * 0.6 / 2 * 6, 30, 0.6]
    )


def test_ring_channel(measured):
    # A ring of centreline radius 20 m, 4 m wide, between circles of 18 and 22 m.
    area, volume, edge, _ = measured(Channel(length=2 * math.pi * 20, width=4.0, depth=0.9, closed=True))
    assert area == pytest.approx(math.pi * (22**2 - 18**2))
    assert volume == pytest.approx(math.pi * (22**2 - 18**2) * 0.9)
    assert edge == pytest.approx(2 * math.pi * (22 + 18))


def test_open_channel_has_ends(measured):
    assert measured(Channel(length=15.0, width=1.2, depth=0.15, closed=False))[2] == pytest.approx(2 * (15 + 1.2))


@pytest.mark.parametrize("treads", [1, 2, 3, 5, 12])
def test_flight_of_steps_tread_by_tread(treads):
    # Even treads and risers: the tread beside the wall stands one riser below the water, the last one riser high.
    width, run, depth = 2.0, 1.5, 1.2
    riser = depth / (treads + 1)
    solid = sum(width * run / treads * riser * number for number in range(1, treads + 1))
    assert geometry.steps_volume(width, run, depth) == pytest.approx(solid)


def test_what_stands_in_the_water_is_taken_off(measured):
    shape = Rectangle(length=20.0, width=10.0, stations=stations((0, 1.5)))
    steps, bench = Steps(width=2.0, run=1.5, depth=1.5), Bench(length=4.0, width=0.5, height=1.0)
    island = Island(area=6.0, perimeter=9.0, depth=1.5)
    area, volume, edge, _ = measured(shape, steps, bench, island)
    assert volume == pytest.approx(300 - 2.25 - 2.0 - 9.0)
    assert area == pytest.approx(200 - 6)
    assert edge == pytest.approx(60 + 9)


def test_water_of_one_more_slide(measured):
    # Wisconsin SPS 390 Appendix: 10 × 20 × 3 ft, “4,500 gal” at 7.5 gal/ft³.
    shape = Rectangle(length=20 * FOOT, width=10 * FOOT, stations=stations((0, 3 * FOOT)))
    assert measured(shape)[1] / GALLON == pytest.approx(4500, abs=50)


def test_mean_depth(build, figure):
    basin = build.zone("Basin", shape=Rectangle(length=20.0, width=10.0, stations=stations((0, 1.0), (20, 2.0))))
    depth = figure(build.site(build.pool(zones=(basin,))), "Pool", "mean_depth")
    assert LENGTH.metric.from_si(depth) == pytest.approx(1.5)

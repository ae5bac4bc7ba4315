"""Shapes refuse what cannot be built."""

import math
import random
import time

import pytest
from pydantic import ValidationError

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.zones import (
    DEDUCTIONS,
    SHAPE_LABELS,
    SHAPES,
    DepthStation,
    Outline,
    OutlinePoint,
    Rectangle,
    SprayDeck,
    Zone,
    crosses_itself,
    enclosed_area,
    off_plane,
)


def outline(*corners: tuple[float, float]) -> Outline:
    return Outline(points=tuple(OutlinePoint(x=x, y=y) for x, y in corners))


def stations(*pairs: tuple[float, float]) -> tuple[DepthStation, ...]:
    return tuple(DepthStation(distance=distance, depth=depth) for distance, depth in pairs)


class TestStations:
    @pytest.mark.parametrize("pairs", [[(0.0, 1.0)], [(0.0, 1.0), (5.0, 1.5), (12.0, 3.0)], [(3.0, 2.0), (4.0, 0.0)]])
    def test_in_order(self, pairs: list[tuple[float, float]]) -> None:
        assert Rectangle(stations=stations(*pairs)).stations == stations(*pairs)

    @pytest.mark.parametrize(
        "pairs", [[(5.0, 1.0), (0.0, 1.5)], [(0.0, 1.0), (0.0, 1.5)], [(0.0, 1.0), (8.0, 1.0), (6.0, 2.0), (12.0, 2.0)]]
    )
    def test_out_of_order(self, pairs: list[tuple[float, float]]) -> None:
        with pytest.raises(ValidationError, match="Depth stations must stand in order"):
            Rectangle(stations=stations(*pairs))

    def test_none(self) -> None:
        with pytest.raises(ValidationError):
            Rectangle(stations=())

    @pytest.mark.parametrize(("distance", "depth"), [(-0.1, 1.0), (5001.0, 1.0), (0.0, -0.1), (0.0, 20.1)])
    def test_beyond_bounds(self, distance: float, depth: float) -> None:
        with pytest.raises(ValidationError):
            DepthStation(distance=distance, depth=depth)


class TestOutline:
    @pytest.mark.parametrize(
        "corners",
        [
            [(0, 0), (10, 0), (0, 10)],
            [(0, 0), (10, 0), (10, 10), (0, 10)],
            [(0, 0), (0, 10), (10, 10), (10, 0)],
            [(0, 0), (10, 0), (10, 10), (5, 2), (0, 10)],
            # An island cut free by a slit: the slit's two sides lie on each other.
            [(0, 0), (9, 0), (9, 9), (0, 9), (0, 3), (3, 3), (3, 6), (6, 6), (6, 3), (3, 3), (0, 3)],
        ],
    )
    def test_simple(self, corners: list[tuple[float, float]]) -> None:
        assert len(outline(*corners).points) == len(corners)

    @pytest.mark.parametrize(
        "corners",
        [
            [(0, 0), (10, 10), (10, 0), (0, 10)],
            [(0, 0), (10, 0), (10, 10), (5, -2), (0, 10)],
            [(0, 0), (4, 4), (8, 0), (8, 3), (0, 3)],
        ],
    )
    def test_crossing_itself(self, corners: list[tuple[float, float]]) -> None:
        for turn in range(len(corners)):
            turned = [*corners[turn:], *corners[:turn]]
            for order in (turned, turned[::-1]):
                with pytest.raises(ValidationError, match="The outline crosses itself"):
                    outline(*order)

    @pytest.mark.parametrize(
        "corners",
        [[(0, 0), (1, 0), (2, 0)], [(1, 1), (1, 1), (1, 1)], [(4000.1, 4000.1), (4000.2, 4000.2), (4000.3, 4000.3)]],
    )
    def test_enclosing_nothing(self, corners: list[tuple[float, float]]) -> None:
        with pytest.raises(ValidationError, match="The outline encloses no water"):
            outline(*corners)

    @pytest.mark.parametrize("place", [0.0, 4990.0, -5000.0])
    def test_area_is_exact_wherever_it_lies(self, place: float) -> None:
        """A rectangle of 8 m by 5 m less its corner of 2 m by 1 m, by plane geometry."""
        corners = [(0, 0), (8, 0), (8, 4), (6, 4), (6, 5), (0, 5)]
        moved = [(x + place, y + place) for x, y in corners]
        assert enclosed_area(moved) == enclosed_area(moved[::-1]) == pytest.approx(38.0, rel=1e-12)

    def test_fewer_than_three_corners(self) -> None:
        with pytest.raises(ValidationError):
            outline((0, 0), (10, 0))

    @pytest.mark.parametrize("seed", range(20))
    def test_a_star_never_crosses_until_two_corners_change_places(self, seed: int) -> None:
        """Corners at rising angles round a point make a simple outline, whatever their distances.

        With two neighbours of a convex one exchanged, the sides on either side of them cross.
        """
        dice = random.Random(seed)
        count = dice.randint(4, 60)
        angles = [2 * math.pi * place / count for place in range(count)]
        star = [(r * math.cos(a), r * math.sin(a)) for a in angles for r in [dice.uniform(1, 50)]]
        assert not crosses_itself(star)
        convex = [(50 * math.cos(a), 20 * math.sin(a)) for a in angles]
        assert not crosses_itself(convex)
        place = dice.randrange(count - 1)
        convex[place], convex[place + 1] = convex[place + 1], convex[place]
        assert crosses_itself(convex)

    @pytest.mark.parametrize("place", [0.0, 4990.0])
    @pytest.mark.parametrize(("depths", "off"), [((1, 1, 3, 3), 0.0), ((1, 2, 3, 2), 0.0), ((2, 1, 2, 1), 0.5)])
    def test_how_far_corners_are_off_one_plane(self, depths: tuple[float, ...], off: float, place: float) -> None:
        """Of a square: one slope, a slope along the diagonal, and a saddle whose best plane is level."""
        square = ((0, 0), (8, 0), (8, 8), (0, 8))
        corners = [
            OutlinePoint(x=x + place, y=y + place, depth=float(depth))
            for (x, y), depth in zip(square, depths, strict=True)
        ]
        assert off_plane(tuple(corners)) == pytest.approx(off, abs=1e-9)

    def test_two_thousand_corners_are_checked_quickly(self) -> None:
        corners = [(50 * math.cos(a), 20 * math.sin(a)) for a in (2 * math.pi * place / 2000 for place in range(2000))]
        start = time.perf_counter()
        assert not crosses_itself(corners)
        # About 4 ms; comparing every side with every other took 1.8 s.
        assert time.perf_counter() - start < 0.5


def test_every_shape_has_a_name_and_finds_its_way_back() -> None:
    assert set(SHAPES) == set(SHAPE_LABELS)
    for key, shape in SHAPES.items():
        zone = Zone(name="Z", shape=shape())
        assert zone.model_dump()["shape"]["shape"] == key
        assert Zone.model_validate_json(zone.model_dump_json()) == zone
        assert type(Zone.model_validate_json(zone.model_dump_json()).shape) is shape


def test_every_deduction_finds_its_way_back() -> None:
    zone = Zone(name="Z", deductions=tuple(part() for part in DEDUCTIONS.values()))
    assert Zone.model_validate_json(zone.model_dump_json()) == zone


def test_kind_of_a_zone_and_of_the_whole() -> None:
    landing = Zone(name="Landing", kind=AttractionKind.PLUNGE_POOL)
    body = Attraction(name="Body", kind=AttractionKind.LEISURE_POOL, zones=(landing, Zone(name="Rest")))
    assert [body.kind_of(zone) for zone in body.zones] == [AttractionKind.PLUNGE_POOL, AttractionKind.LEISURE_POOL]


def test_spray_decks_are_known() -> None:
    assert Attraction(name="Pad", zones=(Zone(name="Deck", shape=SprayDeck()),)).has_spray_deck
    assert not Attraction(name="Pool").has_spray_deck

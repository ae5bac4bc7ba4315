"""One form of water as another keeps what it can."""

import math
from itertools import permutations

import pytest

from waterpark_designer.engine.design_zone import solid_of
from waterpark_designer.engine.worked import Missing
from waterpark_designer.gui.shape_conversion import converted
from waterpark_designer.model.zones import (
    SHAPES,
    BeachEntry,
    Channel,
    DepthStation,
    Ellipse,
    PlainShape,
    Rectangle,
    SprayDeck,
    Zone,
)

BOX = Rectangle(
    length=20.0, width=10.0, stations=(DepthStation(distance=0.0, depth=1.0), DepthStation(distance=20.0, depth=2.0))
)


def of(shape) -> Zone:
    return Zone(name="Basin", shape=shape)


@pytest.mark.parametrize(("first", "second"), list(permutations(SHAPES, 2)))
def test_every_form_becomes_every_other(first, second) -> None:
    made = converted(of(SHAPES[first]()), second)
    assert type(made) is SHAPES[second]


def test_same_form_is_the_same_object() -> None:
    zone = of(BOX)
    assert converted(zone, "rectangle") is zone.shape


def test_rectangle_keeps_length_width_and_depths() -> None:
    beach = converted(of(BOX), "beach_entry")
    assert beach == BeachEntry(length=20.0, width=10.0, edge_depth=1.0, end_depth=2.0)
    assert converted(of(beach), "rectangle") == BOX


def test_rectangle_as_volume_and_area_by_hand() -> None:
    """20 m × 10 m under a mean of 1.5 m: 200 m², 300 m³, edge 60 m."""
    assert converted(of(BOX), "plain") == PlainShape(volume=300.0, area=200.0, perimeter=60.0, greatest_depth=2.0)


def test_channel_takes_the_mean_depth_and_stays_open() -> None:
    channel = converted(of(BOX), "channel")
    assert channel == Channel(length=20.0, width=10.0, depth=1.5, closed=False)


def test_circle_as_a_spray_deck_keeps_area_and_edge() -> None:
    deck = converted(of(Ellipse(length=8.0, width=8.0)), "spray_deck")
    assert deck.area == pytest.approx(math.pi * 16)
    assert deck.perimeter == pytest.approx(math.pi * 8)


def test_volume_and_area_as_a_rectangle_keeps_both_and_the_depth() -> None:
    plain = PlainShape(volume=150.0, area=100.0, perimeter=40.0, greatest_depth=2.0)
    area, volume, _, deepest = solid_of(of(converted(of(plain), "rectangle")), Missing(""))
    assert float(area) == pytest.approx(100.0)
    assert float(volume) == pytest.approx(150.0)
    assert float(deepest) == pytest.approx(2.0)


def test_outline_is_the_rectangle_it_was() -> None:
    outline = converted(of(BOX), "outline")
    area, volume, perimeter, _ = solid_of(of(outline), Missing(""))
    assert (float(area), float(volume), float(perimeter)) == pytest.approx((200.0, 300.0, 60.0))
    back = converted(of(outline), "rectangle")
    assert (back.length, back.width) == (20.0, 10.0)


def test_dry_deck_becomes_water_of_a_usual_depth() -> None:
    area, volume, _, _ = solid_of(of(converted(of(SprayDeck(area=64.0)), "rectangle")), Missing(""))
    assert float(area) == pytest.approx(64.0)
    assert float(volume) == pytest.approx(64.0)

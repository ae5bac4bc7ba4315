"""A new part is usable as it stands, and says that its sizes are only a start."""

import pytest

from waterpark_designer.model.edits import EditRefused
from waterpark_designer.model.kinds import AttractionKind, FeatureKind, FeaturePump
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_points import (
    add_attraction,
    add_part,
    new_attraction,
    new_feature,
    new_site,
    new_system,
    new_zone,
)
from waterpark_designer.model.walk import find, parent_of
from waterpark_designer.model.zones import Channel, Ellipse, SprayDeck
from waterpark_designer.units import FLOW, LENGTH, TEMPERATURE, UnitSystem


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("kind", AttractionKind)
def test_every_kind_starts_with_water_or_a_deck(kind: AttractionKind, units: UnitSystem) -> None:
    attraction = new_attraction(kind, units)
    assert attraction.kind is kind
    assert attraction.zones and attraction.name
    assert "Starting sizes" in attraction.notes


@pytest.mark.parametrize("kind", FeatureKind)
def test_every_feature_kind_starts_marked_as_a_start(kind: FeatureKind) -> None:
    feature = new_feature(kind, UnitSystem.US)
    assert feature.kind is kind
    assert "Starting sizes" in feature.notes


@pytest.mark.parametrize("kind", [kind for kind in FeatureKind if new_feature(kind, UnitSystem.US).flow_each])
def test_a_new_feature_has_what_its_pump_is_sized_from(kind: FeatureKind) -> None:
    feature = new_feature(kind, UnitSystem.SI)
    assert feature.device_head > 0 and feature.pump is FeaturePump.OWN
    assert feature.pipe_runs and all(run.assumed for run in feature.pipe_runs)


def test_forms_fit_the_kind() -> None:
    river = new_attraction(AttractionKind.LAZY_RIVER, UnitSystem.US).zones[0].shape
    spa = new_attraction(AttractionKind.SPA, UnitSystem.US).zones[0].shape
    pad = new_attraction(AttractionKind.SPLASH_PAD, UnitSystem.US)
    assert isinstance(river, Channel) and river.closed
    assert isinstance(spa, Ellipse) and spa.length == spa.width
    assert isinstance(pad.zones[0].shape, SprayDeck)
    assert [feature.kind for feature in pad.features] == [FeatureKind.SPRAY_GROUP]


def test_numbers_are_round_in_the_units_of_the_site() -> None:
    us = new_attraction(AttractionKind.LAZY_RIVER, UnitSystem.US)
    si = new_attraction(AttractionKind.LAZY_RIVER, UnitSystem.SI)
    assert LENGTH.entry_text(us.zones[0].shape.length, UnitSystem.US) == "500"
    assert LENGTH.entry_text(si.zones[0].shape.length, UnitSystem.SI) == "150"
    assert TEMPERATURE.entry_text(us.water_temperature, UnitSystem.US) == "84"
    spray = new_feature(FeatureKind.SPRAY_GROUP, UnitSystem.SI)
    assert FLOW.entry_text(spray.flow_each, UnitSystem.SI) == "1.6"
    slide = new_feature(FeatureKind.SLIDE, UnitSystem.US)
    assert LENGTH.entry_text(slide.pump_plan.static_head, UnitSystem.US) == "25"
    assert LENGTH.entry_text(slide.device_head, UnitSystem.US) == "2"


def test_new_attraction_gets_a_system_of_its_own() -> None:
    site, first = add_attraction(new_site(), AttractionKind.SPA)
    site, second = add_attraction(site, AttractionKind.SPA)
    assert parent_of(site, first) is not parent_of(site, second)
    assert [system.name for system in site.systems] == ["System 1", "System 2"]
    assert find(site, second).name == "Spa 2"


def test_new_attraction_can_join_a_system() -> None:
    site, first = add_attraction(new_site(), AttractionKind.SPLASH_PAD)
    site, second = add_attraction(site, AttractionKind.WADING_POOL, site.systems[0].id)
    assert parent_of(site, first) is parent_of(site, second)


def test_system_that_is_gone_is_refused() -> None:
    with pytest.raises(EditRefused, match="no longer"):
        add_attraction(new_site(), AttractionKind.SPA, "gone")


def test_parts_get_free_names() -> None:
    site, pool = add_attraction(new_site(), AttractionKind.LEISURE_POOL)
    site = add_part(site, find(site, pool), new_zone(site.units))
    site = add_part(site, find(site, pool), new_zone(site.units))
    assert [zone.name for zone in find(site, pool).zones] == ["Basin", "Zone", "Zone 2"]


def test_deleted_numbers_do_not_lead_to_two_systems_of_one_name() -> None:
    site = Site(name="Site", systems=(new_system(new_site()).revised(name="System 2"),))
    assert new_system(site).name != "System 2"

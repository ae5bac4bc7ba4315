"""Runs that a new system and a new feature start with."""

import pytest

from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import AttractionKind, FeatureKind, LineKind, VelocityClass
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_points import add_attraction, new_feature, new_site, new_system
from waterpark_designer.model.starting_runs import starting_feature_runs, starting_runs
from waterpark_designer.model.walk import walk
from waterpark_designer.units import UnitSystem


def runs_of(site: Site) -> list[PipeRun]:
    return [node for node in walk(site) if isinstance(node, PipeRun)]


def test_a_new_system_and_its_features_are_piped_and_marked_as_assumed() -> None:
    site, _ = add_attraction(new_site(), AttractionKind.SPLASH_PAD)
    runs = runs_of(site)
    assert len(runs) > len(starting_runs())
    assert all(run.assumed and run.size == "" for run in runs)
    assert new_system(site).pipe_runs and new_feature(FeatureKind.SLIDE, UnitSystem.SI).pipe_runs


@pytest.mark.parametrize("make", [starting_runs, starting_feature_runs])
def test_runs_stand_in_flow_order(make) -> None:
    order = list(LineKind)
    places = [order.index(run.kind) for run in make()]
    assert places == sorted(places)


def test_each_set_has_its_own_nodes() -> None:
    ids = [run.id for _ in range(2) for run in (*starting_runs(), *starting_feature_runs())]
    assert len(set(ids)) == len(ids)


def test_what_runs_by_gravity_or_to_waste_is_not_in_the_pumps_head() -> None:
    aside = {run.kind for run in starting_runs() if not run.in_pump_head}
    assert {LineKind.GUTTER, LineKind.BACKWASH} <= aside
    on_path = [run.kind.velocity_class for run in starting_runs() if run.in_pump_head]
    assert VelocityClass.SUCTION in on_path and VelocityClass.PRESSURE in on_path


def test_a_check_valve_stands_after_each_pump() -> None:
    for runs, kind in ((starting_runs(), LineKind.PUMP_DISCHARGE), (starting_feature_runs(), LineKind.FEATURE_SUPPLY)):
        assert [run.kind for run in runs if run.check_valves] == [kind]

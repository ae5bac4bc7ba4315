"""A design that keeps what an edit did not touch is the design made afresh."""

import random

import pytest

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.model import edits
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.devices import Nozzle, SprayNozzle, SupplierFlow, TippingBucket, Weir
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import CurvePoint, EquipmentLosses, HydraulicTerms, PipeRun, PumpPlan
from waterpark_designer.model.kinds import (
    AttractionKind,
    FeatureKind,
    FilterMedium,
    FrictionMethod,
    LineKind,
    PipeStandard,
    PrimaryDisinfection,
    SecondaryDisinfection,
    ZoneCombination,
)
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_points import add_attraction, add_part, new_feature, new_system, new_zone
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan, RecirculationSystem, SecondaryPlan
from waterpark_designer.model.walk import walk
from waterpark_designer.units import UnitSystem

CODES = ("georgia-511-3-5-2024", "cdc-mahc-2023", "austria-bhygv-2012", "common-practice")
OVERRIDABLE = (
    "volume", "longest_turnover", "design_flow", "peak_occupancy", "feature_flow", "filter_rate_limit", "duty_head",
    "run_loss", "inside_diameter",
)  # fmt: skip
EDITS_EACH = 40


def of_sort(site: Site, sort: type) -> list:
    return [node for node in walk(site) if isinstance(node, sort)]


def some(chance: random.Random, site: Site, sort: type):
    """One node of a sort; the site itself where there is none."""
    return chance.choice(of_sort(site, sort) or [site])


def add(chance: random.Random, site: Site) -> Site:
    system = chance.choice([None, *(each.id for each in site.systems)])
    return add_attraction(site, chance.choice(list(AttractionKind)), system)[0]


def add_below(chance: random.Random, site: Site) -> Site:
    body = some(chance, site, Attraction)
    part = chance.choice([new_zone(site.units), new_feature(chance.choice(list(FeatureKind)), site.units)])
    return add_part(site, body, part)


def take_out(chance: random.Random, site: Site) -> Site:
    return edits.remove(site, chance.choice(list(walk(site))).id)


def double(chance: random.Random, site: Site) -> Site:
    return edits.duplicate(site, chance.choice(list(walk(site))).id)[0]


def move(chance: random.Random, site: Site) -> Site:
    if chance.random() < 0.3:
        return edits.move(site, some(chance, site, RecirculationSystem).id, site.id, 0)
    return edits.move(site, some(chance, site, Attraction).id, some(chance, site, RecirculationSystem).id, 0)


def revise_body(chance: random.Random, site: Site) -> Site:
    changes = chance.choice(
        [
            {"target_salinity": chance.choice([0.0, 3.0, 3.2])},
            {"measured_salinity": chance.choice([0.0, 1.0, 5.0])},
            {"kind": chance.choice(list(AttractionKind))},
            {"water_temperature": chance.uniform(290, 312)},
            {"bathers_a_day": chance.choice([None, 50, 900])},
            {"name": f"Body {chance.randrange(1000)}"},
        ]
    )
    return edits.revise(site, some(chance, site, Attraction).id, **changes)


DEVICES = (
    SupplierFlow(),
    Nozzle(bore=0.01, head=6.0),
    SprayNozzle(pressure=80_000.0),
    Weir(length=4.0, head=0.05, basin_area=10.0),
    TippingBucket(bucket_volume=0.7, time_between_tips=180.0),
)


def revise_system(chance: random.Random, site: Site) -> Site:
    changes = chance.choice(
        [
            {"design_margin": chance.choice([0.0, 0.1, 0.25])},
            {"combination": chance.choice(list(ZoneCombination))},
            {"surge_volume": chance.choice([0.0, 20.0])},
            {"filters": FilterPlan(medium=chance.choice(list(FilterMedium)), spare=chance.random() < 0.5)},
            {"disinfection": DisinfectionPlan(primary=chance.choice(list(PrimaryDisinfection)))},
            {"secondary": SecondaryPlan(kind=chance.choice(list(SecondaryDisinfection)))},
            {"standby_pump": chance.random() < 0.5},
        ]
    )
    return edits.revise(site, some(chance, site, RecirculationSystem).id, **changes)


def revise_feature(chance: random.Random, site: Site) -> Site:
    changes = chance.choice(
        [
            {"flow_each": chance.uniform(0.001, 0.1)},
            {"transit_time": chance.choice([None, 10.0, 60.0])},
            {"device": chance.choice(DEVICES)},
        ]
    )
    return edits.revise(site, some(chance, site, Feature).id, **changes)


def revise_run(chance: random.Random, site: Site) -> Site:
    changes = chance.choice(
        [
            {"length": chance.uniform(0, 300)},
            {"size": chance.choice(["", "3", "6", "12"])},
            {"kind": chance.choice(list(LineKind))},
            {"count": chance.randrange(1, 6), "flow_share": chance.choice([0.5, 1.0])},
            {"elbows_90": chance.randrange(9), "check_valves": chance.randrange(2)},
            {"in_pump_head": chance.random() < 0.5},
            {"standard": chance.choice(list(PipeStandard))},
        ]
    )
    return edits.revise(site, some(chance, site, PipeRun).id, **changes)


def revise_pump(chance: random.Random, site: Site) -> Site:
    plan = PumpPlan(
        count=chance.randrange(1, 4), static_head=chance.uniform(0, 5), night_flow=chance.choice([0.6, 1.0]),
        curve=chance.choice([(), (CurvePoint(flow=0.0, head=30.0), CurvePoint(flow=0.1, head=5.0))]))  # fmt: skip
    if chance.random() < 0.5:
        return edits.revise(site, some(chance, site, Feature).id, pump_plan=plan)
    losses = EquipmentLosses(filter_clean=chance.choice([None, 3.0]), filter_dirt=chance.choice([None, 6.0]))
    return edits.revise(site, some(chance, site, RecirculationSystem).id, pump=plan, equipment=losses)


def revise_site(chance: random.Random, site: Site) -> Site:
    changes = chance.choice(
        [
            {"units": chance.choice(list(UnitSystem))},
            {"code_basis": tuple(chance.sample(CODES, chance.randrange(1, 4)))},
            {"turnovers_counted": chance.choice([1.0, 6.0])},
            {"losses": site.losses.revised(splash_out=chance.uniform(0.001, 0.02))},
            {"revision": f"R{chance.randrange(100)}"},
            {"hydraulics": HydraulicTerms(method=chance.choice(list(FrictionMethod)), altitude=900.0)},
        ]
    )
    return edits.revise(site, site.id, **changes)


def override(chance: random.Random, site: Site) -> Site:
    node = chance.choice(list(walk(site)))
    return edits.set_override(site, node.id, chance.choice(OVERRIDABLE), chance.uniform(0.01, 500), "Set for this test")


def clear(chance: random.Random, site: Site) -> Site:
    node = some(chance, site, object)
    return edits.clear_override(site, node.id, chance.choice(OVERRIDABLE))


def add_empty_system(chance: random.Random, site: Site) -> Site:
    return edits.insert(site, site.id, new_system(site))


WAYS = (
    add, add_below, take_out, double, move, revise_body, revise_system, revise_feature, revise_run, revise_pump,
    revise_site, override, clear, add_empty_system,
)  # fmt: skip


def edited(chance: random.Random, site: Site) -> Site:
    """The site after one edit; as it was where the edit makes no sense."""
    try:
        return chance.choice(WAYS)(chance, site)
    except (edits.EditRefused, ValueError, TypeError):
        return site


def told(design: SiteDesign) -> dict:
    """All that a design says, figure by figure."""
    return {
        "figures": {
            (node, key): (figure.value, figure.computed, figure.override)
            for node, sheet in design.sheets.items()
            for key, figure in sheet.figures.items()
        },
        "limits": {node: sheet.limits for node, sheet in design.sheets.items()},
        "nodes": {node: sheet.node for node, sheet in design.sheets.items()},
        "findings": design.findings,
        "by sheet": {node: sheet.findings for node, sheet in design.sheets.items()},
        "equipment": design.equipment,
        "uses": design.limit_uses,
        "curves": design.curves,
    }


@pytest.mark.parametrize("seed", range(8))
def test_keeping_what_did_not_change_changes_nothing(seed, design, small_site):
    chance = random.Random(seed)
    site, before = small_site, design(small_site)
    changed = 0
    for _ in range(EDITS_EACH):
        after = edited(chance, site)
        changed += after is not site
        before = design(after, before)
        assert told(before) == told(design(after))
        site = after
    assert changed > EDITS_EACH / 2


def test_undo_finds_the_first_design_again(design, small_site):
    chance = random.Random(99)
    first = design(small_site)
    site, done = small_site, first
    for _ in range(20):
        site = edited(chance, site)
        done = design(site, done)
    assert told(design(small_site, done)) == told(first)


def test_what_an_edit_did_not_touch_is_the_same_sheet(design, small_site):
    first = design(small_site)
    touched, *others = small_site.systems
    after = edits.revise(small_site, touched.attractions[0].id, target_salinity=3.0)
    second = design(after, first)
    for system in others:
        for node in walk(system):
            assert second.sheets[node.id] is first.sheets[node.id]
    assert second.sheets[touched.id] is not first.sheets[touched.id]
    assert second.value(touched.id, "salt_mass") > 0


def test_an_edit_of_one_body_keeps_the_first_stage_of_its_neighbour(design, small_site):
    first = design(small_site)
    pad, wading = small_site.systems[-1].attractions
    second = design(edits.revise(small_site, pad.id, bathers_a_day=321), first)
    volume = first.sheets[wading.id].figures["volume"]
    assert second.sheets[wading.id].figures["volume"] is volume


def test_an_edit_of_a_run_works_its_own_system_only(design, small_site):
    first = design(small_site)
    touched, *others = small_site.systems
    [run, *_] = [each for each in touched.pipe_runs if each.in_pump_head]
    second = design(edits.revise(small_site, run.id, length=run.length + 100), first)
    assert second.value(touched.id, "duty_head") > first.value(touched.id, "duty_head")
    assert second.value(run.id, "friction_loss") > first.value(run.id, "friction_loss")
    for system in others:
        for node in walk(system):
            assert second.sheets[node.id] is first.sheets[node.id]
        assert second.curves[system.id] is first.curves[system.id]
    for body in touched.attractions:
        assert second.sheets[body.id].figures["volume"] is first.sheets[body.id].figures["volume"]


def test_another_law_of_friction_keeps_none(design, small_site):
    first = design(small_site)
    terms = HydraulicTerms(method=FrictionMethod.HAZEN_WILLIAMS)
    second = design(edits.revise(small_site, small_site.id, hydraulics=terms), first)
    assert not {id(sheet) for sheet in first.sheets.values()} & {id(sheet) for sheet in second.sheets.values()}
    loop = small_site.systems[0].id
    assert second.value(loop, "duty_head") != first.value(loop, "duty_head")


def test_a_price_or_a_title_keeps_every_sheet(design, small_site):
    first = design(small_site)
    second = design(edits.revise(small_site, small_site.id, client="Somebody", units=UnitSystem.SI), first)
    for system in small_site.systems:
        for node in walk(system):
            assert second.sheets[node.id] is first.sheets[node.id]


def test_another_code_basis_keeps_none(design, small_site):
    first = design(small_site)
    second = design(edits.revise(small_site, small_site.id, code_basis=("cdc-mahc-2023",)), first)
    assert not {id(sheet) for sheet in first.sheets.values()} & {id(sheet) for sheet in second.sheets.values()}


def test_a_design_is_not_changed_by_the_next(design, small_site):
    first = design(small_site)
    before = told(first)
    site, done = small_site, first
    chance = random.Random(7)
    for _ in range(15):
        site = edited(chance, site)
        done = design(site, done)
    assert told(first) == before


def test_a_node_is_found_as_it_stands_in_the_tree(design, small_site):
    site, done, chance = small_site, design(small_site), random.Random(11)
    for _ in range(15):
        site = edited(chance, site)
        done = design(site, done)
        assert all(done.node(node.id) is node for node in walk(site))
    assert done.node("nobody") is None

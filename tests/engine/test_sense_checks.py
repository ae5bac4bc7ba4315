"""Each sense check stops at what makes no sense, and is quiet where it does."""

import ast
import inspect

import pytest

from waterpark_designer.engine import sense_checks
from waterpark_designer.engine.findings import Status
from waterpark_designer.model.devices import SlideLanes
from waterpark_designer.model.edits import set_override
from waterpark_designer.model.kinds import FeaturePump, FeatureWater, FilterMedium, PrimaryDisinfection
from waterpark_designer.model.openings import TankPlan
from waterpark_designer.model.site import WaterLosses
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan
from waterpark_designer.model.zones import DepthStation, Island, Outline, OutlinePoint, Rectangle, SprayDeck
from waterpark_designer.units import FILTER_RATE, FLOW, GALLON

CAUTION, NOT_MET, UNKNOWN, MET = Status.CAUTION, Status.NOT_MET, Status.UNKNOWN, Status.MET


def of_depth(build, *stations, length=10.0, deductions=()):
    places = tuple(DepthStation(distance=at, depth=depth) for at, depth in stations)
    shape = Rectangle(length=length, width=5.0, stations=places)
    return build.site(build.pool(zones=(build.zone("Basin", shape=shape, deductions=deductions),)))


def outlined(build, *depths):
    """An outline of ten metres by ten with these depths at its corners."""
    places = zip(((0, 0), (10, 0), (10, 10), (0, 10)), depths, strict=True)
    shape = Outline(points=tuple(OutlinePoint(x=float(x), y=float(y), depth=depth) for (x, y), depth in places))
    return build.site(build.pool(zones=(build.zone("Basin", shape=shape),)))


def salty(build, measured):
    return build.site(build.pool(measured_salinity=measured, target_salinity=3.2))


def deck(build, feature_gpm):
    return build.site(build.pad(feature_gpm, tank=2_000))


def feature(build, **fields):
    jets = build.feature("Jets", **({"flow": 100} | fields))
    return build.site(build.pool(features=(jets,)), amendments=(build.turnover(6),))


def targets(build, *salinities):
    bodies = [build.pool(name=f"Pool-{number}", target_salinity=each) for number, each in enumerate(salinities)]
    return build.site(build.system(*bodies))


def tanks(build, *names):
    """Systems whose surge tanks have these names."""
    plans = [TankPlan(shared_name=name) for name in names]
    loops = [build.system(build.pool(name=f"Pool-{n}"), name=f"Loop-{n}", tanks=plan) for n, plan in enumerate(plans)]
    return build.site(*loops)


def shared(build, gpm):
    """Two bodies of water on 1,000 gpm, one of them given a flow by hand."""
    bodies = [build.pool(name=name, gallons=60_000) for name in ("One", "Two")]
    site = build.site(build.system(*bodies), amendments=(build.turnover(2),))
    return set_override(site, "One", "design_flow", FLOW.us.to_si(gpm), "Valve set on site")


def disinfected(build, primary, target, **fields):
    plan = DisinfectionPlan(primary=PrimaryDisinfection(primary))
    body = build.pool(target_salinity=target, measured_salinity=target, bathers_a_day=500)
    # Cartridges are not backwashed, so that only bathers take salt water away.
    filters = FilterPlan(medium=FilterMedium.CARTRIDGE)
    return build.site(build.system(body, disinfection=plan, filters=filters), **fields)


def drift(build, carried_gallons):
    """Brine brings 3.2 · 5.5 g of salt a visit: at 4 gal a visit it settles at 1,162 mg/L, at 1 gal at 4,650."""
    losses = WaterLosses(splash_out=0.0, carry_out=carried_gallons * GALLON)
    return disinfected(build, "brine_fed", 3.2, losses=losses)


def lifted(build, gpm_a_square_foot, celsius=27.0, medium=FilterMedium.HIGH_RATE_SAND):
    """A pool whose sand beds are washed at a rate."""
    plan = FilterPlan(medium=medium, backwash_rate=FILTER_RATE.us.to_si(gpm_a_square_foot))
    return build.site(build.system(build.pool(water_temperature=celsius + 273.15), filters=plan))


def filtered_features(build, own, drawn=0, recycled=0):
    """500 gpm pass the filters; features [gpm] with filtered water by pumps of their own or drawn, and recycled."""
    features = (
        build.feature("Own", own, water=FeatureWater.FILTERED, pump=FeaturePump.OWN),
        build.feature("Drawn", drawn, water=FeatureWater.FILTERED, pump=FeaturePump.RECIRCULATION),
        build.feature("Recycled", recycled, water=FeatureWater.RECYCLED, pump=FeaturePump.OWN),
    )
    loop = build.system(build.pool(features=features), fixed_flow=FLOW.us.to_si(500))
    return build.site(loop, amendments=(build.turnover(24),))


def beyond_pump(build, flow):
    """The pump gives 1,000 gpm."""
    jets = build.feature("Jets", flow, pump=FeaturePump.RECIRCULATION, water=FeatureWater.FILTERED)
    loop = build.system(build.pool(features=(jets,)), fixed_flow=FLOW.us.to_si(1_000))
    return build.site(loop, amendments=(build.turnover(6),))


def pad_and(build, *others):
    return build.site(build.system(build.pad(300, tank=2_000), *others))


def washed(build, count, flow):
    """Filters of 12.57 ft², washed at 15 gpm/ft² with 188 gpm, held to 15 gpm/ft²."""
    rate = FILTER_RATE.us.to_si(15)
    plan = FilterPlan(item="High-rate sand filter, 48 in vertical", count=count, backwash_rate=rate)
    loop = build.system(build.pool(), filters=plan, fixed_flow=FLOW.us.to_si(flow))
    return build.site(loop, amendments=(build.turnover(24), build.limit("filter_rate", rate)))


def overridden(build, key):
    return set_override(build.site(build.pool()), "Pool", key, 2.0, "Measured on site")


# Key: where it stops, how, and where it is quiet (or says “met”).
CASES = {
    "zero_depth": (lambda b: of_depth(b, (0, 0.0)), NOT_MET, lambda b: of_depth(b, (0, 0.1))),
    "deductions": (
        lambda b: of_depth(b, (0, 1.0), deductions=(Island(area=60.0, perimeter=30.0, depth=1.0),)),
        NOT_MET,
        lambda b: of_depth(b, (0, 1.0), deductions=(Island(area=40.0, perimeter=30.0, depth=1.0),)),
    ),
    "station_beyond": (lambda b: of_depth(b, (0, 1.0), (11, 2.0)), CAUTION, lambda b: of_depth(b, (0, 1.0), (10, 2.0))),
    "floor_not_plane": (lambda b: outlined(b, 3.0, 1.0, 1.0, 1.0), CAUTION, lambda b: outlined(b, 2.0, 3.0, 2.0, 1.0)),
    "too_salty": (lambda b: salty(b, 3.3), CAUTION, lambda b: salty(b, 3.2)),
    "no_volume": (lambda b: b.site(b.pad(300)), UNKNOWN, lambda b: deck(b, 300)),
    "no_features": (lambda b: deck(b, 0), CAUTION, lambda b: deck(b, 300)),
    "no_feature_flow": (lambda b: feature(b, flow=0), CAUTION, lambda b: feature(b)),
    "feature_flow_unknown": (
        lambda b: feature(b, device=SlideLanes()),
        UNKNOWN,
        lambda b: feature(b, device=SlideLanes(flow_per_lane=0.05)),
    ),
    "salinity_conflict": (lambda b: targets(b, 3.2, 3.4), NOT_MET, lambda b: targets(b, 3.2, 3.2)),
    "bodies_beyond_system": (lambda b: shared(b, 510), NOT_MET, lambda b: shared(b, 490)),
    "cells_without_salt": (
        lambda b: disinfected(b, "in_return_cells", 0.0),
        NOT_MET,
        lambda b: disinfected(b, "brine_fed", 0.0),
    ),
    "cell_salinity": (
        lambda b: disinfected(b, "in_return_cells", 2.0),
        CAUTION,
        lambda b: disinfected(b, "in_return_cells", 3.2),
    ),
    "salinity_drift": (lambda b: drift(b, 1), CAUTION, lambda b: drift(b, 4)),
    "feature_beyond_pump": (lambda b: beyond_pump(b, 1_001), NOT_MET, lambda b: beyond_pump(b, 999)),
    "features_beyond_filters": (
        lambda b: filtered_features(b, 300, drawn=201),
        NOT_MET,
        lambda b: filtered_features(b, 300, drawn=199, recycled=5_000),
    ),
    "feature_source": (
        lambda b: feature(b, pump=FeaturePump.RECIRCULATION, water=FeatureWater.RECYCLED),
        CAUTION,
        lambda b: feature(b, pump=FeaturePump.OWN, water=FeatureWater.RECYCLED),
    ),
    "tank_of_several_systems": (lambda b: tanks(b, "T-1", "t-1 "), NOT_MET, lambda b: tanks(b, "T-1", "T-2", "", "")),
    "shared_tank": (lambda b: pad_and(b, b.pool("wading_pool", "Cove")), CAUTION, pad_and),
    "backwash_flow": (lambda b: washed(b, 2, 188), CAUTION, lambda b: washed(b, 2, 189)),
    # Three filters, one out: 2 × 12.57 ft² at 15 gpm/ft² pass 377 gpm.
    "filter_one_out": (lambda b: washed(b, 3, 378), CAUTION, lambda b: washed(b, 3, 376)),
    # 0.5 mm sand by the Ergun balance (scipy's brentq): 20 % at 12 gpm/ft² and 27 °C, 50.2 % at 18 gpm/ft² and 15 °C.
    "bed_lifted": (lambda b: lifted(b, 9), CAUTION, lambda b: lifted(b, 12)),
    "bed_kept": (lambda b: lifted(b, 18, 15), CAUTION, lambda b: lifted(b, 17.5, 15)),
    "override": (lambda b: overridden(b, "volume"), CAUTION, lambda b: b.site(b.pool())),
    "override_idle": (lambda b: overridden(b, "filter_rate"), CAUTION, lambda b: overridden(b, "volume")),
    "rule_set_missing": (
        lambda b: b.site(b.pool(), codes=("nowhere-2020",)),
        NOT_MET,
        lambda b: b.site(b.pool(), codes=("cdc-mahc-2023",)),
    ),
    "no_code_basis": (lambda b: b.site(b.pool()), UNKNOWN, lambda b: b.site(b.pool(), amendments=(b.turnover(6),))),
    "no_systems": (lambda b: b.site(), CAUTION, lambda b: b.site(b.pool())),
    "no_water": (lambda b: b.site(b.system()), CAUTION, lambda b: b.site(b.system(b.pool()))),
}


@pytest.mark.parametrize("key", CASES)
def test_each_sense_check_both_ways(key, build, findings):
    stops, status, quiet = CASES[key]
    found = findings(stops(build), key)
    assert [finding.status for finding in found] == [status]
    assert found[0].remedy.endswith((".", "site"))
    assert found[0].title
    assert {finding.status for finding in findings(quiet(build), key)} <= {MET}


def test_every_sense_check_of_the_module_is_tried():
    calls = [each for each in ast.walk(ast.parse(inspect.getsource(sense_checks))) if isinstance(each, ast.Call)]
    notes = [each for each in calls if isinstance(each.func, ast.Name) and each.func.id == "noted"]
    keys = {note.args[1].value for note in notes if isinstance(note.args[1], ast.Constant)}
    assert keys == set(CASES)


def test_the_backwash_that_is_covered_is_said_to_be(build, findings):
    assert [finding.status for finding in findings(washed(build, 2, 189), "backwash_flow")] == [MET]


def test_the_expansion_of_a_bed_is_a_range(build, figure, design):
    # 27 °C, 15 gpm/ft²: 28.95 % by the Ergun balance, 16.4 % by Richardson and Zaki, lifting from 4.15 gpm/ft².
    site = lifted(build, 15)
    assert figure(site, "Loop", "bed_expansion_warm") == pytest.approx(0.2895, abs=1e-3)
    # Their settling rate is within 3 % of the library's, by another drag: a point of expansion.
    assert figure(site, "Loop", "bed_expansion_least") == pytest.approx(0.164, abs=0.012)
    assert FILTER_RATE.us.from_si(figure(site, "Loop", "fluidising_rate")) == pytest.approx(4.15, rel=2e-3)
    # Pools of 27 and 15 °C on one system: 39.86 % with the cold water.
    loop = site.systems[0]
    both = loop.revised(attractions=(*loop.attractions, build.pool(name="Plunge", water_temperature=288.15)))
    cold = build.site(both)
    assert figure(cold, "Loop", "bed_expansion_cold") == pytest.approx(0.3986, abs=1e-3)
    assert figure(cold, "Loop", "bed_expansion_warm") == figure(site, "Loop", "bed_expansion_warm")
    for medium in (FilterMedium.TWO_LAYER, FilterMedium.PRECOAT):
        assert "bed_expansion_cold" not in design(lifted(build, 15, medium=medium)).sheets["Loop"].figures


def test_a_sense_check_does_not_pose_as_a_code(build, findings):
    (finding,) = findings(salty(build, 3.3), "too_salty")
    assert (finding.clause, finding.provenance) == ("Sense check", "common practice")


def test_an_override_shows_its_reason_and_value(build, findings):
    (finding,) = findings(overridden(build, "volume"), "override")
    assert (finding.node, finding.figure, finding.value) == ("Pool", "volume", 2.0)
    assert "Measured on site" in finding.remedy


def test_filtered_features_with_a_pump_of_their_own_are_weighed_too(build, findings):
    (finding,) = findings(filtered_features(build, 3_000), "features_beyond_filters")
    assert FLOW.us.from_si(finding.value) == pytest.approx(3_000)
    assert FLOW.us.from_si(finding.limit) == pytest.approx(500)


def test_rounding_noise_makes_no_feature_too_many(build, findings):
    assert findings(filtered_features(build, 300, drawn=200, recycled=5_000), "features_beyond_filters") == []


def test_a_pump_that_gives_too_little_is_found_once(build, findings):
    site = filtered_features(build, 300, drawn=501)
    assert [finding.status for finding in findings(site, "feature_beyond_pump")] == [NOT_MET]
    assert findings(site, "features_beyond_filters") == []


def test_no_depth_is_asked_of_a_spray_deck(build, findings):
    decks = tuple(build.zone(name, shape=SprayDeck(area=100.0, tank_volume=10.0)) for name in ("North", "South"))
    assert findings(build.site(build.pool("splash_pad", zones=decks)), "zero_depth") == []


def test_an_island_as_wide_as_its_zone_leaves_no_surface(build, findings):
    island = Island(area=60.0, perimeter=30.0, depth=0.1)
    (found,) = findings(of_depth(build, (0, 1.0), deductions=(island,)), "deductions")
    assert found.figure == "surface_area"


def test_one_filter_only_is_no_question_of_one_out(build, findings):
    assert findings(washed(build, 1, 100), "filter_one_out") == []


def test_no_site_is_stopped_at_without_reason(build, design):
    # A salt pool with all its limits met and nothing odd about it.
    body = build.pool(target_salinity=3.2, bathers_a_day=100)
    limits = (
        build.turnover(6),
        build.limit("area_per_bather", 2.0),
        build.limit("filter_rate", FILTER_RATE.us.to_si(15)),
        build.limit("backwash_rate_least", FILTER_RATE.us.to_si(12)),
        build.limit("feed_per_volume", 5e-7),
    )
    plan = FilterPlan(item="High-rate sand filter, 36 in vertical", count=4)
    done = design(build.site(build.system(body, filters=plan), amendments=limits))
    assert {finding.status for finding in done.findings} == {MET}, [
        (finding.key, finding.remedy) for finding in done.findings if finding.status is not MET
    ]

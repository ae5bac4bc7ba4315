"""Each check of a code's limit can be met and can fail, and tells what would put it right."""

import ast
import inspect

import pytest

from waterpark_designer.engine import check_bodies, check_systems
from waterpark_designer.engine.findings import Status
from waterpark_designer.model.edits import set_override
from waterpark_designer.model.kinds import (
    AttractionKind,
    FeaturePump,
    FeatureWater,
    PrimaryDisinfection,
    SecondaryDisinfection,
    SecondaryFlow,
)
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan, SecondaryPlan
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS
from waterpark_designer.units import FILTER_RATE, FLOW, FOOT, GALLON, HOUR, MASS_RATE

MET, NOT_MET, SILENT, UNKNOWN = Status.MET, Status.NOT_MET, Status.SILENT, Status.UNKNOWN
ULTRAVIOLET = SecondaryPlan(kind=SecondaryDisinfection.ULTRAVIOLET)


def rate(gpm_per_square_foot):
    return FILTER_RATE.us.to_si(gpm_per_square_foot)


def at_turnover(build, hours_limit=6.0, gallons=120_000, flow=None, **fields):
    """A pool against a turnover limit, built for a flow [gpm] that is settled on."""
    fixed = None if flow is None else FLOW.us.to_si(flow)
    loop = build.system(build.pool(gallons=gallons, **fields), fixed_flow=fixed)
    return build.site(loop, amendments=(build.turnover(hours_limit),))


def by_load(build, flow):
    loop = build.system(build.pool(area=3_000), fixed_flow=FLOW.metric.to_si(flow))
    return build.site(loop, amendments=(build.limit("load_area", 3.0), build.limit("load_per_water", 0.5)))


def tank(build, gallons):
    limits = (build.limit("tank_least_volume", 1_000 * GALLON), build.turnover(0.5))
    return build.site(build.pad(100, tank=gallons), amendments=limits)


def ratio(build, feature_gpm, most):
    limits = (build.turnover(0.5), build.limit("feature_ratio", most))
    return build.site(build.pad(feature_gpm, tank=3_000), amendments=limits)


def separate(build, *names):
    bodies = [build.pool(name=name) for name in names]
    return build.site(build.system(*bodies), amendments=(build.limit("separate_system", 1.0),))


def filters(build, count, **fields):
    """1,200 gpm through so many filters of 12.57 ft² against 15 gpm/ft²."""
    plan = FilterPlan(item="High-rate sand filter, 48 in vertical", count=count, **fields)
    loop = build.system(build.pool(gallons=144_000), filters=plan)
    return build.site(loop, amendments=(build.turnover(2), build.limit("filter_rate", rate(15))))


def backwash(build, chosen, quantity, stated):
    loop = build.system(build.pool(), filters=FilterPlan(backwash_rate=rate(chosen)))
    return build.site(loop, amendments=(build.turnover(6), build.limit(quantity, rate(stated))))


def drawn_from_recirculation(build, flow):
    """1,000 gpm are least and 1,100 are built: 10 % of the least and all above it, 200 gpm, may feed features."""
    feature = build.feature("Jets", flow, pump=FeaturePump.RECIRCULATION, water=FeatureWater.FILTERED)
    loop = build.system(build.pool(gallons=120_000, features=(feature,)), design_margin=0.1)
    return build.site(loop, amendments=(build.turnover(2), build.limit("feature_share", 0.1)))


def generators(build, count):
    """40 lb a day needed from generators of 15 lb a day."""
    plan = DisinfectionPlan(primary=PrimaryDisinfection.BRINE_FED, item="Brine-fed generator, 15 lb/d", count=count)
    body = build.pool(bathers_a_day=0)
    limits = (build.turnover(6), build.limit("feed_per_volume", MASS_RATE.us.to_si(40) / (100_000 * GALLON)))
    return build.site(build.system(body, disinfection=plan), amendments=limits)


def secondary(build, plan, **limits):
    amendments = [build.limit(quantity, value) for quantity, value in limits.items()]
    loop = build.system(build.pool(gallons=100_000), secondary=plan)
    return build.site(loop, amendments=(build.turnover(2), *amendments))


def dilution(build, turnover_hours):
    """608.7 gpm by dilution in 9 h, inside or beyond what the recirculation brings."""
    loop = build.system(build.pool(gallons=100_000), secondary=ULTRAVIOLET)
    limits = (build.turnover(turnover_hours), build.limit("secondary_longest_time", 9 * HOUR))
    return build.site(loop, amendments=limits)


def surge(build, gallons):
    loop = build.system(build.pool(area=3_000), surge_volume=gallons * GALLON)
    limits = (build.turnover(6), build.limit("surge_per_area", GALLON / FOOT**2))
    return build.site(loop, amendments=limits)


def wading(build, depth, zone_kind=None):
    """A pool with a wading zone of a depth [ft], which may be 24 in in North Carolina; the basin beside it is deep."""
    zones = (build.zone("Pool basin", depth=depth * FOOT, kind=zone_kind), build.zone("Deep end", depth=2.0))
    kind, other = ("leisure_pool", zones) if zone_kind else ("wading_pool", zones[:1])
    loop = build.system(build.pool(kind, zones=other))
    return build.site(loop, codes=("north-carolina-18a-2543",))


def occupancy(build, *amendments):
    return build.site(build.pool(), amendments=(build.turnover(6), *amendments))


CASES = {
    "longest_turnover": (
        (lambda build: at_turnover(build, flow=334), MET),
        (lambda build: at_turnover(build, flow=333), NOT_MET),
        (lambda build: build.site(build.pool()), SILENT),
    ),
    # 3,000 ft² are 278.7 m²: 185.8 m³/h.
    "least_flow": ((lambda build: by_load(build, 186), MET), (lambda build: by_load(build, 185), NOT_MET)),
    "least_tank_volume": (
        (lambda build: tank(build, 1_000), MET),
        (lambda build: tank(build, 999), NOT_MET),
        (lambda build: build.site(build.pad(100, tank=1_000), amendments=(build.turnover(0.5),)), SILENT),
    ),
    # 3,000 gal in half an hour are 100 gpm of filtered water.
    "feature_ratio": ((lambda build: ratio(build, 300, 3), MET), (lambda build: ratio(build, 301, 3), NOT_MET)),
    # 15A NCAC 18A .2531: 24 in.
    "greatest_depth": (
        (lambda build: wading(build, 2.0), MET),
        (lambda build: wading(build, 2.05), NOT_MET),
        (lambda build: wading(build, 2.0, AttractionKind.WADING_POOL), MET),
        (lambda build: wading(build, 2.05, AttractionKind.WADING_POOL), NOT_MET),
    ),
    "separate_system": (
        (lambda build: separate(build, "One"), MET),
        (lambda build: separate(build, "One", "Two"), NOT_MET),
    ),
    "filter_rate": (
        (lambda build: filters(build, 7), MET),
        (lambda build: filters(build, 6), NOT_MET),
        (lambda build: at_turnover(build), SILENT),
    ),
    "backwash_rate_least": (
        (lambda build: backwash(build, 15, "backwash_rate_least", 15), MET),
        (lambda build: backwash(build, 14.9, "backwash_rate_least", 15), NOT_MET),
    ),
    "backwash_rate_most": (
        (lambda build: backwash(build, 20, "backwash_rate_most", 20), MET),
        (lambda build: backwash(build, 20.1, "backwash_rate_most", 20), NOT_MET),
    ),
    "feature_share": (
        (lambda build: drawn_from_recirculation(build, 200), MET),
        (lambda build: drawn_from_recirculation(build, 201), NOT_MET),
    ),
    "feed_capacity": ((lambda build: generators(build, 3), MET), (lambda build: generators(build, 2), NOT_MET)),
    "feed_stated": ((lambda build: at_turnover(build), SILENT),),
    "secondary_required": (
        (lambda build: secondary(build, ULTRAVIOLET, secondary_required=1.0), MET),
        (lambda build: secondary(build, SecondaryPlan(), secondary_required=1.0), NOT_MET),
    ),
    "secondary_log": (
        (lambda build: secondary(build, ULTRAVIOLET, secondary_log=3.0), MET),
        (lambda build: secondary(build, ULTRAVIOLET.revised(log_reduction=2.9), secondary_log=3.0), NOT_MET),
    ),
    "secondary_flow": ((lambda build: dilution(build, 2), MET), (lambda build: dilution(build, 3), NOT_MET)),
    "surge_per_area": ((lambda build: surge(build, 3_000), MET), (lambda build: surge(build, 2_999), NOT_MET)),
    "peak_occupancy": ((lambda build: occupancy(build), SILENT),),
}
EACH = [(key, make, status) for key, cases in CASES.items() for make, status in cases]


@pytest.mark.parametrize(("key", "make", "status"), EACH, ids=[f"{key} {status.value}" for key, _, status in EACH])
def test_each_check_both_ways(key, make, status, build, findings):
    site = make(build)
    found = findings(site, key)
    assert {finding.status for finding in found} == {status}
    for finding in found:
        assert finding.node in {"Pool", "Pool-basin", "Pad", "One", "Two", "Loop"}
        assert bool(finding.remedy) is (status is not MET)
        assert finding.title
        if status in (MET, NOT_MET):
            assert finding.clause
            assert finding.provenance


MAKERS = ("held_to", "duty", "said_nothing")


def keys_in(module):
    """The keys of the findings that a module's source makes, where they stand there as literals."""
    calls = [each for each in ast.walk(ast.parse(inspect.getsource(module))) if isinstance(each, ast.Call)]
    named = [each for each in calls if isinstance(each.func, ast.Name) and each.func.id in MAKERS]
    return {each.args[1].value for each in named if isinstance(each.args[1], ast.Constant)}


def test_every_check_of_the_module_is_tried():
    found = keys_in(check_bodies) | keys_in(check_systems)
    assert found - set(CASES) == set()
    assert set(CASES) - found <= set(LIMIT_KINDS), "their keys are those of the limits"


def test_full_flow_treatment_needs_no_check_of_its_flow(build, findings, figure):
    plan = ULTRAVIOLET.revised(flow=SecondaryFlow.FULL_FLOW)
    loop = build.system(build.pool(gallons=120_000), secondary=plan)
    site = build.site(loop, amendments=(build.turnover(2),))
    assert FLOW.us.from_si(figure(site, "Loop", "secondary_flow")) == pytest.approx(1_000)
    assert findings(site, "secondary_flow") == []


def test_a_duty_that_is_not_required_is_no_finding(build, findings):
    site = secondary(build, SecondaryPlan(), secondary_required=0.0)
    assert findings(site, "secondary_required") == []
    shared = build.system(build.pool(name="One"), build.pool(name="Two"))
    free = build.site(shared, amendments=(build.limit("separate_system", 0.0),))
    assert findings(free, "separate_system") == []


def test_a_code_silent_on_feed_is_found(build, findings):
    # Demand by bathers is no limit of a code: the feed capacity then rests on an estimate, and the check says so.
    site = build.site(build.pool(bathers_a_day=500, target_salinity=3.2), codes=("georgia-511-3-5-2024",))
    assert [finding.status for finding in findings(site, "feed_stated")] == [SILENT]
    (installed,) = findings(site, "feed_capacity")
    assert "per bather" in installed.clause


@pytest.mark.parametrize(("quantity", "value"), [("feed_per_volume", 5e-7), ("feed_per_flow", 0.012)])
def test_a_code_that_states_a_feed_is_not_called_silent(quantity, value, build, findings):
    site = build.site(build.pool(bathers_a_day=500), amendments=(build.turnover(6), build.limit(quantity, value)))
    assert findings(site, "feed_stated") == []


def test_a_feed_that_is_not_known_yet_is_no_silence(build, findings):
    # 12 ppm are stated, of a flow that waits for its turnover.
    site = build.site(build.pool(bathers_a_day=500), amendments=(build.limit("feed_per_flow", 0.012),))
    assert findings(site, "feed_stated") == []
    assert [finding.status for finding in findings(site, "feed_capacity")] == [UNKNOWN]


def test_the_clause_of_the_feed_that_governs_is_named(build, findings):
    # 12 ppm of 1,000 gpm are 144 lb a day, 4 lb for 10,000 gal are 48.
    body = build.pool(gallons=120_000, bathers_a_day=0)
    fulton, utah = "fulton-county-ga-34-582", "utah-r392-302-2024"
    for codes, words in (((utah, fulton), "Fulton"), ((utah,), "Utah")):
        (finding,) = findings(build.site(body, codes=codes, amendments=(build.turnover(2),)), "feed_capacity")
        assert words in finding.clause


@pytest.mark.parametrize("key", ["feed_by_flow", "feed_capacity"])
def test_a_feed_set_by_hand_is_not_laid_to_the_code(key, build, findings):
    body = build.pool("wave_pool", bathers_a_day=0)
    site = build.site(body, codes=("fulton-county-ga-34-582",), amendments=(build.turnover(2),))
    (finding,) = findings(set_override(site, "Loop", key, 0.01, "Agreed"), "feed_capacity")
    assert finding.limit == 0.01
    assert finding.provenance == "override"


def test_the_clause_of_the_stricter_feed_is_named(build, findings):
    bodies = (build.pool("wave_pool", "Waves", bathers_a_day=0), build.pool("spa", "Spa", bathers_a_day=0))
    feeds = (build.limit("feed_per_flow", 0.012, "wave_pool"), build.limit("feed_per_flow", 0.008, "spa"))
    (finding,) = findings(build.site(build.system(*bodies), amendments=(build.turnover(2), *feeds)), "feed_capacity")
    assert finding.provenance == "local amendment"

"""Where several kinds of water share equipment, the strictest of their limits holds for all."""

import pytest

from waterpark_designer.engine.findings import Status
from waterpark_designer.model.kinds import AttractionKind, FeaturePump, FeatureWater, SecondaryDisinfection
from waterpark_designer.model.systems import SecondaryPlan
from waterpark_designer.model.zones import SprayDeck
from waterpark_designer.units import FILTER_RATE, FLOW, FOOT, GALLON, HOUR, POUND, TEMPERATURE

MET, NOT_MET = Status.MET, Status.NOT_MET
LEISURE, SPA = "leisure_pool", "spa"


def rate(gpm_per_square_foot):
    return FILTER_RATE.us.to_si(gpm_per_square_foot)


def two_bodies(build):
    return build.pool(LEISURE, "Laps", gallons=110_000), build.pool(SPA, "Spa", gallons=10_000)


def one_body_of_two_kinds(build):
    zones = (build.zone("Main", gallons=110_000), build.zone("Bubbles", gallons=10_000, kind=AttractionKind.SPA))
    return (build.pool(LEISURE, "Laps", zones=zones),)


@pytest.fixture(params=[two_bodies, one_body_of_two_kinds])
def shared(request, build):
    """120,000 gal of two kinds of water on one loop, a kind each for body or zone, turning over in 2 h."""

    def site(*limits, features=(), **fields):
        first, *others = request.param(build)
        loop = build.system(first.revised(features=features), *others, **fields)
        return build.site(loop, amendments=(build.turnover(2), *limits))

    return site


# Quantity, its limit for the pool, its limit for the spa, the one that holds, the figure that shows it.
SHOWN = [
    ("filter_rate", rate(15), rate(10), rate(10), "filter_rate_limit"),
    ("filter_rate", rate(10), rate(15), rate(10), "filter_rate_limit"),
    ("backwash_rate_least", rate(12), rate(15), rate(15), "backwash_rate"),
    ("backwash_rate_least", rate(15), rate(12), rate(15), "backwash_rate"),
    # 120,000 gal in 2 h are 1,000 gpm.
    ("feed_per_flow", 0.012, 0.008, 0.012 * FLOW.us.to_si(1_000), "feed_by_flow"),
    ("feed_per_flow", 0.008, 0.012, 0.012 * FLOW.us.to_si(1_000), "feed_by_flow"),
    ("secondary_longest_time", 9 * HOUR, 6 * HOUR, 6 * HOUR, "secondary_time"),
    ("secondary_longest_time", 6 * HOUR, 9 * HOUR, 6 * HOUR, "secondary_time"),
    # Of 12 h closed.
    ("secondary_closed_share", 0.75, 0.5, 6 * HOUR, "secondary_time"),
]


@pytest.mark.parametrize(("quantity", "of_pool", "of_spa", "expected", "key"), SHOWN)
def test_the_strictest_holds(quantity, of_pool, of_spa, expected, key, shared, build, figure):
    limits = (build.limit(quantity, of_pool, LEISURE), build.limit(quantity, of_spa, SPA))
    site = shared(*limits, secondary=SecondaryPlan(kind=SecondaryDisinfection.ULTRAVIOLET))
    assert figure(site, "Loop", key) == pytest.approx(expected)


@pytest.mark.parametrize("kind", [LEISURE, SPA])
def test_a_kind_that_no_code_speaks_of_does_not_count(kind, shared, build, design):
    done = design(shared(build.limit("filter_rate", rate(12), kind)))
    value = done.value("Loop", "filter_rate_limit")
    assert FILTER_RATE.us.from_si(value) == pytest.approx(12)
    assert value.step.limit == "amendment:2"
    assert "Loop" in done.limit_uses["amendment:2"]


def test_the_working_shows_what_each_kind_is_allowed(shared, build, figure):
    limits = (build.limit("filter_rate", rate(15), LEISURE), build.limit("filter_rate", rate(10), SPA))
    step = figure(shared(*limits), "Loop", "filter_rate_limit").step
    assert step.joined == "least"
    assert {name: FILTER_RATE.us.from_si(value) for name, value in step.parts} == {
        AttractionKind.LEISURE_POOL.label: pytest.approx(15),
        AttractionKind.SPA.label: pytest.approx(10),
    }


def test_the_same_limit_for_both_is_a_limit_and_no_choice(shared, build, figure):
    limits = (build.limit("filter_rate", rate(15), LEISURE), build.limit("filter_rate", rate(15), SPA))
    assert figure(shared(*limits), "Loop", "filter_rate_limit").step.limit


@pytest.mark.parametrize(("backwash", "expected"), [(18, MET), (18.1, NOT_MET)])
def test_backwash_stays_below_the_lower_limit(backwash, expected, shared, build, findings):
    limits = (build.limit("backwash_rate_most", rate(20), LEISURE), build.limit("backwash_rate_most", rate(18), SPA))
    site = shared(*limits, build.limit("backwash_rate_least", rate(backwash)))
    assert [finding.status for finding in findings(site, "backwash_rate_most")] == [expected]


@pytest.mark.parametrize(("flow", "expected"), [(100, MET), (101, NOT_MET)])
def test_features_get_the_smaller_share(flow, expected, shared, build, findings):
    # A tenth of 1,000 gpm for the spa, a fifth for the pool.
    jets = build.feature("Jets", flow, pump=FeaturePump.RECIRCULATION, water=FeatureWater.FILTERED)
    limits = (build.limit("feature_share", 0.2, LEISURE), build.limit("feature_share", 0.1, SPA))
    site = shared(*limits, features=(jets,))
    assert [finding.status for finding in findings(site, "feature_share")] == [expected]


@pytest.mark.parametrize(("log", "expected"), [(4.0, MET), (3.5, NOT_MET)])
def test_treatment_gives_the_higher_log(log, expected, shared, build, findings):
    plan = SecondaryPlan(kind=SecondaryDisinfection.ULTRAVIOLET, log_reduction=log)
    limits = (build.limit("secondary_log", 3.0, LEISURE), build.limit("secondary_log", 4.0, SPA))
    assert [each.status for each in findings(shared(*limits, secondary=plan), "secondary_log")] == [expected]


@pytest.mark.parametrize(("gallons", "expected"), [(6_000, MET), (5_999, NOT_MET)])
def test_surge_takes_the_greater_share_of_surface(gallons, expected, shared, build, findings):
    # Two surfaces of 3,000 ft²; 1 gal for each square foot is asked of the pool, half of the spa.
    each = GALLON / FOOT**2
    limits = (build.limit("surge_per_area", each, LEISURE), build.limit("surge_per_area", each / 2, SPA))
    site = shared(*limits, surge_volume=gallons * GALLON)
    assert [finding.status for finding in findings(site, "surge_per_area")] == [expected]


@pytest.mark.parametrize(("plan", "expected"), [("ultraviolet", MET), ("none", NOT_MET)])
def test_secondary_treatment_for_one_kind_is_asked_of_the_loop(plan, expected, shared, build, findings):
    site = shared(
        build.limit("secondary_required", 1.0, SPA), secondary=SecondaryPlan(kind=SecondaryDisinfection(plan))
    )
    assert [finding.status for finding in findings(site, "secondary_required")] == [expected]


def test_an_amendment_for_one_kind_reaches_system_wide_limits(build, findings):
    # Features of lazy rivers may take a tenth; a lazy river on the system is enough for the limit to apply.
    feature = build.feature("Jets", 900, pump=FeaturePump.RECIRCULATION, water=FeatureWater.FILTERED)
    river = build.pool("lazy_river", gallons=120_000, features=(feature,))
    limits = (build.turnover(2), build.limit("feature_share", 0.1, "lazy_river"))
    site = build.site(build.system(river), amendments=limits)
    assert [finding.status for finding in findings(site, "feature_share")] == [NOT_MET]


# Checks of one body, by the kinds of its zones.


@pytest.mark.parametrize(("flow", "expected"), [(300, MET), (301, NOT_MET)])
def test_the_ratio_of_features_goes_by_the_strictest_zone(flow, expected, build, findings):
    # 3,000 gal of tank in half an hour are 100 gpm filtered; three times as much for the deck, four for the basin.
    deck = build.zone("Deck", shape=SprayDeck(area=100.0, tank_volume=2_000 * GALLON), kind=AttractionKind.SPLASH_PAD)
    basin = build.zone("Wading", gallons=1_000, kind=AttractionKind.WADING_POOL)
    body = build.pool(zones=(basin, deck), features=(build.feature("Sprays", flow),))
    limits = (build.limit("feature_ratio", 3, "splash_pad"), build.limit("feature_ratio", 4, "wading_pool"))
    site = build.site(body, amendments=(build.turnover(0.5), *limits))
    assert [finding.status for finding in findings(site, "feature_ratio")] == [expected]


@pytest.mark.parametrize(("others", "expected"), [((), MET), (("Other",), NOT_MET)])
def test_a_zone_may_ask_for_a_system_of_its_own(others, expected, build, findings):
    # 15A NCAC 18A .2531: wading pools; here one is a zone of a leisure pool.
    zones = (build.zone("Main"), build.zone("Cove", kind=AttractionKind.WADING_POOL))
    loop = build.system(build.pool(zones=zones), *(build.pool(name=name) for name in others))
    site = build.site(loop, codes=("north-carolina-18a-2543",), amendments=(build.turnover(6),))
    found = findings(site, "separate_system")
    assert [(finding.node, finding.status) for finding in found] == [("Pool", expected)]


def test_feed_by_volume_counts_a_zone_of_another_kind(build, design):
    # 4 lb a day for 10,000 gal of spa; the spa is a zone of 2,000 gal. At least its own part is needed.
    zones = (build.zone("Main"), build.zone("Bubbles", gallons=2_000, kind=AttractionKind.SPA))
    feed = build.limit("feed_per_volume", 4e-4 * POUND / 86400 / GALLON, SPA)
    site = build.site(build.pool(zones=zones, bathers_a_day=0), amendments=(build.turnover(1), feed))
    assert design(site).value("Loop", "feed_capacity") * 86400 / POUND >= 0.8 * (1 - 1e-9)


def test_water_renewed_counts_a_zone_of_another_kind(build, design):
    zones = (build.zone("Main"), build.zone("Cove", kind=AttractionKind.WADING_POOL))
    renewed = build.limit("replacement_per_bather", 4 * GALLON, "wading_pool")
    site = build.site(build.pool(zones=zones, bathers_a_day=100), amendments=(build.turnover(6), renewed))
    assert design(site).value("Loop", "replacement_water") > 0


# A silence holds for the water it was found on.


def therapy(build, name, fahrenheit):
    body = build.pool("therapy_pool", name, water_temperature=TEMPERATURE.us.to_si(fahrenheit))
    return build.system(body, name=f"Loop-{name}")


@pytest.mark.parametrize("order", [("Cold", "Warm"), ("Warm", "Cold")])
def test_a_silence_goes_by_the_temperature(order, build, findings):
    # Wisconsin SPS 390.14, Table 390.14-2: from 72 °F on, by gallons a person, which is not known; silent below.
    loops = {"Cold": therapy(build, "Cold", 60), "Warm": therapy(build, "Warm", 88)}
    site = build.site(*(loops[name] for name in order), codes=("wisconsin-sps-390-2024",))
    found = {finding.node: finding.status for finding in findings(site, "longest_turnover")}
    assert found == {"Cold": Status.SILENT, "Warm": Status.UNKNOWN}


def test_a_silence_is_not_kept_through_an_edit(build, design):
    sites = [build.site(therapy(build, "Pool", each), codes=("wisconsin-sps-390-2024",)) for each in (60, 88)]
    kept = design(sites[1], design(sites[0]))
    assert kept.findings == design(sites[1]).findings

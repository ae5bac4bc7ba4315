"""Zones of one body: how their limits and kinds come together."""

import random

import pytest

from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Missing
from waterpark_designer.model.edits import set_override
from waterpark_designer.model.kinds import AttractionKind, SecondaryDisinfection, Setting, ZoneCombination
from waterpark_designer.model.systems import SecondaryPlan
from waterpark_designer.model.zones import Bench, Island, SprayDeck
from waterpark_designer.units import DAY, FOOT, GALLON, HOUR, POUND

AUSTRIA, MAHC, GEORGIA = "austria-bhygv-2012", "cdc-mahc-2023", "georgia-511-3-5-2024"


@pytest.fixture
def two_zones(build):
    """60,000 gal at 6 h and 20,000 gal at 1 h in one body, combined as told."""

    def build_site(combination, **fields):
        zones = (
            build.zone("Basin", gallons=60_000, area=2_000),
            build.zone("Landing", gallons=20_000, area=500, kind=AttractionKind.PLUNGE_POOL),
        )
        loop = build.system(build.pool(zones=zones), combination=ZoneCombination(combination), **fields)
        return build.site(loop, amendments=(build.turnover(1, "plunge_pool"), build.turnover(6)))

    return build_site


@pytest.mark.parametrize(
    ("combination", "hours"),
    [("shortest", 1.0), ("sum", 80_000 / (60_000 / 6 + 20_000)), ("volume_weighted", (60 * 6 + 20) / 80)],
)
def test_zones_combine_as_chosen(combination, hours, two_zones, figure):
    site = two_zones(combination)
    assert figure(site, "Pool", "longest_turnover") == pytest.approx(hours * HOUR)
    assert figure(site, "Loop", "design_flow") == pytest.approx(80_000 * GALLON / (hours * HOUR))


@pytest.mark.parametrize(("combination", "hours"), [("shortest", 1), ("sum", 80 / 30), ("volume_weighted", 380 / 80)])
def test_a_volume_set_by_hand_keeps_the_time_of_the_zones(combination, hours, two_zones, figure):
    # A body found to hold twice as much on site gets twice the flow: no zone may turn over more slowly for it.
    site = set_override(two_zones(combination), "Pool", "volume", 160_000 * GALLON, "Filled by a meter")
    assert figure(site, "Pool", "longest_turnover") == pytest.approx(hours * HOUR)
    assert figure(site, "Pool", "least_flow") == pytest.approx(160_000 * GALLON / (hours * HOUR))


def test_the_ways_to_combine_name_their_codes(two_zones, figure):
    for combination, words in (("shortest", "Utah"), ("sum", "Wisconsin"), ("volume_weighted", "France")):
        assert words in figure(two_zones(combination), "Pool", "longest_turnover").step.source.text


def test_a_zone_is_held_to_the_limits_of_its_own_kind(two_zones, figure):
    assert figure(two_zones("sum"), "Landing", "longest_turnover") == 1 * HOUR
    assert figure(two_zones("sum"), "Basin", "longest_turnover") == 6 * HOUR


def test_a_zone_that_nothing_is_known_of_leaves_the_flow_open(build, design):
    # Austria sizes the pool by load, but its rules for whirlpools are not among those read: the spa's flow is unknown.
    zones = (
        build.zone("Main", gallons=80_000, area=2_700),
        build.zone("Bubbles", gallons=1_300, area=65, kind=AttractionKind.SPA),
    )
    done = design(build.site(build.pool(zones=zones), codes=(AUSTRIA,)))
    assert isinstance(done.value("Pool", "least_flow"), Missing)
    assert "spa" in done.sheets["Pool"].figures["least_flow"].value.needs


def test_a_silence_in_one_zone_is_a_silence_of_the_body(build, findings):
    zones = (build.zone("Main"), build.zone("Bubbles", kind=AttractionKind.SPA))
    site = build.site(build.pool(zones=zones), codes=("new-york-6-1-6-3-2025",))
    (found,) = findings(site, "longest_turnover")
    assert found.status is Status.SILENT
    assert "spa" in found.remedy


def test_what_stands_on_a_deck_takes_nothing_of_its_tank(build, figure):
    parts = (Bench(), Island(area=20.0, depth=1.0))
    deck = build.zone("Deck", shape=SprayDeck(area=100.0, tank_volume=8.0), deductions=parts)
    site = build.site(build.pool("splash_pad", zones=(deck,)))
    assert figure(site, "Pool", "volume") == 8.0
    assert figure(site, "Pool", "surface_area") == 80.0


def test_occupancy_adds_up_by_zone(build, figure):
    # Model code: 2,000 ft² of flat water at 20, 300 ft² of hot water at 10 ft² a bather.
    zones = (build.zone("Main", area=2_000), build.zone("Bubbles", area=300, kind=AttractionKind.SPA))
    site = build.site(build.pool("lap_pool", zones=zones), codes=(MAHC,))
    assert figure(site, "Pool", "peak_occupancy") == pytest.approx(100 + 30)


def test_slide_capacity_stands_in_for_an_area_that_the_code_does_not_give(build, figure):
    zones = (build.zone("Main", area=2_000), build.zone("Landing", area=300, kind=AttractionKind.PLUNGE_POOL))
    site = build.site(build.pool("lap_pool", zones=zones, slide_capacity=7), codes=(MAHC,))
    assert figure(site, "Pool", "peak_occupancy") == pytest.approx(100 + 7)


def test_mean_depth_of_a_basin_leaves_the_deck_and_its_tank_out(build, figure):
    basin = build.zone("Wading", gallons=10_000, area=2_000, kind=AttractionKind.WADING_POOL)
    deck = build.zone("Deck", shape=SprayDeck(area=1_000 * FOOT**2, tank_volume=2_000 * GALLON))
    site = build.site(build.pool("splash_pad", zones=(basin, deck)), codes=(GEORGIA,))
    assert figure(site, "Pool", "mean_depth") == pytest.approx(figure(site, "Wading", "mean_depth"))


def test_secondary_treatment_is_asked_for_by_a_zone_too(build, findings):
    # Model code: wading pools need ultraviolet or ozone; here the wading pool is a zone of a leisure pool.
    zones = (build.zone("Main"), build.zone("Cove", kind=AttractionKind.WADING_POOL))
    site = build.site(build.pool(zones=zones), codes=(MAHC,))
    assert [finding.status for finding in findings(site, "secondary_required")] == [Status.NOT_MET]
    plan = SecondaryPlan(kind=SecondaryDisinfection.ULTRAVIOLET)
    treated = build.site(build.system(build.pool(zones=zones), secondary=plan), codes=(MAHC,))
    assert [finding.status for finding in findings(treated, "secondary_required")] == [Status.MET]


def test_a_feed_limit_for_one_kind_counts_beside_a_kind_without_one(build, figure):
    # 4 lb a day for 10,000 gal of spa, and nothing said of the lap pool: the spa's part is needed all the same.
    bodies = (build.pool("spa", "Spa", gallons=2_000), build.pool("lap_pool", "Laps", bathers_a_day=0))
    limit = build.limit("feed_per_volume", 4e-4 * POUND / DAY / GALLON, "spa")
    spa = bodies[0].revised(bathers_a_day=0)
    site = build.site(build.system(spa, bodies[1]), amendments=(limit, build.turnover(1)))
    assert figure(site, "Loop", "feed_capacity") * DAY / POUND == pytest.approx(0.8)


def test_a_slide_without_its_height_is_not_taken_for_the_lowest(build, design):
    # Austria § 22(4) goes by start height; one that is not entered must be asked for, not read as 0 m.
    body = build.pool(features=(build.feature("Slide", 200, "slide"),), setting=Setting.INDOOR)
    done = design(build.site(body, codes=(AUSTRIA,)))
    lack = done.value("Pool", "feature_surcharge")
    assert isinstance(lack, Missing)
    assert "start height" in lack.needs.lower() and "“Slide”" in lack.needs
    assert isinstance(done.value("Pool", "least_flow"), Missing)


@pytest.mark.parametrize("kind", ["lap_pool", "wave_pool", "lazy_river", "spa"])
@pytest.mark.parametrize("code", [GEORGIA, MAHC, "wisconsin-sps-390-2024"])
def test_more_volume_never_gives_less_flow(kind, code, build, figure):
    # The same surface, deeper and deeper. Austria is left out: it asks less flow of deep water than of shallow.
    chance = random.Random(f"{kind} {code}")
    volumes = sorted(chance.uniform(500, 400_000) for _ in range(25))
    sites = [build.site(build.pool(kind, gallons=gallons, area=4_000), codes=(code,)) for gallons in volumes]
    flows = [figure(site, "Loop", "design_flow") for site in sites]
    assert all(later >= earlier * (1 - 1e-12) for earlier, later in zip(flows, flows[1:], strict=False))
    assert flows[-1] > flows[0]

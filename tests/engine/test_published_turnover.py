"""Turnover and recirculation flow of whole designs against the codes' own tables and examples."""

import pytest

from waterpark_designer.engine.findings import Status
from waterpark_designer.model.kinds import AttractionKind, ZoneCombination
from waterpark_designer.model.zones import DepthStation, Rectangle
from waterpark_designer.units import AREA, FLOW, FOOT, HOURS, TEMPERATURE

GEORGIA, WISCONSIN = "georgia-511-3-5-2024", "wisconsin-sps-390-2024"
TABLES = {GEORGIA: "turnover_georgia", WISCONSIN: "turnover_wisconsin"}
GALLONS = 120_000


def body_of(build, kind):
    """120,000 gallons, deeper than 24 inches in the mean; a splash pad keeps them in its tank, others have a slide."""
    if kind == "splash_pad":
        return build.pad(500, tank=GALLONS)
    return build.pool(kind, gallons=GALLONS, area=4_000, features=(build.feature("Slide", 500, "slide"),))


@pytest.mark.parametrize("code", [GEORGIA, WISCONSIN])
def test_every_kind_of_the_code_turns_over_in_its_time(code, build, design, table):
    rows = table(TABLES[code])
    for row in rows:
        body = body_of(build, row["kind"])
        done = design(build.site(body, codes=(code,)))
        hours = float(row["hours"])
        assert HOURS.us.from_si(done.value(body.id, "longest_turnover")) == pytest.approx(hours), row["words"]
        assert FLOW.us.from_si(done.value("Loop", "design_flow")) == pytest.approx(GALLONS / hours / 60)
        assert HOURS.us.from_si(done.value(body.id, "turnover_time")) == pytest.approx(hours)
    assert len(rows) > 10


@pytest.mark.parametrize("code", [GEORGIA, WISCONSIN])
def test_the_margin_comes_on_top(code, build, figure):
    site = build.site(build.system(build.pool("wave_pool", gallons=GALLONS), design_margin=0.1), codes=(code,))
    assert FLOW.us.from_si(figure(site, "Loop", "design_flow")) == pytest.approx(1.1 * 1000)
    assert FLOW.us.from_si(figure(site, "Loop", "least_flow")) == pytest.approx(1000)


@pytest.mark.parametrize(("mean_depth", "hours"), [(3.5, 5.25), (4.0, 6), (4.5, 6), (1.0, 1.5)])
def test_georgia_default_by_mean_depth(mean_depth, hours, build, figure):
    # Georgia 511-3-5-.07(1)(a): 1.5 h for each foot of mean depth, 6 h at most.
    gallons = 3000 * mean_depth * 1728 / 231
    site = build.site(build.pool("lap_pool", gallons=gallons, area=3000), codes=(GEORGIA,))
    assert HOURS.us.from_si(figure(site, "Pool", "longest_turnover")) == pytest.approx(hours)


def test_georgia_default_through_a_sloping_pool(build, figure):
    # The same rule where the depths are drawn: 3 to 4 ft deep is 3.5 ft in the mean.
    stations = (DepthStation(distance=0.0, depth=3 * FOOT), DepthStation(distance=60 * FOOT, depth=4 * FOOT))
    basin = build.zone("Basin", shape=Rectangle(length=60 * FOOT, width=30 * FOOT, stations=stations))
    site = build.site(build.pool("lap_pool", zones=(basin,)), codes=(GEORGIA,))
    assert HOURS.us.from_si(figure(site, "Pool", "longest_turnover")) == pytest.approx(5.25)


@pytest.mark.parametrize(
    ("hours", "gallons", "gallons_a_minute"), [(8, 100_000, "208.3"), (6, 100_000, "277.8"), (2, 10_000, "83.3")]
)
def test_maryland_flows(hours, gallons, gallons_a_minute, build, figure, printed):
    # Maryland COMAR 10.17.01.25 B: gallons over 480 min (pools), 360 min (attractions), 120 min (wading).
    site = build.site(build.pool(gallons=gallons), amendments=(build.turnover(hours),))
    assert FLOW.us.from_si(figure(site, "Loop", "design_flow")) == printed(gallons_a_minute)


def test_georgia_pool_without_a_feature_goes_by_depth(build, figure):
    # “Dual-use” needs a slide or another feature; a plain pool of 3.5 ft is left to the default rule.
    gallons = 3000 * 3.5 * 1728 / 231
    site = build.site(build.pool("leisure_pool", gallons=gallons, area=3000), codes=(GEORGIA,))
    assert HOURS.us.from_si(figure(site, "Pool", "longest_turnover")) == pytest.approx(5.25)


@pytest.fixture
def slide_into_a_pool(build):
    """170,000 gallons, of which 6,700 are the landing of a slide: Wisconsin SPS 390 Appendix A-390.14."""

    def build_site(combination):
        landing = build.zone("Landing", kind=AttractionKind.PLUNGE_POOL, gallons=6_700, area=200)
        rest = build.zone("Rest", gallons=163_300, area=5_000)
        loop = build.system(build.pool("leisure_pool", zones=(landing, rest)), combination=combination)
        return build.site(loop, codes=(WISCONSIN,))

    return build_site


def test_published_slide_landing(slide_into_a_pool, design, printed):
    # Printed: 112 + 454 = 566 gpm, about 5 h. The sum adds flows that are rounded already: 565.3 gpm and 5.01 h.
    done = design(slide_into_a_pool(ZoneCombination.SUM))
    assert FLOW.us.from_si(done.value("Landing", "least_flow_by_time")) == printed("112")
    assert FLOW.us.from_si(done.value("Rest", "least_flow_by_time")) == printed("454")
    assert FLOW.us.from_si(done.value("Loop", "design_flow")) == pytest.approx(566, abs=1)
    assert HOURS.us.from_si(done.value("Pool", "turnover_time")) == pytest.approx(5, abs=0.1)


def test_the_whole_pool_at_the_shortest_time(slide_into_a_pool, figure):
    # Utah R392-302-19(1)(f): the whole pool takes the shortest listed turnover, here 1 h.
    flow = figure(slide_into_a_pool(ZoneCombination.SHORTEST), "Loop", "design_flow")
    assert FLOW.us.from_si(flow) == pytest.approx(170_000 / 60)


def test_times_pro_rata_to_the_volumes(slide_into_a_pool, figure):
    # France, Arrêté of 7 April 1981, art. 4 bis: (6,700 · 1 h + 163,300 · 6 h) / 170,000 = 5.80 h.
    time = figure(slide_into_a_pool(ZoneCombination.VOLUME_WEIGHTED), "Pool", "longest_turnover")
    assert HOURS.us.from_si(time) == pytest.approx((6_700 * 1 + 163_300 * 6) / 170_000)


def test_therapy_table_of_wisconsin(build, design, table):
    for row in table("therapy_wisconsin"):
        # 100 places of 10 ft² each.
        body = build.pool(
            "therapy_pool",
            gallons=100 * float(row["gallons_per_person"]),
            area=1_000,
            water_temperature=TEMPERATURE.us.to_si(float(row["water_degF"])),
        )
        places = build.limit("area_per_bather", AREA.us.to_si(10))
        done = design(build.site(body, codes=(WISCONSIN,), amendments=(places,)))
        assert HOURS.us.from_si(done.value("Pool", "longest_turnover")) == pytest.approx(float(row["hours"])), row


def test_a_table_by_bathers_waits_for_their_number(build, lack, findings):
    # Wisconsin has the therapy table, so it is not silent; it cannot be entered without the volume for each person.
    site = build.site(build.pool("therapy_pool", water_temperature=TEMPERATURE.us.to_si(88)), codes=(WISCONSIN,))
    assert not lack(site, "Pool", "longest_turnover").silent
    assert [finding.status for finding in findings(site, "longest_turnover")] == [Status.UNKNOWN]

"""Feed, filter, occupancy, tank and load rules of the codes through whole designs."""

import pytest

from waterpark_designer.model.kinds import FeaturePump, FilterMedium, SecondaryDisinfection, Setting
from waterpark_designer.model.site import Operation
from waterpark_designer.model.systems import FilterPlan, SecondaryPlan
from waterpark_designer.units import FILTER_RATE, FLOW, FOOT, GALLON, HOUR, HOURS, INCH, MASS_RATE, VOLUME, ZERO_CELSIUS

UTAH, NORTH_CAROLINA, WICHITA = "utah-r392-302-2024", "north-carolina-18a-2543", "wichita-7-72-191"
MAHC, AUSTRIA, LOUISIANA = "cdc-mahc-2023", "austria-bhygv-2012", "louisiana-51-xxiv-319"
SQUARE_METRE = 1 / FOOT**2


# Utah R392-302-24(1)(b): 4.0 lb a day for 10,000 gal outdoors, 2.5 indoors.


@pytest.mark.parametrize(("setting", "pounds", "grams_an_hour"), [("outdoor", "40", "756"), ("indoor", "25", "472")])
def test_feed_capacity_of_utah(setting, pounds, grams_an_hour, build, figure, printed):
    body = build.pool(gallons=100_000, setting=Setting(setting))
    feed = figure(build.site(body, codes=(UTAH,), amendments=(build.turnover(6),)), "Loop", "feed_by_volume")
    assert MASS_RATE.us.from_si(feed) == printed(pounds)
    assert feed * 1000 * HOUR == printed(grams_an_hour)


def test_feed_capacity_goes_body_by_body(build, figure, printed):
    bodies = (build.pool(name="Out", gallons=50_000), build.pool(name="In", gallons=20_000, setting=Setting.INDOOR))
    site = build.site(build.system(*bodies), codes=(UTAH,), amendments=(build.turnover(6),))
    assert MASS_RATE.us.from_si(figure(site, "Loop", "feed_by_volume")) == printed("25.0")


def test_feed_capacity_by_flow(build, figure):
    # Fulton County 34-582(b): 12 ppm into the circulation; 1,000 gpm are 1.44 million gal/d, 8.3454 lb for each mg/L.
    body = build.pool("wave_pool", gallons=120_000)
    site = build.site(body, codes=("fulton-county-ga-34-582",), amendments=(build.turnover(2),))
    assert MASS_RATE.us.from_si(figure(site, "Loop", "feed_by_flow")) == pytest.approx(1.44 * 12 * 8.3454, rel=1e-4)


@pytest.mark.parametrize(
    ("gallons", "closed_hours", "flow"),
    [(10_000, 12, "103.5"), (50_000, 12, "368.5"), (100_000, 14, "608.7"), (350_000, 12, "1318.5")],
)
def test_secondary_flow_of_the_model_code(gallons, closed_hours, flow, build, figure, printed):
    # The lesser of 9 h and three quarters of the closed time: 12 h closed give just 9 h.
    system = build.system(build.pool(gallons=gallons), secondary=SecondaryPlan(kind=SecondaryDisinfection.ULTRAVIOLET))
    operation = Operation(open_hours=10 * HOUR, closed_hours=closed_hours * HOUR)
    site = build.site(system, codes=(MAHC,), operation=operation)
    assert FLOW.us.from_si(figure(site, "Loop", "secondary_flow")) == printed(flow)


def test_secondary_time_follows_short_nights(build, figure):
    system = build.system(build.pool(), secondary=SecondaryPlan(kind=SecondaryDisinfection.ULTRAVIOLET))
    site = build.site(system, codes=(MAHC,), operation=Operation(closed_hours=8 * HOUR))
    assert HOURS.us.from_si(figure(site, "Loop", "secondary_time")) == pytest.approx(0.75 * 8)


def test_secondary_flow_counts_tank_and_pipes(build, figure, printed):
    secondary = SecondaryPlan(kind=SecondaryDisinfection.OZONE)
    system = build.system(
        build.pool(gallons=45_000), secondary=secondary, surge_volume=4_000 * GALLON, piping_volume=1_000 * GALLON
    )
    assert FLOW.us.from_si(figure(build.site(system, codes=(MAHC,)), "Loop", "secondary_flow")) == printed("368.5")


# Filter rates.


def test_filter_rates_of_the_codes(build, figure, table):
    rows = table("filter_limits")
    for row in rows:
        plan = FilterPlan(
            medium=FilterMedium(row["medium"]),
            bed_depth=float(row["bed_depth_in"]) * INCH,
            continuous_feed=row["body_feed"] == "yes",
            pressure_vessel=row["pressure"] == "yes",
        )
        body = build.pool(
            row["kind"],
            water_temperature=float(row["water_degC"]) + ZERO_CELSIUS,
            target_salinity=float(row["salt_mg_per_l"]) / 1000,
        )
        rate = figure(build.site(build.system(body, filters=plan), codes=(row["code"],)), "Loop", "filter_rate_limit")
        unit = FILTER_RATE.us if row["unit"] == "gpm/ft²" else FILTER_RATE.metric
        assert unit.from_si(rate) == pytest.approx(float(row["rate"])), row


@pytest.mark.parametrize(
    ("code", "least", "most"),
    # New York 6-1.11(b): 12 to 15 gpm/ft²; Illinois 820.210(b)(2) and the model code 4.7.2.2: 15 at least.
    [("new-york-6-1-6-3-2025", 12, 15), ("illinois-77-820-210", 15, None), (MAHC, 15, None)],
)
def test_backwash_rates_of_the_codes(code, least, most, build, figure, findings):
    site = build.site(build.pool("lap_pool"), codes=(code,))
    assert FILTER_RATE.us.from_si(figure(site, "Loop", "backwash_rate")) == pytest.approx(least)
    found = findings(site, "backwash_rate_most")
    assert [FILTER_RATE.us.from_si(each.limit) for each in found] == ([pytest.approx(most)] if most else [])


# Bathers.


@pytest.mark.parametrize(
    ("kind", "square_feet"),
    # Model Aquatic Health Code 4.1.2.3.5, from memory: flat 20, agitated 15, hot 10 ft² a bather.
    [("lap_pool", 20), ("leisure_pool", 20), ("lazy_river", 15), ("wave_pool", 15), ("spa", 10)],
)
def test_occupancy_of_the_model_code(kind, square_feet, build, figure):
    site = build.site(build.pool(kind, area=3_000), codes=(MAHC,))
    assert figure(site, "Pool", "peak_occupancy") == pytest.approx(3_000 / square_feet)


def test_visits_of_the_design_day(build, figure):
    # 3,000 ft² at 20 ft² are 150 places; three visits to each, unless the designer knows better.
    site = build.site(build.pool(area=3_000), codes=(MAHC,), operation=Operation(visits_per_place=3.0))
    assert figure(site, "Pool", "bathers_a_day") == pytest.approx(450)
    known = build.site(build.pool(area=3_000, bathers_a_day=520), codes=(MAHC,))
    assert figure(known, "Pool", "bathers_a_day") == 520


def test_occupancy_of_a_spray_deck(build, figure):
    # 10 ft² a bather on interactive water play.
    site = build.site(build.pad(500, deck=2_000, tank=3_000), codes=(MAHC,))
    assert figure(site, "Pad", "peak_occupancy") == pytest.approx(200)


def test_occupancy_of_louisiana_by_depth(build, figure):
    # LAC 51:XXIV.319: 15 ft² in shallow and 20 ft² in deep water with the least deck; 5 ft between them is our reading.
    shallow = build.zone("Shallow", gallons=1_500 * 4 * 7.4805, area=1_500)
    deep = build.zone("Deep", gallons=1_000 * 8 * 7.4805, area=1_000)
    site = build.site(build.pool("lap_pool", zones=(shallow, deep)), codes=(LOUISIANA,))
    assert figure(site, "Shallow", "peak_occupancy") == pytest.approx(100)
    assert figure(site, "Deep", "peak_occupancy") == pytest.approx(50)
    assert figure(site, "Pool", "peak_occupancy") == pytest.approx(150)


def test_water_renewed_for_bathers(build, figure):
    # Model Aquatic Health Code 4.7.4, from memory: 4 gal for each bather and day.
    site = build.site(build.pool(bathers_a_day=500), codes=(MAHC,))
    assert figure(site, "Loop", "replacement_water") * 86400 / GALLON == pytest.approx(2_000)


# Splash pad tanks.


def tank_and_flows(done):
    tank = VOLUME.us.from_si(done.value("Pad", "tank_volume"))
    flows = [FLOW.us.from_si(done.value("Loop", key)) for key in ("feature_flow", "design_flow")]
    return tank, sum(flows)


@pytest.mark.parametrize(("feature_gpm", "margin"), [(400, 0.0), (1_000, 0.0), (1_000, 0.2), (2_500, 0.1)])
def test_tank_of_north_carolina_holds_three_minutes(feature_gpm, margin, build, design):
    # 15A NCAC 18A .2543(d)(1): 3 min of the greatest flow of all feature and filter pumps. The turnover here is 30 min.
    system = build.system(build.pad(feature_gpm), design_margin=margin)
    done = design(build.site(system, codes=(NORTH_CAROLINA,), amendments=(build.turnover(0.5),)))
    tank, flow = tank_and_flows(done)
    assert tank == pytest.approx(3 * flow)
    assert flow == pytest.approx(feature_gpm + tank / 30 * (1 + margin))


def test_tank_of_north_carolina_is_never_below_1000_gallons(build, design):
    done = design(build.site(build.pad(100), codes=(NORTH_CAROLINA,), amendments=(build.turnover(0.5),)))
    assert tank_and_flows(done)[0] == pytest.approx(1_000)


def test_large_tank_of_north_carolina_by_splash_area(build, design):
    # Above 10,000 gal: the lesser of 3 min of feature flow (12,000 gal) and 7.5 gal for each square foot (9,000 gal).
    pad = build.pad(4_000, deck=1_200)
    done = design(build.site(pad, codes=(NORTH_CAROLINA,), amendments=(build.turnover(0.5),)))
    assert tank_and_flows(done)[0] == pytest.approx(9_000)


def test_large_tank_of_north_carolina_by_feature_flow(build, design):
    # On a deck of 3,000 ft² (22,500 gal) the lesser is 3 min of the features alone, without the filter pump.
    pad = build.pad(4_000, deck=3_000)
    done = design(build.site(pad, codes=(NORTH_CAROLINA,), amendments=(build.turnover(0.5),)))
    assert tank_and_flows(done)[0] == pytest.approx(12_000)


def test_tank_for_a_filter_pump_that_is_there_already(build, design):
    # The filter pump then gives its own flow, whatever the turnover asks for.
    system = build.system(build.pad(500), fixed_flow=FLOW.us.to_si(1_000))
    done = design(build.site(system, codes=(NORTH_CAROLINA,), amendments=(build.turnover(0.5),)))
    tank, flow = tank_and_flows(done)
    assert flow == pytest.approx(1_500)
    assert tank == pytest.approx(4_500)


@pytest.mark.parametrize("feature_gpm", [500, 3_000])
def test_tank_of_wichita(feature_gpm, build, design):
    # Wichita 7.72.191(2): 4,000 gal, and 3 times the flow a minute of attraction and recirculation pumps.
    done = design(build.site(build.pad(feature_gpm), codes=(WICHITA,)))
    tank, flow = tank_and_flows(done)
    assert tank == pytest.approx(max(4_000, 3 * flow))
    assert HOURS.us.from_si(done.value("Pad", "turnover_time")) == pytest.approx(0.5)


# Austria, BHygV 2012: flow by surface, depth and attraction.


def basin(build, square_metres, cubic_metres, name="Basin", **fields):
    return build.zone(name, gallons=cubic_metres / GALLON, area=square_metres * SQUARE_METRE, **fields)


def metric(flow):
    return FLOW.metric.from_si(flow)


@pytest.mark.parametrize(
    ("depth", "secondary", "flow"),
    # § 15: A / (f · b) for 312.5 m², f = 3 to 1.35 m of depth and 5 beyond, b = 0.5, or 0.6 with ozone.
    [(1.2, "none", "208.3"), (1.35, "none", "208.3"), (1.36, "none", "125.0"), (1.2, "ozone", "173.6")],
)
def test_flow_by_surface_and_load(depth, secondary, flow, build, figure, printed):
    body = build.pool("leisure_pool", zones=(basin(build, 312.5, 312.5 * depth),))
    system = build.system(body, secondary=SecondaryPlan(kind=SecondaryDisinfection(secondary)))
    assert metric(figure(build.site(system, codes=(AUSTRIA,)), "Loop", "design_flow")) == printed(flow)


def test_flows_of_depth_zones_add_up(build, figure, printed):
    # § 19: flow for each zone, plant for the sum.
    zones = (basin(build, 312.5, 312.5 * 1.2, "Shallow"), basin(build, 312.5, 312.5 * 1.8, "Deep"))
    site = build.site(build.pool("leisure_pool", zones=zones), codes=(AUSTRIA,))
    assert metric(figure(site, "Loop", "design_flow")) == printed("333.3")


@pytest.mark.parametrize(("area", "flow"), [(50.0, 50.0), (16.0, 16.0), (10.0, 16.0)])
def test_therapy_basin(area, flow, build, figure):
    # § 20(1), (3): 1 m³/h for each square metre, never below 16 m³/h.
    body = build.pool("therapy_pool", zones=(basin(build, area, area * 1.3),), water_temperature=303.15)
    assert metric(figure(build.site(body, codes=(AUSTRIA,)), "Loop", "design_flow")) == pytest.approx(flow)


@pytest.mark.parametrize(
    ("feature", "celsius", "surcharge"),
    [
        # § 22(2) to (4).
        ({"kind": "massage_jets", "user_places": 4}, 32.0, 12),
        ({"kind": "massage_jets", "user_places": 4}, 33.0, 20),
        ({"kind": "waterfall", "large_area": True, "count": 2}, 28.0, 120),
        ({"kind": "slide", "start_height": 1.0}, 28.0, 5),
        ({"kind": "slide", "start_height": 1.5}, 28.0, 35),
        ({"kind": "slide", "start_height": 2.0}, 28.0, 60),
        ({"kind": "slide", "start_height": 9.0, "count": 3}, 28.0, 180),
    ],
)
def test_flow_added_for_features(feature, celsius, surcharge, build, design):
    # The water is cold enough, or the basin slow enough, that the caps of warm basins do not govern: 300 m², 30 m³.
    body = build.pool(
        "leisure_pool",
        zones=(basin(build, 300, 30),),
        water_temperature=celsius + ZERO_CELSIUS,
        features=(build.feature("Attraction", 100, pump=FeaturePump.OWN, **feature),),
    )
    done = design(build.site(body, codes=(AUSTRIA,)))
    assert metric(done.value("Pool", "feature_surcharge")) == pytest.approx(surcharge)
    assert metric(done.value("Loop", "design_flow")) == pytest.approx(200 + surcharge)


@pytest.mark.parametrize(("area", "cubic_metres", "flow"), [(50.0, 200.0, 100.0), (40.0, 100.0, 100.0)])
def test_warm_basins_turn_over_fast(area, cubic_metres, flow, build, figure):
    # § 18(2), (3): above 32 °C within 2 h, or 1 h on 40 m² or less; here that asks for more than surface and load.
    body = build.pool("leisure_pool", zones=(basin(build, area, cubic_metres),), water_temperature=306.15)
    assert metric(figure(build.site(body, codes=(AUSTRIA,)), "Loop", "design_flow")) == pytest.approx(flow)

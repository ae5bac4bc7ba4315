"""Formulas against figures printed elsewhere, each within half a unit of its last place."""

import math

import pytest

from waterpark_designer.engine.formulas import disinfection, filtration, geometry, salt, turnover
from waterpark_designer.engine.plan_salt import HYPOCHLORITE_SALT_PER_CHLORINE
from waterpark_designer.units import (
    AIR_FLOW,
    AREA,
    DAILY_VOLUME,
    DAY,
    FILTER_RATE,
    FLOW,
    GALLON,
    HOUR,
    INCH,
    MASS,
    MASS_RATE,
    MINUTE,
    POUND,
    SALINITY,
    VOLUME,
)

FLUID_OUNCE = GALLON / 128
CHLORINE, SALT, MOLAR_VOLUME = 70.906, 58.443, 24.055
"""g/mol of Cl2 and NaCl from the standard atomic weights; L/mol of an ideal gas at 20 °C and 1 atm."""


def test_dilution_law(table, printed):
    for row in table("dilution_law"):
        share = turnover.treated_share(float(row["turnovers"]))
        assert 100 * share == printed(row["treated_per_cent"])


def test_flow_of_secondary_disinfection(table, printed):
    for row in table("secondary_dilution_flow"):
        flow = disinfection.secondary_dilution_flow(float(row["volume_gal"]) * GALLON, float(row["time_h"]) * HOUR)
        assert FLOW.us.from_si(flow) == printed(row["flow_gpm"])


def test_secondary_disinfection_ends_where_the_oocysts_are_diluted_already():
    # 100 million oocysts in more than exp(14.8) gallons are below the aim of the formula from the start.
    limit = math.exp(14.8) * GALLON
    assert disinfection.secondary_dilution_flow(0.99 * limit, 9 * HOUR) > 0
    beyond = disinfection.secondary_dilution_flow(1.5 * limit, 9 * HOUR)
    assert beyond == 0
    assert beyond.step.cautions() == ("Volume lies outside the range for which this formula is published.",)


def test_round_filter_tanks(table, printed):
    for row in table("filter_areas"):
        diameter = float(row["diameter_in"]) * INCH
        area = geometry.ellipse_area(diameter, diameter)
        flow = filtration.backwash_flow(FILTER_RATE.us.to_si(15), area)
        assert AREA.us.from_si(area) == printed(row["bed_area_ft2"])
        assert FLOW.us.from_si(flow) == printed(row["flow_gpm"])
        assert VOLUME.us.from_si(filtration.backwash_volume(flow, 5 * MINUTE)) == printed(row["backwash_gal"])


def test_shipped_round_sand_filters_have_their_area(table, printed, library):
    sizes = {item.name: item.size for item in library.catalogue}
    for row in table("filter_areas"):
        area = sizes[f"High-rate sand filter, {row['diameter_in']} in vertical"]
        assert AREA.us.from_si(area) == printed(row["bed_area_ft2"])


def test_filter_rates_in_both_systems(table, printed):
    for row in table("filter_rates"):
        rate = FILTER_RATE.us.to_si(float(row["gpm_per_ft2"]))
        assert FILTER_RATE.metric.from_si(rate) == printed(row["metres_per_hour"])


def test_four_tanks_for_1500_gpm(printed):
    # 1,500 gpm at no more than 15 gpm/ft² on 72-inch tanks of 28.274 ft²: worked by hand.
    area = filtration.filter_area_needed(FLOW.us.to_si(1500), FILTER_RATE.us.to_si(15))
    one = geometry.ellipse_area(72 * INCH, 72 * INCH)
    count = filtration.filters_needed(area, one)
    rate = filtration.filter_rate(FLOW.us.to_si(1500), filtration.filter_area(count, one))
    assert AREA.us.from_si(area) == printed("100")
    assert count == 4
    assert FILTER_RATE.us.from_si(rate) == printed("13.3")


def test_backwash_of_a_season(printed):
    # Four tanks of 2,121 gal, each washed once a week through 100 days: 121,200 gal, by hand.
    daily = filtration.backwash_water_a_day(4, 2121 * GALLON, 7 * DAY)
    assert DAILY_VOLUME.us.from_si(daily) == printed("1212")
    assert VOLUME.us.from_si(filtration.water_of_a_season(daily, 100 * DAY)) == printed("121200")


def test_precoat_of_a_filter(printed):
    # Common practice: 0.15 lb for each square foot.
    assert MASS.us.from_si(filtration.precoat_charge(AREA.us.to_si(100))) == printed("15.0")


def test_whole_numbers_are_not_spoilt_by_rounding_noise():
    # 0.1 + 0.2 is a little more than 0.3 in binary, which must not buy a filter or a bag more.
    assert filtration.filters_needed(0.1 + 0.2, 0.1) == 3
    assert disinfection.generators_needed(0.1 + 0.2, 0.1) == 3
    assert disinfection.feed_pumps_needed(0.1 + 0.2, 0.1) == 3
    assert disinfection.tanks_needed(0.1 + 0.2, 0.1) == 3
    assert salt.whole_bags(0.1 + 0.2, 0.1) == 3
    assert filtration.filters_needed(0.301, 0.1) == 4


def test_strength_of_hypochlorite(table, printed):
    for row in table("hypochlorite_strength"):
        # A pound of chlorine a day takes so many gallons a day.
        solution = disinfection.hypochlorite_flow(1.0, POUND / DAY, float(row["trade_per_cent"]) / 100)
        assert 1 / DAILY_VOLUME.us.from_si(solution) == printed(row["lb_per_gal"])


@pytest.mark.parametrize(("trade_per_cent", "amount", "unit"), [(12.5, "10.24", FLUID_OUNCE), (0.8, "1.250", GALLON)])
def test_hypochlorite_for_one_milligram_a_litre_in_10000_gallons(trade_per_cent, amount, unit, printed):
    # Dose arithmetic: 10,000 gal at 1 mg/L take 37.85 g of chlorine; a generator's solution has 0.8 %.
    chlorine = salt.salt_in_water(10_000 * GALLON, SALINITY.metric.to_si(1)) / DAY
    solution = disinfection.hypochlorite_flow(1.0, chlorine, trade_per_cent / 100)
    assert solution * DAY / unit == printed(amount)


@pytest.mark.parametrize(
    ("solution", "per_cent", "water", "milligrams"),
    [
        # 11 gal of 0.5 % into 40,000 gal; 40 mL/min of 0.25 % into 35 gpm.
        (11 * GALLON / DAY, 0.5, 40_000 * GALLON / DAY, "1.31"),
        (40e-6 / MINUTE, 0.25, 35 * GALLON / MINUTE, "0.72"),
    ],
)
def test_doses_of_a_states_example_sheet(solution, per_cent, water, milligrams, printed):
    # California State Water Resources Control Board, Division of Drinking Water, February 2018: mg/L = 9,525 · gal of
    # solution · % NaOCl by weight in volume / gal of water. 100 parts of NaOCl are 95.25 of available chlorine.
    strength = 0.9525 * per_cent / 100
    chlorine = disinfection.feed_by_flow(water, SALINITY.metric.to_si(1))
    one_milligram = disinfection.hypochlorite_flow(1.0, chlorine, strength)
    assert solution / one_milligram == printed(milligrams)


def test_chlorine_of_500_bathers(printed):
    # Bradford, Int. J. Aquatic Res. Educ. (2014), doi 10.1123/ijare.2013-0028: 5.5 g each, so 2,750 g or 6.06 lb a day.
    demand = disinfection.chlorine_demand(500)
    assert demand * DAY * 1000 == printed("2750")
    assert MASS_RATE.us.from_si(demand) == printed("6.06")
    # Half as much again by common practice.
    assert MASS_RATE.us.from_si(disinfection.feed_by_demand(1.5, demand)) == printed("9.09")


def test_chlorine_that_sunlight_uses_by_the_pounds_formula():
    # Pounds = million gallons × mg/L × 8.34 (common practice): 2 mg/L lost in a day from 100,000 gal.
    demand = disinfection.background_demand(100_000 * GALLON, 0.002)
    assert MASS_RATE.us.from_si(demand) == pytest.approx(0.1 * 2 * 8.34, rel=1e-3)


def test_reactors_are_counted_up():
    assert [disinfection.reactors_needed(flow, 0.1) for flow in (0.1, 0.101, 0.2, 0.1 + 0.2)] == [1, 2, 2, 3]


def test_chlorine_into_a_flow_by_the_pounds_formula():
    # Water trade: pounds a day = million gallons a day × mg/L × 8.34 (common practice: the weight of a gallon of
    # water, within a thousandth of 10⁶ mg/L); 12 ppm into 1,000 gpm.
    feed = disinfection.feed_by_flow(FLOW.us.to_si(1000), 0.012)
    assert MASS_RATE.us.from_si(feed) == pytest.approx(1.44 * 12 * 8.34, rel=1e-3)


def test_hydrogen_of_a_generator_of_two_pounds_an_hour(printed):
    # Cl2 and H2 mole for mole; ideal gas at 20 °C; 99 volumes of air keep hydrogen at 1 %.
    hydrogen = disinfection.hydrogen_flow(2 * POUND / HOUR)
    assert AIR_FLOW.us.from_si(hydrogen) * 60 == printed("10.87")
    assert AIR_FLOW.us.from_si(disinfection.hydrogen_dilution_air(hydrogen)) == printed("17.9")
    assert hydrogen / (2 * POUND / HOUR) == pytest.approx(MOLAR_VOLUME / CHLORINE, abs=5e-5)


def test_start_up_salt(printed):
    # 100,000 gal from 300 to 3,200 mg/L take 2,420.2 lb, 60.5 bags of 40 lb: 119,826.43 mg/L per lb/gal.
    mass = salt.start_up_salt(100_000 * GALLON, 3.2, 0.3, 1.0)
    assert MASS.us.from_si(mass) == printed("2420.2")
    assert mass / (40 * POUND) == printed("60.5")
    assert salt.whole_bags(mass, 40 * POUND) == 61
    assert salt.whole_pallets(61, 49) == 2


def test_a_40_pound_bag_in_10000_gallons(printed):
    rise = SALINITY.metric.from_si(salt.mixed_salinity(40 * POUND, 10_000 * GALLON))
    assert rise == printed("479.3")
    # The trade's rule of thumb (common practice): about 500.
    assert rise == pytest.approx(500, rel=0.05)


def test_impure_salt_takes_more():
    pure = salt.start_up_salt(100.0, 3.0, 1.0, 1.0)
    assert salt.start_up_salt(100.0, 3.0, 1.0, 0.95) == pytest.approx(pure / 0.95)


def test_salt_that_leaves_with_the_water(printed):
    # 2,000 gal/d at 3,200 mg/L: 53.41 lb/d, by unit arithmetic.
    lost = salt.salt_lost(DAILY_VOLUME.us.to_si(2000), 3.2, 0.0)
    assert MASS_RATE.us.from_si(lost) == printed("53.41")


@pytest.mark.parametrize(
    ("salt_per_chlorine", "lost_gallons", "above_make_up"),
    [(3.2, 4000, "958.6"), (3.2, 2000, "1917"), (HYPOCHLORITE_SALT_PER_CHLORINE, 4000, "493.7")],
)
def test_salinity_to_which_chlorine_drives_the_water(salt_per_chlorine, lost_gallons, above_make_up, printed):
    # 10 lb/d of chlorine, brine-fed at 3.2 lb salt a pound, or as bulk hypochlorite: mass balance in mixed water.
    gained = salt.salt_from_chlorine(salt_per_chlorine, 10 * POUND / DAY)
    lasting = salt.lasting_salinity(0.2, gained, DAILY_VOLUME.us.to_si(lost_gallons))
    assert SALINITY.metric.from_si(lasting - 0.2) == printed(above_make_up)


def test_first_day_of_brine_fed_chlorine(printed):
    # 32 lb of salt into 100,000 gal: 38.3 mg/L.
    assert SALINITY.metric.from_si(salt.mixed_salinity(32 * POUND, 100_000 * GALLON)) == printed("38.3")


def test_salt_of_spent_hypochlorite():
    # NaOCl and NaCl in equal moles: two of salt for each Cl2, by the standard atomic weights.
    per_pound = salt.salt_from_chlorine(HYPOCHLORITE_SALT_PER_CHLORINE, POUND / DAY) / (POUND / DAY)
    assert per_pound == pytest.approx(2 * SALT / CHLORINE, abs=5e-4)


def test_exchange_dilutes_to_the_target():
    # Draining a fifth and refilling with fresh water leaves four fifths of the salt.
    assert salt.exchange_volume(100.0, 5.0, 4.0, 0.0) == pytest.approx(20.0)
    # With make-up of 1 g/L: 100 m³ hold 75 · 5 + 25 · 1 = 400 kg after a quarter has been exchanged.
    assert salt.exchange_volume(100.0, 5.0, 4.0, 1.0) == pytest.approx(25.0)


def test_make_up_salt_stops_where_chlorine_brings_enough():
    assert salt.make_up_salt(2.0, 0.5, 10.0, 1.0) == 15.0
    assert salt.make_up_salt(2.0, 0.5, 10.0, 0.75) == 20.0
    assert salt.make_up_salt(0.5, 2.0, 10.0, 1.0) == 0.0


def test_an_average_day_is_a_share_of_the_design_day():
    # Three fifths of 500 bathers, who use 5.5 g of chlorine each.
    assert salt.bathers_on_average_day(0.6, 500) == pytest.approx(300)
    assert salt.on_average_day(0.6, disinfection.chlorine_demand(500)) * DAY * 1000 == pytest.approx(300 * 5.5)

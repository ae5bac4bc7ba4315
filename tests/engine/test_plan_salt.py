"""What a season takes: average days, with backwash and sunlight that do not follow the bathers."""

import pytest

from waterpark_designer.engine.worked import Missing
from waterpark_designer.model.kinds import FilterMedium, PrimaryDisinfection
from waterpark_designer.model.site import Operation, SaltSupply, WaterLosses
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan
from waterpark_designer.units import DAILY_VOLUME, DAY, FILTER_RATE, GALLON, MASS, MASS_RATE, MINUTE, POUND

NOT_BACKWASHED = FilterPlan(medium=FilterMedium.CARTRIDGE)
# 500 bathers a day use 5.5 g each, 2.75 kg of chlorine.


def seasonal(build, primary, average_use=1.0, **fields):
    """100,000 gal at 3,200 mg/L; 2,000 gal/d leave with 500 bathers, 4 gal each; a season of 100 such days."""
    plan = DisinfectionPlan(primary=PrimaryDisinfection(primary), salt_per_chlorine=3.2)
    body = build.pool(bathers_a_day=500, target_salinity=3.2, measured_salinity=3.2, **fields)
    return build.site(
        build.system(body, disinfection=plan, filters=NOT_BACKWASHED),
        losses=WaterLosses(splash_out=0.0, carry_out=4 * GALLON, dilution=0.0),
        operation=Operation(season=100 * DAY, average_use=average_use),
    )


def test_losses_of_a_season_with_cells_in_the_return(build, figure, design, printed):
    # Cells consume no salt and add none: all 53.41 lb/d lost are to be made up, 5,341 lb in 100 days.
    site = seasonal(build, "in_return_cells")
    assert DAILY_VOLUME.us.from_si(figure(site, "Loop", "saline_loss")) == pytest.approx(2000)
    assert MASS_RATE.us.from_si(figure(site, "Loop", "salt_lost")) == printed("53.41")
    assert figure(site, "Loop", "salt_from_chlorine") == 0
    assert MASS.us.from_si(figure(site, "Loop", "make_up_salt")) == printed("5341")
    assert figure(site, "Loop", "make_up_bags") == 134
    assert isinstance(design(site).value("Loop", "generator_salt"), Missing)


@pytest.mark.parametrize(("primary", "salt_per_chlorine"), [("brine_fed", 3.2), ("hypochlorite", 1.648)])
def test_salt_that_chlorine_brings_is_not_bought_again(primary, salt_per_chlorine, build, figure):
    # 2.75 kg of chlorine a day bring 8.8 kg of salt from brine, 4.53 kg from hypochlorite; 24.2 kg are lost.
    site = seasonal(build, primary)
    lost = 2_000 * GALLON * 3.2
    gained = salt_per_chlorine * 2.75
    assert figure(site, "Loop", "salt_from_chlorine") * DAY == pytest.approx(gained)
    assert figure(site, "Loop", "make_up_salt") == pytest.approx(100 * (lost - gained))
    # It would drift to gain over loss: 1,162 and 599 mg/L.
    assert figure(site, "Loop", "lasting_salinity") == pytest.approx(gained / (2_000 * GALLON))


def test_salt_fed_to_a_brine_generator_is_bought(build, figure):
    site = seasonal(build, "brine_fed")
    assert figure(site, "Loop", "generator_salt") == pytest.approx(3.2 * 2.75 * 100)
    bought = figure(site, "Loop", "generator_salt") + figure(site, "Loop", "make_up_salt")
    assert figure(site, "Loop", "make_up_bags") == -(-bought // (40 * POUND))


@pytest.mark.parametrize("key", ["make_up_salt", "generator_salt"])
def test_a_season_goes_by_its_average_day(key, build, figure):
    full = figure(seasonal(build, "brine_fed"), "Loop", key)
    assert figure(seasonal(build, "brine_fed", average_use=0.6), "Loop", key) == pytest.approx(0.6 * full)


def test_a_backwash_not_known_leaves_the_loss_open(build, design):
    # Georgia states no backwash rate, so how much salt water goes to waste cannot be told.
    body = build.pool(bathers_a_day=500, target_salinity=3.2)
    done = design(build.site(body, codes=("georgia-511-3-5-2024",)))
    assert isinstance(done.value("Loop", "backwash_water_a_day"), Missing)
    assert isinstance(done.value("Loop", "saline_loss"), Missing)


def test_backwash_takes_its_salt_on_quiet_days_too(build, figure):
    def season(average_use):
        body = build.pool(bathers_a_day=1, target_salinity=3.2)
        operation = Operation(season=100 * DAY, average_use=average_use)
        site = build.site(body, codes=("cdc-mahc-2023",), operation=operation)
        assert figure(site, "Loop", "backwash_water_a_day") > 0.99 * figure(site, "Loop", "saline_loss")
        return figure(site, "Loop", "make_up_salt")

    assert season(0.5) > 0.95 * season(1.0)


def test_backwash_counts_towards_the_water_to_be_renewed(build, figure):
    def loss(renewed):
        body = build.pool(bathers_a_day=500)
        amendments = (build.turnover(6), build.limit("replacement_per_bather", renewed * GALLON))
        site = build.site(build.system(body), codes=("cdc-mahc-2023",), amendments=amendments)
        site = site.revised(losses=WaterLosses(splash_out=0.0, carry_out=0.0))
        return [figure(site, "Loop", key) for key in ("saline_loss", "backwash_water_a_day", "replacement_water")]

    whole, backwash, renewed = loss(0.01)
    assert whole == backwash > renewed
    whole, backwash, renewed = loss(40)
    assert whole == renewed > backwash


def test_evaporation_takes_no_salt(build, figure):
    # Hotter water evaporates faster, but nothing that leaves with its salt changes.
    cool = figure(seasonal(build, "in_return_cells"), "Loop", "make_up_salt")
    assert figure(seasonal(build, "in_return_cells", water_temperature=310.0), "Loop", "make_up_salt") == cool


# The same pool with backwash, sunlight, salty make-up and impure salt, on days with three fifths of the bathers.
BATHERS = 0.6 * 500
# Four filters of 48 in, π · 2² = 12.566 ft², each washed once a week for 5 min at 15 gpm/ft²: 539 gal a day.
BACKWASH = 4 * 3.14159265 * 2**2 * 15 * 5 / 7 * GALLON
CHLORINE = BATHERS * 5.5e-3 + 100_000 * GALLON * 2e-3
"""kg a day of the bathers, and of sunlight at 2 mg/L."""
SALT_IN = {"in_return_cells": 0.0, "brine_fed": 3.2 * CHLORINE, "hypochlorite": 1.648 * CHLORINE}


def by_hand(value):
    """The catalogue gives bed areas to four places."""
    return pytest.approx(value, rel=1e-5)


def average(build, primary, dilution=0.0):
    """4 gal leave with each bather, at 3.2 kg/m³ against 0.2 in the make-up; the salt is 98 % pure."""
    washed = FilterPlan(
        item="High-rate sand filter, 48 in vertical",
        count=4,
        backwash_rate=FILTER_RATE.us.to_si(15),
        backwash_duration=5 * MINUTE,
        backwash_interval=7 * DAY,
    )
    plan = DisinfectionPlan(primary=PrimaryDisinfection(primary), salt_per_chlorine=3.2, daily_loss=2e-3)
    body = build.pool(gallons=100_000, bathers_a_day=500, target_salinity=3.2)
    return build.site(
        build.system(body, disinfection=plan, filters=washed),
        losses=WaterLosses(splash_out=0.0, carry_out=4 * GALLON, dilution=dilution),
        operation=Operation(season=100 * DAY, average_use=0.6),
        salt=SaltSupply(make_up_salinity=0.2, purity=0.98),
        amendments=(build.turnover(6), build.limit("filter_rate", FILTER_RATE.us.to_si(15))),
    )


@pytest.mark.parametrize(
    ("dilution", "to_waste"),
    # 10 L for each bather of the day, 3 m³, are more than the backwash of 2 m³ that counts towards them.
    [(0.0, BACKWASH), (0.01, BATHERS * 0.01)],
)
def test_salt_water_lost_on_an_average_day(dilution, to_waste, build, figure):
    loss = figure(average(build, "brine_fed", dilution), "Loop", "average_saline_loss")
    assert loss * DAY == by_hand(BATHERS * 4 * GALLON + to_waste)


def test_the_loss_of_the_design_day_stands_beside(build, figure):
    loss = figure(average(build, "brine_fed"), "Loop", "saline_loss")
    assert loss * DAY == by_hand(500 * 4 * GALLON + BACKWASH)


@pytest.mark.parametrize("primary", SALT_IN)
def test_salt_of_a_season_of_average_days(primary, build, design):
    done = design(average(build, primary))
    water, gained = BATHERS * 4 * GALLON + BACKWASH, SALT_IN[primary]
    lost = water * (3.2 - 0.2)
    assert done.value("Loop", "salt_lost") * DAY == by_hand(lost)
    assert done.value("Loop", "salt_from_chlorine") * DAY == pytest.approx(gained)
    made_up = (lost - gained) * 100 / 0.98
    fed = gained * 100 / 0.98 if primary == "brine_fed" else 0.0
    assert done.value("Loop", "make_up_salt") == by_hand(made_up)
    assert done.value("Loop", "make_up_bags") == -(-(made_up + fed) // (40 * POUND))
    if fed:
        assert done.value("Loop", "generator_salt") == pytest.approx(fed)
    if gained:
        assert done.value("Loop", "lasting_salinity") == by_hand(0.2 + gained / water)


def test_sunlight_counts_in_the_feed_of_the_design_day(build, figure):
    # 2.75 kg for bathers and 0.757 kg for sunlight, half as much again.
    site = average(build, "brine_fed")
    used = 500 * 5.5e-3 + 100_000 * GALLON * 2e-3
    assert figure(site, "Loop", "chlorine_use") * DAY == pytest.approx(used)
    assert figure(site, "Loop", "feed_by_demand") * DAY == pytest.approx(1.5 * used)


def test_without_an_estimate_for_sunlight_only_bathers_count(build, design):
    done = design(seasonal(build, "brine_fed"))
    assert "background_demand" not in done.sheets["Loop"].figures
    assert done.value("Loop", "chlorine_use") * DAY == pytest.approx(2.75)

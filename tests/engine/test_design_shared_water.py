"""Bodies of water on one system: flow, salinity and salt that they share."""

import pytest

from waterpark_designer.engine.worked import Missing
from waterpark_designer.model.kinds import PrimaryDisinfection
from waterpark_designer.model.site import Operation, SaltSupply, WaterLosses
from waterpark_designer.model.systems import DisinfectionPlan
from waterpark_designer.units import DAILY_VOLUME, DAY, GALLON, MASS, MASS_RATE, POUND, SALINITY

SUMMED = (
    "volume",
    "surface_area",
    "peak_occupancy",
    "bathers_a_day",
    "least_flow",
    "design_flow",
    "salt_mass",
    "salt_bags",
)


@pytest.fixture
def shared(build):
    """A river of 200,000 gal at 1,000 mg/L and a cove of 50,000 gal at 3,500 mg/L on one loop, both to hold 3,200."""

    def build_site(**fields):
        salinities = [{"measured_salinity": measured, "target_salinity": 3.2} for measured in (1.0, 3.5)]
        river = build.pool("lazy_river", "River", gallons=200_000, area=9_000, **salinities[0])
        cove = build.pool("leisure_pool", "Cove", gallons=50_000, area=3_000, **salinities[1])
        return build.site(build.system(river, cove, **fields), codes=("cdc-mahc-2023",))

    return build_site


def test_totals_of_a_system_are_the_sums_of_its_bodies(shared, design):
    done = design(shared(design_margin=0.15))
    for key in SUMMED:
        assert done.value("Loop", key) == pytest.approx(done.value("River", key) + done.value("Cove", key)), key


def test_each_body_gets_its_share_of_a_flow_settled_on(shared, figure):
    # 100,000 gal/h for the river and 12,500 for the cove are least; half as much again is built.
    site = shared(fixed_flow=1.5 * 112_500 * GALLON / 3600)
    assert figure(site, "River", "design_flow") == pytest.approx(1.5 * 100_000 * GALLON / 3600)
    assert figure(site, "Cove", "turnover_time") == pytest.approx(4 / 1.5 * 3600)


def test_salinity_mixes_over_shared_water(shared, figure):
    # (200,000 · 1,000 + 50,000 · 3,500) / 250,000 = 1,500 mg/L in both.
    for node in ("River", "Cove", "Loop"):
        assert SALINITY.metric.from_si(figure(shared(), node, "salinity")) == pytest.approx(1500)


def test_start_up_salt_follows_the_mixed_water(shared, figure, printed):
    # 250,000 gal from 1,500 to 3,200 mg/L: 1,700 · 250,000 / 119,826.43 = 3,546.8 lb, four fifths of it for the river.
    site = shared()
    assert MASS.us.from_si(figure(site, "Loop", "salt_mass")) == printed("3546.8")
    assert MASS.us.from_si(figure(site, "River", "salt_mass")) == printed("2837.4")
    # 70.9 and 17.7 bags: each body gets whole bags.
    assert figure(site, "River", "salt_bags") == 71
    assert figure(site, "Cove", "salt_bags") == 18
    assert figure(site, "Loop", "salt_pallets") == 2


def test_tank_and_pipes_take_salt_too(shared, figure):
    # 25,000 gal more, a tenth of the water.
    site = shared(surge_volume=20_000 * GALLON, piping_volume=5_000 * GALLON)
    assert figure(site, "Loop", "salt_mass") == pytest.approx(1.1 * figure(shared(), "Loop", "salt_mass"))


def test_pallets_of_the_site_hold_the_bags_of_all_systems(build, figure):
    # 20 bags on each of three systems fit on two pallets of 49.
    loops = [
        build.system(build.pool(name=name, gallons=40_000, target_salinity=2.396), name=f"Loop-{name}")
        for name in ("One", "Two", "Three")
    ]
    site = build.site(*loops, amendments=(build.turnover(6),))
    assert figure(site, "Site", "salt_bags") == 60
    assert figure(site, "Site", "salt_pallets") == 2


def test_water_saltier_than_its_target_is_exchanged(build, figure):
    # 100,000 gal from 5,000 to 3,000 mg/L with make-up of 500 mg/L: 2,000 / 4,500 of it.
    body = build.pool(measured_salinity=5.0, target_salinity=3.0)
    site = build.site(body, salt=SaltSupply(make_up_salinity=0.5))
    assert figure(site, "Pool", "exchange_volume") / GALLON == pytest.approx(100_000 * 2_000 / 4_500)
    assert figure(site, "Pool", "salt_mass") == 0
    assert figure(site, "Loop", "exchange_volume") == figure(site, "Pool", "exchange_volume")


def test_water_in_tank_and_pipes_is_exchanged_too(build, figure):
    # 25,000 gal stand beside the pool's 100,000, and all of it is too salty.
    body = build.pool(measured_salinity=5.0, target_salinity=3.0)
    alone = figure(build.site(body), "Loop", "exchange_volume")
    loop = build.system(body, surge_volume=20_000 * GALLON, piping_volume=5_000 * GALLON)
    assert figure(build.site(loop), "Loop", "exchange_volume") == pytest.approx(1.25 * alone)


def test_make_up_saltier_than_the_target_can_never_reach_it(build, lack):
    body = build.pool(measured_salinity=5.0, target_salinity=3.0)
    site = build.site(body, salt=SaltSupply(make_up_salinity=3.5))
    assert "saltier than the target" in lack(site, "Pool", "exchange_volume").needs


def test_bags_may_be_of_any_size(build, figure):
    # 100,000 gal to 2,397 mg/L take 2,000.4 lb: 51 bags of 40 lb or 41 of 50 lb, by 479.3 mg/L a bag and 10,000 gal.
    body = build.pool(target_salinity=2.397)
    assert figure(build.site(body), "Pool", "salt_bags") == 51
    assert figure(build.site(body, salt=SaltSupply(bag_mass=50 * POUND)), "Pool", "salt_bags") == 41


# What a season takes: 500 bathers a day use 2.75 kg of chlorine.


def seasonal(build, primary, average_use=1.0, **fields):
    """100,000 gal at 3,200 mg/L; 2,000 gal/d leave with 500 bathers, 4 gal each; a season of 100 such days."""
    plan = DisinfectionPlan(primary=PrimaryDisinfection(primary), salt_per_chlorine=3.2)
    body = build.pool(bathers_a_day=500, target_salinity=3.2, measured_salinity=3.2, **fields)
    return build.site(
        build.system(body, disinfection=plan),
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

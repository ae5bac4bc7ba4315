"""Bodies of water on one system: flow, salinity and salt that they share."""

import pytest

from waterpark_designer.model.site import SaltSupply
from waterpark_designer.units import GALLON, MASS, POUND, SALINITY

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

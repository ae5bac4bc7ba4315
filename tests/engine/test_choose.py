"""Nominal sizes as a designer would pick them from a catalogue."""

import pytest

from waterpark_designer.engine.worked import Missing
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.model.kinds import FilterMedium, PrimaryDisinfection
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan
from waterpark_designer.units import AREA, FILTER_RATE, FLOW, FOOT, MASS_RATE, MINUTE, VOLUME


def sand(name, square_feet, source="Maker's sheet 12"):
    kind = ItemKind.HIGH_RATE_SAND_FILTER
    return CatalogueItem(kind=kind, name=name, size=square_feet * FOOT**2, source=source)


@pytest.fixture
def filtered(build, design):
    """The sheet of a system of so many gpm at 15 gpm/ft², with the supplier's sizes."""

    def size(flow, *supplied, **plan):
        loop = build.system(build.pool(bathers_a_day=500), filters=FilterPlan(**plan), fixed_flow=FLOW.us.to_si(flow))
        limits = (build.turnover(6), build.limit("filter_rate", FILTER_RATE.us.to_si(15)))
        return design(build.site(loop, amendments=limits, catalogue=supplied)).sheets["Loop"]

    return size


def test_four_tanks_for_1500_gallons_a_minute(filtered, printed):
    # Worked by hand: 100 ft² on 72-inch tanks of 28.274 ft² are four, at 13.3 gpm/ft²; the washing of one at
    # 15 gpm/ft² for 5 min takes 424 gpm and 2,121 gal.
    tank = "High-rate sand filter, 72 in vertical"
    sheet = filtered(1500, item=tank, backwash_rate=FILTER_RATE.us.to_si(15), backwash_duration=5 * MINUTE)
    assert AREA.us.from_si(sheet["filter_area_needed"]) == printed("100.0")
    assert sheet["filter_count"] == 4
    assert AREA.us.from_si(sheet["filter_area"]) == printed("113.1")
    assert FILTER_RATE.us.from_si(sheet["filter_rate"]) == printed("13.3")
    assert FLOW.us.from_si(sheet["backwash_flow"]) == printed("424")
    assert VOLUME.us.from_si(sheet["backwash_volume"]) == printed("2121")
    # With one out three are left: 1,500 / 84.82 = 17.7 gpm/ft².
    assert FILTER_RATE.us.from_si(sheet["filter_rate_one_out"]) == printed("17.7")


def test_the_same_tanks_are_chosen_where_the_supplier_has_no_other(filtered):
    assert filtered(1500, sand("Tank 72", 28.2743))["filter_count"] == 4


def test_the_smallest_size_that_does_is_taken(filtered):
    sheet = filtered(600, sand("Small", 10), sand("Middle", 20), sand("Large", 40))
    assert (sheet["filter_size"].step.title, sheet["filter_count"]) == ("Middle", 2)


def test_a_small_system_runs_on_one_filter(filtered):
    sheet = filtered(150, sand("Small", 10), sand("Large", 40))
    assert (sheet["filter_size"].step.title, sheet["filter_count"]) == ("Small", 1)
    assert isinstance(sheet["filter_rate_one_out"], Missing)


@pytest.mark.parametrize(("medium", "name"), [("cartridge", "Cartridge filter"), ("precoat", "Precoat filter")])
def test_a_wide_area_of_fabric_is_still_one_filter(medium, name, build, design):
    # 40 gpm at 0.4 gpm/ft² are 100 ft² of cartridge or of elements, which one housing of that size holds.
    plan = FilterPlan(medium=FilterMedium(medium))
    loop = build.system(build.pool(bathers_a_day=10), filters=plan, fixed_flow=FLOW.us.to_si(40))
    limits = (build.turnover(6), build.limit("filter_rate", FILTER_RATE.us.to_si(0.4)))
    sheet = design(build.site(loop, amendments=limits)).sheets["Loop"]
    assert (sheet["filter_size"].step.title, sheet["filter_count"]) == (f"{name}, 100 ft²", 1)


def test_more_of_the_largest_where_none_is_large_enough(filtered):
    sheet = filtered(3000, sand("Small", 10), sand("Large", 20))
    assert (sheet["filter_size"].step.title, sheet["filter_count"]) == ("Large", 10)


def test_a_number_settled_on_gets_the_size_that_fits_it(filtered):
    sheet = filtered(600, sand("Small", 10), sand("Middle", 20), sand("Large", 40), count=4)
    assert (sheet["filter_size"].step.title, sheet["filter_count"]) == ("Small", 4)


def test_a_number_settled_on_stays_though_it_does_not_do(filtered):
    sheet = filtered(3000, sand("Small", 10), sand("Large", 20), count=3)
    assert (sheet["filter_size"].step.title, sheet["filter_count"]) == ("Large", 3)


def test_an_item_settled_on_is_counted(filtered):
    sheet = filtered(600, sand("Small", 10), sand("Large", 40), item="Small")
    assert (sheet["filter_size"].step.title, sheet["filter_count"]) == ("Small", 4)


def test_the_suppliers_sizes_come_before_the_generic_ones(filtered):
    assert "invented" in filtered(600)["filter_size"].step.source.text
    assert "Maker's sheet 12" in filtered(600, sand("Own", 25))["filter_size"].step.source.text


def test_a_supplier_of_filters_leaves_the_other_kinds_generic(filtered):
    assert "invented" in filtered(600, sand("Own", 25), item="Own")["feed_pump_size"].step.source.text


def test_a_generic_size_may_be_named_beside_the_suppliers(filtered):
    sheet = filtered(600, sand("Own", 25), item="High-rate sand filter, 60 in vertical")
    assert AREA.us.from_si(sheet["filter_size"]) == pytest.approx(19.635)


def test_a_name_that_both_have_is_the_suppliers(filtered):
    name = "High-rate sand filter, 60 in vertical"
    assert AREA.us.from_si(filtered(600, sand(name, 21.5), item=name)["filter_size"]) == pytest.approx(21.5)


def test_item_and_number_settled_on_need_no_flow(build, design):
    # No code says how fast the water turns over, but the filters stand there and are washed at 15 gpm/ft².
    plan = FilterPlan(item="Own", count=2, backwash_rate=FILTER_RATE.us.to_si(15))
    loop = build.system(build.pool(), filters=plan)
    sheet = design(build.site(loop, catalogue=(sand("Own", 25),))).sheets["Loop"]
    assert AREA.us.from_si(sheet["filter_area"]) == pytest.approx(50)
    assert FLOW.us.from_si(sheet["backwash_flow"]) == pytest.approx(375)


def test_a_name_that_is_not_there_is_missing(filtered):
    sheet = filtered(600, item="Filter from an old list")
    assert "“Filter from an old list” is not in the catalogue" in sheet["filter_count"].needs
    assert isinstance(sheet["filter_rate"], Missing)


def test_a_name_of_another_kind_is_missing_too(filtered):
    sheet = filtered(600, sand("Tank 60", 19.6), item="Tank 60", medium=FilterMedium.CARTRIDGE)
    assert isinstance(sheet["filter_size"], Missing)


@pytest.fixture
def generating(build, design):
    """The sheet of a system that needs 40 lb of chlorine a day."""

    def size(**plan):
        chosen = DisinfectionPlan(primary=PrimaryDisinfection.BRINE_FED, **plan)
        body = build.pool(gallons=100_000, bathers_a_day=0, target_salinity=1.0)
        site = build.site(build.system(body, disinfection=chosen), codes=("utah-r392-302-2024",))
        return design(site).sheets["Loop"]

    return size


def test_generators_give_the_capacity(generating):
    # 40 lb/d are one nominal size; 15 lb/d each take three.
    sheet = generating()
    assert (MASS_RATE.us.from_si(sheet["generator_size"]), sheet["generator_count"]) == (pytest.approx(40), 1)
    assert sheet["capacity_one_out"] == 0
    sheet = generating(item="Brine-fed generator, 15 lb/d")
    assert sheet["generator_count"] == 3
    assert MASS_RATE.us.from_si(sheet["generator_capacity"]) == pytest.approx(45)
    assert sheet["capacity_one_out"] == pytest.approx(30 / 40)


def test_a_spare_stands_beside_those_in_duty(generating):
    sheet = generating(item="Brine-fed generator, 15 lb/d", spare=True)
    assert sheet["generator_count"] == 3
    assert MASS_RATE.us.from_si(sheet["generator_capacity"]) == pytest.approx(60)
    assert sheet["capacity_one_out"] == pytest.approx(45 / 40)


def test_backup_hypochlorite_in_gallons_a_day_and_its_tank(generating, printed):
    # 40 lb/d at 1.0432 lb/gal are 38.34 gal/d, 268 gal a week: a tank of 300.
    sheet = generating(hypochlorite_strength=0.125)
    assert sheet["backup_feed"] * 86400 / 0.003785411784 == printed("38.34")
    assert VOLUME.us.from_si(sheet["hypochlorite_storage"]) == printed("268")
    assert VOLUME.us.from_si(sheet["hypochlorite_tank"]) == printed("300")
    half = generating(hypochlorite_strength=0.125, backup_share=0.5)
    assert half["backup_feed"] == pytest.approx(sheet["backup_feed"] / 2)

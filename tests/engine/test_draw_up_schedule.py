"""The equipment schedule: what is bought, for what duty, and why."""

import pytest

from waterpark_designer.engine.worked import Missing
from waterpark_designer.model.edits import duplicate, move, revise, set_override
from waterpark_designer.model.hydraulics import PumpPlan
from waterpark_designer.model.kinds import (
    FeaturePump,
    FeatureWater,
    Overflow,
    PrimaryDisinfection,
    SecondaryDisinfection,
    SecondaryFlow,
)
from waterpark_designer.model.openings import OpeningsPlan, TankPlan
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan, SecondaryPlan
from waterpark_designer.units import FLOW, FOOT, GALLON, HORSEPOWER


def full_system(build, name="Loop", prefix=""):
    """A system with all that a system can have."""
    pad = build.pad(300, tank=2_000).revised(id=f"{prefix}Pad")
    pad = pad.revised(
        zones=tuple(each.revised(id=f"{prefix}Deck") for each in pad.zones),
        features=tuple(each.revised(id=f"{prefix}Sprays") for each in pad.features),
    )
    jets = build.feature(f"{prefix}Jets", 50, pump=FeaturePump.RECIRCULATION, water=FeatureWater.FILTERED)
    pool = build.pool(name=f"{prefix}Pool", features=(jets,))
    return build.system(
        pad,
        pool,
        name=name,
        filters=FilterPlan(spare=True),
        disinfection=DisinfectionPlan(primary=PrimaryDisinfection.BRINE_FED, spare=True),
        secondary=SecondaryPlan(kind=SecondaryDisinfection.ULTRAVIOLET),
        surge_volume=3_000 * GALLON,
    )


@pytest.fixture
def lines(build, design):
    """Schedule lines of a site under the model code, by the end of their key."""

    def of(*systems):
        done = design(build.site(*systems, codes=("cdc-mahc-2023",)))
        return {(line.system, line.key): line for line in done.equipment}, done

    return of


def test_everything_that_a_system_has_is_on_the_schedule(build, lines):
    found, _ = lines(full_system(build))
    assert [(line.tag, line.key) for line in found.values()] == [
        ("P-101", "Loop/pump"),
        ("S-101", "Loop/strainer"),
        ("P-102", "Sprays/pump"),
        ("F-101", "Loop/filter"),
        ("G-101", "Loop/generator"),
        ("D-101", "Loop/feed-pump"),
        ("T-101", "Loop/hypochlorite-tank"),
        ("T-102", "Pad/holding-tank"),
        ("T-103", "Loop/surge-tank"),
        ("U-101", "Loop/secondary"),
        ("FM-101", "Loop/flow-meter"),
        ("SO-101", "Pool/suction-cover"),
        ("RI-101", "Pool/inlets"),
    ]


def test_spares_and_standby_are_counted(build, lines):
    found, done = lines(full_system(build))
    assert found["Loop", "Loop/filter"].quantity == done.value("Loop", "filter_count") + 1
    assert found["Loop", "Loop/generator"].quantity == done.value("Loop", "generator_count") + 1
    assert found["Loop", "Loop/pump"].quantity == 2
    assert "one spare included" in found["Loop", "Loop/filter"].remarks


def test_a_pump_carries_the_design_flow(build, lines):
    found, _ = lines(build.system(build.pool(gallons=120_000), standby_pump=False, pump_head=18.0))
    pump = found["Loop", "Loop/pump"]
    assert pump.quantity == 1
    # 120,000 gal in 4 h.
    assert FLOW.us.from_si(pump.duty[0].value) == pytest.approx(500)
    assert (float(pump.duty[1].value), pump.duty[1].after) == (18.0, "head")


def test_a_surge_tank_is_bought_by_what_it_holds_not_by_the_water_it_runs_with(build, lines):
    tanks = TankPlan(usable_volume=30.0)
    found, done = lines(build.system(build.pool(), surge_volume=20.0, tanks=tanks))
    tank = found["Loop", "Loop/surge-tank"]
    assert [(amount.value, amount.after) for amount in tank.duty] == [
        (done.value("Loop", "surge_needed"), "surge to take")
    ]
    assert [(float(amount.value), amount.after) for amount in tank.rating] == [(30.0, "from lowest level to overflow")]
    assert tank.why == (("Loop", "surge_needed"),)


def test_why_leads_to_figures_that_are_there(build, lines):
    found, done = lines(full_system(build))
    for line in found.values():
        for node, figure in line.why:
            assert figure in done.sheets[node].figures
    assert found["Loop", "Loop/filter"].why[0] == ("Loop", "filter_rate_limit")
    assert ("Pad", "least_tank_volume") in found["Loop", "Pad/holding-tank"].why


def test_hypochlorite_alone_needs_no_generator(build, lines):
    plan = DisinfectionPlan(primary=PrimaryDisinfection.HYPOCHLORITE)
    found, _ = lines(build.system(build.pool(), disinfection=plan))
    assert ("Loop", "Loop/generator") not in found
    assert found["Loop", "Loop/feed-pump"].remarks == "only feed"


def test_what_is_not_known_yet_stays_on_the_schedule(build, design):
    done = design(build.site(build.pool()))
    filters = next(line for line in done.equipment if line.key == "Loop/filter")
    assert isinstance(filters.quantity, Missing)


def test_tags_and_keys_are_unique(build, lines, design):
    found, _ = lines(*(full_system(build, f"Loop{number}", f"N{number}-") for number in range(12)))
    assert len({line.tag for line in found.values()}) == len(found)
    assert len({line.key for line in found.values()}) == len(found)


def test_tags_stay_unique_with_a_hundred_pumps(build, design):
    many = tuple(build.feature(f"Jet {number}", 10) for number in range(1, 102))
    others = [build.system(build.pool(name=f"Pool {number}"), name=f"Loop-{number}") for number in range(11)]
    loops = [build.system(build.pool(features=many)), *others]
    tags = [line.tag for line in design(build.site(*loops)).equipment]
    assert len(set(tags)) == len(tags)


def test_tags_of_the_hundredth_item_on_have_a_dash(build, design):
    many = tuple(build.feature(f"Jet {number}", 10) for number in range(2, 102))
    tags = {line.item: line.tag for line in design(build.site(build.pool(features=many))).equipment}
    named = [tags[f"Feature pump, Jet {number}"] for number in (2, 99, 100, 101)]
    assert named == ["P-102", "P-199", "P-1-100", "P-1-101"]


def test_keys_stay_with_their_equipment(build, design):
    # Prices hang on keys: neither another order of systems nor another size may move them.
    site = build.site(full_system(build, "One", "A-"), full_system(build, "Two", "B-"), codes=("cdc-mahc-2023",))
    keys = {line.key for line in design(site).equipment}
    swapped = design(move(site, "Two", "Site", 0))
    assert {line.key for line in swapped.equipment} == keys
    assert [line.tag for line in swapped.equipment if line.key == "Two/pump"] == ["P-101"]
    larger = design(revise(site, "One", design_margin=1.0))
    assert {line.key for line in larger.equipment} == keys


def test_a_copy_of_a_system_has_lines_of_its_own(build, design):
    site, copy = duplicate(build.site(full_system(build), codes=("cdc-mahc-2023",)), "Loop")
    lines = design(site).equipment
    assert len({line.key for line in lines}) == len(lines)
    assert len([line for line in lines if line.system == copy]) == len(lines) / 2


def test_backup_that_is_not_wanted_is_not_bought(build, lines):
    plan = DisinfectionPlan(primary=PrimaryDisinfection.BRINE_FED, backup_share=0.0)
    found, done = lines(build.system(build.pool(), disinfection=plan))
    assert ("Loop", "Loop/feed-pump") not in found
    assert ("Loop", "Loop/hypochlorite-tank") not in found
    assert not {"backup_feed", "hypochlorite_storage"} & set(done.sheets["Loop"].figures)


def test_hypochlorite_is_bought_where_it_is_the_only_chlorine(build, lines):
    # The share of a backup means nothing where there is nothing to back up.
    plan = DisinfectionPlan(primary=PrimaryDisinfection.HYPOCHLORITE, backup_share=0.0)
    found, done = lines(build.system(build.pool(), disinfection=plan))
    assert found["Loop", "Loop/feed-pump"].quantity >= 1
    assert done.value("Loop", "backup_feed") > 0


@pytest.mark.parametrize(("kind", "item"), [("ultraviolet", "Ultraviolet reactor"), ("ozone", "Ozone contactor")])
# 120,000 gal in 4 h are 500 gpm, which one reactor treats; 10,000 gpm are beyond the largest nominal sizes.
@pytest.mark.parametrize(("gallons", "flow"), [(120_000, 500), (2_400_000, 10_000)])
def test_reactors_treat_their_flow(gallons, flow, kind, item, build, lines):
    plan = SecondaryPlan(kind=SecondaryDisinfection(kind), flow=SecondaryFlow.FULL_FLOW)
    found, _ = lines(build.system(build.pool(gallons=gallons), secondary=plan))
    line = found["Loop", "Loop/secondary"]
    assert line.item.startswith(item)
    each = line.rating[0].value
    assert FLOW.us.from_si(line.duty[0].value) == pytest.approx(flow)
    assert line.quantity * each >= line.duty[0].value * (1 - 1e-9)
    assert (line.quantity - 1) * each < line.duty[0].value
    assert (line.quantity == 1) is (flow == 500)


@pytest.mark.parametrize(
    ("primary", "words"), [("brine_fed", "vent hydrogen outdoors"), ("in_return_cells", "leaves with the water")]
)
def test_each_generator_says_where_its_hydrogen_goes(primary, words, build, lines):
    plan = DisinfectionPlan(primary=PrimaryDisinfection(primary))
    found, _ = lines(build.system(build.pool(target_salinity=3.2), disinfection=plan))
    assert words in found["Loop", "Loop/generator"].remarks


def test_pipe_is_taken_off_by_size_from_the_narrowest(build, design):
    runs = (
        build.run("Wide", 100, size="10"),
        build.run("Branches", 20, size="2", count=12),
        build.run("Ahead", 30, "pump_suction", size="10"),
        build.run("By hand", 40),
        build.run("Middle", 50, size="6"),
    )
    site = build.site(build.pumped(20, *runs), codes=("common-practice",), amendments=(build.turnover(4),))
    site = set_override(site, "By-hand", "inside_diameter", 0.5, "Lined main that is there already")
    taken_off = [line for line in design(site).equipment if line.item.startswith("Pipe")]
    assert [line.item for line in taken_off] == [
        "Pipe, PVC Sch 40, 2 in",
        "Pipe, PVC Sch 40, 6 in",
        "Pipe, PVC Sch 40, 10 in",
        "Pipe, PVC Sch 40, bore set by hand",
    ]
    assert [line.duty[0].value / FOOT for line in taken_off] == pytest.approx([240, 50, 130, 40])
    assert taken_off[2].remarks == "Wide, Ahead"


def test_a_pump_is_listed_with_its_motor_and_its_standby(build, design):
    loop = build.pumped(60, pump=PumpPlan(count=2, efficiency=0.7), standby_pump=True)
    site = build.site(loop, codes=("common-practice",), amendments=(build.turnover(4),))
    [pump] = [line for line in design(site).equipment if line.tag == "P-101"]
    assert pump.quantity == 3
    flow, head = pump.duty
    assert (flow.value / FLOW.us.factor, flow.after) == (pytest.approx(250), "each")
    assert (head.value / FOOT, head.after) == (pytest.approx(60), "head")
    # 5.4 hp each: 7.5 hp and 11 A at 460 V (NEC Table 430.250).
    motor, current = pump.rating
    assert (motor.value / HORSEPOWER, current.value) == (pytest.approx(7.5), pytest.approx(11))
    assert "stated" not in pump.remarks
    # Bought with its motor, so that no motor is priced twice.
    assert "motor included, 460 V three-phase" in pump.remarks
    # The runs carry the pumps in duty: what joins the third pump to them is not taken off unless it is drawn.
    assert "duty and standby, piped as drawn" in pump.remarks
    assert not [line for line in design(site).equipment if line.item.startswith("Motor")]


@pytest.fixture
def by_key(build, design):
    """Lines by key of the loop of 500 gpm and 60 ft with these runs and fields, under Wisconsin's rule."""

    def of(*runs, features=(), **fields):
        loop = build.pumped(60, *runs, **fields)
        [pool] = loop.attractions
        loop = loop.revised(attractions=(pool.revised(features=features, suction_outlets=3),))
        site = build.site(loop, codes=("wisconsin-sps-390-2024", "common-practice"), amendments=(build.turnover(4),))
        done = design(site)
        return {line.key: line for line in done.equipment}, done

    return of


@pytest.mark.parametrize(("plan", "drives"), [({}, 0), ({"drive": True}, 2), ({"night_flow": 0.7}, 2)])
def test_drives_are_lines_of_their_own_one_for_each_motor(by_key, plan, drives):
    lines, _ = by_key(pump=PumpPlan(efficiency=0.7, **plan))
    assert ("Loop/drive" in lines) is bool(drives)
    if drives:
        line = lines["Loop/drive"]
        assert (line.tag, line.quantity) == ("VS-101", drives)
        # 10.8 hp: 15 hp, 21 A at 460 V (NEC Table 430.250).
        assert line.duty[0].value / HORSEPOWER == pytest.approx(15) and line.rating[0].value == 21
        assert ("Loop", "drive_efficiency") in line.why


def test_a_features_drive_is_its_own(build, by_key):
    sprays = build.feature(
        "Sprays", 100, pipe_runs=(build.run("Supply"),), device_head=6, pump_plan=PumpPlan(drive=True)
    )
    lines, _ = by_key(features=(sprays,))
    assert lines["Sprays/drive"].item == "Variable-speed drive, Sprays" and lines["Sprays/drive"].quantity == 1


def test_strainers_and_meter_have_their_size(build, by_key):
    runs = (build.run("Suction", 10, "pump_suction", size="8"), build.run("Header", 40, size="6"))
    lines, done = by_key(*runs, equipment=build.losses(heater=50, strainer=2), pump=PumpPlan(count=2))
    strainer, meter = lines["Loop/strainer"], lines["Loop/flow-meter"]
    assert strainer.quantity == 3, "two in duty, one stands by"
    assert FLOW.us.from_si(strainer.duty[0].value) == pytest.approx(250)
    assert strainer.remarks == "in the suction, PVC Sch 40, 8 in"
    assert [one.value for one in strainer.rating] == [done.value("Loop", "strainer_area")]
    assert ("Suction", "inside_diameter") in strainer.why
    assert FLOW.us.from_si(meter.duty[0].value) == pytest.approx(500)
    assert meter.remarks == "in the line, PVC Sch 40, 6 in"
    assert "Loop/strainer" not in by_key(equipment=build.losses(heater=60))[0]


def test_covers_are_rated_with_one_outlet_blocked(build, by_key):
    lines, _ = by_key()
    cover = lines["Pool/suction-cover"]
    # 500 gpm through the two that are left of three.
    assert cover.quantity == 3 and FLOW.us.from_si(cover.rating[0].value) == pytest.approx(250)
    assert "entrapment" in cover.remarks


def test_outlets_of_a_features_pump_have_covers_of_their_own(build, by_key):
    jets = build.feature("Jets", 900, suction_outlets=4)
    cover = by_key(features=(jets,))[0]["Jets/suction-cover"]
    # 900 gpm through the three that are left of four.
    assert cover.quantity == 4 and FLOW.us.from_si(cover.rating[0].value) == pytest.approx(300)
    drawn = build.feature("Jets", 900, suction_outlets=4, pump=FeaturePump.RECIRCULATION)
    assert "Jets/suction-cover" not in by_key(features=(drawn,))[0]


def test_a_single_outlet_is_bought_with_a_warning(build, design):
    site = build.site(build.pool(suction_outlets=1), amendments=(build.turnover(4),))
    [cover] = [line for line in design(site).equipment if line.key == "Pool/suction-cover"]
    assert "entrapment hazard" in cover.remarks and cover.quantity == 1
    none = design(build.site(build.pool(suction_outlets=0), amendments=(build.turnover(4),)))
    assert not [line for line in none.equipment if line.key == "Pool/suction-cover"]


def test_skimmers_are_bought_where_no_gutter_takes_the_water(build, design):
    def keys(*runs):
        loop = build.pumped(20, *runs)
        rules = (build.turnover(4), build.limit("area_per_skimmer", 500 * FOOT**2))
        return {line.key: line.quantity for line in design(build.site(loop, amendments=rules)).equipment}

    # 3,000 ft² at 500 ft² each.
    assert keys()["Pool/skimmers"] == 6
    assert "Pool/skimmers" not in keys(build.run("Gutters", 50, "gutter"))


def test_openings_as_drawn_come_before_the_least_number(build, design):
    plan = OpeningsPlan(overflow=Overflow.SKIMMERS, skimmers=8, inlets=24)
    site = build.site(build.pool(openings=plan), amendments=(build.turnover(4), build.limit("inlet_count", 10)))
    found = {line.key: line for line in design(site).equipment}
    assert (found["Pool/skimmers"].quantity, found["Pool/inlets"].quantity) == (8, 24)
    assert found["Pool/inlets"].remarks == "as drawn"
    least = design(build.site(build.pool(), amendments=(build.turnover(4), build.limit("inlet_count", 10))))
    [inlets] = [line for line in least.equipment if line.key == "Pool/inlets"]
    assert (inlets.quantity, inlets.remarks) == (10, "least number")


def test_tanks_that_are_built_say_what_is_needed_and_what_they_hold(build, design):
    plan = TankPlan(usable_volume=9_000 * GALLON, sewer_flow=0.0, sump_volume=500 * GALLON)
    loop = build.pumped(20).revised(tanks=plan)
    done = design(build.site(loop, codes=("cdc-mahc-2023",)))
    found = {line.key: line for line in done.equipment}
    for key, figure, gallons in (("surge-tank", "surge_needed", 9_000), ("waste-sump", "sump_needed", 500)):
        line = found[f"Loop/{key}"]
        assert [float(one.value) for one in line.duty] == [done.value("Loop", figure)]
        assert [float(one.value) / GALLON for one in line.rating] == [pytest.approx(gallons)]
        assert "confined space" in line.remarks and line.why == (("Loop", figure),)
    assert not [line for line in design(build.site(build.pumped(20))).equipment if line.key == "Loop/waste-sump"]


def test_valves_and_fittings_are_taken_off_by_size(build, by_key):
    runs = (
        build.run("Header", 90, size="6", elbows_90=3, tees_run=2, butterfly_valves=2, check_valves=1),
        build.run("Branches", 20, size="3", count=4, elbows_90=2, elbows_45=1, tees_branch=1, butterfly_valves=1),
    )
    sprays = build.feature(
        "Sprays", 300, pipe_runs=(build.run("Supply", 30, size="6", butterfly_valves=1),), device_head=6
    )
    lines, _ = by_key(*runs, features=(sprays,))
    six, three = "PVC Sch 40, 6 in", "PVC Sch 40, 3 in"
    assert {key: line.quantity for key, line in lines.items() if line.tag.startswith("V-")} == {
        f"Loop/butterfly-valves-{six}": 3,
        f"Loop/butterfly-valves-{three}": 4,
        f"Loop/check-valves-{six}": 1,
    }
    valve = lines[f"Loop/butterfly-valves-{six}"]
    assert valve.item == f"Butterfly valve, {six}" and FLOW.us.from_si(valve.duty[0].value) == pytest.approx(500)
    told = {key: [(float(one.value), one.after) for one in lines[f"Loop/pipe-{key}"].rating] for key in (six, three)}
    assert told == {six: [(3, "elbows 90°"), (2, "tees")], three: [(8, "elbows 90°"), (4, "elbows 45°"), (4, "tees")]}
    assert lines[f"Loop/pipe-{six}"].why == (("Header", "inside_diameter"), ("Supply", "inside_diameter"))

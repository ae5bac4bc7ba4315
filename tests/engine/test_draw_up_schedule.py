"""The equipment schedule: what is bought, for what duty, and why."""

import pytest

from waterpark_designer.engine.worked import Missing
from waterpark_designer.model.edits import duplicate, move, revise, set_override
from waterpark_designer.model.hydraulics import PumpPlan
from waterpark_designer.model.kinds import (
    FeaturePump,
    FeatureWater,
    PrimaryDisinfection,
    SecondaryDisinfection,
    SecondaryFlow,
)
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
        ("P-102", "Sprays/pump"),
        ("F-101", "Loop/filter"),
        ("G-101", "Loop/generator"),
        ("D-101", "Loop/feed-pump"),
        ("T-101", "Loop/hypochlorite-tank"),
        ("T-102", "Pad/holding-tank"),
        ("T-103", "Loop/surge-tank"),
        ("U-101", "Loop/secondary"),
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

"""Pipes and head of whole systems: sizes by velocity, losses, clean and dirty filters, balance of power.

Figures worked by hand stand beside their checks; bores are the average inside diameters of ASTM D1785.
"""

import math
import random
from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import fluids
import pytest

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.model.edits import set_override
from waterpark_designer.model.hydraulics import CurvePoint, EquipmentLosses, HydraulicTerms, PipeRun, PumpPlan
from waterpark_designer.model.kinds import FilterMedium, FrictionMethod, PipeStandard
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import FilterPlan, RecirculationSystem
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE, STANDARD_GRAVITY, TEMPERATURE

GPM = GALLON / MINUTE
PRACTICE = ("common-practice",)
FIVE_HUNDRED = 500 * GPM
EIGHTY = TEMPERATURE.us.to_si(80.0)

Design = Callable[[Site], SiteDesign]
Figure = Callable[[Site, str, str], Worked]
Lack = Callable[[Site, str, str], Missing]


def nominal(value: Worked) -> str:
    return value.step.title.split(" in ")[0]


@pytest.mark.parametrize(("kind", "gpm", "size"), [
    # 8 ft/s in 3.998 in: 0.08718 ft² · 8 = 0.6974 ft³/s = 313.0 gpm. The widest 4 in pipe, 4.026 in, would carry 317.4.
    ("return_header", 312, "4"), ("return_header", 315, "5"),
    # 6 ft/s in 6.031 in: 0.19838 ft² · 6 = 1.1903 ft³/s = 534.2 gpm; in 6.065 in it would be 540.3.
    ("tank_suction", 533, "6"), ("tank_suction", 537, "8"),
    # 3 ft/s in 7.942 in: 0.34403 ft² · 3 = 1.0321 ft³/s = 463.2 gpm.
    ("gutter", 462, "8"), ("gutter", 465, "10"),
])  # fmt: skip
def test_the_smallest_size_that_keeps_to_the_velocity_limit(
    build: SimpleNamespace, figure: Figure, kind: str, gpm: float, size: str
) -> None:
    loop = build.pumped(0, build.run("Line", 50, kind), fixed_flow=gpm * GPM)
    assert nominal(figure(build.site(loop, codes=PRACTICE), "Line", "inside_diameter")) == size


def test_the_codes_limit_sizes_pipe(build: SimpleNamespace, figure: Figure) -> None:
    # Nevada NAC 444.160(1): 10 ft/s, in 3.998 in 391 gpm. Minnesota 4717.2570 subp. 3: 8 ft/s, 313 gpm.
    loop = build.pumped(0, build.run("Line", 50), fixed_flow=350 * GPM)
    sizes = {
        code: nominal(figure(build.site(loop, codes=(code,)), "Line", "inside_diameter"))
        for code in ("nevada-444-160", "minnesota-4717-2570")
    }
    assert sizes == {"nevada-444-160": "4", "minnesota-4717-2570": "5"}


def test_like_runs_divide_the_flow_and_a_share_is_of_the_design_flow(
    build: SimpleNamespace, figure: Figure, piped: Any
) -> None:
    site = piped(build.pumped(0, build.run("Gutters", 50, "gutter", count=4, flow_share=0.8)))
    assert figure(site, "Gutters", "run_flow") == pytest.approx(100 * GPM)


def test_each_standard_has_its_own_bore(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    # 6 in: ASTM D1785 average inside diameters 6.031 (Schedule 40) and 5.709 (Schedule 80); steel 6.065 (ASME B36.10).
    bores = {}
    for standard in (PipeStandard.PVC_40, PipeStandard.PVC_80, PipeStandard.STEEL_40):
        site = piped(build.pumped(0, build.run("Line", 50, standard=standard, size="6")))
        bores[standard] = figure(site, "Line", "inside_diameter") / INCH
    assert bores[PipeStandard.PVC_40] == pytest.approx(6.031, abs=5e-4)
    assert bores[PipeStandard.STEEL_40] == pytest.approx(6.065, abs=2e-3)
    assert bores[PipeStandard.PVC_80] == pytest.approx(5.709, abs=2e-3)


def test_a_flow_too_great_for_one_pipe_says_what_to_do(build: SimpleNamespace, lack: Lack) -> None:
    # 24 in at 8 ft/s carries 9,953 gpm; each of two carries half.
    site = build.site(build.pumped(0, build.run("Line", 50), fixed_flow=12_000 * GPM), codes=PRACTICE)
    assert "side by side" in lack(site, "Line", "inside_diameter").needs
    assert "side by side" in lack(site, "Loop", "duty_head").needs


def test_a_size_that_there_is_not_says_so(build: SimpleNamespace, lack: Lack, piped: Any) -> None:
    needs = lack(piped(build.pumped(0, build.run("Line", 50, size="7"))), "Line", "inside_diameter").needs
    assert "no size 7 in" in needs


def test_head_is_the_sum_of_what_takes_it(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    loop = build.pumped(
        0,
        build.run("On the way", 200),
        build.run("Aside", 5000, in_pump_head=False),
        equipment=build.losses(
            strainer=2, filter_clean=8, filter_dirt=23, heater=5, reactor=3, generator=4, valves=3, inlets=5),
        pump=PumpPlan(static_head=7 * FOOT),
    )  # fmt: skip
    site = piped(loop)
    way = figure(site, "On-the-way", "run_loss")
    assert figure(site, "Loop", "pipe_loss") == pytest.approx(way)
    assert figure(site, "Loop", "equipment_loss") == pytest.approx(30 * FOOT)
    assert figure(site, "Loop", "head_clean") == pytest.approx(37 * FOOT + way)
    assert figure(site, "Loop", "head_dirty") == pytest.approx(60 * FOOT + way)


def test_friction_and_fittings_of_a_run_by_the_fluids_library(
    build: SimpleNamespace, figure: Figure, piped: Any
) -> None:
    # 500 gpm in 6 in Schedule 40 PVC at 80 °F: 0.8601 mm²/s (CoolProp). Crane: 30 f_T an elbow, f_T 0.0150 for 6 in.
    loop = build.pumped(0, build.run("Line", 300, size="6", elbows_90=10))
    body = loop.attractions[0].revised(water_temperature=EIGHTY)
    site = piped(loop.revised(attractions=(body,)))
    bore = 6.031 * INCH
    velocity = FIVE_HUNDRED / (math.pi / 4 * bore**2)
    factor = fluids.friction_factor(Re=velocity * bore / 8.601e-7, eD=1.5e-6 / bore)
    velocity_head = velocity**2 / (2 * STANDARD_GRAVITY)
    assert figure(site, "Line", "friction_loss") == pytest.approx(factor * 300 * FOOT / bore * velocity_head, rel=1e-3)
    assert figure(site, "Line", "fittings_loss") == pytest.approx(10 * 30 * 0.0150 * velocity_head, rel=0.01)


def test_hazen_and_williams_by_choice_of_the_site(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    # h = 4.727 L (Q/C)^1.852 / d^4.871 in feet and ft³/s (EPANET 2.2 manual): 500 gpm = 1.11401 ft³/s, C 150, 6.031 in.
    terms = HydraulicTerms(method=FrictionMethod.HAZEN_WILLIAMS)
    site = piped(build.pumped(0, build.run("Line", 300, size="6")), hydraulics=terms)
    feet = 4.727 * 300 * (1.11401 / 150) ** 1.852 / (6.031 / 12) ** 4.871
    assert figure(site, "Line", "friction_loss") / FOOT == pytest.approx(feet, rel=1e-3)
    step = figure(site, "Line", "friction_loss").step
    assert step.formula is not None and step.formula.name == "empirical_friction_loss"


def test_warmer_water_loses_less(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    def loss(fahrenheit: float) -> float:
        loop = build.pumped(0, build.run("Line", 300, size="6"))
        body = loop.attractions[0].revised(water_temperature=TEMPERATURE.us.to_si(fahrenheit))
        return figure(piped(loop.revised(attractions=(body,))), "Line", "run_loss")

    assert loss(60) > loss(80) > loss(104)


KINDS = ("tank_suction", "pump_suction", "pump_discharge", "filter_line", "equipment_line", "return_header")


def random_runs(chance: random.Random, build: SimpleNamespace) -> list[PipeRun]:
    return [
        build.run(
            f"Run {number}",
            chance.uniform(5, 400),
            chance.choice(KINDS),
            count=chance.choice([1, 1, 2, 5]),
            flow_share=chance.choice([1.0, 1.0, 0.5]),
            standard=chance.choice(list(PipeStandard)),
            elbows_90=chance.randrange(8),
            tees_branch=chance.randrange(3),
            butterfly_valves=chance.randrange(3),
            check_valves=chance.randrange(2),
            exits=chance.randrange(2),
        )
        for number in range(chance.randrange(3, 9))
    ]


def random_loop(chance: random.Random, build: SimpleNamespace) -> RecirculationSystem:
    equipment = build.losses(
        strainer=chance.uniform(0, 3), filter_clean=chance.uniform(3, 15), filter_dirt=chance.uniform(5, 25),
        heater=chance.uniform(0, 8), inlets=chance.uniform(1, 6))  # fmt: skip
    plan = PumpPlan(
        count=chance.choice([1, 1, 2, 3]), static_head=chance.uniform(0, 8), shutoff_ratio=chance.uniform(1.1, 1.6)
    )
    flow = chance.uniform(100, 1200) * GPM
    return build.pumped(0, *random_runs(chance, build), equipment=equipment, pump=plan, fixed_flow=flow)


seeds = pytest.mark.parametrize("seed", range(12))


@seeds
def test_power_of_the_water_is_what_lift_and_losses_take_up(
    build: SimpleNamespace, design: Design, piped: Any, seed: int
) -> None:
    """At the point where the pump runs, each loss worked afresh: friction by the fluids library, fittings by Crane."""
    loop = random_loop(random.Random(seed), build)
    done = design(piped(loop))
    viscosity = done.curves["Loop"].clean.kinematic_viscosity
    design_flow, density = done.value("Loop", "design_flow"), 996.0
    for suffix, dirt in (("clean", 0.0), ("dirty", loop.equipment.filter_dirt)):
        flow, head = (done.value("Loop", f"operating_{what}_{suffix}") for what in ("flow", "head"))
        equipment = done.value("Loop", "equipment_loss") + dirt
        losses = sum(loss_by_fluids(run, done, flow, viscosity) for run in loop.pipe_runs)
        taken = [loop.pump.static_head, losses, equipment * (flow / design_flow) ** 2]
        power = density * STANDARD_GRAVITY * flow * head
        assert power == pytest.approx(sum(density * STANDARD_GRAVITY * flow * each for each in taken), rel=1e-6)


def loss_by_fluids(run: PipeRun, done: SiteDesign, system_flow: float, viscosity: float) -> float:
    bore, flow = float(done.value(run.id, "inside_diameter")), system_flow * run.flow_share / run.count
    velocity = flow / (math.pi / 4 * bore**2)
    roughness = 4.5e-5 if run.standard is PipeStandard.STEEL_40 else 1.5e-6
    factor = fluids.friction_factor(Re=velocity * bore / viscosity, eD=roughness / bore)
    butterfly = 45 if bore <= 8.5 * INCH else 35 if bore <= 14.5 * INCH else 25
    multiples = run.elbows_90 * 30 + run.tees_branch * 60 + run.butterfly_valves * butterfly + run.check_valves * 100
    fittings = multiples * 0.25 / math.log10(0.0018 * INCH / (3.7 * bore)) ** 2 + run.exits
    return (factor * run.length / bore + fittings) * velocity**2 / (2 * STANDARD_GRAVITY)


@seeds
def test_a_longer_run_never_lowers_the_head_and_a_wider_one_never_raises_it(
    build: SimpleNamespace, figure: Figure, piped: Any, seed: int
) -> None:
    chance = random.Random(100 + seed)
    loop = random_loop(chance, build)
    number = chance.randrange(len(loop.pipe_runs))
    run = loop.pipe_runs[number].revised(standard=PipeStandard.PVC_40)

    def head(**changes: Any) -> float:
        runs = (*loop.pipe_runs[:number], run.revised(**changes), *loop.pipe_runs[number + 1 :])
        return figure(piped(loop.revised(pipe_runs=runs)), "Loop", "duty_head")

    lengths = [head(length=run.length * factor) for factor in (1.0, 1.5, 3.0, 10.0)]
    assert lengths == sorted(lengths) and lengths[-1] > lengths[0]
    widths = [head(size=size) for size in ("3", "4", "6", "8", "10", "12", "16")]
    assert widths == sorted(widths, reverse=True) and widths[-1] < widths[0]


def headed(build: SimpleNamespace, piped: Any, **heads: float) -> Site:
    """500 gpm through 300 ft of 6 in pipe, 5 ft of lift, 20 ft of equipment and 15 ft of dirt; heads by hand [ft]."""
    equipment = build.losses(heater=20, filter_dirt=15)
    plan = PumpPlan(static_head=5 * FOOT)
    site = piped(build.pumped(0, build.run("Line", 300, size="6", elbows_90=6), equipment=equipment, pump=plan))
    for key, feet in heads.items():
        site = set_override(site, "Loop", key, feet * FOOT, "Measured on the old plant")
    return site


@pytest.mark.parametrize("heads", [
    {}, {"head_clean": 60}, {"head_clean": 28}, {"head_clean": 7}, {"head_clean": 3}, {"head_dirty": 90},
    {"head_dirty": 30}, {"head_clean": 40, "head_dirty": 45}, {"pipe_loss": 12}, {"pipe_loss": 0.5},
    {"equipment_loss": 2}, {"equipment_loss": 44}, {"static_head": 11}, {"filter_dirt": 3},
], ids=str)  # fmt: skip
def test_the_systems_curve_goes_through_a_head_set_by_hand(
    build: SimpleNamespace, design: Design, piped: Any, heads: dict[str, float]
) -> None:
    done = design(headed(build, piped, **heads))
    curves, flow = done.curves["Loop"], float(done.value("Loop", "design_flow"))
    for curve, key in ((curves.clean, "head_clean"), (curves.dirty, "head_dirty")):
        head = float(done.value("Loop", key))
        if key in heads:
            assert head == pytest.approx(heads[key] * FOOT)
        assert curve.head(flow) == pytest.approx(head)
        lift = min(head, float(done.value("Loop", "static_head")))
        assert curve.head(0.0) == pytest.approx(lift)
        climb = [curve.head(flow * share / 10) for share in range(21)]
        assert climb == sorted(climb)
    assert curves.at_clean is not None
    assert done.value("Loop", "operating_flow_clean") == curves.at_clean.flow
    told = done.value("Loop", "operating_flow_clean").step.source.text
    assert ("set by hand" in told) is bool(heads)


def test_a_head_set_by_hand_moves_where_the_pump_runs(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    # Dirty set to 65 ft for the duty, clean to 25 or 45 ft: with 5 ft of lift all but some 3 ft of pipe loss goes with
    # the square, so 81.25 − 16.25 x² = 5 + (H − 5) x², x = (76.25 / (16.25 + H − 5))^0.5: 1.450 and 1.167.
    for clean, expected in ((25, 1.450), (45, 1.167)):
        site = headed(build, piped, head_clean=clean, head_dirty=65)
        flow = figure(site, "Loop", "operating_flow_clean") / FIVE_HUNDRED
        assert flow == pytest.approx(expected, rel=6e-3)


def test_a_head_set_by_hand_stands_in_for_losses_that_are_not_known(
    build: SimpleNamespace, figure: Figure, lack: Lack, piped: Any
) -> None:
    site = piped(build.pumped(0, equipment=EquipmentLosses(), filters=FilterPlan(medium=FilterMedium.PRECOAT)))
    assert "clean filter" in lack(site, "Loop", "operating_flow_dirty").needs
    for key in ("head_clean", "head_dirty"):
        site = set_override(site, "Loop", key, 20.0, "Supplier's word")
    assert figure(site, "Loop", "operating_flow_dirty") == pytest.approx(FIVE_HUNDRED)


def test_wisconsin_takes_the_clean_filter_and_georgia_the_dirty_one(
    build: SimpleNamespace, figure: Figure, piped: Any
) -> None:
    """Wisconsin Table 390.14-1, notes a and c; Georgia 511-3-5-.07(1)(a): just before cleaning."""
    loop = build.pumped(0, equipment=build.losses(filter_clean=10, filter_dirt=20, valves=30))
    for code, feet, clause in (
        ("wisconsin-sps-390-2024", 40, "390.14-1"),
        ("georgia-511-3-5-2024", 60, ".07(1)(a)"),
        (None, 60, "does not say"),
    ):
        duty = figure(piped(loop, codes=(code, *PRACTICE) if code else PRACTICE), "Loop", "duty_head")
        assert duty / FOOT == pytest.approx(feet)
        assert clause in duty.step.source.text


def test_dirt_is_the_codes_allowance_where_none_is_entered(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    # In water of 62.2 lb/ft³ 10 psi (common practice) are 23.15 ft, 15 psi (Wyoming 010-4 s.9(e)) 34.73 ft.
    loop = build.pumped(0, equipment=EquipmentLosses(filter_clean=1.0))
    for codes, feet in ((PRACTICE, 23.15), (("wyoming-010-4", *PRACTICE), 34.73)):
        assert figure(piped(loop, codes=codes), "Loop", "filter_dirt") / FOOT == pytest.approx(feet, rel=2e-3)


def test_a_clean_sand_filter_is_reckoned_by_ergun(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    # Packed bed by fluids 1.3.1: 16,133 Pa = 5.42 ft in 24 in of 0.5 mm sand at 15 gpm/ft² and 27 °C, void 0.42;
    # the filter's own piping, 1.4 m, comes on top of it.
    loop = build.pumped(0, equipment=EquipmentLosses(), filters=FilterPlan(bed_depth=24 * INCH))
    body = loop.attractions[0].revised(water_temperature=300.15)
    site = piped(loop.revised(attractions=(body,)))
    rate = figure(site, "Loop", "filter_rate")
    bed = figure(site, "Loop", "filter_loss") - 1.4
    expected = fluids.dP_packed_bed(
        dp=0.5e-3, voidage=0.42, vs=float(rate), rho=996.5, mu=8.509e-4, L=24 * INCH, Method="Ergun"
    )
    assert bed == pytest.approx(expected / (996.5 * STANDARD_GRAVITY), rel=2e-3)
    assert 5.42 * 0.3 < bed / FOOT < 5.42


@pytest.mark.parametrize("medium", [FilterMedium.PRECOAT, FilterMedium.CARTRIDGE, FilterMedium.TWO_LAYER])
def test_a_filter_without_an_estimate_holds_up_all_that_follows(
    build: SimpleNamespace, design: Design, lack: Lack, piped: Any, medium: FilterMedium
) -> None:
    site = piped(build.pumped(0, equipment=EquipmentLosses(filter_dirt=5.0), filters=FilterPlan(medium=medium)))
    assert lack(site, "Loop", "filter_loss").needs.startswith("Enter the head that a clean filter takes")
    for key in (
        "equipment_loss",
        "head_clean",
        "head_dirty",
        "duty_head",
        "operating_flow_dirty",
        "hydraulic_power",
        "shaft_power",
        "motor_rating",
        "motor_current",
        "electric_power",
        "energy_a_day",
        "energy_cost",
    ):
        missing = lack(site, "Loop", key)
        assert missing.needs == lack(site, "Loop", "filter_loss").needs, key
    assert lack(site, "Loop", "duty_head").waits_for == "Clean filter"
    assert isinstance(design(site).value("Site", "energy_cost"), Missing)
    [check] = [finding for finding in design(site).findings if finding.key == "operating_flow"]
    assert check.status is Status.UNKNOWN and "clean filter" in check.remedy
    assert "Loop" not in design(site).curves


CURVES = tuple(
    tuple(CurvePoint(flow=flow, head=head) for flow, head in pairs)
    for pairs in ((), ((0.0, 0.0), (1e-4, 0.0)), ((0.0, 270.0), (0.25, 0.0)), ((3e-4, 1.5), (3e-4, 1.2)))
)


@seeds
def test_whatever_is_entered_nothing_is_raised(build: SimpleNamespace, design: Design, piped: Any, seed: int) -> None:
    """Values at the ends of what the fields take, in any mixture; every figure is a number or says what it lacks."""
    chance = random.Random(500 + seed)
    runs = [
        run.revised(length=chance.choice([0.0, 1e-9, 5000.0]), flow_share=chance.choice([1e-6, 1.0, 2.0]),
                    count=chance.choice([1, 1000]), size=chance.choice(["", "0.5", "24", "99"]))
        for run in random_runs(chance, build)]  # fmt: skip
    plan = PumpPlan(
        count=chance.choice([1, 12]), shutoff_ratio=chance.choice([1.0001, 3.0]),
        static_head=chance.choice([-20.0, 0.0, 60.0]),
        night_flow=chance.choice([0.1001, 0.5, 1.0]), running_hours=chance.choice([0.0, 86400.0]),
        curve=chance.choice(CURVES))  # fmt: skip
    flow = chance.choice([1e-9, 1e-5, 0.03, 20.0])
    head = chance.choice([None, 1e-6, 200.0])
    site = piped(build.pumped(chance.choice([0, 90]), *runs, pump=plan, fixed_flow=flow, pump_head=head))
    done = design(site)
    for sheet in done.sheets.values():
        for key, figure in sheet.figures.items():
            assert isinstance(figure.value, Missing) or math.isfinite(figure.value), key
            if isinstance(figure.value, Worked) and key not in ("static_head", "head_clean", "head_dirty", "duty_head"):
                allowed = ("suction_head_available", "operating_head_clean", "operating_head_dirty")
                assert figure.value >= 0 or key in allowed, key


def test_a_system_without_runs_or_water_has_no_hydraulics(build: SimpleNamespace, design: Design) -> None:
    for loop in (build.system(build.pool()), build.system(pipe_runs=(build.run(),))):
        done = design(build.site(loop, codes=PRACTICE))
        assert "duty_head" not in done.sheets["Loop"].figures and done.curves == {}


def test_strainer_and_meter_by_minnesota(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    # Minnesota 4717.2570 subp. 2 and 4: four times the suction line, 6 in of 28.57 in²; 1.5 times 500 gpm.
    site = piped(build.pumped(0, build.run("Suction", 5, "pump_suction")), codes=("minnesota-4717-2570",))
    assert figure(site, "Loop", "strainer_area") / INCH**2 == pytest.approx(4 * 28.57, rel=1e-3)
    assert figure(site, "Loop", "meter_range") / GPM == pytest.approx(750)

"""Each check of inlets, skimmers, outlets, gravity lines, surge tanks and sumps: met, not met, silent, cannot tell."""

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.model.edits import set_override
from waterpark_designer.model.hydraulics import PumpPlan
from waterpark_designer.model.kinds import FeaturePump, FeatureWater, Overflow
from waterpark_designer.model.openings import OpeningsPlan, TankPlan
from waterpark_designer.model.site import Site
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE

GPM = GALLON / MINUTE
PRACTICE = ("common-practice",)
WISCONSIN, ILLINOIS, OREGON = "wisconsin-sps-390-2024", "illinois-77-820-210", "oregon-333-060-0505"
MET, NOT_MET, SILENT, UNKNOWN, CAUTION = Status.MET, Status.NOT_MET, Status.SILENT, Status.UNKNOWN, Status.CAUTION
GUTTER, SKIMMERS, NEITHER = Overflow.GUTTER, Overflow.SKIMMERS, Overflow.NEITHER

Findings = Callable[[Site, str], list[Finding]]


def body(build: SimpleNamespace, *codes: str, kind: str = "leisure_pool", outlets: int | None = 2, **plan: Any) -> Site:
    """A body of 500 gpm under some codes, with its openings."""
    one = build.pool(kind, suction_outlets=outlets, openings=OpeningsPlan(**plan))
    return build.site(build.system(one, fixed_flow=500 * GPM), codes=codes or PRACTICE)


def only(found: list[Finding]) -> Finding:
    assert len(found) == 1
    return found[0]


@pytest.mark.parametrize(("outlets", "status"), [(None, []), (0, [MET]), (1, [NOT_MET]), (2, [MET]), (5, [MET])])
def test_number_of_suction_outlets(
    build: SimpleNamespace, findings: Findings, outlets: int | None, status: list[Status]
) -> None:
    """Wisconsin SPS 390.14(13)(c): any one blocked, the rest carry the whole flow."""
    site = build.site(build.pool(suction_outlets=outlets), codes=("wisconsin-sps-390-2024",))
    assert [finding.status for finding in findings(site, "outlet_count")] == status


@pytest.mark.parametrize(("outlets", "cautioned"), [(None, False), (0, False), (1, True), (2, False)])
def test_a_single_outlet_is_a_caution_under_any_code(
    build: SimpleNamespace, findings: Findings, outlets: int | None, cautioned: bool
) -> None:
    found = findings(build.site(build.pool(suction_outlets=outlets), codes=PRACTICE), "single_outlet")
    assert [finding.status for finding in found] == ([CAUTION] if cautioned else [])
    assert all("1404(c)" in finding.clause and "one outlet blocked" in finding.remedy for finding in found)


def test_a_spray_deck_has_no_suction_outlets(build: SimpleNamespace, findings: Findings) -> None:
    site = build.site(build.pad(100, suction_outlets=1), codes=("wisconsin-sps-390-2024",))
    assert findings(site, "outlet_count") == [] and findings(site, "single_outlet") == []


@pytest.mark.parametrize(
    ("fields", "status"),
    [
        ({"suction_outlets": None}, [UNKNOWN]),
        ({"suction_outlets": 0}, [MET]),
        ({"suction_outlets": 1}, [NOT_MET]),
        ({"suction_outlets": 3}, [MET]),
        ({"suction_outlets": None, "water": FeatureWater.FILTERED}, []),
        ({"suction_outlets": None, "pump": FeaturePump.RECIRCULATION}, []),
    ],
)
def test_outlets_that_a_features_pump_draws_from(
    build: SimpleNamespace, design: Callable[[Site], SiteDesign], fields: dict[str, Any], status: list[Status]
) -> None:
    """Wisconsin SPS 390.14(13)(c) names feature pumps that draw from the basin beside the recirculation pump."""
    jets = build.feature("Jets", 600, **fields)
    done = design(build.site(build.pool(features=(jets,)), codes=(WISCONSIN,)))
    found = [one for one in done.findings if one.node == "Jets" and one.key == "outlet_count"]
    assert [one.status for one in found] == status
    assert [one.key for one in done.findings if one.node == "Jets"].count("single_outlet") == (
        1 if fields["suction_outlets"] == 1 else 0
    )
    if fields["suction_outlets"] == 3:
        # 600 gpm through the two that are left of three.
        assert done.value("Jets", "outlet_flow") == pytest.approx(300 * GPM)


@pytest.mark.parametrize(
    ("pumps", "lines", "outlets", "rating"),
    [(2, 1, 4, 200), (2, 2, 4, 300), (2, 2, 5, 300), (3, 3, 12, 200 / 3), (1, 4, 4, 200), (2, 2, 2, None)],
)
def test_outlets_on_suction_lines_that_do_not_meet(
    build: SimpleNamespace,
    design: Callable[[Site], SiteDesign],
    pumps: int,
    lines: int,
    outlets: int,
    rating: float | None,
) -> None:
    """Wisconsin SPS 390.14(13)(c): with any one outlet blocked the others of that suction carry all of its flow.

    600 gpm by two pumps, each on two outlets of its own: one that is left takes the 300 gpm of its pump, not a third
    of 600. Three pumps on four each: 200 gpm through three. Two pumps on one each: single outlets.
    """
    plan, suction = PumpPlan(count=pumps), build.run("Suction", 10, "feature_suction", count=lines)
    jets = build.feature("Jets", 600, suction_outlets=outlets, pump_plan=plan, pipe_runs=(suction,))
    done = design(build.site(build.pool(features=(jets,)), codes=(WISCONSIN,)))
    told = [one.key for one in done.findings if one.node == "Jets"]
    assert told.count("single_outlet") == (1 if rating is None else 0)
    [check] = [one for one in done.findings if one.node == "Jets" and one.key == "outlet_count"]
    assert check.status is (NOT_MET if rating is None else MET)
    [cover] = [line for line in done.equipment if line.key == "Jets/suction-cover"]
    assert cover.quantity == outlets and ("hazard" in cover.remarks) is (rating is None)
    if rating is None:
        assert "outlet_flow" not in done.sheets["Jets"].figures
    else:
        assert done.value("Jets", "outlet_flow") == pytest.approx(rating * GPM)
        assert cover.rating[0].value == pytest.approx(rating * GPM)


@pytest.mark.parametrize(
    ("volume", "overflow", "told"), [(0.0, GUTTER, True), (20.0, GUTTER, False), (0.0, SKIMMERS, False)]
)
def test_surge_without_a_tank_is_worth_a_look(
    build: SimpleNamespace, findings: Findings, volume: float, overflow: Overflow, told: bool
) -> None:
    one = build.pool(openings=OpeningsPlan(overflow=overflow, gutter_section=0.02))
    loop = build.system(one, surge_volume=volume, pipe_runs=(build.run("Suction", 10, "pump_suction"),))
    found = findings(build.site(loop, codes=("cdc-mahc-2023",)), "no_surge_tank")
    assert [one.status for one in found] == ([CAUTION] if told else [])


@pytest.mark.parametrize(("feet", "status"), [(None, UNKNOWN), (2.9, NOT_MET), (3.0, MET), (5.0, MET)])
def test_distance_between_outlets_of_illinois(
    build: SimpleNamespace, findings: Findings, feet: float | None, status: Status
) -> None:
    """Illinois 820.230(f): two main drains of a wading pool, 3 ft apart at least."""
    spacing = None if feet is None else feet * FOOT
    found = only(findings(body(build, ILLINOIS, kind="wading_pool", outlet_spacing=spacing), "outlet_spacing"))
    assert found.status is status and "820.230(f)" in found.clause
    assert ("No cover makes" in found.remedy) is (status is NOT_MET)


def test_distance_between_outlets_where_no_code_states_one(build: SimpleNamespace, findings: Findings) -> None:
    assert findings(body(build), "outlet_spacing") == []
    assert only(findings(body(build, outlet_spacing=2.0), "outlet_spacing")).status is SILENT
    assert findings(body(build, ILLINOIS, kind="wading_pool", outlets=1), "outlet_spacing") == []


@pytest.mark.parametrize(("code", "square_inches", "status"), [
    # 500 gpm through one cover of two at 1.5 ft/s: 500 / (3.117 · 1.5) = 106.9 in², the trade's own constant.
    ("common-practice", 108, MET), ("common-practice", 106, NOT_MET), (WISCONSIN, 106, SILENT),
])  # fmt: skip
def test_velocity_through_covers(
    build: SimpleNamespace, findings: Findings, code: str, square_inches: float, status: Status
) -> None:
    found = only(findings(body(build, code, cover_area=square_inches * INCH**2), "cover_velocity"))
    assert found.status is status
    assert ("more open area" in found.remedy and "No cover makes" in found.remedy) is (status is NOT_MET)


@pytest.mark.parametrize(("square_inches", "status"), [(108, MET), (106, NOT_MET)])
def test_velocity_through_a_single_cover(
    build: SimpleNamespace, findings: Findings, square_inches: float, status: Status
) -> None:
    """It carries all of the 500 gpm, as each of two does with one blocked, and stays a caution of its own."""
    site = body(build, outlets=1, cover_area=square_inches * INCH**2)
    assert only(findings(site, "cover_velocity")).status is status
    assert only(findings(site, "single_outlet")).status is CAUTION


@pytest.mark.parametrize(("overflow", "bore", "least", "most"), [
    # v = 0.4085 · gpm / d²; 3,000 ft² take ten inlets by Wisconsin, 50 gpm each:
    # 1 in has 20.4, 1.5 in 9.1, 2.25 in 4.0 ft/s.
    # SPS 390.14(13)(b): 5 to 20 ft/s, 10 at least where skimmers are used.
    (GUTTER, 1.0, MET, NOT_MET), (GUTTER, 1.5, MET, MET), (GUTTER, 2.25, NOT_MET, MET), (SKIMMERS, 1.5, NOT_MET, MET),
])  # fmt: skip
def test_velocity_through_inlets_of_wisconsin(
    build: SimpleNamespace, findings: Findings, overflow: Overflow, bore: float, least: Status, most: Status
) -> None:
    site = body(build, WISCONSIN, overflow=overflow, inlet_bore=bore * INCH)
    assert only(findings(site, "inlet_velocity_least")).status is least
    assert only(findings(site, "inlet_velocity_most")).status is most


def test_velocity_through_inlets_is_told_where_the_code_is_silent(build: SimpleNamespace, findings: Findings) -> None:
    site = body(build, inlets=10, inlet_bore=0.04)
    assert only(findings(site, "inlet_velocity_most")).status is SILENT
    assert findings(site, "inlet_velocity_least") == [], "it is told once"
    assert findings(body(build, WISCONSIN), "inlet_velocity_most") == []


@pytest.mark.parametrize(("feet", "status"), [(5.0, NOT_MET), (5.2, MET)])
def test_head_allowed_for_inlets(build: SimpleNamespace, findings: Findings, feet: float, status: Status) -> None:
    """25 gpm through 3/4 in run at 18.16 ft/s, of 5.12 ft of velocity head."""
    loop = build.pumped(0, equipment=build.losses(heater=40, inlets=feet), fixed_flow=500 * GPM)
    plan = OpeningsPlan(inlets=20, inlet_bore=0.75 * INCH)
    bodies = tuple(each.revised(openings=plan) for each in loop.attractions)
    found = only(findings(build.site(loop.revised(attractions=bodies), codes=PRACTICE), "inlet_head"))
    assert found.status is status and ("Raise the allowance" in found.remedy) is (status is NOT_MET)
    assert findings(build.site(loop, codes=PRACTICE), "inlet_head") == []


@pytest.mark.parametrize(("inlets", "status"), [(9, NOT_MET), (10, MET)])
def test_inlets_as_drawn(build: SimpleNamespace, findings: Findings, inlets: int, status: Status) -> None:
    """Wisconsin SPS 390.14(13)(b): 3,000 ft² take ten."""
    assert only(findings(body(build, WISCONSIN, inlets=inlets), "inlets")).status is status


@pytest.mark.parametrize(("share", "status"), [
    (None, None), (0.60, NOT_MET), (0.67, NOT_MET), (0.68, CAUTION), (0.74, CAUTION), (0.75, MET), (1.0, MET),
])  # fmt: skip
def test_share_drawn_from_the_surface(
    build: SimpleNamespace, findings: Findings, share: float | None, status: Status | None
) -> None:
    """Wisconsin ATCP 76.11(2): “about” 75 % by a gutter, a tenth off is for judgement. Blank takes the code's own."""
    found = findings(body(build, WISCONSIN, overflow=GUTTER, surface_share=share), "surface_share")
    assert [one.status for one in found] == ([] if status is None else [status])


def test_a_share_stated_without_about_is_held_to_exactly(build: SimpleNamespace, findings: Findings) -> None:
    """Oregon 333-060-0505(1)(b): 70 %."""
    plan = {"overflow": SKIMMERS, "skimmers": 3}
    shares = [body(build, OREGON, kind="wading_pool", surface_share=share, **plan) for share in (0.69, 0.70)]
    assert [only(findings(site, "surface_share")).status for site in shares] == [NOT_MET, MET]


def test_a_body_without_overflow_draws_nothing_from_the_surface(build: SimpleNamespace, findings: Findings) -> None:
    assert only(findings(body(build, WISCONSIN, overflow=NEITHER), "surface_share")).status is NOT_MET
    assert only(findings(body(build, overflow=NEITHER), "surface_share")).status is SILENT
    assert findings(body(build, WISCONSIN), "surface_share") == []


@pytest.mark.parametrize(("skimmers", "each", "number"), [(11, MET, NOT_MET), (14, NOT_MET, MET)])
def test_flow_of_each_skimmer(
    build: SimpleNamespace, findings: Findings, skimmers: int, each: Status, number: Status
) -> None:
    """Illinois 820.210(a): 30 gpm for each skimmer at least; 80 % of 500 gpm leave 13 of them, 35 gpm their most 12."""
    plan = {"overflow": SKIMMERS, "skimmer_rating": 35 * GPM, "surface_share": 0.8, "skimmers": skimmers}
    site = body(build, ILLINOIS, **plan)
    assert only(findings(site, "flow_per_skimmer")).status is each
    assert only(findings(site, "skimmers")).status is number
    assert only(findings(body(build, **plan), "flow_per_skimmer")).status is SILENT


@pytest.mark.parametrize(("skimmers", "status"), [(8, NOT_MET), (9, MET)])
def test_most_flow_of_each_skimmer(build: SimpleNamespace, findings: Findings, skimmers: int, status: Status) -> None:
    """Oregon OAR 333-060-0505(1)(b): 45 gpm for each skimmer at most; 80 % of 500 gpm take 9 of them."""
    plan = {"overflow": SKIMMERS, "surface_share": 0.8, "skimmers": skimmers, "kind": "wading_pool"}
    found = only(findings(body(build, OREGON, **plan), "flow_per_skimmer_most"))
    assert found.status is status and ("more skimmers" in found.remedy) is (status is NOT_MET)
    assert findings(body(build, ILLINOIS, **plan), "flow_per_skimmer_most") == []


@pytest.mark.parametrize(("feet", "status"), [(0.05, NOT_MET), (0.5, MET)])
def test_gravity_line(build: SimpleNamespace, findings: Findings, feet: float, status: Status) -> None:
    """A 12 in balance line of 40 ft carries 1,186 gpm on 0.5 ft, and by the root of the head 375 gpm on 0.05 ft."""
    line = build.run("Line", 40, "balance", size="12", elbows_90=2, entrances=1, exits=1, available_head=feet * FOOT)
    site = build.site(build.pumped(20, line), codes=PRACTICE, amendments=(build.turnover(4),))
    found = only(findings(site, "gravity_line"))
    assert found.status is status and ("Widen the pipe" in found.remedy) is (status is NOT_MET)


def drained(build: SimpleNamespace, *codes: str, count: int = 4, head: float | None = 0.5) -> Site:
    """A pool of 500 gpm whose gutter drains of 12 in and 40 ft carry about 1,186 gpm each on 0.5 ft."""
    line = build.run("Drains", 40, "gutter", size="12", elbows_90=2, entrances=1, exits=1, count=count,
                     available_head=None if head is None else head * FOOT)  # fmt: skip
    return build.site(build.pumped(20, line), codes=codes or PRACTICE, amendments=(build.turnover(4),))


@pytest.mark.parametrize(("count", "head", "status"), [(1, 0.5, MET), (1, 0.1, NOT_MET), (2, 0.1, MET)])
def test_gutter_drains_take_what_the_code_asks(
    build: SimpleNamespace, findings: Findings, count: int, head: float, status: Status
) -> None:
    """Model Aquatic Health Code 4.7.1.5: 125 % of the flow, 625 gpm; one drain carries 1,186 · 0.2^0.5 = 530."""
    found = only(findings(drained(build, "cdc-mahc-2023", count=count, head=head), "gutter_capacity"))
    assert found.status is status and found.limit == pytest.approx(625 * GPM)
    assert "4.7.1.5" in found.clause and "Set for this test" not in found.clause, "not the clause of the turnover"
    assert findings(drained(build, count=count, head=head), "gutter_capacity") == []
    assert findings(drained(build, "cdc-mahc-2023", head=None), "gutter_capacity") == []


@pytest.mark.parametrize(("held", "usable", "status"), [
    # 150 bathers displace 11.25 m³.
    (0.0, None, None), (11.0, None, NOT_MET), (12.0, None, MET), (12.0, 11.0, NOT_MET), (0.0, 12.0, MET),
])  # fmt: skip
def test_surge_tank(
    build: SimpleNamespace, findings: Findings, held: float, usable: float | None, status: Status | None
) -> None:
    loop = build.pumped(20, surge_volume=held, tanks=TankPlan(usable_volume=usable))
    limits = (build.turnover(4), build.limit("area_per_bather", 20 * FOOT**2))
    found = findings(build.site(loop, codes=PRACTICE, amendments=limits), "surge_needed")
    assert all(one.clause == "75 L of water displaced by a bather: DIN 19643" for one in found)
    assert [one.status for one in found] == ([] if status is None else [status])
    assert all(("confined" in one.remedy) is (status is NOT_MET) for one in found)


@pytest.mark.parametrize(("inches", "gallons", "clause"), [(None, 3000, "4.7.1.5"), (20.0, 3391, "DIN 19643")])
def test_a_surge_tank_is_held_to_what_governs(
    build: SimpleNamespace, findings: Findings, inches: float | None, gallons: float, clause: str
) -> None:
    """Model Aquatic Health Code 4.7.1.5: 1 gal/ft², 3,000 gal; or what comes at once, where that is more."""
    plan = OpeningsPlan(overflow=GUTTER, gutter_length=80 * FOOT, gutter_section=(inches or 0.001) * INCH**2)
    loop = build.pumped(
        20, surge_volume=2_000 * GALLON, tanks=TankPlan(drawn_by_features=0.0 if inches is None else 5.0)
    )
    bodies = tuple(each.revised(openings=plan) for each in loop.attractions)
    limits = (build.turnover(4), build.limit("area_per_bather", 40 * FOOT**2))
    site = build.site(loop.revised(attractions=bodies), codes=("cdc-mahc-2023", *PRACTICE), amendments=limits)
    found = only(findings(site, "surge_needed"))
    assert found.status is NOT_MET and clause in found.clause and "Set for this test" not in found.clause
    # 75 bathers displace 1,486 gal, 501 gal stand above the rim, 83 gal in gutters, 1,321 gal go to features.
    assert found.limit is not None
    assert found.limit / GALLON == pytest.approx(gallons, rel=2e-3)


@pytest.mark.parametrize(("gallons", "sewer", "status"), [
    # 424 gpm for 5 min, of which the sewer takes 100 gpm: 1,620 gal.
    (1_600, 100, NOT_MET), (1_630, 100, MET), (1_600, None, UNKNOWN), (None, 100, None),
])  # fmt: skip
def test_waste_sump(
    build: SimpleNamespace, findings: Findings, gallons: float | None, sewer: float | None, status: Status | None
) -> None:
    tanks = TankPlan(
        sewer_flow=None if sewer is None else sewer * GPM, sump_volume=None if gallons is None else gallons * GALLON
    )
    site = build.site(build.pumped(20, tanks=tanks), codes=PRACTICE, amendments=(build.turnover(4),))
    site = set_override(site, "Loop", "backwash_flow", 424 * GPM, "Set for this test")
    found = findings(site, "sump_needed")
    assert [one.status for one in found] == ([] if status is None else [status])
    assert all(("confined" in one.remedy) is (status is NOT_MET) for one in found)


def test_nothing_is_told_of_what_is_not_entered(build: SimpleNamespace, design: Callable[[Site], SiteDesign]) -> None:
    told = {finding.key for finding in design(build.site(build.system(build.pool()), codes=PRACTICE)).findings}
    assert not told & {"outlet_spacing", "cover_velocity", "surface_share", "surge_needed", "sump_needed", "inlets"}

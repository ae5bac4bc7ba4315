"""Surge tanks with their levels, gutter drains and waste sumps of whole designs."""

import math
import random
from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.model.edits import revise, set_override
from waterpark_designer.model.kinds import Overflow
from waterpark_designer.model.openings import OpeningsPlan, TankPlan
from waterpark_designer.model.site import Site
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE

GPM = GALLON / MINUTE

Design = Callable[[Site], SiteDesign]
Figure = Callable[[Site, str, str], Worked]


@pytest.mark.parametrize(("square_feet", "code", "cubic_metres"), [
    # 3,000 ft² at 20 ft² a bather: 150 · 75 L = 11.25 m³; at 10 ft²: 22.5 m³.
    (20, None, 11.25), (10, None, 22.5),
    # Model Aquatic Health Code 4.7.1.5: 1 gal/ft², 3,000 gal = 11.356 m³, where that is more.
    (20, "cdc-mahc-2023", 11.356), (10, "cdc-mahc-2023", 22.5),
])  # fmt: skip
def test_surge_for_bathers_or_by_surface(
    build: SimpleNamespace, figure: Figure, square_feet: float, code: str | None, cubic_metres: float
) -> None:
    limits = (build.turnover(4), build.limit("area_per_bather", square_feet * FOOT**2))
    site = build.site(build.pumped(20), codes=(code,) if code else ("common-practice",), amendments=limits)
    assert figure(site, "Loop", "surge_needed") == pytest.approx(cubic_metres, rel=1e-4)


def guttered(build: SimpleNamespace, overflow: Overflow = Overflow.GUTTER, **tanks: Any) -> Site:
    """A pool of 3,000 ft² and 500 gpm for 150 bathers; 80 ft of lip, 12 in² of water in its gutter."""
    plan = OpeningsPlan(
        overflow=overflow, surface_share=0.8, gutter_length=80 * FOOT, gutter_section=12 * INCH**2, skimmers=10
    )
    limits = (build.turnover(4), build.limit("area_per_bather", 20 * FOOT**2))
    loop = build.pumped(20, tanks=TankPlan(**tanks))
    site = build.site(loop, codes=("common-practice",), amendments=limits)
    return revise(site, "Pool", openings=plan)


def test_simultaneous_volumes_add_up(build: SimpleNamespace, figure: Figure) -> None:
    # 150 · 75 L; 0.2684 in of film on 3,000 ft²; 80 ft of 12 in²: 11.25 + 1.900 + 0.189 m³.
    film, gutter = 3000 * FOOT**2 * 0.2684 * INCH, 80 * FOOT * 12 * INCH**2
    needed = figure(guttered(build), "Loop", "surge_needed")
    assert needed == pytest.approx(11.25 + film + gutter, rel=1e-4)
    # Two backwashes of 424 gpm for 5 min and 3 m³ for features come on top.
    site = guttered(build, backwashes=2, drawn_by_features=3.0)
    site = set_override(site, "Loop", "backwash_volume", 424 * 5 * GALLON, "Set for this test")
    assert figure(site, "Loop", "surge_needed") == pytest.approx(needed + 2 * 424 * 5 * GALLON + 3.0)


def test_water_that_features_keep_in_transit_comes_from_the_tank(build: SimpleNamespace, figure: Figure) -> None:
    # Two slides of 900 gpm whose water is 20 s on its way keep 600 gal; a volume that is entered stands for it.
    slides = build.feature("Slides", 900, "slide", count=2, transit_time=20.0)
    alone = guttered(build)
    needed = figure(alone, "Loop", "surge_needed")
    site = revise(alone, "Pool", features=(slides,))
    assert figure(site, "Loop", "surge_needed") == pytest.approx(needed + 600 * GALLON)
    entered = revise(site, "Loop", tanks=TankPlan(drawn_by_features=1.0))
    assert figure(entered, "Loop", "surge_needed") == pytest.approx(needed + 1.0)


def test_a_body_that_does_not_say_how_it_overflows_is_reckoned_to_draw_on_the_tank(
    build: SimpleNamespace, figure: Figure
) -> None:
    # 150 bathers of 75 L are 11.25 m³ (DIN 19643); two slides of 900 gpm for 20 s keep 600 gal besides.
    slides = build.feature("Slides", 900, "slide", count=2, transit_time=20.0)
    site = revise(guttered(build, Overflow.NOT_STATED), "Pool", features=(slides,))
    assert figure(site, "Loop", "surge_needed") == pytest.approx(11.25 + 600 * GALLON)


def test_the_codes_least_is_not_added_but_compared(build: SimpleNamespace, figure: Figure) -> None:
    # 1 gal/ft² on 3,000 ft² are 11.36 m³, less than 13.34 m³ of bathers and water on its way.
    site = guttered(build)
    alone = figure(site, "Loop", "surge_needed")
    for per_area, needed in ((GALLON / FOOT**2, alone), (2 * GALLON / FOOT**2, 6000 * GALLON)):
        limits = (*site.amendments, build.limit("surge_per_area", per_area))
        assert figure(site.revised(amendments=limits), "Loop", "surge_needed") == pytest.approx(needed)


@pytest.mark.parametrize("overflow", [Overflow.SKIMMERS, Overflow.NEITHER])
def test_a_body_without_a_gutter_sends_nothing_to_the_tank(
    build: SimpleNamespace, design: Design, overflow: Overflow
) -> None:
    assert "surge_needed" not in design(guttered(build, overflow)).sheets["Loop"].figures


def test_a_gutter_of_which_the_section_is_not_known_leaves_the_volume_open(
    build: SimpleNamespace, design: Design
) -> None:
    site = revise(guttered(build), "Pool", openings=OpeningsPlan(overflow=Overflow.GUTTER, surface_share=0.8))
    lack = design(site).value("Loop", "surge_needed")
    assert isinstance(lack, Missing) and lack.needs == "Enter gutter section."


def test_levels_of_the_tank(build: SimpleNamespace, figure: Figure) -> None:
    # 0.3 m to the suction and 0.4 m over it; reserves of 4 m³, and all there is, on 10 m².
    site = guttered(build, plan_area=10.0, suction_level=0.3, suction_cover=0.4, drawn_by_features=4.0)
    needed = figure(site, "Loop", "surge_needed")
    assert figure(site, "Loop", "surge_lowest") == pytest.approx(0.7)
    assert figure(site, "Loop", "surge_running") == pytest.approx(0.7 + 0.4)
    assert figure(site, "Loop", "surge_highest") == pytest.approx(0.7 + needed / 10)


def test_cover_over_the_suction_is_estimated_from_its_line(build: SimpleNamespace, figure: Figure) -> None:
    # ANSI/HI 9.8 in the units it is also printed in: S = D + 0.574 · Q / D^1.5, inches and gpm; 500 gpm in 6.031 in.
    site = guttered(build, plan_area=10.0, suction_level=0.0)
    site = revise(site, "Loop", pipe_runs=(build.run("Suction", 10, "tank_suction", size="6"),))
    inches = 6.031 + 0.574 * 500 / 6.031**1.5
    assert figure(site, "Loop", "surge_lowest") / INCH == pytest.approx(inches, rel=2e-3)


def test_levels_say_what_they_need(build: SimpleNamespace, design: Design) -> None:
    for tanks, needs in (
        ({"suction_level": 0.3}, "Enter the suction cover"),
        ({"suction_cover": 0.3}, "Enter suction level"),
    ):
        lack = design(guttered(build, plan_area=10.0, **tanks)).value("Loop", "surge_highest")
        assert isinstance(lack, Missing) and lack.needs.startswith(needs)
    assert "surge_lowest" not in design(guttered(build)).sheets["Loop"].figures


def test_gutter_drains_by_available_head(build: SimpleNamespace, figure: Figure, design: Design) -> None:
    # Worked by hand, a line of 11.938 in with f 0.0125 carries 1,186 gpm on 0.5 ft; three of it here. Pipe as made is a
    # little narrower (11.889 in, ASTM D1785) and its friction at this flow a little more, 2 % together.
    drain = build.run("Drains", 40, "gutter", size="12", elbows_90=2, entrances=1, exits=1, count=3,
                      available_head=0.5 * FOOT)  # fmt: skip
    site = revise(guttered(build), "Loop", pipe_runs=(drain,))
    assert figure(site, "Loop", "gutter_line_capacity") / GPM == pytest.approx(3 * 1186, rel=2e-2)
    # Continuity: two such groups that share the flow carry twice that; in a row, each with all of it, no more.
    for share, groups in ((0.5, 2), (1.0, 1)):
        pair = [drain.revised(id=name, name=name, flow_share=share) for name in ("North", "South")]
        both = revise(site, "Loop", pipe_runs=tuple(pair))
        assert figure(both, "Loop", "gutter_line_capacity") / GPM == pytest.approx(groups * 3 * 1186, rel=2e-2)
    # Drains of two bodies, 70 and 30 % of the flow, one line each: the first is full at 1,186 / 0.7 gpm in all.
    apart = [drain.revised(id=name, name=name, flow_share=share, count=1) for name, share in (("A", 0.7), ("B", 0.3))]
    bodies = revise(site, "Loop", pipe_runs=tuple(apart))
    assert figure(bodies, "Loop", "gutter_line_capacity") / GPM == pytest.approx(1186 / 0.7, rel=2e-2)
    # Two outlets of one line and the header of three that both run to: the outlets are full at 2 · 1,186 gpm.
    outlets = [drain.revised(id=name, name=name, flow_share=0.5, count=1) for name in ("North", "South")]
    joined = revise(site, "Loop", pipe_runs=(*outlets, drain))
    assert figure(joined, "Loop", "gutter_line_capacity") / GPM == pytest.approx(2 * 1186, rel=2e-2)
    # Three lines of a third each, entered as 34 %, do not lie in a row.
    thirds = [drain.revised(id=name, name=name, flow_share=0.34, count=1) for name in ("A", "B", "C")]
    even = revise(site, "Loop", pipe_runs=tuple(thirds))
    assert figure(even, "Loop", "gutter_line_capacity") / GPM == pytest.approx(3 * 1186, rel=2e-2)
    # A line entered with twice the flow that the gutters give carries no less for it.
    alone = revise(site, "Loop", pipe_runs=(drain.revised(flow_share=2.0),))
    assert figure(alone, "Loop", "gutter_line_capacity") / GPM == pytest.approx(3 * 1186, rel=2e-2)
    other = build.run("Further drain", 40, "gutter", size="6")
    lack = design(revise(site, "Loop", pipe_runs=(drain, other))).value("Loop", "gutter_line_capacity")
    assert isinstance(lack, Missing) and lack.needs == "Enter the available head of Further drain."


@pytest.mark.parametrize(("sewer", "gallons"), [(100, 1620), (424, 0), (600, 0)])
def test_waste_sump_holds_what_the_sewer_does_not_take(
    build: SimpleNamespace, figure: Figure, sewer: float, gallons: float
) -> None:
    # 424 gpm for 5 min.
    site = guttered(build, sewer_flow=sewer * GPM)
    site = set_override(site, "Loop", "backwash_flow", 424 * GPM, "Set for this test")
    assert figure(site, "Loop", "sump_needed") / GALLON == pytest.approx(gallons, abs=1e-6)


def test_tanks_need_no_pipes(build: SimpleNamespace, figure: Figure) -> None:
    site = revise(guttered(build, plan_area=10.0, suction_level=0.1, suction_cover=0.5), "Loop", pipe_runs=())
    assert figure(site, "Loop", "surge_lowest") == pytest.approx(0.6)


@pytest.mark.parametrize("seed", range(20))
def test_whatever_is_entered_nothing_is_raised(build: SimpleNamespace, design: Design, seed: int) -> None:
    """Values at the ends of what the fields take, blanks among them; every figure is a number or says what it lacks."""
    chance = random.Random(700 + seed)
    plan = OpeningsPlan(
        overflow=chance.choice(list(Overflow)),
        surface_share=chance.choice([None, 0.0, 1.0]),
        gutter_length=chance.choice([None, 1e-9, 5000.0]),
        gutter_section=chance.choice([None, 1e-12, 2.0]),
        skimmers=chance.choice([None, 1, 500]),
        skimmer_rating=chance.choice([None, 1e-12, 1.0]),
        inlets=chance.choice([None, 1, 2000]),
        inlet_bore=chance.choice([None, 1e-6, 0.5]),
        outlet_spacing=chance.choice([None, 0.0, 200.0]),
        cover_area=chance.choice([None, 1e-9, 10.0]),
    )
    tanks = TankPlan(
        usable_volume=chance.choice([None, 1e-9, 1e5]),
        plan_area=chance.choice([None, 1e-9, 1e4]),
        suction_level=chance.choice([None, 0.0, 20.0]),
        suction_cover=chance.choice([None, 1e-9, 10.0]),
        backwashes=chance.choice([0, 50]),
        drawn_by_features=chance.choice([None, 0.0, 1e5]),
        sewer_flow=chance.choice([None, 0.0, 10.0]),
        sump_volume=chance.choice([None, 1e-9, 1e5]),
    )
    body = build.pool(
        chance.choice(["wading_pool", "lap_pool"]), openings=plan, suction_outlets=chance.choice([None, 2])
    )
    loop = build.pumped(20, attractions=(body,), tanks=tanks, fixed_flow=chance.choice([1e-9, 0.03, 20.0]))
    codes = chance.sample(["cdc-mahc-2023", "oregon-333-060-0505", "wisconsin-sps-390-2024", "common-practice"], 2)
    done = design(build.site(loop, codes=tuple(codes)))
    for sheet in done.sheets.values():
        for key, figure in sheet.figures.items():
            assert isinstance(figure.value, Missing) or math.isfinite(figure.value), key
    assert all(finding.status is Status.MET or finding.remedy for finding in done.findings)

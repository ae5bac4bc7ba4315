"""Return inlets, skimmers and suction outlets of whole designs, by the codes that count them."""

from collections.abc import Callable
from types import SimpleNamespace

import pytest

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.model.kinds import Overflow
from waterpark_designer.model.openings import OpeningsPlan
from waterpark_designer.model.site import Site
from waterpark_designer.model.zones import DepthStation, Rectangle, Zone
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE

GPM = GALLON / MINUTE
GEORGIA = "georgia-511-3-5-2024"

Design = Callable[[Site], SiteDesign]
Figure = Callable[[Site, str, str], Worked]


def rectangle(length: float, width: float, depth: float = 4.0) -> Zone:
    """A basin [ft] of one depth."""
    shape = Rectangle(
        length=length * FOOT, width=width * FOOT, stations=(DepthStation(distance=0.0, depth=depth * FOOT),)
    )
    return Zone(id="Basin", name="Basin", shape=shape)


@pytest.mark.parametrize(("length", "width", "inlets"), [
    # Georgia 511-3-5-.10(1): one for 300 ft² of surface or for 20 ft of edge, the greater, and 2 at least.
    (75, 60, 15),    # 4,500 ft²: 15; 270 ft: 14
    (75, 45, 12),    # 3,375 ft²: 12; 240 ft: 12
    (40, 20, 6),     # 800 ft²: 3; 120 ft: 6
    (200, 8, 21),    # 1,600 ft²: 6; 416 ft: 21
    (6, 4, 2),       # 24 ft²: 1; 20 ft: 1
])  # fmt: skip
def test_inlets_of_georgia(build: SimpleNamespace, figure: Figure, length: float, width: float, inlets: int) -> None:
    body = build.pool(zones=(rectangle(length, width),))
    site = build.site(build.system(body, fixed_flow=120 * GPM), codes=(GEORGIA,))
    assert figure(site, "Pool", "inlets") == inlets
    assert figure(site, "Pool", "inlet_flow") == pytest.approx(120 * GPM / inlets)


def test_inlets_of_wisconsin_go_by_surface_alone(build: SimpleNamespace, figure: Figure, design: Design) -> None:
    # Wisconsin SPS 390.14(13)(b): 1,600 ft² are six times 300 ft², leisure rivers excepted.
    narrow = (rectangle(200, 8),)
    assert figure(build.site(build.pool(zones=narrow), codes=("wisconsin-sps-390-2024",)), "Pool", "inlets") == 6
    river = build.site(build.pool("lazy_river", "River", zones=narrow), codes=("wisconsin-sps-390-2024",))
    assert "inlets" not in design(river).sheets["River"].figures


@pytest.mark.parametrize(("outlets", "each"), [(2, 500), (3, 250), (5, 125)])
def test_each_outlet_carries_what_a_blocked_one_leaves(
    build: SimpleNamespace, figure: Figure, outlets: int, each: float
) -> None:
    """Wisconsin SPS 390.14(13)(c): any one main drain blocked, the rest carry the whole flow."""
    loop = build.system(build.pool(suction_outlets=outlets), fixed_flow=500 * GPM)
    site = build.site(loop, codes=("common-practice",))
    assert figure(site, "Pool", "outlet_flow") == pytest.approx(each * GPM)


@pytest.mark.parametrize("outlets", [None, 0, 1])
def test_nothing_is_left_of_fewer_than_two_with_one_blocked(
    build: SimpleNamespace, design: Design, outlets: int | None
) -> None:
    site = build.site(build.pool(suction_outlets=outlets), codes=("common-practice",))
    assert "outlet_flow" not in design(site).sheets["Pool"].figures


def test_skimmers_of_wading_pools_in_oregon(build: SimpleNamespace, figure: Figure, design: Design) -> None:
    # OAR 333-060-0505(3)(a): one for each 400 ft² or fraction; 30 · 30 = 900 ft² take three.
    body = build.pool("wading_pool", zones=(rectangle(30, 30, 1.0),))
    assert figure(build.site(body, codes=("oregon-333-060-0505",)), "Pool", "skimmers") == 3
    other = build.site(build.pool(zones=(rectangle(30, 30),)), codes=("oregon-333-060-0505",))
    assert "skimmers" not in design(other).sheets["Pool"].figures


@pytest.mark.parametrize(("feet", "inches"), [(80, 0.268), (20, 0.676)])
def test_water_over_a_gutters_lip(build: SimpleNamespace, figure: Figure, feet: float, inches: float) -> None:
    # 80 % of 500 gpm over 80 ft are 5 gpm/ft, over 20 ft 20 gpm/ft. Francis by hand: H = (q / 3.33)^(2/3) in feet.
    plan = OpeningsPlan(
        overflow=Overflow.GUTTER, surface_share=0.8, gutter_length=feet * FOOT, gutter_section=12 * INCH**2
    )
    site = build.site(build.system(build.pool(openings=plan), fixed_flow=500 * GPM), codes=("common-practice",))
    assert figure(site, "Pool", "surface_flow") / GPM == pytest.approx(400)
    assert figure(site, "Pool", "lip_flow") / GPM * FOOT == pytest.approx(400 / feet)
    assert figure(site, "Pool", "lip_head") / INCH == pytest.approx(inches, abs=1e-3)
    # 3,000 ft² under that film; a foot of gutter filled to 12 in² holds 144 in³, 231 in³ to the gallon.
    assert figure(site, "Pool", "water_above_rim") / GALLON == pytest.approx(3000 * inches / 12 * 7.4805, rel=2e-3)
    assert figure(site, "Pool", "gutter_water") / GALLON == pytest.approx(feet * 144 / 231, rel=1e-6)


def test_the_lip_is_the_perimeter_and_the_share_the_codes_where_neither_is_entered(
    build: SimpleNamespace, figure: Figure, design: Design
) -> None:
    # Wisconsin ATCP 76.11(2): 75 % of the flow by a gutter; a rectangle of 75 by 45 ft has 240 ft of edge.
    body = build.pool(zones=(rectangle(75, 45),), openings=OpeningsPlan(overflow=Overflow.GUTTER))
    site = build.site(build.system(body, fixed_flow=640 * GPM), codes=("wisconsin-sps-390-2024",))
    assert figure(site, "Pool", "lip_flow") / GPM * FOOT == pytest.approx(2.0)
    section = design(site).value("Pool", "gutter_water")
    assert isinstance(section, Missing) and section.needs == "Enter gutter section."
    silent = design(build.site(body, codes=("common-practice",))).value("Pool", "surface_flow")
    assert isinstance(silent, Missing) and silent.silent


@pytest.mark.parametrize(("rating", "skimmers"), [(None, 3), (45, 3), (30, 5)])
def test_skimmers_by_surface_or_by_flow_the_greater(
    build: SimpleNamespace, figure: Figure, rating: float | None, skimmers: int
) -> None:
    # OAR 333-060-0505(1)(b): 70 % of 180 gpm is 126 gpm, through 45 gpm each 3, through 30 gpm 5; 900 ft² take 3.
    plan = OpeningsPlan(overflow=Overflow.SKIMMERS, skimmer_rating=None if rating is None else rating * GPM)
    body = build.pool("wading_pool", zones=(rectangle(30, 30, 1.0),), openings=plan)
    site = build.site(build.system(body, fixed_flow=180 * GPM), codes=("oregon-333-060-0505",))
    assert figure(site, "Pool", "skimmers") == skimmers
    assert figure(site, "Pool", "skimmer_flow") / GPM == pytest.approx(126 / skimmers)


def test_skimmers_need_a_rule(build: SimpleNamespace, design: Design, figure: Figure) -> None:
    plan = OpeningsPlan(overflow=Overflow.SKIMMERS, surface_share=0.8)

    def site(of: OpeningsPlan) -> Site:
        loop = build.system(build.pool(openings=of), fixed_flow=500 * GPM)
        return build.site(loop, codes=("common-practice",))

    lack = design(site(plan)).value("Pool", "skimmer_flow")
    assert isinstance(lack, Missing) and lack.needs.startswith("Enter the skimmer rating")
    assert figure(site(plan.revised(skimmers=10)), "Pool", "skimmer_flow") / GPM == pytest.approx(40)


def test_a_gutter_has_no_skimmers(build: SimpleNamespace, design: Design) -> None:
    body = build.pool("wading_pool", openings=OpeningsPlan(overflow=Overflow.GUTTER))
    assert "skimmers" not in design(build.site(body, codes=("oregon-333-060-0505",))).sheets["Pool"].figures


@pytest.mark.parametrize(("outlets", "square_inches"), [(2, 106.9), (3, 53.5)])
def test_covers(build: SimpleNamespace, figure: Figure, outlets: int, square_inches: float) -> None:
    # gpm = 3.117 · in² · ft/s, the trade's constant: 500 gpm, or half of it with one of three blocked, at 1.5 ft/s.
    plan = OpeningsPlan(cover_area=100 * INCH**2)
    loop = build.system(build.pool(suction_outlets=outlets, openings=plan), fixed_flow=500 * GPM)
    site = build.site(loop, codes=("common-practice",))
    assert figure(site, "Pool", "cover_area_needed") / INCH**2 == pytest.approx(square_inches, rel=1e-3)
    velocity = 500 / (outlets - 1) / (3.117 * 100)
    assert figure(site, "Pool", "cover_velocity") / FOOT == pytest.approx(velocity, rel=1e-3)


def test_a_single_cover_takes_the_whole_flow(build: SimpleNamespace, figure: Figure, design: Design) -> None:
    # 500 gpm through 100 in²: 500 / (3.117 · 100) = 1.604 ft/s; at 1.5 ft/s 106.9 in².
    loop = build.system(
        build.pool(suction_outlets=1, openings=OpeningsPlan(cover_area=100 * INCH**2)), fixed_flow=500 * GPM
    )
    site = build.site(loop, codes=("common-practice",))
    assert figure(site, "Pool", "cover_velocity") / FOOT == pytest.approx(1.604, rel=1e-3)
    assert figure(site, "Pool", "cover_area_needed") / INCH**2 == pytest.approx(106.9, rel=1e-3)
    assert "outlet_flow" not in design(site).sheets["Pool"].figures


def test_velocity_through_an_inlet(build: SimpleNamespace, figure: Figure) -> None:
    # v = 0.4085 gpm / d²: 500 gpm through 20 inlets of 3/4 in is 18.2 ft/s.
    plan = OpeningsPlan(inlets=20, inlet_bore=0.75 * INCH)
    site = build.site(build.system(build.pool(openings=plan), fixed_flow=500 * GPM), codes=("common-practice",))
    assert figure(site, "Pool", "inlet_velocity") / FOOT == pytest.approx(0.4085 * 25 / 0.75**2, rel=1e-3)
    # 18.16² / (2 · 32.174) = 5.12 ft.
    assert figure(site, "Pool", "inlet_head") / FOOT == pytest.approx(5.12, rel=2e-3)


def test_a_spray_deck_states_none_of_it(build: SimpleNamespace, design: Design) -> None:
    plan = OpeningsPlan(overflow=Overflow.GUTTER, inlet_bore=0.02, cover_area=0.05)
    figures = design(build.site(build.pad(100, openings=plan), codes=("common-practice",))).sheets["Pad"].figures
    assert not figures.keys() & {"surface_flow", "lip_head", "inlet_velocity", "cover_velocity", "cover_area_needed"}

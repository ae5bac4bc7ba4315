"""Return inlets, skimmers and suction outlets of whole designs, by the codes that count them."""

from collections.abc import Callable
from types import SimpleNamespace

import pytest

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.worked import Worked
from waterpark_designer.model.site import Site
from waterpark_designer.model.zones import DepthStation, Rectangle, Zone
from waterpark_designer.units import FOOT, GALLON, MINUTE

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
def test_no_cover_can_be_rated_for_fewer_than_two(build: SimpleNamespace, design: Design, outlets: int | None) -> None:
    site = build.site(build.pool(suction_outlets=outlets), codes=("common-practice",))
    assert "outlet_flow" not in design(site).sheets["Pool"].figures


def test_skimmers_of_wading_pools_in_oregon(build: SimpleNamespace, figure: Figure, design: Design) -> None:
    # OAR 333-060-0505(3)(a): one for each 400 ft² or fraction; 30 · 30 = 900 ft² take three.
    body = build.pool("wading_pool", zones=(rectangle(30, 30, 1.0),))
    assert figure(build.site(body, codes=("oregon-333-060-0505",)), "Pool", "skimmers") == 3
    other = build.site(build.pool(zones=(rectangle(30, 30),)), codes=("oregon-333-060-0505",))
    assert "skimmers" not in design(other).sheets["Pool"].figures


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

"""The flow of a feature by its device, in whole designs, and the head that counts in its pump's."""

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.model.devices import (
    DEVICES,
    BroadCrest,
    Bubbler,
    Nozzle,
    SlideLanes,
    SprayNozzle,
    SupplierFlow,
    TippingBucket,
    Weir,
)
from waterpark_designer.model.edits import revise, set_override
from waterpark_designer.model.node import Part
from waterpark_designer.model.site import Site
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE, PSI

GPM = GALLON / MINUTE
SPRAY_UNIT = GPM / PSI**0.5
AT_62_2 = 300.75
"""27.6 °C: water of 62.2 lb/ft³."""

Figure = Callable[[Site, str, str], Worked]
Lack = Callable[[Site, str, str], Missing]


@pytest.fixture
def with_device(build: SimpleNamespace) -> Callable[..., Site]:
    """A pool with one feature on a pump of its own whose run has no length, so that only the device takes head."""

    def made(device: Part, **fields: Any) -> Site:
        one = build.feature("Play", 100, device=device, pipe_runs=(build.run("Supply"),), **fields)
        body = build.pool(features=(one,), water_temperature=AT_62_2)
        return build.site(body, codes=("common-practice",), amendments=(build.turnover(4),))

    return made


def test_the_suppliers_flow_stands_where_no_other_way_is_chosen(with_device: Any, figure: Figure, lack: Lack) -> None:
    site = with_device(SupplierFlow(), count=3, device_head=20 * FOOT)
    assert figure(site, "Play", "feature_flow") / GPM == pytest.approx(300)
    assert "does not apply" in lack(site, "Play", "device_flow").needs
    assert figure(site, "Play", "duty_head") / FOOT == pytest.approx(20)


def test_a_nozzle_by_bore_and_head(with_device: Any, figure: Figure) -> None:
    # gpm = 29.838 C d² √psi (d in inches): 3/8 in, C 0.95, 15 psi, K 3.986, 15.44 gpm. In water of 62.2 lb/ft³ 15 psi
    # are 15 · 144 / 62.2 = 34.73 ft; K is printed for 62.4 lb/ft³, 0.16 % less.
    site = with_device(Nozzle(bore=0.375 * INCH, head=15 * 144 / 62.2 * FOOT), count=4)
    assert figure(site, "Play", "spray_coefficient") / SPRAY_UNIT == pytest.approx(3.986, rel=2.5e-3)
    assert figure(site, "Play", "device_flow") / GPM == pytest.approx(15.44, rel=2.5e-3)
    assert figure(site, "Play", "feature_flow") / GPM == pytest.approx(4 * 15.44, rel=2.5e-3)
    assert figure(site, "Play", "device_head") / FOOT == pytest.approx(34.73, rel=1e-3)
    assert figure(site, "Play", "duty_head") / FOOT == pytest.approx(34.73, rel=1e-3)


def test_a_nozzle_by_its_k_and_pressure(with_device: Any, figure: Figure) -> None:
    # K 5.6 gpm/√psi at 7 psi: 14.8 gpm (NFPA 13 practice); 7 · 144 / 62.2 = 16.21 ft.
    site = with_device(SprayNozzle(spray_coefficient=5.6 * SPRAY_UNIT, pressure=7 * PSI), device_head=50.0)
    assert figure(site, "Play", "device_flow") / GPM == pytest.approx(14.8, abs=0.05)
    assert figure(site, "Play", "device_head") / FOOT == pytest.approx(16.21, rel=1e-3)
    assert figure(site, "Play", "duty_head") == figure(site, "Play", "device_head"), "what was entered does not count"


@pytest.mark.parametrize("row", range(11))
def test_weirs_by_their_unit_flow(with_device: Any, figure: Figure, table: Any, row: int) -> None:
    printed = table("weir_unit_flow")[row]
    head = float(printed["head_in"]) * INCH
    sharp = with_device(Weir(length=10 * FOOT, head=head))
    unit = GPM / FOOT
    assert figure(sharp, "Play", "crest_flow") / unit == pytest.approx(float(printed["Francis_gpm_per_ft"]), rel=5e-4)
    assert figure(sharp, "Play", "feature_flow") / GPM == pytest.approx(
        10 * float(printed["Francis_gpm_per_ft"]), rel=5e-4
    )
    broad = with_device(BroadCrest(length=10 * FOOT, head=head))
    assert figure(broad, "Play", "crest_flow") / unit == pytest.approx(
        float(printed["broad_crested_gpm_per_ft"]), rel=5e-4
    )
    assert figure(broad, "Play", "device_head") == pytest.approx(head)


def test_thin_sheets_over_a_sharp_crest_are_said_to_be_indicative(with_device: Any, figure: Figure) -> None:
    """Below about 1.2 in surface tension counts, which Francis leaves out."""
    thin = figure(with_device(Weir(length=3.0, head=1.1 * INCH)), "Play", "device_flow")
    thick = figure(with_device(Weir(length=3.0, head=1.3 * INCH)), "Play", "device_flow")
    assert "outside the range" in thin.step.cautions()[0] and not thick.step.cautions()


def test_ends_drawn_in_narrow_a_weir_but_never_turn_it_round(with_device: Any, figure: Figure, lack: Lack) -> None:
    # 3.33 (4 − 0.2 · 0.5) 0.5^1.5 ft³/s.
    site = with_device(Weir(length=4 * FOOT, head=0.5 * FOOT, end_contractions=2))
    assert figure(site, "Play", "device_flow") / FOOT**3 == pytest.approx(3.33 * 3.9 * 0.5**1.5, rel=1e-3)
    short = with_device(Weir(length=0.1, head=0.6, end_contractions=2))
    assert "crest longer" in lack(short, "Play", "device_flow").needs


def test_a_slide_waits_for_its_suppliers_figure(with_device: Any, figure: Figure, lack: Lack) -> None:
    empty = with_device(SlideLanes(lanes=3))
    assert "supplier" in lack(empty, "Play", "device_flow").needs
    site = with_device(SlideLanes(lanes=3, flow_per_lane=700 * GPM), count=2, device_head=2 * FOOT)
    assert figure(site, "Play", "feature_flow") / GPM == pytest.approx(4_200)
    assert figure(site, "Play", "duty_head") / FOOT == pytest.approx(2)


def test_a_bucket_fills_between_two_tips(with_device: Any, figure: Figure) -> None:
    # 500 gal in 5 minutes take 100 gpm.
    site = with_device(TippingBucket(bucket_volume=500 * GALLON, time_between_tips=300.0), count=2)
    assert figure(site, "Play", "device_flow") / GPM == pytest.approx(100)
    assert figure(site, "Play", "bucket_cycle") == pytest.approx(300)
    faster = set_override(site, "Play", "device_flow", 200 * GPM, "The supplier's valve")
    assert figure(faster, "Play", "bucket_cycle") == pytest.approx(150)


def test_a_bubbler_by_the_height_of_its_jet(with_device: Any, figure: Figure) -> None:
    # √(2 · 32.174 ft/s² · 1 ft) = 8.02 ft/s through 1 in: 19.64 gpm.
    site = with_device(Bubbler(bore=INCH, jet_height=FOOT))
    assert figure(site, "Play", "device_flow") / GPM == pytest.approx(19.64, rel=1e-3)
    assert figure(site, "Play", "device_head") / FOOT == pytest.approx(1)


@pytest.mark.parametrize("key", [key for key in DEVICES if key != "supplier"])
def test_a_device_without_its_sizes_says_what_it_needs(with_device: Any, design: Any, key: str) -> None:
    found = design(with_device(DEVICES[key]()))
    for figure in ("device_flow", "feature_flow", "pump_flow"):
        value = found.value("Play", figure)
        assert isinstance(value, Missing) and value.needs.startswith("Enter"), figure
    assert isinstance(found.value("Pool", "feature_flow"), Missing)
    [pump] = [line for line in found.equipment if line.item == "Feature pump, Play"]
    assert isinstance(pump.duty[0].value, Missing)


def test_the_body_and_the_pump_follow_the_device(with_device: Any, design: Any) -> None:
    site = with_device(Nozzle(bore=0.375 * INCH, head=30 * FOOT), count=10)
    wider = design(revise(site, "Play", device=Nozzle(bore=0.75 * INCH, head=30 * FOOT)))
    narrow = design(site)
    for node, key in (
        ("Play", "feature_flow"),
        ("Pool", "feature_flow"),
        ("Loop", "feature_flow"),
        ("Play", "pump_flow"),
    ):
        assert wider.value(node, key) / narrow.value(node, key) == pytest.approx(4), (node, key)

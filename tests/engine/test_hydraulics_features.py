"""Nozzles, weirs, slides, buckets and bubblers against published forms in US units."""

from collections.abc import Callable
from typing import Any

import pytest

from waterpark_designer.engine.formulas import flow_features
from waterpark_designer.engine.worked import leaf
from waterpark_designer.sources import ARITHMETIC
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE, PSI

GPM = GALLON / MINUTE
SPRAY_UNIT = GPM / PSI**0.5
WATER = 998.2


def test_nozzle_by_bore_and_pressure() -> None:
    # 3/8 in, discharge coefficient 0.95, 15 psi: K = 29.84 C d² = 3.986, 15.44 gpm (form of fire-protection practice).
    coefficient = flow_features.spray_coefficient(0.375 * INCH, WATER)
    assert coefficient / SPRAY_UNIT == pytest.approx(3.986, rel=1e-3)
    flow = flow_features.nozzle_flow(coefficient, 15 * PSI)
    assert flow / GPM == pytest.approx(15.44, rel=1e-3)


def test_nozzle_by_its_k() -> None:
    # A sprinkler of K 5.6 gpm/√psi gives 14.8 gpm at 7 psi (NFPA 13 practice).
    assert flow_features.nozzle_flow(5.6 * SPRAY_UNIT, 7 * PSI) / GPM == pytest.approx(14.8, abs=0.05)


def test_orifice_by_head() -> None:
    # gpm = 19.64 C d² √ft.
    found = flow_features.orifice_flow(2 * INCH, 9 * FOOT, 0.61)
    assert found / GPM == pytest.approx(19.637 * 0.61 * 4 * 3, rel=1e-3)


def test_weirs(table: Callable[[str], list[dict[str, str]]]) -> None:
    rows = table("weir_unit_flow")
    assert len(rows) == 11
    for row in rows:
        head = float(row["head_in"]) * INCH
        sharp = flow_features.weir_flow(FOOT, head)
        assert sharp / GPM == pytest.approx(float(row["Francis_gpm_per_ft"]), rel=5e-4)
        broad = flow_features.broad_crest_flow(FOOT, head)
        assert broad / GPM == pytest.approx(float(row["broad_crested_gpm_per_ft"]), rel=5e-4)
        assert flow_features.weir_head(flow_features.flow_per_length(sharp, FOOT)) == pytest.approx(head)
        # Francis errs towards more head: Rehbock's flow needs less of it, at a quarter inch (4.49/5.71)^(2/3) of it.
        rehbock = float(row["Rehbock_gpm_per_ft"]) * GPM / FOOT
        assert flow_features.weir_head(rehbock) >= head
        # From 3 in Rehbock and Francis are within 5 %; thin sheets differ far more.
        if head >= 3 * INCH:
            assert sharp / GPM == pytest.approx(float(row["Rehbock_gpm_per_ft"]), rel=0.05)


@pytest.mark.parametrize(("gpm_per_foot", "stretched"), [(5.0, True), (45.0, True), (48.0, False), (100.0, False)])
def test_a_thin_sheet_is_said_to_stretch_the_weir_formula(gpm_per_foot: float, stretched: bool) -> None:
    # 3.33 · (0.03 m = 0.0984 ft)^1.5 = 0.1028 ft³/s, 46.2 gpm, on each foot under 30 mm.
    head = flow_features.weir_head(leaf(gpm_per_foot * GPM / FOOT, "Flow", ARITHMETIC))
    assert bool(head.step.cautions()) is stretched


def test_end_contractions_narrow_a_weir() -> None:
    # Francis: Q = 3.33 (L − 0.2 H) H^1.5 with both ends contracted, 4 ft and 0.5 ft: 4.591 ft³/s.
    found: Any = flow_features.weir_flow(4 * FOOT, 0.5 * FOOT, 2)
    assert found / FOOT**3 == pytest.approx(3.33 * 3.9 * 0.5**1.5, rel=1e-3)


def test_bucket_and_bubbler() -> None:
    assert flow_features.bucket_cycle(500 * GALLON, 100 * GPM) / MINUTE == pytest.approx(5.0)
    # A jet of 1 ft leaves at sqrt(2 g · 1 ft) = 8.02 ft/s: 19.64 gpm through 1 in.
    assert flow_features.bubbler_flow(INCH, FOOT) / GPM == pytest.approx(19.64, rel=1e-3)

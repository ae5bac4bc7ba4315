"""Filter beds against the fluids library and an independent root of the same balance."""

from collections.abc import Callable

import fluids
import pytest

from waterpark_designer.engine.formulas import filter_bed, water
from waterpark_designer.units import FOOT, GALLON, MINUTE, ZERO_CELSIUS

Table = Callable[[str], list[dict[str, str]]]
RATE = GALLON / MINUTE / FOOT**2
MILLIMETRE = 1e-3


def warmth(row: dict[str, str]) -> tuple[float, float]:
    """Viscosity and density of the row's water."""
    kelvin = float(row["T_C"]) + ZERO_CELSIUS
    return water.water_viscosity(kelvin), water.water_density(kelvin)


def test_clean_beds(table: Table) -> None:
    rows = table("packed_bed")
    assert len(rows) == 8
    for row in rows:
        found = filter_bed.clean_bed_loss(
            float(row["bed_depth_m"]),
            float(row["rate_gpm_ft2"]) * RATE,
            float(row["dp_mm"]) * MILLIMETRE,
            float(row["voidage"]),
            float(row["sphericity"]),
            *warmth(row),
        )
        # The table's water is CoolProp's, ours is within 0.01 % of it.
        assert found == pytest.approx(float(row["dP_Ergun_Pa"]), rel=1e-3), row


def test_ergun_is_the_librarys() -> None:
    found = filter_bed.clean_bed_loss(0.9, 0.012, 0.7e-3, 0.41, 0.85, 9e-4, 997.0)
    assert found == pytest.approx(
        fluids.dP_packed_bed(0.7e-3, 0.41, 0.012, 997.0, 9e-4, L=0.9, sphericity=0.85, Method="Ergun"), rel=1e-9
    )


def test_expansion(table: Table) -> None:
    rows = table("bed_expansion")
    assert len(rows) == 25
    for row in rows:
        viscosity, density = warmth(row)
        grain, fixed = float(row["d_mm"]) * MILLIMETRE, float(row["voidage_fixed"])
        rate, grains = float(row["rate_gpm_ft2"]) * RATE, float(row["rho_s"])
        opened = filter_bed.expanded_porosity(rate, grain, grains, density, viscosity)
        assert opened == pytest.approx(float(row["e_Ergun"]), abs=3e-4)
        grown = filter_bed.bed_expansion(fixed, opened)
        assert grown == pytest.approx(float(row["expansion_pct_Ergun"]) / 100, abs=1e-3)
        archimedes = filter_bed.archimedes_number(grains, density, grain, viscosity)
        least = filter_bed.least_fluidising_rate(archimedes, viscosity, density, grain)
        assert least / RATE == pytest.approx(float(row["vmf_gpm_ft2"]), rel=2e-3)


def test_expansion_by_hindered_settling(table: Table) -> None:
    for row in table("bed_expansion"):
        viscosity, density = warmth(row)
        grain, rate, grains = float(row["d_mm"]) * MILLIMETRE, float(row["rate_gpm_ft2"]) * RATE, float(row["rho_s"])
        # The library's drag is another correlation than Schiller and Naumann's.
        settling = filter_bed.settling_rate(grain, grains, density, viscosity)
        assert settling == pytest.approx(float(row["vt_mps"]), rel=0.03), row
        settling = float(row["vt_mps"])
        reynolds = filter_bed.grain_reynolds_number(settling, grain, density, viscosity)
        opened = filter_bed.hindered_porosity(rate, settling, filter_bed.hindering_exponent(reynolds))
        assert opened == pytest.approx(float(row["e_RichardsonZaki"]), abs=3e-4), row
        grown = filter_bed.bed_expansion(float(row["voidage_fixed"]), opened)
        assert grown == pytest.approx(float(row["expansion_pct_RZ"]) / 100, abs=1e-3)


def test_a_bed_washed_away_is_held_within_reason() -> None:
    opened = filter_bed.expanded_porosity(0.5, 0.5e-3, 2650.0, 997.0, 9e-4)
    assert opened == filter_bed.MOST_OPEN
    assert filter_bed.bed_expansion(0.42, opened) == pytest.approx(0.58 / 0.05 - 1)

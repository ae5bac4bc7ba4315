"""The shipped nominal sizes, against geometry and published dimensions."""

import math
import subprocess
import sys
from pathlib import Path

import pytest

from waterpark_designer.catalogue.catalogue import SIZE_MEASURES, read_generic_catalogue
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.resources import resources_folder
from waterpark_designer.units import GALLON, INCH, POUND

FOLDER = resources_folder() / "catalogue"
DAY = 86400.0
INVENTED = "invented nominal sizes, replace with your supplier's"


@pytest.fixture(scope="module")
def items() -> tuple[CatalogueItem, ...]:
    return read_generic_catalogue(FOLDER)


@pytest.fixture(scope="module")
def by_name(items: tuple[CatalogueItem, ...]) -> dict[str, CatalogueItem]:
    return {item.name: item for item in items}


# Bed area [ft²] of vertical tanks by diameter [in], A = π d²/4, tabulated to three decimals.
BED_AREAS = {
    24: 3.142,
    30: 4.909,
    36: 7.069,
    42: 9.621,
    48: 12.566,
    54: 15.904,
    60: 19.635,
    72: 28.274,
    84: 38.485,
    96: 50.265,
}

# Average inside diameter [in] of PVC pipe by nominal size, ASTM D1785: outside diameter less two mean walls, each
# the least wall and half the wall tolerance of max(0.020 in, 12 %). Outside diameters and walls from a reproduction
# of the standard's table.
PVC_40 = {"0.5": 0.602, "2": 2.047, "4": 3.998, "6": 6.031, "8": 7.942, "12": 11.889, "24": 22.544}
PVC_80 = {"0.5": 0.526, "2": 1.913, "4": 3.786, "6": 5.709, "8": 7.565, "12": 11.294, "24": 21.418}
PVC_OUTSIDE_AND_WALLS = {
    "0.5": (0.840, 0.109, 0.147),
    "2": (2.375, 0.154, 0.218),
    "4": (4.500, 0.237, 0.337),
    "6": (6.625, 0.280, 0.432),
    "8": (8.625, 0.322, 0.500),
    "12": (12.750, 0.406, 0.687),
    "24": (24.000, 0.687, 1.218),
}


@pytest.mark.parametrize(("diameter", "area"), BED_AREAS.items())
def test_bed_area_of_vertical_filters(by_name: dict[str, CatalogueItem], diameter: int, area: float) -> None:
    item = by_name[f"High-rate sand filter, {diameter} in vertical"]
    assert item.size / (12 * INCH) ** 2 == pytest.approx(area, abs=0.00056)


@pytest.mark.parametrize("tenths", range(8, 31, 2))
def test_bed_area_of_metric_filters(by_name: dict[str, CatalogueItem], tenths: int) -> None:
    item = by_name[f"Two-layer filter, {tenths / 10:.1f} m vertical"]
    assert item.size == pytest.approx(math.pi * (tenths / 10) ** 2 / 4, abs=0.00005)


@pytest.mark.parametrize(("schedule", "diameters"), [(40, PVC_40), (80, PVC_80)])
def test_average_inside_diameter_of_pipes(
    by_name: dict[str, CatalogueItem], schedule: int, diameters: dict[str, float]
) -> None:
    for nominal, inside in diameters.items():
        item = by_name[f"PVC pipe, Schedule {schedule}, {nominal} in"]
        outside, *walls = PVC_OUTSIDE_AND_WALLS[nominal]
        least = walls[schedule // 40 - 1]
        mean = outside - 2 * (least + max(0.020, 0.12 * least) / 2)
        assert item.size / INCH == pytest.approx(inside, abs=0.0005)
        assert item.size / INCH == pytest.approx(mean, abs=0.0011)
        assert "ASTM D1785" in item.source


def test_power_of_generators(items: tuple[CatalogueItem, ...]) -> None:
    """2.11 kWh/lb: 4.0 V a cell at 65 % current efficiency, from 342.904 A·h per lb of chlorine (Faraday's law).

    2.5 kWh/lb: the upper end of what low-strength brine-fed systems use, AWWA M65 (2015), from memory.
    """
    faraday = 4.0 * 342.904 / 1000 / 0.65
    for kind, energy in ((ItemKind.IN_RETURN_CELLS, faraday), (ItemKind.BRINE_FED_GENERATOR, 2.5)):
        generators = [item for item in items if item.kind is kind]
        assert generators
        for item in generators:
            pounds_a_day = item.size * DAY / POUND
            assert item.power is not None
            assert item.power * 24 / 1000 / pounds_a_day == pytest.approx(energy, rel=0.015)


def test_names_say_the_size(items: tuple[CatalogueItem, ...]) -> None:
    """A name such as “Solution tank, 55 gal” gives the size that is designed with."""
    factors = {"gal": GALLON, "gpm": GALLON / 60, "gal/d": GALLON / DAY, "lb/d": POUND / DAY, "ft²": (12 * INCH) ** 2}
    checked = 0
    for item in items:
        number, _, unit = item.name.rpartition(", ")[2].partition(" ")
        if unit in factors:
            assert item.size == pytest.approx(float(number.replace(",", "")) * factors[unit], rel=1e-9), item.name
            checked += 1
    assert checked > 100


def test_every_kind_is_there_and_distinct(items: tuple[CatalogueItem, ...]) -> None:
    assert {item.kind for item in items} == set(ItemKind) == set(SIZE_MEASURES)
    assert len({item.name for item in items}) == len(items)


def test_sources_are_honest(items: tuple[CatalogueItem, ...]) -> None:
    for item in items:
        assert (item.source == INVENTED) == (item.kind is not ItemKind.PIPE)


def test_read_quickly_and_without_pint() -> None:
    program = (
        "import sys, time\n"
        "from pathlib import Path\n"
        "from waterpark_designer.catalogue.catalogue import read_generic_catalogue\n"
        "times = []\n"
        "for _ in range(5):\n"
        "    start = time.perf_counter()\n"
        "    read_generic_catalogue(Path(sys.argv[1]))\n"
        "    times.append(time.perf_counter() - start)\n"
        "print(min(times), 'pint' in sys.modules)\n"
    )
    answer = subprocess.run(
        [sys.executable, "-c", program, str(FOLDER)], check=True, capture_output=True, text=True
    ).stdout.split()
    assert answer[1] == "False"
    # About 4 ms on a slow laptop.
    assert float(answer[0]) < 0.015


def test_an_empty_folder_gives_nothing(tmp_path: Path) -> None:
    assert read_generic_catalogue(tmp_path) == ()

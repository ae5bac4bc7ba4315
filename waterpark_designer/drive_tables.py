"""Efficiency of variable-speed drives by rating and load, read from the table the program ships."""

import csv
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from waterpark_designer.units import HORSEPOWER

COLUMN = "efficiency_at_"


class DriveTableError(ValueError):
    """The table of drives cannot be read; names the row."""


@dataclass(frozen=True, slots=True)
class DriveTable:
    """Efficiency of pulse-width-modulated drives by rating [W] and load, as a share of the rating.

    Between the table's ratings and loads it goes straight; beyond them it stays at the nearest.
    """

    powers: tuple[float, ...]
    loads: tuple[float, ...]
    efficiencies: tuple[tuple[float, ...], ...]
    source: str

    def efficiency(self, power: float, load: float) -> float:
        """Output over input of a drive of a rating [W] at a load."""
        at_load = [_between(load, self.loads, row) for row in self.efficiencies]
        return _between(power, self.powers, at_load)


def read_drive_table(folder: Path) -> DriveTable:
    """The table in the resources folder. Raises DriveTableError."""
    with (folder / "drives.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    found = []
    for number, cells in enumerate(rows, 2):
        try:
            loads = {name: float(name.removeprefix(COLUMN).split("_")[0]) for name in cells if name.startswith(COLUMN)}
            shares = tuple(float(cells[name]) / 100 for name in loads)
            found.append((float(cells["power_hp"]) * HORSEPOWER, tuple(loads.values()), shares, cells["source"]))
        except (KeyError, TypeError, ValueError) as error:
            raise DriveTableError(f"drives.csv, row {number}: {error}") from error
    if not found:
        raise DriveTableError("drives.csv has no rows.")
    found.sort()
    powers, loads, shares, sources = zip(*found, strict=True)
    return DriveTable(powers, tuple(load / 100 for load in loads[0]), shares, sources[0])


def _between(at: float, places: Sequence[float], values: Sequence[float]) -> float:
    """Straight between the two places beside `at`; the value at the nearer end beyond them."""
    upper = min(max(bisect_right(places, at), 1), len(places) - 1)
    low, high = places[upper - 1], places[upper]
    share = min(max((at - low) / (high - low), 0.0), 1.0)
    return values[upper - 1] + share * (values[upper] - values[upper - 1])

"""Standard motor ratings with their full-load currents and efficiencies, read from the table the program ships."""

import csv
from dataclasses import dataclass
from pathlib import Path

from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import HORSEPOWER

VOLTAGES = (208, 230, 460)
KILOWATT = 1000.0
PROVENANCES = {"read": Provenance.READ, "memory": Provenance.MEMORY}


class MotorTableError(ValueError):
    """The table of motors cannot be read; names the row."""


@dataclass(frozen=True, slots=True)
class MotorRating:
    """An enclosed three-phase motor: power [W], currents [A] by volts, efficiency at full load by poles.

    The currents size conductors and switches; overload protection goes by the nameplate. For 50 Hz no code states them.
    """

    frequency: int
    power: float
    currents: tuple[tuple[int, float], ...]
    efficiency_2_pole: float
    efficiency_4_pole: float
    source: Source

    def current(self, volts: float) -> float | None:
        """Full-load current [A] at a standard voltage; None where the table has none."""
        return next((current for standard, current in self.currents if standard == volts), None)


def read_motor_ratings(folder: Path) -> tuple[MotorRating, ...]:
    """The ratings in the resources folder, those of each frequency smallest first. Raises MotorTableError."""
    found = []
    with (folder / "motors.csv").open(encoding="utf-8", newline="") as file:
        for number, cells in enumerate(csv.DictReader(file), 2):
            try:
                found.append(_rating(cells))
            except (KeyError, TypeError, ValueError) as error:
                raise MotorTableError(f"motors.csv, row {number}: {error}") from error
    return tuple(sorted(found, key=lambda rating: rating.power))


def _rating(cells: dict[str, str]) -> MotorRating:
    horsepower = cells["power_hp"]
    return MotorRating(
        frequency=int(cells["frequency_hz"]),
        power=float(horsepower) * HORSEPOWER if horsepower else float(cells["power_kw"]) * KILOWATT,
        currents=tuple((volts, float(cells[_current(volts)])) for volts in VOLTAGES if cells[_current(volts)]),
        efficiency_2_pole=float(cells["efficiency_2_pole_pct"]) / 100,
        efficiency_4_pole=float(cells["efficiency_4_pole_pct"]) / 100,
        source=Source(cells["source"], PROVENANCES[cells["provenance"]]),
    )


def _current(volts: int) -> str:
    return f"current_{volts}_v_a"

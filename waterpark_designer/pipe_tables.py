"""Standard pipe sizes and materials, read from the tables the program ships."""

import csv
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from waterpark_designer.units import INCH, PSI

Row = TypeVar("Row")


class PipeTableError(ValueError):
    """A table of pipes cannot be read; names the file and the row."""


@dataclass(frozen=True, slots=True)
class PipeSize:
    """One size of one kind of pipe. Diameters and wall in m, pressure in Pa.

    `inside_diameter` is the average, which is what water meets: standards give the least wall, so outside diameter
    less two least walls would be the largest bore. `pressure_rating` is at 23 °C, None where the standard gives none.
    """

    material: str
    schedule: str
    nominal: str
    outside_diameter: float
    inside_diameter: float
    wall: float
    pressure_rating: float | None
    source: str

    @property
    def label(self) -> str:
        return f"{self.nominal} in {self.schedule}"


@dataclass(frozen=True, slots=True)
class PipeMaterial:
    """What pipes are made of: roughness [m], Hazen and Williams' C, elastic modulus [Pa]."""

    key: str
    name: str
    roughness: float
    hazen_williams: float
    elastic_modulus: float
    source: str


def read_pipe_sizes(folder: Path) -> tuple[PipeSize, ...]:
    """The sizes in the resources folder, smallest first within each schedule. Raises PipeTableError."""
    sizes = _rows(folder / "pipe_sizes.csv", _size)
    return tuple(sorted(sizes, key=lambda size: (size.material, size.schedule, size.inside_diameter)))


def read_pipe_materials(folder: Path) -> dict[str, PipeMaterial]:
    """The materials in the resources folder by key. Raises PipeTableError."""
    return {material.key: material for material in _rows(folder / "pipe_materials.csv", _material)}


def _rows(path: Path, read: Callable[[dict[str, str]], Row]) -> tuple[Row, ...]:
    found = []
    with path.open(encoding="utf-8", newline="") as file:
        for number, cells in enumerate(csv.DictReader(file), 2):
            try:
                found.append(read(cells))
            except (KeyError, TypeError, ValueError) as error:
                raise PipeTableError(f"{path.name}, row {number}: {error}") from error
    return tuple(found)


def _size(cells: dict[str, str]) -> PipeSize:
    return PipeSize(
        material=cells["material"],
        schedule=cells["schedule"],
        nominal=cells["nps_in"],
        outside_diameter=float(cells["outside_in"]) * INCH,
        inside_diameter=float(cells["inside_average_in"]) * INCH,
        wall=float(cells["wall_in"]) * INCH,
        pressure_rating=float(cells["pressure_psi"]) * PSI if cells["pressure_psi"] else None,
        source=cells["source"],
    )


def _material(cells: dict[str, str]) -> PipeMaterial:
    return PipeMaterial(
        key=cells["material"],
        name=cells["name"],
        roughness=float(cells["roughness_mm"]) * 1e-3,
        hazen_williams=float(cells["hazen_williams"]),
        elastic_modulus=float(cells["elastic_modulus_gpa"]) * 1e9,
        source=cells["source"],
    )

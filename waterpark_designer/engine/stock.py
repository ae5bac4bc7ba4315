"""What a design chooses from: nominal sizes, standard pipes, motors and drives."""

from collections.abc import Mapping
from dataclasses import dataclass

from waterpark_designer.drive_tables import DriveTable
from waterpark_designer.model.catalogue import CatalogueItem
from waterpark_designer.motor_tables import MotorRating
from waterpark_designer.pipe_tables import PipeMaterial, PipeSize


@dataclass(frozen=True, slots=True, eq=False)
class Stock:
    """Generic nominal sizes and the tables of standard pipes, motors and drives."""

    catalogue: tuple[CatalogueItem, ...] = ()
    pipe_sizes: tuple[PipeSize, ...] = ()
    pipe_materials: Mapping[str, PipeMaterial] | None = None
    motors: tuple[MotorRating, ...] = ()
    drives: DriveTable | None = None

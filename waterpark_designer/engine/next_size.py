"""The smallest standard pipe or motor that suffices."""

from collections.abc import Iterable

from waterpark_designer.motor_tables import MotorRating
from waterpark_designer.pipe_tables import PipeSize

SLACK = 1e-9


def next_pipe(least_inside_diameter: float, sizes: Iterable[PipeSize], material: str, schedule: str) -> PipeSize | None:
    """The smallest pipe of this kind with an inside diameter [m] not below the least; None where there is none."""
    wide_enough = (
        size
        for size in sizes
        if (size.material, size.schedule) == (material, schedule)
        and size.inside_diameter >= least_inside_diameter * (1 - SLACK)
    )
    return min(wide_enough, key=lambda size: size.inside_diameter, default=None)


def next_motor(power_needed: float, ratings: Iterable[MotorRating], frequency: int) -> MotorRating | None:
    """The smallest motor for a frequency [Hz], of a rating [W] not below the power needed; None where there is none."""
    strong_enough = (
        rating for rating in ratings if rating.frequency == frequency and rating.power >= power_needed * (1 - SLACK)
    )
    return min(strong_enough, key=lambda rating: rating.power, default=None)

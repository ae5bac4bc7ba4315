"""The equipment schedule as values: what to buy, how many, for what duty, and why."""

from dataclasses import dataclass

from waterpark_designer.engine.worked import Value
from waterpark_designer.units import Measure


@dataclass(frozen=True, slots=True)
class Amount:
    """A number in a schedule cell: "283 gpm", "19.6 ft² each", "12.4 gpm/ft² all in duty"."""

    value: Value
    measure: Measure
    after: str = ""


@dataclass(frozen=True, slots=True)
class ScheduleLine:
    """One line of the equipment schedule.

    `key` is stable (prices hang on it), `system` the node it belongs to, `why` the (node id, figure key) pairs
    that size it, in the order in which they are worked.
    """

    key: str
    system: str
    tag: str
    item: str
    quantity: Value
    duty: tuple[Amount, ...]
    rating: tuple[Amount, ...]
    remarks: str
    why: tuple[tuple[str, str], ...]

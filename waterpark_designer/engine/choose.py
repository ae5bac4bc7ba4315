"""Choosing nominal sizes from the catalogue."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, Step, Value, Worked, leaf
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.sources import ARITHMETIC, Provenance, Source
from waterpark_designer.units import COUNT, Measure

MOST_UNITS = 8
SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Choice:
    """A nominal size and how many of it: `item` is None where nothing could be chosen."""

    item: CatalogueItem | None
    size: Value
    count: Value


def choose(
    context: Context,
    kind: ItemKind,
    name: str,
    count: int | None,
    fewest: int,
    needed: Value,
    measure: Measure,
    counting: Callable[..., Any],
) -> Choice:
    """The user's item and count where given; otherwise the fewest units whose smallest sufficient size exists.

    `counting(needed, size)` is the formula for the number of units.
    """
    if isinstance(needed, Missing) and (count is None or not name):
        return Choice(None, needed, needed)
    if name or isinstance(needed, Missing):
        item = context.named_item(kind, name)
    else:
        item = _smallest(context.items(kind), needed, count, fewest)
    if item is None:
        words = f"“{name}” is not in the catalogue" if name else f"The catalogue has no {kind.label.lower()}"
        missing = Missing(f"{words}. Import your supplier's sizes or choose another.")
        return Choice(None, missing, missing)
    size = Worked(item.size, Step(item.name, _source_of(item), measure=measure, note=item.remarks))
    if count is not None:
        return Choice(item, size, leaf(count, "Number, your choice", YOUR_ENTRY, measure=COUNT))
    units = counting(needed, size)
    if isinstance(units, Worked) and units < fewest:
        source = AT_LEAST_TWO if fewest > 1 else AT_LEAST_ONE
        units = leaf(fewest, "Least number of units", source, measure=COUNT)
    return Choice(item, size, units)


AT_LEAST_ONE = Source("At least one, however little is needed", Provenance.COMMON_PRACTICE)
AT_LEAST_TWO = Source("At least two where one must be out for washing while the others run", Provenance.COMMON_PRACTICE)


def _smallest(items: Sequence[CatalogueItem], needed: float, count: int | None, fewest: int) -> CatalogueItem | None:
    for units in (count,) if count else range(fewest, MOST_UNITS + 1):
        for item in items:
            if units * item.size >= needed * (1 - SLACK):
                return item
    return items[-1] if items else None


def _source_of(item: CatalogueItem) -> Source:
    known = "invented" not in item.source.lower()
    return Source(f"Catalogue: {item.source}", Provenance.ENTRY if known else Provenance.INVENTED)


def with_spare(count: Value, spare: bool) -> Value:
    """The number installed: those in duty, and a spare where the plan has one."""
    if isinstance(count, Missing) or not spare:
        return count
    return Worked(count + 1, Step("Number installed, with a spare", ARITHMETIC, parts=(("In duty", count),)))

"""A table as a value: built first, drawn second by every writer and by the window.

Numbers stay SI floats with their Measure until they are drawn, so that one table serves both unit systems,
paper, spreadsheet and screen.
"""

import unicodedata
from dataclasses import dataclass, replace
from enum import StrEnum

from waterpark_designer.engine.worked import Missing, Value
from waterpark_designer.units import COUNT, Measure, UnitSystem

DASH = "—"


@dataclass(frozen=True, slots=True)
class Number:
    """A number in a cell: SI value, measure, and words before and after it, such as "at most" or "each"."""

    value: float
    measure: Measure
    before: str = ""
    after: str = ""

    def bare(self, system: UnitSystem) -> str:
        """The rounded number without its unit."""
        return spaced(self.before, self.measure.text(self.value, system), self.after)

    def phrase(self, system: UnitSystem) -> str:
        """The rounded number with its unit."""
        return spaced(self.before, self.measure.phrase(self.value, system), self.after)


Cell = str | Number | tuple[Number, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading, its measure where all its numbers share one, and its share of the width.

    The unit of the measure stands in the heading. A numeric column without a measure holds bare numbers whose
    unit stands in a column of its own, or beside them where `with_units` says so; in any other column numbers
    bring their unit along. `unit` is printed in the heading in place of the measure's, for money.
    """

    heading: str
    measure: Measure | None = None
    numeric: bool = False
    weight: float = 1.0
    unit: str = ""
    with_units: bool = False

    @property
    def brings_units(self) -> bool:
        """Whether numbers in this column are printed with their own unit."""
        return self.with_units or not self.right_aligned

    @property
    def right_aligned(self) -> bool:
        return self.numeric or self.measure is not None

    def unit_text(self, system: UnitSystem) -> str:
        """The unit printed in the heading; empty where numbers bring their own and where the heading names it."""
        unit = self.unit or (self.measure.symbol(system) if self.measure else "")
        return "" if unit in self.heading.lower().split() else unit

    def heading_text(self, system: UnitSystem) -> str:
        """Heading and unit in one line: "Volume (gal)"."""
        unit = self.unit_text(system)
        return f"{self.heading} ({unit})" if unit else self.heading


class RowKind(StrEnum):
    """What a row is: a heading over a group, a line of the body, or a total."""

    GROUP = "group"
    BODY = "body"
    TOTAL = "total"


@dataclass(frozen=True, slots=True)
class Row:
    """A row: a group row has one cell, any other has one for each column.

    `node` and `key` lead from a row on screen to the part of the site and to the schedule line it shows.
    """

    cells: tuple[Cell, ...]
    kind: RowKind = RowKind.BODY
    node: str = ""
    key: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """A table: its title, columns and rows, notes printed beneath, and what is said where it has no rows.

    `gathered` has spreadsheets join the tables of this title, one for each section on paper, on one sheet.
    """

    title: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = ()
    empty: str = "Nothing to list."
    gathered: bool = False


def number(value: Value, measure: Measure, before: str = "", after: str = "") -> Cell:
    """A cell for a figure; a dash where it is missing."""
    return DASH if isinstance(value, Missing) else Number(float(value), measure, before, after)


def count(value: float) -> Number:
    """A cell for a plain count."""
    return Number(float(value), COUNT)


def group(title: str, node: str = "") -> Row:
    """A heading over the rows that follow."""
    return Row((title,), RowKind.GROUP, node)


def cell_text(cell: Cell, column: Column, system: UnitSystem) -> str:
    """What a cell reads on paper and on screen."""
    if isinstance(cell, str):
        return cell
    if isinstance(cell, tuple):
        return ", ".join(part.phrase(system) for part in cell)
    return cell.phrase(system) if column.brings_units else cell.bare(system)


def without_blank_columns(table: Table) -> Table:
    """The table without the columns in which nothing is written."""
    rows = [row for row in table.rows if row.kind is not RowKind.GROUP]
    kept = [place for place in range(len(table.columns)) if any(row.cells[place] != "" for row in rows)]
    return replace(
        table,
        columns=tuple(table.columns[place] for place in kept),
        rows=tuple(
            row if row.kind is RowKind.GROUP else replace(row, cells=tuple(row.cells[place] for place in kept))
            for row in table.rows
        ),
    )


def spaced(before: str, number: str, after: str = "") -> str:
    """A number with words around it; a currency sign stands close to it."""
    if unicodedata.category(before[-1:] or " ") == "Sc":
        before, number = "", f"{before}{number}"
    return " ".join(word for word in (before, number, after) if word)

"""Nominal sizes read from CSV: the generic ones shipped with the program and those a supplier gives.

Both are read alike. The columns are `COLUMNS`, in any order; `size` is a number in `unit`, any unit of the
kind's measure, and `power_kw` and `remarks` may stay empty.
"""

import csv
import io
from collections.abc import Iterable
from pathlib import Path

from waterpark_designer.catalogue.row import COLUMNS, SIZE_MEASURES, read_row
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.model.site import MOST_CATALOGUE_ITEMS

__all__ = ["COLUMNS", "SIZE_MEASURES", "CatalogueError", "read_generic_catalogue", "read_supplier_catalogue"]

LARGEST_FILE = 5_000_000
MOST_PROBLEMS_SHOWN = 20


class CatalogueError(ValueError):
    """A catalogue file cannot be used; `problems` names each cell at fault and what would be right."""

    def __init__(self, file_name: str, problems: Iterable[str]) -> None:
        self.problems = tuple(problems)
        shown = list(self.problems[:MOST_PROBLEMS_SHOWN])
        if len(self.problems) > len(shown):
            shown.append(f"… and {len(self.problems) - len(shown)} more.")
        super().__init__("\n".join([f"“{file_name}” cannot be used as a catalogue.", *shown]))


def read_generic_catalogue(folder: Path) -> tuple[CatalogueItem, ...]:
    """The sizes shipped with the program: every CSV file of the folder. Raises CatalogueError."""
    return tuple(item for path in sorted(folder.glob("*.csv")) for item in read_supplier_catalogue(path))


def read_supplier_catalogue(path: Path) -> tuple[CatalogueItem, ...]:
    """The sizes in one CSV file, in SI units. Raises CatalogueError that lists every row at fault."""
    rows = _rows(path)
    if not any(rows):
        advice = f"It is empty. Its first row names the columns: {', '.join(COLUMNS)}."
        raise CatalogueError(path.name, [advice])
    header = [cell.strip().lower() for cell in rows[0]]
    problems = _header_problems(header)
    if problems:
        raise CatalogueError(path.name, problems)
    if len(rows) - 1 > MOST_CATALOGUE_ITEMS:
        advice = f"It has {len(rows) - 1:,} rows. Keep at most {MOST_CATALOGUE_ITEMS:,} sizes, those you use."
        raise CatalogueError(path.name, [advice])
    items, problems = _items(header, rows)
    if not items and not problems:
        problems = ["It has column names but no sizes. Put one size in each row below them."]
    if problems:
        raise CatalogueError(path.name, problems)
    return items


def _rows(path: Path) -> list[list[str]]:
    text = _text(path)
    first_line = text.partition("\n")[0]
    separator = max((",", ";", "\t"), key=first_line.count)
    try:
        return list(csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True))
    except csv.Error as error:
        raise CatalogueError(path.name, [f"It is not a table of comma-separated values: {error}."]) from error


def _text(path: Path) -> str:
    try:
        with path.open("rb") as file:
            content = file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        raise CatalogueError(path.name, ["It does not exist. It may have been moved or deleted."]) from None
    except OSError as error:
        raise CatalogueError(path.name, [f"It cannot be read: {error.strerror}."]) from error
    if len(content) > LARGEST_FILE:
        raise CatalogueError(path.name, ["It is larger than 5 MB. A catalogue is a short table."])
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        advice = "It is not UTF-8 text. Save it from your spreadsheet as “CSV UTF-8”."
        raise CatalogueError(path.name, [advice]) from None


def _header_problems(header: list[str]) -> list[str]:
    problems = [f"Row 1: the column “{name}” is missing." for name in COLUMNS if name not in header]
    problems += [
        f"Row 1: the column “{name[:40]}” is not known." if name else f"Row 1: column {place} has no name."
        for place, name in enumerate(header, 1)
        if name not in COLUMNS
    ]
    problems += [f"Row 1: the column “{name}” is there twice." for name in COLUMNS if header.count(name) > 1]
    return [*problems, f"The columns are: {', '.join(COLUMNS)}."] if problems else []


def _items(header: list[str], rows: list[list[str]]) -> tuple[tuple[CatalogueItem, ...], list[str]]:
    """Every size of the rows under the header, and every problem met on the way."""
    items: list[CatalogueItem] = []
    problems: list[str] = []
    named_in: dict[tuple[ItemKind, str], int] = {}
    for number, row in enumerate(rows[1:], 2):
        cells = [cell.strip() for cell in row]
        if not any(cells):
            continue
        if len(cells) != len(header):
            problems.append(
                f"Row {number} has {len(cells)} cells where {len(header)} belong. "
                "Put quotation marks round text with a comma in it."
            )
            continue
        item, found = read_row(dict(zip(header, cells, strict=True)))
        problems += [f"Row {number}, {problem}" for problem in found]
        if item is None:
            continue
        first = named_in.setdefault((item.kind, item.name.casefold()), number)
        if first != number:
            problems.append(
                f"Row {number}, name: “{item.name}” stands in row {first} already. Give each size its own name."
            )
        items.append(item)
    return tuple(items), problems

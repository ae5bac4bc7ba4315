"""Nominal sizes read from CSV: the generic ones shipped with the program and those a supplier gives.

Both are read alike. The columns are `COLUMNS`, in any order; `size` is a number in `unit`, any unit of the kind's
measure, and `power_kw` may stay empty.
"""

import csv
import io
from collections.abc import Iterable, Mapping
from pathlib import Path

from waterpark_designer import units as u
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.units import Measure, UnitSystem, UnreadableQuantity

SIZE_MEASURES: dict[ItemKind, Measure] = {
    ItemKind.HIGH_RATE_SAND_FILTER: u.AREA,
    ItemKind.TWO_LAYER_FILTER: u.AREA,
    ItemKind.PRECOAT_FILTER: u.AREA,
    ItemKind.CARTRIDGE_FILTER: u.AREA,
    ItemKind.IN_RETURN_CELLS: u.MASS_RATE,
    ItemKind.BRINE_FED_GENERATOR: u.MASS_RATE,
    ItemKind.FEED_PUMP: u.DAILY_VOLUME,
    ItemKind.SOLUTION_TANK: u.VOLUME,
    ItemKind.HOLDING_TANK: u.VOLUME,
    ItemKind.ULTRAVIOLET_REACTOR: u.FLOW,
    ItemKind.OZONE_CONTACTOR: u.FLOW,
    ItemKind.PUMP: u.FLOW,
    ItemKind.PIPE: u.SMALL_LENGTH,
}
COLUMNS = ("kind", "name", "size", "unit", "power_kw", "remarks", "source")
LARGEST_FILE = 5_000_000
MOST_SIZES = 5000
LONGEST_NAME = 120
MOST_PROBLEMS_SHOWN = 20
KILOWATT = 1000.0


class CatalogueError(ValueError):
    """A catalogue file cannot be used; `problems` names every row and column at fault and what would be right."""

    def __init__(self, file_name: str, problems: Iterable[str]) -> None:
        self.problems = tuple(problems)
        shown = list(self.problems[:MOST_PROBLEMS_SHOWN])
        if len(self.problems) > len(shown):
            shown.append(f"… and {len(self.problems) - len(shown)} more.")
        super().__init__("\n".join([f"“{file_name}” cannot be used as a catalogue.", *shown]))


class _CellProblem(ValueError):
    """What is wrong in one cell, without its row."""

    def __init__(self, column: str, advice: str) -> None:
        super().__init__(f"{column}: {advice}")


def read_generic_catalogue(folder: Path) -> tuple[CatalogueItem, ...]:
    """The sizes shipped with the program: every CSV file of the folder. Raises CatalogueError."""
    return tuple(item for path in sorted(folder.glob("*.csv")) for item in read_supplier_catalogue(path))


def read_supplier_catalogue(path: Path) -> tuple[CatalogueItem, ...]:
    """The sizes in one CSV file, in SI units. Raises CatalogueError that lists every row at fault."""
    rows = _rows(path)
    if not any(rows):
        raise CatalogueError(path.name, [f"The file is empty. Its first row names the columns: {', '.join(COLUMNS)}."])
    header = [cell.strip().lower() for cell in rows[0]]
    problems = _header_problems(header)
    if problems:
        raise CatalogueError(path.name, problems)
    items, problems = _items(header, rows)
    if not items and not problems:
        problems = ["The file has column names but no sizes. Put one size in each row below them."]
    if len(items) > MOST_SIZES:
        problems = [f"The file has {len(items):,} sizes. A project holds {MOST_SIZES:,}; leave out what you do not use."]
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
        raise CatalogueError(path.name, [f"The file is not a table of comma-separated values ({error})."]) from error


def _text(path: Path) -> str:
    try:
        with path.open("rb") as file:
            content = file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        raise CatalogueError(path.name, ["The file does not exist. It may have been moved or deleted."]) from None
    except OSError as error:
        raise CatalogueError(path.name, [f"The file cannot be read: {error.strerror}."]) from error
    if len(content) > LARGEST_FILE:
        raise CatalogueError(path.name, ["The file is larger than 5 MB. A catalogue is a short table."])
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise CatalogueError(path.name, ["The file is not UTF-8 text. Save it from your spreadsheet as “CSV UTF-8”."]) from None


def _header_problems(header: list[str]) -> list[str]:
    problems = [f"Row 1: the column “{name}” is missing." for name in COLUMNS if name not in header]
    problems += [
        f"Row 1: the column “{name}” is not known." if name else f"Row 1: column {place} has no name."
        for place, name in enumerate(header, 1) if name not in COLUMNS]
    problems += [f"Row 1: the column “{name}” stands more than once." for name in COLUMNS if header.count(name) > 1]
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
                "Put quotation marks round text with a comma in it.")
            continue
        item, found = _item(dict(zip(header, cells, strict=True)))
        problems += [f"Row {number}, {problem}" for problem in found]
        if item is None:
            continue
        first = named_in.setdefault((item.kind, item.name.casefold()), number)
        if first != number:
            problems.append(f"Row {number}, name: “{item.name}” stands in row {first} already. Give each size its own name.")
        items.append(item)
    return tuple(items), problems


def _item(cells: Mapping[str, str]) -> tuple[CatalogueItem | None, list[_CellProblem]]:
    """The size in one row, or None with all that is wrong in it."""
    problems: list[_CellProblem] = []
    values: dict[str, object] = {}
    try:
        values["kind"] = kind = _kind(cells["kind"])
        values["size"] = _size(cells["size"], cells["unit"], SIZE_MEASURES[kind])
    except _CellProblem as problem:
        problems.append(problem)
    for column, longest, needed in (("name", LONGEST_NAME, True), ("remarks", 4000, False), ("source", 400, True)):
        try:
            values[column] = _wording(column, cells[column], longest, needed)
        except _CellProblem as problem:
            problems.append(problem)
    try:
        values["power"] = _power(cells["power_kw"])
    except _CellProblem as problem:
        problems.append(problem)
    return (None, problems) if problems else (CatalogueItem.model_validate(values), [])


def _kind(text: str) -> ItemKind:
    try:
        return ItemKind(text.lower().replace(" ", "_").replace("-", "_"))
    except ValueError:
        raise _CellProblem("kind", f"“{text[:40]}” is not known. Write one of {', '.join(ItemKind)}.") from None


def _size(text: str, unit: str, measure: Measure) -> float:
    """SI value of a size in its unit."""
    number = _number("size", text)
    if not 0 < number <= 1e12:
        raise _CellProblem("size", f"{text[:40]} is not a size. Write a number above zero.")
    units = f"{measure.us.symbol} or {measure.metric.symbol}"
    if not unit:
        raise _CellProblem("unit", f"It is empty. Write {units}.")
    try:
        size = measure.read(f"{number!r} {unit}", UnitSystem.US)
    except UnreadableQuantity:
        raise _CellProblem("unit", f"“{unit[:40]}” is not a unit of {measure.name}. Write {units}.") from None
    if not 0 < size <= 1e6:
        raise _CellProblem("size", f"{text[:40]} {unit[:40]} is beyond any real size. Check number and unit.")
    return size


def _power(text: str) -> float | None:
    """Power in watts; none where the cell is empty."""
    if not text:
        return None
    kilowatts = _number("power_kw", text)
    if not 0 <= kilowatts <= 10_000:
        raise _CellProblem("power_kw", f"{text[:40]} is not a power. Write kilowatts from 0 to 10,000, or nothing.")
    return kilowatts * KILOWATT


def _number(column: str, text: str) -> float:
    try:
        return u.RATIO.read(text, UnitSystem.US)
    except UnreadableQuantity:
        raise _CellProblem(column, f"“{text[:40]}” is not a number. Write one such as 12.5, without its unit.") from None


def _wording(column: str, text: str, longest: int, needed: bool) -> str:
    if needed and not text:
        raise _CellProblem(column, "It is empty. Say where the size comes from." if column == "source"
                           else "It is empty. Give each size a name.")
    if len(text) > longest:
        raise _CellProblem(column, f"It has {len(text):,} characters. Write at most {longest}.")
    return text

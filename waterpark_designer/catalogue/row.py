"""One row of a catalogue file: cells to a nominal size, with what is wrong in each cell in plain words."""

from collections.abc import Mapping

from waterpark_designer import units as u
from waterpark_designer.model.catalogue import LONGEST_ITEM_NAME, CatalogueItem, ItemKind
from waterpark_designer.units import Measure, UnitSystem, UnreadableQuantity

SIZE_MEASURES: dict[ItemKind, Measure] = {
    ItemKind.HIGH_RATE_SAND_FILTER: u.nominal(u.AREA),
    ItemKind.RAPID_SAND_FILTER: u.nominal(u.AREA),
    ItemKind.TWO_LAYER_FILTER: u.nominal(u.AREA),
    ItemKind.PRECOAT_FILTER: u.nominal(u.AREA),
    ItemKind.CARTRIDGE_FILTER: u.nominal(u.AREA),
    ItemKind.IN_RETURN_CELLS: u.nominal(u.MASS_RATE),
    ItemKind.BRINE_FED_GENERATOR: u.nominal(u.MASS_RATE),
    ItemKind.FEED_PUMP: u.nominal(u.DAILY_VOLUME),
    ItemKind.SOLUTION_TANK: u.nominal(u.VOLUME),
    ItemKind.HOLDING_TANK: u.nominal(u.VOLUME),
    ItemKind.ULTRAVIOLET_REACTOR: u.nominal(u.FLOW),
    ItemKind.OZONE_CONTACTOR: u.nominal(u.FLOW),
    ItemKind.PUMP: u.nominal(u.FLOW),
    ItemKind.PIPE: u.nominal(u.SMALL_LENGTH),
}
COLUMNS = ("kind", "name", "size", "unit", "power_kw", "remarks", "source")
KILOWATT = 1000.0


class CellProblem(ValueError):
    """What is wrong in one cell and what would be right, without its row."""

    def __init__(self, column: str, advice: str) -> None:
        super().__init__(f"{column}: {advice}")


def read_row(cells: Mapping[str, str]) -> tuple[CatalogueItem | None, tuple[CellProblem, ...]]:
    """The size in one row, or None with all that is wrong in it."""
    problems: list[CellProblem] = []
    values: dict[str, object] = {}
    try:
        values["kind"] = kind = _kind(cells["kind"])
        values["size"] = _size(cells["size"], cells["unit"], SIZE_MEASURES[kind])
    except CellProblem as problem:
        problems.append(problem)
    try:
        values["power"] = _power(cells["power_kw"])
    except CellProblem as problem:
        problems.append(problem)
    for column, longest, if_empty in (
        ("name", LONGEST_ITEM_NAME, "Give each size a name."),
        ("remarks", 4000, ""),
        ("source", 400, "Say where the size comes from."),
    ):
        try:
            values[column] = _wording(column, cells[column], longest, if_empty)
        except CellProblem as problem:
            problems.append(problem)
    return (None if problems else CatalogueItem.model_validate(values)), tuple(problems)


def _kind(text: str) -> ItemKind:
    try:
        return ItemKind(text.lower().replace(" ", "_").replace("-", "_"))
    except ValueError:
        advice = f"“{text[:40]}” is not known. Write one of {', '.join(ItemKind)}."
        raise CellProblem("kind", advice) from None


def _size(text: str, unit: str, measure: Measure) -> float:
    """SI value of a size in its unit."""
    number = _number("size", text)
    if number <= 0:
        raise CellProblem("size", f"{text[:40]} is not a size. Write a number above zero.")
    units = f"{measure.us.symbol} or {measure.metric.symbol}"
    if not unit:
        raise CellProblem("unit", f"It is empty. Write {units}.")
    try:
        size = measure.read(f"{number!r} {unit}", UnitSystem.US)
    except UnreadableQuantity:
        advice = f"“{unit[:40]}” is not a unit of {measure.name}. Write {units}."
        raise CellProblem("unit", advice) from None
    if not 0 < size <= 1e6:
        raise CellProblem("size", f"{text[:40]} {unit[:40]} is beyond any real size. Check number and unit.")
    return size


def _power(text: str) -> float | None:
    """Power in watts; none where the cell is empty."""
    if not text:
        return None
    kilowatts = _number("power_kw", text)
    if not 0 <= kilowatts <= 10_000:
        advice = f"{text[:40]} is not a power. Write kilowatts from 0 to 10,000, or nothing."
        raise CellProblem("power_kw", advice)
    return kilowatts * KILOWATT


def _number(column: str, text: str) -> float:
    try:
        return u.RATIO.read(text, UnitSystem.US)
    except UnreadableQuantity:
        advice = f"“{text[:40]}” is not a number. Write one such as 12.5, without its unit."
        raise CellProblem(column, advice) from None


def _wording(column: str, text: str, longest: int, if_empty: str) -> str:
    if if_empty and not text:
        raise CellProblem(column, f"It is empty. {if_empty}")
    if len(text) > longest:
        raise CellProblem(column, f"It has {len(text):,} characters. Write at most {longest}.")
    return text

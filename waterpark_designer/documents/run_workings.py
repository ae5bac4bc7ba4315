"""Pipe runs on the calculation sheets: the first of the site worked in full, those like it in one line each."""

from collections.abc import Iterable, Iterator

from waterpark_designer.documents.blocks import Heading
from waterpark_designer.documents.document import Block, WorkedAlike
from waterpark_designer.documents.figures import figure_cell
from waterpark_designer.documents.pipe_names import pipe_text
from waterpark_designer.documents.pipe_runs import PIPE_LENGTH
from waterpark_designer.documents.table import Cell, Column, Number, Row, Table, number, without_blank_columns
from waterpark_designer.documents.tree import Place
from waterpark_designer.documents.workings import Named, entries_of
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pipes import run_on
from waterpark_designer.engine.worked import Missing, Value, Worked
from waterpark_designer.units import COEFFICIENT, LENGTH, RATIO, Measure, UnitSystem

COLUMNS = (
    Column("Run", weight=1.6),
    Column("Pipe", weight=2.6),
    Column("L", PIPE_LENGTH),
    Column("Q", FIGURE_KINDS["run_flow"].measure),
    Column("v max", FIGURE_KINDS["velocity_limit"].measure),
    Column("D min", FIGURE_KINDS["least_bore"].measure),
    Column("D", FIGURE_KINDS["inside_diameter"].measure),
    Column("v", FIGURE_KINDS["velocity"].measure),
    Column("Re", RATIO),
    Column("f", COEFFICIENT),
    Column("C", RATIO),
    Column("h f", LENGTH),
    Column("K", RATIO),
    Column("h K", LENGTH),
    Column("h", LENGTH),
)
NOTES = (
    "L length of one run, Q flow of one run, v max largest velocity allowed, D min least inside diameter, D inside "
    "diameter, v velocity, Re Reynolds number, f friction factor, C of Hazen and Williams, h f friction, K loss "
    "coefficient of all fittings, h K fittings, h head lost in the run.",
    "Spreadsheets and data of this project hold the full working of each.",
)
BEFORE = ("run_flow", "velocity_limit", "least_bore", "inside_diameter", "velocity")


def worked_in_full(design: SiteDesign, runs: Iterable[Place]) -> Place | None:
    """The run whose working stands for all that are like it: the first that lacks nothing."""
    return next((place for place in runs if _plain(design.sheets[place.node.id])), None)


def run_blocks(
    design: SiteDesign, runs: tuple[Place, ...], model: Place | None, named: Named, system: UnitSystem
) -> Iterator[Block]:
    """The sheets of the runs of one circuit, in flow order."""
    alike: list[Place] = []
    for place in runs:
        if place is not model and model is not None and _plain(design.sheets[place.node.id]):
            alike.append(place)
        else:
            yield Heading(f"Pipe run: {place.node.name}, {pipe_text(design.sheets[place.node.id], system)}")
            yield from entries_of(design, place, named)
    if alike:
        rows = tuple(_row(design.sheets[place.node.id], design, system) for place in alike)
        title = f"Pipe runs, worked as {model.where} is" if model else "Pipe runs"
        table = without_blank_columns(Table(title, COLUMNS, rows, NOTES))
        yield WorkedAlike(table, tuple(entry for place in alike for entry in entries_of(design, place, named)))


def _plain(sheet: Sheet) -> bool:
    """Nothing on the sheet is missing or set by hand, so that one line tells all of it."""
    figures = sheet.figures.values()
    return bool(figures) and all(isinstance(one.value, Worked) and one.override is None for one in figures)


def _row(sheet: Sheet, design: SiteDesign, system: UnitSystem) -> Row:
    run, friction = run_on(sheet), sheet["friction_loss"]
    factor = _put_in(friction, "Friction")
    cells: tuple[Cell, ...] = (
        *(figure_cell(design, run.id, key) for key in BEFORE),
        _cell(_put_in(factor, "Reynolds"), RATIO),
        _cell(factor, COEFFICIENT),
        _cell(_put_in(friction, "Coefficient"), RATIO),
        number(friction, LENGTH),
        _cell(_put_in(sheet["fittings_loss"], "Loss coefficient"), RATIO),
        number(sheet["fittings_loss"], LENGTH),
        number(sheet["run_loss"], LENGTH),
    )
    return Row((run.name, pipe_text(sheet, system), Number(run.length, PIPE_LENGTH), *cells), node=run.id)


def _put_in(value: Value | None, name: str) -> Worked | None:
    """The number of this name that was put into a figure."""
    if value is None or isinstance(value, Missing):
        return None
    found = (part for _, title, part, _ in value.step.inputs() if title == name and isinstance(part, Worked))
    return next(found, None)


def _cell(value: Worked | None, measure: Measure) -> Cell:
    return "" if value is None else Number(float(value), measure)

"""The columns of the pipe table: what each shows of a run, and how an entry is read."""

from collections.abc import Sequence
from typing import Any

from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pipes import STANDARDS
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.gui.field_editors import read_number
from waterpark_designer.gui.field_spec import Entry
from waterpark_designer.gui.sheet_columns import SheetColumn
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.pipe_tables import PipeSize
from waterpark_designer.units import UnitSystem, UnreadableQuantity, nominal

YES_NO = ((True, "Yes"), (False, "No"))
YES_WORDS, NO_WORDS = ("yes", "y", "true", "1", "x"), ("no", "n", "false", "0")
NOTHING = "—"
LONGEST_NAME, LONGEST_BRANCH = 200, 20


class PipeColumn(SheetColumn):
    """One column: an entry of the run or one of its figures."""

    __slots__ = ()
    rows_of = PipeRun

    @property
    def is_number(self) -> bool:
        return bool(
            self.figure
            or self.field == "size"
            or (self.spec and self.spec.entry in (Entry.QUANTITY, Entry.WHOLE_NUMBER))
        )

    @property
    def choices(self) -> tuple[tuple[Any, str], ...]:
        """What can be chosen from in this column; nothing where it is typed."""
        if self.spec is None:
            return ()
        return YES_NO if self.spec.entry is Entry.YES_NO else self.spec.choices

    @property
    def tip(self) -> str:
        return super().tip or "What the run is called on the drawing."

    def unit(self, units: UnitSystem) -> str:
        return "in" if self.field == "size" else super().unit(units)


COLUMNS: tuple[PipeColumn, ...] = (
    PipeColumn("Pipe run", 19, field="name"),
    PipeColumn("Kind of line", 17, field="kind"),
    PipeColumn("Length", 6, field="length"),
    PipeColumn("Like\nruns", 4, field="count"),
    PipeColumn("Share\nof flow", 5, field="flow_share"),
    PipeColumn("Standard", 10, field="standard"),
    PipeColumn("Size", 5, field="size"),
    PipeColumn("Branch", 5, field="branch"),
    PipeColumn("Flow", 5, figure="run_flow"),
    PipeColumn("Velocity", 7, figure="velocity"),
    PipeColumn("Loss", 6, figure="run_loss"),
    PipeColumn("Elbows\n90°", 4, field="elbows_90"),
    PipeColumn("Elbows\n45°", 4, field="elbows_45"),
    PipeColumn("Tees,\nstraight", 4, field="tees_run"),
    PipeColumn("Tees,\nturned", 4, field="tees_branch"),
    PipeColumn("Butterfly\nvalves", 4, field="butterfly_valves"),
    PipeColumn("Check\nvalves", 4, field="check_valves"),
    PipeColumn("Entrances", 4, field="entrances"),
    PipeColumn("Exits", 4, field="exits"),
    PipeColumn("Available\nhead", 6, field="available_head"),
    PipeColumn("Carries by\ngravity", 6, figure="gravity_capacity"),
    PipeColumn("In pump\nhead", 4, field="in_pump_head"),
    PipeColumn("Assumed", 4, field="assumed"),
)
"""What is computed stands right behind what changes it most, so that both are seen together."""
ENTRIES = tuple(place for place, column in enumerate(COLUMNS) if column.field)
EMPTY: dict[str, Any] = {
    "size": "",
    "available_head": None,
    "branch": "",
    **{column.field: 0 for column in COLUMNS if column.spec and column.spec.bounds.low == 0 and not column.measure},
}
"""What a cell holds once it is emptied; other fields cannot be."""


def cell_text(
    column: PipeColumn, run: PipeRun, sheet: Sheet | None, sizes: Sequence[PipeSize], units: UnitSystem
) -> str:
    """A cell as it is read."""
    if column.figure:
        return figure_text(column, sheet, units)
    value = getattr(run, column.field)
    if value is None:
        return ""
    if column.field == "size":
        return value or chosen_text(run, sheet, sizes)
    if column.choices:
        return next(label for choice, label in column.choices if choice == value)
    if column.measure:
        return nominal(column.measure).text(value, units)
    return "" if value == 0 else str(value)


def figure_text(column: PipeColumn, sheet: Sheet | None, units: UnitSystem) -> str:
    """A figure with the mark of its check where that asks for something."""
    figure = sheet.figures.get(column.figure) if sheet else None
    if sheet and figure is None:
        return ""
    if figure is None or isinstance(figure.value, Missing):
        return NOTHING
    text = figure.kind.measure.text(figure.value, units)
    status = asking(column.figure, sheet)
    return f"{status.mark} {text}" if status else f"{text} *" if figure.override else text


def asking(figure: str, sheet: Sheet | None) -> Status | None:
    """How the checks of a figure stand, where one is not met or to be looked at."""
    wanted = (Status.NOT_MET, Status.CAUTION)
    findings = sheet.findings if sheet and figure else ()
    return next((item.status for item in findings if item.figure == figure and item.status in wanted), None)


def chosen_text(run: PipeRun, sheet: Sheet | None, sizes: Sequence[PipeSize]) -> str:
    """The nominal size that was chosen, in brackets; a dash while it is not known."""
    bore = sheet["inside_diameter"] if sheet else None
    if not isinstance(bore, Worked):
        return NOTHING
    found = next((size for size in sizes_of(run, sizes) if size.inside_diameter == float(bore)), None)
    return f"({found.nominal})" if found else NOTHING


def sizes_of(run: PipeRun, sizes: Sequence[PipeSize]) -> list[PipeSize]:
    """The sizes that a run's standard has, smallest first."""
    return [size for size in sizes if (size.material, size.schedule) == STANDARDS[run.standard]]


def entry_of(column: PipeColumn, run: PipeRun, units: UnitSystem) -> Any:
    """The cell as it is edited."""
    value = getattr(run, column.field)
    if value is None:
        return ""
    return column.measure.entry_text(value, units) if column.measure else value if column.choices else str(value)


def read_cell(column: PipeColumn, text: Any, run: PipeRun, sizes: Sequence[PipeSize], units: UnitSystem) -> Any:
    """The value of what was typed, chosen or pasted. Raises UnreadableQuantity, which says what would be right."""
    if column.choices:
        return _read_choice(column, text)
    words = str(text).strip()
    if column.field == "name":
        if not 1 <= len(words) <= LONGEST_NAME:
            raise UnreadableQuantity(f"A name needs between 1 and {LONGEST_NAME} letters.")
        return words
    if column.field == "size":
        return _read_size(words, run, sizes)
    if column.field == "branch":
        if len(words) > LONGEST_BRANCH:
            raise UnreadableQuantity(f"A word or number of at most {LONGEST_BRANCH} letters, the same in all branches.")
        return words
    assert column.spec is not None
    if not words and column.field in EMPTY:
        return EMPTY[column.field]
    return read_number(column.spec, words, units)


def _read_choice(column: PipeColumn, text: Any) -> Any:
    words = str(text).strip().casefold()
    if column.choices is YES_NO:
        if words in YES_WORDS or words in NO_WORDS:
            return words in YES_WORDS
    else:
        for choice, label in column.choices:
            if words in (str(choice).casefold(), label.casefold()):
                return choice
    offered = ", ".join(label for _, label in column.choices)
    raise UnreadableQuantity(f"“{str(text)[:40]}” is none of: {offered}.")


def _read_size(words: str, run: PipeRun, sizes: Sequence[PipeSize]) -> str:
    wanted = words.removesuffix("in").removesuffix("″").removesuffix('"').strip()
    offered = [size.nominal for size in sizes_of(run, sizes)]
    if words.startswith("("):
        return run.size
    if wanted and wanted not in offered:
        names = ", ".join(offered)
        raise UnreadableQuantity(f"{run.standard.label} has these sizes in inches: {names}. A blank has one chosen.")
    return wanted

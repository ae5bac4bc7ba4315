"""The pipe runs of one system or feature as rows; the row below the last takes a further one.

Every change is one named step of the project's history, however many cells it fills.
"""

from collections.abc import Iterable, Sequence
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QColor, QFont

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing
from waterpark_designer.gui.loops import Loop
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.pipe_columns import (
    COLUMNS,
    EMPTY,
    ENTRIES,
    PipeColumn,
    asking,
    cell_text,
    entry_of,
    read_cell,
)
from waterpark_designer.gui.property_editor import subject_of, try_edit
from waterpark_designer.gui.site_rows import counted
from waterpark_designer.gui.theme import colours
from waterpark_designer.model.edits import free_name, revise, with_new_ids
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import LineKind
from waterpark_designer.model.starting_runs import starting_feature_runs, starting_runs
from waterpark_designer.units import UnreadableQuantity

Index = QModelIndex | QPersistentModelIndex
Cells = tuple[tuple[str, str], ...]
"""Text and tone of every cell of a row."""
ItemRole = Qt.ItemDataRole
LOOK = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
TYPE = LOOK | Qt.ItemFlag.ItemIsEditable
MOST_RUNS = 100
TOO_MANY = f"At most {MOST_RUNS} pipe runs stand here."
NEW_ROW = "Type to add a run"
KEEPS_ASSUMED = ("name", "assumed")
TONES = {Status.NOT_MET: "error", Status.CAUTION: "caution"}


class PipeModel(QAbstractTableModel):
    """Reads and edits the runs of whatever loop is shown."""

    refused = Signal(QModelIndex, str)
    """A cell whose entry was not taken, and what would be right."""

    def __init__(self, project: OpenProject, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self._loop = ""
        self._runs: tuple[PipeRun, ...] = ()
        self._cells: dict[str, Cells] = {}
        self._sizes = project.library.stock.pipe_sizes
        project.design_changed.connect(self._adopt)

    @property
    def loop(self) -> Loop | None:
        """The system or feature whose runs are shown."""
        found = self._project.design.node(self._loop) if self._loop else None
        return found if isinstance(found, Loop) else None

    @property
    def runs(self) -> tuple[PipeRun, ...]:
        return self._runs

    def show_loop(self, loop: Loop | None) -> None:
        """Show the runs of another system or feature."""
        self.beginResetModel()
        self._loop = loop.id if loop else ""
        self._runs, self._cells = loop.pipe_runs if loop else (), {}
        self.endResetModel()

    def run_at(self, row: int) -> PipeRun | None:
        return self._runs[row] if 0 <= row < len(self._runs) else None

    def row_of(self, run: str) -> int:
        """Row of a run; -1 where it is not here."""
        return next((row for row, item in enumerate(self._runs) if item.id == run), -1)

    def sheet(self, run: PipeRun | None) -> Sheet | None:
        return self._project.design.sheets.get(run.id) if run else None

    # What is shown

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 0 if parent.isValid() or not self._loop else len(self._runs) + 1

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 0 if parent.isValid() else len(COLUMNS)

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        return TYPE if COLUMNS[index.column()].field else LOOK

    def data(self, index: Index, role: int = ItemRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        column, run = COLUMNS[index.column()], self.run_at(index.row())
        if role == ItemRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if column.is_number else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        if role == ItemRole.BackgroundRole:
            return None if column.field else QColor(colours().surface)
        return self._of_new_row(index.column(), role) if run is None else self._of_run(index.column(), run, role)

    def _of_new_row(self, column: int, role: int) -> Any:
        if role == ItemRole.DisplayRole:
            return NEW_ROW if column == 0 else ""
        if role == ItemRole.ForegroundRole:
            return QColor(colours().dim)
        return "" if role == ItemRole.EditRole else None

    def _of_run(self, place: int, run: PipeRun, role: int) -> Any:
        column = COLUMNS[place]
        if role == ItemRole.DisplayRole:
            return self._row_cells(run)[place][0]
        if role == ItemRole.ForegroundRole:
            return QColor(getattr(colours(), self._row_cells(run)[place][1]))
        if role == ItemRole.EditRole:
            return entry_of(column, run, self._project.units) if column.field else None
        if role == ItemRole.FontRole and column.field == "size" and not run.size:
            return _italic()
        return self._tip(column, run, self.sheet(run)) if role == ItemRole.ToolTipRole else None

    def _row_cells(self, run: PipeRun) -> Cells:
        """The row of a run as it is read, made when it is first looked at."""
        cells = self._cells.get(run.id)
        if cells is None:
            sheet, units = self.sheet(run), self._project.units
            cells = self._cells[run.id] = tuple(
                (cell_text(column, run, sheet, self._sizes, units), _tone(column, run, sheet)) for column in COLUMNS
            )
        return cells

    def _tip(self, column: PipeColumn, run: PipeRun, sheet: Sheet | None) -> str:
        lines = [run.name, column.tip] if column.field == "name" else [column.tip]
        figure = sheet.figures.get(column.figure or "inside_diameter") if sheet else None
        if figure is not None and isinstance(figure.value, Missing) and (column.figure or column.field == "size"):
            lines.append(figure.value.needs)
        if column.figure and sheet is not None:
            lines += [
                f"{item.status.mark} {item.title}: {item.status.label}. {item.remedy}"
                for item in sheet.findings
                if item.figure == column.figure
            ]
        return "\n".join(lines)

    def headerData(  # noqa: N802
        self, section: int, orientation: Qt.Orientation, role: int = ItemRole.DisplayRole
    ) -> Any:
        if orientation is Qt.Orientation.Vertical:
            return None
        column = COLUMNS[section]
        if role == ItemRole.DisplayRole:
            return column.title(self._project.units)
        if role == ItemRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if column.is_number else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignBottom
        return column.tip if role == ItemRole.ToolTipRole else None

    # What is entered

    def trouble(self, index: Index, value: Any) -> str:
        """What is wrong with an entry, saying what would be right; empty where it can be taken."""
        run = self.run_at(index.row()) or PipeRun(name=NEW_ROW)
        if index.row() >= len(self._runs) and not str(value).strip():
            return ""
        try:
            read_cell(COLUMNS[index.column()], value, run, self._sizes, self._project.units)
        except UnreadableQuantity as error:
            return str(error)
        return ""

    def setData(self, index: Index, value: Any, role: int = ItemRole.EditRole) -> bool:  # noqa: N802
        if role != ItemRole.EditRole or not index.isValid() or not COLUMNS[index.column()].field:
            return False
        run, column = self.run_at(index.row()), COLUMNS[index.column()]
        unchanged = str(value) == str(index.data(ItemRole.EditRole))
        if unchanged or value is None or (run is None and not str(value).strip()):
            return False
        reason = self.trouble(index, value)
        if reason:
            self.refused.emit(self.index(index.row(), index.column()), reason)
            return False
        noun = column.spec.noun if column.spec else ""
        step = f"Change {noun} of {run.name}" if run else "Add pipe run"
        return not self.put([[value]], index.row(), index.column(), step)

    def put(self, block: Sequence[Sequence[Any]], row: int, column: int, step: str = "Paste pipe runs") -> str:
        """Enter a block of texts from a cell on, over the columns that are entered; returns what is wrong with it.

        What cannot be read keeps its last good value and is told beside its cell.
        """
        places = headings_in(block[0], self._project) if len(block) > 1 else None
        if places is not None:
            block = block[1:]
        else:
            places = [place for place in ENTRIES if place >= column]
        runs, wrong = list(self._runs), list[tuple[int, int, str]]()
        for number, texts in enumerate(block, row):
            if number >= len(runs):
                number = len(runs)
                runs.append(self._new_run(runs))
            for place, text in zip(places, texts, strict=False):
                if place is not None and (str(text).strip() or COLUMNS[place].field in EMPTY):
                    runs[number] = self._entered(runs[number], place, text, number, wrong)
        reason = self._write(runs, step)
        self._tell(wrong, reason, row)
        return reason or (wrong[0][2] if wrong else "")

    def empty(self, cells: Iterable[tuple[int, int]]) -> None:
        """Empty cells (row, column): a size is chosen again, fittings are none; others cannot be empty."""
        runs, wrong = list(self._runs), list[tuple[int, int, str]]()
        for row, column in cells:
            field = COLUMNS[column].field
            if row < len(runs) and field in EMPTY:
                runs[row] = _changed(runs[row], field, EMPTY[field])
            elif row < len(runs) and field:
                wrong.append((row, column, "This cannot be left empty. Type another value."))
        self._tell(wrong, self._write(runs, "Empty cells of pipe runs"), 0)

    def add(self, row: int) -> None:
        """Put a new run before a row."""
        runs = list(self._runs)
        runs.insert(row, self._new_run(runs))
        self._tell([], self._write(runs, "Add pipe run"), row)

    def remove(self, rows: Iterable[int]) -> None:
        """Take runs out."""
        gone = {row for row in rows if row < len(self._runs)}
        left = [run for row, run in enumerate(self._runs) if row not in gone]
        one = self._runs[min(gone)].name if len(gone) == 1 else f"{len(gone)} pipe runs"
        self._write(left, f"Remove {one}")

    def shift(self, row: int, step: int) -> int:
        """Move a run up (-1) or down (1) in flow order; returns the row where it stands now."""
        to = row + step
        if not (0 <= row < len(self._runs) and 0 <= to < len(self._runs)):
            return row
        runs = list(self._runs)
        runs.insert(to, runs.pop(row))
        self._write(runs, f"Move {self._runs[row].name}")
        return to

    def put_starting_set(self) -> None:
        """The sensible set that a new loop starts with, each run marked as assumed."""
        units = self._project.site.units
        starting = starting_feature_runs(units) if isinstance(self.loop, Feature) else starting_runs(units)
        self._write([*self._runs, *(with_new_ids(run) for run in starting)], "Put in the starting set of pipe runs")

    def _entered(self, run: PipeRun, place: int, text: Any, row: int, wrong: list[tuple[int, int, str]]) -> PipeRun:
        column = COLUMNS[place]
        try:
            value = read_cell(column, text, run, self._sizes, self._project.units)
        except UnreadableQuantity as error:
            wrong.append((row, place, str(error)))
            return run
        return _changed(run, column.field, value)

    def _new_run(self, runs: Sequence[PipeRun]) -> PipeRun:
        loop = self.loop
        assert loop is not None
        kind = runs[-1].kind if runs else LineKind.PUMP_DISCHARGE
        standing = loop.revised(pipe_runs=tuple(runs))
        return PipeRun(name=free_name(standing, f"Run {len(runs) + 1}"), kind=kind)

    def _write(self, runs: Sequence[PipeRun], step: str) -> str:
        loop = self.loop
        if loop is None or tuple(runs) == self._runs:
            return ""
        if len(runs) > MOST_RUNS:
            return TOO_MANY
        named = f"{step}, {subject_of(self._project.site, loop)}"
        return try_edit(self._project, named, lambda site: revise(site, loop.id, pipe_runs=tuple(runs)))

    def _tell(self, wrong: Sequence[tuple[int, int, str]], reason: str, row: int) -> None:
        if reason:
            self.refused.emit(self.index(min(row, len(self._runs)), 0), reason)
        elif wrong:
            at, column, text = wrong[0]
            others = len(wrong) - 1
            more = f" {counted(others, 'more entry was', 'more entries were')} not taken." if others else ""
            self.refused.emit(self.index(at, column), f"{text}{more}")

    def _adopt(self, before: SiteDesign, now: SiteDesign) -> None:
        loop = self.loop
        runs = loop.pipe_runs if loop else ()
        if [run.id for run in runs] != [run.id for run in self._runs] or loop is None:
            self.beginResetModel()
            self._runs, self._cells = runs, {}
            self._loop = loop.id if loop else ""
            self.endResetModel()
            return
        old, self._runs, self._cells = self._cells, runs, {}
        if before.site.units is not now.site.units:
            self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(COLUMNS) - 1)
        for row, run in enumerate(runs):
            if old.get(run.id) != self._row_cells(run):
                self.dataChanged.emit(self.index(row, 0), self.index(row, len(COLUMNS) - 1))


def headings_in(texts: Sequence[Any], project: OpenProject) -> list[int | None] | None:
    """The columns that a row of headings names; nothing where it is no row of headings."""
    systems = type(project.units)
    known = {_plain(column.title(units)): place for place, column in enumerate(COLUMNS) for units in systems}
    known |= {_plain(column.heading): place for place, column in enumerate(COLUMNS)}
    found = [known.get(_plain(str(text))) for text in texts]
    named = sum(place is not None for place in found)
    if not named or named < sum(bool(str(text).strip()) for text in texts):
        return None
    return [place if place is not None and COLUMNS[place].field else None for place in found]


def _plain(text: str) -> str:
    return " ".join(text.split()).casefold()


def _changed(run: PipeRun, field: str, value: Any) -> PipeRun:
    """The run with another value; what somebody has entered is no longer assumed."""
    if getattr(run, field) == value:
        return run
    if field in KEEPS_ASSUMED:
        return run.revised(**{field: value})
    return run.revised(**{field: value, "assumed": False})


def _tone(column: PipeColumn, run: PipeRun, sheet: Sheet | None) -> str:
    status = asking(column.figure, sheet)
    if status is not None:
        return TONES[status]
    dimmed = column.figure or (column.field == "size" and not run.size)
    return "dim" if dimmed else "ink"


def _italic() -> QFont:
    font = QFont()
    font.setItalic(True)
    return font

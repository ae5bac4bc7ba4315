"""Rows of numbers as they are typed or pasted, each cell with its value or with what is wrong in it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QColor

from waterpark_designer.gui.entry_widgets import tip
from waterpark_designer.gui.field_editors import read_number, resting_text
from waterpark_designer.gui.field_spec import FieldSpec
from waterpark_designer.gui.theme import colours
from waterpark_designer.units import Measure, UnitSystem, UnreadableQuantity

Index = QModelIndex | QPersistentModelIndex
Numbers = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Cell:
    """What was typed, the value it has, or what is wrong with it."""

    typed: str = ""
    value: float | None = None
    problem: str = ""


BLANK = Cell()


def block_of(text: str) -> list[list[str]]:
    """The cells of a pasted table: columns by tab, semicolon, comma or space, in this order of preference."""
    lines = [line for line in text.replace("\r\n", "\n").replace("\r", "\n").split("\n") if line.strip()]
    separator = next((mark for mark in "\t;," if any(mark in line for line in lines)), None)
    return [[cell.strip() for cell in line.split(separator)] for line in lines]


class NumbersModel(QAbstractTableModel):
    """Rows of cells, read one by one as they are typed."""

    typed = Signal()

    def __init__(self, columns: Sequence[FieldSpec], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.columns = tuple(columns)
        self.units = UnitSystem.US
        self.rows: list[list[Cell]] = []

    def show_rows(self, rows: Iterable[Numbers], units: UnitSystem) -> None:
        """Show these SI values, dropping whatever was typed; a cell that is being edited stays open."""
        self.units = units
        cells = [[Cell(value=value) for value in row] for row in rows]
        before, now = len(self.rows), len(cells)
        if now < before:
            self.beginRemoveRows(QModelIndex(), now, before - 1)
            del self.rows[now:]
            self.endRemoveRows()
        elif now > before:
            self.beginInsertRows(QModelIndex(), before, now - 1)
            self.rows += cells[before:]
            self.endInsertRows()
        self.rows = cells
        self.dataChanged.emit(self.index(0, 0), self.index(now, len(self.columns) - 1))
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(self.columns) - 1)

    def put(self, block: Sequence[Sequence[str]], row: int = 0, column: int = 0) -> None:
        """Enter a block of texts from a cell on; column headings above it are left out."""
        self.beginResetModel()
        self._enter(block, row, column)
        self.endResetModel()
        self.typed.emit()

    def put_instead(self, block: Sequence[Sequence[str]], last_column: Sequence[float] = ()) -> bool:
        """Enter a block of texts in place of all rows; whether blanks of the last column were filled.

        They are filled by row from the SI values given, and below these from the last of them.
        """
        self.beginResetModel()
        self.rows = []
        self._enter(block, 0, 0)
        filled = self._fill_last_column(last_column)
        self.endResetModel()
        self.typed.emit()
        return filled

    def _enter(self, block: Sequence[Sequence[str]], row: int, column: int) -> None:
        width = len(self.columns) - column
        for number, texts in enumerate(self._without_headings(block, column), row):
            cells = [self._read(text, place) for place, text in enumerate(texts[:width], column)]
            self._row(number)[column : column + len(cells)] = cells

    def _without_headings(self, block: Sequence[Sequence[str]], column: int) -> Sequence[Sequence[str]]:
        last = len(self.columns) - 1
        readable = (self._read(text, min(place, last)).value for place, text in enumerate(block[0], column))
        return block[1:] if len(block) > 1 and all(value is None for value in readable) else block

    def _row(self, number: int) -> list[Cell]:
        while len(self.rows) <= number:
            self.rows.append([BLANK] * len(self.columns))
        return self.rows[number]

    def remove(self, rows: Iterable[int]) -> None:
        """Take rows out."""
        gone = set(rows)
        self.beginResetModel()
        self.rows = [cells for number, cells in enumerate(self.rows) if number not in gone]
        self.endResetModel()
        self.typed.emit()

    def empty(self, places: Iterable[tuple[int, int]]) -> None:
        """Empty the cells at (row, column); a row without anything in it goes."""
        touched = [(row, column) for row, column in places if row < len(self.rows)]
        for row, column in touched:
            self.rows[row][column] = BLANK
        self.remove({row for row, _ in touched if all(cell == BLANK for cell in self.rows[row])})

    def _fill_last_column(self, values: Sequence[float]) -> bool:
        filled = False
        for number, cells in enumerate(self.rows):
            if values and cells[-1] == BLANK and any(cell != BLANK for cell in cells):
                cells[-1] = Cell(value=values[min(number, len(values) - 1)])
                filled = True
        return filled

    def _read(self, text: str, column: int) -> Cell:
        if not text.strip():
            return BLANK
        try:
            return Cell(text, read_number(self.columns[column], text, self.units))
        except UnreadableQuantity as error:
            return Cell(text, problem=str(error))

    def values(self) -> tuple[Numbers, ...]:
        """SI values of all rows that are not blank. Raises UnreadableQuantity for the first cell at fault."""
        found = []
        for number, cells in enumerate(self.rows, 1):
            if all(cell == BLANK for cell in cells):
                continue
            for cell, spec in zip(cells, self.columns, strict=True):
                if cell.value is None:
                    problem = cell.problem or f"give the {spec.noun}."
                    raise UnreadableQuantity(f"Row {number}, {spec.noun}: {problem}")
            found.append(tuple(cell.value for cell in cells if cell.value is not None))
        return tuple(found)

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 0 if parent.isValid() else len(self.rows) + 1

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 0 if parent.isValid() else len(self.columns)

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEditable

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        cell = self.rows[index.row()][index.column()] if index.row() < len(self.rows) else BLANK
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self._text(cell, self.columns[index.column()].measure, role)
        if role == Qt.ItemDataRole.ForegroundRole and cell.problem:
            return QColor(colours().error)
        return tip(cell.problem) if role == Qt.ItemDataRole.ToolTipRole and cell.problem else None

    def _text(self, cell: Cell, measure: Measure, role: int) -> str:
        if cell.value is None:
            return cell.typed
        if role == Qt.ItemDataRole.EditRole:
            return measure.entry_text(cell.value, self.units)
        return resting_text(cell.value, measure, self.units)

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:  # noqa: N802
        if role != Qt.ItemDataRole.EditRole or value == self.data(index, Qt.ItemDataRole.EditRole):
            return False
        if index.row() < len(self.rows):
            self.rows[index.row()][index.column()] = self._read(value, index.column())
            self.dataChanged.emit(index, index)
        else:
            self.beginInsertRows(QModelIndex(), index.row() + 1, index.row() + 1)
            self._row(index.row())[index.column()] = self._read(value, index.column())
            self.endInsertRows()
        self.typed.emit()
        return True

    def headerData(  # noqa: N802
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        if orientation is Qt.Orientation.Vertical:
            numbered = role == Qt.ItemDataRole.DisplayRole and section < len(self.rows)
            return str(section + 1) if numbered else None
        spec = self.columns[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return f"{spec.label}, {spec.measure.symbol(self.units)}"
        return tip(spec.definition(self.units)) if role == Qt.ItemDataRole.ToolTipRole else None

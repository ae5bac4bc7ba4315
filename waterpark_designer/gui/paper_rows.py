"""Rows of a table as they stand on paper, each made when it is first looked at."""

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

Index = QModelIndex | QPersistentModelIndex
ROW_ROLE = Qt.ItemDataRole.UserRole
LINE_FLAGS = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemNeverHasChildren
HEADING_FLAGS = Qt.ItemFlag.ItemNeverHasChildren
"""Joined once: a view asks for the flags of every row."""


class RowStyle(Enum):
    """What a row is; headings and notes run across the table."""

    LINE = "line"
    HEADING = "heading"
    TOTAL = "total"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Cell:
    """Text of a cell and a quieter line below it; a tone is a colour of the theme, such as "error"."""

    text: str = ""
    below: str = ""
    tone: str = ""
    tip: str = ""
    bold: bool = False
    below_tone: str = "dim"


@dataclass(frozen=True, slots=True)
class Row:
    """One row; a heading or a note shows its first cell across the table."""

    cells: tuple[Cell, ...]
    style: RowStyle = RowStyle.LINE

    @property
    def across(self) -> bool:
        return self.style in (RowStyle.HEADING, RowStyle.NOTE)


@dataclass(frozen=True, slots=True)
class Column:
    """A column: heading, its share of the width, the least width, and whether it holds numbers."""

    heading: str
    share: float = 1.0
    least: int = 40
    number: bool = False
    tip: str = ""


class RowsModel(QAbstractTableModel):
    """Rows made from items by `present`, each when it is first asked for.

    `key` tells what an item stands for, so that its row is found again after a change; `is_line` tells, without
    presenting it, that it can be chosen.
    """

    def __init__(
        self,
        columns: Sequence[Column],
        present: Callable[[Any], Row],
        key: Callable[[Any], Hashable],
        is_line: Callable[[Any], bool] = lambda item: True,
    ) -> None:
        super().__init__()
        self.columns = tuple(columns)
        self.items: list[Any] = []
        self.key = key
        self._present = present
        self._is_line = is_line
        self._rows: dict[int, Row] = {}

    def set_items(self, items: Sequence[Any], columns: Sequence[Column] | None = None) -> None:
        """Show these items instead."""
        self.beginResetModel()
        self.items, self._rows = list(items), {}
        self.columns = tuple(columns or self.columns)
        self.endResetModel()

    def replace_items(self, items: Sequence[Any], columns: Sequence[Column]) -> bool:
        """Show these items where the same ones stand, drawing only what changed; tells whether they are the same.

        Setting thousands of rows anew has the view ask for each of them; an edit changes a few.
        """
        if tuple(columns) != self.columns or len(items) != len(self.items):
            return False
        changed = [row for row, (old, new) in enumerate(zip(self.items, items, strict=True)) if old != new]
        if any(self.key(self.items[row]) != self.key(items[row]) for row in changed):
            return False
        for row in changed:
            self.items[row] = items[row]
            self._rows.pop(row, None)
            self.dataChanged.emit(self.index(row, 0), self.index(row, len(self.columns) - 1))
        return True

    def row(self, number: int) -> Row:
        """How the row is shown."""
        made = self._rows.get(number)
        if made is None:
            made = self._rows[number] = self._present(self.items[number])
        return made

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 0 if parent.isValid() else len(self.items)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 0 if parent.isValid() else len(self.columns)

    def cell(self, index: Index) -> Cell:
        cells = self.row(index.row()).cells
        return cells[index.column()] if index.column() < len(cells) else Cell()

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Headings and notes are passed over by the arrow keys."""
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        return LINE_FLAGS if self._is_line(self.items[index.row()]) else HEADING_FLAGS

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self.cell(index).text
        if role == Qt.ItemDataRole.ToolTipRole:
            return self.cell(index).tip or None
        if role == Qt.ItemDataRole.AccessibleDescriptionRole:
            return self.cell(index).below or None
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return alignment(self.columns[index.column()])
        return self.row(index.row()) if role == ROW_ROLE else None

    def headerData(  # noqa: N802
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        if orientation != Qt.Orientation.Horizontal or not 0 <= section < len(self.columns):
            return None
        column = self.columns[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.heading
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return alignment(column)
        return column.tip or None if role == Qt.ItemDataRole.ToolTipRole else None


def alignment(column: Column) -> Qt.AlignmentFlag:
    """Numbers stand to the right, words to the left."""
    side = Qt.AlignmentFlag.AlignRight if column.number else Qt.AlignmentFlag.AlignLeft
    return side | Qt.AlignmentFlag.AlignVCenter

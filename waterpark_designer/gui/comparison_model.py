"""All attractions as rows of a table: inputs that can be edited, figures that follow.

After an edit only the rows that changed are told to repaint; nothing is reset, so a thousand rows stay quick.
"""

from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QColor

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.gui.comparison_columns import COLUMNS, Cell, Column, Line, lines_of, read_entry
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.theme import colours
from waterpark_designer.model.edits import revise
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.units import UnreadableQuantity

Index = QModelIndex | QPersistentModelIndex
ItemRole = Qt.ItemDataRole
ROLES = frozenset(
    (
        ItemRole.DisplayRole,
        ItemRole.EditRole,
        ItemRole.TextAlignmentRole,
        ItemRole.ForegroundRole,
        ItemRole.BackgroundRole,
        ItemRole.ToolTipRole,
    )
)
FIGURE_FLAGS = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
ENTRY_FLAGS = FIGURE_FLAGS | Qt.ItemFlag.ItemIsEditable
ALIGN_NUMBER = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
ALIGN_WORDS = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


class ComparisonModel(QAbstractTableModel):
    """One row for each attraction, in the order of the tree or of a column."""

    refused = Signal(QModelIndex, str)
    """A cell whose entry was not taken, and what would be right."""

    def __init__(self, project: OpenProject, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self._design = project.design
        self._lines = lines_of(project.design)
        self._cells: dict[str, tuple[Cell, ...]] = {}
        self._sorted_by: tuple[int, Qt.SortOrder] | None = None
        project.design_changed.connect(self._adopt)

    def attraction_at(self, index: Index) -> str:
        """Id of the attraction in a row; empty outside the table."""
        return self._lines[index.row()].attraction.id if index.isValid() else ""

    def row_of(self, attraction: str) -> int:
        """Row of an attraction; -1 where it is not in the table."""
        return next((row for row, line in enumerate(self._lines) if line.attraction.id == attraction), -1)

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 0 if parent.isValid() else len(self._lines)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 0 if parent.isValid() else len(COLUMNS)

    def data(self, index: Index, role: int = ItemRole.DisplayRole) -> Any:
        if role not in ROLES or not index.isValid():
            return None
        column = COLUMNS[index.column()]
        if role == ItemRole.TextAlignmentRole:
            return ALIGN_NUMBER if column.measure else ALIGN_WORDS
        if role == ItemRole.BackgroundRole:
            return None if column.field else QColor(colours().surface)
        line = self._lines[index.row()]
        if role == ItemRole.DisplayRole:
            return self._cell(line, index.column()).text
        if role == ItemRole.ForegroundRole:
            return QColor(getattr(colours(), self._cell(line, index.column()).tone))
        if role == ItemRole.EditRole:
            return line.entry(column, self._design.site.units) if column.field else None
        return line.tip(column, self._design)

    def _cell(self, line: Line, column: int) -> Cell:
        """A cell as it is read, worked out once until its row changes."""
        row = self._cells.get(line.attraction.id)
        if row is None:
            row = self._cells[line.attraction.id] = tuple(line.cell(each, self._design) for each in COLUMNS)
        return row[column]

    def headerData(  # noqa: N802
        self, section: int, orientation: Qt.Orientation, role: int = ItemRole.DisplayRole
    ) -> Any:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        column = COLUMNS[section]
        if role == ItemRole.DisplayRole:
            return column.title(self._design.site.units)
        if role == ItemRole.ToolTipRole:
            return column.tip
        if role == ItemRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if column.measure else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignBottom
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        return ENTRY_FLAGS if COLUMNS[index.column()].field else FIGURE_FLAGS

    def setData(self, index: Index, value: Any, role: int = ItemRole.EditRole) -> bool:  # noqa: N802
        column = COLUMNS[index.column()] if index.isValid() else None
        if column is None or role != ItemRole.EditRole or not column.field:
            return False
        reason = self.trouble(index, value)
        if reason:
            self.refused.emit(self.index(index.row(), index.column()), reason)
            return False
        self._edit(self._lines[index.row()], column, read_entry(column, value, self._project.units))
        return True

    def trouble(self, index: Index, value: Any) -> str:
        """What is wrong with an entry, saying what would be right; empty where it can be taken."""
        try:
            read_entry(COLUMNS[index.column()], value, self._project.units)
        except UnreadableQuantity as error:
            return str(error)
        return ""

    def _edit(self, line: Line, column: Column, value: Any) -> None:
        before, units = getattr(line.attraction, column.field), self._project.units
        entered = column.measure.entry_text if column.measure else None
        if value == before or (entered and entered(value, units) == entered(before, units)):
            return
        what = column.spec.noun if column.spec else column.heading.lower()
        after = revise(self._project.site, line.attraction.id, **{column.field: value})
        self._project.edit(f"Change {what} of {line.attraction.name}", after)

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        """Order the rows by a column; by the tree for no column."""
        self._sorted_by = (column, order) if 0 <= column < len(COLUMNS) else None
        self._reorder(self._in_order(lines_of(self._design)))

    def _in_order(self, lines: list[Line]) -> list[Line]:
        if self._sorted_by is None:
            return lines
        place, order = self._sorted_by
        column = COLUMNS[place]
        keyed = [(line.sort_key(column, self._design), line) for line in lines]
        known = [item for item in keyed if not item[0][0]]
        known.sort(key=lambda item: item[0][1], reverse=order is Qt.SortOrder.DescendingOrder)
        return [line for _, line in known] + [line for (unknown, _), line in keyed if unknown]

    def _reorder(self, lines: list[Line]) -> None:
        if lines == self._lines:
            return
        self.layoutAboutToBeChanged.emit()
        old = self.persistentIndexList()
        rows = {line.attraction.id: row for row, line in enumerate(lines)}
        new = [self.index(rows[self.attraction_at(index)], index.column()) for index in old]
        self._lines = lines
        self.changePersistentIndexList(old, new)
        self.layoutChanged.emit()

    def _adopt(self, before: SiteDesign, now: SiteDesign) -> None:
        self._design = now
        if self._sorted_by is None and self._kept_in_place(before, now):
            return
        lines = lines_of(now)
        by_id = {line.attraction.id: line for line in lines}
        self._take_out_missing(by_id)
        touched = set()
        for row, line in enumerate(self._lines):
            self._lines[row] = kept = by_id.pop(line.attraction.id)
            if kept.attraction is not line.attraction or kept.system.name != line.system.name:
                touched.add(kept.attraction.id)
        self._put_in(list(by_id.values()))
        if self._sorted_by is None:
            self._reorder(lines)
        self._repaint(before, now, touched)

    def _kept_in_place(self, before: SiteDesign, now: SiteDesign) -> bool:
        """The quick way for an edit that adds, moves and takes out nothing; False where it does."""
        old, new = before.site.systems, now.site.systems
        if len(old) != len(new):
            return False
        changed = [(was, system) for was, system in zip(old, new, strict=True) if was is not system]
        if any(_ids(was) != _ids(system) for was, system in changed):
            return False
        fresh = {body.id: Line(body, system) for _, system in changed for body in system.attractions}
        for row, line in enumerate(self._lines):
            self._lines[row] = fresh.get(line.attraction.id, line)
        self._repaint(before, now, set(fresh))
        return True

    def _take_out_missing(self, present: dict[str, Line]) -> None:
        for row in reversed(range(len(self._lines))):
            if self._lines[row].attraction.id not in present:
                self.beginRemoveRows(QModelIndex(), row, row)
                self._cells.pop(self._lines.pop(row).attraction.id, None)
                self.endRemoveRows()

    def _put_in(self, added: list[Line]) -> None:
        """New attractions come last; without a chosen order the rows then go back to the tree's."""
        if added:
            count = len(self._lines)
            self.beginInsertRows(QModelIndex(), count, count + len(added) - 1)
            self._lines += added
            self.endInsertRows()

    def _repaint(self, before: SiteDesign, now: SiteDesign, touched: set[str]) -> None:
        """Have the rows repainted that were touched or whose sheet is another; all of them in other units."""
        last = len(COLUMNS) - 1
        if before.site.units is not now.site.units:
            self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, last)
            touched = {line.attraction.id for line in self._lines}
        old, new = before.sheets, now.sheets
        for row, line in enumerate(self._lines):
            attraction = line.attraction.id
            if attraction in touched or old.get(attraction) is not new.get(attraction):
                self._cells.pop(attraction, None)
                self.dataChanged.emit(self.index(row, 0), self.index(row, last))


def _ids(system: RecirculationSystem) -> list[str]:
    """What a system is, and what stands on it."""
    return [system.id, *(attraction.id for attraction in system.attractions)]

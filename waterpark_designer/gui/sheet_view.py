"""A table that is filled like a sheet: its first column stays, and cells open as soon as something is typed."""

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import QAbstractItemModel, QEvent, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QFont, QFontMetrics, QGuiApplication, QResizeEvent
from PySide6.QtWidgets import QAbstractItemDelegate, QAbstractItemView, QHeaderView, QTableView, QWidget

from waterpark_designer.gui.cell_editors import CellEditors
from waterpark_designer.gui.cell_message import CellMessage
from waterpark_designer.gui.frozen_column import FrozenColumn
from waterpark_designer.gui.sheet_columns import SheetColumn
from waterpark_designer.gui.theme import role
from waterpark_designer.units import UnitSystem

Index = QModelIndex | QPersistentModelIndex
Hint = QAbstractItemDelegate.EndEditHint
FORMULA_STARTS = ("=", "+", "-", "@")


class SheetView(QTableView):
    """The look, the scrolling and the way from cell to cell that tables of entries share.

    After an entry, Enter goes down and Tab goes on to the next cell that can be edited.
    """

    def __init__(self, model: QAbstractItemModel, columns: Sequence[SheetColumn], parent: QWidget | None) -> None:
        super().__init__(parent)
        self._columns = columns
        self.setModel(model)
        self.message = CellMessage(self)

    def look_like_a_sheet(self, name: str, row_height: int, least_width: int, padding: int) -> None:
        """Rows of one height without a grid; typing edits, and `name` is what a screen reader says."""
        self.setAccessibleName(name)
        role(self, "sheet").setShowGrid(False)
        self.setCornerButtonEnabled(False)
        self.setWordWrap(False)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        triggers = QAbstractItemView.EditTrigger
        self.setEditTriggers(triggers.DoubleClicked | triggers.EditKeyPressed | triggers.AnyKeyPressed)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setDefaultSectionSize(row_height)
        self.horizontalHeader().setHighlightSections(False)
        self.horizontalHeader().setMinimumSectionSize(least_width)
        self._give_columns_their_width(padding)

    def open_cells(
        self, choices_of: Callable[[int], tuple[tuple[Any, str], ...]], trouble: Callable[[Index, Any], str]
    ) -> None:
        """Freeze the first column, and have cells edited: what a column offers, and what is wrong with an entry."""
        self.frozen = FrozenColumn(self)
        for view in (self, self.frozen):
            view.setItemDelegate(CellEditors(view, choices_of, trouble, self.message.show_at))
        self.frozen.edited.connect(self._after_edit)
        for bar in (self.verticalScrollBar(), self.horizontalScrollBar()):
            bar.valueChanged.connect(lambda _: self.message.hide())

    def go_on(self, step: int, typing: bool = True) -> bool:
        """Go on to the next cell that can be edited, in the next row where the row ends; False at the very end."""
        count, total = len(self._columns), len(self._columns) * self.model().rowCount()
        place = self.currentIndex().row() * count + self.currentIndex().column() + step
        while 0 <= place < total:
            index = self.model().index(place // count, place % count)
            if index.flags() & Qt.ItemFlag.ItemIsEditable:
                self.setCurrentIndex(index)
                if typing:
                    self.edit(index)
                return True
            place += step
        return False

    def go_down(self) -> None:
        """Go to the cell below, where there is one."""
        below = self.currentIndex().siblingAtRow(self.currentIndex().row() + 1)
        if below.isValid():
            self.setCurrentIndex(below)

    @property
    def is_editing(self) -> bool:
        return QAbstractItemView.State.EditingState in (self.state(), self.frozen.state())

    def copy_cells(self, rows: int, units: UnitSystem, plain: Callable[[int, int], str]) -> None:
        """Put the selected cells of the first rows on the clipboard, as `plain(row, column)` gives them.

        Columns are parted by tabs; headings go first where there are several columns.
        """
        cells = {(index.row(), index.column()) for index in self.selectedIndexes() if index.row() < rows}
        chosen, columns = sorted({row for row, _ in cells}), sorted({column for _, column in cells})
        lines = [[plain(row, column) for column in columns] for row in chosen]
        if len(columns) > 1:
            lines.insert(0, [" ".join(self._columns[column].title(units).split()) for column in columns])
        QGuiApplication.clipboard().setText("\n".join("\t".join(line) for line in lines))

    def edit(self, *arguments: Any) -> Any:
        """Edit a cell; the first column is edited where it is seen."""
        self.message.hide()
        return self.frozen.edit(*arguments) if arguments[0].column() == 0 else super().edit(*arguments)

    def closeEditor(self, editor: QWidget, hint: Hint) -> None:  # noqa: N802
        super().closeEditor(editor, Hint.NoHint)
        self._after_edit(hint)

    def scrollTo(  # noqa: N802
        self, index: Index, hint: QAbstractItemView.ScrollHint = QAbstractItemView.ScrollHint.EnsureVisible
    ) -> None:
        """Bring a cell into sight, not behind the first column."""
        super().scrollTo(index, hint)
        hidden = self.columnWidth(0) - self.visualRect(index).left()
        if index.column() > 0 and hidden > 0:
            bar = self.horizontalScrollBar()
            bar.setValue(bar.value() - hidden)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        self.frozen.lay_over()

    def changeEvent(self, event: QEvent) -> None:  # noqa: N802
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange) and hasattr(self, "frozen"):
            self.frozen.lay_over()

    def _after_edit(self, hint: Hint) -> None:
        self.setFocus()
        if hint is Hint.SubmitModelCache:
            self.go_down()
        elif hint in (Hint.EditNextItem, Hint.EditPreviousItem):
            self.go_on(1 if hint is Hint.EditNextItem else -1)

    def _give_columns_their_width(self, padding: int) -> None:
        bold = QFont(self.horizontalHeader().font())
        bold.setBold(True)
        letter, words = self.fontMetrics().horizontalAdvance("n"), QFontMetrics(bold)
        for place, column in enumerate(self._columns):
            lines = [line for units in UnitSystem for line in column.title(units).split("\n")]
            heading = max(words.horizontalAdvance(line) for line in lines)
            self.setColumnWidth(place, max(column.letters * letter, heading) + padding)


def as_words(text: str) -> str:
    """Text of one cell on the clipboard, which cannot become a formula."""
    text = text.replace("\t", " ").replace("\n", " ")
    return f"'{text}" if text.startswith(FORMULA_STARTS) else text

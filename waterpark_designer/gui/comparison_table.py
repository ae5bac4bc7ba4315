"""The comparison table: every attraction in a row, inputs to edit, figures beside them."""

from typing import Any

from PySide6.QtCore import QEvent, QItemSelectionModel, QModelIndex, Qt
from PySide6.QtGui import QFont, QFontMetrics, QGuiApplication, QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QAbstractItemDelegate, QAbstractItemView, QWidget

from waterpark_designer.gui.cell_editors import CellEditors
from waterpark_designer.gui.cell_message import CellMessage
from waterpark_designer.gui.comparison_columns import COLUMNS
from waterpark_designer.gui.comparison_model import ComparisonModel
from waterpark_designer.gui.frozen_column import FrozenColumn
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.sheet_view import SheetView
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.walk import path_to
from waterpark_designer.units import UnitSystem

ROW_HEIGHT = 29
PADDING = 16
Hint = QAbstractItemDelegate.EndEditHint
FORMULA_STARTS = ("=", "+", "-", "@")


class ComparisonTable(SheetView):
    """Tab and Enter go on to the next cell; the row of the selected attraction is the current one."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self.comparison = ComparisonModel(project, self)
        self.setModel(self.comparison)
        self.message = CellMessage(self)
        self._set_up_view()
        self.frozen = FrozenColumn(self)
        for view in (self, self.frozen):
            view.setItemDelegate(CellEditors(view, _choices_of, self.comparison.trouble, self.message.show_at))
        self._connect(project)
        self._follow(project.selection)

    def copy(self) -> None:
        """Put the selected cells on the clipboard, headings first, columns parted by tabs."""
        cells = sorted((index.row(), index.column()) for index in self.selectedIndexes())
        rows, columns = sorted({row for row, _ in cells}), sorted({column for _, column in cells})
        head = [COLUMNS[column].title(self._project.units).replace("\n", " ") for column in columns]
        lines = [head, *([self._plain(row, column) for column in columns] for row in rows)]
        QGuiApplication.clipboard().setText("\n".join("\t".join(line) for line in lines))

    def edit(self, *arguments: Any) -> Any:
        """Edit a cell; the first column is edited where it is seen."""
        self.message.hide()
        return self.frozen.edit(*arguments) if arguments[0].column() == 0 else super().edit(*arguments)

    def closeEditor(self, editor: QWidget, hint: Hint) -> None:  # noqa: N802
        super().closeEditor(editor, Hint.NoHint)
        self._after_edit(hint)

    def _after_edit(self, hint: Hint) -> None:
        self.setFocus()
        if hint is Hint.SubmitModelCache:
            self._go_down()
        elif hint in (Hint.EditNextItem, Hint.EditPreviousItem):
            self._edit_next(1 if hint is Hint.EditNextItem else -1)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if self._is_editing():
            event.ignore()  # an editor saw this key already and let it go
            return
        self.message.hide()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._go_down()
        elif event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        self.frozen.lay_over()

    def changeEvent(self, event: QEvent) -> None:  # noqa: N802
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange) and hasattr(self, "frozen"):
            self.frozen.lay_over()

    def _set_up_view(self) -> None:
        self.look_like_a_sheet("Comparison of all bodies of water", ROW_HEIGHT, 40)
        self.setSortingEnabled(True)
        header = self.horizontalHeader()
        header.setSortIndicatorClearable(True)
        header.setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
        letter, words = self.fontMetrics().horizontalAdvance("n"), QFontMetrics(_bold(header.font()))
        for place, column in enumerate(COLUMNS):
            heading = max(
                words.horizontalAdvance(line) for units in UnitSystem for line in column.title(units).split("\n")
            )
            self.setColumnWidth(place, max(column.letters * letter, heading) + PADDING)

    def _connect(self, project: OpenProject) -> None:
        self.comparison.refused.connect(self.message.show_at)
        self.frozen.edited.connect(self._after_edit)
        self.selectionModel().currentChanged.connect(self._tell_project)
        self.verticalScrollBar().valueChanged.connect(lambda _: self.message.hide())
        self.horizontalScrollBar().valueChanged.connect(lambda _: self.message.hide())
        project.selection_changed.connect(self._follow)

    def _tell_project(self, current: QModelIndex, previous: QModelIndex) -> None:
        self.message.hide()
        self.frozen.viewport().update()
        attraction, selected = self.comparison.attraction_at(current), self._project.selection
        if attraction and attraction != selected and attraction != _attraction_of(self._project, selected):
            self._project.select(attraction)

    def _follow(self, node: str) -> None:
        """Go to the row of the selected attraction, or of the one that holds the selected part."""
        row = self.comparison.row_of(node)
        if row < 0:
            row = self.comparison.row_of(_attraction_of(self._project, node))
        flags = QItemSelectionModel.SelectionFlag
        if row < 0:
            self.selectionModel().setCurrentIndex(QModelIndex(), flags.Clear)
        elif row != self.currentIndex().row():
            index = self.comparison.index(row, max(self.currentIndex().column(), 0))
            self.selectionModel().setCurrentIndex(index, flags.ClearAndSelect)
            self.scrollTo(index)

    def _is_editing(self) -> bool:
        return QAbstractItemView.State.EditingState in (self.state(), self.frozen.state())

    def _go_down(self) -> None:
        current = self.currentIndex()
        below = current.siblingAtRow(current.row() + 1)
        if below.isValid():
            self.setCurrentIndex(below)

    def _edit_next(self, step: int) -> None:
        """Go on to the next cell that can be edited, in the next row where the row ends."""
        count = len(COLUMNS)
        place = self.currentIndex().row() * count + self.currentIndex().column() + step
        while 0 <= place < count * self.comparison.rowCount():
            index = self.comparison.index(place // count, place % count)
            if index.flags() & Qt.ItemFlag.ItemIsEditable:
                self.setCurrentIndex(index)
                self.edit(index)
                return
            place += step

    def _plain(self, row: int, column: int) -> str:
        """A cell as a spreadsheet takes it: numbers without separators, words that cannot become a formula."""
        text = str(self.comparison.index(row, column).data())
        if COLUMNS[column].measure:
            return text.replace(",", "")
        text = text.replace("\t", " ").replace("\n", " ")
        return f"'{text}" if text.startswith(FORMULA_STARTS) else text


def _bold(font: QFont) -> QFont:
    bold = QFont(font)
    bold.setBold(True)
    return bold


def _choices_of(column: int) -> tuple[tuple[Any, str], ...]:
    spec = COLUMNS[column].spec
    return spec.choices if spec else ()


def _attraction_of(project: OpenProject, node: str) -> str:
    """Id of the attraction that is, or holds, a node; empty where there is none."""
    return next((step.id for step in path_to(project.site, node) if isinstance(step, Attraction)), "")

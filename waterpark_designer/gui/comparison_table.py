"""The comparison table: every attraction in a row, inputs to edit, figures beside them."""

from typing import Any

from PySide6.QtCore import QItemSelectionModel, QModelIndex, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QWidget

from waterpark_designer.gui.comparison_columns import COLUMNS
from waterpark_designer.gui.comparison_model import ComparisonModel
from waterpark_designer.gui.entry_widgets import ENTER_KEYS
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.sheet_view import SheetView, as_words
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.walk import path_to

ROW_HEIGHT, PADDING, LEAST_WIDTH = 29, 16, 40


class ComparisonTable(SheetView):
    """Tab and Enter go on to the next cell; the row of the selected attraction is the current one."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        self.comparison = ComparisonModel(project)
        super().__init__(self.comparison, COLUMNS, parent)
        self.comparison.setParent(self)
        self._project = project
        self.look_like_a_sheet("Comparison of all bodies of water", ROW_HEIGHT, LEAST_WIDTH, PADDING)
        self.setSortingEnabled(True)
        self.horizontalHeader().setSortIndicatorClearable(True)
        self.horizontalHeader().setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
        self.open_cells(_choices_of, self.comparison.trouble)
        self.comparison.refused.connect(self.message.show_at)
        self.selectionModel().currentChanged.connect(self._tell_project)
        project.selection_changed.connect(self._follow)
        self._follow(project.selection)

    def copy(self) -> None:
        """Put the selected cells on the clipboard, headings first, columns parted by tabs."""
        self.copy_cells(self.comparison.rowCount(), self._project.units, self._plain)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if self.is_editing:
            event.ignore()  # an editor saw this key already and let it go
            return
        self.message.hide()
        if event.key() in ENTER_KEYS:
            self.go_down()
        elif event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
        else:
            super().keyPressEvent(event)

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

    def _plain(self, row: int, column: int) -> str:
        """A cell as a spreadsheet takes it: numbers without separators, words that cannot become a formula."""
        text = str(self.comparison.index(row, column).data())
        return text.replace(",", "") if COLUMNS[column].measure else as_words(text)


def _choices_of(column: int) -> tuple[tuple[Any, str], ...]:
    spec = COLUMNS[column].spec
    return spec.choices if spec else ()


def _attraction_of(project: OpenProject, node: str) -> str:
    """Id of the attraction that is, or holds, a node; empty where there is none."""
    return next((step.id for step in path_to(project.site, node) if isinstance(step, Attraction)), "")

"""The pipe table on screen: filled with the keyboard alone, and speaking with a spreadsheet."""

from PySide6.QtCore import QEvent, QItemSelectionModel, QModelIndex, Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QWidget

from waterpark_designer.gui.entry_widgets import ENTER_KEYS
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.pipe_columns import COLUMNS, YES_NO
from waterpark_designer.gui.pipe_model import PipeModel
from waterpark_designer.gui.sheet_view import SheetView, as_words
from waterpark_designer.model.hydraulics import PipeRun

ROW_HEIGHT, PADDING, LEAST_WIDTH = 27, 15, 34
OWN_KEYS = (Qt.Key.Key_Up, Qt.Key.Key_Down)
EDGE_KEYS = (Qt.Key.Key_Tab, Qt.Key.Key_Backtab)


class PipeTable(SheetView):
    """Enter goes down, Tab goes on; Delete empties or takes whole rows out, Insert adds, Alt and arrows move."""

    current_run = Signal(object)
    """The run the keyboard is on, or None."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        self.pipes = PipeModel(project)
        super().__init__(self.pipes, COLUMNS, parent)
        self.pipes.setParent(self)
        self._project = project
        self._place = (0, 0)
        self._run = ""
        self.look_like_a_sheet("Table of pipe runs", ROW_HEIGHT, LEAST_WIDTH, PADDING)
        self.open_cells(lambda column: COLUMNS[column].choices, self.pipes.trouble)
        self.pipes.refused.connect(self.message.show_at)
        self.pipes.modelAboutToBeReset.connect(self._remember)
        self.pipes.modelReset.connect(self._return)
        self.selectionModel().currentChanged.connect(self._tell_current)

    @property
    def run(self) -> PipeRun | None:
        """The run the keyboard is on."""
        return self.pipes.run_at(self.currentIndex().row())

    def go_to(self, run: str, column: int = 0) -> bool:
        """Go to a run; tells whether it is here."""
        row = self.pipes.row_of(run)
        if row >= 0:
            self.setCurrentIndex(self.pipes.index(row, column))
        return row >= 0

    def chosen_rows(self) -> list[int]:
        """Rows in which anything is selected, the one below the last left out."""
        return sorted({index.row() for index in self.selectedIndexes()} & set(range(len(self.pipes.runs))))

    def copy(self) -> None:
        """Put the selected cells on the clipboard, headings first, columns parted by tabs."""
        self.copy_cells(len(self.pipes.runs), self._project.units, self._plain)

    def paste(self) -> None:
        """Enter the clipboard's table from the first selected cell on, else from the current one.

        Names, numbers and their units hold spaces and commas, so that only tabs part the columns.
        """
        block = [line.split("\t") for line in QGuiApplication.clipboard().text().splitlines() if line.strip()]
        here = self.currentIndex()
        chosen = [(index.row(), index.column()) for index in self.selectedIndexes() or [here] if index.isValid()]
        if block and self.pipes.loop is not None:
            row, column = min(chosen, default=(len(self.pipes.runs), 0))
            self.pipes.put(block, row, column)

    def delete(self) -> None:
        """Take out the runs whose whole row, or whose name, is selected; otherwise empty the cells."""
        cells = [(index.row(), index.column()) for index in self.selectedIndexes()]
        whole = {row for row, column in cells if column == 0}
        if whole:
            self.pipes.remove(whole)
        else:
            self.pipes.empty(cells)

    def shift(self, step: int) -> None:
        """Move the current run up or down in flow order."""
        column = self.currentIndex().column()
        row = self.pipes.shift(self.currentIndex().row(), step)
        self.setCurrentIndex(self.pipes.index(row, column))

    def insert(self) -> None:
        """Put a new run before the current row, and type its name."""
        row = max(0, min(self.currentIndex().row(), len(self.pipes.runs)))
        self.pipes.add(row)
        self.setCurrentIndex(self.pipes.index(row, 0))

    def event(self, event: QEvent) -> bool:
        """Keys that move a run here would move the selected part of the site elsewhere on the desk."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and _moves_a_run(event):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if self.is_editing:
            event.ignore()  # an editor saw this key already and let it go
            return
        self.message.hide()
        if not self._is_command(event):
            super().keyPressEvent(event)

    def _is_command(self, event: QKeyEvent) -> bool:
        """Do what a key stands for in this table; False where it means nothing here."""
        key = event.key()
        if _moves_a_run(event):
            self.shift(-1 if key == Qt.Key.Key_Up else 1)
        elif key in ENTER_KEYS:
            self.go_down()
        elif key in EDGE_KEYS:
            event.setAccepted(self.go_on(1 if key == Qt.Key.Key_Tab else -1, typing=False))
        elif event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.delete()
        elif key == Qt.Key.Key_Insert:
            self.insert()
        elif key == Qt.Key.Key_Space and event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self.selectRow(self.currentIndex().row())
        elif key == Qt.Key.Key_Space and COLUMNS[self.currentIndex().column()].choices is YES_NO:
            self._toggle()
        else:
            return False
        return True

    def _toggle(self) -> None:
        index = self.currentIndex()
        if index.row() < len(self.pipes.runs):
            self.pipes.setData(index, not index.data(Qt.ItemDataRole.EditRole))

    def _remember(self) -> None:
        self._place = (self.currentIndex().row(), self.currentIndex().column())
        self._run = self.run.id if self.run else ""

    def _return(self) -> None:
        """Go back to the run, or at least the row, of before the runs were put in or taken out."""
        row, column = self._place
        found = self.pipes.row_of(self._run)
        row = found if found >= 0 else min(max(row, 0), self.pipes.rowCount() - 1)
        index = self.pipes.index(row, max(column, 0))
        self.selectionModel().setCurrentIndex(index, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        self.frozen.lay_over()

    def _tell_current(self, current: QModelIndex, previous: QModelIndex) -> None:
        self.message.hide()
        self.frozen.viewport().update()
        if current.row() != previous.row() or not previous.isValid():
            self.current_run.emit(self.run)

    def _plain(self, row: int, column: int) -> str:
        """A cell as a spreadsheet takes it: entries in full, numbers without separators or marks, no formula."""
        index = self.pipes.index(row, column)
        if COLUMNS[column].field and not COLUMNS[column].choices:
            text = str(index.data(Qt.ItemDataRole.EditRole))
        else:
            text = str(index.data()).strip("✗⚠* ").replace(",", "")
        return text if COLUMNS[column].is_number else as_words(text)


def _moves_a_run(event: QKeyEvent) -> bool:
    return event.key() in OWN_KEYS and bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)

"""The pipe table on screen: filled with the keyboard alone, and speaking with a spreadsheet."""

from typing import Any

from PySide6.QtCore import QEvent, QItemSelectionModel, QModelIndex, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QGuiApplication, QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QAbstractItemDelegate, QAbstractItemView, QWidget

from waterpark_designer.gui.cell_editors import CellEditors
from waterpark_designer.gui.cell_message import CellMessage
from waterpark_designer.gui.comparison_table import FORMULA_STARTS
from waterpark_designer.gui.entry_widgets import ENTER_KEYS
from waterpark_designer.gui.frozen_column import FrozenColumn
from waterpark_designer.gui.numbers_model import block_of
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.pipe_columns import COLUMNS, YES_NO
from waterpark_designer.gui.pipe_model import PipeModel
from waterpark_designer.gui.sheet_view import SheetView
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.units import UnitSystem

ROW_HEIGHT, PADDING = 27, 15
Hint = QAbstractItemDelegate.EndEditHint
OWN_KEYS = (Qt.Key.Key_Up, Qt.Key.Key_Down)
EDGE_KEYS = (Qt.Key.Key_Tab, Qt.Key.Key_Backtab)


class PipeTable(SheetView):
    """Enter goes down, Tab goes on; Delete empties or takes whole rows out, Insert adds, Alt and arrows move."""

    current_run = Signal(object)
    """The run the keyboard is on, or None."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self.pipes = PipeModel(project, self)
        self._place = (0, 0)
        self._run = ""
        self.setModel(self.pipes)
        self.message = CellMessage(self)
        self._set_up_view()
        self.frozen = FrozenColumn(self)
        for view in (self, self.frozen):
            view.setItemDelegate(
                CellEditors(view, lambda column: COLUMNS[column].choices, self.pipes.trouble, self.message.show_at)
            )
        self.pipes.refused.connect(self.message.show_at)
        self.pipes.modelAboutToBeReset.connect(self._remember)
        self.pipes.modelReset.connect(self._return)
        self.frozen.edited.connect(self._after_edit)
        self.selectionModel().currentChanged.connect(self._tell_current)
        for bar in (self.verticalScrollBar(), self.horizontalScrollBar()):
            bar.valueChanged.connect(lambda _: self.message.hide())

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
        last = len(self.pipes.runs)
        cells = {(index.row(), index.column()) for index in self.selectedIndexes() if index.row() < last}
        rows, columns = sorted({row for row, _ in cells}), sorted({column for _, column in cells})
        lines = [[self._plain(row, column) for column in columns] for row in rows]
        if len(columns) > 1:
            lines.insert(0, [" ".join(COLUMNS[column].title(self._project.units).split()) for column in columns])
        QGuiApplication.clipboard().setText("\n".join("\t".join(line) for line in lines))

    def paste(self) -> None:
        """Enter the clipboard's table from the first selected cell on."""
        text = QGuiApplication.clipboard().text()
        block = [line.split("\t") for line in text.splitlines() if line.strip()] if "\t" in text else block_of(text)
        chosen = [(index.row(), index.column()) for index in self.selectedIndexes()]
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
            self._go_on(1 if hint is Hint.EditNextItem else -1)

    def event(self, event: QEvent) -> bool:
        """Keys that move a run here would move the selected part of the site elsewhere on the desk."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and _moves_a_run(event):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if self._is_editing():
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
            self._go_down()
        elif key in EDGE_KEYS:
            event.setAccepted(self._go_on(1 if key == Qt.Key.Key_Tab else -1, typing=False))
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

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        self.frozen.lay_over()

    def changeEvent(self, event: QEvent) -> None:  # noqa: N802
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange) and hasattr(self, "frozen"):
            self.frozen.lay_over()

    def _set_up_view(self) -> None:
        self.look_like_a_sheet("Table of pipe runs", ROW_HEIGHT, 34)
        bold = QFont(self.horizontalHeader().font())
        bold.setBold(True)
        letter, words = self.fontMetrics().horizontalAdvance("n"), QFontMetrics(bold)
        for place, column in enumerate(COLUMNS):
            heading = max(
                words.horizontalAdvance(line) for units in UnitSystem for line in column.title(units).split("\n")
            )
            self.setColumnWidth(place, max(column.letters * letter, heading) + PADDING)

    def _is_editing(self) -> bool:
        return QAbstractItemView.State.EditingState in (self.state(), self.frozen.state())

    def _go_down(self) -> None:
        below = self.currentIndex().siblingAtRow(self.currentIndex().row() + 1)
        if below.isValid():
            self.setCurrentIndex(below)

    def _go_on(self, step: int, typing: bool = True) -> bool:
        """Go on to the next cell that can be edited, in the next row where the row ends; False at the very end."""
        count, total = len(COLUMNS), len(COLUMNS) * self.pipes.rowCount()
        place = self.currentIndex().row() * count + self.currentIndex().column() + step
        while 0 <= place < total and not COLUMNS[place % count].field:
            place += step
        if not 0 <= place < total:
            return False
        index = self.pipes.index(place // count, place % count)
        self.setCurrentIndex(index)
        if typing:
            self.edit(index)
        return True

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
        text = text.replace("\t", " ").replace("\n", " ")
        return f"'{text}" if not COLUMNS[column].is_number and text.startswith(FORMULA_STARTS) else text


def _moves_a_run(event: QKeyEvent) -> bool:
    return event.key() in OWN_KEYS and bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)

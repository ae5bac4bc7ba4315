"""A small table of lengths that is filled with the keyboard, or pasted into from a spreadsheet.

It holds what is typed until every row can be read; only then it hands the rows over. The blank row at its
end takes a further one.
"""

from collections.abc import Iterable, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence, QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QAbstractItemView,
    QHeaderView,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from waterpark_designer.gui.entry_widgets import ENTER_KEYS, tip, words
from waterpark_designer.gui.field_spec import FieldSpec
from waterpark_designer.gui.flow_layout import FlowLayout
from waterpark_designer.gui.numbers_model import Numbers, NumbersModel, block_of
from waterpark_designer.gui.theme import restyle, role
from waterpark_designer.units import UnitSystem, UnreadableQuantity

MOST_ROWS_SHOWN = 8
EMPTY_CLIPBOARD = "The clipboard holds no table. Copy the rows in your spreadsheet first."


class NumbersView(QTableView):
    """The table on screen: Enter goes down, Delete empties, copy and paste speak with a spreadsheet."""

    def __init__(self, model: NumbersModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = model
        self.setModel(model)
        self.setTabKeyNavigation(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        triggers = QAbstractItemView.EditTrigger
        self.setEditTriggers(triggers.DoubleClicked | triggers.EditKeyPressed | triggers.AnyKeyPressed)
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self.horizontalHeader().setMinimumSectionSize(20)
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 10)
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setStyleSheet("QHeaderView::section { border: none; padding: 0 5px; }")
        model.modelReset.connect(self._fit)
        model.rowsInserted.connect(self._fit)
        model.rowsRemoved.connect(self._fit)

    def _fit(self) -> None:
        rows = min(self._numbers.rowCount(), MOST_ROWS_SHOWN)
        heading = self.horizontalHeader().sizeHint().height()
        self.setFixedHeight(heading + rows * self.verticalHeader().defaultSectionSize() + 4)

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802
        super().showEvent(event)
        self._fit()  # the heading has its look, and so its height, only now

    def closeEditor(self, editor: QWidget, hint: QAbstractItemDelegate.EndEditHint) -> None:  # noqa: N802
        super().closeEditor(editor, hint)
        if hint == QAbstractItemDelegate.EndEditHint.SubmitModelCache:
            self._go_down()

    def _go_down(self) -> None:
        below = self._numbers.index(self.currentIndex().row() + 1, self.currentIndex().column())
        if below.isValid():
            self.setCurrentIndex(below)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if self.state() is QAbstractItemView.State.EditingState:
            super().keyPressEvent(event)
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
        elif event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
        elif event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.empty()
        elif event.key() in ENTER_KEYS:
            self._go_down()
        else:
            super().keyPressEvent(event)

    def paste(self) -> None:
        """Enter the clipboard's table from the current cell on, or in place of all rows if selected."""
        block = block_of(QGuiApplication.clipboard().text())
        chosen = self.selectionModel().selectedIndexes()
        everything = len(self._numbers.rows) * len(self._numbers.columns)
        first = min(((index.row(), index.column()) for index in chosen), default=(len(self._numbers.rows), 0))
        if block and everything and len(chosen) >= everything > len(self._numbers.columns):
            self._numbers.put_instead(block)
        elif block:
            self._numbers.put(block, *first)

    def copy(self) -> None:
        """Put the selected cells on the clipboard as a spreadsheet takes them."""
        by_row: dict[int, list[str]] = {}
        chosen = self.selectionModel().selectedIndexes()
        for index in sorted(chosen, key=lambda item: (item.row(), item.column())):
            by_row.setdefault(index.row(), []).append(index.data(Qt.ItemDataRole.EditRole))
        QGuiApplication.clipboard().setText("\n".join("\t".join(cells) for cells in by_row.values()))

    def empty(self) -> None:
        """Empty the selected cells; a row without anything in it goes."""
        chosen = self.selectionModel().selectedIndexes()
        self._numbers.empty({(index.row(), index.column()) for index in chosen})

    def selected_rows(self) -> set[int]:
        """Numbers of the rows in which anything is selected."""
        chosen = {index.row() for index in self.selectionModel().selectedIndexes()}
        return chosen & set(range(len(self._numbers.rows)))


class DepthTable(QWidget):
    """A list of points with depths: the table, its buttons, and below them what is wrong."""

    entered = Signal(object)
    """All rows as tuples of SI values, in the order typed."""

    def __init__(self, columns: Sequence[FieldSpec], noun: str, parent: QWidget | None = None) -> None:
        """`noun` is what a row is: "depth" or "corner"."""
        super().__init__(parent)
        self._shown: tuple[Numbers, ...] = ()
        self.model = NumbersModel(columns, self)
        self.view = NumbersView(self.model)
        self.view.setAccessibleName(f"Table of {noun}s")
        self.message = words("")
        self.message.hide()
        headings = ", ".join(spec.noun for spec in columns)
        self.paste_button = role(QPushButton("Paste rows"), "chip")
        self.paste_button.setToolTip(tip(f"Takes {headings} from a spreadsheet in place of all rows."))
        self.remove_button = role(QPushButton(f"Remove {noun}"), "chip")
        self.remove_button.setToolTip(tip("Takes the selected rows out."))
        self._lay_out()
        self.model.typed.connect(self._take)
        self.paste_button.clicked.connect(self.paste_all)
        self.remove_button.clicked.connect(lambda: self.model.remove(self.view.selected_rows()))

    def _lay_out(self) -> None:
        row = QWidget()
        self.buttons = FlowLayout(row)
        self.buttons.addWidget(self.paste_button)
        self.buttons.addWidget(self.remove_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(self.view)
        layout.addWidget(self.message)
        layout.addWidget(row)

    def show_rows(self, rows: Iterable[Numbers], units: UnitSystem, *, afresh: bool = False) -> None:
        """Show SI values; what is being typed stays where these did not change."""
        rows = tuple(rows)
        if afresh or rows != self._shown or units is not self.model.units:
            self._shown = rows
            self.model.show_rows(rows, units)
            self.say("")

    def paste_all(self) -> None:
        """Take the clipboard's table in place of all rows; depths it does not give stay as they were."""
        self.replace_all(block_of(QGuiApplication.clipboard().text()), EMPTY_CLIPBOARD)

    def replace_all(self, block: list[list[str]], nothing: str) -> None:
        """Take a table in place of all rows; says `nothing` where it has none."""
        if not block:
            self.say(nothing)
            return
        kept = self.model.put_instead(block, [row[-1] for row in self._shown])
        if kept and self.message.isHidden():
            what = self.model.columns[-1].noun
            self.say(f"The rows gave no {what}s: those of before were kept. Check them.", "caution")

    def say(self, text: str, tone: str = "error") -> None:
        """Show a sentence below the table; none hides it."""
        self.message.setText(text)
        self.message.setVisible(bool(text))
        role(self.message, tone)
        restyle(self.view, "invalid", "true" if text and tone == "error" else None)

    def _take(self) -> None:
        try:
            values = self.model.values()
        except UnreadableQuantity as error:
            self.say(str(error))
            return
        self.say("")
        if values != self._shown:
            self.entered.emit(values)

"""One figure on screen: its value and unit, what is to be said of it, and its working below."""

from typing import NamedTuple

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtGui import QColor, QGuiApplication, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QMenu, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.engine.working import value_text
from waterpark_designer.gui.entry_widgets import tip, words
from waterpark_designer.gui.folding import FoldMark
from waterpark_designer.gui.theme import colours, role
from waterpark_designer.gui.working_view import Path, WorkingView
from waterpark_designer.sources import Provenance
from waterpark_designer.units import UnitSystem


def unconfirmed(value: Worked) -> bool:
    """Whether a figure is itself a value from memory, or chosen among or added up from such."""
    step = value.step
    if step.source.provenance is Provenance.MEMORY:
        return True
    if not step.joined:
        return False
    return Provenance.MEMORY in {part.step.source.provenance for _, part in step.parts if isinstance(part, Worked)}


class Shown(NamedTuple):
    """A figure as it is asked to be shown."""

    figure: Figure
    owner: str
    units: UnitSystem
    currency: str = ""

    @property
    def unit(self) -> str:
        return unit_of(self.figure, self.units, self.currency)


def unit_of(figure: Figure, units: UnitSystem, currency: str) -> str:
    """Symbol of a figure's unit, the currency where it is money; nothing where there is no number."""
    if isinstance(figure.value, Missing):
        return ""
    return currency if figure.kind.measure.is_money else figure.kind.measure.symbol(units)


class FigureRow(QWidget):
    """One figure; its working opens below it."""

    override_requested = Signal(str)
    computed_requested = Signal(str)

    def __init__(self, key: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.key = key
        kind = FIGURE_KINDS[key]
        self._shown: Shown | None = None
        self.label = words(kind.label)
        self.value = role(QLabel(), "subheading")
        self.unit = role(QLabel(), "unit")
        self.mark = FoldMark(f"Working of {kind.label.lower()}")
        self.below = words("", "dim")
        self.below.hide()
        self.card: WorkingCard | None = None
        self.setToolTip(tip(kind.definition))
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.customContextMenuRequested.connect(self._show_menu)
        self.mark.toggled.connect(self._set_open)
        self._lay_out()

    def _lay_out(self) -> None:
        line = QHBoxLayout()
        line.setSpacing(6)
        line.addWidget(self.label, 1)
        line.addWidget(self.value)
        line.addWidget(self.unit)
        line.addWidget(self.mark)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 2, 0, 3)
        self._layout.setSpacing(2)
        self._layout.addLayout(line)
        self._layout.addWidget(self.below)

    def show_figure(self, shown: Shown, unit_width: int) -> None:
        """Show a figure; nothing is done where it did not change."""
        if self.unit.minimumWidth() != unit_width:
            self.unit.setFixedWidth(unit_width)
        before, self._shown = self._shown, shown
        if before is not None and before.figure is shown.figure and before[1:] == shown[1:]:
            return
        figure = shown.figure
        self.value.setText(value_text(figure, shown.units))
        self.unit.setText(shown.unit)
        self._say_below(figure)
        if self.card is not None:
            self._show_card(self.card.open_paths())

    def _say_below(self, figure: Figure) -> None:
        text, tone = note_of(figure)
        self.below.setText(text)
        self.below.setVisible(bool(text))
        role(self.below, tone)

    @property
    def is_open(self) -> bool:
        return self.mark.isChecked()

    def set_open(self, is_open: bool) -> None:
        """Show or put away the working."""
        self.mark.setChecked(is_open)

    def _set_open(self, is_open: bool) -> None:
        if is_open:
            self._show_card(set())
        elif self.card is not None:
            self._drop_card()

    def _show_card(self, paths: set[Path]) -> None:
        assert self._shown is not None
        self._drop_card()
        self.card = WorkingCard(self._shown, self)
        self.card.override_button.clicked.connect(lambda: self.override_requested.emit(self.key))
        self.card.computed_button.clicked.connect(lambda: self.computed_requested.emit(self.key))
        self._layout.addWidget(self.card)
        self.card.reopen(paths)
        # Shown at once, not when the layout comes to it, so that whoever scrolls to the row knows its height.
        self.card.show()

    def _drop_card(self) -> None:
        if self.card is not None:
            self.card.hide()
            self.card.deleteLater()
            self.card = None

    def _show_menu(self, at: QPoint) -> None:
        self.menu().popup(self.mapToGlobal(at))

    def menu(self) -> QMenu:
        """What can be done with the figure."""
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.addAction("Set by hand…", lambda: self.override_requested.emit(self.key))
        overridden = self._shown is not None and self._shown.figure.override is not None
        computed = menu.addAction("Use computed figure", lambda: self.computed_requested.emit(self.key))
        computed.setEnabled(overridden)
        menu.addSeparator()
        menu.addAction("Close working" if self.is_open else "Open working", self.mark.toggle)
        copy = menu.addAction("Copy working", self.copy)
        copy.setEnabled(self._shown is not None and isinstance(self._shown.figure.value, Worked))
        return menu

    def copy(self) -> None:
        """Put the working on the clipboard, with all that is open in it."""
        if self._shown is None:
            return
        card = self.card or WorkingCard(self._shown, self)
        QGuiApplication.clipboard().setText(card.text())
        if card is not self.card:
            card.deleteLater()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        in_line = event.position().y() <= self.mark.geometry().bottom() + 2
        if event.button() == Qt.MouseButton.LeftButton and in_line:
            self.mark.toggle()
        else:
            super().mouseReleaseEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        painter = QPainter(self)
        painter.setPen(QPen(QColor(colours().line), 1, Qt.PenStyle.DotLine))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)


def note_of(figure: Figure) -> tuple[str, str]:
    """What stands below a figure, and its tone: what is missing, that it is set by hand, or to be confirmed."""
    if figure.override is not None:
        return f"set by hand: {figure.override.reason}", "caution"
    if isinstance(figure.value, Missing):
        waits = figure.value.waits_for
        own = waits.casefold() == figure.kind.label.casefold()
        return figure.value.needs if own else figure.value.short, "dim"
    return ("from memory, confirm", "caution") if unconfirmed(figure.value) else ("", "dim")


class WorkingCard(QFrame):
    """The opened working of a figure and what can be done with it."""

    def __init__(self, shown: Shown, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        role(self, "card")
        figure, units = shown.figure, shown.units
        self._heading = f"{figure.kind.label} of {shown.owner}"
        layout = QVBoxLayout(self)
        layout.setContentsMargins(9, 8, 7, 8)
        layout.setSpacing(6)
        self.view: WorkingView | None = None
        if isinstance(figure.value, Worked):
            self.view = WorkingView(figure.value, figure.kind.measure, units)
            layout.addWidget(self.view)
        else:
            layout.addWidget(words(f"No figure yet. {figure.value.needs}"))
        self.override_button = role(QPushButton("Set by hand…"), "chip")
        self.computed_button = role(QPushButton("Use computed figure"), "chip")
        self.copy_button = role(QPushButton("Copy working"), "chip")
        self.copy_button.clicked.connect(lambda: QGuiApplication.clipboard().setText(self.text()))
        layout.addLayout(self._buttons())
        self.computed_button.setVisible(figure.override is not None)
        self.copy_button.setVisible(self.view is not None)

    def _buttons(self) -> QVBoxLayout:
        """Two rows, since three buttons do not fit side by side in a narrow panel."""
        both = QVBoxLayout()
        both.setSpacing(4)
        for buttons in ((self.override_button, self.copy_button), (self.computed_button,)):
            row = QHBoxLayout()
            row.setSpacing(4)
            for button in buttons:
                row.addWidget(button)
            row.addStretch()
            both.addLayout(row)
        return both

    def open_paths(self) -> set[Path]:
        return self.view.open_paths() if self.view is not None else set()

    def reopen(self, paths: set[Path]) -> None:
        """Open what was open before."""
        if self.view is not None:
            self.view.reopen(paths)

    def text(self) -> str:
        """The working as plain text."""
        return f"{self._heading}\n{self.view.text()}" if self.view is not None else self._heading

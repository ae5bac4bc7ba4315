"""The client's page: the whole site at a glance, in large type and plain words."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.review_cards import CardsView, scaled
from waterpark_designer.gui.review_words import NOT_KNOWN, Total, cards, checks_words, opening, to_put_right, totals
from waterpark_designer.gui.theme import colours, role

PAGE_WIDTH = 1500
LEAST_TOTAL_WIDTH = 270
SCALES = {"title": 2.4, "words": 1.4, "number": 2.6, "text": 1.25}
EMPTY = "No body of water has been laid out yet."


class ReviewDesk(QScrollArea):
    """Site totals, a summary of the checks, and a card for each body of water."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.project = project
        self.title = large(QLabel(), "title", bold=True)
        self.subtitle = role(large(QLabel(), "text"), "dim")
        self.totals = TotalsGrid()
        self.checks = large(QLabel(), "text")
        self.failed = role(large(QLabel(), "text"), "error")
        self.cards = CardsView()
        self.empty = role(large(QLabel(EMPTY), "text"), "dim")
        self._stale = True
        self._lay_out()
        project.design_changed.connect(self._design_changed)

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802
        super().showEvent(event)
        if self._stale:
            self.refresh()

    def refresh(self) -> None:
        """Show the design as it is now."""
        self._stale = False
        design = self.project.design
        self.title.setText(f"{self.project.site.name} at a glance")
        self.subtitle.setText(opening(self.project.site))
        shown = cards(design)
        self.totals.show_totals(totals(design) if shown else ())
        self.checks.setText(checks_words(design))
        failed = to_put_right(design)
        self.failed.setText("\n".join(failed))
        self.failed.setVisible(bool(failed))
        self.cards.cards.set_cards(shown)
        self.empty.setVisible(not shown)
        self.cards.setVisible(bool(shown))

    def _lay_out(self) -> None:
        page = QWidget()
        page.setMaximumWidth(PAGE_WIDTH)
        column = QVBoxLayout(page)
        column.setContentsMargins(40, 32, 40, 32)
        column.setSpacing(6)
        for label in (self.title, self.subtitle, self.checks, self.failed, self.empty):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        for widget, space in (
            (self.title, 0),
            (self.subtitle, 18),
            (self.totals, 22),
            (large(QLabel("Checks"), "words", True), 0),
            (self.checks, 0),
            (self.failed, 26),
            (large(QLabel("Bodies of water"), "words", True), 6),
            (self.cards, 0),
            (self.empty, 0),
        ):
            column.addWidget(widget)
            column.addSpacing(space)
        column.addStretch(1)
        outside = _Paper()
        row = QHBoxLayout(outside)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(page)
        self.setWidget(outside)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFrameShape(QFrame.Shape.NoFrame)

    def _design_changed(self, _before: SiteDesign, _now: SiteDesign) -> None:
        self._stale = True
        if self.isVisible():
            self.refresh()


class _Paper(QWidget):
    """A page that brings its own paper, whatever it is shown on."""

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        QPainter(self).fillRect(event.rect(), QColor(colours().paper))


class TotalsGrid(QWidget):
    """Large figures in as many columns as the width allows, two to four."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(28)
        self._grid.setVerticalSpacing(14)
        self._shown: tuple[Total, ...] = ()
        self._blocks: list[QWidget] = []
        self._columns = 0

    def columns(self) -> int:
        """How many figures stand side by side."""
        return max(2, min(4, self.width() // LEAST_TOTAL_WIDTH))

    def show_totals(self, shown: tuple[Total, ...]) -> None:
        """Show these figures."""
        if shown == self._shown:
            return
        self._shown = shown
        for block in self._blocks:
            block.deleteLater()
        self._blocks = [total_block(total) for total in shown]
        self._columns = 0
        self._arrange()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        columns = self.columns()
        if columns == self._columns:
            return
        self._columns = columns
        for number, block in enumerate(self._blocks):
            self._grid.addWidget(block, number // columns, number % columns)
        for column in range(4):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)


def total_block(total: Total) -> QWidget:
    """One figure: what it is in words, the number large, its unit, what else is said of it, and a rule below."""
    block = QWidget()
    column = QVBoxLayout(block)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(2)
    line = QHBoxLayout()
    line.setSpacing(8)
    number = large(QLabel(total.number), "number", bold=True)
    unit = role(large(QLabel(total.unit), "text"), "dim")
    unit.setAlignment(Qt.AlignmentFlag.AlignBottom)
    line.addWidget(number)
    line.addWidget(unit, 1)
    column.addWidget(role(large(QLabel(total.words), "text"), "dim"))
    column.addLayout(line)
    if total.needs:
        unit.setText(NOT_KNOWN)
        block.setToolTip(total.needs)
    if total.note:
        note = role(large(QLabel(total.note), "text"), "dim")
        note.setTextFormat(Qt.TextFormat.PlainText)
        note.setWordWrap(True)
        column.addWidget(note)
    column.addStretch(1)
    column.addSpacing(6)
    column.addWidget(role(QFrame(), "rule"))
    block.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
    return block


def large(label: QLabel, size: str, bold: bool = False) -> QLabel:
    """A label in the larger type of this page."""
    label.setFont(scaled(label.font(), SCALES[size], bold))
    return label

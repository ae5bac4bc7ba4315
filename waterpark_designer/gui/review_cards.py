"""Cards of the bodies of water, two to four in a row, as the width allows."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPen, QResizeEvent, QTextLayout, QTextOption
from PySide6.QtWidgets import QAbstractItemView, QListView, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from waterpark_designer.gui.paper_rows import Index
from waterpark_designer.gui.review_words import Card
from waterpark_designer.gui.theme import colours

LEAST_WIDTH, MOST_COLUMNS = 300, 4
MOST_NAME_LINES = 3
GAP, PADDING = 16, 18
NAME_SCALE, FACT_SCALE = 1.45, 1.15
CARD_ROLE = Qt.ItemDataRole.UserRole


class CardsModel(QAbstractListModel):
    """The cards; read aloud, each is one sentence."""

    def __init__(self) -> None:
        super().__init__()
        self.cards: tuple[Card, ...] = ()

    def set_cards(self, cards: Sequence[Card]) -> None:
        """Show these cards; those that read the same are not drawn again."""
        if len(cards) != len(self.cards):
            self.beginResetModel()
            self.cards = tuple(cards)
            self.endResetModel()
            return
        changed = [row for row, (old, new) in enumerate(zip(self.cards, cards, strict=True)) if old != new]
        self.cards = tuple(cards)
        for row in changed:
            self.dataChanged.emit(self.index(row), self.index(row))

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 0 if parent.isValid() else len(self.cards)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        card = self.cards[index.row()]
        if role == CARD_ROLE:
            return card
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return card.name
        if role == Qt.ItemDataRole.AccessibleDescriptionRole:
            return f"{card.kind}. " + ". ".join(f"{what}: {figure}" for what, figure in card.facts)
        return None


class CardsView(QListView):
    """The cards as high as they need; the page around them scrolls."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.cards = CardsModel()
        self.setModel(self.cards)
        self.setItemDelegate(_CardDelegate(self))
        self.setViewMode(QListView.ViewMode.IconMode)
        self.setMovement(QListView.Movement.Static)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setUniformItemSizes(True)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName("Bodies of water")
        self.name_lines = 1
        self.cards.modelReset.connect(self.fit)
        self.cards.dataChanged.connect(lambda *_: self.fit())

    def columns(self) -> int:
        """Cards side by side at the width there is: two to four, one where it is very narrow."""
        return max(1, min(MOST_COLUMNS, self._room() // (LEAST_WIDTH + GAP)))

    def fit(self) -> None:
        """Share the width among the columns and take the height that all rows need."""
        columns = self.columns()
        names, width = scaled(self.font(), NAME_SCALE, True), self.card_width() - 2 * PADDING
        self.name_lines = max((len(name_lines(card.name, names, width)) for card in self.cards.cards), default=1)
        size = QSize(self._room() // columns, card_height(self.font(), self.name_lines) + GAP)
        self.setGridSize(size)
        rows = -(-len(self.cards.cards) // columns)
        self.setFixedHeight(rows * size.height() + 4)

    def card_width(self) -> int:
        """Width of one card, the gaps beside it left out."""
        columns = self.columns()
        return (self.viewport().width() - (columns - 1) * GAP) // columns

    def _room(self) -> int:
        """The last card of a row may stand out by its gap: the list itself keeps a pixel to spare."""
        return self.viewport().width() - 2

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        if event.oldSize().width() != event.size().width():
            self.fit()

    def wheelEvent(self, event: Any) -> None:  # noqa: N802
        event.ignore()


class _CardDelegate(QStyledItemDelegate):
    """Draws one card."""

    def __init__(self, view: CardsView) -> None:
        super().__init__(view)
        self._view = view

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802
        return self._view.gridSize()

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        view = self._view
        columns = view.columns()
        area = QRect(option.rect.topLeft(), view.gridSize())
        # The gaps lie between the cards only: the first begins at the left edge, the last ends at the right one.
        area.setWidth(view.card_width())
        area.translate(index.row() % columns * GAP // columns, 0)
        area.setHeight(area.height() - GAP)
        draw_card(painter, area, index.data(CARD_ROLE), view.font(), view.name_lines)


def scaled(font: QFont, scale: float, bold: bool = False) -> QFont:
    """The font in another size."""
    made = QFont(font)
    if font.pixelSize() > 0:
        made.setPixelSize(round(font.pixelSize() * scale))
    else:
        made.setPointSizeF(font.pointSizeF() * scale)
    made.setBold(bold)
    return made


def name_lines(name: str, font: QFont, width: int) -> list[str]:
    """A name broken into at most three lines, the last of them shortened to the width."""
    layout = QTextLayout(name, font)
    wrapping = QTextOption()
    wrapping.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
    layout.setTextOption(wrapping)
    layout.beginLayout()
    starts: list[int] = []
    while len(starts) < MOST_NAME_LINES and (line := layout.createLine()).isValid():
        line.setLineWidth(max(width, 1))
        starts.append(line.textStart())
    layout.endLayout()
    lines = [name[start:end].strip() for start, end in zip(starts, [*starts[1:], len(name)], strict=True)]
    return [QFontMetrics(font).elidedText(line, Qt.TextElideMode.ElideRight, width) for line in lines]


def card_height(font: QFont, lines: int) -> int:
    """Height of a card: its name in so many lines, kind, a rule, and four facts."""
    name, fact = QFontMetrics(scaled(font, NAME_SCALE, True)), QFontMetrics(scaled(font, FACT_SCALE))
    return 2 * PADDING + lines * name.height() + fact.height() + 20 + 4 * (fact.height() + 6)


def draw_card(painter: QPainter, area: QRect, card: Card, font: QFont, lines: int) -> None:
    """Draw a card into an area, with room for a name of so many lines."""
    shades = colours()
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(shades.line)))
    painter.setBrush(QColor(shades.paper))
    painter.drawRoundedRect(area.adjusted(0, 0, -1, -1), 6, 6)
    left, width, top = area.left() + PADDING, area.width() - 2 * PADDING, area.top() + PADDING
    names = scaled(font, NAME_SCALE, True)
    below = top + lines * QFontMetrics(names).height()
    for line in name_lines(card.name, names, width):
        top = _line(painter, left, top, width, line, names, shades.ink)
    top = _line(painter, left, top, width, card.kind, scaled(font, FACT_SCALE), shades.dim)
    top = below + QFontMetrics(scaled(font, FACT_SCALE)).height() + 8
    painter.fillRect(QRect(left, top, width, 2), QColor(shades.water_soft))
    top += 12
    plain, strong = scaled(font, FACT_SCALE), scaled(font, FACT_SCALE, True)
    for what, figure in card.facts:
        taken = QFontMetrics(strong).horizontalAdvance(figure)
        _line(painter, left + width - taken, top, taken + 2, figure, strong, shades.ink)
        top = _line(painter, left, top, width - taken - 8, what, plain, shades.dim) + 6
    painter.restore()


def _line(painter: QPainter, left: int, top: int, width: int, text: str, font: QFont, colour: str) -> int:
    """Draw a line of text, shortened to the width; returns where the next one begins."""
    metrics = QFontMetrics(font)
    painter.setFont(font)
    painter.setPen(QColor(colour))
    shown = metrics.elidedText(text, Qt.TextElideMode.ElideRight, width)
    painter.drawText(left, top + metrics.ascent(), shown)
    return top + metrics.height()

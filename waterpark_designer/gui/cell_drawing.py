"""Drawing of a table cell: text wrapped to the column, with a quieter line below it."""

import re
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QTextLayout, QTextOption

from waterpark_designer.gui.paper_rows import Cell
from waterpark_designer.gui.theme import colours

MARGIN = 8
BEFORE_UNIT, IN_UNIT = re.compile(r"(?<=\d) (?=[^\W\d_]|[%°])"), re.compile(r"(?<=[^\W\d_])/(?=[^\W\d_])")
"""Where no line is to be broken: between a number and its unit, and at the slash of a unit."""


def cell_height(cell: Cell, font: QFont, width: int, bold: bool = False) -> int:
    """Height of a cell wrapped to a width, margins included."""
    return sum(part.height for part in _parts(cell, font, width, bold)) + 2 * MARGIN


def draw_cell(
    painter: QPainter, area: QRect, cell: Cell, font: QFont, side: Qt.AlignmentFlag, bold: bool = False
) -> None:
    """Draw a cell into an area, from its top."""
    shades = colours()
    top = area.top() + MARGIN
    for part, tone in zip(_parts(cell, font, area.width(), bold), (cell.tone, cell.below_tone), strict=False):
        painter.setPen(QColor(getattr(shades, tone or "ink")))
        part.draw(painter, area.left() + MARGIN, top, side)
        top += part.height


@dataclass(slots=True)
class _Part:
    """A wrapped text, laid out."""

    layout: QTextLayout
    width: int
    height: int

    def draw(self, painter: QPainter, left: int, top: int, side: Qt.AlignmentFlag) -> None:
        right = bool(side & Qt.AlignmentFlag.AlignRight)
        for number in range(self.layout.lineCount()):
            line = self.layout.lineAt(number)
            shift = self.width - line.naturalTextWidth() if right else 0.0
            line.draw(painter, QPointF(left + shift - line.x(), top))


def _parts(cell: Cell, font: QFont, width: int, bold: bool) -> list[_Part]:
    strong = QFont(font)
    strong.setBold(bold or cell.bold)
    parts = [_laid_out(cell.text, strong, width - 2 * MARGIN)]
    if cell.below:
        parts.append(_laid_out(cell.below, font, width - 2 * MARGIN))
    return parts


def _laid_out(text: str, font: QFont, width: int) -> _Part:
    unbroken = IN_UNIT.sub("/\u2060", BEFORE_UNIT.sub("\u00a0", text))
    layout = QTextLayout(unbroken.replace("\n", "\u2028"), font)
    wrapping = QTextOption()
    wrapping.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
    layout.setTextOption(wrapping)
    layout.beginLayout()
    top = 0.0
    while (line := layout.createLine()).isValid():
        line.setLineWidth(max(width, 8))
        line.setPosition(QPointF(0, top))
        top += line.height()
    layout.endLayout()
    return _Part(layout, max(width, 8), int(max(top, QFontMetrics(font).height())))

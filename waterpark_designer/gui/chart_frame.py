"""The frame of a chart: axes with round numbers and units, and what is drawn within in units of the site."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPainterPath, QPen, QPolygonF

from waterpark_designer.gui.theme import colours

TICKS = 6
STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
MARK = 5.0
ROOM_UP, ROOM_ACROSS = 34.0, 84.0
"""Pixels that a tick needs."""
Points = Sequence[tuple[float, float]]


def round_step(span: float, ticks: int = TICKS) -> float:
    """A round distance between ticks that leaves at most so many of them."""
    if not span > 0.0 or not math.isfinite(span):
        return 1.0
    raw = span / ticks
    power = 10.0 ** math.floor(math.log10(raw))
    return next(step for step in STEPS if step * power >= raw * (1 - 1e-9)) * power


@dataclass(frozen=True, slots=True)
class Axis:
    """Numbers from nothing to at least `high` on paper, with what they are and how many ticks there is room for."""

    title: str
    high: float
    most: int = TICKS

    @property
    def step(self) -> float:
        return round_step(self.high, self.most)

    @property
    def end(self) -> float:
        """The last tick, at or beyond the greatest number."""
        return math.ceil(self.high / self.step - 1e-9) * self.step

    def ticks(self) -> list[float]:
        return [number * self.step for number in range(round(self.end / self.step) + 1)]

    def text(self, value: float) -> str:
        """A tick as it is written, with as many places as the distance between ticks needs."""
        places = max(0, -math.floor(math.log10(self.step) + 1e-9))
        if places < 9 and round(self.step, places) != round(self.step, places + 1):
            places += 1
        return f"{value:,.{places}f}"


class ChartFrame:
    """Draws axes into a rectangle, and lines, marks and words at numbers of these axes."""

    def __init__(self, painter: QPainter, area: QRectF, across: Axis, up: Axis, right: Axis | None = None) -> None:
        self.painter = painter
        self._metrics = QFontMetricsF(painter.font())
        height = area.height() - 3 * self._metrics.height() - 20
        self.up = _with_room(up, height, ROOM_UP)
        self.right = _with_room(right, height, ROOM_UP) if right else None
        self.across = _with_room(across, area.width(), ROOM_ACROSS)
        self.plot = self._plot_within(area)

    def place(self, x: float, y: float, up: Axis | None = None) -> QPointF:
        """Where numbers of the axes stand on screen."""
        along, height = x / self.across.end, y / (up or self.up).end
        return QPointF(self.plot.left() + along * self.plot.width(), self.plot.bottom() - height * self.plot.height())

    def draw_axes(self) -> None:
        """Hairlines, ticks and titles."""
        self._draw_across()
        self._draw_up(self.up, at_right=False)
        if self.right is not None:
            self._draw_up(self.right, at_right=True)

    def draw_line(self, points: Points, colour: str, style: Qt.PenStyle, width: float, up: Axis | None = None) -> None:
        """A line through points, cut off at the edges of the plot."""
        places = [self.place(x, y, up) for x, y in points]
        if len(places) < 2:
            return
        path = QPainterPath(places[0])
        for place in places[1:]:
            path.lineTo(place)
        self.painter.save()
        self.painter.setClipRect(self.plot.adjusted(-1, -1, 1, 1))
        self.painter.setPen(QPen(QColor(colour), width, style, Qt.PenCapStyle.FlatCap))
        self.painter.setBrush(Qt.BrushStyle.NoBrush)
        self.painter.drawPath(path)
        self.painter.restore()

    def draw_words(self, at: QPointF, text: str, taken: Sequence[QRectF] = ()) -> QRectF:
        """Words beside a place, within the plot and clear of what is taken, on paper of their own."""
        area = self._free_place(at, text, taken)
        paper = QColor(colours().paper)
        paper.setAlpha(215)
        self.painter.fillRect(area, paper)
        self.painter.setPen(QColor(colours().ink))
        self.painter.drawText(area, Qt.AlignmentFlag.AlignCenter, text)
        return area

    def _free_place(self, at: QPointF, text: str, taken: Sequence[QRectF]) -> QRectF:
        """Right of a place and above it, or where else there is room."""
        width, height = self._metrics.horizontalAdvance(text) + 6, self._metrics.height()
        right, left, above, below = at.x() + 9, at.x() - width - 9, at.y() - height - 6, at.y() + 6
        corners = ((right, above), (right, below), (left, above), (left, below), (right, above - height))
        places = [QRectF(x, y, width, height) for x, y in corners]
        within = [place for place in places if self.plot.contains(place)] or places[:1]
        return next((place for place in within if not any(place.intersects(other) for other in taken)), within[0])

    def _plot_within(self, area: QRectF) -> QRectF:
        height = self._metrics.height()
        left = self._room(self.up)
        last = self._metrics.horizontalAdvance(self.across.text(self.across.end)) / 2
        right = self._room(self.right) if self.right else last + 4
        return area.adjusted(left, height + 8, -right, -(2 * height + 12))

    def _room(self, axis: Axis) -> float:
        return max(self._metrics.horizontalAdvance(axis.text(tick)) for tick in axis.ticks()) + 12

    def _draw_across(self) -> None:
        shades, height = colours(), self._metrics.height()
        for tick in self.across.ticks():
            at = self.place(tick, 0.0)
            self.painter.setPen(QPen(QColor(shades.line), 1))
            self.painter.drawLine(QPointF(at.x(), self.plot.top()), at)
            self.painter.setPen(QColor(shades.dim))
            room = QRectF(at.x() - 60, at.y() + 4, 120, height)
            self.painter.drawText(room, Qt.AlignmentFlag.AlignHCenter, self.across.text(tick))
        below = QRectF(self.plot.left(), self.plot.bottom() + height + 6, self.plot.width(), height)
        self.painter.drawText(below, Qt.AlignmentFlag.AlignRight, self.across.title)

    def _draw_up(self, axis: Axis, at_right: bool) -> None:
        shades, height = colours(), self._metrics.height()
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        for tick in axis.ticks():
            y = self.place(0.0, tick, axis).y()
            if not at_right:
                self.painter.setPen(QPen(QColor(shades.line if tick else shades.dim), 1))
                self.painter.drawLine(QPointF(self.plot.left(), y), QPointF(self.plot.right(), y))
            self.painter.setPen(QColor(shades.dim))
            if at_right:
                room = QRectF(self.plot.right() + 6, y - height / 2, 90, height)
                self.painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, axis.text(tick))
            else:
                room = QRectF(self.plot.left() - 96, y - height / 2, 90, height)
                self.painter.drawText(room, right, axis.text(tick))
        half = self.plot.width() / 2
        above = QRectF(self.plot.left() + (half if at_right else 0), self.plot.top() - height - 7, half, height)
        if not at_right:
            above.setLeft(0)
        self.painter.drawText(above, right if at_right else Qt.AlignmentFlag.AlignLeft, axis.title)


def _with_room(axis: Axis, room: float, each: float) -> Axis:
    """The axis with as many ticks as there is room for."""
    return replace(axis, most=max(2, min(TICKS, int(room / each))))


def draw_mark(painter: QPainter, at: QPointF, shape: str, colour: str) -> None:
    """A square, a ring or a disc: told apart by form, not by colour."""
    painter.setPen(QPen(QColor(colour), 2))
    painter.setBrush(QColor(colour) if shape == "disc" else QColor(colours().paper))
    if shape == "square":
        corners = ((-MARK, -MARK), (MARK, -MARK), (MARK, MARK), (-MARK, MARK))
        painter.drawPolygon(QPolygonF([at + QPointF(x, y) for x, y in corners]))
    else:
        painter.drawEllipse(at, MARK, MARK)

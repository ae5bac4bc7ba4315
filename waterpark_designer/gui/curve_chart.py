"""Pump and system over the flow: where the pump was meant to run, and where it does."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from waterpark_designer.engine.pump_curves import InParallel
from waterpark_designer.engine.size_pump import PumpCurves
from waterpark_designer.gui.chart_frame import Axis, ChartFrame, Points, draw_mark
from waterpark_designer.gui.theme import colours
from waterpark_designer.units import FLOW, HEAD, UnitSystem

SAMPLES = 30
BEYOND = 1.25
SAME_PLACE = 14.0
SAMPLE_WIDTH = 30
LEAST_HEIGHT = 225
Solid, Dash, Dot = Qt.PenStyle.SolidLine, Qt.PenStyle.DashLine, Qt.PenStyle.DotLine


@dataclass(frozen=True, slots=True)
class Curve:
    """A line of the chart in units of the site: its name, its points and how it is drawn."""

    name: str
    points: Points
    tone: str
    style: Qt.PenStyle
    width: float


@dataclass(frozen=True, slots=True)
class Mark:
    """A point of the chart: a short word at it, a sentence below the chart, and its form."""

    word: str
    sentence: str
    at: tuple[float, float]
    shape: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """All that a chart shows."""

    across: Axis
    up: Axis
    curves: tuple[Curve, ...]
    marks: tuple[Mark, ...]

    def sentence(self) -> str:
        """The chart in words, for whoever cannot see it."""
        return " ".join(
            (*(f"{mark.sentence}." for mark in self.marks), f"Across: {self.across.title}.", f"Up: {self.up.title}.")
        )


def drawing_of(curves: PumpCurves, units: UnitSystem) -> Drawing:
    """What is drawn of a pump and its system."""
    marks = _marks(curves, units)
    most = BEYOND * max([curves.duty_flow, *(point.flow for point in (curves.at_clean, curves.at_dirty) if point)])
    pump_end = min(curves.pumps.greatest_flow, most)
    has_dirt = _differ(curves)
    pump = _sampled(curves.pumps.head, curves.pumps.least_flow, pump_end, units)
    name = "Pumps in duty together" if isinstance(curves.pumps, InParallel) else "Pump"
    lines = [Curve(name, pump, "water", Solid, 2.4)]
    if has_dirt:
        lines.append(Curve("System, dirty filters", _sampled(curves.dirty.head, 0.0, most, units), "ink", Dash, 1.6))
    name = "System, clean filters" if has_dirt else "System"
    lines.append(Curve(name, _sampled(curves.clean.head, 0.0, most, units), "ink", Dot if has_dirt else Dash, 1.8))
    pump_high = max(y for _, y in lines[0].points)
    high = max(pump_high, *(mark.at[1] for mark in marks)) * 1.08
    return Drawing(
        Axis(f"Flow, {FLOW.symbol(units)}", FLOW.shown(most, units)),
        Axis(f"Head, {HEAD.symbol(units)}", high),
        tuple(lines),
        tuple(marks),
    )


def _differ(curves: PumpCurves) -> bool:
    flow = curves.duty_flow
    return not math.isclose(curves.clean.head(flow), curves.dirty.head(flow), rel_tol=1e-6)


def _sampled(head: Callable[[float], float], low: float, high: float, units: UnitSystem) -> Points:
    flows = [low + (high - low) * number / SAMPLES for number in range(SAMPLES + 1)]
    points = [(FLOW.shown(flow, units), HEAD.shown(head(flow), units)) for flow in flows]
    return [(x, y) for x, y in points if math.isfinite(y)]


def _marks(curves: PumpCurves, units: UnitSystem) -> list[Mark]:
    found = [_mark("duty", "Duty", curves.duty_flow, curves.duty_head, "square", units)]
    has_dirt = _differ(curves)
    if curves.at_dirty and has_dirt:
        found.append(
            _mark("runs, dirty", "Runs with dirty filters", curves.at_dirty.flow, curves.at_dirty.head, "disc", units)
        )
    if curves.at_clean:
        word, words = ("runs, clean", "Runs with clean filters") if has_dirt else ("runs", "Runs")
        found.append(_mark(word, words, curves.at_clean.flow, curves.at_clean.head, "ring", units))
    return found


def _mark(word: str, words: str, flow: float, head: float, shape: str, units: UnitSystem) -> Mark:
    sentence = f"{words} at {FLOW.phrase(flow, units)}, {HEAD.phrase(head, units)}"
    return Mark(word, sentence, (FLOW.shown(flow, units), HEAD.shown(head, units)), shape)


class CurveChart(QWidget):
    """Draws curves and points; says what is missing where there are none."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.drawing: Drawing | None = None
        self.missing = ""
        self.setMinimumSize(240, LEAST_HEIGHT)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Pump curve")

    def show_curves(self, curves: PumpCurves | None, missing: str, units: UnitSystem) -> None:
        """Show curves; `missing` is said where there are none."""
        self.drawing = drawing_of(curves, units) if curves is not None else None
        self.missing = missing
        self.setAccessibleDescription(self.drawing.sentence() if self.drawing else missing)
        self._keep_room()
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        self._keep_room()

    def _keep_room(self) -> None:
        """The curves are never squeezed by the words below them."""
        self.setMinimumHeight(LEAST_HEIGHT + (self._legend_height(self.drawing) if self.drawing else 0))

    def sizeHint(self) -> QSize:  # noqa: N802
        return QSize(460, 320)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.drawing is None:
            self._paint_missing(painter)
        else:
            self._paint_drawing(painter, self.drawing)

    def _paint_missing(self, painter: QPainter) -> None:
        painter.setPen(QPen(QColor(colours().line), 1))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 5, 5)
        painter.setPen(QColor(colours().dim))
        words = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(self.rect().adjusted(24, 16, -24, -16), int(words), self.missing)

    def _paint_drawing(self, painter: QPainter, drawing: Drawing) -> None:
        shades = colours()
        legend = self._legend_height(drawing)
        area = QRectF(self.rect()).adjusted(0, 0, 0, -legend)
        frame = ChartFrame(painter, area, drawing.across, drawing.up)
        frame.draw_axes()
        for curve in drawing.curves:
            frame.draw_line(curve.points, getattr(shades, curve.tone), curve.style, curve.width)
        self._paint_marks(frame, drawing)
        self._paint_legend(painter, drawing, area.bottom())

    def _paint_marks(self, frame: ChartFrame, drawing: Drawing) -> None:
        """Marks, and one word beside those that stand at the same place."""
        groups: list[tuple[QPointF, list[str]]] = []
        for mark in drawing.marks:
            at = frame.place(*mark.at)
            near = next((words for place, words in groups if (place - at).manhattanLength() < SAME_PLACE), None)
            if near is None:
                groups.append((at, [mark.word]))
            else:
                near.append(mark.word)
        around = QRectF(-7, -7, 14, 14)
        taken = [around.translated(frame.place(*mark.at)) for mark in drawing.marks]
        for at, words in groups:
            taken.append(frame.draw_words(at, " = ".join(words), taken))
        for mark in drawing.marks:
            draw_mark(frame.painter, frame.place(*mark.at), mark.shape, colours().accent)

    def _line_height(self) -> int:
        return self.fontMetrics().height() + 3

    def _beside(self, drawing: Drawing) -> int:
        """Where the marks stand beside the curves in the words below; 0 where there is no room for both."""
        measure = self.fontMetrics().horizontalAdvance
        left = max(measure(curve.name) for curve in drawing.curves) + SAMPLE_WIDTH + 26
        right = max(measure(mark.sentence) for mark in drawing.marks) + SAMPLE_WIDTH + 8
        return left if left + right <= self.width() else 0

    def _legend_height(self, drawing: Drawing) -> int:
        curves, marks = len(drawing.curves), len(drawing.marks)
        lines = max(curves, marks) if self._beside(drawing) else curves + marks
        return lines * self._line_height() + 4

    def _paint_legend(self, painter: QPainter, drawing: Drawing, top: float) -> None:
        """What each line and each mark is, in words, with its numbers."""
        shades, height = colours(), self._line_height()
        for number, curve in enumerate(drawing.curves):
            middle = top + (number + 0.5) * height
            painter.setPen(QPen(QColor(getattr(shades, curve.tone)), curve.width, curve.style))
            painter.drawLine(QPointF(4, middle), QPointF(SAMPLE_WIDTH, middle))
            self._paint_words(painter, curve.name, 0, middle)
        left = self._beside(drawing)
        for number, mark in enumerate(drawing.marks):
            middle = top + (number + 0.5 + (0 if left else len(drawing.curves))) * height
            draw_mark(painter, QPointF(left + 17, middle), mark.shape, shades.accent)
            self._paint_words(painter, mark.sentence, left, middle)

    def _paint_words(self, painter: QPainter, text: str, left: int, middle: float) -> None:
        painter.setPen(QColor(colours().ink))
        room = QRectF(left + SAMPLE_WIDTH + 8, middle - self._line_height() / 2, self.width(), self._line_height())
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, text)

"""Jets of a river: what flow and power they take, by the speed at which they enter."""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from waterpark_designer.engine.jet_speeds import JetDuty, JetSpeeds, jet_speeds
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.gui.chart_frame import Axis, ChartFrame, Points, draw_mark
from waterpark_designer.gui.theme import colours
from waterpark_designer.model.features import Feature
from waterpark_designer.units import FLOW, POWER, VELOCITY, UnitSystem

SAMPLES = 48
SAMPLE_WIDTH = 30


@dataclass(frozen=True, slots=True)
class JetDrawing:
    """Flow and power over jet speed in units of the site, and what is said of the speed that was chosen."""

    across: Axis
    flow_axis: Axis
    power_axis: Axis
    flow: Points
    power: Points
    chosen: tuple[float, float, float] | None
    sentence: str


def jet_drawing(feature: Feature, sheet: Sheet, units: UnitSystem) -> JetDrawing | None:
    """What is drawn of a river's jets; None while the thrust is not known."""
    speeds = jet_speeds(feature, sheet)
    if speeds is None:
        return None
    found = [_shown(duty, units) for duty in speeds.evenly(SAMPLES)]
    usual = _shown(speeds.at(speeds.of_least_power), units)
    here = _shown(speeds.at(speeds.chosen), units) if speeds.chosen else None
    return JetDrawing(
        Axis(f"Jet speed, {VELOCITY.symbol(units)}", found[-1][0]),
        Axis(f"Jet flow, {FLOW.symbol(units)}", max(usual[1], 1.2 * here[1] if here else 0.0)),
        Axis(f"Jet power, {POWER.symbol(units)}", max(found[-1][2], 1.2 * here[2] if here else 0.0)),
        [(speed, flow) for speed, flow, _ in found],
        [(speed, power) for speed, _, power in found],
        here,
        _sentence(here, speeds, units),
    )


def _shown(duty: JetDuty, units: UnitSystem) -> tuple[float, float, float]:
    """Speed, flow and power of the jets in units of the site."""
    return VELOCITY.shown(duty.speed, units), FLOW.shown(duty.flow, units), POWER.shown(duty.power, units)


def _sentence(here: tuple[float, float, float] | None, speeds: JetSpeeds, units: UnitSystem) -> str:
    least = VELOCITY.phrase(speeds.of_least_power, units)
    general = f"Least power at {least}, twice the current; faster jets need less flow and more power."
    if here is None:
        return f"Enter a jet speed to see its flow and power. {general}"
    speed, flow, power = here
    units_of = (VELOCITY.symbol(units), FLOW.symbol(units), POWER.symbol(units))
    return f"Chosen: {speed:,.1f} {units_of[0]}, {flow:,.0f} {units_of[1]}, {power:,.1f} {units_of[2]}. {general}"


class JetChart(QWidget):
    """Two lines over the jet speed, each with an axis of its own, and the speed that was chosen."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.drawing: JetDrawing | None = None
        self.setMinimumSize(240, 190)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Jet flow and power over jet speed")

    def show_drawing(self, drawing: JetDrawing | None) -> None:
        """Show a river's jets."""
        self.drawing = drawing
        self.setAccessibleDescription(drawing.sentence if drawing else "")
        self.update()

    def sizeHint(self) -> QSize:  # noqa: N802
        return QSize(460, 220)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        if self.drawing is None:
            return
        drawing, shades = self.drawing, colours()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        height = self.fontMetrics().height() + 3
        area = QRectF(self.rect()).adjusted(0, 0, 0, -height)
        frame = ChartFrame(painter, area, drawing.across, drawing.flow_axis, drawing.power_axis)
        frame.draw_axes()
        frame.draw_line(drawing.flow, shades.water, Qt.PenStyle.SolidLine, 2.2)
        frame.draw_line(drawing.power, shades.ink, Qt.PenStyle.DashLine, 1.7, drawing.power_axis)
        if drawing.chosen is not None:
            self._paint_chosen(frame, drawing, drawing.chosen)
        self._paint_legend(painter, area.bottom() + height / 2)

    def _paint_chosen(self, frame: ChartFrame, drawing: JetDrawing, chosen: tuple[float, float, float]) -> None:
        speed, flow, power = chosen
        foot, top = frame.place(speed, 0.0), frame.place(speed, frame.up.end)
        frame.painter.setPen(QPen(QColor(colours().accent), 1))
        frame.painter.drawLine(foot, top)
        frame.draw_words(top + QPointF(0, 22), "chosen")
        draw_mark(frame.painter, frame.place(speed, flow), "disc", colours().accent)
        draw_mark(frame.painter, frame.place(speed, power, drawing.power_axis), "square", colours().accent)

    def _paint_legend(self, painter: QPainter, middle: float) -> None:
        shades = colours()
        for left, text, colour, style in (
            (0, "Jet flow, axis at the left", shades.water, Qt.PenStyle.SolidLine),
            (self.width() // 2, "Jet power, axis at the right", shades.ink, Qt.PenStyle.DashLine),
        ):
            painter.setPen(QPen(QColor(colour), 2, style))
            painter.drawLine(QPointF(left + 4, middle), QPointF(left + SAMPLE_WIDTH, middle))
            painter.setPen(QColor(shades.ink))
            room = QRectF(left + SAMPLE_WIDTH + 8, middle - 12, self.width() / 2 - SAMPLE_WIDTH - 8, 24)
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, text)

"""Charts on paper, drawn as vectors: axes with units, lines by style, points by letter, and a legend at the side."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from waterpark_designer.documents import stylesheet as s
from waterpark_designer.documents.chart import Axis, Chart, LineStyle
from waterpark_designer.documents.pdf_page import Pages, Run
from waterpark_designer.documents.pdf_text import width_of, wrapped
from waterpark_designer.units import UnitSystem

HEIGHT = 150.0
PLOT_SHARE = 0.62
AXIS_ROOM = 44.0
TICKS = 6
DOT = 2.6
SAMPLE = 26.0
DASHES: dict[LineStyle, tuple[float, ...]] = {
    LineStyle.SOLID: (),
    LineStyle.DASHED: (7.0, 3.0),
    LineStyle.DOTTED: (1.2, 2.4),
}
THICK, THIN = 1.4, 0.4


@dataclass(frozen=True, slots=True)
class Scale:
    """One axis in its unit on paper: least and greatest value, step from tick to tick, length in points."""

    axis: Axis
    system: UnitSystem
    least: float
    greatest: float
    step: float
    length: float

    def at(self, value: float) -> float:
        """Distance in points of an SI value from the beginning of the axis."""
        return self._at_shown(self.axis.measure.shown(value, self.system))

    def ticks(self) -> Iterator[tuple[float, str]]:
        """(distance, number) of each tick."""
        decimals = max(0, -math.floor(math.log10(self.step) + 1e-9))
        for number in range(round((self.greatest - self.least) / self.step) + 1):
            shown = self.least + number * self.step
            yield self._at_shown(shown), f"{shown:,.{decimals}f}"

    @property
    def title(self) -> str:
        unit = self.axis.measure.symbol(self.system)
        return f"{self.axis.label} ({unit})" if unit else self.axis.label

    def _at_shown(self, shown: float) -> float:
        return (shown - self.least) / (self.greatest - self.least) * self.length


def scale_of(axis: Axis, values: list[float], system: UnitSystem, length: float) -> Scale:
    """An axis from zero, or below it, to past the greatest value, with round ticks."""
    shown = [axis.measure.shown(value, system) for value in values]
    low, high = min(0.0, *shown), max(0.0, *shown)
    step = _round_step((high - low) / TICKS) if high > low else 1.0
    return Scale(
        axis, system, math.floor(low / step + 1e-9) * step, math.ceil(high / step - 1e-9) * step or step, step, length
    )


def _round_step(rough: float) -> float:
    """One, two or five times a power of ten, at least as large."""
    power = 10.0 ** math.floor(math.log10(rough))
    return next(power * times for times in (1.0, 2.0, 5.0, 10.0) if power * times >= rough * (1 - 1e-9))


class ChartOnPaper:
    """One chart laid out below the cursor."""

    def __init__(self, chart: Chart, system: UnitSystem, pages: Pages) -> None:
        self._chart, self._system, self._pages = chart, system, pages
        self._width = pages.room_across * PLOT_SHARE - AXIS_ROOM
        places = [place for line in chart.lines for place in line.points]
        places += [(point.along, point.up) for point in chart.points]
        self._along = scale_of(chart.along, [along for along, _ in places], system, self._width)
        self._up = scale_of(chart.up, [up for _, up in places], system, HEIGHT)

    def draw(self) -> None:
        """Draw all of it in one piece, on a new page where this one is too full."""
        above, below = s.SMALL.leading + s.GAP, 2 * s.SMALL.leading + s.GAP
        self._pages.need(HEIGHT + above + below)
        self._pages.text(Run(AXIS_ROOM, self._up.title, s.SMALL_STRONG), self._pages.y - s.SMALL.leading * 0.7)
        self._bottom = self._pages.y - above - HEIGHT
        self._draw_grid()
        for line in self._chart.lines:
            self._pages.stroke([self._place(*point) for point in line.points], s.INK, THICK, DASHES[line.style])
        self._draw_points()
        self._draw_legend(self._pages.y - above)
        self._pages.y = self._bottom - below
        self._pages.skip(s.GAP)

    def _place(self, along: float, up: float) -> tuple[float, float]:
        return AXIS_ROOM + self._along.at(along), self._bottom + self._up.at(up)

    def _draw_grid(self) -> None:
        pages, bottom = self._pages, self._bottom
        for across, number in self._along.ticks():
            x = AXIS_ROOM + across
            pages.stroke([(x, bottom), (x, bottom + HEIGHT)], s.RULE, THIN)
            pages.text(Run(x + width_of(number, s.SMALL) / 2, number, s.SMALL, right=True), bottom - s.SMALL.leading)
        for above, number in self._up.ticks():
            pages.stroke([(AXIS_ROOM, bottom + above), (AXIS_ROOM + self._width, bottom + above)], s.RULE, THIN)
            pages.text(Run(AXIS_ROOM - s.GAP, number, s.SMALL, right=True), bottom + above - s.SMALL.size * 0.35)
        frame = [(AXIS_ROOM, bottom + HEIGHT), (AXIS_ROOM, bottom), (AXIS_ROOM + self._width, bottom)]
        pages.stroke(frame, s.INK, THIN * 2)
        title = Run(AXIS_ROOM + self._width, self._along.title, s.SMALL_STRONG, right=True)
        pages.text(title, bottom - 2 * s.SMALL.leading)

    def _draw_points(self) -> None:
        for point in self._chart.points:
            x, y = self._place(point.along, point.up)
            self._pages.dot(x, y, DOT, s.ACCENT)
            self._pages.patch(x + DOT + 1, y + DOT, width_of(point.letter, s.SMALL_STRONG) + 2, s.SMALL_STRONG.size)
            self._pages.text(Run(x + DOT + 2, point.letter, s.SMALL_STRONG), y + DOT + 1)

    def _draw_legend(self, top: float) -> None:
        """Line samples with their names, then each point with where it lies."""
        pages, left, y = self._pages, AXIS_ROOM + self._width + 3 * s.GAP, top
        text_at = left + SAMPLE + s.GAP
        room = pages.room_across - text_at
        for line in self._chart.lines:
            y -= s.CELL.leading
            pages.stroke([(left, y + 3), (left + SAMPLE, y + 3)], s.INK, THICK, DASHES[line.style])
            y = self._legend_text(line.name, text_at, y, room)
        for point in self._chart.points:
            y -= s.CELL.leading
            pages.dot(left + SAMPLE / 2 - DOT, y + 3, DOT, s.ACCENT)
            pages.text(Run(left + SAMPLE / 2 + DOT, point.letter, s.SMALL_STRONG), y)
            along, up = self._chart.along.measure, self._chart.up.measure
            where = f"{along.phrase(point.along, self._system)}, {up.phrase(point.up, self._system)}"
            y = self._legend_text(f"{point.name}: {where}", text_at, y, room)

    def _legend_text(self, text: str, x: float, y: float, room: float) -> float:
        """Text from a baseline down; returns the baseline of its last line."""
        lines = wrapped(text, s.CELL, room)
        for number, line in enumerate(lines):
            self._pages.text(Run(x, line, s.CELL), y - number * s.CELL.leading)
        return y - (len(lines) - 1) * s.CELL.leading - s.GAP / 2

"""A chart as a value: lines and marked points over two measured axes, drawn by the writers and by the window.

Numbers stay SI floats with the measure of their axis until they are drawn.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from waterpark_designer.documents.table import Column, Number, Row, Table
from waterpark_designer.units import Measure


class LineStyle(StrEnum):
    """How a line is told from the others without colour."""

    SOLID = "solid"
    DASHED = "dashed"
    DOTTED = "dotted"


@dataclass(frozen=True, slots=True)
class Axis:
    """What runs along one side of a chart."""

    label: str
    measure: Measure


@dataclass(frozen=True, slots=True)
class ChartLine:
    """A named line through points (along, up) in SI."""

    name: str
    style: LineStyle
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class ChartPoint:
    """A point that is marked with its letter and told in the legend."""

    letter: str
    name: str
    along: float
    up: float


@dataclass(frozen=True, slots=True)
class Chart:
    """A chart with its title, its two axes, lines and marked points."""

    title: str
    along: Axis
    up: Axis
    lines: tuple[ChartLine, ...]
    points: tuple[ChartPoint, ...]


def points_table(chart: Chart) -> Table:
    """The marked points as a table, where nothing can be drawn."""
    return Table(chart.title, _columns(chart), tuple(_point_rows(chart)), gathered=True)


def chart_table(chart: Chart) -> Table:
    """Marked points and lines as rows, for spreadsheets."""
    lines = (
        Row((line.name, Number(along, chart.along.measure), Number(up, chart.up.measure)))
        for line in chart.lines
        for along, up in line.points
    )
    return Table(chart.title, _columns(chart), (*_point_rows(chart), *lines), gathered=True)


def _columns(chart: Chart) -> tuple[Column, ...]:
    return (
        Column("Point or line", weight=2.0),
        Column(chart.along.label, chart.along.measure),
        Column(chart.up.label, chart.up.measure),
    )


def _point_rows(chart: Chart) -> Iterator[Row]:
    for point in chart.points:
        name = f"{point.letter}  {point.name}"
        yield Row((name, Number(point.along, chart.along.measure), Number(point.up, chart.up.measure)))

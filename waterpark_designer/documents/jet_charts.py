"""Jets of a river over their speed: flow and power as charts, and a table of speeds to choose from."""

import math
from collections.abc import Callable

from waterpark_designer.documents.chart import Axis, Chart, ChartLine, ChartPoint, LineStyle
from waterpark_designer.documents.table import Column, Number, Row, Table
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.jet_speeds import JetDuty, JetSpeeds
from waterpark_designer.units import VELOCITY

STEPS = 60
MOST_FLOW = 1.2
"""Over the flow of the jets of least power: slower jets would stretch the chart beyond use."""
TRADE_OFF = (
    "Jets at twice the speed of the current take the least power; faster ones need less flow, smaller pumps and pipes, "
    "and more power. Power is that of the water leaving the jets; losses of pipes, pump and motor come on top."
)
LEAST_POWER, ENTERED = "Least power", "Speed entered"
COMPARED = ("jet_flow", "jet_power", "propulsive_efficiency", "jet_head", "jet_bore")


def jet_charts(speeds: JetSpeeds) -> tuple[Chart, Chart]:
    """Flow and power of the jets over their speed, with that of least power and the speed entered."""
    most = MOST_FLOW * max(duty.flow for _, duty in _marked(speeds))
    duties = [duty for duty in speeds.evenly(STEPS) if duty.flow <= most]
    return (
        _chart("Jet flow over jet speed", "jet_flow", LineStyle.SOLID, duties, speeds, lambda duty: duty.flow),
        _chart("Jet power over jet speed", "jet_power", LineStyle.DASHED, duties, speeds, lambda duty: duty.power),
    )


def _chart(
    title: str, key: str, style: LineStyle, duties: list[JetDuty], speeds: JetSpeeds, up: Callable[[JetDuty], float]
) -> Chart:
    kind = FIGURE_KINDS[key]
    line = ChartLine(kind.label, style, tuple((duty.speed, up(duty)) for duty in duties))
    points = tuple(
        ChartPoint(letter, name, duty.speed, up(duty))
        for letter, (name, duty) in zip("AB", _marked(speeds), strict=False)
    )
    return Chart(title, Axis("Jet speed", VELOCITY), Axis(kind.label, kind.measure), (line,), points)


def _marked(speeds: JetSpeeds) -> list[tuple[str, JetDuty]]:
    marked = [(LEAST_POWER, speeds.at(speeds.of_least_power))]
    return [*marked, (ENTERED, speeds.at(speeds.chosen))] if speeds.chosen else marked


def jet_table(speeds: JetSpeeds) -> Table:
    """The jets at twice to eight times the current and at the speed entered."""
    kinds = [FIGURE_KINDS[key] for key in COMPARED]
    columns = (
        Column("Jet speed", VELOCITY),
        *(Column(kind.label, kind.measure) for kind in kinds),
        Column("Remarks", weight=2.0),
    )
    rows = tuple(_row(duty, speeds) for duty in speeds.compared())
    return Table("Choice of jet speed", columns, rows, (TRADE_OFF,), gathered=True)


def _row(duty: JetDuty, speeds: JetSpeeds) -> Row:
    figures = (duty.flow, duty.power, duty.efficiency, duty.head, duty.bore)
    numbers = (Number(figure, FIGURE_KINDS[key].measure) for key, figure in zip(COMPARED, figures, strict=True))
    told = (name.lower() for name, marked in _marked(speeds) if math.isclose(marked.speed, duty.speed, rel_tol=1e-3))
    return Row((Number(duty.speed, VELOCITY), *numbers, ", ".join(told)))

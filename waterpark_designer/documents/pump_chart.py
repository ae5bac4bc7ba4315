"""Pump curve, system curves, duty and operating points as a chart."""

from collections.abc import Callable

from waterpark_designer.documents.chart import Axis, Chart, ChartLine, ChartPoint, LineStyle
from waterpark_designer.engine.size_pump import PumpCurves
from waterpark_designer.units import FLOW, HEAD

TITLE = "Pump and system curves"
STEPS = 60
BEYOND = 1.25
"""How far past the duty flow and the operating points the lines run."""
HEADROOM = 1.15
"""How far above the pump's greatest head the system lines run."""
ALIKE = 0.004
"""Points this close to each other, by share of duty, are one point on paper."""
LETTERS = "ABC"


def pump_chart(curves: PumpCurves) -> Chart:
    """The curves from no flow to past the operating points; the system's two lines are one where they agree."""
    most = BEYOND * max(flow for flow, _ in _marked(curves).values())
    pump = _line("Pumps", LineStyle.SOLID, curves.pumps.head, curves.pumps.least_flow, _end(curves, most))
    top = HEADROOM * max(head for _, head in pump.points)
    clean = _line("System, clean filters", LineStyle.DASHED, curves.clean.head, 0.0, most, top)
    dirty = _line("System, dirty filters", LineStyle.DOTTED, curves.dirty.head, 0.0, most, top)
    one = ChartLine("System", LineStyle.DASHED, clean.points)
    systems = (one,) if clean.points == dirty.points else (clean, dirty)
    return Chart(TITLE, Axis("Flow", FLOW), Axis("Head", HEAD), (pump, *systems), _points(curves))


def _end(curves: PumpCurves, most: float) -> float:
    return min(most, curves.pumps.greatest_flow)


def _line(
    name: str, style: LineStyle, head: Callable[[float], float], start: float, end: float, top: float | None = None
) -> ChartLine:
    """A line sampled evenly; what stands above `top` is left out."""
    flows = (start + (end - start) * step / STEPS for step in range(STEPS + 1))
    points = tuple((flow, head(flow)) for flow in flows)
    return ChartLine(name, style, tuple(point for point in points if top is None or point[1] <= top))


def _marked(curves: PumpCurves) -> dict[str, tuple[float, float]]:
    """Every point to mark by its name; operating points are left out where there are none."""
    found = {"Duty": (curves.duty_flow, curves.duty_head)}
    same = curves.at_clean is not None and curves.at_clean == curves.at_dirty
    names = ("Operating point", "") if same else ("Operating, clean filters", "Operating, dirty filters")
    for name, point in zip(names, (curves.at_clean, curves.at_dirty), strict=True):
        if name and point is not None:
            found[name] = (point.flow, point.head)
    return found


def _points(curves: PumpCurves) -> tuple[ChartPoint, ...]:
    """The marked points with letters; those that coincide share one."""
    places: list[tuple[list[str], tuple[float, float]]] = []
    for name, place in _marked(curves).items():
        at = next((names for names, other in places if _alike(place, other, curves)), None)
        if at is None:
            places.append(([name], place))
        else:
            at.append(name)
    return tuple(
        ChartPoint(letter, _joined(names), *place) for letter, (names, place) in zip(LETTERS, places, strict=False)
    )


def _alike(one: tuple[float, float], other: tuple[float, float], curves: PumpCurves) -> bool:
    flow, head = abs(one[0] - other[0]), abs(one[1] - other[1])
    return flow <= ALIKE * curves.duty_flow and head <= ALIKE * curves.duty_head


def _joined(names: list[str]) -> str:
    return " and ".join((names[0], *(name[0].lower() + name[1:] for name in names[1:])))

"""Schedule lines of what water passes between basin and equipment: strainers, meter, openings, pipes and valves."""

from waterpark_designer.engine.divide_flow import suction_of
from waterpark_designer.engine.schedule import Amount, ScheduleLine
from waterpark_designer.engine.schedule_lines import ScheduleLines, counted
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pipes import pipe_name, run_on
from waterpark_designer.engine.worked import YOUR_ENTRY, Value, Worked, greatest, leaf, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import FeaturePump, LineKind, Overflow
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.sources import ARITHMETIC
from waterpark_designer.units import COUNT, FLOW, LENGTH, nominal

METERED = (LineKind.RETURN_HEADER, LineKind.PUMP_DISCHARGE)
"""Lines that carry all filtered water; the meter stands in the first of them that there is."""
VALVES = {"butterfly_valves": "Butterfly valve", "check_valves": "Check valve"}
FITTINGS = {"elbows 90°": ("elbows_90",), "elbows 45°": ("elbows_45",), "tees": ("tees_run", "tees_branch")}
RATED = "listed suction fitting, rated with any one blocked; entrapment, see the cautions"
SINGLE = "single outlet, an entrapment hazard: see the checks; rated for all flow"


def pumps_bought(system: RecirculationSystem) -> int:
    """Recirculation pumps, the one that stands by included."""
    return system.pump.count + (1 if system.standby_pump else 0)


def strainers(lines: ScheduleLines) -> list[ScheduleLine]:
    """One strainer ahead of each pump, unless it is said that none takes head there."""
    if not lines.system.equipment.strainer:
        return []
    suction = suction_of(_own_runs(lines))
    flow = lines.present("pump_flow", "each") or (lines.amount("design_flow"),)
    return [
        lines.line(
            "strainer",
            "S",
            "Strainer ahead of the pump",
            counted(pumps_bought(lines.system)),
            flow,
            lines.present("strainer_area", "open area"),
            f"in the suction, {pipe_name(suction)}" if suction is not None else "size with the suction line",
            "pump_flow",
            "strainer_area",
            runs=(suction,) if suction is not None else (),
        )
    ]


def flow_meter(lines: ScheduleLines) -> list[ScheduleLine]:
    """The meter of the filtered water."""
    run = next((run for kind in METERED if (run := _run_of_kind(lines, kind)) is not None), None)
    return [
        lines.line(
            "flow-meter",
            "FM",
            "Flow meter",
            counted(1),
            (lines.amount("design_flow"),),
            lines.present("meter_range", "at least"),
            f"in the line, {pipe_name(run)}" if run is not None else "size with the line it stands in",
            "design_flow",
            "meter_range",
            runs=(run,) if run is not None else (),
        )
    ]


def openings(lines: ScheduleLines) -> list[ScheduleLine]:
    """Suction outlet covers, skimmers and return inlets of each body of water."""
    gutter = any(run.kind is LineKind.GUTTER for run in lines.system.pipe_runs)
    below = {sheet.node.id: sheet for sheet in lines.sized.below}
    found = []
    for body in lines.sized.bodies:
        attraction = body.node
        assert isinstance(attraction, Attraction)
        plan = attraction.openings
        unstated = plan.overflow is Overflow.NOT_STATED
        if "greatest_depth" in body.figures:
            found += _covers(lines, body, attraction.suction_outlets, attraction.suction_outlets, "design_flow")
        for feature in attraction.features:
            if feature.pump is FeaturePump.OWN:
                sheet, on_one = below[feature.id], feature.outlets_on_each_line
                found += _covers(lines, sheet, feature.suction_outlets, on_one, "feature_flow")
        if not (unstated and gutter):
            remark = "unless there is a gutter" if unstated else ""
            found += _several(lines, body, "skimmers", plan.skimmers, "SK", "Skimmer", "skimmer_flow", remark)
        found += _several(lines, body, "inlets", plan.inlets, "RI", "Return inlet", "inlet_flow")
    return found


def _covers(
    lines: ScheduleLines, owner: Sheet, outlets: int | None, on_one: int | None, flow: str
) -> list[ScheduleLine]:
    """Covers of the outlets of a body of water or a feature, of which so many are on one suction line."""
    if not outlets:
        return []
    single = on_one == 1
    rating = lines.present(flow, "", owner) if single else lines.present("outlet_flow", "one blocked", owner)
    return [
        lines.line(
            "suction-cover",
            "SO",
            f"Suction outlet cover, {owner.node.name}",
            counted(outlets),
            lines.present(flow, "through all", owner),
            rating,
            SINGLE if single else RATED,
            flow,
            "outlet_flow",
            sheet=owner,
        )
    ]


def _several(
    lines: ScheduleLines,
    body: Sheet,
    figure: str,
    drawn: int | None,
    letter: str,
    item: str,
    flow: str,
    remark: str = "",
) -> list[ScheduleLine]:
    """As many pieces as are drawn, or else as a figure of a body of water asks for, where it asks for any."""
    least = body[figure]
    if drawn is None and (not isinstance(least, Worked) or least < 1):
        return []
    quantity, origin = (least, "least number") if drawn is None else (counted(drawn), "as drawn")
    title, duty = f"{item}, {body.node.name}", lines.present(flow, "each", body)
    remarks = ", ".join(filter(None, (origin, remark)))
    return [lines.line(figure, letter, title, quantity, duty, (), remarks, figure, flow, sheet=body)]


def pipes(lines: ScheduleLines) -> list[ScheduleLine]:
    """Pipe by standard and size with its elbows and tees, priced as one lot; like runs count."""
    return [
        lines.line(
            f"pipe-{size}",
            "L",
            f"Pipe, {size}",
            counted(1),
            (Amount(total("Length of all runs", _lengths(runs), LENGTH, ARITHMETIC), nominal(LENGTH), "in all"),),
            tuple(_fittings(runs)),
            ", ".join(run.node.name for run in runs),
            runs=runs,
        )
        for size, runs in _by_size(lines).items()
    ]


def valves(lines: ScheduleLines) -> list[ScheduleLine]:
    """Valves by kind and size of their pipe."""
    found = []
    for field, item in VALVES.items():
        for size, runs in _by_size(lines).items():
            fitted = [run for run in runs if getattr(run.node, field)]
            if fitted:
                flow = greatest("Most flow", [(run.node.name, run["run_flow"]) for run in fitted], FLOW, ARITHMETIC)
                key, names = f"{field.replace('_', '-')}-{size}", ", ".join(run.node.name for run in fitted)
                duty = (Amount(flow, FLOW, "at most"),)
                number = counted(_pieces(fitted, (field,)))
                found.append(lines.line(key, "V", f"{item}, {size}", number, duty, (), names, runs=fitted[:1]))
    return found


def _by_size(lines: ScheduleLines) -> dict[str, list[Sheet]]:
    """The runs of a system and its features by standard and size, narrowest first."""
    sized: dict[str, list[Sheet]] = {}
    for sheet in sorted(lines.sized.below, key=_bore):
        if isinstance(sheet.node, PipeRun) and isinstance(sheet["inside_diameter"], Worked):
            sized.setdefault(pipe_name(sheet), []).append(sheet)
    return dict(sorted(sized.items(), key=lambda item: item[0].partition(",")[0]))


def _lengths(runs: list[Sheet]) -> list[tuple[str, Value]]:
    nodes = [run.node for run in runs if isinstance(run.node, PipeRun)]
    return [(run.name, leaf(run.length * run.count, run.name, YOUR_ENTRY)) for run in nodes]


def _fittings(runs: list[Sheet]) -> list[Amount]:
    numbers = {name: _pieces(runs, fields) for name, fields in FITTINGS.items()}
    return [Amount(counted(number), COUNT, name) for name, number in numbers.items() if number]


def _pieces(runs: list[Sheet], fields: tuple[str, ...]) -> int:
    """Fittings on all runs, like runs included."""
    nodes = [run.node for run in runs if isinstance(run.node, PipeRun)]
    return sum(getattr(run, field) * run.count for run in nodes for field in fields)


def _run_of_kind(lines: ScheduleLines, kind: LineKind) -> Sheet | None:
    """The system's first run of a kind; those of features do not count."""
    return next((sheet for sheet in _own_runs(lines) if run_on(sheet).kind is kind), None)


def _own_runs(lines: ScheduleLines) -> list[Sheet]:
    own = {run.id for run in lines.system.pipe_runs}
    return [sheet for sheet in lines.sized.below if sheet.node.id in own]


def _bore(sheet: Sheet) -> float:
    """Inside diameter [m] of a run; nothing for other nodes."""
    value = sheet["inside_diameter"]
    return float(value) if isinstance(value, Worked) else 0.0

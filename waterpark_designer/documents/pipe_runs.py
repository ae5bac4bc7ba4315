"""Pipe runs in flow order, and the take-off of pipe, fittings and valves."""

from collections.abc import Iterable, Iterator

from waterpark_designer.documents.circuits import CircuitSheets
from waterpark_designer.documents.grounds import Grounds, Notes
from waterpark_designer.documents.pipe_names import in_units, pipe_text
from waterpark_designer.documents.table import Cell, Column, Number, Row, RowKind, Table, count, number
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pipes import nominal_size, run_on
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.units import COUNT, LENGTH, UnitSystem, nominal

PIPE_LENGTH = nominal(LENGTH)
FIGURES = {
    "run_flow": "Flow of one",
    "velocity": "Velocity",
    "velocity_limit": "Limit",
    "friction_loss": "Friction",
    "fittings_loss": "Fittings",
    "run_loss": "Loss",
}
ASSUMED = "Runs marked “assumed” have lengths and fittings of common practice; replace them by what the drawing shows."
OFF_PATH = "A run “not counted” does not lie on the longest path of the pump's water; its loss is not in the head."
BRANCH = (
    "Runs with the same branch stand side by side: the flow divides so that each loses the same head, counted once."
)
OVER_LIMIT = "A velocity marked “over” is above its limit."
ITEMS = {
    "Elbows 90°": ("elbows_90",),
    "Elbows 45°": ("elbows_45",),
    "Tees": ("tees_run", "tees_branch"),
    "Butterfly valves": ("butterfly_valves",),
    "Check valves": ("check_valves",),
}
TAKE_OFF = "Pipe take-off"
BOUGHT = "Lengths and counts are those of the runs, like runs included; waste and supports are not in them."
NOMINAL = {
    UnitSystem.US: "Sizes are nominal sizes in inches.",
    UnitSystem.SI: "DN is the nominal diameter of pipe that is made to the size in inches beside it.",
}


def runs_table(circuit: CircuitSheets, grounds: Grounds, system: UnitSystem) -> Table:
    """The runs of one circuit in flow order."""
    notes = Notes(system)
    columns = (
        Column("Run", weight=2.0),
        Column("Pipe", weight=1.6),
        Column("Length", PIPE_LENGTH),
        Column("Like runs", COUNT),
        *(Column(heading, FIGURE_KINDS[key].measure) for key, heading in FIGURES.items()),
        Column("State", weight=1.6),
        Column("Notes", weight=0.5),
    )
    rows = tuple(_run_row(sheet, notes, grounds, system) for sheet in circuit.runs)
    words = " ".join(str(row.cells[-2]) for row in rows)
    told = ((ASSUMED, "assumed"), (OFF_PATH, "not counted"), (OVER_LIMIT, "over"), (BRANCH, "branch"))
    said = tuple(sentence for sentence, word in told if word in words)
    return Table("Pipe runs in flow order", columns, rows, (*said, *_needs(circuit.runs), *notes.lines), gathered=True)


def _run_row(sheet: Sheet, notes: Notes, grounds: Grounds, system: UnitSystem) -> Row:
    run = run_on(sheet)
    name = run.name if run.name.lower().startswith(run.kind.label.lower()) else f"{run.name} ({run.kind.label.lower()})"
    figures = tuple(number(sheet[key], sheet.figures[key].kind.measure) for key in FIGURES)
    refer = notes.refer(grounds.without_methods(run.id, sheet.figures))
    cells: tuple[Cell, ...] = (name, pipe_text(sheet, system), Number(run.length, PIPE_LENGTH), count(run.count))
    return Row((*cells, *figures, _state(sheet), refer), node=run.id)


def _state(sheet: Sheet) -> str:
    """Assumed or measured, over its limit, and whether its loss counts."""
    run, velocity, limit = run_on(sheet), sheet["velocity"], sheet["velocity_limit"]
    over = isinstance(velocity, Worked) and isinstance(limit, Worked) and velocity > limit * (1 + 1e-9)
    words = (
        "assumed" if run.assumed else "as drawn",
        f"branch {run.branch}" if run.branch else "",
        "" if run.in_pump_head else "not counted",
        "velocity over" if over else "",
        "size fixed" if run.size else "",
    )
    return ", ".join(word for word in words if word)


def _needs(runs: Iterable[Sheet]) -> tuple[str, ...]:
    """What is needed where a run has a dash, each sentence once."""
    needs = (
        f"{sheet.node.name}: {figure.value.needs}"
        for sheet in runs
        for figure in sheet.figures.values()
        if isinstance(figure.value, Missing) and not figure.value.waits_for
    )
    return tuple(dict.fromkeys(needs))


def take_off_table(found: tuple[CircuitSheets, ...], system: UnitSystem) -> Table:
    """Pipe, fittings and valves of the whole site by standard and size."""
    columns = (
        Column("Pipe", weight=2.0),
        Column("Length", PIPE_LENGTH),
        *(Column(item, COUNT) for item in ITEMS),
        Column("Runs", COUNT),
    )
    sized = _by_size(found)
    rows = [Row((_pipe(standard, size, system), *_amounts(runs))) for (standard, _, size), runs in sized]
    everything = [run for _, runs in sized for run in runs]
    if rows:
        rows.append(Row(("All sizes", *_amounts(everything)), RowKind.TOTAL))
    left = sum(len(circuit.runs) for circuit in found) - len(everything)
    short = (f"Runs without a standard size, not in it: {left}.",) if left else ()
    return Table(
        TAKE_OFF, columns, tuple(rows), notes=(BOUGHT, NOMINAL[system], *short), empty="No pipe has a size yet."
    )


def _pipe(standard: str, size: str, system: UnitSystem) -> str:
    """Standard and size; in metric units both sizes, since the pipe is bought by either."""
    inches = f"{standard}, {size} in"
    return inches if system is UnitSystem.US else f"{in_units(inches, system)} ({size} in)"


def _by_size(found: Iterable[CircuitSheets]) -> list[tuple[tuple[str, float, str], list[Sheet]]]:
    """Runs by standard and nominal size, smallest first."""
    sized: dict[tuple[str, float, str], list[Sheet]] = {}
    for sheet in (sheet for circuit in found for sheet in circuit.runs):
        size = nominal_size(sheet)
        if size:
            sized.setdefault((run_on(sheet).standard.label, float(size), size), []).append(sheet)
    return sorted(sized.items())


def _amounts(runs: Iterable[Sheet]) -> Iterator[Cell]:
    nodes = [run_on(sheet) for sheet in runs]
    yield Number(sum(run.length * run.count for run in nodes), PIPE_LENGTH)
    for fields in ITEMS.values():
        yield count(sum(getattr(run, field) * run.count for run in nodes for field in fields))
    yield count(sum(run.count for run in nodes))

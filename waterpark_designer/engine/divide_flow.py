"""Pipe runs of one circuit; those side by side between the same two points divide their flow by resistance."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import pipes
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pipes import line_of, run_on, size_run, size_run_carrying
from waterpark_designer.engine.system_curve import Branches, EquipmentLoss, Line
from waterpark_designer.engine.water_at import Water
from waterpark_designer.engine.worked import Missing, Step, Value, Worked, given, greatest
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import AttractionKind, LineKind, VelocityClass
from waterpark_designer.sources import ARITHMETIC, Provenance, Source
from waterpark_designer.units import FLOW, HEAD

MOST_PASSES = 12
DIVIDED = Source("Division of the flow by which every branch loses the same head, solved", Provenance.DEFINITION)
EVENLY = Source("Divided evenly over like pipes, since no division by resistance was found", Provenance.COMMON_PRACTICE)
BY_HAND = Source(
    "Divided evenly over like pipes, since flow or loss of a branch is set by hand", Provenance.COMMON_PRACTICE
)
Group = tuple[Sheet, ...]


def size_runs(
    runs: Sequence[PipeRun],
    flow_of: Callable[[PipeRun], Value],
    kinds: Iterable[AttractionKind],
    water: Water,
    context: Context,
) -> tuple[Sheet, ...]:
    """Figures of the runs of a circuit, in its order; `flow_of` is the flow of which a run carries a share."""
    kinds = tuple(kinds)
    sheets: dict[str, Sheet] = {}
    for places in _together(runs):
        group = [runs[place] for place in places]
        if len(group) == 1:
            sized = [size_run(group[0], flow_of(group[0]), kinds, water, context)]
        else:
            sized = _size_branches(group, flow_of(group[0]), kinds, water, context)
        sheets.update((sheet.node.id, sheet) for sheet in sized)
    return tuple(sheets[run.id] for run in runs)


def groups_on_path(sheets: Sequence[Sheet]) -> list[Group]:
    """Runs whose loss counts in the pump's head, in flow order, branches of one junction together."""
    return [group for group in groups_of(sheets) if any(run_on(sheet).in_pump_head for sheet in group)]


def groups_of(sheets: Sequence[Sheet]) -> list[Group]:
    """Runs in flow order, branches of one junction together where the first stands."""
    groups = _together(run_on(sheet) for sheet in sheets)
    return [tuple(sheets[place] for place in places) for places in groups]


def loss_of(group: Group) -> Value:
    """Head lost in one run, or in all branches of a junction at once."""
    if len(group) == 1:
        return group[0]["run_loss"]
    parts = [(sheet.node.name, sheet["run_loss"]) for sheet in group]
    return greatest("Head lost in each branch", parts, HEAD, ARITHMETIC)


def name_of(group: Group) -> str:
    """What a run, or the branches of a junction, are called in a head build-up."""
    return group[0].node.name if len(group) == 1 else f"Branches {run_on(group[0]).branch}"


def part_of(group: Group, flow: float, context: Context) -> Line | Branches | EquipmentLoss | None:
    """A run or the branches of a junction as the solvers take it, as `line_of`; None while it is not known."""
    if len(group) == 1:
        return line_of(group[0], flow, context)
    if division_of(group[0]) is not DIVIDED:
        loss = loss_of(group)
        return EquipmentLoss(float(loss), flow) if isinstance(loss, Worked) else None
    return _branches(group, context)


def division_of(sheet: Sheet) -> Source | None:
    """How the flow of a branch was divided; None for a run that is no branch."""
    figure = sheet.figures["run_flow"]
    value = figure.as_computed
    source = value.step.source if isinstance(value, Worked) else None
    return source if source in (DIVIDED, EVENLY, BY_HAND) else None


def shares_differ(group: Group) -> bool:
    """Whether branches of one junction state different shares of the flow for all of them together."""
    return len({run_on(sheet).flow_share for sheet in group}) > 1


def suction_of(sheets: Sequence[Sheet]) -> Sheet | None:
    """The run that brings water to the pump: its suction, or the last line on the path that is drawn through."""
    drawn = [sheet for sheet in sheets if run_on(sheet).kind.velocity_class is VelocityClass.SUCTION]
    own = next((sheet for sheet in drawn if run_on(sheet).kind is LineKind.PUMP_SUCTION), None)
    return own or next((sheet for sheet in reversed(drawn) if run_on(sheet).in_pump_head), None)


def _together(runs: Iterable[PipeRun]) -> list[tuple[int, ...]]:
    """Places of the runs in flow order, those of one junction in one group where the first stands."""
    groups: dict[tuple[str, str], tuple[int, ...]] = {}
    for place, run in enumerate(runs):
        key = ("junction", run.branch) if run.branch else ("run", run.id)
        groups[key] = (*groups.get(key, ()), place)
    return list(groups.values())


def _size_branches(
    runs: Sequence[PipeRun], flow: Value, kinds: tuple[AttractionKind, ...], water: Water, context: Context
) -> list[Sheet]:
    """Sizes by an even split, then by the division they give; a size only grows, so that it comes to an end."""
    largest = max(runs, key=lambda run: run.flow_share)
    together = pipes.part_of_flow(flow, given(largest, "flow_share"))

    def sized(flows: Sequence[float] | None, bores: Sequence[float], source: Source) -> list[Sheet]:
        each = [_share_of(together, flow, source) for flow in flows] if flows else [together] * len(runs)
        carrying = zip(runs, each, bores, strict=True)
        return [size_run_carrying(run, one, kinds, water, context, bore) for run, one, bore in carrying]

    if isinstance(together, Missing):
        return sized(None, [0.0] * len(runs), EVENLY)
    even = [float(together) / sum(run.count for run in runs)] * len(runs)
    by_hand = any(override.figure in ("run_flow", "run_loss") for run in runs for override in run.overrides)
    sheets = fallback = sized(even, [0.0] * len(runs), BY_HAND if by_hand else EVENLY)
    for _ in range(0 if by_hand else MOST_PASSES):
        bores = [float(sheet["inside_diameter"]) for sheet in sheets if isinstance(sheet["inside_diameter"], Worked)]
        flows = _divided(tuple(sheets), float(together), water, context)
        if flows is None or len(bores) < len(runs):
            return fallback
        sheets = sized(flows, bores, DIVIDED)
        if [sheet["inside_diameter"] for sheet in sheets] == bores:
            return sheets
    return fallback


def _share_of(together: Value, each: float, source: Source) -> Value:
    parts = (("Flow of all branches", together),) if isinstance(together, Worked) else ()
    return Worked(each, Step("Flow of one pipe of this branch", source, parts=parts, measure=FLOW))


def _divided(group: Group, together: float, water: Water, context: Context) -> list[float] | None:
    """Flow of one pipe of each branch."""
    branches, viscosity = _branches(group, context), water.kinematic_viscosity
    if branches is None or isinstance(viscosity, Missing):
        return None
    flows = replace(branches, flow_share=1.0).flows(together, float(viscosity))
    return None if flows is None else [flow / run_on(sheet).count for flow, sheet in zip(flows, group, strict=True)]


def _branches(group: Group, context: Context) -> Branches | None:
    lines = [line_of(sheet, 1.0, context) for sheet in group]
    known = [
        replace(line, flow_share=1.0 / run_on(sheet).count)
        for line, sheet in zip(lines, group, strict=True)
        if isinstance(line, Line)
    ]
    share = max(run_on(sheet).flow_share for sheet in group)
    return Branches(tuple(known), share) if len(known) == len(group) else None

"""Hydraulics of one recirculation system: its pipe runs, the head, the pump, and its openings."""

from collections.abc import Sequence

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.divide_flow import size_runs, suction_of
from waterpark_designer.engine.formulas import openings
from waterpark_designer.engine.head_build_up import recirculation_circuit, source_of
from waterpark_designer.engine.pipe_pressures import rate_run
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pump import PumpCurves, size_pump
from waterpark_designer.engine.size_surge_tank import size_tanks
from waterpark_designer.engine.water_at import water_at
from waterpark_designer.engine.worked import Step, Value, Worked, given
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import LineKind
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.rules.rule_set import Fact
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import HEAD

DIRTY_UNLESS_STATED = Source(
    "The safe side, since the code basis does not say which filter condition counts", Provenance.COMMON_PRACTICE
)
OWN = "recirculation_"
"""Stands before the keys of the recirculation pump's own power and energy; the sums have those of features in them."""


def pipe_the_system(
    sheet: Sheet, bodies: Sequence[Sheet], system: RecirculationSystem, facts: dict[str, Fact], context: Context
) -> tuple[tuple[Sheet, ...], PumpCurves | None]:
    """Enter a system's hydraulics; returns the sheets of its pipe runs, and the pump's curves where they are known."""
    if not system.attractions:
        return (), None
    temperatures = [body.water_temperature for body in system.attractions]
    # The coldest water is the most viscous; the warmest boils first at the pump's eye.
    water, warmest = water_at(min(temperatures)), water_at(max(temperatures))
    runs = size_runs(system.pipe_runs, lambda run: sheet[_flow_of(run, sheet)], system.kinds, water, context)
    if not runs:
        size_tanks(sheet, bodies, system, runs, context)
        return (), None
    for run in runs:
        rate_run(run, max(temperatures), warmest, context)
    circuit = recirculation_circuit(sheet, system, runs, water, facts, context)
    clean, dirty = circuit.head(sheet)
    duty = _duty_head(sheet, system, clean, dirty, context)
    strainer = given(system.equipment, "strainer", source_of(system.equipment))
    curves = size_pump(sheet, system.pump, circuit, sheet["design_flow"], duty, strainer, water, warmest, context, OWN)
    _strainer_and_meter(sheet, system, runs, context)
    size_tanks(sheet, bodies, system, runs, context)
    return runs, curves


def _flow_of(run: PipeRun, sheet: Sheet) -> str:
    """The figure whose share a run carries: a backwash line is sized for the backwash of one filter."""
    backwash = run.kind is LineKind.BACKWASH and "backwash_flow" in sheet.figures
    return "backwash_flow" if backwash else "design_flow"


def _duty_head(sheet: Sheet, system: RecirculationSystem, clean: Value, dirty: Value, context: Context) -> Value:
    """The head that has been settled on, or the one at which the code wants the required flow."""
    if system.pump_head is not None:
        return given(system, "pump_head")
    rule = context.strictest(sheet, "flow_when_dirty", system.kinds, {})
    if not isinstance(rule, Worked):
        return _with_source(dirty, "Head with dirty filters", DIRTY_UNLESS_STATED)
    title = "Head with dirty filters" if rule else "Head with clean filters"
    return _with_source(dirty if rule else clean, title, rule.step.source)


def _with_source(value: Value, title: str, source: Source) -> Value:
    if not isinstance(value, Worked):
        return value
    return Worked(value, Step(title, source, parts=((title, value),), measure=HEAD, joined="sum"))


def _strainer_and_meter(sheet: Sheet, system: RecirculationSystem, runs: tuple[Sheet, ...], context: Context) -> None:
    ratio = context.strictest(sheet, "strainer_ratio", system.kinds, {})
    suction = suction_of(runs)
    if isinstance(ratio, Worked) and suction is not None:
        sheet.work("strainer_area", openings.strainer_free_area, suction["inside_diameter"], ratio)
    ratio = context.strictest(sheet, "flow_meter_ratio", system.kinds, {})
    sheet.work("meter_range", openings.flow_meter_range, sheet["design_flow"], ratio)

"""Checks of pipes and pumps; those of tanks and openings are called from here."""

from waterpark_designer.engine.check_branches import check_branches, with_runs
from waterpark_designer.engine.check_openings import (
    check_feature_outlets,
    check_gravity_line,
    check_inlet_head,
    check_openings,
    check_tanks,
)
from waterpark_designer.engine.comparing import SENSE, held_to, noted
from waterpark_designer.engine.context import Context
from waterpark_designer.engine.design_system import SizedSystem
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.formulas import pipes
from waterpark_designer.engine.head_build_up import states_of_filters
from waterpark_designer.engine.pipe_pressures import pressures_of
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pump import NO_CROSSING, NO_HEAD, PumpCurves
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, Value, Worked, governing_sources, leaf, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, Sense
from waterpark_designer.sources import ARITHMETIC, NPSH_MARGIN, Provenance, Source
from waterpark_designer.units import ENERGY, HEAD, PRESSURE, SHARE

HAMMER = (
    "Use slow valves and check valves that do not slam, so that the water is never stopped at once; or choose a "
    "wider pipe or a heavier schedule."
)
RATED_WITH_SURGE = Source("Working pressure and surge together within the pipe's rating", Provenance.COMMON_PRACTICE)


def check_hydraulics(sized: SizedSystem, context: Context) -> None:
    """Check the pipes and pumps of one system and of its features; findings go on their sheets."""
    owners = {run.id: owner.id for owner in with_runs(sized) for run in owner.pipe_runs}
    for sheet in sized.below:
        if isinstance(sheet.node, PipeRun):
            _check_run(sheet)
            check_gravity_line(sheet)
            _check_pressure(sheet, sized.curves.get(owners[sheet.node.id]))
        elif isinstance(sheet.node, Feature):
            _check_pump(sheet)
            _check_jets(sheet)
    check_branches(sized)
    if sized.system.pipe_runs and sized.system.attractions:
        _check_pump(sized.sheet)
        _check_required_flow(sized, context)
        _check_head(sized, context)
        _check_night_flow(sized, context)
    check_tanks(sized.sheet, sized.system)
    check_inlet_head(sized.sheet, sized.bodies, sized.system)
    below = {sheet.node.id: sheet for sheet in sized.below}
    for body in sized.bodies:
        check_openings(body, context)
        assert isinstance(body.node, Attraction)
        for feature in body.node.features:
            check_feature_outlets(below[feature.id], body, context)


def _check_run(sheet: Sheet) -> None:
    limit = sheet.stated("velocity_limit")
    held_to(sheet, "velocity", "Velocity", "velocity", Sense.AT_MOST, limit, "Choose a larger pipe, or more like runs.")


def _check_pressure(sheet: Sheet, curves: PumpCurves | None) -> None:
    """Pump at no flow and a sudden stop together, against what the pipe may carry when warm."""
    known = pressures_of(sheet)
    if known is None or curves is None:
        return
    surge, allowed = known
    least_flow = curves.pumps.least_flow
    title = "Pump at no flow" if least_flow == 0 else "Pump at the least flow of its curve"
    closed = pipes.head_pressure(leaf(curves.pumps.head(least_flow), title, SENSE, measure=HEAD))
    worst = total("Greatest pressure", [(title, closed), ("Sudden stop", surge)], PRESSURE, ARITHMETIC)
    held_to(
        sheet,
        "pipe_pressure",
        "Pressure in the pipe if its water is stopped at once",
        "surge_pressure",
        Sense.AT_MOST,
        allowed,
        HAMMER,
        value=worst,
        sources=(RATED_WITH_SURGE,),
        otherwise=Status.CAUTION,
    )


def _check_pump(sheet: Sheet) -> None:
    """The pump meets its system, and has the suction head that it needs."""
    point = sheet[f"operating_flow_{states_of_filters(sheet)[-1]}"]
    if isinstance(point, Missing) and point.needs in (NO_CROSSING, NO_HEAD.needs):
        noted(sheet, "no_operating_point", "Pump and system do not meet", Status.NOT_MET, point.needs, "duty_head")
    if "suction_head_needed" in sheet.figures:
        needed, title = sheet["suction_head_needed"], "Suction head at the pump"
        remedy = "Set the pump lower, widen its suction, or choose a pump that needs less."
        figure = "suction_head_available"
        held_to(sheet, "suction_head", title, figure, Sense.AT_LEAST, needed, remedy, sources=(NPSH_MARGIN,))
    elif isinstance(sheet["suction_head_available"], Worked) and sheet["suction_head_available"] <= 0:
        nothing = leaf(0.0, "No suction head", SENSE, measure=HEAD)
        remedy = "No pump can draw this water. Set the pump lower, or widen or shorten its suction."
        title, figure = "Suction head at the pump", "suction_head_available"
        held_to(sheet, "suction_head", title, figure, Sense.AT_LEAST, nothing, remedy, sources=(SENSE,))
    _check_drive(sheet)


def _check_drive(sheet: Sheet) -> None:
    """A drive that slows the pump too seldom loses more than it saves."""
    if isinstance(sheet["energy_saved_a_day"], Worked):
        title, remedy = "The variable-speed drive saves energy", "Slow the pump for longer or further, or leave it out."
        least = leaf(0.0, "No saving", SENSE, measure=ENERGY)
        figure, caution = "energy_saved_a_day", Status.CAUTION
        held_to(sheet, "drive_saves", title, figure, Sense.AT_LEAST, least, remedy, sources=(SENSE,), otherwise=caution)


def _check_jets(sheet: Sheet) -> None:
    if "jet_head" in sheet.figures and "duty_head" in sheet.figures:
        remedy = "Raise the head that the device gets to what drives the jets, or lower their speed."
        held_to(
            sheet,
            "jet_head",
            "Head at the jets",
            "jet_head",
            Sense.AT_LEAST,
            sheet["jet_head"],
            remedy,
            value=sheet["device_head"],
            sources=(SENSE,),
        )
    if "jet_flow" in sheet.figures:
        remedy = "Raise the flow of the jets or their speed, or accept a slower current."
        held_to(
            sheet,
            "jet_flow",
            "Flow of the jets",
            "feature_flow",
            Sense.AT_LEAST,
            sheet["jet_flow"],
            remedy,
            sources=(SENSE,),
        )


def _check_required_flow(sized: SizedSystem, context: Context) -> None:
    """The required flow at the filter condition that the code names, with dirty filters where it names none."""
    sheet = sized.sheet
    rule = context.strictest(sheet, "flow_when_dirty", sized.system.kinds, {})
    clean = isinstance(rule, Worked) and not rule
    figure = "operating_flow_clean" if clean else "operating_flow_dirty"
    title = f"Required flow with {'clean' if clean else 'dirty'} filters"
    sources = governing_sources(rule) if isinstance(rule, Worked) else (SENSE,)
    remedy = "Choose a pump with more head, or lower the losses."
    held_to(sheet, "operating_flow", title, figure, Sense.AT_LEAST, sheet["least_flow"], remedy, sources=sources)


def _check_head(sized: SizedSystem, context: Context) -> None:
    sheet = sized.sheet
    limit = context.strictest(sheet, "least_pump_head", sized.system.kinds, {})
    if isinstance(limit, Worked):
        title = LIMIT_KINDS["least_pump_head"].label
        held_to(sheet, "least_pump_head", title, "duty_head", Sense.AT_LEAST, limit, "Choose a pump with more head.")
    settled: Value = sheet["duty_head"]
    if sized.system.pump_head is not None and isinstance(settled, Worked):
        title, remedy = "Head settled on covers the losses", "Raise the head settled on, or leave it blank."
        needed = sheet["head_dirty"] if "head_dirty" in sheet.figures else sheet["head_clean"]
        held_to(sheet, "head_settled", title, "duty_head", Sense.AT_LEAST, needed, remedy, sources=(SENSE,))


def _check_night_flow(sized: SizedSystem, context: Context) -> None:
    """The flow kept while closed, where a code limits how far it may fall."""
    sheet, share = sized.sheet, sized.system.pump.night_flow
    limit = context.strictest(sheet, "night_flow", sized.system.kinds, {})
    if share < 1 and isinstance(limit, Worked) and isinstance(sheet["least_flow"], Worked):
        kept = pipes.part_of_flow(sheet["design_flow"], leaf(share, "Flow while closed", YOUR_ENTRY, measure=SHARE))
        least = pipes.part_of_flow(sheet["least_flow"], limit)
        title, remedy = LIMIT_KINDS["night_flow"].label, "Keep more flow while closed."
        held_to(
            sheet,
            "night_flow",
            title,
            "design_flow",
            Sense.AT_LEAST,
            least,
            remedy,
            value=kept,
            sources=governing_sources(limit),
        )

"""Pipe runs: the size of each by its velocity limit, and the head it takes."""

from collections.abc import Iterable

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import openings, pipes
from waterpark_designer.engine.next_size import next_pipe
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.system_curve import EquipmentLoss, Line, gravity_flow
from waterpark_designer.engine.water_at import Water
from waterpark_designer.engine.worked import Missing, Step, Value, Worked, given, leaf, total
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import AttractionKind, FrictionMethod, PipeStandard, VelocityClass
from waterpark_designer.pipe_tables import PipeMaterial, PipeSize
from waterpark_designer.sources import ARITHMETIC, CRANE, FOUND_BY_TRIAL, Provenance, Source
from waterpark_designer.units import FLOW, HEAD, RATIO, ROUGHNESS, SMALL_LENGTH

STANDARDS = {
    PipeStandard.PVC_40: ("pvc", "Sch 40"),
    PipeStandard.PVC_80: ("pvc", "Sch 80"),
    PipeStandard.STEEL_40: ("steel", "Sch 40"),
    PipeStandard.HDPE_17: ("hdpe", "DR 17"),
}
LIMITS = {
    VelocityClass.SUCTION: "velocity_suction",
    VelocityClass.PRESSURE: "velocity_pressure",
    VelocityClass.GRAVITY: "velocity_gravity",
}
NAMES = {"elbows_90": "Elbows 90°", "elbows_45": "Elbows 45°", "tees_run": "Tees, run", "tees_branch": "Tees, branch"}
FITTINGS = {
    "elbows_90": "elbow_90",
    "elbows_45": "elbow_45",
    "tees_run": "tee_run",
    "tees_branch": "tee_branch",
    "check_valves": "swing_check",
}
UNHINDERED = Missing("Enter the length of the run, and its entrance and exit; nothing holds the flow back.")
NO_FLOW = Missing("Nothing flows in this pipe yet. Enter the flow of what it serves.")
FIXED = {"entrances": "entrance_sharp", "exits": "exit"}


def size_run(run: PipeRun, flow: Value, kinds: Iterable[AttractionKind], water: Water, context: Context) -> Sheet:
    """Figures of one run that carries its share of a flow."""
    together = pipes.part_of_flow(flow, given(run, "flow_share"))
    each = openings.flow_of_each(together, given(run, "count")) if run.count > 1 else together
    return size_run_carrying(run, each, kinds, water, context)


def size_run_carrying(
    run: PipeRun, each: Value, kinds: Iterable[AttractionKind], water: Water, context: Context, least_bore: float = 0.0
) -> Sheet:
    """Figures of one run each of whose like pipes carries a flow; no size is chosen below `least_bore` [m]."""
    sheet = Sheet(run)
    each = sheet.record("run_flow", each)
    limit = context.strictest(sheet, LIMITS[run.kind.velocity_class], kinds, {}, run.kind.label.lower())
    sheet.record("velocity_limit", limit)
    least = sheet.work("least_bore", pipes.least_inside_diameter, each, limit)
    bore = sheet.record("inside_diameter", _bore(run, least, context, least_bore))
    velocity = sheet.work("velocity", pipes.pipe_velocity, each, bore)
    friction = sheet.record("friction_loss", _friction(run, each, bore, velocity, water, context))
    fittings = sheet.work("fittings_loss", pipes.minor_loss, loss_coefficient(run, bore), velocity)
    parts = [("Friction", friction), ("Fittings", fittings)]
    sheet.record("run_loss", total("Head lost in the run", parts, HEAD, ARITHMETIC))
    if run.available_head is not None:
        sheet.record("gravity_capacity", _by_gravity(run, bore, water, context))
    return sheet


def chosen_size(run: PipeRun, bore: Value, context: Context) -> PipeSize | None:
    """The standard size that a run of this bore has."""
    material, schedule = STANDARDS[run.standard]
    sizes = (size for size in context.stock.pipe_sizes if (size.material, size.schedule) == (material, schedule))
    return next((size for size in sizes if size.inside_diameter == bore), None)


def line_of(sheet: Sheet, flow: float, context: Context) -> Line | EquipmentLoss | None:
    """The run as the solvers take it; `flow` [m³/s] is where a loss set by hand holds. None while it is not known."""
    run, bore, loss = sheet.node, sheet["inside_diameter"], sheet.figures["run_loss"]
    assert isinstance(run, PipeRun)
    if loss.override is not None:
        return EquipmentLoss(loss.override.value, flow)
    fittings = loss_coefficient(run, bore)
    if isinstance(bore, Missing) or isinstance(fittings, Missing):
        return None
    material = material_of(run, context)
    by_c = context.hydraulics.method is FrictionMethod.HAZEN_WILLIAMS
    return Line(
        float(bore),
        run.length,
        material.roughness,
        float(fittings),
        run.flow_share / run.count,
        material.hazen_williams if by_c else None,
    )


def loss_coefficient(run: PipeRun, bore: Value) -> Value:
    """K of all fittings on one run together."""
    if isinstance(bore, Missing):
        return bore
    turbulence = pipes.full_turbulence_friction(bore)
    multiples = {name: pipes.FITTING_MULTIPLES[fitting] for name, fitting in FITTINGS.items()}
    multiples["butterfly_valves"] = pipes.butterfly_multiple(bore)
    parts: list[tuple[str, Value]] = [
        (
            NAMES.get(name) or name.replace("_", " ").capitalize(),
            pipes.fitting_loss_coefficient(given(run, name), leaf(multiple, "Multiple", CRANE), turbulence),
        )
        for name, multiple in multiples.items()
        if getattr(run, name)
    ]
    parts += [
        (
            name.capitalize(),
            leaf(getattr(run, name) * pipes.FIXED_LOSS_COEFFICIENTS[fitting], name.capitalize(), CRANE, measure=RATIO),
        )
        for name, fitting in FIXED.items()
        if getattr(run, name)
    ]
    return total("Loss coefficient of all fittings", parts, RATIO, ARITHMETIC)


def _bore(run: PipeRun, least: Value, context: Context, least_bore: float) -> Value:
    """Average inside diameter of the size that is fixed, or of the smallest that keeps to the velocity limit."""
    material, schedule = STANDARDS[run.standard]
    sizes = context.stock.pipe_sizes
    if run.size:
        found = next((s for s in sizes if (s.material, s.schedule, s.nominal) == (material, schedule, run.size)), None)
        lack = f"{run.standard.label} has no size {run.size} in. Choose another, or leave the size blank."
    elif isinstance(least, Missing):
        return least
    else:
        found = next_pipe(max(least, least_bore), sizes, material, schedule)
        lack = f"{run.standard.label} has no size wide enough for one run. Add like runs side by side."
    if found is None:
        return Missing(lack)
    return Worked(
        found.inside_diameter, Step(found.label, Source(found.source, Provenance.SECONDARY), measure=SMALL_LENGTH)
    )


def material_of(run: PipeRun, context: Context) -> PipeMaterial:
    """What the run is made of."""
    assert context.stock.pipe_materials is not None
    return context.stock.pipe_materials[STANDARDS[run.standard][0]]


def _friction(run: PipeRun, flow: Value, bore: Value, velocity: Value, water: Water, context: Context) -> Value:
    if isinstance(bore, Missing):
        return bore
    if isinstance(flow, Worked) and flow <= 0:
        return NO_FLOW
    material, length = material_of(run, context), given(run, "length")
    if context.hydraulics.method is FrictionMethod.HAZEN_WILLIAMS:
        source = Source(material.source, Provenance.MEMORY)
        coefficient = leaf(material.hazen_williams, f"C of {material.name}", source)
        return pipes.empirical_friction_loss(flow, coefficient, length, bore)
    return pipes.friction_loss(_friction_factor(material, bore, velocity, water), length, bore, velocity)


def _friction_factor(material: PipeMaterial, bore: Value, velocity: Value, water: Water) -> Value:
    source = Source(material.source, Provenance.MEMORY)
    roughness = leaf(material.roughness, f"Roughness of {material.name}", source, measure=ROUGHNESS)
    reynolds = pipes.reynolds_number(velocity, bore, water.kinematic_viscosity)
    return pipes.friction_factor(reynolds, roughness, bore)


def _by_gravity(run: PipeRun, bore: Value, water: Water, context: Context) -> Value:
    """Flow that one run carries on its available head; friction by Darcy and Weisbach, whatever the site's method."""
    head, fittings, material = given(run, "available_head"), loss_coefficient(run, bore), material_of(run, context)
    viscosity = water.kinematic_viscosity
    if isinstance(bore, Missing) or isinstance(fittings, Missing):
        return fittings
    if isinstance(viscosity, Missing):
        return viscosity
    line = Line(float(bore), run.length, material.roughness, float(fittings))
    flow = gravity_flow(line, run.available_head or 0.0, float(viscosity))
    if not flow:
        return UNHINDERED
    found = leaf(flow, "Flow on the head available", FOUND_BY_TRIAL, measure=FLOW)
    friction = _friction_factor(material, bore, pipes.pipe_velocity(found, bore), water)
    coefficient = openings.line_loss_coefficient(fittings, friction, given(run, "length"), bore)
    return openings.line_capacity(bore, openings.gravity_velocity(head, coefficient))


def run_on(sheet: Sheet) -> PipeRun:
    """The pipe run that a sheet is of."""
    assert isinstance(sheet.node, PipeRun)
    return sheet.node


def nominal_size(run: Sheet) -> str:
    """The run's nominal size in inches; empty where it is not known or the bore is set by hand."""
    figure = run.figures["inside_diameter"]
    if isinstance(figure.value, Missing) or figure.override:
        return ""
    return figure.value.step.title.split(" in ")[0]


def pipe_name(run: Sheet) -> str:
    """Standard and nominal size: "PVC Sch 40, 6 in"."""
    standard, size = run_on(run).standard.label, nominal_size(run)
    if run.figures["inside_diameter"].override:
        return f"{standard}, bore set by hand"
    return f"{standard}, {size} in" if size else f"{standard}, no size yet"

"""The surge tank of a system with its levels, the gutter drains that run to it, and the waste sump."""

from collections.abc import Sequence

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import openings, turnover
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.water_in_transit import KEY as IN_TRANSIT
from waterpark_designer.engine.whole_number import whole_number
from waterpark_designer.engine.worked import Missing, Value, Worked, given, greatest, leaf, least, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import AttractionKind, LineKind, Overflow
from waterpark_designer.model.openings import TankPlan
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.sources import ARITHMETIC, SIMULTANEOUS_VOLUMES
from waterpark_designer.units import AREA, BATHERS, COUNT, FLOW, LENGTH, VOLUME

NO_SUCTION = Missing("Enter the suction cover, or a pipe run for the suction from the surge tank.")
SHARES_ROUNDED = 0.05
"""How far shares entered in few digits may come to more than the whole."""
AHEAD = (LineKind.TANK_SUCTION, LineKind.PUMP_SUCTION)
Parts = list[tuple[str, Value]]


def size_tanks(
    sheet: Sheet, bodies: Sequence[Sheet], system: RecirculationSystem, runs: Sequence[Sheet], context: Context
) -> None:
    """Enter surge volume, levels, gutter drains and waste sump of a system that has pipe runs or tanks entered."""
    if not runs and system.tanks == TankPlan():
        return
    _surge(sheet, bodies, system, context)
    if "surge_needed" in sheet.figures and system.tanks.plan_area is not None:
        _levels(sheet, _reserves(sheet, bodies, system.tanks), system.tanks, runs)
    _gutter_lines(sheet, bodies, runs, context)
    _sump(sheet, system)


def overflowing(bodies: Sequence[Sheet]) -> list[Sheet]:
    """The bodies whose surface water runs to the tank: those with a gutter, and those that do not say."""
    return [
        body
        for body in bodies
        if "greatest_depth" in body.figures and _overflow(body) in (Overflow.GUTTER, Overflow.NOT_STATED)
    ]


def surge_surface(sheet: Sheet, bodies: Sequence[Sheet]) -> Value:
    """Surface by which a code sizes the surge tank."""
    wet = overflowing(bodies)
    if len(wet) == len(bodies):
        return sheet["surface_area"]
    return total("Surface that overflows", [(body.node.name, body["surface_area"]) for body in wet], AREA, ARITHMETIC)


def surge_kinds(bodies: Sequence[Sheet]) -> tuple[AttractionKind, ...]:
    """The kinds of water that run to the tank, each once."""
    return tuple(dict.fromkeys(kind for body in overflowing(bodies) for kind in _attraction(body).kinds))


def usable_volume(system: RecirculationSystem) -> Value | None:
    """What the surge tank can hold: what is entered, else the water in it; nothing where there is no tank."""
    if system.tanks.usable_volume is not None:
        return given(system.tanks, "usable_volume")
    return given(system, "surge_volume") if system.surge_volume else None


def _surge(sheet: Sheet, bodies: Sequence[Sheet], system: RecirculationSystem, context: Context) -> None:
    """Simultaneous volumes, or what the code asks by surface, the greater."""
    wet = overflowing(bodies)
    if not wet:
        return
    parts = [*_from_bodies(wet), *_reserves(sheet, bodies, system.tanks)]
    together = total("Simultaneous volumes", parts, VOLUME, SIMULTANEOUS_VOLUMES) if len(parts) > 1 else parts[0][1]
    rules = [("Simultaneous volumes" if len(parts) > 1 else "Bathers", together)]
    per_area = context.strictest(sheet, "surge_per_area", surge_kinds(bodies), {})
    if isinstance(per_area, Worked):
        rules.append(("Code basis", openings.surge_by_area(surge_surface(sheet, bodies), per_area)))
    sheet.record("surge_needed", greatest("Surge volume", rules, VOLUME, ARITHMETIC))


def _from_bodies(wet: Sequence[Sheet]) -> Parts:
    """Water that bathers displace, and water on its way that comes back when the pump stops."""
    in_water = total(
        "Bathers in water", [(body.node.name, body["peak_occupancy"]) for body in wet], BATHERS, ARITHMETIC
    )
    parts: Parts = [("Bathers", openings.bather_displacement(in_water))]
    for body in wet:
        if _overflow(body) is Overflow.GUTTER:
            parts.append((f"Above the rim, {body.node.name}", body["water_above_rim"]))
            parts.append((f"In gutters, {body.node.name}", body["gutter_water"]))
    return parts


def _reserves(sheet: Sheet, bodies: Sequence[Sheet], plan: TankPlan) -> Parts:
    """Water kept in the tank to be drawn from it; what is entered of features stands for what is worked of them."""
    parts: Parts = []
    if plan.backwashes:
        kept = openings.backwash_reserve(given(plan, "backwashes"), sheet["backwash_volume"])
        parts.append(("Backwash", kept))
    if plan.drawn_by_features is not None:
        return [*parts, ("Features and their lines", given(plan, "drawn_by_features"))]
    drawn = [body for body in overflowing(bodies) if IN_TRANSIT in body.figures]
    return parts + [(f"In transit by features, {body.node.name}", body[IN_TRANSIT]) for body in drawn]


def _levels(sheet: Sheet, reserves: Parts, plan: TankPlan, runs: Sequence[Sheet]) -> None:
    area = given(plan, "plan_area")
    cover = _suction_cover(runs) if plan.suction_cover is None else given(plan, "suction_cover")
    parts = [("Suction", given(plan, "suction_level")), ("Cover over it", cover)]
    lowest = sheet.record("surge_lowest", total("Lowest level", parts, LENGTH, ARITHMETIC))
    kept = total("Reserves", reserves, VOLUME, ARITHMETIC)
    for key, volume, title in (("surge_running", kept, "Reserves"), ("surge_highest", sheet["surge_needed"], "Surge")):
        above = [("Lowest level", lowest), (title, openings.level_change(volume, area))]
        sheet.record(key, total(title, above, LENGTH, ARITHMETIC))


def _suction_cover(runs: Sequence[Sheet]) -> Value:
    suction = next((run for kind in AHEAD for run in runs if _run(run).kind is kind), None)
    return NO_SUCTION if suction is None else openings.vortex_cover(suction["inside_diameter"], suction["velocity"])


def _gutter_lines(sheet: Sheet, bodies: Sequence[Sheet], runs: Sequence[Sheet], context: Context) -> None:
    """Flow that the gutters must take and that their drains carry, where an available head is entered."""
    drains = [run for run in runs if _run(run).kind is LineKind.GUTTER]
    if not any("gravity_capacity" in run.figures for run in drains):
        return
    gutters = [body for body in bodies if _overflow(body) is Overflow.GUTTER] or overflowing(bodies)
    flows = [(body.node.name, body["design_flow"]) for body in gutters]
    flow = total("Flow of bodies with gutters", flows, FLOW, ARITHMETIC)
    ratio = context.strictest(sheet, "gutter_capacity", surge_kinds(gutters), {})
    if isinstance(ratio, Worked):
        sheet.work("gutter_capacity_needed", openings.gutter_capacity, flow, ratio)
    sheet.record("gutter_line_capacity", _capacity(drains, flow))


def _capacity(drains: Sequence[Sheet], gutters: Value) -> Value:
    """Flow of all gutters at which the first of their drains runs full: room in one drain does not help another body.

    Drains that carry more together than the gutters give lie in a row, as outlets and the header they run to.
    """
    carried = [(run.node.name, turnover.flow_of_several(given(run.node, "count"), run["run_flow"])) for run in drains]
    together = total("Flow of the drains", carried, FLOW, ARITHMETIC)
    if isinstance(together, Worked) and isinstance(gutters, Worked) and gutters > 0:
        in_a_row = min(whole_number(together / gutters - SHARES_ROUNDED), len(drains))
        if in_a_row > 1:
            together = openings.flow_of_each(together, leaf(in_a_row, "Drains in a row", ARITHMETIC, measure=COUNT))
    parts = [(run.node.name, openings.flow_when_full(together, _by_gravity(run), run["run_flow"])) for run in drains]
    return least("Gutter drains, the first to run full", parts, FLOW, ARITHMETIC)


def _by_gravity(drain: Sheet) -> Value:
    if "gravity_capacity" in drain.figures:
        return drain["gravity_capacity"]
    return Missing(f"Enter the available head of {drain.node.name}.")


def _sump(sheet: Sheet, system: RecirculationSystem) -> None:
    """Room for the backwash that the sewer does not take while it comes."""
    plan = system.tanks
    if "backwash_flow" in sheet.figures and not (plan.sewer_flow is None and plan.sump_volume is None):
        duration = given(system.filters, "backwash_duration")
        sheet.work(
            "sump_needed", openings.waste_sump_volume, sheet["backwash_flow"], given(plan, "sewer_flow"), duration
        )


def _attraction(body: Sheet) -> Attraction:
    assert isinstance(body.node, Attraction)
    return body.node


def _overflow(body: Sheet) -> Overflow:
    return _attraction(body).openings.overflow


def _run(sheet: Sheet) -> PipeRun:
    assert isinstance(sheet.node, PipeRun)
    return sheet.node

"""Figures of one recirculation system: flow, filtration, disinfection and salt, and what they mean for each body."""

from collections.abc import Mapping
from dataclasses import dataclass

from waterpark_designer.engine.choose import Choice
from waterpark_designer.engine.context import Context
from waterpark_designer.engine.design_attraction import AttractionStage
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.formulas import turnover
from waterpark_designer.engine.hydraulics_of_system import OWN, pipe_the_system
from waterpark_designer.engine.plan_salt import plan_salt
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_disinfection import DisinfectionChoices, size_disinfection
from waterpark_designer.engine.size_filters import size_filters
from waterpark_designer.engine.size_openings import size_openings
from waterpark_designer.engine.size_pump import PumpCurves
from waterpark_designer.engine.size_tank import settle_tank
from waterpark_designer.engine.worked import Missing, Value, given, sum_of_owners, total
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.rules.rule_set import Fact
from waterpark_designer.sources import ARITHMETIC

NO_WATER = Missing("Add a body of water to this system.")


@dataclass(frozen=True, slots=True)
class SizedSystem:
    """A system with its bodies' sheets completed, and what was chosen from the catalogue."""

    system: RecirculationSystem
    sheet: Sheet
    bodies: tuple[Sheet, ...]
    below: tuple[Sheet, ...]
    filters: Choice
    disinfection: DisinfectionChoices
    curves: Mapping[str, PumpCurves]


SUMS = ("volume", "surface_area", "peak_occupancy", "bathers_a_day", "least_flow")
FEATURE_SUMS = ("feature_flow", "recycled_feature_flow", "circulation_feature_flow", "feature_water_in_transit")


def size_system(system: RecirculationSystem, stages: list[AttractionStage], context: Context) -> SizedSystem:
    """Size one system from the first stage of its attractions."""
    sheet = Sheet(system)
    bodies = [stage.sheet.continued() for stage in stages]
    for key in SUMS:
        kind = FIGURE_KINDS[key]
        sheet.record(key, total(kind.label, _of(bodies, key), kind.measure, ARITHMETIC) if bodies else NO_WATER)
    for key in FEATURE_SUMS:
        parts = _of([body for body in bodies if key in body.figures], key)
        if parts:
            kind = FIGURE_KINDS[key]
            sheet.record(key, total(kind.label, parts, kind.measure, ARITHMETIC))
    _flow(sheet, system, bodies, context)
    for body in bodies:
        if "least_tank_volume" in body.figures:
            settle_tank(body, context)
    facts = system_facts(system)
    filters = size_filters(sheet, system, facts, context)
    disinfection = size_disinfection(sheet, bodies, system, facts, context)
    plan_salt(sheet, bodies, system, context)
    for body in bodies:
        size_openings(body, context)
    runs, own = pipe_the_system(sheet, bodies, system, facts, context)
    below = (*runs, *(one for stage in stages for one in stage.below))
    curves = {node: curve for stage in stages for node, curve in stage.curves.items()}
    if own is not None:
        curves[system.id] = own
    _with_features(sheet, [one for stage in stages for one in stage.below])
    return SizedSystem(system, sheet, tuple(bodies), below, filters, disinfection, curves)


def _with_features(sheet: Sheet, below: list[Sheet]) -> None:
    """Power and energy of the recirculation pump and the pumps of features, which are bought and run together."""
    for key in ("electric_power", "energy_a_day", "energy_of_season", "energy_cost"):
        own = f"{OWN}{key}"
        parts = [("Recirculation pump", sheet[own])] if own in sheet.figures else []
        parts += [(one.node.name, one[key]) for one in below if key in one.figures]
        if parts:
            kind = FIGURE_KINDS[key]
            sheet.record(key, sum_of_owners(kind.label, parts, kind.measure, ARITHMETIC))


def _of(bodies: list[Sheet], key: str) -> list[tuple[str, Value]]:
    return [(body.node.name, body[key]) for body in bodies]


def _flow(sheet: Sheet, system: RecirculationSystem, bodies: list[Sheet], context: Context) -> None:
    """Design flow of the system and of each body, and the turnover each gets."""
    least = sheet["least_flow"]
    flow = given(system, "fixed_flow")
    if isinstance(flow, Missing):
        flow = turnover.flow_with_margin(least, given(system, "design_margin"))
    flow = sheet.record("design_flow", flow)
    _turnover(sheet, sheet["volume"], flow, context)
    for body in bodies:
        own = turnover.share_of_flow(flow, body["least_flow"], least) if len(bodies) > 1 else flow
        share = body.record("design_flow", own)
        _turnover(body, body["volume"], share, context)


def _turnover(sheet: Sheet, volume: Value, flow: Value, context: Context) -> None:
    time = sheet.work("turnover_time", turnover.turnover_time, volume, flow)
    sheet.work("turnovers_a_day", turnover.turnovers_a_day, time)
    sheet.work("treated_share", turnover.treated_share, given(context, "turnovers_counted"))


def system_facts(system: RecirculationSystem) -> dict[str, Fact]:
    """What rule sets may ask about a system: its filters, and the warmest and saltiest of its waters."""
    plan = system.filters
    facts: dict[str, Fact] = {
        "medium": plan.medium.value,
        "bed_depth": plan.bed_depth,
        "continuous_feed": plan.continuous_feed,
        "pressure_vessel": plan.pressure_vessel,
        "secondary": system.secondary.kind.value,
    }
    if system.attractions:
        facts["temperature"] = max(body.water_temperature for body in system.attractions)
        facts["salinity"] = max(body.target_salinity for body in system.attractions)
    return facts

"""Inlets, skimmers and suction outlets of each body, strainers and meters, and the current of rivers."""

from collections.abc import Iterator

from waterpark_designer.documents.circuits import CircuitSheets, bodies
from waterpark_designer.documents.figures import figure_cells, needed
from waterpark_designer.documents.grounds import Grounds, Notes
from waterpark_designer.documents.pipe_names import pipe_text
from waterpark_designer.documents.table import Cell, Column, Number, Row, Table, count, group, without_blank_columns
from waterpark_designer.documents.tree import places
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.divide_flow import suction_of
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import walk
from waterpark_designer.units import BATHERS, COUNT, LENGTH, SMALL_AREA, VELOCITY, UnitSystem

INLET_FIGURES = ("design_flow", "inlets", "inlet_flow", "inlet_velocity")
OUTLET_FIGURES = ("outlet_flow", "cover_area_needed", "cover_velocity")
BODY_FIGURES = (*INLET_FIGURES, *OUTLET_FIGURES)
CURRENT_FIGURES = (
    "wall_resistance",
    "people_drag",
    "jet_thrust",
    "jet_flow",
    "jet_bore",
    "jet_head",
    "jet_power",
    "propulsive_efficiency",
)
PER_SYSTEM = ("strainer_area", "meter_range")
ONE_BLOCKED = "Each cover is rated for at least the flow stated, which it meets while any one outlet is blocked."
LEAST = "Inlets are as drawn, or the least number of the code basis; place them so that the whole body is mixed."
OPEN_AREA = "The open area follows from the velocity limit; what the cover itself is rated for comes first."


def openings_table(design: SiteDesign, system: UnitSystem) -> Table:
    """Openings of every body of water, by system."""
    notes, grounds = Notes(system), Grounds(design)
    rows: list[Row] = []
    above = ""
    for owner, body in bodies(design):
        if not design.sheets[body.id].figures.keys() & {"outlet_flow", "cover_velocity", "inlet_flow"}:
            continue
        rows += [] if owner.id == above else [group(owner.name, owner.id)]
        above = owner.id
        refer = notes.refer(grounds.without_methods(body.id, BODY_FIGURES))
        told = _outlets_told(body.suction_outlets)
        rows.append(Row((body.name, *_opening_cells(design, body), told, refer), node=body.id))
        rows += [_feature_row(design, feature) for feature in body.features if feature.suction_outlets]
    return without_blank_columns(
        Table(
            "Openings of each body",
            _opening_columns(),
            tuple(rows),
            notes=(ONE_BLOCKED, OPEN_AREA, LEAST, *notes.lines) if rows else (),
            empty="No body of water has openings that the code basis counts.",
        )
    )


def _opening_columns() -> tuple[Column, ...]:
    return (
        Column("Body of water", weight=2.4),
        Column("Design flow", FIGURE_KINDS["design_flow"].measure),
        Column("Return inlets", COUNT),
        Column("Flow of one inlet", FIGURE_KINDS["inlet_flow"].measure),
        Column("Velocity through it", VELOCITY),
        Column("Suction outlets", COUNT),
        Column("Least distance apart", LENGTH),
        Column("Flow of one outlet, one blocked", FIGURE_KINDS["outlet_flow"].measure),
        Column("Open area of each cover needed", FIGURE_KINDS["cover_area_needed"].measure),
        Column("Open area as chosen", FIGURE_KINDS["cover_area_needed"].measure),
        Column("Velocity through cover", VELOCITY),
        Column("Remarks", weight=2.4),
        Column("Notes", weight=0.5),
    )


def _opening_cells(design: SiteDesign, body: Attraction) -> tuple[Cell, ...]:
    plan = body.openings
    flow, inlets, *rest = figure_cells(design, body.id, INLET_FIGURES)
    inlets = inlets if plan.inlets is None else count(plan.inlets)
    outlets: Cell = "" if body.suction_outlets is None else count(body.suction_outlets)
    apart: Cell = "" if plan.outlet_spacing is None else Number(plan.outlet_spacing, LENGTH)
    area: Cell = "" if plan.cover_area is None else Number(plan.cover_area, SMALL_AREA)
    rated, needed_area, velocity = figure_cells(design, body.id, OUTLET_FIGURES)
    return (flow, inlets, *rest, outlets, apart, rated, needed_area, area, velocity)


def _feature_row(design: SiteDesign, feature: Feature) -> Row:
    """Outlets that a feature's own pump draws from, under the body they lie in."""
    flow, rated = figure_cells(design, feature.id, ("feature_flow", "outlet_flow"))
    told = _outlets_told(feature.outlets_on_each_line)
    if feature.suction_lines > 1:
        told = "; ".join(filter(None, (f"{feature.suction_lines} separate lines", told)))
    cells = (flow, "", "", "", count(feature.suction_outlets or 0), "", rated, "", "", "", told, "")
    return Row((f"{feature.name}, own pump", *cells), node=feature.id)


def _outlets_told(outlets: int | None) -> str:
    if outlets is None:
        return "outlets not stated"
    if outlets == 1:
        return "single outlet: needs a second device against entrapment, or a second outlet"
    return "no suction outlet" if outlets == 0 else ""


def system_openings_table(found: tuple[CircuitSheets, ...], design: SiteDesign, system: UnitSystem) -> Table:
    """Strainers and flow meter of each system."""
    notes, grounds = Notes(system), Grounds(design)
    systems = [circuit for circuit in found if isinstance(circuit.node, RecirculationSystem)]
    rows = tuple(
        Row(
            (
                circuit.node.name,
                _suction_pipe(circuit, system),
                count(circuit.plan.count + circuit.standby),
                *figure_cells(design, circuit.node.id, PER_SYSTEM),
                notes.refer(grounds.without_methods(circuit.node.id, PER_SYSTEM)),
            ),
            node=circuit.node.id,
        )
        for circuit in systems
    )
    lacks = dict.fromkeys(need for circuit in systems for need in needed(design, circuit.node.id, PER_SYSTEM))
    columns = (
        Column("System", weight=2.4),
        Column("Pump suction", weight=1.6),
        Column("Strainers", COUNT),
        *(Column(FIGURE_KINDS[key].label, FIGURE_KINDS[key].measure) for key in PER_SYSTEM),
        Column("Notes", weight=0.5),
    )
    return without_blank_columns(
        Table("Strainers and flow meters", columns, rows, (*notes.lines, *lacks), "No system has pipe runs yet.")
    )


def _suction_pipe(circuit: CircuitSheets, system: UnitSystem) -> str:
    run = suction_of(circuit.runs)
    return "" if run is None else pipe_text(run, system)


def current_table(design: SiteDesign, system: UnitSystem) -> Table:
    """Jets that drive a river: what they must overcome and what they need."""
    notes, grounds = Notes(system), Grounds(design)
    rows = tuple(_current_row(feature, where, design, notes, grounds) for feature, where in rivers(design))
    columns = (
        Column("Jets", weight=2.4),
        Column("Current", VELOCITY),
        Column("Jet speed", VELOCITY),
        Column("Jets", COUNT),
        Column("People standing", BATHERS),
        *(Column(FIGURE_KINDS[key].label, FIGURE_KINDS[key].measure) for key in CURRENT_FIGURES),
        Column("Notes", weight=0.5),
    )
    needs = tuple(
        f"{where}: {need}"
        for feature, where in rivers(design)
        for need in needed(design, feature.id, ("jet_thrust", *CURRENT_FIGURES))
    )
    return Table("River current", columns, rows, (*dict.fromkeys(needs), *notes.lines), "No jets hold a current.")


def rivers(design: SiteDesign) -> Iterator[tuple[Feature, str]]:
    """Every feature whose jets hold a current, and where it stands."""
    found = places(design.site)
    for node in walk(design.site):
        if isinstance(node, Feature) and "jet_thrust" in design.sheets[node.id].figures:
            yield node, found[node.id].where


def _current_row(feature: Feature, where: str, design: SiteDesign, notes: Notes, grounds: Grounds) -> Row:
    speeds = ("" if speed is None else Number(speed, VELOCITY) for speed in (feature.current_speed, feature.jet_speed))
    return Row(
        (
            where,
            *speeds,
            count(feature.count),
            Number(float(feature.standing_people), BATHERS),
            *figure_cells(design, feature.id, CURRENT_FIGURES),
            notes.refer(grounds.without_methods(feature.id, CURRENT_FIGURES)),
        ),
        node=feature.id,
    )

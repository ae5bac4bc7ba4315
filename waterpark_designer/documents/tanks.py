"""Overflow of each body, surge tanks part by part with their levels, waste sumps, and lines that run by gravity."""

from collections.abc import Iterator

from waterpark_designer.documents import safety
from waterpark_designer.documents.circuits import CircuitSheets, bodies
from waterpark_designer.documents.document import Section
from waterpark_designer.documents.figures import figure_cell, figure_cells, needed
from waterpark_designer.documents.grounds import Grounds, Notes
from waterpark_designer.documents.pipe_names import pipe_text
from waterpark_designer.documents.table import (
    Cell,
    Column,
    Number,
    Row,
    RowKind,
    Table,
    count,
    group,
    number,
    without_blank_columns,
)
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.size_pipes import run_on
from waterpark_designer.engine.size_surge_tank import usable_volume
from waterpark_designer.engine.worked import Value, Worked
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.kinds import Overflow
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.units import COUNT, FLOW, LENGTH, VOLUME, UnitSystem

OVERFLOW_FIGURES = (
    "surface_flow",
    "lip_flow",
    "lip_head",
    "water_above_rim",
    "gutter_water",
    "skimmers",
    "skimmer_flow",
)
LEVELS = ("surge_lowest", "surge_running", "surge_highest")
TANK_FIGURES = ("surge_needed", *LEVELS, "sump_needed")
SHALLOW = "The depth over a lip is indicative below about 30 mm (1.2 in), where surface tension and its form count."
ABOVE_FLOOR = "Levels stand above the floor of the surge tank; its overflow lies at the highest level or above."
WHOLE_HEAD = "A line carries what its available head gives it when it runs full; friction by Darcy and Weisbach."


def tank_sections(
    design: SiteDesign, found: tuple[CircuitSheets, ...], grounds: Grounds, system: UnitSystem
) -> Iterator[Section]:
    """Overflow, gravity lines and tanks, those of which something is known."""
    overflow = (overflow_table(design, system), gravity_table(found, system, grounds))
    tanks = (tanks_table(design, system), surge_parts_table(design))
    for title, tables, cautions in (
        ("Overflow and gravity lines", overflow, ()),
        ("Surge tanks and waste sumps", tanks, safety.CONFINED),
    ):
        filled = tuple(table for table in tables if table.rows)
        if filled:
            yield Section(title, (*filled, *cautions), level=2)


def overflow_table(design: SiteDesign, system: UnitSystem) -> Table:
    """Where the surface of every body that states it goes, by system."""
    notes, grounds = Notes(system), Grounds(design)
    rows: list[Row] = []
    needs: list[str] = []
    above = ""
    for owner, body in bodies(design):
        if not _overflow_known(body, design):
            continue
        rows += [] if owner.id == above else [group(owner.name, owner.id)]
        above = owner.id
        cells = figure_cells(design, body.id, OVERFLOW_FIGURES)
        refer = notes.refer(grounds.without_methods(body.id, OVERFLOW_FIGURES))
        rows.append(Row((body.name, body.openings.overflow.label, *cells, refer), node=body.id))
        needs += [f"{body.name}: {need}" for need in needed(design, body.id, OVERFLOW_FIGURES)]
    columns = (
        Column("Body of water", weight=2.4),
        Column("Overflows into", weight=1.2),
        *(Column(FIGURE_KINDS[key].label, FIGURE_KINDS[key].measure) for key in OVERFLOW_FIGURES),
        Column("Notes", weight=0.5),
    )
    gutters = any(row.cells[1:2] == (Overflow.GUTTER.label,) for row in rows)
    told = (*((SHALLOW,) if gutters else ()), *needs, *notes.lines)
    return without_blank_columns(
        Table("Overflow of each body", columns, tuple(rows), told, "No body of water states where it overflows to.")
    )


def _overflow_known(body: Attraction, design: SiteDesign) -> bool:
    figures = design.sheets[body.id].figures
    return "greatest_depth" in figures and (body.openings.overflow is not Overflow.NOT_STATED or "skimmers" in figures)


def tanks_table(design: SiteDesign, system: UnitSystem) -> Table:
    """Surge tank and waste sump of each system: what is needed, what there is, and the levels."""
    notes, grounds = Notes(system), Grounds(design)
    rows = tuple(_tank_row(loop, design, notes, grounds) for loop in _with_tanks(design))
    columns = (
        Column("System", weight=2.4),
        Column(FIGURE_KINDS["surge_needed"].label, VOLUME),
        Column("Surge tank holds", VOLUME),
        Column("Lowest level", LENGTH),
        Column("Running level", LENGTH),
        Column("Highest level", LENGTH),
        Column(FIGURE_KINDS["sump_needed"].label, VOLUME),
        Column("Waste sump holds", VOLUME),
        Column("Notes", weight=0.5),
    )
    needs = (f"{loop.name}: {need}" for loop in _with_tanks(design) for need in needed(design, loop.id, TANK_FIGURES))
    levels = any("surge_lowest" in design.sheets[loop.id].figures for loop in _with_tanks(design))
    told = (*((ABOVE_FLOOR,) if levels else ()), *dict.fromkeys(needs), *notes.lines)
    return without_blank_columns(
        Table("Surge tanks and waste sumps", columns, rows, told, "No system has pipe runs or tanks yet.")
    )


def _with_tanks(design: SiteDesign) -> Iterator[RecirculationSystem]:
    for loop in design.site.systems:
        if design.sheets[loop.id].figures.keys() & {"surge_needed", "sump_needed"}:
            yield loop


def _tank_row(loop: RecirculationSystem, design: SiteDesign, notes: Notes, grounds: Grounds) -> Row:
    held, sump = usable_volume(loop), loop.tanks.sump_volume
    cells: tuple[Cell, ...] = (
        loop.name,
        figure_cell(design, loop.id, "surge_needed"),
        "" if held is None else number(held, VOLUME),
        *figure_cells(design, loop.id, LEVELS),
        figure_cell(design, loop.id, "sump_needed"),
        "" if sump is None else Number(sump, VOLUME),
        notes.refer(grounds.without_methods(loop.id, TANK_FIGURES)),
    )
    return Row(cells, node=loop.id)


def surge_parts_table(design: SiteDesign) -> Table:
    """What each surge tank must take at once, part by part."""
    rows: list[Row] = []
    for loop in _with_tanks(design):
        together = _simultaneous(design.sheets[loop.id]["surge_needed"])
        if together is not None:
            rows.append(group(loop.name, loop.id))
            rows += [Row((name, number(part, VOLUME)), node=loop.id) for name, part in _parts(together)]
            rows.append(Row(("Together", Number(float(together), VOLUME)), RowKind.TOTAL, node=loop.id))
    columns = (Column("Part", weight=3.0), Column("Volume", VOLUME))
    source = "Parts add up because a pump may stop while all bathe and after a backwash; the code's least by surface "
    told = (f"{source}stands for the same water and is not added.",) if rows else ()
    return Table("Surge volume part by part", columns, tuple(rows), told, "No system states parts of a surge volume.")


def _simultaneous(value: Value) -> Worked | None:
    """The sum within a surge volume, where it has more parts than the bathers."""
    if not isinstance(value, Worked):
        return None
    found = (part for _, part in value.step.parts if isinstance(part, Worked) and part.step.joined == "sum")
    return next(found, None)


def _parts(together: Worked) -> list[tuple[str, Worked]]:
    return [(name, part) for name, part in together.step.parts if isinstance(part, Worked)]


def gravity_table(found: tuple[CircuitSheets, ...], system: UnitSystem, grounds: Grounds) -> Table:
    """Lines with an available head: what they carry beside what they must, and all gutter drains of a system."""
    notes = Notes(system)
    rows: list[Row] = []
    for circuit in found:
        lines = [run for run in circuit.runs if "gravity_capacity" in run.figures]
        rows += [group(circuit.where, circuit.node.id)] if lines else []
        for line in lines:
            run = run_on(line)
            flows = (number(line[key], FLOW) for key in ("run_flow", "gravity_capacity"))
            head = "" if run.available_head is None else Number(run.available_head, LENGTH)
            refer = notes.refer(grounds.without_methods(run.id, ("run_flow", "gravity_capacity")))
            rows.append(Row((run.name, pipe_text(line, system), count(run.count), head, *flows, refer), node=run.id))
        rows += _all_drains(circuit, notes, grounds)
    columns = (
        Column("Line", weight=2.4),
        Column("Pipe", weight=1.6),
        Column("Like runs", COUNT),
        Column("Available head", LENGTH),
        Column("Flow of one", FLOW),
        Column("One carries", FLOW),
        Column("Notes", weight=0.5),
    )
    told = (WHOLE_HEAD, *notes.lines) if rows else ()
    return without_blank_columns(
        Table("Lines that run by gravity", columns, tuple(rows), told, "No line has an available head entered.")
    )


def _all_drains(circuit: CircuitSheets, notes: Notes, grounds: Grounds) -> list[Row]:
    sheet = circuit.sheet
    if "gutter_capacity_needed" not in sheet.figures:
        return []
    keys = ("gutter_capacity_needed", "gutter_line_capacity")
    flows = (number(sheet[key], FLOW) for key in keys)
    refer = notes.refer(grounds.without_methods(sheet.node.id, keys))
    return [
        Row(
            ("All gutter drains together, beside what the code asks", "", "", "", *flows, refer),
            RowKind.TOTAL,
            node=sheet.node.id,
        )
    ]

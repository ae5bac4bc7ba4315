"""Calculation sheets: the working of every figure of every node, by node and discipline."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from waterpark_designer.documents.blocks import Heading, Paragraph
from waterpark_designer.documents.code_basis import code_basis_sections
from waterpark_designer.documents.document import Block, Section
from waterpark_designer.documents.run_workings import run_blocks, worked_in_full
from waterpark_designer.documents.table import DASH, Cell, Column, Number, Row, Table
from waterpark_designer.documents.tree import Place, places, what_it_is
from waterpark_designer.documents.workings import FigureWorking, Named, entries_of, named_figures
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import Discipline
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.engine.working import Working, working_of
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.units import Measure, UnitSystem

HOW_TO_READ = (
    "Each figure stands with its symbol, equation, the numbers put in, result and source. A figure that is put into "
    "another one is worked where it stands itself. Working is done in SI units at full precision and printed rounded, "
    "so that numbers recomputed from the page may differ in the last place."
)

LISTED_DEPTH = 2
"""The contents list the sheets of the site, of systems and of bodies of water; their parts follow them."""


def calculation_sections(design: SiteDesign, system: UnitSystem) -> tuple[Section, ...]:
    """How to read the sheets, one section for each node, and the code basis behind them."""
    named = named_figures(design)
    sheets = tuple(_sheets(design, named, system))
    introduction = Section("Calculation sheets", (Paragraph(HOW_TO_READ),))
    basis = (replace(section, landscape=True) for section in code_basis_sections(design, system))
    return (introduction, *sheets, *basis)


def _sheets(design: SiteDesign, named: Named, system: UnitSystem) -> Iterator[Section]:
    """One section for each node, the pipe runs of a pump right after it."""
    found = places(design.site)
    parts = [place for place in found.values() if not isinstance(place.node, PipeRun)]
    runs = {place.node.id: _runs_of(place, found, design) for place in parts}
    model = worked_in_full(design, (run for own in runs.values() for run in own))
    for place in parts:
        listed = place.depth <= LISTED_DEPTH
        yield Section(place.where, tuple(_sheet_blocks(design, place, named)), level=2, listed=listed)
        own = runs[place.node.id]
        if own:
            title = f"{place.where}: pipe runs"
            yield Section(title, tuple(run_blocks(design, own, model, named, system)), level=2, listed=False)


def _runs_of(place: Place, found: Mapping[str, Place], design: SiteDesign) -> tuple[Place, ...]:
    """The pipe runs of a node that water flows through."""
    children = (child for child in place.node.children if isinstance(child, PipeRun))
    return tuple(found[child.id] for child in children if design.sheets[child.id].figures)


def _sheet_blocks(design: SiteDesign, place: Place, named: Named) -> Iterator[Block]:
    yield Paragraph(what_it_is(place.node))
    if place.node.notes:
        yield Paragraph(f"Notes: {place.node.notes}")
    entries = tuple(entries_of(design, place, named))
    for discipline in Discipline:
        of_discipline = [entry for entry in entries if entry.figure.kind.discipline is discipline]
        if of_discipline:
            yield Heading(discipline.label)
            yield from of_discipline


COLUMNS = (
    Column("Where", weight=2.5),
    Column("Discipline"),
    Column("Figure", weight=2),
    Column("Symbol", weight=0.6),
    Column("Value", numeric=True),
    Column("Unit", weight=0.8),
    Column("Equation", weight=2),
    Column("Numbers put in", weight=3),
    Column("Source", weight=3),
    Column("Provenance"),
    Column("Set by hand because", weight=2),
    Column("Remarks", weight=2),
)


def workings_table(entries: tuple[FigureWorking, ...], system: UnitSystem) -> Table:
    """Workings as rows, for spreadsheets: each figure, with the steps between that lead to it before it."""
    rows = tuple(row for entry in entries for row in _rows(entry, system))
    return Table("Workings", COLUMNS, rows)


def _rows(entry: FigureWorking, system: UnitSystem) -> Iterator[Row]:
    kind, value = entry.figure.kind, entry.figure.value
    for name, step, measure in entry.steps_between():
        cells = _working_cells(entry, step, working_of(step, measure, system), measure, system)
        yield Row(
            (entry.where, kind.discipline.label, f"{name}, for {kind.label.lower()}", "", *cells), node=entry.node
        )
    opening: tuple[Cell, ...] = (entry.where, kind.discipline.label, kind.label, kind.symbol)
    if isinstance(value, Missing):
        unit = entry.unit(kind.measure, system)
        yield Row((*opening, DASH, unit, "", "", "", "", "", f"Needed: {value.needs}"), node=entry.node, key=kind.key)
        return
    cells = _working_cells(entry, value, working_of(value, kind.measure, system), kind.measure, system)
    yield Row((*opening, *cells[:-2], _reason(entry), _remark(entry, cells[-1], system)), node=entry.node, key=kind.key)


def _working_cells(
    entry: FigureWorking, value: Worked, working: Working, measure: Measure, system: UnitSystem
) -> tuple[Cell, ...]:
    """Value, unit, equation, numbers put in, source, provenance, reason and remarks of one number."""
    return (
        Number(float(value), measure),
        entry.unit(measure, system),
        working.equation,
        inputs_text(working),
        working.source.text,
        str(working.source.provenance),
        "",
        " ".join((working.note, *working.cautions)).strip(),
    )


def equation_text(working: Working, parts: bool = True) -> str:
    """The equation with the numbers put in; the parts of a sum only where they are wanted in the same line."""
    if any(line.symbol for line in working.inputs):
        return " = ".join(part for part in (working.equation, working.substitution) if part)
    if len(working.inputs) == 1 and working.equation:
        return f"{working.inputs[0].name}: {working.substitution}" if parts else ""
    return f"{working.equation} {working.substitution}".strip() if parts else working.equation


def inputs_text(working: Working) -> str:
    """The numbers put in, each with its symbol or name."""
    return "; ".join(f"{line.symbol or line.name} = {line.text}" for line in working.inputs)


def _reason(entry: FigureWorking) -> str:
    return entry.figure.override.reason if entry.figure.override else ""


def _remark(entry: FigureWorking, told: Cell, system: UnitSystem) -> Cell:
    return computed_text(entry, system) if entry.figure.override else told


def computed_text(entry: FigureWorking, system: UnitSystem) -> str:
    """What was computed where a figure is set by hand."""
    computed = entry.figure.computed
    if computed is None:
        return ""
    if isinstance(computed, Missing):
        return f"Not computed: {computed.needs}"
    return f"Computed: {entry.figure.kind.measure.phrase(computed, system)}"

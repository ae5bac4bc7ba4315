"""A design as aligned text for a terminal."""

from collections.abc import Iterable, Iterator

from waterpark_designer.documents.checks import limit_cell, status_text, tally_text, value_cell
from waterpark_designer.documents.document import NOTICE, particulars_of
from waterpark_designer.documents.table import Number
from waterpark_designer.documents.tree import Place, places, what_it_is
from waterpark_designer.documents.workings import source_text, with_provenance
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import Discipline
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.worked import Missing
from waterpark_designer.units import UnitSystem

INDENT = "  "


def figures_text(design: SiteDesign, units: UnitSystem) -> Iterator[str]:
    """Every figure by node and discipline, line by line: label, symbol, value, unit, source."""
    yield from opening_text(design, units)
    for place in places(design.site).values():
        yield ""
        yield f"{place.where}   {what_it_is(place.node)}"
        yield from _sheet_text(design, place, units)


def checks_text(design: SiteDesign, units: UnitSystem) -> Iterator[str]:
    """Every check by node, line by line, and the tally."""
    yield from opening_text(design, units)
    found, node = places(design.site), ""
    for finding in design.findings:
        if finding.node != node:
            node = finding.node
            yield ""
            yield found[node].where
        yield from _finding_text(finding, units)
    yield ""
    yield tally_text(design)


def opening_text(design: SiteDesign, units: UnitSystem) -> Iterator[str]:
    """What the design is of and what it rests on."""
    stated = particulars_of(design, units)
    yield " · ".join(
        part for part in (stated.project, stated.number, f"revision {stated.revision}", stated.issue_date) if part
    )
    yield f"Code basis: {stated.code_basis_text}. Units: {units.label}."
    yield f"{NOTICE}."


def _sheet_text(design: SiteDesign, place: Place, units: UnitSystem) -> Iterator[str]:
    figures = tuple(design.sheets[place.node.id].figures.values())
    lines = dict(zip(figures, _aligned([_figure_cells(figure, units) for figure in figures]), strict=True))
    for discipline in Discipline:
        of_discipline = [line for figure, line in lines.items() if figure.kind.discipline is discipline]
        if of_discipline:
            yield f"{INDENT}{discipline.label}"
            yield from of_discipline


def _figure_cells(figure: Figure, units: UnitSystem) -> tuple[str, str, str, str, str]:
    kind, value = figure.kind, figure.value
    if isinstance(value, Missing):
        return kind.label, kind.symbol, "—", "", f"needs: {value.needs}"
    told = source_text(value.step.source)
    if figure.override:
        told = f"set by hand: {figure.override.reason}{_computed(figure, units)}"
    return kind.label, kind.symbol, kind.measure.text(value, units), kind.measure.symbol(units), told


def _computed(figure: Figure, units: UnitSystem) -> str:
    if figure.computed is None or isinstance(figure.computed, Missing):
        return " (not computed)"
    return f" (computed: {figure.kind.measure.phrase(figure.computed, units)})"


def _aligned(rows: list[tuple[str, str, str, str, str]]) -> Iterable[str]:
    """Columns side by side, numbers at the right of theirs."""
    label, symbol, value, unit, _ = (max((len(row[place]) for row in rows), default=0) for place in range(5))
    for row in rows:
        line = f"{row[0]:<{label}}  {row[1]:<{symbol}}  {row[2]:>{value}} {row[3]:<{unit}}  {row[4]}"
        yield f"{INDENT * 2}{line.rstrip()}"


def _finding_text(finding: Finding, units: UnitSystem) -> Iterator[str]:
    parts = (finding.title, _compared(finding, units), with_provenance(finding.clause, finding.provenance))
    yield f"{INDENT}{status_text(finding.status):<17} " + " · ".join(part for part in parts if part)
    if finding.remedy and finding.status is not Status.MET:
        yield f"{INDENT * 2}{finding.remedy}"


def _compared(finding: Finding, units: UnitSystem) -> str:
    cells = (value_cell(finding), limit_cell(finding))
    return ", ".join(cell.phrase(units) for cell in cells if isinstance(cell, Number))

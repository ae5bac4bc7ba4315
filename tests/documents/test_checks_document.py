"""The checks document and the grounds of a design."""

from tests.documents.invented_site import AMENDMENT_REASON, OVERRIDE_REASON
from waterpark_designer.documents.checks import checks_sections, findings_table, tally_table, tally_text
from waterpark_designer.documents.code_basis import (
    amendments_table,
    code_basis_sections,
    limits_table,
    order_table,
    overrides_table,
)
from waterpark_designer.documents.table import Number, RowKind, Table, cell_text
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Status
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise
from waterpark_designer.units import UnitSystem

US = UnitSystem.US


def test_every_finding_is_printed_once(design: SiteDesign) -> None:
    printed = [
        row.key
        for section in checks_sections(design, US)[1:]
        for block in section.blocks
        if isinstance(block, Table)
        for row in block.rows
        if row.kind is RowKind.BODY
    ]
    assert sorted(printed) == sorted(finding.key for finding in design.findings)


def test_pipe_runs_stand_together_under_their_circuit_each_by_name(piped: SiteDesign) -> None:
    table = findings_table(piped, (Status.MET,))
    headings = [str(row.cells[0]) for row in table.rows if row.kind is RowKind.GROUP]
    assert len(headings) == len(set(headings))
    start = next(place for place, row in enumerate(table.rows) if row.cells[0] == "System 1: pipe runs")
    runs = {run.id: run.name for run in piped.site.systems[0].pipe_runs}
    below = [row for row in table.rows[start + 1 :] if row.node in runs]
    assert {row.node for row in below} == set(runs)
    assert all(str(row.cells[1]).startswith(f"{runs[row.node]}: ") for row in below)


def test_the_tally_agrees_with_the_findings(design: SiteDesign) -> None:
    counts = {row.cells[0]: row.cells[1] for row in tally_table(design).rows}
    assert all(isinstance(cell, Number) for cell in counts.values())
    assert sum(cell.value for cell in counts.values() if isinstance(cell, Number)) == len(design.findings)
    assert f"{design.count(Status.MET)} met" in tally_text(design)
    assert f"{design.count(Status.CAUTION)} to look at" in tally_text(design)


def test_a_limit_that_is_broken_says_by_how_much_where_it_stands_and_what_helps(
    design: SiteDesign, library: Library
) -> None:
    broken = library.design(revise(design.site, "one", fixed_flow=0.01))
    table = findings_table(broken, (Status.NOT_MET,))
    row = next(row for row in table.rows if row.key == "longest_turnover")
    told = [cell_text(cell, column, US) for cell, column in zip(row.cells, table.columns, strict=True)]
    assert told[0] == "✗ not met"
    assert told[3] == "at most 1.50 h"
    assert told[4] == f"Local amendment, {AMENDMENT_REASON}"
    assert "flow" in told[5]


def test_the_order_of_the_code_basis_names_what_is_not_installed(design: SiteDesign, library: Library) -> None:
    rows = order_table(library.design(revise(design.site, "site", code_basis=("nowhere-1999",)))).rows
    assert [row.cells[1] for row in rows] == [
        "1 local amendment",
        "nowhere-1999 (not installed: its limits are not applied)",
    ]


def test_amendments_and_overrides_stand_with_their_reasons(design: SiteDesign) -> None:
    (amended,) = amendments_table(design).rows
    assert AMENDMENT_REASON in amended.cells and "lazy river" in amended.cells
    (overridden,) = overrides_table(design).rows
    assert OVERRIDE_REASON in overridden.cells and "System 2" in overridden.cells


def test_limits_in_use_tell_how_far_they_were_confirmed(design: SiteDesign) -> None:
    rows = limits_table(design, US).rows
    assert {row.key for row in rows} == {key for key, nodes in design.limit_uses.items() if nodes}
    by_memory = [row for row in rows if "Model Aquatic" in str(row.cells[3])]
    assert by_memory and all(row.cells[4] == "from memory, confirm" for row in by_memory)


def test_where_the_code_is_silent_it_says_so(design: SiteDesign, library: Library) -> None:
    silent = library.design(revise(design.site, "site", code_basis=(), amendments=()))
    table = code_basis_sections(silent, US)[-1].blocks[0]
    assert isinstance(table, Table)
    assert [row.kind for row in table.rows].count(RowKind.BODY) == silent.count(Status.SILENT) > 0
    assert any("The code basis is silent on" in str(row.cells[-1]) for row in table.rows)

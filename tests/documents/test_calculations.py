"""Calculation sheets: no figure without its working, no number in a working without an origin."""

import pytest

from tests.documents.invented_site import OVERRIDE_REASON
from waterpark_designer.documents.calculations import calculation_sections, workings_table
from waterpark_designer.documents.table import DASH, Number
from waterpark_designer.documents.workings import FigureWorking
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.engine.working import working_of
from waterpark_designer.units import GALLON, MINUTE, UnitSystem

US = UnitSystem.US


@pytest.fixture
def entries(design: SiteDesign) -> list[FigureWorking]:
    return [
        block
        for section in calculation_sections(design, US)
        for block in section.blocks
        if isinstance(block, FigureWorking)
    ]


def test_every_figure_of_every_node_is_there_once(design: SiteDesign, entries: list[FigureWorking]) -> None:
    printed = [(entry.node, entry.figure.kind.key) for entry in entries]
    assert sorted(printed) == sorted((node, key) for node, sheet in design.sheets.items() for key in sheet.figures)


def test_every_number_put_in_says_where_it_comes_from(entries: list[FigureWorking]) -> None:
    asked = 0
    for entry in entries:
        if isinstance(entry.figure.value, Missing):
            continue
        for line in working_of(entry.figure.value, entry.figure.kind.measure, US).inputs:
            if line.worked is not None:
                asked += 1
                assert entry.origin(line), (entry.where, entry.figure.kind.key, line.name)
    assert asked > 100


def test_a_number_worked_above_is_worked_above(entries: list[FigureWorking]) -> None:
    """Whatever an input calls “worked above” stands among the steps printed before it."""
    found = 0
    for entry in entries:
        steps = entry.steps_between()
        values = [step for _, step, _ in steps]
        for value in [*values, *([entry.figure.value] if isinstance(entry.figure.value, Worked) else [])]:
            for line in working_of(value, entry.figure.kind.measure, US).inputs:
                if line.worked is not None and entry.origin(line) == "worked above":
                    found += 1
                    assert any(line.worked is step for step in values)
    assert found > 0


def test_the_flow_of_the_river_as_a_reader_recomputes_it(design: SiteDesign, entries: list[FigureWorking]) -> None:
    # 180 m x 3 m x 0.9 m = 486 m³ in the amended 1.5 h: 324 m³/h, 1,427 gpm.
    entry = next(e for e in entries if (e.node, e.figure.kind.key) == ("river", "least_flow_by_time"))
    value = entry.figure.value
    assert isinstance(value, Worked)
    assert value / (GALLON / MINUTE) == pytest.approx(324 / 3600 / (GALLON / MINUTE))
    working = working_of(value, entry.figure.kind.measure, US)
    assert working.result == "1,427 gpm"
    assert "128,400 gal" in working.substitution and "1.50 h" in working.substitution
    origins = [entry.origin(line) for line in working.inputs]
    assert origins == ["Volume", "Longest turnover allowed"]


def test_as_rows_for_a_spreadsheet(design: SiteDesign, entries: list[FigureWorking]) -> None:
    table = workings_table(tuple(entries), US)
    headings = [column.heading for column in table.columns]
    rows = {(row.node, row.key): dict(zip(headings, row.cells, strict=True)) for row in table.rows if row.key}
    assert len(rows) == len(entries)
    by_hand = rows["two", "filter_count"]
    assert by_hand["Set by hand because"] == OVERRIDE_REASON
    assert str(by_hand["Remarks"]).startswith("Computed: ")
    flow = rows["river", "least_flow_by_time"]
    assert flow["Unit"] == "gpm" and isinstance(flow["Value"], Number)
    lacking = [key for key, cells in rows.items() if cells["Value"] == DASH]
    assert all(str(rows[key]["Remarks"]).startswith("Needed: ") for key in lacking)

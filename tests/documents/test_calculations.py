"""Calculation sheets: no figure without its working, no number in a working without an origin."""

import io

import pypdf
import pytest

from tests.documents.invented_site import OVERRIDE_REASON, make_piped_site, pdf_of
from waterpark_designer.documents.calculations import calculation_sections, workings_table
from waterpark_designer.documents.document import WorkedAlike
from waterpark_designer.documents.register import build_document
from waterpark_designer.documents.table import DASH, Number
from waterpark_designer.documents.workings import FigureWorking
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.engine.working import InputLine, working_of
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise, set_override
from waterpark_designer.model.site import Site
from waterpark_designer.units import GALLON, MINUTE, UnitSystem

US = UnitSystem.US


def entries_in(design: SiteDesign) -> list[FigureWorking]:
    """Every working of the sheets, those told in one line with others included."""
    found: list[FigureWorking] = []
    for section in calculation_sections(design, US):
        for block in section.blocks:
            found += [block] if isinstance(block, FigureWorking) else []
            found += block.entries if isinstance(block, WorkedAlike) else ()
    return found


@pytest.fixture(params=["design", "piped"])
def design(request: pytest.FixtureRequest, library: Library, site: Site) -> SiteDesign:
    """The invented site, without pipes and with them."""
    return library.design(site if request.param == "design" else make_piped_site())


@pytest.fixture
def entries(design: SiteDesign) -> list[FigureWorking]:
    return entries_in(design)


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


def titles_of(design: SiteDesign) -> list[str]:
    return [section.title for section in calculation_sections(design, US)]


def test_pipe_runs_follow_their_system_or_feature_in_flow_order(piped: SiteDesign) -> None:
    titles = titles_of(piped)
    assert titles.index("System 1: pipe runs") == titles.index("System 1") + 1
    sprays = "System 1 › Meander river › Arch sprays"
    assert titles.index(f"{sprays}: pipe runs") == titles.index(sprays) + 1
    section = calculation_sections(piped, US)[titles.index("System 1: pipe runs")]
    alike = section.blocks[-1]
    assert isinstance(alike, WorkedAlike)
    names = [run.name for run in piped.site.systems[0].pipe_runs]
    assert [row.cells[0] for row in alike.table.rows] == names[1:]


def test_a_run_in_one_line_tells_what_another_is_worked_from(piped: SiteDesign) -> None:
    section = calculation_sections(piped, US)[titles_of(piped).index("System 1: pipe runs")]
    alike = section.blocks[-1]
    assert isinstance(alike, WorkedAlike)
    headings = [column.heading for column in alike.table.columns]
    row = dict(zip(headings, alike.table.rows[0].cells, strict=True))
    numbers = {name: cell.value for name, cell in row.items() if isinstance(cell, Number)}
    # Darcy and Weisbach: f · L / D · v² / 2g; fittings: K · v² / 2g.
    head = numbers["v"] ** 2 / (2 * 9.80665)
    assert numbers["f"] * numbers["L"] / numbers["D"] * head == pytest.approx(numbers["h f"])
    assert numbers["K"] * head == pytest.approx(numbers["h K"])
    assert numbers["h f"] + numbers["h K"] == pytest.approx(numbers["h"])


def test_a_run_with_something_set_by_hand_is_worked_in_full(piped: SiteDesign, library: Library) -> None:
    run = piped.site.systems[0].pipe_runs[4]
    site = set_override(piped.site, run.id, "run_loss", 1.0, "Measured <on> site")
    section = calculation_sections(library.design(site), US)[titles_of(piped).index("System 1: pipe runs")]
    printed = [block for block in section.blocks if isinstance(block, FigureWorking) and block.node == run.id]
    assert any(entry.figure.override and entry.figure.override.reason == "Measured <on> site" for entry in printed)
    alike = section.blocks[-1]
    assert isinstance(alike, WorkedAlike) and run.name not in [row.cells[0] for row in alike.table.rows]


def test_a_step_is_worked_once_on_a_sheet(piped: SiteDesign) -> None:
    of_system = [entry for entry in entries_in(piped) if entry.node == "one"]
    worked = [id(step) for entry in of_system for _, step, _ in entry.steps_between()]
    assert len(worked) == len(set(worked))
    told = {entry.origin(line) for entry in of_system for line in lines_of(entry)}
    assert any(origin.startswith("worked under ") for origin in told)


def lines_of(entry: FigureWorking) -> list[InputLine]:
    """Every number put in under an entry."""
    values = [step for _, step, _ in entry.steps_between()]
    values += [entry.figure.value] if isinstance(entry.figure.value, Worked) else []
    return [line for value in values for line in working_of(value, entry.figure.kind.measure, US).inputs]


def test_a_number_that_is_another_figure_is_worked_there_alone(
    design: SiteDesign, entries: list[FigureWorking]
) -> None:
    referring = [entry for entry in entries if entry.same_as]
    assert referring
    for entry in referring:
        worked = [one for one in entries if one.figure.value is entry.figure.value and not one.same_as]
        names = [f"{one.figure.kind.label}, {design.sheets[one.node].node.name}" for one in worked]
        assert entry.same_as in names
    document = build_document(design, "calculation-sheets", US)
    pages = pypdf.PdfReader(io.BytesIO(pdf_of(document))).pages
    printed = " ".join(" ".join(page.extract_text() for page in pages).split())
    assert any(f"The same as: {entry.same_as}" in printed for entry in referring)


def test_pipes_lengthen_the_sheets_by_little(piped: SiteDesign, library: Library) -> None:
    """Each run of pipe beyond the first takes a line, not a page."""
    more = piped.site.systems[0].pipe_runs * 3
    runs = tuple(run.revised(id=f"run-{number}") for number, run in enumerate(more))
    longer = library.design(revise(piped.site, "one", pipe_runs=runs))

    def pages(design: SiteDesign) -> int:
        return len(pypdf.PdfReader(io.BytesIO(pdf_of(build_document(design, "calculation-sheets")))).pages)

    assert pages(longer) <= pages(piped) + 2


def test_the_sheets_of_a_feature_speak_of_no_filters(piped: SiteDesign) -> None:
    labels = [figure.kind.label for figure in piped.sheets["sprays"].figures.values()]
    assert {"Total head", "Duty head", "Operating flow", "Operating head"} <= set(labels)
    entries = tuple(entry for entry in entries_in(piped) if entry.node == "sprays")
    told = [str(cell) for row in workings_table(entries, US).rows for cell in row.cells]
    assert "Total head" in told and not any("filter" in text.lower() for text in told)

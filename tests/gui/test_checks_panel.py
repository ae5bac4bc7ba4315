"""The checks panel: counts, filters, what a row says, and the jump."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.modeltest import ModelTester
from pytestqt.qtbot import QtBot

from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.worked import leaf
from waterpark_designer.gui.checks_panel import NOTHING, ChecksPanel, finding_row, places
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_points import new_zone
from waterpark_designer.model.walk import walk
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import FILTER_RATE, UnitSystem


@pytest.fixture
def small_site(small_site: Site) -> Site:
    """The small site under one rule set, which is silent on some limits."""
    return small_site.revised(code_basis=("georgia-511-3-5-2024",))


@pytest.fixture
def panel(project: OpenProject, qtbot: QtBot) -> ChecksPanel:
    made = ChecksPanel(project)
    qtbot.addWidget(made)
    made.resize(900, 600)
    with qtbot.waitExposed(made):
        made.show()
    return made


def shown(panel: ChecksPanel) -> list[Finding]:
    return [item for item in panel.table.rows.items if isinstance(item, Finding)]


def headings(panel: ChecksPanel) -> list[str]:
    return [item.text for item in panel.table.rows.items if not isinstance(item, Finding)]


def test_every_finding_is_listed_once_under_its_part(panel: ChecksPanel, project: OpenProject) -> None:
    assert sorted(map(id, shown(panel))) == sorted(map(id, project.design.findings))
    bodies = [body.name for system in project.site.systems for body in system.attractions]
    assert [text.partition("  ·  ")[0] for text in headings(panel) if "·" in text] == bodies


def test_the_gravest_of_a_part_comes_first(panel: ChecksPanel) -> None:
    order = list(Status)
    places_of_status: list[int] = []
    for item in panel.table.rows.items:
        if not isinstance(item, Finding):
            places_of_status = []
            continue
        places_of_status.append(order.index(item.status))
        assert places_of_status == sorted(places_of_status)


@pytest.mark.parametrize("status", list(Status))
def test_a_count_shows_its_findings_only(
    panel: ChecksPanel, project: OpenProject, qtbot: QtBot, status: Status
) -> None:
    expected = [finding for finding in project.design.findings if finding.status is status]
    chip = panel.chips[status]
    assert chip.text() == f"{status.mark} {status.label.capitalize()}  {len(expected)}"
    qtbot.mouseClick(chip, Qt.MouseButton.LeftButton)
    assert sorted(map(id, shown(panel))) == sorted(map(id, expected))
    qtbot.mouseClick(panel.chips[None], Qt.MouseButton.LeftButton)
    assert len(shown(panel)) == len(project.design.findings)


def test_what_there_is_nothing_of_is_said_in_words(project: OpenProject, qtbot: QtBot) -> None:
    project.edit("Empty the site", project.site.revised(systems=()))
    panel = ChecksPanel(project)
    qtbot.addWidget(panel)
    with qtbot.waitExposed(panel):
        panel.show()
    panel.show_status(Status.NOT_MET)
    assert panel.empty.isVisible()
    assert panel.empty.text() == NOTHING[Status.NOT_MET]


def test_a_row_says_value_limit_clause_provenance_and_remedy_in_the_units_on_screen() -> None:
    # 15 gpm/ft² is 36.67 m/h: 15 · 0.003785411784 m³ · 60 / 0.09290304 m².
    limit = leaf(0.0101859, "Filter rate", Source("A code, 4.2", Provenance.MEMORY), measure=FILTER_RATE)
    finding = Finding(
        "n",
        "filter_rate",
        "Filter rate",
        Status.NOT_MET,
        "filter_rate",
        0.0135812,
        limit,
        FILTER_RATE,
        "at most",
        "A code, 4.2",
        "from memory, confirm",
        "Add a filter.",
    )
    result, check, value, clause = finding_row(finding, UnitSystem.US).cells
    assert (result.text, result.tone) == ("✗ not met", "error")
    assert (check.text, check.below) == ("Filter rate", "Add a filter.")
    assert (value.text, value.below) == ("20.0 gpm/ft²", "at most 15.0 gpm/ft²")
    assert (clause.text, clause.below) == ("A code, 4.2", "from memory, confirm")
    metric = finding_row(finding, UnitSystem.SI, "Deep end").cells
    assert (metric[2].text, metric[2].below) == ("48.9 m/h", "at most 36.7 m/h")
    assert metric[1].text == "Deep end: Filter rate"


def test_the_lap_pool_is_held_to_six_hours_in_georgia(panel: ChecksPanel, project: OpenProject) -> None:
    # Georgia Rules 511-3-5-.07(1)(a): swimming pools at most 6 h.
    lap = project.site.systems[1].attractions[0]
    finding = next(item for item in shown(panel) if item.node == lap.id and item.key == "longest_turnover")
    row = panel.table.rows.row(panel.table.rows.items.index(finding))
    assert row.cells[2].below == "at most 6.00 h"
    assert ".07(1)(a)" in row.cells[3].text and row.cells[3].below == "read"


def test_enter_jumps_to_the_part_and_its_figure(panel: ChecksPanel, project: OpenProject, qtbot: QtBot) -> None:
    lap = project.site.systems[1].attractions[0]
    panel.table.setFocus()
    assert panel.table.go_to((lap.id, "longest_turnover", "turnover_time"))
    with qtbot.waitSignals([panel.figure_requested, project.selection_changed]):
        qtbot.keyClick(panel.table, Qt.Key.Key_Return)
    assert project.selection == lap.id


def test_a_double_click_names_the_figure(panel: ChecksPanel, qtbot: QtBot) -> None:
    number = next(n for n, item in enumerate(panel.table.rows.items) if isinstance(item, Finding))
    finding = panel.table.rows.items[number]
    place = panel.table.visualRect(panel.table.rows.index(number, 1)).center()
    with qtbot.waitSignal(panel.figure_requested) as asked:
        qtbot.mouseClick(panel.table.viewport(), Qt.MouseButton.LeftButton, pos=place)
        qtbot.mouseDClick(panel.table.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert asked.args == [finding.node, finding.figure]


def test_it_follows_edits_and_undo(panel: ChecksPanel, project: OpenProject) -> None:
    before = panel.chips[Status.SILENT].text()
    project.edit("Empty the code basis", project.site.revised(code_basis=()))
    assert panel.chips[Status.SILENT].text() != before
    assert panel.chips[None].text() == f"All  {len(project.design.findings)}"
    project.undo_stack.undo()
    assert panel.chips[Status.SILENT].text() == before


def test_a_panel_out_of_sight_waits_until_it_is_shown(panel: ChecksPanel, project: OpenProject) -> None:
    panel.hide()
    before = panel.chips[None].text()
    project.edit("Empty the site", project.site.revised(systems=()))
    assert panel.chips[None].text() == before
    panel.show()
    assert panel.chips[None].text() == f"All  {len(project.design.findings)}"


def test_several_zones_are_named_and_a_single_one_is_not(project: OpenProject) -> None:
    lap = project.site.systems[1].attractions[0]
    alone = lap.zones[0]
    assert places(project.site)[alone.id].part == ""
    two = lap.revised(zones=(alone, new_zone(project.units).revised(name="Diving well")))
    site = project.site.revised(systems=(project.site.systems[1].revised(attractions=(two,)),))
    found = places(site)
    assert found[two.zones[1].id].part == "Diving well"
    assert found[two.zones[1].id].group == lap.id
    assert set(found) == {node.id for node in walk(site)}


def test_its_rows_keep_the_rules_of_a_model(panel: ChecksPanel, qtmodeltester: ModelTester) -> None:
    qtmodeltester.check(panel.table.rows)


def test_where_it_is_narrow_the_clause_goes_below_the_remedy(panel: ChecksPanel, project: OpenProject) -> None:
    panel.resize(520, 600)
    assert [column.heading for column in panel.table.rows.columns] == ["Result", "Check", "Value and limit"]
    assert sum(panel.table.columnWidth(number) for number in range(3)) <= panel.table.viewport().width()
    lap = project.site.systems[1].attractions[0]
    number = next(
        n
        for n, item in enumerate(panel.table.rows.items)
        if isinstance(item, Finding) and item.node == lap.id and item.key == "longest_turnover"
    )
    assert panel.table.rows.row(number).cells[1].below == "Georgia Rules 511-3-5 (2024), .07(1)(a) (read)"
    panel.resize(900, 600)
    assert len(panel.table.rows.columns) == 4

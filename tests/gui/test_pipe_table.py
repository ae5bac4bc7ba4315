"""The pipe table under the fingers, and the pane around it."""

import pytest
from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication

from waterpark_designer.engine.findings import Status
from waterpark_designer.gui.lay_out_desk import BODIES, PIPES
from waterpark_designer.gui.pipe_columns import COLUMNS
from waterpark_designer.gui.pipe_pane import PipePane
from waterpark_designer.model.edits import duplicate, revise
from waterpark_designer.model.features import Feature
from waterpark_designer.model.walk import find, walk

Key, ALT, CONTROL, SHIFT = (
    Qt.Key,
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
)
PLACE = {column.field or column.figure: place for place, column in enumerate(COLUMNS)}


@pytest.fixture
def pane(qtbot, project) -> PipePane:
    project.select(project.site.systems[1].id)
    made = PipePane(project)
    qtbot.addWidget(made)
    made.resize(900, 560)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.table.setFocus()
    return made


def at(pane: PipePane, row: int, field: str) -> None:
    chosen = QItemSelectionModel.SelectionFlag.ClearAndSelect
    pane.table.selectionModel().setCurrentIndex(pane.table.pipes.index(row, PLACE[field]), chosen)


def runs(project):
    return project.site.systems[1].pipe_runs


def press(qtbot, key: Qt.Key, modifier=Qt.KeyboardModifier.NoModifier) -> None:
    qtbot.keyClick(QApplication.focusWidget(), key, modifier)
    QApplication.processEvents()


def test_entry_that_cannot_be_read_stays_open_with_a_message_beside_it(qtbot, project, pane) -> None:
    at(pane, 4, "length")
    for letter in "far":
        qtbot.keyClicks(QApplication.focusWidget(), letter)
    before = project.site
    press(qtbot, Key.Key_Return)
    assert pane.table.message.isVisible()
    assert "“far” cannot be read" in pane.table.message.label.text()
    press(qtbot, Key.Key_Escape)
    assert project.site is before
    assert pane.table.hasFocus()


def test_tab_passes_over_what_is_computed(qtbot, pane) -> None:
    at(pane, 4, "branch")
    press(qtbot, Key.Key_Tab)
    assert pane.table.currentIndex().column() == PLACE["elbows_90"]
    press(qtbot, Key.Key_Backtab)
    assert pane.table.currentIndex().column() == PLACE["branch"]


def test_tab_leaves_the_table_at_its_end(qtbot, pane) -> None:
    at(pane, len(pane.table.pipes.runs), "assumed")
    press(qtbot, Key.Key_Tab)
    assert not pane.table.hasFocus()


def test_delete_takes_a_run_out_by_its_name_and_empties_elsewhere(qtbot, project, pane) -> None:
    at(pane, 4, "elbows_90")
    press(qtbot, Key.Key_Delete)
    assert runs(project)[4].elbows_90 == 0
    at(pane, 4, "name")
    press(qtbot, Key.Key_Delete)
    assert "Pump discharge" not in [run.name for run in runs(project)]
    assert pane.table.currentIndex().row() == 4


def test_insert_and_alt_arrows(qtbot, project, pane) -> None:
    at(pane, 2, "name")
    press(qtbot, Key.Key_Insert)
    assert runs(project)[2].name == "Run 11"
    assert pane.table.run.name == "Run 11"
    press(qtbot, Key.Key_Up, ALT)
    assert runs(project)[1].name == "Run 11" == pane.table.run.name
    press(qtbot, Key.Key_Down, ALT)
    assert runs(project)[2].name == "Run 11" == pane.table.run.name


def test_space_turns_yes_to_no(qtbot, project, pane) -> None:
    at(pane, 4, "in_pump_head")
    press(qtbot, Key.Key_Space)
    assert not runs(project)[4].in_pump_head
    press(qtbot, Key.Key_Space)
    assert runs(project)[4].in_pump_head


def test_kind_is_chosen_by_its_letters(qtbot, project, pane) -> None:
    at(pane, 4, "kind")
    qtbot.keyClicks(QApplication.focusWidget(), "b")
    press(qtbot, Key.Key_Return)
    assert runs(project)[4].kind.label.startswith("B")


def test_rows_come_back_from_a_spreadsheet_as_they_went(qtbot, project, pane) -> None:
    at(pane, 4, "name")
    press(qtbot, Key.Key_Space, SHIFT)
    press(qtbot, Key.Key_C, CONTROL)
    head, row = QGuiApplication.clipboard().text().split("\n")
    assert head.split("\t")[:3] == ["Pipe run", "Kind of line", "Length ft"]
    assert row.split("\t")[0] == "Pump discharge"
    while pane.table.run is not None:
        press(qtbot, Key.Key_Down)
    press(qtbot, Key.Key_V, CONTROL)
    source, copy = runs(project)[4], runs(project)[-1]
    same = ("length", "kind", "count", "flow_share", "standard", "elbows_90", "in_pump_head", "assumed")
    for field in same:
        assert getattr(copy, field) == pytest.approx(getattr(source, field)), field


def test_a_column_of_a_spreadsheet_keeps_its_units_and_spaces(qtbot, project, pane) -> None:
    """A column alone comes without tabs: 30 m is 98.4 ft, not 30 ft and a stray "m"; 1,200 is one number."""
    count = runs(project)[1].count
    at(pane, 1, "length")
    QGuiApplication.clipboard().setText("30 m\n1,200\nfar\n25\n")
    press(qtbot, Key.Key_V, CONTROL)
    assert [run.length for run in runs(project)[1:3]] == pytest.approx([30.0, 1200 * 0.3048])
    assert runs(project)[4].length == pytest.approx(25 * 0.3048)
    assert runs(project)[1].count == count
    assert "“far” cannot be read" in pane.table.message.label.text()
    at(pane, 1, "name")
    QGuiApplication.clipboard().setText("Drains, north end\nSuction to pump 1")
    press(qtbot, Key.Key_V, CONTROL)
    assert [run.name for run in runs(project)[1:3]] == ["Drains, north end", "Suction to pump 1"]


def test_paste_without_a_selection_goes_to_the_current_cell(qtbot, project, pane) -> None:
    at(pane, 2, "length")
    pane.table.clearSelection()
    before = len(runs(project))
    QGuiApplication.clipboard().setText("25")
    press(qtbot, Key.Key_V, CONTROL)
    assert len(runs(project)) == before
    assert runs(project)[2].length == pytest.approx(25 * 0.3048)


def test_pane_follows_the_selection(project, pane) -> None:
    jets = next(node for node in walk(project.site) if isinstance(node, Feature))
    project.select(jets.id)
    assert pane.table.pipes.loop.id == jets.id
    assert [run.name for run in pane.table.pipes.runs] == ["Feature suction", "Feature supply"]
    project.select(project.site.systems[0].attractions[0].id)
    assert pane.table.pipes.loop.id == project.site.systems[0].id
    project.select(project.site.id)
    assert pane.table.isHidden() and "Select a recirculation system" in pane.state.text()


def test_starting_set_is_offered_where_there_are_no_runs(qtbot, project, pane) -> None:
    assert pane.starting_button.isHidden()
    project.edit("None", revise(project.site, project.site.systems[1].id, pipe_runs=()))
    assert pane.starting_button.isVisible() and "No pipe runs yet" in pane.state.text()
    qtbot.mouseClick(pane.starting_button, Qt.MouseButton.LeftButton)
    assert len(runs(project)) == 10
    assert pane.starting_button.isHidden() and "10 pipe runs, all assumed" in pane.state.text()


def test_working_of_the_run_one_is_on(qtbot, project, pane) -> None:
    qtbot.mouseClick(pane.working_button, Qt.MouseButton.LeftButton)
    at(pane, 4, "length")
    assert pane.working_title.toolTip() == "Pump discharge"
    shown = project.design.sheets[runs(project)[4].id].figures
    assert pane.figures.rows.keys() == shown.keys()
    at(pane, 5, "length")
    assert pane.working_title.toolTip() == "Filter piping"


def test_check_of_a_run_leads_to_it(open_window) -> None:
    project = open_window.project
    run = project.site.systems[1].pipe_runs[4]
    project.edit("Too small", revise(project.site, run.id, size="2"))
    finding = next(item for item in project.design.findings if item.node == run.id and item.status is Status.NOT_MET)
    open_window.show_checks()
    open_window.checks.panel._jump(finding)
    assert project.selection == project.site.systems[1].id
    assert open_window.lay_out.view == PIPES
    assert open_window.lay_out.pipes.table.run.id == run.id
    assert open_window.lay_out.pipes.figures.rows["velocity"].is_open


def test_figure_of_a_system_brings_its_editor_back(open_window) -> None:
    system = open_window.project.site.systems[1]
    open_window.lay_out.show_view(PIPES)
    assert open_window.lay_out.panel.isHidden()
    open_window.show_figure(system.id, "design_flow")
    assert open_window.lay_out.view == BODIES
    assert open_window.lay_out.panel.isVisible()


def test_runs_have_no_rows_and_a_copy_of_a_system_has_its_own(project, qtbot) -> None:
    from waterpark_designer.gui.site_tree_model import SiteTreeModel

    tree = SiteTreeModel(project)
    system = project.site.systems[1]
    index = tree.index_of(system.id)
    assert [tree.index(row, 0, index).data() for row in range(tree.rowCount(index))] == ["Lap pool"]
    site, copy = duplicate(project.site, system.id)
    project.edit("Duplicate", site)
    twin = find(project.site, copy)
    assert [run.name for run in twin.pipe_runs] == [run.name for run in system.pipe_runs]
    assert not {run.id for run in twin.pipe_runs} & {run.id for run in system.pipe_runs}

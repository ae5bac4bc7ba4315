"""The window as a whole, driven with keys, clicks and menus."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialog, QLineEdit

from waterpark_designer.engine.findings import Status
from waterpark_designer.gui.code_basis_page import CodeBasisPage
from waterpark_designer.gui.main_window import LAY_OUT, REVIEW, SCHEDULE, MainWindow
from waterpark_designer.gui.theme import DARK, LIGHT, colours
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.edits import revise
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.starting_points import add_attraction
from waterpark_designer.model.walk import walk
from waterpark_designer.units import UnitSystem

CONTROL, ALT, SHIFT = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ShiftModifier,
)


def press(qtbot, window, key, modifier=Qt.KeyboardModifier.NoModifier):
    """Press keys where the keyboard is."""
    qtbot.keyClick(window.focusWidget() or window, key, modifier)


def test_start_page_without_header_or_totals(window) -> None:
    assert window.start_page.isVisible()
    assert not window.header.isVisible()
    assert window.band is None
    assert not window.actions_of["save"].isEnabled()
    assert window.actions_of["new"].isEnabled()


def test_new_site_by_key(qtbot, window) -> None:
    press(qtbot, window, Qt.Key.Key_N, CONTROL)
    assert window.project.site.name == "New site"
    assert window.lay_out.isVisible()
    assert window.header.state.toolTip() == "Revision A · not saved yet"


def test_sample_from_the_menu(window) -> None:
    actions = window.actions_of.menus["samples"].actions()
    assert len(actions) == 3
    actions[0].trigger()
    assert window.project is not None and window.project.path is None


def test_desks_by_key_and_click(qtbot, open_window) -> None:
    window = open_window
    for key, desk, shown in (
        (Qt.Key.Key_2, SCHEDULE, "schedule"),
        (Qt.Key.Key_3, REVIEW, "review"),
        (Qt.Key.Key_1, LAY_OUT, "lay_out"),
    ):
        press(qtbot, window, key, CONTROL)
        assert getattr(window, shown).isVisible()
        assert window.header.desks.checkedId() == desk
        assert window.band.isVisible()
    qtbot.mouseClick(window.header.desks.button(SCHEDULE), Qt.MouseButton.LeftButton)
    assert window.desk == SCHEDULE
    assert window.actions_of["schedule"].isChecked()


def test_units_are_an_edit_kept_in_the_file(qtbot, open_window) -> None:
    window = open_window
    qtbot.mouseClick(window.header.units, Qt.MouseButton.LeftButton)
    assert window.project.units is UnitSystem.SI
    assert window.header.units.text() == "Units: SI (metric)"
    assert window.actions_of["undo"].text() == "&Undo Show SI (metric)"
    assert window.isWindowModified()
    press(qtbot, window, Qt.Key.Key_Z, CONTROL)
    assert window.project.units is UnitSystem.US
    assert not window.isWindowModified()


def test_undo_and_redo_carry_the_names_of_steps(qtbot, open_window) -> None:
    window = open_window
    assert not window.actions_of["undo"].isEnabled()
    window.actions_of.menus["attraction"].actions()[0].trigger()
    assert window.actions_of["undo"].text() == "&Undo Add lap pool"
    press(qtbot, window, Qt.Key.Key_Z, CONTROL)
    assert window.actions_of["redo"].text() == "&Redo Add lap pool"
    press(qtbot, window, Qt.Key.Key_Z, CONTROL | SHIFT)
    assert window.actions_of["undo"].isEnabled()


def test_saved_state_is_told(qtbot, open_window) -> None:
    window = open_window
    assert window.header.state.toolTip() == "Revision A · saved in alder-bend.waterpark"
    window.change_units()
    assert window.header.state.toolTip() == "Revision A · unsaved changes"
    press(qtbot, window, Qt.Key.Key_S, CONTROL)
    assert window.header.state.toolTip() == "Revision A · saved in alder-bend.waterpark"
    assert "alder-bend.waterpark is saved" in window.notice.label.text()
    assert window.notice.isVisible()


def test_keys_on_parts_work_in_the_tree(qtbot, open_window) -> None:
    window, project = open_window, open_window.project
    river = project.site.systems[0]
    project.select(river.id)
    window.lay_out.tree.setFocus()
    press(qtbot, window, Qt.Key.Key_D, CONTROL)
    assert project.undo_stack.undoText() == "Duplicate System 1"
    press(qtbot, window, Qt.Key.Key_Delete)
    assert len(project.site.systems) == 3
    project.select(river.id)
    press(qtbot, window, Qt.Key.Key_Down, ALT)
    assert project.site.systems[1].id == river.id
    press(qtbot, window, Qt.Key.Key_C, CONTROL)
    assert "waterpark_part" in QGuiApplication.clipboard().text()
    press(qtbot, window, Qt.Key.Key_V, CONTROL)
    assert project.undo_stack.undoText() == "Paste System 1"


def test_delete_never_acts_unseen(qtbot, open_window) -> None:
    window, project = open_window, open_window.project
    before = project.site
    project.select(before.systems[0].attractions[0].id)
    window.lay_out.table.setFocus()
    press(qtbot, window, Qt.Key.Key_Delete)
    window.show_desk(SCHEDULE)
    window.schedule.setFocus()
    press(qtbot, window, Qt.Key.Key_Delete)
    assert project.site is before


def test_copy_in_the_table_takes_its_cells(qtbot, open_window) -> None:
    window = open_window
    window.lay_out.table.setFocus()
    window.lay_out.table.setCurrentIndex(window.lay_out.table.comparison.index(0, 0))
    press(qtbot, window, Qt.Key.Key_C, CONTROL)
    assert QGuiApplication.clipboard().text() == "Lazy river"


def test_everything_that_can_be_inserted(open_window) -> None:
    window, menus = open_window, open_window.actions_of.menus
    project = window.project
    project.select(project.site.systems[1].id)
    for menu, kind in (("attraction_here", "spa"), ("feature", "massage_jets"), ("attraction", "wave_pool")):
        next(action for action in menus[menu].actions() if action.objectName() == kind).trigger()
    for key in ("add_zone", "add_system"):
        window.actions_of[key].trigger()
    steps = [project.undo_stack.text(step) for step in range(project.undo_stack.count())]
    assert steps == ["Add spa", "Add massage jets", "Add wave pool", "Add zone", "Add system"]
    assert [body.name for body in project.site.systems[1].attractions] == ["Lap pool", "Spa"]
    assert len(project.site.systems[3].attractions[0].zones) == 3


def test_refusal_is_a_notice(open_window) -> None:
    window = open_window
    window.project.select(window.project.site.id)
    window.actions_of["delete"].trigger()
    assert window.notice.label.text() == "The site itself cannot be deleted."
    assert window.notice.isVisible()


def test_find_by_key(qtbot, open_window) -> None:
    window = open_window
    window.show_desk(REVIEW)
    press(qtbot, window, Qt.Key.Key_F, CONTROL)
    assert window.desk == LAY_OUT
    assert window.lay_out.find_bar.line.hasFocus()
    qtbot.keyClicks(window.lay_out.find_bar.line, "wading")
    assert window.project.selected.name == "Wading pool"


def test_checks_lead_to_the_figure(qtbot, open_window) -> None:
    window = open_window
    window.show_desk(SCHEDULE)
    qtbot.mouseClick(window.band.checks, Qt.MouseButton.LeftButton)
    assert window.checks.isVisible()
    finding = next(finding for finding in window.project.design.findings if finding.figure)
    window.checks.panel.figure_requested.emit(finding.node, finding.figure)
    assert window.desk == LAY_OUT
    assert window.project.selection == finding.node


def test_checks_open_on_what_is_to_fix(open_window) -> None:
    window = open_window
    window.show_checks()
    has_failing = window.project.design.count(Status.NOT_MET) > 0
    assert window.checks.panel.status is (Status.NOT_MET if has_failing else None)


def test_code_basis_chip_opens_its_page(qtbot, open_window, monkeypatch) -> None:
    opened: list[QDialog] = []
    monkeypatch.setattr(CodeBasisPage, "exec", lambda page: opened.append(page))
    qtbot.mouseClick(open_window.header.code_basis, Qt.MouseButton.LeftButton)
    assert len(opened) == 1
    assert "Georgia" in open_window.header.code_basis.toolTip()


def test_full_screen_is_the_clients_page_alone(qtbot, open_window) -> None:
    window = open_window
    press(qtbot, window, Qt.Key.Key_F11)
    assert window.isFullScreen() and window.desk == REVIEW
    assert not (window.header.isVisible() or window.band.isVisible() or window.menuBar().isVisible())
    press(qtbot, window, Qt.Key.Key_Escape)
    assert not window.isFullScreen() and window.desk == LAY_OUT
    assert window.header.isVisible() and window.band.isVisible() and window.menuBar().isVisible()
    press(qtbot, window, Qt.Key.Key_F11)
    press(qtbot, window, Qt.Key.Key_F11)
    assert not window.isFullScreen()


def test_theme_is_chosen_and_remembered(open_window, settings) -> None:
    open_window.actions_of["dark"].trigger()
    assert colours() is DARK
    assert settings.value("window/theme") == "dark"
    open_window.actions_of["light"].trigger()
    assert colours() is LIGHT
    open_window.actions_of["system"].trigger()
    assert settings.value("window/theme") == "system"


def test_window_is_as_it_was_left(qtbot, open_window, library, settings, tmp_path) -> None:
    window = open_window
    path = window.project.path
    window.resize(1200, 760)
    window.lay_out.splitter.setSizes([320, 480, 390])
    sizes = window.lay_out.splitter.sizes()
    window.show_desk(REVIEW)
    window.close()
    again = MainWindow(lambda: library, [], settings, tmp_path / "recovery")
    qtbot.addWidget(again)
    again.show()
    qtbot.waitExposed(again)
    assert again.height() == 760  # the screen of the tests is narrower than the window may be
    again.resize(1200, 760)
    assert path in again.files.recent()
    again.files.open(path)
    assert again.desk == REVIEW
    again.show_desk(LAY_OUT)
    assert again.lay_out.splitter.sizes() == sizes
    again.files.close()


def test_closing_a_project_leads_back_to_the_start_page(qtbot, open_window) -> None:
    window = open_window
    press(qtbot, window, Qt.Key.Key_W, CONTROL)
    assert window.project is None
    assert window.start_page.isVisible() and not window.header.isVisible()
    assert window.band is None
    assert not window.actions_of["undo"].isEnabled()
    assert window.windowTitle() == "Waterpark Designer"


def test_another_project_takes_its_place(open_window) -> None:
    window, first = open_window, open_window.project
    window.files.new()
    assert window.project is not first
    assert window.lay_out.words.toolTip() == "0 bodies of water on 0 systems"
    window.project.edit("Add", add_attraction(window.project.site, AttractionKind.SPA)[0])
    assert window.header.name.toolTip() == "New site"


@pytest.mark.parametrize("key", ["preview", "catalogue", "about", "keys"])
def test_dialogs_open(open_window, monkeypatch, key) -> None:
    opened: list[QDialog] = []
    monkeypatch.setattr(QDialog, "exec", lambda dialog: opened.append(dialog) or 0)
    open_window.actions_of[key].trigger()
    assert len(opened) == 1


def test_long_names_do_not_widen_the_window(open_window) -> None:
    window = open_window
    project = window.project
    project.edit("Rename", revise(project.site, project.site.id, name="A very long name of a site " * 7))
    assert window.minimumSizeHint().width() <= 1100


def test_file_named_at_the_start_is_opened(window, small_site, tmp_path) -> None:
    from waterpark_designer.gui.application import begin
    from waterpark_designer.storage.project_file import save_project

    path: Path = tmp_path / "given.waterpark"
    save_project(small_site, path, None)
    begin(window, [str(path)])
    assert window.project.path == path


def lap_pool_field(window: MainWindow, name: str):
    """The line of a size of the lap pool, with the keyboard in it and its text selected."""
    project = window.project
    pool = next(part for part in walk(project.site) if part.name == "Lap pool")
    project.select(pool.id)
    line = window.lay_out.panel.page(type(pool)).zones[0].editor.shape.fields.rows[name].editor.line
    line.setFocus()
    line.selectAll()
    return line


def lap_pool_depth(window: MainWindow) -> QLineEdit:
    """The open cell of the lap pool's first depth."""
    lap_pool_field(window, "length")
    view = window.lay_out.panel.page(Attraction).zones[0].editor.shape.table.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, 1))
    view.edit(view.currentIndex())
    return view.findChild(QLineEdit)


def steps_of(window: MainWindow) -> list[str]:
    stack = window.project.undo_stack
    return [stack.text(step) for step in range(stack.count())]


@pytest.mark.parametrize(
    ("key", "step"), [(Qt.Key.Key_U, "Show SI (metric)"), (Qt.Key.Key_D, "Duplicate Lap pool"), (Qt.Key.Key_S, "")]
)
@pytest.mark.parametrize("place", [lap_pool_field, lap_pool_depth])
def test_keys_take_what_is_typed_first(qtbot, open_window, key, step, place) -> None:
    window = open_window
    line = place(window, "length") if place is lap_pool_field else place(window)
    noun = "length" if place is lap_pool_field else "depths"
    qtbot.keyClicks(line, "6")
    press(qtbot, window, key, CONTROL)
    assert steps_of(window) == [f"Change {noun} of Lap pool", *([step] if step else [])]
    assert window.focusWidget() is not None and window.focusWidget().isVisible()


def test_menus_take_what_is_typed_in_a_table_first(qtbot, open_window) -> None:
    window, table = open_window, open_window.lay_out.table
    table.setFocus()
    table.setCurrentIndex(table.comparison.index(0, 0))
    table.edit(table.currentIndex())
    line = table.findChild(QLineEdit)
    line.selectAll()
    qtbot.keyClicks(line, "Long river")
    window.actions_of["add_system"].trigger()
    assert steps_of(window) == ["Change name of Lazy river", "Add system"]


def test_edit_menu_belongs_to_the_text_being_typed(qtbot, open_window) -> None:
    window, before = open_window, open_window.project.site
    line = lap_pool_field(window, "length")
    held = line.text()
    window.actions_of["copy"].trigger()
    assert QGuiApplication.clipboard().text() == held
    window.actions_of["cut"].trigger()
    assert line.text() == ""
    window.actions_of["paste"].trigger()
    assert line.text() == held
    notes = window.lay_out.panel.notes
    notes.setFocus()
    qtbot.keyClicks(notes, "Dry")
    notes.selectAll()
    window.actions_of["delete"].trigger()
    assert notes.toPlainText() == ""
    assert window.project.site is before
    window.lay_out.tree.setFocus()
    window.actions_of["cut"].trigger()
    assert steps_of(window)[-1] == "Cut Lap pool"


def test_undo_names_a_step_with_an_ampersand_as_it_is(open_window) -> None:
    project = open_window.project
    project.edit("Rename Food & Drink", revise(project.site, project.site.id, name="Bar"))
    assert open_window.actions_of["undo"].text() == "&Undo Rename Food && Drink"


def test_panes_by_key_onwards_and_back(qtbot, open_window) -> None:
    window = open_window
    window.lay_out.tree.setFocus()
    press(qtbot, window, Qt.Key.Key_F6)
    assert window.lay_out.table.hasFocus()
    press(qtbot, window, Qt.Key.Key_F6, SHIFT)
    assert window.lay_out.tree.hasFocus()

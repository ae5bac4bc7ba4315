"""The tree is worked with keys and clicks, and follows the project."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QDragEnterEvent, QDragMoveEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QLineEdit

from waterpark_designer.gui.site_tree import EMPTY, SiteTree, shortening
from waterpark_designer.gui.tree_rows import NUMBER
from waterpark_designer.model.edits import remove, revise
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.starting_points import add_attraction, new_site
from waterpark_designer.model.walk import find


@pytest.fixture
def tree(qtbot, project):
    made = SiteTree(project)
    qtbot.addWidget(made)
    made.resize(280, 500)
    made.show()
    qtbot.waitExposed(made)
    made.setFocus()
    return made


def names(tree):
    """Names of the rows from top to bottom, as far as they are open."""
    index, found = tree.model().index(0, 0), []
    while index.isValid():
        found.append(index.data())
        index = tree.indexBelow(index)
    return found


def test_arrow_keys_select_for_the_whole_project(qtbot, project, tree) -> None:
    with qtbot.waitSignal(project.selection_changed) as selected:
        qtbot.keyClick(tree, Qt.Key.Key_Down)
    assert selected.args == [project.site.systems[0].id]


def test_click_selects(qtbot, project, tree) -> None:
    lap = project.site.systems[1].attractions[0]
    place = tree.visualRect(tree.tree_model.index_of(lap.id)).center()
    qtbot.mouseClick(tree.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert project.selection == lap.id


def test_tree_follows_a_selection_made_elsewhere(project, tree) -> None:
    jets = project.site.systems[0].attractions[0].features[0]
    project.select(jets.id)
    assert tree.currentIndex().data() == "Current jets × 2"
    zone = project.site.systems[1].attractions[0].zones[0]
    project.select(zone.id)
    assert tree.currentIndex().data() == "Lap pool"
    assert project.selection == zone.id


def test_rename_in_place(qtbot, project, tree) -> None:
    lap = project.site.systems[1].attractions[0]
    project.select(lap.id)
    tree.rename()
    line = tree.findChild(QLineEdit)
    assert line.text() == "Lap pool"
    qtbot.keyClicks(line, "Eight lanes")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: find(project.site, lap.id).name == "Eight lanes")


def test_closed_branches_stay_closed_and_the_selection_stays(project, tree) -> None:
    river_system, lap = project.site.systems[0], project.site.systems[1].attractions[0]
    tree.collapse(tree.tree_model.index_of(river_system.id))
    project.select(lap.id)
    before = names(tree)
    project.edit("Change", revise(project.site, river_system.attractions[0].id, name="Otter run"))
    project.edit("Add", add_attraction(project.site, AttractionKind.SPA)[0])
    assert names(tree)[: len(before)] == before
    assert tree.currentIndex().data() == "Lap pool"
    project.undo_stack.undo()
    assert names(tree) == before


def test_new_part_is_in_sight_with_what_is_in_it(project, tree) -> None:
    project.edit("Add", add_attraction(project.site, AttractionKind.SPLASH_PAD)[0])
    assert names(tree)[-3:] == ["System 4", "Splash pad 2", "Spray group × 12"]


def test_selection_goes_to_what_held_a_part_that_is_gone(project, tree) -> None:
    river = project.site.systems[0].attractions[0]
    project.select(river.features[0].id)
    project.edit("Delete", remove(project.site, river.features[0].id))
    assert project.selection == river.id
    assert tree.currentIndex().data() == "Lazy river"


def test_enter_asks_for_the_editor(qtbot, tree) -> None:
    with qtbot.waitSignal(tree.editor_wanted):
        qtbot.keyClick(tree, Qt.Key.Key_Return)


def test_accent_bar_marks_the_selected_row_beside_its_tint(project, tree) -> None:
    lap = project.site.systems[1].attractions[0]
    project.select(lap.id)
    row = tree.visualRect(tree.tree_model.index_of(lap.id))
    shown = tree.viewport().grab().toImage()
    marked = shown.pixelColor(QPoint(1, row.center().y()))
    unmarked = shown.pixelColor(QPoint(1, row.center().y() + 2 * row.height()))
    assert marked != unmarked


def test_empty_site_says_how_to_begin(qtbot, open_project) -> None:
    tree = SiteTree(open_project(new_site()))
    qtbot.addWidget(tree)
    tree.resize(280, 300)
    empty = tree.viewport().grab().toImage()
    tree.show()
    QApplication.processEvents()
    below = range(40, 120)
    colours = {empty.pixelColor(x, y).name() for x in range(16, 200, 3) for y in below}
    assert len(colours) > 1, EMPTY
    assert tree.tree_model.index(0, NUMBER).data() == ""


def dragged(tree, node, place):
    """Drag a row of the tree to a place in its viewport and let go, as the mouse would."""
    mime = tree.tree_model.mimeData([tree.tree_model.index_of(node)])
    actions, button, keys = Qt.DropAction.MoveAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    for event in (
        QDragEnterEvent(place, actions, mime, button, keys),
        QDragMoveEvent(place, actions, mime, button, keys),
        QDropEvent(QPointF(place), actions, mime, button, keys),
    ):
        event.setDropAction(actions)
        QApplication.sendEvent(tree.viewport(), event)


def test_body_of_water_dragged_onto_another_system(project, tree) -> None:
    lap, river_system = project.site.systems[1].attractions[0], project.site.systems[0]
    dragged(tree, lap.id, tree.visualRect(tree.tree_model.index_of(river_system.id)).center())
    assert [body.name for body in project.site.systems[0].attractions] == ["Lazy river", "Lap pool"]
    assert project.undo_stack.count() == 1
    project.undo_stack.undo()
    assert project.site.systems[1].attractions == (lap,)


def test_body_of_water_dragged_to_the_empty_area(project, tree) -> None:
    wading = project.site.systems[2].attractions[1]
    dragged(tree, wading.id, QPoint(100, tree.viewport().height() - 4))
    assert project.site.systems[-1].attractions == (wading,)


def test_row_dragged_between_rows(project, tree) -> None:
    first, last = project.site.systems[0], project.site.systems[2]
    edge = tree.visualRect(tree.tree_model.index_of(first.id))
    dragged(tree, last.id, QPoint(edge.center().x(), edge.top()))
    assert project.site.systems[0].id == last.id


def test_enter_ends_the_typing_of_a_name_and_no_more(qtbot, project, tree) -> None:
    lap = project.site.systems[1].attractions[0]
    project.select(lap.id)
    qtbot.keyClick(tree, Qt.Key.Key_F2)
    line = tree.findChild(QLineEdit)
    qtbot.keyClicks(line, "Sport pool")
    with qtbot.assertNotEmitted(tree.editor_wanted, wait=50):
        qtbot.keyClick(line, Qt.Key.Key_Return)
    assert find(project.site, lap.id).name == "Sport pool"
    assert tree.hasFocus()


def test_a_count_stays_in_sight_where_a_name_gives_way() -> None:
    assert shortening("Spray group 2 × 12") is Qt.TextElideMode.ElideMiddle
    assert shortening("System 1 · family pool") is Qt.TextElideMode.ElideRight

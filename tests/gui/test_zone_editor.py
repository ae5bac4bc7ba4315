"""One zone: its form of water, its depths, what is taken off it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QPushButton

from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.zone_editor import ZoneEditor
from waterpark_designer.model.walk import find, walk
from waterpark_designer.model.zones import SHAPES, Bench, Channel, Island, Outline, Rectangle, SprayDeck, Steps, Zone
from waterpark_designer.units import FOOT


def zone_of(project: OpenProject, body: str) -> Zone:
    return next(node for node in walk(project.site) if node.name == body).zones[0]


@pytest.fixture
def edit(qtbot, project):
    """Shows the first zone of a body, and keeps the editor in step with the project."""

    def shown(body: str) -> ZoneEditor:
        zone = zone_of(project, body)
        editor = ZoneEditor(project, with_name=True)
        qtbot.addWidget(editor)
        editor.show_node(zone, project.units)
        project.design_changed.connect(
            lambda _before, _now: editor.show_node(find(project.site, zone.id), project.units)
        )
        editor.resize(300, 900)
        with qtbot.waitExposed(editor):
            editor.show()
        editor.activateWindow()
        qtbot.waitUntil(editor.isActiveWindow)
        return editor

    return shown


def choose_shape(qtbot, editor: ZoneEditor, key: str) -> None:
    box = editor.shape_kind.editor.box
    box.setFocus()
    while list(SHAPES)[box.currentIndex()] != key:
        qtbot.keyClick(box, Qt.Key.Key_Down if box.currentIndex() < list(SHAPES).index(key) else Qt.Key.Key_Up)


def test_another_form_keeps_the_sizes_and_is_one_step(qtbot, project, edit) -> None:
    editor = edit("Lap pool")
    before = zone_of(project, "Lap pool").shape
    choose_shape(qtbot, editor, "beach_entry")
    after = zone_of(project, "Lap pool").shape
    assert (after.length, after.width) == (before.length, before.width)
    assert project.undo_stack.undoText() == "Change shape of Lap pool"
    assert "edge_depth" in editor.shape.fields.rows
    assert editor.shape.table is None
    project.undo_stack.undo()
    assert editor.shape.kind is Rectangle
    assert editor.shape.table.isVisible()
    assert editor.shape_kind.editor.box.currentText() == "Rectangle"


def test_fields_of_the_form_are_edited(qtbot, project, edit) -> None:
    editor = edit("Lazy river")
    line = editor.shape.fields.rows["length"].editor.line
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "200 yd")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    shape = zone_of(project, "Lazy river").shape
    assert isinstance(shape, Channel) and shape.length == pytest.approx(600 * FOOT)
    assert project.undo_stack.undoText() == "Change centreline length of Lazy river"


def test_stations_are_put_in_order(qtbot, project, edit) -> None:
    editor = edit("Lap pool")
    editor.shape.table.entered.emit(((10.0, 2.0), (0.0, 1.0)))
    stations = zone_of(project, "Lap pool").shape.stations
    assert [(each.distance, each.depth) for each in stations] == [(0.0, 1.0), (10.0, 2.0)]
    assert project.undo_stack.undoText() == "Change depths of Lap pool"


def test_two_depths_at_one_place_are_refused_below_the_table(qtbot, project, edit) -> None:
    editor = edit("Lap pool")
    QGuiApplication.clipboard().setText("0\t3\n10\t4\n10\t5")
    qtbot.mouseClick(editor.shape.table.paste_button, Qt.MouseButton.LeftButton)
    assert editor.shape.table.message.text().startswith("Depth stations must stand in order")
    assert project.undo_stack.count() == 0


def test_outline_is_pasted_in_the_unit_of_the_site(qtbot, project, edit) -> None:
    editor = edit("Lap pool")
    choose_shape(qtbot, editor, "outline")
    QGuiApplication.clipboard().setText("East\tNorth\tDepth\n0\t0\t3\n40\t0\t3\n40\t30\t5\n0\t30\t5")
    qtbot.mouseClick(editor.shape.table.paste_button, Qt.MouseButton.LeftButton)
    shape = zone_of(project, "Lap pool").shape
    assert isinstance(shape, Outline)
    assert [point.x for point in shape.points] == pytest.approx([0.0, 40 * FOOT, 40 * FOOT, 0.0])
    assert float(project.design.value(zone_of(project, "Lap pool").id, "surface_area")) == pytest.approx(1200 * FOOT**2)


def test_outline_that_crosses_itself_is_refused(qtbot, project, edit) -> None:
    editor = edit("Lap pool")
    choose_shape(qtbot, editor, "outline")
    steps = project.undo_stack.count()
    QGuiApplication.clipboard().setText("0\t0\t3\n40\t30\t3\n40\t0\t5\n0\t30\t5")
    qtbot.mouseClick(editor.shape.table.paste_button, Qt.MouseButton.LeftButton)
    assert "crosses itself" in editor.shape.table.message.text()
    assert project.undo_stack.count() == steps


@pytest.mark.parametrize(("takes", "kind"), [("steps", Steps), ("bench", Bench), ("island", Island)])
def test_adding_a_deduction(qtbot, project, edit, takes, kind) -> None:
    editor = edit("Lazy river")
    zone = zone_of(project, "Lazy river")
    before = float(project.design.value(zone.id, "volume"))
    qtbot.mouseClick(editor.findChild(QPushButton, f"add {takes}"), Qt.MouseButton.LeftButton)
    assert zone_of(project, "Lazy river").deductions == (kind(),)
    assert float(project.design.value(zone.id, "volume")) < before
    assert project.undo_stack.undoText() == f"Add {takes} to Lazy river"
    assert len(editor.deductions.sections) == 1


def test_deductions_are_edited_and_removed_by_their_place(qtbot, project, edit) -> None:
    editor = edit("Lazy river")
    for takes in ("bench", "bench"):
        qtbot.mouseClick(editor.findChild(QPushButton, f"add {takes}"), Qt.MouseButton.LeftButton)
    line = editor.deductions.sections[1].rows["height"].editor.line
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "20 in")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    first, second = zone_of(project, "Lazy river").deductions
    assert second.height == pytest.approx(0.508)
    assert first == Bench()
    remove = [button for button in editor.deductions.findChildren(QPushButton) if button.text() == "Remove"]
    qtbot.mouseClick(remove[0], Qt.MouseButton.LeftButton)
    assert zone_of(project, "Lazy river").deductions == (second,)


def test_spray_deck_offers_no_deductions(edit) -> None:
    editor = edit("Splash pad")
    assert isinstance(zone_of(editor.project, "Splash pad").shape, SprayDeck)
    assert editor.deductions.isHidden()
    tank = editor.shape.fields.rows["tank_volume"].editor.line
    assert (tank.text(), tank.placeholderText()) == ("", "least of code")

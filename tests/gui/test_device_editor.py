"""How the flow of one device is had: the way is chosen, and only what it asks for is shown."""

import pytest
from PySide6.QtCore import Qt

from waterpark_designer.gui.device_editor import DeviceEditor
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.model.devices import DEVICES, Nozzle, SlideLanes, SupplierFlow, Weir
from waterpark_designer.model.features import Feature
from waterpark_designer.model.walk import find, walk
from waterpark_designer.units import GALLON, INCH, MINUTE

GPM = GALLON / MINUTE


def feature_of(project: OpenProject) -> Feature:
    return next(node for node in walk(project.site) if isinstance(node, Feature))


@pytest.fixture
def editor(qtbot, project) -> DeviceEditor:
    feature = feature_of(project)
    made = DeviceEditor(project)
    qtbot.addWidget(made)
    made.show_node(feature, project.units)
    project.design_changed.connect(lambda _before, _now: made.show_node(find(project.site, feature.id), project.units))
    made.resize(320, 400)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def choose(qtbot, editor: DeviceEditor, key: str) -> None:
    box = editor.way.editor.box
    box.setFocus()
    while list(DEVICES)[box.currentIndex()] != key:
        qtbot.keyClick(box, Qt.Key.Key_Down if box.currentIndex() < list(DEVICES).index(key) else Qt.Key.Key_Up)


def enter(qtbot, section, field: str, text: str) -> None:
    line = section.rows[field].editor.line
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    qtbot.keyClick(line, Qt.Key.Key_Return)


def shown(editor: DeviceEditor) -> set[str]:
    rows = [row for row in editor.own.rows.items() if row[1].isVisible()]
    rows += editor.sizes.rows.items() if editor.sizes else []
    return {name for name, _ in rows}


def test_only_the_entries_of_the_way_are_shown(qtbot, project, editor) -> None:
    assert shown(editor) == {"flow_each", "device_head", "transit_time"}
    choose(qtbot, editor, "nozzle")
    assert shown(editor) == {"bore", "head", "discharge_coefficient", "transit_time"}
    choose(qtbot, editor, "slide")
    assert shown(editor) == {"lanes", "flow_per_lane", "device_head", "transit_time"}
    choose(qtbot, editor, "supplier")
    assert shown(editor) == {"flow_each", "device_head", "transit_time"}


def test_a_nozzle_is_entered_and_the_flow_follows(qtbot, project, editor) -> None:
    count = feature_of(project).count
    choose(qtbot, editor, "nozzle")
    enter(qtbot, editor.sizes, "bore", "3/8")
    enter(qtbot, editor.sizes, "head", "30")
    device = feature_of(project).device
    assert isinstance(device, Nozzle) and device.bore == pytest.approx(0.375 * INCH)
    # 19.637 · 0.95 · 0.375² · √30 = 14.37 gpm.
    flow = project.design.value(feature_of(project).id, "feature_flow")
    assert flow / GPM == pytest.approx(count * 14.37, rel=1e-3)
    assert project.undo_stack.undoText() == f"Change head at the nozzle of {feature_of(project).name}"


def test_the_way_is_one_step_and_comes_back(qtbot, project, editor) -> None:
    before = feature_of(project)
    editor.way.editor.entered.emit("weir")
    assert isinstance(feature_of(project).device, Weir)
    assert project.undo_stack.undoText() == f"Change how the flow of {before.name} is had"
    project.undo_stack.undo()
    assert feature_of(project) is before
    assert editor.sizes is None and editor.way.editor.box.currentText() == "Supplier's flow"


def test_the_flow_goes_along_where_it_can(qtbot, project, editor) -> None:
    each = feature_of(project).flow_each
    assert each > 0
    editor.way.editor.entered.emit("slide")
    assert feature_of(project).device == SlideLanes(flow_per_lane=each)
    enter(qtbot, editor.sizes, "lanes", "3")
    editor.way.editor.entered.emit("supplier")
    assert feature_of(project).device == SupplierFlow()
    assert feature_of(project).flow_each == pytest.approx(3 * each)


def test_what_is_out_of_range_is_told_beside_its_field(qtbot, project, editor) -> None:
    editor.way.editor.entered.emit("weir")
    enter(qtbot, editor.sizes, "end_contractions", "3")
    row = editor.sizes.rows["end_contractions"]
    assert row.error.isVisible() and "from 0 to 2" in row.error.text()
    assert feature_of(project).device == Weir()

"""Fields of a part in the project: one named step for each entry, and plain words for what cannot be."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.property_editor import Place, PropertyRow, PropertySection, subject_of, try_edit
from waterpark_designer.model.edits import revise, revise_plan
from waterpark_designer.model.features import Feature
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Operation
from waterpark_designer.model.systems import FilterPlan
from waterpark_designer.model.walk import find, walk
from waterpark_designer.model.zones import Channel, Zone
from waterpark_designer.units import UnitSystem


def node_of(project: OpenProject, sort: type[Node]) -> Node:
    return next(node for node in walk(project.site) if isinstance(node, sort))


@pytest.fixture
def show(qtbot, project):
    """Shows a section on a node, and keeps it in step with the project."""

    def shown(owner, place: Place, node: Node, *fields: str) -> PropertySection:
        section = PropertySection(project, owner, place, fields)
        qtbot.addWidget(section)
        section.show_node(node, project.units)
        project.design_changed.connect(
            lambda _before, _now: section.show_node(find(project.site, node.id), project.units)
        )
        with qtbot.waitExposed(section):
            section.show()
        section.activateWindow()
        qtbot.waitUntil(section.isActiveWindow)
        return section

    return shown


@pytest.fixture
def channel(show, project) -> PropertyRow:
    return show(Channel, Place("shape"), node_of(project, Zone), "width").rows["width"]


def type_in(qtbot, row: PropertyRow, text: str, key: Qt.Key = Qt.Key.Key_Return) -> None:
    row.editor.line.setFocus()
    row.editor.line.selectAll()
    qtbot.keyClicks(row.editor.line, text)
    qtbot.keyClick(row.editor.line, key)


def width_of(project: OpenProject) -> float:
    return node_of(project, Zone).shape.width


def test_entry_is_one_named_step_that_can_be_undone(qtbot, project, channel) -> None:
    before = width_of(project)
    type_in(qtbot, channel, "150 in")
    assert width_of(project) == pytest.approx(150 * 0.0254)
    assert channel.editor.line.text() == "12.5"
    assert project.undo_stack.count() == 1
    assert project.undo_stack.undoText() == "Change channel width of Lazy river"
    project.undo_stack.undo()
    assert width_of(project) == before
    assert channel.editor.line.text() == "10"


def test_enter_then_leaving_is_still_one_step(qtbot, project, channel) -> None:
    type_in(qtbot, channel, "12")
    channel.editor.line.clearFocus()
    assert project.undo_stack.count() == 1


def test_same_value_in_other_words_is_no_step(qtbot, project, channel) -> None:
    type_in(qtbot, channel, "120 in")
    assert project.undo_stack.count() == 0
    assert channel.editor.line.text() == "10"


def test_bad_entry_stays_beside_its_sentence_and_changes_nothing(qtbot, project, channel) -> None:
    before = project.site
    type_in(qtbot, channel, "0 ft")
    assert channel.error.isVisible()
    assert channel.error.text() == "Channel width must be more than 0 and at most 16,400 ft."
    assert channel.editor.line.text() == "0 ft"
    assert channel.editor.line.property("invalid") == "true"
    assert project.site is before
    type_in(qtbot, channel, "11")
    assert channel.error.isHidden()
    assert channel.editor.line.property("invalid") is None
    assert project.undo_stack.count() == 1


def test_escape_takes_back_a_bad_entry_and_its_sentence(qtbot, project, channel) -> None:
    type_in(qtbot, channel, "wide")
    assert channel.error.isVisible()
    qtbot.keyClick(channel.editor.line, Qt.Key.Key_Escape)
    assert channel.error.isHidden()
    assert channel.editor.line.text() == "10"
    assert project.undo_stack.count() == 0


def test_units_change_the_texts_and_nothing_else(qtbot, project, channel) -> None:
    project.edit("Show SI units", revise(project.site, project.site.id, units=UnitSystem.SI))
    assert channel.editor.line.text() == "3.048"
    assert project.undo_stack.count() == 1
    channel.editor.line.setFocus()
    channel.editor.line.clearFocus()
    assert project.undo_stack.count() == 1
    assert width_of(project) == pytest.approx(3.048)


def test_what_is_being_typed_survives_an_edit_elsewhere(qtbot, project, channel) -> None:
    channel.editor.line.setFocus()
    channel.editor.line.selectAll()
    qtbot.keyClicks(channel.editor.line, "13")
    project.edit("Elsewhere", revise(project.site, project.site.id, client="Somebody"))
    assert channel.editor.line.text() == "13"


def test_what_is_being_typed_gives_way_where_the_value_itself_changes(qtbot, project, channel) -> None:
    zone = node_of(project, Zone)
    channel.editor.line.setFocus()
    qtbot.keyClicks(channel.editor.line, "77")
    project.edit("Same field", revise_plan(project.site, zone.id, "shape", width=2 * 3.048))
    assert channel.editor.line.text() == "20"
    assert project.undo_stack.count() == 1


def test_sentence_of_the_whole_model_stands_at_the_field_that_broke_it(qtbot, project, show) -> None:
    row = show(Operation, Place("operation"), project.site, "open_hours", "closed_hours").rows["open_hours"]
    type_in(qtbot, row, "20")
    assert row.error.text() == "Open hours and hours closed without interruption come to more than a day."
    assert project.undo_stack.count() == 0


def test_blank_count_is_left_to_the_program(qtbot, project, show) -> None:
    system = project.site.systems[0]
    row = show(FilterPlan, Place("filters"), system, "count").rows["count"]
    type_in(qtbot, row, "4")
    assert project.site.systems[0].filters.count == 4
    row.editor.line.selectAll()
    qtbot.keyClick(row.editor.line, Qt.Key.Key_Delete)
    qtbot.keyClick(row.editor.line, Qt.Key.Key_Return)
    assert project.site.systems[0].filters.count is None
    assert project.undo_stack.undoText() == "Change filters in duty of System 1"


def test_choice_and_tick_commit_at_once(qtbot, project, show) -> None:
    feature = node_of(project, Feature)
    section = show(Feature, Place(), feature, "water", "large_area")
    before = node_of(project, Feature).large_area
    qtbot.keyClick(section.rows["large_area"].editor.tick, Qt.Key.Key_Space)
    assert node_of(project, Feature).large_area is not before
    row = section.rows["water"].editor.box
    other = 1 - row.currentIndex()
    qtbot.keyClick(row, Qt.Key.Key_Down if other else Qt.Key.Key_Up)
    assert node_of(project, Feature).water is section.rows["water"].editor.spec.choices[other][0]
    assert project.undo_stack.count() == 2


def test_place_of_a_row_in_a_list() -> None:
    from waterpark_designer.model.zones import Bench, Steps

    zone = Zone(name="Z", deductions=(Steps(), Bench()))
    place = Place("deductions", 1)
    assert place.part(zone) is zone.deductions[1]
    assert place.changes(zone, height=0.3)["deductions"] == (Steps(), Bench(height=0.3))


def test_subject_names_the_body_and_the_zone_where_it_has_several(project) -> None:
    river = next(node for node in walk(project.site) if node.name == "Lazy river")
    assert subject_of(project.site, river.zones[0]) == "Lazy river"
    second = revise(project.site, river.id, zones=(*river.zones, Zone(name="Narrows")))
    assert subject_of(second, find(second, river.id).zones[1]) == "Lazy river, Narrows"


def test_refused_edit_returns_its_reason(project) -> None:
    from waterpark_designer.model.edits import remove

    zone = node_of(project, Zone)
    problem = try_edit(project, "Remove", lambda site: remove(site, zone.id))
    assert "at least one zone" in problem
    assert project.undo_stack.count() == 0


def test_narrow_row_wraps_its_words(qtbot, project, show) -> None:
    section: QWidget = show(Operation, Place("operation"), project.site, "closed_hours")
    section.resize(200, 100)
    assert section.width() == 200
    assert section.minimumSizeHint().width() <= 200

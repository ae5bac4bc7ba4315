"""Choosing a nominal size: from the list, by its name, or leaving it to the program."""

import pytest
from PySide6.QtCore import Qt

from waterpark_designer.gui.field_spec import specs_of
from waterpark_designer.gui.item_editor import ItemEditor, item_kind_of, item_label, suitable_items
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.model.kinds import FilterMedium, PrimaryDisinfection
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan
from waterpark_designer.units import UnitSystem

OWN = CatalogueItem(
    kind=ItemKind.CARTRIDGE_FILTER, name="Alder cartridge 120", size=11.1484, source="Supplier's list, invented"
)


@pytest.fixture
def editor(qtbot, project) -> ItemEditor:
    project.edit("Import", project.site.revised(catalogue=(OWN,)))
    made = ItemEditor(specs_of(FilterPlan)["item"], project)
    made.look_at(FilterPlan(medium=FilterMedium.CARTRIDGE))
    made.show_value("", UnitSystem.US)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.box.setFocus()
    return made


def test_list_holds_the_sizes_of_the_medium_the_projects_own_first(editor, project) -> None:
    names = [editor.box.itemData(row) for row in range(editor.box.count())]
    items = suitable_items(project, ItemKind.CARTRIDGE_FILTER)
    assert names == ["", *(item.name for item in items)]
    assert names[1] == OWN.name
    assert len(names) > 2
    assert {item.kind for item in items} == {ItemKind.CARTRIDGE_FILTER}


def test_label_tells_the_size_in_the_unit_shown() -> None:
    """120 ft² is 11.1484 m²."""
    assert item_label(OWN, UnitSystem.US) == "Alder cartridge 120 · 120 ft²"
    assert item_label(OWN, UnitSystem.SI) == "Alder cartridge 120 · 11.1 m²"


def test_choosing_from_the_list_gives_the_name(qtbot, editor) -> None:
    editor.box.setCurrentIndex(1)
    with qtbot.waitSignal(editor.entered) as taken:
        editor.box.activated.emit(1)
    assert taken.args == [OWN.name]
    assert editor.line.text() == OWN.name


@pytest.mark.qt_log_ignore("does not support (raise|grabbing the keyboard)")
@pytest.mark.parametrize("typed", ["alder cartridge 120", "Alder cartridge 120 · 120 ft²"])
def test_typing_a_name(qtbot, editor, typed) -> None:
    with qtbot.waitSignal(editor.entered) as taken:
        qtbot.keyClicks(editor.box, typed)
        qtbot.keyClick(editor.box, Qt.Key.Key_Return)
    assert taken.args == [OWN.name]


def test_name_that_is_not_there_is_refused(qtbot, editor) -> None:
    with qtbot.assertNotEmitted(editor.entered), qtbot.waitSignal(editor.refused) as refused:
        qtbot.keyClicks(editor.box, "Wishful 900")
        qtbot.keyClick(editor.box, Qt.Key.Key_Return)
    assert refused.args == ["“Wishful 900” is not in the catalogue. Choose from the list, or leave this blank."]


def test_blank_leaves_the_choice_to_the_program(qtbot, editor) -> None:
    editor.show_value(OWN.name, UnitSystem.US)
    with qtbot.waitSignal(editor.entered) as taken:
        editor.line.selectAll()
        qtbot.keyClick(editor.box, Qt.Key.Key_Delete)
        qtbot.keyClick(editor.box, Qt.Key.Key_Return)
    assert taken.args == [""]
    assert editor.line.placeholderText() == "choose for me"


@pytest.mark.parametrize("medium", FilterMedium)
def test_every_medium_has_its_sizes(project, medium) -> None:
    assert suitable_items(project, item_kind_of(FilterPlan(medium=medium)))


def test_plan_without_a_generator_asks_for_none(editor) -> None:
    plan = DisinfectionPlan(primary=PrimaryDisinfection.HYPOCHLORITE)
    assert item_kind_of(plan) is None
    editor.look_at(plan)
    assert not editor.isEnabled()

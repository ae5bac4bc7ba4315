"""Tree, table and editor show one selection; nothing clips in a narrow window."""

import pytest
from PySide6.QtWidgets import QPushButton

from waterpark_designer.gui.lay_out_desk import LayOutDesk
from waterpark_designer.model.starting_points import new_site


@pytest.fixture
def desk(qtbot, project):
    made = LayOutDesk(project)
    qtbot.addWidget(made)
    made.resize(1100, 600)
    made.part_panes(1100)
    made.show()
    qtbot.waitExposed(made)
    return made


def choose(button, kind):
    """Click a kind in the menu of a button."""
    next(action for action in button.menu().actions() if action.objectName() == kind).trigger()


def test_one_selection_in_three_views(project, desk) -> None:
    lap = project.site.systems[1].attractions[0]
    project.select(lap.id)
    assert desk.tree.currentIndex().data() == "Lap pool"
    assert desk.table.comparison.attraction_at(desk.table.currentIndex()) == lap.id
    assert desk.panel.node is lap


def test_buttons_add_by_kind(project, desk) -> None:
    body, feature, system = desk.add_buttons
    choose(body, "spa")
    assert project.selected.name == "Spa"
    choose(feature, "massage_jets")
    assert project.selected.name == "Massage jets"
    system.click()
    assert project.selected.name == "System 5"


def test_nothing_is_narrower_than_it_needs_at_1100(desk) -> None:
    assert sum(desk.splitter.sizes()) + 2 * desk.splitter.handleWidth() <= 1100
    for place in range(3):
        part = desk.splitter.widget(place)
        assert part.width() >= part.minimumSizeHint().width()
    for button in desk.add_buttons:
        assert button.width() >= button.minimumSizeHint().width()


def test_empty_site_offers_the_first_body_of_water(qtbot, open_project) -> None:
    project = open_project(new_site())
    desk = LayOutDesk(project)
    qtbot.addWidget(desk)
    desk.show()
    assert not desk.table.isVisible()
    offer = next(
        button
        for button in desk.findChildren(QPushButton)
        if button.property("role") == "primary" and button.isVisible()
    )
    choose(offer, "lazy_river")
    assert desk.table.isVisible()
    assert desk.words.toolTip() == "1 body of water on 1 system"


def test_keyboard_goes_round_the_panes(qtbot, desk) -> None:
    desk.tree.setFocus()
    desk.focus_part(1)
    assert desk.table.hasFocus()
    desk.focus_part(1)
    assert desk.panel.name.hasFocus()
    desk.focus_part(1)
    assert desk.tree.hasFocus()


def test_figure_is_shown_in_the_editor(project, desk) -> None:
    lap = project.site.systems[1].attractions[0]
    desk.show_figure(lap.id, "volume")
    assert project.selection == lap.id
    assert desk.panel.node is lap

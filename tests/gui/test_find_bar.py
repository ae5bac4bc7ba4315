"""Finding a part of the site by its name or kind."""

import pytest
from PySide6.QtCore import Qt

from waterpark_designer.gui.find_bar import NOT_FOUND, FindBar
from waterpark_designer.model.edits import revise
from waterpark_designer.model.walk import find


@pytest.fixture
def bar(qtbot, project):
    made = FindBar(project)
    qtbot.addWidget(made)
    made.open_bar()
    return made


def selected(project):
    return find(project.site, project.selection).name


def test_typing_goes_to_the_first_that_fits(qtbot, project, bar) -> None:
    qtbot.keyClicks(bar.line, "POOL")
    assert selected(project) == "Lap pool"
    assert bar.count.text() == "1 of 2"


def test_enter_goes_round_and_shift_enter_back(qtbot, project, bar) -> None:
    qtbot.keyClicks(bar.line, "pool")
    qtbot.keyClick(bar.line, Qt.Key.Key_Return)
    assert (selected(project), bar.count.text()) == ("Wading pool", "2 of 2")
    qtbot.keyClick(bar.line, Qt.Key.Key_Return)
    assert selected(project) == "Lap pool"
    qtbot.keyClick(bar.line, Qt.Key.Key_Return, Qt.KeyboardModifier.ShiftModifier)
    assert selected(project) == "Wading pool"


def test_kind_is_found_too(qtbot, project, bar) -> None:
    river = project.site.systems[0].attractions[0]
    project.edit("Rename", revise(project.site, river.id, name="Otter run"))
    qtbot.keyClicks(bar.line, "lazy")
    assert project.selection == river.id


def test_nothing_found_is_said_in_words(project, bar) -> None:
    before = project.selection
    bar.line.setText("volcano")
    assert bar.count.text() == NOT_FOUND
    assert bar.line.property("invalid") is True
    assert project.selection == before


def test_count_follows_edits(qtbot, project, bar) -> None:
    qtbot.keyClicks(bar.line, "pool")
    lap = project.site.systems[1].attractions[0]
    project.edit("Rename", revise(project.site, lap.id, name="Training pool 2"))
    assert bar.count.text() == "1 of 2"
    wading = project.site.systems[2].attractions[1]
    project.edit("Rename", revise(project.site, wading.id, name="Minnow cove"))
    qtbot.keyClicks(bar.line, " 2")
    assert bar.count.text() == "1 of 1"


def test_escape_closes(qtbot, bar) -> None:
    with qtbot.waitSignal(bar.closed):
        qtbot.keyClick(bar.line, Qt.Key.Key_Escape)
    assert bar.isHidden()

"""The header tells whose project it is, and how it stands to its file and its code."""

import pytest
from PySide6.QtCore import Qt

from waterpark_designer.gui.header_bar import DESKS, HeaderBar, basis_of
from waterpark_designer.model.edits import revise
from waterpark_designer.model.site import Amendment


@pytest.fixture
def bar(qtbot, project):
    made = HeaderBar()
    qtbot.addWidget(made)
    made.resize(1100, 60)
    made.show_project(project)
    made.show()
    return made


def test_desks_are_asked_for_by_number(qtbot, bar) -> None:
    for number in range(len(DESKS)):
        with qtbot.waitSignal(bar.desk_wanted) as wanted:
            qtbot.mouseClick(bar.desks.button(number), Qt.MouseButton.LeftButton)
        assert wanted.args == [number]


def test_units_and_code_basis_are_asked_for(qtbot, bar) -> None:
    with qtbot.waitSignals([bar.units_wanted, bar.code_basis_wanted]):
        qtbot.mouseClick(bar.units, Qt.MouseButton.LeftButton)
        qtbot.mouseClick(bar.code_basis, Qt.MouseButton.LeftButton)


def test_code_basis_in_one_line(project) -> None:
    assert basis_of(project.design).words.endswith("and 3 more")
    amendment = Amendment(quantity="filter_rate", value=0.01, reason="Letter of the county")
    site = revise(project.site, project.site.id, amendments=(amendment,), code_basis=("georgia-511-3-5-2024",))
    project.edit("Amend", site)
    assert basis_of(project.design).words.endswith(", 1 amended")
    project.edit("None", revise(project.site, project.site.id, code_basis=(), amendments=()))
    assert basis_of(project.design).words == "none"
    project.edit("Odd", revise(project.site, project.site.id, code_basis=("atlantis-1",)))
    assert basis_of(project.design).words == "atlantis-1 (not known here)"


def test_long_names_are_shortened_and_told_in_full(project, bar) -> None:
    name = "A very long name of a site " * 6
    project.edit("Rename", revise(project.site, project.site.id, name=name))
    bar.show_project(project)
    assert bar.name.text().endswith("…")
    assert bar.name.toolTip() == name.strip()
    assert bar.minimumSizeHint().width() < 1100


def test_no_text_of_a_button_is_cut(bar) -> None:
    for button in (*bar.desks.buttons(), bar.units, bar.code_basis):
        assert button.width() >= button.sizeHint().width()


@pytest.mark.parametrize("width", [1100, 1440])
def test_only_the_name_of_the_first_rule_set_is_shortened(project, bar, width) -> None:
    bar.resize(width, bar.height())
    bar.show_project(project)
    assert bar.code_basis.text().startswith("Code basis: Georgia")
    assert bar.code_basis.text().endswith(" and 3 more")

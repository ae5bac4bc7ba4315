"""Overflow, inlets, outlets and tanks entered as a person would, and what the panel then shows."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from waterpark_designer.gui.folding import FoldingSection
from waterpark_designer.gui.node_panel import NodePanel
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.kinds import Overflow
from waterpark_designer.model.node import Node
from waterpark_designer.model.openings import OpeningsPlan
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import walk

INCH, FOOT, GPM = 0.0254, 0.3048, 231 * 0.0254**3 / 60
"""Metres, and cubic metres a second: exact by definition (NIST SP 811, appendix B.8)."""
LEFT = Qt.MouseButton.LeftButton


def first(project, sort: type[Node]) -> Node:
    return next(node for node in walk(project.site) if isinstance(node, sort))


@pytest.fixture
def panel(qtbot, project) -> NodePanel:
    made = NodePanel(project)
    qtbot.addWidget(made)
    made.resize(340, 900)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def rows_of(qtbot, panel: NodePanel, sort: type[Node], heading: str) -> dict:
    """The rows of a section, which is opened by a click on its heading."""
    page = panel.pages[sort]
    fold = next(each for each in page.findChildren(FoldingSection) if each.heading.text() == heading)
    qtbot.mouseClick(fold.heading, LEFT)
    return page.sections[-1].rows


def type_in(qtbot, line: QWidget, text: str) -> None:
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    qtbot.keyClick(line, Qt.Key.Key_Return)


def test_a_gutter_is_chosen_and_its_figures_follow(qtbot, panel, project) -> None:
    project.select(first(project, Attraction).id)
    assert "lip_head" not in panel.figures.rows
    rows = rows_of(qtbot, panel, Attraction, "Overflow, inlets and outlets")
    box = rows["overflow"].editor.box
    box.setFocus()
    qtbot.keyClick(box, Qt.Key.Key_Down)
    plan = first(project, Attraction).openings
    assert plan.overflow is Overflow.GUTTER and box.currentText() == "Perimeter gutter"
    assert project.undo_stack.undoText() == "Change overflow of Lazy river"
    type_in(qtbot, rows["gutter_length"].editor.line, "200")
    type_in(qtbot, rows["gutter_section"].editor.line, "18")
    plan = first(project, Attraction).openings
    assert (plan.gutter_length, plan.gutter_section) == (pytest.approx(200 * FOOT), pytest.approx(18 * INCH**2))
    # 200 ft of 18 in² hold 25 ft³, 187 gal.
    assert panel.figures.rows["gutter_water"].value.text().startswith("187")
    project.undo_stack.undo()
    assert rows["gutter_section"].editor.line.text() == ""


def test_a_cover_is_held_to_its_velocity(qtbot, panel, project) -> None:
    project.select(first(project, Attraction).id)
    rows = rows_of(qtbot, panel, Attraction, "Overflow, inlets and outlets")
    type_in(qtbot, rows["cover_area"].editor.line, "1")
    found = [one for one in project.design.findings if one.key == "cover_velocity"]
    assert [one.status.value for one in found] == ["not_met"] and "No cover makes" in found[0].remedy
    rows["cover_area"].editor.line.selectAll()
    qtbot.keyClick(rows["cover_area"].editor.line, Qt.Key.Key_Delete)
    qtbot.keyClick(rows["cover_area"].editor.line, Qt.Key.Key_Return)
    assert first(project, Attraction).openings == OpeningsPlan()
    assert "cover_velocity" not in panel.figures.rows


def test_what_does_not_fit_is_told_beside_its_field(qtbot, panel, project) -> None:
    project.select(first(project, Attraction).id)
    rows = rows_of(qtbot, panel, Attraction, "Overflow, inlets and outlets")
    type_in(qtbot, rows["surface_share"].editor.line, "120")
    assert rows["surface_share"].error.text() == "Drawn from the surface must be at least 0 and at most 100 %."
    assert project.undo_stack.count() == 0


def test_a_sump_and_levels_of_the_tank(qtbot, panel, project) -> None:
    project.select(first(project, RecirculationSystem).id)
    rows = rows_of(qtbot, panel, RecirculationSystem, "Surge tank and waste sump")
    type_in(qtbot, rows["sewer_flow"].editor.line, "40")
    assert first(project, RecirculationSystem).tanks.sewer_flow == pytest.approx(40 * GPM)
    assert "sump_needed" in panel.figures.rows and "surge_lowest" not in panel.figures.rows
    for name, text in (("plan_area", "200"), ("suction_level", "1"), ("suction_cover", "1.5")):
        type_in(qtbot, rows[name].editor.line, text)
    assert panel.figures.rows["surge_lowest"].value.text().startswith("2.50")

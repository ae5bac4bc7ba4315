"""A pump's entries: its plan, the points of its curve typed, pasted or read from a file, and the way to its pipes."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog

from waterpark_designer.engine.findings import Status
from waterpark_designer.gui.curve_table import NO_TABLE
from waterpark_designer.gui.pump_section import PumpSection, RunsSection
from waterpark_designer.gui.site_rows import row_of
from waterpark_designer.model.edits import revise
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import CurvePoint, PumpPlan
from waterpark_designer.model.kinds import FeaturePump
from waterpark_designer.model.walk import walk
from waterpark_designer.units import UnitSystem

FOOT, GPM = 0.3048, 231 * 0.0254**3 / 60
"""Metres, and cubic metres a second: exact by definition (NIST SP 811, appendix B.8)."""
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def section(qtbot, project) -> PumpSection:
    made = PumpSection(project, "pump", ("pump_head", "standby_pump"))
    qtbot.addWidget(made)
    made.resize(320, 800)
    made.show_node(project.site.systems[1], project.units)
    with qtbot.waitExposed(made):
        made.show()
    return made


def curve(project) -> list[tuple[float, float]]:
    return [(point.flow / GPM, point.head / FOOT) for point in project.site.systems[1].pump.curve]


def test_pasted_points_are_one_step_and_stand_by_flow(qtbot, project, section) -> None:
    QGuiApplication.clipboard().setText("Flow\tHead\n600\t80\n0\t110\n")
    qtbot.mouseClick(section.curve.paste_button, LEFT)
    assert curve(project) == [pytest.approx((0, 110)), pytest.approx((600, 80))]
    assert project.undo_stack.undoText() == "Change pump curve of System 2"
    project.undo_stack.undo()
    assert curve(project) == []


@pytest.mark.parametrize("content", ["flow,head\n0,110\n600,80\n", "0;110\r\n600;80\r\n", "\ufeff0\t110\n600\t80"])
def test_points_from_a_file(qtbot, project, section, tmp_path, monkeypatch, content) -> None:
    path = tmp_path / "curve.csv"
    path.write_text(content, encoding="utf-8", newline="")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(path), ""))
    qtbot.mouseClick(section.curve.file_button, LEFT)
    assert curve(project) == [pytest.approx((0, 110)), pytest.approx((600, 80))]


def test_file_without_a_table_is_told(project, section, tmp_path) -> None:
    path = tmp_path / "empty.csv"
    path.write_text("\n\n", encoding="utf-8")
    section.curve.read_file(path)
    assert section.curve.message.text() == NO_TABLE
    section.curve.read_file(tmp_path / "gone.csv")
    assert section.curve.message.text().startswith("The file cannot be read")
    assert curve(project) == []


def test_point_at_fault_is_told_and_changes_nothing(qtbot, project, section) -> None:
    QGuiApplication.clipboard().setText("0\t110\n600\tmuch")
    qtbot.mouseClick(section.curve.paste_button, LEFT)
    assert section.curve.message.text().startswith("Row 2, head: “much” cannot be read")
    assert curve(project) == []


def test_curve_is_shown_in_the_units_of_the_site(project, section) -> None:
    plan = PumpPlan(curve=(CurvePoint(flow=0.0, head=30.0), CurvePoint(flow=0.1, head=20.0)))
    project.edit("Curve", revise(project.site, project.site.systems[1].id, pump=plan))
    section.show_node(project.site.systems[1], UnitSystem.SI)
    assert [section.curve.model.index(1, column).data() for column in (0, 1)] == ["360", "20"]


def test_entries_of_the_plan_and_of_the_system_stand_together(project, section) -> None:
    system, plan = section.parts
    assert list(system.rows) == ["pump_head", "standby_pump"]
    assert {"count", "efficiency", "night_flow", "voltage"} <= plan.rows.keys()
    assert "curve" not in plan.rows


def test_runs_are_told_in_short_and_their_table_is_asked_for(qtbot, project) -> None:
    section = RunsSection(project)
    qtbot.addWidget(section)
    jets = next(node for node in walk(project.site) if isinstance(node, Feature))
    section.show_node(jets, project.units)
    assert section.state.text() == "2 pipe runs, all assumed."
    assert section.note.isHidden()
    with qtbot.waitSignal(project.run_wanted) as wanted:
        section.open_button.click()
    assert wanted.args == [jets.id]
    section.show_node(jets.revised(pump=FeaturePump.RECIRCULATION), project.units)
    assert "from the recirculation pump" in section.note.text()


def test_run_whose_check_fails_is_named_and_marks_the_row_of_its_system(qtbot, project) -> None:
    section = RunsSection(project)
    qtbot.addWidget(section)
    system = project.site.systems[1]
    section.show_node(system, project.units)
    assert section.checks.isHidden()
    project.edit("Too small", revise(project.site, system.pipe_runs[4].id, size="2"))
    section.show_node(project.site.systems[1], project.units)
    assert section.checks.text() == "✗ A check is not met at: Pump discharge."
    row = row_of(project.site.systems[1], project.design)
    assert row.status is Status.NOT_MET
    assert "✗ Pump discharge, Velocity: not met" in row.tip

"""Head line by line, the pump's curve beside it, the jets of a river: what stands there adds up and can be read."""

import pytest
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication

from waterpark_designer.gui.chart_frame import Axis, round_step
from waterpark_designer.gui.curve_chart import drawing_of
from waterpark_designer.gui.head_lines import head_lines
from waterpark_designer.gui.head_pane import HeadPane
from waterpark_designer.gui.jet_chart import jet_drawing
from waterpark_designer.gui.theme import apply_theme, colours
from waterpark_designer.model.edits import revise, revise_plan
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import PumpPlan
from waterpark_designer.model.walk import walk
from waterpark_designer.units import UnitSystem

FOOT = 0.3048
"""Metres, exact: NIST SP 811, appendix B.8."""


@pytest.fixture
def pane(qtbot, project) -> HeadPane:
    project.select(project.site.systems[1].id)
    made = HeadPane(project)
    qtbot.addWidget(made)
    made.resize(800, 640)
    with qtbot.waitExposed(made):
        made.show()
    return made


def jets_of(project) -> Feature:
    return next(node for node in walk(project.site) if isinstance(node, Feature))


@pytest.fixture
def flowing(project) -> Feature:
    """The river's jets, with a current of 2 ft/s and jets of 12 ft/s."""
    site = revise(project.site, jets_of(project).id, current_speed=2 * FOOT, jet_speed=12 * FOOT)
    project.edit("Current", site)
    return jets_of(project)


def number(lines, words: str) -> float:
    return float(next(line.number for line in lines if line.words == words).replace(",", ""))


def test_lines_add_up_as_they_are_read(project) -> None:
    system = project.site.systems[1]
    lines = head_lines(project.design, system)
    words = [line.words for line in lines]
    pipes = words.index("Head lost in pipes")
    equipment = words.index("Head taken by equipment")
    slack = 0.005 * len(lines)
    piped = sum(float(line.number) for line in lines[2:pipes])
    taken = sum(float(line.number) for line in lines[pipes + 1 : equipment])
    assert number(lines, "Head lost in pipes") == pytest.approx(piped, abs=slack)
    assert number(lines, "Head taken by equipment") == pytest.approx(taken, abs=slack)
    clean = number(lines, "Lift") + piped + taken
    assert number(lines, "Total head, clean filters") == pytest.approx(clean, abs=slack)
    dirty = clean + number(lines, "Head that filter dirt adds")
    assert number(lines, "Total head, dirty filters") == pytest.approx(dirty, abs=slack)
    assert [line.words for line in lines[2:pipes]] == [run.name for run in system.pipe_runs if run.in_pump_head]


def test_feature_has_one_head_and_one_operating_point(project) -> None:
    words = [line.words for line in head_lines(project.design, jets_of(project))]
    assert "Total head" in words and "Operating flow" in words
    assert not any("filters" in text for text in words)


def test_velocity_over_its_limit_is_said_at_the_run(project) -> None:
    run = project.site.systems[1].pipe_runs[4]
    project.edit("Too small", revise(project.site, run.id, size="2"))
    line = next(line for line in head_lines(project.design, project.site.systems[1]) if line.node == run.id)
    assert line.note.startswith("✗ Velocity not met: ")


def test_line_leads_to_its_working(qtbot, pane) -> None:
    line = next(line for line in pane.table.rows.items if line.words == "Head lost in pipes")
    with qtbot.waitSignal(pane.figure_requested) as wanted:
        pane.table.activated_row.emit(line)
    assert wanted.args == [line.node, "pipe_loss"]


def test_pane_follows_edits_and_says_what_is_missing(project, pane) -> None:
    assert pane.chart.drawing is not None
    project.edit("None", revise(project.site, project.site.systems[1].id, pipe_runs=()))
    assert pane.chart.drawing is None
    assert pane.chart.missing == "Put in pipe runs to see the head, and the pump that gives it."
    assert pane.table.isHidden()
    project.undo_stack.undo()
    project.select(project.site.id)
    assert pane.chart.missing.startswith("Select a recirculation system")


def test_filter_that_has_no_estimate_is_named_in_the_chart(project, pane) -> None:
    from waterpark_designer.model.kinds import FilterMedium

    system = project.site.systems[1]
    project.edit("Cartridge", revise_plan(project.site, system.id, "filters", medium=FilterMedium.CARTRIDGE))
    assert "Enter the head that a clean filter takes" in pane.chart.missing


def test_generic_curve_goes_through_the_duty_and_the_marks_say_so(project) -> None:
    curves = project.design.curves[project.site.systems[1].id]
    drawing = drawing_of(curves, UnitSystem.US)
    duty = drawing.marks[0]
    assert duty.sentence.startswith("Duty at ") and "gpm" in duty.sentence and "ft" in duty.sentence
    pump = next(curve for curve in drawing.curves if curve.name == "Pump")
    below = [y for x, y in pump.points if x <= duty.at[0]][-1]
    above = next(y for x, y in pump.points if x >= duty.at[0])
    assert above <= duty.at[1] <= below
    assert len({curve.style for curve in drawing.curves}) == 3, "told apart without colour"
    assert len({mark.shape for mark in drawing.marks}) == 3


def test_pumps_side_by_side_are_drawn_together(project) -> None:
    system = project.site.systems[1]
    project.edit("Two", revise(project.site, system.id, pump=PumpPlan(count=2)))
    drawing = drawing_of(project.design.curves[system.id], UnitSystem.SI)
    assert drawing.curves[0].name == "Pumps in duty together"
    assert drawing.across.title == "Flow, m³/h"


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_curve_is_drawn_in_the_colours_of_the_theme(pane, theme) -> None:
    app = QApplication.instance()
    apply_theme(app, theme)
    try:
        picture = pane.chart.grab().toImage()
        rows = range(0, picture.height(), 2)
        inks = {picture.pixelColor(x, y).name() for x in range(picture.width()) for y in rows}
        assert QColor(colours().water).name() in inks
        assert QColor(colours().accent).name() in inks
    finally:
        apply_theme(app, "light")


@pytest.mark.parametrize(
    ("span", "ticks", "step"), [(100, 6, 20), (2200, 6, 500), (0.9, 6, 0.2), (7, 6, 2), (12.5, 5, 2.5), (0, 6, 1.0)]
)
def test_ticks_stand_at_round_numbers(span, ticks, step) -> None:
    assert round_step(span, ticks) == pytest.approx(step)


@pytest.mark.parametrize(
    ("axis", "texts"),
    [
        (Axis("", 2200), ["0", "500", "1,000", "1,500", "2,000", "2,500"]),
        (Axis("", 0.9), ["0.0", "0.2", "0.4", "0.6", "0.8", "1.0"]),
        (Axis("", 10, most=4), ["0.0", "2.5", "5.0", "7.5", "10.0"]),
        (Axis("", 100, most=4), ["0", "25", "50", "75", "100"]),
    ],
)
def test_ticks_are_written_with_the_places_they_need(axis, texts) -> None:
    assert [axis.text(tick) for tick in axis.ticks()] == texts


def test_jets_need_least_power_at_twice_the_current(project, flowing) -> None:
    """P ∝ v² / (v − U) is least at v = 2U: set its derivative to nothing."""
    drawing = jet_drawing(flowing, project.design.sheets[flowing.id], UnitSystem.US)
    fastest = drawing.across.high
    speed, _ = min(drawing.power, key=lambda point: point[1])
    assert speed == pytest.approx(4.0, abs=fastest / 40)
    flows = [flow for _, flow in drawing.flow]
    assert flows == sorted(flows, reverse=True), "faster jets need less water"
    assert drawing.chosen[0] == pytest.approx(12.0)
    assert drawing.sentence.startswith("Chosen: 12.0 ft/s, ")


def test_chart_of_jets_comes_with_the_caution_about_suction(project, flowing, pane) -> None:
    assert pane.jets.isHidden() and pane.jet_caution.isHidden()
    project.select(flowing.id)
    assert pane.jets.isVisible() and pane.jet_caution.isVisible()
    assert "with one opening blocked" in pane.jet_caution.text()


def test_jets_without_a_speed_say_what_to_enter(project, flowing) -> None:
    project.edit("Blank", revise(project.site, flowing.id, jet_speed=None))
    feature = jets_of(project)
    drawing = jet_drawing(feature, project.design.sheets[feature.id], UnitSystem.SI)
    assert drawing.chosen is None
    assert drawing.sentence.startswith("Enter a jet speed")


def test_branches_stand_in_the_head_once(project) -> None:
    loop = project.site.systems[1]
    pair = [run for run in loop.pipe_runs if run.in_pump_head][:2]
    for run in pair:
        project.edit("Mark as branch", revise(project.site, run.id, branch="North"))
    loop = project.site.systems[1]
    lines = head_lines(project.design, loop)
    [line] = [line for line in lines if line.words == "Branches North"]
    assert all(run.name in line.note for run in pair) and line.node == pair[0].id
    assert not {run.name for run in pair} & {line.words for line in lines}


def test_the_pumps_own_power_stands_beside_the_sum(project) -> None:
    loop = next(loop for loop in project.site.systems if loop.pipe_runs and not _own_pumps(loop))
    words = [line.words for line in head_lines(project.design, loop)]
    assert "Power drawn by the recirculation pump" in words and "With the pumps of its features" not in words
    busy = next(loop for loop in project.site.systems if _own_pumps(loop))
    lines = {line.words: line for line in head_lines(project.design, busy)}
    assert "With the pumps of its features" in lines and "Power drawn by pumps" in lines


def _own_pumps(loop) -> list[Feature]:
    features = [node for node in walk(loop) if isinstance(node, Feature)]
    return [feature for feature in features if feature.pipe_runs]

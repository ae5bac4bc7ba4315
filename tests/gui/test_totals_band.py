"""The totals of the site are always there, in its units, and lead to the checks."""

import dataclasses

import pytest
from PySide6.QtCore import Qt

from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.gui.totals_band import NOTHING, TotalsBand
from waterpark_designer.model.edits import remove, revise
from waterpark_designer.model.starting_points import new_site
from waterpark_designer.units import FLOW, UnitSystem


@pytest.fixture
def band(qtbot, project):
    made = TotalsBand(project)
    qtbot.addWidget(made)
    return made


def test_totals_are_those_of_the_site(project, band) -> None:
    flow = project.design.value(project.site.id, "design_flow")
    assert band.totals["design_flow"].number.text() == FLOW.text(flow, UnitSystem.US)
    assert band.totals["design_flow"].unit.text() == "gpm"


def test_totals_follow_edits_and_units(project, band) -> None:
    before = band.totals["design_flow"].number.text()
    project.edit("Delete", remove(project.site, project.site.systems[0].id))
    assert band.totals["design_flow"].number.text() != before
    project.edit("SI", revise(project.site, project.site.id, units=UnitSystem.SI))
    assert band.totals["design_flow"].unit.text() == "m³/h"


def test_total_that_is_not_known_says_what_is_needed(qtbot, open_project) -> None:
    band = TotalsBand(open_project(new_site()))
    qtbot.addWidget(band)
    total = band.totals["peak_occupancy"]
    assert total.number.text() == NOTHING
    assert total.unit.text() == ""
    assert (band.checks.met.text(), band.checks.rest.text()) == (NOTHING, "")


def findings(project, **counts):
    """The project's design with so many findings of each status."""
    made = tuple(
        Finding(project.site.id, "turnover", "Turnover time", Status[status.upper()])
        for status, count in counts.items()
        for _ in range(count)
    )
    return dataclasses.replace(project.design, findings=made)


@pytest.mark.parametrize(
    ("counts", "met", "rest"),
    [
        ({"met": 41, "not_met": 1, "caution": 3}, "41 met", "1 to fix"),
        ({"met": 5, "caution": 2, "unknown": 1}, "5 met", "3 to look at"),
        ({"met": 7, "silent": 2}, "7 met", "none to fix"),
    ],
)
def test_checks_are_told_in_words(project, band, counts, met, rest) -> None:
    band.show_design(findings(project, **counts))
    assert (band.checks.met.text(), band.checks.rest.text()) == (met, rest)
    assert f"{counts['met']} met" in band.checks.accessibleName()


def test_checks_open_by_click_and_by_key(qtbot, band) -> None:
    band.show()
    with qtbot.waitSignal(band.checks_wanted):
        qtbot.mouseClick(band.checks, Qt.MouseButton.LeftButton)
    with qtbot.waitSignal(band.checks_wanted):
        qtbot.keyClick(band.checks, Qt.Key.Key_Space)

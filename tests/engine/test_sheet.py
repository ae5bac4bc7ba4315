"""The sheet: a lack is its own where it stands, and says what it waits for where it has travelled."""

import pytest

from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing, leaf
from waterpark_designer.model.node import Override
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.sources import Provenance, Source

CODE = Source("A code, 1.2", Provenance.READ)
SILENT = Missing("The code says nothing.", silent=True)


@pytest.fixture
def sheet():
    override = Override(figure="design_flow", value=3.0, reason="The pump is there")
    return Sheet(RecirculationSystem(name="Loop", overrides=(override,)))


def test_a_lack_is_stated_as_its_own_and_read_as_one_to_wait_for(sheet):
    sheet.record("longest_turnover", SILENT)
    assert sheet.stated("longest_turnover") is SILENT
    read = sheet["longest_turnover"]
    assert (read.needs, read.silent, read.waits_for) == (SILENT.needs, True, "Longest turnover allowed")
    assert not read.stated_nowhere


def test_a_lack_keeps_the_figure_where_it_began(sheet):
    sheet.record("longest_turnover", SILENT)
    sheet.record("least_flow", sheet["longest_turnover"])
    for lack in (sheet.stated("least_flow"), sheet["least_flow"]):
        assert lack.waits_for == "Longest turnover allowed"


def test_a_figure_does_not_wait_for_itself(sheet):
    # As a body takes the time of its only zone.
    zone = Sheet(RecirculationSystem(name="Zone"))
    zone.record("longest_turnover", SILENT)
    sheet.record("longest_turnover", zone["longest_turnover"])
    assert sheet.stated("longest_turnover") == SILENT


def test_an_override_stands_for_a_number_and_for_a_lack(sheet):
    assert sheet.record("design_flow", leaf(2.0, "Flow", CODE)) == 3.0
    assert (sheet["design_flow"], sheet.stated("design_flow")) == (3.0, 3.0)
    figure = sheet.figures["design_flow"]
    assert (figure.computed, figure.value.step.note, figure.value.step.joined) == (2.0, "The pump is there", "")
    assert sheet.record("design_flow", SILENT) == 3.0
    assert sheet.figures["design_flow"].computed is SILENT


def test_of_two_overrides_of_one_figure_the_first_counts():
    # Only a file written by hand can have two; the model and the sheet must take the same one.
    twice = tuple(Override(figure="design_flow", value=value, reason="The pump is there") for value in (3.0, 4.0))
    node = RecirculationSystem(name="Loop", overrides=twice)
    assert Sheet(node).record("design_flow", SILENT) == node.override_of("design_flow").value == 3.0


def test_a_figure_that_is_not_there_says_so(sheet):
    for lack in (sheet["feature_flow"], sheet.stated("feature_flow")):
        assert lack == Missing("Feature flow does not apply here.")

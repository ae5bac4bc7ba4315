"""Numbers that remember their step, and lacks that travel."""

import pickle

import pytest

from waterpark_designer.engine.formulas import turnover
from waterpark_designer.engine.formulas.flow_features import weir_flow, weir_head
from waterpark_designer.engine.sheet import OVERRIDDEN
from waterpark_designer.engine.worked import (
    Missing,
    Step,
    Worked,
    given,
    governing_sources,
    greatest,
    leaf,
    least,
    title_of,
    total,
)
from waterpark_designer.model.site import SaltSupply
from waterpark_designer.sources import ARITHMETIC, Provenance, Source
from waterpark_designer.units import FLOW

CODE = Source("A code, 1.2", Provenance.READ)
LACK = Missing("Enter the depth.")


def test_a_formula_remembers_what_was_put_in():
    flow = turnover.turnover_flow(leaf(360.0, "Volume", CODE), 3600.0)
    assert flow == pytest.approx(0.1)
    assert flow.step.formula.name == "turnover_flow"
    assert [(symbol, value) for symbol, _, value, _ in flow.step.inputs()] == [("V", 360.0), ("T", 3600.0)]


def test_bare_arithmetic_drops_the_trace():
    flow = turnover.turnover_flow(360.0, 3600.0)
    assert isinstance(flow, Worked)
    assert not isinstance(flow * 2, Worked)


def test_keywords_and_defaults_are_put_in_too():
    a_day = turnover.turnovers_a_day(turnover_time=7200.0)
    assert a_day == 12
    assert a_day.step.values == (7200.0, 86400.0)


def test_a_formula_fed_with_a_lack_is_that_lack():
    assert turnover.turnover_flow(LACK, 3600.0) is LACK
    assert turnover.turnover_flow(360.0, turnover_time=LACK) is LACK


def test_a_root_of_less_than_nothing_is_a_lack_and_no_complex_number():
    """The square of a real number is never below nothing: algebra."""
    below = leaf(-0.1, "Head", ARITHMETIC)
    assert weir_flow(leaf(2.0, "Length", ARITHMETIC), below).needs == "Weir flow takes nothing below zero for head."
    assert weir_head(below).needs == "Weir head takes nothing below zero for flow per length."


def test_a_sum_lacks_what_a_part_lacks():
    known = leaf(2.0, "Pool", CODE)
    assert total("Flow", [("A", known), ("B", known)], FLOW, ARITHMETIC) == 4.0
    assert total("Flow", [("A", known), ("B", LACK)], FLOW, ARITHMETIC) is LACK


@pytest.mark.parametrize(("choose", "value"), [(greatest, 3.0), (least, 2.0)])
def test_the_chosen_part_stands_with_the_others(choose, value):
    parts = [("A", leaf(2.0, "A", CODE)), ("B", leaf(3.0, "B", CODE))]
    chosen = choose("Flow", parts, FLOW, ARITHMETIC)
    assert chosen == value
    assert [name for name, _ in chosen.step.parts] == ["A", "B"]
    assert choose("Flow", [("A", LACK)], FLOW, ARITHMETIC) is LACK


SILENT = Missing("The code says nothing.", silent=True)
WAITS_FOR_SILENCE = Missing("The code says nothing.", silent=True, waits_for="Turnover time")


def test_only_a_lack_that_begins_in_the_code_is_stated_nowhere():
    assert SILENT.stated_nowhere
    assert not WAITS_FOR_SILENCE.stated_nowhere
    assert not LACK.stated_nowhere


@pytest.mark.parametrize("choose", [greatest, least])
def test_a_part_on_which_the_code_is_silent_does_not_count(choose):
    known = leaf(2.0, "B", CODE)
    chosen = choose("Flow", [("A", SILENT), ("B", known)], FLOW, ARITHMETIC)
    assert chosen == 2.0
    assert chosen.step.parts == (("B", known),)
    assert choose("Flow", [("A", SILENT), ("B", SILENT)], FLOW, ARITHMETIC) is SILENT


@pytest.mark.parametrize("choose", [greatest, least])
@pytest.mark.parametrize("unknown", [LACK, WAITS_FOR_SILENCE])
def test_a_part_that_counts_and_is_not_known_leaves_all_open(choose, unknown):
    # The one not known may be the greater or the lesser.
    parts = [("A", SILENT), ("B", leaf(2.0, "B", CODE)), ("C", unknown)]
    assert choose("Flow", parts, FLOW, ARITHMETIC) is unknown


def test_how_parts_are_joined_is_no_note():
    parts = [("A", leaf(2.0, "A", CODE))]
    for join, word in ((total, "sum"), (greatest, "greatest"), (least, "least")):
        step = join("Flow", parts, FLOW, ARITHMETIC).step
        assert (step.joined, step.note) == (word, "")


def test_only_the_governing_limit_is_named():
    other = Source("Another code, 3", Provenance.MEMORY)
    strict = Worked(2.0, Step("Limit", CODE, limit="code:1"))
    loose = Worked(3.0, Step("Limit", other, limit="other:1"))
    assert governing_sources(least("Time", [("A", strict), ("B", loose)], FLOW, ARITHMETIC)) == (CODE,)
    assert governing_sources(total("Sum", [("A", strict), ("B", loose)], FLOW, ARITHMETIC)) == (CODE, other)


def test_behind_a_number_set_by_hand_no_code_is_named():
    limit = Worked(2.0, Step("Limit", CODE, limit="code:1"))
    by_hand = Worked(3.0, Step("Time, set by hand", OVERRIDDEN, parts=(("Computed", limit),)))
    assert governing_sources(limit) == (CODE,)
    assert governing_sources(by_hand) == (OVERRIDDEN,)
    assert governing_sources(turnover.turnover_flow(360.0, by_hand)) == (OVERRIDDEN,)


def test_a_blank_field_says_what_to_enter():
    assert given(SaltSupply(), "purity") == 1.0

    class Plan:
        pump_head = None

    assert given(Plan(), "pump_head") == Missing("Enter pump head.")


def test_a_worked_number_survives_a_copy():
    copy = pickle.loads(pickle.dumps(leaf(2.0, "Pool", CODE)))
    assert (copy, copy.step.source) == (2.0, CODE)


def test_a_lack_shows_the_need_or_the_figure_it_waits_for():
    assert Missing("Enter the depth.").short == "Enter the depth."
    assert Missing("Enter the depth.", waits_for="Volume").short == "Waits for volume."


@pytest.mark.parametrize(
    ("name", "title"),
    [
        ("backwash_flow", "Backwash flow"),
        ("start_up_salt", "Start-up salt"),
        ("salt_of_make_up", "Salt of make-up"),
        ("wake_up_call", "Wake up call"),
    ],
)
def test_a_name_is_read_as_the_trade_writes_it(name, title):
    assert title_of(name) == title

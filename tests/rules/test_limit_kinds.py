"""How the names of limited quantities read in sentences and notes."""

import pytest

from waterpark_designer.rules.limit_kinds import LIMIT_KINDS


@pytest.mark.parametrize(
    ("key", "in_a_sentence", "with_sense"),
    [
        ("longest_turnover", "turnover time", "Turnover time, at most"),
        ("inlet_velocity_most", "the greatest velocity through inlets", "Greatest velocity through inlets"),
        ("backwash_rate_least", "the least backwash rate", "Least backwash rate"),
    ],
)
def test_a_quantity_with_two_limits_names_its_end_once(key: str, in_a_sentence: str, with_sense: str) -> None:
    kind = LIMIT_KINDS[key]
    assert (kind.in_a_sentence, kind.with_sense) == (in_a_sentence, with_sense)


def test_no_two_quantities_are_called_the_same() -> None:
    assert len({kind.label for kind in LIMIT_KINDS.values()}) == len(LIMIT_KINDS)

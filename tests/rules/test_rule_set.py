"""The code basis: order, amendments, silence, conditions, and how limits are put in words."""

import pytest

from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.site import Amendment
from waterpark_designer.resources import resources_folder
from waterpark_designer.rules.condition import FACTS, Condition
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS
from waterpark_designer.rules.rule_file import read_rule_sets
from waterpark_designer.rules.rule_set import CodeBasis, code_basis
from waterpark_designer.sources import Provenance
from waterpark_designer.units import UnitSystem

RULE_SETS = read_rule_sets(resources_folder() / "rules")
GEORGIA, WISCONSIN, MODEL_CODE = "georgia-511-3-5-2024", "wisconsin-sps-390-2024", "cdc-mahc-2023"
DIVING, RIVER, SURF, THERAPY = (
    AttractionKind.DIVING_POOL,
    AttractionKind.LAZY_RIVER,
    AttractionKind.SURF_POOL,
    AttractionKind.THERAPY_POOL,
)
HOUR = 3600.0


def basis_of(*keys: str, amendments: tuple[Amendment, ...] = ()) -> CodeBasis:
    return code_basis(keys, amendments, RULE_SETS)


def hours(basis: CodeBasis, kind: AttractionKind) -> float | None:
    limit = basis.limit("longest_turnover", kind, {})
    return limit.value / HOUR if limit else None


def test_first_rule_set_that_states_a_limit_gives_it() -> None:
    assert hours(basis_of(GEORGIA, WISCONSIN), DIVING) == 8
    assert hours(basis_of(WISCONSIN, GEORGIA), DIVING) == 6


def test_later_rule_set_speaks_where_the_first_is_silent() -> None:
    basis = basis_of(GEORGIA, MODEL_CODE)
    limit = basis.limit("longest_turnover", SURF, {})
    assert limit is not None
    assert limit.source.text == "Model Aquatic Health Code (2023), 4.7.1.10 table"
    assert limit.source.provenance is Provenance.MEMORY


def test_silence_is_none() -> None:
    assert basis_of().limit("longest_turnover", RIVER, {}) is None
    assert basis_of(GEORGIA).limit("longest_turnover", SURF, {}) is None
    assert basis_of(GEORGIA).limit("longest_turnover", None, {}) is None


def test_limits_stand_in_the_order_of_the_project() -> None:
    basis = basis_of(WISCONSIN, GEORGIA)
    assert basis.titles == (RULE_SETS[WISCONSIN].title, RULE_SETS[GEORGIA].title)
    assert basis.limits == RULE_SETS[WISCONSIN].limits + RULE_SETS[GEORGIA].limits


def test_unknown_rule_set_is_reported_and_the_others_hold() -> None:
    basis = basis_of("atlantis-1-2024", GEORGIA)
    assert basis.unknown == ("atlantis-1-2024",)
    assert basis.titles == (RULE_SETS[GEORGIA].title,)
    assert hours(basis, DIVING) == 8


def test_amendment_comes_before_every_rule_set() -> None:
    reason = "County engineer, letter of 3 May 2024"
    amendment = Amendment(quantity="longest_turnover", applies_to=(RIVER,), value=1.5 * HOUR, reason=reason)
    basis = basis_of(GEORGIA, amendments=(amendment,))
    limit = basis.limit("longest_turnover", RIVER, {})
    assert limit is not None
    assert (limit.value, limit.clause, limit.provenance) == (1.5 * HOUR, reason, Provenance.AMENDMENT)
    assert limit.source.text == f"Local amendment, {reason}"
    assert basis.limits[0] is limit
    assert hours(basis, DIVING) == 8


def test_amendment_without_kinds_binds_all_and_the_first_amendment_wins() -> None:
    amendments = (
        Amendment(quantity="longest_turnover", applies_to=(RIVER,), value=1 * HOUR, reason="Health office"),
        Amendment(quantity="longest_turnover", value=3 * HOUR, reason="Health office"),
    )
    basis = basis_of(GEORGIA, amendments=amendments)
    assert hours(basis, RIVER) == 1
    assert hours(basis, DIVING) == 3
    assert [limit.key for limit in basis.limits[:2]] == ["amendment:1", "amendment:2"]


def test_amendment_may_lift_a_duty() -> None:
    lifted = Amendment(quantity="separate_system", value=0.0, reason="Variance of 2024")
    limit = basis_of(WISCONSIN, amendments=(lifted,)).limit("separate_system", RIVER, {})
    assert limit is not None
    assert limit.value_text(UnitSystem.US) == "not required"


def test_amendment_of_an_unknown_quantity_is_reported_not_used() -> None:
    strange = Amendment(quantity="longest_queue", value=60.0, reason="Health office")
    known = Amendment(quantity="longest_turnover", value=HOUR, reason="Health office")
    basis = basis_of(GEORGIA, amendments=(strange, known))
    assert basis.unknown == ("longest_queue",)
    assert all(limit.quantity in LIMIT_KINDS for limit in basis.limits)
    assert basis.limits[0].key == "amendment:2"


def test_facts_wanted_tell_silence_from_not_knowing() -> None:
    basis = basis_of(WISCONSIN)
    warm = {"temperature": 300.0}
    assert basis.limit("longest_turnover", THERAPY, warm) is None
    assert basis.facts_wanted("longest_turnover", THERAPY, warm) == ("volume for each bather",)
    assert basis.facts_wanted("longest_turnover", THERAPY, warm | {"volume_per_bather": 2.0}) == ()
    assert basis.facts_wanted("longest_turnover", SURF, {}) == ()


@pytest.mark.parametrize(
    ("known", "hours"), [({"volume_per_bather": 1.0}, 1), ({"volume_per_bather": 10.0}, 4), ({}, None)]
)
def test_the_next_code_is_not_asked_while_the_first_waits_for_a_fact(
    known: dict[str, float], hours: float | None
) -> None:
    # Wisconsin's table asks for the load of a therapy pool: 1 h up to 450 gal, 4 h from 2,500 gal a person.
    other = Amendment(quantity="longest_turnover", value=8 * HOUR, reason="Another code's limit")
    later = basis_of(amendments=(other,)).limits
    basis = CodeBasis((*basis_of(WISCONSIN).limits, *later), ("Wisconsin", "Another"))
    facts = {"temperature": 300.0} | known
    limit = basis.limit("longest_turnover", THERAPY, facts)
    assert (limit and limit.value / HOUR) == hours
    assert bool(basis.facts_wanted("longest_turnover", THERAPY, facts)) is (hours is None)
    spoken = basis.limit("longest_turnover", SURF, facts)
    assert spoken is not None and spoken.value == 8 * HOUR


@pytest.mark.parametrize(
    ("comparison", "below", "at", "above"),
    [
        ("_above", False, False, True),
        ("_at_least", False, True, True),
        ("_below", True, False, False),
        ("_at_most", True, True, False),
    ],
)
def test_comparisons(comparison: str, below: bool, at: bool, above: bool) -> None:
    condition = Condition("depth", comparison, 1.35)
    assert [condition.holds({"depth": depth}) for depth in (1.34, 1.35, 1.36)] == [below, at, above]


def test_rounding_of_a_float_does_not_cross_a_bound() -> None:
    assert 0.1 + 0.2 != 0.3
    assert not Condition("depth", "_above", 0.3).holds({"depth": 0.1 + 0.2})
    assert Condition("depth", "_at_most", 0.3).holds({"depth": 0.1 + 0.2})


def test_fact_that_is_not_known_does_not_hold() -> None:
    assert not Condition("depth", "_at_most", 1.35).holds({})
    assert not Condition("small_children", "", False).holds({})


@pytest.mark.parametrize(
    ("condition", "us", "metric"),
    [
        (
            Condition("temperature", "_above", 305.15),
            "water temperature is above 89.6 °F",
            "water temperature is above 32.0 °C",
        ),
        (
            Condition("bed_depth", "_at_least", 0.381),
            "bed depth is at least 15.00 in",
            "bed depth is at least 381.0 mm",
        ),
        (Condition("medium", "", "high_rate_sand"), "medium is high rate sand", "medium is high rate sand"),
        (Condition("pressure_vessel", "", False), "filter is not a pressure vessel", "filter is not a pressure vessel"),
        (Condition("small_children", "", True), "designed for small children", "designed for small children"),
    ],
)
def test_condition_in_words(condition: Condition, us: str, metric: str) -> None:
    assert (condition.text(UnitSystem.US), condition.text(UnitSystem.SI)) == (us, metric)


def test_every_fact_can_be_put_in_words() -> None:
    for kind in FACTS.values():
        assert kind.label
        assert bool(kind.denial) == (kind.measure is None and not kind.words)


def test_limit_in_words() -> None:
    basis = basis_of(GEORGIA, "austria-bhygv-2012")
    river = basis.limit("longest_turnover", RIVER, {})
    load = basis.limit("load_area", RIVER, {"depth": 1.0})
    assert river is not None and load is not None
    assert river.value_text(UnitSystem.US) == "at most 2.00 h"
    assert load.value_text(UnitSystem.SI) == "taken as 3.0 m²"
    assert load.value_text(UnitSystem.US) == "taken as 32.3 ft²"

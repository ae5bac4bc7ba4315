"""The rule sets that ship: they load quickly, use every kind of limit, and say how far they were confirmed."""

import subprocess
import sys
import time
import tomllib
from collections.abc import Callable

import pytest

from waterpark_designer.resources import resources_folder
from waterpark_designer.rules.condition import FACTS
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, Sense
from waterpark_designer.rules.rule_file import read_rule_sets
from waterpark_designer.rules.rule_set import RuleSet
from waterpark_designer.sources import Provenance

FOLDER = resources_folder() / "rules"
RULE_SETS = read_rule_sets(FOLDER)
FULL = {
    "georgia-511-3-5-2024",
    "wisconsin-sps-390-2024",
    "utah-r392-302-2024",
    "new-york-6-1-6-3-2025",
    "austria-bhygv-2012",
    "cdc-mahc-2023",
}
SUPPLEMENTS = {
    "common-practice",
    "north-carolina-18a-2543",
    "fulton-county-ga-34-582",
    "louisiana-51-xxiv-319",
    "wichita-7-72-191",
    "illinois-77-820-210",
    "minnesota-4717-2570",
    "wyoming-010-4",
    "nevada-444-160",
    "oregon-333-060-0505",
    "maryland-10-17-01-25",
    "indiana-675-20-2-17",
    "washington-246-260",
    "france-arrete-1981-2021",
    "pima-county-az-8-32-160",
    "district-of-columbia-25-c409",
    "fort-worth-tx-16-503",
    "putnam-county-in-111-05",
    "sunset-city-ut-9-7-23",
    "colorado-5-ccr-1003-5",
    "california-22-65525",
}
EVERY_LIMIT = [limit for rule_set in RULE_SETS.values() for limit in rule_set.limits]


def test_the_rule_sets_that_ship() -> None:
    assert set(RULE_SETS) == FULL | SUPPLEMENTS
    assert {key for key, rule_set in RULE_SETS.items() if rule_set.supplement} == SUPPLEMENTS


@pytest.mark.parametrize("rule_set", RULE_SETS.values(), ids=lambda rule_set: rule_set.key)
def test_rule_set_tells_what_it_is(rule_set: RuleSet) -> None:
    assert rule_set.jurisdiction and rule_set.document and rule_set.caution
    assert rule_set.edition in rule_set.title
    assert all(limit.rule_set == rule_set.title and limit.clause for limit in rule_set.limits)
    assert len({limit.key for limit in rule_set.limits}) == len(rule_set.limits)


def test_titles_are_told_apart() -> None:
    assert len({rule_set.title for rule_set in RULE_SETS.values()}) == len(RULE_SETS)


def test_every_kind_of_limit_is_stated_by_a_rule_set() -> None:
    assert {limit.quantity for limit in EVERY_LIMIT} == set(LIMIT_KINDS)


def test_every_condition_asks_for_a_known_fact() -> None:
    asked = {condition.fact for limit in EVERY_LIMIT for condition in limit.when}
    assert asked == set(FACTS)


def test_duties_are_yes_or_no_and_limits_are_positive() -> None:
    for limit in EVERY_LIMIT:
        if LIMIT_KINDS[limit.quantity].sense is Sense.REQUIRED:
            assert limit.value in (0.0, 1.0)
        else:
            assert limit.value > 0


def test_model_code_is_from_memory_throughout() -> None:
    assert {limit.provenance for limit in RULE_SETS["cdc-mahc-2023"].limits} == {Provenance.MEMORY}


def test_common_practice_is_named_so_throughout() -> None:
    assert {limit.provenance for limit in RULE_SETS["common-practice"].limits} == {Provenance.COMMON_PRACTICE}


def test_codes_in_force_were_read() -> None:
    codes = set(RULE_SETS) - {"cdc-mahc-2023", "common-practice"}
    assert {limit.provenance for key in codes for limit in RULE_SETS[key].limits} == {Provenance.READ}


def test_inferred_formula_of_austria_is_owned_up_to() -> None:
    assert "inferred" in RULE_SETS["austria-bhygv-2012"].caution
    notes = [limit.note for limit in RULE_SETS["austria-bhygv-2012"].limits if limit.quantity.startswith("load_")]
    assert len(notes) == 4
    assert all("inferred" in note for note in notes)


@pytest.mark.parametrize("rule_set", RULE_SETS.values(), ids=lambda rule_set: rule_set.key)
def test_no_limit_is_hidden_behind_an_earlier_one(rule_set: RuleSet) -> None:
    """A row that an earlier row always answers for would never be used."""
    for number, limit in enumerate(rule_set.limits):
        for earlier in rule_set.limits[:number]:
            if earlier.quantity == limit.quantity and set(earlier.when) <= set(limit.when):
                covered = not earlier.applies_to or (limit.applies_to and limit.applies_to <= earlier.applies_to)
                assert not covered, f"{limit.key} comes after {earlier.key}"


def test_loading_costs_little_beside_the_parsing_of_the_text() -> None:
    def seconds(work: Callable[[], object]) -> float:
        start = time.process_time()
        work()
        return time.process_time() - start

    texts = [path.read_text(encoding="utf-8") for path in FOLDER.glob("*.toml")]
    parsing = min(seconds(lambda: [tomllib.loads(text) for text in texts]) for _ in range(7))
    assert min(seconds(lambda: read_rule_sets(FOLDER)) for _ in range(7)) < 3 * parsing


def test_loading_does_not_load_pint() -> None:
    code = (
        "import sys; from pathlib import Path\n"
        "from waterpark_designer.rules.rule_file import read_rule_sets\n"
        "assert read_rule_sets(Path(sys.argv[1]))\n"
        "assert 'pint' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code, str(FOLDER)], check=True)

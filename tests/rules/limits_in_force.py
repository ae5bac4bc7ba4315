"""The shipped rule sets by name, exact units, and the limit that each has in force."""

import pytest

from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.resources import resources_folder
from waterpark_designer.rules.condition import Fact
from waterpark_designer.rules.rule_file import read_rule_sets
from waterpark_designer.rules.rule_set import Limit, code_basis

RULE_SETS = read_rule_sets(resources_folder() / "rules")
GEORGIA, WISCONSIN, UTAH, NEW_YORK = (
    "georgia-511-3-5-2024",
    "wisconsin-sps-390-2024",
    "utah-r392-302-2024",
    "new-york-6-1-6-3-2025",
)
AUSTRIA, MODEL_CODE, PRACTICE = "austria-bhygv-2012", "cdc-mahc-2023", "common-practice"
NORTH_CAROLINA, FULTON, LOUISIANA, WICHITA, ILLINOIS = (
    "north-carolina-18a-2543",
    "fulton-county-ga-34-582",
    "louisiana-51-xxiv-319",
    "wichita-7-72-191",
    "illinois-77-820-210",
)

# Exact: foot 0.3048 m, US gallon 3.785411784 L, pound 0.45359237 kg (NIST SP 811, appendix B).
FT, FT2, GAL, LB = 0.3048, 0.09290304, 3.785411784e-3, 0.45359237
MINUTE, HOUR, DAY = 60.0, 3600.0, 86400.0
GPM_PER_FT2 = GAL / MINUTE / FT2
KINDS = {kind.value: kind for kind in AttractionKind}


def fahrenheit(degrees: float) -> float:
    return (degrees + 459.67) * 5 / 9


def celsius(degrees: float) -> float:
    return degrees + 273.15


def limit_in_force(code: str, quantity: str, kind: str | None = None, **facts: Fact) -> Limit | None:
    return code_basis([code], (), RULE_SETS).limit(quantity, KINDS[kind] if kind else None, facts)


def value_in_force(code: str, quantity: str, kind: str | None = None, **facts: Fact) -> float | None:
    limit = limit_in_force(code, quantity, kind, **facts)
    return limit.value if limit else None


def is_value(code: str, quantity: str, expected: float, kind: str | None = None, **facts: Fact) -> None:
    assert value_in_force(code, quantity, kind, **facts) == pytest.approx(expected, rel=1e-12)

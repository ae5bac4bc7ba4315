"""Rule files: a code as data, each limit with its clause and how far it was confirmed.

A rule file is TOML: the rule set's own fields, then `[[limit]]` tables in order, specific ones first.

    quantity = "longest_turnover"           a key of LIMIT_KINDS
    value = "2 h"                            with its unit; "required" or "not required" for duties
    applies_to = ["lazy_river"]              kinds of water; leave out for all
    when = { temperature_above = "32 °C" }   conditions, all of which must hold
    clause = ".07(1)(b)"
    provenance = "read"                      read, read (secondary), from memory, confirm, common practice
    note = "…"                               printed beside the limit
    about = true                             where the code calls its figure approximate

Units are spelled as in `units`, which spares loading pint at start; any other spelling is read too.
"""

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.rules.condition import COMPARISONS, FACTS, Condition
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, LimitKind, Sense
from waterpark_designer.rules.rule_set import Limit, RuleSet
from waterpark_designer.sources import Provenance
from waterpark_designer.units import quantity

HEAD: dict[str, type] = {
    "name": str,
    "jurisdiction": str,
    "document": str,
    "edition": str,
    "supplement": bool,
    "caution": str,
    "limit": list,
}
HEAD_NEEDED = ("name", "jurisdiction", "document", "limit")
ROW: dict[str, type] = {
    "quantity": str,
    "value": str,
    "clause": str,
    "provenance": str,
    "applies_to": list,
    "when": dict,
    "note": str,
    "about": bool,
}
ROW_NEEDED = ("quantity", "value", "clause", "provenance")
TYPE_WORDS = {str: "text in quotes", bool: "true or false", list: "a list", dict: "a table in braces"}
PROVENANCES = (Provenance.READ, Provenance.SECONDARY, Provenance.MEMORY, Provenance.COMMON_PRACTICE)
DUTIES = {"required": 1.0, "not required": 0.0}
FILE_NAME = re.compile(r"[a-z0-9-]{1,80}")


class RuleFileError(ValueError):
    """A rule file cannot be used; names the file, the row and what would be right."""


def read_rule_sets(folder: Path) -> dict[str, RuleSet]:
    """Every rule set in a folder, by key. Raises RuleFileError."""
    if not folder.is_dir():
        raise RuleFileError(f"There is no folder of rule sets at {folder}.")
    return {path.stem: read_rule_set(path) for path in sorted(folder.glob("*.toml"))}


def read_rule_set(path: Path) -> RuleSet:
    """One rule file. Raises RuleFileError naming the file and the row at fault."""
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8"))
        return _rule_set(path.stem, data)
    except (OSError, ValueError) as error:
        raise RuleFileError(f"{path.name}: {error}") from error


def _rule_set(key: str, data: dict[str, Any]) -> RuleSet:
    if not FILE_NAME.fullmatch(key):
        raise ValueError("the file's name may have small letters, digits and hyphens only.")
    _check_fields(data, HEAD, HEAD_NEEDED)
    rule_set = RuleSet(
        key=key,
        name=data["name"],
        edition=data.get("edition", ""),
        jurisdiction=data["jurisdiction"],
        document=data["document"],
        supplement=data.get("supplement", False),
        caution=data.get("caution", ""),
        limits=(),
    )
    limits = tuple(_limit(key, rule_set.title, number, row) for number, row in enumerate(data["limit"], 1))
    return replace(rule_set, limits=limits)


def _limit(rule_set: str, title: str, number: int, row: Any) -> Limit:
    named = f" ({row['quantity']})" if isinstance(row, dict) and "quantity" in row else ""
    try:
        _check_fields(row, ROW, ROW_NEEDED)
        kind = LIMIT_KINDS[_one_of(row["quantity"], LIMIT_KINDS, "quantity")]
        return Limit(
            key=f"{rule_set}:{number}",
            quantity=kind.key,
            value=_value(row["value"], kind),
            applies_to=_kinds(row),
            when=tuple(_condition(*item) for item in row.get("when", {}).items()),
            rule_set=title,
            clause=row["clause"],
            note=row.get("note", ""),
            about=row.get("about", False),
            provenance=Provenance(_one_of(row["provenance"], PROVENANCES, "provenance")),
        )
    except ValueError as error:
        raise ValueError(f"limit {number}{named}: {error}") from error


def _check_fields(table: Any, known: Mapping[str, type], needed: Iterable[str]) -> None:
    if not isinstance(table, dict):
        raise ValueError("write it as a [[limit]] table.")
    for name, value in table.items():
        _one_of(name, known, "field")
        if not isinstance(value, known[name]):
            raise ValueError(f"{name} must be {TYPE_WORDS[known[name]]}.")
    missing = [name for name in needed if not table.get(name)]
    if missing:
        raise ValueError(f"{', '.join(missing)} must be given.")


def _one_of(word: Any, known: Iterable[str], what: str) -> str:
    known = [str(name) for name in known]
    if word not in known:
        raise ValueError(f"“{word}” is not a {what}. Use one of: {', '.join(known)}.")
    return str(word)


def _value(text: str, kind: LimitKind) -> float:
    if kind.sense is Sense.REQUIRED:
        return DUTIES[_one_of(text, DUTIES, "duty")]
    value = quantity(text, kind.measure)
    if value <= 0:
        raise ValueError(f"value must be more than nothing, not {text}.")
    return value


def _kinds(row: dict[str, Any]) -> frozenset[AttractionKind]:
    names = row.get("applies_to")
    if names == []:
        raise ValueError("applies_to names no kind of water. Leave it out where the limit applies to all.")
    return frozenset(AttractionKind(_one_of(name, AttractionKind, "kind of water")) for name in names or ())


def _condition(name: str, bound: Any) -> Condition:
    comparison = next((suffix for suffix in COMPARISONS if name.endswith(suffix)), "")
    fact = name.removesuffix(comparison)
    kind = FACTS[_one_of(fact, FACTS, "fact to compare" if comparison else "condition")]
    if kind.measure is not None:
        return _number_condition(name, fact, comparison, bound)
    if comparison:
        raise ValueError(f"{fact} is not a number; write {fact} = … instead of {name}.")
    if kind.words:
        return Condition(fact, "", _one_of(bound, sorted(kind.words), fact.replace("_", " ")))
    if not isinstance(bound, bool):
        raise ValueError(f"{name} must be true or false.")
    return Condition(fact, "", bound)


def _number_condition(name: str, fact: str, comparison: str, bound: Any) -> Condition:
    measure = FACTS[fact].measure
    if not comparison:
        raise ValueError(f"{name} needs a comparison, such as {name}_above.")
    if not isinstance(bound, str) or measure is None:
        raise ValueError(f"{name} must be a number with its unit, in quotes.")
    return Condition(fact, comparison, quantity(bound, measure))

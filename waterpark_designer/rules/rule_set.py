"""Rule sets: a code as data, each limit with its clause and how far it was confirmed.

A rule file is TOML: the rule set's own fields, then `[[limit]]` tables in order, specific ones first.

    quantity = "longest_turnover"           a key of LIMIT_KINDS
    value = "2 h"                            with its unit; "required" or "not required" for duties
    applies_to = ["lazy_river"]              kinds of water; leave out for all
    when = { temperature_above = "32 degC" } conditions, all of which must hold
    clause = ".07(1)(b)"
    provenance = "read"                      read, read (secondary), from memory, confirm, common practice
    note = "…"                               printed beside the limit
"""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from waterpark_designer import units as u
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.site import Amendment
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, Sense
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import Measure, quantity

Fact = float | str | bool


class RuleFileError(ValueError):
    """A rule file cannot be used; names the file, the row and what is wrong."""


FACTS: dict[str, Measure | None] = {
    "temperature": u.TEMPERATURE, "depth": u.LENGTH, "area": u.AREA, "salinity": u.SALINITY, "volume": u.VOLUME,
    "volume_per_bather": u.VOLUME, "bed_depth": u.LENGTH, "start_height": u.LENGTH, "setting": None, "medium": None,
    "continuous_feed": None, "pressure_vessel": None, "secondary": None, "small_children": None,
}
COMPARISONS = {
    "_above": ("above", lambda fact, bound: fact > bound + 1e-9),
    "_at_least": ("at least", lambda fact, bound: fact >= bound - 1e-9),
    "_below": ("below", lambda fact, bound: fact < bound - 1e-9),
    "_at_most": ("at most", lambda fact, bound: fact <= bound + 1e-9),
}


@dataclass(frozen=True, slots=True)
class Condition:
    """One thing that must hold for a limit to apply: `fact` compared with `bound`."""

    fact: str
    comparison: str
    bound: Fact

    def holds(self, facts: Mapping[str, Fact]) -> bool:
        """Whether it holds; a fact that is not known does not hold."""
        value = facts.get(self.fact)
        if value is None:
            return False
        if self.comparison == "":
            return value == self.bound
        return bool(COMPARISONS[self.comparison][1](value, self.bound))

    def text(self, system: u.UnitSystem) -> str:
        name = self.fact.replace("_", " ")
        measure = FACTS[self.fact]
        if self.comparison == "" or measure is None:
            return name if self.bound is True else f"not {name}" if self.bound is False else f"{name} {self.bound}"
        return f"{name} {COMPARISONS[self.comparison][0]} {measure.phrase(float(self.bound), system)}"


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit of one rule set, in SI units."""

    key: str
    quantity: str
    value: float
    applies_to: frozenset[AttractionKind]
    when: tuple[Condition, ...]
    rule_set: str
    clause: str
    provenance: Provenance
    note: str = ""

    @property
    def source(self) -> Source:
        return Source(", ".join(part for part in (self.rule_set, self.clause) if part), self.provenance)

    def applies(self, kind: AttractionKind | None, facts: Mapping[str, Fact]) -> bool:
        if self.applies_to and kind not in self.applies_to:
            return False
        return all(condition.holds(facts) for condition in self.when)

    def value_text(self, system: u.UnitSystem) -> str:
        kind = LIMIT_KINDS[self.quantity]
        if kind.sense is Sense.REQUIRED:
            return "required" if self.value else "not required"
        return f"{kind.sense.value} {kind.measure.phrase(self.value, system)}"


@dataclass(frozen=True, slots=True)
class RuleSet:
    """One code in one edition; a supplement states only a few limits and stands behind a full one."""

    key: str
    name: str
    edition: str
    jurisdiction: str
    document: str
    supplement: bool
    caution: str
    limits: tuple[Limit, ...]

    @property
    def title(self) -> str:
        return f"{self.name} ({self.edition})" if self.edition else self.name


class CodeBasis:
    """The limits in force: local amendments, then rule sets in the project's order; the first that applies gives it."""

    def __init__(self, limits: Iterable[Limit], titles: tuple[str, ...], unknown: tuple[str, ...] = ()) -> None:
        self.limits = tuple(limits)
        self.titles = titles
        self.unknown = unknown
        self._by_quantity: dict[str, list[Limit]] = {}
        for limit in self.limits:
            self._by_quantity.setdefault(limit.quantity, []).append(limit)

    def limit(self, quantity: str, kind: AttractionKind | None, facts: Mapping[str, Fact]) -> Limit | None:
        """The limit in force for this kind of water under these facts; None where the code basis is silent."""
        for limit in self._by_quantity.get(quantity, ()):
            if limit.applies(kind, facts):
                return limit
        return None


def code_basis(keys: Iterable[str], amendments: Iterable[Amendment], rule_sets: Mapping[str, RuleSet]) -> CodeBasis:
    """The code basis of a project; rule sets that are not installed are named in `unknown`."""
    keys = tuple(keys)
    chosen = [rule_sets[key] for key in keys if key in rule_sets]
    limits = [_amended(number, amendment) for number, amendment in enumerate(amendments, 1)]
    limits += [limit for rule_set in chosen for limit in rule_set.limits]
    return CodeBasis(
        limits, tuple(rule_set.title for rule_set in chosen), tuple(key for key in keys if key not in rule_sets))


def _amended(number: int, amendment: Amendment) -> Limit:
    return Limit(
        key=f"amendment:{number}", quantity=amendment.quantity, value=amendment.value,
        applies_to=frozenset(amendment.applies_to), when=(), rule_set="Local amendment", clause=amendment.reason,
        provenance=Provenance.AMENDMENT)


def read_rule_sets(folder: Path) -> dict[str, RuleSet]:
    """Every rule set in a folder, by key. Raises RuleFileError."""
    return {path.stem: read_rule_set(path) for path in sorted(folder.glob("*.toml"))}


def read_rule_set(path: Path) -> RuleSet:
    """One rule file. Raises RuleFileError naming the row at fault."""
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        raise RuleFileError(f"{path.name}: {error}") from error
    title = f"{data['name']} ({data['edition']})" if data.get("edition") else data["name"]
    limits = tuple(_limit(path.stem, title, number, row) for number, row in enumerate(data.get("limit", ()), 1))
    return RuleSet(
        key=path.stem, name=data["name"], edition=data.get("edition", ""), jurisdiction=data["jurisdiction"],
        document=data["document"], supplement=data.get("supplement", False), caution=data.get("caution", ""),
        limits=limits)


def _limit(rule_set: str, title: str, number: int, row: dict[str, Any]) -> Limit:
    try:
        kind = LIMIT_KINDS[row["quantity"]]
        duty = {"required": 1.0, "not required": 0.0}
        value = duty[row["value"]] if kind.sense is Sense.REQUIRED else quantity(row["value"], kind.measure)
        return Limit(
            key=f"{rule_set}:{number}", quantity=kind.key, value=value,
            applies_to=frozenset(AttractionKind(name) for name in row.get("applies_to", ())),
            when=tuple(_condition(name, bound) for name, bound in row.get("when", {}).items()),
            rule_set=title, clause=row["clause"], provenance=Provenance(row["provenance"]), note=row.get("note", ""))
    except (KeyError, ValueError) as error:
        raise RuleFileError(f"{rule_set}, limit {number}: {error}") from error


def _condition(name: str, bound: Any) -> Condition:
    for suffix in COMPARISONS:
        fact = name.removesuffix(suffix)
        if fact != name:
            measure = FACTS[fact]
            if measure is None:
                raise ValueError(f"{fact} is not a number")
            return Condition(fact, suffix, quantity(bound, measure))
    if FACTS[name] is not None:
        raise ValueError(f"{name} needs a comparison, such as {name}_above")
    return Condition(name, "", bound)

"""Rule sets: a code as limits, and the code basis of a project, which says the limit in force."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.site import Amendment
from waterpark_designer.rules.condition import FACTS, Condition, Fact
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, Sense
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import UnitSystem


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit of one rule set, in SI units; `about` where the code itself calls its figure approximate."""

    key: str
    quantity: str
    value: float
    applies_to: frozenset[AttractionKind]
    when: tuple[Condition, ...]
    rule_set: str
    clause: str
    provenance: Provenance
    note: str = ""
    about: bool = False

    @property
    def source(self) -> Source:
        """Rule set and clause, with how far they were confirmed."""
        return Source(", ".join(part for part in (self.rule_set, self.clause) if part), self.provenance)

    def binds(self, kind: AttractionKind | None) -> bool:
        """Whether it is made for this kind of water."""
        return not self.applies_to or kind in self.applies_to

    def holds(self, facts: Mapping[str, Fact]) -> bool:
        """Whether all its conditions hold."""
        return all(condition.holds(facts) for condition in self.when)

    def may_hold(self, facts: Mapping[str, Fact]) -> bool:
        """Whether all its conditions hold but for facts that are not known."""
        return all(condition.fact not in facts or condition.holds(facts) for condition in self.when)

    def value_text(self, system: UnitSystem) -> str:
        """The limit in words, such as "at most 2 h"."""
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
        """Name and edition, as printed beside every limit."""
        return f"{self.name} ({self.edition})" if self.edition else self.name


class CodeBasis:
    """The limits in force: local amendments, then rule sets in the project's order; the first that applies.

    `titles` names the rule sets in order; `unknown` what the project asks for and the program does not have.
    """

    def __init__(self, limits: Iterable[Limit], titles: tuple[str, ...], unknown: tuple[str, ...] = ()) -> None:
        self.limits = tuple(limits)
        self.titles = titles
        self.unknown = unknown
        self._rows: dict[tuple[str, AttractionKind | None], tuple[Limit, ...]] = {}

    def limit(self, quantity: str, kind: AttractionKind | None, facts: Mapping[str, Fact]) -> Limit | None:
        """The limit in force for a kind of water under these facts; None where the code basis is silent.

        None as well where a code's answer hangs on a fact that is not known: the next code is not asked instead.
        """
        waiting = ""
        for limit in self._rows_for(quantity, kind):
            if waiting and limit.rule_set != waiting:
                return None
            if limit.holds(facts):
                return limit
            if limit.may_hold(facts):
                waiting = limit.rule_set
        return None

    def facts_wanted(self, quantity: str, kind: AttractionKind | None, facts: Mapping[str, Fact]) -> tuple[str, ...]:
        """Labels of facts that the limits ask for and that are not known, so silence is not certain."""
        open_rows = (limit for limit in self._rows_for(quantity, kind) if limit.may_hold(facts))
        conditions = (condition for limit in open_rows for condition in limit.when)
        wanted = dict.fromkeys(condition.fact for condition in conditions if condition.fact not in facts)
        return tuple(FACTS[fact].label for fact in wanted)

    def _rows_for(self, quantity: str, kind: AttractionKind | None) -> tuple[Limit, ...]:
        if (quantity, kind) not in self._rows:
            self._rows[quantity, kind] = tuple(
                limit for limit in self.limits if limit.quantity == quantity and limit.binds(kind)
            )
        return self._rows[quantity, kind]


def code_basis(keys: Iterable[str], amendments: Iterable[Amendment], rule_sets: Mapping[str, RuleSet]) -> CodeBasis:
    """The code basis of a project; rule sets and amended quantities not known are named in `unknown`."""
    keys, amendments = tuple(keys), tuple(amendments)
    chosen = [rule_sets[key] for key in keys if key in rule_sets]
    limits = [
        _amended(number, amendment)
        for number, amendment in enumerate(amendments, 1)
        if amendment.quantity in LIMIT_KINDS
    ]
    limits += [limit for rule_set in chosen for limit in rule_set.limits]
    unknown = [key for key in keys if key not in rule_sets]
    unknown += [amendment.quantity for amendment in amendments if amendment.quantity not in LIMIT_KINDS]
    return CodeBasis(limits, tuple(rule_set.title for rule_set in chosen), tuple(unknown))


def _amended(number: int, amendment: Amendment) -> Limit:
    return Limit(
        key=f"amendment:{number}",
        quantity=amendment.quantity,
        value=amendment.value,
        applies_to=frozenset(amendment.applies_to),
        when=(),
        rule_set="Local amendment",
        clause=amendment.reason,
        provenance=Provenance.AMENDMENT,
    )

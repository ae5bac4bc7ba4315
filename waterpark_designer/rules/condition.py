"""Conditions of limits: what a rule may ask about a body of water, its filters and its features."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from waterpark_designer import units as u
from waterpark_designer.model.kinds import FilterMedium, Overflow, SecondaryDisinfection, Setting
from waterpark_designer.units import Measure

Fact = float | str | bool


@dataclass(frozen=True, slots=True)
class FactKind:
    """A fact that conditions may ask for: a number of `measure`, one of `words`, or yes or no.

    `label` is its name in a sentence; for yes or no it is the whole statement, and `denial` the opposite.
    """

    label: str
    measure: Measure | None = None
    words: frozenset[str] = frozenset()
    denial: str = ""


FACTS: dict[str, FactKind] = {
    "temperature": FactKind("water temperature", u.TEMPERATURE),
    "depth": FactKind("mean depth", u.LENGTH),
    "area": FactKind("water surface of the whole body", u.AREA),
    "salinity": FactKind("salinity", u.SALINITY),
    "volume": FactKind("volume", u.VOLUME),
    "volume_per_bather": FactKind("volume for each bather", u.VOLUME),
    "bed_depth": FactKind("bed depth", u.SMALL_LENGTH),
    "start_height": FactKind("start height", u.LENGTH),
    "setting": FactKind("setting", words=frozenset(Setting)),
    "overflow": FactKind("overflow", words=frozenset(Overflow)),
    "medium": FactKind("medium", words=frozenset(FilterMedium)),
    "secondary": FactKind("secondary treatment", words=frozenset(SecondaryDisinfection)),
    "continuous_feed": FactKind("medium is fed continuously", denial="medium is not fed continuously"),
    "pressure_vessel": FactKind("filter is a pressure vessel", denial="filter is not a pressure vessel"),
    "features": FactKind("has features", denial="has no features"),
    "small_children": FactKind("designed for small children", denial="not designed for small children"),
}
CLOSE = 1e-9
COMPARISONS: dict[str, tuple[str, Callable[[float, float], bool]]] = {
    "_above": ("above", lambda fact, bound: fact > bound + CLOSE),
    "_at_least": ("at least", lambda fact, bound: fact >= bound - CLOSE),
    "_below": ("below", lambda fact, bound: fact < bound - CLOSE),
    "_at_most": ("at most", lambda fact, bound: fact <= bound + CLOSE),
}


@dataclass(frozen=True, slots=True)
class Condition:
    """One thing that must hold for a limit to apply: `fact` compared with `bound` (SI), or equal to it."""

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
        return COMPARISONS[self.comparison][1](float(value), float(self.bound))

    def text(self, system: u.UnitSystem) -> str:
        """The condition in words, such as "water temperature is above 32 °C"."""
        kind = FACTS[self.fact]
        if isinstance(self.bound, bool):
            return kind.label if self.bound else kind.denial
        if kind.measure is None:
            return f"{kind.label} is {str(self.bound).replace('_', ' ')}"
        comparison = COMPARISONS[self.comparison][0]
        return f"{kind.label} is {comparison} {kind.measure.phrase(float(self.bound), system)}"

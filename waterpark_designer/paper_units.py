"""Units as they stand on paper: symbol, factor to SI, and how many figures a practitioner would write."""

import math
from dataclasses import dataclass
from enum import StrEnum


class UnitSystem(StrEnum):
    """The two ways to put a number on paper."""

    US = "us"
    SI = "si"

    @property
    def label(self) -> str:
        return "US customary" if self is UnitSystem.US else "SI (metric)"


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit on paper: value_SI = shown * factor + offset.

    `decimals` is the most decimals shown, `significant` the most significant figures; where all of its numbers are
    `nominal`, such as the ratings of motors, they are written without zeros at the end.
    """

    symbol: str
    name: str
    factor: float
    decimals: int = 1
    significant: int = 4
    offset: float = 0.0
    nominal: bool = False

    def to_si(self, shown: float) -> float:
        return shown * self.factor + self.offset

    def from_si(self, value: float) -> float:
        return (value - self.offset) / self.factor

    def text(self, value: float) -> str:
        """The SI value as a practitioner writes it in this unit, without the unit."""
        shown = self.from_si(value)
        if not math.isfinite(shown):
            return "–"
        rounded = self._rounded(self._rounded(shown))
        places = self._places(rounded)
        text = f"{rounded:,.{max(places, 0)}f}"
        if self.nominal and "." in text:
            text = text.rstrip("0").rstrip(".")
        return "0" if shown == 0 else text

    def _rounded(self, shown: float) -> float:
        """Rounded to the figures shown; twice, where rounding up brings a figure before the point."""
        return round(shown, self._places(shown)) + 0.0

    def _places(self, shown: float) -> int:
        before_point = len(str(int(abs(shown)))) if abs(shown) >= 1 else 0
        return min(self.decimals, self.significant - before_point)

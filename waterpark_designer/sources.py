"""Where formulas come from: each source once, with how far it was confirmed."""

from dataclasses import dataclass
from enum import StrEnum


class Provenance(StrEnum):
    """How a value came to be trusted; shown wherever the value is."""

    READ = "read"
    SECONDARY = "read (secondary)"
    MEMORY = "from memory, confirm"
    COMMON_PRACTICE = "common practice"
    DEFINITION = "definition"
    ENTRY = "your entry"
    OVERRIDE = "override"
    AMENDMENT = "local amendment"
    INVENTED = "invented nominal size"

    @property
    def needs_confirmation(self) -> bool:
        return self in (Provenance.MEMORY, Provenance.SECONDARY)


@dataclass(frozen=True, slots=True)
class Source:
    """A citation as it is printed beside a figure."""

    text: str
    provenance: Provenance


GEOMETRY = Source("Plane and solid geometry", Provenance.DEFINITION)
ARITHMETIC = Source("Arithmetic on the figures named", Provenance.DEFINITION)
DEFINITION_OF_TURNOVER = Source("Definition of turnover time: volume over flow", Provenance.DEFINITION)
DILUTION_LAW = Source(
    "Gage and Bidwell, law of dilution (1926); restated in Simmonds et al., Water 13:2350 (2021)", Provenance.READ)

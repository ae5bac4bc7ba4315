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
    "Gage and Bidwell, law of dilution (1926); restated in Simmonds et al., Water 13:2350 (2021)", Provenance.READ
)
TURNOVER_SUM = Source(
    "Each zone its own flow, added up: Utah R392-302-19(1)(f) (2025); Wisconsin SPS 390 Appendix A-390.14",
    Provenance.READ,
)
TURNOVER_SHORTEST = Source("The whole body at the shortest listed time: Utah R392-302-19(1)(f) (2025)", Provenance.READ)
TURNOVER_WEIGHTED = Source(
    "Pro rata to the volumes of the parts: France, Arrêté of 7 April 1981 as amended 2021, art. 4 bis", Provenance.READ
)
FLOW_BY_LOAD = Source(
    "Austria, BHygV 2012, s.15: flow from surface, load factor and specific load; the printed formula is inferred "
    "from its symbols, confirm",
    Provenance.SECONDARY,
)
TANK_RESERVE = Source(
    "Reserve time times the flow of feature and filter pumps (form of North Carolina 15A NCAC 18A .2543(d)(1)), "
    "solved for a filter flow that itself follows from the tank",
    Provenance.READ,
)
BATHER_DEMAND = Source(
    "5.5 g chlorine per bather, field median: Bradford, Int. J. Aquatic Res. Educ. (2014), doi 10.1123/ijare.2013-0028",
    Provenance.READ,
)
DEMAND_FACTOR = Source("Design factor of 1.5 to 2 on demand", Provenance.COMMON_PRACTICE)
HYDROGEN = Source(
    "2 Cl⁻ + 2 H₂O → Cl₂ + H₂ + 2 OH⁻; ideal gas at 20 °C and 1 atm: 339.3 L hydrogen per kg chlorine",
    Provenance.DEFINITION,
)
HYDROGEN_LIMIT = Source(
    "Hydrogen held at 1 % by volume, a quarter of the 4 % taken as its lower flammable limit: 99 parts of air",
    Provenance.COMMON_PRACTICE,
)
TRADE_PER_CENT = Source(
    "White, Handbook of Chlorination (1972), as reproduced by industry: trade per cent is g chlorine per 100 mL",
    Provenance.SECONDARY,
)
SECONDARY_DILUTION = Source(
    "CDC Model Aquatic Health Code 4.7.3.3.2: 10⁸ oocysts diluted to one in 100 mL; the 14.8 is re-derived as ln(10⁸/37.854)",
    Provenance.MEMORY,
)
SALT_BALANCE = Source("Mass balance of salt in mixed water", Provenance.DEFINITION)
SALT_OF_HYPOCHLORITE = Source(
    "Equimolar NaOCl and NaCl: 1.648 kg salt per kg chlorine once it is spent (stoichiometry)", Provenance.DEFINITION
)
SALT_OF_BRINE_FED = Source(
    "All salt fed to a brine-fed generator stays in the pool: mass balance; salt use from a water utility's "
    "process description (2010), 3.0 to 3.5",
    Provenance.READ,
)
SALT_OF_CELLS = Source(
    "Cells in the return consume none: chloride returns as chlorine is spent (mass balance)", Provenance.DEFINITION
)
PRECOAT_DOSE = Source("0.15 lb of medium per square foot of filter", Provenance.COMMON_PRACTICE)
RAMANUJAN = Source("Ramanujan's approximation of the ellipse's circumference (1914)", Provenance.MEMORY)
CATALOGUE = Source("Chosen from the catalogue", Provenance.DEFINITION)

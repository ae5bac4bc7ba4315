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
    "CDC Model Aquatic Health Code 4.7.3.3.2: 10⁸ oocysts diluted to one in 100 mL; the 14.8 is re-derived as "
    "ln(10⁸/37.854)",
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
CONTINUITY = Source("Continuity: flow is area times mean velocity", Provenance.DEFINITION)
REYNOLDS = Source("Definition of the Reynolds number", Provenance.DEFINITION)
LAMINAR_FLOW = Source("Hagen and Poiseuille: laminar flow in a round pipe", Provenance.DEFINITION)
COLEBROOK = Source("Colebrook (1939), solved to 1e-10", Provenance.MEMORY)
UNSETTLED_FLOW = Source(
    "Between laminar and turbulent flow, Reynolds number 2,000 to 4,000: straight from one factor to the other",
    Provenance.COMMON_PRACTICE,
)
DARCY_WEISBACH = Source("Darcy and Weisbach", Provenance.DEFINITION)
HAZEN_WILLIAMS = Source("Hazen and Williams, in the form of the EPANET 2.2 manual put in SI units", Provenance.MEMORY)
VELOCITY_HEAD = Source("Definition of the loss coefficient: loss over velocity head", Provenance.DEFINITION)
CRANE = Source(
    "Crane, Technical Paper 410: loss coefficients as multiples of the friction factor at full turbulence",
    Provenance.MEMORY,
)
CONTRACTION = Source("Crane, Technical Paper 410: sudden change of bore", Provenance.MEMORY)
SQUARE_LAW = Source("Loss with the square of the flow", Provenance.COMMON_PRACTICE)
JOUKOWSKY = Source("Joukowsky (1898): surge of a full and sudden stop", Provenance.MEMORY)
WAVE_SPEED = Source("Pressure wave in a thin elastic pipe, Korteweg (1878)", Provenance.MEMORY)
HYDROSTATIC_DESIGN_STRESS = Source(
    "ASTM D1785, appendix: pressure of water at 73 °F from the hydrostatic design stress, 2,000 psi for PVC 12454",
    Provenance.MEMORY,
)
TEMPERATURE_DERATING = Source(
    "Temperature factors of PVC as pipe data sheets print them, from 1.00 at 73 °F to 0.22 at 140 °F", Provenance.MEMORY
)
HYDROSTATICS = Source("Hydrostatics: pressure is density times gravity times head", Provenance.DEFINITION)
KELL = Source("Kell, J. Chem. Eng. Data 20:97 (1975): density of water at 1 atm", Provenance.MEMORY)
IAPWS_VISCOSITY = Source("IAPWS, liquid water at 0.1 MPa (SR6-08, revised 2011): viscosity", Provenance.MEMORY)
WAGNER_PRUSS = Source(
    "Wagner and Pruß, J. Phys. Chem. Ref. Data 22:783 (1993); IAPWS SR1-86(1992): saturation pressure",
    Provenance.MEMORY,
)
STANDARD_ATMOSPHERE = Source("ICAO Standard Atmosphere (ISO 2533), up to 11 km", Provenance.MEMORY)
MOTOR_CURRENT = Source(
    "Definition of three-phase power, with a power factor of 0.85; the nameplate governs", Provenance.COMMON_PRACTICE
)
PUMP_POWER = Source("Definition of hydraulic power and of efficiency", Provenance.DEFINITION)
CORRIPIO = Source(
    "Corripio, Chrien and Evans, Chem. Eng. 89:115 (1982), as reproduced in the fluids library: an estimate for "
    "centrifugal pumps, replace with the supplier's",
    Provenance.SECONDARY,
)
GENERIC_CURVE = Source(
    "Generic end-suction curve: parabola through duty and shutoff head, replace with the supplier's",
    Provenance.COMMON_PRACTICE,
)
AFFINITY = Source("Affinity laws of centrifugal pumps", Provenance.DEFINITION)
NPSH = Source("Definition of net positive suction head", Provenance.DEFINITION)
NPSH_MARGIN = Source("Margin of 3 ft or a tenth on the suction head a pump requires", Provenance.COMMON_PRACTICE)
MOTOR_LOADING = Source("Motor rating not below the shaft power over its service factor", Provenance.COMMON_PRACTICE)
FRANCIS = Source("Francis (1883): sharp-crested weir, 3.33 in feet and seconds", Provenance.MEMORY)
BROAD_CREST = Source("Critical flow over a broad crest", Provenance.DEFINITION)
TORRICELLI = Source("Torricelli, with a discharge coefficient", Provenance.DEFINITION)
ONE_BLOCKED = Source(
    "Any one outlet blocked, the rest carry the whole flow: Wisconsin SPS 390.14(13)(c)", Provenance.READ
)
STRAINER_FREE_AREA = Source(
    "Free area four times the suction line's: Minnesota Rules 4717.2570 subp. 2; Pima County Code 8.32.160 D",
    Provenance.READ,
)
METER_RANGE = Source("Reads at least 1.5 times design flow: Minnesota Rules 4717.2570 subp. 4", Provenance.READ)
BATHER_DISPLACEMENT = Source("75 L of water displaced by a bather: DIN 19643", Provenance.MEMORY)
SURGE_BY_AREA = Source("About 1 gal of surge for each square foot of water", Provenance.MEMORY)
SIMULTANEOUS_VOLUMES = Source(
    "Added up, since a pump may stop while all bathe and after a backwash: water displaced, water over the rim and in "
    "gutters, reserves for backwash and features, in the manner of DIN 19643. The code's least by surface stands for "
    "the same water and is not added",
    Provenance.MEMORY,
)
SUBMERGENCE = Source(
    "ANSI/HI 9.8, intake design: least submergence of a suction, 1 + 2.3 times its Froude number, in bores",
    Provenance.MEMORY,
)
FOUND_BY_TRIAL = Source("Found in a bracket, so that the losses take up the head available", Provenance.DEFINITION)
MANNING = Source("Manning; n in s/m^(1/3)", Provenance.MEMORY)
RIVER_JETS = Source(
    "Momentum jets against wall friction and standing people, derived from the method of McEnroe, Hydraulic Design of "
    "a Lazy River, ASCE (2006), read as an abstract; n = 0.015 matched field tests of three rivers",
    Provenance.SECONDARY,
)
STANDING_DRAG = Source(
    "Drag area of 3.3 ft² for a standing person: coefficient 1.1, 1.2 ft by 2.5 ft; rough", Provenance.MEMORY
)
ERGUN = Source(
    "Ergun (1952): loss of a packed bed, for a Reynolds number in the bed of 1 to 2,400", Provenance.SECONDARY
)
WEN_YU = Source("Wen and Yu (1966): minimum fluidisation", Provenance.MEMORY)
ERGUN_BALANCE = Source(
    "Ergun's loss balanced with the weight of the bed in water, in the manner of Akgiray and Saatci; models of "
    "expansion differ widely, take it as the upper figure",
    Provenance.SECONDARY,
)
SCHILLER_NAUMANN = Source("Schiller and Naumann (1933): drag of a sphere", Provenance.MEMORY)
RICHARDSON_ZAKI = Source(
    "Richardson and Zaki (1954): hindered settling; gives less expansion than the Ergun balance, take it as the lower "
    "figure",
    Provenance.MEMORY,
)
DIRTY_ALLOWANCE = Source("Rise of loss at which a sand filter is washed: about 10 psi", Provenance.COMMON_PRACTICE)

"""Water and air by temperature and altitude."""

import math

from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import IAPWS_VISCOSITY, KELL, STANDARD_ATMOSPHERE, WAGNER_PRUSS, Provenance, Source
from waterpark_designer.units import (
    ZERO_CELSIUS,
    Density,
    KinematicViscosity,
    Length,
    Pressure,
    Temperature,
    UnitSystem,
    Viscosity,
)

KINEMATIC = Source("Definition of kinematic viscosity", Provenance.DEFINITION)
LIQUID = (ZERO_CELSIUS, ZERO_CELSIUS + 100.0)
ABOVE = (999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12)
BELOW = 16.879850e-3
VISCOSITY_TERMS = ((280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0))
CRITICAL_TEMPERATURE = 647.096
CRITICAL_PRESSURE = 22.064e6
SATURATION_TERMS = (
    (-7.85951783, 1.0),
    (1.84408259, 1.5),
    (-11.7866497, 3.0),
    (22.6807411, 3.5),
    (-15.9618719, 4.0),
    (1.80122502, 7.5),
)


@formula(
    "ρ = (999.83952 + 16.945176 · (T − 273.15) − 0.0079870401 · (T − 273.15)² − 4.6170461 · 10^−5 · (T − 273.15)³ "
    "+ 1.0556302 · 10^−7 · (T − 273.15)^4 − 2.8054253 · 10^−10 · (T − 273.15)^5) / (1 + 0.01687985 · (T − 273.15))",
    KELL,
    valid={"temperature": LIQUID},
    written_in=UnitSystem.SI,
    temperature="T",
)
def water_density(temperature: Temperature) -> Density:
    """Density ρ [kg/m³] of fresh water at T [K] and 1 atm, from freezing to boiling."""
    celsius = temperature - ZERO_CELSIUS
    return math.fsum(term * celsius**power for power, term in enumerate(ABOVE)) / (1.0 + BELOW * celsius)


@formula(
    "μ = 10^−6 · (280.68 · (T / 300)^−1.9 + 511.45 · (T / 300)^−7.7 + 61.131 · (T / 300)^−19.6 "
    "+ 0.45903 · (T / 300)^−40)",
    IAPWS_VISCOSITY,
    valid={"temperature": LIQUID},
    written_in=UnitSystem.SI,
    temperature="T",
)
def water_viscosity(temperature: Temperature) -> Viscosity:
    """Dynamic viscosity μ [Pa·s] of fresh water at T [K] and 0.1 MPa, from freezing to boiling."""
    return 1e-6 * math.fsum(term * (temperature / 300.0) ** power for term, power in VISCOSITY_TERMS)


@formula("ν = μ / ρ", KINEMATIC, viscosity="μ", density="ρ")
def kinematic_viscosity(viscosity: Viscosity, density: Density) -> KinematicViscosity:
    """Kinematic viscosity ν [m²/s] from μ [Pa·s] and density ρ [kg/m³]."""
    return viscosity / density


@formula(
    "p_v = 22.064 · 10^6 · exp(647.096 / T · (−7.85951783 · (1 − T / 647.096) + 1.84408259 · (1 − T / 647.096)^1.5 "
    "− 11.7866497 · (1 − T / 647.096)³ + 22.6807411 · (1 − T / 647.096)^3.5 − 15.9618719 · (1 − T / 647.096)^4 "
    "+ 1.80122502 · (1 − T / 647.096)^7.5))",
    WAGNER_PRUSS,
    valid={"temperature": LIQUID},
    written_in=UnitSystem.SI,
    temperature="T",
)
def vapour_pressure(temperature: Temperature) -> Pressure:
    """Pressure p_v [Pa] at which water boils at T [K]."""
    below_critical = 1.0 - temperature / CRITICAL_TEMPERATURE
    terms = math.fsum(term * below_critical**power for term, power in SATURATION_TERMS)
    return CRITICAL_PRESSURE * math.exp(CRITICAL_TEMPERATURE / temperature * terms)


@formula(
    "p = 101325 · (1 − 0.0065 · z / 288.15)^5.25588",
    STANDARD_ATMOSPHERE,
    valid={"altitude": (-500.0, 11_000.0)},
    written_in=UnitSystem.SI,
    altitude="z",
)
def atmospheric_pressure(altitude: Length) -> Pressure:
    """Pressure p [Pa] of the standard atmosphere at an altitude z [m]."""
    return 101_325.0 * (1.0 - 0.0065 * altitude / 288.15) ** 5.25588

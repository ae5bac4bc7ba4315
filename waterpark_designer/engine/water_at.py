"""The water that flows: its density, viscosity and vapour pressure at the temperature it has."""

import functools
from dataclasses import dataclass

from waterpark_designer.engine.formulas import water
from waterpark_designer.engine.worked import Value, leaf
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import TEMPERATURE

DESIGN_TEMPERATURE = Source("Water temperature entered in the project", Provenance.ENTRY)


@dataclass(frozen=True, slots=True)
class Water:
    """Properties of fresh water; salt as in pools changes them by less than one per cent."""

    density: Value
    kinematic_viscosity: Value
    vapour_pressure: Value
    viscosity: Value


@functools.lru_cache(maxsize=256)
def water_at(temperature: float) -> Water:
    """Water of a temperature [K]."""
    known = leaf(temperature, "Water temperature", DESIGN_TEMPERATURE, measure=TEMPERATURE)
    density = water.water_density(known)
    viscosity = water.water_viscosity(known)
    return Water(density, water.kinematic_viscosity(viscosity, density), water.vapour_pressure(known), viscosity)

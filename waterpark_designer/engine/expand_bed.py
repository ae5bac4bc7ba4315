"""How far backwash lifts a bed of sand, with the warmest and with the coldest water of a system."""

from waterpark_designer.engine.formulas import filter_bed
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.water_at import Water, water_at
from waterpark_designer.engine.worked import Value, leaf
from waterpark_designer.model.kinds import FilterMedium
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import DENSITY, RATIO, SHARE, SMALL_LENGTH

SANDS = (FilterMedium.HIGH_RATE_SAND, FilterMedium.RAPID_SAND)
SAND = Source("Silica sand, taken as spheres of 0.5 mm with 42 % voids", Provenance.COMMON_PRACTICE)
GRAIN_SIZE = leaf(0.5e-3, "Grain size", SAND, measure=SMALL_LENGTH)
POROSITY = leaf(0.42, "Voids", SAND, measure=SHARE)
SPHERICITY = leaf(1.0, "Sphericity", SAND, measure=RATIO)
GRAIN_DENSITY = leaf(2650.0, "Density of the grains", SAND, measure=DENSITY)


def expand_bed(sheet: Sheet, system: RecirculationSystem) -> None:
    """Enter the expansion of a system's sand beds at their backwash rate; other media have no estimate."""
    if system.filters.medium not in SANDS or not system.attractions:
        return
    temperatures = [body.water_temperature for body in system.attractions]
    warmest, coldest = water_at(max(temperatures)), water_at(min(temperatures))
    rate = sheet["backwash_rate"]
    archimedes = filter_bed.archimedes_number(GRAIN_DENSITY, warmest.density, GRAIN_SIZE, warmest.viscosity)
    least = (archimedes, warmest.viscosity, warmest.density, GRAIN_SIZE)
    sheet.work("fluidising_rate", filter_bed.least_fluidising_rate, *least)
    sheet.record("bed_expansion_least", _by_settling(rate, warmest))
    sheet.record("bed_expansion_warm", _by_loss(rate, warmest))
    sheet.record("bed_expansion_cold", _by_loss(rate, coldest))


def _by_loss(rate: Value, water: Water) -> Value:
    """Where the loss carries the grains' weight."""
    opened = filter_bed.expanded_porosity(rate, GRAIN_SIZE, GRAIN_DENSITY, water.density, water.viscosity)
    return filter_bed.bed_expansion(POROSITY, opened)


def _by_settling(rate: Value, water: Water) -> Value:
    """Where the grains settle, hindered by each other, as fast as the water rises."""
    settling = filter_bed.settling_rate(GRAIN_SIZE, GRAIN_DENSITY, water.density, water.viscosity)
    reynolds = filter_bed.grain_reynolds_number(settling, GRAIN_SIZE, water.density, water.viscosity)
    opened = filter_bed.hindered_porosity(rate, settling, filter_bed.hindering_exponent(reynolds))
    return filter_bed.bed_expansion(POROSITY, opened)

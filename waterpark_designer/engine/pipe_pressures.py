"""What pressure a run may carry when warm, and what a sudden stop adds to it."""

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import pipe_strength
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pipes import chosen_size, material_of
from waterpark_designer.engine.water_at import Water
from waterpark_designer.engine.worked import Missing, Worked, leaf
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import PipeStandard, VelocityClass
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import PRESSURE, SMALL_LENGTH, STIFFNESS

PVC = (PipeStandard.PVC_40, PipeStandard.PVC_80)


def rate_run(sheet: Sheet, temperature: float, water: Water, context: Context) -> None:
    """Enter a pressure run's rating at the temperature [K] and its surge; other materials are not rated here."""
    run = sheet.node
    assert isinstance(run, PipeRun)
    bore = sheet["inside_diameter"]
    if run.standard not in PVC or run.kind.velocity_class is not VelocityClass.PRESSURE or isinstance(bore, Missing):
        return
    size = chosen_size(run, bore, context)
    if size is None or size.pressure_rating is None:
        return
    source = Source(size.source, Provenance.SECONDARY)
    rating = leaf(size.pressure_rating, "Pressure rating at 23 °C", source, measure=PRESSURE)
    factor = pipe_strength.pvc_temperature_factor(temperature)
    sheet.work("pressure_allowed", pipe_strength.pressure_rating_at_temperature, rating, factor)
    material = material_of(run, context)
    known = Source(material.source, Provenance.MEMORY)
    stiffness = leaf(material.elastic_modulus, f"Modulus of {material.name}", known, measure=STIFFNESS)
    wall = leaf((size.outside_diameter - size.inside_diameter) / 2, "Average wall", source, measure=SMALL_LENGTH)
    speed = sheet.work("wave_speed", pipe_strength.wave_speed, water.density, bore, wall, stiffness)
    sheet.work("surge_pressure", pipe_strength.surge_pressure, water.density, speed, sheet["velocity"])


def pressures_of(sheet: Sheet) -> tuple[Worked, Worked] | None:
    """The surge and the pressure allowed of a run, where both are known."""
    surge, allowed = sheet["surge_pressure"], sheet["pressure_allowed"]
    return (surge, allowed) if isinstance(surge, Worked) and isinstance(allowed, Worked) else None

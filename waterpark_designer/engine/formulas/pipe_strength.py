"""What a pipe withstands: pressure ratings, their fall with temperature, and water hammer."""

from typing import Any

from waterpark_designer.engine.worked import Missing, Value, formula, leaf
from waterpark_designer.sources import ARITHMETIC, JOUKOWSKY, TEMPERATURE_DERATING, WAVE_SPEED
from waterpark_designer.units import SHARE, TEMPERATURE, Density, Pressure, Share, SmallLength, Stiffness, Velocity

WATER_BULK_MODULUS = 2.2e9
PVC_FACTORS_BY_FAHRENHEIT = (
    (73.0, 1.00),
    (80.0, 0.88),
    (90.0, 0.75),
    (100.0, 0.62),
    (110.0, 0.51),
    (120.0, 0.40),
    (130.0, 0.31),
    (140.0, 0.22),
)


def pvc_temperature_factor(temperature: Any) -> Value:
    """Share of the 23 °C rating that PVC keeps at a temperature [K]; Missing above 60 °C, where it keeps none."""
    if isinstance(temperature, Missing):
        return temperature
    fahrenheit = TEMPERATURE.us.from_si(float(temperature))
    if fahrenheit > PVC_FACTORS_BY_FAHRENHEIT[-1][0] + 1e-6:
        return Missing("PVC is not for water above 60 °C (140 °F). Choose another material.")
    return leaf(_between(fahrenheit), "Temperature factor of PVC", TEMPERATURE_DERATING, measure=SHARE)


def _between(fahrenheit: float) -> float:
    """The factor on the straight line between the two temperatures of the table."""
    factor = PVC_FACTORS_BY_FAHRENHEIT[-1][1]
    for (low, high_factor), (high, low_factor) in zip(
        PVC_FACTORS_BY_FAHRENHEIT, PVC_FACTORS_BY_FAHRENHEIT[1:], strict=False
    ):
        if fahrenheit <= high:
            done = max(fahrenheit - low, 0.0) / (high - low)
            return high_factor + (low_factor - high_factor) * done
    return factor


@formula("p = p_23 · c", ARITHMETIC, rating="p_23", temperature_factor="c")
def pressure_rating_at_temperature(rating: Pressure, temperature_factor: Share) -> Pressure:
    """Pressure rating p [Pa] at temperature, from the rating p_23 [Pa] at 23 °C and the factor c."""
    return rating * temperature_factor


@formula(
    "a = (B / ρ / (1 + B · D / (E · t)))^0.5",
    WAVE_SPEED,
    density="ρ",
    inside_diameter="D",
    wall="t",
    elastic_modulus="E",
    bulk_modulus="B",
)
def wave_speed(
    density: Density,
    inside_diameter: SmallLength,
    wall: SmallLength,
    elastic_modulus: Stiffness,
    bulk_modulus: Stiffness = WATER_BULK_MODULUS,
) -> Velocity:
    """Speed a [m/s] of a pressure wave in a pipe of inside diameter D [m], wall t [m], elastic modulus E [Pa].

    ρ density [kg/m³] and B bulk modulus [Pa] of the water. Water without air; air slows the wave.
    """
    return (bulk_modulus / density / (1 + bulk_modulus * inside_diameter / (elastic_modulus * wall))) ** 0.5


@formula("Δp = ρ · a · v", JOUKOWSKY, density="ρ", wave_speed="a", velocity="v")
def surge_pressure(density: Density, wave_speed: Velocity, velocity: Velocity) -> Pressure:
    """Rise of pressure Δp [Pa] when water of density ρ [kg/m³] is stopped from v [m/s]; a wave speed [m/s].

    Holds for a valve that shuts before the wave is back, else it is the upper figure.
    """
    return density * wave_speed * velocity

"""Granular beds: loss when clean, when dirty, and how far backwash lifts them."""

from waterpark_designer.engine.solve import root
from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import (
    ERGUN,
    ERGUN_BALANCE,
    RICHARDSON_ZAKI,
    SCHILLER_NAUMANN,
    WEN_YU,
    Provenance,
    Source,
)
from waterpark_designer.units import (
    STANDARD_GRAVITY,
    Acceleration,
    Density,
    FilterRate,
    GrainSize,
    Length,
    Pressure,
    Ratio,
    Share,
    Viscosity,
)

ARCHIMEDES = Source("Definition of the Archimedes number", Provenance.DEFINITION)
GRAIN_REYNOLDS = Source("Definition of the Reynolds number of a grain", Provenance.DEFINITION)
EXPANSION = Source("The same grains in a deeper bed", Provenance.DEFINITION)
MOST_OPEN = 0.95
"""Where grains of a bed have long been carried off."""


@formula(
    "Δp = L · (150 · μ · (1 − e)² · v / (φ² · d² · e³) + 1.75 · ρ · (1 − e) · v² / (φ · d · e³))",
    ERGUN,
    depth="L",
    rate="v",
    grain_size="d",
    porosity="e",
    sphericity="φ",
    viscosity="μ",
    density="ρ",
)
def clean_bed_loss(
    depth: Length,
    rate: FilterRate,
    grain_size: GrainSize,
    porosity: Share,
    sphericity: Ratio,
    viscosity: Viscosity,
    density: Density,
) -> Pressure:
    """Loss Δp [Pa] through a clean bed of depth L [m] at a rate v [m/s].

    d grain size [m], e share of the bed that is open, φ sphericity of the grains (1 for spheres); μ viscosity [Pa·s]
    and ρ density [kg/m³] of the water. Openness and sphericity count for more than grain size.
    """
    narrow = sphericity * grain_size
    viscous = 150 * viscosity * (1 - porosity) ** 2 * rate / (narrow**2 * porosity**3)
    inertial = 1.75 * density * (1 - porosity) * rate**2 / (narrow * porosity**3)
    return depth * (viscous + inertial)


@formula(
    "Ar = ρ · (ρ_s − ρ) · g · d³ / μ²",
    ARCHIMEDES,
    grain_density="ρ_s",
    density="ρ",
    grain_size="d",
    viscosity="μ",
    gravity="g",
)
def archimedes_number(
    grain_density: Density,
    density: Density,
    grain_size: GrainSize,
    viscosity: Viscosity,
    gravity: Acceleration = STANDARD_GRAVITY,
) -> Ratio:
    """Archimedes number Ar of grains of size d [m] and density ρ_s [kg/m³] in water.

    ρ density [kg/m³] and μ viscosity [Pa·s] of the water, g gravity [m/s²].
    """
    return density * (grain_density - density) * gravity * grain_size**3 / viscosity**2


@formula(
    "v = μ / (ρ · d) · ((33.7² + 0.0408 · Ar)^0.5 − 33.7)",
    WEN_YU,
    archimedes="Ar",
    viscosity="μ",
    density="ρ",
    grain_size="d",
)
def least_fluidising_rate(
    archimedes: Ratio, viscosity: Viscosity, density: Density, grain_size: GrainSize
) -> FilterRate:
    """Rate v [m/s] at which a bed of grains of size d [m] and Archimedes number Ar begins to lift.

    μ viscosity [Pa·s] and ρ density [kg/m³] of the water.
    """
    return viscosity / (density * grain_size) * ((33.7**2 + 0.0408 * archimedes) ** 0.5 - 33.7)


@formula(
    "e = ((150 · μ · (1 − e) · v / d² + 1.75 · ρ · v² / d) / ((ρ_s − ρ) · g))^(1/3)",
    ERGUN_BALANCE,
    rate="v",
    grain_size="d",
    grain_density="ρ_s",
    density="ρ",
    viscosity="μ",
    gravity="g",
)
def expanded_porosity(
    rate: FilterRate,
    grain_size: GrainSize,
    grain_density: Density,
    density: Density,
    viscosity: Viscosity,
    gravity: Acceleration = STANDARD_GRAVITY,
) -> Share:
    """Share e of a bed that is open when a rate v [m/s] carries its grains, held at 0.95.

    d size [m] and ρ_s density [kg/m³] of the grains, taken as spheres; ρ density [kg/m³] and μ viscosity [Pa·s] of the
    water, g gravity [m/s²]. Below the bed's own porosity the bed does not lift.
    """
    weight = (grain_density - density) * gravity
    viscous = float(150 * viscosity * rate / (grain_size**2 * weight))
    inertial = float(1.75 * density * rate**2 / (grain_size * weight))
    found = root(lambda open_: open_**3 - viscous * (1.0 - open_) - inertial, 0.0, MOST_OPEN)
    return MOST_OPEN if found is None else found


@formula(
    "v = 4 · (ρ_s − ρ) · g · d² / (3 · 24 · μ · (1 + 0.15 · (ρ · v · d / μ)^0.687))",
    SCHILLER_NAUMANN,
    grain_size="d",
    grain_density="ρ_s",
    density="ρ",
    viscosity="μ",
    gravity="g",
)
def settling_rate(
    grain_size: GrainSize,
    grain_density: Density,
    density: Density,
    viscosity: Viscosity,
    gravity: Acceleration = STANDARD_GRAVITY,
) -> FilterRate:
    """Rate v [m/s] at which one grain of size d [m] and density ρ_s [kg/m³], taken as a sphere, settles in still water.

    ρ density [kg/m³] and μ viscosity [Pa·s] of the water, g gravity [m/s²]; for a Reynolds number up to 800.
    """
    unhindered = 4 * (grain_density - density) * gravity * grain_size**2 / (72 * viscosity)
    reynolds = float(density * grain_size / viscosity * unhindered)
    share = root(lambda part: part * (1.0 + 0.15 * (reynolds * part) ** 0.687) - 1.0, 0.0, 1.0)
    return unhindered if share is None else unhindered * share


@formula("Re = ρ · v · d / μ", GRAIN_REYNOLDS, settling_rate="v", grain_size="d", density="ρ", viscosity="μ")
def grain_reynolds_number(
    settling_rate: FilterRate, grain_size: GrainSize, density: Density, viscosity: Viscosity
) -> Ratio:
    """Reynolds number Re of a grain of size d [m] that settles at v [m/s].

    ρ density [kg/m³] and μ viscosity [Pa·s] of the water.
    """
    return density * settling_rate * grain_size / viscosity


@formula("n = 4.45 · Re^−0.1", RICHARDSON_ZAKI, valid={"reynolds": (1.0, 500.0)}, reynolds="Re")
def hindering_exponent(reynolds: Ratio) -> Ratio:
    """Exponent n by which grains hinder each other, for a Reynolds number Re of one grain of 1 to 500."""
    return reynolds**-0.1 * 4.45


@formula("e = (v / v_t)^(1/n)", RICHARDSON_ZAKI, rate="v", settling_rate="v_t", exponent="n")
def hindered_porosity(rate: FilterRate, settling_rate: FilterRate, exponent: Ratio) -> Share:
    """Share e of a bed that is open when a rate v [m/s] carries its grains, held at 0.95.

    v_t rate [m/s] at which one grain settles, n exponent. Below the bed's own porosity the bed does not lift.
    """
    return min(max(rate / settling_rate, 0) ** (1 / exponent), MOST_OPEN)


@formula("x = max((1 − e_0) / (1 − e) − 1, 0)", EXPANSION, fixed_porosity="e_0", expanded_porosity="e")
def bed_expansion(fixed_porosity: Share, expanded_porosity: Share) -> Share:
    """Share x by which a bed grows deeper, its open share going from e_0 to e."""
    return max((1 - fixed_porosity) / (1 - expanded_porosity) - 1, 0)

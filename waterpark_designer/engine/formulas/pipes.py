"""Full pipes: velocity, friction, fittings, size by velocity."""

import math
from typing import Any

from waterpark_designer.engine.friction import LAMINAR_REYNOLDS, TURBULENT_REYNOLDS, colebrook
from waterpark_designer.engine.system_curve import hazen_williams
from waterpark_designer.engine.worked import Missing, formula
from waterpark_designer.sources import (
    ARITHMETIC,
    COLEBROOK,
    CONTINUITY,
    CRANE,
    DARCY_WEISBACH,
    HAZEN_WILLIAMS,
    HYDROSTATICS,
    LAMINAR_FLOW,
    REYNOLDS,
    SQUARE_LAW,
    UNSETTLED_FLOW,
    VELOCITY_HEAD,
)
from waterpark_designer.units import (
    INCH,
    STANDARD_GRAVITY,
    Acceleration,
    Coefficient,
    Density,
    Flow,
    KinematicViscosity,
    Length,
    Pressure,
    Ratio,
    Roughness,
    Share,
    SmallLength,
    UnitSystem,
    Velocity,
)

CRANE_ROUGHNESS = 0.0018 * INCH
"""Clean commercial steel, on which the multiples stand whatever the pipe is made of."""
FITTING_MULTIPLES = {
    "elbow_90": 30.0,
    "elbow_90_long": 14.0,
    "elbow_45": 16.0,
    "tee_run": 20.0,
    "tee_branch": 60.0,
    "gate_valve": 8.0,
    "globe_valve": 340.0,
    "ball_valve": 3.0,
    "swing_check": 100.0,
}
"""Loss coefficient over friction factor at full turbulence: Crane, Technical Paper 410, from memory."""
FIXED_LOSS_COEFFICIENTS = {"entrance_sharp": 0.5, "entrance_projecting": 0.78, "exit": 1.0}
BUTTERFLY_MULTIPLES = ((8.5 * INCH, 45.0), (13.5 * INCH, 35.0), (math.inf, 25.0))
"""Bounds lie between the bores of 8 and 10 in pipe, and of 14 and 16 in pipe of any schedule."""


@formula("v = 4 · Q / (π · D²)", CONTINUITY, flow="Q", inside_diameter="D")
def pipe_velocity(flow: Flow, inside_diameter: SmallLength) -> Velocity:
    """Mean velocity v [m/s] of a flow Q [m³/s] in a full pipe of inside diameter D [m]."""
    return 4 * flow / (math.pi * inside_diameter**2)


@formula("D = (4 · Q / (π · v))^0.5", CONTINUITY, flow="Q", velocity_limit="v")
def least_inside_diameter(flow: Flow, velocity_limit: Velocity) -> SmallLength:
    """Inside diameter D [m] in which a flow Q [m³/s] runs at a velocity v [m/s]."""
    return (4 * flow / (math.pi * velocity_limit)) ** 0.5


@formula("Q = Q_0 · s", ARITHMETIC, flow="Q_0", share="s")
def part_of_flow(flow: Flow, share: Share) -> Flow:
    """Flow Q [m³/s] that is a share s of another, Q_0 [m³/s]."""
    return flow * share


@formula("Re = v · D / ν", REYNOLDS, velocity="v", inside_diameter="D", kinematic_viscosity="ν")
def reynolds_number(velocity: Velocity, inside_diameter: SmallLength, kinematic_viscosity: KinematicViscosity) -> Ratio:
    """Reynolds number Re for a velocity v [m/s], inside diameter D [m] and kinematic viscosity ν [m²/s]."""
    return velocity * inside_diameter / kinematic_viscosity


@formula("f = 64 / Re", LAMINAR_FLOW, valid={"reynolds": (0.0, LAMINAR_REYNOLDS)}, reynolds="Re")
def laminar_friction(reynolds: Ratio) -> Coefficient:
    """Darcy friction factor f of laminar flow, Reynolds number Re up to 2,000."""
    return 64 / reynolds


@formula(
    "f = 1 / (2 · log(ε / (3.7 · D) + 2.51 / (Re · f^0.5)))²",
    COLEBROOK,
    valid={"reynolds": (TURBULENT_REYNOLDS, 1e8)},
    reynolds="Re",
    roughness="ε",
    inside_diameter="D",
)
def turbulent_friction(reynolds: Ratio, roughness: Roughness, inside_diameter: SmallLength) -> Coefficient:
    """Darcy friction factor f of turbulent flow at a Reynolds number Re, roughness ε [m], inside diameter D [m]."""
    return colebrook(reynolds, roughness / inside_diameter)


@formula(
    "f = 0.032 + (f_t − 0.032) · (Re − 2000) / 2000",
    UNSETTLED_FLOW,
    valid={"reynolds": (LAMINAR_REYNOLDS, TURBULENT_REYNOLDS)},
    reynolds="Re",
    turbulent_friction="f_t",
)
def unsettled_friction(reynolds: Ratio, turbulent_friction: Coefficient) -> Coefficient:
    """Darcy friction factor f for a Reynolds number Re of 2,000 to 4,000; f_t is Colebrook's at 4,000."""
    return 0.032 + (turbulent_friction - 0.032) * (reynolds - 2000) / 2000


def friction_factor(reynolds: Any, roughness: Any, inside_diameter: Any) -> Any:
    """Darcy friction factor by whichever of the three formulas holds at this Reynolds number; Missing where it is."""
    if isinstance(reynolds, Missing):
        return reynolds
    if reynolds <= LAMINAR_REYNOLDS:
        return laminar_friction(reynolds)
    if reynolds >= TURBULENT_REYNOLDS:
        return turbulent_friction(reynolds, roughness, inside_diameter)
    return unsettled_friction(reynolds, turbulent_friction(TURBULENT_REYNOLDS, roughness, inside_diameter))


@formula(
    "h = f · L / D · v² / (2 · g)",
    DARCY_WEISBACH,
    friction="f",
    length="L",
    inside_diameter="D",
    velocity="v",
    gravity="g",
)
def friction_loss(
    friction: Coefficient,
    length: Length,
    inside_diameter: SmallLength,
    velocity: Velocity,
    gravity: Acceleration = STANDARD_GRAVITY,
) -> Length:
    """Head h [m] lost by friction over L [m] of a full pipe of inside diameter D [m].

    f Darcy friction factor, not Fanning's; v mean velocity [m/s], g gravity [m/s²].
    """
    return friction * length / inside_diameter * velocity**2 / (2 * gravity)


@formula(
    "h = 10.666 · L · (Q / C)^1.852 / D^4.871",
    HAZEN_WILLIAMS,
    valid={"inside_diameter": (0.045, 2.0)},
    written_in=UnitSystem.SI,
    flow="Q",
    coefficient="C",
    length="L",
    inside_diameter="D",
)
def empirical_friction_loss(flow: Flow, coefficient: Ratio, length: Length, inside_diameter: SmallLength) -> Length:
    """Head h [m] lost by friction of a flow Q [m³/s] over L [m] of a full pipe of inside diameter D [m].

    C is Hazen and Williams' coefficient. Cold water in turbulent flow, pipes from about 2 in, up to about 10 ft/s.
    """
    return hazen_williams(flow, coefficient, length, inside_diameter)


@formula("h = K · v² / (2 · g)", VELOCITY_HEAD, loss_coefficient="K", velocity="v", gravity="g")
def minor_loss(loss_coefficient: Ratio, velocity: Velocity, gravity: Acceleration = STANDARD_GRAVITY) -> Length:
    """Head h [m] lost in fittings of coefficients K together, at a velocity v [m/s]; g gravity [m/s²]."""
    return loss_coefficient * velocity**2 / (2 * gravity)


@formula("f_T = 0.25 / log(ε / (3.7 · D))²", CRANE, inside_diameter="D", roughness="ε")
def full_turbulence_friction(inside_diameter: SmallLength, roughness: Roughness = CRANE_ROUGHNESS) -> Coefficient:
    """Friction factor f_T at full turbulence in clean steel of inside diameter D [m] and roughness ε [m]."""
    return 0.25 / math.log10(roughness / (3.7 * inside_diameter)) ** 2


@formula("K = n · m · f_T", CRANE, count="n", multiple="m", full_turbulence_friction="f_T")
def fitting_loss_coefficient(count: Ratio, multiple: Ratio, full_turbulence_friction: Coefficient) -> Ratio:
    """Loss coefficient K of n like fittings, each m times the friction factor f_T."""
    return count * multiple * full_turbulence_friction


def butterfly_multiple(inside_diameter: float) -> float:
    """Multiple of a butterfly valve by inside diameter [m]: 45 to 8 in pipe, 35 to 14 in, 25 above (Crane TP-410)."""
    return next(multiple for most, multiple in BUTTERFLY_MULTIPLES if inside_diameter <= most)


@formula("h = h_0 · (Q / Q_0)²", SQUARE_LAW, known_loss="h_0", flow="Q", known_flow="Q_0")
def equipment_loss(known_loss: Length, flow: Flow, known_flow: Flow) -> Length:
    """Head h [m] lost at a flow Q [m³/s] by what loses h_0 [m] at Q_0 [m³/s]."""
    return known_loss * (flow / known_flow) ** 2


@formula("p = ρ · g · h", HYDROSTATICS, head="h", density="ρ", gravity="g")
def head_pressure(head: Length, density: Density = 1000.0, gravity: Acceleration = STANDARD_GRAVITY) -> Pressure:
    """Pressure p [Pa] of a head h [m] of water of density ρ [kg/m³], at most 1000; g gravity [m/s²]."""
    return density * gravity * head


@formula("h = p / (ρ · g)", HYDROSTATICS, pressure="p", density="ρ", gravity="g")
def pressure_head(pressure: Pressure, density: Density, gravity: Acceleration = STANDARD_GRAVITY) -> Length:
    """Head h [m] of a pressure p [Pa] in water of density ρ [kg/m³]; g gravity [m/s²]."""
    return pressure / (density * gravity)

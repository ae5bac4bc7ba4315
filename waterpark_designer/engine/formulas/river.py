"""A river kept moving by jets: what walls and people hold back, what the jets must push."""

import math

from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import CONTINUITY, GEOMETRY, MANNING, RIVER_JETS, STANDING_DRAG
from waterpark_designer.units import (
    FOOT,
    STANDARD_GRAVITY,
    Acceleration,
    Area,
    Bathers,
    Coefficient,
    Count,
    Density,
    Flow,
    Force,
    Length,
    Power,
    Ratio,
    Share,
    Slope,
    SmallLength,
    UnitSystem,
    Velocity,
)

RIVER_MANNING = 0.015
"""All losses of a river in one n: matched field tests of three rivers (McEnroe 2006, abstract)."""
STANDING_DRAG_AREA = 3.3 * FOOT**2


@formula("A = b · d", GEOMETRY, width="b", depth="d")
def channel_area(width: Length, depth: Length) -> Area:
    """Area A [m²] of a rectangular channel b [m] wide and d [m] deep."""
    return width * depth


@formula("P = b + 2 · d", GEOMETRY, width="b", depth="d")
def wetted_perimeter(width: Length, depth: Length) -> Length:
    """Wetted perimeter P [m] of a rectangular channel b [m] wide and d [m] deep."""
    return width + 2 * depth


@formula("R = A / P", GEOMETRY, area="A", wetted_perimeter="P")
def hydraulic_radius(area: Area, wetted_perimeter: Length) -> Length:
    """Hydraulic radius R [m] of a channel of area A [m²] and wetted perimeter P [m]."""
    return area / wetted_perimeter


@formula(
    "S = (n · U / R^(2/3))²", MANNING, written_in=UnitSystem.SI, manning="n", current_speed="U", hydraulic_radius="R"
)
def friction_slope(manning: Coefficient, current_speed: Velocity, hydraulic_radius: Length) -> Slope:
    """Slope S of friction in a channel of Manning's n and hydraulic radius R [m], at a mean speed U [m/s]."""
    return (manning * current_speed / hydraulic_radius ** (2 / 3)) ** 2


@formula("h = S · L", GEOMETRY, friction_slope="S", length="L")
def channel_loss(friction_slope: Slope, length: Length) -> Length:
    """Head h [m] lost by friction over a length L [m] at a slope S."""
    return friction_slope * length


@formula("F_w = ρ · g · A · h", RIVER_JETS, density="ρ", area="A", channel_loss="h", gravity="g")
def wall_resistance(
    density: Density, area: Area, channel_loss: Length, gravity: Acceleration = STANDARD_GRAVITY
) -> Force:
    """Force F_w [N] of the walls on water of density ρ [kg/m³] that loses h [m] in a channel of area A [m²].

    g gravity [m/s²].
    """
    return density * gravity * area * channel_loss


@formula("F_p = N · ρ / 2 · a · U²", STANDING_DRAG, standing_people="N", density="ρ", current_speed="U", drag_area="a")
def people_drag(
    standing_people: Bathers, density: Density, current_speed: Velocity, drag_area: Area = STANDING_DRAG_AREA
) -> Force:
    """Force F_p [N] of N people who stand in a current U [m/s] of density ρ [kg/m³].

    a drag area [m²], coefficient times frontal area; those who float do not hold the water back.
    """
    return standing_people * density / 2 * drag_area * current_speed**2


@formula("F = F_w + F_p", RIVER_JETS, wall_resistance="F_w", people_drag="F_p")
def jet_thrust(wall_resistance: Force, people_drag: Force) -> Force:
    """Thrust F [N] that holds the current against walls F_w [N] and people F_p [N]."""
    return wall_resistance + people_drag


@formula(
    "Q = F / (ρ · (v · c − U))", RIVER_JETS, thrust="F", density="ρ", jet_speed="v", current_speed="U", alignment="c"
)
def jet_flow(
    thrust: Force, density: Density, jet_speed: Velocity, current_speed: Velocity, alignment: Share = 1.0
) -> Flow:
    """Flow Q [m³/s] of jets of speed v [m/s] that push with F [N] on a current U [m/s].

    ρ density [kg/m³]; c cosine of the angle between jet and current. Jets must be faster along the current than it is.
    """
    return thrust / (density * (jet_speed * alignment - current_speed))


@formula("P_j = ρ / 2 · Q · v²", RIVER_JETS, density="ρ", jet_flow="Q", jet_speed="v")
def jet_power(density: Density, jet_flow: Flow, jet_speed: Velocity) -> Power:
    """Power P_j [W] of jets of Q [m³/s] together, speed v [m/s], density ρ [kg/m³]; before pump and pipe losses."""
    return density / 2 * jet_flow * jet_speed**2


@formula("P_u = F · U", RIVER_JETS, thrust="F", current_speed="U")
def useful_power(thrust: Force, current_speed: Velocity) -> Power:
    """Power P_u [W] that a thrust F [N] gives a current U [m/s]."""
    return thrust * current_speed


@formula("η = P_u / P_j", RIVER_JETS, useful_power="P_u", jet_power="P_j")
def propulsive_efficiency(useful_power: Power, jet_power: Power) -> Share:
    """Share η of the jets' power P_j [W] that moves the river, P_u [W]; one half at most."""
    return useful_power / jet_power


@formula("v = 2 · U / c", RIVER_JETS, current_speed="U", alignment="c")
def jet_speed_of_least_power(current_speed: Velocity, alignment: Share = 1.0) -> Velocity:
    """Jet speed v [m/s] of least power for a current U [m/s], c as in the jet flow; faster jets need smaller pumps."""
    return 2 * current_speed / alignment


@formula("d = (4 · Q / (n · π · v · C))^0.5", CONTINUITY, jet_flow="Q", jets="n", jet_speed="v", contraction="C")
def jet_bore(jet_flow: Flow, jets: Count, jet_speed: Velocity, contraction: Share = 1.0) -> SmallLength:
    """Bore d [m] of n jets of Q [m³/s] together at v [m/s]; C share of the bore that the jet fills."""
    return (4 * jet_flow / (jets * math.pi * jet_speed * contraction)) ** 0.5


@formula("h = v² / (2 · g · c²)", RIVER_JETS, jet_speed="v", velocity_coefficient="c", gravity="g")
def jet_head(
    jet_speed: Velocity, velocity_coefficient: Ratio = 1.0, gravity: Acceleration = STANDARD_GRAVITY
) -> Length:
    """Head h [m] behind a jet of v [m/s]; c velocity coefficient of its nozzle, g gravity [m/s²]."""
    return jet_speed**2 / (2 * gravity * velocity_coefficient**2)

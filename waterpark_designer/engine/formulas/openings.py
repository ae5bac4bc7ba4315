"""Skimmers, drains, inlets, strainers, meters, gravity lines, and the tanks water runs to."""

import math

from waterpark_designer.engine.whole_number import whole_number
from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import (
    ARITHMETIC,
    BATHER_DISPLACEMENT,
    CONTINUITY,
    GEOMETRY,
    METER_RANGE,
    ONE_BLOCKED,
    STRAINER_FREE_AREA,
    SUBMERGENCE,
    SURGE_BY_AREA,
    VELOCITY_HEAD,
)
from waterpark_designer.units import (
    FOOT,
    GALLON,
    STANDARD_GRAVITY,
    Acceleration,
    Area,
    Bathers,
    Coefficient,
    Count,
    Flow,
    Length,
    Minutes,
    Ratio,
    SmallArea,
    SmallLength,
    SmallVolume,
    Velocity,
    Volume,
    VolumePerArea,
)

DISPLACED_BY_BATHER = 0.075
SURGE_PER_AREA = GALLON / FOOT**2


@formula("n = ⌈A / a⌉", ARITHMETIC, area="A", area_per_skimmer="a")
def skimmers_by_area(area: Area, area_per_skimmer: Area) -> Count:
    """Skimmers n for a surface A [m²], one for each a [m²]."""
    return whole_number(area / area_per_skimmer)


@formula("n = ⌈Q / q⌉", ARITHMETIC, surface_flow="Q", flow_per_skimmer="q")
def skimmers_by_flow(surface_flow: Flow, flow_per_skimmer: Flow) -> Count:
    """Skimmers n for a surface flow Q [m³/s] at q [m³/s] each."""
    return whole_number(surface_flow / flow_per_skimmer)


@formula("q = Q / n", ARITHMETIC, flow="Q", count="n")
def flow_of_each(flow: Flow, count: Count) -> Flow:
    """Flow q [m³/s] of each of n like openings that share Q [m³/s]."""
    return flow / count


@formula("q = Q / (n − 1)", ONE_BLOCKED, flow="Q", count="n")
def outlet_flow_one_blocked(flow: Flow, count: Count) -> Flow:
    """Flow q [m³/s] that each cover must be rated for, when one of n outlets of Q [m³/s] is blocked; two or more."""
    return flow / (count - 1)


@formula("n = ⌊N / k⌋", ARITHMETIC, outlets="N", lines="k")
def outlets_on_each_line(outlets: Count, lines: Count) -> Count:
    """Outlets n of the suction line that has the fewest, where N are dealt out over k lines that do not meet."""
    return outlets // lines


@formula("v = Q / A", CONTINUITY, flow="Q", open_area="A")
def approach_velocity(flow: Flow, open_area: SmallArea) -> Velocity:
    """Velocity v [m/s] of Q [m³/s] through an open area A [m²] of a grate."""
    return flow / open_area


@formula("A = Q / v", CONTINUITY, flow="Q", velocity_limit="v")
def open_area_needed(flow: Flow, velocity_limit: Velocity) -> SmallArea:
    """Open area A [m²] through which Q [m³/s] runs at v [m/s]."""
    return flow / velocity_limit


@formula("n = ⌈A / a⌉", ARITHMETIC, area="A", area_per_inlet="a")
def inlets_by_area(area: Area, area_per_inlet: Area) -> Count:
    """Return inlets n for a surface A [m²], one for each a [m²]."""
    return whole_number(area / area_per_inlet)


@formula("n = ⌈P / s⌉", ARITHMETIC, perimeter="P", spacing="s")
def inlets_by_perimeter(perimeter: Length, spacing: Length) -> Count:
    """Return inlets n round a perimeter P [m], one for each s [m]."""
    return whole_number(perimeter / spacing)


@formula("v = 4 · q / (π · d²)", CONTINUITY, flow_each="q", bore="d")
def inlet_velocity(flow_each: Flow, bore: SmallLength) -> Velocity:
    """Velocity v [m/s] of q [m³/s] through an inlet's round opening of bore d [m]."""
    return 4 * flow_each / (math.pi * bore**2)


@formula("A = m · π · D² / 4", STRAINER_FREE_AREA, inside_diameter="D", multiple="m")
def strainer_free_area(inside_diameter: SmallLength, multiple: Ratio = 4.0) -> SmallArea:
    """Free area A [m²] of a strainer, m times that of a suction line of inside diameter D [m]."""
    return multiple * math.pi * inside_diameter**2 / 4


@formula("Q = m · Q_d", METER_RANGE, design_flow="Q_d", multiple="m")
def flow_meter_range(design_flow: Flow, multiple: Ratio = 1.5) -> Flow:
    """Flow Q [m³/s] a meter must read to, m times the design flow Q_d [m³/s]."""
    return multiple * design_flow


@formula("K = K_f + f · L / D", VELOCITY_HEAD, fittings="K_f", friction="f", length="L", inside_diameter="D")
def line_loss_coefficient(
    fittings: Ratio, friction: Coefficient, length: Length, inside_diameter: SmallLength
) -> Ratio:
    """Loss coefficient K of a line: fittings K_f with entrance and exit, friction f over L [m] of bore D [m]."""
    return fittings + friction * length / inside_diameter


@formula("v = (2 · g · h / K)^0.5", VELOCITY_HEAD, available_head="h", loss_coefficient="K", gravity="g")
def gravity_velocity(
    available_head: Length, loss_coefficient: Ratio, gravity: Acceleration = STANDARD_GRAVITY
) -> Velocity:
    """Velocity v [m/s] in a full line of loss coefficient K on a difference of levels h [m]; g gravity [m/s²]."""
    return (2 * gravity * available_head / loss_coefficient) ** 0.5


@formula("Q = π / 4 · D² · v", CONTINUITY, inside_diameter="D", velocity="v")
def line_capacity(inside_diameter: SmallLength, velocity: Velocity) -> Flow:
    """Flow Q [m³/s] of a full line of inside diameter D [m] at v [m/s]."""
    return math.pi / 4 * inside_diameter**2 * velocity


@formula("V = N · v", BATHER_DISPLACEMENT, bathers="N", displaced_each="v")
def bather_displacement(bathers: Bathers, displaced_each: SmallVolume = DISPLACED_BY_BATHER) -> Volume:
    """Water V [m³] that N bathers push out, v [m³] each."""
    return bathers * displaced_each


@formula("V = w · A", SURGE_BY_AREA, area="A", surge_per_area="w")
def surge_by_area(area: Area, surge_per_area: VolumePerArea = SURGE_PER_AREA) -> Volume:
    """Surge volume V [m³] for a surface A [m²] at w [m] of water."""
    return area * surge_per_area


@formula("V = L · a", GEOMETRY, gutter_length="L", wetted_section="a")
def water_in_gutters(gutter_length: Length, wetted_section: SmallArea) -> Volume:
    """Water V [m³] on its way in L [m] of gutter that runs filled to a section a [m²]."""
    return gutter_length * wetted_section


@formula("V = A · h", GEOMETRY, area="A", weir_head="h")
def water_above_rim(area: Area, weir_head: SmallLength) -> Volume:
    """Water V [m³] that stands on a surface A [m²] while it runs over its rim h [m] deep."""
    return area * weir_head


@formula("Δh = V / A", GEOMETRY, volume="V", area="A")
def level_change(volume: Volume, area: Area) -> Length:
    """Rise or fall Δh [m] of a tank or basin of surface A [m²] that V [m³] comes to or leaves."""
    return volume / area


@formula("V = n · V_B", ARITHMETIC, backwashes="n", backwash_volume="V_B")
def backwash_reserve(backwashes: Count, backwash_volume: Volume) -> Volume:
    """Water V [m³] kept for n backwashes of V_B [m³] each."""
    return backwashes * backwash_volume


@formula("S = D · (1 + 2.3 · v / (g · D)^0.5)", SUBMERGENCE, inside_diameter="D", velocity="v", gravity="g")
def vortex_cover(inside_diameter: SmallLength, velocity: Velocity, gravity: Acceleration = STANDARD_GRAVITY) -> Length:
    """Water S [m] above the centre of a suction of bore D [m] and velocity v [m/s] at which no vortex draws air.

    g gravity [m/s²].
    """
    return inside_diameter * (1 + 2.3 * velocity / (gravity * inside_diameter) ** 0.5)


@formula("Q = m · Q_d", ARITHMETIC, design_flow="Q_d", multiple="m")
def gutter_capacity(design_flow: Flow, multiple: Ratio) -> Flow:
    """Flow Q [m³/s] that gutters and their drains must take, m times the design flow Q_d [m³/s]."""
    return multiple * design_flow


@formula("Q_1 = Q · q_1 / q", ARITHMETIC, flow="Q", capacity="q_1", run_flow="q")
def flow_when_full(flow: Flow, capacity: Flow, run_flow: Flow) -> Flow:
    """Flow Q_1 [m³/s] at which a drain that takes q of Q [m³/s] carries all it can, q_1 [m³/s]."""
    return flow * capacity / run_flow


@formula("V = max(Q_b − Q_s, 0) · t", ARITHMETIC, backwash_flow="Q_b", sewer_flow="Q_s", duration="t")
def waste_sump_volume(backwash_flow: Flow, sewer_flow: Flow, duration: Minutes) -> Volume:
    """Water V [m³] a sump must hold when Q_b [m³/s] comes for t [s] and the sewer takes Q_s [m³/s]."""
    return max(backwash_flow - sewer_flow, 0) * duration

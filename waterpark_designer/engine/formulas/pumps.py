"""Pumps and their motors: power, current, suction, energy."""

import math

from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import ARITHMETIC, CORRIPIO, MOTOR_CURRENT, MOTOR_LOADING, NPSH, NPSH_MARGIN, PUMP_POWER
from waterpark_designer.units import (
    DAY,
    FOOT,
    GALLON,
    MINUTE,
    STANDARD_GRAVITY,
    Acceleration,
    Current,
    Days,
    Density,
    ElectricPower,
    Energy,
    EnergyPrice,
    Flow,
    Hours,
    Length,
    Money,
    Power,
    Pressure,
    Ratio,
    Share,
    UnitSystem,
    Voltage,
)

LEAST_NPSH_MARGIN = 3.0 * FOOT


@formula("P = ρ · g · Q · H", PUMP_POWER, density="ρ", flow="Q", head="H", gravity="g")
def hydraulic_power(density: Density, flow: Flow, head: Length, gravity: Acceleration = STANDARD_GRAVITY) -> Power:
    """Power P [W] that a flow Q [m³/s] of water of density ρ [kg/m³] takes up with a head H [m]; g gravity [m/s²]."""
    return density * gravity * flow * head


@formula("P_s = P / η", PUMP_POWER, hydraulic_power="P", pump_efficiency="η")
def shaft_power(hydraulic_power: Power, pump_efficiency: Share) -> Power:
    """Power P_s [W] at the shaft of a pump of efficiency η that gives the water P [W]."""
    return hydraulic_power / pump_efficiency


@formula("P_e = P_s / (η_m · η_d)", PUMP_POWER, shaft_power="P_s", motor_efficiency="η_m", drive_efficiency="η_d")
def electric_power(shaft_power: Power, motor_efficiency: Share, drive_efficiency: Share = 1.0) -> ElectricPower:
    """Power P_e [W] from the mains for P_s [W] at the shaft; efficiencies η_m of the motor and η_d of its drive."""
    return shaft_power / (motor_efficiency * drive_efficiency)


@formula(
    "I = P / (3^0.5 · U · η · λ)", MOTOR_CURRENT, motor_rating="P", voltage="U", motor_efficiency="η", power_factor="λ"
)
def motor_current_estimate(
    motor_rating: Power, voltage: Voltage, motor_efficiency: Share, power_factor: Share = 0.85
) -> Current:
    """Current I [A] of a three-phase motor that gives P [W] at U [V], with efficiency η and power factor λ."""
    return motor_rating / (3**0.5 * voltage * motor_efficiency * power_factor)


@formula(
    "η = −0.316 + 0.24015 · ln(Q) − 0.01199 · ln(Q)²",
    CORRIPIO,
    valid={"flow": (50.0 * GALLON / MINUTE, 5000.0 * GALLON / MINUTE)},
    written_in=UnitSystem.US,
    flow="Q",
)
def pump_efficiency_estimate(flow: Flow) -> Share:
    """Estimate of the efficiency η of a centrifugal pump at its best flow Q [m³/s]; the equation is in gpm."""
    logarithm = math.log(flow * MINUTE / GALLON)
    return -0.316 + 0.24015 * logarithm - 0.01199 * logarithm**2


@formula(
    "NPSH = (p − p_v) / (ρ · g) + z − h",
    NPSH,
    atmospheric_pressure="p",
    vapour_pressure="p_v",
    density="ρ",
    water_above_pump="z",
    suction_loss="h",
    gravity="g",
)
def suction_head_available(
    atmospheric_pressure: Pressure,
    vapour_pressure: Pressure,
    density: Density,
    water_above_pump: Length,
    suction_loss: Length,
    gravity: Acceleration = STANDARD_GRAVITY,
) -> Length:
    """Net positive suction head NPSH [m] available, above vapour pressure p_v [Pa] under air pressure p [Pa].

    z water level above the pump [m], below it negative; h loss in the suction line [m]; ρ density [kg/m³];
    g gravity [m/s²].
    """
    return (atmospheric_pressure - vapour_pressure) / (density * gravity) + water_above_pump - suction_loss


@formula("NPSH_n = NPSH_r + max(m, 0.1 · NPSH_r)", NPSH_MARGIN, required="NPSH_r", least_margin="m")
def suction_head_needed(required: Length, least_margin: Length = LEAST_NPSH_MARGIN) -> Length:
    """Suction head NPSH_n [m] to have for a pump that requires NPSH_r [m], with a margin of m [m] at least."""
    return required + max(least_margin, 0.1 * required)


@formula("P_n = P_s / s", MOTOR_LOADING, shaft_power="P_s", service_factor="s")
def motor_rating_needed(shaft_power: Power, service_factor: Ratio = 1.0) -> Power:
    """Least motor rating P_n [W] for P_s [W] at the shaft; s is the service factor used, one to leave it in reserve."""
    return shaft_power / service_factor


@formula("E = P · t", ARITHMETIC, electric_power="P", running_time="t")
def energy_a_day(electric_power: ElectricPower, running_time: Hours) -> Energy:
    """Energy E [J] of a day in which a power P [W] runs for t [s]."""
    return electric_power * running_time


@formula("E = e · D / d", ARITHMETIC, energy_a_day="e", season="D", day="d")
def energy_of_season(energy_a_day: Energy, season: Days, day: Days = DAY) -> Energy:
    """Energy E [J] of a season or year of D [s] at e [J] a day; d one day [s]."""
    return energy_a_day * season / day


@formula("c = E · k", ARITHMETIC, energy="E", price="k")
def energy_cost(energy: Energy, price: EnergyPrice) -> Money:
    """Cost c of an energy E [J] at a price k [1/J]."""
    return energy * price


@formula("E = (P_1 − P_2) · t", ARITHMETIC, full_power="P_1", reduced_power="P_2", running_time="t")
def energy_saved_a_day(full_power: ElectricPower, reduced_power: ElectricPower, running_time: Hours) -> Energy:
    """Energy E [J] saved a day by running t [s] at P_2 [W] in place of P_1 [W]."""
    return (full_power - reduced_power) * running_time


@formula("t_n = max(t − (d − t_c), 0)", ARITHMETIC, running_time="t", closed_time="t_c", day="d")
def running_time_while_closed(running_time: Hours, closed_time: Hours, day: Days = DAY) -> Hours:
    """Time t_n [s] that falls to hours of rest, of t [s] a day that fills the rest of the day d [s] first.

    t_c time closed [s].
    """
    return max(running_time - (day - closed_time), 0)


@formula("E = E_0 − E_s", ARITHMETIC, full_energy="E_0", saved="E_s")
def energy_less(full_energy: Energy, saved: Energy) -> Energy:
    """Energy E [J] of a day: E_0 [J] at full flow less what is saved E_s [J]."""
    return full_energy - saved


@formula("P = P_s · r", ARITHMETIC, shaft_power="P_s", ratio="r")
def shaft_power_share(shaft_power: Power, ratio: Ratio) -> Power:
    """Shaft power P [W] at a share r of the hydraulic power; the pump's efficiency is taken as unchanged from P_s [W].

    With less flow at less speed the pump stays near its best point, so this holds where little of the head is lift.
    """
    return shaft_power * ratio


@formula("x = P_s / P_M", ARITHMETIC, shaft_power="P_s", motor_rating="P_M")
def drive_load(shaft_power: Power, motor_rating: Power) -> Share:
    """Load x of a drive as a share of its rating while its motor of P_M [W] gives P_s [W].

    The motor's efficiency is taken as that of full load, so that it cancels.
    """
    return shaft_power / motor_rating

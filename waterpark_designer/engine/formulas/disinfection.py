"""Chlorine feed, generators, hypochlorite, hydrogen and secondary treatment."""

import math

from waterpark_designer.engine.whole_number import whole_number
from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import (
    ARITHMETIC,
    BATHER_DEMAND,
    DEMAND_FACTOR,
    HYDROGEN,
    HYDROGEN_LIMIT,
    SECONDARY_DILUTION,
    TRADE_PER_CENT,
)
from waterpark_designer.units import (
    DAY,
    GALLON,
    HOUR,
    MINUTE,
    AirFlow,
    Bathers,
    Concentration,
    Count,
    DailyVolume,
    Days,
    FeedPerVolume,
    Flow,
    GasPerMass,
    Hours,
    MassPerBather,
    MassRate,
    Ratio,
    Salinity,
    Share,
    SmallVolume,
    UnitSystem,
    Volume,
)

CHLORINE_PER_BATHER = 5.5e-3
HYDROGEN_PER_CHLORINE = 0.3393
AIR_PER_HYDROGEN = 99.0
FULL_STRENGTH = 1000.0
LARGEST_DILUTION = math.exp(14.8) * GALLON


@formula("F = V · f", ARITHMETIC, volume="V", feed_per_volume="f")
def feed_by_volume(volume: Volume, feed_per_volume: FeedPerVolume) -> MassRate:
    """Feed capacity F [kg/s] for a volume V [m³] at f [kg/(s·m³)]."""
    return volume * feed_per_volume


@formula("F = Q · c", ARITHMETIC, flow="Q", concentration="c")
def feed_by_flow(flow: Flow, concentration: Concentration) -> MassRate:
    """Feed capacity F [kg/s] that adds c [kg/m³] to a flow Q [m³/s]."""
    return flow * concentration


@formula("D = N · m / t", BATHER_DEMAND, bathers="N", chlorine_per_bather="m", day="t")
def chlorine_demand(
    bathers: Bathers, chlorine_per_bather: MassPerBather = CHLORINE_PER_BATHER, day: Hours = DAY
) -> MassRate:
    """Chlorine D [kg/s], that N bathers of the design day use at m [kg] each, spread over the day t [s]."""
    return bathers * chlorine_per_bather / day


@formula("D = V · c / t", ARITHMETIC, volume="V", daily_loss="c", day="t")
def background_demand(volume: Volume, daily_loss: Concentration, day: Hours = DAY) -> MassRate:
    """Chlorine D [kg/s] that sunlight and the water V [m³] itself use, c [kg/m³] in a day t [s]."""
    return volume * daily_loss / day


@formula("F = k · D", DEMAND_FACTOR, demand_factor="k", demand="D")
def feed_by_demand(demand_factor: Ratio, demand: MassRate) -> MassRate:
    """Feed capacity F [kg/s] for a demand D [kg/s] with a design factor k."""
    return demand_factor * demand


@formula("n = ⌈F / f⌉", ARITHMETIC, feed_needed="F", output_of_one="f")
def generators_needed(feed_needed: MassRate, output_of_one: MassRate) -> Count:
    """Whole number n of generators of f [kg/s] that give F [kg/s]."""
    return whole_number(feed_needed / output_of_one)


@formula("F = n · f", ARITHMETIC, count="n", output_of_one="f")
def generator_capacity(count: Count, output_of_one: MassRate) -> MassRate:
    """Output F [kg/s] of n generators of f [kg/s]."""
    return count * output_of_one


@formula("r = (n − 1) · f / F", ARITHMETIC, count="n", output_of_one="f", feed_needed="F")
def capacity_one_out(count: Count, output_of_one: MassRate, feed_needed: MassRate) -> Share:
    """Share r of the feed needed F [kg/s] that is left when one of n generators of f [kg/s] is out."""
    return (count - 1) * output_of_one / feed_needed


@formula("Q = F · h", HYDROGEN, chlorine_output="F", hydrogen_per_chlorine="h")
def hydrogen_flow(chlorine_output: MassRate, hydrogen_per_chlorine: GasPerMass = HYDROGEN_PER_CHLORINE) -> AirFlow:
    """Hydrogen Q [m³/s] released while chlorine F [kg/s] is made, at h [m³/kg]."""
    return chlorine_output * hydrogen_per_chlorine


@formula("Q = k · Qh", HYDROGEN_LIMIT, hydrogen="Qh", air_per_hydrogen="k")
def hydrogen_dilution_air(hydrogen: AirFlow, air_per_hydrogen: Ratio = AIR_PER_HYDROGEN) -> AirFlow:
    """Least air Q [m³/s], k for each of hydrogen Qh [m³/s], that keeps it to 1 % by volume; no safety factor."""
    return air_per_hydrogen * hydrogen


@formula("Q = x · F / (s · c)", TRADE_PER_CENT, backup_share="x", feed_needed="F", strength="s", full_strength="c")
def hypochlorite_flow(
    backup_share: Share, feed_needed: MassRate, strength: Share, full_strength: Salinity = FULL_STRENGTH
) -> DailyVolume:
    """Solution Q [m³/s] that gives a share x of a feed F [kg/s]; strength s in trade per cent of c [kg/m³]."""
    return backup_share * feed_needed / (strength * full_strength)


@formula("n = ⌈Q / q⌉", ARITHMETIC, flow_needed="Q", output_of_one="q")
def feed_pumps_needed(flow_needed: DailyVolume, output_of_one: DailyVolume) -> Count:
    """Whole number n of feed pumps of q [m³/s] that give Q [m³/s]."""
    return whole_number(flow_needed / output_of_one)


@formula("V = Q · t", ARITHMETIC, flow="Q", storage_time="t")
def hypochlorite_storage(flow: DailyVolume, storage_time: Days) -> SmallVolume:
    """Solution V [m³] for t [s] at Q [m³/s]."""
    return flow * storage_time


@formula("n = ⌈Q / q⌉", ARITHMETIC, flow="Q", flow_of_one="q")
def reactors_needed(flow: Flow, flow_of_one: Flow) -> Count:
    """Whole number n of reactors of q [m³/s] that treat Q [m³/s]."""
    return whole_number(flow / flow_of_one)


@formula("n = ⌈V / v⌉", ARITHMETIC, storage="V", volume_of_one="v")
def tanks_needed(storage: SmallVolume, volume_of_one: SmallVolume) -> Count:
    """Whole number n of tanks of v [m³] that hold V [m³]."""
    return whole_number(storage / volume_of_one)


@formula("T = x · Tc", SECONDARY_DILUTION, closed_share="x", closed_time="Tc")
def secondary_time_by_closing(closed_share: Share, closed_time: Hours) -> Hours:
    """Time T [s] for secondary treatment: a share x of the uninterrupted closed time Tc [s] of each day."""
    return closed_share * closed_time


@formula(
    "Q = V · max(0, 14.8 − ln(V)) / (60 · T)",
    SECONDARY_DILUTION,
    written_in=UnitSystem.US,
    volume="V",
    time="T",
    valid={"volume": (0.5, LARGEST_DILUTION)},
)
def secondary_dilution_flow(volume: Volume, time: Hours) -> Flow:
    """Least flow Q [m³/s] through secondary treatment of V [m³] in T [s]; the equation is in gpm, gal and h.

    In more than exp(14.8) gal the oocysts that the formula starts from are diluted far enough before treatment.
    """
    gallons = volume / GALLON
    return gallons * max(0.0, 14.8 - math.log(gallons)) / (60 * time / HOUR) * GALLON / MINUTE

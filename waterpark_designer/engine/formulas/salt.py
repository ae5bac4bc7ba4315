"""Salt: start-up mass, exchange of over-salted water, and what a season takes."""

from waterpark_designer.engine.whole_number import whole_number
from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import ARITHMETIC, SALT_BALANCE, SALT_OF_BRINE_FED
from waterpark_designer.units import (
    DAY,
    Bags,
    Bathers,
    Count,
    DailyVolume,
    Days,
    Mass,
    MassRate,
    Ratio,
    Salinity,
    Share,
    SmallVolume,
    Volume,
)


@formula("m = V · S", SALT_BALANCE, volume="V", salinity="S")
def salt_in_water(volume: Volume, salinity: Salinity) -> Mass:
    """Salt m [kg] in a volume V [m³] at S [kg/m³]."""
    return volume * salinity


@formula("S = m / V", SALT_BALANCE, salt="m", volume="V")
def mixed_salinity(salt: Mass, volume: Volume) -> Salinity:
    """Salinity S [kg/m³] of salt m [kg] mixed into V [m³]."""
    return salt / volume


@formula("m = V · (St − S0) / p", SALT_BALANCE, volume="V", target="St", measured="S0", purity="p")
def start_up_salt(volume: Volume, target: Salinity, measured: Salinity, purity: Share) -> Mass:
    """Salt m [kg] of purity p that brings V [m³] from S0 to St [kg/m³]; St not below S0."""
    return volume * (target - measured) / purity


@formula("V = V0 · (S0 − St) / (S0 − Sm)", SALT_BALANCE, volume="V0", measured="S0", target="St", make_up="Sm")
def exchange_volume(volume: Volume, measured: Salinity, target: Salinity, make_up: Salinity) -> Volume:
    """Water V [m³] to drain, then refill, to take V0 [m³] from S0 to St with make-up of Sm [kg/m³], Sm below St."""
    return volume * (measured - target) / (measured - make_up)


@formula("n = ⌈m / b⌉", ARITHMETIC, mass="m", bag_mass="b")
def whole_bags(mass: Mass, bag_mass: Mass) -> Bags:
    """Whole bags n of b [kg] for m [kg]."""
    return whole_number(mass / bag_mass)


@formula("n = ⌈N / k⌉", ARITHMETIC, bags="N", bags_per_pallet="k")
def whole_pallets(bags: Bags, bags_per_pallet: Count) -> Count:
    """Whole pallets n of k bags for N bags."""
    return whole_number(bags / bags_per_pallet)


@formula("Q = N · v / t", ARITHMETIC, bathers="N", volume_per_bather="v", day="t")
def water_by_bathers(bathers: Bathers, volume_per_bather: SmallVolume, day: Days = DAY) -> DailyVolume:
    """Water Q [m³/s], that N bathers of the day take or need at v [m³] each, spread over the day t [s]."""
    return bathers * volume_per_bather / day


@formula("L = Q · (S − Sm)", SALT_BALANCE, lost_water="Q", salinity="S", make_up="Sm")
def salt_lost(lost_water: DailyVolume, salinity: Salinity, make_up: Salinity) -> MassRate:
    """Salt L [kg/s] that leaves with Q [m³/s] of water at S, less what make-up of Sm [kg/m³] brings back."""
    return lost_water * (salinity - make_up)


@formula("G = k · D", SALT_BALANCE, salt_per_chlorine="k", chlorine="D")
def salt_from_chlorine(salt_per_chlorine: Ratio, chlorine: MassRate) -> MassRate:
    """Salt G [kg/s] left in the water by chlorine D [kg/s] that brings k [kg/kg]."""
    return salt_per_chlorine * chlorine


@formula("D = u · D0", ARITHMETIC, average_use="u", design_day="D0")
def on_average_day(average_use: Share, design_day: MassRate) -> MassRate:
    """Chlorine D [kg/s] that bathers use on an average day: a share u of the design day's D0 [kg/s]."""
    return average_use * design_day


@formula("N = u · N0", ARITHMETIC, average_use="u", design_day="N0")
def bathers_on_average_day(average_use: Share, design_day: Bathers) -> Bathers:
    """Bathers N on an average day of the season: a share u of the design day's N0."""
    return average_use * design_day


@formula("m = max(0, L − G) · t / p", SALT_BALANCE, lost="L", gained="G", season="t", purity="p")
def make_up_salt(lost: MassRate, gained: MassRate, season: Days, purity: Share) -> Mass:
    """Salt m [kg] of purity p to add over a season t [s] against a loss L and a gain G [kg/s]."""
    return max(0.0, lost - gained) * season / purity


@formula("m = k · D · t / p", SALT_OF_BRINE_FED, salt_per_chlorine="k", chlorine="D", season="t", purity="p")
def generator_salt(salt_per_chlorine: Ratio, chlorine: MassRate, season: Days, purity: Share) -> Mass:
    """Salt m [kg] of purity p that brine-fed generators take over a season t [s] for chlorine D [kg/s], k [kg/kg]."""
    return salt_per_chlorine * chlorine * season / purity


@formula("S = Sm + G / Q", SALT_BALANCE, make_up="Sm", gained="G", lost_water="Q")
def lasting_salinity(make_up: Salinity, gained: MassRate, lost_water: DailyVolume) -> Salinity:
    """Salinity S [kg/m³] at which a gain G [kg/s] and the loss with Q [m³/s] balance, make-up at Sm [kg/m³]."""
    return make_up + gained / lost_water

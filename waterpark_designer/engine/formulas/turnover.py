"""Occupancy, turnover time and recirculation flow."""

import math

from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import (
    ARITHMETIC,
    DEFINITION_OF_TURNOVER,
    DILUTION_LAW,
    FLOW_BY_LOAD,
    TANK_RESERVE,
    TURNOVER_SUM,
    TURNOVER_WEIGHTED,
    Provenance,
    Source,
)
from waterpark_designer.units import (
    DAY,
    HOUR,
    Area,
    BatherLoad,
    Bathers,
    Count,
    FilterRate,
    Flow,
    Hours,
    Length,
    Minutes,
    Ratio,
    Share,
    TimePerDepth,
    Volume,
    VolumePerArea,
    VolumeTime,
)

OCCUPANCY = Source("Theoretical peak occupancy: area over the area given to each bather", Provenance.DEFINITION)


@formula("N = A / a", OCCUPANCY, area="A", area_per_bather="a")
def peak_occupancy(area: Area, area_per_bather: Area) -> Bathers:
    """Bathers N at one time on a surface A [m²] with a [m²] each."""
    return area / area_per_bather


@formula("N = n · N0", ARITHMETIC, visits_per_place="n", peak="N0")
def bathers_on_design_day(visits_per_place: Ratio, peak: Bathers) -> Bathers:
    """Visits N on the design day, n for each place of peak occupancy N0."""
    return visits_per_place * peak


@formula("T = k · d", DEFINITION_OF_TURNOVER, time_per_depth="k", depth="d")
def turnover_by_depth(time_per_depth: TimePerDepth, depth: Length) -> Hours:
    """Turnover time T [s] that grows with mean depth d [m] at k [s/m]."""
    return time_per_depth * depth


@formula("Q = V / T", DEFINITION_OF_TURNOVER, volume="V", turnover_time="T")
def turnover_flow(volume: Volume, turnover_time: Hours) -> Flow:
    """Flow Q [m³/s] that passes a volume V [m³] in a time T [s]."""
    return volume / turnover_time


@formula("T = V / Q", DEFINITION_OF_TURNOVER, volume="V", flow="Q")
def turnover_time(volume: Volume, flow: Flow) -> Hours:
    """Time T [s] in which a flow Q [m³/s] passes a volume V [m³]."""
    return volume / flow


@formula("T = V / Q", TURNOVER_SUM, volume="V", zone_flows="Q")
def turnover_of_zone_flows(volume: Volume, zone_flows: Flow) -> Hours:
    """Time T [s] of a body of volume V [m³] whose zones each get their own flow, Q [m³/s] together."""
    return volume / zone_flows


@formula("VT = V · T", TURNOVER_WEIGHTED, volume="V", turnover_time="T")
def volume_time(volume: Volume, turnover_time: Hours) -> VolumeTime:
    """Product VT [m³·s] of a volume V [m³] and its turnover time T [s], a step of the volume-weighted mean."""
    return volume * turnover_time


@formula("T = VT / V", TURNOVER_WEIGHTED, volume_times="VT", volume="V")
def volume_weighted_turnover(volume_times: VolumeTime, volume: Volume) -> Hours:
    """Turnover time T [s] as the mean of the zones' times weighted by volume; VT [m³·s], V [m³]."""
    return volume_times / volume


@formula("Q = A / (f · b · t)", FLOW_BY_LOAD, area="A", load_area="f", load_per_water="b", hour="t")
def flow_by_load(area: Area, load_area: Area, load_per_water: BatherLoad, hour: Hours = HOUR) -> Flow:
    """Treated flow Q [m³/s] for a surface A [m²]: f [m²] for each bather in a time t [s], b [1/m³] bathers."""
    return area / (load_area * load_per_water * hour)


@formula("Q = A · u", FLOW_BY_LOAD, area="A", flow_per_surface="u")
def flow_by_surface(area: Area, flow_per_surface: FilterRate) -> Flow:
    """Treated flow Q [m³/s] for a surface A [m²] at u [m/s]."""
    return area * flow_per_surface


@formula("Q = n · q", ARITHMETIC, count="n", flow_each="q")
def flow_of_several(count: Count, flow_each: Flow) -> Flow:
    """Flow Q [m³/s] of n like devices at q [m³/s] each."""
    return count * flow_each


@formula("Q = Q1 + Q2", ARITHMETIC, basin_flow="Q1", surcharge="Q2")
def flow_with_surcharge(basin_flow: Flow, surcharge: Flow) -> Flow:
    """Flow Q [m³/s] of a basin Q1 and what its features add Q2 [m³/s]."""
    return basin_flow + surcharge


@formula("Q = Q0 · (1 + m)", ARITHMETIC, least_flow="Q0", margin="m")
def flow_with_margin(least_flow: Flow, margin: Share) -> Flow:
    """Design flow Q [m³/s]: the least flow Q0 [m³/s] and a margin m."""
    return least_flow * (1 + margin)


@formula("Q = Qs · Q1 / Q0", ARITHMETIC, system_flow="Qs", own_least_flow="Q1", system_least_flow="Q0")
def share_of_flow(system_flow: Flow, own_least_flow: Flow, system_least_flow: Flow) -> Flow:
    """Part Q [m³/s] of the system's flow Qs that one body gets, in proportion to its least flow Q1 in Q0 [m³/s]."""
    return system_flow * own_least_flow / system_least_flow


@formula("n = D / T", DEFINITION_OF_TURNOVER, turnover_time="T", day="D")
def turnovers_a_day(turnover_time: Hours, day: Hours = DAY) -> Ratio:
    """Turnovers n in a day D [s] at a turnover time T [s]."""
    return day / turnover_time


@formula("X = 1 − exp(−n)", DILUTION_LAW, turnovers="n")
def treated_share(turnovers: Ratio) -> Share:
    """Share X of mixed water that has passed the filters at least once after n turnovers."""
    return 1 - math.exp(-turnovers)


@formula(
    "V = t · Qf / (1 − t·(1 + m) / T)", TANK_RESERVE, reserve_time="t", feature_flow="Qf", turnover_time="T", margin="m"
)
def tank_volume_by_reserve(reserve_time: Minutes, feature_flow: Flow, turnover_time: Hours, margin: Share) -> Volume:
    """Tank volume V [m³] that holds t [s] of the feature flow Qf [m³/s] and of the filter flow (1 + m)·V/T, T [s].

    Only where t·(1 + m) is shorter than T; the engine does not call it otherwise.
    """
    return reserve_time * feature_flow / (1 - reserve_time * (1 + margin) / turnover_time)


@formula("V = t · (Qf + Q)", TANK_RESERVE, reserve_time="t", feature_flow="Qf", filter_flow="Q")
def tank_volume_by_flows(reserve_time: Minutes, feature_flow: Flow, filter_flow: Flow) -> Volume:
    """Tank volume V [m³] that holds t [s] of the feature flow Qf and of the filter flow Q [m³/s]."""
    return reserve_time * (feature_flow + filter_flow)


@formula("V = t · Qf", TANK_RESERVE, reserve_time="t", feature_flow="Qf")
def tank_volume_by_features(reserve_time: Minutes, feature_flow: Flow) -> Volume:
    """Volume V [m³] of t [s] of the feature flow Qf [m³/s] alone, which a large tank may go by."""
    return reserve_time * feature_flow


@formula("V = A · v", TANK_RESERVE, area="A", volume_per_area="v")
def tank_volume_by_area(area: Area, volume_per_area: VolumePerArea) -> Volume:
    """Tank volume V [m³] by the splash area A [m²] that drains to it, v [m] each."""
    return area * volume_per_area


@formula("Q = max(0, x · Q0 + (Q1 − Q0))", ARITHMETIC, allowed_share="x", least_flow="Q0", design_flow="Q1")
def feature_flow_allowed(allowed_share: Share, least_flow: Flow, design_flow: Flow) -> Flow:
    """Recirculation flow Q [m³/s] for features, at most: a share x of the least Q0, all above it, up to Q1 [m³/s]."""
    return max(0.0, allowed_share * least_flow + (design_flow - least_flow))


@formula("Q = Qf − Qr", ARITHMETIC, feature_flow="Qf", recycled="Qr")
def filtered_feature_flow(feature_flow: Flow, recycled: Flow) -> Flow:
    """Feature flow Q [m³/s] of filtered water: all of it Qf less what is recycled Qr [m³/s]."""
    return feature_flow - recycled


@formula("r = Q1 / Q2", ARITHMETIC, feature_flow="Q1", filtered_flow="Q2")
def feature_ratio(feature_flow: Flow, filtered_flow: Flow) -> Ratio:
    """Ratio r of unfiltered feature flow Q1 to filtered flow Q2 [m³/s]."""
    return feature_flow / filtered_flow

"""Water that features keep out of their basin or tank while they run."""

from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import ARITHMETIC, CONTINUITY, GEOMETRY
from waterpark_designer.units import Area, Count, Flow, Seconds, Share, SmallLength, SmallVolume, Volume


@formula("V = Q · t", CONTINUITY, feature_flow="Q", transit_time="t")
def water_on_its_way(feature_flow: Flow, transit_time: Seconds) -> SmallVolume:
    """Water V [m³] on its way back where a flow Q [m³/s] takes t [s] to return."""
    return feature_flow * transit_time


@formula("V = n · v", ARITHMETIC, count="n", bucket_volume="v")
def water_of_buckets(count: Count, bucket_volume: SmallVolume) -> SmallVolume:
    """Water V [m³] of n buckets of v [m³] each, all full at once."""
    return count * bucket_volume


@formula("V = n · A · h", GEOMETRY, count="n", basin_area="A", head="h")
def water_behind_crests(count: Count, basin_area: Area, head: SmallLength) -> SmallVolume:
    """Water V [m³] by which n basins of surface A [m²] each rise when h [m] runs over their crests."""
    return count * basin_area * head


@formula("r = V / Vt", ARITHMETIC, in_transit="V", tank_volume="Vt")
def share_of_tank(in_transit: SmallVolume, tank_volume: Volume) -> Share:
    """Part r of a tank of Vt [m³] that V [m³] of feature water in transit takes."""
    return in_transit / tank_volume

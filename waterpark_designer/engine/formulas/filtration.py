"""Filters: area, number, rate and backwash."""

from waterpark_designer.engine.whole_number import whole_number
from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import ARITHMETIC, PRECOAT_DOSE, Provenance, Source
from waterpark_designer.units import (
    FOOT,
    POUND,
    Area,
    Count,
    DailyVolume,
    Days,
    FilterRate,
    Flow,
    Mass,
    MassPerArea,
    Minutes,
    Volume,
)

FILTER_RATE_DEFINITION = Source("Definition of filter rate: flow over filter area", Provenance.DEFINITION)
PRECOAT_DOSE_PER_AREA = 0.15 * POUND / FOOT**2


@formula("A = Q / q", FILTER_RATE_DEFINITION, flow="Q", filter_rate="q")
def filter_area_needed(flow: Flow, filter_rate: FilterRate) -> Area:
    """Filter area A [m²] for a flow Q [m³/s] at a rate q [m/s]."""
    return flow / filter_rate


@formula("n = ⌈A / a⌉", ARITHMETIC, area_needed="A", area_of_one="a")
def filters_needed(area_needed: Area, area_of_one: Area) -> Count:
    """Whole number n of filters of area a [m²] that give A [m²]."""
    return whole_number(area_needed / area_of_one)


@formula("A = n · a", ARITHMETIC, count="n", area_of_one="a")
def filter_area(count: Count, area_of_one: Area) -> Area:
    """Area A [m²] of n filters of a [m²] each."""
    return count * area_of_one


@formula("q = Q / A", FILTER_RATE_DEFINITION, flow="Q", area="A")
def filter_rate(flow: Flow, area: Area) -> FilterRate:
    """Rate q [m/s] of a flow Q [m³/s] through an area A [m²]."""
    return flow / area


@formula("q = Q / ((n − 1) · a)", FILTER_RATE_DEFINITION, flow="Q", count="n", area_of_one="a")
def filter_rate_one_out(flow: Flow, count: Count, area_of_one: Area) -> FilterRate:
    """Rate q [m/s] of a flow Q [m³/s] while one of n filters of a [m²] each is out; n of two or more."""
    return flow / ((count - 1) * area_of_one)


@formula("Q = q · a", FILTER_RATE_DEFINITION, backwash_rate="q", area_of_one="a")
def backwash_flow(backwash_rate: FilterRate, area_of_one: Area) -> Flow:
    """Backwash flow Q [m³/s] of one filter of a [m²] at q [m/s]."""
    return backwash_rate * area_of_one


@formula("V = Q · t", ARITHMETIC, backwash_flow="Q", duration="t")
def backwash_volume(backwash_flow: Flow, duration: Minutes) -> Volume:
    """Water V [m³] of one backwash at Q [m³/s] for t [s]."""
    return backwash_flow * duration


@formula("Q = n · V / t", ARITHMETIC, count="n", backwash_volume="V", interval="t")
def backwash_water_a_day(count: Count, backwash_volume: Volume, interval: Days) -> DailyVolume:
    """Backwash water Q [m³/s] of n filters, V [m³] each time, every t [s]."""
    return count * backwash_volume / interval


@formula("V = Q · D", ARITHMETIC, daily_water="Q", season="D")
def water_of_a_season(daily_water: DailyVolume, season: Days) -> Volume:
    """Water V [m³] of a season D [s] at Q [m³/s]."""
    return daily_water * season


@formula("m = w · A", PRECOAT_DOSE, filter_area="A", dose="w")
def precoat_charge(filter_area: Area, dose: MassPerArea = PRECOAT_DOSE_PER_AREA) -> Mass:
    """Precoat medium m [kg] for one coat of A [m²] at w [kg/m²]."""
    return dose * filter_area

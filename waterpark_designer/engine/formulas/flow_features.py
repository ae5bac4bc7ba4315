"""What features take: nozzles, orifices, weirs and waterfalls, slides, tipping buckets, bubblers."""

import math

from waterpark_designer.engine.worked import formula
from waterpark_designer.sources import ARITHMETIC, BROAD_CREST, FRANCIS, TORRICELLI, Provenance, Source
from waterpark_designer.units import (
    FOOT,
    STANDARD_GRAVITY,
    Acceleration,
    Coefficient,
    Count,
    Density,
    Flow,
    FlowPerLength,
    Length,
    Pressure,
    Seconds,
    SmallLength,
    SmallVolume,
    SprayCoefficient,
)

FRANCIS_COEFFICIENT = 3.33 * (FOOT / (2.0 * STANDARD_GRAVITY)) ** 0.5
"""3.33 ft^0.5/s with √(2g) taken out of it, so that it holds in any units: 0.415."""
LEAST_WEIR_HEAD = 0.03
"""Below about 30 mm [m] surface tension counts, which weir formulas leave out."""
LEAST_WEIR_FLOW = FRANCIS_COEFFICIENT * (2.0 * STANDARD_GRAVITY) ** 0.5 * LEAST_WEIR_HEAD**1.5
"""What runs over each metre of a sharp crest under that head [m²/s]; gutters run with far less."""
SHARP_NOZZLE = 0.95
BUBBLER = Source("A vertical jet rises to its velocity head, less what the air takes", Provenance.COMMON_PRACTICE)


@formula("K = C · π / 4 · d² · (2 / ρ)^0.5", TORRICELLI, bore="d", density="ρ", discharge_coefficient="C")
def spray_coefficient(
    bore: SmallLength, density: Density, discharge_coefficient: Coefficient = SHARP_NOZZLE
) -> SprayCoefficient:
    """Spray coefficient K [m³/(s·Pa^0.5)] of a round nozzle of bore d [m], for water of density ρ [kg/m³].

    C discharge coefficient: about 0.6 for a plain hole, 0.95 for a shaped nozzle.
    """
    return discharge_coefficient * math.pi / 4 * bore**2 * (2 / density) ** 0.5


@formula("Q = K · p^0.5", TORRICELLI, spray_coefficient="K", pressure="p")
def nozzle_flow(spray_coefficient: SprayCoefficient, pressure: Pressure) -> Flow:
    """Flow Q [m³/s] of a nozzle of spray coefficient K [m³/(s·Pa^0.5)] at a pressure p [Pa]."""
    return spray_coefficient * pressure**0.5


@formula("Q = C · π / 4 · d² · (2 · g · h)^0.5", TORRICELLI, bore="d", head="h", discharge_coefficient="C", gravity="g")
def orifice_flow(
    bore: SmallLength,
    head: Length,
    discharge_coefficient: Coefficient = SHARP_NOZZLE,
    gravity: Acceleration = STANDARD_GRAVITY,
) -> Flow:
    """Flow Q [m³/s] of a round opening of bore d [m] under a head h [m]; C discharge coefficient, g gravity [m/s²]."""
    return discharge_coefficient * math.pi / 4 * bore**2 * (2 * gravity * head) ** 0.5


@formula(
    "Q = C · (L − 0.1 · n · h) · (2 · g)^0.5 · h^1.5",
    FRANCIS,
    valid={"head": (LEAST_WEIR_HEAD, math.inf)},
    length="L",
    head="h",
    end_contractions="n",
    coefficient="C",
    gravity="g",
)
def weir_flow(
    length: Length,
    head: SmallLength,
    end_contractions: Count = 0,
    coefficient: Coefficient = FRANCIS_COEFFICIENT,
    gravity: Acceleration = STANDARD_GRAVITY,
) -> Flow:
    """Flow Q [m³/s] over a sharp crest of length L [m] under a head h [m], n ends contracted (none for a waterfall).

    C weir coefficient, g gravity [m/s²]. Indicative below about 30 mm of head, where surface tension counts.
    """
    return coefficient * (length - 0.1 * end_contractions * head) * (2 * gravity) ** 0.5 * head**1.5


@formula(
    "h = (w / (C · (2 · g)^0.5))^(2/3)",
    FRANCIS,
    valid={"flow_per_length": (LEAST_WEIR_FLOW, math.inf)},
    flow_per_length="w",
    coefficient="C",
    gravity="g",
)
def weir_head(
    flow_per_length: FlowPerLength,
    coefficient: Coefficient = FRANCIS_COEFFICIENT,
    gravity: Acceleration = STANDARD_GRAVITY,
) -> SmallLength:
    """Head h [m] over a sharp crest, such as a gutter's lip or a waterfall's, that w [m²/s] runs over.

    C weir coefficient, g gravity [m/s²]. Indicative below about 30 mm: at the few mm of a gutter's lip Rehbock's
    formula gives a head about a sixth less, so that this one errs towards more water above the rim.
    """
    return (flow_per_length / (coefficient * (2 * gravity) ** 0.5)) ** (2 / 3)


@formula("w = Q / L", ARITHMETIC, flow="Q", length="L")
def flow_per_length(flow: Flow, length: Length) -> FlowPerLength:
    """Flow w [m²/s] on each metre of a crest L [m] that Q [m³/s] runs over."""
    return flow / length


@formula(
    "Q = C · (2 / 3)^1.5 · g^0.5 · L · h^1.5",
    BROAD_CREST,
    valid={"head": (LEAST_WEIR_HEAD, math.inf)},
    length="L",
    head="h",
    discharge_coefficient="C",
    gravity="g",
)
def broad_crest_flow(
    length: Length,
    head: SmallLength,
    discharge_coefficient: Coefficient = 1.0,
    gravity: Acceleration = STANDARD_GRAVITY,
) -> Flow:
    """Flow Q [m³/s] over a broad crest of length L [m] under a head h [m].

    C discharge coefficient, g gravity [m/s²]. For a level crest a few heads broad along the flow, so that the water
    runs over it at critical depth.
    """
    return discharge_coefficient * (2 / 3) ** 1.5 * gravity**0.5 * length * head**1.5


@formula("Q = V / t", ARITHMETIC, bucket_volume="V", time_between_tips="t")
def bucket_fill_flow(bucket_volume: SmallVolume, time_between_tips: Seconds) -> Flow:
    """Flow Q [m³/s] that fills a bucket of V [m³] in t [s], the time from one tip to the next."""
    return bucket_volume / time_between_tips


@formula("t = V / Q", ARITHMETIC, bucket_volume="V", fill_flow="Q")
def bucket_cycle(bucket_volume: SmallVolume, fill_flow: Flow) -> Seconds:
    """Time t [s] from one tip to the next of a bucket that holds V [m³] and fills at Q [m³/s]."""
    return bucket_volume / fill_flow


@formula("Q = π / 4 · d² · (2 · g · h)^0.5", BUBBLER, bore="d", jet_height="h", gravity="g")
def bubbler_flow(bore: SmallLength, jet_height: Length, gravity: Acceleration = STANDARD_GRAVITY) -> Flow:
    """Flow Q [m³/s] of a bubbler of bore d [m] whose water rises h [m]; g gravity [m/s²]. Low jets only."""
    return math.pi / 4 * bore**2 * (2 * gravity * jet_height) ** 0.5

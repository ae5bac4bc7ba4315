"""New parts of a site: what an attraction, a feature or a system looks like before its designer says more.

All sizes, temperatures and flows here are starting points of common practice, to be replaced by the project's
own; the note of each new part says so. They are round in the units of the site, so that a new part reads as
if somebody had typed it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.edits import free_name, insert, name_beside
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import EquipmentLosses, PumpPlan
from waterpark_designer.model.kinds import AttractionKind, FeatureKind, FeaturePump, FeatureWater, SupplyVoltage
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_runs import starting_feature_runs, starting_runs
from waterpark_designer.model.systems import FilterPlan, RecirculationSystem
from waterpark_designer.model.zones import BeachEntry, Channel, DepthStation, Ellipse, Rectangle, SprayDeck, Zone
from waterpark_designer.units import FLOW, FOOT, LENGTH, SMALL_LENGTH, TEMPERATURE, Measure, UnitSystem

STARTING_NOTE = "Starting sizes of common practice; replace them with your own."
DEFAULT_TEMPERATURE = (84.0, 29.0)


def new_site(units: UnitSystem = UnitSystem.US) -> Site:
    """An empty project."""
    return Site(name="New site", units=units)


def new_system(site: Site) -> RecirculationSystem:
    """A recirculation system without attractions, numbered after those there are."""
    name = free_name(site, f"System {len(site.systems) + 1}")
    units = site.units
    return RecirculationSystem(
        name=name,
        filters=FilterPlan(bed_depth=_pick((24, 600), units, SMALL_LENGTH)),
        pump=_pump(units),
        equipment=EquipmentLosses(
            strainer=_pick((2, 0.6), units, LENGTH),
            valves=_pick((2, 0.6), units, LENGTH),
            inlets=_pick((5, 1.5), units, LENGTH),
        ),
        pipe_runs=starting_runs(units),
    )


def new_attraction(kind: AttractionKind, units: UnitSystem) -> Attraction:
    """An attraction of a kind with its usual form, temperature and features."""
    return Attraction(
        name=NAMES.get(kind, kind.label),
        kind=kind,
        notes=STARTING_NOTE,
        zones=_zones(kind, units),
        water_temperature=_pick(TEMPERATURES.get(kind, DEFAULT_TEMPERATURE), units, TEMPERATURE),
        for_small_children=kind is AttractionKind.WADING_POOL,
        features=tuple(new_feature(feature, units) for feature in FEATURES_OF.get(kind, ())),
    )


def new_feature(kind: FeatureKind, units: UnitSystem) -> Feature:
    """A feature of a kind with a usual count, flow and head, on a pump of its own."""
    count, flow, water = FEATURES[kind]
    lift, head = _si(units, *HEADS.get(kind, ((0, 0), (0, 0))))
    return Feature(
        name=kind.label if kind is not FeatureKind.OTHER else "Feature",
        kind=kind,
        count=count,
        flow_each=_pick(flow, units, FLOW),
        water=water,
        pump=FeaturePump.OWN,
        device_head=head,
        large_area=kind is FeatureKind.WATERFALL,
        notes=STARTING_NOTE,
        pump_plan=_pump(units).revised(static_head=lift),
        pipe_runs=starting_feature_runs(units),
    )


def new_zone(units: UnitSystem) -> Zone:
    """A further zone of a body of water."""
    return Zone(name="Zone", shape=rectangle(_si(units, (20, 6), (15, 5), (3.0, 0.9), (3.0, 0.9))))


def add_attraction(site: Site, kind: AttractionKind, system: str | None = None) -> tuple[Site, str]:
    """Add an attraction on a system, or on one of its own; returns the site and the attraction's id.

    Raises EditRefused where that system is no longer there.
    """
    attraction = new_attraction(kind, site.units)
    attraction = attraction.revised(name=free_site_name(site, attraction.name))
    if system is not None:
        return insert(site, system, attraction), attraction.id
    return insert(site, site.id, new_system(site).revised(attractions=(attraction,))), attraction.id


def add_part(site: Site, holder: Node, part: Node) -> Site:
    """Put a new part last under its holder, under a name that no sibling bears. Raises EditRefused."""
    return insert(site, holder.id, part.revised(name=free_name(holder, part.name)))


def free_site_name(site: Site, wanted: str) -> str:
    """The wanted name of an attraction, numbered where another attraction on the site bears it already."""
    return name_beside({body.name for system in site.systems for body in system.attractions}, wanted)


def rectangle(sizes: tuple[float, ...]) -> Rectangle:
    """Length, width, depth at the start and at the end [m]; level where both depths are the same."""
    length, width, shallow, deep = sizes
    ends = ((0.0, shallow),) if shallow == deep else ((0.0, shallow), (length, deep))
    stations = tuple(DepthStation(distance=at, depth=depth) for at, depth in ends)
    return Rectangle(length=length, width=width, stations=stations)


def _beach(sizes: tuple[float, ...]) -> BeachEntry:
    length, width, edge, end = sizes
    return BeachEntry(length=length, width=width, edge_depth=edge, end_depth=end)


def _circle(sizes: tuple[float, ...]) -> Ellipse:
    diameter, depth = sizes
    return Ellipse(length=diameter, width=diameter, shallow_depth=depth, deep_depth=depth)


def _closed_channel(sizes: tuple[float, ...]) -> Channel:
    length, width, depth = sizes
    return Channel(length=length, width=width, depth=depth, closed=True)


def _open_channel(sizes: tuple[float, ...]) -> Channel:
    return _closed_channel(sizes).revised(closed=False)


def _deck(sizes: tuple[float, ...]) -> SprayDeck:
    """Two sides of the deck [m]."""
    length, width = sizes
    return SprayDeck(area=length * width, perimeter=2 * (length + width))


@dataclass(frozen=True)
class _Start:
    """One zone as it starts: (feet, metres) of each size that its form asks for."""

    name: str
    form: Callable[[tuple[float, ...]], Any]
    sizes: tuple[tuple[float, float], ...]


# Common practice, rounded: no code asks for these sizes.
STARTS: dict[AttractionKind, tuple[_Start, ...]] = {
    AttractionKind.LAP_POOL: (_Start("Basin", rectangle, ((75, 25), (45, 15), (3.5, 1.1), (6, 1.8))),),
    AttractionKind.LEISURE_POOL: (_Start("Basin", rectangle, ((60, 18), (40, 12), (3, 0.9), (4.5, 1.35))),),
    AttractionKind.ACTIVITY_POOL: (_Start("Basin", rectangle, ((50, 15), (40, 12), (2, 0.6), (3.5, 1.1))),),
    AttractionKind.WADING_POOL: (_Start("Beach", _beach, ((25, 8), (20, 6), (0, 0), (1.5, 0.45))),),
    AttractionKind.LAZY_RIVER: (_Start("Channel", _closed_channel, ((500, 150), (10, 3), (3, 0.9))),),
    AttractionKind.WAVE_POOL: (
        _Start("Beach", _beach, ((70, 21), (60, 18), (0, 0), (3.5, 1.1))),
        _Start("Deep end", rectangle, ((40, 12), (60, 18), (3.5, 1.1), (6, 1.8))),
    ),
    AttractionKind.PLUNGE_POOL: (_Start("Basin", rectangle, ((30, 9), (25, 7.5), (3.5, 1.1), (3.5, 1.1))),),
    AttractionKind.RUNOUT_SLIDE: (_Start("Runout", _open_channel, ((50, 15), (4, 1.2), (0.5, 0.15))),),
    AttractionKind.SPLASH_PAD: (_Start("Deck", _deck, ((50, 15), (40, 12))),),
    AttractionKind.SPA: (_Start("Basin", _circle, ((10, 3), (3, 0.9))),),
    AttractionKind.THERAPY_POOL: (_Start("Basin", rectangle, ((30, 9), (20, 6), (3.5, 1.1), (4.5, 1.35))),),
    AttractionKind.DIVING_POOL: (_Start("Basin", rectangle, ((50, 15), (45, 13.5), (12.5, 3.8), (12.5, 3.8))),),
    AttractionKind.VORTEX_POOL: (_Start("Basin", _circle, ((25, 7.5), (3.5, 1.1))),),
    AttractionKind.SURF_POOL: (_Start("Basin", rectangle, ((60, 18), (30, 9), (2, 0.6), (3, 0.9))),),
    AttractionKind.COLD_PLUNGE: (_Start("Basin", rectangle, ((8, 2.4), (6, 1.8), (4, 1.2), (4, 1.2))),),
    AttractionKind.OTHER: (_Start("Basin", rectangle, ((40, 12), (20, 6), (3, 0.9), (5, 1.5))),),
}

# Common practice: (°F, °C).
TEMPERATURES: dict[AttractionKind, tuple[float, float]] = {
    AttractionKind.LAP_POOL: (80, 27),
    AttractionKind.DIVING_POOL: (82, 28),
    AttractionKind.WADING_POOL: (86, 30),
    AttractionKind.SPA: (102, 39),
    AttractionKind.THERAPY_POOL: (92, 33),
    AttractionKind.COLD_PLUNGE: (52, 11),
}
NAMES = {
    AttractionKind.PLUNGE_POOL: "Slide landing",
    AttractionKind.SPLASH_PAD: "Splash pad",
    AttractionKind.OTHER: "Body of water",
}
FEATURES_OF: dict[AttractionKind, tuple[FeatureKind, ...]] = {
    AttractionKind.SPLASH_PAD: (FeatureKind.SPRAY_GROUP,),
    AttractionKind.PLUNGE_POOL: (FeatureKind.SLIDE,),
}
# Common practice: count, (gpm, m³/h) of each, and its water.
FEATURES: dict[FeatureKind, tuple[int, tuple[float, float], FeatureWater]] = {
    FeatureKind.SPRAY_GROUP: (12, (7, 1.6), FeatureWater.RECYCLED),
    FeatureKind.SLIDE: (1, (1000, 230), FeatureWater.RECYCLED),
    FeatureKind.TIPPING_BUCKET: (1, (60, 14), FeatureWater.FILTERED),
    FeatureKind.WATERFALL: (1, (100, 23), FeatureWater.RECYCLED),
    FeatureKind.BUBBLER: (4, (15, 3.5), FeatureWater.FILTERED),
    FeatureKind.CURRENT_JETS: (2, (800, 180), FeatureWater.RECYCLED),
    FeatureKind.MASSAGE_JETS: (8, (12, 2.7), FeatureWater.RECYCLED),
    FeatureKind.WAVE_GENERATOR: (1, (0, 0), FeatureWater.RECYCLED),
    FeatureKind.OTHER: (1, (0, 0), FeatureWater.RECYCLED),
}
# Common practice: (ft, m) of lift, and of head at the device.
HEADS: dict[FeatureKind, tuple[tuple[float, float], tuple[float, float]]] = {
    FeatureKind.SPRAY_GROUP: ((3, 1), (15, 4.5)),
    FeatureKind.SLIDE: ((25, 7.5), (2, 0.6)),
    FeatureKind.TIPPING_BUCKET: ((18, 5.5), (2, 0.6)),
    FeatureKind.WATERFALL: ((6, 1.8), (1, 0.3)),
    FeatureKind.BUBBLER: ((0, 0), (3, 0.9)),
    FeatureKind.CURRENT_JETS: ((0, 0), (7, 2.1)),
    FeatureKind.MASSAGE_JETS: ((0, 0), (30, 9)),
}


def _pump(units: UnitSystem) -> PumpPlan:
    """A pump on the network that is usual where these units are."""
    return PumpPlan(
        voltage=SupplyVoltage.V460 if units is UnitSystem.US else SupplyVoltage.V400,
        water_above_pump=_pick((1.5, 0.5), units, LENGTH),
    )


def _zones(kind: AttractionKind, units: UnitSystem) -> tuple[Zone, ...]:
    return tuple(Zone(name=start.name, shape=start.form(_si(units, *start.sizes))) for start in STARTS[kind])


def _si(units: UnitSystem, *sizes: tuple[float, float]) -> tuple[float, ...]:
    """Lengths [m] from (feet, metres), whichever the site is drawn in."""
    return tuple(feet * FOOT if units is UnitSystem.US else float(metres) for feet, metres in sizes)


def _pick(shown: tuple[float, float], units: UnitSystem, measure: Measure) -> float:
    """SI value from (US customary, metric)."""
    return measure.unit(units).to_si(shown[0] if units is UnitSystem.US else shown[1])

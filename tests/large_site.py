"""Sites of any size for benchmarks, screens and tests: invented, regular, and never saved as a sample."""

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.kinds import AttractionKind, FeatureKind
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_runs import starting_runs
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.zones import Channel, DepthStation, Rectangle, SprayDeck, Zone

BODIES_ON_A_SYSTEM = 4
KINDS = (
    AttractionKind.LAZY_RIVER,
    AttractionKind.LAP_POOL,
    AttractionKind.SPLASH_PAD,
    AttractionKind.WAVE_POOL,
    AttractionKind.LEISURE_POOL,
)


def large_site(attractions: int, *, piped: bool = False) -> Site:
    """A site with this many bodies of water, four on a system; with pipe runs and pumps where `piped`."""
    bodies = [_body(number) for number in range(attractions)]
    groups = [bodies[start : start + BODIES_ON_A_SYSTEM] for start in range(0, attractions, BODIES_ON_A_SYSTEM)]
    systems = tuple(
        RecirculationSystem(
            id=f"system-{number}",
            name=f"System {number}",
            attractions=tuple(group),
            pipe_runs=starting_runs() if piped else (),
        )
        for number, group in enumerate(groups, 1)
    )
    return Site(
        id="large-site",
        name=f"{attractions} bodies of water",
        code_basis=("georgia-511-3-5-2024", "north-carolina-18a-2543", "cdc-mahc-2023", "common-practice"),
        systems=systems,
    )


def _body(number: int) -> Attraction:
    kind = KINDS[number % len(KINDS)]
    feature = Feature(
        id=f"feature-{number}", name=f"Sprays {number}", kind=FeatureKind.SPRAY_GROUP, count=4, flow_each=0.0005
    )
    return Attraction(
        id=f"body-{number}",
        name=f"{kind.label} {number}",
        kind=kind,
        target_salinity=3.2,
        measured_salinity=0.3,
        zones=(Zone(id=f"zone-{number}", name="Basin", shape=_shape(kind, number)),),
        features=(feature,),
    )


def _shape(kind: AttractionKind, number: int) -> Channel | Rectangle | SprayDeck:
    if kind is AttractionKind.LAZY_RIVER:
        return Channel(length=120.0 + number % 50)
    if kind is AttractionKind.SPLASH_PAD:
        return SprayDeck(area=150.0 + number % 50)
    length = 20.0 + number % 30
    stations = (DepthStation(distance=0.0, depth=1.0), DepthStation(distance=length, depth=1.8))
    return Rectangle(length=length, width=12.0, stations=stations)

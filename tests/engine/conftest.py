"""Small sites for the engine's tests, and how closely a figure printed elsewhere is to be met."""

import csv
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.library import Library
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import EquipmentLosses, PipeRun
from waterpark_designer.model.kinds import AttractionKind, FeatureKind, LineKind
from waterpark_designer.model.site import Amendment, Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.zones import PlainShape, SprayDeck, Zone
from waterpark_designer.units import FOOT, GALLON, HOUR, MINUTE

PUBLISHED = Path(__file__).parent / "published"


def printed_tolerance(figure: str) -> float:
    """Half a unit in the last printed place."""
    exponent = Decimal(figure).as_tuple().exponent
    assert isinstance(exponent, int)
    return 0.5 * 10.0**exponent


def as_printed(figure: str) -> Any:
    """What a number must equal to round to the figure printed."""
    return pytest.approx(float(figure), rel=1e-12, abs=printed_tolerance(figure) * (1 + 1e-9))


def published(name: str) -> list[dict[str, str]]:
    """The rows of a published table; lines that start with # say where it was printed."""
    with (PUBLISHED / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def zone(
    name: str = "Basin", *, gallons: float = 100_000.0, area: float = 3_000.0, depth: float = 1.5, **fields: Any
) -> Zone:
    """A zone of so many gallons under so many square feet; depth [m] is its greatest."""
    shape = PlainShape(volume=gallons * GALLON, area=area * FOOT**2, perimeter=60.0, greatest_depth=depth)
    return Zone(**{"id": name.replace(" ", "-"), "name": name, "shape": shape} | fields)


def pool(kind: str = "leisure_pool", name: str = "Pool", *, zones: tuple[Zone, ...] = (), **fields: Any) -> Attraction:
    """A body of water; `gallons`, `area` [ft²] and `depth` [m] make its only zone where none are given."""
    sizes = {key: fields.pop(key) for key in ("gallons", "area", "depth") if key in fields}
    zones = zones or (zone(f"{name} basin", **sizes),)
    return Attraction(id=name.replace(" ", "-"), name=name, kind=AttractionKind(kind), zones=zones, **fields)


def feature(name: str = "Feature", flow: float = 0.0, kind: str = "spray_group", **fields: Any) -> Feature:
    """A feature group with the flow of each of its devices [gpm]."""
    return Feature(id=name.replace(" ", "-"), name=name, kind=FeatureKind(kind), flow_each=gpm(flow), **fields)


def pad(feature_gpm: float, deck: float = 2_000.0, tank: float | None = None, **fields: Any) -> Attraction:
    """A splash pad of a deck [ft²] and sprays [gpm], with a tank [gal] or one to be sized."""
    shape = SprayDeck(area=deck * FOOT**2, tank_volume=None if tank is None else tank * GALLON)
    sprays = feature("Sprays", feature_gpm)
    deck_zone = Zone(id="Deck", name="Deck", shape=shape)
    return pool("splash_pad", "Pad", zones=(deck_zone,), features=(sprays,) if feature_gpm else (), **fields)


def system(*bodies: Attraction, name: str = "Loop", **fields: Any) -> RecirculationSystem:
    """A recirculation system without a design margin unless one is given."""
    return RecirculationSystem(**{"id": name, "name": name, "attractions": bodies, "design_margin": 0.0} | fields)


def site(*systems: RecirculationSystem | Attraction, codes: tuple[str, ...] = (), **fields: Any) -> Site:
    """A site; a bare body of water gets the system “Loop”."""
    loops = tuple(each if isinstance(each, RecirculationSystem) else system(each) for each in systems)
    return Site(id="Site", name="Site", code_basis=codes, systems=loops, **fields)


def run(name: str = "Run", feet: float = 0.0, kind: str = "return_header", **fields: Any) -> PipeRun:
    """A pipe run of a length [ft]; without one it only carries the flow."""
    usual = {"id": name.replace(" ", "-"), "name": name, "length": feet * FOOT, "kind": LineKind(kind)}
    return PipeRun(**usual | fields)


def losses(**feet: float) -> EquipmentLosses:
    """Equipment that takes these heads [ft] and no others: no filter, no dirt, no strainer."""
    nothing = dict.fromkeys(("strainer", "filter_clean", "filter_dirt", "valves", "inlets"), 0.0)
    return EquipmentLosses(**nothing | {name: head * FOOT for name, head in feet.items()})


def pumped(head: float = 60.0, *runs: PipeRun, **fields: Any) -> RecirculationSystem:
    """The system “Loop” of a pool of 120,000 gal, through whose heater the design flow loses `head` [ft].

    With a turnover of 4 h its flow is 500 gpm; its run has no length, so that nothing else takes head.
    """
    usual = {"pipe_runs": runs or (run(),), "equipment": losses(heater=head)}
    return system(pool(gallons=120_000), **usual | fields)


def limit(quantity: str, value: float, *kinds: str) -> Amendment:
    """A limit [SI] set for the test, for all kinds of water or some."""
    applies = tuple(AttractionKind(kind) for kind in kinds)
    return Amendment(quantity=quantity, value=value, applies_to=applies, reason="Set for this test")


def turnover(hours: float, *kinds: str) -> Amendment:
    return limit("longest_turnover", hours * HOUR, *kinds)


def gpm(flow: float) -> float:
    """A flow in gallons a minute [m³/s]."""
    return flow * GALLON / MINUTE


@pytest.fixture(scope="session")
def build() -> SimpleNamespace:
    """Builders of small sites: zone, pool, pad, feature, system, run, losses, pumped, site, limit, turnover."""
    builders = (zone, pool, pad, feature, system, run, losses, pumped, site, limit, turnover)
    return SimpleNamespace(**{builder.__name__: builder for builder in builders})


@pytest.fixture(scope="session")
def printed() -> Callable[[str], Any]:
    return as_printed


@pytest.fixture(scope="session")
def table() -> Callable[[str], list[dict[str, str]]]:
    return published


@pytest.fixture
def design(library: Library) -> Callable[[Site], SiteDesign]:
    """The design of a site with the shipped rule sets and nominal sizes."""
    return library.design


@pytest.fixture
def figure(design: Callable[[Site], SiteDesign]) -> Callable[[Site, str, str], Worked]:
    """One figure of a node of a site, which must be there."""

    def look_up(of: Site, node: str, key: str) -> Worked:
        value = design(of).value(node, key)
        assert isinstance(value, Worked), value
        return value

    return look_up


@pytest.fixture
def lack(design: Callable[[Site], SiteDesign]) -> Callable[[Site, str, str], Missing]:
    """One figure of a node of a site, which must be missing."""

    def look_up(of: Site, node: str, key: str) -> Missing:
        value = design(of).value(node, key)
        assert isinstance(value, Missing), value
        return value

    return look_up


@pytest.fixture
def findings(design: Callable[[Site], SiteDesign]) -> Callable[[Site, str], list[Finding]]:
    """What one check found anywhere on a site."""
    return lambda of, key: [finding for finding in design(of).findings if finding.key == key]


@pytest.fixture
def piped() -> Callable[..., Site]:
    """A site of one system whose flow follows from a turnover time [h]; 4 h give that of `pumped` 500 gpm."""

    def made(
        loop: RecirculationSystem,
        *amendments: Amendment,
        codes: tuple[str, ...] = ("common-practice",),
        hours: float = 4,
        **fields: Any,
    ) -> Site:
        return site(loop, codes=codes, amendments=(turnover(hours), *amendments), **fields)

    return made

"""A site with everything that a document must say; invented."""

import io

from waterpark_designer.documents.document import Document
from waterpark_designer.documents.pdf_writer import write_pdf
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.edits import revise
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import EquipmentLosses, PumpPlan
from waterpark_designer.model.kinds import AttractionKind, PrimaryDisinfection
from waterpark_designer.model.node import Override
from waterpark_designer.model.site import Amendment, SaltSupply, Site
from waterpark_designer.model.starting_runs import starting_feature_runs, starting_runs
from waterpark_designer.model.systems import DisinfectionPlan, RecirculationSystem
from waterpark_designer.model.zones import Channel, PlainShape, Zone
from waterpark_designer.units import GALLON, MINUTE, POUND

POOL_NAME = 'Бухта <Ёж> & "Söhne"'
OVERRIDE_REASON = "The filter room has four pads <already>"
AMENDMENT_REASON = "Health district letter of 12 March"


def make_site() -> Site:
    """A river with sprays, and a pool of 100,000 gallons to be raised from 300 to 3,200 ppm; invented."""
    amendment = Amendment(
        quantity="longest_turnover", applies_to=(AttractionKind.LAZY_RIVER,), value=5400.0, reason=AMENDMENT_REASON
    )
    return Site(
        id="site",
        name="Quillwater <draft> & Сад",
        client="Harbour & Sons",
        project_number="Q-114",
        revision="B",
        issue_date="2 June 2026",
        code_basis=("georgia-511-3-5-2024", "cdc-mahc-2023"),
        amendments=(amendment,),
        salt=SaltSupply(bag_mass=40 * POUND, bags_per_pallet=49, purity=1.0),
        systems=(_first_system(), _second_system()),
    )


def _first_system() -> RecirculationSystem:
    river = Attraction(
        id="river",
        name="Meander river",
        kind=AttractionKind.LAZY_RIVER,
        zones=(Zone(id="channel", name="Channel", shape=Channel(length=180.0, width=3.0, depth=0.9)),),
        features=(Feature(id="sprays", name="Arch sprays", count=6, flow_each=15 * GALLON / MINUTE),),
    )
    plan = DisinfectionPlan(primary=PrimaryDisinfection.HYPOCHLORITE)
    return RecirculationSystem(id="one", name="System 1", attractions=(river,), disinfection=plan)


def _second_system() -> RecirculationSystem:
    shape = PlainShape(volume=100_000 * GALLON, area=300.0, perimeter=80.0, greatest_depth=2.0)
    pool = Attraction(
        id="pool",
        name=POOL_NAME,
        kind=AttractionKind.LAP_POOL,
        measured_salinity=0.3,
        target_salinity=3.2,
        zones=(Zone(id="basin", name="Basin", shape=shape),),
    )
    override = Override(figure="filter_count", value=4.0, reason=OVERRIDE_REASON)
    return RecirculationSystem(id="two", name="System 2", attractions=(pool,), overrides=(override,))


def make_piped_site() -> Site:
    """The site with pipes: two pumps on a system, sprays on a pump of their own, a single outlet; invented."""
    losses = EquipmentLosses(filter_clean=2.5, filter_dirt=5.0, heater=1.0)
    plan = PumpPlan(count=2, suction_head_required=3.0, static_head=1.5)
    site = revise(make_site(), "one", pipe_runs=starting_runs(), equipment=losses, pump=plan)
    site = revise(site, "sprays", pipe_runs=starting_feature_runs(), device_head=7.0)
    return revise(site, "river", suction_outlets=1)


def pdf_of(document: Document) -> bytes:
    """The document as PDF."""
    stream = io.BytesIO()
    write_pdf(document, stream)
    return stream.getvalue()

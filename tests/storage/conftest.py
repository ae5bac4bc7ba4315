"""A site that uses every part of the model; names and sizes are invented."""

from pathlib import Path

import pytest

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.model.devices import DEVICES
from waterpark_designer.model.features import Feature
from waterpark_designer.model.kinds import AttractionKind, FeatureKind, FeaturePump, FeatureWater, SecondaryDisinfection
from waterpark_designer.model.node import Override
from waterpark_designer.model.site import Amendment, Price, Site
from waterpark_designer.model.systems import RecirculationSystem, SecondaryPlan
from waterpark_designer.model.zones import SHAPES, Bench, Island, Steps, Zone
from waterpark_designer.units import UnitSystem


def every_shape() -> Attraction:
    zones = tuple(Zone(id=f"zone-{key}", name=f"Zone {key}", shape=shape()) for key, shape in SHAPES.items())
    first = zones[0].revised(kind=AttractionKind.PLUNGE_POOL, deductions=(Steps(), Bench(), Island()))
    return Attraction(
        id="cove",
        name="Anse d’été <&> “深い” 🌊",
        kind=AttractionKind.ACTIVITY_POOL,
        target_salinity=3.2,
        water_temperature=301.3,
        zones=(first, *zones[1:]),
        notes="Two lines\nand a \ttab",
        features=(
            Feature(
                id="jets",
                name="Jets",
                kind=FeatureKind.CURRENT_JETS,
                count=4,
                flow_each=0.1 + 0.2,
                water=FeatureWater.FILTERED,
                pump=FeaturePump.RECIRCULATION,
            ),
            *(
                Feature(id=f"feature-{key}", name=f"Feature {key}", device=device(), transit_time=12.5)
                for key, device in DEVICES.items()
            ),
        ),
    )


def make_full_site() -> Site:
    system = RecirculationSystem(
        id="loop",
        name="Loop A",
        attractions=(every_shape(),),
        pump_head=18.0,
        secondary=SecondaryPlan(kind=SecondaryDisinfection.ULTRAVIOLET),
        overrides=(Override(figure="design_flow", value=1 / 3, reason="Pump on site already"),),
    )
    return Site(
        id="site",
        name="Alder Bend",
        units=UnitSystem.SI,
        code_basis=("rule-a", "rule-b"),
        amendments=(
            Amendment(
                quantity="longest_turnover",
                applies_to=(AttractionKind.LAZY_RIVER,),
                value=7200.0,
                reason="Letter of the invented county",
            ),
        ),
        catalogue=(
            CatalogueItem(kind=ItemKind.PUMP, name="Pump, 80 m³/h", size=80 / 3600, power=5500.0, source="Invented"),
        ),
        prices=(Price(line="filter:loop", amount=12_500.0),),
        prices_invented=True,
        systems=(system,),
    )


@pytest.fixture
def full_site() -> Site:
    return make_full_site()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "Alder Bend.waterpark"

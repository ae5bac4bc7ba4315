"""Random sites and random edits, the same in every run."""

import random
from collections.abc import Callable

import pytest

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.devices import DEVICES
from waterpark_designer.model.features import Feature
from waterpark_designer.model.kinds import AttractionKind, FeatureKind
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.zones import SHAPES, Bench, Zone


class Dice(random.Random):
    """Draws parts of sites; ids are numbered, so that a run can be repeated."""

    made = 0

    def identity(self) -> str:
        self.made += 1
        return f"n{self.made}"

    def zone(self) -> Zone:
        return Zone(
            id=self.identity(),
            name=self.choice("ABC"),
            shape=self.choice(list(SHAPES.values()))(),
            kind=self.choice([None, *AttractionKind]),
            deductions=self.choice([(), (Bench(),)]),
        )

    def feature(self) -> Feature:
        return Feature(
            id=self.identity(),
            name=self.choice("ABC"),
            kind=self.choice(list(FeatureKind)),
            flow_each=self.uniform(0, 20),
            device=list(DEVICES.values())[self.made % len(DEVICES)](),
            count=self.randint(1, 10_000),
        )

    def attraction(self) -> Attraction:
        return Attraction(
            id=self.identity(),
            name=self.choice("ABC"),
            kind=self.choice(list(AttractionKind)),
            target_salinity=self.uniform(0, 40),
            zones=tuple(self.zone() for _ in range(self.randint(1, 3))),
            features=tuple(self.feature() for _ in range(self.randint(0, 2))),
        )

    def system(self) -> RecirculationSystem:
        return RecirculationSystem(
            id=self.identity(),
            name=self.choice("ABC"),
            design_margin=self.uniform(0, 2),
            attractions=tuple(self.attraction() for _ in range(self.randint(0, 3))),
        )

    def site(self) -> Site:
        return Site(id=self.identity(), name="Site", systems=tuple(self.system() for _ in range(self.randint(0, 3))))

    def part(self) -> Node:
        return self.choice([self.zone, self.feature, self.attraction, self.system])()


@pytest.fixture
def dice_of() -> Callable[[int], Dice]:
    return Dice

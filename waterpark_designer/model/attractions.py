"""Attractions: bodies of water, made of zones, with their features."""

from typing import Any

from pydantic import Field

from waterpark_designer.model.features import Feature
from waterpark_designer.model.kinds import AttractionKind, Setting
from waterpark_designer.model.node import Many, Node
from waterpark_designer.model.openings import OpeningsPlan
from waterpark_designer.model.zones import SprayDeck, Zone
from waterpark_designer.units import Salinity, Temperature


class Attraction(Node):
    """One body of water, or one spray deck, as its users know it."""

    kind: AttractionKind = Field(AttractionKind.LEISURE_POOL, description="What the body of water is used for.")
    setting: Setting = Field(Setting.OUTDOOR, description="Indoors or outdoors; some limits differ.")
    water_temperature: Temperature = Field(300.93, ge=273.15, le=317.15, description="Design temperature of the water.")
    target_salinity: Salinity = Field(
        0.0, ge=0, le=40.0, description="Salt content to be kept. None for water without salt."
    )
    measured_salinity: Salinity = Field(0.0, ge=0, le=60.0, description="Salt content measured before start-up.")
    for_small_children: bool = Field(
        False, description="Designed for children under five: an increased risk that some codes treat more strictly."
    )
    bathers_a_day: int | None = Field(
        None,
        ge=0,
        le=1_000_000,
        description="Visits on the design day. Leave blank to take the site's visits per place.",
    )
    slide_capacity: int | None = Field(
        None,
        ge=0,
        le=100_000,
        description="Users at one time as its supplier states, for slide landings and surf pools.",
    )
    suction_outlets: int | None = Field(
        2, ge=0, le=200, description="Suction outlets (main drains) of the body. Leave blank where there is none."
    )
    openings: OpeningsPlan = Field(default_factory=OpeningsPlan, description="Overflow, inlets and suction outlets.")
    zones: Many[Zone] = Field(
        default_factory=lambda: (Zone(name="Basin"),),
        min_length=1,
        max_length=100,
        description="Parts of the body with a shape and depths of their own.",
    )
    features: Many[Feature] = Field((), max_length=500, description="Sprays, slides, jets and the like.")

    @property
    def children(self) -> tuple[Node, ...]:
        return self.zones + self.features

    def with_children(self, children: tuple[Any, ...]) -> "Attraction":
        return self.revised(
            zones=tuple(child for child in children if isinstance(child, Zone)),
            features=tuple(child for child in children if isinstance(child, Feature)),
        )

    @property
    def has_spray_deck(self) -> bool:
        return any(isinstance(zone.shape, SprayDeck) for zone in self.zones)

    @property
    def kinds(self) -> tuple[AttractionKind, ...]:
        """The kinds of water in it, each once: its own, and those of zones that differ."""
        return tuple(dict.fromkeys(self.kind_of(zone) for zone in self.zones))

    def kind_of(self, zone: Zone) -> AttractionKind:
        """The kind whose limits a zone is held to."""
        return zone.kind or self.kind

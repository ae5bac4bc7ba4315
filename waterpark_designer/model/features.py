"""Features: whatever moves water for play or comfort."""

from pydantic import Field

from waterpark_designer.model.kinds import FeatureKind, FeaturePump, FeatureWater
from waterpark_designer.model.node import Node
from waterpark_designer.units import Flow, Length


class Feature(Node):
    """A group of like devices with its flow, its water and its pump."""

    kind: FeatureKind = Field(FeatureKind.SPRAY_GROUP, description="What the feature is.")
    count: int = Field(1, ge=1, le=10_000, description="How many like devices the group has.")
    flow_each: Flow = Field(
        0.0, ge=0, le=20.0, description="Flow of one device while it runs, from its supplier.")
    water: FeatureWater = Field(
        FeatureWater.RECYCLED,
        description="Filtered water comes from the treated return; recycled water is drawn from the basin or tank "
        "and goes back unfiltered.")
    pump: FeaturePump = Field(
        FeaturePump.OWN, description="A pump of its own, or water taken from the recirculation pump.")
    user_places: int = Field(
        0, ge=0, le=10_000,
        description="Places for users at the feature, one for each metre of width; some codes add flow for each.")
    start_height: Length | None = Field(
        None, ge=0, le=60, description="Height of a slide's start above the water; some codes add flow by it.")
    large_area: bool = Field(
        False, description="Acts on a large area, such as a mushroom or a wide waterfall; some codes add flow for it.")

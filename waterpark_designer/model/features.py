"""Features: whatever moves water for play or comfort."""

from typing import Any

from pydantic import Field

from waterpark_designer.model.devices import Device, SupplierFlow
from waterpark_designer.model.hydraulics import PipeRun, PumpPlan
from waterpark_designer.model.kinds import FeatureKind, FeaturePump, FeatureWater, VelocityClass
from waterpark_designer.model.node import Many, Node
from waterpark_designer.units import Flow, Head, Length, Seconds, Velocity


class Feature(Node):
    """A group of like devices with its flow, its water and its pump."""

    kind: FeatureKind = Field(FeatureKind.SPRAY_GROUP, description="What the feature is.")
    count: int = Field(1, ge=1, le=10_000, description="How many like devices the group has.")
    device: Device = Field(default_factory=SupplierFlow, description="How the flow of one device is had.")
    flow_each: Flow = Field(0.0, ge=0, le=20.0, description="Flow of one device while it runs, from its supplier.")
    water: FeatureWater = Field(
        FeatureWater.RECYCLED,
        description="Filtered water comes from the treated return; recycled water is drawn from the basin or tank "
        "and goes back unfiltered.",
    )
    pump: FeaturePump = Field(
        FeaturePump.OWN, description="A pump of its own, or water taken from the recirculation pump."
    )
    suction_outlets: int | None = Field(
        None,
        ge=0,
        le=200,
        description="Suction outlets in the basin that the feature's own pump draws from, 0 where it draws from a "
        "tank. Where each pump has a suction line of its own, they are dealt out over these lines.",
    )
    device_head: Head = Field(
        0.0,
        ge=0,
        le=200,
        description="Head that one device needs at its flow, as pressure at its inlet, from its supplier; its height "
        "is the pump's lift.",
    )
    transit_time: Seconds | None = Field(
        None,
        gt=0,
        le=3600,
        description="Time from the device until its water is back in the basin or tank: in the air, on the slide, over "
        "the deck. Leave blank where it does not matter.",
    )
    current_speed: Velocity | None = Field(
        None,
        gt=0,
        le=5,
        description="Speed of a river's current that the jets are to hold. Leave blank for other features.",
    )
    jet_speed: Velocity | None = Field(
        None, gt=0, le=30, description="Speed at which jets enter a river; three times the current or more is usual."
    )
    standing_people: int = Field(
        0, ge=0, le=10_000, description="People who stand in a river's current and hold it back."
    )
    pump_plan: PumpPlan = Field(default_factory=PumpPlan, description="The feature's own pump.")
    pipe_runs: Many[PipeRun] = Field(
        (), max_length=100, description="Pipe runs of the feature's own loop, in flow order."
    )
    user_places: int = Field(
        0,
        ge=0,
        le=10_000,
        description="Places for users at the feature, one for each metre of width; some codes add flow for each.",
    )
    start_height: Length | None = Field(
        None, ge=0, le=60, description="Height of a slide's start above the water; some codes add flow by it."
    )
    large_area: bool = Field(
        False, description="Acts on a large area, such as a mushroom or a wide waterfall; some codes add flow for it."
    )

    @property
    def children(self) -> tuple[Node, ...]:
        return self.pipe_runs

    @property
    def suction_lines(self) -> int:
        """Suction lines that meet no other before a pump: one, unless every suction run is laid for each pump."""
        runs = (run.count for run in self.pipe_runs if run.kind.velocity_class is VelocityClass.SUCTION)
        return min(self.pump_plan.count, min(runs, default=1))

    @property
    def outlets_on_each_line(self) -> int | None:
        """Suction outlets on the suction line that has the fewest."""
        return self.suction_outlets and max(self.suction_outlets // self.suction_lines, 1)

    def with_children(self, children: tuple[Any, ...]) -> "Feature":
        return self.revised(pipe_runs=children)

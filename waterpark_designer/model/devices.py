"""Devices of a feature, by how the flow of one is had: from its supplier, or from its size and head."""

from typing import Annotated, Literal

from pydantic import Field

from waterpark_designer.model.node import Part
from waterpark_designer.units import (
    Area,
    Coefficient,
    Flow,
    Head,
    Length,
    Pressure,
    Seconds,
    SmallLength,
    SmallVolume,
    SprayCoefficient,
)


class SupplierFlow(Part):
    """A device whose flow its supplier states; the feature itself holds that flow and its head."""

    flow_by: Literal["supplier"] = "supplier"


class Nozzle(Part):
    """A round nozzle or plain hole, by its bore and the head behind it."""

    flow_by: Literal["nozzle"] = "nozzle"
    bore: SmallLength | None = Field(None, gt=0, le=1, description="Inside diameter of the nozzle's opening.")
    head: Head | None = Field(
        None, gt=0, le=200, description="Head at the nozzle while it runs, as pressure; its height is the pump's lift."
    )
    discharge_coefficient: Coefficient = Field(
        0.95, gt=0.3, le=1, description="About 0.95 for a shaped nozzle, 0.6 for a plain hole."
    )


class SprayNozzle(Part):
    """A spray nozzle by its supplier's spray coefficient K: flow is K times the root of the pressure."""

    flow_by: Literal["spray_coefficient"] = "spray_coefficient"
    spray_coefficient: SprayCoefficient | None = Field(
        None, gt=0, le=0.01, description="K of one nozzle: its flow over the root of the pressure, from its supplier."
    )
    pressure: Pressure | None = Field(
        None, gt=0, le=2e6, description="Pressure at the nozzle while it runs; its height is the pump's lift."
    )


class Weir(Part):
    """A sharp crest that water falls from freely, such as a waterfall's lip, by Francis' formula."""

    flow_by: Literal["weir"] = "weir"
    length: Length | None = Field(None, gt=0, le=500, description="Length of the crest.")
    head: SmallLength | None = Field(
        None, gt=0, le=1, description="Water level above the crest, measured upstream; its height is the pump's lift."
    )
    end_contractions: int = Field(
        0, ge=0, le=2, description="Ends at which the water draws in from a side wall; none where it fills the width."
    )
    basin_area: Area | None = Field(
        None, gt=0, le=1e5, description="Surface of the basin behind the crest, which rises while the weir runs."
    )


class BroadCrest(Part):
    """A broad, level crest, such as a stone slab, over which water runs at its critical depth."""

    flow_by: Literal["broad_crest"] = "broad_crest"
    length: Length | None = Field(None, gt=0, le=500, description="Length of the crest, across the flow.")
    head: SmallLength | None = Field(
        None, gt=0, le=1, description="Water level above the crest, measured upstream; its height is the pump's lift."
    )
    discharge_coefficient: Coefficient = Field(
        1.0, gt=0.5, le=1.1, description="1.0 for a crest without losses; rough or rounded stone gives less."
    )
    basin_area: Area | None = Field(
        None, gt=0, le=1e5, description="Surface of the basin behind the crest, which rises while the weir runs."
    )


class SlideLanes(Part):
    """A slide, by its lanes."""

    flow_by: Literal["slide"] = "slide"
    lanes: int = Field(1, ge=1, le=40, description="Lanes of one slide that take water.")
    flow_per_lane: Flow | None = Field(
        None, gt=0, le=5, description="Flow of one lane, from the slide's supplier: no published value was found."
    )


class TippingBucket(Part):
    """A bucket that fills and tips over."""

    flow_by: Literal["bucket"] = "bucket"
    bucket_volume: SmallVolume | None = Field(None, gt=0, le=50, description="Water that one bucket tips.")
    time_between_tips: Seconds | None = Field(
        None, gt=0, le=7200, description="Time in which the bucket is to fill, from one tip to the next."
    )


class Bubbler(Part):
    """An upright jet that rises to a low height."""

    flow_by: Literal["bubbler"] = "bubbler"
    bore: SmallLength | None = Field(None, gt=0, le=1, description="Inside diameter of the opening.")
    jet_height: Length | None = Field(
        None, gt=0, le=10, description="Height to which the water rises above the opening."
    )


Device = Annotated[
    SupplierFlow | Nozzle | SprayNozzle | Weir | BroadCrest | SlideLanes | TippingBucket | Bubbler,
    Field(discriminator="flow_by"),
]
DEVICES: dict[str, type[Part]] = {
    "supplier": SupplierFlow,
    "nozzle": Nozzle,
    "spray_coefficient": SprayNozzle,
    "weir": Weir,
    "broad_crest": BroadCrest,
    "slide": SlideLanes,
    "bucket": TippingBucket,
    "bubbler": Bubbler,
}
DEVICE_LABELS: dict[str, str] = {
    "supplier": "Supplier's flow",
    "nozzle": "Nozzle: bore and head",
    "spray_coefficient": "Nozzle: K and pressure",
    "weir": "Weir: sharp crest",
    "broad_crest": "Weir: broad crest",
    "slide": "Slide: lanes",
    "bucket": "Bucket: volume and time",
    "bubbler": "Bubbler: bore and height",
}
HEAD_OF_ITS_OWN = (Nozzle, SprayNozzle, Weir, BroadCrest, Bubbler)
"""Devices whose head follows from what is entered of them; the others take the feature's `device_head`."""

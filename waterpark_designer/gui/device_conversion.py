"""One way to the flow of a device as another: what both have is kept, and the flow itself where it can be."""

from typing import Any

from waterpark_designer.engine.formulas import flow_features, pipes
from waterpark_designer.engine.water_at import water_at
from waterpark_designer.gui.field_spec import specs_of
from waterpark_designer.model.devices import (
    DEVICES,
    BroadCrest,
    Bubbler,
    Nozzle,
    SlideLanes,
    SprayNozzle,
    TippingBucket,
    Weir,
)
from waterpark_designer.model.features import Feature
from waterpark_designer.model.node import Part

JETS = (Nozzle, SprayNozzle, Bubbler)
CRESTS = (Weir, BroadCrest)
KEPT_BY_CRESTS = ("length", "head", "basin_area")
USUAL_TEMPERATURE = 300.0
"""[K], where pressure is turned into head and back."""
USUAL_CYCLE = 180.0
"""Seconds from tip to tip of a bucket that is to take a flow that was entered; common practice."""


def converted(feature: Feature, wanted: str, each: float | None) -> Part:
    """The feature's device as the wanted kind, a key of DEVICES; the same one where it is that kind.

    `each` is the flow of one device [m³/s] where it is known.
    """
    device, kind = feature.device, DEVICES[wanted]
    if isinstance(device, kind):
        return device
    sizes = _kept(device, kind) if each is None else _kept(device, kind) or _of_flow(kind, each)
    specs = specs_of(kind)
    return kind(**{name: value for name, value in sizes.items() if name in specs and specs[name].bounds.holds(value)})


def _kept(device: Part, kind: type[Part]) -> dict[str, float]:
    """The sizes that the device shares with another kind."""
    if isinstance(device, CRESTS) and issubclass(kind, CRESTS):
        sizes: dict[str, Any] = {name: getattr(device, name) for name in KEPT_BY_CRESTS}
    elif isinstance(device, JETS) and issubclass(kind, JETS):
        sizes = _of_jet(device)
    else:
        sizes = {}
    return {name: float(value) for name, value in sizes.items() if value is not None}


def _of_jet(device: Part) -> dict[str, float | None]:
    """Bore, head and pressure of a nozzle or bubbler, and the spray coefficient of a nozzle of known bore."""
    density = water_at(USUAL_TEMPERATURE).density
    if isinstance(device, SprayNozzle):
        known = device.pressure
        head = known and pipes.pressure_head(known, density)
        return {"head": head, "jet_height": head}
    assert isinstance(device, Nozzle | Bubbler)
    head = device.head if isinstance(device, Nozzle) else device.jet_height
    pressure = head and pipes.head_pressure(head, density)
    coefficient = None
    if isinstance(device, Nozzle) and device.bore is not None:
        coefficient = flow_features.spray_coefficient(device.bore, density, device.discharge_coefficient)
    return {
        "bore": device.bore,
        "head": head,
        "jet_height": head,
        "pressure": pressure,
        "spray_coefficient": coefficient,
    }


def _of_flow(kind: type[Part], each: float) -> dict[str, float]:
    """The sizes that give the same flow, of kinds for which it says enough."""
    if kind is SlideLanes:
        return {"flow_per_lane": each}
    if kind is TippingBucket:
        return {"bucket_volume": each * USUAL_CYCLE, "time_between_tips": USUAL_CYCLE}
    return {}

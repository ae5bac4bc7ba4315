"""What an editor must know of a field of the model: read from its annotation, bounds and description.

Nothing here knows a widget. Labels and the meaning of a blank are in the trade's words; everything else comes
from the model, so that a field added there is editable at once.
"""

import functools
import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum, StrEnum
from typing import Any, get_args

from annotated_types import Ge, Gt, Le, Lt, MaxLen
from pydantic import StringConstraints, ValidationError
from pydantic.fields import FieldInfo

from waterpark_designer.engine.worked import title_of
from waterpark_designer.model.node import Part
from waterpark_designer.units import COUNT, TEMPERATURE, Measure, UnitSystem, measure_of

SIGNIFICANT = 4
ROUNDING = 1e-12


class Entry(StrEnum):
    """How a field is entered."""

    QUANTITY = "quantity"
    WHOLE_NUMBER = "whole number"
    YES_NO = "yes or no"
    CHOICE = "choice"
    TEXT = "text"


@dataclass(frozen=True, slots=True)
class Bounds:
    """The range a number must lie in, in SI units; an open end is itself not allowed."""

    low: float | None = None
    high: float | None = None
    low_open: bool = False
    high_open: bool = False

    def holds(self, value: float) -> bool:
        """Whether a value lies within, but for the rounding of a unit."""
        value = self.settled(value)
        above = self.low is None or (value > self.low if self.low_open else value >= self.low)
        below = self.high is None or (value < self.high if self.high_open else value <= self.high)
        return above and below

    def settled(self, value: float) -> float:
        """The value, or the end of the range from which only the rounding of a unit parts it."""
        ends = (end for end in (self.low, self.high) if end is not None)
        return next((end for end in ends if math.isclose(value, end, rel_tol=ROUNDING)), value)

    def phrase(self, measure: Measure, system: UnitSystem) -> str:
        """“more than 0 and at most 500 ft”; empty where there is no bound.

        A bound that is no round number in the unit shown is rounded inwards: what is offered is accepted.
        """
        parts = []
        if self.low is not None:
            words = "more than" if self.low_open else "at least"
            parts.append(f"{words} {_rounded_inwards(self.low, measure, system, up=True)}")
        if self.high is not None:
            words = "less than" if self.high_open else "at most"
            parts.append(f"{words} {_rounded_inwards(self.high, measure, system, up=False)}")
        return f"{' and '.join(parts)} {measure.symbol(system)}".strip() if parts else ""


def _rounded_inwards(value: float, measure: Measure, system: UnitSystem, *, up: bool) -> str:
    shown = measure.shown(value, system)
    if abs(shown) < 1e-9 and measure is not TEMPERATURE:
        return "0"
    scale = 10.0 ** (SIGNIFICANT - 1 - math.floor(math.log10(abs(shown)))) if shown else 1.0
    slack = 1e-6 if up else -1e-6
    rounded = (math.ceil if up else math.floor)(shown * scale - slack) / scale
    return f"{rounded:,.10g}"


@dataclass(frozen=True, slots=True)
class FieldSpec:
    """One field of a part of the model as an editor needs it."""

    name: str
    label: str
    description: str
    entry: Entry
    measure: Measure = COUNT
    bounds: Bounds = Bounds()
    optional: bool = False
    choices: tuple[tuple[Any, str], ...] = ()
    longest: int = 4000
    blank: str = ""

    @property
    def noun(self) -> str:
        """The label as it stands within a sentence."""
        return self.label[:1].lower() + self.label[1:]

    def range_text(self, system: UnitSystem) -> str:
        """The allowed range as words, in the unit shown."""
        if self.entry is Entry.WHOLE_NUMBER:
            return f"a whole number from {self.bounds.low or 0:,.0f} to {self.bounds.high:,.0f}"
        return self.bounds.phrase(self.measure, system)

    def definition(self, system: UnitSystem) -> str:
        """Definition and allowed range, for the tooltip."""
        allowed = self.range_text(system) if self.entry in (Entry.QUANTITY, Entry.WHOLE_NUMBER) else ""
        return f"{self.description} Allowed: {allowed}." if allowed else self.description

    def out_of_range(self, system: UnitSystem) -> str:
        """What to tell somebody who typed a number outside the range."""
        verb = "Type" if self.entry is Entry.WHOLE_NUMBER else f"{self.label} must be"
        return f"{verb} {self.range_text(system)}."


LABELS: Mapping[str, str] = {
    "Site.place": "Location",
    "Site.project_number": "Project number",
    "Operation.open_hours": "Open hours a day",
    "Operation.closed_hours": "Closed without a break",
    "Operation.season": "Season",
    "WaterLosses.splash_out": "Splash-out per visit",
    "WaterLosses.carry_out": "Carry-out per visit",
    "WaterLosses.dilution": "Renewed per visit",
    "SaltSupply.bag_mass": "Salt in one bag",
    "RecirculationSystem.combination": "Zones combine by",
    "RecirculationSystem.fixed_flow": "Design flow settled on",
    "RecirculationSystem.surge_volume": "Water in surge tank",
    "RecirculationSystem.piping_volume": "Water in piping",
    "FilterPlan.continuous_feed": "Continuous body feed",
    "FilterPlan.pressure_vessel": "Pressure filter",
    "FilterPlan.item": "Filter size",
    "FilterPlan.count": "Filters in duty",
    "FilterPlan.spare": "Spare filter",
    "DisinfectionPlan.primary": "Primary",
    "DisinfectionPlan.item": "Generator size",
    "DisinfectionPlan.count": "Generators in duty",
    "DisinfectionPlan.spare": "Spare generator",
    "DisinfectionPlan.daily_loss": "Chlorine lost a day",
    "DisinfectionPlan.salt_per_chlorine": "Salt per chlorine",
    "SecondaryPlan.kind": "Treatment",
    "SecondaryPlan.flow": "Sized for",
    "Attraction.for_small_children": "For small children",
    "Attraction.bathers_a_day": "Bathers a day",
    "Attraction.slide_capacity": "Users at one time",
    "OpeningsPlan.surface_share": "Drawn from the surface",
    "OpeningsPlan.inlets": "Return inlets",
    "OpeningsPlan.inlet_bore": "Bore of one inlet",
    "OpeningsPlan.cover_area": "Open area of one cover",
    "TankPlan.usable_volume": "Surge tank holds",
    "TankPlan.shared_name": "Shared surge tank",
    "TankPlan.plan_area": "Plan area of surge tank",
    "TankPlan.backwashes": "Backwashes from the tank",
    "TankPlan.drawn_by_features": "Drawn by features",
    "TankPlan.sump_volume": "Waste sump holds",
    "Feature.user_places": "Places for users",
    "Feature.current_speed": "Speed of the current",
    "Feature.standing_people": "People standing in it",
    "Feature.flow_each": "Flow of one",
    "Feature.device_head": "Head at the device",
    "Feature.transit_time": "Time in transit",
    "Nozzle.head": "Head at the nozzle",
    "SprayNozzle.spray_coefficient": "Spray coefficient K",
    "SprayNozzle.pressure": "Pressure at the nozzle",
    "Weir.length": "Length of the crest",
    "Weir.head": "Head over the crest",
    "Weir.basin_area": "Basin behind the crest",
    "BroadCrest.length": "Length of the crest",
    "BroadCrest.head": "Head over the crest",
    "BroadCrest.basin_area": "Basin behind the crest",
    "TippingBucket.bucket_volume": "Water in one bucket",
    "Bubbler.jet_height": "Height of the jet",
    "PipeRun.count": "Like runs",
    "PipeRun.flow_share": "Share of flow",
    "PipeRun.elbows_90": "90° elbows",
    "PipeRun.elbows_45": "45° elbows",
    "PipeRun.tees_run": "Tees, straight",
    "PipeRun.tees_branch": "Tees, turned",
    "PipeRun.in_pump_head": "In pump head",
    "CurvePoint.flow": "Flow",
    "CurvePoint.head": "Head",
    "PumpPlan.count": "Pumps in duty",
    "PumpPlan.shutoff_ratio": "Shutoff over duty head",
    "PumpPlan.efficiency": "Pump efficiency",
    "PumpPlan.suction_head_required": "Suction head required",
    "PumpPlan.static_head": "Lift",
    "PumpPlan.voltage": "Three-phase supply",
    "PumpPlan.running_hours": "Running hours a day",
    "PumpPlan.night_flow": "Flow while closed",
    "PumpPlan.drive": "Variable-speed drive fitted",
    "EquipmentLosses.filter_clean": "Clean filter",
    "EquipmentLosses.filter_dirt": "Filter dirt adds",
    "EquipmentLosses.generator": "Salt cells",
    "EquipmentLosses.valves": "Valves and flow meter",
    "EquipmentLosses.inlets": "Inlet fittings",
    "EquipmentLosses.source": "Taken from",
    "HydraulicTerms.method": "Pipe friction by",
    "HydraulicTerms.altitude": "Height above sea level",
    "Zone.kind": "Kind of water here",
    "BeachEntry.length": "Run of the beach",
    "BeachEntry.edge_depth": "Depth at entry edge",
    "BeachEntry.end_depth": "Depth at deep end",
    "Ellipse.length": "Longer diameter",
    "Ellipse.width": "Shorter diameter",
    "Channel.length": "Centreline length",
    "Channel.width": "Channel width",
    "Channel.depth": "Water depth",
    "Channel.closed": "Closed on itself",
    "SprayDeck.area": "Deck area",
    "SprayDeck.perimeter": "Edge of the deck",
    "SprayDeck.tank_volume": "Water in holding tank",
    "OutlinePoint.x": "East",
    "OutlinePoint.y": "North",
    "PlainShape.area": "Surface area",
    "PlainShape.greatest_depth": "Greatest depth",
    "Steps.depth": "Depth at the foot",
    "Island.perimeter": "Edge of the island",
    "Island.depth": "Mean depth around",
}
"""Labels where the field's own name does not read as the trade says it."""

BLANKS: Mapping[str, str] = {
    "RecirculationSystem.pump_head": "computed",
    "RecirculationSystem.fixed_flow": "computed",
    "FilterPlan.item": "choose for me",
    "FilterPlan.count": "computed",
    "FilterPlan.backwash_rate": "least of code",
    "DisinfectionPlan.item": "choose for me",
    "DisinfectionPlan.count": "computed",
    "Attraction.bathers_a_day": "by peak occupancy",
    "Attraction.slide_capacity": "not stated",
    "Attraction.suction_outlets": "none",
    "Feature.suction_outlets": "not stated",
    "OpeningsPlan.surface_share": "as code says",
    "OpeningsPlan.gutter_length": "whole perimeter",
    "OpeningsPlan.gutter_section": "not stated",
    "OpeningsPlan.skimmers": "computed",
    "OpeningsPlan.skimmer_rating": "not stated",
    "OpeningsPlan.inlets": "least of code",
    "OpeningsPlan.inlet_bore": "not stated",
    "OpeningsPlan.outlet_spacing": "not stated",
    "OpeningsPlan.cover_area": "not stated",
    "TankPlan.usable_volume": "water in it",
    "TankPlan.shared_name": "not shared",
    "TankPlan.plan_area": "not stated",
    "TankPlan.suction_level": "not stated",
    "TankPlan.suction_cover": "estimated",
    "TankPlan.drawn_by_features": "in transit",
    "TankPlan.sewer_flow": "not stated",
    "TankPlan.sump_volume": "no sump",
    "Feature.start_height": "not stated",
    "Feature.current_speed": "no current",
    "Feature.jet_speed": "not stated",
    "Feature.transit_time": "not counted",
    "Nozzle.bore": "to be entered",
    "Nozzle.head": "to be entered",
    "SprayNozzle.spray_coefficient": "to be entered",
    "SprayNozzle.pressure": "to be entered",
    "Weir.length": "to be entered",
    "Weir.head": "to be entered",
    "Weir.basin_area": "not counted",
    "BroadCrest.length": "to be entered",
    "BroadCrest.head": "to be entered",
    "BroadCrest.basin_area": "not counted",
    "SlideLanes.flow_per_lane": "from its supplier",
    "TippingBucket.bucket_volume": "to be entered",
    "TippingBucket.time_between_tips": "to be entered",
    "Bubbler.bore": "to be entered",
    "Bubbler.jet_height": "to be entered",
    "PipeRun.size": "chosen",
    "PipeRun.available_head": "pumped",
    "PumpPlan.efficiency": "estimated",
    "PumpPlan.suction_head_required": "not stated",
    "EquipmentLosses.filter_clean": "estimated",
    "EquipmentLosses.filter_dirt": "as code says",
    "Zone.kind": "As the whole body",
    "SprayDeck.tank_volume": "least of code",
}
"""What a field left blank stands for, shown in its place."""


@functools.cache
def specs_of(owner: type[Part]) -> dict[str, FieldSpec]:
    """Every field of a part that one editor can show, by name; nested parts and lists are left out."""
    found = {}
    for name, info in owner.model_fields.items():
        entry = _entry_of(info)
        if entry is not None:
            found[name] = _spec(owner, name, info, entry)
    return found


def _spec(owner: type[Part], name: str, info: FieldInfo, entry: Entry) -> FieldSpec:
    key = f"{owner.__name__}.{name}"
    base = _base_type(info)
    choices = tuple((member, member.label) for member in base) if entry is Entry.CHOICE else ()
    return FieldSpec(
        name=name,
        label=LABELS.get(key, title_of(name)),
        description=info.description or "",
        entry=entry,
        measure=_measure_of(info) or COUNT,
        bounds=_bounds_of(info),
        optional=type(None) in get_args(info.annotation),
        choices=choices,
        longest=_longest_of(info),
        blank=BLANKS.get(key, ""),
    )


def _entry_of(info: FieldInfo) -> Entry | None:
    base = _base_type(info)
    if not isinstance(base, type):
        return None
    if issubclass(base, Enum):
        return Entry.CHOICE
    return {bool: Entry.YES_NO, int: Entry.WHOLE_NUMBER, str: Entry.TEXT}.get(base) or (
        Entry.QUANTITY if _measure_of(info) else None
    )


def _base_type(info: FieldInfo) -> Any:
    """The bare type below None and annotations."""
    inner: Any = info.annotation
    while True:
        arguments = [item for item in get_args(inner) if item is not type(None)]
        if hasattr(inner, "__metadata__"):
            inner = inner.__origin__
        elif type(None) in get_args(inner) and len(arguments) == 1:
            inner = arguments[0]
        else:
            return inner


def _measure_of(info: FieldInfo) -> Measure | None:
    held = next((item for item in info.metadata if isinstance(item, Measure)), None)
    return held or measure_of(info.annotation)


def _bounds_of(info: FieldInfo) -> Bounds:
    low = high = None
    low_open = high_open = False
    for item in info.metadata:
        if isinstance(item, Gt | Ge):
            low, low_open = float(item.gt if isinstance(item, Gt) else item.ge), isinstance(item, Gt)  # type: ignore[arg-type]
        elif isinstance(item, Lt | Le):
            high, high_open = float(item.lt if isinstance(item, Lt) else item.le), isinstance(item, Lt)  # type: ignore[arg-type]
    return Bounds(low, high, low_open, high_open)


def _longest_of(info: FieldInfo) -> int:
    for item in info.metadata:
        if isinstance(item, MaxLen):
            return item.max_length
        if isinstance(item, StringConstraints) and item.max_length is not None:
            return item.max_length
    return 4000


def plain_message(error: ValidationError) -> str:
    """What pydantic found wrong, in plain words: the model's own sentence where it gave one."""
    first = error.errors(include_url=False)[0]
    reason = first.get("ctx", {}).get("error")
    if reason is not None:
        return str(reason)
    place = title_of(str(first["loc"][-1])) if first["loc"] else "Entry"
    return f"{place}: {first['msg'][:1].lower()}{first['msg'][1:]}."

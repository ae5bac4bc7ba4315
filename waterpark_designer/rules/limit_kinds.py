"""Every quantity that a code may limit: one name, one measure, one sense."""

from dataclasses import dataclass
from enum import StrEnum

from waterpark_designer import units as u
from waterpark_designer.units import Measure


class Sense(StrEnum):
    """How a limit binds."""

    AT_MOST = "at most"
    AT_LEAST = "at least"
    TAKEN_AS = "taken as"
    REQUIRED = "required"


@dataclass(frozen=True, slots=True)
class LimitKind:
    """A limited quantity: key, label, measure, sense, definition. REQUIRED limits are 1 (yes) or 0 (no)."""

    key: str
    label: str
    measure: Measure
    sense: Sense
    definition: str

    @property
    def in_a_sentence(self) -> str:
        """Such as "turnover time", or "the least backwash rate" where the quantity has limits at both ends."""
        label = self.label.lower()
        return f"the {label}" if self._names_its_end else label

    @property
    def with_sense(self) -> str:
        """Such as "Turnover time, at most"; "Least backwash rate" says so already."""
        return self.label if self._names_its_end else f"{self.label}, {self.sense.value}"

    @property
    def _names_its_end(self) -> bool:
        return self.label.startswith(("Least ", "Greatest "))


MOST, LEAST, TAKEN, REQUIRED = Sense.AT_MOST, Sense.AT_LEAST, Sense.TAKEN_AS, Sense.REQUIRED

LIMIT_KINDS: dict[str, LimitKind] = {
    kind.key: kind
    for kind in (
        LimitKind(
            "longest_turnover",
            "Turnover time",
            u.HOURS,
            MOST,
            "Longest time in which the volume passes the filters once.",
        ),
        LimitKind(
            "turnover_per_depth",
            "Turnover time per mean depth",
            u.TIME_PER_DEPTH,
            MOST,
            "Turnover time grows with mean depth, up to the turnover time stated beside it.",
        ),
        LimitKind("greatest_depth", "Greatest depth", u.LENGTH, MOST, "Deepest water of a zone."),
        LimitKind(
            "load_area",
            "Surface for each bather in an hour (load factor)",
            u.AREA,
            TAKEN,
            "Water surface that one bather is reckoned to take for an hour.",
        ),
        LimitKind(
            "load_per_water",
            "Specific load of the treatment",
            u.BATHER_LOAD,
            TAKEN,
            "Bathers that one volume of treated water provides for.",
        ),
        LimitKind(
            "flow_per_surface",
            "Flow per water surface",
            u.FILTER_RATE,
            LEAST,
            "Treated flow for each area of water surface.",
        ),
        LimitKind("least_basin_flow", "Flow of one basin", u.FLOW, LEAST, "Treated flow that no basin may go below."),
        LimitKind(
            "surcharge_per_place",
            "Flow added for each user place",
            u.FLOW,
            TAKEN,
            "Treated flow added for each place at a small feature.",
        ),
        LimitKind(
            "surcharge_large_area",
            "Flow added for a large-area feature",
            u.FLOW,
            TAKEN,
            "Treated flow added for each large-area feature.",
        ),
        LimitKind(
            "surcharge_slide",
            "Flow added for a slide",
            u.FLOW,
            TAKEN,
            "Treated flow added for each slide, by start height.",
        ),
        LimitKind(
            "feature_share",
            "Recirculation flow given to features",
            u.SHARE,
            MOST,
            "Share of the required recirculation that may feed slides and sprays.",
        ),
        LimitKind(
            "feature_ratio",
            "Feature flow to filtered flow",
            u.RATIO,
            MOST,
            "Unfiltered feature flow over filtered flow.",
        ),
        LimitKind(
            "tank_least_volume",
            "Holding tank volume",
            u.VOLUME,
            LEAST,
            "Least water in the tank of an interactive water play.",
        ),
        LimitKind(
            "tank_feature_time",
            "Holding tank reserve",
            u.MINUTES,
            LEAST,
            "Time for which the tank must hold the flow of all feature and filter pumps.",
        ),
        LimitKind(
            "tank_large_volume",
            "Holding tank counted as large above",
            u.VOLUME,
            TAKEN,
            "Tank volume above which the rule by splash area may be used.",
        ),
        LimitKind(
            "tank_volume_per_area",
            "Holding tank volume per splash area, large tanks",
            u.VOLUME_PER_AREA,
            LEAST,
            "Tank volume for each area of deck that drains to it.",
        ),
        LimitKind("filter_rate", "Filter rate", u.FILTER_RATE, MOST, "Flow per filter area."),
        LimitKind("backwash_rate_least", "Least backwash rate", u.FILTER_RATE, LEAST, "Backwash flow per bed area."),
        LimitKind("backwash_rate_most", "Greatest backwash rate", u.FILTER_RATE, MOST, "Backwash flow per bed area."),
        LimitKind(
            "area_per_bather", "Area for each bather", u.AREA, TAKEN, "Area that sets the theoretical peak occupancy."
        ),
        LimitKind(
            "feed_per_volume",
            "Chlorine feed capacity per volume",
            u.FEED_PER_VOLUME,
            LEAST,
            "Feed capacity for each volume of water.",
        ),
        LimitKind(
            "feed_per_flow",
            "Chlorine feed capacity per flow",
            u.CONCENTRATION,
            LEAST,
            "Chlorine that feed can add to the recirculation flow.",
        ),
        LimitKind(
            "secondary_required",
            "Secondary disinfection",
            u.COUNT,
            REQUIRED,
            "Ultraviolet, ozone or equal besides the residual.",
        ),
        LimitKind(
            "secondary_log",
            "Log reduction of Cryptosporidium in one pass",
            u.RATIO,
            LEAST,
            "Powers of ten that one pass must take away.",
        ),
        LimitKind(
            "secondary_longest_time",
            "Time for secondary treatment",
            u.HOURS,
            MOST,
            "Longest time the dilution formula may count on.",
        ),
        LimitKind(
            "secondary_closed_share",
            "Share of the closed time for secondary treatment",
            u.SHARE,
            MOST,
            "Share of the daily uninterrupted closed time that the dilution formula may count on.",
        ),
        LimitKind(
            "separate_system",
            "Recirculation system of its own",
            u.COUNT,
            REQUIRED,
            "This kind of water may not share a system.",
        ),
        LimitKind(
            "replacement_per_bather",
            "Water renewed for each bather",
            u.SMALL_VOLUME,
            LEAST,
            "Water discharged to waste and replaced for each visit; backwash counts.",
        ),
        LimitKind(
            "surge_per_area",
            "Surge capacity per water surface",
            u.VOLUME_PER_AREA,
            LEAST,
            "Surge capacity for each area of water surface.",
        ),
        LimitKind(
            "velocity_suction", "Velocity in suction lines", u.VELOCITY, MOST, "Mean velocity in lines ahead of a pump."
        ),
        LimitKind(
            "velocity_pressure", "Velocity in pressure lines", u.VELOCITY, MOST, "Mean velocity in lines after a pump."
        ),
        LimitKind(
            "velocity_gravity",
            "Velocity in gravity lines",
            u.VELOCITY,
            MOST,
            "Mean velocity in lines that run by gravity, such as gutter drains.",
        ),
        LimitKind(
            "flow_when_dirty",
            "Required flow with dirty filters",
            u.COUNT,
            REQUIRED,
            "The required flow must be met just before the filters are cleaned; otherwise with clean filters.",
        ),
        LimitKind(
            "filter_dirt",
            "Head that filter dirt adds",
            u.PRESSURE,
            TAKEN,
            "Pressure that dirt adds before a filter of this medium is cleaned.",
        ),
        LimitKind("least_pump_head", "Head of the recirculation pump", u.LENGTH, LEAST, "Total head at design flow."),
        LimitKind(
            "strainer_ratio", "Strainer open area to suction pipe area", u.RATIO, LEAST, "Open area over pipe area."
        ),
        LimitKind(
            "flow_meter_ratio", "Flow meter range to design flow", u.RATIO, LEAST, "Greatest reading over design flow."
        ),
        LimitKind("outlet_count", "Suction outlets", u.COUNT, LEAST, "Number of suction outlets on one pump."),
        LimitKind("outlet_spacing", "Distance between suction outlets", u.LENGTH, LEAST, "Between nearest points."),
        LimitKind(
            "cover_velocity",
            "Velocity through covers of suction outlets",
            u.VELOCITY,
            MOST,
            "Flow of one outlet over the open area of its cover while any one outlet is blocked.",
        ),
        LimitKind(
            "area_per_inlet", "Water surface for each inlet", u.AREA, MOST, "Surface over number of return inlets."
        ),
        LimitKind(
            "perimeter_per_inlet", "Edge for each inlet", u.LENGTH, MOST, "Perimeter over number of return inlets."
        ),
        LimitKind(
            "inlet_velocity_least",
            "Least velocity through inlets",
            u.VELOCITY,
            LEAST,
            "Flow of one return inlet over the area of its orifice.",
        ),
        LimitKind(
            "inlet_velocity_most",
            "Greatest velocity through inlets",
            u.VELOCITY,
            MOST,
            "Flow of one return inlet over the area of its orifice.",
        ),
        LimitKind("inlet_count", "Return inlets", u.COUNT, LEAST, "Number of return inlets of one body of water."),
        LimitKind(
            "area_per_skimmer", "Water surface for each skimmer", u.AREA, MOST, "Surface over number of skimmers."
        ),
        LimitKind("flow_per_skimmer", "Least flow of each skimmer", u.FLOW, LEAST, "Flow through one skimmer."),
        LimitKind("flow_per_skimmer_most", "Greatest flow of each skimmer", u.FLOW, MOST, "Flow through one skimmer."),
        LimitKind(
            "surface_share",
            "Flow drawn from the surface",
            u.SHARE,
            LEAST,
            "Gutter and skimmer flow over recirculation flow.",
        ),
        LimitKind(
            "gutter_capacity",
            "Gutter capacity to recirculation flow",
            u.RATIO,
            LEAST,
            "Gutter and its lines over recirculation flow.",
        ),
        LimitKind(
            "night_flow",
            "Flow while closed to required flow",
            u.SHARE,
            LEAST,
            "Reduced flow over required flow while nobody bathes.",
        ),
    )
}

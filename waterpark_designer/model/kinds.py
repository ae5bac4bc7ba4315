"""The kinds of water, features and equipment plans that the trade tells apart."""

from enum import StrEnum
from functools import cached_property


class Kind(StrEnum):
    """A closed choice; `label` is how the trade writes it."""

    @cached_property
    def label(self) -> str:
        return LABELS.get(self, self.value.replace("_", " ").capitalize())


class AttractionKind(Kind):
    """What a body of water, or a zone of it, is used for."""

    LAP_POOL = "lap_pool"
    LEISURE_POOL = "leisure_pool"
    ACTIVITY_POOL = "activity_pool"
    WADING_POOL = "wading_pool"
    LAZY_RIVER = "lazy_river"
    WAVE_POOL = "wave_pool"
    PLUNGE_POOL = "plunge_pool"
    RUNOUT_SLIDE = "runout_slide"
    SPLASH_PAD = "splash_pad"
    SPA = "spa"
    THERAPY_POOL = "therapy_pool"
    DIVING_POOL = "diving_pool"
    VORTEX_POOL = "vortex_pool"
    SURF_POOL = "surf_pool"
    COLD_PLUNGE = "cold_plunge"
    OTHER = "other"


class Setting(Kind):
    """Where a body of water is; some limits differ."""

    OUTDOOR = "outdoor"
    INDOOR = "indoor"


class Overflow(Kind):
    """Where the surface water of a body leaves it."""

    NOT_STATED = "not_stated"
    GUTTER = "perimeter_gutter"
    SKIMMERS = "skimmers"
    NEITHER = "neither"


class FeatureKind(Kind):
    """What a feature is."""

    SPRAY_GROUP = "spray_group"
    SLIDE = "slide"
    TIPPING_BUCKET = "tipping_bucket"
    WATERFALL = "waterfall"
    BUBBLER = "bubbler"
    CURRENT_JETS = "current_jets"
    MASSAGE_JETS = "massage_jets"
    WAVE_GENERATOR = "wave_generator"
    OTHER = "other"


class FeatureWater(Kind):
    """Where a feature's water comes from, and so whether it counts as treated."""

    FILTERED = "filtered"
    RECYCLED = "recycled"


class FeaturePump(Kind):
    """What drives a feature's water."""

    OWN = "own"
    RECIRCULATION = "recirculation"


class ZoneCombination(Kind):
    """How zones with different turnover limits combine in one body of water."""

    SHORTEST = "shortest"
    SUM = "sum"
    VOLUME_WEIGHTED = "volume_weighted"


class FilterMedium(Kind):
    """What a filter is made of."""

    HIGH_RATE_SAND = "high_rate_sand"
    RAPID_SAND = "rapid_sand"
    TWO_LAYER = "two_layer"
    PRECOAT = "precoat"
    CARTRIDGE = "cartridge"


class PrimaryDisinfection(Kind):
    """Where a system's chlorine comes from."""

    IN_RETURN_CELLS = "in_return_cells"
    BRINE_FED = "brine_fed"
    HYPOCHLORITE = "hypochlorite"


class SecondaryDisinfection(Kind):
    """What treats the water besides chlorine."""

    NONE = "none"
    ULTRAVIOLET = "ultraviolet"
    OZONE = "ozone"


class SecondaryFlow(Kind):
    """How much of the flow the secondary treatment takes."""

    DILUTION = "dilution"
    FULL_FLOW = "full_flow"


class VelocityClass(Kind):
    """Codes limit velocity by what drives the water."""

    SUCTION = "suction"
    PRESSURE = "pressure"
    GRAVITY = "gravity"


class LineKind(Kind):
    """What a pipe run carries, in the order in which water meets it."""

    GUTTER = "gutter"
    SKIMMER = "skimmer"
    MAIN_DRAIN = "main_drain"
    TANK_SUCTION = "tank_suction"
    PUMP_SUCTION = "pump_suction"
    PUMP_DISCHARGE = "pump_discharge"
    FILTER_LINE = "filter_line"
    EQUIPMENT_LINE = "equipment_line"
    RETURN_HEADER = "return_header"
    RETURN_BRANCH = "return_branch"
    FEATURE_SUCTION = "feature_suction"
    FEATURE_SUPPLY = "feature_supply"
    BACKWASH = "backwash"
    BALANCE = "balance"

    @property
    def velocity_class(self) -> VelocityClass:
        return VELOCITY_CLASSES.get(self, VelocityClass.PRESSURE)


class PipeStandard(Kind):
    """Material and schedule of a pipe."""

    PVC_40 = "pvc_40"
    PVC_80 = "pvc_80"
    STEEL_40 = "steel_40"
    HDPE_17 = "hdpe_17"


class FrictionMethod(Kind):
    """How friction in pipes is reckoned."""

    DARCY_WEISBACH = "darcy_weisbach"
    HAZEN_WILLIAMS = "hazen_williams"


class SupplyVoltage(Kind):
    """Three-phase voltages of motors [V]; 400 V stands for the networks of 50 Hz."""

    V208 = "208"
    V230 = "230"
    V460 = "460"
    V400 = "400"

    @property
    def frequency(self) -> int:
        """Frequency of the network [Hz]."""
        return 50 if self is SupplyVoltage.V400 else 60


VELOCITY_CLASSES: dict[str, VelocityClass] = {
    LineKind.GUTTER: VelocityClass.GRAVITY,
    LineKind.BALANCE: VelocityClass.GRAVITY,
    LineKind.SKIMMER: VelocityClass.SUCTION,
    LineKind.MAIN_DRAIN: VelocityClass.SUCTION,
    LineKind.TANK_SUCTION: VelocityClass.SUCTION,
    LineKind.PUMP_SUCTION: VelocityClass.SUCTION,
    LineKind.FEATURE_SUCTION: VelocityClass.SUCTION,
}

LABELS: dict[str, str] = {
    "high_rate_sand_filter": "High-rate sand filter",
    "two_layer_filter": "Two-layer filter",
    "in_return_cells": "Salt cells in the return",
    "brine_fed_generator": "Brine-fed generator",
    AttractionKind.PLUNGE_POOL: "Plunge pool (slide landing)",
    AttractionKind.SPLASH_PAD: "Splash pad (interactive water play)",
    FeatureKind.WATERFALL: "Weir or waterfall",
    FeatureWater.FILTERED: "Filtered water",
    FeatureWater.RECYCLED: "From basin or tank",
    FeaturePump.OWN: "Own pump",
    FeaturePump.RECIRCULATION: "Recirculation pump",
    ZoneCombination.SHORTEST: "Shortest time for the whole body",
    ZoneCombination.SUM: "Sum of zone flows",
    ZoneCombination.VOLUME_WEIGHTED: "Volume-weighted time",
    FilterMedium.HIGH_RATE_SAND: "High-rate sand",
    FilterMedium.TWO_LAYER: "Two-layer (sand and anthracite)",
    PrimaryDisinfection.BRINE_FED: "Brine-fed generator",
    PrimaryDisinfection.HYPOCHLORITE: "Hypochlorite only",
    SecondaryFlow.DILUTION: "Least flow by dilution",
    LineKind.TANK_SUCTION: "Tank suction",
    LineKind.FILTER_LINE: "Filter piping",
    LineKind.EQUIPMENT_LINE: "Treatment piping",
    LineKind.GUTTER: "Gutter drain",
    LineKind.BALANCE: "Balance line",
    PipeStandard.PVC_40: "PVC Sch 40",
    PipeStandard.PVC_80: "PVC Sch 80",
    PipeStandard.STEEL_40: "Steel Sch 40",
    PipeStandard.HDPE_17: "HDPE DR 17",
    FrictionMethod.DARCY_WEISBACH: "Darcy–Weisbach with Colebrook",
    FrictionMethod.HAZEN_WILLIAMS: "Hazen–Williams",
    SupplyVoltage.V208: "208 V",
    SupplyVoltage.V400: "400 V, 50 Hz",
    SupplyVoltage.V230: "230 V",
    SupplyVoltage.V460: "460 V",
    SecondaryFlow.FULL_FLOW: "Full recirculation flow",
}

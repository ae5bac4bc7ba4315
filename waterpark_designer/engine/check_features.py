"""Checks of features: what their devices get while the pump runs, and what their water in transit draws down."""

from waterpark_designer.engine.comparing import SENSE, held_to
from waterpark_designer.engine.design_system import SizedSystem
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_surge_tank import overflowing, usable_volume
from waterpark_designer.engine.worked import Worked, leaf
from waterpark_designer.model.features import Feature
from waterpark_designer.rules.limit_kinds import Sense
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import SMALL_LENGTH

SKIMMER_RANGE = Source(
    "Skimmers follow the water level over about 4 in (100 mm), half of it below the mean level",
    Provenance.COMMON_PRACTICE,
)
MOST_LEVEL_DROP = leaf(0.05, "Half the range of a skimmer", SKIMMER_RANGE, measure=SMALL_LENGTH)
STRONGER_PUMP = "Choose a pump with more head, or lower the losses of its pipes."


def check_features(sized: SizedSystem) -> None:
    """Check the features of one system and what they draw from its bodies; findings go on their sheets."""
    for sheet in sized.below:
        if isinstance(sheet.node, Feature):
            _check_running(sheet)
    supplied = [] if usable_volume(sized.system) is None else overflowing(sized.bodies)
    for body in sized.bodies:
        _check_tank(body)
        if body not in supplied:
            _check_level_drop(body)


def _check_running(sheet: Sheet) -> None:
    """Head at nozzles, or else the flow, where the feature's own pump meets its system."""
    if "device_head_running" in sheet.figures:
        held_to(
            sheet,
            "nozzle_head",
            "Head at the nozzles, pump running",
            "device_head_running",
            Sense.AT_LEAST,
            sheet["device_head"],
            STRONGER_PUMP,
            sources=(SENSE,),
        )
    elif isinstance(sheet["operating_flow_clean"], Worked):
        held_to(
            sheet,
            "feature_operating_flow",
            "Flow of the feature, pump running",
            "operating_flow_clean",
            Sense.AT_LEAST,
            sheet["feature_flow"],
            STRONGER_PUMP,
            sources=(SENSE,),
        )


def _check_tank(body: Sheet) -> None:
    if "tank_share_in_transit" in body.figures:
        held_to(
            body,
            "tank_in_transit",
            "Holding tank against feature water in transit",
            "feature_water_in_transit",
            Sense.AT_MOST,
            body["tank_volume"],
            "Enlarge the holding tank: its pumps would run dry before their water comes back.",
            sources=(SENSE,),
        )


def _check_level_drop(body: Sheet) -> None:
    """How far features draw down a body that no surge tank tops up, such as one with skimmers."""
    if not isinstance(body["level_drop"], Worked):
        return
    held_to(
        body,
        "level_drop",
        "Skimmers keep working while all features run",
        "level_drop",
        Sense.AT_MOST,
        MOST_LEVEL_DROP,
        "Let the body overflow into a surge tank that tops its level up, or run fewer features at once.",
        sources=(SKIMMER_RANGE,),
        otherwise=Status.CAUTION,
    )

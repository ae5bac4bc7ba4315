"""Sense checks: what no code states but a careful designer would stop at."""

from waterpark_designer.engine.comparing import SLACK, noted
from waterpark_designer.engine.design_system import SizedSystem
from waterpark_designer.engine.design_zone import NOTHING_LEFT
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.formulas import turnover
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing, Worked, leaf, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.kinds import FeatureKind, FeaturePump, FeatureWater, PrimaryDisinfection
from waterpark_designer.model.site import Site
from waterpark_designer.model.zones import Outline, Rectangle, SprayDeck, Zone, off_plane
from waterpark_designer.sources import ARITHMETIC, Provenance, Source
from waterpark_designer.units import FLOW, SHARE

CELL_SALINITY = (2.5, 6.0)
"""Working range of salt pools [kg/m³]; encyclopedia article, read."""
SALINITY_APART = 0.05
"""Targets this far apart [kg/m³] cannot both be held in shared water; common practice."""
OFF_PLANE = 0.05
"""Corner depths this far off one plane [m] leave the volume of an outline in doubt; common practice."""
BED_PRACTICE = Source("Beds are washed at some 15 to 50 % of expansion", Provenance.COMMON_PRACTICE)
LEAST_EXPANSION = leaf(0.15, "Least expansion", BED_PRACTICE, measure=SHARE)
MOST_EXPANSION = leaf(0.50, "Greatest expansion", BED_PRACTICE, measure=SHARE)
HARDLY_LIFTED = (
    "Raise the backwash rate, or wash with air as well: a bed that is hardly lifted stays dirty. The size of the sand "
    "decides; ask the filter's supplier."
)
CARRIED_OFF = (
    "Lower the backwash rate while the water is cold, or leave more height above the bed: sand is carried off. The "
    "size of the sand decides; ask the filter's supplier."
)


def sense_check_system(sized: SizedSystem) -> None:
    """Stop at what does not make sense on one system; findings go on the sheets."""
    for body in sized.bodies:
        _basin(body)
    for sheet in sized.below:
        if isinstance(sheet.node, Zone):
            _zone(sheet, sheet.node)
        elif isinstance(sheet.node, Feature):
            _feature(sheet, sheet.node)
    if not sized.system.attractions:
        noted(
            sized.sheet,
            "no_water",
            "System without water",
            Status.CAUTION,
            "Drag a body of water here, or delete the system.",
        )
        return
    _targets(sized)
    _cells(sized)
    _shares(sized)
    _feature_pump(sized)
    _feature_sources(sized)
    _tank_shared(sized)
    _backwash(sized)
    _bed(sized)
    _one_out(sized)
    _drift(sized)


def note_overrides(sheet: Sheet) -> None:
    """Stop at every figure set by hand; findings go on its sheet."""
    for override in sheet.node.overrides:
        figure = sheet.figures.get(override.figure)
        if figure is None:
            noted(
                sheet,
                "override_idle",
                "Figure set by hand that is not used",
                Status.CAUTION,
                f"“{override.figure}” is set by hand but does not apply here. Clear it.",
            )
        else:
            noted(
                sheet,
                "override",
                f"{figure.kind.label} is set by hand",
                Status.CAUTION,
                f"Reason: {override.reason}",
                override.figure,
                figure.value,
            )


def _zone(sheet: Sheet, zone: Zone) -> None:
    volume = sheet["volume"]
    if not isinstance(zone.shape, SprayDeck) and (
        isinstance(volume, Worked)
        and volume <= 0
        or isinstance(sheet["greatest_depth"], Worked)
        and sheet["greatest_depth"] <= 0
    ):
        noted(
            sheet, "zero_depth", "No depth of water", Status.NOT_MET, "Enter the depth of this zone.", "greatest_depth"
        )
    taken = [figure for figure, lack in NOTHING_LEFT.items() if sheet.stated(figure) == lack]
    if taken:
        lack = NOTHING_LEFT[taken[0]]
        noted(sheet, "deductions", "Deductions too large", Status.NOT_MET, lack.needs, taken[0])
    shape = zone.shape
    if isinstance(shape, Rectangle) and any(station.distance > shape.length for station in shape.stations):
        noted(
            sheet,
            "station_beyond",
            "Depth station beyond the wall",
            Status.CAUTION,
            "A depth station lies beyond the length of the zone; the floor is cut off at the wall.",
        )
    if isinstance(shape, Outline) and off_plane(shape.points) > OFF_PLANE:
        noted(
            sheet,
            "floor_not_plane",
            "Floor of the outline is not a plane",
            Status.CAUTION,
            "Corner depths do not say how the floor runs between them, and the volume depends on it: divide the zone "
            "where the slope changes, or enter volume and area from the drawing.",
            "volume",
            volume,
        )


def _basin(body: Sheet) -> None:
    attraction = body.node
    assert isinstance(attraction, Attraction)
    if isinstance(body["exchange_volume"], Worked):
        noted(
            body,
            "too_salty",
            "Water saltier than its target",
            Status.CAUTION,
            "Exchange the water stated before start-up; salt cannot be taken out otherwise.",
            "exchange_volume",
            body["exchange_volume"],
        )
    if isinstance(body["volume"], Missing):
        noted(body, "no_volume", "Volume not known", Status.UNKNOWN, body["volume"].needs, "volume")
    if attraction.has_spray_deck and not attraction.features:
        noted(
            body,
            "no_features",
            "Spray deck without features",
            Status.CAUTION,
            "Add its sprays with their flow; the tank and the pumps follow from them.",
        )


def _feature(sheet: Sheet, feature: Feature) -> None:
    flow = sheet["feature_flow"]
    if isinstance(flow, Missing):
        noted(
            sheet, "feature_flow_unknown", "Flow of the feature not known", Status.UNKNOWN, flow.needs, "feature_flow"
        )
    elif flow == 0 and feature.kind is not FeatureKind.WAVE_GENERATOR:
        noted(
            sheet,
            "no_feature_flow",
            "Feature without flow",
            Status.CAUTION,
            "Enter the flow of one device, or the sizes that it follows from.",
            "feature_flow",
        )


def _targets(sized: SizedSystem) -> None:
    targets = [body.target_salinity for body in sized.system.attractions]
    if max(targets) - min(targets) > SALINITY_APART:
        noted(
            sized.sheet,
            "salinity_conflict",
            "Salinity targets differ on shared water",
            Status.NOT_MET,
            "Bodies of water on one system share its water: give them one target, or separate systems.",
        )


def _cells(sized: SizedSystem) -> None:
    if sized.system.disinfection.primary is not PrimaryDisinfection.IN_RETURN_CELLS:
        return
    targets = [body.target_salinity for body in sized.system.attractions]
    if min(targets) == 0:
        noted(
            sized.sheet,
            "cells_without_salt",
            "Cells in the return need salt water",
            Status.NOT_MET,
            "Set a target salinity, or choose a brine-fed generator or hypochlorite.",
        )
    elif not CELL_SALINITY[0] <= min(targets) <= max(targets) <= CELL_SALINITY[1]:
        noted(
            sized.sheet,
            "cell_salinity",
            "Target salinity outside the usual range of cells",
            Status.CAUTION,
            "Cells in the return usually work between 2,500 and 6,000 mg/L. Ask their supplier.",
        )


def _shares(sized: SizedSystem) -> None:
    """Flows of bodies that are set by hand may not come to more than the system gives."""
    flow = sized.sheet["design_flow"]
    shares = [(body.node.name, body["design_flow"]) for body in sized.bodies]
    together = total("Flows of the bodies of water", shares, FLOW, ARITHMETIC)
    if isinstance(together, Worked) and isinstance(flow, Worked) and together > flow * (1 + SLACK):
        noted(
            sized.sheet,
            "bodies_beyond_system",
            "Bodies of water get more than their system's flow",
            Status.NOT_MET,
            "Raise the system's design flow, or lower a flow that is set by hand.",
            "design_flow",
            together,
            flow,
        )


def _feature_pump(sized: SizedSystem) -> None:
    """Features may not take more from the pump, or of filtered water, than there is."""
    sheet, flow = sized.sheet, sized.sheet["design_flow"]
    drawn = sheet["circulation_feature_flow"]
    if isinstance(drawn, Worked) and isinstance(flow, Worked) and drawn > flow * (1 + SLACK):
        noted(
            sheet,
            "feature_beyond_pump",
            "Features take more than the recirculation pump gives",
            Status.NOT_MET,
            "Give the features a pump of their own, or raise the design flow.",
            "circulation_feature_flow",
            drawn,
            flow,
        )
        return
    all_features, recycled = sheet["feature_flow"], sheet["recycled_feature_flow"]
    if isinstance(all_features, Worked) and isinstance(recycled, Worked) and isinstance(flow, Worked):
        filtered = turnover.filtered_feature_flow(all_features, recycled)
        if filtered > flow * (1 + SLACK):
            noted(
                sheet,
                "features_beyond_filters",
                "Features take more filtered water than the filters give",
                Status.NOT_MET,
                "Draw some of them from the basin or tank, or raise the design flow.",
                "feature_flow",
                filtered,
                flow,
            )


def _tank_shared(sized: SizedSystem) -> None:
    decks = [body for body in sized.system.attractions if body.has_spray_deck]
    if decks and len(sized.system.attractions) > 1:
        others = ", ".join(body.name for body in sized.system.attractions if body not in decks) or decks[0].name
        noted(
            sized.sheet,
            "shared_tank",
            "A splash pad's tank shares its water",
            Status.CAUTION,
            f"A soiled splash pad reaches {others} through the shared water. Consider a system of its own.",
        )


def _backwash(sized: SizedSystem) -> None:
    sheet = sized.sheet
    flow, backwash = sheet["design_flow"], sheet["backwash_flow"]
    if isinstance(flow, Worked) and isinstance(backwash, Worked):
        covered = flow >= backwash
        noted(
            sheet,
            "backwash_flow",
            "Duty flow covers the backwash of one filter",
            Status.MET if covered else Status.CAUTION,
            "" if covered else "Use smaller filters, a backwash pump, or a flow that the filters' supplier allows.",
            "backwash_flow",
            backwash,
            flow,
        )


def _bed(sized: SizedSystem) -> None:
    """Backwash that hardly lifts a sand bed leaves it dirty; one that lifts it too far takes the sand along."""
    sheet = sized.sheet
    warm, cold = sheet["bed_expansion_warm"], sheet["bed_expansion_cold"]
    if isinstance(warm, Worked):
        status, remedy = (Status.MET, "") if warm >= LEAST_EXPANSION else (Status.CAUTION, HARDLY_LIFTED)
        title = "Backwash lifts the bed with the warmest water, by the upper figure"
        noted(sheet, "bed_lifted", title, status, remedy, "bed_expansion_warm", warm, LEAST_EXPANSION)
    if isinstance(cold, Worked):
        status, remedy = (Status.MET, "") if cold <= MOST_EXPANSION else (Status.CAUTION, CARRIED_OFF)
        title = "Backwash keeps the sand with the coldest water"
        noted(sheet, "bed_kept", title, status, remedy, "bed_expansion_cold", cold, MOST_EXPANSION)


def _one_out(sized: SizedSystem) -> None:
    sheet = sized.sheet
    rate, limit = sheet["filter_rate_one_out"], sheet["filter_rate_limit"]
    if isinstance(rate, Worked) and isinstance(limit, Worked) and rate > limit * (1 + SLACK):
        noted(
            sheet,
            "filter_one_out",
            "Filter rate while one filter is washed",
            Status.CAUTION,
            "The others run above the allowed rate while one is out: add a filter, or lower the flow for that time.",
            "filter_rate_one_out",
            rate,
            limit,
        )


def _drift(sized: SizedSystem) -> None:
    sheet = sized.sheet
    lasting = sheet["lasting_salinity"]
    highest = max(body.target_salinity for body in sized.system.attractions)
    if isinstance(lasting, Worked) and highest > 0 and lasting > highest:
        noted(
            sheet,
            "salinity_drift",
            "Salt builds up above its target",
            Status.CAUTION,
            "The chlorine brings more salt than the water loses at its target: renew more water, or raise the target.",
            "lasting_salinity",
            lasting,
        )


def sense_check_site(sheet: Sheet, site: Site, unknown: tuple[str, ...]) -> None:
    """Stop at what does not make sense on the site."""
    note_overrides(sheet)
    for key in unknown:
        noted(
            sheet,
            "rule_set_missing",
            "Rule set not installed",
            Status.NOT_MET,
            f"The project uses the rule set “{key}”, which this program does not have. Choose another code basis.",
        )
    if not site.code_basis and not site.amendments:
        noted(sheet, "no_code_basis", "No code basis", Status.UNKNOWN, "Choose the rule sets that the site is held to.")
    _tank_of_several_systems(sheet, site)
    if not site.systems:
        noted(sheet, "no_systems", "No water on the site", Status.CAUTION, "Add a body of water.")


def _tank_of_several_systems(sheet: Sheet, site: Site) -> None:
    drawing: dict[str, list[str]] = {}
    for system in site.systems:
        if tank := system.tanks.shared_name.strip():
            drawing.setdefault(tank.casefold(), []).append(f"“{system.name}”")
    for systems in drawing.values():
        if len(systems) > 1:
            noted(
                sheet,
                "tank_of_several_systems",
                "One tank shares the water of several systems",
                Status.NOT_MET,
                f"The water of {', '.join(systems[:-1])} and {systems[-1]} mixes in one tank, with its soil, salt and "
                "chlorine, while each is designed as water of its own: give each system a tank, or put their bodies "
                "of water on one system.",
            )


def _feature_sources(sized: SizedSystem) -> None:
    for sheet in sized.below:
        feature = sheet.node
        if isinstance(feature, Feature) and (feature.pump, feature.water) == WRONG_SOURCE:
            noted(
                sheet,
                "feature_source",
                "Feature's water and pump disagree",
                Status.CAUTION,
                "The recirculation pump delivers filtered water: choose filtered water, or a pump of its own.",
            )


WRONG_SOURCE = (FeaturePump.RECIRCULATION, FeatureWater.RECYCLED)

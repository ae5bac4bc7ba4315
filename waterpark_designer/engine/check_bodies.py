"""Checks of one body of water against the code."""

from waterpark_designer.engine.comparing import duty, held_to, said_nothing
from waterpark_designer.engine.context import Context
from waterpark_designer.engine.design_system import SizedSystem
from waterpark_designer.engine.formulas import turnover
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_tank import tank_rule
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.zones import Zone
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, Sense

RAISE_FLOW = "Raise the system's design flow, or its margin."


def check_body(body: Sheet, context: Context, sized: SizedSystem) -> None:
    """Check one body of water; findings go on its sheet."""
    attraction = body.node
    assert isinstance(attraction, Attraction)
    if "longest_turnover" in body.figures:
        limit = body.stated("longest_turnover")
        held_to(body, "longest_turnover", "Turnover time", "turnover_time", Sense.AT_MOST, limit, RAISE_FLOW)
    if "least_flow_by_load" in body.figures:
        title = "Flow by surface, load and features"
        held_to(body, "least_flow", title, "design_flow", Sense.AT_LEAST, body["least_flow"], RAISE_FLOW)
    if "tank_volume" in body.figures:
        _check_tank(body, attraction, context)
    _check_feature_ratio(body, attraction, context)
    _check_separate(body, attraction, context, sized)
    lack = body.stated("peak_occupancy")
    if isinstance(lack, Missing):
        advice = "For slide landings and surf pools enter the supplier's capacity."
        said_nothing(body, "peak_occupancy", "Peak occupancy", "peak_occupancy", lack, advice)


def _check_tank(body: Sheet, attraction: Attraction, context: Context) -> None:
    """The tank against what the pumps ask of it at the flow they will have."""
    rule = tank_rule(body, attraction, context)
    set_by_hand = body.figures["least_tank_volume"].override is not None
    least = body.stated("least_tank_volume")
    remedy = (
        "Enlarge the tank." if rule.chosen else "Enter a larger tank: its filters get more flow than its turnover asks."
    )
    stated = (value for value in (rule.fixed, rule.reserve_time) if isinstance(value, Worked))
    sources = () if set_by_hand else tuple(value.step.source for value in stated)
    title = "Holding tank volume"
    held_to(body, "least_tank_volume", title, "tank_volume", Sense.AT_LEAST, least, remedy, sources=sources)


def _check_feature_ratio(body: Sheet, attraction: Attraction, context: Context) -> None:
    kind = LIMIT_KINDS["feature_ratio"]
    limit = context.strictest(body, kind.key, attraction.kinds, {}, "this body")
    if isinstance(limit, Worked) and "recycled_feature_flow" in body.figures:
        ratio = turnover.feature_ratio(body["recycled_feature_flow"], body["design_flow"])
        remedy = "Filter more, or feed fewer features from unfiltered water."
        held_to(
            body,
            kind.key,
            kind.label,
            "recycled_feature_flow",
            kind.sense,
            limit,
            remedy,
            value=ratio,
            measure=kind.measure,
        )


def _check_separate(body: Sheet, attraction: Attraction, context: Context, sized: SizedSystem) -> None:
    kind = LIMIT_KINDS["separate_system"]
    required = context.strictest(body, kind.key, attraction.kinds, {}, "this body")
    alone = len(sized.system.attractions) == 1
    duty(body, kind.key, kind.label, required, alone, "Drag this body of water onto a system of its own.")


def check_depths(context: Context, sized: SizedSystem) -> None:
    """The depth of each zone against what the code allows its kind of water; findings go on the zone's sheet."""
    kind = LIMIT_KINDS["greatest_depth"]
    bodies = {zone.id: body for body in sized.system.attractions for zone in body.zones}
    for sheet in sized.below:
        zone = sheet.node
        if not isinstance(zone, Zone) or "greatest_depth" not in sheet.figures:
            continue
        limit = context.limit(sheet, kind.key, bodies[zone.id].kind_of(zone), {})
        if isinstance(limit, Worked):
            remedy = "Make the water shallower, or say of this zone that it is another kind of water."
            held_to(sheet, kind.key, kind.label, "greatest_depth", kind.sense, limit, remedy)

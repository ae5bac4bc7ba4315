"""Checks of inlets, skimmers, suction outlets, gravity lines, surge tanks and waste sumps."""

from collections.abc import Sequence

from waterpark_designer.engine.comparing import duty, held_to, noted, said_nothing
from waterpark_designer.engine.context import Context
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_openings import overflow_facts
from waterpark_designer.engine.size_surge_tank import usable_volume
from waterpark_designer.engine.worked import (
    YOUR_ENTRY,
    Missing,
    Value,
    Worked,
    given,
    governing_sources,
    greatest,
    leaf,
)
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.kinds import FeaturePump, FeatureWater, Overflow
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, Sense
from waterpark_designer.sources import ARITHMETIC, Provenance, Source
from waterpark_designer.units import HEAD, LENGTH, SHARE, VELOCITY

ENTRAPMENT = (
    "No cover makes a single outlet safe: rate every cover for its flow with one outlet blocked, keep outlets "
    "apart, and follow the standard for suction fittings and the local code."
)
VGB_ACT = Source("VGB Act, P.L. 110-140 s.1404(c)(1)(A)(ii)", Provenance.READ)
COUNT_TITLE = "Suction outlets, any one blocked"
CONFINED = "Tanks and sumps are confined spaces: nobody enters without a permit, a gas test and an attendant."
BY_SIZE = Source("What is drawn against what follows from its load", Provenance.COMMON_PRACTICE)


def check_openings(body: Sheet, context: Context) -> None:
    """Check the openings of one body of water; findings go on its sheet."""
    attraction = body.node
    assert isinstance(attraction, Attraction)
    if "greatest_depth" not in body.figures:
        return
    _check_inlets(body, attraction, context)
    _check_surface(body, attraction, context)
    if attraction.suction_outlets is not None:
        _check_count(body, attraction, attraction.suction_outlets, context)
        if attraction.suction_outlets > 1:
            _check_spacing(body, attraction, context)
        _check_cover(body, attraction, context)


def check_feature_outlets(sheet: Sheet, body: Sheet, context: Context) -> None:
    """Check the suction outlets in a basin that a feature's own pump draws from; findings go on the feature's sheet."""
    feature, attraction = sheet.node, body.node
    assert isinstance(feature, Feature) and isinstance(attraction, Attraction)
    draws = feature.pump is FeaturePump.OWN and feature.water is FeatureWater.RECYCLED
    if not draws or attraction.has_spray_deck or sheet["feature_flow"] == 0:
        return
    if feature.outlets_on_each_line is None:
        lack = Missing("Enter the suction outlets that the feature's pump draws from, 0 where it draws from a tank.")
        said_nothing(sheet, "outlet_count", COUNT_TITLE, "feature_flow", lack)
    else:
        _check_count(sheet, attraction, feature.outlets_on_each_line, context)


def check_gravity_line(run: Sheet) -> None:
    """A line that runs by gravity carries its flow on the head that it has."""
    if "gravity_capacity" in run.figures:
        title, remedy = "Flow of a gravity line", "Widen the pipe, lay more like runs, or raise the head available."
        held_to(
            run, "gravity_line", title, "gravity_capacity", Sense.AT_LEAST, run["run_flow"], remedy, sources=(BY_SIZE,)
        )


def check_tanks(sheet: Sheet, system: RecirculationSystem) -> None:
    """Check surge tank, gutter drains and waste sump of a system; findings go on its sheet."""
    tank, sump = usable_volume(system), system.tanks.sump_volume
    if tank is not None and "surge_needed" in sheet.figures:
        title, remedy = "Surge tank for what it must take", f"Enlarge the surge tank. {CONFINED}"
        needed = sheet["surge_needed"]
        _at_least(sheet, "surge_needed", title, needed, tank, remedy, _surge_sources(needed))
    elif isinstance(sheet["surge_needed"], Worked):
        title = "Surge volume without a surge tank"
        remedy = "Enter the surge tank, or say of each body that skimmers take its surface water."
        noted(sheet, "no_surge_tank", title, Status.CAUTION, remedy, "surge_needed", source=BY_SIZE)
    if "gutter_capacity_needed" in sheet.figures:
        needed, remedy = sheet["gutter_capacity_needed"], "Lay more or wider gutter drains, or raise their head."
        title = LIMIT_KINDS["gutter_capacity"].label
        sources = _last_sources(needed)
        held_to(
            sheet, "gutter_capacity", title, "gutter_line_capacity", Sense.AT_LEAST, needed, remedy, sources=sources
        )
    if sump is not None and "sump_needed" in sheet.figures:
        title, remedy = "Waste sump for one backwash", f"Enlarge the waste sump, or wash smaller filters. {CONFINED}"
        held = given(system.tanks, "sump_volume")
        _at_least(sheet, "sump_needed", title, sheet["sump_needed"], held, remedy, (BY_SIZE,))


def check_inlet_head(sheet: Sheet, bodies: Sequence[Sheet], system: RecirculationSystem) -> None:
    """The allowance for inlets in a pump's head covers the jets of the bodies that state their inlets' bore."""
    heads = [(body.node.name, body["inlet_head"]) for body in bodies if "inlet_head" in body.figures]
    if heads and "equipment_loss" in sheet.figures:
        needed = greatest("Head behind one inlet", heads, HEAD, ARITHMETIC)
        title, remedy = (
            "Head allowed for the inlets",
            "Raise the allowance for inlet fittings, or widen their orifices.",
        )
        allowed = given(system.equipment, "inlets")
        held_to(
            sheet,
            "inlet_head",
            title,
            "equipment_loss",
            Sense.AT_LEAST,
            needed,
            remedy,
            value=allowed,
            sources=(BY_SIZE,),
        )


def _surge_sources(needed: Value) -> tuple[Source, ...]:
    """The code's clause where its least governs, else how the volume is made up."""
    if not isinstance(needed, Worked) or needed.step.joined != "greatest":
        return ()
    governing = next(part for _, part in needed.step.parts if float(part) == float(needed))
    if not isinstance(governing, Worked):
        return ()
    return _last_sources(governing) if len(governing.step.parts) < 2 else (governing.step.source,)


def _last_sources(value: Value) -> tuple[Source, ...]:
    """Sources of the code's own ratio, which a formula takes last, and not of what it multiplies."""
    if not isinstance(value, Worked) or value.step.formula is None:
        return ()
    ratio = value.step.values[-1]
    return governing_sources(ratio) if isinstance(ratio, Worked) else (value.step.source,)


def _at_least(
    sheet: Sheet, figure: str, title: str, needed: Value, value: Value, remedy: str, sources: tuple[Source, ...] = ()
) -> None:
    """What is entered against the figure that says what is needed."""
    held_to(sheet, figure, title, figure, Sense.AT_LEAST, needed, remedy, value=value, sources=sources)


def _check_inlets(body: Sheet, attraction: Attraction, context: Context) -> None:
    plan = attraction.openings
    if plan.inlets is not None and "inlets" in body.figures:
        title, remedy = LIMIT_KINDS["inlet_count"].label, "Give the body more return inlets."
        _at_least(body, "inlets", title, body["inlets"], given(plan, "inlets"), remedy)
    if "inlet_velocity" not in body.figures:
        return
    for key, sense, remedy in (
        ("inlet_velocity_least", Sense.AT_LEAST, "Choose a smaller orifice, or fewer inlets where the code allows."),
        ("inlet_velocity_most", Sense.AT_MOST, "Choose a larger orifice, or more inlets."),
    ):
        limit = context.strictest(body, key, attraction.kinds, overflow_facts(attraction), "this body")
        if sense is Sense.AT_LEAST and isinstance(limit, Missing) and limit.stated_nowhere:
            continue
        held_to(body, key, LIMIT_KINDS[key].label, "inlet_velocity", sense, limit, remedy)


def _check_surface(body: Sheet, attraction: Attraction, context: Context) -> None:
    """The share drawn from the surface where it is not the code's own, and the skimmers that draw it."""
    plan = attraction.openings
    share = plan.surface_share if plan.overflow in (Overflow.GUTTER, Overflow.SKIMMERS) else None
    if plan.overflow is Overflow.NEITHER:
        share = 0.0
    if share is not None:
        limit = context.strictest(body, "surface_share", attraction.kinds, overflow_facts(attraction), "this body")
        title, remedy = LIMIT_KINDS["surface_share"].label, "Draw more of the flow over a gutter or through skimmers."
        value = leaf(share, "Share drawn from the surface", YOUR_ENTRY, measure=SHARE)
        figure = "surface_flow" if "surface_flow" in body.figures else "design_flow"
        held_to(body, "surface_share", title, figure, Sense.AT_LEAST, limit, remedy, value=value, measure=SHARE)
    if "skimmer_flow" not in body.figures:
        return
    if plan.skimmers is not None and "skimmers" in body.figures:
        remedy = "Give the body more skimmers, or a gutter."
        _at_least(body, "skimmers", "Skimmers", body["skimmers"], given(plan, "skimmers"), remedy)
    for key, remedy in (
        ("flow_per_skimmer", "Raise the flow drawn from the surface, or use fewer skimmers."),
        ("flow_per_skimmer_most", "Use more skimmers, or a gutter."),
    ):
        kind = LIMIT_KINDS[key]
        limit = context.strictest(body, key, attraction.kinds, {}, "this body")
        if kind.sense is Sense.AT_MOST and isinstance(limit, Missing) and limit.stated_nowhere:
            continue
        held_to(body, key, kind.label, "skimmer_flow", kind.sense, limit, remedy)


def _check_count(sheet: Sheet, attraction: Attraction, outlets: int, context: Context) -> None:
    """As many outlets on one pump as the code asks, and never a single one without a word."""
    limit = context.strictest(sheet, "outlet_count", attraction.kinds, {}, "this body")
    if isinstance(limit, Worked):
        remedy = f"Draw from more suction outlets on each suction line. {ENTRAPMENT}"
        duty(sheet, "outlet_count", COUNT_TITLE, Worked(1.0, limit.step), outlets == 0 or outlets >= limit, remedy)
    if outlets == 1:
        title = "A single suction outlet can trap a bather"
        noted(sheet, "single_outlet", title, Status.CAUTION, ENTRAPMENT, source=VGB_ACT)


def _check_spacing(body: Sheet, attraction: Attraction, context: Context) -> None:
    """Told where the code states a distance, also while none is entered, or where one is entered."""
    limit = context.strictest(body, "outlet_spacing", attraction.kinds, {}, "this body")
    value = given(attraction.openings, "outlet_spacing")
    if isinstance(limit, Missing) and isinstance(value, Missing):
        return
    title, remedy = LIMIT_KINDS["outlet_spacing"].label, f"Move the suction outlets apart. {ENTRAPMENT}"
    held_to(body, "outlet_spacing", title, "outlet_flow", Sense.AT_LEAST, limit, remedy, value=value, measure=LENGTH)


def _check_cover(body: Sheet, attraction: Attraction, context: Context) -> None:
    if "cover_velocity" in body.figures:
        limit = context.strictest(body, "cover_velocity", attraction.kinds, {}, "this body")
        remedy = f"Choose covers with more open area, or more suction outlets. {ENTRAPMENT}"
        title = LIMIT_KINDS["cover_velocity"].label
        held_to(body, "cover_velocity", title, "cover_velocity", Sense.AT_MOST, limit, remedy, measure=VELOCITY)

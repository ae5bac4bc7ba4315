"""Checks of one recirculation system against the code."""

from waterpark_designer.engine.comparing import duty, held_to, said_nothing
from waterpark_designer.engine.context import Context
from waterpark_designer.engine.design_attraction import terms_of
from waterpark_designer.engine.design_system import SizedSystem, system_facts
from waterpark_designer.engine.design_zone import zone_facts
from waterpark_designer.engine.formulas import turnover
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_surge_tank import overflowing, surge_kinds, surge_surface, usable_volume
from waterpark_designer.engine.worked import Missing, Value, Worked, given, governing_sources
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.kinds import PrimaryDisinfection, SecondaryDisinfection
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, Sense
from waterpark_designer.sources import BATHER_DEMAND, Provenance, Source
from waterpark_designer.units import VOLUME

REACTOR_IN_LINE = Source("The reactor stands in the recirculation line", Provenance.COMMON_PRACTICE)


def check_system(sized: SizedSystem, context: Context) -> None:
    """Check one system; findings go on its sheet."""
    if not sized.system.attractions:
        return
    sheet = sized.sheet
    remedy = "Add a filter, choose a larger one, or lower the flow."
    held_to(
        sheet, "filter_rate", "Filter rate", "filter_rate", Sense.AT_MOST, sheet.stated("filter_rate_limit"), remedy
    )
    _check_backwash_rate(sized, context)
    _check_feature_share(sized, context)
    _check_feed(sized)
    _check_secondary(sized, context)
    _check_surge(sized, context)


def _check_backwash_rate(sized: SizedSystem, context: Context) -> None:
    sheet, facts = sized.sheet, system_facts(sized.system)
    if "backwash_rate" not in sheet.figures:
        return
    for quantity, remedy in (
        ("backwash_rate_least", "Raise the backwash rate."),
        ("backwash_rate_most", "Lower the backwash rate."),
    ):
        kind = LIMIT_KINDS[quantity]
        limit = context.strictest(sheet, quantity, sized.system.kinds, facts)
        if isinstance(limit, Worked):
            held_to(sheet, quantity, kind.label, "backwash_rate", kind.sense, limit, remedy)


def _check_feature_share(sized: SizedSystem, context: Context) -> None:
    sheet = sized.sheet
    if "circulation_feature_flow" not in sheet.figures:
        return
    limit = context.strictest(sheet, "feature_share", sized.system.kinds, {})
    if isinstance(limit, Worked):
        allowed = turnover.feature_flow_allowed(limit, sheet["least_flow"], sheet["design_flow"])
        title, figure = LIMIT_KINDS["feature_share"].label, "circulation_feature_flow"
        remedy = "Give the features a pump of their own, or raise the design flow."
        sources = governing_sources(limit)
        held_to(sheet, "feature_share", title, figure, Sense.AT_MOST, allowed, remedy, sources=sources)


def _check_feed(sized: SizedSystem) -> None:
    """Installed chlorine output against the capacity needed, and whether a code states any."""
    sheet = sized.sheet
    if "feed_by_volume" not in sheet.figures and "feed_by_flow" not in sheet.figures:
        lack = Missing(
            "The code basis is silent on chlorine feed capacity, so what is used on the design day alone sizes it. "
            "Add a rule set, amend it, or enter what sunlight and the water use.",
            silent=True,
        )
        said_nothing(sheet, "feed_stated", "Chlorine feed capacity by the code", "feed_capacity", lack)
    if sized.system.disinfection.primary is not PrimaryDisinfection.HYPOCHLORITE:
        remedy = "Add a generator or choose a larger one."
        title, figure, needed = "Chlorine output installed", "generator_capacity", sheet["feed_capacity"]
        held_to(sheet, "feed_capacity", title, figure, Sense.AT_LEAST, needed, remedy, sources=_feed_sources(sheet))


def _feed_sources(sheet: Sheet) -> tuple[Source, ...]:
    """The clauses of the feed rule that governs; the bathers' demand where it does, and what is set by hand as such."""
    needed = sheet["feed_capacity"]
    if not isinstance(needed, Worked) or sheet.figures["feed_capacity"].override:
        return ()
    for key in ("feed_by_flow", "feed_by_volume"):
        rule = sheet[key]
        if isinstance(rule, Worked) and rule == needed and sheet.figures[key].override:
            return (rule.step.source,)
        if isinstance(rule, Worked) and rule == needed:
            parts = [part for _, part in rule.step.parts if isinstance(part, Worked)] or [rule]
            limits = [part.step.values[-1] if part.step.values else part for part in parts]
            return tuple(dict.fromkeys(source for limit in limits for source in governing_sources(limit)))
    return (BATHER_DEMAND,)


def _check_secondary(sized: SizedSystem, context: Context) -> None:
    sheet, plan, kinds = sized.sheet, sized.system.secondary, sized.system.kinds
    has = plan.kind is not SecondaryDisinfection.NONE
    remedy = "Choose ultraviolet or ozone treatment for this system."
    duty(
        sheet, "secondary_required", "Secondary disinfection", _required(sized, context), has, remedy, "secondary_flow"
    )
    if not has:
        return
    log = LIMIT_KINDS["secondary_log"]
    limit = context.strictest(sheet, log.key, kinds, {})
    if isinstance(limit, Worked):
        chosen = given(plan, "log_reduction")
        remedy = "Choose treatment with a higher log reduction."
        held_to(
            sheet, log.key, log.label, "secondary_flow", log.sense, limit, remedy, value=chosen, measure=log.measure
        )
    if "secondary_flow_by_dilution" in sheet.figures:
        title, figure = "Secondary treatment flow within the recirculation", "secondary_flow"
        remedy = "Raise the design flow, or give secondary treatment a loop of its own."
        limit = sheet["design_flow"]
        held_to(sheet, "secondary_flow", title, figure, Sense.AT_MOST, limit, remedy, sources=(REACTOR_IN_LINE,))


def _required(sized: SizedSystem, context: Context) -> Value:
    """The duty of secondary disinfection: of the first kind of water that has one, else the last answer."""
    answer: Value = Missing("The code basis is silent on secondary disinfection.", silent=True)
    for body in sized.bodies:
        attraction = body.node
        assert isinstance(attraction, Attraction)
        facts = zone_facts(body, attraction, Missing("")) | dict(terms_of(sized.system).facts)
        for kind in attraction.kinds:
            found = context.limit(sized.sheet, "secondary_required", kind, facts)
            if isinstance(found, Worked):
                answer = found
                if found:
                    return found
    return answer


def _check_surge(sized: SizedSystem, context: Context) -> None:
    sheet, system = sized.sheet, sized.system
    chosen = usable_volume(system)
    if chosen is None or not overflowing(sized.bodies):
        return
    limit = context.strictest(sheet, "surge_per_area", surge_kinds(sized.bodies), {})
    if isinstance(limit, Worked):
        needed = turnover.tank_volume_by_area(surge_surface(sheet, sized.bodies), limit)
        held_to(
            sheet,
            "surge_per_area",
            "Surge capacity",
            "",
            Sense.AT_LEAST,
            needed,
            "Enlarge the surge tank.",
            value=chosen,
            measure=VOLUME,
            sources=governing_sources(limit),
        )

"""Checks of the code's limits: each with its value, its limit, its clause and what would put it right."""

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.design_attraction import terms_of
from waterpark_designer.engine.design_system import SizedSystem, system_facts
from waterpark_designer.engine.design_zone import zone_facts
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.formulas import turnover
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing, Value, Worked, governing_sources, leaf
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.kinds import PrimaryDisinfection, SecondaryDisinfection
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, Sense
from waterpark_designer.sources import ARITHMETIC, BATHER_DEMAND, Provenance, Source
from waterpark_designer.units import RATIO, Measure

SLACK = 1e-6
REACTOR_IN_LINE = Source("The reactor stands in the recirculation line", Provenance.COMMON_PRACTICE)


def compare(
    sheet: Sheet,
    key: str,
    title: str,
    figure: str,
    value: Value,
    limit: Value,
    sense: Sense,
    measure: Measure,
    remedy: str,
    sources: tuple[Source, ...] = (),
) -> Finding:
    """One check of a value against a limit; silent where there is no limit, unknown where there is no value."""
    node = sheet.node.id
    if isinstance(limit, Missing):
        status = Status.SILENT if limit.silent else Status.UNKNOWN
        return Finding(node, key, title, status, figure, _plain(value), None, measure, sense.value, remedy=limit.needs)
    sources = sources or governing_sources(limit) or (limit.step.source,)
    clause = "; ".join(source.text for source in sources)
    provenance = "; ".join(dict.fromkeys(source.provenance.value for source in sources))
    if isinstance(value, Missing):
        return Finding(
            node, key, title, Status.UNKNOWN, figure, None, limit, measure, sense.value, clause, provenance, value.needs
        )
    met = value <= limit * (1 + SLACK) if sense is Sense.AT_MOST else value >= limit * (1 - SLACK)
    return Finding(
        node,
        key,
        title,
        Status.MET if met else Status.NOT_MET,
        figure,
        float(value),
        limit,
        measure,
        sense.value,
        clause,
        provenance,
        "" if met else remedy,
    )


def _plain(value: Value) -> float | None:
    return float(value) if isinstance(value, Worked) else None


def against_limit(
    sheet: Sheet, quantity: str, figure: str, value: Value, limit: Value, remedy: str, title: str = ""
) -> Finding:
    """A check whose title, sense and measure are those of the limited quantity."""
    kind = LIMIT_KINDS[quantity]
    return compare(sheet, quantity, title or kind.label, figure, value, limit, kind.sense, kind.measure, remedy)


def check_body(body: Sheet, context: Context, sized: SizedSystem) -> None:
    """Checks of one body of water; findings go on its sheet."""
    attraction = body.node
    assert isinstance(attraction, Attraction)
    kind = LIMIT_KINDS["longest_turnover"]
    if "longest_turnover" in body.figures:
        body.findings.append(
            compare(
                body,
                "longest_turnover",
                kind.label,
                "turnover_time",
                body["turnover_time"],
                body["longest_turnover"],
                Sense.AT_MOST,
                kind.measure,
                "Raise the system's design flow, or its margin.",
            )
        )
    if "least_flow_by_load" in body.figures:
        flow = LIMIT_KINDS["least_basin_flow"]
        body.findings.append(
            compare(
                body,
                "least_flow",
                "Flow by surface, load and features",
                "design_flow",
                body["design_flow"],
                body["least_flow"],
                Sense.AT_LEAST,
                flow.measure,
                "Raise the system's design flow, or its margin.",
            )
        )
    if "tank_volume" in body.figures:
        body.findings.append(
            compare(
                body,
                "least_tank_volume",
                "Holding tank volume",
                "tank_volume",
                body["tank_volume"],
                body["least_tank_volume"],
                Sense.AT_LEAST,
                LIMIT_KINDS["tank_least_volume"].measure,
                "Enlarge the tank, or leave its volume blank to take the least.",
            )
        )
    _check_feature_ratio(body, attraction, context)
    _check_separate(body, attraction, context, sized)
    _check_occupancy(body)


def _check_feature_ratio(body: Sheet, attraction: Attraction, context: Context) -> None:
    limit = context.limit(body, "feature_ratio", attraction.kind, {})
    if isinstance(limit, Worked) and "recycled_feature_flow" in body.figures:
        ratio = turnover.feature_ratio(body["recycled_feature_flow"], body["design_flow"])
        body.findings.append(
            against_limit(
                body,
                "feature_ratio",
                "recycled_feature_flow",
                ratio,
                limit,
                "Filter more, or feed fewer features from unfiltered water.",
            )
        )


def _check_separate(body: Sheet, attraction: Attraction, context: Context, sized: SizedSystem) -> None:
    limit = context.limit(body, "separate_system", attraction.kind, {})
    if isinstance(limit, Missing) or not limit:
        return
    alone = len(sized.system.attractions) == 1
    source = limit.step.source
    body.findings.append(
        Finding(
            body.node.id,
            "separate_system",
            "Recirculation system of its own",
            Status.MET if alone else Status.NOT_MET,
            clause=source.text,
            provenance=source.provenance.value,
            remedy="" if alone else "Drag this body of water onto a system of its own.",
        )
    )


def _check_occupancy(body: Sheet) -> None:
    value = body["peak_occupancy"]
    if isinstance(value, Missing):
        advice = " For slide landings and surf pools enter the supplier's capacity." if value.silent else ""
        body.findings.append(
            Finding(
                body.node.id,
                "peak_occupancy",
                "Peak occupancy",
                Status.SILENT if value.silent else Status.UNKNOWN,
                "peak_occupancy",
                remedy=value.needs + advice,
            )
        )


def check_system(sized: SizedSystem, context: Context) -> None:
    """Checks of one system; findings go on its sheet."""
    sheet, system = sized.sheet, sized.system
    if not system.attractions:
        return
    found = sheet.findings
    found.append(
        against_limit(
            sheet,
            "filter_rate",
            "filter_rate",
            sheet["filter_rate"],
            sheet["filter_rate_limit"],
            "Add a filter, choose a larger one, or lower the flow.",
        )
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
        limit = context.limit(sheet, quantity, None, facts)
        if isinstance(limit, Worked):
            sheet.findings.append(
                against_limit(sheet, quantity, "backwash_rate", sheet["backwash_rate"], limit, remedy)
            )


def _check_feature_share(sized: SizedSystem, context: Context) -> None:
    sheet = sized.sheet
    if "circulation_feature_flow" not in sheet.figures:
        return
    limit = context.limit(sheet, "feature_share", None, {})
    if isinstance(limit, Worked):
        allowed = turnover.feature_flow_allowed(limit, sheet["least_flow"], sheet["design_flow"])
        kind = LIMIT_KINDS["least_basin_flow"]
        sheet.findings.append(
            compare(
                sheet,
                "feature_share",
                "Recirculation flow given to features",
                "circulation_feature_flow",
                sheet["circulation_feature_flow"],
                allowed,
                Sense.AT_MOST,
                kind.measure,
                "Give the features a pump of their own, or raise the design flow.",
                (limit.step.source,),
            )
        )


def _check_feed(sized: SizedSystem) -> None:
    """Installed chlorine output, or the hypochlorite feed where it stands alone, against the capacity needed."""
    sheet, plan = sized.sheet, sized.system.disinfection
    if plan.primary is PrimaryDisinfection.HYPOCHLORITE:
        return
    needed = sheet["feed_capacity"]
    sheet.findings.append(
        compare(
            sheet,
            "feed_capacity",
            "Chlorine output installed",
            "generator_capacity",
            sheet["generator_capacity"],
            needed,
            Sense.AT_LEAST,
            sheet.figures["feed_capacity"].kind.measure,
            "Add a generator or choose a larger one.",
            _feed_sources(sheet),
        )
    )


def _feed_sources(sheet: Sheet) -> tuple[Source, ...]:
    """The clauses of the feed rule that governs; the bathers' demand where it does."""
    needed = sheet["feed_capacity"]
    by_flow, by_volume = sheet["feed_by_flow"], sheet["feed_by_volume"]
    if isinstance(by_flow, Worked) and by_flow == needed:
        return (by_flow.step.values[1].step.source,)
    if isinstance(by_volume, Worked) and by_volume == needed:
        parts = (part for _, part in by_volume.step.parts if isinstance(part, Worked))
        return tuple(dict.fromkeys(part.step.values[1].step.source for part in parts))
    return (BATHER_DEMAND,)


def _check_secondary(sized: SizedSystem, context: Context) -> None:
    sheet, plan = sized.sheet, sized.system.secondary
    required = _secondary_required(sized, context)
    if isinstance(required, Worked) and required:
        has = plan.kind is not SecondaryDisinfection.NONE
        source = required.step.source
        sheet.findings.append(
            Finding(
                sheet.node.id,
                "secondary_required",
                "Secondary disinfection",
                Status.MET if has else Status.NOT_MET,
                "secondary_flow" if has else "",
                clause=source.text,
                provenance=source.provenance.value,
                remedy="" if has else "Choose ultraviolet or ozone treatment for this system.",
            )
        )
    if plan.kind is SecondaryDisinfection.NONE:
        return
    log = context.limit(sheet, "secondary_log", None, {})
    if isinstance(log, Worked):
        chosen = leaf(plan.log_reduction, "Log reduction chosen", ARITHMETIC, measure=RATIO)
        sheet.findings.append(
            against_limit(
                sheet, "secondary_log", "secondary_flow", chosen, log, "Choose treatment with a higher log reduction."
            )
        )
    kind = LIMIT_KINDS["least_basin_flow"]
    if "secondary_flow_by_dilution" in sheet.figures:
        sheet.findings.append(
            compare(
                sheet,
                "secondary_flow",
                "Secondary treatment flow within the recirculation",
                "secondary_flow",
                sheet["secondary_flow"],
                sheet["design_flow"],
                Sense.AT_MOST,
                kind.measure,
                "Raise the design flow, or give secondary treatment a loop of its own.",
                (REACTOR_IN_LINE,),
            )
        )


def _secondary_required(sized: SizedSystem, context: Context) -> Value:
    """The duty of the first body that has one; else the last answer."""
    answer: Value = Missing("The code basis is silent on secondary disinfection.")
    for body in sized.bodies:
        attraction = body.node
        assert isinstance(attraction, Attraction)
        facts = zone_facts(body, attraction, Missing("")) | dict(terms_of(sized.system).facts)
        found = context.limit(sized.sheet, "secondary_required", attraction.kind, facts)
        if isinstance(found, Worked):
            answer = found
            if found:
                return found
    return answer


def _check_surge(sized: SizedSystem, context: Context) -> None:
    sheet, system = sized.sheet, sized.system
    if not system.surge_volume:
        return
    limit = context.limit(sheet, "surge_per_area", None, {})
    if isinstance(limit, Worked):
        needed = turnover.tank_volume_by_area(sheet["surface_area"], limit)
        chosen = leaf(system.surge_volume, "Surge tank", ARITHMETIC)
        sheet.findings.append(
            compare(
                sheet,
                "surge_per_area",
                "Surge capacity",
                "",
                chosen,
                needed,
                Sense.AT_LEAST,
                LIMIT_KINDS["tank_least_volume"].measure,
                "Enlarge the surge tank.",
                (limit.step.source,),
            )
        )

"""The design of a whole site, keeping what an edit did not touch."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from waterpark_designer.engine.check_bodies import check_body, check_depths
from waterpark_designer.engine.check_features import check_features
from waterpark_designer.engine.check_hydraulics import check_hydraulics
from waterpark_designer.engine.check_systems import check_system
from waterpark_designer.engine.context import Context
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.design_attraction import AttractionStage, SystemTerms, stage_attraction, terms_of
from waterpark_designer.engine.design_system import SizedSystem, size_system
from waterpark_designer.engine.draw_up_schedule import equipment_of
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.findings import Finding
from waterpark_designer.engine.formulas import salt, turnover
from waterpark_designer.engine.schedule import ScheduleLine
from waterpark_designer.engine.sense_checks import note_overrides, sense_check_site, sense_check_system
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pump import PumpCurves
from waterpark_designer.engine.stock import Stock
from waterpark_designer.engine.worked import Missing, Value, given, sum_of_owners
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import walk
from waterpark_designer.rules.rule_set import CodeBasis
from waterpark_designer.sources import ARITHMETIC

SITE_TOTALS = (
    "electric_power",
    "energy_a_day",
    "energy_of_season",
    "energy_cost",
    "volume",
    "surface_area",
    "peak_occupancy",
    "bathers_a_day",
    "least_flow",
    "design_flow",
    "feature_flow",
    "filter_area",
    "backwash_water_a_day",
    "backwash_water_a_season",
    "feed_capacity",
    "chlorine_demand",
    "generator_capacity",
    "hydrogen",
    "dilution_air",
    "backup_feed",
    "hypochlorite_storage",
    "secondary_flow",
    "salt_mass",
    "salt_bags",
    "exchange_volume",
    "saline_loss",
    "generator_salt",
    "make_up_salt",
    "make_up_bags",
)
NO_SYSTEMS = Missing("Add a body of water to the site.")


@dataclass(frozen=True, slots=True)
class _Part:
    """The finished design of one system, as long as it and its number stay the same.

    `stages` are the first stages of its bodies by id, `totals` its figures that add up on the site, each with its name.
    """

    system: RecirculationSystem
    number: int
    stages: Mapping[str, tuple[AttractionStage, SystemTerms]]
    sheets: Mapping[str, Sheet]
    totals: Mapping[str, tuple[str, Value]]
    findings: tuple[Finding, ...]
    equipment: tuple[ScheduleLine, ...]
    curves: Mapping[str, PumpCurves]


@dataclass(frozen=True, slots=True)
class _Kept:
    """What the next design may keep: the parts, under the terms they were designed in."""

    context: Context
    parts: Mapping[str, _Part]

    def stage(self, body: Attraction, system: RecirculationSystem) -> tuple[AttractionStage, SystemTerms] | None:
        """The first stage of a body as it was kept; most are still on the system where they were."""
        likely = self.parts.get(system.id)
        if likely is not None and body.id in likely.stages:
            return likely.stages[body.id]
        return next((part.stages[body.id] for part in self.parts.values() if body.id in part.stages), None)


def design_site(site: Site, basis: CodeBasis, stock: Stock, previous: SiteDesign | None = None) -> SiteDesign:
    """The design of a site against a code basis with what there is to choose from.

    `previous` may be any earlier design; systems and bodies of water that are the same objects are not worked again.
    """
    kept = _usable(previous, Context(site, basis, stock))
    parts = {system.id: _part(system, number, kept) for number, system in enumerate(site.systems, 1)}
    sheet = _site_sheet(site, parts.values(), kept.context)
    sheets = {site.id: sheet}
    for part in parts.values():
        sheets.update(part.sheets)
    return SiteDesign(
        site=site,
        basis=basis,
        sheets=sheets,
        findings=(*sheet.findings, *(finding for part in parts.values() for finding in part.findings)),
        equipment=tuple(line for part in parts.values() for line in part.equipment),
        curves={node: curve for part in parts.values() for node, curve in part.curves.items()},
        kept=_Kept(kept.context, parts),
    )


def _usable(previous: SiteDesign | None, context: Context) -> _Kept:
    """What can be kept of an earlier design: nothing, where the site's own terms have changed."""
    if previous is not None and isinstance(previous.kept, _Kept) and previous.kept.context.same_as(context):
        return previous.kept
    return _Kept(context, {})


def _part(system: RecirculationSystem, number: int, kept: _Kept) -> _Part:
    old = kept.parts.get(system.id)
    if old is not None and old.system is system and old.number == number:
        return old
    terms = terms_of(system)
    stages = {body.id: _stage(body, system, terms, kept) for body in system.attractions}
    sized = size_system(system, [stages[body.id][0] for body in system.attractions], kept.context)
    return _finished(sized, number, stages, kept.context)


def _stage(
    body: Attraction, system: RecirculationSystem, terms: SystemTerms, kept: _Kept
) -> tuple[AttractionStage, SystemTerms]:
    old = kept.stage(body, system)
    if old is not None and old[0].attraction is body and old[1] == terms:
        return old
    return stage_attraction(body, terms, kept.context), terms


def _finished(
    sized: SizedSystem, number: int, stages: Mapping[str, tuple[AttractionStage, SystemTerms]], context: Context
) -> _Part:
    """Checks, totals and schedule of a sized system, and its sheets by node."""
    below = tuple(sheet.continued() for sheet in sized.below)
    sized = replace(sized, below=below)
    for body in sized.bodies:
        check_body(body, context, sized)
    check_depths(context, sized)
    check_system(sized, context)
    check_hydraulics(sized, context)
    check_features(sized)
    all_sheets = _with_idle_runs((sized.sheet, *sized.bodies, *below), sized.system)
    for sheet in all_sheets:
        note_overrides(sheet)
    sense_check_system(sized)
    figures = sized.sheet.figures if sized.system.attractions else {}
    return _Part(
        system=sized.system,
        number=number,
        stages=stages,
        sheets={sheet.node.id: sheet for sheet in all_sheets},
        totals={key: (sized.system.name, sized.sheet[key]) for key in SITE_TOTALS if key in figures},
        findings=tuple(finding for sheet in all_sheets for finding in sheet.findings),
        equipment=equipment_of(sized, number),
        curves=sized.curves,
    )


def _with_idle_runs(sheets: tuple[Sheet, ...], system: RecirculationSystem) -> tuple[Sheet, ...]:
    """The sheets and blank ones of pipe runs that nothing flows through, so that every node has one."""
    known = {sheet.node.id for sheet in sheets}
    return (*sheets, *(Sheet(node) for node in walk(system) if node.id not in known))


def _site_sheet(site: Site, parts: Collection[_Part], context: Context) -> Sheet:
    """Totals of the site: sums over its systems of every figure that adds up."""
    sheet = Sheet(site)
    for key in SITE_TOTALS:
        kind = FIGURE_KINDS[key]
        values = [part.totals[key] for part in parts if key in part.totals]
        if values:
            sheet.record(key, sum_of_owners(kind.label, values, kind.measure, ARITHMETIC))
        elif key in ALWAYS:
            sheet.record(key, NO_SYSTEMS)
    sheet.work("salt_pallets", salt.whole_pallets, sheet["salt_bags"], given(site.salt, "bags_per_pallet"))
    sheet.work("turnover_time", turnover.turnover_time, sheet["volume"], sheet["design_flow"])
    sense_check_site(sheet, site, context.basis.unknown)
    return sheet


ALWAYS = frozenset(
    (
        "volume",
        "surface_area",
        "peak_occupancy",
        "design_flow",
        "filter_area",
        "feed_capacity",
        "salt_mass",
        "salt_bags",
    )
)

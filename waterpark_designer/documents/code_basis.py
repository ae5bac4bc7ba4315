"""What the design rests on: limits in use, local amendments, overrides, and where the code basis is silent."""

from collections.abc import Iterable
from dataclasses import replace

from waterpark_designer.documents.checks import findings_table
from waterpark_designer.documents.document import Section, code_basis_lines
from waterpark_designer.documents.table import (
    DASH,
    Cell,
    Column,
    Number,
    Row,
    Table,
    count,
    number,
    without_blank_columns,
)
from waterpark_designer.documents.tree import places
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Status
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, Sense
from waterpark_designer.rules.rule_set import Limit
from waterpark_designer.sources import Provenance
from waterpark_designer.units import COUNT, UnitSystem

SILENT = "Where the code basis is silent"
LIMITS = "Limits in use"
AMENDMENT = Provenance.AMENDMENT


def code_basis_sections(design: SiteDesign, system: UnitSystem) -> tuple[Section, ...]:
    """Everything a reviewer asks about the grounds of a design."""
    silent = replace(
        without_blank_columns(findings_table(design, (Status.SILENT,), SILENT)),
        empty="No check found the code basis silent.",
    )
    return (
        Section("Code basis", (order_table(design), amendments_table(design), overrides_table(design)), level=2),
        Section(LIMITS, (limits_table(design, system),), level=2),
        Section(SILENT, (silent,), level=2),
    )


def order_table(design: SiteDesign) -> Table:
    """The code basis in its order."""
    rows = tuple(Row((str(place), line)) for place, line in enumerate(code_basis_lines(design), 1))
    return Table(
        "Code basis, in order",
        (Column("Order", weight=0.4), Column("Rule set", weight=6)),
        rows,
        notes=("The first that states a limit gives it. Where none does, nothing is assumed in its place.",),
        empty="No rule set is chosen: every limit is silent.",
    )


def amendments_table(design: SiteDesign) -> Table:
    """Local amendments with their reasons."""
    columns = (
        Column("Limit", weight=2),
        Column("Applies to", weight=2),
        Column("Amended to", weight=1.2),
        Column("Reason", weight=3.5),
        Column("Used at", COUNT, weight=0.7),
    )
    rows = tuple(
        Row(
            (
                LIMIT_KINDS[limit.quantity].label,
                _kinds_text(limit),
                limit_cell(limit),
                limit.clause,
                _uses(design, limit),
            )
        )
        for limit in design.basis.limits
        if limit.provenance is AMENDMENT
    )
    return Table("Local amendments", columns, rows, empty="No local amendments.")


def limits_table(
    design: SiteDesign, system: UnitSystem, provenances: Iterable[Provenance] = (), title: str = LIMITS
) -> Table:
    """The limits that bind somewhere in this design; of some provenances only, where these are named."""
    columns = (
        Column("Limit", weight=2),
        Column("Applies to", weight=2.0),
        Column("Value", weight=1.4),
        Column("Clause", weight=3.4),
        Column("Provenance", weight=1.2),
        Column("Used at", COUNT, weight=0.7),
    )
    wanted = frozenset(provenances)
    rows = tuple(
        Row(
            (
                LIMIT_KINDS[limit.quantity].label,
                applies_to_text(limit, system),
                limit_cell(limit),
                f"{limit.rule_set}, {limit.clause}",
                str(limit.provenance),
                _uses(design, limit),
            ),
            key=limit.key,
        )
        for limit in design.basis.limits
        if design.limit_uses.get(limit.key) and (not wanted or limit.provenance in wanted)
    )
    return Table(title, columns, rows, empty="No limit is in use.")


def overrides_table(design: SiteDesign) -> Table:
    """Every figure set by hand, with what was computed and why it is not used."""
    columns = (
        Column("Where", weight=2),
        Column("Figure", weight=2),
        Column("Used"),
        Column("Computed"),
        Column("Reason", weight=3.5),
    )
    found = places(design.site)
    rows = tuple(
        Row(
            (
                found[node].where,
                figure.kind.label,
                Number(figure.override.value, figure.kind.measure),
                DASH if figure.computed is None else number(figure.computed, figure.kind.measure),
                figure.override.reason,
            ),
            node=node,
        )
        for node, sheet in design.sheets.items()
        for figure in sheet.figures.values()
        if figure.override
    )
    return Table("Figures set by hand", columns, rows, empty="No figure is set by hand.")


def limit_cell(limit: Limit) -> Cell:
    """A limit with its sense: "at most 2.00 h", "required"."""
    kind = LIMIT_KINDS[limit.quantity]
    if kind.sense is Sense.REQUIRED:
        return "required" if limit.value else "not required"
    return Number(limit.value, kind.measure, before=kind.sense.value)


def applies_to_text(limit: Limit, system: UnitSystem) -> str:
    """The kinds of water a limit applies to, and its conditions in the units asked for."""
    return "; ".join((_kinds_text(limit), *(condition.text(system) for condition in limit.when)))


def _kinds_text(limit: Limit) -> str:
    return ", ".join(sorted(kind.label.lower() for kind in limit.applies_to)) or "all kinds of water"


def _uses(design: SiteDesign, limit: Limit) -> Cell:
    return count(len(design.limit_uses.get(limit.key, ())))

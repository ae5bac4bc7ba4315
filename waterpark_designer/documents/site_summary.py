"""The site summary: totals, bodies of water, systems, and what the design rests on."""

from dataclasses import replace

from waterpark_designer.documents.blocks import Highlights, Paragraph
from waterpark_designer.documents.checks import findings_table, tally_text
from waterpark_designer.documents.code_basis import amendments_table, limits_table, order_table, overrides_table
from waterpark_designer.documents.document import Section
from waterpark_designer.documents.figures import figure_cell, figure_cells, needed
from waterpark_designer.documents.grounds import Grounds, Notes
from waterpark_designer.documents.table import (
    Cell,
    Column,
    Number,
    Row,
    RowKind,
    Table,
    count,
    group,
    without_blank_columns,
)
from waterpark_designer.documents.tree import what_it_is
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Worked
from waterpark_designer.sources import Provenance
from waterpark_designer.units import UnitSystem

BODY_FIGURES = (
    "volume",
    "surface_area",
    "peak_occupancy",
    "longest_turnover",
    "least_flow",
    "turnover_time",
    "salt_bags",
)
SYSTEM_FIGURES = (
    "volume",
    "design_flow",
    "turnover_time",
    "filter_count",
    "filter_area",
    "filter_rate",
    "feed_capacity",
    "secondary_flow",
    "electric_power",
    "energy_of_season",
)
HEADINGS = {
    "volume": "Volume",
    "surface_area": "Surface",
    "peak_occupancy": "Bathers at peak",
    "longest_turnover": "Turnover allowed",
    "least_flow": "Least flow",
    "turnover_time": "Turnover",
    "salt_bags": "Start-up salt",
    "design_flow": "Design flow",
    "filter_count": "Filters",
    "filter_area": "Filter area",
    "filter_rate": "Filter rate",
    "feed_capacity": "Chlorine capacity",
    "secondary_flow": "Secondary flow",
    "electric_power": "Pumps draw",
    "energy_of_season": "Pump energy a season",
}
HIGHLIGHTS = {
    "volume": "Water on site",
    "design_flow": "Recirculation",
    "turnover_time": "All of it filtered every",
    "peak_occupancy": "Room in the water for",
    "feed_capacity": "Chlorine capacity",
    "filter_area": "Filter area",
    "salt_bags": "Salt on opening day",
    "electric_power": "Pumps draw",
    "energy_of_season": "Pump energy a season",
}
WHERE_THERE_ARE = ("electric_power", "energy_of_season")
"""Told of a site once its pumps have pipes."""
TANKS_TOO = "Start-up salt of the site counts the water in surge tanks and pipes too; see the salt schedule."
CONFIRM = "Limits in use that are to be confirmed"
TO_CONFIRM = (Provenance.MEMORY, Provenance.SECONDARY)
LOOK_AT = "Checks to look at"
TO_LOOK_AT = (Status.NOT_MET, Status.CAUTION, Status.UNKNOWN)


def summary_sections(design: SiteDesign, system: UnitSystem) -> tuple[Section, ...]:
    """The site for whoever reads one document only."""
    confirm = limits_table(design, system, TO_CONFIRM, CONFIRM)
    return (
        Section("Site summary", (Paragraph(opening(design)), highlights(design))),
        Section("Bodies of water", (bodies_table(design, system),), level=2),
        Section("Recirculation systems", (systems_table(design, system),), level=2),
        Section(LOOK_AT, (Paragraph(tally_text(design)), *_open_findings(design)), level=2),
        Section("Site totals", (totals_table(design, system),), level=2),
        Section(
            "What the design rests on",
            (order_table(design), amendments_table(design), overrides_table(design)),
            level=2,
        ),
        *((Section(CONFIRM, (confirm,), level=2),) if confirm.rows else ()),
    )


def opening(design: SiteDesign) -> str:
    """The site in one sentence."""
    systems = design.site.systems
    bodies = sum(len(one.attractions) for one in systems)
    water = "body of water" if bodies == 1 else "bodies of water"
    loops = "recirculation system" if len(systems) == 1 else "recirculation systems"
    return f"{bodies} {water} on {len(systems)} {loops}."


def highlights(design: SiteDesign) -> Highlights:
    """The totals that a client asks for first, and the tally of checks not met."""
    sheet = design.sheets[design.site.id]
    figures = []
    for key, label in HIGHLIGHTS.items():
        if key in WHERE_THERE_ARE and key not in sheet.figures:
            continue
        value = sheet[key]
        figures.append((label, Number(float(value), FIGURE_KINDS[key].measure) if isinstance(value, Worked) else None))
    return Highlights((*figures, ("Checks not met", count(design.count(Status.NOT_MET)))))


def totals_table(design: SiteDesign, system: UnitSystem) -> Table:
    """The site's own figures."""
    notes, grounds = Notes(system), Grounds(design)
    sheet, order = design.sheets[design.site.id], tuple(FIGURE_KINDS)
    rows = tuple(
        Row(
            (
                figure.kind.label,
                _with_currency(figure_cell(design, design.site.id, key), design.site.currency),
                notes.refer(grounds.of_figures(design.site.id, (key,))),
                figure.kind.definition,
            ),
            node=design.site.id,
            key=key,
        )
        for key, figure in sorted(sheet.figures.items(), key=lambda item: order.index(item[0]))
        if not figure.kind.minor
    )
    columns = (
        Column("Figure", weight=2.4),
        Column("Whole site", weight=1.4, numeric=True, with_units=True),
        Column("Notes", weight=0.7),
        Column("Meaning", weight=4),
    )
    waits = tuple(
        f"What stands as a dash needs: {need}" for need in needed(design, design.site.id, tuple(sheet.figures))
    )
    return Table("Site totals", columns, rows, notes=(*waits, *notes.lines))


def _with_currency(cell: Cell, currency: str) -> Cell:
    return replace(cell, before=currency) if isinstance(cell, Number) and cell.measure.is_money else cell


def bodies_table(design: SiteDesign, system: UnitSystem) -> Table:
    """Every body of water by system, with its key figures."""
    notes, grounds = Notes(system), Grounds(design)
    rows = []
    for one in design.site.systems:
        rows.append(group(one.name, one.id))
        rows += [
            Row(
                (
                    body.name,
                    what_it_is(body),
                    *figure_cells(design, body.id, BODY_FIGURES),
                    notes.refer(grounds.of_figures(body.id, BODY_FIGURES)),
                ),
                node=body.id,
            )
            for body in one.attractions
        ]
    site = design.site.id
    rows.append(Row(("Site", "", *figure_cells(design, site, BODY_FIGURES), ""), RowKind.TOTAL, site))
    columns = (
        Column("Body of water", weight=2.2),
        Column("Kind", weight=1.8),
        *_figure_columns(BODY_FIGURES),
        Column("Notes", weight=0.7),
    )
    more_water = any(one.surge_volume or one.piping_volume for one in design.site.systems)
    told = (TANKS_TOO,) if more_water and design.value(site, "salt_bags") else ()
    return Table("Bodies of water", columns, tuple(rows), notes=(*told, *notes.lines))


def systems_table(design: SiteDesign, system: UnitSystem) -> Table:
    """Every recirculation system with its key figures."""
    notes, grounds = Notes(system), Grounds(design)
    rows = [
        Row(
            (
                one.name,
                *figure_cells(design, one.id, SYSTEM_FIGURES),
                notes.refer(grounds.of_figures(one.id, SYSTEM_FIGURES)),
            ),
            node=one.id,
        )
        for one in design.site.systems
    ]
    site = design.site.id
    rows.append(Row(("Site", *figure_cells(design, site, SYSTEM_FIGURES), ""), RowKind.TOTAL, site))
    columns = (Column("System", weight=2.2), *_figure_columns(SYSTEM_FIGURES), Column("Notes", weight=0.7))
    return without_blank_columns(Table("Recirculation systems", columns, tuple(rows), notes=notes.lines))


def _figure_columns(keys: tuple[str, ...]) -> tuple[Column, ...]:
    return tuple(Column(HEADINGS[key], FIGURE_KINDS[key].measure) for key in keys)


def _open_findings(design: SiteDesign) -> tuple[Table, ...]:
    table = findings_table(design, TO_LOOK_AT, LOOK_AT)
    return (table,) if table.rows else ()

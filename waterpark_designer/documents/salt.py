"""The salt schedule: start-up salt by system and body of water, and what a season takes."""

from waterpark_designer.documents.blocks import Paragraph
from waterpark_designer.documents.document import Section
from waterpark_designer.documents.figures import figure_cell, figure_cells, needed
from waterpark_designer.documents.grounds import Grounds, Notes
from waterpark_designer.documents.safety import SALT_CAUTIONS
from waterpark_designer.documents.table import Cell, Column, Number, Row, RowKind, Table, group, without_blank_columns
from waterpark_designer.documents.tree import places
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.worked import Worked
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.units import BAGS, MASS, SALINITY, VOLUME, UnitSystem, nominal

START_UP = ("salt_mass", "salt_bags", "salt_pallets", "exchange_volume")
TANKS = "Surge tank and pipes"
SEASON = ("saline_loss", "salt_from_chlorine", "make_up_salt", "generator_salt", "make_up_bags", "lasting_salinity")


def salt_sections(design: SiteDesign, system: UnitSystem) -> tuple[Section, ...]:
    """Start-up salt, the season's salt, and what to mind."""
    return (
        Section("Salt schedule", (Paragraph(_how_bought(design, system)), start_up_table(design, system))),
        Section("Salt for a season", (season_table(design, system),), level=2),
        Section("What to mind", SALT_CAUTIONS, level=2),
    )


def start_up_table(design: SiteDesign, system: UnitSystem) -> Table:
    """Salt that brings each body of water from its measured to its target salinity."""
    columns = (
        Column("Body of water", weight=2.6),
        _figure_column("volume", "Volume"),
        Column("Measured", SALINITY),
        Column("Target", SALINITY),
        _figure_column("salt_mass", "Salt"),
        _figure_column("salt_bags", "Bags"),
        _figure_column("salt_pallets", "Pallets"),
        _figure_column("exchange_volume", "Water to exchange"),
        Column("Notes", weight=0.6),
    )
    notes, grounds = Notes(system), Grounds(design)
    rows = [row for one in design.site.systems for row in _system_rows(design, one, system, notes, grounds)]
    rows.append(_row(design, design.site.id, "Site", notes, grounds, RowKind.TOTAL))
    told = (*_of_tanks(design, system), *notes.lines, *_needs(design, START_UP))
    return without_blank_columns(Table("Start-up salt", columns, tuple(rows), notes=told))


def season_table(design: SiteDesign, system: UnitSystem) -> Table:
    """Salt that each system takes over a season, and where its salinity drifts."""
    columns = (
        Column("System", weight=2.2),
        _figure_column("saline_loss", "Salt water lost"),
        _figure_column("salt_from_chlorine", "Salt left by chlorine"),
        _figure_column("make_up_salt", "Make-up salt"),
        _figure_column("generator_salt", "Salt fed to generators"),
        _figure_column("make_up_bags", "Bags"),
        _figure_column("lasting_salinity", "Salinity drifts to"),
        Column("Notes", weight=0.6),
    )
    notes, grounds = Notes(system), Grounds(design)
    rows = []
    for one in (*design.site.systems, design.site):
        title, kind = ("Site", RowKind.TOTAL) if one is design.site else (one.name, RowKind.BODY)
        refer = notes.refer(grounds.of_figures(one.id, SEASON)) if kind is RowKind.BODY else ""
        rows.append(Row((title, *figure_cells(design, one.id, SEASON), refer), kind, one.id))
    days = f"{design.site.operation.season / 86400.0:.0f}"
    told = f"A season is {days} days of operation. Bags hold make-up and generator salt together."
    notes_told = (told, *notes.lines, *_needs(design, SEASON))
    return without_blank_columns(Table("Salt for a season", columns, tuple(rows), notes=notes_told))


def _of_tanks(design: SiteDesign, system: UnitSystem) -> tuple[str, ...]:
    """What the volumes of a system leave out, where its salt counts it."""
    if not any(_tank_row(design, one, system) for one in design.site.systems):
        return ()
    return ("Volumes of systems and site are those of their bodies of water; salt and bags count tanks and pipes too.",)


def _figure_column(key: str, heading: str) -> Column:
    return Column(heading, FIGURE_KINDS[key].measure)


def _how_bought(design: SiteDesign, system: UnitSystem) -> str:
    salt = design.site.salt
    bag = nominal(MASS).phrase(salt.bag_mass, system)
    return (
        f"Bags of {bag}, {salt.bags_per_pallet} to a pallet, {salt.purity * 100:.4g} % sodium chloride. "
        "Bags and pallets are whole and rounded up, for each body of water and for the site."
    )


def _system_rows(
    design: SiteDesign, one: RecirculationSystem, system: UnitSystem, notes: Notes, grounds: Grounds
) -> list[Row]:
    bodies = [_body_row(design, body, notes, grounds) for body in one.attractions]
    total = _row(design, one.id, "Together", notes, grounds, RowKind.TOTAL)
    return [group(one.name, one.id), *bodies, *_tank_row(design, one, system), total]


def _tank_row(design: SiteDesign, one: RecirculationSystem, system: UnitSystem) -> tuple[Row, ...]:
    """Salt of the water in surge tank and pipes: what a system's salt has besides that of its bodies."""
    figures = design.sheets[one.id].figures
    mass, bags = (_besides_bodies(figures.get(key), one) for key in ("salt_mass", "salt_bags"))
    if mass is None or bags is None:
        return ()
    # Its water stands beside its name, since the volumes below are those of the bodies alone.
    title = f"{TANKS}, {VOLUME.phrase(one.surge_volume + one.piping_volume, system)}"
    return (Row((title, "", "", "", Number(mass, MASS), Number(bags, BAGS), "", "", ""), node=one.id),)


def _besides_bodies(figure: Figure | None, system: RecirculationSystem) -> float | None:
    """The part of a system's total that follows those of its bodies; None where there is none or it is set by hand."""
    if figure is None or figure.override or not isinstance(figure.value, Worked):
        return None
    parts = figure.value.step.parts[len(system.attractions) :]
    return float(parts[0][1]) if parts else None


def _body_row(design: SiteDesign, body: Attraction, notes: Notes, grounds: Grounds) -> Row:
    salinities: tuple[Cell, ...] = (Number(body.measured_salinity, SALINITY), Number(body.target_salinity, SALINITY))
    return Row(
        (
            body.name,
            figure_cell(design, body.id, "volume"),
            *salinities,
            *figure_cells(design, body.id, START_UP),
            notes.refer(grounds.of_figures(body.id, START_UP)),
        ),
        node=body.id,
    )


def _row(design: SiteDesign, node: str, title: str, notes: Notes, grounds: Grounds, kind: RowKind) -> Row:
    refer = notes.refer(ground for ground in grounds.of_figures(node, START_UP) if ground.node == node)
    return Row(
        (title, figure_cell(design, node, "volume"), "", "", *figure_cells(design, node, START_UP), refer), kind, node
    )


def _needs(design: SiteDesign, keys: tuple[str, ...]) -> tuple[str, ...]:
    """What stands in the way of the figures shown as a dash."""
    found = places(design.site)
    nodes = (node for node, place in found.items() if place.depth in (1, 2))
    sentences = (f"{found[node].where}: {need}" for node in nodes for need in needed(design, node, keys))
    return tuple(dict.fromkeys(sentences))

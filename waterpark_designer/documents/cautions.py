"""The cautions document: each danger with what this site has of it."""

from waterpark_designer.documents import safety
from waterpark_designer.documents.blocks import Paragraph
from waterpark_designer.documents.circuits import circuits
from waterpark_designer.documents.document import Section
from waterpark_designer.documents.figures import figure_cells
from waterpark_designer.documents.grounds import Grounds, Notes
from waterpark_designer.documents.openings import openings_table
from waterpark_designer.documents.pumps import motors_table
from waterpark_designer.documents.table import Column, Row, Table
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.kinds import AttractionKind, FeatureKind
from waterpark_designer.model.site import Site
from waterpark_designer.model.walk import walk
from waterpark_designer.units import UnitSystem


def cautions_sections(design: SiteDesign, system: UnitSystem) -> tuple[Section, ...]:
    """Every topic, those that the site's own figures bear on with these figures."""
    hydrogen = _site_table(
        design,
        system,
        "Hydrogen on this site",
        ("generator_capacity", "hydrogen", "dilution_air"),
        "No system of this site makes its chlorine.",
    )
    store = _site_table(
        design,
        system,
        "Hypochlorite on this site",
        ("backup_feed", "hypochlorite_storage", "hypochlorite_tank"),
        "No system of this site stores hypochlorite.",
    )
    salt = _site_table(
        design,
        system,
        "Salt to be handled on this site",
        ("salt_mass", "salt_bags", "salt_pallets", "make_up_bags"),
        "This site takes no salt.",
    )
    river = safety.RIVER_JETS if _has_river(design.site) else ()
    return (
        Section("Cautions", (Paragraph(safety.DEFERS),)),
        Section("Chlorine and acid", safety.CHLORINE_AND_ACID, level=2),
        Section("Hypochlorite and chemical storage", (*safety.STORAGE, store), level=2),
        Section("Hydrogen", (*safety.HYDROGEN, hydrogen), level=2),
        Section("Electricity", safety.ELECTRICITY, level=2),
        Section("Pumps and motors", (*safety.PUMPS, motors_table(circuits(design), design)), level=2),
        Section("Suction entrapment", (*safety.SUCTION, *river, openings_table(design, system)), level=2),
        Section("Features", safety.FEATURE_WATER, level=2),
        Section("Confined spaces", safety.CONFINED, level=2),
        Section("Salt", (*safety.SALT_CAUTIONS, salt), level=2),
    )


def _has_river(site: Site) -> bool:
    """Whether people may stand and float over the intakes of a current."""
    rivers = (node for node in walk(site) if isinstance(node, Attraction) and AttractionKind.LAZY_RIVER in node.kinds)
    jets = (node for node in walk(site) if isinstance(node, Feature) and node.kind is FeatureKind.CURRENT_JETS)
    return any(rivers) or any(jets)


def _site_table(design: SiteDesign, system: UnitSystem, title: str, keys: tuple[str, ...], empty: str) -> Table:
    """The figures by system, systems without any left out."""
    notes, grounds = Notes(system), Grounds(design)
    rows = tuple(
        Row((one.name, *figure_cells(design, one.id, keys), notes.refer(grounds.of_figures(one.id, keys))), node=one.id)
        for one in design.site.systems
        if any(key in design.sheets[one.id].figures for key in keys)
    )
    figures = tuple(Column(FIGURE_KINDS[key].label, FIGURE_KINDS[key].measure) for key in keys)
    columns = (Column("System", weight=2.0), *figures, Column("Notes", weight=0.6))
    return Table(title, columns, rows, notes=notes.lines, empty=empty)

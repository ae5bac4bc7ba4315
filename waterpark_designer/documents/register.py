"""Every document the program can make, by name."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from waterpark_designer.documents.calculations import calculation_sections
from waterpark_designer.documents.cautions import cautions_sections
from waterpark_designer.documents.checks import checks_sections
from waterpark_designer.documents.document import Document, Section, particulars_of
from waterpark_designer.documents.equipment import equipment_sections
from waterpark_designer.documents.hydraulics import hydraulics_sections
from waterpark_designer.documents.salt import salt_sections
from waterpark_designer.documents.site_summary import summary_sections
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.units import UnitSystem

Builder = Callable[[SiteDesign, UnitSystem], tuple[Section, ...]]


@dataclass(frozen=True, slots=True)
class DocumentKind:
    """A document by name: its title, what it is for and what builds it."""

    name: str
    title: str
    description: str
    build: Builder


def _turned(build: Builder) -> Builder:
    """The same sections on pages that lie across, for wide tables."""

    def turned(design: SiteDesign, system: UnitSystem) -> tuple[Section, ...]:
        return tuple(replace(section, landscape=True) for section in build(design, system))

    return turned


PARTS = (
    DocumentKind(
        "site-summary",
        "Site summary",
        "Totals, bodies of water, systems, checks to look at, and what the design rests on.",
        _turned(summary_sections),
    ),
    DocumentKind(
        "equipment-schedule",
        "Equipment schedule",
        "Equipment by system with tags, quantities, duties, ratings and prices, and why each has its size.",
        _turned(equipment_sections),
    ),
    DocumentKind(
        "hydraulics",
        "Hydraulics and pumps",
        "Pipe runs, head, pumps with their curves, pipe take-off, openings and river current.",
        _turned(hydraulics_sections),
    ),
    DocumentKind(
        "salt-schedule",
        "Salt schedule",
        "Start-up salt for each body of water, and the salt of a season.",
        _turned(salt_sections),
    ),
    DocumentKind("checks", "Checks", "Every check by status, with limit, clause and remedy.", _turned(checks_sections)),
    DocumentKind(
        "cautions",
        "Cautions",
        "What can hurt someone at the plant, and what is usually done about it.",
        cautions_sections,
    ),
    DocumentKind(
        "calculation-sheets",
        "Calculation sheets",
        "The working of every figure of every part of the site, and the limits in use.",
        calculation_sections,
    ),
)


def _complete_set(design: SiteDesign, system: UnitSystem) -> tuple[Section, ...]:
    """All documents in one, each beginning on a new page."""
    sections: list[Section] = []
    for part in PARTS:
        first, *others = part.build(design, system)
        sections += [replace(first, new_page=bool(sections)), *others]
    return tuple(sections)


DOCUMENTS: dict[str, DocumentKind] = {
    kind.name: kind for kind in (*PARTS, DocumentKind("all", "Complete set", "All of the above in one.", _complete_set))
}


def build_document(design: SiteDesign, name: str, units: UnitSystem | None = None) -> Document:
    """A document of a design, in its site's units unless others are asked for. Raises KeyError for an unknown name."""
    kind, system = DOCUMENTS[name], units or design.site.units
    return Document(kind.name, kind.title, particulars_of(design, system), kind.build(design, system))

"""A document as a value: particulars for every page, and sections of blocks for the writers to draw."""

from dataclasses import dataclass

from waterpark_designer.documents.blocks import Caution, Heading, Highlights, Paragraph
from waterpark_designer.documents.chart import Chart
from waterpark_designer.documents.table import Table
from waterpark_designer.documents.workings import FigureWorking
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.units import UnitSystem

NOTICE = "Preliminary, for review by a licensed engineer"


@dataclass(frozen=True, slots=True)
class WorkedAlike:
    """Figures worked as those above them: one table on paper, each working in full in spreadsheets."""

    table: Table
    entries: tuple[FigureWorking, ...]


Block = Heading | Highlights | Paragraph | Caution | Chart | Table | FigureWorking | WorkedAlike


@dataclass(frozen=True, slots=True)
class Section:
    """Blocks under one title; `level` 1 stands alone, 2 belongs to the section before it.

    `landscape` has the pages turned, for wide tables; `listed` enters it in the contents of a long document.
    """

    title: str
    blocks: tuple[Block, ...]
    level: int = 1
    new_page: bool = False
    landscape: bool = False
    listed: bool = True


@dataclass(frozen=True, slots=True)
class Particulars:
    """What every page says of the project."""

    project: str
    client: str
    place: str
    number: str
    revision: str
    issue_date: str
    prepared_by: str
    code_basis: tuple[str, ...]
    units: UnitSystem

    @property
    def code_basis_text(self) -> str:
        return "; then ".join(self.code_basis) or "none chosen"

    def lines(self) -> tuple[tuple[str, str], ...]:
        """(what, text) of each particular; a blank one says so."""
        named = (
            ("Project", self.project),
            ("Client", self.client),
            ("Place", self.place),
            ("Number", self.number),
            ("Revision", self.revision),
            ("Date of issue", self.issue_date),
            ("Prepared by", self.prepared_by),
            ("Code basis", self.code_basis_text),
            ("Units", self.units.label),
            ("Status", NOTICE),
        )
        return tuple((what, text or "not stated") for what, text in named)


@dataclass(frozen=True, slots=True)
class Document:
    """A titled set of sections, in one unit system."""

    name: str
    title: str
    particulars: Particulars
    sections: tuple[Section, ...]


def particulars_of(design: SiteDesign, units: UnitSystem) -> Particulars:
    """The particulars of a design's pages in the units they are printed in."""
    site = design.site
    return Particulars(
        project=site.name,
        client=site.client,
        place=site.place,
        number=site.project_number,
        revision=site.revision,
        issue_date=site.issue_date,
        prepared_by=site.prepared_by,
        code_basis=code_basis_lines(design),
        units=units,
    )


def code_basis_lines(design: SiteDesign) -> tuple[str, ...]:
    """The code basis in its order: local amendments, rule sets, and rule sets that are not installed."""
    amendments = len(design.site.amendments)
    local = (f"{amendments} local amendment{'s' if amendments > 1 else ''}",) if amendments else ()
    unknown = tuple(f"{key} (not installed: its limits are not applied)" for key in design.basis.unknown)
    return (*local, *design.basis.titles, *unknown)

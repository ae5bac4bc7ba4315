"""The columns of the comparison table: which input or figure each shows, and under what heading."""

from dataclasses import dataclass
from typing import Any

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Missing
from waterpark_designer.gui.field_editors import read_number
from waterpark_designer.gui.sheet_columns import SheetColumn
from waterpark_designer.gui.site_rows import asking_findings, figure_of
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.units import UnitSystem, UnreadableQuantity, nominal

NOTHING = "—"
TONES = {Status.NOT_MET: "error", Status.CAUTION: "caution"}


class Column(SheetColumn):
    """One column: an input of the attraction, one of its figures, or its system."""

    __slots__ = ()
    rows_of = Attraction

    @property
    def tip(self) -> str:
        if not self.field and not self.figure:
            return "Recirculation system. Drag the body of water to another system in the tree."
        return super().tip or "Name of the body of water."


COLUMNS: tuple[Column, ...] = (
    Column("Body of water", 15, field="name"),
    Column("Kind", 10, field="kind"),
    Column("Volume", 9, figure="volume"),
    Column("Longest\nturnover", 6, figure="longest_turnover"),
    Column("Least\nflow", 6, figure="least_flow"),
    Column("Design\nflow", 6, figure="design_flow"),
    Column("Turnover", 6, figure="turnover_time"),
    Column("Peak\noccup.", 6, figure="peak_occupancy"),
    Column("Water\ntemp.", 5, field="water_temperature"),
    Column("Target\nsalinity", 6, field="target_salinity"),
    Column("Measured\nsalinity", 6, field="measured_salinity"),
    Column("Start-up\nsalt", 6, figure="salt_bags"),
    Column("Setting", 8, field="setting"),
    Column("Surface\narea", 6, figure="surface_area"),
    Column("System", 16),
)
"""Figures stand right after name and kind, the ones looked at most first, so that they are seen without scrolling."""


@dataclass(frozen=True, slots=True)
class Cell:
    """What a cell reads, and the name of its colour."""

    text: str
    tone: str


@dataclass(frozen=True, slots=True)
class Line:
    """One attraction with the system it stands on."""

    attraction: Attraction
    system: RecirculationSystem

    def cell(self, column: Column, design: SiteDesign) -> Cell:
        """The cell as it is read: a mark before what a check asks for, and the tone beside it."""
        status, text = self.status(column, design), self.text(column, design)
        if status is not None:
            return Cell(f"{status.mark} {text}", TONES.get(status, "ink"))
        dimmed = not column.field and (not column.figure or text == NOTHING)
        return Cell(text, "dim" if dimmed else "ink")

    def text(self, column: Column, design: SiteDesign) -> str:
        """The cell as it is read."""
        if column.figure:
            return self._figure_text(column.figure, design)
        if column.measure:
            return nominal(column.measure).text(getattr(self.attraction, column.field), design.site.units)
        words = self.words(column)
        # What a kind says in brackets stands in the tip; the column is narrow.
        return words.partition(" (")[0] if column.field == "kind" else words

    def words(self, column: Column) -> str:
        """A cell that holds words, in full."""
        if not column.field:
            return self.system.name
        value = getattr(self.attraction, column.field)
        return value if column.field == "name" else value.label

    def entry(self, column: Column, units: UnitSystem) -> Any:
        """The cell as it is edited: a number in full, a name, or the chosen kind."""
        value = getattr(self.attraction, column.field)
        return column.measure.entry_text(value, units) if column.measure else value

    def sort_key(self, column: Column, design: SiteDesign) -> tuple[bool, Any]:
        """What the column is sorted by; (True, …) where there is nothing to sort by."""
        if not column.measure:
            return False, self.text(column, design).casefold()
        if column.field:
            return False, getattr(self.attraction, column.field)
        figure = figure_of(self.attraction, design, column.figure)
        if figure is None or isinstance(figure.value, Missing):
            return True, 0.0
        return False, float(figure.value)

    def status(self, column: Column, design: SiteDesign) -> Status | None:
        """How the checks of the column's figure stand, where one asks for something."""
        return next(
            (
                finding.status
                for finding in asking_findings(self.attraction, design)
                if column.figure and finding.figure == column.figure
            ),
            None,
        )

    def tip(self, column: Column, design: SiteDesign) -> str:
        """What is needed, who set it by hand, which check fails; else what the column means."""
        figure = figure_of(self.attraction, design, column.figure) if column.figure else None
        lines = [column.tip] if column.measure else [self.words(column), column.tip]
        if figure is not None and isinstance(figure.value, Missing):
            lines.append(figure.value.needs)
        if figure is not None and figure.override is not None:
            lines.append(f"Set by hand: {figure.override.reason}")
        lines += [
            f"{finding.status.mark} {finding.title}: {finding.status.label}"
            for finding in asking_findings(self.attraction, design)
            if column.figure and finding.figure == column.figure
        ]
        return "\n".join(lines)

    def _figure_text(self, key: str, design: SiteDesign) -> str:
        figure = figure_of(self.attraction, design, key)
        if figure is None:
            return ""
        if isinstance(figure.value, Missing):
            return NOTHING
        text = figure.kind.measure.text(figure.value, design.site.units)
        return f"{text} *" if figure.override else text


def read_entry(column: Column, value: Any, units: UnitSystem) -> Any:
    """The value for the model of what was entered. Raises UnreadableQuantity, which says what would be right."""
    if column.field == "name":
        name = str(value).strip()
        if not 1 <= len(name) <= 200:
            raise UnreadableQuantity("A name needs between 1 and 200 letters.")
        return name
    if column.spec and column.measure:
        return read_number(column.spec, str(value), units)
    # Qt hands a choice back as plain text.
    return next(choice for choice, _ in column.spec.choices if choice == value) if column.spec else value


def lines_of(design: SiteDesign) -> list[Line]:
    """Every attraction of the site in the order of the tree."""
    return [Line(attraction, system) for system in design.site.systems for attraction in system.attractions]

"""One column of a table that is filled like a sheet: an entry or a figure of the nodes in its rows."""

from dataclasses import dataclass
from typing import ClassVar

from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.gui.field_spec import Entry, FieldSpec, specs_of
from waterpark_designer.model.node import Node
from waterpark_designer.units import Measure, UnitSystem


@dataclass(frozen=True, slots=True)
class SheetColumn:
    """An entry of the node (`field`), one of its figures (`figure`), or neither.

    `letters` is the room for its cells; a longer heading makes it wider.
    """

    rows_of: ClassVar[type[Node]] = Node

    heading: str
    letters: int
    field: str = ""
    figure: str = ""

    @property
    def spec(self) -> FieldSpec | None:
        """The entry's label, bounds and description; nothing for a figure."""
        return specs_of(self.rows_of)[self.field] if self.field else None

    @property
    def measure(self) -> Measure | None:
        """What the numbers of the column measure; nothing where it holds words or counts."""
        if self.figure:
            return FIGURE_KINDS[self.figure].measure
        return self.spec.measure if self.spec and self.spec.entry is Entry.QUANTITY else None

    @property
    def tip(self) -> str:
        if self.figure:
            return f"{FIGURE_KINDS[self.figure].label}: {FIGURE_KINDS[self.figure].definition}"
        return self.spec.description if self.spec else ""

    def unit(self, units: UnitSystem) -> str:
        """Symbol of the unit under the heading; nothing where there is none."""
        return self.measure.symbol(units) if self.measure else ""

    def title(self, units: UnitSystem) -> str:
        """Heading, with the unit on a line of its own."""
        return f"{self.heading}\n{self.unit(units)}".rstrip()

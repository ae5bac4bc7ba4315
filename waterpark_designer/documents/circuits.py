"""The circuits of a site: every pump that has pipe runs of its own, with the sheets of its runs in flow order."""

from collections.abc import Iterator
from dataclasses import dataclass

from waterpark_designer.documents.tree import places
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.hydraulics_of_system import OWN
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Value
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import PumpPlan
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import walk


@dataclass(frozen=True, slots=True)
class CircuitSheets:
    """One circuit: its owner's sheet, where it stands, and the sheets of its pipe runs."""

    sheet: Sheet
    where: str
    runs: tuple[Sheet, ...]

    @property
    def node(self) -> RecirculationSystem | Feature:
        assert isinstance(self.sheet.node, RecirculationSystem | Feature)
        return self.sheet.node

    @property
    def plan(self) -> PumpPlan:
        node = self.node
        return node.pump if isinstance(node, RecirculationSystem) else node.pump_plan

    @property
    def standby(self) -> int:
        """Pumps that stand by."""
        node = self.node
        return 1 if isinstance(node, RecirculationSystem) and node.standby_pump else 0

    def key_of_pump(self, key: str) -> str:
        """The key of a figure of this circuit's pump alone; a system's power has those of its features in it."""
        own = f"{OWN}{key}"
        return own if own in self.sheet.figures else key

    def of_pump(self, key: str) -> Value:
        """A figure of this circuit's pump alone."""
        return self.sheet[self.key_of_pump(key)]


FILTERS = "head_dirty"
"""Only circuits with filters have this figure."""


def circuits(design: SiteDesign) -> tuple[CircuitSheets, ...]:
    """Every circuit with a pump, systems before the features on their water."""
    return tuple(_circuits(design))


def _circuits(design: SiteDesign) -> Iterator[CircuitSheets]:
    found = places(design.site)
    for node in walk(design.site):
        if isinstance(node, RecirculationSystem | Feature) and "pump_flow" in design.sheets[node.id].figures:
            runs = tuple(design.sheets[run.id] for run in node.pipe_runs)
            yield CircuitSheets(design.sheets[node.id], found[node.id].where, runs)


def bodies(design: SiteDesign) -> Iterator[tuple[RecirculationSystem, Attraction]]:
    """Every body of water with its system."""
    for system in design.site.systems:
        for body in system.attractions:
            yield system, body

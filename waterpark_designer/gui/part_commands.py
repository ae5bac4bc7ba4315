"""What can be done to the parts of a site from the keyboard, a menu or a button; each is one undo step."""

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication

from waterpark_designer.gui.clipboard import part_from, paste, text_of
from waterpark_designer.gui.moves import shifted
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.edits import EditRefused, duplicate, remove
from waterpark_designer.model.kinds import AttractionKind, FeatureKind
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_points import add_attraction, add_part, new_feature, new_system, new_zone
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import parent_of, path_to


class PartCommands(QObject):
    """Adds to, and works on, the selected part of an open project."""

    refused = Signal(str)
    """Why nothing was done, in plain words."""

    def __init__(self, project: OpenProject, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.project = project

    def add_attraction(self, kind: AttractionKind, on_this_system: bool = False) -> None:
        """Add a body of water on a system of its own, or on the one that is selected."""
        system = self._within(RecirculationSystem) if on_this_system else None
        site, added = add_attraction(self.project.site, kind, system.id if system else None)
        self._done(f"Add {kind.label.lower()}", site, added)

    def add_system(self) -> None:
        part = new_system(self.project.site)
        self._done("Add system", add_part(self.project.site, self.project.site, part), part.id)

    def add_feature(self, kind: FeatureKind) -> None:
        self._add_to_attraction(f"Add {kind.label.lower()}", new_feature(kind, self.project.units))

    def add_zone(self) -> None:
        self._add_to_attraction("Add zone", new_zone(self.project.units))

    def duplicate(self) -> None:
        node = self.project.selected
        self._attempt(lambda: self._done(f"Duplicate {node.name}", *duplicate(self.project.site, node.id)))

    def delete(self) -> None:
        self._attempt(lambda: self._take_out("Delete"))

    def cut(self) -> None:
        def cut() -> None:
            text = text_of(self.project.selected)
            self._take_out("Cut")
            QGuiApplication.clipboard().setText(text)

        self._attempt(cut)

    def copy(self) -> None:
        self._attempt(lambda: QGuiApplication.clipboard().setText(text_of(self.project.selected)))

    def paste(self) -> None:
        def put() -> None:
            part = part_from(QGuiApplication.clipboard().text())
            site, pasted = paste(self.project.site, part, self.project.selection)
            self._done(f"Paste {part.name}", site, pasted)

        self._attempt(put)

    def move(self, step: int) -> None:
        """Move the selected part up (-1) or down (1)."""
        node = self.project.selected
        self._attempt(lambda: self.project.edit(f"Move {node.name}", shifted(self.project.site, node.id, step)))

    def _add_to_attraction(self, text: str, part: Node) -> None:
        attraction = self._within(Attraction)
        if attraction is None:
            self.refused.emit("Select a body of water first.")
        else:
            self._done(text, add_part(self.project.site, attraction, part), part.id)

    def _take_out(self, verb: str) -> None:
        node = self.project.selected
        after = remove(self.project.site, node.id)
        neighbour = _neighbour(self.project.site, node)
        self.project.edit(f"{verb} {node.name}", after)
        self.project.select(neighbour)

    def _done(self, text: str, after: Site, selected: str) -> None:
        self.project.edit(text, after)
        self.project.select(selected)

    def _attempt(self, work: Callable[[], None]) -> None:
        try:
            work()
        except EditRefused as refusal:
            self.refused.emit(str(refusal))

    def _within(self, sort: type[Node]) -> Node | None:
        """The selected part, or what holds it, that is of a sort."""
        path = path_to(self.project.site, self.project.selection)
        return next((node for node in reversed(path) if isinstance(node, sort)), None)


def _neighbour(site: Site, node: Node) -> str:
    """What to select once a node is gone: its next sibling, the one before, or what held it."""
    holder = parent_of(site, node.id) or site
    kin = [child for child in holder.children if type(child) is type(node)]
    place = kin.index(node)
    left = kin[place + 1 : place + 2] or kin[max(place - 1, 0) : place]
    return left[0].id if left else holder.id

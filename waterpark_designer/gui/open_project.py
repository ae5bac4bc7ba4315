"""The open project: the one door through which the window reads and edits a site.

Model objects never emit; this does. Every edit is a whole new site put on the undo stack, sharing all that did not
change with the one before it.
"""

from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.library import Library
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.walk import parent_of, path_to
from waterpark_designer.units import UnitSystem


class OpenProject(QObject):
    """The site on screen, its design, the selected node and the history of edits."""

    design_changed = Signal(object, object)
    """(SiteDesign before, SiteDesign now) after every edit, undo and redo."""
    selection_changed = Signal(str)
    """Id of the node now selected."""
    run_wanted = Signal(str)
    """Id of a pipe run that somebody wants to see; what it belongs to is selected."""
    file_changed = Signal()
    """Path or saved state changed."""

    def __init__(self, site: Site, library: Library, path: Path | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.library = library
        self.path = path
        self.design: SiteDesign = library.design(site)
        self.selection: str = site.id
        self.undo_stack = QUndoStack(self)
        self.undo_stack.cleanChanged.connect(self.file_changed)

    @property
    def site(self) -> Site:
        return self.design.site

    @property
    def units(self) -> UnitSystem:
        return self.site.units

    @property
    def selected(self) -> Node:
        return self.design.node(self.selection) or self.site

    def edit(self, text: str, after: Site) -> None:
        """Put a named edit on the undo stack, unless it changes nothing."""
        if after is not self.site and after != self.site:
            # Worked here and not in the command: Qt cannot carry an exception through the stack.
            design = self.library.design(after, self.design)
            self.undo_stack.push(_ReplaceSite(self, text, design))

    def select(self, node: str) -> None:
        """Select a node and tell every view; for a pipe run, what it belongs to."""
        found, run = self.design.node(node), ""
        if isinstance(found, PipeRun):
            run, found = node, parent_of(self.site, node)
        if found is not None and found.id != self.selection:
            self.selection = found.id
            self.selection_changed.emit(found.id)
        if run:
            self.run_wanted.emit(run)

    def adopt(self, design: SiteDesign) -> None:
        """Put this design on screen; only the undo stack calls it."""
        before, site = self.design, design.site
        self.design = design
        gone = design.node(self.selection) is None
        self.design_changed.emit(before, design)
        if gone:
            path = reversed(path_to(before.site, self.selection))
            self.select(next((node.id for node in path if design.node(node.id)), site.id))


class _ReplaceSite(QUndoCommand):
    """The only command: the whole site before and after, sharing branches.

    The design of the first time is at hand; later ones are worked again, mostly from what the screen holds already.
    """

    def __init__(self, project: OpenProject, text: str, design: SiteDesign) -> None:
        super().__init__(text)
        self._project, self._before, self._after = project, project.site, design.site
        self._first: SiteDesign | None = design

    def redo(self) -> None:
        design = self._first or self._design(self._after)
        self._first = None
        self._project.adopt(design)

    def undo(self) -> None:
        self._project.adopt(self._design(self._before))

    def _design(self, site: Site) -> SiteDesign:
        return self._project.library.design(site, self._project.design)

"""The panel at the right of the Lay out desk: the selected node's fields, its figures, its notes."""

from html import escape
from typing import Any

from PySide6.QtCore import QEvent, Qt, QTimer, Signal
from PySide6.QtGui import QFont, QShowEvent
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QVBoxLayout, QWidget

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.gui.entry_widgets import GrowingText, tip, words
from waterpark_designer.gui.field_spec import specs_of
from waterpark_designer.gui.figure_row import FigureRow
from waterpark_designer.gui.figures_panel import FiguresPanel
from waterpark_designer.gui.folding import rule
from waterpark_designer.gui.node_pages import SECTIONS, SitePage, page_for
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.property_editor import subject_of, try_edit
from waterpark_designer.gui.site_rows import counted
from waterpark_designer.gui.tab_order import focus_next_in
from waterpark_designer.gui.theme import role
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.edits import revise
from waterpark_designer.model.features import Feature
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import parent_of
from waterpark_designer.model.zones import Zone

LEAST_WIDTH = 300
TITLE_SCALE = 1.35
PAUSE_BETWEEN_PAGES = 100
"""Milliseconds."""
IN_LINE = "NameField { padding-left: 1px; }"
AT_REST = f"{IN_LINE} NameField:!focus {{ border-color: transparent; }}"


def kind_line(site: Site, node: Node) -> str:
    """What a node is and where it belongs, as rich text; the node that holds it is a link with its id."""
    holder = parent_of(site, node.id)
    where = f'<a href="{holder.id}">{escape(holder.name)}</a>' if holder is not None else ""
    if isinstance(node, Site):
        bodies = sum(len(system.attractions) for system in node.systems)
        systems = counted(len(node.systems), "recirculation system", "recirculation systems")
        return f"Site · {counted(bodies, 'body of water', 'bodies of water')} · {systems}"
    if isinstance(node, RecirculationSystem):
        shared = counted(len(node.attractions), "body of water", "bodies of water")
        return f"Recirculation system · {shared} · {where}"
    if isinstance(node, Attraction):
        return f"{escape(node.kind.label)} · {where} · {node.setting.label.lower()}s"
    if isinstance(node, Feature):
        return f"{escape(node.kind.label)} · {where}"
    assert isinstance(node, Zone) and isinstance(holder, Attraction)
    return f"Zone of {where} · {escape(holder.kind_of(node).label)}"


class NameField(GrowingText):
    """The title of the panel, which is the node's name and can be typed over."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(single=True, most_lines=10, parent=parent)
        self.setObjectName("name of the node")
        self.setAccessibleName("Name")
        font = QFont(self.font())
        font.setBold(True)
        font.setPointSizeF(font.pointSizeF() * TITLE_SCALE)
        self.setFont(font)
        self.document().setDocumentMargin(1)
        self.mark(False)

    def mark(self, invalid: bool) -> None:
        """Look like a title until somebody comes to it, or until something is wrong with the name."""
        super().mark(invalid)
        self.setStyleSheet(IN_LINE if invalid else AT_REST)


class NodePanel(QWidget):
    """Everything about the selected node."""

    node_requested = Signal(str)
    """Id of a node that somebody wants to see."""
    code_basis_requested = Signal()
    """Somebody wants to see or change the code basis."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.project = project
        self.setMinimumWidth(LEAST_WIDTH)
        self.pages: dict[type[Node], Any] = {}
        self._node = project.selection
        self.name = NameField()
        self.name_error = words("", "error")
        self.kind = words("", "dim")
        self.figures = FiguresPanel(project)
        self.notes = GrowingText(most_lines=12)
        self.notes_error = words("", "error")
        self._texts = {"name": (self.name, self.name_error), "notes": (self.notes, self.notes_error)}
        self.area = QScrollArea()
        self._lay_out()
        for field, (entry, error) in self._texts.items():
            error.hide()
            entry.committed.connect(lambda text, field=field: self._write(field, text))
            entry.restored.connect(lambda field=field: self._say(field, ""))
        self.kind.linkActivated.connect(self.node_requested)
        project.design_changed.connect(self._design_changed)
        project.selection_changed.connect(self._selection_changed)
        self._show()

    def _lay_out(self) -> None:
        self.kind.setTextFormat(Qt.TextFormat.RichText)
        self.notes.setAccessibleName("Notes")
        self.notes.setPlaceholderText("Remarks for whoever reads this next")
        content = QWidget()
        self._content = QVBoxLayout(content)
        self._content.setContentsMargins(14, 12, 14, 14)
        self._content.setSpacing(8)
        notes = role(QLabel("Notes"), "subheading")
        notes.setBuddy(self.notes)
        above, below = (self.name, self.name_error, self.kind, rule()), (notes, self.notes, self.notes_error)
        for widget in (*above, rule(), self.figures, rule(), *below):
            self._content.addWidget(widget)
        self._content.addStretch()
        self.area.setWidget(content)
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.area)

    @property
    def node(self) -> Node | None:
        """The node shown."""
        return self.project.design.node(self._node)

    def page(self, sort: type[Node]) -> Any:
        """The page of a sort of node, made when first needed."""
        if sort not in self.pages:
            made = page_for(self.project, sort)
            if isinstance(made, SitePage):
                made.code_basis_requested.connect(self.code_basis_requested)
            made.setParent(self.area.widget())
            self._content.insertWidget(4 + len(self.pages), made)
            self.pages[sort] = made
        return self.pages[sort]

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802
        """Once on screen, make the other pages between two events, so that the first look at one is quick."""
        super().showEvent(event)
        self._show()
        QTimer.singleShot(PAUSE_BETWEEN_PAGES, self, self._make_next_page)

    def _make_next_page(self) -> None:
        waiting = [sort for sort in SECTIONS if sort not in self.pages]
        if waiting:
            self.page(waiting[0]).hide()
            QTimer.singleShot(PAUSE_BETWEEN_PAGES, self, self._make_next_page)

    def changeEvent(self, event: QEvent) -> None:  # noqa: N802
        """A link keeps the colour that the theme had when its text was set."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            text = self.kind.text()
            self.kind.clear()
            self.kind.setText(text)

    def focusNextPrevChild(self, onwards: bool) -> bool:  # noqa: N802
        """Pages and figures are made when first shown, after the notes that stand below them."""
        return focus_next_in(self, onwards) or super().focusNextPrevChild(onwards)

    def commit(self) -> None:
        """Take what is typed and not taken yet."""
        self.name.commit()
        self.notes.commit()
        node = self.node
        if node is not None:
            self.page(type(node)).commit()

    def show_figure(self, key: str) -> None:
        """Open the working of a figure of the selected node and bring it on screen."""
        row = self.figures.open_figure(key)
        if row is not None:
            QTimer.singleShot(0, row, lambda: self._bring_on_screen(row))

    def _bring_on_screen(self, row: FigureRow) -> None:
        """Scroll so that the whole row is seen, or its top where it is taller than the panel."""
        row.mark.setFocus()
        bar = self.area.verticalScrollBar()
        content = self.area.widget()
        assert content is not None
        top = row.mapTo(content, row.rect().topLeft()).y()
        bottom = top + row.height() - self.area.viewport().height()
        if not bottom <= bar.value() <= top:
            bar.setValue(min(top, max(bottom, bar.value())) if bar.value() <= top else top)

    def _design_changed(self, before: SiteDesign, now: SiteDesign) -> None:
        if not self.isHidden() and now.node(self._node) is not None:
            self._show()

    def _selection_changed(self, node: str) -> None:
        self.commit()
        self._node = node
        self.area.verticalScrollBar().setValue(0)
        self.setUpdatesEnabled(False)
        self._show(afresh=True)
        self.setUpdatesEnabled(True)

    def _show(self, afresh: bool = False) -> None:
        """Show the node; name and notes that stay as they were keep what is being typed in them."""
        node = self.node
        if node is None:
            return
        site, units = self.project.site, self.project.units
        page = self.page(type(node))
        for other in self.pages.values():
            if other.isHidden() == (other is page):
                other.setVisible(other is page)
        for field, (entry, _) in self._texts.items():
            if afresh or getattr(node, field) != entry.shown:
                entry.show_text(getattr(node, field))
                self._say(field, "")
        self.name.setToolTip(tip(node.name))
        self.kind.setText(kind_line(site, node))
        page.show_node(node, units)
        self.figures.show_sheet(node, self.project.design.sheets[node.id], units)

    def _write(self, field: str, text: str) -> None:
        node = self.node
        if node is None:
            return
        spec = specs_of(type(node))[field]
        problem = self._problem_of(field, text, spec.longest)
        if not problem:
            step = "Rename" if field == "name" else "Change notes of"
            problem = try_edit(
                self.project,
                f"{step} {subject_of(self.project.site, node)}",
                lambda site: revise(site, node.id, **{field: text.strip() if field == "name" else text}),
            )
        self._say(field, problem)
        if not problem and (now := self.node) is not None:
            self._texts[field][0].show_text(getattr(now, field))

    def _problem_of(self, field: str, text: str, longest: int) -> str:
        if field == "name" and not text.strip():
            return "Give it a name."
        if len(text) > longest:
            return f"At most {longest:,} characters; this has {len(text):,}."
        return ""

    def _say(self, field: str, problem: str) -> None:
        """Say below the name or the notes what is wrong with them; nothing where all is well."""
        entry, error = self._texts[field]
        error.setText(problem)
        error.setVisible(bool(problem))
        entry.mark(bool(problem))

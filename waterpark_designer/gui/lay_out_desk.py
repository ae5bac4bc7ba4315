"""The engineer's desk: the tree at the left, all bodies of water in the middle, the selected part at the right."""

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QHBoxLayout,
    QLabel,
    QMenu,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.gui.checks_panel import width_while_bold
from waterpark_designer.gui.comparison_table import ComparisonTable
from waterpark_designer.gui.find_bar import FindBar
from waterpark_designer.gui.head_pane import HeadPane
from waterpark_designer.gui.node_panel import NodePanel
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.part_commands import PartCommands
from waterpark_designer.gui.part_menus import attraction_menu, feature_menu
from waterpark_designer.gui.pipe_pane import PipePane
from waterpark_designer.gui.short_label import ShortLabel
from waterpark_designer.gui.site_rows import site_words
from waterpark_designer.gui.site_tree import SiteTree
from waterpark_designer.gui.theme import role
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.walk import find

WIDTHS, NARROW_WIDTHS, NARROW = (280, 560, 370), (226, 556, 306), 1280
BODIES, PIPES, HEAD = range(3)
VIEWS = ("All bodies of water", "Pipe runs", "Head and pump")
LEAST_TREE, LEAST_TABLE = 210, 300
HINT = (
    "Nothing is laid out yet.\n\nAdd a body of water: it comes with a usual form and starting sizes, "
    "and with a recirculation system of its own. Drag it onto another system to share water."
)


class LayOutDesk(QWidget):
    """Three views of one site that always show the same selection."""

    refused = Signal(str)
    """Why something was not done, in plain words."""
    code_basis_requested = Signal()

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self.commands = PartCommands(project, self)
        self.tree = SiteTree(project)
        self.find_bar = FindBar(project)
        self.table = ComparisonTable(project)
        self.pipes = PipePane(project)
        self.head = HeadPane(project)
        self.panel = NodePanel(project)
        self.words = ShortLabel("dim")
        self.part_menu = QMenu(self)
        self.views = QButtonGroup(self)
        self._views = QStackedWidget()
        self._centre = QStackedWidget()
        self.splitter = QSplitter(Qt.Orientation.Horizontal)
        self._lay_out()
        self._connect(project)
        self._show_words(project.design)

    def show_figure(self, node: str, figure: str) -> None:
        """Select a node and open the working of one of its figures."""
        self._project.select(node)
        if isinstance(find(self._project.site, node), PipeRun):
            self.pipes.show_figure(node, figure)
        elif figure:
            self.show_view(self.view if self.view != PIPES else BODIES)
            self.panel.show_figure(figure)

    def focus_part(self, step: int) -> None:
        """Give the keyboard to the next of tree, table and editor (1), or to the one before (-1)."""
        middle = (self.table, self.pipes.table, self.head.table)[self.view]
        parts: list[QWidget] = [self.tree, middle, *([] if self.view == PIPES else [self.panel])]
        here = next(
            (
                place
                for place, part in enumerate(parts)
                if part.hasFocus() or part.isAncestorOf(self.focusWidget() or self)
            ),
            -1,
        )
        target = parts[(here + step) % len(parts)]
        (target.name if target is self.panel else target).setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _lay_out(self) -> None:
        centre = QWidget()
        column = QVBoxLayout(centre)
        column.setContentsMargins(14, 14, 14, 14)
        column.setSpacing(10)
        column.addLayout(self._switch())
        self._centre.addWidget(self.table)
        self._centre.addWidget(self._hint())
        for view in (self._centre, self.pipes, self.head):
            self._views.addWidget(view)
        column.addWidget(self._views, 1)
        centre.setMinimumWidth(LEAST_TABLE)
        for part in (self._left(), centre, self.panel):
            self.splitter.addWidget(part)
            self.splitter.setCollapsible(self.splitter.count() - 1, False)
        self.splitter.setStretchFactor(1, 1)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.splitter)

    def _switch(self) -> QHBoxLayout:
        """What stands in the middle: all bodies of water, or the pipes or the pump of one loop."""
        row = QHBoxLayout()
        row.setSpacing(0)
        for place, text in enumerate(VIEWS):
            button = role(QPushButton(text), "tab")
            button.setCheckable(True)
            button.setMinimumWidth(width_while_bold(button))
            self.views.addButton(button, place)
            row.addWidget(button)
        self.views.idClicked.connect(self.show_view)
        self.views.button(BODIES).setChecked(True)
        row.addStretch(1)
        return row

    @property
    def view(self) -> int:
        """What stands in the middle."""
        return self._views.currentIndex()

    def show_view(self, view: int) -> None:
        """Put all bodies of water, the pipe runs or the head in the middle; pipe runs take the editor's place too."""
        self.panel.commit()
        self.views.button(view).setChecked(True)
        self._views.setCurrentIndex(view)
        self.panel.setVisible(view != PIPES)
        if view == PIPES:
            self.pipes.table.setFocus()

    def _show_run(self, node: str) -> None:
        """Open the pipe runs at one of them, or those of a system or feature."""
        self.show_view(PIPES)
        self.pipes.show_run(node)

    def part_panes(self, width: int) -> None:
        """Share a width among the panes: the table takes what the tree and the editor do not need."""
        left, _, right = NARROW_WIDTHS if width < NARROW else WIDTHS
        self.splitter.setSizes([left, max(LEAST_TABLE, width - left - right), right])

    def _left(self) -> QFrame:
        left = role(QFrame(), "panel")
        left.setMinimumWidth(LEAST_TREE)
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 10, 0, 10)
        column.setSpacing(6)
        self.words.setContentsMargins(12, 0, 8, 2)
        column.addWidget(self.words)
        column.addWidget(self.find_bar)
        column.addWidget(self.tree, 1)
        column.addLayout(self._adders())
        return left

    def _adders(self) -> QVBoxLayout:
        """Buttons that add a part, each with the menu of its kinds."""
        body = QPushButton("Add body of water")
        body.setMenu(attraction_menu(QMenu(body), self.commands.add_attraction))
        feature = QPushButton("Add feature")
        feature.setMenu(feature_menu(QMenu(feature), self.commands.add_feature))
        system = QPushButton("Add system")
        system.clicked.connect(lambda _on=False: self.commands.add_system())
        self.add_buttons = (body, feature, system)
        below = QHBoxLayout()
        below.setSpacing(6)
        below.addWidget(feature, 1)
        below.addWidget(system, 1)
        column = QVBoxLayout()
        column.setContentsMargins(10, 4, 10, 0)
        column.setSpacing(6)
        column.addWidget(body)
        column.addLayout(below)
        return column

    def _hint(self) -> QWidget:
        """What stands in the middle while there is nothing to compare."""
        page = QWidget()
        words = role(QLabel(HINT), "dim")
        words.setWordWrap(True)
        words.setMaximumWidth(420)
        button = role(QPushButton("Add body of water   "), "primary")
        button.setMenu(attraction_menu(QMenu(button), self.commands.add_attraction))
        column = QVBoxLayout(page)
        column.setContentsMargins(0, 8, 0, 0)
        column.setSpacing(14)
        column.addWidget(words)
        column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)
        return page

    def _connect(self, project: OpenProject) -> None:
        self.commands.refused.connect(self.refused)
        self.tree.tree_model.refused.connect(self.refused)
        self.tree.editor_wanted.connect(self.panel.name.setFocus)
        self.tree.menu_wanted.connect(self._show_menu)
        self.find_bar.closed.connect(self.tree.setFocus)
        self.panel.node_requested.connect(project.select)
        self.panel.code_basis_requested.connect(self.code_basis_requested)
        project.run_wanted.connect(self._show_run)
        self.head.pipes_wanted.connect(lambda: self.show_view(PIPES))
        self.head.figure_requested.connect(self.show_figure)
        project.design_changed.connect(lambda _before, now: self._show_words(now))

    def _show_menu(self, place: QPoint) -> None:
        if not self.part_menu.isEmpty():
            self.part_menu.popup(place)

    def _show_words(self, design: SiteDesign) -> None:
        self.words.show_text(site_words(design.site))
        has_water = any(system.attractions for system in design.site.systems)
        self._centre.setCurrentIndex(0 if has_water else 1)

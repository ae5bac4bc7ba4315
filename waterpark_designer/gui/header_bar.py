"""The bar at the head of the window: whose project it is, the three desks, units and code basis."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QResizeEvent
from PySide6.QtWidgets import QApplication, QButtonGroup, QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.gui.short_label import ShortLabel
from waterpark_designer.gui.theme import role

if TYPE_CHECKING:
    from waterpark_designer.engine.design import SiteDesign
    from waterpark_designer.gui.open_project import OpenProject

DESKS = ("Lay out", "Schedule", "Review")
WIDEST_CHIP = 290
NARROW_CHIP = 170
NARROW_WINDOW = 1250
TAB_PADDING = 52


class HeaderBar(QFrame):
    """Shows the open project; its buttons only say what is wanted."""

    desk_wanted = Signal(int)
    units_wanted = Signal()
    code_basis_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        role(self, "head")
        self.name = ShortLabel("heading")
        self.state = ShortLabel("dim")
        self.units = role(QPushButton(), "chip")
        self.code_basis = role(QPushButton(), "chip")
        self.desks = QButtonGroup(self)
        self._basis = Basis("none")
        self._lay_out()
        self.units.clicked.connect(self.units_wanted)
        self.code_basis.clicked.connect(self.code_basis_wanted)
        self.desks.idClicked.connect(self.desk_wanted)

    def show_project(self, project: "OpenProject") -> None:
        """Show names, units and code basis of a project."""
        site = project.site
        self.name.show_text(site.name)
        revision = f"Revision {site.revision}" if site.revision else "No revision"
        self.state.show_text(f"{revision} · {saved_words(project)}")
        self.units.setText(f"Units: {site.units.label}")
        self.units.setToolTip("Click for the other units. They hold for the whole site and are kept in its file.")
        self._basis = basis_of(project.design)
        self._show_basis()

    def show_desk(self, desk: int) -> None:
        self.desks.button(desk).setChecked(True)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        self._show_basis()

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.setSpacing(0)
        left.addWidget(self.name)
        left.addWidget(self.state)
        middle = QHBoxLayout()
        middle.setSpacing(0)
        for place, name in enumerate(DESKS):
            button = role(QPushButton(name), "tab")
            button.setCheckable(True)
            button.setMinimumWidth(_bold_width(name) + TAB_PADDING)
            button.setToolTip(f"{name} desk (Ctrl+{place + 1})")
            self.desks.addButton(button, place)
            middle.addWidget(button)
        right = QHBoxLayout()
        right.setSpacing(8)
        right.addStretch(1)
        right.addWidget(self.units)
        right.addWidget(self.code_basis)
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 7, 16, 7)
        row.setSpacing(12)
        row.addLayout(left, 1)
        row.addLayout(middle)
        row.addLayout(right, 1)

    def _show_basis(self) -> None:
        narrow = self.width() < NARROW_WINDOW
        widest = NARROW_CHIP if narrow else WIDEST_CHIP
        metrics = QFontMetrics(self.code_basis.font())
        rest = self._basis.more if narrow else f"{self._basis.more}{self._basis.amended}"
        room = widest - metrics.horizontalAdvance(rest)
        title = metrics.elidedText(self._basis.title, Qt.TextElideMode.ElideRight, room)
        self.code_basis.setText(f"Code basis: {title}{rest}")
        self.code_basis.setToolTip(f"Code basis: {self._basis.words}. Click to see every limit in force.")


def _bold_width(text: str) -> int:
    """Room for a text that turns bold when it is chosen."""
    font = QFont(QApplication.font())
    font.setBold(True)
    return QFontMetrics(font).horizontalAdvance(text)


def saved_words(project: "OpenProject") -> str:
    """How the project stands to its file."""
    if not project.undo_stack.isClean():
        return "unsaved changes"
    return "not saved yet" if project.path is None else f"saved in {project.path.name}"


@dataclass(frozen=True, slots=True)
class Basis:
    """The code basis in one line: the first rule set, which may be shortened, and how much there is besides."""

    title: str
    more: str = ""
    amended: str = ""

    @property
    def words(self) -> str:
        return f"{self.title}{self.more}{self.amended}"


def basis_of(design: "SiteDesign") -> Basis:
    """What the head of the window says of the code basis."""
    titles = [*design.basis.titles, *(f"{key} (not known here)" for key in design.basis.unknown)]
    amendments = len(design.site.amendments)
    first = titles[0] if titles else "none"
    more = f" and {len(titles) - 1} more" if len(titles) > 1 else ""
    amended = f", {amendments} amended" if amendments else ""
    return Basis(first, more, amended)

"""Find a part of the site by its name or kind."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QWidget

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.gui.entry_widgets import ENTER_KEYS
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.site_rows import children_shown
from waterpark_designer.gui.theme import restyle, role
from waterpark_designer.model.node import Node

NOT_FOUND = "not found"


class FindBar(QWidget):
    """A line to type in; Enter goes to the next part that fits, Shift+Enter to the one before, Esc closes."""

    closed = Signal()

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self.line = QLineEdit()
        self.line.setPlaceholderText("Find by name or kind")
        self.line.setAccessibleName("Find a part of the site")
        self.line.setClearButtonEnabled(True)
        self.count = role(QLabel(), "dim")
        self._close = role(QPushButton("Close"), "quiet")
        self._lay_out()
        self.line.textChanged.connect(lambda _: self._go(0))
        self._close.clicked.connect(self.close_bar)
        project.design_changed.connect(self._follow)
        self.hide()

    def open_bar(self) -> None:
        """Show the bar and begin to type."""
        self.show()
        self.line.setFocus()
        self.line.selectAll()
        self._tell_place()

    def close_bar(self) -> None:
        self.hide()
        self.closed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if event.key() == Qt.Key.Key_Escape:
            self.close_bar()
        elif event.key() in ENTER_KEYS:
            self._go(-1 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1)
        else:
            super().keyPressEvent(event)

    def _lay_out(self) -> None:
        layout = QHBoxLayout(self)
        layout.setContentsMargins(10, 6, 6, 6)
        layout.setSpacing(6)
        layout.addWidget(self.line, 1)
        layout.addWidget(self.count)
        layout.addWidget(self._close)

    def _found(self) -> list[str]:
        wanted = self.line.text().strip().casefold()
        return [node.id for node in parts_shown(self._project.site) if wanted in words_of(node)] if wanted else []

    def _go(self, step: int) -> None:
        """Select the next part that fits (1), the one before (-1), or stay where the selected one fits (0)."""
        found = self._found()
        if found:
            here = self._project.selection
            if here not in found:
                self._project.select(found[0] if step >= 0 else found[-1])
            else:
                self._project.select(found[(found.index(here) + step) % len(found)])
        self._tell_place()

    def _tell_place(self) -> None:
        found, text = self._found(), self.line.text().strip()
        missing = bool(text) and not found
        role(self.count, "error" if missing else "dim")
        restyle(self.line, "invalid", missing)
        here = self._project.selection
        place = f"{found.index(here) + 1} of {len(found)}" if here in found else f"{len(found)} found"
        self.count.setText("" if not text else NOT_FOUND if missing else place)

    def _follow(self, _before: SiteDesign, _now: SiteDesign) -> None:
        if self.isVisible():
            self._tell_place()


def parts_shown(node: Node) -> list[Node]:
    """The parts that stand in the tree, from the top down."""
    below = [part for child in children_shown(node) for part in parts_shown(child)]
    return [node, *below]


def words_of(node: Node) -> str:
    """What a part can be found by, in small letters."""
    kind = getattr(node, "kind", None)
    return f"{node.name} {kind.label if kind else ''}".casefold()

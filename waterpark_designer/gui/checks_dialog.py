"""The checks in a window of their own beside the desks."""

from PySide6.QtWidgets import QDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.engine.findings import Status
from waterpark_designer.gui.checks_panel import ChecksPanel
from waterpark_designer.gui.keys import undo_keys
from waterpark_designer.gui.open_project import OpenProject

WIDTH, HEIGHT = 980, 640
"""Wide enough for the counts of every status side by side."""


class ChecksDialog(QDialog):
    """Stays open while the design is put right; a finding brings its figure up in the main window."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Checks")
        self.panel = ChecksPanel(project)
        if project.design.count(Status.NOT_MET):
            self.panel.show_status(Status.NOT_MET)
        undo_keys(self, project)
        close = QPushButton("Close")
        close.setAutoDefault(False)
        close.clicked.connect(self.hide)
        foot = QHBoxLayout()
        foot.setContentsMargins(16, 0, 16, 0)
        foot.addStretch(1)
        foot.addWidget(close)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 4, 0, 14)
        column.setSpacing(10)
        column.addWidget(self.panel, 1)
        column.addLayout(foot)
        self.resize(WIDTH, HEIGHT)
        self.panel.table.setFocus()

    def bring_up(self) -> None:
        """Show the checks, in front, with the keyboard on them."""
        self.show()
        self.activateWindow()
        self.panel.table.setFocus()

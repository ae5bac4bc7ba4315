"""What the keyboard does, and what this program is."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QGridLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from waterpark_designer.gui.message import tell
from waterpark_designer.gui.theme import role

ABOUT = (
    "Version {version}.\n\n"
    "Lays out the bodies of water of a site, sizes their treatment against the local code, and prints the "
    "schedules, with the working behind every number.\n\n"
    "Results are preliminary and for review by a licensed engineer. Local code and the supplier's instructions "
    "come first wherever work can hurt someone."
)
IN_PLACES = (
    ("Edit the cell of the table, or the name in the tree.", "F2"),
    ("Go on to the next cell.", "Tab"),
    ("Take the entry and go down.", "Enter"),
    ("Put in a pipe run before the one you are on.", "Insert"),
    ("Take out the pipe run on whose name you are, or empty a cell.", "Delete"),
    ("Leave the entry as it was.", "Esc"),
    ("Menu of the selected part.", "Menu key"),
)


def show_keys(parent: QWidget, keys: list[tuple[str, str]]) -> None:
    """List what the keyboard does."""
    dialog = KeysDialog(parent, [*keys, *IN_PLACES])
    dialog.exec()
    dialog.deleteLater()


def show_about(parent: QWidget) -> None:
    """Say what this program is, and in which version."""
    from importlib.metadata import PackageNotFoundError, version

    try:
        number = version("waterpark-designer")
    except PackageNotFoundError:
        number = "not installed"
    tell(parent, "Waterpark Designer", ABOUT.format(version=number))


class KeysDialog(QDialog):
    """Two columns: keys, and what they do."""

    def __init__(self, parent: QWidget | None, keys: list[tuple[str, str]]) -> None:
        super().__init__(parent)
        self.setWindowTitle("Keys")
        page = QWidget()
        grid = QGridLayout(page)
        grid.setContentsMargins(2, 2, 12, 2)
        grid.setHorizontalSpacing(22)
        grid.setColumnStretch(1, 1)
        for row, (what, key) in enumerate(keys):
            grid.addWidget(role(QLabel(key), "subheading"), row, 0)
            grid.addWidget(QLabel(what), row, 1)
        scroll = QScrollArea()
        scroll.setWidget(page)
        scroll.setWidgetResizable(True)
        close = role(QPushButton("Close"), "primary")
        close.clicked.connect(self.accept)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(22, 18, 22, 16)
        layout.setSpacing(12)
        layout.addWidget(role(QLabel("Keys"), "heading"))
        layout.addWidget(scroll, 1)
        layout.addWidget(close, 0, Qt.AlignmentFlag.AlignRight)
        self.resize(560, 620)

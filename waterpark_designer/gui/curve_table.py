"""The points of a pump's curve: typed, pasted, or read from a file of a supplier."""

from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QPushButton, QWidget

from waterpark_designer.gui.depth_table import DepthTable
from waterpark_designer.gui.entry_widgets import tip
from waterpark_designer.gui.field_spec import specs_of
from waterpark_designer.gui.folders import last_folder, remember_folder
from waterpark_designer.gui.numbers_model import block_of
from waterpark_designer.gui.theme import role
from waterpark_designer.model.hydraulics import CurvePoint

FILTER = "Tables (*.csv *.txt *.tsv);;All files (*)"
LARGEST_FILE = 1_000_000
NO_TABLE = "That file holds no table. It needs a flow and a head in each line."


class CurveTable(DepthTable):
    """Flow and head of one pump, a point in each row."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(tuple(specs_of(CurvePoint).values()), "point", parent)
        self.file_button = role(QPushButton("From a file…"), "chip")
        self.file_button.setToolTip(tip("Reads flow and head from a comma-separated table, in place of all rows."))
        self.file_button.clicked.connect(self.ask_file)
        self.buttons.addWidget(self.file_button)

    def ask_file(self) -> None:
        """Ask for a file and take its table in place of all rows."""
        chosen, _ = QFileDialog.getOpenFileName(self, "Curve of the pump", last_folder(), FILTER)
        if chosen:
            remember_folder(chosen)
            self.read_file(Path(chosen))

    def read_file(self, path: Path) -> None:
        """Take the table of a file in place of all rows; says what is wrong where there is none."""
        try:
            with path.open(encoding="utf-8-sig", errors="replace") as file:
                block = block_of(file.read(LARGEST_FILE))
        except OSError as error:
            self.say(f"The file cannot be read: {error.strerror}.")
            return
        self.replace_all(block, NO_TABLE)

"""The catalogue: the project's own sizes, imported from a supplier's CSV file, and the generic ones."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from waterpark_designer.catalogue.catalogue import COLUMNS as FILE_COLUMNS
from waterpark_designer.catalogue.catalogue import SIZE_MEASURES, CatalogueError, read_supplier_catalogue
from waterpark_designer.gui.folders import last_folder, remember_folder
from waterpark_designer.gui.keys import on_key, undo_keys
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.paper_rows import Cell, Column, Row, RowsModel, RowStyle
from waterpark_designer.gui.theme import role
from waterpark_designer.gui.wrapped_table import WrappedTable
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.model.site import MOST_CATALOGUE_ITEMS

COLUMNS = (
    Column("Name", 3, 180),
    Column("Size", 1, 100, number=True, tip="The size by which items of a kind are chosen."),
    Column("Power", 0.7, 70, number=True, tip="Electrical power at full output."),
    Column("Source", 2, 140),
)
MOST_LINES = 10
CSV_FILES = "Comma-separated values (*.csv);;All files (*)"
ABOUT = (
    "Where you have sizes of a kind, the program chooses among yours; otherwise among the generic ones. "
    f"A CSV file needs these columns, in any order: {', '.join(FILE_COLUMNS)}."
)


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading over the sizes of one kind; `own` tells whose they are."""

    text: str
    own: bool


@dataclass(frozen=True, slots=True)
class Line:
    """One nominal size; `own` tells that it belongs to the project."""

    item: CatalogueItem
    own: bool


class CatalogueDialog(QDialog):
    """Shows all sizes; imports, replaces and removes those of the project as undoable edits."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Catalogue of nominal sizes")
        self.project = project
        self.table = WrappedTable(RowsModel(COLUMNS, self._row, lambda item: item, lambda item: isinstance(item, Line)))
        self.table.setAccessibleName("Nominal sizes")
        self.import_button = role(QPushButton("Import from CSV…"), "primary")
        self.replace_button = QPushButton("Replace yours from CSV…")
        self.remove_button = QPushButton("Remove")
        self.remove_all_button = QPushButton("Remove all of yours")
        self.message = role(QLabel(), "error")
        self.problems = QPlainTextEdit(readOnly=True)
        self._lay_out()
        self._connect()
        self._refresh()

    def import_file(self, path: Path, replace: bool = False) -> None:
        """Take the sizes of a CSV file; sizes of the same kind and name are replaced, or all where asked.

        A file that cannot be used changes nothing; every row at fault is shown.
        """
        try:
            items = read_supplier_catalogue(path)
        except CatalogueError as error:
            self._tell(f"“{path.name}” cannot be used as a catalogue. Nothing was changed.", error.problems)
            return
        taken = items if replace else merged(self.project.site.catalogue, items)
        if len(taken) > MOST_CATALOGUE_ITEMS:
            advice = f"Together they are {len(taken):,} sizes. Keep at most {MOST_CATALOGUE_ITEMS:,}."
            self._tell(f"“{path.name}” was not imported.", (advice,))
            return
        self._set(taken, f"{'Replace the catalogue' if replace else 'Import'} from {path.name}")
        self._tell("", ())
        self.done_label.setText(f"{len(items):,} size{'s' if len(items) != 1 else ''} taken from “{path.name}”.")
        self.table.go_to(Line(items[0], True))

    def choose_file(self) -> str:
        """Ask for a CSV file; empty where the question is put away."""
        return QFileDialog.getOpenFileName(self, "Import a supplier's catalogue", last_folder(), CSV_FILES)[0]

    def _lay_out(self) -> None:
        about = role(QLabel(ABOUT), "dim")
        about.setWordWrap(True)
        self.message.setWordWrap(True)
        self.problems.setAccessibleName("What is wrong in the file")
        self.done_label = role(QLabel(), "ok")
        buttons = QHBoxLayout()
        buttons.setSpacing(8)
        for button in (self.import_button, self.replace_button, self.remove_button, self.remove_all_button):
            button.setAutoDefault(False)
            buttons.addWidget(button)
        buttons.addWidget(self.done_label, 1)
        close = QPushButton("Close")
        close.setAutoDefault(False)
        close.clicked.connect(self.accept)
        buttons.addWidget(close)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 14)
        column.setSpacing(10)
        for widget in (role(QLabel("Nominal sizes"), "heading"), about, self.message, self.problems):
            column.addWidget(widget)
        column.addWidget(self.table, 1)
        column.addLayout(buttons)
        self._tell("", ())
        self.resize(980, 680)

    def _connect(self) -> None:
        self.import_button.clicked.connect(lambda: self._import(False))
        self.replace_button.clicked.connect(lambda: self._import(True))
        self.remove_button.clicked.connect(self._remove)
        self.remove_all_button.clicked.connect(lambda: self._set((), "Remove the project's catalogue"))
        self.table.current_row.connect(lambda _item: self._enable())
        self.project.design_changed.connect(lambda _before, _now: self._refresh())
        on_key(self.table, QKeySequence.StandardKey.Delete, self._remove)
        undo_keys(self, self.project)

    def _import(self, replace: bool) -> None:
        chosen = self.choose_file()
        if chosen:
            remember_folder(chosen)
            self.import_file(Path(chosen), replace)

    def _remove(self) -> None:
        line = self.table.item_at_current()
        if isinstance(line, Line) and line.own:
            left = tuple(item for item in self.project.site.catalogue if item != line.item)
            self._set(left, f"Remove {line.item.name} from the catalogue")

    def _set(self, items: tuple[CatalogueItem, ...], text: str) -> None:
        self.project.edit(text, self.project.site.revised(catalogue=items))

    def _refresh(self) -> None:
        own, generic = self.project.site.catalogue, self.project.library.catalogue
        self.table.show_items([*_by_kind(own, True), *_by_kind(generic, False)])
        self.replace_button.setEnabled(bool(own))
        self.remove_all_button.setEnabled(bool(own))
        self.done_label.setText("")
        self._enable()

    def _enable(self) -> None:
        line = self.table.item_at_current()
        self.remove_button.setEnabled(isinstance(line, Line) and line.own)

    def _row(self, line: Heading | Line) -> Row:
        if isinstance(line, Heading):
            return Row((Cell(line.text),), RowStyle.HEADING)
        item = line.item
        size = SIZE_MEASURES[item.kind].phrase(item.size, self.project.units)
        power = "" if item.power is None else f"{item.power / 1000.0:,.4g} kW"
        return Row((Cell(item.name, item.remarks), Cell(size), Cell(power), Cell(item.source, tone="dim")))

    def _tell(self, message: str, problems: Iterable[str]) -> None:
        self.message.setText(message)
        self.problems.setPlainText("\n".join(problems))
        lines = max(2, min(MOST_LINES, self.problems.document().blockCount() + 1))
        self.problems.setFixedHeight(lines * self.problems.fontMetrics().lineSpacing() + 20)
        self.message.setVisible(bool(message))
        self.problems.setVisible(bool(message))


def merged(kept: Iterable[CatalogueItem], new: Iterable[CatalogueItem]) -> tuple[CatalogueItem, ...]:
    """Both lists; a new size takes the place of one of the same kind and name."""
    both = {(item.kind, item.name.casefold()): item for item in kept}
    both.update({(item.kind, item.name.casefold()): item for item in new})
    return tuple(both.values())


def _by_kind(items: Iterable[CatalogueItem], own: bool) -> list[Heading | Line]:
    gathered: dict[ItemKind, list[CatalogueItem]] = {}
    for item in items:
        gathered.setdefault(item.kind, []).append(item)
    whose = "yours" if own else "generic"
    lines: list[Heading | Line] = []
    for kind in (kind for kind in ItemKind if kind in gathered):
        lines.append(Heading(f"{kind.label}  ·  {whose}", own))
        lines += [Line(item, own) for item in sorted(gathered[kind], key=lambda item: item.size)]
    return lines

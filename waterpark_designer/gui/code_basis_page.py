"""The code basis: the rule sets in order, every limit in force, and local amendments with their reasons."""

from dataclasses import dataclass

from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QCheckBox, QDialog, QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.gui.amendment_dialog import AmendmentDialog
from waterpark_designer.gui.code_basis_order import CodeBasisOrder
from waterpark_designer.gui.keys import on_key, undo_keys
from waterpark_designer.gui.limits_in_force import (
    LimitLine,
    SilentLine,
    conditions_text,
    kinds_text,
    limit_lines,
    silent_lines,
)
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.paper_rows import Cell, Column, Row, RowsModel, RowStyle
from waterpark_designer.gui.site_rows import counted
from waterpark_designer.gui.theme import role
from waterpark_designer.gui.wrapped_table import WrappedTable
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS
from waterpark_designer.sources import Provenance

COLUMNS = (
    Column("Limit", 2, 130, tip="The limited quantity."),
    Column("Applies to", 2.2, 120, tip="Kinds of water, and what else must hold."),
    Column("Value", 1, 100, number=True, tip="The limit in the units on screen."),
    Column("Clause", 1.6, 110, tip="Where the limit stands, and how far it was confirmed."),
    Column("Used", 0, 92, number=True, tip="How many parts it binds. Point at one for the names."),
)
NAMES_IN_TIP = 30
NO_LIMIT = "No limit is found. Search for less, or show limits that are not in use."


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading over the limits of one source."""

    text: str


Item = Heading | SilentLine | LimitLine


class CodeBasisPage(QDialog):
    """Reads and edits the code basis of the open project; every change is an undoable edit."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Code basis")
        self.project = project
        self.order = CodeBasisOrder(project)
        self.table = WrappedTable(RowsModel(COLUMNS, self._row, _key, lambda item: not isinstance(item, Heading)))
        self.table.setAccessibleName("Limits in force")
        self.filter = QLineEdit(placeholderText="Find a limit, kind of water or clause")
        self.filter.setClearButtonEnabled(True)
        self.only_used = QCheckBox("Only limits in use")
        self.amend_button = role(QPushButton("Amend…"), "primary")
        self.remove_button = QPushButton("Remove amendment")
        self.summary = role(QLabel(), "dim")
        self._lay_out()
        self._connect()
        self._refresh()

    def amend(self, quantity: str = "", kinds: tuple[str, ...] = (), index: int | None = None) -> None:
        """Open the amendment dialog, filled for a quantity and kinds, or for the amendment at `index`."""
        dialog = AmendmentDialog(self.project, quantity, kinds, index, self)
        dialog.exec()
        dialog.deleteLater()

    def _lay_out(self) -> None:
        tools = QHBoxLayout()
        tools.setSpacing(10)
        tools.addWidget(self.filter, 1)
        for widget in (self.only_used, self.remove_button, self.amend_button):
            tools.addWidget(widget)
        foot = QHBoxLayout()
        close = QPushButton("Close")
        close.clicked.connect(self.accept)
        foot.addWidget(self.summary, 1)
        foot.addWidget(close)
        main = QVBoxLayout()
        main.setContentsMargins(20, 14, 20, 14)
        main.setSpacing(10)
        main.addWidget(role(QLabel("Limits in force"), "heading"))
        main.addLayout(tools)
        main.addWidget(self.table, 1)
        main.addLayout(foot)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        self.order.setFixedWidth(300)
        row.addWidget(self.order)
        row.addLayout(main, 1)
        self.resize(1180, 720)
        for button in self.findChildren(QPushButton):
            button.setAutoDefault(False)

    def _connect(self) -> None:
        self.filter.textChanged.connect(lambda _text: self._refresh())
        self.only_used.toggled.connect(lambda _on: self._refresh())
        self.amend_button.clicked.connect(lambda: self._amend_current(self.table.item_at_current()))
        self.remove_button.clicked.connect(self._remove_current)
        self.table.activated_row.connect(self._amend_current)
        self.table.current_row.connect(self._show_current)
        self.project.design_changed.connect(self._design_changed)
        on_key(self, QKeySequence.StandardKey.Find, self.filter.setFocus)
        on_key(self.table, QKeySequence.StandardKey.Delete, self._remove_current)
        undo_keys(self, self.project)

    def _design_changed(self, _before: object, _now: object) -> None:
        self.order.refresh()
        self._refresh()

    def _refresh(self) -> None:
        design = self.project.design
        limits = [line for line in limit_lines(design) if self._wanted(line)]
        silent = [] if self.only_used.isChecked() else list(silent_lines(design))
        silent = [line for line in silent if self._found(line.title)]
        self.table.show_items(_with_headings(limits, silent))
        used = sum(bool(line.used_by) for line in limits)
        found = f"{counted(len(limits), 'limit', 'limits')} shown, {used:,} in use."
        self.summary.setText(found if limits else NO_LIMIT)
        self._show_current(self.table.item_at_current())

    def _wanted(self, line: LimitLine) -> bool:
        if self.only_used.isChecked() and not line.used_by:
            return False
        limit = line.limit
        return self._found(line.label, kinds_text(limit.applies_to), limit.clause, limit.rule_set, limit.note)

    def _found(self, *texts: str) -> bool:
        whole = " ".join(texts).casefold()
        return all(word in whole for word in self.filter.text().casefold().split())

    def _row(self, item: Item) -> Row:
        if isinstance(item, Heading):
            return Row((Cell(item.text),), RowStyle.HEADING)
        if isinstance(item, SilentLine):
            count = Cell(f"{len(item.nodes):,}", tip=_names(item.nodes))
            silent = Cell("silent", tone="caution", bold=True)
            return Row((Cell(item.title), Cell(item.remedy, tone="dim"), silent, Cell(), count))
        return self._limit_row(item)

    def _limit_row(self, line: LimitLine) -> Row:
        limit, units = line.limit, self.project.units
        tone = "dim" if line.superseded_by else ""
        confirm = "caution" if limit.provenance.needs_confirmation else "dim"
        clause = Cell(limit.clause, limit.provenance.value, tone, below_tone=confirm)
        return Row(
            (
                Cell(line.label, limit.note, tone, tip=LIMIT_KINDS[limit.quantity].definition),
                Cell(kinds_text(limit.applies_to), conditions_text(limit, units), tone),
                Cell(limit.value_text(units), tone=tone, bold=bool(line.used_by)),
                clause,
                _used(line),
            )
        )

    def _show_current(self, item: Item | None) -> None:
        amendment = isinstance(item, LimitLine) and _amendment_index(item) is not None
        self.amend_button.setText("Edit…" if amendment else "Amend…")
        self.remove_button.setEnabled(amendment)

    def _amend_current(self, item: Item | None) -> None:
        if isinstance(item, LimitLine):
            index = _amendment_index(item)
            self.amend(item.limit.quantity, tuple(sorted(item.limit.applies_to)), index)
        else:
            self.amend(item.quantity if isinstance(item, SilentLine) else "")

    def _remove_current(self) -> None:
        item = self.table.item_at_current()
        index = _amendment_index(item) if isinstance(item, LimitLine) else None
        if index is not None:
            amendments = self.project.site.amendments
            left = amendments[:index] + amendments[index + 1 :]
            text = f"Remove the amendment of {item.label.lower()}"
            self.project.edit(text, self.project.site.revised(amendments=left))


def _with_headings(limits: list[LimitLine], silent: list[SilentLine]) -> list[Item]:
    """Limits under the name of their source; amendments first, then what the code basis is silent about."""
    amended = [line for line in limits if _amendment_index(line) is not None]
    items: list[Item] = [Heading("Local amendments"), *amended] if amended else []
    if silent:
        items += [Heading("The code basis is silent"), *silent]
    title = ""
    for line in limits[len(amended) :]:
        if line.limit.rule_set != title:
            title = line.limit.rule_set
            items.append(Heading(title))
        items.append(line)
    return items


def _used(line: LimitLine) -> Cell:
    if line.superseded_by:
        rival = line.superseded_by
        return Cell("superseded", tone="dim", tip=f"{rival.rule_set}, {rival.clause}, always comes first.")
    if not line.used_by:
        return Cell("–", tone="dim", tip="Binds no part of this site.")
    return Cell(f"{len(line.used_by):,}", tip=_names(line.used_by))


def _names(names: tuple[str, ...]) -> str:
    more = len(names) - NAMES_IN_TIP
    return "\n".join(names[:NAMES_IN_TIP]) + (f"\nand {more:,} more" if more > 0 else "")


def _amendment_index(line: LimitLine) -> int | None:
    """The place of the amendment among the site's, where the limit is one."""
    if line.limit.provenance is not Provenance.AMENDMENT:
        return None
    return int(line.limit.key.partition(":")[2]) - 1


def _key(item: Item) -> tuple[str, str]:
    if isinstance(item, Heading):
        return "heading", item.text
    return ("silent", item.title) if isinstance(item, SilentLine) else ("limit", item.limit.key)

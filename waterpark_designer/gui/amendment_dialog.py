"""A local amendment is typed in here, with its reason, and shows what it would change before it is taken."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPlainTextEdit,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from waterpark_designer.gui.amendment_effect import Change, EffectWork
from waterpark_designer.gui.entry_widgets import words
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.paper_rows import Cell, Column, Row, RowsModel
from waterpark_designer.gui.site_rows import counted
from waterpark_designer.gui.theme import restyle, role
from waterpark_designer.gui.wrapped_table import WrappedTable
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.node import LARGEST_FIGURE, LONGEST_REASON, SHORTEST_REASON
from waterpark_designer.model.site import Amendment, Site
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, LimitKind, Sense
from waterpark_designer.units import UnreadableQuantity

COLUMNS = (
    Column("Where", 2, 90),
    Column("What", 3, 110),
    Column("Now", 1.6, 90, number=True),
    Column("Then", 1.6, 90, number=True),
)
MOST_SHOWN = 200
LEAST_KINDS = 6
"""Kinds of water that are always in sight."""
PAUSE_IN_TYPING = 150


class BadEntry(ValueError):
    """An entry of the dialog cannot be used; says what would be right."""


class AmendmentDialog(QDialog):
    """Makes an amendment, or edits the one at `index`; a new one goes before all others."""

    effect_shown = Signal()
    """What the amendment would change is listed as it was entered last."""

    def __init__(
        self,
        project: OpenProject,
        quantity: str = "",
        kinds: Sequence[str] = (),
        index: int | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("Local amendment")
        self.project = project
        self.index = index
        self.quantity = QComboBox()
        self.definition = words("", "dim")
        self.kinds = QListWidget()
        self.kinds.setSpacing(2)
        self.sense = QLabel()
        self.value = QLineEdit()
        self.unit = role(QLabel(), "unit")
        self.duty = QComboBox()
        self.value_error = words("", "error")
        self.reason = QPlainTextEdit(placeholderText="Who set it, where it is written, and when.")
        self.reason_error = words("", "error")
        self.effect = words("", "dim")
        self.table = WrappedTable(RowsModel(COLUMNS, _row, lambda change: change))
        self.table.setAccessibleName("What it would change")
        self.take_button = role(QPushButton("Add amendment" if index is None else "Save amendment"), "primary")
        self._work: EffectWork | None = None
        self._stale = False
        self._timer = QTimer(self, singleShot=True, interval=PAUSE_IN_TYPING)
        self._fill(quantity, kinds)
        self._lay_out()
        self._connect()
        self._quantity_changed()
        if quantity or index is not None:
            (self.duty if self.kind.sense is Sense.REQUIRED else self.value).setFocus()

    def amendment(self) -> Amendment:
        """The amendment as entered. Raises BadEntry, naming what is wrong."""
        reason = self.reason.toPlainText().strip()
        if len(reason) < SHORTEST_REASON:
            raise BadEntry("Say who set it, where it is written, and when.")
        if len(reason) > LONGEST_REASON:
            raise BadEntry(f"Say it in at most {LONGEST_REASON:,} letters; these are {len(reason):,}.")
        return self._amendment(reason)

    def amended_site(self, amendment: Amendment) -> Site:
        """The site with this amendment, in the place of the edited one or before all others."""
        kept = self.project.site.amendments
        if self.index is None:
            return self.project.site.revised(amendments=(amendment, *kept))
        return self.project.site.revised(amendments=(*kept[: self.index], amendment, *kept[self.index + 1 :]))

    def show_effect(self) -> None:
        """Work out, beside the window, and list what the amendment would change; `effect_shown` tells when."""
        self._timer.stop()
        self._stale = self._work is not None
        if self._stale:
            return
        try:
            amendment = self._amendment("not given yet")
        except BadEntry:
            self._list((), "Type a value to see it here.")
            return
        self.effect.setText("Working it out…")
        self._work = EffectWork(self.project.library, self.project.design, self.amended_site(amendment), self)
        self._work.finished.connect(self._worked_out)
        self._work.start()

    def done(self, result: int) -> None:
        """Close, once nothing is being worked out any more."""
        self._timer.stop()
        self._stale = False
        if self._work is not None:
            self._work.wait()
        super().done(result)

    def _worked_out(self) -> None:
        work, self._work = self._work, None
        if work is None:
            return
        if self._stale:
            self.show_effect()
        else:
            self._list(work.found, summary(work.found))
        work.deleteLater()

    def _list(self, found: Sequence[Change], told: str) -> None:
        self.effect.setText(told)
        self.table.show_items(found[:MOST_SHOWN])
        self.effect_shown.emit()

    @property
    def kind(self) -> LimitKind:
        return LIMIT_KINDS[self.quantity.currentData()]

    def _amendment(self, reason: str) -> Amendment:
        return Amendment(quantity=self.kind.key, applies_to=self._checked_kinds(), value=self._value(), reason=reason)

    def _value(self) -> float:
        if self.kind.sense is Sense.REQUIRED:
            return float(self.duty.currentData())
        if not self.value.text().strip():
            raise BadEntry("Type the limit.")
        try:
            value = self.kind.measure.read(self.value.text(), self.project.units)
        except UnreadableQuantity as error:
            raise BadEntry(str(error)) from error
        if value < 0 or (value == 0 and self.kind.sense is not Sense.AT_LEAST):
            raise BadEntry("Type a number above zero.")
        if value > LARGEST_FIGURE:
            raise BadEntry("No limit is that large. Type a smaller number.")
        return value

    def _checked_kinds(self) -> tuple[AttractionKind, ...]:
        items = [self.kinds.item(row) for row in range(self.kinds.count())]
        return tuple(
            AttractionKind(item.data(Qt.ItemDataRole.UserRole))
            for item in items
            if item.checkState() is Qt.CheckState.Checked
        )

    def _fill(self, quantity: str, kinds: Sequence[str]) -> None:
        for kind in sorted(LIMIT_KINDS.values(), key=lambda kind: kind.label):
            self.quantity.addItem(kind.label, kind.key)
        for water in AttractionKind:
            item = QListWidgetItem(water.label, self.kinds)
            item.setData(Qt.ItemDataRole.UserRole, water.value)
            item.setCheckState(Qt.CheckState.Checked if water.value in kinds else Qt.CheckState.Unchecked)
        self.duty.addItem("required", 1.0)
        self.duty.addItem("not required", 0.0)
        if self.index is not None:
            edited = self.project.site.amendments[self.index]
            quantity = edited.quantity
            measure = LIMIT_KINDS[quantity].measure
            self.value.setText(measure.entry_text(edited.value, self.project.units))
            self.duty.setCurrentIndex(0 if edited.value else 1)
            self.reason.setPlainText(edited.reason)
        if quantity in LIMIT_KINDS:
            self.quantity.setCurrentIndex(self.quantity.findData(quantity))

    def _lay_out(self) -> None:
        entry = QWidget()
        beside = QHBoxLayout(entry)
        beside.setContentsMargins(0, 0, 0, 0)
        for widget in (self.sense, self.value, self.unit, self.duty):
            beside.addWidget(widget)
        beside.setStretchFactor(self.value, 1)
        form = QFormLayout()
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapAllRows)
        form.setVerticalSpacing(6)
        form.addRow("&Limit", self.quantity)
        form.addRow(self.definition)
        form.addRow("&Value", entry)
        form.addRow(self.value_error)
        form.addRow("Applies to these &kinds of water; none ticked means all", self.kinds)
        form.addRow("&Reason", self.reason)
        form.addRow(self.reason_error)
        # A message takes its room from the list, which then scrolls.
        line = self.kinds.sizeHintForRow(0) + 2 * self.kinds.spacing()
        self.kinds.setMinimumHeight(LEAST_KINDS * line)
        self.kinds.setMaximumHeight(self.kinds.count() * line + self.kinds.spacing())
        growing = self.kinds.sizePolicy()
        growing.setVerticalStretch(1)
        self.kinds.setSizePolicy(growing)
        self.reason.setMaximumHeight(90)
        self.reason.setTabChangesFocus(True)
        left = QWidget()
        left.setFixedWidth(360)
        left.setLayout(form)
        form.setContentsMargins(0, 0, 0, 0)
        self.effect.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        right = QVBoxLayout()
        right.setSpacing(8)
        right.addWidget(role(QLabel("What it would change"), "heading"))
        right.addWidget(self.effect)
        right.addWidget(self.table, 1)
        body = QHBoxLayout()
        body.setSpacing(24)
        body.addWidget(left)
        body.addLayout(right, 1)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(20, 16, 20, 16)
        outer.addLayout(body, 1)
        outer.addLayout(self._buttons())
        self.resize(1040, 640)

    def _buttons(self) -> QHBoxLayout:
        cancel = QPushButton("Cancel")
        cancel.clicked.connect(self.reject)
        cancel.setAutoDefault(False)
        row = QHBoxLayout()
        row.addStretch(1)
        row.addWidget(cancel)
        row.addWidget(self.take_button)
        return row

    def _connect(self) -> None:
        self.quantity.currentIndexChanged.connect(lambda _row: self._quantity_changed())
        self.value.textChanged.connect(lambda _text: self._value_changed())
        self.duty.currentIndexChanged.connect(lambda _row: self._timer.start())
        self.kinds.itemChanged.connect(lambda _item: self._timer.start())
        self.reason.textChanged.connect(lambda: self._tell(self.reason_error, self.reason, ""))
        self.take_button.clicked.connect(self._take)
        self._timer.timeout.connect(self.show_effect)

    def _quantity_changed(self) -> None:
        duty = self.kind.sense is Sense.REQUIRED
        self.definition.setText(self.kind.definition)
        self.sense.setText("is" if duty else self.kind.sense.value)
        self.unit.setText(self.kind.measure.symbol(self.project.units))
        self.duty.setVisible(duty)
        self.value.setVisible(not duty)
        self.unit.setVisible(not duty)
        self._value_changed()
        self.show_effect()

    def _value_changed(self) -> None:
        message = ""
        if self.value.text().strip():
            try:
                self._value()
            except BadEntry as error:
                message = str(error)
        self._tell(self.value_error, self.value, message)
        self._timer.start()

    def _take(self) -> None:
        try:
            self._value()
        except BadEntry as error:
            self._tell(self.value_error, self.value, str(error))
            self.value.setFocus()
            return
        try:
            amendment = self.amendment()
        except BadEntry as error:
            self._tell(self.reason_error, self.reason, str(error))
            self.reason.setFocus()
            return
        self.project.edit(f"Amend {self.kind.label.lower()}", self.amended_site(amendment))
        self.accept()

    def _tell(self, label: QLabel, field: QWidget, message: str) -> None:
        """Say what is wrong beside a field, or take the message away."""
        label.setText(message)
        label.setVisible(bool(message))
        restyle(field, "invalid", bool(message))


def summary(found: Sequence[Change]) -> str:
    """How much would change, in a sentence."""
    checks = sum(change.is_check for change in found)
    figures = len(found) - checks
    if not found:
        return "Nothing: it binds no part of this site, or the same limit is in force already."
    parts = (checks and counted(checks, "check", "checks"), figures and counted(figures, "figure", "figures"))
    more = f" The first {MOST_SHOWN} are listed." if len(found) > MOST_SHOWN else ""
    return f"{' and '.join(part for part in parts if part)}.{more}"


def _row(change: Change) -> Row:
    before, after = Cell(change.before, tone="dim"), Cell(change.after, bold=True)
    return Row((Cell(change.where), Cell(change.what), before, after))

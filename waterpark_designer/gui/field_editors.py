"""Editors of one field: a number with its unit, a text, a choice, a tick.

Each shows a value, says `entered` with the value that was typed, or `refused` with what would be right. None
of them knows the project. What rests on screen is rounded to what can be read; a line that is being edited
holds the number in full.
"""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QWidget

from waterpark_designer.gui.entry_widgets import ChoiceBox, EntryLine, tip
from waterpark_designer.gui.field_spec import Entry, FieldSpec
from waterpark_designer.gui.theme import restyle
from waterpark_designer.model.node import Part
from waterpark_designer.units import Measure, UnitSystem, UnreadableQuantity

LONGEST_RESTING_TEXT = 8


def resting_text(value: float, measure: Measure, system: UnitSystem) -> str:
    """The number as a field shows it at rest: as typed where that is short, otherwise rounded; thousands set apart."""
    exact = measure.entry_text(value, system)
    return f"{float(exact):,.10g}" if len(exact) <= LONGEST_RESTING_TEXT else measure.text(value, system)


class FieldEditor(QWidget):
    """What every editor of a field has in common."""

    entered = Signal(object)
    """The value to take, in SI units."""
    refused = Signal(str)
    """What was typed cannot be taken; says what would be right."""
    restored = Signal()
    """What was typed was taken back."""

    def __init__(self, spec: FieldSpec, inner: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.spec = spec
        self.inner = inner
        self.units = UnitSystem.US
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(inner)
        self.setFocusProxy(inner)
        inner.setAccessibleName(spec.label)

    def show_value(self, value: Any, units: UnitSystem) -> None:
        """Show the project's value, dropping whatever was typed."""
        raise NotImplementedError

    def define(self, units: UnitSystem, full_text: str = "") -> None:
        """Put the definition and the allowed range in the tooltip, below a text that may be cut off."""
        self.units = units
        self.inner.setToolTip(tip(self.spec.definition(units), full_text))

    def look_at(self, part: Part) -> None:
        """Know the part the field stands in, where what can be entered hangs on its other fields."""

    def commit(self) -> None:
        """Hand over what is typed and not taken yet."""

    @property
    def pending(self) -> bool:
        """Whether something is typed that was not taken yet."""
        return False

    def set_invalid(self, invalid: bool) -> None:
        """Mark or unmark the field."""
        restyle(self.inner, "invalid", "true" if invalid else None)


class _LineEditor(FieldEditor):
    """An editor that is one line of text."""

    def __init__(self, spec: FieldSpec, parent: QWidget | None = None) -> None:
        self.line = EntryLine()
        super().__init__(spec, self.line, parent)
        self.line.setPlaceholderText(spec.blank)
        self.line.committed.connect(self._read)
        self.line.restored.connect(self.restored)

    def commit(self) -> None:
        self.line.commit()

    @property
    def pending(self) -> bool:
        return self.line.pending

    def _read(self, text: str) -> None:
        raise NotImplementedError


class NumberEditor(_LineEditor):
    """A quantity or a whole number: any unit, arithmetic, within its bounds."""

    def show_value(self, value: Any, units: UnitSystem) -> None:
        self.define(units)
        self.line.show_unit(self.spec.measure.symbol(units))
        if value is None:
            self.line.show_text("")
        else:
            exact = self.spec.measure.entry_text(value, units)
            self.line.show_text(resting_text(value, self.spec.measure, units), exact)

    def _read(self, text: str) -> None:
        try:
            self.entered.emit(read_number(self.spec, text, self.units))
        except UnreadableQuantity as error:
            self.refused.emit(str(error))


def read_number(spec: FieldSpec, text: str, units: UnitSystem) -> float | int | None:
    """SI value of what was typed for a field; None for a blank that may stand.

    Raises UnreadableQuantity, which says what would be right.
    """
    if not text.strip():
        if spec.optional:
            return None
        raise UnreadableQuantity(f"{spec.label} is needed. {spec.out_of_range(units)}")
    value: float = spec.measure.read(text, units)
    if spec.entry is Entry.WHOLE_NUMBER:
        if not value.is_integer():
            raise UnreadableQuantity(spec.out_of_range(units))
        value = int(value)
    if not spec.bounds.holds(value):
        raise UnreadableQuantity(spec.out_of_range(units))
    return value if isinstance(value, int) else spec.bounds.settled(value)


class TextEditor(_LineEditor):
    """A short text."""

    def show_value(self, value: Any, units: UnitSystem) -> None:
        self.define(units, value)
        self.line.show_text(value)

    def _read(self, text: str) -> None:
        if len(text) > self.spec.longest:
            most = f"{self.spec.label} may have {self.spec.longest:,} characters"
            self.refused.emit(f"{most}; this has {len(text):,}.")
        else:
            self.entered.emit(text)


class YesNoEditor(FieldEditor):
    """A tick with the word beside it."""

    def __init__(self, spec: FieldSpec, parent: QWidget | None = None) -> None:
        self.tick = QCheckBox("No")
        super().__init__(spec, self.tick, parent)
        self.tick.toggled.connect(lambda on: self.tick.setText("Yes" if on else "No"))
        self.tick.clicked.connect(lambda on: self.entered.emit(on))

    def show_value(self, value: Any, units: UnitSystem) -> None:
        self.define(units)
        self.tick.setChecked(value)


class ChoiceEditor(FieldEditor):
    """One of a closed list; a first line for none where the field may be blank."""

    def __init__(self, spec: FieldSpec, parent: QWidget | None = None) -> None:
        self.box = ChoiceBox()
        super().__init__(spec, self.box, parent)
        if spec.optional:
            self.box.addItem(spec.blank, None)
        for member, label in spec.choices:
            self.box.addItem(label, member)
        self.box.activated.connect(lambda row: self.entered.emit(self._member(row)))

    def _member(self, row: int) -> Any:
        """The member itself: Qt hands a text enumeration back as a plain text."""
        first = 1 if self.spec.optional else 0
        return None if row < first else self.spec.choices[row - first][0]

    def show_value(self, value: Any, units: UnitSystem) -> None:
        first = 1 if self.spec.optional else 0
        members = [member for member, _ in self.spec.choices]
        self.box.setCurrentIndex(0 if value is None else members.index(value) + first)
        self.define(units, self.box.currentText())


EDITORS: dict[Entry, Callable[[FieldSpec], FieldEditor]] = {
    Entry.QUANTITY: NumberEditor,
    Entry.WHOLE_NUMBER: NumberEditor,
    Entry.TEXT: TextEditor,
    Entry.YES_NO: YesNoEditor,
    Entry.CHOICE: ChoiceEditor,
}


def editor_for(spec: FieldSpec) -> FieldEditor:
    """The editor that suits a field."""
    return EDITORS[spec.entry](spec)

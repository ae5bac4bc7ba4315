"""Widgets that enter one field: a line with its unit, a list of choices, a tick, a growing text.

Each shows a value, says `entered` with the value that was typed, or `refused` with what would be right. None
of them knows the project. What rests on screen is rounded to what can be read; a line that is being edited
holds the number in full.
"""

import math
from collections.abc import Callable
from html import escape
from typing import Any

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence, QPaintEvent, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QSizePolicy,
    QStyle,
    QStyleOptionComboBox,
    QStylePainter,
    QWidget,
)

from waterpark_designer.gui.field_spec import Entry, FieldSpec
from waterpark_designer.gui.theme import restyle, role
from waterpark_designer.model.node import Part
from waterpark_designer.units import Measure, UnitSystem, UnreadableQuantity

LONGEST_RESTING_TEXT = 8
UNIT_GAP = 6
ENTER_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
NOT_LEAVING = (Qt.FocusReason.ActiveWindowFocusReason, Qt.FocusReason.PopupFocusReason)
STEP_KEYS = (QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo)


def tip(text: str, heading: str = "") -> str:
    """A tooltip that wraps, and shows what was typed as it was typed."""
    above = f"<b>{escape(heading)}</b><br>" if heading else ""
    return f"<qt>{above}{escape(text)}</qt>"


class Words(QLabel):
    """Plain text that wraps to whatever width it is given; its height follows from that width alone."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(True)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)

    def sizeHint(self) -> QSize:  # noqa: N802
        return QSize(0, self.fontMetrics().height())

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        return self.sizeHint()


def words(text: str, name: str = "") -> Words:
    """Text that wraps, in the look of a role."""
    return role(Words(text), name) if name else Words(text)


def resting_text(value: float, measure: Measure, system: UnitSystem) -> str:
    """The number as a field shows it at rest: as typed where that is short, otherwise rounded."""
    exact = measure.entry_text(value, system)
    return exact if len(exact) <= LONGEST_RESTING_TEXT else measure.text(value, system)


def is_step_key(event: QEvent) -> bool:
    """Whether a key is about to undo or redo."""
    return (event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent)
            and any(event.matches(key) for key in STEP_KEYS))


class EntryLine(QLineEdit):
    """One line of entry: Enter or leaving it commits what was changed, Escape brings the last value back."""

    committed = Signal(str)
    restored = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._resting = self._exact = ""
        self._unit = role(QLabel(self), "unit")
        self._unit.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._unit.hide()
        self.setMinimumWidth(0)

    @property
    def pending(self) -> bool:
        """Whether it holds something that was typed and not taken yet."""
        return self.text() not in (self._resting, self._exact)

    def show_text(self, resting: str, exact: str | None = None) -> None:
        """Show a value; `exact` is what stands in the line while it is edited."""
        self._resting, self._exact = resting, resting if exact is None else exact
        self.setText(self._exact if self.hasFocus() else self._resting)
        self.setCursorPosition(0)

    def show_unit(self, symbol: str) -> None:
        """Show a unit, dimmed, at the right."""
        if symbol != self._unit.text():
            self._unit.setText(symbol)
            self._unit.setVisible(bool(symbol))
            self._place_unit()

    def restore(self) -> None:
        """Take back what was typed."""
        self.show_text(self._resting, self._exact)
        self.restored.emit()

    def _place_unit(self) -> None:
        size = self._unit.sizeHint()
        taken = min(size.width(), self.width() // 2) if self._unit.text() else 0
        self._unit.setGeometry(
            self.width() - taken - UNIT_GAP - 2, (self.height() - size.height()) // 2, taken, size.height())
        self.setTextMargins(0, 0, taken + UNIT_GAP if taken else 0, 0)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        self._place_unit()

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        if self.text() == self._resting != self._exact:
            self.setText(self._exact)
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        super().focusOutEvent(event)
        if event.reason() not in NOT_LEAVING:
            self.commit()

    def commit(self) -> None:
        """Hand over what was typed, if anything was."""
        if self.pending:
            self.committed.emit(self.text())
        elif not self.hasFocus():
            self.setText(self._resting)
            self.setCursorPosition(0)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if event.key() in ENTER_KEYS:
            self.commit()
        if event.key() == Qt.Key.Key_Escape and (self.pending or self.property("invalid")):
            self.restore()
        else:
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Undo and redo belong to the line while something is typed, and to the project otherwise."""
        if not self.pending and is_step_key(event):
            event.ignore()
            return False
        return super().event(event)


class ChoiceBox(QComboBox):
    """A list of choices that the mouse wheel does not turn and that may be narrower than its longest word."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(4)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802
        event.ignore()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        """Paint the choice, with dots where it is longer than the field."""
        painter = QStylePainter(self)
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        field = self.style().subControlRect(
            QStyle.ComplexControl.CC_ComboBox, option, QStyle.SubControl.SC_ComboBoxEditField, self)
        option.currentText = self.fontMetrics().elidedText(
            self.currentText(), Qt.TextElideMode.ElideRight, field.width() - 2)
        if not self.isEditable():
            painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)

    def showPopup(self) -> None:  # noqa: N802
        """Open the list as wide as its words."""
        view = self.view()
        view.setMinimumWidth(min(view.sizeHintForColumn(0) + 40, 420))
        super().showPopup()


class GrowingText(QPlainTextEdit):
    """Text that wraps and grows with what it holds; `single` keeps it to one paragraph, taken by Enter."""

    committed = Signal(str)
    restored = Signal()

    def __init__(self, single: bool = False, most_lines: int = 8, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shown = ""
        self._single, self._most_lines = single, most_lines
        self.setTabChangesFocus(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.document().documentLayout().documentSizeChanged.connect(lambda _size: self._fit())

    @property
    def pending(self) -> bool:
        return self.toPlainText() != self._shown

    def show_text(self, text: str) -> None:
        """Show a text that is the project's."""
        self._shown = text
        if self.toPlainText() != text:
            self.setPlainText(text)

    def restore(self) -> None:
        """Take back what was typed."""
        self.show_text(self._shown)
        self.restored.emit()

    def commit(self) -> None:
        """Hand over what was typed, if anything was."""
        if self.pending:
            text = self.toPlainText()
            self.committed.emit(" ".join(text.split()) if self._single else text)

    def sizeHint(self) -> QSize:  # noqa: N802
        lines = min(max(round(self.document().size().height()), 1), self._most_lines)
        frame = self.height() - self.viewport().height() if self.isVisible() else 10
        text = lines * self.fontMetrics().lineSpacing() + 2 * self.document().documentMargin()
        return QSize(120, math.ceil(text + frame))

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        return QSize(40, self.sizeHint().height())

    def _fit(self) -> None:
        fits = round(self.document().size().height()) <= self._most_lines
        policy = Qt.ScrollBarPolicy.ScrollBarAlwaysOff if fits else Qt.ScrollBarPolicy.ScrollBarAsNeeded
        self.setVerticalScrollBarPolicy(policy)
        if self.sizeHint().height() != self.height():
            self.updateGeometry()

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802
        super().focusOutEvent(event)
        if event.reason() not in NOT_LEAVING:
            self.commit()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        command = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        if event.key() in ENTER_KEYS and (self._single or command):
            self.commit()
        elif event.key() == Qt.Key.Key_Escape and (self.pending or self.property("invalid")):
            self.restore()
        else:
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Undo and redo belong to the text while something is typed, and to the project otherwise."""
        if not self.pending and is_step_key(event):
            event.ignore()
            return False
        return super().event(event)


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
    return value


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
    Entry.QUANTITY: NumberEditor, Entry.WHOLE_NUMBER: NumberEditor, Entry.TEXT: TextEditor,
    Entry.YES_NO: YesNoEditor, Entry.CHOICE: ChoiceEditor}


def editor_for(spec: FieldSpec) -> FieldEditor:
    """The editor that suits a field."""
    return EDITORS[spec.entry](spec)

"""The widgets that fields are entered with: a line with its unit, a list of choices, a text that grows.

None of them knows what a field is. They keep apart what is shown and what is typed and not taken yet.
"""

import math
from html import escape

from PySide6.QtCore import QEvent, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence, QPaintEvent, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import (
    QComboBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QSizePolicy,
    QStyle,
    QStyleOptionComboBox,
    QStylePainter,
    QWidget,
)

from waterpark_designer.gui.theme import restyle, role

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


def is_step_key(event: QEvent) -> bool:
    """Whether a key is about to undo or redo."""
    return (
        event.type() == QEvent.Type.ShortcutOverride
        and isinstance(event, QKeyEvent)
        and any(event.matches(key) for key in STEP_KEYS)
    )


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
        if self.hasFocus():
            # What is typed next takes its place; selected from the end, so that its beginning is seen.
            self.setSelection(len(self._exact), -len(self._exact))

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
            self.width() - taken - UNIT_GAP - 2, (self.height() - size.height()) // 2, taken, size.height()
        )
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
            QStyle.ComplexControl.CC_ComboBox, option, QStyle.SubControl.SC_ComboBoxEditField, self
        )
        option.currentText = self.fontMetrics().elidedText(
            self.currentText(), Qt.TextElideMode.ElideRight, field.width() - 2
        )
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
        self.shown = ""
        self._single, self._most_lines = single, most_lines
        self.setTabChangesFocus(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.document().documentLayout().documentSizeChanged.connect(lambda _size: self._fit())

    @property
    def pending(self) -> bool:
        return self.toPlainText() != self.shown

    def show_text(self, text: str) -> None:
        """Show a text that is the project's."""
        self.shown = text
        if self.toPlainText() != text:
            self.setPlainText(text)

    def mark(self, invalid: bool) -> None:
        """Look as if something is wrong with the text, or not."""
        restyle(self, "invalid", "true" if invalid else None)

    def restore(self) -> None:
        """Take back what was typed."""
        self.show_text(self.shown)
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
            # Later, since a layout that is just giving this its width asks no more what height that needs.
            QTimer.singleShot(0, self, self.updateGeometry)

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

"""Setting a figure by hand: the value, in any unit, and the reason that every document will print."""

from PySide6.QtWidgets import QDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.worked import Worked
from waterpark_designer.gui.entry_widgets import words
from waterpark_designer.gui.field_editors import NumberEditor, TextEditor
from waterpark_designer.gui.field_spec import Bounds, Entry, FieldSpec
from waterpark_designer.gui.property_editor import PropertyRow
from waterpark_designer.gui.theme import role
from waterpark_designer.model.node import LARGEST_FIGURE, LONGEST_REASON, SHORTEST_REASON, Override
from waterpark_designer.units import BAGS, BATHERS, COUNT, UnitSystem

WHOLE = (COUNT, BATHERS, BAGS)
MOST_WHOLE = 1e9


def value_spec(figure: Figure) -> FieldSpec:
    """How the value of a figure is entered: no figure is negative, and bathers, bags and filters are whole."""
    kind = figure.kind
    whole = kind.measure in WHOLE
    return FieldSpec(
        name="value",
        label="Value",
        description=kind.definition,
        measure=kind.measure,
        entry=Entry.WHOLE_NUMBER if whole else Entry.QUANTITY,
        bounds=Bounds(low=0.0, high=MOST_WHOLE if whole else None),
    )


REASON_SPEC = FieldSpec(
    name="reason",
    label="Reason",
    entry=Entry.TEXT,
    longest=LONGEST_REASON,
    description=Override.model_fields["reason"].description or "",
    blank="why, and by whom",
)


class OverrideDialog(QDialog):
    """Asks for the value and the reason; `value` and `reason` hold them once it is accepted."""

    def __init__(self, figure: Figure, owner: str, units: UnitSystem, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.value: float | None = None
        self.reason = ""
        self.setWindowTitle(f"Set {figure.kind.label.lower()} by hand")
        self.setMinimumWidth(400)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(20, 16, 20, 16)
        layout.setSpacing(10)
        layout.addWidget(words(f"{figure.kind.label} of {owner}", "heading"))
        layout.addWidget(words(computed_text(figure, units), "dim"))
        self._number, self._words = NumberEditor(value_spec(figure)), TextEditor(REASON_SPEC)
        self.value_row, self.reason_row = PropertyRow(self._number), PropertyRow(self._words)
        self._show(figure, units)
        layout.addWidget(self.value_row)
        layout.addWidget(self.reason_row)
        layout.addStretch()
        layout.addLayout(self._buttons())
        self.value_row.editor.setFocus()

    def _grow(self) -> None:
        """Make room for what is wrong: a window does not grow by itself for text that wraps."""
        layout = self.layout()
        assert layout is not None
        for row in (self.value_row, self.reason_row):
            row.updateGeometry()
        layout.activate()
        self.resize(self.width(), max(self.height(), layout.totalHeightForWidth(self.width())))

    def _buttons(self) -> QHBoxLayout:
        self.accept_button = role(QPushButton("Set by hand"), "primary")
        self.accept_button.setDefault(True)
        self.accept_button.clicked.connect(self.accept)
        cancel = QPushButton("Cancel")
        cancel.clicked.connect(self.reject)
        row = QHBoxLayout()
        row.addStretch(1)
        row.addWidget(cancel)
        row.addWidget(self.accept_button)
        return row

    def _show(self, figure: Figure, units: UnitSystem) -> None:
        override = figure.override
        self.value_row.show_value(override.value if override else None, units)
        self.reason_row.show_value(override.reason if override else "", units)
        self.value, self.reason = (override.value, override.reason) if override else (None, "")
        self.value_row.editor.entered.connect(self._take_value)
        self.reason_row.editor.entered.connect(self._take_reason)
        for row in (self.value_row, self.reason_row):
            row.editor.refused.connect(lambda _message: self._grow())

    def _take_value(self, value: float) -> None:
        self.value = value
        self.value_row.clear_error()

    def _take_reason(self, text: str) -> None:
        self.reason = text
        self.reason_row.clear_error()

    def _forget_what_was_erased(self) -> None:
        """An entry that was taken once and is blank again counts no more."""
        if not self._number.line.text().strip():
            self.value = None
        if not self._words.line.text().strip():
            self.reason = ""

    def accept(self) -> None:
        """Close only with a value that can be read and a reason; otherwise say what is needed."""
        for row in (self.value_row, self.reason_row):
            row.editor.commit()
        self._forget_what_was_erased()
        if self.value is None and self.value_row.error.isHidden():
            self.value_row.show_error("Type the value that is to be used.")
        if self.value is not None and self.value > LARGEST_FIGURE:
            self.value_row.show_error("No figure is that large. Type a smaller number.")
        if len(self.reason.strip()) < SHORTEST_REASON and self.reason_row.error.isHidden():
            self.reason_row.show_error("Say why the computed figure is not used. Every document prints it.")
        wrong = [row for row in (self.value_row, self.reason_row) if not row.error.isHidden()]
        if wrong:
            self._grow()
            wrong[0].editor.setFocus()
        else:
            super().accept()


def computed_text(figure: Figure, units: UnitSystem) -> str:
    """What the program computes, or what it would need to."""
    computed = figure.as_computed
    if isinstance(computed, Worked):
        return f"Computed: {figure.kind.measure.phrase(computed, units)}"
    return f"There is no computed figure. {computed.needs if computed is not None else ''}".strip()

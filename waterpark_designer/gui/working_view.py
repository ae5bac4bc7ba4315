"""The working of one number on screen: equation, the numbers put in, result, source, and what to be wary of.

Every number put in that was itself worked opens in place, to any depth. What is open stays open when the numbers
change, and is what “Copy working” puts on the clipboard.
"""

from collections.abc import Iterable

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.engine.worked import Worked
from waterpark_designer.engine.working import InputLine, Working, working_of
from waterpark_designer.gui.entry_widgets import words
from waterpark_designer.gui.folding import FoldMark
from waterpark_designer.gui.theme import colours, role
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import Measure, UnitSystem

Path = tuple[int, ...]
MOST_SUBSTITUTED = 12
MOST_INPUTS = 40
INDENT = 12
DEEPEST_INDENT = 5
"""Deeper workings are not indented further, so that the innermost stays readable in a narrow panel."""


def source_text(source: Source) -> str:
    """A source and how far it was confirmed: “…, .08(1)(b) · read”."""
    return source.text if source.provenance is Provenance.ENTRY else f"{source.text} · {source.provenance.value}"


def plain_lines(working: Working) -> list[str]:
    """The working as lines of plain text, without those of the numbers put in."""
    lines = [working.title]
    if working.equation:
        lines.append(working.equation)
    if _substitution(working):
        lines.append(f"= {_substitution(working)}")
    lines.append(f"= {working.result}")
    lines += [f"{input_title(line)}: {line.text}{_origin_in_brackets(line)}" for line in working.inputs]
    lines.append(f"Source: {source_text(working.source)}")
    lines += [line for line in (working.note, *working.cautions) if line]
    return lines


def _origin_in_brackets(line: InputLine) -> str:
    return f" ({origin_text(line)})" if origin_text(line) else ""


def input_title(line: InputLine) -> str:
    """Symbol and name of a number put in."""
    return f"{line.symbol} = {line.name[:1].lower()}{line.name[1:]}" if line.symbol else line.name


def origin_text(line: InputLine) -> str:
    """Where a number put in comes from, unless that says no more than its name."""
    if line.worked is None:
        return "constant"
    step = line.worked.step
    if step.formula is None and not step.parts:
        owner = "" if step.title.casefold() == line.name.casefold() else f"{step.title}. "
        return f"{owner}{source_text(step.source)}"
    return "" if step.title.casefold() == line.name.casefold() else step.title


def _substitution(working: Working) -> str:
    told = working.substitution != working.result and len(working.inputs) <= MOST_SUBSTITUTED
    return working.substitution if told else ""


class WorkingView(QWidget):
    """One working; `level` tells how many workings it stands inside of."""

    def __init__(
        self, value: Worked, measure: Measure, units: UnitSystem, level: int = 0, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.level = level
        self._units = units
        self.working = working_of(value, measure, units)
        self.inputs: list[InputRow] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(INDENT if 0 < level <= DEEPEST_INDENT else 0, 0, 0, 0)
        self._layout.setSpacing(3)
        self._show_equation()
        self._show_inputs(self.working.inputs[:MOST_INPUTS])
        self._show_rest(self.working.inputs[MOST_INPUTS:])
        self._show_source()

    def _show_equation(self) -> None:
        working = self.working
        for text, name in (
            (working.equation, "subheading"),
            (f"= {_substitution(working)}" if _substitution(working) else "", ""),
            (f"= {working.result}" if working.equation else working.result, "subheading"),
        ):
            if text:
                self._layout.addWidget(words(text, name))

    def _show_inputs(self, lines: Iterable[InputLine]) -> None:
        for line in lines:
            row = InputRow(line, self._units, self.level)
            self.inputs.append(row)
            self._layout.addWidget(row)

    def _show_rest(self, lines: tuple[InputLine, ...]) -> None:
        if not lines:
            return
        button = role(QPushButton(f"Show {len(lines):,} more"), "chip")
        place = self._layout.count()
        self._layout.addWidget(button)

        def show() -> None:
            button.hide()
            for offset, line in enumerate(lines):
                row = InputRow(line, self._units, self.level)
                self.inputs.append(row)
                self._layout.insertWidget(place + offset, row)

        button.clicked.connect(show)

    def _show_source(self) -> None:
        source = self.working.source
        tone = "caution" if source.provenance.needs_confirmation else "dim"
        self._layout.addWidget(words(source_text(source), tone))
        if self.working.note:
            self._layout.addWidget(words(self.working.note, "dim"))
        for caution in self.working.cautions:
            self._layout.addWidget(words(f"⚠ Caution: {caution}", "caution"))

    def open_paths(self) -> set[Path]:
        """Which of the numbers put in are open, each by its way down from here."""
        found: set[Path] = set()
        for number, row in enumerate(self.inputs):
            if row.below is not None and row.is_open:
                found.add((number,))
                found |= {(number, *path) for path in row.below.open_paths()}
        return found

    def reopen(self, paths: set[Path]) -> None:
        """Open what was open before."""
        for number, row in enumerate(self.inputs):
            if (number,) in paths:
                row.set_open(True)
                if row.below is not None:
                    row.below.reopen({path[1:] for path in paths if path[0] == number and len(path) > 1})

    def text(self, indent: str = "") -> str:
        """This working and all that is open in it, as plain text."""
        lines = [f"{indent}{line}" for line in plain_lines(self.working)]
        for row in self.inputs:
            if row.below is not None and row.is_open:
                lines += ["", f"{indent}{row.line.name}:", row.below.text(f"{indent}    ")]
        return "\n".join(lines)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        if self.level:
            QPainter(self).fillRect(0, 2, 2, self.height() - 4, QColor(colours().water_soft))


class InputRow(QWidget):
    """One number put in: name, value, where it comes from, and its own working where it has one."""

    def __init__(self, line: InputLine, units: UnitSystem, level: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.line, self._units, self._level = line, units, level
        self.below: WorkingView | None = None
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 3, 0, 0)
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(1)
        self._grid.setColumnStretch(0, 1)
        self.mark = FoldMark(f"Working of {line.name.lower()}")
        self._grid.addWidget(words(input_title(line)), 0, 0, Qt.AlignmentFlag.AlignTop)
        top = Qt.AlignmentFlag.AlignTop
        self.mark.setFixedHeight(self.fontMetrics().height())
        self._grid.addWidget(QLabel(line.text), 0, 1, top)
        self._grid.addWidget(self.mark, 0, 2, top)
        self._show_origin()
        policy = self.mark.sizePolicy()
        policy.setRetainSizeWhenHidden(True)
        self.mark.setSizePolicy(policy)
        self.mark.setVisible(self.opens)
        self.mark.toggled.connect(self._set_open)

    def _show_origin(self) -> None:
        step = self.line.worked.step if self.line.worked is not None else None
        unsure = step is not None and step.source.provenance.needs_confirmation
        note = step.note if step is not None and step.formula is None and not step.parts else ""
        text = ". ".join(part for part in (origin_text(self.line), note) if part)
        if text:
            self._grid.addWidget(words(text, "caution" if unsure else "dim"), 1, 0, 1, 3)

    @property
    def opens(self) -> bool:
        """Whether there is a working behind the number, and not just a place it comes from."""
        return self.line.worked is not None and bool(self.line.worked.step.inputs())

    @property
    def is_open(self) -> bool:
        return self.mark.isChecked()

    def set_open(self, is_open: bool) -> None:
        """Show or put away the working of this number, where it has one."""
        self.mark.setChecked(is_open and self.opens)

    def _set_open(self, is_open: bool) -> None:
        if is_open and self.below is None and self.line.worked is not None:
            self.below = WorkingView(self.line.worked, self.line.measure, self._units, self._level + 1)
            self._grid.addWidget(self.below, 2, 0, 1, 3)
        if self.below is not None:
            self.below.setVisible(is_open)

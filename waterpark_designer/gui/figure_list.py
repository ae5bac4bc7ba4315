"""Figures one after another, each with its working: formula, the numbers put in, result and source."""

from collections.abc import Iterable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from waterpark_designer.documents.calculations import equation_text
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.worked import Missing
from waterpark_designer.engine.working import working_of
from waterpark_designer.gui.theme import role
from waterpark_designer.units import UnitSystem


class FigureList(QFrame):
    """A card with the workings of chosen figures."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        role(self, "card")
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(12, 10, 12, 10)
        self._column.setSpacing(10)
        self._blocks: list[QWidget] = []
        self._shown: list[Figure] = []
        self._units: UnitSystem | None = None

    def show_figures(self, design: SiteDesign, figures: Iterable[tuple[str, str]]) -> None:
        """Show the figures named by (node id, key); one that a node does not have is left out.

        Figures that an edit left as they are stay on screen.
        """
        sheets = [(design.sheets.get(node), key) for node, key in figures]
        shown = [sheet.figures[key] for sheet, key in sheets if sheet is not None and key in sheet.figures]
        self.setVisible(bool(shown))
        if design.site.units is self._units and list(map(id, shown)) == list(map(id, self._shown)):
            return
        self._shown, self._units = shown, design.site.units
        for block in self._blocks:
            self._column.removeWidget(block)
            block.hide()
            block.deleteLater()
        self._blocks = [figure_block(figure, self._units) for figure in shown]
        for block in self._blocks:
            self._column.addWidget(block)


def figure_block(figure: Figure, units: UnitSystem) -> QWidget:
    """One figure: its name and result, and below them how it came about."""
    block = QWidget()
    column = QVBoxLayout(block)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(2)
    column.addLayout(_head(figure, units))
    for text, look in working_lines(figure, units):
        column.addWidget(_wrapped(text, look))
    block.setToolTip(figure.kind.definition)
    return block


def working_lines(figure: Figure, units: UnitSystem) -> list[tuple[str, str]]:
    """(text, role) of the lines under a figure: equation, numbers, source, and what to mind."""
    value = figure.value
    if isinstance(value, Missing):
        return [(value.needs, "caution")]
    working = working_of(value, figure.kind.measure, units)
    lines = [(equation_text(working) or working.title, "")]
    if figure.override is not None:
        lines.append((f"Set by hand. Reason: {figure.override.reason}", "caution"))
    elif working.note:
        lines.append((working.note, "dim"))
    look = "caution" if working.source.provenance.needs_confirmation else "dim"
    lines.append((f"{working.source.text} ({working.source.provenance})", look))
    return [line for line in (*lines, *((caution, "caution") for caution in working.cautions)) if line[0]]


def _head(figure: Figure, units: UnitSystem) -> QHBoxLayout:
    head = QHBoxLayout()
    head.setSpacing(10)
    name = _wrapped(figure.kind.label, "subheading")
    value = figure.value
    result = role(QLabel("—" if isinstance(value, Missing) else figure.kind.measure.phrase(value, units)), "subheading")
    result.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
    head.addWidget(name, 1)
    head.addWidget(result)
    return head


def _wrapped(text: str, look: str) -> QLabel:
    label = role(QLabel(text), look) if look else QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label

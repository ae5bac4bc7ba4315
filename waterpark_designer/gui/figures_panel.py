"""The figures of one node by discipline: value, unit, state of its checks, and the way to each working."""

from collections.abc import Iterable, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.engine.figure_kinds import FIGURE_KINDS, Discipline
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.sheet import Figure, Sheet
from waterpark_designer.gui.entry_widgets import tip, words
from waterpark_designer.gui.figure_row import FigureRow, Shown
from waterpark_designer.gui.folding import FoldButton
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.override_dialog import OverrideDialog
from waterpark_designer.gui.property_editor import subject_of, try_edit
from waterpark_designer.gui.theme import role
from waterpark_designer.model.edits import clear_override, set_override
from waterpark_designer.model.node import Node
from waterpark_designer.units import UnitSystem

ORDER = {key: number for number, key in enumerate(FIGURE_KINDS)}
WIDEST_UNIT = 84
NO_BREAK_SPACE, WORD_JOINER = "\u00a0", "\u2060"
SAID_AT_THE_ROW = "override"
"""Key of the findings that the row of their figure tells already."""
TONES = {
    Status.NOT_MET: "error",
    Status.CAUTION: "caution",
    Status.UNKNOWN: "dim",
    Status.SILENT: "dim",
    Status.MET: "ok",
}
SPOKEN = (Status.NOT_MET, Status.CAUTION)
"""Findings that are written out below their heading; the others only count."""


def state_of(findings: Sequence[Finding]) -> tuple[str, str]:
    """The state of some checks in words with its mark, and its tone: the worst of them speaks."""
    for status, text in (
        (Status.NOT_MET, "{} not met"),
        (Status.CAUTION, "{} to look at"),
        (Status.UNKNOWN, "cannot tell yet"),
        (Status.MET, "within limit"),
        (Status.SILENT, "code silent"),
    ):
        count = sum(finding.status is status for finding in findings)
        if count:
            return f"{status.mark} {text.format(count)}", TONES[status]
    return "", "dim"


def finding_text(finding: Finding, units: UnitSystem) -> str:
    """A finding as a sentence: what, the value against the limit, and what would put it right."""
    measure = finding.measure
    parts = []
    if measure is not None and finding.value is not None:
        parts.append(measure.phrase(finding.value, units))
    if measure is not None and finding.limit is not None:
        parts.append(f"{finding.sense} {measure.phrase(finding.limit, units)}".strip())
    compared = f": {', '.join(_unbroken(part) for part in parts)}" if parts else ""
    return f"{finding.status.mark} {finding.title}{compared}. {finding.remedy}".strip()


def _unbroken(phrase: str) -> str:
    """A number and its unit, kept on one line."""
    return phrase.replace("/", f"/{WORD_JOINER}").replace(" ", NO_BREAK_SPACE)


def finding_source(finding: Finding) -> str:
    """The clause and how far it was confirmed."""
    return " · ".join(part for part in (finding.clause, finding.provenance) if part)


class FigureGroup(QWidget):
    """The figures of one discipline under their heading."""

    row_made = Signal(object)

    def __init__(self, title: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: dict[str, FigureRow] = {}
        self.heading = role(QLabel(title), "subheading")
        self.state = QLabel()
        self.state.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self._findings: list[QLabel] = []
        self.more = FoldButton("More", quiet=True)
        self._more_box = QWidget()
        self._more_box.hide()
        self.more.toggled.connect(self._more_box.setVisible)
        self._lay_out()

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.heading)
        top.addWidget(self.state, 1)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 4)
        self._layout.setSpacing(1)
        self._layout.addLayout(top)
        self._messages = QVBoxLayout()
        self._rows = QVBoxLayout()
        self._rows.setSpacing(0)
        self._layout.addLayout(self._messages)
        self._layout.addLayout(self._rows)
        self._layout.addWidget(self.more)
        self._minor_rows = QVBoxLayout(self._more_box)
        self._minor_rows.setContentsMargins(0, 0, 0, 0)
        self._minor_rows.setSpacing(0)
        self._layout.addWidget(self._more_box)

    def show_group(self, shown: Sequence[Shown], findings: Sequence[Finding], units: UnitSystem) -> None:
        """Show these figures, none else, and the state of these checks."""
        keys = {item.figure.kind.key for item in shown}
        for key in keys - self.rows.keys():
            self._make_row(key)
        width = self._unit_width(shown)
        for item in shown:
            self.rows[item.figure.kind.key].show_figure(item, width)
        for key, row in self.rows.items():
            if row.isHidden() == (key in keys):
                row.setVisible(key in keys)
        minor = sum(FIGURE_KINDS[key].minor for key in keys)
        self.more.setText(f"{minor} more")
        self.more.setVisible(minor > 0)
        self._more_box.setVisible(minor > 0 and self.more.isChecked())
        self._show_findings(findings, units)

    def _make_row(self, key: str) -> None:
        row = FigureRow(key)
        layout = self._minor_rows if FIGURE_KINDS[key].minor else self._rows
        place = sum(
            ORDER[other] < ORDER[key] and FIGURE_KINDS[other].minor == FIGURE_KINDS[key].minor for other in self.rows
        )
        layout.insertWidget(place, row)
        # Shown at once, not when the layout comes to it, so that it can take the focus.
        row.show()
        self.rows[key] = row
        self.row_made.emit(row)

    def _unit_width(self, shown: Iterable[Shown]) -> int:
        metrics = QFontMetrics(self.font())
        symbols = {item.unit for item in shown}
        return min(max((metrics.horizontalAdvance(symbol) for symbol in symbols), default=0), WIDEST_UNIT)

    def _show_findings(self, findings: Sequence[Finding], units: UnitSystem) -> None:
        text, tone = state_of(findings)
        self.state.setText(text)
        role(self.state, tone)
        spoken = [
            finding
            for status in SPOKEN
            for finding in findings
            if finding.status is status and finding.key != SAID_AT_THE_ROW
        ]
        while len(self._findings) < len(spoken):
            self._findings.append(words(""))
            self._messages.addWidget(self._findings[-1])
        for label, finding in zip(self._findings, spoken, strict=False):
            label.setText(finding_text(finding, units))
            label.setToolTip(tip(finding_source(finding)))
            role(label, TONES[finding.status])
        for number, label in enumerate(self._findings):
            label.setVisible(number < len(spoken))


class FiguresPanel(QWidget):
    """All figures of the node shown, and the two ways to change one: by hand, and back to the computed one."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.project = project
        self._node = ""
        self._shown: tuple[Sheet | None, str, UnitSystem, str] = (None, "", UnitSystem.US, "")
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(10)
        self.checks = FigureGroup("Checks")
        self._idle_buttons: list[QPushButton] = []
        self.groups: dict[Discipline, FigureGroup] = {}
        self._layout.addWidget(self.checks)
        for discipline in Discipline:
            group = FigureGroup(discipline.label)
            group.row_made.connect(self._connect)
            self.groups[discipline] = group
            self._layout.addWidget(group)

    @property
    def rows(self) -> dict[str, FigureRow]:
        """The rows on screen by figure key, those folded away under “more” included."""
        return {key: row for group in self.groups.values() for key, row in group.rows.items() if not row.isHidden()}

    def _connect(self, row: FigureRow) -> None:
        row.override_requested.connect(self.set_by_hand)
        row.computed_requested.connect(self.use_computed)

    def show_sheet(self, node: Node, sheet: Sheet, units: UnitSystem) -> None:
        """Show the figures of a node; nothing is done where neither they nor the units changed."""
        owner, currency = subject_of(self.project.site, node), self.project.site.currency
        if self._shown == (sheet, owner, units, currency):
            return
        has_keyboard = self.isAncestorOf(self.window().focusWidget() or self)
        if node.id != self._node and not has_keyboard:
            # Each row that appears in a panel on screen has the whole panel laid out anew.
            self.hide()
        self._node, self._shown = node.id, (sheet, owner, units, currency)
        by_group: dict[Discipline, list[Shown]] = {}
        for figure in sheet.figures.values():
            by_group.setdefault(figure.kind.discipline, []).append(Shown(figure, owner, units, currency))
        told: dict[Discipline | None, list[Finding]] = {}
        for finding in sheet.findings:
            kind = FIGURE_KINDS.get(finding.figure) if finding.figure in sheet.figures else None
            told.setdefault(kind.discipline if kind else None, []).append(finding)
        for discipline, group in self.groups.items():
            group.setVisible(discipline in by_group)
            group.show_group(by_group.get(discipline, []), told.get(discipline, []), units)
        self.checks.setVisible(None in told)
        self.checks.show_group([], told.get(None, []), units)
        self._offer_to_clear([item.figure for item in node.overrides if item.figure not in sheet.figures])
        self.show()

    def _offer_to_clear(self, idle: Sequence[str]) -> None:
        """A button for each figure that is set by hand and does not apply here."""
        for button in self._idle_buttons:
            button.hide()
            button.deleteLater()
        self._idle_buttons = []
        for place, key in enumerate(idle, 1):
            label = FIGURE_KINDS[key].label if key in FIGURE_KINDS else key
            button = role(QPushButton(f"Clear “{label}”"), "chip")
            button.clicked.connect(lambda _checked=False, figure=key: self.use_computed(figure))
            self._layout.insertWidget(place, button, alignment=Qt.AlignmentFlag.AlignLeft)
            self._idle_buttons.append(button)

    def open_figure(self, key: str) -> FigureRow | None:
        """Open the working of a figure, also one folded away; None where the node has no such figure."""
        row = self.rows.get(key)
        if row is not None:
            if FIGURE_KINDS[key].minor:
                self.groups[FIGURE_KINDS[key].discipline].more.setChecked(True)
            row.set_open(True)
        return row

    def ask_override(self, figure: Figure, owner: str) -> tuple[float, str] | None:
        """Ask for a value and a reason; None where the question was put away."""
        dialog = OverrideDialog(figure, owner, self.project.units, self)
        try:
            accepted = dialog.exec() == OverrideDialog.DialogCode.Accepted
            return (dialog.value, dialog.reason) if accepted and dialog.value is not None else None
        finally:
            dialog.deleteLater()

    def set_by_hand(self, key: str) -> None:
        """Ask for a value and put it in the computed one's place."""
        sheet, owner, *_ = self._shown
        figure = sheet.figures.get(key) if sheet is not None else None
        answer = self.ask_override(figure, owner) if figure is not None else None
        if figure is not None and answer is not None:
            value, reason = answer
            node = self._node
            try_edit(
                self.project,
                f"Set {figure.kind.label.lower()} of {owner} by hand",
                lambda site: set_override(site, node, key, value, reason),
            )

    def use_computed(self, key: str) -> None:
        """Go back to the computed figure."""
        node, owner = self._node, self._shown[1]
        label = FIGURE_KINDS[key].label.lower() if key in FIGURE_KINDS else key
        try_edit(self.project, f"Use computed {label} of {owner}", lambda site: clear_override(site, node, key))

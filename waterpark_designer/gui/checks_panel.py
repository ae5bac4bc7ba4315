"""The checks: every finding with its value, limit, clause and remedy, and a jump to where to put it right."""

from collections import Counter
from dataclasses import dataclass, replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFontMetrics, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QButtonGroup, QLabel, QPushButton, QStackedWidget, QVBoxLayout, QWidget

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.gui.flow_layout import FlowLayout
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.paper_rows import Cell, Column, Row, RowsModel, RowStyle
from waterpark_designer.gui.theme import role
from waterpark_designer.gui.wrapped_table import WrappedTable
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.site import Site
from waterpark_designer.units import UnitSystem

COLUMNS = (
    Column("Result", 0, 130),
    Column("Check", 3, 180, tip="What is checked, and what would put it right."),
    Column("Value and limit", 1.2, 140, number=True, tip="The figure of the design, and below it the limit."),
    Column("Clause", 1.6, 130, tip="Where the limit stands, and how far it was confirmed."),
)
NARROW = 640
CHIP_PADDING = 50
TONES = {
    Status.NOT_MET: "error",
    Status.CAUTION: "caution",
    Status.UNKNOWN: "dim",
    Status.SILENT: "dim",
    Status.MET: "ok",
}
NOTHING = {
    None: "There is nothing to check yet. Add a body of water and choose a code basis.",
    Status.NOT_MET: "No check fails.",
    Status.CAUTION: "There is nothing to look at.",
    Status.UNKNOWN: "Nothing is left open: every check has an answer.",
    Status.SILENT: "The code basis has a word on everything that is checked.",
    Status.MET: "No check is met yet.",
}


@dataclass(frozen=True, slots=True)
class Group:
    """A heading: a system or a body of water, and how many of its checks are shown."""

    node: str
    text: str


@dataclass(frozen=True, slots=True)
class Place:
    """Where a node stands: the group of its checks, and the name of the part of the group."""

    group: str
    heading: str
    part: str = ""


class ChecksPanel(QWidget):
    """All findings, grouped by system and body of water; filtered by a click on a count."""

    figure_requested = Signal(str, str)
    """(node id, figure key) of the finding that was activated; the figure may be empty."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.project = project
        self.status: Status | None = None
        self.chips: dict[Status | None, QPushButton] = {}
        self.table = WrappedTable(RowsModel(COLUMNS, self._row, _key, lambda item: isinstance(item, Finding)), self)
        self.table.setAccessibleName("Checks")
        self.empty = role(QLabel(), "dim")
        self._stack = QStackedWidget()
        self._stale = True
        self._narrow = False
        self._lay_out()
        self.table.activated_row.connect(self._jump)
        project.design_changed.connect(self._design_changed)

    def show_status(self, status: Status | None) -> None:
        """Show the findings of one status only, or all."""
        self.chips[status].setChecked(True)
        self.status = status
        self._refresh()

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802
        super().showEvent(event)
        if self._stale:
            self._refresh()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        if (self.width() < NARROW) is not self._narrow:
            self._narrow = not self._narrow
            self._refresh()

    def _lay_out(self) -> None:
        chips = QWidget()
        flow, group = FlowLayout(chips), QButtonGroup(self)
        for status in (None, *Status):
            chip = role(QPushButton(), "tab")
            chip.setCheckable(True)
            chip.clicked.connect(lambda _checked, status=status: self.show_status(status))
            group.addButton(chip)
            flow.addWidget(chip)
            self.chips[status] = chip
        self.chips[None].setChecked(True)
        self.empty.setContentsMargins(8, 12, 8, 12)
        self.empty.setWordWrap(True)
        self.empty.setAlignment(Qt.AlignmentFlag.AlignTop)
        self._stack.addWidget(self.table)
        self._stack.addWidget(self.empty)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 0)
        column.setSpacing(10)
        column.addWidget(chips)
        column.addWidget(self._stack, 1)

    def _design_changed(self, _before: SiteDesign, _now: SiteDesign) -> None:
        self._stale = True
        if self.isVisible():
            self._refresh()

    def _refresh(self) -> None:
        self._stale = False
        findings = self.project.design.findings
        counts = Counter(finding.status for finding in findings)
        for status, chip in self.chips.items():
            count = len(findings) if status is None else counts[status]
            words = "All" if status is None else f"{status.mark} {status.label.capitalize()}"
            chip.setText(f"{words}  {count:,}")
            chip.setMinimumWidth(width_while_bold(chip))
        self._places = places(self.project.site)
        shown = [finding for finding in findings if self.status in (None, finding.status)]
        self.table.show_items(grouped(shown, self._places), COLUMNS[:3] if self._narrow else COLUMNS)
        self.empty.setText(NOTHING[self.status])
        self._stack.setCurrentWidget(self.table if shown else self.empty)

    def _row(self, item: Group | Finding) -> Row:
        if isinstance(item, Group):
            return Row((Cell(item.text),), RowStyle.HEADING)
        place = self._places.get(item.node, Place("", ""))
        row = finding_row(item, self.project.units, place.part)
        return without_clause_column(row) if self._narrow else row

    def _jump(self, finding: Finding) -> None:
        self.project.select(finding.node)
        self.figure_requested.emit(finding.node, finding.figure)


def finding_row(finding: Finding, units: UnitSystem, part: str = "") -> Row:
    """A finding as it is read; `part` names the zone or feature it is about."""
    title = f"{part}: {finding.title}" if part else finding.title
    return Row(
        (
            Cell(f"{finding.status.mark} {finding.status.label}", tone=TONES[finding.status], bold=True),
            Cell(title, finding.remedy),
            value_cell(finding, units),
            Cell(finding.clause, finding.provenance),
        )
    )


def without_clause_column(row: Row) -> Row:
    """The row where there is no room for the clause: it goes below the remedy."""
    result, check, value, clause = row.cells
    told = f"{clause.text} ({clause.below})" if clause.below else clause.text
    below = "\n".join(part for part in (check.below, told) if part)
    return Row((result, replace(check, below=below), value))


def value_cell(finding: Finding, units: UnitSystem) -> Cell:
    """The value with its unit, and the limit below it."""
    if finding.measure is None:
        return Cell()
    value = "" if finding.value is None else finding.measure.phrase(finding.value, units)
    limit = "" if finding.limit is None else finding.measure.phrase(finding.limit, units)
    return Cell(value or "–", f"{finding.sense or 'against'} {limit}" if limit else "")


def places(site: Site) -> dict[str, Place]:
    """For every node the system or body of water among whose checks its findings stand."""
    found = {site.id: Place(site.id, site.name)}
    for system in site.systems:
        home = found[system.id] = Place(system.id, system.name)
        found |= {run.id: replace(home, part=run.name) for run in system.pipe_runs}
        for attraction in system.attractions:
            found |= _places_in(attraction, f"{attraction.name}  ·  {system.name}")
    return found


def _places_in(attraction: Attraction, heading: str) -> dict[str, Place]:
    """A body of water, its zones, its features and their pipe runs."""
    home = Place(attraction.id, heading)
    several = len(attraction.zones) > 1
    found = {attraction.id: home}
    found |= {zone.id: replace(home, part=zone.name if several else "") for zone in attraction.zones}
    for feature in attraction.features:
        found[feature.id] = replace(home, part=feature.name)
        found |= {run.id: replace(home, part=f"{feature.name}, {run.name}") for run in feature.pipe_runs}
    return found


def grouped(findings: list[Finding], where: dict[str, Place]) -> list[Group | Finding]:
    """Findings under the headings of their groups, in tree order, the gravest of each group first."""
    groups: dict[str, list[Finding]] = {}
    for finding in findings:
        home = where[finding.node].group if finding.node in where else finding.node
        groups.setdefault(home, []).append(finding)
    order = {status: number for number, status in enumerate(Status)}
    rows: list[Group | Finding] = []
    for node, members in groups.items():
        rows.append(Group(node, where[node].heading if node in where else ""))
        members.sort(key=lambda finding: order[finding.status])
        rows += members
    return rows


def width_while_bold(chip: QPushButton) -> int:
    """Width of a chip while its text is bold, so that choosing it moves nothing."""
    font = chip.font()
    font.setBold(True)
    return QFontMetrics(font).horizontalAdvance(chip.text()) + CHIP_PADDING


def _key(item: Group | Finding) -> tuple[str, ...]:
    return (item.node,) if isinstance(item, Group) else (item.node, item.key, item.figure)

"""The band at the foot of the window: the totals of the site, and how its checks stand."""

import operator
from collections import Counter

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Missing
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.site_rows import figure_of
from waterpark_designer.gui.theme import role

TOTALS = (
    ("Water on site", "volume"),
    ("Recirculation", "design_flow"),
    ("Filter area", "filter_area"),
    ("Peak occupancy", "peak_occupancy"),
    ("Pump power", "electric_power"),
    ("Chlorine feed", "feed_capacity"),
    ("Start-up salt", "salt_bags"),
)
TOLD_WITH = {"electric_power": ("energy_of_season", "energy_cost")}
"""Figures that are told with a total, when one looks closer."""
NOTHING = "—"
STATUS_OF = operator.attrgetter("status")


class TotalsBand(QFrame):
    """Shows the site's totals on every desk; the checks can be clicked."""

    checks_wanted = Signal()

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        role(self, "band")
        self.setAccessibleName("Totals of the site")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self.totals = {key: Total(label, key) for label, key in TOTALS}
        for total in self.totals.values():
            layout.addWidget(total, 1)
            layout.addWidget(_line())
        self.checks = ChecksTotal()
        self.checks.clicked.connect(self.checks_wanted)
        layout.addWidget(self.checks, 1)
        project.design_changed.connect(lambda _before, now: self.show_design(now))
        self.show_design(project.design)

    def show_design(self, design: SiteDesign) -> None:
        """Show the totals of a design."""
        for total in self.totals.values():
            total.show_design(design)
        self.checks.show_design(design)


class Total(QWidget):
    """One total: its name, its number, its unit."""

    def __init__(self, label: str, key: str) -> None:
        super().__init__()
        self._key = key
        self.number = role(QLabel(NOTHING), "figure")
        self.unit = role(QLabel(), "unit")
        _fill(self, label, self.number, self.unit)

    def show_design(self, design: SiteDesign) -> None:
        kind, units = FIGURE_KINDS[self._key], design.site.units
        figure = figure_of(design.site, design, self._key)
        known = figure is not None and not isinstance(figure.value, Missing)
        _set(self.number, kind.measure.text(figure.value, units) if known else NOTHING)  # type: ignore
        _set(self.unit, kind.measure.symbol(units) if known else "")
        lines = [f"{kind.label}: {kind.definition}"]
        if figure is not None and isinstance(figure.value, Missing):
            lines.append(figure.value.needs)
        lines += [words for more in TOLD_WITH.get(self._key, ()) if (words := _phrase(design, more))]
        self.setToolTip("\n".join(lines))


class ChecksTotal(QPushButton):
    """How many checks are met, and how many ask for something; opens the checks."""

    def __init__(self) -> None:
        super().__init__()
        self.met = role(QLabel(), "figure")
        self.rest = role(QLabel(), "unit")
        self._column = _fill(self, "Checks", self.met, self.rest)
        for label in self.findChildren(QLabel):
            label.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def show_design(self, design: SiteDesign) -> None:
        counts = Counter(map(STATUS_OF, design.findings))
        to_fix = counts[Status.NOT_MET]
        look = counts[Status.CAUTION] + counts[Status.UNKNOWN]
        rest = f"{to_fix:,} to fix" if to_fix else f"{look:,} to look at" if look else "none to fix"
        has_systems = bool(design.site.systems)
        _set(self.met, f"{counts[Status.MET]:,} met" if has_systems else NOTHING)
        _set(self.rest, rest if has_systems else "")
        role(self.rest, "error" if to_fix else "unit")
        words = ", ".join(f"{count:,} {status.label}" for status in Status if (count := counts[status]))
        self.setAccessibleName(f"Checks: {words or 'nothing to check yet'}")
        self.setToolTip(f"{words or 'Nothing to check yet'}. Click to see them all.")

    def sizeHint(self) -> QSize:  # noqa: N802
        return self._column.sizeHint()

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        return self._column.minimumSize()


def _fill(holder: QWidget, label: str, number: QLabel, unit: QLabel) -> QVBoxLayout:
    """Name above, number and unit below."""
    column = QVBoxLayout(holder)
    column.setContentsMargins(15, 9, 8, 10)
    column.setSpacing(2)
    column.addWidget(role(QLabel(label), "dim"))
    row = QHBoxLayout()
    row.setSpacing(6)
    row.addWidget(number, 0, Qt.AlignmentFlag.AlignBottom)
    row.addWidget(unit, 1, Qt.AlignmentFlag.AlignBottom)
    column.addLayout(row)
    return column


def _phrase(design: SiteDesign, key: str) -> str:
    """“Pump energy a season: 123,400 kWh”; empty while it is not known."""
    figure = figure_of(design.site, design, key)
    if figure is None or isinstance(figure.value, Missing):
        return ""
    phrase = figure.kind.measure.phrase(figure.value, design.site.units)
    if figure.kind.measure.is_money:
        return f"{figure.kind.label}: {design.site.currency}{phrase}"
    return f"{figure.kind.label}: {phrase}"


def _line() -> QFrame:
    line = role(QFrame(), "band_line")
    line.setFixedWidth(1)
    return line


def _set(label: QLabel, text: str) -> None:
    """Set a text only where it is another, so that nothing is laid out for nothing."""
    if label.text() != text:
        label.setText(text)

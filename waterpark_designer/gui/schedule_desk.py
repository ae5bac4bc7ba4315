"""The estimator's desk: equipment and salt schedules, why each line has its size, prices, print and export."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QListWidget,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from waterpark_designer.documents import table as printed
from waterpark_designer.documents.equipment import equipment_table
from waterpark_designer.documents.salt import SEASON, START_UP, season_table, start_up_table
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.gui.export_actions import ExportActions
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.schedule_table import ScheduleTable, on_screen, priced
from waterpark_designer.gui.short_label import ShortLabel
from waterpark_designer.gui.theme import role
from waterpark_designer.gui.why_panel import WhyPanel
from waterpark_designer.units import UnitSystem


@dataclass(frozen=True, slots=True)
class Page:
    """One schedule: its name in the list, its table, and the document it is printed in."""

    name: str
    title: str
    document: str
    table: Callable[[SiteDesign, UnitSystem], printed.Table]
    figures: tuple[str, ...] = ()


PAGES = (
    Page(
        "Equipment",
        "Equipment schedule",
        "equipment-schedule",
        lambda design, units: on_screen(equipment_table(design, units), design.site.currency),
    ),
    Page("Salt at start-up", "Start-up salt", "salt-schedule", start_up_table, ("volume", "salinity", *START_UP)),
    Page("Salt in a season", "Salt for a season", "salt-schedule", season_table, SEASON),
)
NOTHING_CHOSEN = "Choose a line to see why it has its size."
DEMO_PRICES = "Demo prices, invented"
EMPTY = "Nothing to list yet. Add a body of water on the Lay out desk, and what it needs is listed here."


class ScheduleDesk(QWidget):
    """The schedules of the open project; brought up to date when shown and after every edit."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.project = project
        self.exports = ExportActions(project, self)
        self.pages = role(QListWidget(), "panel")
        self.heading = role(QLabel(), "heading")
        self.demo = role(QLabel(DEMO_PRICES), "caution")
        self.empty = role(QLabel(EMPTY), "dim")
        self.table = ScheduleTable()
        self.why = WhyPanel(project, NOTHING_CHOSEN)
        self.saved = ShortLabel("ok")
        self.folder_button = role(QPushButton("Open folder"), "quiet")
        self.preview_button = QPushButton("Print preview…")
        self.export_buttons = {suffix: QPushButton(suffix.upper()) for suffix in ("pdf", "xlsx", "csv")}
        self._stack = QStackedWidget()
        self._saved_at = Path()
        self._stale = True
        self._lay_out()
        self._connect()
        self.pages.setCurrentRow(0)

    @property
    def page(self) -> Page:
        return PAGES[max(0, self.pages.currentRow())]

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802
        super().showEvent(event)
        if self._stale:
            self.refresh()

    def refresh(self) -> None:
        """Show the current page of the design as it is now."""
        self._stale = False
        design, units = self.project.design, self.project.units
        table = self.page.table(design, units)
        self.heading.setText(self.page.title)
        self.demo.setVisible(self.project.site.prices_invented and self.page is PAGES[0])
        self.table.setAccessibleName(self.page.title)
        self.table.show_table(table, units)
        listed = any(row.kind is printed.RowKind.BODY for row in table.rows)
        self._stack.setCurrentWidget(self.table if listed else self.empty)
        for button in (self.preview_button, *self.export_buttons.values()):
            button.setEnabled(listed)
        self._explain(self.table.item_at_current())

    def _lay_out(self) -> None:
        for page in PAGES:
            self.pages.addItem(page.name)
        self.pages.setAccessibleName("Schedules")
        self.empty.setWordWrap(True)
        self.empty.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.empty.setContentsMargins(0, 12, 8, 12)
        self._stack.addWidget(self.table)
        self._stack.addWidget(self.empty)
        tools = QHBoxLayout()
        tools.setSpacing(8)
        tools.addWidget(self.heading, 1)
        for button in (self.preview_button, *self.export_buttons.values()):
            tools.addWidget(button)
        centre = QWidget()
        column = QVBoxLayout(centre)
        column.setContentsMargins(14, 12, 14, 0)
        column.setSpacing(8)
        column.addLayout(tools)
        column.addLayout(self._told())
        column.addWidget(self._stack, 1)
        self.splitter = QSplitter()
        for widget, stretch in ((self.pages, 0), (centre, 1), (self.why, 0)):
            self.splitter.addWidget(widget)
            self.splitter.setStretchFactor(self.splitter.count() - 1, stretch)
            self.splitter.setCollapsible(self.splitter.count() - 1, False)
        self.pages.setMinimumWidth(150)
        self.why.setMinimumWidth(270)
        centre.setMinimumWidth(480)
        self.splitter.setSizes([150, 900, 285])
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(self.splitter)

    def _told(self) -> QHBoxLayout:
        """The line below the heading: invented prices, and where the last export went."""
        line = QHBoxLayout()
        line.setSpacing(10)
        line.addWidget(self.demo)
        self.saved.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        for widget, stretch in ((self.saved, 1), (self.folder_button, 0)):
            line.addWidget(widget, stretch)
            widget.hide()
        return line

    def _tell_saved(self, path: Path) -> None:
        self.saved.show_text(f"Saved “{path.name}”.")
        self.saved.show()
        self.folder_button.show()
        self._saved_at = path

    def _connect(self) -> None:
        self.exports.exported.connect(self._tell_saved)
        self.folder_button.clicked.connect(lambda: self.exports.open_folder(self._saved_at))
        self.pages.currentRowChanged.connect(lambda _row: self._turn_page())
        self.table.current_row.connect(self._explain)
        # After the cell's editor has closed: the edit lays the whole table out anew.
        self.table.schedule.price_given.connect(self._set_price, Qt.ConnectionType.QueuedConnection)
        self.preview_button.clicked.connect(lambda: self.exports.preview(self.page.document))
        for suffix, button in self.export_buttons.items():
            button.setToolTip(f"Save this schedule as {suffix.upper()}")
            button.clicked.connect(lambda _on=False, suffix=suffix: self.exports.export(self.page.document, suffix))
        self.project.design_changed.connect(self._design_changed)

    def _design_changed(self, _before: SiteDesign, _now: SiteDesign) -> None:
        self._stale = True
        if self.isVisible():
            self.refresh()

    def _turn_page(self) -> None:
        if self.isVisible():
            self.refresh()
        else:
            self._stale = True

    def _explain(self, item: Any) -> None:
        """Show at the right why the row is as it is."""
        lines = {line.key: line for line in self.project.design.equipment}
        if not isinstance(item, printed.Row):
            self.why.show_nothing()
        elif item.key in lines:
            self.why.show_line(lines[item.key])
        elif item.node and self.page.figures and item.kind is not printed.RowKind.GROUP:
            self.why.show_node(item.node, self.page.figures, "How much, and why")
        else:
            self.why.show_nothing()

    def _set_price(self, key: str, amount: float | None) -> None:
        tag = next((line.tag for line in self.project.design.equipment if line.key == key), "")
        text = f"Price {tag}" if amount is not None else f"Remove the price of {tag}"
        self.project.edit(text, priced(self.project.site, key, amount))

"""Why a line of the schedule has its size, and the choices that are the designer's."""

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtWidgets import QLabel, QScrollArea, QVBoxLayout, QWidget

from waterpark_designer.engine.schedule import ScheduleLine
from waterpark_designer.gui.figure_list import FigureList
from waterpark_designer.gui.item_editor import ItemEditor
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.property_editor import Place, PropertySection
from waterpark_designer.gui.theme import role
from waterpark_designer.model.node import Part
from waterpark_designer.model.openings import TankPlan
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan, RecirculationSystem, SecondaryPlan
from waterpark_designer.model.walk import find


@dataclass(frozen=True, slots=True)
class Choices:
    """The fields of a system that a line of the schedule hangs on."""

    owner: type[Part]
    plan: str
    fields: tuple[str, ...]


CHOICES = {
    "filter": Choices(FilterPlan, "filters", ("medium", "item", "count", "spare")),
    "generator": Choices(DisinfectionPlan, "disinfection", ("primary", "item", "count", "spare")),
    "pump": Choices(RecirculationSystem, "", ("design_margin", "pump_head", "standby_pump")),
    "feed-pump": Choices(DisinfectionPlan, "disinfection", ("backup_share", "hypochlorite_strength")),
    "hypochlorite-tank": Choices(DisinfectionPlan, "disinfection", ("backup_storage", "hypochlorite_strength")),
    "secondary": Choices(SecondaryPlan, "secondary", ("kind", "flow", "log_reduction")),
    "surge-tank": Choices(TankPlan, "tanks", ("usable_volume", "plan_area", "backwashes")),
    "waste-sump": Choices(TankPlan, "tanks", ("sewer_flow", "sump_volume")),
}
"""By the last part of a line's key; a line of a body of water or a feature has its entries in the layout."""


class WhyPanel(QScrollArea):
    """The workings of the figures behind a row of a schedule, and below them what can be chosen."""

    def __init__(self, project: OpenProject, nothing: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.project = project
        self._nothing = nothing
        self._choices: Choices | None = None
        self.section: PropertySection | None = None
        self.title = role(QLabel(), "heading")
        self.subtitle = role(QLabel(), "dim")
        self.why = role(QLabel("Why this size"), "subheading")
        self.figures = FigureList()
        self.choice = role(QLabel("Your choice"), "subheading")
        inside = QWidget()
        self._column = QVBoxLayout(inside)
        self._column.setContentsMargins(16, 14, 16, 14)
        self._column.setSpacing(8)
        for widget in (self.title, self.subtitle, self.why, self.figures, self.choice):
            self._column.addWidget(widget)
        self._column.addStretch(1)
        for label in (self.title, self.subtitle):
            label.setWordWrap(True)
        self.setWidget(inside)
        self.setWidgetResizable(True)
        self.show_nothing()

    def show_nothing(self) -> None:
        """Say what to do to see something here."""
        self.title.setText("")
        self.title.hide()
        self.subtitle.setText(self._nothing)
        for widget in (self.why, self.figures):
            widget.hide()
        self._offer(None, "")

    def show_line(self, line: ScheduleLine) -> None:
        """Show why a line of the equipment schedule has its size."""
        system = find(self.project.site, line.system)
        self._show(line.tag, f"{line.item}  ·  {system.name if system else ''}", "Why this size", line.why)
        owner, _, sort = line.key.partition("/")
        self._offer(CHOICES.get(sort) if owner == line.system else None, line.system)

    def show_node(self, node: str, keys: Iterable[str], why: str) -> None:
        """Show figures of one node."""
        found = find(self.project.site, node)
        if found is None:
            self.show_nothing()
            return
        self._show(found.name, "", why, [(node, key) for key in keys])
        self._offer(None, "")

    def _show(self, title: str, subtitle: str, why: str, figures: Iterable[tuple[str, str]]) -> None:
        self.title.setText(title)
        self.subtitle.setText(subtitle)
        self.why.setText(why)
        self.title.show()
        self.subtitle.setVisible(bool(subtitle))
        self.figures.show_figures(self.project.design, figures)
        self.why.setVisible(self.figures.isVisibleTo(self))

    def _offer(self, choices: Choices | None, system: str) -> None:
        """Show the editors of a system's fields, keeping those that are on screen already."""
        if choices is not self._choices:
            self._choices = choices
            if self.section is not None:
                self.section.hide()
                self.section.deleteLater()
                self.section = None
            if choices is not None:
                self.section = PropertySection(
                    self.project,
                    choices.owner,
                    Place(choices.plan),
                    choices.fields,
                    {"item": lambda spec: ItemEditor(spec, self.project)},
                )
                self._column.insertWidget(self._column.count() - 1, self.section)
        self.choice.setVisible(choices is not None)
        node = find(self.project.site, system) if choices else None
        if self.section is not None and node is not None:
            self.section.show_node(node, self.project.units)

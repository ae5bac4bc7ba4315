"""What can be entered for each sort of node: its sections, in the order in which a designer comes to them."""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.gui.device_editor import DEVICE_FIELDS, DeviceEditor
from waterpark_designer.gui.entry_widgets import words
from waterpark_designer.gui.field_editors import FieldEditor
from waterpark_designer.gui.field_spec import FieldSpec, specs_of
from waterpark_designer.gui.folding import FoldingSection, rule
from waterpark_designer.gui.item_editor import ItemEditor
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.property_editor import Place, PropertySection, subject_of, try_edit
from waterpark_designer.gui.pump_section import PumpSection, RunsSection
from waterpark_designer.gui.theme import role
from waterpark_designer.gui.zone_editor import ZoneEditor
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.edits import duplicate, free_name, insert, remove
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import EquipmentLosses, HydraulicTerms, PumpPlan
from waterpark_designer.model.node import Node, Part
from waterpark_designer.model.site import Operation, SaltSupply, Site, WaterLosses
from waterpark_designer.model.starting_points import new_zone
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan, RecirculationSystem, SecondaryPlan
from waterpark_designer.model.walk import find
from waterpark_designer.model.zones import Zone
from waterpark_designer.units import UnitSystem

NAMED_ABOVE = ("id", "name", "notes", "units", "prices_invented")
"""Fields that stand elsewhere: in the title, below the figures, or at another desk."""
MOST_OPEN_ZONES = 2
NO_RULE_SET = "No rule set is chosen yet, so no limit is known. Choose the codes that apply."


@dataclass(frozen=True, slots=True)
class Section:
    """A section of a page: title, the part it edits and where that stands; no fields named means all of them.

    `make` makes another widget than the usual list of fields.
    """

    title: str
    owner: type[Part]
    place: Place = field(default_factory=Place)
    fields: tuple[str, ...] = ()
    is_open: bool = True
    make: Callable[[OpenProject], Any] | None = None

    def names(self) -> tuple[str, ...]:
        """The fields shown, in order."""
        return self.fields or tuple(name for name in specs_of(self.owner) if name not in NAMED_ABOVE)


PROJECT_FIELDS = ("client", "place", "project_number", "revision", "issue_date", "prepared_by", "currency")
TANK_FIELDS = ("surge_volume", "piping_volume")
PUMP_FIELDS = ("pump_head", "standby_pump")
FEATURE_FIELDS = ("kind", "count")
CURRENT_FIELDS = ("current_speed", "jet_speed", "standing_people")


def _others(owner: type[Part], *taken: tuple[str, ...]) -> tuple[str, ...]:
    """All fields of a part but those taken by other sections, so that none is forgotten."""
    shown = {name for names in taken for name in names}
    return tuple(name for name in Section("", owner).names() if name not in shown)


def _recirculation_pump(project: OpenProject) -> PumpSection:
    return PumpSection(project, "pump", PUMP_FIELDS)


SECTIONS: dict[type[Node], tuple[Section, ...]] = {
    Site: (
        Section("Project", Site, fields=PROJECT_FIELDS),
        Section("Operation", Operation, Place("operation")),
        Section("Turnover", Site, fields=_others(Site, PROJECT_FIELDS)),
        Section("Water losses", WaterLosses, Place("losses"), is_open=False),
        Section("Salt supply", SaltSupply, Place("salt"), is_open=False),
        Section("Pipes and power", HydraulicTerms, Place("hydraulics"), is_open=False),
    ),
    RecirculationSystem: (
        Section("Flow", RecirculationSystem, fields=_others(RecirculationSystem, TANK_FIELDS, PUMP_FIELDS)),
        Section("Filters", FilterPlan, Place("filters")),
        Section("Disinfection", DisinfectionPlan, Place("disinfection")),
        Section("Secondary disinfection", SecondaryPlan, Place("secondary"), is_open=False),
        Section("Tanks and piping", RecirculationSystem, fields=TANK_FIELDS, is_open=False),
        Section("Pipe runs", RecirculationSystem, make=RunsSection),
        Section("Recirculation pump", PumpPlan, is_open=False, make=_recirculation_pump),
        Section("Head taken by equipment", EquipmentLosses, Place("equipment"), is_open=False),
    ),
    Attraction: (Section("Body of water", Attraction),),
    Feature: (
        Section("Feature", Feature, fields=FEATURE_FIELDS),
        Section("Flow of one device", Feature, make=DeviceEditor),
        Section("Water and pump", Feature, fields=_others(Feature, FEATURE_FIELDS, DEVICE_FIELDS, CURRENT_FIELDS)),
        Section("River current", Feature, fields=CURRENT_FIELDS, is_open=False),
        Section("Pipe runs", Feature, make=RunsSection),
        Section("Feature pump", PumpPlan, is_open=False, make=lambda project: PumpSection(project, "pump_plan")),
    ),
    Zone: (),
}


class NodePage(QWidget):
    """The sections of one sort of node."""

    def __init__(self, project: OpenProject, sort: type[Node], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.project = project
        self.sections: list[Any] = []
        self._node: Node | None = None
        self._units = UnitSystem.US
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(8)
        for number, section in enumerate(SECTIONS[sort]):
            if number:
                self._layout.addWidget(rule())
            self._layout.addWidget(FoldingSection(section.title, partial(self._make, section), section.is_open))

    def _make(self, section: Section) -> QWidget:
        made = section.make(self.project) if section.make else self._fields(section)
        self.sections.append(made)
        if self._node is not None:
            made.show_node(self._node, self._units)
        return made

    def _fields(self, section: Section) -> PropertySection:
        editors: dict[str, Callable[[FieldSpec], FieldEditor]] = {}
        if section.owner in (FilterPlan, DisinfectionPlan):
            editors["item"] = lambda spec: ItemEditor(spec, self.project)
        return PropertySection(self.project, section.owner, section.place, section.names(), editors)

    def show_node(self, node: Node, units: UnitSystem) -> None:
        """Show a node of this page's sort."""
        self._node, self._units = node, units
        for section in self.sections:
            section.show_node(node, units)

    def commit(self) -> None:
        """Take what is typed and not taken yet."""
        for section in tuple(self.sections):
            section.commit()


class SitePage(NodePage):
    """The site's sections, and its code basis in short."""

    code_basis_requested = Signal()

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(project, Site, parent)
        self.basis = words("")
        self.unknown = words("", "error")
        self.button = QPushButton("Code basis…")
        self.button.setToolTip("Rule sets, local amendments and every limit in force.")
        self.button.clicked.connect(self.code_basis_requested)
        content = QWidget()
        layout = QVBoxLayout(content)
        layout.setContentsMargins(0, 0, 0, 0)
        row = QHBoxLayout()
        row.addWidget(self.button)
        row.addStretch()
        layout.addWidget(self.basis)
        layout.addWidget(self.unknown)
        layout.addLayout(row)
        self._layout.insertWidget(2, FoldingSection("Code basis", lambda: content))
        self._layout.insertWidget(3, rule())

    def show_node(self, node: Node, units: UnitSystem) -> None:
        super().show_node(node, units)
        basis = self.project.design.basis
        assert isinstance(node, Site)
        amendments = len(node.amendments)
        lines = [f"{amendments} local amendment{'s' if amendments > 1 else ''}"] if amendments else []
        self.basis.setText("\n".join((*lines, *basis.titles)) or NO_RULE_SET)
        role(self.basis, "" if lines or basis.titles else "caution")
        self.unknown.setText(f"Not installed here: {', '.join(basis.unknown)}.")
        self.unknown.setVisible(bool(basis.unknown))


class ZonePage(QWidget):
    """A zone alone."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        self.editor = ZoneEditor(project, with_name=False)
        self.show_node: Callable[[Any, UnitSystem], None] = self.editor.show_node
        self.commit = self.editor.commit
        layout.addWidget(self.editor)


class ZoneSection(QWidget):
    """One zone within its body's editor: folding, with its own buttons."""

    def __init__(self, page: "AttractionPage", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.page = page
        self.zone = ""
        self.editor: ZoneEditor | None = None
        self._units = UnitSystem.US
        self.fold = FoldingSection("Zone", self._make, is_open=False)
        self.duplicate_button = role(QPushButton("Duplicate zone"), "chip")
        self.remove_button = role(QPushButton("Remove zone"), "chip")
        self.duplicate_button.clicked.connect(lambda: page.duplicate_zone(self.zone))
        self.remove_button.clicked.connect(lambda: page.remove_zone(self.zone))
        self.fold.opened.connect(lambda is_open: page.remember(self.zone, is_open))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(rule())
        layout.addWidget(self.fold)

    def _make(self) -> QWidget:
        content = QWidget()
        layout = QVBoxLayout(content)
        layout.setContentsMargins(0, 0, 0, 0)
        self.editor = ZoneEditor(self.page.project, with_name=True)
        row = QHBoxLayout()
        row.setContentsMargins(0, 6, 0, 0)
        row.setSpacing(4)
        row.addWidget(self.duplicate_button)
        row.addWidget(self.remove_button)
        row.addStretch()
        layout.addWidget(self.editor)
        layout.addLayout(row)
        zone = find(self.page.project.site, self.zone)
        if isinstance(zone, Zone):
            self.editor.show_node(zone, self._units)
        return content

    def show_zone(self, zone: Zone, units: UnitSystem, is_open: bool, removable: bool) -> None:
        """Show a zone, open or folded; the last zone of a body cannot be removed."""
        self.zone, self._units = zone.id, units
        self.fold.set_title(f"Zone: {zone.name}")
        self.remove_button.setEnabled(removable)
        self.remove_button.setToolTip("" if removable else "A body of water needs at least one zone.")
        if self.editor is not None:
            self.editor.show_node(zone, units)
        self.fold.heading.setChecked(is_open)


class AttractionPage(NodePage):
    """A body of water, then its zones."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(project, Attraction, parent)
        self.zones: list[ZoneSection] = []
        self._open: dict[str, bool] = {}
        self._zones_layout = QVBoxLayout()
        self._zones_layout.setSpacing(8)
        self._layout.addLayout(self._zones_layout)
        self.add_button = role(QPushButton("+ Zone"), "chip")
        self.add_button.setToolTip("A further part of this body, with a shape, depths and limits of its own.")
        self.add_button.clicked.connect(self.add_zone)
        row = QHBoxLayout()
        row.addWidget(self.add_button)
        row.addStretch()
        self._layout.addLayout(row)

    def show_node(self, node: Node, units: UnitSystem) -> None:
        super().show_node(node, units)
        assert isinstance(node, Attraction)
        while len(self.zones) < len(node.zones):
            self.zones.append(ZoneSection(self))
            self._zones_layout.addWidget(self.zones[-1])
        few = len(node.zones) <= MOST_OPEN_ZONES
        for number, (section, zone) in enumerate(zip(self.zones, node.zones, strict=False)):
            is_open = self._open.get(zone.id, few or number == 0)
            section.show_zone(zone, units, is_open, removable=len(node.zones) > 1)
        for number, section in enumerate(self.zones):
            section.setVisible(number < len(node.zones))

    def remember(self, zone: str, is_open: bool) -> None:
        """Keep a zone open or folded, as its reader left it."""
        self._open[zone] = is_open

    def commit(self) -> None:
        super().commit()
        for section in tuple(self.zones):
            if section.editor is not None and not section.isHidden():
                section.editor.commit()

    def add_zone(self) -> None:
        """Put a further zone behind the others, open."""
        body = self._node
        if not isinstance(body, Attraction):
            return
        zone = new_zone(self._units)
        zone = zone.revised(name=free_name(body, zone.name))
        self._open[zone.id] = True
        try_edit(
            self.project, f"Add zone to {subject_of(self.project.site, body)}", lambda site: insert(site, body.id, zone)
        )

    def duplicate_zone(self, zone: str) -> None:
        """Put a copy of a zone beside it, open."""
        site = self.project.site
        original = find(site, zone)
        if original is not None:
            after, copy = duplicate(site, zone)
            self._open[copy] = True
            self.project.edit(f"Duplicate zone {subject_of(site, original)}", after)

    def remove_zone(self, zone: str) -> None:
        """Take a zone out."""
        original = find(self.project.site, zone)
        if original is not None:
            try_edit(
                self.project, f"Remove zone {subject_of(self.project.site, original)}", lambda site: remove(site, zone)
            )


def page_for(project: OpenProject, sort: type[Node]) -> QWidget:
    """The page that suits a sort of node."""
    special: dict[type[Node], Callable[[OpenProject], QWidget]] = {
        Site: SitePage,
        Attraction: AttractionPage,
        Zone: ZonePage,
    }
    return special[sort](project) if sort in special else NodePage(project, sort)

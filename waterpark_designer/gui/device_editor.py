"""The editor of a feature's device: how the flow of one is had, and only the entries that this way asks for."""

from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from waterpark_designer.engine.worked import Worked
from waterpark_designer.gui.device_conversion import converted
from waterpark_designer.gui.entry_widgets import words
from waterpark_designer.gui.field_editors import ChoiceEditor
from waterpark_designer.gui.field_spec import Entry, FieldSpec, specs_of
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.property_editor import Place, PropertyRow, PropertySection, subject_of, try_edit
from waterpark_designer.model.devices import DEVICE_LABELS, DEVICES, HEAD_OF_ITS_OWN, SupplierFlow
from waterpark_designer.model.edits import revise
from waterpark_designer.model.features import Feature
from waterpark_designer.model.node import Node, Part
from waterpark_designer.model.walk import find
from waterpark_designer.units import UnitSystem

DEVICE_SPEC = FieldSpec(
    name="device",
    label="Flow by",
    entry=Entry.CHOICE,
    choices=tuple(DEVICE_LABELS.items()),
    description="How the flow of one device is had. Another way keeps what it can of the sizes.",
)
DEVICE_FIELDS = ("flow_each", "device_head", "transit_time")
"""Fields of the feature that this editor shows, the first two only where the device asks for them."""

CAUTION = (
    "⚠ Jets at close range harm eyes and ears, and water that tips or falls strikes those below. Keep to the "
    "supplier's limits and the local code."
)


class DeviceEditor(QWidget):
    """Choice of the way, the entries of each, and the time that water takes to come back."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.project = project
        self._feature = ""
        self.way = PropertyRow(ChoiceEditor(DEVICE_SPEC))
        self.way.editor.setObjectName("device")
        self.way.editor.entered.connect(self._convert)
        self.own = PropertySection(project, Feature, Place(), DEVICE_FIELDS)
        self.sizes: PropertySection | None = None
        self.caution = words(CAUTION, "caution")
        self._made: dict[type[Part], PropertySection] = {}
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(6)
        self._layout.addWidget(self.way)
        self._layout.addWidget(self.own)
        self._layout.addWidget(self.caution)

    def show_node(self, node: Node, units: UnitSystem) -> None:
        """Show a feature; only a way that was not shown before makes new fields."""
        assert isinstance(node, Feature)
        self._feature = node.id
        device = node.device
        self.way.show_value(device.flow_by, units)
        self._use(type(device))
        if self.sizes is not None:
            self.sizes.show_node(node, units)
        self.own.show_node(node, units)
        self.caution.setVisible(not isinstance(device, SupplierFlow))
        self.own.rows["flow_each"].setVisible(isinstance(device, SupplierFlow))
        self.own.rows["device_head"].setVisible(not isinstance(device, HEAD_OF_ITS_OWN))

    def commit(self) -> None:
        """Take what is typed and not taken yet."""
        if self.sizes is not None:
            self.sizes.commit()
        self.own.commit()

    def _use(self, kind: type[Part]) -> None:
        fields = tuple(name for name in specs_of(kind) if name != "flow_by")
        if fields and kind not in self._made:
            self._made[kind] = PropertySection(self.project, kind, Place("device"), fields)
            self._layout.insertWidget(1, self._made[kind])
        self.sizes = self._made.get(kind)
        for each in self._made.values():
            each.setVisible(each is self.sizes)

    def _convert(self, wanted: str) -> None:
        feature = find(self.project.site, self._feature)
        if not isinstance(feature, Feature) or feature.device.flow_by == wanted:
            return
        each = self._flow_of_one(feature)
        made = converted(feature, wanted, each)
        changes: dict[str, Any] = {"device": made}
        if DEVICES[wanted] is SupplierFlow and each is not None:
            changes["flow_each"] = each
        problem = try_edit(
            self.project,
            f"Change how the flow of {subject_of(self.project.site, feature)} is had",
            lambda site: revise(site, feature.id, **changes),
        )
        if problem:
            self.way.show_value(feature.device.flow_by, self.project.units)
            self.way.show_error(problem)

    def _flow_of_one(self, feature: Feature) -> float | None:
        """The flow of one device as it is now; None where it is not known."""
        if isinstance(feature.device, SupplierFlow):
            return feature.flow_each or None
        value = self.project.design.value(feature.id, "device_flow")
        return float(value) if isinstance(value, Worked) else None

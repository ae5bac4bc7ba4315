"""The editor of one zone: its kind of water, its shape with sizes and depths, and what is taken off it."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.gui.depth_table import DepthTable
from waterpark_designer.gui.entry_widgets import tip, words
from waterpark_designer.gui.field_editors import ChoiceEditor
from waterpark_designer.gui.field_spec import Entry, FieldSpec, specs_of
from waterpark_designer.gui.numbers_model import Numbers
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.property_editor import Place, PropertyRow, PropertySection, subject_of, try_edit
from waterpark_designer.gui.shape_conversion import converted
from waterpark_designer.gui.theme import role
from waterpark_designer.model.edits import revise, revise_plan
from waterpark_designer.model.node import Part
from waterpark_designer.model.walk import find
from waterpark_designer.model.zones import (
    DEDUCTIONS,
    SHAPE_LABELS,
    DepthStation,
    Outline,
    OutlinePoint,
    Rectangle,
    SprayDeck,
    Zone,
)
from waterpark_designer.units import UnitSystem

SHAPE_SPEC = FieldSpec(
    name="shape",
    label="Shape",
    entry=Entry.CHOICE,
    choices=tuple(SHAPE_LABELS.items()),
    description="Form of the water in plan and depth. Another form keeps what it can of the sizes.",
)


class ZoneEditor(QWidget):
    """All of a zone but its name."""

    def __init__(self, project: OpenProject, with_name: bool, parent: QWidget | None = None) -> None:
        """`with_name` puts the name among the fields, for a zone that stands inside its body's editor."""
        super().__init__(parent)
        self.project = project
        self._zone = ""
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(6)
        fields = ("name", "kind") if with_name else ("kind",)
        self.own = PropertySection(project, Zone, Place(), fields)
        self.shape_kind = PropertyRow(ChoiceEditor(SHAPE_SPEC))
        self.shape_kind.editor.setObjectName("shape")
        self.shape_kind.editor.entered.connect(self._convert)
        self.shape: ShapeEditor | None = None
        self._shapes: dict[type[Part], ShapeEditor] = {}
        self.deductions = DeductionsEditor(project)
        for widget in (self.own, self.shape_kind, self.deductions):
            self._layout.addWidget(widget)

    def show_node(self, zone: Zone, units: UnitSystem) -> None:
        """Show a zone; only a form of water that was not shown before makes new fields."""
        self._zone = zone.id
        self.own.show_node(zone, units)
        self.shape_kind.show_value(zone.shape.shape, units)
        if self.shape is None or self.shape.kind is not type(zone.shape):
            self._use_shape(type(zone.shape))
        assert self.shape is not None
        self.shape.show_node(zone, units)
        self.deductions.setVisible(bool(zone.deductions) or not isinstance(zone.shape, SprayDeck))
        self.deductions.show_node(zone, units)

    def commit(self) -> None:
        """Take what is typed and not taken yet."""
        self.own.commit()
        if self.shape is not None:
            self.shape.fields.commit()
        self.deductions.commit()

    def _use_shape(self, kind: type[Part]) -> None:
        if kind not in self._shapes:
            self._shapes[kind] = ShapeEditor(self.project, kind)
            self._layout.insertWidget(2, self._shapes[kind])
        self.shape = self._shapes[kind]
        for each in self._shapes.values():
            each.setVisible(each is self.shape)

    def _convert(self, wanted: str) -> None:
        zone = find(self.project.site, self._zone)
        if not isinstance(zone, Zone):
            return
        step = f"Change shape of {subject_of(self.project.site, zone)}"
        problem = try_edit(self.project, step, lambda site: revise(site, zone.id, shape=converted(zone, wanted)))
        if problem:
            self.shape_kind.show_value(zone.shape.shape, self.project.units)
            self.shape_kind.show_error(f"{SHAPE_LABELS[wanted]} does not go with these sizes. {problem}")


class ShapeEditor(QWidget):
    """The sizes of one form of water, and its table of depths where it has one."""

    def __init__(self, project: OpenProject, kind: type[Part], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.project, self.kind = project, kind
        self._zone = ""
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        sizes = tuple(name for name in specs_of(kind) if name != "shape")
        self.fields = PropertySection(project, kind, Place("shape"), sizes)
        layout.addWidget(self.fields)
        self.table = self._table()
        if self.table is not None:
            layout.addWidget(self.table)
            self.table.entered.connect(self._write_rows)

    def _table(self) -> DepthTable | None:
        if self.kind is Rectangle:
            table = DepthTable(tuple(specs_of(DepthStation).values()), "depth")
        elif self.kind is Outline:
            table = DepthTable(tuple(specs_of(OutlinePoint).values()), "corner")
        else:
            return None
        table.view.setToolTip(tip(self.kind.model_fields[self._list].description or ""))
        return table

    @property
    def _list(self) -> str:
        return "stations" if self.kind is Rectangle else "points"

    def show_node(self, zone: Zone, units: UnitSystem) -> None:
        """Show a zone whose shape is of this kind."""
        afresh, self._zone = zone.id != self._zone, zone.id
        self.fields.show_node(zone, units)
        if self.table is not None:
            self.table.show_rows(_rows_of(zone.shape), units, afresh=afresh)

    def _write_rows(self, rows: tuple[Numbers, ...]) -> None:
        assert self.table is not None
        zone = find(self.project.site, self._zone)
        if zone is None:
            return
        noun = "depths" if self.kind is Rectangle else "corners"
        problem = try_edit(
            self.project,
            f"Change {noun} of {subject_of(self.project.site, zone)}",
            lambda site: revise_plan(site, zone.id, "shape", **{self._list: _points(self.kind, rows)}),
        )
        if problem:
            self.table.say(problem)


def _rows_of(shape: Part) -> tuple[Numbers, ...]:
    if isinstance(shape, Rectangle):
        return tuple((station.distance, station.depth) for station in shape.stations)
    assert isinstance(shape, Outline)
    return tuple((point.x, point.y, point.depth) for point in shape.points)


def _points(kind: type[Part], rows: tuple[Numbers, ...]) -> tuple[Part, ...]:
    """Depth stations in order of distance, or corners in the order typed."""
    if kind is Rectangle:
        return tuple(DepthStation(distance=distance, depth=depth) for distance, depth in sorted(rows))
    return tuple(OutlinePoint(x=x, y=y, depth=depth) for x, y, depth in rows)


class DeductionsEditor(QWidget):
    """Steps, benches and islands of a zone, and buttons that add them."""

    changed = Signal()

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.project = project
        self._zone = ""
        self._kinds: tuple[type[Part], ...] = ()
        self.sections: list[PropertySection] = []
        self._boxes: list[QWidget] = []
        self.error = words("", "error")
        self.error.hide()
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 4, 0, 0)
        self._layout.setSpacing(6)
        heading = words("Steps, benches and islands", "dim")
        heading.setToolTip(tip(f"{Zone.model_fields['deductions'].description} They are taken off the water."))
        self._layout.addWidget(heading)
        self._layout.addLayout(self._add_buttons())
        self._layout.addWidget(self.error)

    def _add_buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(4)
        for takes, kind in DEDUCTIONS.items():
            button = role(QPushButton(f"+ {takes.capitalize()}"), "chip")
            button.setObjectName(f"add {takes}")
            button.setToolTip(tip(kind.__doc__ or ""))
            button.clicked.connect(lambda _checked=False, made=kind: self._add(made))
            row.addWidget(button)
        row.addStretch()
        return row

    def show_node(self, zone: Zone, units: UnitSystem) -> None:
        """Show a zone's deductions; only another list of kinds makes new fields."""
        kinds = tuple(type(part) for part in zone.deductions)
        if zone.id != self._zone or kinds != self._kinds:
            self.error.hide()
        self._zone = zone.id
        if kinds != self._kinds:
            self._make(kinds)
        for section in self.sections:
            section.show_node(zone, units)

    def commit(self) -> None:
        """Take what is typed and not taken yet."""
        for section in tuple(self.sections):
            section.commit()

    def _make(self, kinds: tuple[type[Part], ...]) -> None:
        for box in self._boxes:
            box.hide()
            box.deleteLater()
        self._kinds, self.sections, self._boxes = kinds, [], []
        for row, kind in enumerate(kinds):
            box = self._box(row, kind)
            self._boxes.append(box)
            self._layout.insertWidget(row + 1, box)

    def _box(self, row: int, kind: type[Part]) -> QWidget:
        box = QWidget()
        layout = QVBoxLayout(box)
        layout.setContentsMargins(10, 2, 0, 4)
        layout.setSpacing(6)
        sizes = tuple(name for name in specs_of(kind) if name != "takes")
        section = PropertySection(self.project, kind, Place("deductions", row), sizes)
        heading = QHBoxLayout()
        heading.addWidget(role(QLabel(kind.__name__), "subheading"))
        heading.addStretch()
        button = role(QPushButton("Remove"), "quiet")
        button.setAccessibleName(f"Remove {kind.__name__.lower()} {row + 1}")
        button.clicked.connect(lambda: self._remove(row))
        heading.addWidget(button)
        layout.addLayout(heading)
        layout.addWidget(section)
        self.sections.append(section)
        return box

    def _add(self, kind: type[Part]) -> None:
        noun = kind.__name__.lower()
        self._write(f"Add {noun} to", lambda zone: (*zone.deductions, kind()))

    def _remove(self, row: int) -> None:
        noun = self._kinds[row].__name__.lower()
        self._write(f"Remove {noun} from", lambda zone: (*zone.deductions[:row], *zone.deductions[row + 1 :]))

    def _write(self, words: str, make: Callable[[Zone], tuple[Any, ...]]) -> None:
        zone = find(self.project.site, self._zone)
        if not isinstance(zone, Zone):
            return
        problem = try_edit(
            self.project,
            f"{words} {subject_of(self.project.site, zone)}",
            lambda site: revise(site, zone.id, deductions=make(zone)),
        )
        self.error.setText(problem)
        self.error.setVisible(bool(problem))

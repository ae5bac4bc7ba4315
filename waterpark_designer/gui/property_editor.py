"""Editors of the fields of one part of a node, built from the model's own metadata.

A section shows the fields of a part that stands at a `Place` in the site, writes each entry as one named step
of the project's history, and keeps a bad entry on screen beside a sentence that says what would be right.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from waterpark_designer.gui.entry_widgets import tip, words
from waterpark_designer.gui.field_editors import FieldEditor, editor_for
from waterpark_designer.gui.field_spec import FieldSpec, plain_message, specs_of
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.model.edits import EditRefused, revise
from waterpark_designer.model.node import Node, Part
from waterpark_designer.model.site import Site
from waterpark_designer.model.walk import find, parent_of
from waterpark_designer.model.zones import Zone
from waterpark_designer.units import UnitSystem

LONGEST_NAME_IN_STEP = 60
LABEL_SHARE, FIELD_SHARE = 9, 11


def try_edit(project: OpenProject, step: str, change: Callable[[Site], Site]) -> str:
    """Put an edit on the project's history; returns what is wrong where the model refuses it."""
    try:
        after = change(project.site)
    except ValidationError as error:
        return plain_message(error)
    except EditRefused as error:
        return str(error)
    project.edit(step, after)
    return ""


def subject_of(site: Site, node: Node) -> str:
    """A node as a step of the history names it: a zone by its body, and by itself where there are several."""
    holder = parent_of(site, node.id) if isinstance(node, Zone) else None
    if holder is None:
        return _short(node.name)
    alone = sum(isinstance(child, Zone) for child in holder.children) == 1
    return _short(holder.name) if alone else f"{_short(holder.name)}, {_short(node.name)}"


def _short(name: str) -> str:
    return name if len(name) <= LONGEST_NAME_IN_STEP else f"{name[: LONGEST_NAME_IN_STEP - 1].rstrip()}…"


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part stands in a node: the node itself, a plan inside it, or one of a list inside it."""

    plan: str = ""
    row: int = -1

    def part(self, node: Node) -> Part:
        """The part that stands here."""
        held: Any = getattr(node, self.plan) if self.plan else node
        return held if self.row < 0 else held[self.row]

    def changes(self, node: Node, **changes: Any) -> dict[str, Any]:
        """Changes of the part as changes of the node."""
        if not self.plan:
            return changes
        revised: Any = self.part(node).revised(**changes)
        if self.row >= 0:
            held = getattr(node, self.plan)
            revised = (*held[: self.row], revised, *held[self.row + 1 :])
        return {self.plan: revised}


class PropertyRow(QWidget):
    """Label, editor, and below them what is wrong with the entry."""

    def __init__(self, editor: FieldEditor, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.editor = editor
        self.label = words(editor.spec.label, "dim")
        self.label.setBuddy(editor)
        self.error = words("", "error")
        self.error.hide()
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setVerticalSpacing(2)
        grid.setColumnStretch(0, LABEL_SHARE)
        grid.setColumnStretch(1, FIELD_SHARE)
        editor.setSizePolicy(QSizePolicy.Policy.Ignored, editor.sizePolicy().verticalPolicy())
        grid.addWidget(self.label, 0, 0)
        grid.addWidget(editor, 0, 1)
        grid.addWidget(self.error, 1, 0, 1, 2)
        editor.refused.connect(self.show_error)
        editor.restored.connect(self.clear_error)

    def show_value(self, value: Any, units: UnitSystem) -> None:
        """Show the project's value, and nothing wrong with it."""
        self.editor.show_value(value, units)
        self.label.setToolTip(tip(self.editor.spec.definition(units)))
        self.clear_error()

    def show_error(self, message: str) -> None:
        """Say below the field what would be right, and mark it."""
        self.error.setText(message)
        self.error.show()
        self.editor.set_invalid(True)

    def clear_error(self) -> None:
        """Nothing is wrong with the entry."""
        if not self.error.isHidden():
            self.error.hide()
            self.editor.set_invalid(False)


class PropertySection(QWidget):
    """The fields of one part of a node."""

    def __init__(
        self,
        project: OpenProject,
        owner: type[Part],
        place: Place,
        fields: Iterable[str],
        editors: dict[str, Callable[[FieldSpec], FieldEditor]] | None = None,
        parent: QWidget | None = None,
    ) -> None:
        """`editors` makes other editors than the usual for the fields it names."""
        super().__init__(parent)
        self.project, self.place = project, place
        self.rows: dict[str, PropertyRow] = {}
        self._node = ""
        self._shown: dict[str, Any] = {}
        self._units: UnitSystem | None = None
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        for name in fields:
            spec = specs_of(owner)[name]
            self.rows[name] = row = PropertyRow((editors or {}).get(name, editor_for)(spec))
            row.editor.setObjectName(f"{place.plan}.{name}" if place.plan else name)
            row.editor.entered.connect(lambda value, field=name: self._write(field, value))
            layout.addWidget(row)

    def show_node(self, node: Node, units: UnitSystem) -> None:
        """Show a node's values; a field whose value stays keeps what is being typed in it."""
        part = self.place.part(node)
        afresh = node.id != self._node or units is not self._units
        self._node, self._units = node.id, units
        for name, row in self.rows.items():
            value = getattr(part, name)
            row.editor.look_at(part)
            if afresh or value != self._shown[name]:
                self._shown[name] = value
                row.show_value(value, units)

    def commit(self) -> None:
        """Take what is typed and not taken yet."""
        for row in tuple(self.rows.values()):
            row.editor.commit()

    def _write(self, name: str, value: Any) -> None:
        node = find(self.project.site, self._node)
        if node is None:
            return
        row = self.rows[name]
        step = f"Change {row.editor.spec.noun} of {subject_of(self.project.site, node)}"
        problem = try_edit(
            self.project, step, lambda site: revise(site, node.id, **self.place.changes(node, **{name: value}))
        )
        if problem:
            row.show_error(problem)
        else:
            self._reread(name)

    def _reread(self, name: str) -> None:
        """Show what was taken as the project holds it, also where nothing changed."""
        node = find(self.project.site, self._node)
        if node is not None:
            self._shown[name] = getattr(self.place.part(node), name)
            self.rows[name].show_value(self._shown[name], self.project.units)

"""The choice of a nominal size from the project's own catalogue and the generic one."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QCompleter, QWidget

from waterpark_designer.catalogue.row import SIZE_MEASURES
from waterpark_designer.engine.size_disinfection import GENERATOR_KINDS
from waterpark_designer.engine.size_filters import ITEM_KINDS as FILTER_KINDS
from waterpark_designer.gui.entry_widgets import ChoiceBox, EntryLine
from waterpark_designer.gui.field_editors import FieldEditor
from waterpark_designer.gui.field_spec import FieldSpec
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.model.node import Part
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan
from waterpark_designer.units import UnitSystem


def item_kind_of(plan: Part) -> ItemKind | None:
    """The kind of nominal size that a plan chooses; None where it needs none."""
    if isinstance(plan, FilterPlan):
        return FILTER_KINDS[plan.medium]
    return GENERATOR_KINDS.get(plan.primary) if isinstance(plan, DisinfectionPlan) else None


def suitable_items(project: OpenProject, kind: ItemKind | None) -> tuple[CatalogueItem, ...]:
    """The sizes of a kind: the project's own before the generic ones, each smallest first."""
    return tuple(
        item
        for catalogue in (project.site.catalogue, project.library.catalogue)
        for item in sorted(catalogue, key=lambda each: each.size)
        if item.kind is kind
    )


def item_label(item: CatalogueItem, units: UnitSystem) -> str:
    """Name and size of an item as a list shows it."""
    return f"{item.name} · {SIZE_MEASURES[item.kind].phrase(item.size, units)}"


class ItemEditor(FieldEditor):
    """A list of suitable sizes that can be typed into."""

    def __init__(self, spec: FieldSpec, project: OpenProject, parent: QWidget | None = None) -> None:
        self.box = _ItemBox(self._fill)
        self.line = EntryLine()
        self.box.setLineEdit(self.line)
        super().__init__(spec, self.box, parent)
        self._project = project
        self._kind: ItemKind | None = None
        self.line.setPlaceholderText(spec.blank)
        self.box.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        completer = self.box.completer()
        assert completer is not None
        completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        self.box.activated.connect(self._choose)
        self.line.committed.connect(self._read)
        self.line.restored.connect(self.restored)

    @property
    def pending(self) -> bool:
        return self.line.pending

    def commit(self) -> None:
        self.line.commit()

    def look_at(self, part: Part) -> None:
        self._kind = item_kind_of(part)
        self.setEnabled(self._kind is not None)

    def show_value(self, value: Any, units: UnitSystem) -> None:
        self.define(units, value)
        self.line.show_text(value)

    def _items(self) -> tuple[CatalogueItem, ...]:
        return suitable_items(self._project, self._kind)

    def _fill(self) -> None:
        """Offer what is in the catalogue now."""
        typed = self.line.text()
        self.box.clear()
        self.box.addItem(self.spec.blank.capitalize(), "")
        for item in self._items():
            self.box.addItem(item_label(item, self.units), item.name)
        self.box.setCurrentIndex(-1)
        self.line.setText(typed)

    def _choose(self, row: int) -> None:
        name = self.box.itemData(row)
        self.line.show_text(name)
        self.entered.emit(name)

    def _read(self, text: str) -> None:
        wanted = text.strip().casefold()
        names = {"": ""}
        for item in self._items():
            names.setdefault(item.name.casefold(), item.name)
            names.setdefault(item_label(item, self.units).casefold(), item.name)
        if wanted in names:
            self.entered.emit(names[wanted])
        else:
            self.refused.emit(f"“{text[:60]}” is not in the catalogue. Choose from the list, or leave this blank.")


class _ItemBox(ChoiceBox):
    """A list that is filled when somebody comes to it."""

    def __init__(self, fill: Callable[[], None], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._fill = fill
        self.setEditable(True)

    def focusInEvent(self, event: Any) -> None:  # noqa: N802
        self._fill()
        super().focusInEvent(event)

    def showPopup(self) -> None:  # noqa: N802
        self._fill()
        super().showPopup()

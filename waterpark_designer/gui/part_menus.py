"""Menus of what can be added, by kind."""

from collections.abc import Callable, Iterable

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu

from waterpark_designer.model.kinds import AttractionKind, FeatureKind, Kind


def attraction_menu(menu: QMenu, add: Callable[[AttractionKind], None]) -> QMenu:
    """Fill a menu with the kinds of bodies of water."""
    return _filled(menu, AttractionKind, add)


def feature_menu(menu: QMenu, add: Callable[[FeatureKind], None]) -> QMenu:
    """Fill a menu with the kinds of features."""
    return _filled(menu, FeatureKind, add)


def _filled(menu: QMenu, kinds: Iterable[Kind], add: Callable) -> QMenu:
    for kind in kinds:
        action = QAction(kind.label, menu)
        action.setObjectName(kind.value)
        action.triggered.connect(lambda _on=False, kind=kind: add(kind))
        menu.addAction(action)
    return menu

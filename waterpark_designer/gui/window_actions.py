"""What each action of the window does."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction

from waterpark_designer.gui.actions import Actions, within
from waterpark_designer.gui.help_dialogs import show_about, show_keys
from waterpark_designer.gui.theme import CHOICES

if TYPE_CHECKING:
    from waterpark_designer.gui.lay_out_desk import LayOutDesk
    from waterpark_designer.gui.main_window import MainWindow

DESK_ACTIONS = ("lay_out", "schedule", "review")
VIEW_ACTIONS = ("bodies", "pipes", "head")
"""In the order of the views on the Lay out desk."""
PART_COMMANDS = {
    "cut": "cut",
    "copy": "copy",
    "paste": "paste",
    "duplicate": "duplicate",
    "delete": "delete",
    "add_zone": "add_zone",
    "add_system": "add_system",
}
PART_MENU = ("rename", "duplicate", "cut", "copy", "paste", "delete", "move_up", "move_down")


def connect_actions(actions: Actions, window: "MainWindow") -> None:
    """Give every action of the menu bar its work."""
    for key in ("new", "open", "save", "save_as", "close"):
        _on(actions[key], lambda key=key: getattr(window.files, key)())
    for key, act in {
        "quit": window.close,
        "preview": window.show_preview,
        "undo": window.undo,
        "redo": window.redo,
        "find": window.find_part,
        "code_basis": window.show_code_basis,
        "catalogue": window.show_catalogue,
        "full_screen": window.toggle_full_screen,
        "checks": window.show_checks,
        "units": window.change_units,
        "rename": window.rename,
        "about": lambda: show_about(window),
        "keys": lambda: show_keys(window, actions.with_keys()),
    }.items():
        _on(actions[key], act)
    for place, key in enumerate(DESK_ACTIONS):
        _on(actions[key], window.show_desk, place)
    for place, key in enumerate(VIEW_ACTIONS):
        _on(actions[key], window.show_view, place)
    for key, step in (("next_part", 1), ("previous_part", -1)):
        _on(actions[key], window.go_to_part, step)
    for choice in CHOICES:
        _on(actions[choice], window.choose_theme, choice)
    _connect_part_actions(actions, window)


def _connect_part_actions(actions: Actions, window: "MainWindow") -> None:
    for key, command in PART_COMMANDS.items():
        _on(actions[key], window.command, command)
    _on(actions["move_up"], window.command, "move", -1)
    _on(actions["move_down"], window.command, "move", 1)


def offer_kinds(actions: Actions, window: "MainWindow") -> None:
    """Fill the menus of what can be added, by kind; once, with the first project, since kinds belong to the model."""
    if actions.menus["feature"].isEmpty():
        from waterpark_designer.gui.part_menus import attraction_menu, feature_menu

        attraction_menu(actions.menus["attraction"], lambda kind: window.command("add_attraction", kind))
        attraction_menu(actions.menus["attraction_here"], lambda kind: window.command("add_attraction", kind, True))
        feature_menu(actions.menus["feature"], lambda kind: window.command("add_feature", kind))


def give_keys(actions: Actions, desk: "LayOutDesk") -> None:
    """Keys on the selected part work in the tree or on the desk, so that they never act unseen."""
    children = Qt.ShortcutContext.WidgetWithChildrenShortcut
    within(actions.needing("tree"), desk.tree, children)
    within(actions.needing("desk"), desk, children)
    for key in PART_MENU:
        desk.part_menu.addAction(actions[key])
    desk.part_menu.addSeparator()
    for key in ("attraction_here", "feature"):
        desk.part_menu.addAction(actions.menus[key].menuAction())
    desk.part_menu.addAction(actions["add_zone"])


def _on(action: QAction, act: Callable[..., Any], *arguments: Any) -> None:
    action.triggered.connect(lambda _checked=False: act(*arguments))

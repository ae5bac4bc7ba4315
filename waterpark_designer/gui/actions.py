"""Everything the window can do, by menu: words, keys, and what each does in one sentence."""

from dataclasses import dataclass

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar, QWidget

Keys = QKeySequence.StandardKey


@dataclass(frozen=True, slots=True)
class ActionSpec:
    """One action; several keys are parted by semicolons.

    `needs` tells where its keys work: always (empty), with a project open, on the Lay out desk, in its tree.
    """

    key: str
    text: str
    keys: str | QKeySequence.StandardKey = ""
    tip: str = ""
    needs: str = "project"
    group: str = ""


SEPARATOR = ActionSpec("", "")


@dataclass(frozen=True, slots=True)
class Submenu:
    """A menu within a menu; the window fills it under its key unless it has actions of its own."""

    key: str
    text: str
    entries: tuple[ActionSpec, ...] = ()


MENUS: dict[str, tuple[ActionSpec | Submenu, ...]] = {
    "&File": (
        ActionSpec("new", "&New site", Keys.New, "Begin an empty site.", needs=""),
        ActionSpec("open", "&Open…", Keys.Open, "Open a project file.", needs=""),
        Submenu("recent", "Open &recent"),
        Submenu("samples", "Open a sa&mple"),
        SEPARATOR,
        ActionSpec("save", "&Save", Keys.Save, "Save the project in its file."),
        ActionSpec("save_as", "Save &as…", "Ctrl+Shift+S", "Save the project in another file."),
        SEPARATOR,
        Submenu("export", "&Export"),
        ActionSpec("preview", "&Print preview…", Keys.Print, "See the documents as they are printed."),
        SEPARATOR,
        ActionSpec("close", "&Close project", "Ctrl+W", "Close the project and go to the start page."),
        ActionSpec("quit", "&Quit", "Ctrl+Q", "Close the program.", needs=""),
    ),
    "&Edit": (
        ActionSpec("undo", "&Undo", Keys.Undo, "Take the last step back."),
        ActionSpec("redo", "&Redo", "Ctrl+Shift+Z; Ctrl+Y", "Do again what was taken back."),
        SEPARATOR,
        ActionSpec("cut", "Cu&t", Keys.Cut, "Take the selected part out and keep it on the clipboard.", "tree"),
        ActionSpec("copy", "&Copy", Keys.Copy, "Keep a copy of the selected part on the clipboard.", "tree"),
        ActionSpec("paste", "&Paste", Keys.Paste, "Put in the part that is on the clipboard.", "tree"),
        ActionSpec("duplicate", "&Duplicate", "Ctrl+D", "Put a copy beside the selected part.", "desk"),
        ActionSpec("delete", "De&lete", Keys.Delete, "Take the selected part out.", "tree"),
        SEPARATOR,
        ActionSpec("rename", "Re&name", "F2", "Type another name for the selected part.", "tree"),
        ActionSpec("move_up", "&Move up", "Alt+Up", "Move the selected part up.", "desk"),
        ActionSpec("move_down", "Move do&wn", "Alt+Down", "Move the selected part down.", "desk"),
        SEPARATOR,
        ActionSpec("find", "&Find…", Keys.Find, "Find a part of the site by name or kind."),
        SEPARATOR,
        ActionSpec("code_basis", "Code &basis…", "Ctrl+B", "Every limit in force, and local amendments."),
        ActionSpec("catalogue", "Catalogue of si&zes…", "", "Nominal sizes, and your supplier's own."),
    ),
    "&View": (
        ActionSpec("lay_out", "&Lay out", "Ctrl+1", "Bodies of water, systems and their figures.", group="desk"),
        ActionSpec("schedule", "&Schedule", "Ctrl+2", "Equipment and salt schedules.", group="desk"),
        ActionSpec("review", "&Review", "Ctrl+3", "The whole site on one page, for the client.", group="desk"),
        SEPARATOR,
        ActionSpec("bodies", "All &bodies of water", "Alt+1", "Compare all bodies of water."),
        ActionSpec("pipes", "P&ipe runs", "Alt+2", "The pipe runs of the selected system or feature."),
        ActionSpec("head", "&Head and pump", "Alt+3", "The head of the selected pump line by line, and its curve."),
        SEPARATOR,
        ActionSpec("full_screen", "Review on the &full screen", "F11", "The client's page and nothing else."),
        SEPARATOR,
        ActionSpec("checks", "&Checks…", "Ctrl+K", "Every check with its limit and what would put it right."),
        ActionSpec("next_part", "Next &pane", "F6", "Go on to tree, table or editor with the keyboard."),
        ActionSpec("previous_part", "Pre&vious pane", "Shift+F6", "Go back to tree, table or editor."),
        SEPARATOR,
        ActionSpec("units", "Change &units", "Ctrl+U", "US customary or SI for the whole site."),
        SEPARATOR,
        Submenu(
            "theme",
            "&Theme",
            (
                ActionSpec("system", "As the &system", needs="", group="theme"),
                ActionSpec("light", "&Light", needs="", group="theme"),
                ActionSpec("dark", "&Dark", needs="", group="theme"),
            ),
        ),
    ),
    "&Insert": (
        Submenu("attraction", "&Body of water"),
        Submenu("attraction_here", "Body of water on the &selected system"),
        Submenu("feature", "&Feature"),
        ActionSpec("add_zone", "&Zone", "", "A further part of the selected body of water, with its own depths."),
        ActionSpec("add_system", "&Recirculation system", "", "A system that attractions can be dragged onto."),
    ),
    "&Help": (
        ActionSpec("keys", "&Keys", Keys.HelpContents, "What the keyboard does.", needs=""),
        ActionSpec("about", "&About", "", "What this program is.", needs=""),
    ),
}


class Actions(QObject):
    """The actions and menus of a window, by key."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.menus: dict[str, QMenu] = {}
        self._actions: dict[str, QAction] = {}
        self._specs: dict[str, ActionSpec] = {}
        self._groups: dict[str, QActionGroup] = {}

    def __getitem__(self, key: str) -> QAction:
        return self._actions[key]

    def fill(self, bar: QMenuBar) -> None:
        """Put all menus in a menu bar."""
        for title, entries in MENUS.items():
            menu = bar.addMenu(title)
            self._fill(menu, entries)

    def needing(self, *needs: str) -> list[QAction]:
        """The actions that need one of these to be open."""
        return [self._actions[key] for key, spec in self._specs.items() if spec.needs in needs]

    def enable(self, project_is_open: bool) -> None:
        """Enable what works with or without a project."""
        for key, action in self._actions.items():
            action.setEnabled(project_is_open or not self._specs[key].needs)
        for key in ("export", "attraction", "attraction_here", "feature"):
            self.menus[key].setEnabled(project_is_open)

    def with_keys(self) -> list[tuple[str, str]]:
        """(what, keys) of every action that has keys, for the page of keys."""
        return [
            (self._specs[key].tip or action.text().replace("&", ""), action.shortcut().toString(NATIVE))
            for key, action in self._actions.items()
            if not action.shortcut().isEmpty()
        ]

    def _fill(self, menu: QMenu, entries: tuple[ActionSpec | Submenu, ...]) -> None:
        menu.setToolTipsVisible(True)
        for entry in entries:
            if isinstance(entry, Submenu):
                below = self.menus[entry.key] = menu.addMenu(entry.text)
                self._fill(below, entry.entries)
            elif entry is SEPARATOR:
                menu.addSeparator()
            else:
                menu.addAction(self._made(entry))

    def _made(self, spec: ActionSpec) -> QAction:
        action = QAction(spec.text, self)
        action.setObjectName(spec.key)
        if spec.keys and isinstance(spec.keys, str):
            action.setShortcuts(QKeySequence.listFromString(spec.keys))
        elif spec.keys:
            action.setShortcut(QKeySequence(spec.keys))
        if spec.tip:
            action.setToolTip(spec.tip)
            action.setStatusTip(spec.tip)
        if spec.group:
            action.setCheckable(True)
            self._groups.setdefault(spec.group, QActionGroup(self)).addAction(action)
        self._actions[spec.key], self._specs[spec.key] = action, spec
        return action


NATIVE = QKeySequence.SequenceFormat.NativeText


def within(actions: list[QAction], widget: QWidget, context: object) -> None:
    """Have the keys of actions work only where a widget has the keyboard."""
    for action in actions:
        action.setShortcutContext(context)  # type: ignore[arg-type]
        widget.addAction(action)

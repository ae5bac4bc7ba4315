"""Keys of a dialog and of single widgets."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QDialog, QWidget

from waterpark_designer.gui.open_project import OpenProject


def on_key(widget: QWidget, keys: str | QKeySequence.StandardKey, act: Callable[[], object]) -> None:
    """Do something when the keys are pressed: anywhere in a dialog, or while another widget has the focus."""
    shortcut = QShortcut(QKeySequence(keys), widget)
    if not isinstance(widget, QDialog):
        shortcut.setContext(Qt.ShortcutContext.WidgetShortcut)
    shortcut.activated.connect(act)


def undo_keys(dialog: QDialog, project: OpenProject) -> None:
    """Undo and redo in a dialog, which does not hear the main window's keys."""
    on_key(dialog, QKeySequence.StandardKey.Undo, project.undo_stack.undo)
    on_key(dialog, QKeySequence.StandardKey.Redo, project.undo_stack.redo)

"""Before unsaved changes would be lost: save them, leave them, or stay."""

from enum import StrEnum

from PySide6.QtWidgets import QWidget

from waterpark_designer.gui.message import Choice, ask


class Unsaved(StrEnum):
    """What becomes of unsaved changes."""

    SAVE = "save"
    DISCARD = "discard"
    CANCEL = "cancel"


CHOICES = (
    Choice(Unsaved.SAVE, "Save", "primary"),
    Choice(Unsaved.DISCARD, "Don’t save"),
    Choice(Unsaved.CANCEL, "Cancel"),
)
WARNING = "Changes since the last save are lost if you do not save them."


def ask_unsaved(parent: QWidget, name: str) -> Unsaved:
    """Ask what becomes of the unsaved changes to the project of this name; Escape cancels."""
    return Unsaved(ask(parent, f"Save the changes to {name}?", WARNING, CHOICES))

"""When a project cannot be saved where it was: what to do instead, with nothing lost."""

from enum import StrEnum

from PySide6.QtWidgets import QWidget

from waterpark_designer.gui.message import Choice, ask


class Rescue(StrEnum):
    """What to do about a project that could not be saved."""

    ELSEWHERE = "elsewhere"
    OVERWRITE = "overwrite"
    AGAIN = "again"
    CANCEL = "cancel"


ELSEWHERE = Choice(Rescue.ELSEWHERE, "Save under another name…", "primary")
CANCEL = Choice(Rescue.CANCEL, "Cancel")


def ask_changed(parent: QWidget, text: str) -> Rescue:
    """The file changed on disk since it was read."""
    text += "\nIf you overwrite it, what stands there now is kept as a backup beside it."
    overwrite = Choice(Rescue.OVERWRITE, "Overwrite")
    return Rescue(ask(parent, "The file changed on disk", text, (ELSEWHERE, overwrite, CANCEL)))


def ask_gone(parent: QWidget, text: str) -> Rescue:
    """The file was moved or deleted since it was read."""
    anew = Choice(Rescue.OVERWRITE, "Save anew in the same place")
    return Rescue(ask(parent, "The file is no longer there", text, (ELSEWHERE, anew, CANCEL)))


def ask_refused(parent: QWidget, text: str) -> Rescue:
    """The folder or the disk refused the file."""
    text += "\nYour project is unharmed and still open."
    again = Choice(Rescue.AGAIN, "Try again")
    return Rescue(ask(parent, "The project was not saved", text, (ELSEWHERE, again, CANCEL)))

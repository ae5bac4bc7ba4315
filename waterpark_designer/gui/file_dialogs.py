"""Asking the system for a project file to open or a place to save a file."""

import re
from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QWidget

from waterpark_designer.gui.message import Choice, ask
from waterpark_designer.storage.project_file import SUFFIX

FILTER = f"Waterpark Designer projects (*{SUFFIX})"
UNFIT_FOR_A_NAME = re.compile(r'[\s<>:"/\\|?*\x00-\x1f]+')


def ask_open_path(parent: QWidget, folder: Path) -> Path | None:
    """The project file that the user chose; None where they chose none."""
    chosen, _ = QFileDialog.getOpenFileName(parent, "Open project", str(folder), f"{FILTER};;All files (*)")
    return Path(chosen) if chosen else None


def ask_save_path(parent: QWidget, suggested: Path) -> Path | None:
    """Where the user wants the project saved; None where they gave up. No file is replaced unasked."""
    chosen = _chosen_to_save(parent, suggested)
    return chosen and settled(parent, chosen, SUFFIX, lambda path: ask_save_path(parent, path))


def settled(parent: QWidget, chosen: Path, suffix: str, again: Callable[[Path], Path | None]) -> Path | None:
    """A chosen place with its suffix. Asks before that replaces a file; `again` asks for another place."""
    path = with_suffix(chosen, suffix)
    # The dialog asked about the name as it was typed.
    answer = _ask_to_replace(parent, path) if path != chosen and path.exists() else "replace"
    if answer == "another":
        return again(path)
    return path if answer == "replace" else None


def _chosen_to_save(parent: QWidget, suggested: Path) -> Path | None:
    dialog = QFileDialog(parent, "Save project as", str(suggested.parent), FILTER)
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    dialog.setDefaultSuffix(SUFFIX.removeprefix("."))
    dialog.selectFile(suggested.name)
    accepted = bool(dialog.exec())
    chosen = dialog.selectedFiles()
    dialog.deleteLater()
    return Path(chosen[0]) if accepted and chosen else None


def _ask_to_replace(parent: QWidget, path: Path) -> str:
    choices = (
        Choice("another", "Choose another name…", "primary"),
        Choice("replace", "Replace it"),
        Choice("cancel", "Cancel"),
    )
    return ask(parent, "There is a file of that name", f"{path.name} is already in {path.parent}.", choices)


def with_suffix(path: Path, suffix: str = SUFFIX) -> Path:
    """The path with a suffix; a point within the name is part of the name."""
    return path if path.suffix.lower() == suffix else path.with_name(path.name + suffix)


def file_name_for(site_name: str) -> str:
    """A file name that every system takes, from the name of a site."""
    plain = UNFIT_FOR_A_NAME.sub(" ", site_name).strip(" .")[:80].strip(" .")
    return f"{plain or 'Site'}{SUFFIX}"

"""Project files: opened with every fault named, saved so that nothing is ever lost.

Saving writes a temporary file in the same folder, brings it to the disk and renames it into place; the file
that was there before stays as `name.waterpark.bak`, unless it was not a readable project. A file that changed
since it was read is not overwritten, and one that was moved or deleted is not made anew, until the user says
so: both raise, and saving with `expected` None does it.
"""

import os
from dataclasses import dataclass
from pathlib import Path

from waterpark_designer.model.site import Site
from waterpark_designer.storage.errors import (
    ChangedOnDisk,
    GoneFromDisk,
    ProjectFileError,
    ProjectTooNew,
    reading_trouble,
    writing_trouble,
)
from waterpark_designer.storage.glance import SUFFIX
from waterpark_designer.storage.project_text import LARGEST_FILE, project_text, site_of_text
from waterpark_designer.storage.safe_file import Fingerprint, keep_backup, read_file, replace_file

__all__ = [
    "SUFFIX",
    "ChangedOnDisk",
    "Fingerprint",
    "GoneFromDisk",
    "LoadedProject",
    "ProjectFileError",
    "ProjectTooNew",
    "backup_path",
    "changed_on_disk",
    "load_project",
    "save_project",
]


@dataclass(frozen=True, slots=True)
class LoadedProject:
    """A site as it was read, and what its file was like then."""

    site: Site
    fingerprint: Fingerprint


def backup_path(path: Path) -> Path:
    """Where the previous good file is kept."""
    return path.with_name(path.name + ".bak")


def load_project(path: Path) -> LoadedProject:
    """Read a project file. Raises ProjectFileError that names the file, the fault and what to do."""
    try:
        content, mark = _read(path)
        return LoadedProject(site_of_text(content), mark)
    except ProjectFileError as error:
        hint = (
            ""
            if isinstance(error, ProjectTooNew) or not backup_path(path).is_file()
            else (f"\nThe file saved before it is kept as “{backup_path(path).name}”.")
        )
        raise type(error)(f"“{path.name}” cannot be opened. {error}{hint}") from error


def save_project(site: Site, path: Path, expected: Fingerprint | None) -> Fingerprint:
    """Save a site; returns what to expect at the next save.

    `expected` is what the file was like when it was read or written last; None overwrites whatever is there.
    Raises ChangedOnDisk, GoneFromDisk or ProjectFileError; the file on disk is then as it was.
    """
    # A link is followed, so that the file it points to is replaced and not the link.
    target = Path(os.path.realpath(path))
    try:
        content = project_text(site)
        previous = _previous(target, expected)
        if previous is not None and previous[0] == content:
            return previous[1]
        if previous is not None and _is_project(previous, expected):
            keep_backup(target, backup_path(target))
        return replace_file(target, content)
    except OSError as error:
        raise ProjectFileError(f"“{path.name}” was not saved. {writing_trouble(error)}") from error
    except ProjectFileError as error:
        raise type(error)(f"“{path.name}” was not saved. {error}") from error


def changed_on_disk(path: Path, expected: Fingerprint) -> bool:
    """Whether a file is no longer what it was; quick where size and time of change are the same."""
    try:
        status = path.stat()
        if (status.st_size, status.st_mtime_ns) == (expected.size, expected.modified):
            return False
        now = read_file(path, LARGEST_FILE)
    except OSError:
        return True
    return now is None or now[1].sha256 != expected.sha256


def _read(path: Path) -> tuple[bytes, Fingerprint]:
    try:
        read = read_file(path, LARGEST_FILE)
    except OSError as error:
        raise ProjectFileError(reading_trouble(error)) from error
    if read is None:
        raise ProjectFileError("It is larger than 64 MB, far more than any project. It was not read.")
    return read


def _previous(target: Path, expected: Fingerprint | None) -> tuple[bytes, Fingerprint] | None:
    """The file to be replaced, if it is one that could be a project and is what was expected."""
    if target.exists() and not os.access(target, os.W_OK):
        raise ProjectFileError("The file is protected against writing. Save under another name.")
    try:
        previous = read_file(target, LARGEST_FILE)
    except FileNotFoundError:
        if expected is not None:
            raise GoneFromDisk(
                "It was moved or deleted since it was opened. Save it anew in the same place, or choose another."
            ) from None
        return None
    if expected is not None and (previous is None or previous[1].sha256 != expected.sha256):
        raise ChangedOnDisk(
            "Another program changed it since it was opened. Save under another name, or overwrite what was "
            "changed there."
        )
    return previous


def _is_project(previous: tuple[bytes, Fingerprint], expected: Fingerprint | None) -> bool:
    """Whether the file to be replaced is worth keeping as a backup."""
    content, mark = previous
    if expected is not None and mark.sha256 == expected.sha256:
        return True
    try:
        site_of_text(content)
    except ProjectFileError:
        return False
    return True

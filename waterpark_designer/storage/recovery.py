"""Copies of open projects, kept aside while they are edited and offered again after a crash.

Each open project has one file in the recovery folder. It says which process keeps it: while that process runs
the copy is its own business, afterwards it is what a crash left behind.
"""

import contextlib
import os
import time
import uuid
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ConfigDict, ValidationError

from waterpark_designer.model.site import Site
from waterpark_designer.storage import migrations, processes
from waterpark_designer.storage.errors import ProjectFileError, reading_trouble, writing_trouble
from waterpark_designer.storage.project_text import LARGEST_FILE, ProjectData, json_of_text, site_of_data
from waterpark_designer.storage.safe_file import Fingerprint, read_file, replace_file

SUFFIX = ".recovery"


class _Header(BaseModel):
    """Whose copy it is and of which file; `path` is empty for a project that was never saved."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    process: int
    process_mark: str
    path: str
    fingerprint: Fingerprint | None
    kept_at: float


class _Copy(BaseModel):
    """What stands in a recovery file."""

    model_config = ConfigDict(frozen=True)

    header: _Header
    project: ProjectData


class RecoveryCopy:
    """The recovery file of one open project, in this process."""

    def __init__(self, folder: Path, process: int | None = None) -> None:
        self._process = os.getpid() if process is None else process
        self.file = folder / f"{self._process}-{uuid.uuid4().hex[:12]}{SUFFIX}"

    def keep(self, site: Site, path: Path | None, fingerprint: Fingerprint | None) -> None:
        """Write the copy anew; the file's path and fingerprint let recovery go on where the crash cut off.

        Raises ProjectFileError; the copy kept before is then still there.
        """
        header = _Header(
            process=self._process,
            process_mark=processes.mark_of(self._process),
            path=str(path.absolute()) if path else "",
            fingerprint=fingerprint,
            kept_at=time.time(),
        )
        copy = _Copy(header=header, project=ProjectData(format_version=migrations.CURRENT, site=site))
        try:
            self.file.parent.mkdir(parents=True, exist_ok=True)
            replace_file(self.file, copy.model_dump_json().encode() + b"\n")
        except OSError as error:
            raise ProjectFileError(f"No recovery copy was kept. {writing_trouble(error)}") from error

    def discard(self) -> None:
        """Remove the copy: the project was saved or closed as the user wanted."""
        with contextlib.suppress(OSError):
            self.file.unlink(missing_ok=True)


@dataclass(frozen=True, slots=True)
class Recoverable:
    """A project that a crash left behind; `kept_at` is seconds since 1970, `path` where it was last saved."""

    file: Path
    name: str
    path: Path | None
    fingerprint: Fingerprint | None
    kept_at: float

    def site(self) -> Site:
        """The site as it was kept. Raises ProjectFileError."""
        try:
            return site_of_data(_json(self.file).get("project"))
        except ProjectFileError as error:
            raise ProjectFileError(f"“{self.name}” cannot be recovered. {error}") from error

    def discard(self) -> None:
        """Remove the copy: it was recovered and saved, or is not wanted."""
        with contextlib.suppress(OSError):
            self.file.unlink(missing_ok=True)


def recoverable_projects(folder: Path) -> tuple[Recoverable, ...]:
    """What crashes left in the recovery folder, latest first; copies of running processes are not offered."""
    found = [_recoverable(file) for file in folder.glob(f"*{SUFFIX}")] if folder.is_dir() else []
    return tuple(sorted((one for one in found if one), key=lambda one: one.kept_at, reverse=True))


def _recoverable(file: Path) -> Recoverable | None:
    """What one recovery file offers; None where its process runs or it cannot be read."""
    try:
        data = _json(file)
        header = _Header.model_validate(data.get("header"))
        name = str(data["project"]["site"]["name"])
    except (ProjectFileError, ValidationError, KeyError, TypeError):
        return None
    if processes.runs(header.process, header.process_mark):
        return None
    return Recoverable(file, name, Path(header.path) if header.path else None, header.fingerprint, header.kept_at)


def _json(file: Path) -> dict[str, Any]:
    try:
        read = read_file(file, 2 * LARGEST_FILE)
    except OSError as error:
        raise ProjectFileError(reading_trouble(error)) from error
    data = json_of_text(read[0]) if read else None
    if not isinstance(data, dict):
        raise ProjectFileError("Its recovery copy is damaged.")
    return data

"""Files written so that at every instant the old or the new content is there, whole."""

import contextlib
import errno
import hashlib
import os
import shutil
import stat
import time
import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

TEMPORARY = ".waterpark-{}.tmp"
STALE_AFTER = 3600.0
"""Age [s] from which a temporary file is taken to be left over from a crash."""


@dataclass(frozen=True, slots=True)
class Fingerprint:
    """What a file was like when it was read or written: size [bytes], time of change [ns] and digest."""

    size: int
    modified: int
    sha256: str


def read_file(path: Path, largest: int) -> tuple[bytes, Fingerprint] | None:
    """Content and fingerprint of a file; None where it has more than `largest` bytes. Raises OSError."""
    mode = path.stat().st_mode
    if stat.S_ISDIR(mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
    if not stat.S_ISREG(mode):
        # Opening a pipe would wait for whoever writes to it.
        raise OSError(errno.EINVAL, "it is a device or a pipe, not a file")
    with path.open("rb") as file:
        status = os.fstat(file.fileno())
        if status.st_size > largest:
            return None
        content = file.read(largest + 1)
    return (content, _fingerprint(content, status)) if len(content) <= largest else None


def replace_file(path: Path, content: bytes) -> Fingerprint:
    """Put new content in place of a file, or make it. Raises OSError with the old content still there."""
    _remove_stale_temporaries(path.parent)
    with _temporary(path) as temporary:
        with temporary.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
            status = os.fstat(file.fileno())
        if path.exists():
            with contextlib.suppress(OSError):
                shutil.copymode(path, temporary)
        os.replace(temporary, path)
    _sync_folder(path.parent)
    return _fingerprint(content, status)


def keep_backup(path: Path, backup: Path) -> None:
    """Keep a file under a second name, whatever stood there before. Raises OSError."""
    with _temporary(backup) as temporary:
        try:
            os.link(path, temporary)
        except OSError:
            # Not every disk knows hard links.
            shutil.copy2(path, temporary)
            with temporary.open("rb+") as file:
                os.fsync(file.fileno())
        os.replace(temporary, backup)


@contextlib.contextmanager
def _temporary(path: Path) -> Iterator[Path]:
    """A free name in the same folder; whatever is left under it in the end is removed."""
    temporary = path.with_name(TEMPORARY.format(uuid.uuid4().hex[:12]))
    try:
        yield temporary
    finally:
        # Left over on failure, and where a file was renamed onto another link to itself, which does nothing.
        with contextlib.suppress(OSError):
            temporary.unlink(missing_ok=True)


def _remove_stale_temporaries(folder: Path) -> None:
    for left_over in folder.glob(TEMPORARY.format("*")):
        with contextlib.suppress(OSError):
            if time.time() - left_over.stat().st_mtime > STALE_AFTER:
                left_over.unlink()


def _sync_folder(folder: Path) -> None:
    """Bring the new name to the disk too; the content is safe already where a system cannot do that."""
    with contextlib.suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


def _fingerprint(content: bytes, status: os.stat_result) -> Fingerprint:
    return Fingerprint(len(content), status.st_mtime_ns, hashlib.sha256(content).hexdigest())

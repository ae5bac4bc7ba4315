"""Export: one document of a design into one file, whole or not at all."""

import errno
import os
import uuid
from collections.abc import Callable
from pathlib import Path
from typing import BinaryIO

from waterpark_designer.documents.csv_writer import write_csv
from waterpark_designer.documents.document import Document
from waterpark_designer.documents.progress import ExportCancelled, Progress
from waterpark_designer.documents.register import DOCUMENTS, build_document
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.units import UnitSystem

__all__ = ["SUFFIXES", "ExportCancelled", "ExportError", "Progress", "export"]

Write = Callable[[Document, BinaryIO, Progress | None], None]


class ExportError(Exception):
    """The document could not be written; says why and what would help, in plain words."""


def export(
    design: SiteDesign, name: str, path: Path, *, units: UnitSystem | None = None, progress: Progress | None = None
) -> None:
    """Write the named document of a design; the file's suffix says in which form.

    What stood at `path` stays as it is until the new file is complete. `progress` is told the share done and
    answers whether to go on. Raises ExportError, or ExportCancelled when the progress answered no.
    """
    write = _writer(path)
    if name not in DOCUMENTS:
        raise ExportError(f"There is no document “{name}”. There are: {', '.join(DOCUMENTS)}.")
    document = build_document(design, name, units)
    target = Path(os.path.realpath(path))
    try:
        _refuse_read_only(target)
        _write_whole(target, lambda stream: write(document, stream, progress))
    except OSError as error:
        raise ExportError(trouble(path, error)) from error


def _pdf(document: Document, stream: BinaryIO, progress: Progress | None) -> None:
    from waterpark_designer.documents.pdf_writer import write_pdf

    write_pdf(document, stream, progress)


def _xlsx(document: Document, stream: BinaryIO, progress: Progress | None) -> None:
    from waterpark_designer.documents.xlsx_writer import write_xlsx

    write_xlsx(document, stream, progress)


WRITERS: dict[str, Write] = {".pdf": _pdf, ".xlsx": _xlsx, ".csv": write_csv}
SUFFIXES = tuple(WRITERS)


def _writer(path: Path) -> Write:
    """The writer for a suffix; the PDF and spreadsheet libraries are loaded when they are first used."""
    try:
        return WRITERS[path.suffix.lower()]
    except KeyError:
        raise ExportError(f"“{path.name}” must end in {', '.join(SUFFIXES[:-1])} or {SUFFIXES[-1]}.") from None


def _refuse_read_only(target: Path) -> None:
    """A file that may not be written to is not replaced either, though the folder would allow it."""
    if target.is_dir():
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
    if target.exists() and not os.access(target, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))


def _write_whole(target: Path, write: Callable[[BinaryIO], None]) -> None:
    """Write beside the target, bring it to the disk, then put it in the target's place."""
    part = target.with_name(f".{uuid.uuid4().hex[:12]}.part")
    try:
        with open(part, "xb") as stream:
            write(stream)
            stream.flush()
            os.fsync(stream.fileno())
        os.replace(part, target)
    finally:
        part.unlink(missing_ok=True)


REASONS = {
    errno.ENOSPC: "the disk is full. Make room, or choose another disk",
    errno.EDQUOT: "your share of the disk is used up. Make room, or choose another disk",
    errno.EFBIG: "the file would be larger than this disk allows. Choose another disk",
    errno.ENOENT: "the folder does not exist. Choose another folder",
    errno.ENOTDIR: "the folder does not exist. Choose another folder",
    errno.EISDIR: "a folder has that name. Choose another name",
    errno.EROFS: "the disk is read-only. Choose another folder",
    errno.ENAMETOOLONG: "the name is too long. Choose a shorter one",
}
LOCKED = (
    "the file is open in another program, or you may not write there. Close it there, or choose another name or folder"
)


def trouble(path: Path, error: OSError) -> str:
    """A failure to write in plain words."""
    if isinstance(error, PermissionError):
        reason = LOCKED
    else:
        reason = REASONS.get(error.errno or 0, error.strerror or "it could not be written")
    return f"“{path.name}” was not written: {reason}."

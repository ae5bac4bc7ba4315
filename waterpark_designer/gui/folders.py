"""The folder in which files were chosen last: one for projects, documents and catalogues, which lie together."""

from pathlib import Path

from PySide6.QtCore import QSettings, QStandardPaths

KEY = "folders/last"


def last_folder(settings: QSettings | None = None) -> str:
    """The folder of the file chosen last, or the user's documents; in the program's settings where none are given."""
    remembered = str((settings or QSettings()).value(KEY, ""))
    if remembered and Path(remembered).is_dir():
        return remembered
    return QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)


def remember_folder(file: str, settings: QSettings | None = None) -> None:
    """Remember the folder of a chosen file."""
    (settings or QSettings()).setValue(KEY, str(Path(file).parent))

"""The folder in which files were chosen last."""

from pathlib import Path

from PySide6.QtCore import QSettings, QStandardPaths

KEY = "folders/last"


def last_folder() -> str:
    """The folder of the file chosen last, or the user's documents."""
    remembered = str(QSettings().value(KEY, ""))
    if remembered and Path(remembered).is_dir():
        return remembered
    return QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)


def remember_folder(file: str) -> None:
    """Remember the folder of a chosen file."""
    QSettings().setValue(KEY, str(Path(file).parent))

"""Where the window was, how its panes were parted, which desk and theme were chosen: kept for the next start."""

from PySide6.QtCore import QByteArray, QSettings
from PySide6.QtWidgets import QMainWindow, QSplitter

from waterpark_designer.gui.theme import CHOICES, Choice

GEOMETRY, SPLITTER, DESK, THEME = "window/geometry", "window/splitter", "window/desk", "window/theme"
FIRST_SIZE = (1440, 900)
DESKS = 3


class WindowState:
    """Reads and writes the settings; what cannot be read counts as not kept."""

    def __init__(self, settings: QSettings) -> None:
        self._settings = settings

    def restore_window(self, window: QMainWindow) -> None:
        """Put the window where it was; the first time, as large as the screen comfortably takes."""
        kept = self._settings.value(GEOMETRY)
        if not isinstance(kept, QByteArray) or not window.restoreGeometry(kept):
            room = window.screen().availableGeometry()
            window.resize(min(FIRST_SIZE[0], room.width()), min(FIRST_SIZE[1], room.height()))

    def restore_panes(self, splitter: QSplitter) -> bool:
        """Part the panes of the Lay out desk as they were; False where nothing was kept."""
        kept = self._settings.value(SPLITTER)
        return isinstance(kept, QByteArray) and splitter.restoreState(kept)

    def desk(self) -> int:
        """Number of the desk that was on screen."""
        kept = str(self._settings.value(DESK, "0"))
        return int(kept) if kept.isdigit() and int(kept) < DESKS else 0

    def theme(self) -> Choice:
        """The theme that was chosen."""
        kept = self._settings.value(THEME)
        return next((choice for choice in CHOICES if choice == kept), "system")

    def keep_theme(self, choice: str) -> None:
        self._settings.setValue(THEME, choice)

    def keep(self, window: QMainWindow, splitter: QSplitter, desk: int) -> None:
        """Remember the window as it is now."""
        self._settings.setValue(GEOMETRY, window.saveGeometry())
        self._settings.setValue(SPLITTER, splitter.saveState())
        self._settings.setValue(DESK, desk)

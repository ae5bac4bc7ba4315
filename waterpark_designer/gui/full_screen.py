"""The client's page on the whole screen: the frame goes, and comes back as it was."""

from collections.abc import Callable, Iterable

from PySide6.QtWidgets import QMainWindow, QWidget


class FullScreen:
    """Takes a window to the full screen and back."""

    def __init__(self, window: QMainWindow, frame: Callable[[], Iterable[QWidget | None]]) -> None:
        self._window, self._frame = window, frame
        self._was_maximized = False

    @property
    def on(self) -> bool:
        return self._window.isFullScreen()

    def enter(self) -> None:
        """Hide the frame and take the whole screen."""
        self._was_maximized = self._window.isMaximized()
        self._show_frame(False)
        self._window.showFullScreen()

    def leave(self) -> None:
        """Bring the frame back, and the window to where it was."""
        self._show_frame(True)
        if self._was_maximized:
            self._window.showMaximized()
        else:
            self._window.showNormal()

    def _show_frame(self, shown: bool) -> None:
        for part in self._frame():
            if part is not None:
                part.setVisible(shown)

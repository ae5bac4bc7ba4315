"""One line of text that gives way where there is no room for it."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QSizePolicy

from waterpark_designer.gui.theme import role


class ShortLabel(QLabel):
    """Shows as much as there is room for, and the whole text in its tooltip."""

    def __init__(self, look: str) -> None:
        super().__init__()
        role(self, look)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._whole = ""

    def show_text(self, text: str) -> None:
        """Show a text, or as much of it as fits."""
        if text != self._whole:
            self._whole = text
            self.setToolTip(text)
            self.setAccessibleName(text)
            self._shorten()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        self._shorten()

    def _shorten(self) -> None:
        room = self.contentsRect().width()
        self.setText(self.fontMetrics().elidedText(self._whole, Qt.TextElideMode.ElideRight, room))

"""Opening a project by dropping its file on the window."""

from pathlib import Path

from PySide6.QtCore import QEvent, QMimeData, QObject, QTimer, Signal
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QWidget

from waterpark_designer.storage.glance import SUFFIX


class FileDrop(QObject):
    """Listens for files dropped on a window: one project is handed on, all else is refused with words."""

    dropped = Signal(Path)
    refused = Signal(str)

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        window.setAcceptDrops(True)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        wanted = event.type() in (QEvent.Type.DragEnter, QEvent.Type.Drop)
        files = _files(event.mimeData()) if wanted and isinstance(event, QDropEvent) else []
        if not files or not isinstance(event, QDropEvent):
            return super().eventFilter(watched, event)
        event.acceptProposedAction()
        if event.type() == QEvent.Type.Drop:
            # Whoever dropped the file waits for the drop to end; a dialog must not keep them.
            QTimer.singleShot(0, self, lambda: self.take(files))
        return True

    def take(self, files: list[Path]) -> None:
        """Hand on the one project among the files, or say why not."""
        if len(files) > 1:
            self.refused.emit("Drop one project file at a time.")
        elif files[0].suffix.lower() != SUFFIX:
            self.refused.emit(f"{files[0].name} is not a project. Drop a file that ends in {SUFFIX}.")
        else:
            self.dropped.emit(files[0])


def _files(data: QMimeData) -> list[Path]:
    """The local files among what is dragged."""
    return [Path(url.toLocalFile()) for url in data.urls() if url.isLocalFile()]

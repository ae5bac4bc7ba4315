"""What is shown when the program itself is at fault: one window with the text, and the work kept."""

import sys
import threading
import traceback
from collections.abc import Callable
from types import TracebackType

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.gui.theme import role

EXPLANATION = (
    "Something went wrong inside the program. What you did last may not have been done; everything before it is "
    "still here. {kept}\n\nCopy the text below when you report the mistake."
)
KEPT = "A recovery copy of your project has just been kept."
NOT_KEPT = "Save your project now, under another name if you like."


class CrashReporter(QObject):
    """Takes over what nobody caught; shows one window at a time, and says everything on the error output too."""

    caught = Signal(str)

    def __init__(self, window: QWidget | None, keep_work: Callable[[], bool]) -> None:
        super().__init__(window)
        self._window, self._keep_work = window, keep_work
        self.dialog: CrashDialog | None = None
        self.caught.connect(self._show)

    def install(self) -> None:
        """Catch from now on, in every thread."""
        sys.excepthook = self.catch
        threading.excepthook = lambda thrown: self.catch(
            thrown.exc_type, thrown.exc_value or thrown.exc_type(), thrown.exc_traceback
        )

    def catch(self, sort: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        """Report one exception."""
        text = "".join(traceback.format_exception(sort, error, trace))
        sys.stderr.write(text)
        if not issubclass(sort, KeyboardInterrupt):
            self.caught.emit(text)

    def _show(self, text: str) -> None:
        if self.dialog is not None:
            self.dialog.add(text)
            return
        kept = self._kept()
        self.dialog = CrashDialog(self._window, text, kept)
        self.dialog.finished.connect(self._closed)
        self.dialog.open()

    def _kept(self) -> bool:
        try:
            return self._keep_work()
        except Exception:
            sys.stderr.write(traceback.format_exc())
            return False

    def _closed(self, _result: int) -> None:
        if self.dialog is not None:
            self.dialog.deleteLater()
            self.dialog = None


class CrashDialog(QDialog):
    """The text of what happened, to be read and copied."""

    def __init__(self, parent: QWidget | None, text: str, kept: bool) -> None:
        super().__init__(parent)
        self.setWindowTitle("The program made a mistake")
        self.text = QPlainTextEdit(text)
        self.text.setReadOnly(True)
        self.text.setAccessibleName("What happened")
        words = QLabel(EXPLANATION.format(kept=KEPT if kept else NOT_KEPT))
        words.setWordWrap(True)
        copy = QPushButton("Copy text")
        copy.clicked.connect(lambda: QGuiApplication.clipboard().setText(self.text.toPlainText()))
        go_on = role(QPushButton("Continue"), "primary")
        go_on.setDefault(True)
        go_on.clicked.connect(self.accept)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(copy)
        buttons.addWidget(go_on)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(22, 18, 22, 16)
        layout.setSpacing(12)
        layout.addWidget(role(QLabel("The program made a mistake"), "heading"))
        layout.addWidget(words)
        layout.addWidget(self.text, 1)
        layout.addLayout(buttons)
        self.resize(680, 420)

    def add(self, text: str) -> None:
        """Put a further mistake under those there are."""
        self.text.appendPlainText(text)

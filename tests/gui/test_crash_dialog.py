"""What nobody caught ends in one window with the text, and the work is kept."""

import sys
import threading

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from waterpark_designer.gui.crash_dialog import KEPT, NOT_KEPT, CrashReporter


@pytest.fixture
def reporter(qtbot, monkeypatch):
    window = QWidget()
    qtbot.addWidget(window)
    kept = []
    made = CrashReporter(window, lambda: bool(kept.append(True)) or True)
    made.kept = kept
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    made.install()
    return made


def crash(text):
    try:
        raise RuntimeError(text)
    except RuntimeError:
        sys.excepthook(*sys.exc_info())


def test_one_window_with_the_text_and_the_work_kept(qtbot, reporter, capsys) -> None:
    crash("pump ran dry")
    dialog = reporter.dialog
    assert dialog.isVisible()
    assert "RuntimeError: pump ran dry" in dialog.text.toPlainText()
    assert reporter.kept == [True]
    assert "pump ran dry" in capsys.readouterr().err
    crash("valve shut")
    assert reporter.dialog is dialog
    assert "valve shut" in dialog.text.toPlainText()


def test_text_can_be_copied_and_work_goes_on(qtbot, reporter) -> None:
    crash("pump ran dry")
    buttons = {button.text(): button for button in reporter.dialog.findChildren(QPushButton)}
    qtbot.mouseClick(buttons["Copy text"], Qt.MouseButton.LeftButton)
    assert "pump ran dry" in QGuiApplication.clipboard().text()
    qtbot.mouseClick(buttons["Continue"], Qt.MouseButton.LeftButton)
    assert reporter.dialog is None


def fails() -> bool:
    raise OSError("disk full")


@pytest.mark.parametrize(("keep", "said"), [(lambda: True, KEPT), (lambda: False, NOT_KEPT), (fails, NOT_KEPT)])
def test_it_says_whether_the_work_is_kept(qtbot, keep, said) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    reporter = CrashReporter(window, keep)
    reporter.catch(RuntimeError, RuntimeError("pump ran dry"), None)
    assert any(said in label.text() for label in reporter.dialog.findChildren(QLabel))


def test_other_threads_are_caught_in_the_window_too(qtbot, reporter) -> None:
    with qtbot.waitSignal(reporter.caught):
        thread = threading.Thread(target=lambda: [].pop())
        thread.start()
        thread.join()
    qtbot.waitUntil(lambda: reporter.dialog is not None)
    assert "IndexError" in reporter.dialog.text.toPlainText()


def test_stopping_by_key_is_no_mistake(reporter) -> None:
    sys.excepthook(KeyboardInterrupt, KeyboardInterrupt(), None)
    assert reporter.dialog is None

"""Files dropped on a window."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.file_drop import FileDrop

LEFT, NO_KEY = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
COPY = Qt.DropAction.CopyAction


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    shown = QWidget()
    qtbot.addWidget(shown)
    return shown


@pytest.fixture
def drop(window: QWidget) -> FileDrop:
    return FileDrop(window)


def carried(*urls: str) -> QMimeData:
    data = QMimeData()
    data.setUrls([QUrl(url) for url in urls])
    return data


def let_go(window: QWidget, data: QMimeData) -> bool:
    """Carry data onto the window and let go; whether the window took it."""
    taken = []
    for kind in (QEvent.Type.DragEnter, QEvent.Type.Drop):
        event = QDropEvent(QPointF(5, 5), COPY, data, LEFT, NO_KEY, kind)
        event.ignore()
        QApplication.sendEvent(window, event)
        taken.append(event.isAccepted())
    assert taken[0] is taken[1] and window.acceptDrops()
    return taken[0]


def test_a_project_is_handed_on(window: QWidget, drop: FileDrop, qtbot: QtBot, tmp_path: Path) -> None:
    path = tmp_path / "Größe 1.waterpark"
    with qtbot.waitSignal(drop.dropped) as taken:
        assert let_go(window, carried(QUrl.fromLocalFile(str(path)).toString()))
    assert taken.args == [path]


@pytest.mark.parametrize(
    "urls, words",
    [
        (["file:///folder/plan.pdf"], "plan.pdf is not a project"),
        (["file:///a.waterpark", "file:///b.waterpark"], "one project file at a time"),
    ],
)
def test_anything_else_is_refused_with_words(
    window: QWidget, drop: FileDrop, qtbot: QtBot, urls: list[str], words: str
) -> None:
    with qtbot.waitSignal(drop.refused) as refused, qtbot.assertNotEmitted(drop.dropped):
        assert let_go(window, carried(*urls))
    assert words in refused.args[0]


def text() -> QMimeData:
    data = QMimeData()
    data.setText("a.waterpark")
    return data


@pytest.mark.parametrize("make", [text, lambda: carried("https://example.org/a.waterpark")])
def test_what_is_no_file_is_left_to_others(window: QWidget, drop: FileDrop, make: Callable[[], QMimeData]) -> None:
    assert not let_go(window, make())

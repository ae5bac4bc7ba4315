"""The open file is watched: changed, replaced, deleted, and left alone."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.disk_watch import DiskWatch
from waterpark_designer.model.site import Site
from waterpark_designer.storage.project_file import load_project, save_project


@pytest.fixture
def path(tmp_path: Path) -> Path:
    saved = tmp_path / "alder.waterpark"
    save_project(Site(name="Alder Bend"), saved, None)
    return saved


@pytest.fixture
def watch(qtbot: QtBot, path: Path) -> Iterator[DiskWatch]:
    holder = QObject()
    watching = DiskWatch(holder)
    watching.watch(path, load_project(path).fingerprint)
    yield watching
    watching.stop()


def test_a_change_by_another_program_is_told(watch: DiskWatch, qtbot: QtBot, path: Path) -> None:
    with qtbot.waitSignal(watch.changed) as told:
        path.write_text("something else", encoding="utf-8")
    assert told.args == [path]


def test_a_file_put_in_its_place_is_told(watch: DiskWatch, qtbot: QtBot, path: Path) -> None:
    other = path.with_name("other")
    other.write_text("something else", encoding="utf-8")
    with qtbot.waitSignal(watch.changed):
        os.replace(other, path)


def test_a_deleted_file_is_told(watch: DiskWatch, qtbot: QtBot, path: Path) -> None:
    with qtbot.waitSignal(watch.vanished) as told:
        path.unlink()
    assert told.args == [path]


def test_it_is_told_once(watch: DiskWatch, qtbot: QtBot, path: Path) -> None:
    with qtbot.waitSignal(watch.vanished):
        path.unlink()
    with qtbot.assertNotEmitted(watch.vanished):
        watch.look()


def test_the_same_content_again_is_no_change(watch: DiskWatch, qtbot: QtBot, path: Path) -> None:
    same = path.read_bytes()
    with qtbot.assertNotEmitted(watch.changed), qtbot.assertNotEmitted(watch.vanished):
        path.unlink()
        path.write_bytes(same)
        watch.look()
    with qtbot.waitSignal(watch.changed):
        path.write_bytes(same + b" ")


def test_after_stopping_nothing_is_told(watch: DiskWatch, qtbot: QtBot, path: Path) -> None:
    watch.stop()
    with qtbot.assertNotEmitted(watch.vanished):
        path.unlink()
        watch.look()

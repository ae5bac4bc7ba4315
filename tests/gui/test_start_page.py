"""The start page: what to do first, by mouse and by key."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QPushButton
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.start_page import NO_RECENT, PURPOSE, StartPage
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.project_file import load_project

SAMPLES = sorted(samples_folder().glob("*.waterpark"))
Shows = Callable[..., StartPage]


@pytest.fixture
def shows(qtbot: QtBot) -> Shows:
    def show(samples: list[Path] = SAMPLES, recent: list[Path] | None = None) -> StartPage:
        page = StartPage(samples, recent or [])
        qtbot.addWidget(page)
        page.resize(1100, 700)
        with qtbot.waitExposed(page):
            page.show()
        return page

    return show


def said(page: StartPage) -> list[str]:
    return [label.text() for label in page.findChildren(QLabel)]


def test_it_says_what_the_program_does_and_what_the_samples_hold(shows: Shows) -> None:
    page = shows()
    assert PURPOSE in said(page) and NO_RECENT in said(page)
    for path in SAMPLES:
        site = load_project(path).site
        assert site.name in said(page)
        assert site.notes.splitlines()[0] in said(page)


@pytest.mark.parametrize("name, signal", [("new", "new_wanted"), ("open", "open_wanted")])
def test_a_new_site_and_opening_one(shows: Shows, qtbot: QtBot, name: str, signal: str) -> None:
    page = shows()
    with qtbot.waitSignal(getattr(page, signal)):
        qtbot.mouseClick(page.findChild(QPushButton, name), Qt.MouseButton.LeftButton)


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Space])
def test_every_entry_is_reached_by_tab_and_taken_by_key(shows: Shows, qtbot: QtBot, key: Qt.Key) -> None:
    page = shows(recent=[SAMPLES[0]])
    page.show_recent([SAMPLES[1], SAMPLES[0]])
    qtbot.waitUntil(lambda: all(entry.isVisible() for entry in page.entries()))
    page.findChild(QPushButton, "open").setFocus()
    for path in (SAMPLES[1], SAMPLES[0], *SAMPLES):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        with qtbot.waitSignal(page.file_chosen) as chosen:
            qtbot.keyClick(QApplication.focusWidget(), key)
        assert chosen.args == [path]


def test_a_recent_file_shows_its_folder_and_opens_with_a_click(shows: Shows, qtbot: QtBot, tmp_path: Path) -> None:
    path = tmp_path / "Park & <Bad>.waterpark"
    path.write_text("", encoding="utf-8")
    page = shows(recent=[path])
    entry = page.entries()[0]
    assert entry.title == "Park & <Bad>" and tmp_path.name in entry.about
    with qtbot.waitSignal(page.file_chosen) as chosen:
        qtbot.mouseClick(entry, Qt.MouseButton.LeftButton)
    assert chosen.args == [path]


def test_a_vanished_recent_file_says_so(shows: Shows, tmp_path: Path) -> None:
    entry = shows(recent=[tmp_path / "gone.waterpark"]).entries()[0]
    assert entry.about.startswith("no longer there")
    assert "no longer there" in entry.accessibleName()


def test_the_recent_files_can_be_listed_anew(shows: Shows, tmp_path: Path) -> None:
    page = shows(samples=[], recent=[tmp_path / "a.waterpark"])
    page.show_recent([tmp_path / "b.waterpark", tmp_path / "a.waterpark"])
    assert [entry.title for entry in page.entries()] == ["b", "a"]
    page.show_recent([])
    assert page.entries() == [] and NO_RECENT in said(page)


def test_a_sample_that_cannot_be_read_is_named_and_does_no_harm(shows: Shows, tmp_path: Path) -> None:
    broken = tmp_path / "broken.waterpark"
    broken.write_text("{", encoding="utf-8")
    [entry] = shows(samples=[broken]).entries()
    assert entry.title == "broken" and "cannot be read" in entry.about


def test_long_names_and_folders_stay_within_the_page(shows: Shows) -> None:
    long = Path("/", *["a folder with a long name"] * 12, "n" * 200 + ".waterpark")
    page = shows(recent=[long])
    entry = page.entries()[0]
    assert entry.mapTo(page, entry.rect().topRight()).x() < page.width() / 2
    assert entry.height() >= entry.heightForWidth(entry.width())

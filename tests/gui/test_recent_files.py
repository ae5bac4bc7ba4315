"""Recent files, newest first, whatever stands in the settings."""

from pathlib import Path

import pytest
from PySide6.QtCore import QSettings

from waterpark_designer.gui.recent_files import KEY, MOST, RecentFiles


def test_the_file_used_last_comes_first_and_only_once(settings: QSettings, tmp_path: Path) -> None:
    recent = RecentFiles(settings)
    first, second = tmp_path / "Größe & Maß.waterpark", tmp_path / "second.waterpark"
    for path in (first, second, first):
        recent.add(path)
    assert recent.paths() == [first, second]


def test_the_list_has_an_end(settings: QSettings, tmp_path: Path) -> None:
    recent = RecentFiles(settings)
    for number in range(MOST + 3):
        recent.add(tmp_path / f"{number}.waterpark")
    assert [path.stem for path in recent.paths()] == [str(number) for number in range(MOST + 2, 2, -1)]


@pytest.mark.parametrize("count", [1, 2])
def test_they_are_remembered_to_the_next_start(settings: QSettings, tmp_path: Path, count: int) -> None:
    for number in range(count):
        RecentFiles(settings).add(tmp_path / f"{number}.waterpark")
    settings.sync()
    again = QSettings(settings.fileName(), QSettings.Format.IniFormat)
    assert len(RecentFiles(again).paths()) == count


def test_a_file_can_be_forgotten(settings: QSettings, tmp_path: Path) -> None:
    recent = RecentFiles(settings)
    recent.add(tmp_path / "a.waterpark")
    recent.add(tmp_path / "b.waterpark")
    recent.forget(tmp_path / "a.waterpark")
    assert recent.paths() == [tmp_path / "b.waterpark"]
    recent.forget(tmp_path / "b.waterpark")
    assert recent.paths() == []


@pytest.mark.parametrize("junk", [None, "", 7, [], ["", 3], {"a": 1}])
def test_junk_in_the_settings_reads_as_no_files(settings: QSettings, junk: object) -> None:
    settings.setValue(KEY, junk)
    assert RecentFiles(settings).paths() == []

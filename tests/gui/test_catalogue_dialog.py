"""The catalogue: importing a supplier's file, what is wrong in one, replacing and removing, all undoable."""

from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from waterpark_designer.gui import folders
from waterpark_designer.gui.catalogue_dialog import CatalogueDialog, Heading, Line, merged
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.units import UnitSystem

HEADER = "kind,name,size,unit,power_kw,remarks,source\n"
GOOD = HEADER + (
    "high_rate_sand_filter,Heron 60,19.6,ft²,,vertical,Heron data sheet 4\n"
    "brine_fed_generator,Heron B12,12,lb/d,1.5,,Heron data sheet 9\n"
)
BAD = HEADER + (
    "high_rate_sand_filter,Heron 60,nineteen,ft²,,,Heron data sheet 4\n"
    "sand_filtre,Heron 72,28.3,ft²,,,Heron data sheet 4\n"
    "brine_fed_generator,Heron B12,12,gpm,1.5,,Heron data sheet 9\n"
)


@pytest.fixture
def dialog(project: OpenProject, qtbot: QtBot, settings: QSettings, monkeypatch: pytest.MonkeyPatch) -> CatalogueDialog:
    monkeypatch.setattr(folders, "QSettings", lambda: settings)
    made = CatalogueDialog(project)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    return made


def choose(monkeypatch: pytest.MonkeyPatch, path: Path, text: str) -> None:
    """Have the file dialog answer with a file of this text."""
    path.write_text(text, encoding="utf-8")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(path), ""))


def own(dialog: CatalogueDialog) -> list[str]:
    return [item.item.name for item in dialog.table.rows.items if isinstance(item, Line) and item.own]


def click(qtbot: QtBot, button: object) -> None:
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def test_the_generic_sizes_are_listed_with_source_and_unit(dialog: CatalogueDialog, project: OpenProject) -> None:
    lines = [item for item in dialog.table.rows.items if isinstance(item, Line)]
    assert [line.item for line in lines if not line.own] and own(dialog) == []
    assert len(lines) == len(project.library.catalogue)
    number = next(
        n
        for n, item in enumerate(dialog.table.rows.items)
        if isinstance(item, Line) and item.item.kind is ItemKind.HIGH_RATE_SAND_FILTER
    )
    cells = dialog.table.rows.row(number).cells
    assert cells[1].text.endswith("ft²") and cells[3].text
    project.edit("Change units", project.site.revised(units=UnitSystem.SI))
    assert dialog.table.rows.row(number).cells[1].text.endswith("m²")


def test_a_supplier_file_is_imported_and_undone(
    dialog: CatalogueDialog, project: OpenProject, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    choose(monkeypatch, tmp_path / "heron.csv", GOOD)
    click(qtbot, dialog.import_button)
    assert own(dialog) == ["Heron 60", "Heron B12"]
    # 12 lb/d in SI: 12 × 0.45359237 kg / 86400 s; 1.5 kW in watts.
    generator = next(item for item in project.site.catalogue if item.kind is ItemKind.BRINE_FED_GENERATOR)
    assert generator.size == pytest.approx(12 * 0.45359237 / 86400)
    assert generator.power == 1500.0
    assert "2 sizes" in dialog.done_label.text()
    assert isinstance(dialog.table.rows.items[0], Heading) and "yours" in dialog.table.rows.items[0].text
    qtbot.keyClick(dialog, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert project.site.catalogue == () and own(dialog) == []


def test_the_design_takes_the_imported_size(
    dialog: CatalogueDialog, project: OpenProject, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    choose(monkeypatch, tmp_path / "heron.csv", GOOD)
    click(qtbot, dialog.import_button)
    assert "Heron 60" in {line.item for line in project.design.equipment}


def test_a_bad_file_changes_nothing_and_every_row_at_fault_is_shown(
    dialog: CatalogueDialog, project: OpenProject, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    before = project.site
    choose(monkeypatch, tmp_path / "heron.csv", BAD)
    click(qtbot, dialog.import_button)
    assert project.site is before
    assert dialog.message.isVisible() and "heron.csv" in dialog.message.text()
    shown = dialog.problems.toPlainText()
    assert [f"Row {number}" in shown for number in (2, 3, 4)] == [True, True, True]
    choose(monkeypatch, tmp_path / "heron.csv", GOOD)
    click(qtbot, dialog.import_button)
    assert not dialog.message.isVisible() and not dialog.problems.isVisible()


def test_a_question_put_away_changes_nothing(
    dialog: CatalogueDialog, project: OpenProject, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = project.site
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    click(qtbot, dialog.import_button)
    assert project.site is before and not dialog.message.isVisible()


def test_the_folder_is_remembered(
    dialog: CatalogueDialog, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    choose(monkeypatch, tmp_path / "heron.csv", GOOD)
    click(qtbot, dialog.import_button)
    assert folders.last_folder() == str(tmp_path)


def test_replacing_takes_only_the_new_sizes(
    dialog: CatalogueDialog, project: OpenProject, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    choose(monkeypatch, tmp_path / "heron.csv", GOOD)
    assert not dialog.replace_button.isEnabled()
    click(qtbot, dialog.import_button)
    choose(monkeypatch, tmp_path / "teal.csv", HEADER + "precoat_filter,Teal 40,40,ft²,,,Teal price book\n")
    click(qtbot, dialog.import_button)
    assert own(dialog) == ["Heron 60", "Teal 40", "Heron B12"]
    click(qtbot, dialog.replace_button)
    assert own(dialog) == ["Teal 40"]
    click(qtbot, dialog.remove_all_button)
    assert own(dialog) == [] and project.site.catalogue == ()


def test_one_of_the_own_sizes_is_removed_by_key_and_a_generic_one_is_not(
    dialog: CatalogueDialog, project: OpenProject, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    choose(monkeypatch, tmp_path / "heron.csv", GOOD)
    click(qtbot, dialog.import_button)
    dialog.table.setFocus()
    assert dialog.remove_button.isEnabled()
    qtbot.keyClick(dialog.table, Qt.Key.Key_Delete)
    assert own(dialog) == ["Heron B12"]
    dialog.table.go_to(Line(project.library.catalogue[0], False))
    assert not dialog.remove_button.isEnabled()
    qtbot.keyClick(dialog.table, Qt.Key.Key_Delete)
    assert own(dialog) == ["Heron B12"]


def test_a_size_of_the_same_kind_and_name_takes_the_place_of_the_old_one() -> None:
    def item(name: str, size: float, kind: ItemKind = ItemKind.PUMP) -> CatalogueItem:
        return CatalogueItem(kind=kind, name=name, size=size, source="price book")

    both = merged((item("A", 1), item("B", 2)), (item("a", 3), item("A", 4, ItemKind.PIPE)))
    assert [(each.kind, each.name, each.size) for each in both] == [
        (ItemKind.PUMP, "a", 3),
        (ItemKind.PUMP, "B", 2),
        (ItemKind.PIPE, "A", 4),
    ]

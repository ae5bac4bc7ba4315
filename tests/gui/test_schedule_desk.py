"""The schedule desk on a real design: lines, why they have their size, choices, prices, empty state."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from waterpark_designer.documents.table import RowKind
from waterpark_designer.engine.schedule import ScheduleLine
from waterpark_designer.gui.export_actions import ExportActions
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.schedule_desk import EMPTY, NOTHING_CHOSEN, ScheduleDesk
from waterpark_designer.model.edits import revise
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.site import Price, Site
from waterpark_designer.model.starting_points import add_attraction, new_site
from waterpark_designer.units import UnitSystem

Opens = Callable[[OpenProject], ScheduleDesk]


@pytest.fixture
def small_site(small_site: Site) -> Site:
    """The small site under one rule set, which is silent on some limits."""
    return small_site.revised(code_basis=("georgia-511-3-5-2024",))


@pytest.fixture
def opens(qtbot: QtBot) -> Opens:
    def opened(project: OpenProject) -> ScheduleDesk:
        desk = ScheduleDesk(project)
        qtbot.addWidget(desk)
        desk.resize(1400, 860)
        with qtbot.waitExposed(desk):
            desk.show()
        return desk

    return opened


@pytest.fixture
def desk(opens: Opens, project: OpenProject) -> ScheduleDesk:
    return opens(project)


def line(desk: ScheduleDesk, tag: str) -> ScheduleLine:
    return next(line for line in desk.project.design.equipment if line.tag == tag)


def go_to(desk: ScheduleDesk, tag: str) -> None:
    """Choose the line of this tag."""
    found = line(desk, tag)
    desk.table.setFocus()
    assert desk.table.go_to((RowKind.BODY, found.system, found.key, tag))


def row_of(desk: ScheduleDesk, tag: str) -> list[str]:
    rows = (desk.table.rows.row(number) for number in range(desk.table.rows.rowCount()))
    return next([cell.text for cell in row.cells] for row in rows if row.cells[0].text == tag)


def totals(desk: ScheduleDesk) -> dict[str, str]:
    rows = (
        desk.table.rows.row(number)
        for number, item in enumerate(desk.table.rows.items)
        if getattr(item, "kind", None) is RowKind.TOTAL
    )
    return {row.cells[1].text: row.cells[-1].text for row in rows}


def type_price(desk: ScheduleDesk, qtbot: QtBot, tag: str, text: str) -> None:
    """Type over the price of a line and press Enter."""
    go_to(desk, tag)
    qtbot.keyClick(desk.table, Qt.Key.Key_F2)
    editor = next(each for each in desk.table.findChildren(QLineEdit) if each.isVisible())
    editor.selectAll()
    qtbot.keyClicks(editor, text)
    qtbot.keyClick(editor, Qt.Key.Key_Return)


def told(desk: ScheduleDesk) -> str:
    """All that the workings at the right say."""
    return "\n".join(label.text() for label in desk.why.figures.findChildren(QLabel))


def page(desk: ScheduleDesk, name: str) -> None:
    desk.pages.setCurrentItem(desk.pages.findItems(name, Qt.MatchFlag.MatchExactly)[0])


def test_every_line_is_listed_under_its_system(desk: ScheduleDesk, project: OpenProject) -> None:
    shown = [(item.node, item.key) for item in desk.table.rows.items if getattr(item, "kind", "") is RowKind.BODY]
    assert shown == [(each.system, each.key) for each in project.design.equipment]
    assert row_of(desk, "F-101")[:3] == ["F-101", "High-rate sand filter, 84 in vertical", "2"]


def test_prices_are_entered_totalled_and_undone(desk: ScheduleDesk, project: OpenProject, qtbot: QtBot) -> None:
    # Two pumps at 18,400 and two filters at 21,900: 36,800 + 43,800 = 80,600; a pump of the next system 1,000.
    for tag, text in (("P-101", "18,400"), ("F-101", "21900"), ("P-302", "1000")):
        with qtbot.waitSignal(project.design_changed):
            type_price(desk, qtbot, tag, text)
    assert set(project.site.prices) == {
        Price(line=line(desk, "P-101").key, amount=18400.0),
        Price(line=line(desk, "F-101").key, amount=21900.0),
        Price(line=line(desk, "P-302").key, amount=1000.0),
    }
    assert row_of(desk, "F-101")[-2:] == ["21,900", "43,800"]
    assert totals(desk) == {
        "Total of System 1": "80,600",
        "Total of System 3": "1,000",
        "Total of the priced lines": "81,600",
    }
    assert project.undo_stack.undoText() == "Price P-302"
    project.undo_stack.undo()
    project.undo_stack.undo()
    assert totals(desk) == {"Total of System 1": "36,800", "Total of the priced lines": "36,800"}


def test_a_price_leaves_the_workings_beside_it_as_they_stand(desk: ScheduleDesk, qtbot: QtBot) -> None:
    go_to(desk, "F-101")
    before = desk.why.figures.findChildren(QLabel)
    type_price(desk, qtbot, "F-101", "1,250")
    assert before and desk.why.figures.findChildren(QLabel) == before
    qtbot.waitUntil(lambda: not desk.table.findChildren(QLineEdit))
    desk.project.edit("Change units", desk.project.site.revised(units=UnitSystem.SI))
    assert desk.why.figures.isVisible() and "m²" in told(desk)


def test_a_bad_price_leaves_the_good_one(desk: ScheduleDesk, project: OpenProject, qtbot: QtBot) -> None:
    with qtbot.waitSignal(project.design_changed):
        type_price(desk, qtbot, "F-101", "21900")
    type_price(desk, qtbot, "F-101", "dear")
    qtbot.waitUntil(desk.table.complaint.isVisible)
    assert row_of(desk, "F-101")[-2] == "21,900"
    assert project.undo_stack.count() == 1
    with qtbot.waitSignal(project.design_changed):
        qtbot.keyClick(desk.table, Qt.Key.Key_Delete)
    assert project.site.prices == () and totals(desk) == {}


def test_invented_prices_say_so(opens: Opens, open_project: Callable[[Site], OpenProject], small_site: Site) -> None:
    assert not opens(open_project(small_site)).demo.isVisible()
    desk = opens(open_project(small_site.revised(prices_invented=True)))
    assert desk.demo.isVisible() and desk.demo.text() == "Demo prices, invented"
    page(desk, "Salt at start-up")
    assert not desk.demo.isVisible()


def test_why_a_line_has_its_size(desk: ScheduleDesk, project: OpenProject) -> None:
    assert desk.why.subtitle.text() == NOTHING_CHOSEN
    go_to(desk, "F-101")
    assert desk.why.title.text() == "F-101"
    shown = told(desk)
    for node, key in line(desk, "F-101").why:
        assert project.design.sheets[node].figures[key].kind.label in shown
    assert "A = Q / q" in shown and "15.0 gpm/ft²" in shown
    assert "Georgia Rules 511-3-5 (2024), .08(1)(b)" in shown


def test_what_is_missing_says_what_is_needed(desk: ScheduleDesk) -> None:
    go_to(desk, "T-302")
    assert "The code basis is silent on holding tank volume" in told(desk)
    assert desk.why.section is None


def test_a_spare_filter_is_one_click(desk: ScheduleDesk, project: OpenProject, qtbot: QtBot) -> None:
    go_to(desk, "F-101")
    assert desk.why.section is not None
    tick = desk.why.section.rows["spare"].editor.inner
    qtbot.mouseClick(tick, Qt.MouseButton.LeftButton, pos=QPoint(8, tick.height() // 2))
    assert project.site.systems[0].filters.spare
    assert row_of(desk, "F-101")[2] == "3"
    project.undo_stack.undo()
    assert row_of(desk, "F-101")[2] == "2" and not tick.isChecked()


def test_the_number_of_filters_is_typed(desk: ScheduleDesk, project: OpenProject, qtbot: QtBot) -> None:
    go_to(desk, "F-101")
    entry = desk.why.section.rows["count"].editor.inner
    entry.setFocus()
    qtbot.keyClicks(entry, "4")
    qtbot.keyClick(entry, Qt.Key.Key_Return)
    assert project.site.systems[0].filters.count == 4
    assert row_of(desk, "F-101")[2] == "4"
    qtbot.keyClick(entry, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(entry, "many")
    qtbot.keyClick(entry, Qt.Key.Key_Return)
    qtbot.waitUntil(desk.why.section.rows["count"].error.isVisible)
    assert project.site.systems[0].filters.count == 4


def test_a_filter_is_chosen_from_the_catalogue(desk: ScheduleDesk, project: OpenProject, qtbot: QtBot) -> None:
    go_to(desk, "F-101")
    entry = desk.why.section.rows["item"].editor.line
    entry.setFocus()
    entry.setText("High-rate sand filter, 60 in vertical")
    qtbot.keyClick(entry, Qt.Key.Key_Return)
    assert project.site.systems[0].filters.item == "High-rate sand filter, 60 in vertical"
    assert row_of(desk, "F-101")[1] == "High-rate sand filter, 60 in vertical"
    assert "19.6 ft²" in row_of(desk, "F-101")[3]


def test_salt_is_listed_by_body_of_water(desk: ScheduleDesk, project: OpenProject) -> None:
    pool = project.site.systems[1].attractions[0]
    project.edit("Salt", revise(project.site, pool.id, target_salinity=3.2))
    page(desk, "Salt at start-up")
    bodies = [body.name for system in project.site.systems for body in system.attractions]
    names = [item.cells[0] for item in desk.table.rows.items if getattr(item, "kind", "") is RowKind.BODY]
    assert names == bodies
    desk.table.go_to((RowKind.BODY, pool.id, "", pool.name))
    assert desk.why.title.text() == "Lap pool"
    assert "Start-up salt" in told(desk)
    page(desk, "Salt in a season")
    names = [item.cells[0] for item in desk.table.rows.items if getattr(item, "kind", "") is RowKind.BODY]
    assert names == [system.name for system in project.site.systems]


def test_units_change_on_screen(desk: ScheduleDesk, project: OpenProject) -> None:
    assert "ft²" in row_of(desk, "F-101")[3]
    project.edit("Change units", project.site.revised(units=UnitSystem.SI))
    assert "m²" in row_of(desk, "F-101")[3]


def test_an_empty_site_is_told_in_words(opens: Opens, open_project: Callable[[Site], OpenProject]) -> None:
    desk = opens(open_project(new_site()))
    assert desk.empty.isVisible() and desk.empty.text() == EMPTY
    page(desk, "Salt in a season")
    assert desk.empty.isVisible()
    outlets = (desk.preview_button, *desk.export_buttons.values())
    assert not any(button.isEnabled() for button in outlets)
    page(desk, "Equipment")
    desk.project.edit("Add a pool", add_attraction(desk.project.site, AttractionKind.LAP_POOL)[0])
    assert all(button.isEnabled() for button in outlets)


def test_a_desk_out_of_sight_waits_until_it_is_shown(desk: ScheduleDesk, project: OpenProject) -> None:
    desk.hide()
    project.edit("Spare", project.site.revised(systems=project.site.systems[:1]))
    assert len({item.node for item in desk.table.rows.items if getattr(item, "kind", "") is RowKind.BODY}) == 3
    desk.show()
    assert len({item.node for item in desk.table.rows.items if getattr(item, "kind", "") is RowKind.BODY}) == 1


@pytest.mark.parametrize("suffix", ["pdf", "xlsx", "csv"])
def test_the_buttons_export_the_schedule_on_screen(
    desk: ScheduleDesk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, suffix: str
) -> None:
    asked: list[tuple[str, str]] = []
    monkeypatch.setattr(ExportActions, "export", lambda _self, document, form: asked.append((document, form)))
    qtbot.mouseClick(desk.export_buttons[suffix], Qt.MouseButton.LeftButton)
    page(desk, "Salt in a season")
    qtbot.mouseClick(desk.export_buttons[suffix], Qt.MouseButton.LeftButton)
    assert asked == [("equipment-schedule", suffix), ("salt-schedule", suffix)]


def test_where_an_export_went_is_told(
    desk: ScheduleDesk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    opened: list[Path] = []
    monkeypatch.setattr(ExportActions, "open_folder", lambda _self, path: opened.append(path))
    assert not desk.saved.isVisible()
    with qtbot.waitSignal(desk.exports.exported, timeout=20_000):
        desk.exports.export_to("equipment-schedule", tmp_path / "schedule.csv")
    assert desk.saved.isVisible() and desk.saved.text() == "Saved “schedule.csv”."
    qtbot.mouseClick(desk.folder_button, Qt.MouseButton.LeftButton)
    assert opened == [tmp_path / "schedule.csv"]


@pytest.mark.parametrize("name", ["Equipment", "Salt at start-up", "Salt in a season"])
@pytest.mark.parametrize("width", [1440, 1100])
def test_every_column_is_in_sight(desk: ScheduleDesk, name: str, width: int) -> None:
    page(desk, name)
    desk.resize(width, 700)
    taken = sum(desk.table.columnWidth(number) for number in range(len(desk.table.rows.columns)))
    assert taken <= desk.table.viewport().width()

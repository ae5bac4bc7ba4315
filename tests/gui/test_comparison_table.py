"""Attractions side by side: entries with any unit, messages beside the cell, figures that follow."""

import pytest
from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtGui import QFontMetrics, QGuiApplication
from PySide6.QtTest import QAbstractItemModelTester
from PySide6.QtWidgets import QComboBox, QLineEdit

from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Missing
from waterpark_designer.gui.comparison_columns import COLUMNS
from waterpark_designer.gui.comparison_model import ComparisonModel
from waterpark_designer.gui.comparison_table import ComparisonTable
from waterpark_designer.gui.lay_out_desk import LayOutDesk
from waterpark_designer.model.edits import remove, revise
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.starting_points import add_attraction
from waterpark_designer.model.walk import find
from waterpark_designer.units import SALINITY, TEMPERATURE, UnitSystem

NAMES = ["Lazy river", "Lap pool", "Splash pad", "Wading pool"]


def place(key):
    """Number of the column of a field or figure; of the system where the key is empty."""
    return next(number for number, column in enumerate(COLUMNS) if (column.field or column.figure) == key)


NAME, SYSTEM, KIND, TARGET, TEMP = (place(key) for key in ("name", "", "kind", "target_salinity", "water_temperature"))


@pytest.fixture
def table(qtbot, project):
    made = ComparisonTable(project)
    qtbot.addWidget(made)
    made.tester = QAbstractItemModelTester(made.comparison, QAbstractItemModelTester.FailureReportingMode.Warning)
    made.resize(1300, 400)
    made.show()
    qtbot.waitExposed(made)
    made.setFocus()
    return made


def column_of(table, column):
    return [table.comparison.index(row, column).data() for row in range(table.comparison.rowCount())]


def go_to(table, row, column):
    table.setCurrentIndex(table.comparison.index(row, column))


def begin(qtbot, table, text):
    """Type into the current cell; the editor that opened."""
    table.edit(table.currentIndex())
    line = next(line for line in table.findChildren(QLineEdit) if line.isVisible())
    line.selectAll()
    qtbot.keyClicks(line, text)
    return line


def attraction(project, row):
    return [body for system in project.site.systems for body in system.attractions][row]


def test_model_keeps_qts_rules(project, qtmodeltester) -> None:
    qtmodeltester.check(ComparisonModel(project))


def test_every_attraction_with_its_system(table) -> None:
    assert column_of(table, NAME) == NAMES
    assert column_of(table, SYSTEM) == ["System 1", "System 2", "System 3", "System 3"]


def test_units_stand_in_the_headings(project, table) -> None:
    def heading(column):
        return table.comparison.headerData(column, Qt.Orientation.Horizontal)

    assert heading(TEMP).endswith("°F")
    project.edit("SI", revise(project.site, project.site.id, units=UnitSystem.SI))
    assert heading(TEMP).endswith("°C")
    assert heading(place("volume")).endswith("m³")
    assert table.comparison.index(1, TEMP).data() == "26.7"


def test_entry_in_another_unit_is_taken_as_one_undo_step(qtbot, project, table) -> None:
    go_to(table, 1, TEMP)
    qtbot.keyClick(begin(qtbot, table, "27 degC"), Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: project.undo_stack.count() == 1)
    assert attraction(project, 1).water_temperature == pytest.approx(300.15)
    assert project.undo_stack.undoText() == "Change water temperature of Lap pool"
    project.undo_stack.undo()
    assert attraction(project, 1).water_temperature == TEMPERATURE.read("80", UnitSystem.US)


def test_arithmetic_is_reckoned(qtbot, project, table) -> None:
    go_to(table, 0, TARGET)
    qtbot.keyClick(begin(qtbot, table, "2 * 1600"), Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: attraction(project, 0).target_salinity > 0)
    assert attraction(project, 0).target_salinity == pytest.approx(SALINITY.read("3200", UnitSystem.US))


def test_figures_follow_an_entry(qtbot, project, table) -> None:
    go_to(table, 0, TARGET)
    salt = table.comparison.index(0, place("salt_bags"))
    before = salt.data()
    qtbot.keyClick(begin(qtbot, table, "3200"), Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: salt.data() != before)
    bags = project.design.value(attraction(project, 0).id, "salt_bags")
    assert salt.data() == f"{bags:,.0f}"


@pytest.mark.parametrize(
    ("text", "hint"),
    [("boiling", "Type a number in °F"), ("3 gal", "does not measure temperature"), ("300", "at most"), ("", "needed")],
)
def test_bad_entry_stays_in_its_cell_with_a_message_beside_it(qtbot, project, table, text, hint) -> None:
    before = project.site
    go_to(table, 1, TEMP)
    line = begin(qtbot, table, text)
    line.setText(text)
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert line.isVisible() and line.property("invalid") is True
    assert table.message.isVisible() and hint in table.message.label.text()
    assert table.rect().contains(table.message.geometry())
    qtbot.keyClick(line, Qt.Key.Key_Escape)
    assert project.site is before


def test_bad_entry_that_is_left_keeps_the_last_good_value(qtbot, project, table) -> None:
    before = project.site
    go_to(table, 1, TEMP)
    begin(qtbot, table, "boiling")
    table.setFocus()
    assert project.site is before
    assert table.comparison.index(1, TEMP).data() == "80"
    assert table.message.isVisible()
    go_to(table, 0, TEMP)
    assert not table.message.isVisible()


def test_the_same_number_is_no_edit(qtbot, project, table) -> None:
    project.edit("Odd", revise(project.site, attraction(project, 1).id, water_temperature=300.123456789123))
    steps = project.undo_stack.count()
    go_to(table, 1, TEMP)
    table.comparison.setData(table.currentIndex(), table.currentIndex().data(Qt.ItemDataRole.EditRole))
    assert project.undo_stack.count() == steps


def test_enter_goes_down_and_tab_to_the_next_entry(qtbot, table) -> None:
    go_to(table, 0, NAME)
    qtbot.keyClick(table, Qt.Key.Key_Return)
    assert table.currentIndex().row() == 1
    line = begin(qtbot, table, "Eight lanes")
    qtbot.keyClick(line, Qt.Key.Key_Tab)
    assert table.currentIndex().column() == KIND
    assert table.state() == ComparisonTable.State.EditingState
    assert column_of(table, NAME)[1] == "Eight lanes"


def test_tab_at_the_end_of_the_entries_goes_to_the_next_row(qtbot, table) -> None:
    go_to(table, 0, place("setting"))
    table.edit(table.currentIndex())
    qtbot.keyClick(table.findChild(QComboBox), Qt.Key.Key_Tab)
    assert (table.currentIndex().row(), table.currentIndex().column()) == (1, NAME)


def test_typing_begins_an_entry(qtbot, project, table) -> None:
    go_to(table, 0, TARGET)
    qtbot.keyClick(table, Qt.Key.Key_4)
    line = next(line for line in table.findChildren(QLineEdit) if line.isVisible())
    assert line.text() == "4"
    qtbot.keyClicks(line, "000")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: attraction(project, 0).target_salinity == pytest.approx(4.0))


def test_kind_is_chosen_from_a_list(qtbot, project, table) -> None:
    go_to(table, 1, KIND)
    table.edit(table.currentIndex())
    box = table.findChild(QComboBox)
    assert box.currentText() == "Lap pool"
    box.setCurrentIndex(box.findText("Leisure pool"))
    box.activated.emit(box.currentIndex())
    assert attraction(project, 1).kind is AttractionKind.LEISURE_POOL


def test_figures_cannot_be_typed_over(table) -> None:
    assert not table.comparison.index(0, place("volume")).flags() & Qt.ItemFlag.ItemIsEditable
    assert not table.comparison.setData(table.comparison.index(0, place("volume")), "5")


def test_missing_figure_says_what_is_needed(project, table) -> None:
    project.edit("No code", revise(project.site, project.site.id, code_basis=()))
    cell = table.comparison.index(0, place("longest_turnover"))
    needed = project.design.value(attraction(project, 0).id, "longest_turnover")
    assert isinstance(needed, Missing)
    assert cell.data() == "—"
    assert needed.needs in cell.data(Qt.ItemDataRole.ToolTipRole)


def test_selection_is_the_projects_both_ways(project, table) -> None:
    go_to(table, 1, TEMP)
    assert project.selection == attraction(project, 1).id
    river = attraction(project, 0)
    project.select(river.features[0].id)
    assert (table.currentIndex().row(), table.currentIndex().column()) == (0, TEMP)
    assert project.selection == river.features[0].id
    project.select(project.site.id)
    assert not table.currentIndex().isValid()


def test_sorting_holds_still_while_editing_and_returns_to_the_tree(project, table) -> None:
    table.sortByColumn(NAME, Qt.SortOrder.DescendingOrder)
    assert column_of(table, NAME) == sorted(NAMES, reverse=True)
    project.edit("Rename", revise(project.site, attraction(project, 0).id, name="Zephyr run"))
    assert column_of(table, NAME) == ["Wading pool", "Splash pad", "Zephyr run", "Lap pool"]
    table.sortByColumn(-1, Qt.SortOrder.AscendingOrder)
    assert column_of(table, NAME)[0] == "Zephyr run"


def test_figures_sort_by_size_and_unknown_ones_come_last(project, table) -> None:
    project.edit("One code", revise(project.site, project.site.id, code_basis=("georgia-511-3-5-2024",)))
    volume = place("volume")
    unknown = [
        body.id
        for system in project.site.systems
        for body in system.attractions
        if isinstance(project.design.value(body.id, "volume"), Missing)
    ]
    for order in Qt.SortOrder:
        table.sortByColumn(volume, order)
        ids = [table.comparison.attraction_at(table.comparison.index(row, 0)) for row in range(4)]
        known = ids[: len(ids) - len(unknown)]
        sizes = [float(project.design.value(body, "volume")) for body in known]
        assert sizes == sorted(sizes, reverse=order is Qt.SortOrder.DescendingOrder)
        assert ids[len(known) :] == unknown and unknown


def test_added_and_deleted_attractions_come_and_go(project, table) -> None:
    project.edit("Add", add_attraction(project.site, AttractionKind.SPA, project.site.systems[0].id)[0])
    assert column_of(table, NAME) == ["Lazy river", "Spa", *NAMES[1:]]
    project.edit("Delete", remove(project.site, project.site.systems[1].id))
    assert column_of(table, NAME) == ["Lazy river", "Spa", "Splash pad", "Wading pool"]
    project.undo_stack.undo()
    project.undo_stack.undo()
    assert column_of(table, NAME) == NAMES


def test_only_changed_rows_are_repainted(project, table) -> None:
    repainted = []
    table.comparison.dataChanged.connect(lambda first, last: repainted.append((first.row(), last.row())))
    project.edit("Rename", revise(project.site, attraction(project, 1).id, name="Training pool"))
    assert repainted == [(1, 1)]


def test_renamed_system_is_renamed_in_its_rows(project, table) -> None:
    project.edit("Rename", revise(project.site, project.site.systems[2].id, name="Play"))
    assert column_of(table, SYSTEM)[2:] == ["Play", "Play"]


def test_copy_is_a_table_for_a_spreadsheet(project, table) -> None:
    project.edit("Rename", revise(project.site, attraction(project, 0).id, name="=SUM(A1)"))
    flags = QItemSelectionModel.SelectionFlag
    table.selectionModel().clear()
    for row, column in ((0, NAME), (0, place("volume")), (1, NAME), (1, place("volume"))):
        table.selectionModel().select(table.comparison.index(row, column), flags.Select)
    table.copy()
    head, first, second = (line.split("\t") for line in QGuiApplication.clipboard().text().split("\n"))
    assert head == ["Body of water", "Volume gal"]
    assert first[0] == "'=SUM(A1)"
    assert second[0] == "Lap pool" and "," not in second[1]
    assert float(second[1]) > 1000


def test_name_stays_in_sight_while_the_figures_scroll(table) -> None:
    table.resize(500, 300)
    bar = table.horizontalScrollBar()
    bar.setValue(bar.maximum())
    assert table.frozen.isVisible()
    assert table.frozen.visualRect(table.comparison.index(0, NAME)).left() == 0
    assert table.visualRect(table.comparison.index(0, NAME)).right() < 0
    go_to(table, 0, KIND)
    shown = table.visualRect(table.comparison.index(0, KIND))
    assert shown.left() >= table.frozen.width() - 2


def test_name_is_edited_where_it_is_seen(qtbot, project, table) -> None:
    go_to(table, 0, NAME)
    line = begin(qtbot, table, "Otter run")
    assert table.frozen.isAncestorOf(line)
    qtbot.keyClick(line, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: attraction(project, 0).name == "Otter run")
    assert table.hasFocus()
    assert table.currentIndex().row() == 1


def test_empty_name_is_refused(qtbot, project, table) -> None:
    go_to(table, 0, NAME)
    line = begin(qtbot, table, " ")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert "between 1 and 200" in table.message.label.text()
    qtbot.keyClick(line, Qt.Key.Key_Escape)
    assert find(project.site, attraction(project, 0).id).name == "Lazy river"


@pytest.mark.parametrize(
    ("width", "figures"),
    [
        (1440, ("volume", "longest_turnover", "least_flow", "design_flow", "turnover_time", "peak_occupancy")),
        (1100, ("volume", "longest_turnover", "least_flow", "design_flow")),
    ],
)
@pytest.mark.parametrize("units", UnitSystem)
def test_figures_are_seen_without_scrolling(qtbot, project, width, figures, units) -> None:
    project.edit("Units", revise(project.site, project.site.id, units=units))
    desk = LayOutDesk(project)
    qtbot.addWidget(desk)
    desk.resize(width, 600)
    desk.part_panes(width)
    desk.show()
    qtbot.waitExposed(desk)
    view = desk.table
    for key in figures:
        left = view.columnViewportPosition(place(key))
        assert left + view.columnWidth(place(key)) <= view.viewport().width(), key


def test_headings_fit_their_columns(project, table) -> None:
    font = table.horizontalHeader().font()
    font.setBold(True)
    for units in UnitSystem:
        for number, column in enumerate(COLUMNS):
            for line in column.title(units).split("\n"):
                assert QFontMetrics(font).horizontalAdvance(line) < table.columnWidth(number), line


def test_shortened_words_are_whole_in_the_tip(project, table) -> None:
    pad = table.comparison.index(NAMES.index("Splash pad"), KIND)
    assert pad.data() == "Splash pad"
    assert "Splash pad (interactive water play)" in pad.data(Qt.ItemDataRole.ToolTipRole)


def test_a_large_volume_with_its_mark_fits_its_column(project, table) -> None:
    text = f"{Status.CAUTION.mark} 1,234,000"
    assert table.fontMetrics().horizontalAdvance(text) + 8 <= table.columnWidth(place("volume"))

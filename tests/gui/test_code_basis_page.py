"""The code basis page: order of rule sets, limits in force, amendments, by key and click, all undoable."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton
from pytestqt.modeltest import ModelTester
from pytestqt.qtbot import QtBot

from waterpark_designer.gui import code_basis_page
from waterpark_designer.gui.code_basis_page import NO_LIMIT, CodeBasisPage, Heading
from waterpark_designer.gui.limits_in_force import LimitLine, SilentLine
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.site import Amendment, Site
from waterpark_designer.units import UnitSystem

GEORGIA, WISCONSIN, MODEL_CODE = "georgia-511-3-5-2024", "wisconsin-sps-390-2024", "cdc-mahc-2023"
LETTER = Amendment(
    quantity="longest_turnover", applies_to=(AttractionKind.LAZY_RIVER,), value=5400.0, reason="County letter, item 4"
)
Opens = Callable[[OpenProject], CodeBasisPage]


@pytest.fixture
def small_site(small_site: Site) -> Site:
    """The small site under one rule set, which is silent on some limits."""
    return small_site.revised(code_basis=("georgia-511-3-5-2024",))


@pytest.fixture
def opens(qtbot: QtBot) -> Opens:
    def opened(project: OpenProject) -> CodeBasisPage:
        page = CodeBasisPage(project)
        qtbot.addWidget(page)
        with qtbot.waitExposed(page):
            page.show()
        return page

    return opened


@pytest.fixture
def page(opens: Opens, project: OpenProject) -> CodeBasisPage:
    return opens(project)


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[tuple[object, ...]]:
    """What the amendment dialog was opened with."""
    calls: list[tuple[object, ...]] = []

    class Dialog:
        def __init__(self, _project: object, quantity: str, kinds: object, index: object, _parent: object) -> None:
            calls.append((quantity, kinds, index))

        def exec(self) -> int:
            return 0

        def deleteLater(self) -> None:  # noqa: N802
            """Nothing is kept of it."""

    monkeypatch.setattr(code_basis_page, "AmendmentDialog", Dialog)
    return calls


def limits(page: CodeBasisPage) -> list[LimitLine]:
    return [item for item in page.table.rows.items if isinstance(item, LimitLine)]


def headings(page: CodeBasisPage) -> list[str]:
    return [item.text for item in page.table.rows.items if isinstance(item, Heading)]


def listed(page: CodeBasisPage) -> list[str]:
    return [page.order.list.item(row).text() for row in range(page.order.list.count())]


def values(page: CodeBasisPage, quantity: str) -> list[str]:
    """The values shown for the limits of one quantity."""
    return [
        page.table.rows.row(number).cells[2].text
        for number, item in enumerate(page.table.rows.items)
        if isinstance(item, LimitLine) and item.limit.quantity == quantity
    ]


def add(page: CodeBasisPage, words: str) -> None:
    """Choose from the menu of rule sets that are not in use."""
    menu = page.order.menu_of_others()
    action = next(action for action in menu.actions() if words in action.text())
    action.trigger()


def test_rule_sets_are_added_moved_and_removed(page: CodeBasisPage, project: OpenProject, qtbot: QtBot) -> None:
    add(page, "Wisconsin")
    add(page, "Model Aquatic Health Code")
    assert project.site.code_basis == (GEORGIA, WISCONSIN, MODEL_CODE)
    page.order.list.setFocus()
    page.order.list.setCurrentRow(2)
    qtbot.keyClick(page.order.list, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    assert project.site.code_basis == (GEORGIA, MODEL_CODE, WISCONSIN)
    assert page.order.list.currentRow() == 1
    qtbot.mouseClick(page.order.down_button, Qt.MouseButton.LeftButton)
    assert project.site.code_basis == (GEORGIA, WISCONSIN, MODEL_CODE)
    page.order.list.setFocus()
    qtbot.keyClick(page.order.list, Qt.Key.Key_Delete)
    assert project.site.code_basis == (GEORGIA, WISCONSIN)
    for _ in range(3):
        qtbot.keyClick(page, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert project.site.code_basis == (GEORGIA, WISCONSIN, MODEL_CODE)
    assert [text.partition(".")[0] for text in listed(page)] == ["1", "2", "3"]


def test_only_rule_sets_that_are_not_in_use_are_offered(page: CodeBasisPage, project: OpenProject) -> None:
    offered = [action.text() for action in page.order.menu_of_others().actions()]
    assert not any("Georgia Rules" in text for text in offered)
    assert len(offered) == len(project.library.rule_sets) - 1


def test_the_first_cannot_move_up_nor_the_last_down(page: CodeBasisPage) -> None:
    assert not page.order.up_button.isEnabled()
    assert not page.order.down_button.isEnabled()
    add(page, "Wisconsin")
    page.order.list.setCurrentRow(0)
    assert page.order.down_button.isEnabled() and not page.order.up_button.isEnabled()


def test_what_a_rule_set_is_and_its_caution_are_told(page: CodeBasisPage, project: OpenProject) -> None:
    georgia = project.library.rule_sets[GEORGIA]
    assert georgia.jurisdiction in page.order.about.text()
    assert page.order.caution.text() == georgia.caution != ""
    add(page, "Common practice")
    page.order.list.setCurrentRow(1)
    assert "supplement" in listed(page)[1]


def test_a_rule_set_that_is_not_installed_is_named_and_can_be_removed(
    opens: Opens, open_project: Callable[[Site], OpenProject], small_site: Site, qtbot: QtBot
) -> None:
    project = open_project(small_site.revised(code_basis=("county-of-nowhere-1999",)))
    page = opens(project)
    assert "county-of-nowhere-1999, not installed" in listed(page)[0]
    assert "none of its limits is applied" in page.order.caution.text()
    qtbot.mouseClick(page.order.remove_button, Qt.MouseButton.LeftButton)
    assert project.site.code_basis == ()
    assert "silent on everything" in page.order.caution.text()


def test_every_limit_in_force_is_listed(page: CodeBasisPage, project: OpenProject) -> None:
    assert [line.limit for line in limits(page)] == list(project.design.basis.limits)
    add(page, "Wisconsin")
    assert [line.limit for line in limits(page)] == list(project.design.basis.limits)
    assert headings(page)[-2:] == ["Georgia Rules 511-3-5 (2024)", "Wisconsin SPS 390 (2024)"]


def test_a_limit_is_shown_in_the_units_on_screen_with_clause_and_use(page: CodeBasisPage, project: OpenProject) -> None:
    # Georgia Rules 511-3-5-.07(1)(b): leisure river 2 h; .08(1)(b): high-rate granular 15 gpm/ft² (36.7 m/h).
    river = next(line for line in limits(page) if line.limit.applies_to == {AttractionKind.LAZY_RIVER})
    row = page.table.rows.row(page.table.rows.items.index(river))
    assert [cell.text for cell in row.cells] == ["Turnover time", "Lazy river", "at most 2.00 h", ".07(1)(b)", "1"]
    assert row.cells[4].tip == "Lazy river"
    assert "at most 15.0 gpm/ft²" in values(page, "filter_rate")
    project.edit("Change units", project.site.revised(units=UnitSystem.SI))
    assert "at most 36.7 m/h" in values(page, "filter_rate")


def test_a_value_from_memory_says_so(page: CodeBasisPage) -> None:
    add(page, "Model Aquatic Health Code")
    page.order.list.setCurrentRow(1)
    number = next(
        n
        for n, item in enumerate(page.table.rows.items)
        if isinstance(item, LimitLine) and item.limit.rule_set.startswith("Model Aquatic")
    )
    clause = page.table.rows.row(number).cells[3]
    assert (clause.below, clause.below_tone) == ("from memory, confirm", "caution")


def test_typing_finds_limits(page: CodeBasisPage, qtbot: QtBot) -> None:
    qtbot.keyClick(page, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(page.filter, "river turnover")
    assert {line.limit.quantity for line in limits(page)} == {"longest_turnover"}
    assert all(AttractionKind.LAZY_RIVER in line.limit.applies_to for line in limits(page))
    qtbot.keyClicks(page.filter, " nowhere")
    assert limits(page) == []
    assert page.summary.text() == NO_LIMIT


def test_only_limits_in_use_are_shown_on_request(page: CodeBasisPage, project: OpenProject, qtbot: QtBot) -> None:
    used = {key for key, nodes in project.design.limit_uses.items() if nodes}
    qtbot.keyClick(page.only_used, Qt.Key.Key_Space)
    assert {line.limit.key for line in limits(page)} == used
    assert not [item for item in page.table.rows.items if isinstance(item, SilentLine)]


def test_enter_on_a_limit_amends_it(page: CodeBasisPage, asked: list[tuple[object, ...]], qtbot: QtBot) -> None:
    river = next(line for line in limits(page) if line.limit.applies_to == {AttractionKind.LAZY_RIVER})
    page.table.setFocus()
    page.table.go_to(("limit", river.limit.key))
    qtbot.keyClick(page.table, Qt.Key.Key_Return)
    assert asked == [("longest_turnover", ("lazy_river",), None)]


def test_where_the_code_is_silent_it_can_be_amended(
    page: CodeBasisPage, asked: list[tuple[object, ...]], qtbot: QtBot
) -> None:
    assert "The code basis is silent" in headings(page)
    page.table.go_to(("silent", "Holding tank volume"))
    qtbot.mouseClick(page.amend_button, Qt.MouseButton.LeftButton)
    assert asked == [("tank_least_volume", (), None)]


def test_an_amendment_stands_on_top_is_edited_and_removed(
    opens: Opens,
    open_project: Callable[[Site], OpenProject],
    small_site: Site,
    asked: list[tuple[object, ...]],
    qtbot: QtBot,
) -> None:
    project = open_project(small_site.revised(amendments=(LETTER,)))
    page = opens(project)
    assert headings(page)[0] == "Local amendments"
    assert page.table.rows.row(1).cells[3].text == "County letter, item 4"
    page.table.setFocus()
    page.table.go_to(("limit", "amendment:1"))
    assert page.amend_button.text() == "Edit…"
    qtbot.keyClick(page.table, Qt.Key.Key_Return)
    assert asked == [("longest_turnover", ("lazy_river",), 0)]
    qtbot.keyClick(page.table, Qt.Key.Key_Delete)
    assert project.site.amendments == ()
    assert not page.remove_button.isEnabled()
    qtbot.keyClick(page, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert project.site.amendments == (LETTER,)


def test_a_limit_of_a_rule_set_cannot_be_removed(page: CodeBasisPage, project: OpenProject, qtbot: QtBot) -> None:
    before = project.site
    page.table.setFocus()
    page.table.go_to(("limit", limits(page)[0].limit.key))
    assert not page.remove_button.isEnabled()
    qtbot.keyClick(page.table, Qt.Key.Key_Delete)
    assert project.site is before


def test_enter_in_the_find_box_does_not_close_the_page(page: CodeBasisPage, qtbot: QtBot) -> None:
    assert not any(button.autoDefault() for button in page.findChildren(QPushButton))
    qtbot.keyClicks(page.filter, "spa")
    qtbot.keyClick(page.filter, Qt.Key.Key_Return)
    assert page.isVisible()


def test_its_rows_keep_the_rules_of_a_model(page: CodeBasisPage, qtmodeltester: ModelTester) -> None:
    qtmodeltester.check(page.table.rows)

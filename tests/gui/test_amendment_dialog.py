"""An amendment shows what it would change before it is taken, and is refused without value or reason."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QListWidgetItem
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.amendment_dialog import AmendmentDialog, summary
from waterpark_designer.gui.amendment_effect import Change
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.site import Amendment, Site
from waterpark_designer.units import UnitSystem

LAP = AttractionKind.LAP_POOL
REASON = "County letter of 3 March, item 4"
Opens = Callable[..., AmendmentDialog]


@pytest.fixture
def small_site(small_site: Site) -> Site:
    """The small site under one rule set, which is silent on some limits."""
    return small_site.revised(code_basis=("georgia-511-3-5-2024",))


@pytest.fixture
def opens(project: OpenProject, qtbot: QtBot) -> Opens:
    def opened(*preset: object) -> AmendmentDialog:
        dialog = AmendmentDialog(project, *preset)
        qtbot.addWidget(dialog)
        with qtbot.waitExposed(dialog):
            dialog.show()
        return dialog

    return opened


def listed(dialog: AmendmentDialog) -> dict[tuple[str, str], tuple[str, str]]:
    """(where, what) → (now, then) of every line shown."""
    return {(change.where, change.what): (change.before, change.after) for change in dialog.table.rows.items}


def kind_item(dialog: AmendmentDialog, kind: AttractionKind) -> QListWidgetItem:
    return next(
        item
        for row in range(dialog.kinds.count())
        if (item := dialog.kinds.item(row)).data(Qt.ItemDataRole.UserRole) == kind.value
    )


def type_value(dialog: AmendmentDialog, qtbot: QtBot, text: str) -> None:
    """Type a value and wait until its effect is shown."""
    dialog.value.clear()
    qtbot.keyClicks(dialog.value, text)
    show_effect(dialog, qtbot)


def show_effect(dialog: AmendmentDialog, qtbot: QtBot) -> None:
    """Wait until the effect of what is entered is shown."""
    with qtbot.waitSignal(dialog.effect_shown):
        dialog.show_effect()


def take(dialog: AmendmentDialog, qtbot: QtBot) -> None:
    qtbot.mouseClick(dialog.take_button, Qt.MouseButton.LeftButton)


def test_it_opens_with_the_limit_it_was_opened_for(opens: Opens) -> None:
    dialog = opens("longest_turnover", ("lap_pool",))
    assert dialog.kind.key == "longest_turnover"
    assert dialog.sense.text() == "at most" and dialog.unit.text() == "h"
    assert dialog.take_button.text() == "Add amendment"
    assert kind_item(dialog, LAP).checkState() is Qt.CheckState.Checked
    assert kind_item(dialog, AttractionKind.SPA).checkState() is Qt.CheckState.Unchecked


def test_opened_for_a_limit_the_value_is_typed_at_once(opens: Opens, qtbot: QtBot) -> None:
    for quantity, has_value in (("longest_turnover", True), ("secondary_required", False)):
        dialog = opens(quantity, ())
        qtbot.waitUntil((dialog.value if has_value else dialog.duty).hasFocus)
        dialog.close()


def test_a_message_hides_nothing(opens: Opens, qtbot: QtBot) -> None:
    dialog = opens("longest_turnover", ())
    qtbot.keyClicks(dialog.value, "<b>many gallons and more of them than a line of the dialog holds</b>")
    assert dialog.value_error.isVisible() and "<b>" in dialog.value_error.text()
    assert dialog.value_error.textFormat() is Qt.TextFormat.PlainText
    assert dialog.kinds.geometry().bottom() < dialog.reason.y() - dialog.fontMetrics().height()


def test_what_it_would_change_is_shown_before_it_is_taken(opens: Opens, project: OpenProject, qtbot: QtBot) -> None:
    # Georgia asks a lap pool for 6 h at most; half the time is twice the flow.
    dialog = opens("longest_turnover", ("lap_pool",))
    before = project.site
    pool = before.systems[1].attractions[0]
    flow = float(project.design.value(pool.id, "least_flow"))
    type_value(dialog, qtbot, "180 min")
    effect = listed(dialog)
    assert effect["Lap pool", "Longest turnover allowed"] == ("6.00 h", "3.00 h")
    now, then = effect["Lap pool", "Least flow by turnover time"]
    assert now == f"{flow / 6.309019640344e-05:,.0f} gpm"
    assert then == f"{2 * flow / 6.309019640344e-05:,.0f} gpm"
    assert not any(where == "Lazy river" for where, _ in effect)
    assert project.site is before


def test_checks_that_change_come_first_with_both_states(opens: Opens, qtbot: QtBot) -> None:
    # A least volume of the tank gives the splash pad a volume, so that its checks can be told.
    dialog = opens("tank_least_volume", ("splash_pad",))
    type_value(dialog, qtbot, "2000 gal")
    changes = dialog.table.rows.items
    checks = [change for change in changes if change.is_check]
    assert changes[: len(checks)] == checks
    assert listed(dialog)["Splash pad", "Check: Holding tank volume"] == ("– code silent", "✓ met")
    assert listed(dialog)["Splash pad", "Volume"][0] == "cannot be told"
    assert dialog.effect.text() == f"{len(checks)} checks and {len(changes) - len(checks)} figures."


def test_the_effect_follows_what_is_typed_without_a_further_word(opens: Opens, qtbot: QtBot) -> None:
    dialog = opens("longest_turnover", ("lap_pool",))
    qtbot.keyClicks(dialog.value, "2")
    qtbot.waitUntil(lambda: ("Lap pool", "Longest turnover allowed") in listed(dialog))
    assert listed(dialog)["Lap pool", "Longest turnover allowed"] == ("6.00 h", "2.00 h")


def test_only_the_last_of_several_entries_is_shown(opens: Opens, qtbot: QtBot) -> None:
    dialog = opens("longest_turnover", ("lap_pool",))
    shown: list[str] = []
    dialog.effect_shown.connect(
        lambda: shown.extend(
            change.after for change in dialog.table.rows.items if change.what == "Longest turnover allowed"
        )
    )
    for text in ("5", "4", "3"):
        dialog.value.setText(text)
        dialog.show_effect()
    qtbot.waitUntil(lambda: bool(shown))
    assert set(shown) == {"3.00 h"}


def test_it_closes_while_the_effect_is_worked_out(opens: Opens, project: OpenProject, qtbot: QtBot) -> None:
    dialog = opens("longest_turnover", ("lap_pool",))
    qtbot.keyClicks(dialog.value, "2")
    dialog.show_effect()
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible() and project.site.amendments == ()


def test_it_is_taken_as_one_undoable_step(opens: Opens, project: OpenProject, qtbot: QtBot) -> None:
    dialog = opens("longest_turnover", ("lap_pool",))
    type_value(dialog, qtbot, "3 h")
    qtbot.keyClicks(dialog.reason, REASON)
    with qtbot.waitSignal(dialog.accepted):
        take(dialog, qtbot)
    assert project.site.amendments == (
        Amendment(quantity="longest_turnover", applies_to=(LAP,), value=10800.0, reason=REASON),
    )
    assert project.undo_stack.undoText() == "Amend turnover time"
    project.undo_stack.undo()
    assert project.site.amendments == ()


def test_a_new_amendment_counts_before_the_older_ones(opens: Opens, project: OpenProject, qtbot: QtBot) -> None:
    for value in ("3 h", "4 h"):
        dialog = opens("longest_turnover", ("lap_pool",))
        type_value(dialog, qtbot, value)
        qtbot.keyClicks(dialog.reason, REASON)
        take(dialog, qtbot)
    assert [amendment.value for amendment in project.site.amendments] == [14400.0, 10800.0]
    pool = project.site.systems[1].attractions[0]
    assert float(project.design.value(pool.id, "longest_turnover")) == 14400.0


@pytest.mark.parametrize(
    "text, message",
    [
        ("soon", "cannot be read"),
        ("3 gpm", "time"),
        ("0", "above zero"),
        ("-2", "above zero"),
        ("", "Type the limit"),
        ("1e300", "smaller number"),
    ],
)
def test_a_bad_value_is_told_beside_it_and_nothing_is_taken(
    opens: Opens, project: OpenProject, qtbot: QtBot, text: str, message: str
) -> None:
    dialog = opens("longest_turnover", ("lap_pool",))
    qtbot.keyClicks(dialog.reason, REASON)
    type_value(dialog, qtbot, text)
    take(dialog, qtbot)
    assert dialog.value_error.isVisible() and message in dialog.value_error.text()
    assert dialog.isVisible() and project.site.amendments == ()
    assert dialog.table.rows.items == []
    type_value(dialog, qtbot, "3 h")
    assert not dialog.value_error.isVisible()


def test_a_reason_is_required(opens: Opens, project: OpenProject, qtbot: QtBot) -> None:
    dialog = opens("longest_turnover", ("lap_pool",))
    type_value(dialog, qtbot, "3 h")
    take(dialog, qtbot)
    assert dialog.reason_error.isVisible() and "who set it" in dialog.reason_error.text()
    assert project.site.amendments == ()
    qtbot.keyClicks(dialog.reason, "x")
    assert not dialog.reason_error.isVisible()


def test_a_reason_too_long_for_the_file_is_told_beside_it(opens: Opens, project: OpenProject, qtbot: QtBot) -> None:
    dialog = opens("longest_turnover", ("lap_pool",))
    type_value(dialog, qtbot, "3 h")
    dialog.reason.setPlainText("x" * 1001)
    take(dialog, qtbot)
    assert dialog.reason_error.text() == "Say it in at most 1,000 letters; these are 1,001."
    assert dialog.isVisible() and project.site.amendments == ()


def test_a_duty_is_a_yes_or_no(opens: Opens, project: OpenProject, qtbot: QtBot) -> None:
    dialog = opens("secondary_required", ("lap_pool",))
    assert dialog.duty.isVisible() and not dialog.value.isVisible()
    show_effect(dialog, qtbot)
    assert listed(dialog)["System 2", "Check: Secondary disinfection"] == ("no check", "✗ not met")
    dialog.duty.setFocus()
    qtbot.keyClick(dialog.duty, Qt.Key.Key_Down)
    show_effect(dialog, qtbot)
    assert listed(dialog) == {} and dialog.effect.text().startswith("Nothing: ")
    qtbot.keyClicks(dialog.reason, REASON)
    take(dialog, qtbot)
    assert project.site.amendments[0].value == 0.0


def test_kinds_of_water_are_ticked(opens: Opens, project: OpenProject, qtbot: QtBot) -> None:
    dialog = opens("longest_turnover", ())
    type_value(dialog, qtbot, "30 min")
    assert any(where == "Lazy river" for where, _ in listed(dialog))
    kind_item(dialog, LAP).setCheckState(Qt.CheckState.Checked)
    show_effect(dialog, qtbot)
    assert {where.split(", ")[0] for where, _ in listed(dialog)} == {"Lap pool", "System 2"}


def test_an_amendment_is_edited_in_its_place(opens: Opens, project: OpenProject, qtbot: QtBot) -> None:
    first = Amendment(quantity="filter_rate", value=0.01, reason="Letter of the county")
    second = Amendment(quantity="longest_turnover", applies_to=(LAP,), value=10800.0, reason=REASON)
    project.edit("Amend", project.site.revised(amendments=(first, second)))
    dialog = opens("longest_turnover", ("lap_pool",), 1)
    assert dialog.value.text() == "3" and dialog.reason.toPlainText() == REASON
    type_value(dialog, qtbot, "2")
    take(dialog, qtbot)
    assert project.site.amendments == (first, second.revised(value=7200.0))


def test_values_are_read_in_the_units_on_screen(opens: Opens, project: OpenProject, qtbot: QtBot) -> None:
    project.edit("Change units", project.site.revised(units=UnitSystem.SI))
    dialog = opens("filter_rate", ())
    assert dialog.unit.text() == "m/h"
    type_value(dialog, qtbot, "36")
    qtbot.keyClicks(dialog.reason, REASON)
    take(dialog, qtbot)
    assert project.site.amendments[0].value == pytest.approx(0.01)


def test_the_summary_counts() -> None:
    figure = Change("n", "Lap pool", "Volume", "1", "2", False)
    check = Change("n", "Lap pool", "Turnover", "✓ met", "✗ not met", True)
    assert summary([figure]) == "1 figure."
    assert summary([figure, figure, check]) == "1 check and 2 figures."
    assert summary([figure] * 250) == "250 figures. The first 200 are listed."
    assert summary([]).startswith("Nothing: ")

"""Setting a figure by hand takes a value and a reason."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QLabel

from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, leaf
from waterpark_designer.gui.override_dialog import OverrideDialog
from waterpark_designer.model.node import Override
from waterpark_designer.units import GALLON, MINUTE, UnitSystem

FLOW = Figure(FIGURE_KINDS["design_flow"], leaf(1000 * GALLON / MINUTE, "Flow", YOUR_ENTRY))


@pytest.fixture
def ask(qtbot):
    def asked(figure: Figure) -> OverrideDialog:
        dialog = OverrideDialog(figure, "Meander <river>", UnitSystem.US)
        qtbot.addWidget(dialog)
        with qtbot.waitExposed(dialog):
            dialog.show()
        dialog.activateWindow()
        qtbot.waitUntil(dialog.isActiveWindow)
        return dialog

    return asked


def fill(qtbot, dialog: OverrideDialog, value: str, reason: str) -> None:
    for row, text in ((dialog.value_row, value), (dialog.reason_row, reason)):
        row.editor.line.setFocus()
        row.editor.line.selectAll()
        qtbot.keyClicks(row.editor.line, text)


def test_shows_what_is_computed_and_takes_value_and_reason(qtbot, ask) -> None:
    dialog = ask(FLOW)
    texts = [label.text() for label in dialog.findChildren(QLabel)]
    assert "Design flow of Meander <river>" in texts
    assert "Computed: 1,000 gpm" in texts
    fill(qtbot, dialog, "300 m3/h", "Pump is there already")
    qtbot.mouseClick(dialog.accept_button, Qt.MouseButton.LeftButton)
    assert dialog.result() == QDialog.DialogCode.Accepted
    assert dialog.value == pytest.approx(300 / 3600)
    assert dialog.reason == "Pump is there already"


def test_enter_in_the_reason_accepts(qtbot, ask) -> None:
    dialog = ask(FLOW)
    fill(qtbot, dialog, "900", "Agreed on site")
    qtbot.keyClick(dialog.reason_row.editor.line, Qt.Key.Key_Return)
    assert dialog.result() == QDialog.DialogCode.Accepted


@pytest.mark.parametrize(
    ("value", "reason", "row", "words"),
    [
        ("900", "", "reason_row", "Say why"),
        ("900", "ok", "reason_row", "Say why"),
        ("", "Agreed on site", "value_row", "Type the value"),
        ("much", "Agreed on site", "value_row", "cannot be read"),
        ("-5", "Agreed on site", "value_row", "Value must be at least 0 gpm."),
        ("3 ft", "Agreed on site", "value_row", "flow"),
        ("1e300", "Agreed on site", "value_row", "Type a smaller number."),
    ],
)
def test_stays_open_and_says_what_is_needed(qtbot, ask, value, reason, row, words) -> None:
    dialog = ask(FLOW)
    fill(qtbot, dialog, value, reason)
    qtbot.mouseClick(dialog.accept_button, Qt.MouseButton.LeftButton)
    assert dialog.isVisible()
    assert words in getattr(dialog, row).error.text()
    assert getattr(dialog, row).error.isVisible()


@pytest.mark.parametrize(
    ("erased", "words"), [("value_row", "Type the value"), ("reason_row", "Say why the computed figure is not used")]
)
def test_what_was_taken_and_erased_again_is_not_used(qtbot, ask, erased, words) -> None:
    dialog = ask(FLOW)
    fill(qtbot, dialog, "900", "Agreed on site")
    dialog.accept_button.setFocus()
    line = getattr(dialog, erased).editor.line
    line.setFocus()
    line.selectAll()
    qtbot.keyClick(line, Qt.Key.Key_Delete)
    qtbot.mouseClick(dialog.accept_button, Qt.MouseButton.LeftButton)
    assert dialog.isVisible()
    assert words in getattr(dialog, erased).error.text()


def test_what_is_wrong_shows_whole(qtbot, ask) -> None:
    dialog = ask(FLOW)
    fill(qtbot, dialog, "much", "")
    qtbot.mouseClick(dialog.accept_button, Qt.MouseButton.LeftButton)
    for row in (dialog.value_row, dialog.reason_row):
        qtbot.waitUntil(lambda row=row: row.error.height() >= row.error.heightForWidth(row.error.width()))
        assert row.editor.height() >= row.editor.sizeHint().height()


def test_filters_and_bags_are_whole(qtbot, ask) -> None:
    dialog = ask(Figure(FIGURE_KINDS["salt_bags"], leaf(12.0, "Bags", YOUR_ENTRY)))
    fill(qtbot, dialog, "12.5", "Agreed on site")
    qtbot.mouseClick(dialog.accept_button, Qt.MouseButton.LeftButton)
    assert dialog.isVisible()
    assert "whole number" in dialog.value_row.error.text()


def test_override_in_force_is_there_to_be_changed(qtbot, ask) -> None:
    override = Override(figure="design_flow", value=900 * GALLON / MINUTE, reason="Agreed on site")
    dialog = ask(Figure(FLOW.kind, leaf(override.value, "By hand", YOUR_ENTRY), override, FLOW.value))
    assert dialog.value_row.editor.line.text() == "900"
    assert dialog.reason_row.editor.line.text() == "Agreed on site"
    assert "Computed: 1,000 gpm" in [label.text() for label in dialog.findChildren(QLabel)]
    qtbot.mouseClick(dialog.accept_button, Qt.MouseButton.LeftButton)
    assert (dialog.value, dialog.reason) == (override.value, override.reason)


def test_figure_that_cannot_be_computed_says_what_it_needs(ask) -> None:
    dialog = ask(Figure(FLOW.kind, Missing("Enter the depth.")))
    assert "There is no computed figure. Enter the depth." in [label.text() for label in dialog.findChildren(QLabel)]


def test_escape_puts_it_away(qtbot, ask) -> None:
    dialog = ask(FLOW)
    qtbot.keyClick(dialog.value_row.editor.line, Qt.Key.Key_Escape)
    assert dialog.result() == QDialog.DialogCode.Rejected

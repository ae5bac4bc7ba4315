"""Entering one field: units, arithmetic, what is refused, and the keys."""

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QWidget

from waterpark_designer.gui.entry_widgets import EntryLine, GrowingText
from waterpark_designer.gui.field_editors import (
    ChoiceEditor,
    NumberEditor,
    TextEditor,
    YesNoEditor,
    editor_for,
    resting_text,
)
from waterpark_designer.gui.field_spec import specs_of
from waterpark_designer.model.kinds import AttractionKind, FilterMedium
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import FilterPlan, RecirculationSystem
from waterpark_designer.model.zones import Channel, Zone
from waterpark_designer.units import LENGTH, UnitSystem

US, SI = UnitSystem.US, UnitSystem.SI


@pytest.fixture
def shown(qtbot):
    """Puts an editor in an active window."""

    def show(editor: QWidget) -> QWidget:
        qtbot.addWidget(editor)
        with qtbot.waitExposed(editor):
            editor.show()
        editor.activateWindow()
        qtbot.waitUntil(editor.isActiveWindow)
        return editor

    return show


@pytest.fixture
def width(shown) -> NumberEditor:
    editor = shown(NumberEditor(specs_of(Channel)["width"]))
    editor.show_value(3.048, US)
    return editor


def type_in(qtbot, line: QWidget, text: str, key: Qt.Key = Qt.Key.Key_Return) -> None:
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    qtbot.keyClick(line, key)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12", 12 * 0.3048),
        ("18 in", 18 * 0.0254),
        ("3 x 25 yd", 75 * 0.9144),
        ("2.5 m", 2.5),
        ("6 ft 6 in", 78 * 0.0254),
    ],
)
def test_any_unit_and_arithmetic_is_read(qtbot, width, text, value) -> None:
    """One inch is 25.4 mm, one yard 0.9144 m: international yard and pound agreement, 1959."""
    with qtbot.waitSignal(width.entered) as taken:
        type_in(qtbot, width.line, text)
    assert taken.args[0] == pytest.approx(value)


def test_leaving_the_field_commits_once(qtbot, width) -> None:
    other = EntryLine()
    qtbot.addWidget(other)
    taken: list[float] = []
    width.entered.connect(taken.append)
    width.line.setFocus()
    width.line.selectAll()
    qtbot.keyClicks(width.line, "4 m")
    width.line.clearFocus()
    width.show_value(4.0, US)
    width.line.setFocus()
    width.line.clearFocus()
    assert taken == [4.0]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("abc", "“abc” cannot be read. Type a number in ft, or with its unit."),
        ("0", "Channel width must be more than 0 and at most 16,400 ft."),
        ("-2", "Channel width must be more than 0 and at most 16,400 ft."),
        ("1e9", "Channel width must be more than 0 and at most 16,400 ft."),
        ("1,5", "“1,5” cannot be read. Write decimals with a point, such as 1.5."),
        ("", "Channel width is needed. Channel width must be more than 0 and at most 16,400 ft."),
        ("__import__('os')", "“__import__('os')” cannot be read. Type a number in ft, or with its unit."),
    ],
)
def test_bad_entry_says_what_would_be_right(qtbot, width, text, message) -> None:
    width.line.setFocus()
    with qtbot.assertNotEmitted(width.entered), qtbot.waitSignal(width.refused) as refused:
        width.line.selectAll()
        qtbot.keyClick(width.line, Qt.Key.Key_Delete)
        qtbot.keyClicks(width.line, text)
        qtbot.keyClick(width.line, Qt.Key.Key_Return)
    assert refused.args == [message]


def test_unit_of_another_kind_is_refused(qtbot, width) -> None:
    with qtbot.assertNotEmitted(width.entered), qtbot.waitSignal(width.refused) as refused:
        type_in(qtbot, width.line, "3 gpm")
    assert "3 gpm" in refused.args[0] and "length" in refused.args[0] and " ft" in refused.args[0]


def test_escape_brings_the_last_value_back(qtbot, width) -> None:
    with qtbot.assertNotEmitted(width.entered), qtbot.waitSignal(width.restored):
        type_in(qtbot, width.line, "99", Qt.Key.Key_Escape)
    assert width.line.text() == "10"
    assert not width.pending


def test_unit_stands_beside_the_number_and_follows_the_system(width) -> None:
    assert width.line._unit.text() == "ft"
    width.show_value(3.048, SI)
    assert (width.line.text(), width.line._unit.text()) == ("3.048", "m")


def test_converted_number_rests_rounded_and_is_edited_in_full(qtbot, width) -> None:
    width.line.clearFocus()
    width.show_value(12.0, US)
    assert width.line.text() == "39.37"
    width.line.setFocus()
    assert width.line.text() == "39.37007874"
    with qtbot.assertNotEmitted(width.entered):
        width.line.clearFocus()
    assert width.line.text() == "39.37"


def test_what_was_typed_rests_as_it_was_typed() -> None:
    assert resting_text(30.125 * 0.3048, LENGTH, US) == "30.125"
    assert resting_text(3078.4 * 0.3048, LENGTH, US) == "3,078.4"


def test_undo_key_is_left_to_the_project_unless_something_is_typed(qtbot, width) -> None:
    def wants_undo() -> bool:
        key = QKeyEvent(QEvent.Type.ShortcutOverride, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
        key.ignore()
        QApplication.sendEvent(width.line, key)
        return key.isAccepted()

    width.line.setFocus()
    assert not wants_undo()
    qtbot.keyClicks(width.line, "1")
    assert wants_undo()


def test_blank_of_an_optional_field_is_none_and_says_what_it_means(qtbot, shown) -> None:
    editor = shown(NumberEditor(specs_of(FilterPlan)["count"]))
    editor.show_value(3, US)
    editor.line.setFocus()
    with qtbot.waitSignal(editor.entered) as taken:
        editor.line.selectAll()
        qtbot.keyClick(editor.line, Qt.Key.Key_Backspace)
        qtbot.keyClick(editor.line, Qt.Key.Key_Return)
    assert taken.args == [None]
    assert editor.line.placeholderText() == "computed"


@pytest.mark.parametrize(("text", "value"), [("4", 4), ("2 * 3", 6)])
def test_whole_numbers(qtbot, shown, text, value) -> None:
    editor = shown(NumberEditor(specs_of(FilterPlan)["count"]))
    editor.show_value(None, US)
    with qtbot.waitSignal(editor.entered) as taken:
        type_in(qtbot, editor.line, text)
    assert taken.args == [value] and type(taken.args[0]) is int


@pytest.mark.parametrize("text", ["2.5", "0", "201", "3 ft"])
def test_what_is_no_whole_number_in_range_is_refused(qtbot, shown, text) -> None:
    editor = shown(NumberEditor(specs_of(FilterPlan)["count"]))
    editor.show_value(None, US)
    with qtbot.waitSignal(editor.refused) as refused:
        type_in(qtbot, editor.line, text)
    assert refused.args[0]


def test_long_text_is_refused_with_both_numbers(qtbot, shown) -> None:
    editor = shown(TextEditor(specs_of(Site)["client"]))
    editor.show_value("", US)
    editor.line.setText("x" * 201)
    with qtbot.waitSignal(editor.refused) as refused:
        qtbot.keyClick(editor.line, Qt.Key.Key_Return)
    assert refused.args == ["Client may have 200 characters; this has 201."]


def test_choice_gives_the_member_itself(qtbot, shown) -> None:
    editor = shown(ChoiceEditor(specs_of(FilterPlan)["medium"]))
    editor.show_value(FilterMedium.HIGH_RATE_SAND, US)
    with qtbot.waitSignal(editor.entered) as taken:
        qtbot.keyClick(editor.box, Qt.Key.Key_Down)
    assert taken.args[0] is list(FilterMedium)[1]


def test_optional_choice_has_a_line_for_none(qtbot, shown) -> None:
    editor = shown(ChoiceEditor(specs_of(Zone)["kind"]))
    editor.show_value(AttractionKind.LAP_POOL, US)
    with qtbot.waitSignal(editor.entered) as taken:
        qtbot.keyClick(editor.box, Qt.Key.Key_Home)
        assert editor.box.currentText() == "As the whole body"
    assert taken.args == [None]


def test_mouse_wheel_turns_no_choice(qtbot, shown) -> None:
    from PySide6.QtCore import QPoint, QPointF
    from PySide6.QtGui import QWheelEvent

    editor = shown(ChoiceEditor(specs_of(FilterPlan)["medium"]))
    editor.show_value(FilterMedium.HIGH_RATE_SAND, US)
    turn = QWheelEvent(
        QPointF(5, 5),
        QPointF(5, 5),
        QPoint(0, -120),
        QPoint(0, -120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    with qtbot.assertNotEmitted(editor.entered):
        QApplication.sendEvent(editor.box, turn)
    assert editor.box.currentIndex() == 0


def test_tick_says_yes_or_no(qtbot, shown) -> None:
    editor = shown(YesNoEditor(specs_of(RecirculationSystem)["standby_pump"]))
    editor.show_value(True, US)
    assert editor.tick.text() == "Yes"
    with qtbot.waitSignal(editor.entered) as taken:
        qtbot.keyClick(editor.tick, Qt.Key.Key_Space)
    assert taken.args == [False]
    assert editor.tick.text() == "No"


def test_tooltip_holds_definition_and_range(width) -> None:
    assert "Width of the water surface." in width.line.toolTip()
    assert "Allowed: more than 0 and at most 16,400 ft." in width.line.toolTip()
    assert isinstance(editor_for(width.spec), NumberEditor)


def test_growing_text_grows_and_keeps_one_paragraph(qtbot, shown) -> None:
    text = shown(GrowingText(single=True, most_lines=5))
    text.resize(120, 40)
    text.show_text("River")
    low = text.sizeHint().height()
    with qtbot.waitSignal(text.committed) as taken:
        text.selectAll()
        text.insertPlainText("A long name\nthat takes several lines of this narrow field")
        qtbot.keyClick(text, Qt.Key.Key_Return)
    assert taken.args == ["A long name that takes several lines of this narrow field"]
    assert text.sizeHint().height() > 1.5 * low


def test_what_is_typed_after_an_entry_takes_its_place(qtbot, width) -> None:
    width.entered.connect(lambda value: width.show_value(value, US))
    type_in(qtbot, width.line, "6 m")
    taken: list[float] = []
    width.entered.connect(taken.append)
    qtbot.keyClicks(width.line, "7")
    qtbot.keyClick(width.line, Qt.Key.Key_Return)
    assert taken == [pytest.approx(7 * 0.3048)]

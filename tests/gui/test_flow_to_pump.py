"""A person takes a new system from a flow to its pump with the keyboard alone."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QMenu, QWidget

from waterpark_designer.gui.folding import FoldButton
from waterpark_designer.gui.lay_out_desk import HEAD, PIPES
from waterpark_designer.gui.main_window import MainWindow
from waterpark_designer.gui.pipe_columns import COLUMNS
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import LineKind
from waterpark_designer.units import FLOW, UnitSystem

Key, ALT, CONTROL = Qt.Key, Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier
FOOT, GPM = 0.3048, 231 * 0.0254**3 / 60
"""Metres, and cubic metres a second: exact by definition (NIST SP 811, appendix B.8)."""
MOST_PRESSES = 200
PLACE = {column.field or column.figure: place for place, column in enumerate(COLUMNS)}

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support (raise|grabbing)", extend=True)
"""Menus that open ask this of a screen, and the screen of the tests has none to give."""


class Typist:
    """Keys and nothing else, pressed wherever the keyboard is."""

    def __init__(self, qtbot, window: MainWindow) -> None:
        self.qtbot, self.window = qtbot, window

    @property
    def focus(self) -> QWidget:
        """What has the keyboard; the window is made the active one, as a desktop sees to."""
        if not self.window.isActiveWindow():
            self.window.activateWindow()
            self.qtbot.waitUntil(self.window.isActiveWindow)
        return QApplication.focusWidget() or self.window

    def press(self, key: Qt.Key, modifier=Qt.KeyboardModifier.NoModifier, times: int = 1) -> None:
        for _ in range(times):
            self.qtbot.keyClick(self.focus, key, modifier)
            QApplication.processEvents()  # as between two keys of a person

    def type(self, text: str, leave_by: Qt.Key = Key.Key_Return) -> None:
        """Type over what is there, letter by letter, and leave."""
        for letter in text:
            self.qtbot.keyClicks(self.focus, letter)
        self.press(leave_by)

    def go(self, key: Qt.Key, there: Callable[[], bool]) -> None:
        """Press a key until one is there."""
        for _ in range(MOST_PRESSES):
            if there():
                return
            self.press(key)
        raise AssertionError(f"{key} does not lead there; the keyboard is on {self.focus}")

    def choose(self, words: str) -> None:
        """Choose from the menu of the button that has the keyboard."""

        def pick() -> None:
            menu = QApplication.activePopupWidget()
            if not isinstance(menu, QMenu):
                QTimer.singleShot(0, pick)
                return
            while menu.activeAction() is None or menu.activeAction().text() != words:
                self.qtbot.keyClick(menu, Key.Key_Down)
            self.qtbot.keyClick(menu, Key.Key_Return)

        QTimer.singleShot(0, pick)
        self.press(Key.Key_Space)
        self.qtbot.waitUntil(lambda: QApplication.activePopupWidget() is None)

    def cell(self, column: str) -> None:
        """Go along the row of the pipe table to a column."""
        table = self.window.lay_out.pipes.table
        step = PLACE[column] - table.currentIndex().column()
        self.press(Key.Key_Right if step > 0 else Key.Key_Left, times=abs(step))
        assert table.currentIndex().column() == PLACE[column]


def on_field(name: str, typist: Typist) -> Callable[[], bool]:
    """Whether the keyboard is on a field of the editor."""
    return lambda: typist.focus.parentWidget() is not None and typist.focus.parentWidget().objectName() == name


def on_heading(text: str, typist: Typist) -> Callable[[], bool]:
    return lambda: isinstance(typist.focus, FoldButton) and typist.focus.text() == text


def test_from_a_flow_to_its_pump(qtbot, window) -> None:
    typist = Typist(qtbot, window)
    system = lay_out_a_lap_pool(typist)
    fill_the_pipe_table(typist)
    runs = window.project.site.systems[0].pipe_runs
    assert [run.name for run in runs[-2:]] == ["Heater bypass", "Chiller line"]
    choose_the_pump(typist)
    read_where_it_runs(typist, system)
    steps = window.project.undo_stack.count()
    typist.press(Key.Key_Z, CONTROL)
    assert window.project.undo_stack.index() == steps - 1


def lay_out_a_lap_pool(typist: Typist) -> str:
    """A new site with a lap pool of another length than it starts with; the id of its system."""
    window = typist.window
    typist.press(Key.Key_N, CONTROL)
    typist.go(Key.Key_Tab, lambda: getattr(typist.focus, "text", str)() == "Add body of water")
    typist.choose("Lap pool")
    typist.go(Key.Key_F6, window.lay_out.panel.name.hasFocus)
    typist.go(Key.Key_Tab, on_field("shape.length", typist))
    typist.press(Key.Key_A, CONTROL)
    typist.type("25 m")
    pool = window.project.site.systems[0].attractions[0]
    assert pool.zones[0].shape.length == 25.0
    return window.project.site.systems[0].id


def fill_the_pipe_table(typist: Typist) -> None:
    """Lengths and fittings of some runs, in units and arithmetic; two more from a spreadsheet."""
    window = typist.window
    typist.press(Key.Key_2, ALT)
    assert window.lay_out.view == PIPES
    assert typist.focus is window.lay_out.pipes.table
    typist.cell("length")
    for text in ("85", "3 x 30 ft", "6 m"):
        typist.type(text)
    runs = window.project.site.systems[0].pipe_runs
    assert [run.length for run in runs[:3]] == pytest.approx([85 * FOOT, 90 * FOOT, 6.0])
    assert [run.assumed for run in runs[:4]] == [False, False, False, True]
    typist.cell("elbows_90")
    typist.type("5", leave_by=Key.Key_Tab)
    typist.type("2")
    discharge = window.project.site.systems[0].pipe_runs[3]
    assert (discharge.elbows_90, discharge.elbows_45) == (5, 2)
    typist.cell("name")
    typist.go(Key.Key_Down, lambda: window.lay_out.pipes.table.run is None)
    rows = ("Heater bypass\tPump discharge\t12\t1\t30\tPVC Sch 80\t4", "Chiller line\tReturn header\t40 ft\t1\t30")
    QGuiApplication.clipboard().setText("\n".join(rows))
    typist.press(Key.Key_V, CONTROL)
    bypass: PipeRun = window.project.site.systems[0].pipe_runs[-2]
    assert (bypass.kind, bypass.size, bypass.flow_share) == (LineKind.PUMP_DISCHARGE, "4", pytest.approx(0.3))


def choose_the_pump(typist: Typist) -> None:
    """A supplier's curve, point by point."""
    window = typist.window
    typist.press(Key.Key_F6)
    typist.press(Key.Key_Up)
    assert window.project.selected is window.project.site.systems[0]
    typist.press(Key.Key_3, ALT)
    assert window.lay_out.view == HEAD
    typist.go(Key.Key_F6, window.lay_out.panel.name.hasFocus)
    typist.go(Key.Key_Tab, on_heading("Recirculation pump", typist))
    typist.press(Key.Key_Return)
    typist.go(Key.Key_Tab, lambda: typist.focus.accessibleName() == "Table of points")
    for flow in ("0", "400", "600", "800"):
        typist.type(flow)
    typist.press(Key.Key_Up, times=4)
    typist.press(Key.Key_Right)
    for head in ("110", "100", "84", "55"):
        typist.type(head)
    curve = window.project.site.systems[0].pump.curve
    assert [point.flow / GPM for point in curve] == pytest.approx([0, 400, 600, 800])
    assert [point.head / FOOT for point in curve] == pytest.approx([110, 100, 84, 55])


def read_where_it_runs(typist: Typist, system: str) -> None:
    """Duty and operating points stand on screen, and the pump runs on the curve that was typed."""
    head, curves = typist.window.lay_out.head, typist.window.project.design.curves[system]
    lines = {line.words: line for line in head.table.rows.items}
    assert lines["Operating flow, dirty filters"].number == FLOW.text(curves.at_dirty.flow, UnitSystem.US)
    assert float(lines["Duty head"].number) > float(lines["Total head, clean filters"].number)
    assert [mark.word for mark in head.chart.drawing.marks] == ["duty", "runs, dirty", "runs, clean"]
    flow, feet = curves.at_clean.flow / GPM, curves.at_clean.head / FOOT
    known = ((0, 110), (400, 100), (600, 84), (800, 55))
    below, above = next(pair for pair in zip(known, known[1:], strict=False) if pair[0][0] <= flow <= pair[1][0])
    assert above[1] <= feet <= below[1]

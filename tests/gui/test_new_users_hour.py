"""The first hour with the program: from an empty site to printed schedules and a file that opens as it was saved.

Everything is done with keys and clicks; only the system's file dialogs are answered for the user.
"""

from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import load_workbook
from pypdf import PdfReader
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QLineEdit, QMenu, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.worked import Missing
from waterpark_designer.gui.code_basis_page import CodeBasisPage
from waterpark_designer.gui.comparison_columns import COLUMNS
from waterpark_designer.gui.field_editors import FieldEditor
from waterpark_designer.gui.folding import FoldButton
from waterpark_designer.gui.main_window import MainWindow
from waterpark_designer.gui.override_dialog import OverrideDialog
from waterpark_designer.gui.start_page import FileEntry
from waterpark_designer.model.walk import find, walk

FOOT = 0.3048
"""Metres. Exact by definition: NIST SP 811 (2008), appendix B.8; so is the US gallon of 231 cubic inches."""
GALLON = 231 * 0.0254**3
LEFT, CONTROL, ALT = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier
SHIFT, Key = Qt.KeyboardModifier.ShiftModifier, Qt.Key

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support (raise|grabbing)", extend=True)
"""Menus that open ask this of a screen, and the screen of the tests has none to give."""


class User:
    """Keys and clicks, and nothing else, on the program's window."""

    def __init__(self, qtbot: QtBot, window: MainWindow) -> None:
        self.qtbot, self.window = qtbot, window

    @property
    def project(self):
        return self.window.project

    @property
    def design(self) -> SiteDesign:
        return self.project.design

    def click(self, widget: QWidget, at: QPoint | None = None) -> None:
        self.activate(widget.window())
        self.qtbot.mouseClick(widget, LEFT, pos=at or widget.rect().center())

    def activate(self, window: QWidget) -> None:
        """Make the active window of the one that is used, as a desktop sees to."""
        if not window.isActiveWindow():
            window.activateWindow()
            self.qtbot.waitUntil(window.isActiveWindow)

    def press(self, key: Qt.Key, modifier=Qt.KeyboardModifier.NoModifier) -> None:
        """Press keys in the main window."""
        self.activate(self.window)
        self.qtbot.keyClick(self.window.focusWidget() or self.window, key, modifier)

    def write(self, line: QLineEdit, text: str, leave_by: Qt.Key = Key.Key_Return) -> None:
        """Type over what stands in a line."""
        self.click(line)
        self.qtbot.keyClick(line, Key.Key_A, CONTROL)
        self.qtbot.keyClicks(line, text)
        self.qtbot.keyClick(line, leave_by)

    def opening(self, start: Callable[[], None], act: Callable[[QWidget], None]) -> None:
        """Start what opens a menu or a dialog, and act in it; it is put away where that fails."""
        failed: list[BaseException] = []
        done: list[bool] = []

        def run() -> None:
            shown = QApplication.activePopupWidget() or QApplication.activeModalWidget()
            if shown is None:
                QTimer.singleShot(0, run)
                return
            try:
                if isinstance(shown, QDialog):
                    self.qtbot.waitUntil(shown.isActiveWindow)
                act(shown)
            except BaseException as error:
                failed.append(error)
                shown.close()
            done.append(True)

        QTimer.singleShot(0, run)
        start()
        self.qtbot.waitUntil(lambda: bool(done))
        if failed:
            raise failed[0]

    def choose(self, button: QPushButton, words: str) -> None:
        """Choose an entry of the menu that a button opens, with the arrow keys."""

        def pick(menu: QWidget) -> None:
            assert isinstance(menu, QMenu)
            assert any(words in action.text() for action in menu.actions())
            while menu.activeAction() is None or words not in menu.activeAction().text():
                self.qtbot.keyClick(menu, Key.Key_Down)
            self.qtbot.keyClick(menu, Key.Key_Return)

        self.opening(lambda: self.click(button), pick)

    def select(self, node: str) -> None:
        """Click a part in the tree."""
        tree = self.window.lay_out.tree
        index = tree.tree_model.index_of(node)
        tree.scrollTo(index)
        self.click(tree.viewport(), tree.visualRect(index).center())
        assert self.project.selection == node

    def field(self, name: str) -> FieldEditor:
        """The editor of a field of the selected part."""
        editors = self.window.lay_out.panel.findChildren(FieldEditor, name)
        return next(editor for editor in editors if editor.isVisible())

    def enter(self, name: str, text: str) -> None:
        """Type a value into a field of the selected part."""
        with self.qtbot.waitSignal(self.project.design_changed):
            self.write(self.field(name).line, text)

    def add_body(self, kind: str, feature: str) -> str:
        """Add a body of water and a feature on it; the id of the body. The feature stays selected."""
        body_button, feature_button, _ = self.window.lay_out.add_buttons
        self.choose(body_button, kind)
        body = self.project.selection
        self.choose(feature_button, feature)
        assert find(self.project.site, body).features[-1].id == self.project.selection
        return body

    def size(self, node: str, key: str) -> float:
        value = self.design.value(node, key)
        assert not isinstance(value, Missing), value.needs
        return float(value)

    def not_met(self) -> list[Finding]:
        return [finding for finding in self.design.findings if finding.status is Status.NOT_MET]


@pytest.fixture
def user(qtbot: QtBot, window: MainWindow) -> User:
    return User(qtbot, window)


def figures(design: SiteDesign) -> dict[tuple[str, str], object]:
    """Every figure of every part: its number or what it needs, what was computed, and what was set by hand."""

    def read(value: object) -> object:
        return value.needs if isinstance(value, Missing) else value if value is None else float(value)

    return {
        (node, key): (read(figure.value), read(figure.computed), figure.override)
        for node, sheet in design.sheets.items()
        for key, figure in sheet.figures.items()
    }


def test_from_an_empty_site_to_schedules_and_a_file(
    user: User, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    river, pad, lap = lay_out_three_bodies(user)
    change_code_basis(user)
    put_salt_in(user)
    break_and_mend_turnover(user, lap)
    choose_secondary_disinfection(user, pad)
    assert user.not_met() == []
    set_by_hand(user, river)
    undo_and_redo(user)
    export_schedules(user, tmp_path, monkeypatch)
    save_and_come_back(user, tmp_path / "otter-bend.waterpark", monkeypatch)


def lay_out_three_bodies(user: User) -> tuple[str, str, str]:
    """Three bodies of water, each with a feature; sizes and flows typed in whatever unit they are given in."""
    user.click(user.window.start_page.findChild(QPushButton, "new"))
    river = user.add_body("Lazy river", "Current jets")
    user.enter("flow_each", "60 L/s")
    jets = user.project.selection
    pad = user.add_body("Splash pad", "Spray group")
    user.enter("count", "24")
    user.enter("flow_each", "2 m3/h")
    sprays = user.project.selection
    lap = user.add_body("Lap pool", "Bubbler")
    user.enter("flow_each", "50 gal/min")
    user.select(river)
    for field, text in (("length", "180 m"), ("width", "12 ft"), ("depth", "42 in")):
        user.enter(f"shape.{field}", text)
    user.select(pad)
    user.enter("shape.area", "150 m2")
    user.enter("shape.tank_volume", "4000 gal")
    user.select(lap)
    user.enter("shape.length", "25 m")
    user.enter("shape.width", "60 ft")
    jets_count = find(user.project.site, jets).count
    assert user.size(river, "surface_area") == pytest.approx(180 * 12 * FOOT)
    assert user.size(river, "volume") == pytest.approx(180 * 12 * FOOT * 3.5 * FOOT)
    assert user.size(pad, "volume") == pytest.approx(4000 * GALLON)
    assert user.size(lap, "surface_area") == pytest.approx(25 * 60 * FOOT)
    assert user.size(jets, "feature_flow") == pytest.approx(jets_count * 0.060)
    assert user.size(sprays, "feature_flow") == pytest.approx(24 * 2 / 3600)
    return river, pad, lap


def change_code_basis(user: User) -> None:
    """Put the local rule before the model code."""

    def act(page: QWidget) -> None:
        assert isinstance(page, CodeBasisPage)
        order = page.order
        user.choose(order.add_button, "Georgia Rules")
        added = order.list.item(order.list.count() - 1)
        assert "Georgia" in added.text()
        user.click(order.list.viewport(), order.list.visualItemRect(added).center())
        for _ in range(order.list.count() - 1):
            user.qtbot.keyClick(order.list, Key.Key_Up, ALT)
        user.click(next(button for button in page.findChildren(QPushButton) if button.text() == "Close"))

    user.opening(lambda: user.click(user.window.header.code_basis), act)
    assert user.project.site.code_basis[0] == "georgia-511-3-5-2024"
    assert "Georgia" in user.window.header.code_basis.text()


def put_salt_in(user: User) -> None:
    """Type the target salinity of all three in the comparison table, going down with Enter."""
    table = user.window.lay_out.table
    place = next(number for number, column in enumerate(COLUMNS) if column.field == "target_salinity")
    first = table.comparison.index(0, place)
    table.scrollTo(first)
    user.click(table.viewport(), table.visualRect(first).center())
    for _ in range(3):
        with user.qtbot.waitSignal(user.project.design_changed):
            for letter in "3.2 g/L":
                user.qtbot.keyClicks(QApplication.focusWidget(), letter)
            user.qtbot.keyClick(QApplication.focusWidget(), Key.Key_Return)
    bodies = [body for system in user.project.site.systems for body in system.attractions]
    assert [body.target_salinity for body in bodies] == pytest.approx([3.2, 3.2, 3.2])
    assert all(user.size(body.id, "salt_bags") > 0 for body in bodies)


def break_and_mend_turnover(user: User, lap: str) -> None:
    """Settle on too small a pump, see from the checks where it fails, and take the flow back."""
    system = next(system for system in user.project.site.systems if lap in [body.id for body in system.attractions])
    user.select(system.id)
    user.enter("fixed_flow", "300 gpm")
    failed = next(finding for finding in user.not_met() if finding.figure == "turnover_time")
    assert failed.node == lap
    user.click(user.window.band.checks)
    checks = user.window.checks.panel
    assert checks.status is Status.NOT_MET
    row = next(number for number, item in enumerate(checks.table.rows.items) if item == failed)
    index = checks.table.rows.index(row, 1)
    checks.table.scrollTo(index)
    user.click(checks.table.viewport(), checks.table.visualRect(index).center())
    user.qtbot.keyClick(checks.table, Key.Key_Return)
    assert user.project.selection == lap
    assert user.window.lay_out.panel.figures.rows["turnover_time"].is_open
    user.select(system.id)
    user.enter("fixed_flow", "600 gpm")
    assert not any(finding.figure == "turnover_time" for finding in user.not_met())
    assert failed not in checks.table.rows.items
    user.click(next(button for button in user.window.checks.findChildren(QPushButton) if button.text() == "Close"))


def choose_secondary_disinfection(user: User, pad: str) -> None:
    """Ultraviolet treatment for the splash pad, chosen with the keyboard."""
    system = next(system for system in user.project.site.systems if pad in [body.id for body in system.attractions])
    assert "Secondary disinfection" in [finding.title for finding in user.not_met()]
    user.select(system.id)
    folds = user.window.lay_out.panel.findChildren(FoldButton)
    user.click(next(fold for fold in folds if fold.text() == "Secondary disinfection" and fold.isVisible()))
    box = user.field("secondary.kind").box
    with user.qtbot.waitSignal(user.project.design_changed):
        user.qtbot.keyClicks(box, "U")
    assert box.currentText() == find(user.project.site, system.id).secondary.kind.label


def set_by_hand(user: User, river: str) -> None:
    """Set the river's least flow by hand, and say why."""
    user.select(river)
    row = user.window.lay_out.panel.figures.rows["least_flow"]
    user.click(row.mark)

    def act(dialog: QWidget) -> None:
        assert isinstance(dialog, OverrideDialog)
        user.click(dialog.accept_button)
        assert dialog.isVisible() and not dialog.value_row.error.isHidden()
        user.write(dialog.value_row.editor.line, "0.13 m3/s", Key.Key_Tab)
        user.write(dialog.reason_row.editor.line, "Health department, letter of 3 May", Key.Key_Tab)
        user.click(dialog.accept_button)

    with user.qtbot.waitSignal(user.project.design_changed):
        user.opening(lambda: user.click(row.card.override_button), act)
    assert user.size(river, "least_flow") == pytest.approx(0.13)
    assert "letter of 3 May" in row.below.text()


def undo_and_redo(user: User) -> None:
    """Three steps back and forth, by keys."""
    now, site = figures(user.design), user.project.site
    for _ in range(3):
        user.press(Key.Key_Z, CONTROL)
    assert user.project.site != site
    for _ in range(3):
        user.press(Key.Key_Z, CONTROL | SHIFT)
    assert user.project.site == site
    assert figures(user.design) == now


def export_schedules(user: User, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every form of both schedules, with what was typed in them."""
    user.press(Key.Key_2, CONTROL)
    desk = user.window.schedule
    for page, name in ((0, "equipment"), (1, "salt")):
        index = desk.pages.model().index(page, 0)
        user.click(desk.pages.viewport(), desk.pages.visualRect(index).center())
        for suffix, button in desk.export_buttons.items():
            path = folder / f"{name}.{suffix}"
            monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_, path=path: (str(path), ""))
            with user.qtbot.waitSignal(desk.exports.exported, timeout=15000):
                user.click(button)
        for text in (printed(folder / f"{name}.pdf"), table(folder / f"{name}.xlsx"), plain(folder / f"{name}.csv")):
            for system in user.project.site.systems:
                assert system.name in text
    tags = {line.tag for line in user.design.equipment}
    assert [tag for tag in tags if tag not in plain(folder / "equipment.csv")] == [] and tags
    assert "Lap pool" in plain(folder / "salt.csv")


def printed(path: Path) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(path).pages)


def table(path: Path) -> str:
    book = load_workbook(path)
    return " ".join(str(cell) for sheet in book for row in sheet.iter_rows(values_only=True) for cell in row if cell)


def plain(path: Path) -> str:
    return path.read_text(encoding="utf-8-sig")


def save_and_come_back(user: User, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Save, close, open the file from the start page, and find everything as it was."""
    monkeypatch.setattr(QFileDialog, "exec", lambda _dialog: 1)
    monkeypatch.setattr(QFileDialog, "selectedFiles", lambda _dialog: [str(path)])
    with user.qtbot.waitSignal(user.project.file_changed):
        user.press(Key.Key_S, CONTROL)
    assert path.is_file() and not user.window.isWindowModified()
    before, names = figures(user.design), [node.name for node in walk(user.project.site)]
    user.press(Key.Key_W, CONTROL)
    assert user.project is None
    entry = next(entry for entry in user.window.start_page.findChildren(FileEntry) if entry.path == path)
    with user.qtbot.waitSignal(user.window.files.project_opened):
        user.click(entry)
    assert [node.name for node in walk(user.project.site)] == names
    assert figures(user.design) == before
    assert len(before) > 100

"""The window: header, the three desks or the start page, and the totals, held together by the open project.

The start page needs no model, engine or documents; what does is imported where it is used, so that the window
is there before they are loaded.
"""

import gc
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Qt
from PySide6.QtGui import QCloseEvent, QKeyEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QMenu, QStackedWidget, QVBoxLayout, QWidget

from waterpark_designer.gui.actions import Actions
from waterpark_designer.gui.entry_in_hand import edit_text, finish_typing
from waterpark_designer.gui.full_screen import FullScreen
from waterpark_designer.gui.header_bar import HeaderBar
from waterpark_designer.gui.notice import Notice
from waterpark_designer.gui.recent_files import RecentFiles
from waterpark_designer.gui.start_page import StartPage
from waterpark_designer.gui.theme import Choice, apply_theme, dress
from waterpark_designer.gui.window_actions import DESK_ACTIONS, connect_actions, give_keys, offer_kinds
from waterpark_designer.gui.window_state import WindowState

if TYPE_CHECKING:
    from waterpark_designer.gui.desks import ChecksDialog, LayOutDesk, ReviewDesk, ScheduleDesk, TotalsBand
    from waterpark_designer.gui.open_project import OpenProject
    from waterpark_designer.gui.project_files import ProjectFiles
    from waterpark_designer.library import Library

LAY_OUT, SCHEDULE, REVIEW = range(3)
LEAST_SIZE = (960, 600)


class MainWindow(QMainWindow):
    """One window with one project at a time; every edit goes through that project.

    `library` gives the rule sets and sizes; it is called when the first file is wanted.
    """

    def __init__(
        self, library: "Callable[[], Library]", samples: list[Path], settings: QSettings, recovery_folder: Path
    ) -> None:
        super().__init__()
        self.setObjectName("main")
        self.setMinimumSize(*LEAST_SIZE)
        dress(self)
        self._samples = samples
        self.state = WindowState(settings)
        self.actions_of = Actions(self)
        self.actions_of.fill(self.menuBar())
        self.addAction(self.actions_of["full_screen"])  # its key works while the menu bar is hidden
        self._library, self._settings, self._recovery_folder = library, settings, recovery_folder
        self._files: ProjectFiles | None = None
        self.recent = RecentFiles(settings)
        self.header = HeaderBar()
        self.start_page = StartPage(samples, self.recent.paths())
        self.lay_out: LayOutDesk | None = None
        self.schedule: ScheduleDesk | None = None
        self.review: ReviewDesk | None = None
        self.band: TotalsBand | None = None
        self.checks: ChecksDialog | None = None
        self._pages = QStackedWidget()
        self.full_screen = FullScreen(self, lambda: (self.menuBar(), self.header, self.band))
        self._desk_before = LAY_OUT
        self._column = self._build()
        self.notice = Notice(self._pages)
        self._connect()
        self._show_start_page()
        self.state.restore_window(self)

    @property
    def files(self) -> "ProjectFiles":
        """The open project and its file; made when first wanted, and model and engine loaded with it."""
        if self._files is None:
            from waterpark_designer.gui.project_files import ProjectFiles

            self._files = ProjectFiles(self, self._library(), self._settings, self._recovery_folder)
            self._files.project_opened.connect(self._show_project)
            self._files.project_closed.connect(self._show_start_page)
            self._files.recent_changed.connect(self._fill_recent)
            self._files.message.connect(self.notice.tell)
        return self._files

    @property
    def project(self) -> "OpenProject | None":
        return self._files.project if self._files else None

    @property
    def desk(self) -> int:
        """Number of the desk on screen."""
        return max(0, self._pages.currentIndex() - 1)

    def show_desk(self, desk: int) -> None:
        """Go to a desk of the open project."""
        if self.project is not None:
            self._pages.setCurrentIndex(desk + 1)
            self.header.show_desk(desk)
            self.actions_of[DESK_ACTIONS[desk]].setChecked(True)

    def change_units(self) -> None:
        """Show the whole site in the other units; an edit like any other."""
        self._finish_typing()
        if self.project is not None:
            from waterpark_designer.model.edits import revise
            from waterpark_designer.units import UnitSystem

            site = self.project.site
            other = UnitSystem.SI if site.units is UnitSystem.US else UnitSystem.US
            self.project.edit(f"Show {other.label}", revise(site, site.id, units=other))

    def show_checks(self) -> None:
        """Open the checks beside the window; they stay open and follow every edit."""
        if self.project is not None:
            if self.checks is None:
                from waterpark_designer.gui.desks import ChecksDialog

                self.checks = ChecksDialog(self.project, self)
                self.checks.panel.figure_requested.connect(self.show_figure)
            self.checks.bring_up()

    def show_figure(self, node: str, figure: str) -> None:
        """Go to a figure of a node on the Lay out desk."""
        self.show_desk(LAY_OUT)
        if self.lay_out is not None:
            self.lay_out.show_figure(node, figure)

    def show_view(self, view: int) -> None:
        """Go to all bodies of water, or the pipes or the pump of the selected loop, on the Lay out desk."""
        if self.lay_out is not None:
            self.show_desk(LAY_OUT)
            self.lay_out.show_view(view)

    def show_code_basis(self) -> None:
        """Open every limit in force."""
        self._finish_typing()
        if self.project is not None:
            from waterpark_designer.gui.code_basis_page import CodeBasisPage

            page = CodeBasisPage(self.project, self)
            page.exec()
            page.deleteLater()

    def show_catalogue(self) -> None:
        """Open the nominal sizes that the design chooses from."""
        self._finish_typing()
        if self.project is not None:
            from waterpark_designer.gui.catalogue_dialog import CatalogueDialog

            dialog = CatalogueDialog(self.project, self)
            dialog.exec()
            dialog.deleteLater()

    def toggle_full_screen(self) -> None:
        """The client's page on the whole screen, or back to the desk that was there before."""
        if self.full_screen.on:
            self.full_screen.leave()
            self.show_desk(self._desk_before)
        elif self.project is not None:
            self._desk_before = self.desk
            self.show_desk(REVIEW)
            self.full_screen.enter()

    def command(self, name: str, *arguments: object) -> None:
        """Do something to the text being typed, or else to the selected part, on the Lay out desk where it is seen."""
        if self.lay_out is not None and not edit_text(self, name):
            self._finish_typing()
            self.show_desk(LAY_OUT)
            getattr(self.lay_out.commands, name)(*arguments)

    def rename(self) -> None:
        """Edit the name of the selected part in the tree."""
        if self.lay_out is not None:
            self.show_desk(LAY_OUT)
            self.lay_out.tree.rename()

    def find_part(self) -> None:
        """Look for a part of the site."""
        if self.lay_out is not None:
            self.show_desk(LAY_OUT)
            self.lay_out.find_bar.open_bar()

    def go_to_part(self, step: int) -> None:
        """Give the keyboard to the next pane of the Lay out desk (1), or to the one before (-1)."""
        if self.lay_out is not None:
            self.show_desk(LAY_OUT)
            self.lay_out.focus_part(step)

    def undo(self) -> None:
        """Take the last step back."""
        self._finish_typing()
        if self.project is not None:
            self.project.undo_stack.undo()

    def redo(self) -> None:
        """Do again what was taken back."""
        self._finish_typing()
        if self.project is not None:
            self.project.undo_stack.redo()

    def show_preview(self) -> None:
        """Show the schedule on screen, or the complete set, as it is printed."""
        if self.schedule is not None:
            self._finish_typing()
            on_schedule = self.desk == SCHEDULE
            self.schedule.exports.preview(self.schedule.page.document if on_schedule else "all")

    def choose_theme(self, choice: Choice) -> None:
        """Wear a theme, and again at the next start."""
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        self.state.keep_theme(choice)
        apply_theme(app, choice)

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802
        self._finish_typing()
        if self.full_screen.on:
            self.toggle_full_screen()
        self._keep_state()
        event.setAccepted(self._files is None or self._files.close())

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if event.key() == Qt.Key.Key_Escape and self.full_screen.on:
            self.toggle_full_screen()
        else:
            super().keyPressEvent(event)

    # Building

    def _build(self) -> QVBoxLayout:
        holder = QWidget()
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.header)
        column.addWidget(self._pages, 1)
        self._pages.addWidget(self.start_page)
        self.setCentralWidget(holder)
        return column

    def _connect(self) -> None:
        self.start_page.new_wanted.connect(lambda: self.files.new())
        self.start_page.open_wanted.connect(lambda: self.files.open())
        self.start_page.file_chosen.connect(lambda path: self.files.open(path))
        self.header.desk_wanted.connect(self.show_desk)
        self.header.units_wanted.connect(self.change_units)
        self.header.code_basis_wanted.connect(self.show_code_basis)
        connect_actions(self.actions_of, self)
        self.actions_of[self.state.theme()].setChecked(True)
        self._fill_file_menus()

    # Projects coming and going

    def _show_project(self, project: "OpenProject") -> None:
        from waterpark_designer.gui.desks import LayOutDesk, ReviewDesk, ScheduleDesk, TotalsBand

        self.lay_out, self.schedule, self.review = LayOutDesk(project), ScheduleDesk(project), ReviewDesk(project)
        for desk in (self.lay_out, self.schedule, self.review):
            self._pages.addWidget(desk)
        self.band = TotalsBand(project)
        self.band.checks_wanted.connect(self.show_checks)
        self._column.addWidget(self.band)
        self.lay_out.refused.connect(self.notice.tell)
        self.lay_out.code_basis_requested.connect(self.show_code_basis)
        offer_kinds(self.actions_of, self)
        give_keys(self.actions_of, self.lay_out)
        self._fill_export_menu(self.schedule)
        self.actions_of.enable(True)
        self._follow(project)
        if not self.state.restore_panes(self.lay_out.splitter):
            self.lay_out.part_panes(self.width())
        self.header.show()
        self.show_desk(self.state.desk())
        self.lay_out.tree.setFocus()
        # The site is large and stays: left out of the collector's rounds, these take no time while editing.
        gc.freeze()

    def _show_start_page(self) -> None:
        """Take the desks of the closed project down, and offer what can be opened."""
        self._keep_state()
        gc.unfreeze()
        for widget in (self.checks, self.band, self.lay_out, self.schedule, self.review):
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self.checks = self.band = self.lay_out = self.schedule = self.review = None
        self.actions_of.enable(False)
        self.header.hide()
        self._pages.setCurrentIndex(0)
        self._say_undo()
        self.setWindowTitle("Waterpark Designer")
        self.setWindowModified(False)

    def _follow(self, project: "OpenProject") -> None:
        project.design_changed.connect(lambda _before, _now: self._say_state())
        project.file_changed.connect(self._say_state)
        project.undo_stack.indexChanged.connect(lambda _index: self._say_undo())
        self._say_state()
        self._say_undo()

    def _say_state(self) -> None:
        if self.project is not None:
            self.header.show_project(self.project)
            self.setWindowTitle(f"{self.project.site.name}[*] · Waterpark Designer")
            self.setWindowModified(self.files.unsaved)

    def _say_undo(self) -> None:
        stack = self.project.undo_stack if self.project else None
        for key, can, text in (
            ("undo", bool(stack and stack.canUndo()), stack.undoText() if stack else ""),
            ("redo", bool(stack and stack.canRedo()), stack.redoText() if stack else ""),
        ):
            action = self.actions_of[key]
            action.setEnabled(can)
            action.setText(f"&{key.capitalize()} {text.replace('&', '&&')}".rstrip())
        if stack is not None:
            self._say_state()

    # Menus that depend on files and documents

    def _fill_file_menus(self) -> None:
        for path in self._samples:
            self._offer(self.actions_of.menus["samples"], path)
        self.actions_of.menus["samples"].setEnabled(bool(self._samples))
        self._fill_recent()

    def _fill_recent(self) -> None:
        menu, recent = self.actions_of.menus["recent"], self.recent.paths()
        menu.clear()
        for path in recent:
            self._offer(menu, path)
        menu.setEnabled(bool(recent))
        self.start_page.show_recent(recent)

    def _offer(self, menu: QMenu, path: Path) -> None:
        action = menu.addAction(path.stem.replace("&", "&&"))
        action.setToolTip(str(path))
        action.triggered.connect(lambda _on=False: self.files.open(path))

    def _fill_export_menu(self, schedule: "ScheduleDesk") -> None:
        menu = self.actions_of.menus["export"]
        menu.clear()
        made = schedule.exports.menu(menu)
        for action in made.actions():
            menu.addAction(action)
        schedule.exports.exported.connect(lambda path: self.notice.tell(f"{path.name} is saved in {path.parent}."))

    def _finish_typing(self) -> None:
        """Take what is typed and not taken yet, also while another window has the keyboard."""
        finish_typing(self)
        if self.lay_out is not None:
            self.lay_out.panel.commit()

    def _keep_state(self) -> None:
        if self.lay_out is not None:
            self.state.keep(self, self.lay_out.splitter, self.desk)

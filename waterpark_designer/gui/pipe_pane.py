"""The pipe runs of the selected loop in a table of their own, with the working of the run one is on."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.worked import Missing
from waterpark_designer.gui.entry_widgets import words
from waterpark_designer.gui.figures_panel import FiguresPanel
from waterpark_designer.gui.flow_layout import FlowLayout
from waterpark_designer.gui.loops import NO_LOOP, Loop, idle_words, loop_of, runs_words
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.pipe_table import PipeTable
from waterpark_designer.gui.short_label import ShortLabel
from waterpark_designer.gui.theme import role
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.walk import find

WORKING_WIDTH = 330
HINT = (
    "Enter goes down, Tab goes on. Delete on a name takes the run out, Insert adds one, Alt with Up or Down moves it. "
    "A blank size has the smallest chosen that keeps to the velocity limit; it stands in brackets."
)


class PipePane(QWidget):
    """Follows the selection of the project; every edit is one step of its history."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self.title = ShortLabel("subheading")
        self.state = words("", "dim")
        self.note = words("", "caution")
        self.hint = words(HINT, "dim")
        self.table = PipeTable(project)
        self.add_button = _button("Add run", "Puts a run before the one you are on (Insert).")
        self.remove_button = _button("Remove run", "Takes the runs out in which something is selected.")
        self.up_button = _button("Move up", "Moves the run up in flow order (Alt+Up).")
        self.down_button = _button("Move down", "Moves the run down in flow order (Alt+Down).")
        self.starting_button = role(QPushButton("Put in the starting set"), "primary")
        self.starting_button.setToolTip("Ten runs of common practice, each marked as assumed, to be replaced by yours.")
        self.working_button = _button("Show working", "The figures of the run you are on, and how each is worked.")
        self.working_button.setCheckable(True)
        self.working_title = ShortLabel("subheading")
        self.figures = FiguresPanel(project)
        self.working = _Working(self.working_title, self.figures)
        self._lay_out()
        self._connect(project)

    def show_loop(self) -> None:
        """Show the runs of the loop that is selected."""
        loop = loop_of(self._project.site, self._project.selection)
        if loop is None or self.table.pipes.loop is None or loop.id != self.table.pipes.loop.id:
            self.table.pipes.show_loop(loop)
        self._describe(loop)
        self._show_run(self.table.run)

    def show_run(self, run: str) -> None:
        """Go to a run, with the keyboard on it."""
        self.show_loop()
        self.table.go_to(run)
        self.table.setFocus()

    def show_figure(self, run: str, figure: str) -> None:
        """Go to a run and open the working of one of its figures."""
        self.show_run(run)
        self.working_button.setChecked(True)
        row = self.figures.open_figure(figure)
        if row is not None:
            self.working.ensureWidgetVisible(row)

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802
        super().showEvent(event)
        self.show_loop()

    def _lay_out(self) -> None:
        buttons = QWidget()
        flow = FlowLayout(buttons)
        for button in (
            self.add_button,
            self.remove_button,
            self.up_button,
            self.down_button,
            self.working_button,
            self.starting_button,
        ):
            flow.addWidget(button)
        self.working.hide()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(7)
        above: tuple[QWidget, ...] = (self.title, self.state, self.note)
        middle = QHBoxLayout()
        middle.setSpacing(14)
        middle.addWidget(self.table, 1)
        middle.addWidget(self.working)
        for widget in above:
            column.addWidget(widget)
        column.addWidget(buttons)
        column.addLayout(middle, 1)
        column.addWidget(self.hint)

    def _connect(self, project: OpenProject) -> None:
        self.table.current_run.connect(self._show_run)
        self.working_button.toggled.connect(self._open_working)
        self.add_button.clicked.connect(self._add)
        self.remove_button.clicked.connect(lambda: self.table.pipes.remove(self.table.chosen_rows()))
        self.up_button.clicked.connect(lambda: self.table.shift(-1))
        self.down_button.clicked.connect(lambda: self.table.shift(1))
        self.starting_button.clicked.connect(self._put_starting_set)
        project.selection_changed.connect(lambda _node: self._follow())
        project.design_changed.connect(lambda _before, _now: self._follow())

    def _follow(self) -> None:
        if self.isVisible():
            self.show_loop()

    def _describe(self, loop: Loop | None) -> None:
        has_runs = bool(loop and loop.pipe_runs)
        self.title.show_text(loop.name if loop else "")
        self.state.setText(loop_words(self._project.design, loop) if loop else NO_LOOP)
        note = idle_words(loop) if loop else ""
        self.note.setText(note)
        self.note.setVisible(bool(note))
        self.starting_button.setVisible(loop is not None and not has_runs)
        always: tuple[QWidget, ...] = (self.title, self.table, self.add_button)
        with_runs: tuple[QWidget, ...] = (
            self.remove_button,
            self.up_button,
            self.down_button,
            self.working_button,
            self.hint,
        )
        for widget in always:
            widget.setVisible(loop is not None)
        for widget in with_runs:
            widget.setVisible(has_runs)
        self.working.setVisible(has_runs and self.working_button.isChecked())

    def _open_working(self, is_open: bool) -> None:
        self.working.setVisible(is_open)
        self._show_run(self.table.run)

    def _show_run(self, run: PipeRun | None) -> None:
        shown = find(self._project.site, run.id) if run else None
        sheet = self._project.design.sheets.get(run.id) if run else None
        self.working_title.show_text(shown.name if shown else "Go to a run to see its figures.")
        self.figures.setVisible(sheet is not None)
        if shown is not None and sheet is not None and self.working_button.isChecked():
            self.figures.show_sheet(shown, sheet, self._project.units)

    def _add(self) -> None:
        self.table.insert()
        self.table.setFocus()

    def _put_starting_set(self) -> None:
        self.table.pipes.put_starting_set()
        self.table.go_to(self.table.pipes.runs[0].id)
        self.table.setFocus()


class _Working(QScrollArea):
    """The figures of a run, beside the table."""

    def __init__(self, *inside: QWidget) -> None:
        super().__init__()
        holder = QWidget()
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 8, 0)
        for widget in inside:
            column.addWidget(widget)
        column.addStretch(1)
        self.setWidget(holder)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFixedWidth(WORKING_WIDTH)


def loop_words(design: SiteDesign, loop: Loop) -> str:
    """The runs in short, and the head they take together."""
    figure = design.sheets[loop.id].figures.get("pipe_loss")
    words_of_runs = runs_words(loop)
    if figure is None or isinstance(figure.value, Missing):
        return f"{words_of_runs}."
    loss = figure.kind.measure.phrase(figure.value, design.site.units)
    return f"{words_of_runs}. Those in the pump's head take {loss} at design flow."


def _button(text: str, tooltip: str) -> QPushButton:
    button = role(QPushButton(text), "chip")
    button.setToolTip(tooltip)
    return button

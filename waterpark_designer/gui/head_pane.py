"""The head of the selected loop's pump, line by line, with its curve beside it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QHBoxLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.worked import Missing
from waterpark_designer.gui.curve_chart import CurveChart
from waterpark_designer.gui.entry_widgets import words
from waterpark_designer.gui.head_lines import HeadLine, head_lines
from waterpark_designer.gui.jet_chart import JetChart, jet_drawing
from waterpark_designer.gui.loops import NO_LOOP, Loop, idle_words, loop_of
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.paper_rows import Column, RowsModel, RowStyle
from waterpark_designer.gui.short_label import ShortLabel
from waterpark_designer.gui.theme import role
from waterpark_designer.gui.wrapped_table import WrappedTable
from waterpark_designer.model.features import Feature

COLUMNS = (Column("Head of the pump", 1, 120), Column("", 0, 74, number=True), Column("", 0, 46))
WIDE = 640
HIGHEST_CHART, LEAST_LINES = 520, 170
JET_CAUTION = (
    "⚠ Jets draw much water through few suction openings. Nobody may be held at one: rate every cover for its flow "
    "with one opening blocked, keep them out of reach of swimmers, and follow the local code."
)
NO_RUNS = "Put in pipe runs to see the head, and the pump that gives it."


class HeadPane(QWidget):
    """Follows the selection and every edit; a line that is activated leads to its working."""

    figure_requested = Signal(str, str)
    """(node id, figure key) of the line that was activated."""
    pipes_wanted = Signal()

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self.title = ShortLabel("subheading")
        self.note = words("", "caution")
        self.table = WrappedTable(RowsModel(COLUMNS, HeadLine.row, _key, lambda line: bool(line.figure)), self)
        self.table.setAccessibleName("Head of the pump, line by line")
        self.table.header().hide()
        self.chart = CurveChart()
        self.jets = JetChart()
        self.jet_words = words("", "dim")
        self.jet_caution = words(JET_CAUTION, "caution")
        self.pipes_button = role(QPushButton("Open pipe runs"), "chip")
        self._halves = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._lay_out()
        self.table.activated_row.connect(lambda line: self.figure_requested.emit(line.node, line.figure))
        self.pipes_button.clicked.connect(self.pipes_wanted)
        project.selection_changed.connect(lambda _node: self._follow())
        project.design_changed.connect(lambda _before, _now: self._follow())

    def show_loop(self) -> None:
        """Show the head of the loop that is selected."""
        design = self._project.design
        loop = loop_of(design.site, self._project.selection)
        self.title.show_text(loop.name if loop else NO_LOOP)
        note = idle_words(loop) if loop else ""
        self.note.setText(note)
        self.note.setVisible(bool(note))
        lines = head_lines(design, loop) if loop else []
        self.table.show_items(lines)
        self.table.setVisible(bool(lines))
        self.pipes_button.setVisible(loop is not None)
        self.chart.show_curves(
            design.curves.get(loop.id) if loop else None, missing_words(design, loop), design.site.units
        )
        self._show_jets(design, loop)

    def _show_jets(self, design: SiteDesign, loop: Loop | None) -> None:
        is_river = isinstance(loop, Feature) and loop.current_speed is not None
        drawing = None
        if isinstance(loop, Feature) and is_river:
            drawing = jet_drawing(loop, design.sheets[loop.id], design.site.units)
            thrust = design.sheets[loop.id]["jet_thrust"]
            lack = thrust.needs if isinstance(thrust, Missing) else ""
            self.jet_words.setText(drawing.sentence if drawing else lack)
        self.jets.show_drawing(drawing)
        self.jets.setVisible(drawing is not None)
        for widget in (self.jet_words, self.jet_caution):
            widget.setVisible(is_river)

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802
        super().showEvent(event)
        self.show_loop()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        """Lines and chart stand side by side where there is room, otherwise the chart comes first."""
        super().resizeEvent(event)
        wide = self.width() >= WIDE
        self._halves.setDirection(QBoxLayout.Direction.LeftToRight if wide else QBoxLayout.Direction.BottomToTop)

    def _lay_out(self) -> None:
        right = QVBoxLayout()
        right.setSpacing(6)
        right.addWidget(self.chart, 3)
        right.addWidget(self.jets, 2)
        right.addWidget(self.jet_words)
        right.addWidget(self.jet_caution)
        self.chart.setMaximumHeight(HIGHEST_CHART)
        right.addStretch(1)
        self.table.setMinimumHeight(LEAST_LINES)
        self._halves.setSpacing(14)
        self._halves.setContentsMargins(0, 0, 0, 0)
        self._halves.addWidget(self.table, 5)
        self._halves.addLayout(right, 6)
        top = QHBoxLayout()
        top.addWidget(self.title, 1)
        top.addWidget(self.pipes_button, 0, Qt.AlignmentFlag.AlignRight)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addLayout(top)
        column.addWidget(self.note)
        column.addWidget(_scrolling(self._halves), 1)

    def _follow(self) -> None:
        if self.isVisible():
            self.show_loop()


def _scrolling(halves: QBoxLayout) -> QScrollArea:
    """Lines and charts, which scroll where the window is low."""
    holder = QWidget()
    holder.setLayout(halves)
    area = QScrollArea()
    area.setWidget(holder)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    return area


def missing_words(design: SiteDesign, loop: Loop | None) -> str:
    """What is missing before a curve can be drawn."""
    if loop is None:
        return NO_LOOP
    if idle_words(loop):
        return idle_words(loop)
    if not loop.pipe_runs:
        return NO_RUNS
    value = design.sheets[loop.id]["operating_flow_clean"]
    return f"No curve can be drawn yet. {value.needs}" if isinstance(value, Missing) else ""


def _key(line: HeadLine) -> tuple[str, str, str, RowStyle]:
    return line.node, line.figure, line.words, line.style

"""What is entered of a pump: its plan, and the points of its curve."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.engine.findings import Status
from waterpark_designer.gui.curve_table import CurveTable
from waterpark_designer.gui.entry_widgets import words
from waterpark_designer.gui.field_spec import specs_of
from waterpark_designer.gui.loops import Loop, idle_words, runs_words
from waterpark_designer.gui.numbers_model import Numbers
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.property_editor import Place, PropertySection, subject_of, try_edit
from waterpark_designer.gui.theme import role
from waterpark_designer.model.edits import revise
from waterpark_designer.model.hydraulics import CurvePoint, PumpPlan
from waterpark_designer.model.node import Node
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import find
from waterpark_designer.units import UnitSystem

CURVE_WORDS = "From the supplier, one pump alone. Left empty, a generic curve goes through the duty."


class PumpSection(QWidget):
    """The pump of a system or of a feature."""

    def __init__(
        self, project: OpenProject, plan: str, fields: Sequence[str] = (), parent: QWidget | None = None
    ) -> None:
        """`plan` is the field that holds the pump, `fields` are further ones of the system it belongs to."""
        super().__init__(parent)
        self.project, self.plan = project, plan
        self._node = ""
        self.parts = [PropertySection(project, PumpPlan, Place(plan), tuple(specs_of(PumpPlan)))]
        if fields:
            self.parts.insert(0, PropertySection(project, RecirculationSystem, Place(), fields))
        self.curve = CurveTable()
        self.curve.entered.connect(self._write)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        heading = role(QLabel("Pump curve"), "subheading")
        heading.setBuddy(self.curve)
        for widget in (*self.parts, heading, words(CURVE_WORDS, "dim"), self.curve):
            column.addWidget(widget)

    def show_node(self, node: Node, units: UnitSystem) -> None:
        """Show the pump of a node."""
        afresh = node.id != self._node
        self._node = node.id
        for part in self.parts:
            part.show_node(node, units)
        points = getattr(node, self.plan).curve
        self.curve.show_rows(((point.flow, point.head) for point in points), units, afresh=afresh)

    def commit(self) -> None:
        """Take what is typed and not taken yet."""
        for part in self.parts:
            part.commit()

    def _write(self, rows: tuple[Numbers, ...]) -> None:
        node: Any = find(self.project.site, self._node)
        if node is None:
            return
        points = tuple(CurvePoint(flow=flow, head=head) for flow, head in sorted(rows))
        changes = Place(self.plan).changes
        problem = try_edit(
            self.project,
            f"Change pump curve of {subject_of(self.project.site, node)}",
            lambda site: revise(site, node.id, **changes(node, curve=points)),
        )
        if problem:
            self.curve.say(problem)


class RunsSection(QWidget):
    """The pipe runs in short, and the way to their table."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self._node = ""
        self.state = words("", "dim")
        self.note = words("", "caution")
        self.checks = words("", "error")
        self.open_button = QPushButton("Open pipe runs")
        self.open_button.setToolTip("Opens the table of pipe runs (Alt+2).")
        self.open_button.clicked.connect(lambda: project.run_wanted.emit(self._node))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        for widget in (self.state, self.note, self.checks, self.open_button):
            column.addWidget(widget)

    def show_node(self, node: Node, units: UnitSystem) -> None:
        """Say what there is of a node."""
        assert isinstance(node, Loop)
        self._node = node.id
        note = idle_words(node)
        self.state.setText(f"{runs_words(node)}.")
        self.note.setText(note)
        self.note.setVisible(bool(note))
        self._say_of_checks(node)

    def _say_of_checks(self, loop: Loop) -> None:
        """Which runs have a check that is not met."""
        sheets, mark = self._project.design.sheets, Status.NOT_MET.mark
        failing = [
            run.name
            for run in loop.pipe_runs
            if (sheet := sheets.get(run.id)) and any(finding.status is Status.NOT_MET for finding in sheet.findings)
        ]
        self.checks.setText(f"{mark} A check is not met at: {', '.join(failing)}.")
        self.checks.setVisible(bool(failing))

    def commit(self) -> None:
        """Nothing is typed here."""

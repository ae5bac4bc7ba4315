"""The figures of a node: values, states, notes, overrides, and the way to the working."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QPushButton

from waterpark_designer.engine.figure_kinds import FIGURE_KINDS, Discipline
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, leaf, least
from waterpark_designer.gui.figure_row import note_of
from waterpark_designer.gui.figures_panel import FiguresPanel, finding_text, state_of
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.model.edits import revise, revise_plan, set_override
from waterpark_designer.model.node import Node
from waterpark_designer.model.walk import find, walk
from waterpark_designer.sources import ARITHMETIC, Provenance, Source
from waterpark_designer.units import FILTER_RATE, GALLON, HOURS, MINUTE, UnitSystem

FLOW = 1200 * GALLON / MINUTE


def named(project: OpenProject, name: str) -> Node:
    return next(node for node in walk(project.site) if node.name == name)


@pytest.fixture
def show(qtbot, project):
    """Shows the figures of a node, and keeps them in step with the project."""

    def shown(name: str) -> FiguresPanel:
        node = named(project, name)
        panel = FiguresPanel(project)
        qtbot.addWidget(panel)

        def follow() -> None:
            panel.show_sheet(find(project.site, node.id), project.design.sheets[node.id], project.units)

        follow()
        project.design_changed.connect(lambda _before, _now: follow())
        panel.resize(300, 1200)
        with qtbot.waitExposed(panel):
            panel.show()
        panel.activateWindow()
        qtbot.waitUntil(panel.isActiveWindow)
        return panel

    return shown


def test_shows_every_figure_of_the_sheet_with_its_unit(project, show) -> None:
    panel = show("Lazy river")
    sheet = project.design.sheets[named(project, "Lazy river").id]
    assert panel.rows.keys() == sheet.figures.keys()
    volume = panel.rows["volume"]
    assert volume.value.text() == FIGURE_KINDS["volume"].measure.text(sheet["volume"], UnitSystem.US)
    assert volume.unit.text() == "gal"
    assert FIGURE_KINDS["volume"].definition in volume.toolTip()


def test_money_stands_in_the_projects_currency(project, show) -> None:
    panel = show("System 1")
    assert panel.rows["energy_cost"].unit.text() == "$"
    project.edit("Currency", revise(project.site, project.site.id, currency="€"))
    assert panel.rows["energy_cost"].unit.text() == "€"


def test_rows_stand_in_the_order_of_the_disciplines(project, show) -> None:
    panel = show("System 1")
    shown = [key for key, row in panel.rows.items() if not FIGURE_KINDS[key].minor and row.isVisible()]
    by_height = sorted(shown, key=lambda key: panel.rows[key].mapTo(panel, panel.rows[key].rect().topLeft()).y())
    disciplines = list(Discipline)
    in_order = sorted(FIGURE_KINDS, key=lambda key: disciplines.index(FIGURE_KINDS[key].discipline))
    assert by_height == [key for key in in_order if key in shown]


def test_edit_changes_the_texts_of_the_same_rows(project, show) -> None:
    panel = show("System 1")
    row = panel.rows["design_flow"]
    before = row.value.text()
    project.edit("More margin", revise(project.site, named(project, "System 1").id, design_margin=0.5))
    assert panel.rows["design_flow"] is row
    assert float(row.value.text().replace(",", "")) > float(before.replace(",", ""))


def test_units_change_texts(project, show) -> None:
    panel = show("Lazy river")
    project.edit("SI", revise(project.site, project.site.id, units=UnitSystem.SI))
    assert panel.rows["volume"].unit.text() == "m³"


def test_minor_figures_fold_away_under_how_many_there_are(qtbot, show) -> None:
    panel = show("System 1")
    group = panel.groups[Discipline.TURNOVER]
    minor = [row for key, row in group.rows.items() if FIGURE_KINDS[key].minor]
    assert minor and not any(row.isVisible() for row in minor)
    assert group.more.text() == f"{len(minor)} more"
    qtbot.keyClick(group.more, Qt.Key.Key_Return)
    assert all(row.isVisible() for row in minor)


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Space])
def test_working_opens_by_key_and_by_click(qtbot, show, key) -> None:
    row = show("Lazy river").rows["volume"]
    qtbot.keyClick(row.mark, key)
    qtbot.waitUntil(row.card.isVisible)
    qtbot.mouseClick(row.label, Qt.MouseButton.LeftButton)
    assert row.card is None


def test_open_working_follows_an_edit_and_stays_open_to_its_depth(project, show) -> None:
    panel = show("Lazy river")
    row = panel.open_figure("least_flow_by_time")
    row.card.view.inputs[0].set_open(True)
    before = row.card.view.inputs[0].below.working.result
    zone = named(project, "Lazy river").zones[0]
    project.edit("Wider", revise_plan(project.site, zone.id, "shape", width=2 * zone.shape.width))
    assert row.card.view.inputs[0].is_open
    assert row.card.view.inputs[0].below.working.result != before


def test_missing_figure_is_a_dash_with_what_it_needs(qtbot, project, show) -> None:
    site = project.site.revised(code_basis=())
    project.edit("No code", site)
    panel = show("Lazy river")
    row = panel.rows["longest_turnover"]
    assert row.value.text() == "—"
    assert row.unit.text() == ""
    assert "code basis is silent" in row.below.text()
    waiting = panel.rows["least_flow_by_time"]
    assert waiting.below.text() == "Waits for longest turnover allowed."
    waiting.set_open(True)
    assert waiting.card.view is None
    qtbot.waitUntil(waiting.card.override_button.isVisible)
    assert not waiting.card.copy_button.isVisible()


def test_set_by_hand_and_back_again(qtbot, project, show, monkeypatch) -> None:
    panel = show("System 1")
    monkeypatch.setattr(panel, "ask_override", lambda figure, owner: (FLOW, "Pump is there already"))
    row = panel.open_figure("least_flow")
    qtbot.mouseClick(row.card.override_button, Qt.MouseButton.LeftButton)
    assert row.value.text() == "1,200"
    assert row.below.text() == "set by hand: Pump is there already"
    assert project.undo_stack.undoText() == "Set least recirculation flow of System 1 by hand"
    qtbot.mouseClick(row.card.computed_button, Qt.MouseButton.LeftButton)
    assert row.below.isHidden()
    assert named(project, "System 1").overrides == ()
    project.undo_stack.undo()
    assert row.value.text() == "1,200"


def test_question_put_away_changes_nothing(qtbot, project, show, monkeypatch) -> None:
    panel = show("System 1")
    monkeypatch.setattr(panel, "ask_override", lambda figure, owner: None)
    row = panel.open_figure("least_flow")
    qtbot.mouseClick(row.card.override_button, Qt.MouseButton.LeftButton)
    assert project.undo_stack.count() == 0


def test_working_of_an_override_still_opens_the_computed_one(project, show) -> None:
    system = named(project, "System 1")
    project.edit("By hand", set_override(project.site, system.id, "design_flow", FLOW, "Pump is there"))
    row = show("System 1").open_figure("design_flow")
    computed = row.card.view.inputs[0]
    assert computed.line.name == "Computed"
    computed.set_open(True)
    assert computed.below.working.equation


def test_override_that_applies_no_more_can_be_cleared(qtbot, project, show) -> None:
    river = named(project, "Lazy river")
    project.edit("By hand", set_override(project.site, river.id, "precoat_charge", 5.0, "Left over"))
    panel = show("Lazy river")
    assert panel.checks.isVisible()
    wanted = "Clear “Precoat medium, one charge”"
    button = next(each for each in panel.findChildren(QPushButton) if each.text() == wanted)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert named(project, "Lazy river").overrides == ()


def test_menu_does_what_the_buttons_do(qtbot, show, monkeypatch) -> None:
    panel = show("Lazy river")
    monkeypatch.setattr(panel, "ask_override", lambda figure, owner: None)
    row = panel.rows["volume"]
    actions = {action.text(): action for action in row.menu().actions() if action.text()}
    assert list(actions) == ["Set by hand…", "Use computed figure", "Open working", "Copy working"]
    assert not actions["Use computed figure"].isEnabled()
    actions["Open working"].trigger()
    assert row.is_open
    with qtbot.waitSignal(row.override_requested) as asked:
        actions["Set by hand…"].trigger()
    assert asked.args == ["volume"]


def test_copy_working_puts_plain_text_on_the_clipboard(qtbot, show) -> None:
    row = show("Lazy river").rows["least_flow_by_time"]
    row.set_open(True)
    qtbot.mouseClick(row.card.copy_button, Qt.MouseButton.LeftButton)
    lines = QGuiApplication.clipboard().text().splitlines()
    assert lines[0] == "Least flow by turnover time of Lazy river"
    assert "Q = V / T" in lines
    row.set_open(False)
    QGuiApplication.clipboard().clear()
    row.copy()
    assert QGuiApplication.clipboard().text().splitlines() == lines


def test_group_tells_the_state_of_its_checks_in_words(project, show) -> None:
    panel = show("Lazy river")
    assert panel.groups[Discipline.TURNOVER].state.text() == "✓ within limit"
    system = named(project, "System 1")
    project.edit("By hand", set_override(project.site, system.id, "filter_rate", 0.02, "To see it fail"))
    other = show("System 1").groups[Discipline.FILTRATION]
    assert other.state.text() == "✗ 1 not met"
    spoken = [label.text() for label in other._findings if label.isVisible()]
    assert any(text.startswith("✗ Filter rate: ") for text in spoken)
    assert not any("set by hand" in text for text in spoken), "the row says so already"


def finding(status: Status, **more) -> Finding:
    return Finding("n", "k", "Filter rate", status, **more)


@pytest.mark.parametrize(
    ("statuses", "words"),
    [
        ([Status.MET, Status.NOT_MET, Status.NOT_MET, Status.CAUTION], "✗ 2 not met"),
        ([Status.MET, Status.CAUTION], "⚠ 1 to look at"),
        ([Status.MET, Status.UNKNOWN, Status.SILENT], "? cannot tell yet"),
        ([Status.MET, Status.SILENT], "✓ within limit"),
        ([Status.SILENT], "– code silent"),
        ([], ""),
    ],
)
def test_worst_check_speaks(statuses, words) -> None:
    assert state_of([finding(status) for status in statuses])[0] == words


def test_finding_is_a_sentence_with_value_and_limit() -> None:
    """20 gpm/ft² against 15 gpm/ft²; the unit does not break at the end of a line."""
    per_area = FILTER_RATE.us.factor
    limit = leaf(15 * per_area, "Limit", YOUR_ENTRY, measure=FILTER_RATE)
    text = finding_text(
        finding(
            Status.NOT_MET,
            value=20 * per_area,
            limit=limit,
            measure=FILTER_RATE,
            sense="at most",
            remedy="Add a filter.",
        ),
        UnitSystem.US,
    )
    assert text.replace("\u00a0", " ").replace("\u2060", "") == (
        "✗ Filter rate: 20.0 gpm/ft², at most 15.0 gpm/ft². Add a filter."
    )


def test_value_from_memory_is_marked_also_where_it_was_chosen_among_others() -> None:
    memory = leaf(7200.0, "Limit", Source("Invented code", Provenance.MEMORY), measure=HOURS)
    kind = FIGURE_KINDS["longest_turnover"]
    assert note_of(Figure(kind, memory)) == ("from memory, confirm", "caution")
    chosen = least("Longest turnover", [("River", memory)], HOURS, ARITHMETIC)
    assert note_of(Figure(kind, chosen))[0] == "from memory, confirm"
    assert note_of(Figure(kind, leaf(7200.0, "Limit", YOUR_ENTRY))) == ("", "dim")
    assert note_of(Figure(kind, Missing("Enter the depth."))) == ("Enter the depth.", "dim")

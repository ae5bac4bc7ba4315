"""Pipe runs as rows: what is read, what is entered, what is refused; each change one step."""

import pytest
from PySide6.QtCore import Qt

from waterpark_designer.gui.pipe_columns import COLUMNS
from waterpark_designer.gui.pipe_model import MOST_RUNS, NEW_ROW, PipeModel
from waterpark_designer.model.edits import revise
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import LineKind, PipeStandard
from waterpark_designer.units import UnitSystem

FOOT = 0.3048
"""Metres, exact: NIST SP 811, appendix B.8."""
PLACE = {column.field or column.figure: place for place, column in enumerate(COLUMNS)}
EDIT = Qt.ItemDataRole.EditRole


@pytest.fixture
def model(qtbot, project, qtmodeltester) -> PipeModel:
    made = PipeModel(project)
    made.show_loop(project.site.systems[1])
    made.told = []
    made.refused.connect(lambda index, text: made.told.append((index.row(), index.column(), text)))
    return made


def runs(project) -> tuple[PipeRun, ...]:
    return project.site.systems[1].pipe_runs


def enter(model: PipeModel, row: int, field: str, text) -> bool:
    return model.setData(model.index(row, PLACE[field]), text)


def text(model: PipeModel, row: int, column: str) -> str:
    return model.index(row, PLACE[column]).data()


def test_model_keeps_qts_rules(model, qtmodeltester) -> None:
    qtmodeltester.check(model)


def test_rows_are_the_runs_in_flow_order_with_one_to_add(project, model) -> None:
    shown = [text(model, row, "name") for row in range(model.rowCount())]
    assert shown == [*(run.name for run in runs(project)), NEW_ROW]


def test_blank_size_shows_the_chosen_one_in_brackets(project, model) -> None:
    chosen = text(model, 4, "size")
    assert chosen.startswith("(") and chosen.endswith(")")
    assert model.index(4, PLACE["size"]).data(EDIT) == ""
    enter(model, 4, "size", chosen.strip("()"))
    assert runs(project)[4].size == chosen.strip("()") == text(model, 4, "size")


def test_what_is_entered_is_no_longer_assumed(project, model) -> None:
    assert enter(model, 4, "length", "18 ft")
    assert runs(project)[4].length == pytest.approx(18 * FOOT)
    assert not runs(project)[4].assumed
    assert runs(project)[5].assumed
    assert project.undo_stack.undoText() == "Change length of Pump discharge, System 2"
    project.undo_stack.undo()
    assert runs(project)[4].assumed


def test_a_new_name_measures_nothing(project, model) -> None:
    enter(model, 4, "name", "Riser")
    assert runs(project)[4].name == "Riser" and runs(project)[4].assumed


def test_same_value_again_is_no_step(project, model) -> None:
    before = project.undo_stack.count()
    enter(model, 4, "length", model.index(4, PLACE["length"]).data(EDIT))
    assert project.undo_stack.count() == before


@pytest.mark.parametrize(
    ("field", "typed", "told"),
    [
        ("length", "long", "“long” cannot be read. Type a number in ft, or with its unit."),
        ("length", "-1", "Length must be at least 0 and at most 16,400 ft."),
        ("elbows_90", "1.5", "Type a whole number from 0 to 500."),
        ("name", " ", "A name needs between 1 and 200 letters."),
        ("kind", "canal", "“canal” is none of: Gutter drain, "),
    ],
)
def test_bad_entry_is_told_beside_its_cell_and_changes_nothing(project, model, field, typed, told) -> None:
    before = project.site
    assert not enter(model, 4, field, typed)
    ((row, column, message),) = model.told
    assert (row, column) == (4, PLACE[field])
    assert message.startswith(told)
    assert project.site is before


def test_size_that_the_standard_has_not_is_refused_with_those_it_has(model) -> None:
    """ASTM D1785 has no nominal size of 7 inches in PVC; 6 and 8 are."""
    enter(model, 4, "size", "7")
    assert "PVC Sch 40 has these sizes" in model.told[0][2]
    assert " 6, 8, " in model.told[0][2]


@pytest.mark.parametrize("typed", ["6", "6 in", '6"'])
def test_size_may_carry_its_unit(project, model, typed) -> None:
    enter(model, 4, "size", typed)
    assert runs(project)[4].size == "6"


def test_velocity_over_the_limit_bears_a_mark_and_words(model) -> None:
    enter(model, 4, "size", "2")
    assert text(model, 4, "velocity").startswith("✗ ")
    tip = model.index(4, PLACE["velocity"]).data(Qt.ItemDataRole.ToolTipRole)
    assert "not met" in tip and "Choose a larger pipe" in tip


def test_a_line_with_a_head_shows_what_it_carries(project, model) -> None:
    place = next(row for row, run in enumerate(runs(project)) if run.kind is LineKind.GUTTER)
    assert text(model, place, "available_head") == text(model, place, "gravity_capacity") == ""
    enter(model, place, "available_head", "18 in")
    assert runs(project)[place].available_head == pytest.approx(1.5 * FOOT)
    assert text(model, place, "available_head") == "1.5"
    assert float(text(model, place, "gravity_capacity").replace(",", "")) > 0
    enter(model, place, "available_head", "1 mm")
    assert text(model, place, "gravity_capacity").startswith("✗ ")
    model.empty([(place, PLACE["available_head"])])
    assert runs(project)[place].available_head is None
    assert text(model, place, "gravity_capacity") == ""


def test_units_change_entries_and_headings(project, model) -> None:
    project.edit("SI", revise(project.site, project.site.id, units=UnitSystem.SI))
    assert text(model, 4, "length") == "6.1"  # the 20 ft it started with
    assert model.headerData(PLACE["length"], Qt.Orientation.Horizontal) == "Length\nm"


def test_pasted_rows_are_one_step_and_add_what_is_more(project, model) -> None:
    count, steps = len(runs(project)), project.undo_stack.count()
    block = [
        ["Bypass", "Pump discharge", "40", "2", "25", "PVC Sch 80", "3", "", "4"],
        ["Riser", "return header", "12 m", "1", "25%", "hdpe_17", ""],
    ]
    assert model.put(block, count, 0) == ""
    bypass, riser = runs(project)[count:]
    assert (bypass.kind, bypass.count, bypass.standard, bypass.size) == (
        LineKind.PUMP_DISCHARGE,
        2,
        PipeStandard.PVC_80,
        "3",
    )
    assert bypass.elbows_90 == 4, "computed columns are passed over"
    assert (riser.length, riser.flow_share, riser.standard) == (12.0, 0.25, PipeStandard.HDPE_17)
    assert not bypass.assumed and not riser.assumed
    assert project.undo_stack.count() == steps + 1


def test_headings_say_where_pasted_columns_go(project, model) -> None:
    model.put([["Elbows 90°", "Loss ft", "Length ft"], ["7", "99", "33"]], 4, 0)
    assert (runs(project)[4].elbows_90, runs(project)[4].length) == (7, pytest.approx(33 * FOOT))
    assert runs(project)[4].name == "Pump discharge"


def test_pasted_cell_at_fault_keeps_its_value_and_the_others_are_taken(project, model) -> None:
    model.put([["21", "two"], ["22", "3"]], 4, PLACE["length"])
    assert [run.length for run in runs(project)[4:6]] == pytest.approx([21 * FOOT, 22 * FOOT])
    assert [run.count for run in runs(project)[4:6]] == [1, 3]
    ((row, column, message),) = model.told
    assert (row, column) == (4, PLACE["count"]) and "“two”" in message


def test_typing_below_the_last_row_adds_a_run_of_the_kind_above(project, model) -> None:
    last = runs(project)[-1]
    enter(model, len(runs(project)), "name", "Drain to waste")
    assert runs(project)[-1].name == "Drain to waste"
    assert runs(project)[-1].kind is last.kind


def test_emptied_cells_go_back_to_none_or_chosen(project, model) -> None:
    enter(model, 4, "size", "6")
    model.empty([(4, PLACE["size"]), (4, PLACE["elbows_90"])])
    assert (runs(project)[4].size, runs(project)[4].elbows_90) == ("", 0)
    model.empty([(4, PLACE["length"])])
    assert model.told[-1][2].startswith("This cannot be left empty")


def test_runs_are_added_moved_and_removed_in_flow_order(project, model) -> None:
    names = [run.name for run in runs(project)]
    model.add(1)
    assert [run.name for run in runs(project)] == [names[0], "Run 11", *names[1:]]
    assert model.shift(1, -1) == 0
    assert runs(project)[0].name == "Run 11"
    assert model.shift(0, -1) == 0, "the first goes no further"
    model.remove([0, 1])
    assert [run.name for run in runs(project)] == names[1:]
    assert project.undo_stack.undoText() == "Remove 2 pipe runs, System 2"


def test_starting_set_is_assumed_and_new(project, model) -> None:
    model.remove(range(len(runs(project))))
    assert runs(project) == ()
    model.put_starting_set()
    assert len(runs(project)) == 10
    assert all(run.assumed for run in runs(project))
    others = {run.id for system in project.site.systems for run in system.pipe_runs}
    assert len(others) == 10 * len(project.site.systems)


def test_no_more_runs_than_a_loop_holds(project, model) -> None:
    before = project.site
    assert "At most 100" in model.put([[f"Run {number}"] for number in range(MOST_RUNS)], len(runs(project)), 0)
    assert project.site is before


def test_loop_that_goes_leaves_an_empty_table(project, model) -> None:
    from waterpark_designer.model.edits import remove

    project.edit("Delete", remove(project.site, project.site.systems[1].id))
    assert model.rowCount() == 0
    project.undo_stack.undo()


def test_branches_typed_in_the_table_divide_the_flow(project, model) -> None:
    rows = [row for row, run in enumerate(runs(project)) if run.in_pump_head][:2]
    before = [text(model, row, "run_flow") for row in rows]
    for row in rows:
        assert enter(model, row, "branch", " North ")
    assert [runs(project)[row].branch for row in rows] == ["North", "North"]
    flows = [float(text(model, row, "run_flow").strip("✗⚠* ").replace(",", "")) for row in rows]
    assert sum(flows) == pytest.approx(float(before[0].strip("✗⚠* ").replace(",", "")), rel=0.01)
    assert project.undo_stack.undoText() == f"Change branch of {runs(project)[rows[1]].name}, System 2"
    model.empty([(row, PLACE["branch"]) for row in rows])
    assert [text(model, row, "run_flow") for row in rows] == before


def test_a_branch_is_a_short_word(project, model) -> None:
    assert not enter(model, 4, "branch", "x" * 21)
    assert "at most 20 letters" in model.told[0][2] and runs(project)[4].branch == ""

"""The working of a number on screen, to any depth."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton

from waterpark_designer.engine.formulas.turnover import turnover_flow
from waterpark_designer.engine.worked import YOUR_ENTRY, leaf, total
from waterpark_designer.gui.working_view import MOST_INPUTS, WorkingView, source_text
from waterpark_designer.sources import ARITHMETIC, Provenance, Source
from waterpark_designer.units import FLOW, GALLON, HOUR, HOURS, VOLUME, UnitSystem

US, SI = UnitSystem.US, UnitSystem.SI
LIMIT = Source("An invented code, 4.7", Provenance.MEMORY)


@pytest.fixture
def flow():
    """120,000 gal in 2 h: 1,000 gpm, by arithmetic."""
    shallow = leaf(40_000 * GALLON, "Shallow end", YOUR_ENTRY, measure=VOLUME)
    deep = leaf(80_000 * GALLON, "Deep end", YOUR_ENTRY, measure=VOLUME)
    volume = total("Volume of both", [("Shallow end", shallow), ("Deep end", deep)], VOLUME, ARITHMETIC)
    return turnover_flow(volume, leaf(2 * HOUR, "Turnover time, at most", LIMIT, "For rivers.", HOURS))


@pytest.fixture
def view(qtbot, flow) -> WorkingView:
    made = WorkingView(flow, FLOW, US)
    qtbot.addWidget(made)
    made.resize(280, 400)
    with qtbot.waitExposed(made):
        made.show()
    return made


def shown_texts(view: WorkingView) -> list[str]:
    return [label.text() for label in view.findChildren(QLabel) if label.isVisible()]


def test_shows_equation_numbers_result_and_source(view) -> None:
    texts = shown_texts(view)
    assert texts[:3] == ["Q = V / T", "= 120,000 gal / 2.00 h", "= 1,000 gpm"]
    assert "V = volume" in texts and "120,000 gal" in texts
    assert "Definition of turnover time: volume over flow · definition" in texts


def test_value_from_memory_says_so_where_it_is_put_in(view) -> None:
    limit = next(text for text in shown_texts(view) if "invented code" in text)
    assert limit == "Turnover time, at most. An invented code, 4.7 · from memory, confirm. For rivers."
    label = next(each for each in view.findChildren(QLabel) if each.text() == limit)
    assert label.property("role") == "caution"


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space])
def test_number_put_in_opens_in_place_by_key(qtbot, view, key) -> None:
    row = view.inputs[0]
    row.mark.setFocus()
    qtbot.keyClick(row.mark, key)
    assert row.below.isVisible()
    assert "= 40,000 gal + 80,000 gal" in shown_texts(row.below)
    qtbot.keyClick(row.mark, key)
    assert not row.below.isVisible()


def test_entry_and_limit_have_nothing_to_open(view) -> None:
    row = view.inputs[1]
    assert row.mark.isHidden()
    row.set_open(True)
    assert row.below is None


def test_open_ways_are_kept_over_another_working(qtbot, view, flow) -> None:
    view.inputs[0].set_open(True)
    paths = view.open_paths()
    assert paths == {(0,)}
    again = WorkingView(flow, FLOW, SI)
    qtbot.addWidget(again)
    again.reopen(paths)
    assert again.inputs[0].is_open
    assert again.inputs[0].below.working.result == "454.2 m³"


def test_plain_text_holds_what_is_open(view) -> None:
    closed = view.text()
    assert closed.splitlines() == [
        "Turnover flow",
        "Q = V / T",
        "= 120,000 gal / 2.00 h",
        "= 1,000 gpm",
        "V = volume: 120,000 gal (Volume of both)",
        "T = turnover time: 2.00 h (Turnover time, at most. An invented code, 4.7 · from memory, confirm)",
        "Source: Definition of turnover time: volume over flow · definition",
    ]
    view.inputs[0].set_open(True)
    assert "    Shallow end: 40,000 gal (Entered in the project)" in view.text().splitlines()


def test_sum_of_very_many_parts_is_shown_in_two_goes(qtbot) -> None:
    parts = [(f"Body {number}", leaf(1.0, f"Body {number}", YOUR_ENTRY, measure=VOLUME)) for number in range(100)]
    view = WorkingView(total("All", parts, VOLUME, ARITHMETIC), VOLUME, SI)
    qtbot.addWidget(view)
    view.show()
    assert len(view.inputs) == MOST_INPUTS
    assert not any(" + " in text for text in shown_texts(view))
    button = view.findChild(QPushButton)
    assert button.text() == "Show 60 more"
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert len(view.inputs) == 100
    assert button.isHidden()


def test_caution_of_the_formula_stands_below(qtbot) -> None:
    from waterpark_designer.engine.worked import formula
    from waterpark_designer.units import Length

    @formula("a = b", LIMIT, valid={"depth": (0.0, 1.0)}, depth="b")
    def stretched(depth: Length) -> Length:
        return depth

    from waterpark_designer.units import LENGTH

    view = WorkingView(stretched(leaf(3.0, "Depth", YOUR_ENTRY)), LENGTH, SI)
    qtbot.addWidget(view)
    view.show()
    assert any(text.startswith("⚠ Caution: Depth lies outside the range") for text in shown_texts(view))


def test_names_with_markup_are_shown_as_typed(qtbot) -> None:
    part = leaf(1.0, "<b>Bold</b> & co", YOUR_ENTRY, measure=VOLUME)
    view = WorkingView(total("Sum", [("<b>Bold</b> & co", part)], VOLUME, ARITHMETIC), VOLUME, SI)
    qtbot.addWidget(view)
    view.show()
    labels = [each for each in view.findChildren(QLabel) if "Bold" in each.text()]
    assert [label.text() for label in labels] == ["The same as “<b>Bold</b> & co”", "<b>Bold</b> & co"]
    assert all(label.textFormat() is Qt.TextFormat.PlainText for label in labels)


def test_source_of_an_entry_needs_no_provenance() -> None:
    assert source_text(YOUR_ENTRY) == "Entered in the project"
    assert source_text(LIMIT) == "An invented code, 4.7 · from memory, confirm"

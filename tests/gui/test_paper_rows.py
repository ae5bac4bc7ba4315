"""Rows that stay where they are while an edit changes some of them."""

from PySide6.QtTest import QSignalSpy

from waterpark_designer.gui.paper_rows import Cell, Column, Row, RowsModel

COLUMNS = (Column("Tag"), Column("Duty", number=True))


def model_of(*items: tuple[str, str]) -> RowsModel:
    model = RowsModel(COLUMNS, lambda item: Row(tuple(Cell(text) for text in item)), key=lambda item: item[0])
    model.set_items(items)
    return model


def shown(model: RowsModel) -> list[str]:
    return [model.index(row, 1).data() for row in range(model.rowCount())]


def test_only_rows_that_changed_are_drawn_anew() -> None:
    model = model_of(("P-1", "10"), ("P-2", "20"), ("P-3", "30"))
    assert shown(model) == ["10", "20", "30"]
    changed, reset = QSignalSpy(model.dataChanged), QSignalSpy(model.modelReset)
    assert model.replace_items([("P-1", "10"), ("P-2", "25"), ("P-3", "30")], COLUMNS)
    assert shown(model) == ["10", "25", "30"]
    assert [changed.at(0)[0].row(), changed.count(), reset.count()] == [1, 1, 0]


def test_other_rows_or_columns_are_not_the_same_table() -> None:
    model = model_of(("P-1", "10"), ("P-2", "20"))
    assert not model.replace_items([("P-1", "10")], COLUMNS)
    assert not model.replace_items([("P-1", "10"), ("P-9", "20")], COLUMNS)
    assert not model.replace_items([("P-1", "10"), ("P-2", "20")], COLUMNS[:1])
    assert shown(model) == ["10", "20"]

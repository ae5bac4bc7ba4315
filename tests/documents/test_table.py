"""Tables as values: what a cell and a heading read in each unit system."""

from waterpark_designer.documents.table import (
    DASH,
    Column,
    Number,
    Row,
    Table,
    cell_text,
    group,
    number,
    without_blank_columns,
)
from waterpark_designer.engine.worked import Missing
from waterpark_designer.units import AREA, FLOW, GALLON, MINUTE, MONEY, VOLUME, UnitSystem

US, SI = UnitSystem.US, UnitSystem.SI


def test_the_unit_of_a_measured_column_stands_in_its_heading() -> None:
    volume = Column("Volume", VOLUME)
    assert (volume.heading_text(US), volume.heading_text(SI)) == ("Volume (gal)", "Volume (m³)")
    assert cell_text(Number(1000 * GALLON, VOLUME), volume, US) == "1,000"
    assert Column("Price", MONEY, unit="€, invented").heading_text(US) == "Price (€, invented)"


def test_numbers_among_text_bring_their_unit_and_words() -> None:
    duty = Column("Duty")
    flow = Number(283 * GALLON / MINUTE, FLOW)
    area = Number(2.0, AREA, before="at least", after="each")
    assert cell_text(flow, duty, US) == "283 gpm"
    assert cell_text(area, duty, SI) == "at least 2.0 m² each"
    assert cell_text((flow, area), duty, SI) == "64.3 m³/h, at least 2.0 m² each"


def test_a_missing_figure_is_a_dash_not_a_zero() -> None:
    assert number(Missing("Enter it."), VOLUME) == DASH


def test_columns_in_which_nothing_is_written_are_left_out() -> None:
    columns = (Column("A"), Column("B"), Column("C"))
    table = Table("T", columns, (group("G"), Row(("1", "", "3")), Row(("", "", "4"))))
    slim = without_blank_columns(table)
    assert [column.heading for column in slim.columns] == ["A", "C"]
    assert [row.cells for row in slim.rows] == [("G",), ("1", "3"), ("", "4")]

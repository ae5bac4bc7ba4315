"""The equipment schedule as a table."""

import re

import pytest

from tests.documents.invented_site import OVERRIDE_REASON
from waterpark_designer.documents.equipment import INVENTED_PRICES, equipment_table, reasons_table
from waterpark_designer.documents.table import Number, RowKind, Table, cell_text
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.library import Library
from waterpark_designer.units import UnitSystem

US = UnitSystem.US


def column(table: Table, heading: str) -> int:
    return [column.heading for column in table.columns].index(heading)


def test_every_line_stands_under_its_system(design: SiteDesign) -> None:
    table = equipment_table(design, US)
    body = [row for row in table.rows if row.kind is RowKind.BODY]
    assert [row.key for row in body] == [line.key for line in design.equipment]
    assert [row.cells[0] for row in table.rows if row.kind is RowKind.GROUP] == ["System 1", "System 2"]
    assert all(row.node == line.system for row, line in zip(body, design.equipment, strict=True))


def test_an_override_is_told_with_its_reason_and_what_was_computed(design: SiteDesign) -> None:
    table = equipment_table(design, US)
    computed = design.sheets["two"].figures["filter_count"].computed
    note = next(note for note in table.notes if OVERRIDE_REASON in note)
    assert "System 2" in note and f"4 in place of {computed:.0f}" in note
    filters = next(row for row in table.rows if row.key == "two/filter")
    assert note.split(".")[0].removeprefix("Note ") in str(filters.cells[column(table, "Notes")]).split(", ")
    assert cell_text(filters.cells[column(table, "Qty")], table.columns[column(table, "Qty")], US) == "4"


def test_values_from_memory_are_marked_where_they_size_something(design: SiteDesign) -> None:
    table = equipment_table(design, US)
    assert any("Model Aquatic Health Code" in note and "from memory, confirm" in note for note in table.notes)
    generator = next(row for row in table.rows if row.key == "two/generator")
    assert generator.cells[column(table, "Notes")]


def test_prices_count_by_quantity_and_are_marked_invented(priced: SiteDesign) -> None:
    table = equipment_table(priced, US)
    expected = sum(100.0 * line.quantity for line in priced.equipment[:-1])
    total = table.rows[-1]
    assert total.kind is RowKind.TOTAL
    cell = total.cells[column(table, "Price")]
    assert isinstance(cell, Number) and cell.value == pytest.approx(expected)
    assert table.columns[column(table, "Price")].heading_text(US) == "Price ($, invented)"
    assert INVENTED_PRICES in table.notes
    assert f"1 of {len(priced.equipment)} lines have no price." in table.notes


@pytest.mark.parametrize(("amount", "each"), [(100.0, "100"), (99.5, "99.50")])
def test_cents_stand_only_where_a_price_has_them(
    priced: SiteDesign, library: Library, amount: float, each: str
) -> None:
    first, *others = priced.site.prices
    site = priced.site.revised(prices=(first.revised(amount=amount), *others))
    table = equipment_table(library.design(site), US)
    column_of_prices = column(table, "Price each")
    row = next(row for row in table.rows if row.key == first.line)
    assert cell_text(row.cells[column_of_prices], table.columns[column_of_prices], US) == each
    total = str(cell_text(table.rows[-1].cells[-1], table.columns[-1], US))
    assert ("." in total) == ("." in each)


def test_sizes_of_the_catalogue_are_as_they_are_sold(design: SiteDesign) -> None:
    table = equipment_table(design, US)
    row = next(row for row in table.rows if row.key == "two/hypochlorite-tank")
    place = column(table, "Rating")
    assert re.fullmatch(r"\d+ gal each", cell_text(row.cells[place], table.columns[place], US))


def test_prices_of_the_user_are_not_called_invented(priced: SiteDesign, library: Library) -> None:
    table = equipment_table(library.design(priced.site.revised(prices_invented=False)), US)
    assert INVENTED_PRICES not in table.notes
    assert table.columns[-1].heading_text(US) == "Price ($)"


def test_without_prices_there_is_no_total(design: SiteDesign) -> None:
    assert all(row.kind is not RowKind.TOTAL for row in equipment_table(design, US).rows)


def test_a_feature_pump_is_not_sized_by_filters_it_does_not_have(piped: SiteDesign) -> None:
    rows = reasons_table(piped, US).rows
    sprays = [str(row.cells[0]) for row in rows if row.node == "sprays"]
    assert "Operating flow" in sprays and "Duty head" in sprays
    assert not any("filters" in label for label in sprays)
    assert any(row.node == "one" and row.cells[0] == "Operating flow, dirty filters" for row in rows)


def test_what_is_the_same_as_another_figure_names_it(design: SiteDesign) -> None:
    least = next(row for row in reasons_table(design, US).rows if row.cells[0] == "Least recirculation flow")
    assert str(least.cells[2]).startswith(("Sum of", design.site.systems[0].attractions[0].name))


def test_the_reasons_lead_to_the_figures_that_size_each_line(design: SiteDesign) -> None:
    table = reasons_table(design, US)
    filters = [line for line in design.equipment if line.key == "two/filter"]
    labels = [row.cells[0] for row in table.rows]
    for node, key in filters[0].why:
        figure = design.sheets[node].figures.get(key)
        assert figure is None or figure.kind.label in labels
    texts = [str(row.cells[2]) for row in table.rows if row.kind is RowKind.BODY]
    assert any(text.startswith("A = Q / q = ") and "gpm/ft²" in text for text in texts)

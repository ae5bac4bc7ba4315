"""XLSX read back: numbers are numbers, text is text, and the sheets are ready to print."""

import io
from typing import Any

import openpyxl
import pytest

from waterpark_designer.documents.document import Document, Section, particulars_of
from waterpark_designer.documents.progress import ExportCancelled
from waterpark_designer.documents.register import build_document
from waterpark_designer.documents.table import Column, Number, Row, Table, count
from waterpark_designer.documents.xlsx_writer import LONGEST_TEXT, write_xlsx
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise
from waterpark_designer.units import COUNT, FLOW, GALLON, MINUTE, POUND, VOLUME, UnitSystem


def bytes_of(document: Document) -> bytes:
    stream = io.BytesIO()
    write_xlsx(document, stream)
    return stream.getvalue()


def book_of(document: Document) -> Any:
    return openpyxl.load_workbook(io.BytesIO(bytes_of(document)))


def of_tables(design: SiteDesign, *tables: Table) -> Document:
    return Document("trial", "Trial", particulars_of(design, UnitSystem.US), (Section("Trial", tables),))


def cells_of(book: Any) -> list[Any]:
    return [cell for sheet in book.worksheets for row in sheet.iter_rows() for cell in row if cell.value is not None]


def test_one_sheet_for_each_table_after_the_project(priced: SiteDesign) -> None:
    book = book_of(build_document(priced, "equipment-schedule"))
    assert book.sheetnames == ["Project", "Equipment schedule", "Why each has this size", "Cautions"]
    project = {row[0].value: row[1].value for row in book["Project"].iter_rows(min_row=2, max_row=12)}
    assert project["Project"] == "Quillwater <draft> & Сад" and project["Revision"] == "B"


def test_salt_is_a_real_number_with_its_unit_in_the_heading(design: SiteDesign) -> None:
    sheet = book_of(build_document(design, "salt-schedule"))["Start-up salt"]
    headings = [cell.value for cell in sheet[1]]
    pool = next(row for row in sheet.iter_rows(min_row=2) if str(row[0].value).startswith("Бухта"))
    salt = pool[headings.index("Salt (lb)")]
    # 2,900 mg/L in 100,000 gal, by the definitions of gallon and pound.
    assert salt.value == pytest.approx(100_000 * GALLON * 2.9 / POUND)
    assert salt.data_type == "n" and salt.number_format == "#,##0"


def test_a_number_among_text_keeps_its_unit_in_its_format(design: SiteDesign) -> None:
    flow = Number(283 * GALLON / MINUTE, FLOW, after="each")
    sheet = book_of(of_tables(design, Table("T", (Column("Duty"),), (Row((flow,)),))))["T"]
    assert sheet["A2"].value == pytest.approx(283) and sheet["A2"].number_format == '#,##0" gpm each"'


def test_decimals_are_those_of_the_printed_page(design: SiteDesign) -> None:
    table = Table("T", (Column("Volume", VOLUME),), (Row((Number(12.345, VOLUME),)),))
    document = Document("trial", "Trial", particulars_of(design, UnitSystem.SI), (Section("Trial", (table,)),))
    cell = book_of(document)["T"]["A2"]
    assert cell.value == pytest.approx(12.345) and cell.number_format == "#,##0.0"


@pytest.mark.parametrize("name", ["all"])
def test_text_never_becomes_a_formula_or_a_link(design: SiteDesign, library: Library, name: str) -> None:
    site = revise(design.site, "pool", name="=1+1")
    site = revise(site, "one", name="@system", notes="+note").revised(client="-client", name="https://example.org")
    cells = cells_of(book_of(build_document(library.design(site), name)))
    assert any(cell.value == "=1+1" and cell.data_type == "s" for cell in cells)
    assert all(cell.data_type in ("s", "n") and cell.hyperlink is None for cell in cells)


def test_sheets_are_ready_to_read_and_to_print(priced: SiteDesign) -> None:
    sheet = book_of(build_document(priced, "equipment-schedule"))["Equipment schedule"]
    assert sheet.freeze_panes == "A2"
    assert sheet.print_title_rows == "$1:$1"
    assert (sheet.page_setup.orientation, sheet.page_setup.paperSize) == ("landscape", 1)
    # One page across, which is what a fit without a stated width means, and as many down as it takes.
    assert sheet.sheet_properties.pageSetUpPr.fitToPage
    assert sheet.page_setup.fitToWidth in (None, 1) and sheet.page_setup.fitToHeight == 0
    assert sheet.column_dimensions["B"].width > sheet.column_dimensions["C"].width
    assert "licensed engineer" in sheet.oddFooter.right.text
    assert "& Сад" in sheet.oddHeader.left.text.replace("&&", "&")


def test_rows_are_as_tall_as_their_longest_text(design: SiteDesign) -> None:
    short, long = "one line", "words " * 100
    table = Table("T", (Column("Name"), Column("Told")), (Row((short, short)), Row((short, long))))
    sheet = book_of(of_tables(design, table))["T"]
    assert sheet.row_dimensions[2].height in (None, 15), "one line is as tall as any row"
    lines = len(long) / sheet.column_dimensions["B"].width - 1
    assert sheet.row_dimensions[3].height >= 15 * lines


def test_text_stands_clear_of_the_numbers_before_it_and_a_column_of_both_begins_at_one_edge(design: SiteDesign) -> None:
    columns = (Column("Amount", COUNT), Column("From"))
    table = Table("T", columns, (Row((count(3), "text")), Row((count(4), count(5)))))
    sheet = book_of(of_tables(design, table))["T"]
    assert sheet["A1"].alignment.horizontal == sheet["A2"].alignment.horizontal == "right"
    for cell in (sheet["B1"], sheet["B2"], sheet["B3"]):
        assert (cell.alignment.horizontal, cell.alignment.indent) == ("left", 1)


def test_a4_where_units_are_metric(design: SiteDesign) -> None:
    book = book_of(build_document(design, "checks", UnitSystem.SI))
    assert {sheet.page_setup.paperSize for sheet in book.worksheets} == {9}


def test_sheet_names_are_allowed_and_different(design: SiteDesign) -> None:
    columns, rows = (Column("A"),), (Row(("x",)),)
    titles = (
        "A/B: [c]*?",
        "Same title that is far longer than a sheet's name",
        "same title that is far longer than it",
    )
    names = book_of(of_tables(design, *(Table(title, columns, rows) for title in titles))).sheetnames
    assert len({name.lower() for name in names}) == 4
    assert all(len(name) <= 31 and not set(name) & set("[]:*?/\\") for name in names)


def test_text_longer_than_a_cell_holds_says_that_it_was_cut(design: SiteDesign) -> None:
    sheet = book_of(of_tables(design, Table("T", (Column("A"),), (Row(("x" * 40_000,)),))))["T"]
    assert len(sheet["A2"].value) > LONGEST_TEXT and sheet["A2"].value.endswith("see the printed sheets)")


def test_the_same_design_gives_the_same_bytes(design: SiteDesign) -> None:
    document = build_document(design, "all")
    assert bytes_of(document) == bytes_of(document)


def test_progress_can_stop_the_work(design: SiteDesign) -> None:
    stream = io.BytesIO()
    with pytest.raises(ExportCancelled):
        write_xlsx(build_document(design, "all"), stream, lambda share: share < 0.5)
    assert stream.getvalue() == b""

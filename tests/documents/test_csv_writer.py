"""CSV as a spreadsheet reads it."""

import csv
import io

import pytest

from waterpark_designer.documents.csv_writer import harmless, write_csv
from waterpark_designer.documents.progress import ExportCancelled
from waterpark_designer.documents.register import build_document
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise
from waterpark_designer.units import UnitSystem

FORMULAS = ["=1+1", "+1", "-1+2", "@SUM(A1)", "\t=1", "\r=1"]


def bytes_of(design: SiteDesign, name: str, units: UnitSystem | None = None) -> bytes:
    stream = io.BytesIO()
    write_csv(build_document(design, name, units), stream)
    return stream.getvalue()


def rows_of(content: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")))


def test_it_begins_with_the_mark_by_which_spreadsheets_know_utf_8(priced: SiteDesign) -> None:
    assert bytes_of(priced, "equipment-schedule").startswith(b"\xef\xbb\xbf")


def test_units_stand_in_headings_and_numbers_are_bare(priced: SiteDesign) -> None:
    rows = rows_of(bytes_of(priced, "salt-schedule"))
    heading = next(row for row in rows if row and row[0] == "Body of water")
    assert heading[1:5] == ["Volume (gal)", "Measured (ppm)", "Target (ppm)", "Salt (lb)"]
    pool = next(row for row in rows if row and row[0].startswith("Бухта"))
    assert pool[:6] == ['Бухта <Ёж> & "Söhne"', "100000", "300", "3200", "2420", "61"]


def test_metric_headings(design: SiteDesign) -> None:
    rows = rows_of(bytes_of(design, "salt-schedule", UnitSystem.SI))
    assert "Volume (m³)" in next(row for row in rows if row and row[0] == "Body of water")


def test_the_particulars_and_the_notice_come_first(design: SiteDesign) -> None:
    lines = dict(row for row in rows_of(bytes_of(design, "checks"))[2:13])
    assert lines["Project"] == "Quillwater <draft> & Сад"
    assert lines["Status"] == "Preliminary, for review by a licensed engineer"


@pytest.mark.parametrize("text", FORMULAS)
def test_text_that_would_be_a_formula_is_disarmed(text: str) -> None:
    assert harmless(text) == "'" + text


@pytest.mark.parametrize("text", ["a=1", "", "– code silent", "1,5", "'=1"])
def test_other_text_is_left_alone(text: str) -> None:
    assert harmless(text) == text


@pytest.mark.parametrize(
    "name", ["site-summary", "equipment-schedule", "salt-schedule", "calculation-sheets", "checks"]
)
def test_no_cell_of_a_hostile_site_begins_like_a_formula(design: SiteDesign, library: Library, name: str) -> None:
    site = revise(design.site, "pool", name="=HYPERLINK(1)")
    site = revise(site, "one", name="@system", notes="+note").revised(client="-client", name="=cmd|' /C calc'!A0")
    for row in rows_of(bytes_of(library.design(site), name)):
        for cell in row:
            assert not cell.startswith(("=", "+", "@", "\t", "\r")), cell
            assert not cell.startswith("-"), cell


def test_progress_can_stop_the_work(design: SiteDesign) -> None:
    with pytest.raises(ExportCancelled):
        write_csv(build_document(design, "all"), io.BytesIO(), lambda share: share < 0.5)

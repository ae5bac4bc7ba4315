"""The printed document: its pages hold what the tables hold, on the right paper, without the PDF writer."""

import subprocess
import sys
import unicodedata
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QGraphicsView, QPushButton
from pytestqt.qtbot import QtBot

from waterpark_designer.documents.document import NOTICE, Document, Section
from waterpark_designer.documents.register import DOCUMENTS, build_document
from waterpark_designer.documents.table import Column, Number, Row, RowKind, Table, group
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.print_preview import PrintPreview, print_document, printer_for
from waterpark_designer.gui.printed_html import table_html
from waterpark_designer.units import VOLUME, UnitSystem

LETTER, A4 = (612, 792), (595, 842)


def printed(document: Document, path: Path) -> PdfReader:
    """The document as Qt prints it into a file."""
    printer = printer_for(document)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    print_document(document, printer)
    return PdfReader(path)


def paper(reader: PdfReader) -> set[tuple[int, int]]:
    return {(round(float(page.mediabox.width)), round(float(page.mediabox.height))) for page in reader.pages}


def words_of(reader: PdfReader) -> str:
    text = " ".join(page.extract_text() for page in reader.pages)
    # Qt joins f and i into one letter where the font has it.
    return " ".join(unicodedata.normalize("NFKC", text).split())


def test_every_line_of_the_schedule_is_printed(project: OpenProject, tmp_path: Path) -> None:
    reader = printed(build_document(project.design, "equipment-schedule"), tmp_path / "schedule.pdf")
    words = words_of(reader)
    for line in project.design.equipment:
        assert line.tag in words
    assert "Recirculation pump" in words and "Alder Bend" in words


def test_every_page_says_what_it_belongs_to(project: OpenProject, tmp_path: Path) -> None:
    site = project.site.revised(revision="C", issue_date="1 May 2026")
    document = build_document(project.library.design(site), "calculation-sheets")
    reader = printed(document, tmp_path / "sheets.pdf")
    count = len(reader.pages)
    assert count > 2
    for number, page in enumerate(reader.pages, 1):
        words = " ".join(page.extract_text().split())
        assert f"Page {number} of {count}" in words
        assert "Calculation sheets" in words and "Alder Bend" in words
        assert f"Revision C · 1 May 2026 · {NOTICE}" in words.replace("  ", " ")


@pytest.mark.parametrize("units, upright", [(UnitSystem.US, LETTER), (UnitSystem.SI, A4)])
def test_paper_follows_the_units_and_wide_tables_lie_across(
    project: OpenProject, tmp_path: Path, units: UnitSystem, upright: tuple[int, int]
) -> None:
    document = build_document(project.design, "cautions", units)
    across = replace(document, sections=tuple(replace(section, landscape=True) for section in document.sections))
    both = replace(document, sections=(*document.sections, *across.sections))
    assert paper(printed(document, tmp_path / "upright.pdf")) == {upright}
    assert paper(printed(across, tmp_path / "across.pdf")) == {upright[::-1]}
    assert paper(printed(both, tmp_path / "both.pdf")) == {upright, upright[::-1]}


@pytest.mark.parametrize("name", list(DOCUMENTS))
def test_every_document_can_be_printed(project: OpenProject, tmp_path: Path, name: str) -> None:
    document = build_document(project.design, name)
    words = words_of(printed(document, tmp_path / "document.pdf"))
    assert document.title in words
    assert all(" ".join(section.title.split()) in words for section in document.sections)


def test_a_table_keeps_numbers_units_groups_and_totals() -> None:
    table = Table(
        "Water",
        (Column("Body"), Column("Volume", VOLUME)),
        (
            group("River <loop> & more"),
            Row(("Pool", Number(3.785411784, VOLUME))),
            Row(("Total", Number(37.85411784, VOLUME)), RowKind.TOTAL),
        ),
        notes=("Note 1. From memory.",),
    )
    html = table_html(table, UnitSystem.US)
    assert "River &lt;loop&gt; &amp; more" in html
    assert "Volume (gal)" in html and '<td align="right">1,000</td>' in html
    assert "<b>10,000</b>" in html and "Note 1. From memory." in html
    assert "Volume (m³)" in table_html(table, UnitSystem.SI)
    assert "Nothing to list." in table_html(replace(table, rows=()), UnitSystem.US)


def test_the_preview_shows_its_pages_and_turns_them(project: OpenProject, qtbot: QtBot) -> None:
    preview = PrintPreview(build_document(project.design, "equipment-schedule"))
    qtbot.addWidget(preview)
    with qtbot.waitExposed(preview):
        preview.show()
    count = preview.pages.pageCount()
    assert count > 1
    assert preview.where.text() == f"Page 1 of {count}"
    assert not button(preview, "Previous page").isEnabled() and button(preview, "Next page").isEnabled()
    qtbot.mouseClick(button(preview, "Next page"), Qt.MouseButton.LeftButton)
    assert preview.pages.currentPage() == 2 and preview.where.text() == f"Page 2 of {count}"
    assert button(preview, "Previous page").isEnabled()
    qtbot.keyClick(preview, Qt.Key.Key_PageUp)
    qtbot.keyClick(preview, Qt.Key.Key_PageUp)
    assert preview.pages.currentPage() == 1


def test_pages_at_their_width_need_no_bar_below_them(project: OpenProject, qtbot: QtBot) -> None:
    preview = PrintPreview(build_document(project.design, "equipment-schedule"))
    qtbot.addWidget(preview)
    with qtbot.waitExposed(preview):
        preview.show()
    bar = preview.pages.findChild(QGraphicsView).horizontalScrollBar()
    assert not bar.isVisible()
    qtbot.keyClick(preview, Qt.Key.Key_Plus, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(bar.isVisible)


def test_it_prints_only_when_the_printer_is_chosen(
    project: OpenProject, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    preview = PrintPreview(build_document(project.design, "cautions"))
    qtbot.addWidget(preview)
    with qtbot.waitExposed(preview):
        preview.show()
    target = tmp_path / "printed.pdf"
    preview.printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    preview.printer.setOutputFileName(str(target))
    monkeypatch.setattr(PrintPreview, "choose_printer", lambda _self: False)
    qtbot.mouseClick(preview.print_button, Qt.MouseButton.LeftButton)
    assert not target.exists() and preview.isVisible()
    monkeypatch.setattr(PrintPreview, "choose_printer", lambda _self: True)
    with qtbot.waitSignal(preview.accepted):
        qtbot.mouseClick(preview.print_button, Qt.MouseButton.LeftButton)
    assert "Cautions" in words_of(PdfReader(target))


def test_the_pdf_writer_is_not_needed() -> None:
    program = (
        "import sys, waterpark_designer.gui.print_preview, waterpark_designer.documents.register; "
        "sys.exit(bool({'reportlab', 'xlsxwriter'} & set(sys.modules)))"
    )
    assert subprocess.run([sys.executable, "-c", program], timeout=60, check=False).returncode == 0


def test_an_empty_section_is_printed_as_its_title(project: OpenProject, tmp_path: Path) -> None:
    document = replace(build_document(project.design, "cautions"), sections=(Section("Nothing here", ()),))
    assert "Nothing here" in words_of(printed(document, tmp_path / "empty.pdf"))


def button(preview: PrintPreview, words: str) -> QPushButton:
    return next(each for each in preview.findChildren(QPushButton) if each.text() == words)

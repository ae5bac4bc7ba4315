"""Documents as XLSX: one sheet for each table, real numbers with number formats, text that stays text."""

import io
import math
import re
from collections.abc import Iterable
from datetime import datetime
from textwrap import wrap
from typing import Any, BinaryIO

import xlsxwriter

from waterpark_designer.documents.document import NOTICE, Document
from waterpark_designer.documents.progress import Progress, Ticker
from waterpark_designer.documents.spreadsheet import UNROUNDED, project_table, tables_of
from waterpark_designer.documents.table import Cell, Column, Number, Row, RowKind, Table, cell_text, spaced
from waterpark_designer.units import UnitSystem

OPTIONS = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
NO_CLOCK = datetime(2000, 1, 1)
"""Stands for the time of making, so that the same document gives the same file."""
LONGEST_TEXT = 32_000
CUT = " … (cut at the longest text that a cell holds; see the printed sheets)"
LONGEST_SHEET_NAME = 31
LONGEST_HEADER = 200
NARROWEST, WIDEST = 8, 56
ALIGNED: dict[str, dict[str, Any]] = {
    "left": {"align": "left"},
    "indented": {"align": "left", "indent": 1},
    "right": {"align": "right"},
}
LINE_HEIGHT = 15.0
TALLEST_ROW = 409.0
"""What a row can be at most, in points."""
A4, LETTER = 9, 1
FORBIDDEN = re.compile(r"[\[\]:*?/\\]")
INK, BAND = "#16303D", "#EEF3F5"


def write_xlsx(document: Document, stream: BinaryIO, progress: Progress | None = None) -> None:
    """Write the particulars and every table on a sheet of its own. Raises ExportCancelled."""
    tables = (project_table(document), *tables_of(document))
    # Made in memory first, so that a disk that refuses it says so as any other file would.
    content = io.BytesIO()
    book = xlsxwriter.Workbook(content, OPTIONS)
    book.set_properties(
        {
            "title": f"{document.title}: {document.particulars.project}",
            "subject": NOTICE,
            "author": document.particulars.prepared_by,
            "created": NO_CLOCK,
        }
    )
    writer = _BookWriter(book, document, Ticker(sum(len(table.rows) for table in tables), progress))
    for table in tables:
        writer.write(table)
    book.close()
    stream.write(content.getbuffer())


class _BookWriter:
    def __init__(self, book: Any, document: Document, ticker: Ticker) -> None:
        self._book, self._document, self._ticker = book, document, ticker
        self._system: UnitSystem = document.particulars.units
        self._formats: dict[tuple[str, RowKind, str], Any] = {}
        self._names: set[str] = set()
        heading = {"bold": True, "font_color": INK, "bottom": 2, "text_wrap": True, "valign": "bottom"}
        self._headings = {align: book.add_format({**heading, **looks}) for align, looks in ALIGNED.items()}
        self._note = book.add_format({"font_color": "#546A75"})

    def write(self, table: Table) -> None:
        """A sheet: headings that stay in sight, rows, notes beneath."""
        sheet = self._book.add_worksheet(self._sheet_name(table.title))
        widths = [self._width(table, place) for place in range(len(table.columns))]
        headings = [column.heading_text(self._system) for column in table.columns]
        for place in range(len(table.columns)):
            sheet.write_string(0, place, headings[place], self._headings[_align(table.columns, place)])
        sheet.set_row(0, _height(headings, widths))
        for number, row in enumerate(table.rows, 1):
            self._write_row(sheet, number, row, table.columns)
            if row.kind is not RowKind.GROUP:
                told = (cell if isinstance(cell, str | tuple) else "" for cell in row.cells)
                texts = [
                    cell_text(cell, column, self._system) for cell, column in zip(told, table.columns, strict=True)
                ]
                sheet.set_row(number, _height(texts, widths))
            self._ticker.tick()
        self._write_notes(sheet, table)
        self._set_up(sheet, widths)

    def _write_row(self, sheet: Any, number: int, row: Row, columns: tuple[Column, ...]) -> None:
        for place, column in enumerate(columns):
            cell = row.cells[place] if place < len(row.cells) else ""
            self._write_cell(sheet, (number, place), cell, column, row.kind, _align(columns, place))

    def _write_cell(
        self, sheet: Any, at: tuple[int, int], cell: Cell, column: Column, kind: RowKind, align: str
    ) -> None:
        if isinstance(cell, Number) and math.isfinite(cell.value):
            shown = cell.measure.shown(cell.value, self._system)
            looks = self._format(number_format(cell, column, self._system), kind, align)
            sheet.write_number(*at, shown, looks)
        else:
            text = _fitting(cell_text(cell, column, self._system))
            sheet.write_string(*at, text, self._format("", kind, align))

    def _write_notes(self, sheet: Any, table: Table) -> None:
        notes = (*(() if table.rows else (table.empty,)), *table.notes, NOTICE, UNROUNDED)
        for number, note in enumerate(notes, len(table.rows) + 2):
            sheet.write_string(number, 0, _fitting(note), self._note)

    def _format(self, number: str, kind: RowKind, align: str) -> Any:
        """How a cell looks, made once for each way of looking."""
        if (number, kind, align) not in self._formats:
            looks: dict[str, Any] = {"valign": "top", **({"num_format": number} if number else {"text_wrap": True})}
            looks |= ALIGNED[align]
            looks |= {"bold": True} if kind is not RowKind.BODY else {}
            looks |= {"bg_color": BAND, "text_wrap": False} if kind is RowKind.GROUP else {}
            looks |= {"top": 1} if kind is RowKind.TOTAL else {}
            self._formats[number, kind, align] = self._book.add_format(looks)
        return self._formats[number, kind, align]

    def _set_up(self, sheet: Any, widths: list[float]) -> None:
        """Widths, frozen headings, and how the sheet is printed."""
        for place, width in enumerate(widths):
            sheet.set_column(place, place, width)
        sheet.freeze_panes(1, 0)
        sheet.repeat_rows(0)
        sheet.set_landscape()
        sheet.set_paper(LETTER if self._system is UnitSystem.US else A4)
        sheet.fit_to_pages(1, 0)
        particulars = self._document.particulars
        told = f"{particulars.project} · revision {particulars.revision} · {self._document.title}"
        sheet.set_header(f"&L{_in_header(told)}")
        sheet.set_footer(f"&LPage &P of &N&R{_in_header(NOTICE)}")

    def _width(self, table: Table, place: int) -> float:
        column = table.columns[place]
        texts = [
            cell_text(row.cells[place], column, self._system) for row in table.rows if row.kind is not RowKind.GROUP
        ]
        words = column.heading_text(self._system).split()
        longest = max((len(line) for text in (*texts, *words) for line in text.split("\n")), default=0)
        return min(max(longest + 2, NARROWEST), WIDEST)

    def _sheet_name(self, title: str) -> str:
        """A title as a sheet can bear it, and none twice."""
        plain = FORBIDDEN.sub(" ", title).strip(" '") or "Table"
        name, number = plain[:LONGEST_SHEET_NAME], 1
        while name.lower() in self._names:
            number += 1
            name = f"{plain[: LONGEST_SHEET_NAME - 4]} {number}"
        self._names.add(name.lower())
        return name


def number_format(cell: Number, column: Column, system: UnitSystem) -> str:
    """Decimals as on paper, and the words and unit that stand beside the number."""
    text = cell.measure.text(cell.value, system)
    decimals = len(text.partition(".")[2])
    digits = "#,##0" + ("." + "0" * decimals if decimals else "")
    unit = cell.measure.symbol(system) if column.brings_units else ""
    before, _, after = spaced(cell.before, "\0", " ".join(word for word in (unit, cell.after) if word)).partition("\0")
    return _quoted(before) + digits + _quoted(after)


def _align(columns: tuple[Column, ...], place: int) -> str:
    """Numbers at the right; text that follows them is indented, so that it does not run into them."""
    if columns[place].right_aligned:
        return "right"
    return "indented" if place > 0 and columns[place - 1].right_aligned else "left"


def _height(texts: Iterable[str], widths: Iterable[float]) -> float:
    """Height of a row [pt] in which every text is seen whole; not every program reckons it on opening a file."""
    lines = [
        sum(max(len(wrap(line, int(width) - 1)), 1) for line in text.splitlines())
        for text, width in zip(texts, widths, strict=True)
    ]
    return min(max((1, *lines)) * LINE_HEIGHT, TALLEST_ROW)


def _quoted(text: str) -> str:
    """Literal text within a number format."""
    plain = text.replace('"', "''")
    return f'"{plain}"' if plain else ""


def _fitting(text: str) -> str:
    return text if len(text) <= LONGEST_TEXT else text[:LONGEST_TEXT] + CUT


def _in_header(text: str) -> str:
    """Text for a printed header, where an ampersand begins a code."""
    return text[: LONGEST_HEADER // 2].replace("&", "&&")

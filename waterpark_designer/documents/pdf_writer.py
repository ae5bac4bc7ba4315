"""Documents as PDF."""

from functools import partial
from typing import BinaryIO

from waterpark_designer.documents import stylesheet as s
from waterpark_designer.documents.blocks import Caution, Heading, Highlights, Paragraph
from waterpark_designer.documents.chart import Chart
from waterpark_designer.documents.document import Block, Document, Section, WorkedAlike
from waterpark_designer.documents.pdf_blocks import (
    caution_lines,
    highlight_lines,
    paragraph_lines,
    text_lines,
    working_lines,
)
from waterpark_designer.documents.pdf_chart import ChartOnPaper
from waterpark_designer.documents.pdf_opening import draw_contents, draw_title_block
from waterpark_designer.documents.pdf_page import Line, Pages, Run
from waterpark_designer.documents.pdf_table import TableOnPaper
from waterpark_designer.documents.pdf_text import printable, width_of
from waterpark_designer.documents.progress import Progress, Ticker
from waterpark_designer.documents.stylesheet import TextStyle
from waterpark_designer.documents.table import Table

FEW_LINES = 4
NOTES_KEPT = 6
"""Lines of notes that stay on the page of a table's last row."""
KEPT_TOGETHER = 0.3
"""Share of a page up to which a working is not broken between its steps."""


def write_pdf(document: Document, stream: BinaryIO, progress: Progress | None = None) -> None:
    """Write a document as PDF, the same bytes for the same document. Raises ExportCancelled."""
    _PdfWriter(document, stream, progress).write()


class _PdfWriter:
    def __init__(self, document: Document, stream: BinaryIO, progress: Progress | None) -> None:
        self._document = document
        self._system = document.particulars.units
        self._ticker = Ticker(sum(_work(block) for section in document.sections for block in section.blocks), progress)
        self._pages = Pages(stream, document)

    def write(self) -> None:
        self._pages.turn(self._document.sections[0].landscape)
        draw_title_block(self._pages)
        draw_contents(self._pages, self._document.sections)
        for section in self._document.sections:
            self._section(section)
        self._pages.release()
        self._pages.finish()

    def _section(self, section: Section) -> None:
        turned = section.landscape is not self._pages.landscape
        if turned:
            self._pages.turn(section.landscape)
        if section.new_page and not turned:
            self._pages.new_page()
        style = s.SECTION_TITLE if section.level == 1 else s.PART_TITLE
        self._hold_title(section.title, style, section.level - 1)
        for block, following in zip(section.blocks, (*section.blocks[1:], None), strict=True):
            self._block(block, following, section)

    def _hold_title(self, title: str, style: TextStyle, level: int) -> None:
        lines = [Line(s.GAP, ()), *text_lines(title, style, self._pages.room_across), Line(s.GAP / 2, ())]
        if title == self._document.title:
            # It stands at the head of the first page already.
            lines = []
        self._pages.hold(sum(line.height for line in lines), partial(self._draw_title, title, lines, level))

    def _draw_title(self, title: str, lines: list[Line], level: int) -> None:
        self._pages.bookmark(title, level)
        for line in lines:
            self._pages.line(line)

    def _block(self, block: Block, following: Block | None, section: Section) -> None:
        width = self._pages.room_across
        if isinstance(block, Table | WorkedAlike):
            self._table(block.table if isinstance(block, WorkedAlike) else block, section)
            return
        if isinstance(block, Chart):
            self._chart(block)
        elif isinstance(block, Heading):
            lines = [Line(s.GAP / 2, ()), *text_lines(block.text, s.HEADING, width)]
            self._hold(lines)
        elif isinstance(block, Paragraph):
            self._paragraph(paragraph_lines(block, width), isinstance(following, Table | Heading | Paragraph))
        elif isinstance(block, Highlights):
            self._together(highlight_lines(block, self._system, width))
        elif isinstance(block, Caution):
            self._together(caution_lines(block, width))
        else:
            self._working(working_lines(block, self._system, width))
        self._ticker.tick()

    def _paragraph(self, lines: list[Line], leads_on: bool) -> None:
        """Running text; a few lines that lead on to a table, a heading or more text stay with it."""
        if leads_on and len(lines) <= FEW_LINES:
            self._hold(lines)
        else:
            self._pages.lines(lines)

    def _hold(self, lines: list[Line]) -> None:
        self._pages.hold(sum(line.height for line in lines), partial(self._draw_lines, lines))

    def _draw_lines(self, lines: list[Line]) -> None:
        for line in lines:
            self._pages.line(line)

    def _working(self, parts: list[list[Line]]) -> None:
        """A working on one page; each of its steps on one, where the whole would leave much of a page blank."""
        lines = [line for part in parts for line in part]
        if sum(line.height for line in lines) < self._pages.full_height * KEPT_TOGETHER:
            parts = [lines]
        for part in parts:
            self._together(part)

    def _together(self, lines: list[Line]) -> None:
        """Lines on one page where they fit on one."""
        height = sum(line.height for line in lines)
        self._pages.need(height if height < self._pages.full_height * 0.6 else lines[0].height * 3)
        self._pages.lines(lines)

    def _table(self, table: Table, section: Section) -> None:
        width = self._pages.room_across
        if not table.rows:
            self._empty_table(table, section)
            return
        if table.title != section.title:
            title = list(text_lines(table.title, s.STRONG, width))
            self._pages.hold(sum(line.height for line in title) + s.GAP / 2, partial(self._draw_table_title, title))
        notes = [list(text_lines(note, s.SMALL, width)) for note in table.notes]
        first = [line.height for note in notes for line in note][:NOTES_KEPT]
        TableOnPaper(table, self._system, self._pages, sum(first)).draw(self._ticker)
        for note in notes:
            self._together(note)
        self._pages.skip(s.GAP)
        self._ticker.tick()

    def _empty_table(self, table: Table, section: Section) -> None:
        """What is said in place of a table, in the line of its title."""
        title = "" if table.title == section.title else printable(table.title, s.STRONG)
        at = width_of(title, s.STRONG) + s.GAP if title else 0.0
        first, *others = text_lines(table.empty, s.QUIET, self._pages.room_across, at)
        lines = [Line(s.STRONG.leading, (Run(0.0, title, s.STRONG), *first.runs)), *others]
        self._together(lines)
        for note in table.notes:
            self._together(list(text_lines(note, s.SMALL, self._pages.room_across)))
        self._pages.skip(s.GAP)
        self._ticker.tick()

    def _chart(self, chart: Chart) -> None:
        title = list(text_lines(chart.title, s.STRONG, self._pages.room_across))
        self._pages.hold(sum(line.height for line in title) + s.GAP / 2, partial(self._draw_table_title, title))
        ChartOnPaper(chart, self._system, self._pages).draw()

    def _draw_table_title(self, title: list[Line]) -> None:
        self._draw_lines(title)
        self._pages.y -= s.GAP / 2


def _work(block: Block) -> int:
    table = block.table if isinstance(block, WorkedAlike) else block
    return len(table.rows) + 1 if isinstance(table, Table) else 1

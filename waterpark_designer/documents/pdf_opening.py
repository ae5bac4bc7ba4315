"""The head of a document's first page: title, particulars, and what is inside with page numbers and links."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from waterpark_designer.documents import stylesheet as s
from waterpark_designer.documents.document import Section
from waterpark_designer.documents.pdf_blocks import text_lines
from waterpark_designer.documents.pdf_page import Line, Pages, Run
from waterpark_designer.documents.pdf_text import printable, width_of, wrapped
from waterpark_designer.documents.stylesheet import TextStyle

PARTICULARS_AT = 96.0
COLUMNS = 2
GUTTER = 24.0
PAGE_NUMBER_ROOM = 24.0
MANY = 12
"""Sections listed from which on a document of one part has a contents."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the contents; `place` is that of a section, on the last line of its title."""

    text: str
    style: TextStyle
    indent: float
    place: int | None


def draw_title_block(pages: Pages) -> None:
    """Title and particulars; on pages that lie across in two columns, what is too long for one beneath them."""
    document = pages.document
    pages.need(s.DOCUMENT_TITLE.leading)
    pages.y -= s.GAP
    pages.band(-s.GAP, 2.5, s.DOCUMENT_TITLE.leading, s.ACCENT)
    title = Run(s.GAP, printable(document.title, s.DOCUMENT_TITLE), s.DOCUMENT_TITLE)
    pages.line(Line(s.DOCUMENT_TITLE.leading, (title,)))
    pages.y -= s.GAP
    lines, column = document.particulars.lines(), pages.room_across / COLUMNS
    room = column - PARTICULARS_AT - s.GAP
    short = [line for line in lines if pages.landscape and width_of(printable(line[1], s.BODY), s.BODY) <= room]
    half = -(-len(short) // COLUMNS)
    for left, right in zip_longest(short[:half], short[half:], fillvalue=("", "")):
        pages.lines([Line(s.BODY.leading, (*_particular(left, 0.0), *_particular(right, column)))])
    for what, text in (line for line in lines if line not in short):
        first, *others = text_lines(text, s.BODY, pages.room_across, PARTICULARS_AT)
        pages.lines([Line(first.height, (Run(0, what, s.QUIET), *first.runs)), *others])
    pages.y -= s.GAP


def _particular(line: tuple[str, str], x: float) -> tuple[Run, Run]:
    return Run(x, line[0], s.QUIET), Run(x + PARTICULARS_AT, printable(line[1], s.BODY), s.BODY)


def draw_contents(pages: Pages, sections: Sequence[Section]) -> None:
    """What is inside, in columns, where a document has several parts or one with many sections."""
    listed = [(place, section) for place, section in enumerate(sections) if section.listed]
    parts = sum(section.level == 1 for section in sections)
    if parts < 2:
        listed = [(place, section) for place, section in listed if section.level > 1]
    if parts < 2 and len(listed) < MANY:
        return
    width = (pages.room_across - GUTTER * (COLUMNS - 1)) / COLUMNS
    entries = [entry for place, section in listed for entry in _entries(place, section, width, parts > 1)]
    pages.need(s.PART_TITLE.leading + s.CELL.leading)
    pages.line(Line(s.PART_TITLE.leading, (Run(0, "Contents", s.PART_TITLE),)))
    while entries:
        rows = min(max(int(pages.room // s.CELL.leading), 1), -(-len(entries) // COLUMNS))
        columns = [entries[start : start + rows] for start in range(0, COLUMNS * rows, rows)]
        entries = entries[COLUMNS * rows :]
        for abreast in zip_longest(*columns):
            _draw_row(pages, abreast, width)
        if entries:
            pages.new_page()
    pages.y -= s.GAP


def _entries(place: int, section: Section, width: float, several: bool) -> Iterator[Entry]:
    style = s.CELL_STRONG if section.level == 1 else s.CELL
    indent = s.INDENT if several and section.level > 1 else 0.0
    *first, last = wrapped(section.title, style, width - indent - PAGE_NUMBER_ROOM)
    yield from (Entry(text, style, indent, None) for text in first)
    yield Entry(last, style, indent, place)


def _draw_row(pages: Pages, abreast: Sequence[Entry | None], width: float) -> None:
    """Entries beside each other, each with its page at the right of its column."""
    placed = [(number * (width + GUTTER), entry) for number, entry in enumerate(abreast) if entry]
    pages.line(Line(s.CELL.leading, tuple(Run(x + entry.indent, entry.text, entry.style) for x, entry in placed)))
    for x, entry in placed:
        if entry.place is not None:
            pages.refer_to_page(entry.place, x, width, s.CELL.leading)

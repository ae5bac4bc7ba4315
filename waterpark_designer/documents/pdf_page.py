"""Pages: a canvas with a cursor that runs down, a header and a footer on every page, and page x of y.

The number of pages is known only at the end, so finished pages are kept and numbered then; so is the contents.
"""

import functools
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, BinaryIO

from reportlab import rl_config
from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas

from waterpark_designer.documents import stylesheet as s
from waterpark_designer.documents.document import NOTICE, Document
from waterpark_designer.documents.pdf_text import by_font, load_fonts, printable, width_of, wrapped
from waterpark_designer.documents.scripts import drawn
from waterpark_designer.documents.stylesheet import TextStyle

# Streams stay binary, which every reader takes: files a fifth smaller than in printable characters.
rl_config.useA85 = 0

ASCENT = 0.78
"""Share of a line's height that stands above its baseline."""


@dataclass(frozen=True, slots=True)
class Run:
    """Text at a distance from the left margin; `right` sets its right edge there instead."""

    x: float
    text: str
    style: TextStyle
    right: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """Runs on one baseline."""

    height: float
    runs: tuple[Run, ...]


@dataclass(slots=True)
class EndedPage:
    """A page that waits for its numbers: the canvas as it was, the places on it, and what refers to other places."""

    canvas: dict[str, Any]
    number_at: float
    bookmarks: list[tuple[int, str, int, float]]
    references: list[tuple[int, float, float]]


@functools.cache
def colour(hexadecimal: str) -> HexColor:
    """A colour of the style sheet as the canvas takes it."""
    return HexColor(hexadecimal)


class Pages:
    """The pages of one document, written from top to bottom."""

    def __init__(self, stream: BinaryIO, document: Document) -> None:
        load_fonts()
        self.document = document
        self.number = 0
        self._canvas = Canvas(stream, invariant=1, pageCompression=1, initialFontName=s.REGULAR)
        self._landscape = False
        self._text: Any = None
        self._style: TextStyle | None = None
        self._pending: list[tuple[float, Callable[[], None]]] = []
        self._ended: list[EndedPage] = []
        self._place_count = 0
        self._number_at = 0.0
        self._bookmarks: list[tuple[int, str, int, float]] = []
        self._references: list[tuple[int, float, float]] = []
        self._describe()
        self.turn(False)

    def _describe(self) -> None:
        particulars = self.document.particulars
        self._canvas.setTitle(f"{self.document.title}: {particulars.project}")
        self._canvas.setAuthor(particulars.prepared_by)
        self._canvas.setSubject(NOTICE)

    def turn(self, landscape: bool) -> None:
        """Go on upright or across; takes effect on a new page."""
        self._landscape = landscape
        self.width, self._height = s.page_size(self.document.particulars.units, landscape)
        self.room_across = self.width - 2 * s.SIDE_MARGIN
        self._header = self._header_lines()
        self._footer = wrapped(self._footer_text(), s.SMALL, self.room_across)
        self._top = self._height - s.TOP_MARGIN - _height(self._header) - 2 * s.GAP
        self._bottom = s.BOTTOM_MARGIN + (len(self._footer) + 1) * s.SMALL.leading + 2 * s.GAP
        self.y = self._bottom

    @property
    def landscape(self) -> bool:
        return self._landscape

    @property
    def full_height(self) -> float:
        """Room on an empty page."""
        return self._top - self._bottom

    @property
    def room(self) -> float:
        """Room left on this page."""
        return self.y - self._bottom

    def hold(self, height: float, draw: Callable[[], None]) -> None:
        """Draw this, a heading for one, only together with what comes next."""
        self._pending.append((height, draw))

    def need(self, height: float) -> None:
        """Make sure of room for what is held and `height` more, on a new page where this one is too full."""
        held = sum(height for height, _ in self._pending)
        if self.number == 0 or held + min(height, self.full_height - held) > self.room + 1e-6:
            self.new_page()
        self.release()

    def release(self) -> None:
        """Draw what is held."""
        pending, self._pending = self._pending, []
        for _, draw in pending:
            draw()

    def new_page(self) -> None:
        """End this page and begin the next with its header and footer."""
        if self.number:
            self._end_page()
        self.number += 1
        self._canvas.setPageSize((self.width, self._height))
        self._text, self._style = self._canvas.beginText(), None
        self._draw_header()
        self._draw_footer()
        self.y = self._top

    def _end_page(self) -> None:
        self._canvas.drawText(self._text)
        ended = EndedPage(dict(vars(self._canvas)), self._number_at, self._bookmarks, self._references)
        self._ended.append(ended)
        self._bookmarks, self._references = [], []
        self._canvas._startPage()

    def skip(self, height: float) -> None:
        """Leave space, unless at the head of a page."""
        if self.y < self._top:
            self.y -= height

    def line(self, line: Line) -> None:
        """Draw a line and move below it; the caller has made sure of the room."""
        for run in line.runs:
            self.text(run, self.y - line.height * ASCENT)
        self.y -= line.height

    def lines(self, lines: Iterable[Line]) -> None:
        """Draw lines, going to a new page where one is full."""
        for line in lines:
            self.need(line.height)
            self.line(line)

    def text(self, run: Run, baseline: float) -> None:
        """Put one run on a baseline in page coordinates; a page's text is drawn at its end, over the bands."""
        if run.style is not self._style:
            self._text.setFont(run.style.font, run.style.size)
            self._text.setFillColor(colour(run.style.colour))
            self._style = run.style
        left = run.x - width_of(run.text, run.style) if run.right else run.x
        self._text.setTextOrigin(s.SIDE_MARGIN + left, baseline)
        for name, piece in by_font(drawn(run.text), run.style.font):
            if name == run.style.font:
                self._text.textOut(piece)
            else:
                self._text.setFont(name, run.style.size)
                self._text.textOut(piece)
                self._text.setFont(run.style.font, run.style.size)

    def rule(self, shade: str = s.RULE, thickness: float = 0.5) -> None:
        """A line across at the cursor."""
        self._canvas.setStrokeColor(colour(shade))
        self._canvas.setLineWidth(thickness)
        self._canvas.line(s.SIDE_MARGIN, self.y, s.SIDE_MARGIN + self.room_across, self.y)

    def band(self, x: float, width: float, height: float, shade: str) -> None:
        """A filled rectangle below the cursor."""
        self._canvas.setFillColor(colour(shade))
        self._canvas.rect(s.SIDE_MARGIN + x, self.y - height, width, height, stroke=0, fill=1)

    def stroke(
        self, points: Sequence[tuple[float, float]], shade: str, thickness: float, dashes: Sequence[float] = ()
    ) -> None:
        """A line through points: x from the left margin, y on the page."""
        if len(points) < 2:
            return
        self._canvas.saveState()
        self._canvas.setStrokeColor(colour(shade))
        self._canvas.setLineWidth(thickness)
        self._canvas.setDash(list(dashes))
        path = self._canvas.beginPath()
        path.moveTo(s.SIDE_MARGIN + points[0][0], points[0][1])
        for x, y in points[1:]:
            path.lineTo(s.SIDE_MARGIN + x, y)
        self._canvas.drawPath(path)
        self._canvas.restoreState()

    def dot(self, x: float, y: float, radius: float, shade: str) -> None:
        """A filled dot: x from the left margin, y on the page."""
        self._canvas.setFillColor(colour(shade))
        self._canvas.circle(s.SIDE_MARGIN + x, y, radius, stroke=0, fill=1)

    def patch(self, x: float, y: float, width: float, height: float) -> None:
        """Bare paper under text that stands on lines: x from the left margin, y on the page."""
        self._canvas.setFillColor(colour(s.PAPER))
        self._canvas.rect(s.SIDE_MARGIN + x, y, width, height, stroke=0, fill=1)

    def bookmark(self, title: str, level: int) -> None:
        """Enter the place at the cursor in the outline; places are numbered in their order from 0."""
        self._bookmarks.append((self._place_count, title, level, self.y + s.GAP))
        self._place_count += 1

    def refer_to_page(self, place: int, x: float, width: float, height: float) -> None:
        """The page number of a place bookmarked later, at the right of a column, with a link on the line above the
        cursor from x on."""
        left, right = s.SIDE_MARGIN + x, s.SIDE_MARGIN + x + width
        self._references.append((place, right, self.y + height * (1 - ASCENT)))
        area = (left, self.y, right, self.y + height)
        self._canvas.linkRect("", _key(place), area, relative=0, thickness=0)

    def finish(self) -> None:
        """Write the numbers that were not known before, and the file."""
        self._end_page()
        page_of = {place: number for number, page in enumerate(self._ended, 1) for place, *_ in page.bookmarks}
        for number, page in enumerate(self._ended, 1):
            vars(self._canvas).update(page.canvas)
            self._write(f"Page {number} of {len(self._ended)}", s.SMALL_STRONG, s.SIDE_MARGIN, page.number_at)
            for place, x, y in page.references:
                number_of_page = str(page_of[place])
                self._write(number_of_page, s.CELL, x - width_of(number_of_page, s.CELL), y)
            for place, title, level, y in page.bookmarks:
                self._canvas.bookmarkHorizontal(_key(place), 0, y)
                self._canvas.addOutlineEntry(title, _key(place), level, closed=level > 0)
            self._canvas.showPage()
        self._canvas.save()

    def _write(self, text: str, style: TextStyle, x: float, y: float) -> None:
        self._canvas.setFont(style.font, style.size)
        self._canvas.setFillColor(colour(style.colour))
        self._canvas.drawString(x, y, text)

    def _header_lines(self) -> list[Line]:
        particulars = self.document.particulars
        half = self.room_across * 0.62
        names = wrapped(particulars.project, s.SMALL_STRONG, half)
        title = printable(self.document.title, s.SMALL)
        lines = [Line(s.SMALL.leading, (Run(0, name, s.SMALL_STRONG),)) for name in names]
        lines[0] = Line(s.SMALL.leading, (*lines[0].runs, Run(self.room_across, title, s.SMALL, right=True)))
        told = wrapped(self._header_text(), s.SMALL, self.room_across)
        return [*lines, *(Line(s.SMALL.leading, (Run(0, text, s.SMALL),)) for text in told)]

    def _header_text(self) -> str:
        particulars = self.document.particulars
        parts = (
            ("Client: ", particulars.client),
            ("No. ", particulars.number),
            ("Revision ", particulars.revision),
            ("Date: ", particulars.issue_date or "not stated"),
        )
        return " · ".join(what + text for what, text in parts if text)

    def _footer_text(self) -> str:
        particulars = self.document.particulars
        return f"Code basis: {particulars.code_basis_text}. Units: {particulars.units.label}."

    def _draw_header(self) -> None:
        self.y = self._height - s.TOP_MARGIN
        for line in self._header:
            self.line(line)
        self.y -= s.GAP
        self.rule(s.INK, 0.8)

    def _draw_footer(self) -> None:
        self.y = self._bottom - s.GAP
        self.rule()
        self.y -= s.GAP * 0.5
        self._number_at = self.y - s.SMALL.leading * ASCENT
        self.line(Line(s.SMALL.leading, (Run(self.room_across, NOTICE, s.SMALL_STRONG, right=True),)))
        for text in self._footer:
            self.line(Line(s.SMALL.leading, (Run(0, text, s.SMALL),)))


def _height(lines: Iterable[Line]) -> float:
    return sum(line.height for line in lines)


def _key(place: int) -> str:
    return f"place-{place}"

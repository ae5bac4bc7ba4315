"""Tables on paper: column widths, repeated headings, groups that stay with their first row, nothing clipped."""

from collections.abc import Iterator
from dataclasses import dataclass

from waterpark_designer.documents import stylesheet as s
from waterpark_designer.documents.pdf_page import Line, Pages, Run
from waterpark_designer.documents.pdf_text import longest_word, width_of, wrapped
from waterpark_designer.documents.progress import Ticker
from waterpark_designer.documents.stylesheet import TextStyle
from waterpark_designer.documents.table import Column, Row, RowKind, Table, cell_text
from waterpark_designer.units import UnitSystem

PADDING = 9.0
TIGHT_PADDING = 5.0
CROWDED = 0.8
"""Share of the width from which on the least widths of the columns leave so little that they stand closer together."""
INSET = 2.0
INDENT = 5.0
ROW_GAP = 4.0
SPREAD = 50.0
"""Most blank width that a column of weight 1 is given."""
WIDEST_WORD = 110.0
SHORT = 0.4
"""Share of a page up to which a table is kept in one piece."""
MOST_ROWS_TOGETHER = 12
FEWEST_ROWS = 4
CONTINUED = " (continued)"


@dataclass(frozen=True, slots=True)
class Laid:
    """A row broken into lines: for each column its lines, and how the row is set."""

    row: Row
    lines: tuple[list[str], ...]
    style: TextStyle

    @property
    def height(self) -> float:
        return max(len(lines) for lines in self.lines) * self.style.leading + ROW_GAP


class TableOnPaper:
    """One table laid out for one width."""

    def __init__(self, table: Table, system: UnitSystem, pages: Pages, below: float = 0.0) -> None:
        """`below` is the height of the notes that the last row stays with."""
        self._table, self._system, self._pages, self._below = table, system, pages, below
        self._texts = [tuple(_texts(row, table.columns, system)) for row in table.rows]
        self._padding = PADDING
        if sum(self._least_width(place) for place in range(len(table.columns))) > pages.room_across * CROWDED:
            self._padding = TIGHT_PADDING
        self._widths = self._column_widths()
        self._edges = [sum(self._widths[:number]) for number in range(len(self._widths))]
        self._laid: dict[int, Laid] = {}
        self._headings = [self._heading_lines(number) for number in range(len(table.columns))]

    @property
    def _header_height(self) -> float:
        return max(len(lines) for lines in self._headings) * s.COLUMN_HEADING.leading + ROW_GAP

    def draw(self, ticker: Ticker) -> None:
        """Draw all rows; the heading stands above the first and at the head of every further page."""
        self._pages.need(self._header_height + self._height_to_begin())
        self._draw_header()
        group = ""
        for number, row in enumerate(self._table.rows):
            self._draw_row(number, group)
            if row.kind is RowKind.GROUP:
                group = self._texts[number][0]
            ticker.tick()
        self._pages.skip(s.GAP)

    def _height_to_begin(self) -> float:
        """Room without which the table begins on the next page: all of it where it is short, else its first rows."""
        rows = range(min(len(self._table.rows), MOST_ROWS_TOGETHER))
        whole = sum(self._broken_into_lines(number).height for number in rows)
        if len(self._table.rows) <= MOST_ROWS_TOGETHER and whole < self._pages.full_height * SHORT:
            return whole + self._below
        return sum(self._broken_into_lines(number).height for number in rows[:FEWEST_ROWS])

    def _chain_height(self, number: int) -> float:
        """Height of a row and of what stays with it: what follows a group heading, a total, the notes of the last."""
        height = self._lay(number).height
        while number + 1 < len(self._table.rows) and (
            self._table.rows[number].kind is RowKind.GROUP or self._table.rows[number + 1].kind is RowKind.TOTAL
        ):
            number += 1
            height += self._lay(number).height
        return height + (self._below if number + 1 == len(self._table.rows) else 0.0)

    def _lay(self, number: int) -> Laid:
        if number not in self._laid:
            self._laid = {place: laid for place, laid in self._laid.items() if place >= number}
            self._laid[number] = self._broken_into_lines(number)
        return self._laid[number]

    def _broken_into_lines(self, number: int) -> Laid:
        row, texts = self._table.rows[number], self._texts[number]
        if row.kind is RowKind.GROUP:
            return Laid(
                row, (wrapped(texts[0], s.CELL_STRONG, self._pages.room_across - self._padding),), s.CELL_STRONG
            )
        style = s.CELL_STRONG if row.kind is RowKind.TOTAL else s.CELL
        lines = (wrapped(text, style, self._widths[place] - self._blank(place)) for place, text in enumerate(texts))
        return Laid(row, tuple(lines), style)

    def _draw_row(self, number: int, group: str) -> None:
        laid = self._lay(number)
        if self._chain_height(number) > self._pages.room and self._pages.room < self._first_room - 1:
            self._continue_on_new_page(laid, group)
        if laid.height > self._pages.room:
            self._draw_in_parts(laid)
            return
        if laid.row.kind is RowKind.GROUP:
            self._pages.band(0, self._pages.room_across, laid.height, s.BAND)
        self._draw_lines(laid, 0, max(len(lines) for lines in laid.lines))
        self._pages.y -= ROW_GAP / 2
        self._pages.rule(s.INK if laid.row.kind is RowKind.TOTAL else s.RULE, 0.4)

    @property
    def _first_room(self) -> float:
        """Room below the column headings of an empty page."""
        return self._pages.full_height - self._header_height

    def _continue_on_new_page(self, laid: Laid, group: str) -> None:
        self._pages.new_page()
        self._draw_header()
        if group and laid.row.kind is RowKind.BODY:
            heading = self._group_again(group)
            self._pages.band(0, self._pages.room_across, heading.height, s.BAND)
            self._draw_lines(heading, 0, len(heading.lines[0]))
            self._pages.y -= ROW_GAP / 2

    def _group_again(self, group: str) -> Laid:
        lines = wrapped(group + CONTINUED, s.CELL_STRONG, self._pages.room_across - self._padding)
        return Laid(Row((group,), RowKind.GROUP), (lines,), s.CELL_STRONG)

    def _draw_in_parts(self, laid: Laid) -> None:
        """A row taller than a page, as much of it on each page as fits."""
        count, done = max(len(lines) for lines in laid.lines), 0
        while done < count:
            fitting = max(int((self._pages.room - ROW_GAP) // laid.style.leading), 1)
            self._draw_lines(laid, done, min(done + fitting, count))
            done += fitting
            if done < count:
                self._pages.new_page()
                self._draw_header()
        self._pages.y -= ROW_GAP / 2
        self._pages.rule()

    def _draw_lines(self, laid: Laid, start: int, end: int) -> None:
        self._pages.y -= ROW_GAP / 2
        columns = self._table.columns
        for number in range(start, end):
            runs = tuple(
                self._run(place, lines[number], laid.style, columns[place])
                for place, lines in enumerate(laid.lines)
                if number < len(lines) and lines[number]
            )
            self._pages.line(Line(laid.style.leading, runs))

    def _run(self, place: int, text: str, style: TextStyle, column: Column) -> Run:
        if column.right_aligned:
            return Run(self._edges[place] + self._widths[place] - self._padding / 2, text, style, right=True)
        return Run(self._edges[place] + INSET + self._indent(place), text, style)

    def _indent(self, place: int) -> float:
        """Words that follow numbers keep clear of them."""
        columns = self._table.columns
        after = place > 0 and columns[place - 1].right_aligned and not columns[place].right_aligned
        return INDENT if after else 0.0

    def _blank(self, place: int) -> float:
        """What a column's width has of blank."""
        return self._padding + self._indent(place)

    def _heading_lines(self, place: int) -> list[tuple[str, TextStyle]]:
        """A column's heading, its unit dimmed on a line of its own."""
        column, width = self._table.columns[place], self._widths[place] - self._blank(place)
        unit = column.unit_text(self._system)
        lines = [(line, s.COLUMN_HEADING) for line in wrapped(column.heading, s.COLUMN_HEADING, width)]
        return lines + [(line, s.COLUMN_UNIT) for line in wrapped(unit, s.COLUMN_UNIT, width) if unit]

    def _draw_header(self) -> None:
        """Column headings, their last lines level with each other."""
        tallest = max(len(lines) for lines in self._headings)
        for number in range(tallest):
            runs = tuple(
                self._run(place, *lines[number - tallest + len(lines)], self._table.columns[place])
                for place, lines in enumerate(self._headings)
                if number >= tallest - len(lines)
            )
            self._pages.line(Line(s.COLUMN_HEADING.leading, runs))
        self._pages.y -= ROW_GAP / 2
        self._pages.rule(s.INK, 0.8)

    def _column_widths(self) -> list[float]:
        """Numbers get what they need; text columns share the rest by weight, none narrower than its longest word."""
        least = [self._least_width(place) for place in range(len(self._table.columns))]
        rest = self._pages.room_across - sum(least)
        if rest < 0:
            return [width * self._pages.room_across / sum(least) for width in least]
        wanted = [self._natural_width(place) for place in range(len(least))]
        return _shared(least, wanted, [column.weight for column in self._table.columns], rest)

    def _least_width(self, place: int) -> float:
        column = self._table.columns[place]
        measure = width_of if column.right_aligned else longest_word
        cells = max((measure(text, s.CELL_STRONG) for text in self._column_texts(place)), default=0.0)
        heading = max(
            longest_word(column.heading, s.COLUMN_HEADING), width_of(column.unit_text(self._system), s.COLUMN_UNIT)
        )
        return max(min(cells, WIDEST_WORD), heading) + self._blank(place)

    def _natural_width(self, place: int) -> float:
        cells = max((width_of(text, s.CELL_STRONG) for text in self._column_texts(place)), default=0.0)
        return max(cells, width_of(self._table.columns[place].heading, s.COLUMN_HEADING)) + self._blank(place)

    def _column_texts(self, place: int) -> Iterator[str]:
        return (
            texts[place]
            for row, texts in zip(self._table.rows, self._texts, strict=True)
            if row.kind is not RowKind.GROUP
        )


def _texts(row: Row, columns: tuple[Column, ...], system: UnitSystem) -> Iterator[str]:
    for cell, column in zip(row.cells, columns, strict=row.kind is not RowKind.GROUP):
        yield cell_text(cell, column, system)


def _shared(least: list[float], wanted: list[float], weights: list[float], rest: float) -> list[float]:
    """Least widths and the rest, shared by weight among the columns that still want more.

    What nobody wants spreads the columns out, but not so far that a number is lost from the words it belongs to.
    """
    widths = list(least)
    hungry = [place for place, width in enumerate(widths) if wanted[place] > width + 0.01]
    while hungry and rest > 0.01:
        share = rest / sum(weights[place] for place in hungry)
        for place in hungry:
            given = min(share * weights[place], wanted[place] - widths[place])
            widths[place] += given
            rest -= given
        hungry = [place for place in hungry if wanted[place] > widths[place] + 0.01]
    total = sum(weights)
    rest = min(rest, SPREAD * total)
    return [width + rest * weight / total for width, weight in zip(widths, weights, strict=True)]

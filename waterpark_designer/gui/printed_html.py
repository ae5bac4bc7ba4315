"""A document as rich text for the printer: the same sections, blocks and table values that every writer draws."""

from collections.abc import Iterable, Iterator
from html import escape

from waterpark_designer.documents.blocks import Caution, Heading, Highlights, Paragraph
from waterpark_designer.documents.calculations import equation_text, inputs_text
from waterpark_designer.documents.chart import Chart, points_table
from waterpark_designer.documents.document import Block, Document, Section, WorkedAlike
from waterpark_designer.documents.stylesheet import ACCENT, BAND, DIM, INK, RULE
from waterpark_designer.documents.table import DASH, Row, RowKind, Table, cell_text
from waterpark_designer.documents.workings import FigureWorking, source_text
from waterpark_designer.engine.worked import Missing
from waterpark_designer.engine.working import working_of
from waterpark_designer.units import UnitSystem

STYLE = (
    f"body {{ color: {INK}; }} h1 {{ font-size: 20pt; }} h2 {{ font-size: 14pt; }} h3 {{ font-size: 11pt; }} "
    f"h4 {{ font-size: 9pt; color: {ACCENT}; }} .quiet {{ color: {DIM}; }} "
    f".small {{ color: {DIM}; font-size: 7.5pt; }} "
    f"td, th {{ border-bottom: 1px solid {RULE}; font-size: 8pt; }} th {{ border-bottom: 1px solid {INK}; }}"
)


def title_block(document: Document) -> str:
    """Title and particulars at the head of the first page."""
    rows = "".join(
        f'<tr><td style="border:none" class="quiet">{escape(what)}&nbsp;&nbsp;</td>'
        f'<td style="border:none">{escape(text)}</td></tr>'
        for what, text in document.particulars.lines()
    )
    return f"<h1>{escape(document.title)}</h1><table cellspacing='0' cellpadding='1'>{rows}</table>"


def sections_html(sections: Iterable[Section], system: UnitSystem) -> str:
    """Sections one after another."""
    return "".join(part for section in sections for part in _section(section, system))


def whole_page(inside: str) -> str:
    """Parts as a page of rich text."""
    return f"<html><head><style>{STYLE}</style></head><body>{inside}</body></html>"


def _section(section: Section, system: UnitSystem) -> Iterator[str]:
    level = "h2" if section.level == 1 else "h3"
    turn = ' style="page-break-before:always"' if section.new_page else ""
    yield f"<{level}{turn}>{escape(section.title)}</{level}>"
    for block in section.blocks:
        yield from _block(block, section, system)


def _block(block: Block, section: Section, system: UnitSystem) -> Iterator[str]:
    if isinstance(block, Table):
        if block.title != section.title:
            yield f"<p><b>{escape(block.title)}</b></p>"
        yield table_html(block, system)
    elif isinstance(block, WorkedAlike):
        yield f"<p><b>{escape(block.table.title)}</b></p>{table_html(block.table, system)}"
    elif isinstance(block, Chart):
        yield f"<p><b>{escape(block.title)}</b></p>{table_html(points_table(block), system)}"
    elif isinstance(block, Heading):
        yield f"<h4>{escape(block.text)}</h4>"
    elif isinstance(block, Paragraph):
        yield f"<p>{escape(block.text)}</p>"
    elif isinstance(block, Caution):
        yield (
            f"<p><b>⚠ {escape(block.title)}</b><br>{escape(block.text)}"
            f'<br><span class="small">{escape(source_text(block.source))}</span></p>'
        )
    elif isinstance(block, Highlights):
        yield _highlights(block, system)
    else:
        yield _working(block, system)


def table_html(table: Table, system: UnitSystem) -> str:
    """A table with its heading repeated on every page, its notes below it."""
    notes = "".join(f'<p class="small">{escape(note)}</p>' for note in table.notes)
    if not table.rows:
        return f'<p class="quiet">{escape(table.empty)}</p>{notes}'
    whole = sum(column.weight for column in table.columns)
    heads = "".join(
        f'<th width="{100 * column.weight / whole:.1f}%" align="{_side(column.right_aligned)}">'
        f"{escape(column.heading_text(system))}</th>"
        for column in table.columns
    )
    rows = "".join(_row(row, table, system) for row in table.rows)
    return f"<table width='100%' cellspacing='0' cellpadding='3'><thead><tr>{heads}</tr></thead>{rows}</table>{notes}"


def _row(row: Row, table: Table, system: UnitSystem) -> str:
    if row.kind is RowKind.GROUP:
        return f'<tr><td colspan="{len(table.columns)}" bgcolor="{BAND}"><b>{escape(str(row.cells[0]))}</b></td></tr>'
    cells = []
    for cell, column in zip(row.cells, table.columns, strict=True):
        text = escape(cell_text(cell, column, system))
        shown = f"<b>{text}</b>" if row.kind is RowKind.TOTAL else text
        cells.append(f'<td align="{_side(column.right_aligned)}">{shown}</td>')
    return f"<tr>{''.join(cells)}</tr>"


def _side(right: bool) -> str:
    return "right" if right else "left"


def _highlights(block: Highlights, system: UnitSystem) -> str:
    lines = "".join(
        f"<tr><td>{escape(label)}</td><td align='right'><b>{escape(number.phrase(system) if number else DASH)}</b>"
        "</td></tr>"
        for label, number in block.figures
    )
    return f"<table width='60%' cellspacing='0' cellpadding='3'>{lines}</table>"


def _working(entry: FigureWorking, system: UnitSystem) -> str:
    """The working of one figure: result, equation, numbers put in, source."""
    kind, value = entry.figure.kind, entry.figure.value
    label = f"<b>{escape(kind.label)}</b> {escape(kind.symbol)}"
    if isinstance(value, Missing):
        return f"<p>{label} {DASH}<br>Needed: {escape(value.needs)}</p>"
    working = working_of(value, kind.measure, system)
    lines = [f"{label} = <b>{escape(working.result)}</b>"]
    lines += [escape(text) for text in (equation_text(working), inputs_text(working)) if text]
    lines.append(f'<span class="small">{escape(source_text(working.source))}</span>')
    if entry.figure.override:
        lines.append(f"Set by hand. Reason: {escape(entry.figure.override.reason)}")
    return f"<p>{'<br>'.join(lines)}</p>"

"""Documents as CSV: one table after the other, units in the headings, nothing that a spreadsheet would execute."""

import csv
import io
from collections.abc import Iterable, Iterator
from typing import BinaryIO

from waterpark_designer.documents.document import Document
from waterpark_designer.documents.progress import Progress, Ticker
from waterpark_designer.documents.spreadsheet import project_table, tables_of
from waterpark_designer.documents.table import Cell, Column, Number, Row, Table, cell_text
from waterpark_designer.units import UnitSystem

BYTE_ORDER_MARK = "\ufeff"
EXECUTABLE = ("=", "+", "-", "@", "\t", "\r")


def write_csv(document: Document, stream: BinaryIO, progress: Progress | None = None) -> None:
    """Write the particulars and every table under its title, in UTF-8. Raises ExportCancelled."""
    system = document.particulars.units
    tables = (project_table(document), *tables_of(document))
    ticker = Ticker(sum(len(table.rows) for table in tables), progress)
    text = io.TextIOWrapper(stream, encoding="utf-8", newline="")
    text.write(BYTE_ORDER_MARK)
    writer = csv.writer(text)
    for table in tables:
        writer.writerows(_lines(table, system, ticker))
        writer.writerow(())
    text.flush()
    text.detach()


def _lines(table: Table, system: UnitSystem, ticker: Ticker) -> Iterator[Iterable[str]]:
    yield (harmless(table.title),)
    yield tuple(harmless(column.heading_text(system)) for column in table.columns)
    for row in table.rows:
        ticker.tick()
        yield tuple(_row(row, table, system))
    if not table.rows:
        yield (harmless(table.empty),)
    yield from ((harmless(note),) for note in table.notes)


def _row(row: Row, table: Table, system: UnitSystem) -> Iterator[str]:
    for cell, column in zip(row.cells, table.columns, strict=False):
        yield _cell(cell, column, system)


def _cell(cell: Cell, column: Column, system: UnitSystem) -> str:
    """A bare number where the unit stands in the heading or beside it, else text that executes nothing."""
    if isinstance(cell, Number) and not column.brings_units and not (cell.before or cell.after):
        return cell.measure.text(cell.value, system).replace(",", "")
    return harmless(cell_text(cell, column, system))


def harmless(text: str) -> str:
    """Text that no spreadsheet takes for a formula: an apostrophe before a sign that would begin one."""
    return f"'{text}" if text.startswith(EXECUTABLE) else text

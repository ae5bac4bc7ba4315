"""A document as tables alone, for spreadsheets: workings, cautions and running text become rows too."""

from collections.abc import Iterator
from dataclasses import replace

from waterpark_designer.documents.blocks import Caution, Paragraph
from waterpark_designer.documents.calculations import workings_table
from waterpark_designer.documents.chart import Chart, chart_table
from waterpark_designer.documents.document import Document, WorkedAlike
from waterpark_designer.documents.table import Column, Row, Table, group
from waterpark_designer.documents.workings import FigureWorking

UNROUNDED = "Numbers in cells are unrounded; printed documents round them to the figures a practitioner would write."


def project_table(document: Document) -> Table:
    """The particulars that stand on every page of the printed document."""
    rows = (Row(("Document", document.title)), *(Row(line) for line in document.particulars.lines()))
    return Table("Project", (Column("Particular"), Column("Text", weight=4)), rows)


def tables_of(document: Document) -> tuple[Table, ...]:
    """The document's tables in order, then its workings, cautions and remarks, each as one table."""
    gathered = (_workings(document), _cautions(document), _remarks(document))
    return (*_tables(document), *(table for table in gathered if table.rows))


def _tables(document: Document) -> Iterator[Table]:
    """The tables in order; those to be gathered stand together in the place of the first."""
    gathered: dict[str, list[tuple[str, Table]]] = {}
    tables: list[Table] = []
    for section in document.sections:
        for block in section.blocks:
            table = chart_table(block) if isinstance(block, Chart) else block
            if not isinstance(table, Table):
                continue
            if not table.gathered or table.title not in gathered:
                tables.append(table)
            if table.gathered:
                gathered.setdefault(table.title, []).append((section.title, table))
    return (_joined(gathered[table.title]) if table.gathered else table for table in tables)


def _joined(parts: list[tuple[str, Table]]) -> Table:
    """Tables of like columns as one, the rows of each under the title of its section."""
    rows = (row for title, table in parts for row in (group(title), *table.rows))
    notes = dict.fromkeys(note for _, table in parts for note in table.notes)
    return replace(parts[0][1], rows=tuple(rows), notes=tuple(notes))


def _workings(document: Document) -> Table:
    entries: list[FigureWorking] = []
    for block in (block for section in document.sections for block in section.blocks):
        if isinstance(block, FigureWorking):
            entries.append(block)
        elif isinstance(block, WorkedAlike):
            entries += block.entries
    return workings_table(tuple(entries), document.particulars.units)


def _cautions(document: Document) -> Table:
    columns = (Column("Topic"), Column("Caution"), Column("What to do"), Column("Source"), Column("Provenance"))
    rows = tuple(
        Row((section.title, block.title, block.text, block.source.text, str(block.source.provenance)))
        for section in document.sections
        for block in section.blocks
        if isinstance(block, Caution)
    )
    return Table("Cautions", columns, rows)


def _remarks(document: Document) -> Table:
    rows = tuple(
        Row((section.title, block.text))
        for section in document.sections
        for block in section.blocks
        if isinstance(block, Paragraph)
    )
    return Table("Remarks", (Column("About"), Column("Remark")), rows)

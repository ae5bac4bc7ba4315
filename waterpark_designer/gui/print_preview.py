"""The document as it comes out of a printer, looked at before it is printed."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import groupby

from PySide6.QtCore import QMarginsF, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFont, QGuiApplication, QKeySequence, QPageLayout, QPageSize, QPainter, QTextDocument
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrintPreviewWidget
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QGraphicsView,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from waterpark_designer.documents.document import NOTICE, Document
from waterpark_designer.documents.stylesheet import DIM
from waterpark_designer.gui.keys import on_key
from waterpark_designer.gui.printed_html import sections_html, title_block, whole_page
from waterpark_designer.gui.theme import role
from waterpark_designer.units import UnitSystem

MARGIN_MM = 15.0
TEXT_POINTS, SMALL_POINTS = 9.0, 7.5
POINTS_PER_INCH, LEADING = 72.0, 1.4
LINES_ABOVE = LINES_BELOW = 2.2
KEYS = {"PgUp": "Previous page", "PgDown": "Next page", "Ctrl++": "Larger", "Ctrl+-": "Smaller"}
ORIENTATIONS = {False: QPageLayout.Orientation.Portrait, True: QPageLayout.Orientation.Landscape}


class PrintPreview(QDialog):
    """The pages of a document on the paper of its units; they can be printed from here."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(f"Print preview: {document.title}")
        # The preview does not keep its printer alive.
        self.printer = printer_for(document)
        self.pages = QPrintPreviewWidget(self.printer)
        self.where = QLabel()
        self._bar: dict[str, QPushButton] = {}
        self.print_button = role(QPushButton("Print…"), "primary")
        self.buttons = {
            "Previous page": lambda: self._turn(-1),
            "Next page": lambda: self._turn(1),
            "Whole page": lambda: self._look(self.pages.fitInView, fits=True),
            "Page width": lambda: self._look(self.pages.fitToWidth, fits=True),
            "Larger": lambda: self._look(self.pages.zoomIn, fits=False),
            "Smaller": lambda: self._look(self.pages.zoomOut, fits=False),
        }
        self._lay_out()
        self.pages.paintRequested.connect(lambda printer: print_document(document, printer))
        self.pages.previewChanged.connect(self._tell_page)
        self.print_button.clicked.connect(self._print)
        self.resize(1000, 760)
        self._look(self.pages.fitToWidth, fits=True)
        self.print_button.setFocus()

    def choose_printer(self) -> bool:
        """Ask for the printer and how to print; tells whether to go on."""
        return QPrintDialog(self.printer, self).exec() == QDialog.DialogCode.Accepted

    def _lay_out(self) -> None:
        bar = QHBoxLayout()
        bar.setContentsMargins(12, 10, 12, 10)
        bar.setSpacing(8)
        for words, act in self.buttons.items():
            button = QPushButton(words)
            button.setAutoDefault(False)
            button.clicked.connect(lambda _on=False, act=act: act())
            bar.addWidget(button)
            self._bar[words] = button
            if words == "Next page":
                bar.addWidget(self.where)
        bar.addStretch(1)
        close = QPushButton("Close")
        close.setAutoDefault(False)
        close.clicked.connect(self.reject)
        bar.addWidget(close)
        bar.addWidget(self.print_button)
        for keys, words in KEYS.items():
            on_key(self, keys, self.buttons[words])
            self._bar[words].setToolTip(QKeySequence(keys).toString(QKeySequence.SequenceFormat.NativeText))
        on_key(self, QKeySequence.StandardKey.Print, self.print_button.click)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(bar)
        column.addWidget(self.pages, 1)

    def _look(self, act: Callable[[], None], fits: bool) -> None:
        """Show the pages in another size; one that fits the width by rounding needs no scroll bar below it."""
        policy = Qt.ScrollBarPolicy.ScrollBarAlwaysOff if fits else Qt.ScrollBarPolicy.ScrollBarAsNeeded
        for view in self.pages.findChildren(QGraphicsView):
            view.setHorizontalScrollBarPolicy(policy)
        act()

    def _turn(self, by: int) -> None:
        self.pages.setCurrentPage(max(1, min(self.pages.pageCount(), self.pages.currentPage() + by)))
        self._tell_page()

    def _tell_page(self) -> None:
        page, last = self.pages.currentPage(), self.pages.pageCount()
        self.where.setText(f"Page {page} of {last}")
        self._bar["Previous page"].setEnabled(page > 1)
        self._bar["Next page"].setEnabled(page < last)

    def _print(self) -> None:
        if self.choose_printer():
            self.pages.print_()
            self.accept()


def printer_for(document: Document) -> QPrinter:
    """A printer with letter paper where units are US customary and A4 elsewhere."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    us = document.particulars.units is UnitSystem.US
    size = QPageSize(QPageSize.PageSizeId.Letter if us else QPageSize.PageSizeId.A4)
    margins = QMarginsF(MARGIN_MM, MARGIN_MM, MARGIN_MM, MARGIN_MM)
    printer.setPageLayout(
        QPageLayout(size, ORIENTATIONS[document.sections[0].landscape], margins, QPageLayout.Unit.Millimeter)
    )
    printer.setDocName(f"{document.title}: {document.particulars.project}")
    return printer


def print_document(document: Document, printer: QPrinter) -> None:
    """Draw every page on the printer."""
    scale = printer.resolution() / _dots_per_inch()
    sheets = list(_sheets(document, printer, scale))
    pages = sum(sheet.text.pageCount() for sheet in sheets)
    number = 0
    painter = QPainter()
    for sheet in sheets:
        printer.setPageOrientation(ORIENTATIONS[sheet.landscape])
        for page in range(sheet.text.pageCount()):
            number += 1
            if number == 1:
                painter.begin(printer)
            else:
                printer.newPage()
            painter.save()
            painter.scale(scale, scale)
            _draw_page(painter, document, sheet, page, f"Page {number} of {pages}")
            painter.restore()
    painter.end()


@dataclass(frozen=True, slots=True)
class _Sheets:
    """Pages of one orientation: their text, laid out, and the room on each of them."""

    text: QTextDocument
    landscape: bool
    room: QSizeF
    line: float


def _sheets(document: Document, printer: QPrinter, scale: float) -> Iterator[_Sheets]:
    """The text of the document, laid out for each run of pages of one orientation."""
    line = SMALL_POINTS * _dots_per_inch() / POINTS_PER_INCH * LEADING
    opening = title_block(document)
    for landscape, sections in groupby(document.sections, key=lambda section: section.landscape):
        layout = QPageLayout(printer.pageLayout())
        layout.setOrientation(ORIENTATIONS[landscape])
        paper = QSizeF(layout.paintRectPixels(printer.resolution()).size()) / scale
        room = QSizeF(paper.width(), paper.height() - line * (LINES_ABOVE + LINES_BELOW))
        text = QTextDocument()
        text.setDefaultFont(_font(TEXT_POINTS))
        text.setDocumentMargin(0)
        text.setUseDesignMetrics(True)
        text.setHtml(whole_page(opening + sections_html(sections, document.particulars.units)))
        text.setPageSize(room)
        opening = ""
        yield _Sheets(text, landscape, room, line)


def _draw_page(painter: QPainter, document: Document, sheet: _Sheets, page: int, number: str) -> None:
    """One page: what is printed on every page above and below, and its part of the text."""
    particulars, width, height, line = document.particulars, sheet.room.width(), sheet.room.height(), sheet.line
    painter.setFont(_font(SMALL_POINTS))
    painter.setPen(QColor(DIM))
    head = QRectF(0, 0, width, line)
    foot = QRectF(0, line * (LINES_ABOVE + LINES_BELOW - 1) + height, width, line)
    stated = (f"Revision {particulars.revision}" if particulars.revision else "", particulars.issue_date, NOTICE)
    for place, left, right in (
        (head, particulars.project, document.title),
        (foot, "  ·  ".join(part for part in stated if part), number),
    ):
        painter.drawText(place, Qt.AlignmentFlag.AlignLeft, left)
        painter.drawText(place, Qt.AlignmentFlag.AlignRight, right)
    painter.translate(QPointF(0, line * LINES_ABOVE - page * height))
    sheet.text.drawContents(painter, QRectF(0, page * height, width, height))


def _font(points: float) -> QFont:
    font = QFont(QApplication.font())
    # In dots, so that the printer's own resolution does not come in twice.
    font.setPixelSize(round(points * _dots_per_inch() / POINTS_PER_INCH))
    return font


def _dots_per_inch() -> float:
    """The resolution in which text is laid out before it is scaled to the printer's."""
    return QGuiApplication.primaryScreen().logicalDotsPerInchY()

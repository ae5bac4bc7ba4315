"""The start page: what the program does, a new site, recent files, and samples to look at."""

from collections.abc import Iterable
from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from waterpark_designer.gui.entry_widgets import words
from waterpark_designer.gui.short_label import ShortLabel
from waterpark_designer.gui.theme import role
from waterpark_designer.storage.glance import glance

PURPOSE = "Lay out the bodies of water of a site, size their treatment against the local code, and print the schedules."
NO_RECENT = "Projects you open or save are listed here."
VANISHED = "no longer there"
PAGE_WIDTH = 940
INDENT = 11


class StartPage(QWidget):
    """What to do first; every entry works by mouse, Tab, arrow keys and Enter."""

    new_wanted = Signal()
    open_wanted = Signal()
    file_chosen = Signal(Path)
    """A recent file or a sample."""

    def __init__(self, samples: list[Path], recent: list[Path], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._recent, self._samples = _column("Recent files"), _column("Samples")
        page = QWidget()
        page.setMaximumWidth(PAGE_WIDTH)
        layout = QGridLayout(page)
        layout.setContentsMargins(32, 40, 32, 32)
        layout.setHorizontalSpacing(40)
        layout.setVerticalSpacing(24)
        layout.addLayout(self._head(), 0, 0, 1, 2)
        layout.addLayout(self._recent, 1, 0)
        layout.addLayout(self._samples, 1, 1)
        layout.setColumnStretch(0, 1)
        layout.setColumnStretch(1, 1)
        layout.setRowStretch(2, 1)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(_scrolled(page))
        self._show_samples(samples)
        self.show_recent(recent)

    def show_recent(self, recent: Iterable[Path]) -> None:
        """List these files as the recent ones."""
        _clear_below_heading(self._recent)
        for path in recent:
            self._recent.addWidget(self._entry(path, path.stem, _where(path), not path.is_file()))
        if self._recent.count() == 1:
            self._recent.addWidget(_note(NO_RECENT, INDENT))
        self._recent.addStretch(1)
        self._put_in_reading_order()

    def entries(self) -> list["FileEntry"]:
        """Every file listed, recent ones first."""
        columns = (self._recent, self._samples)
        items = (column.itemAt(row) for column in columns for row in range(column.count()))
        widgets = (item.widget() for item in items if item)
        return [widget for widget in widgets if isinstance(widget, FileEntry)]

    def _put_in_reading_order(self) -> None:
        """Tab goes through the recent files before the samples, however often they are listed anew."""
        before: QWidget | None = self.findChild(QPushButton, "open")
        for entry in self.entries():
            if before is not None:
                QWidget.setTabOrder(before, entry)
            before = entry

    def _head(self) -> QVBoxLayout:
        head = QVBoxLayout()
        head.setSpacing(10)
        head.addWidget(role(QLabel("Waterpark Designer"), "title"))
        head.addWidget(_note(PURPOSE))
        head.addSpacing(8)
        buttons = QHBoxLayout()
        for name, text, signal, look in (
            ("new", "&New site", self.new_wanted, "primary"),
            ("open", "&Open…", self.open_wanted, ""),
        ):
            button = QPushButton(text)
            button.setObjectName(name)
            button.setAutoDefault(True)
            button.clicked.connect(signal)
            buttons.addWidget(role(button, look) if look else button)
        buttons.addStretch(1)
        head.addLayout(buttons)
        return head

    def _show_samples(self, samples: list[Path]) -> None:
        for path in samples:
            self._samples.addWidget(self._entry(path, *_about_sample(path)))
        self._samples.addSpacing(4)
        self._samples.addWidget(_note("A sample opens as a copy; its names and prices are invented.", INDENT))
        self._samples.addStretch(1)

    def _entry(self, path: Path, title: str, about: str, vanished: bool = False) -> "FileEntry":
        entry = FileEntry(path, title, about, vanished)
        entry.clicked.connect(lambda: self.file_chosen.emit(path))
        return entry


class FileEntry(QPushButton):
    """A file that can be opened: its name and one line about it."""

    def __init__(self, path: Path, title: str, about: str, vanished: bool) -> None:
        super().__init__()
        self.path, self.title, self.about = path, title, about
        role(self, "quiet")
        self.setAutoDefault(True)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.setToolTip(str(path))
        self.setAccessibleName(f"{title}: {about}")
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(INDENT, 7, INDENT, 7)
        self._layout.setSpacing(2)
        name = ShortLabel("dim" if vanished else "subheading")
        name.show_text(title)
        for label in (name, words(about, "caution" if vanished else "dim")):
            label.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
            self._layout.addWidget(label)

    def sizeHint(self) -> QSize:  # noqa: N802
        return self._layout.sizeHint()

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        return self._layout.minimumSize()

    def hasHeightForWidth(self) -> bool:  # noqa: N802
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: N802
        return self._layout.totalHeightForWidth(width)


def _about_sample(path: Path) -> tuple[str, str]:
    """(name, one line) of a sample, from the sample itself."""
    site = glance(path)
    if site is None:
        return path.stem, "This sample cannot be read. Install the program again."
    return site.name, site.notes.partition("\n")[0]


def _where(path: Path) -> str:
    folder = _breakable(path.parent)
    return folder if path.is_file() else f"{VANISHED}: {folder}"


def _breakable(folder: Path) -> str:
    """The folder as text that can be wrapped after each separator."""
    return str(folder).replace("/", "/\u200b").replace("\\", "\\\u200b")


def _column(title: str) -> QVBoxLayout:
    column = QVBoxLayout()
    column.setSpacing(4)
    column.addWidget(role(QLabel(title), "heading"))
    return column


def _note(text: str, indent: int = 0) -> QLabel:
    note = role(QLabel(text), "dim")
    note.setWordWrap(True)
    note.setIndent(indent)
    return note


def _clear_below_heading(column: QVBoxLayout) -> None:
    while column.count() > 1:
        item = column.takeAt(1)
        widget = item.widget() if item else None
        if widget is not None:
            widget.hide()
            widget.setParent(None)
            widget.deleteLater()


def _scrolled(page: QWidget) -> QScrollArea:
    """The page, centred, and scrolled where the window is too small for it."""
    holder = QWidget()
    row = QHBoxLayout(holder)
    row.setContentsMargins(0, 0, 0, 0)
    row.addStretch(1)
    row.addWidget(page, 100)
    row.addStretch(1)
    area = QScrollArea()
    area.setWidgetResizable(True)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setWidget(holder)
    return area

"""Sections that fold: a heading by which what stands below it is shown or put away."""

from collections.abc import Callable

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QFrame, QSizePolicy, QVBoxLayout, QWidget

from waterpark_designer.gui.entry_widgets import ENTER_KEYS, tip
from waterpark_designer.gui.theme import colours, role

MARK_WIDTH = 18
MIDDLE = Qt.AlignmentFlag.AlignVCenter


class FoldButton(QAbstractButton):
    """The heading of a section that folds: its title, a word at the right, and which way it stands."""

    def __init__(self, title: str, quiet: bool = False, parent: QWidget | None = None) -> None:
        """`quiet` is for a fold within a section."""
        super().__init__(parent)
        self._quiet = quiet
        self.setText(title)
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        font = self.font()
        font.setBold(not quiet)
        self.setFont(font)
        self.toggled.connect(lambda _open: self._describe())
        self._describe()

    def _describe(self) -> None:
        self.setAccessibleDescription("open" if self.isChecked() else "folded")

    def sizeHint(self) -> QSize:  # noqa: N802
        return QSize(120, self.fontMetrics().height() + 10)

    def minimumSizeHint(self) -> QSize:  # noqa: N802
        return QSize(40, self.sizeHint().height())

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if event.key() in ENTER_KEYS:
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        painter = QPainter(self)
        ink = colours().dim if self._quiet else colours().ink
        painter.setPen(QColor(colours().water if self.underMouse() else ink))
        words = self.rect().adjusted(0, 0, -MARK_WIDTH, 0)
        shown = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, words.width())
        painter.drawText(words, MIDDLE | Qt.AlignmentFlag.AlignLeft, shown)
        painter.setPen(QColor(colours().dim))
        mark = "▾" if self.isChecked() else "▸"
        painter.drawText(self.rect().adjusted(0, 0, -4, 0), MIDDLE | Qt.AlignmentFlag.AlignRight, mark)
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours().water), 2))
            painter.drawRoundedRect(self.rect().adjusted(1, 1, -1, -1), 3, 3)


class FoldingSection(QWidget):
    """A heading that shows or folds away what stands below; what is below is made when first shown."""

    opened = Signal(bool)

    def __init__(
        self, title: str, make: Callable[[], QWidget], is_open: bool = True, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._make = make
        self.content: QWidget | None = None
        self.heading = FoldButton(title)
        self.heading.toggled.connect(self._set_open)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(6)
        self._layout.addWidget(self.heading)
        self.heading.setChecked(is_open)

    @property
    def is_open(self) -> bool:
        return self.heading.isChecked()

    def set_title(self, title: str) -> None:
        """Another heading."""
        if title != self.heading.text():
            self.heading.setText(title)
            self.heading.setToolTip(tip(title))

    def _set_open(self, is_open: bool) -> None:
        if is_open and self.content is None:
            self.content = self._make()
            self._layout.addWidget(self.content)
        if self.content is not None:
            self.content.setVisible(is_open)
        self.opened.emit(is_open)


def rule(parent: QWidget | None = None) -> QFrame:
    """A hairline between sections."""
    return role(QFrame(parent), "rule")


class FoldMark(QAbstractButton):
    """The small mark that opens what stands below a row; its name says what that is."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFixedSize(self.sizeHint())

    def sizeHint(self) -> QSize:  # noqa: N802
        side = self.fontMetrics().height() + 4
        return QSize(side, side)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if event.key() in ENTER_KEYS:
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        painter = QPainter(self)
        painter.setPen(QColor(colours().water if self.underMouse() else colours().dim))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, "▾" if self.isChecked() else "▸")
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours().water), 2))
            painter.drawRoundedRect(self.rect().adjusted(1, 1, -1, -1), 3, 3)

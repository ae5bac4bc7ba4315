"""A sentence that needs no answer, shown over the foot of the window for a while."""

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QWidget

from waterpark_designer.gui.theme import role

SHOWN_FOR = 7000
WIDEST = 640
GAP = 14


class Notice(QFrame):
    """Lies over its holder, low and in the middle; goes away by itself, by its button, or by the next one."""

    def __init__(self, holder: QWidget) -> None:
        super().__init__(holder)
        role(self, "card")
        self.label = QLabel()
        self.label.setWordWrap(True)
        self.label.setTextFormat(Qt.TextFormat.PlainText)
        close = role(QPushButton("Close"), "quiet")
        close.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        close.clicked.connect(self.hide)
        self._holder, self._layout = holder, QHBoxLayout(self)
        self._layout.setContentsMargins(14, 6, 6, 6)
        self._layout.addWidget(self.label, 1)
        self._layout.addWidget(close, 0, Qt.AlignmentFlag.AlignTop)
        self.timer = QTimer(self, singleShot=True, interval=SHOWN_FOR)
        self.timer.timeout.connect(self.hide)
        holder.installEventFilter(self)
        self.hide()

    def tell(self, text: str) -> None:
        """Show a sentence."""
        self.label.setText(text)
        self.setAccessibleName(text)
        self._place()
        self.show()
        self.raise_()
        self.timer.start()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        if event.type() == QEvent.Type.Resize and self.isVisible():
            self._place()
        return super().eventFilter(watched, event)

    def _place(self) -> None:
        holder, margins = self._holder, self._layout.contentsMargins()
        needed = self.label.fontMetrics().horizontalAdvance(self.label.text()) + 120
        wide = min(WIDEST, holder.width() - 2 * GAP, needed + margins.left() + margins.right())
        high = self._layout.heightForWidth(wide)
        self.setGeometry((holder.width() - wide) // 2, holder.height() - high - GAP, wide, high)

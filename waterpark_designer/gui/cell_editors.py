"""Editors of table cells: a line that does not let go of an unreadable entry, a list for a choice."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QAbstractItemModel, QEvent, QModelIndex, QObject, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QColor, QKeyEvent, QPainter
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QLineEdit,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from waterpark_designer.gui.theme import colours, restyle

Index = QModelIndex | QPersistentModelIndex
LEAST_EDITOR = 120
BAR_WIDTH = 3
LEAVING = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab, Qt.Key.Key_Backtab)


class CellEditors(QStyledItemDelegate):
    """Asks `choices_of(column)` what can be chosen, and `trouble(index, text)` what is wrong with an entry."""

    def __init__(
        self,
        view: QAbstractItemView,
        choices_of: Callable[[int], tuple[tuple[Any, str], ...]],
        trouble: Callable[[QModelIndex, str], str],
        tell: Callable[[QModelIndex, str], None],
    ) -> None:
        super().__init__(view)
        self._view = view
        self._choices_of, self._trouble, self._tell = choices_of, trouble, tell
        self._editing = QPersistentModelIndex()

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """The cell, with a hairline under it; a bar marks the row one is in."""
        super().paint(painter, option, index)
        painter.setPen(QColor(colours().line))
        painter.drawLine(option.rect.bottomLeft(), option.rect.bottomRight())
        if index.column() == 0 and self._view.currentIndex().row() == index.row():
            bar = QRect(option.rect.topLeft(), QSize(BAR_WIDTH, option.rect.height()))
            painter.fillRect(bar, QColor(colours().accent))

    def updateEditorGeometry(  # noqa: N802
        self, editor: QWidget, option: QStyleOptionViewItem, index: Index
    ) -> None:
        """Over its cell, and beyond it where the cell is too narrow to type in."""
        place = QRect(option.rect)
        more = max(0, LEAST_EDITOR - place.width())
        editor.setGeometry(place.adjusted(-min(more, place.left()), 0, max(0, more - place.left()), 0))

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:  # noqa: N802
        self._editing = QPersistentModelIndex(index)
        choices = self._choices_of(index.column())
        if not choices:
            return QLineEdit(parent)
        box = QComboBox(parent)
        for value, label in choices:
            box.addItem(label, value)
        box.activated.connect(lambda _row: self._commit(box))
        return box

    def setEditorData(self, editor: QWidget, index: Index) -> None:  # noqa: N802
        value = index.data(Qt.ItemDataRole.EditRole)
        if isinstance(editor, QComboBox):
            editor.setCurrentIndex(editor.findData(value))
        elif isinstance(editor, QLineEdit) and not editor.isModified():
            editor.setText(str(value))
            editor.selectAll()

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:  # noqa: N802
        if isinstance(editor, QComboBox):
            model.setData(index, editor.currentData())
        elif isinstance(editor, QLineEdit):
            model.setData(index, editor.text())

    def eventFilter(self, editor: QObject, event: QEvent) -> bool:  # noqa: N802
        if (
            isinstance(editor, QLineEdit)
            and isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and event.key() in LEAVING
        ):
            index = self._editing.model().index(self._editing.row(), self._editing.column())
            reason = self._trouble(index, editor.text())
            if reason:
                restyle(editor, "invalid", True)
                self._tell(index, reason)
                return True
        return super().eventFilter(editor, event)

    def _commit(self, box: QComboBox) -> None:
        self.commitData.emit(box)
        self.closeEditor.emit(box, QStyledItemDelegate.EndEditHint.NoHint)

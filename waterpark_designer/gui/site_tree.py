"""The tree of the site: select, add, rename, move and take out its parts."""

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QPersistentModelIndex, QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import QColor, QContextMenuEvent, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeView,
    QWidget,
)

from waterpark_designer.gui.entry_widgets import ENTER_KEYS
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.site_tree_model import SiteTreeModel
from waterpark_designer.gui.theme import colours
from waterpark_designer.gui.tree_rows import NAME, NUMBER

ROW_HEIGHT = 27
BAR_WIDTH = 3
EDGE = 9
Index = QModelIndex | QPersistentModelIndex
EMPTY = "No water yet.\nAdd a body of water to begin."


class SiteTree(QTreeView):
    """Shows the site; the selected row is the project's selected part."""

    menu_wanted = Signal(QPoint)
    """Where to show the menu of the selected part, on the screen."""
    editor_wanted = Signal()
    """Enter was pressed on a part: its fields are wanted."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self.tree_model = SiteTreeModel(project, self)
        self.setModel(self.tree_model)
        self._set_up_view()
        self._set_up_dragging()
        self.expandAll()
        self.tree_model.rowsInserted.connect(self._open_new_rows)
        self.selectionModel().currentChanged.connect(self._tell_project)
        project.selection_changed.connect(self._follow)
        self._follow(project.selection)

    def rename(self) -> None:
        """Edit the name of the selected part in place."""
        index = self.currentIndex().siblingAtColumn(NAME)
        if index.isValid():
            self.setFocus()
            self.edit(index)

    def _set_up_view(self) -> None:
        self.setAccessibleName("Parts of the site")
        self.setHeaderHidden(True)
        self.setUniformRowHeights(True)
        self.setRootIsDecorated(False)
        self.setIndentation(15)
        self.setExpandsOnDoubleClick(False)
        self.setItemDelegate(_Rows(self))
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setEditTriggers(QAbstractItemView.EditTrigger.DoubleClicked | QAbstractItemView.EditTrigger.EditKeyPressed)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setColumnHidden(NUMBER, True)  # drawn beside the name, so that a short number leaves it room
        self.header().setSectionResizeMode(NAME, QHeaderView.ResizeMode.Stretch)

    def _set_up_dragging(self) -> None:
        self.setDragEnabled(True)
        self.setAcceptDrops(True)
        self.setDropIndicatorShown(True)
        self.setDragDropMode(QAbstractItemView.DragDropMode.DragDrop)
        self.setDefaultDropAction(Qt.DropAction.MoveAction)

    def _open_new_rows(self, parent: QModelIndex, first: int, last: int) -> None:
        """A new part shows what is in it, and what holds it opens."""
        self.expand(parent)
        for row in range(first, last + 1):
            self.expand(self.tree_model.index(row, NAME, parent))

    def _tell_project(self, current: QModelIndex, _previous: QModelIndex) -> None:
        node = self.tree_model.node_at(current)
        shown = self.tree_model.index_of(self._project.selection)
        if node is not None and shown != current.siblingAtColumn(NAME):
            self._project.select(node.id)

    def _follow(self, node: str) -> None:
        index = self.tree_model.index_of(node)
        if index.isValid() and index != self.currentIndex().siblingAtColumn(NAME):
            flags = QItemSelectionModel.SelectionFlag
            self.selectionModel().setCurrentIndex(index, flags.ClearAndSelect | flags.Rows)
            self.scrollTo(index)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if self.state() is QAbstractItemView.State.EditingState:
            super().keyPressEvent(event)  # Enter ends the typing of a name, and no more
        elif event.key() in ENTER_KEYS and not event.modifiers():
            self.editor_wanted.emit()
        else:
            super().keyPressEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:  # noqa: N802
        by_key = event.reason() is QContextMenuEvent.Reason.Keyboard
        below = self.visualRect(self.currentIndex()).bottomLeft()
        self.menu_wanted.emit(self.viewport().mapToGlobal(below) if by_key else event.globalPos())

    def drawRow(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:  # noqa: N802
        super().drawRow(painter, option, index)
        if self.selectionModel().isSelected(index):
            bar = QRect(0, option.rect.top(), BAR_WIDTH, option.rect.height())
            painter.fillRect(bar, QColor(colours().accent))

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802
        super().paintEvent(event)
        if not self._project.site.systems:
            painter = QPainter(self.viewport())
            painter.setPen(QColor(colours().dim))
            area = self.viewport().rect().adjusted(16, ROW_HEIGHT + 16, -16, 0)
            painter.drawText(area, Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap, EMPTY)
            painter.end()


def shortening(name: str) -> Qt.TextElideMode:
    """Where a name gives way: at its end, but before the number of like features, as in “Spray g…2 × 12”."""
    return Qt.TextElideMode.ElideMiddle if " × " in name else Qt.TextElideMode.ElideRight


class _Rows(QStyledItemDelegate):
    """Rows of one height: the name at the left, the key number at the right, the name giving way."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802
        return QSize(super().sizeHint(option, index).width(), ROW_HEIGHT)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        number = index.sibling(index.row(), NUMBER)
        text, area = number.data(), option.rect.adjusted(0, 0, -EDGE, 0)
        taken = option.fontMetrics.horizontalAdvance(text) + EDGE
        room = QStyleOptionViewItem(option)
        self.initStyleOption(room, index)
        room.text = room.fontMetrics.elidedText(room.text, shortening(room.text), area.width() - taken - EDGE)
        style = room.widget.style()
        style.drawControl(QStyle.ControlElement.CE_ItemViewItem, room, painter, room.widget)
        painter.setPen(number.data(Qt.ItemDataRole.ForegroundRole))
        painter.setFont(option.font)
        painter.drawText(area.translated(0, -1), Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, text)

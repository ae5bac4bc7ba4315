"""The site as a tree for views: what each row shows, its name edited in place, and dragging."""

from collections.abc import Sequence
from typing import Any

from pydantic import ValidationError
from PySide6.QtCore import QMimeData, QModelIndex, Qt, Signal
from PySide6.QtGui import QColor, QFont

from waterpark_designer.engine.findings import Status
from waterpark_designer.gui.moves import site_after_drop
from waterpark_designer.gui.site_rows import SiteRow
from waterpark_designer.gui.theme import colours
from waterpark_designer.gui.tree_rows import NAME, NUMBER, Entry, Index, TreeRows
from waterpark_designer.model.edits import EditRefused, revise
from waterpark_designer.model.features import Feature
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import find
from waterpark_designer.model.zones import Zone

MIME_TYPE = "application/x-waterpark-node"
NODE_ROLE = Qt.ItemDataRole.UserRole
ItemRole = Qt.ItemDataRole
# Put together once: a layout of the tree asks for the flags of every row.
SITE_FLAGS = (
    Qt.ItemFlag.ItemIsEnabled
    | Qt.ItemFlag.ItemIsSelectable
    | Qt.ItemFlag.ItemIsDropEnabled
    | Qt.ItemFlag.ItemIsEditable
)
NUMBER_FLAGS = (
    Qt.ItemFlag.ItemIsEnabled
    | Qt.ItemFlag.ItemIsSelectable
    | Qt.ItemFlag.ItemIsDropEnabled
    | Qt.ItemFlag.ItemIsDragEnabled
)
NAME_FLAGS = NUMBER_FLAGS | Qt.ItemFlag.ItemIsEditable
ALIGN_NUMBER = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
BOLD_SORTS = (Site, RecirculationSystem)


class SiteTreeModel(TreeRows):
    """The site, its systems, their attractions, and the zones and features of these."""

    refused = Signal(str)
    """An edit that makes no sense here, in plain words."""

    def data(self, index: Index, role: int = ItemRole.DisplayRole) -> Any:
        entry = self.entry(index)
        if entry is None:
            return None
        if role == ItemRole.DisplayRole:
            return entry.row.name if index.column() == NAME else entry.row.marked_number
        if role == ItemRole.EditRole and index.column() == NAME:
            return entry.node.name
        return self._dress(entry, index.column(), role)

    def _dress(self, entry: Entry, column: int, role: int) -> Any:
        if role in (ItemRole.ToolTipRole, ItemRole.StatusTipRole):
            return entry.row.tip if role == ItemRole.ToolTipRole else entry.row.tip.replace("\n", " · ")
        if role == ItemRole.TextAlignmentRole and column == NUMBER:
            return ALIGN_NUMBER
        if role == ItemRole.FontRole and column == NAME and isinstance(entry.node, BOLD_SORTS):
            return _bold()
        if role == ItemRole.ForegroundRole:
            return QColor(_ink(entry, column))
        if role == ItemRole.AccessibleTextRole and column == NAME:
            return f"{entry.row.name}, {entry.row.number}, {_status_words(entry.row)}"
        return entry.node.id if role == NODE_ROLE else None

    def headerData(  # noqa: N802
        self, section: int, orientation: Qt.Orientation, role: int = ItemRole.DisplayRole
    ) -> Any:
        if orientation is Qt.Orientation.Horizontal and role == ItemRole.DisplayRole:
            return ("Part of the site", "Key number")[section]
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        entry = self.entry(index)
        if entry is None:
            return Qt.ItemFlag.ItemIsDropEnabled
        if entry is self._root:
            return SITE_FLAGS
        return NAME_FLAGS if index.column() == NAME else NUMBER_FLAGS

    def setData(self, index: Index, value: Any, role: int = ItemRole.EditRole) -> bool:  # noqa: N802
        entry = self.entry(index)
        if entry is None or role != ItemRole.EditRole or index.column() != NAME:
            return False
        try:
            after = revise(self._project.site, entry.node.id, name=str(value))
        except ValidationError:
            self.refused.emit("A name needs between 1 and 200 letters.")
            return False
        self._project.edit(f"Rename {entry.node.name}", after)
        return True

    def supportedDropActions(self) -> Qt.DropAction:  # noqa: N802
        return Qt.DropAction.MoveAction

    def mimeTypes(self) -> list[str]:  # noqa: N802
        return [MIME_TYPE]

    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:  # noqa: N802
        mime = QMimeData()
        node = next((self.node_at(index) for index in indexes), None)
        mime.setData(MIME_TYPE, (node.id if node else "").encode())
        return mime

    def canDropMimeData(  # noqa: N802
        self, data: QMimeData, action: Qt.DropAction, row: int, column: int, parent: Index
    ) -> bool:
        return self._dropped(data, row, parent) is not None

    def dropMimeData(  # noqa: N802
        self, data: QMimeData, action: Qt.DropAction, row: int, column: int, parent: Index
    ) -> bool:
        dropped = self._dropped(data, row, parent)
        if dropped is None:
            self.refused.emit("It cannot stand there.")
            return False
        node, after = dropped
        self._project.edit(f"Move {node.name}", after)
        return False  # the move is done; True would have the view remove the row

    def _dropped(self, data: QMimeData, row: int, parent: Index) -> tuple[Node, Site] | None:
        """The node that is dragged and the site after the drop; nothing where it cannot stand there."""
        site = self._project.site
        node = find(site, bytes(data.data(MIME_TYPE).data()).decode())
        if node is None:
            return None
        try:
            return node, site_after_drop(site, node, self.node_at(parent) or site, row)
        except EditRefused:
            return None


def _bold() -> QFont:
    font = QFont()
    font.setBold(True)
    return font


def _ink(entry: Entry, column: int) -> str:
    """Failing rows in the colour of their status, which a mark and words say too; figures dimmed."""
    if column == NUMBER and entry.row.status is not None:
        return {Status.NOT_MET: colours().error, Status.CAUTION: colours().caution}.get(entry.row.status, colours().dim)
    if column == NUMBER or isinstance(entry.node, (Feature, Zone)):
        return colours().dim
    return colours().ink


def _status_words(row: SiteRow) -> str:
    return row.status.label if row.status else "checks met"

"""The rows of the site's tree: they keep their identity through every edit, and only changed ones repaint.

After an edit the new site is compared with the one on screen only where its parts are not the same objects;
rows are put in, taken out and moved one by one, so that views keep what is open and selected.
"""

import functools
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from PySide6.QtCore import QAbstractItemModel, QModelIndex, QObject, QPersistentModelIndex

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.site_rows import SiteRow, children_shown, row_of
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.walk import parent_of

Index = QModelIndex | QPersistentModelIndex
NAME, NUMBER = 0, 1


@dataclass(slots=True, eq=False)
class Entry:
    """A row that lives as long as its node is on the site; `settled` is the node whose children it shows."""

    handle: int
    node: Node
    parent: "Entry | None"
    row: SiteRow
    settled: Node | None = None
    children: "list[Entry]" = field(default_factory=list)


class TreeRows(QAbstractItemModel):
    """The structure of the tree and how it follows edits; what a row shows is its subclass's matter."""

    def __init__(self, project: OpenProject, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self._by_handle: dict[int, Entry] = {}
        self._by_id: dict[str, Entry] = {}
        self._next_handle = 1
        self._root = self._made(project.site, None, project.design)
        self._arrange(self._root, project.site, project.design, set())
        project.design_changed.connect(self._adopt)

    def index_of(self, node: str, column: int = NAME) -> QModelIndex:
        """The index of a node; of the body of water where the node is its only zone; else none."""
        entry = self._by_id.get(node)
        if entry is None:
            holder = parent_of(self._project.site, node)
            entry = self._by_id.get(holder.id) if holder else None
        return self._index(entry, column) if entry else QModelIndex()

    def node_at(self, index: Index) -> Node | None:
        entry = self.entry(index)
        return entry.node if entry else None

    def index(self, row: int, column: int, parent: Index = QModelIndex()) -> QModelIndex:  # noqa: B008
        if not 0 <= column < 2 or row < 0:
            return QModelIndex()
        holder = self.entry(parent)
        rows = holder.children if holder else [self._root]
        return self.createIndex(row, column, rows[row].handle) if row < len(rows) else QModelIndex()

    def parent(self, index: Index = QModelIndex()) -> Any:  # noqa: B008
        entry = self.entry(index)
        return self._index(entry.parent) if entry and entry.parent else QModelIndex()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        if not parent.isValid():
            return 1
        entry = self.entry(parent)
        return len(entry.children) if entry and parent.column() == NAME else 0

    def hasChildren(self, parent: Index = QModelIndex()) -> bool:  # noqa: B008, N802
        return self.rowCount(parent) > 0

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008, N802
        return 2

    def _adopt(self, before: SiteDesign, now: SiteDesign) -> None:
        touched: set[Entry] = set()
        if now.site is not self._root.node:
            self._prune(self._root, now.site, _Shown(now.site))
            self._arrange(self._root, now.site, now, touched)
        if before.site.units is not now.site.units:
            touched.update(self._by_id.values())
        else:
            touched.update(self._entries_with_new_sheets(before, now))
        for entry in touched:
            self._refresh(entry, now)

    def _prune(self, entry: Entry, node: Node, shown: "_Shown") -> None:
        """Take out the rows whose nodes are no longer shown, looking only where the site changed."""
        if entry.settled is node:
            return
        wanted = children_shown(node)
        if _same_ids(entry.children, wanted):
            for child, now in zip(entry.children, wanted, strict=True):
                if child.settled is not now:
                    self._prune(child, now, shown)
            return
        kept = {child.id: child for child in wanted}
        for child in list(entry.children):
            goes_on = kept.get(child.node.id) or shown.node(child.node.id)
            if goes_on is not None:
                self._prune(child, goes_on, shown)
            else:
                self._rescue(child, entry, shown)
                self._remove(entry, child)

    def _rescue(self, leaving: Entry, holder: Entry, shown: "_Shown") -> None:
        """Rows that live on elsewhere move out of one that leaves, so that they stay selected and open."""
        for child in list(leaving.children):
            goes_on = shown.node(child.node.id)
            if goes_on is None:
                self._rescue(child, holder, shown)
            else:
                self._move(child, holder, len(holder.children))
                self._prune(child, goes_on, shown)

    def _remove(self, holder: Entry, child: Entry) -> None:
        row = holder.children.index(child)
        self.beginRemoveRows(self._index(holder), row, row)
        holder.children.pop(row)
        self._forget(child)
        self.endRemoveRows()

    def _arrange(self, entry: Entry, node: Node, design: SiteDesign, touched: set[Entry]) -> None:
        """Bring the rows below an entry into the order of its node's children, making those that are new."""
        if entry.settled is node:
            return
        entry.node = entry.settled = node
        wanted = children_shown(node)
        if not _same_ids(entry.children, wanted):
            for row, child in enumerate(wanted):
                self._place(entry, row, child, wanted, design)
        for held, child in zip(entry.children, wanted, strict=False):
            if held.settled is not child:
                self._arrange(held, child, design, touched)
        touched.add(entry)

    def _place(self, entry: Entry, row: int, child: Node, wanted: tuple[Node, ...], design: SiteDesign) -> None:
        rows = entry.children
        if row < len(rows) and rows[row].node.id == child.id:
            return
        known = self._by_id.get(child.id)
        if known is None:
            self.beginInsertRows(self._index(entry), row, row)
            rows.insert(row, self._made(child, entry, design))
            self.endInsertRows()
        elif row + 1 < len(rows) and rows[row + 1] is known:
            # The row in the way went down: one move instead of one for each row it passed.
            self._move(rows[row], entry, _row_after(rows[row].node.id, wanted, len(rows)))
        else:
            self._move(known, entry, row)

    def _move(self, child: Entry, holder: Entry, row: int) -> None:
        """Move a row to stand before `row` of its new holder as it was before the move."""
        old = child.parent
        assert old is not None
        at = old.children.index(child)
        if old is holder and row in (at, at + 1):
            return
        self.beginMoveRows(self._index(old), at, at, self._index(holder), row)
        old.children.pop(at)
        holder.children.insert(row - 1 if old is holder and row > at else row, child)
        child.parent = holder
        self.endMoveRows()

    def _entries_with_new_sheets(self, before: SiteDesign, now: SiteDesign) -> Iterator[Entry]:
        old = before.sheets.get
        for node, sheet in now.sheets.items():
            if old(node) is not sheet:
                entry = self._by_id.get(node)
                if entry:
                    yield entry

    def _refresh(self, entry: Entry, design: SiteDesign) -> None:
        """Read a row again, and have it repainted where it reads differently."""
        row = row_of(entry.node, design)
        if row != entry.row:
            entry.row = row
            self.dataChanged.emit(self._index(entry, NAME), self._index(entry, NUMBER))

    def _made(self, node: Node, parent: Entry | None, design: SiteDesign) -> Entry:
        entry = Entry(self._next_handle, node, parent, row_of(node, design))
        self._next_handle += 1
        self._by_handle[entry.handle] = self._by_id[node.id] = entry
        return entry

    def _forget(self, entry: Entry) -> None:
        del self._by_handle[entry.handle], self._by_id[entry.node.id]
        for child in entry.children:
            self._forget(child)

    def entry(self, index: Index) -> Entry | None:
        return self._by_handle.get(index.internalId()) if index.isValid() else None

    def _index(self, entry: Entry, column: int = NAME) -> QModelIndex:
        row = entry.parent.children.index(entry) if entry.parent else 0
        return self.createIndex(row, column, entry.handle)


class _Shown:
    """The nodes that stand in the tree of a site, listed only if somebody asks."""

    def __init__(self, site: Site) -> None:
        self._site = site

    @functools.cached_property
    def _nodes(self) -> dict[str, Node]:
        return dict(_shown_below(self._site))

    def node(self, node: str) -> Node | None:
        return self._nodes.get(node)


def _shown_below(node: Node) -> Iterator[tuple[str, Node]]:
    yield node.id, node
    for child in children_shown(node):
        yield from _shown_below(child)


def _same_ids(rows: list[Entry], nodes: tuple[Node, ...]) -> bool:
    return len(rows) == len(nodes) and all(row.node.id == node.id for row, node in zip(rows, nodes, strict=True))


def _row_after(node: str, wanted: tuple[Node, ...], rows: int) -> int:
    """The row before which a displaced row goes: behind its place in the new order, or last."""
    place = next((at for at, child in enumerate(wanted) if child.id == node), None)
    return rows if place is None else min(place + 1, rows)

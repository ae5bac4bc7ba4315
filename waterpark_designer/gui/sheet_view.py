"""A table that is filled like a sheet: its first column stays, and cells open as soon as something is typed."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView

from waterpark_designer.gui.theme import role

Index = QModelIndex | QPersistentModelIndex


class SheetView(QTableView):
    """The look and the scrolling that tables of entries share."""

    def scrollTo(  # noqa: N802
        self, index: Index, hint: QAbstractItemView.ScrollHint = QAbstractItemView.ScrollHint.EnsureVisible
    ) -> None:
        """Bring a cell into sight, not behind the first column."""
        super().scrollTo(index, hint)
        hidden = self.columnWidth(0) - self.visualRect(index).left()
        if index.column() > 0 and hidden > 0:
            bar = self.horizontalScrollBar()
            bar.setValue(bar.value() - hidden)

    def look_like_a_sheet(self, name: str, row_height: int, least_width: int) -> None:
        """Rows of one height without a grid; typing edits, and `name` is what a screen reader says."""
        self.setAccessibleName(name)
        role(self, "sheet").setShowGrid(False)
        self.setCornerButtonEnabled(False)
        self.setWordWrap(False)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        triggers = QAbstractItemView.EditTrigger
        self.setEditTriggers(triggers.DoubleClicked | triggers.EditKeyPressed | triggers.AnyKeyPressed)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setDefaultSectionSize(row_height)
        self.horizontalHeader().setHighlightSections(False)
        self.horizontalHeader().setMinimumSectionSize(least_width)

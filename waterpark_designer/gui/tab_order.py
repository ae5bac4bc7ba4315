"""Tab through a pane from the top down, in whatever order its parts were made."""

from collections.abc import Iterator

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QWidget

TAB = Qt.FocusPolicy.TabFocus
REASONS = {True: Qt.FocusReason.TabFocusReason, False: Qt.FocusReason.BacktabFocusReason}


def tab_stops(pane: QWidget) -> list[QWidget]:
    """The parts of a pane on screen at which Tab stops, line by line."""
    return sorted(_stops_in(pane), key=lambda part: _place(part, pane))


def focus_next_in(pane: QWidget, onwards: bool) -> bool:
    """Give the keyboard to the next stop, or to the one before; beyond either end, to what is outside of the pane."""
    here, stops = pane.window().focusWidget(), tab_stops(pane)
    if here is None or here not in stops:
        return False
    place = stops.index(here) + (1 if onwards else -1)
    target = stops[place] if 0 <= place < len(stops) else _outside(pane, onwards)
    if target is not None:
        target.setFocus(REASONS[onwards])
    return target is not None


def _stops_in(part: QWidget) -> Iterator[QWidget]:
    for child in part.children():
        if isinstance(child, QWidget) and not child.isHidden() and not child.isWindow():
            if _is_stop(child):
                yield child
            else:
                yield from _stops_in(child)


def _is_stop(part: QWidget) -> bool:
    return bool(part.focusPolicy() & TAB) and part.focusProxy() is None and part.isEnabled()


def _place(part: QWidget, pane: QWidget) -> tuple[int, int]:
    at = part.mapTo(pane, QPoint(0, 0))
    return at.y(), at.x()


def _outside(pane: QWidget, onwards: bool) -> QWidget | None:
    """The stop after the pane, or before it, in the window's own order."""
    step = QWidget.nextInFocusChain if onwards else QWidget.previousInFocusChain
    part: QWidget | None = step(pane)
    while part is not None and part is not pane:
        if part.isVisible() and _is_stop(part) and not pane.isAncestorOf(part):
            return part
        part = step(part)
    return None

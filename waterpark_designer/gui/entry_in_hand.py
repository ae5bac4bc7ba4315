"""The field or cell somebody is typing in: taking what is typed, and the Edit menu's work on its text."""

from collections.abc import Callable

from PySide6.QtWidgets import QAbstractItemView, QLineEdit, QPlainTextEdit, QWidget

Text = QLineEdit | QPlainTextEdit
TEXT_COMMANDS: dict[str, Callable[[Text], object]] = {
    "cut": lambda text: text.cut(),
    "copy": lambda text: text.copy(),
    "paste": lambda text: text.paste(),
    "delete": lambda text: text.del_() if isinstance(text, QLineEdit) else text.textCursor().deleteChar(),
}


def text_in_hand(window: QWidget) -> Text | None:
    """The line or text of a window that has its keyboard."""
    field = window.focusWidget()
    return field if isinstance(field, Text) and field.isVisible() else None


def finish_typing(window: QWidget) -> None:
    """Take what is typed and not entered yet: leaving a field or a cell enters it."""
    field = text_in_hand(window)
    if field is None:
        return
    table = _table_of(field)
    if table is not None:
        table.setFocus()  # the cell closes, and its table has the keyboard again
    else:
        field.clearFocus()
        field.setFocus()


def edit_text(window: QWidget, command: str) -> bool:
    """Do one of TEXT_COMMANDS in the text that has the keyboard; False where the command or the text is another."""
    text = text_in_hand(window)
    if text is None or command not in TEXT_COMMANDS:
        return False
    TEXT_COMMANDS[command](text)
    return True


def _table_of(field: QWidget) -> QAbstractItemView | None:
    """The table or tree in whose cell the field stands."""
    viewport = field.parentWidget()
    holder = viewport.parentWidget() if viewport is not None else None
    return holder if isinstance(holder, QAbstractItemView) else None

"""Messages: a title, plain words, and buttons that say what they do."""

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from waterpark_designer.gui.theme import role

TEXT_WIDTH = 460


@dataclass(frozen=True, slots=True)
class Choice:
    """One button: the key it answers with, its words, and its look (primary, quiet or none)."""

    key: str
    label: str
    look: str = ""


CLOSE = Choice("close", "Close", "primary")


class Message(QDialog):
    """A message with its choices; Escape answers with the last of them, Enter with the first."""

    def __init__(self, parent: QWidget | None, title: str, text: str, choices: Iterable[Choice] = (CLOSE,)) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setModal(True)
        self.choices = tuple(choices)
        self.answer = self.choices[-1].key
        self.buttons = {choice.key: self._button(choice) for choice in self.choices}
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 20, 24, 18)
        layout.setSpacing(12)
        layout.addWidget(_words(role(QLabel(title), "heading")))
        layout.addWidget(_words(QLabel(text)))
        layout.addSpacing(6)
        layout.addLayout(self._row_of_buttons())
        first = self.buttons[self.choices[0].key]
        first.setDefault(True)
        first.setFocus()

    def _row_of_buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.addStretch(1)
        for button in reversed(self.buttons.values()):
            row.addWidget(button)
        return row

    def _button(self, choice: Choice) -> QPushButton:
        button = QPushButton(choice.label)
        button.clicked.connect(lambda: self._answer_with(choice.key))
        return role(button, choice.look) if choice.look else button

    def _answer_with(self, key: str) -> None:
        self.answer = key
        self.accept()


def _words(label: QLabel) -> QLabel:
    """A label that shows text as it is: no markup, wrapped, copied with the mouse."""
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setMinimumWidth(TEXT_WIDTH)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label


def ask(parent: QWidget | None, title: str, text: str, choices: Iterable[Choice]) -> str:
    """Show a message and wait; the key of the choice taken."""
    message = Message(parent, title, text, choices)
    message.exec()
    message.deleteLater()
    return message.answer


def tell(parent: QWidget | None, title: str, text: str) -> None:
    """Show a message that can only be read and closed."""
    ask(parent, title, text, (CLOSE,))

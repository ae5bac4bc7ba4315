"""Offering the projects that a crash left behind."""

from enum import StrEnum

from PySide6.QtCore import QDateTime
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from waterpark_designer.gui.message import Choice, ask
from waterpark_designer.gui.theme import role
from waterpark_designer.storage.recovery import Recoverable

EXPLANATION = (
    "The program ended before these changes were saved. Open one to go on where it stopped; "
    "the file it was read from stays as it is until you save."
)


class Recovery(StrEnum):
    """What to do with a project that a crash left behind."""

    OPEN = "open"
    DELETE = "delete"
    LATER = "later"


class RecoveryPrompt(QDialog):
    """A list of recoverable projects; Escape leaves them for the next start."""

    def __init__(self, parent: QWidget | None, found: tuple[Recoverable, ...]) -> None:
        super().__init__(parent)
        self.setWindowTitle("Recovered projects")
        self.found = found
        self.answer = Recovery.LATER
        self.list = self._list()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 20, 24, 18)
        layout.setSpacing(12)
        layout.addWidget(role(QLabel("Unsaved work was recovered"), "heading"))
        explanation = QLabel(EXPLANATION)
        explanation.setWordWrap(True)
        layout.addWidget(explanation)
        layout.addWidget(self.list, 1)
        layout.addLayout(self._buttons())
        self.resize(600, 320)

    @property
    def chosen(self) -> Recoverable:
        """The project that is selected."""
        return self.found[self.list.currentRow()]

    def _list(self) -> QListWidget:
        view = role(QListWidget(), "choices")
        view.setAccessibleName("Recovered projects")
        for one in self.found:
            item = QListWidgetItem(f"{one.name}\n{_when(one)} · {one.path or 'never saved'}")
            item.setToolTip(str(one.path or "This project was never saved."))
            view.addItem(item)
        view.setCurrentRow(0)
        view.itemActivated.connect(lambda _item: self._answer_with(Recovery.OPEN))
        return view

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        for name, text, look in (
            (Recovery.DELETE, "Delete this copy", ""),
            (Recovery.LATER, "Decide later", ""),
            (Recovery.OPEN, "Open", "primary"),
        ):
            button = QPushButton(text)
            button.setObjectName(name)
            button.clicked.connect(lambda _checked=False, answer=name: self._answer_with(answer))
            row.addWidget(role(button, look) if look else button)
            if name is Recovery.DELETE:
                row.addStretch(1)
        button.setDefault(True)
        return row

    def _answer_with(self, answer: Recovery) -> None:
        if answer is Recovery.DELETE and not ask_delete(self, self.chosen):
            return
        self.answer = answer
        self.accept()


def ask_recovery(parent: QWidget, found: tuple[Recoverable, ...]) -> tuple[Recovery, Recoverable]:
    """Ask what to do with one of the projects found; Escape leaves them all."""
    prompt = RecoveryPrompt(parent, found)
    prompt.exec()
    prompt.deleteLater()
    return prompt.answer, prompt.chosen


def ask_delete(parent: QWidget, found: Recoverable) -> bool:
    """Ask once more before a recovery copy is deleted; Escape keeps it."""
    text = f"It was kept on {_when(found)}. What was not saved by then cannot be brought back without it."
    choices = (Choice("delete", "Delete it", "primary"), Choice("keep", "Keep it"))
    return ask(parent, f"Delete the recovery copy of {found.name}?", text, choices) == "delete"


def _when(one: Recoverable) -> str:
    return QDateTime.fromSecsSinceEpoch(int(one.kept_at)).toString("yyyy-MM-dd HH:mm")

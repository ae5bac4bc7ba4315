"""The rule sets in use, in the order in which they are asked."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QMenu,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from waterpark_designer.gui.keys import on_key
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.theme import role
from waterpark_designer.rules.rule_set import RuleSet

KEY_ROLE = Qt.ItemDataRole.UserRole
NOT_INSTALLED = "This rule set is not installed, so none of its limits is applied."
NONE_IN_USE = "No rule set is in use: the code basis is silent on everything. Add a rule set."


class CodeBasisOrder(QFrame):
    """The ordered list, with adding, removing and moving as undoable edits, and what each rule set is."""

    def __init__(self, project: OpenProject, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        role(self, "panel")
        self.project = project
        self.list = QListWidget()
        self.list.setAccessibleName("Rule sets in use, in order")
        self.list.setWordWrap(True)
        self.list.setStyleSheet("QListView::item { padding: 5px 6px; }")
        self.add_button = QPushButton("Add rule set…")
        self.up_button = QPushButton("Move up")
        self.down_button = QPushButton("Move down")
        self.remove_button = QPushButton("Remove")
        self.about = role(QLabel(), "dim")
        self.caution = role(QLabel(), "caution")
        self._lay_out()
        self._connect()
        self.refresh()

    def menu_of_others(self) -> QMenu:
        """A menu of the installed rule sets that are not in use: whole codes first, then supplements."""
        menu = QMenu(self)
        rule_sets = self.project.library.rule_sets
        others = [rule_sets[key] for key in rule_sets if key not in self.project.site.code_basis]
        for rule_set in sorted(others, key=lambda each: (each.supplement, each.jurisdiction, each.title)):
            action = QAction(f"{rule_set.jurisdiction}: {title_of(rule_set)}", menu)
            action.triggered.connect(lambda _checked=False, key=rule_set.key: self.add(key))
            menu.addAction(action)
        if not others:
            menu.addAction("Every installed rule set is in use.").setEnabled(False)
        return menu

    def add(self, key: str) -> None:
        """Put a rule set at the end of the code basis."""
        self._set((*self.project.site.code_basis, key), f"Add {self._name(key)} to the code basis", key)

    def refresh(self) -> None:
        """Show the project's code basis, staying at the rule set of before."""
        current = self._current_key()
        keys = self.project.site.code_basis
        self.list.blockSignals(True)
        self.list.clear()
        for number, key in enumerate(keys, 1):
            item = QListWidgetItem(f"{number}.  {self._name(key)}")
            item.setData(KEY_ROLE, key)
            self.list.addItem(item)
        self.list.setCurrentRow(keys.index(current) if current in keys else 0)
        self.list.blockSignals(False)
        self._show_current()

    def _lay_out(self) -> None:
        heading = role(QLabel("Rule sets, in order"), "heading")
        how = role(QLabel("Local amendments come first. Then the first that states a limit gives it."), "dim")
        moves = QHBoxLayout()
        moves.setSpacing(6)
        for button in (self.up_button, self.down_button, self.remove_button):
            moves.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 14, 16, 14)
        column.setSpacing(8)
        for widget in (heading, how, self.list):
            column.addWidget(widget)
        column.addLayout(moves)
        column.addWidget(self.add_button)
        column.addSpacing(6)
        for label in (self.about, self.caution):
            column.addWidget(label)
        for label in (how, self.about, self.caution):
            label.setWordWrap(True)
        column.setStretchFactor(self.list, 1)

    def _connect(self) -> None:
        self.add_button.clicked.connect(self._offer)
        self.up_button.clicked.connect(lambda: self._move(-1))
        self.down_button.clicked.connect(lambda: self._move(1))
        self.remove_button.clicked.connect(self._remove)
        self.list.currentRowChanged.connect(lambda _row: self._show_current())
        shortcuts = {"Alt+Up": self.up_button, "Alt+Down": self.down_button, "Del": self.remove_button}
        for keys, act in shortcuts.items():
            on_key(self.list, keys, act.click)
            act.setToolTip(f"{act.text()} ({keys})")

    def _offer(self) -> None:
        menu = self.menu_of_others()
        menu.exec(self.add_button.mapToGlobal(QPoint(0, self.add_button.height())))

    def _current_key(self) -> str:
        item = self.list.currentItem()
        return item.data(KEY_ROLE) if item else ""

    def _name(self, key: str) -> str:
        rule_set = self.project.library.rule_sets.get(key)
        return title_of(rule_set) if rule_set else f"{key}, not installed"

    def _show_current(self) -> None:
        key, row, count = self._current_key(), self.list.currentRow(), self.list.count()
        self.up_button.setEnabled(row > 0)
        self.down_button.setEnabled(0 <= row < count - 1)
        self.remove_button.setEnabled(bool(key))
        rule_set = self.project.library.rule_sets.get(key)
        if rule_set:
            self.about.setText(about(rule_set))
            self.caution.setText(rule_set.caution)
        else:
            self.about.setText("")
            self.caution.setText(NOT_INSTALLED if key else NONE_IN_USE)
        self.about.setVisible(bool(self.about.text()))
        self.caution.setVisible(bool(self.caution.text()))

    def _move(self, by: int) -> None:
        key, keys = self._current_key(), list(self.project.site.code_basis)
        place = keys.index(key)
        keys.insert(place + by, keys.pop(place))
        self._set(tuple(keys), f"Move {self._name(key)} in the code basis", key)

    def _remove(self) -> None:
        key = self._current_key()
        left = tuple(each for each in self.project.site.code_basis if each != key)
        self._set(left, f"Remove {self._name(key)} from the code basis")

    def _set(self, keys: tuple[str, ...], text: str, stay_at: str = "") -> None:
        self.project.edit(text, self.project.site.revised(code_basis=keys))
        row = keys.index(stay_at) if stay_at in keys else min(self.list.currentRow(), len(keys) - 1)
        self.list.setCurrentRow(row)


def title_of(rule_set: RuleSet) -> str:
    """Title of a rule set, with the word for one that only adds to another."""
    return f"{rule_set.title}, supplement" if rule_set.supplement else rule_set.title


def about(rule_set: RuleSet) -> str:
    """What a rule set is, in a few lines."""
    count = len(rule_set.limits)
    kind = "Supplement: states only a few limits." if rule_set.supplement else ""
    lines = (rule_set.jurisdiction, rule_set.document, f"{count} limits." if count != 1 else "1 limit.", kind)
    return "\n".join(line for line in lines if line)

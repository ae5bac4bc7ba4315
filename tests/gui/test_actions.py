"""Every action is in a menu, has its own keys, and says what it does."""

import pytest
from PySide6.QtCore import QObject
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMenuBar

from waterpark_designer.gui.actions import MENUS, SEPARATOR, Actions, Submenu


@pytest.fixture
def actions(qtbot):
    bar, holder = QMenuBar(), QObject()
    qtbot.addWidget(bar)
    made = Actions(holder)
    made.fill(bar)
    made.keep = (bar, holder)
    return made


def specs():
    for entries in MENUS.values():
        for entry in entries:
            if isinstance(entry, Submenu):
                yield from entry.entries
            elif entry is not SEPARATOR:
                yield entry


def test_no_two_actions_share_their_keys(actions) -> None:
    taken: dict[str, str] = {}
    for spec in specs():
        for keys in actions[spec.key].shortcuts():
            text = keys.toString(QKeySequence.SequenceFormat.PortableText)
            assert text not in taken, f"{spec.key} and {taken.get(text)} both use {text}"
            taken[text] = spec.key
    assert len(taken) > 20


def test_letters_to_press_in_a_menu_are_its_own() -> None:
    for title, entries in MENUS.items():
        letters = [entry.text[entry.text.index("&") + 1].lower() for entry in entries if "&" in entry.text]
        assert len(letters) == len(set(letters)), f"{title}: {letters}"


def test_no_two_actions_share_their_name() -> None:
    keys = [spec.key for spec in specs()]
    assert len(keys) == len(set(keys))


def test_every_action_but_the_plainest_says_what_it_does() -> None:
    silent = {spec.key for spec in specs() if not spec.tip}
    assert silent == {"system", "light", "dark"}


def test_what_needs_a_project_waits_for_one(actions) -> None:
    actions.enable(False)
    assert actions["open"].isEnabled() and not actions["save"].isEnabled()
    assert not actions.menus["attraction"].isEnabled()
    actions.enable(True)
    assert actions["save"].isEnabled() and actions.menus["attraction"].isEnabled()


def test_page_of_keys_lists_each_action_with_keys(actions) -> None:
    listed = dict(actions.with_keys())
    assert listed["Put a copy beside the selected part."] == "Ctrl+D"
    assert len(listed) == sum(not actions[spec.key].shortcut().isEmpty() for spec in specs())

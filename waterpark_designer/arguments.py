"""What the arguments of the program ask for; read before anything else is loaded."""

from collections.abc import Sequence
from pathlib import Path

from waterpark_designer.storage.glance import SUFFIX

COMMANDS = ("figures", "checks", "export")


def wants_window(arguments: Sequence[str]) -> bool:
    """Whether these arguments ask for the window: none at all, or one project file."""
    if not arguments:
        return True
    first = arguments[0]
    named_so = first.lower().endswith(SUFFIX) or Path(first).exists()
    return len(arguments) == 1 and first not in COMMANDS and not first.startswith("-") and named_so

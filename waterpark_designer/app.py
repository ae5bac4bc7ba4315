"""Where the program begins: a command without a window, or the window."""

import gc
import os
import sys
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from waterpark_designer.arguments import wants_window

if TYPE_CHECKING:
    from waterpark_designer.library import Library


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command that the arguments name, or open the window; returns the exit code."""
    tune_memory()
    given = list(sys.argv[1:] if arguments is None else arguments)
    if wants_window(given):
        return _open_window(given)
    from waterpark_designer import headless

    return headless.run(given)


def window() -> int:
    """Open the window; for the desktop's own ways to start a program."""
    return main()


def tune_memory() -> None:
    """Collect garbage seldom: a design is one large tree of small objects that all stay, and looking through them
    at the interpreter's own pace takes half the time of a full computation.
    """
    gc.set_threshold(50_000, 20, 50)


NO_DISPLAY = (
    "There is no display to open a window on. Use the commands that need none "
    "(waterpark-designer --help), or set DISPLAY or WAYLAND_DISPLAY."
)


def _open_window(arguments: list[str]) -> int:
    if _lacks_display(sys.platform, os.environ):
        print(NO_DISPLAY, file=sys.stderr)
        return 2
    from waterpark_designer.gui.application import run_window
    from waterpark_designer.resources import samples_folder

    return run_window(arguments, shipped_library, samples_folder())


def _lacks_display(platform: str, environment: Mapping[str, str]) -> bool:
    """Whether Qt would end the program for want of a display, as it does on Linux without a word of ours."""
    wanted = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    return platform.startswith("linux") and not any(environment.get(name) for name in wanted)


def shipped_library() -> "Library":
    """The rule sets and nominal sizes that the program ships; reading them loads model and engine."""
    from waterpark_designer.library import read_library
    from waterpark_designer.resources import resources_folder

    return read_library(resources_folder())

"""Every desk, dialog and state as a picture: `python -m tests.screens OUT [WORD]`.

Grabs each at two sizes, light and dark, into PNG files to be looked at; WORD keeps to the names that hold it.
"""

import os
import sys
import tempfile
from pathlib import Path

os.environ["QT_QPA_PLATFORM"] = "offscreen"

from PySide6.QtCore import QSettings  # noqa: E402
from PySide6.QtWidgets import QWidget  # noqa: E402

from tests.screens.stage import Stage  # noqa: E402
from tests.screens.states import STATES  # noqa: E402
from waterpark_designer.gui.application import make_application  # noqa: E402
from waterpark_designer.gui.theme import apply_theme  # noqa: E402
from waterpark_designer.library import read_library  # noqa: E402
from waterpark_designer.resources import resources_folder  # noqa: E402

SIZES = ((1440, 900), (1100, 700))


def main(out: Path, word: str = "") -> None:
    """Grab every state whose name holds the word."""
    out.mkdir(parents=True, exist_ok=True)
    app = make_application()
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    library = read_library(resources_folder())
    for theme in ("light", "dark"):
        apply_theme(app, theme)
        for width, height in SIZES:
            for name, show in STATES.items():
                if word in name:
                    with tempfile.TemporaryDirectory() as folder:
                        stage = Stage(library, Path(folder), (width, height))
                        _grab(show(stage), out / f"{name}-{width}x{height}-{theme}.png", stage)
                        stage.clear()


def _grab(widget: QWidget, path: Path, stage: Stage) -> None:
    stage.settle()
    widget.grab().save(str(path))


if __name__ == "__main__":
    main(Path(sys.argv[1]), *sys.argv[2:3])

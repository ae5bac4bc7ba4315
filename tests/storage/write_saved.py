"""Writes the saved sample of the current format anew: python tests/storage/write_saved.py

Only while that version of the format was never released; afterwards a change needs a version of its own.
"""

import runpy
from pathlib import Path

from waterpark_designer.storage import migrations
from waterpark_designer.storage.project_text import project_text

HERE = Path(__file__).parent


def main() -> None:
    make_full_site = runpy.run_path(str(HERE / "conftest.py"))["make_full_site"]
    (HERE / "saved" / f"v{migrations.CURRENT}.waterpark").write_bytes(project_text(make_full_site()))


if __name__ == "__main__":
    main()

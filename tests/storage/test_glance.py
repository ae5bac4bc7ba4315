"""A glance at a project file tells what the model would, and falls for no bad file."""

from pathlib import Path

import pytest

from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.glance import Glance, glance
from waterpark_designer.storage.project_file import load_project


@pytest.mark.parametrize("path", sorted(samples_folder().glob("*.waterpark")), ids=lambda path: path.stem)
def test_name_and_notes_are_those_of_the_site(path: Path) -> None:
    site = load_project(path).site
    assert glance(path) == Glance(site.name, site.notes)


@pytest.mark.parametrize(
    "content", [b"", b"{", b"\xff\xfe", b"[]", b"3", b'{"site": 3}', b'{"site": {}}', b"[" * 100_000]
)
def test_what_is_no_project_tells_nothing(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "bad.waterpark"
    path.write_bytes(content)
    assert glance(path) is None
    assert glance(tmp_path / "absent.waterpark") is None

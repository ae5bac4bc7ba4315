"""Export: a whole file or none, and why not in plain words."""

import errno
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from waterpark_designer.documents.export import SUFFIXES, ExportCancelled, ExportError, export
from waterpark_designer.engine.design import SiteDesign


@pytest.fixture(params=SUFFIXES)
def target(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    path = tmp_path / f"schedule{request.param}"
    path.write_bytes(b"the last issue")
    return path


def only_the_last_issue_is_there(target: Path) -> bool:
    return list(target.parent.iterdir()) == [target] and target.read_bytes() == b"the last issue"


def test_a_new_issue_takes_the_place_of_the_last(design: SiteDesign, target: Path) -> None:
    export(design, "salt-schedule", target)
    assert target.read_bytes() != b"the last issue" and list(target.parent.iterdir()) == [target]


def test_the_suffix_may_be_written_large(design: SiteDesign, tmp_path: Path) -> None:
    export(design, "checks", tmp_path / "CHECKS.CSV")
    assert (tmp_path / "CHECKS.CSV").stat().st_size > 100


@pytest.mark.parametrize(
    "number, words",
    [(errno.EACCES, "open in another program"), (errno.ENOSPC, "disk is full"), (errno.EROFS, "read-only")],
)
def test_a_target_that_cannot_be_replaced_stays_as_it_was(
    design: SiteDesign, target: Path, monkeypatch: pytest.MonkeyPatch, number: int, words: str
) -> None:
    def refuse(*_: object) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "replace", refuse)
    with pytest.raises(ExportError, match=words) as caught:
        export(design, "checks", target)
    assert target.name in str(caught.value) and str(target.parent) not in str(caught.value)
    assert only_the_last_issue_is_there(target)


def test_a_file_that_is_set_read_only_is_not_replaced(
    design: SiteDesign, target: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target.chmod(0o444)
    if os.access(target, os.W_OK):
        # The superuser may write everywhere; what the system answers others is answered here.
        monkeypatch.setattr(os, "access", lambda path, mode: not (mode & os.W_OK and Path(path) == target))
    with pytest.raises(ExportError, match="may not write there"):
        export(design, "checks", target)
    assert only_the_last_issue_is_there(target)


def test_a_folder_that_is_not_there(design: SiteDesign, tmp_path: Path) -> None:
    with pytest.raises(ExportError, match="the folder does not exist"):
        export(design, "checks", tmp_path / "nowhere" / "checks.pdf")


def test_a_folder_of_that_name(design: SiteDesign, tmp_path: Path) -> None:
    (tmp_path / "checks.pdf").mkdir()
    with pytest.raises(ExportError, match="a folder has that name"):
        export(design, "checks", tmp_path / "checks.pdf")


def test_a_form_that_is_not_known(design: SiteDesign, tmp_path: Path) -> None:
    with pytest.raises(ExportError, match=r"must end in .pdf, .xlsx or .csv"):
        export(design, "checks", tmp_path / "checks.doc")


def test_a_document_that_is_not_known(design: SiteDesign, tmp_path: Path) -> None:
    with pytest.raises(ExportError, match="site-summary, equipment-schedule"):
        export(design, "chequered", tmp_path / "checks.pdf")


def test_stopping_leaves_the_last_issue(design: SiteDesign, target: Path) -> None:
    with pytest.raises(ExportCancelled):
        export(design, "all", target, progress=lambda share: share < 0.5)
    assert only_the_last_issue_is_there(target)


def test_a_link_leads_to_the_file_that_is_replaced(design: SiteDesign, target: Path) -> None:
    link = target.with_name(f"link{target.suffix}")
    try:
        link.symlink_to(target)
    except OSError:
        pytest.skip("this system makes no links")
    export(design, "checks", link)
    assert link.is_symlink() and target.read_bytes() != b"the last issue"


FILLED = """
import resource, sys
from pathlib import Path
from tests.documents.invented_site import make_site
from waterpark_designer.documents.export import ExportError, export
from waterpark_designer.library import read_library
from waterpark_designer.resources import resources_folder
design = read_library(resources_folder()).design(make_site())
import waterpark_designer.documents.pdf_writer, waterpark_designer.documents.xlsx_writer
resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000))
try:
    export(design, "all", Path(sys.argv[1]))
except ExportError as error:
    print(error)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="file sizes are limited by the system on POSIX only")
def test_a_disk_that_takes_no_more(target: Path) -> None:
    """The system itself refuses to write beyond 2,000 bytes."""
    done: Any = subprocess.run(
        [sys.executable, "-c", FILLED, str(target)],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        cwd=Path(__file__).parents[2],
    )
    assert done.returncode == 0, done.stderr
    assert "was not written: the file would be larger than this disk allows" in done.stdout
    assert only_the_last_issue_is_there(target)

"""What a crash leaves behind is offered; what is still being edited, or was closed in order, is not."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from waterpark_designer.model.site import Site
from waterpark_designer.storage import processes, recovery
from waterpark_designer.storage.project_file import ChangedOnDisk, ProjectFileError, load_project, save_project
from waterpark_designer.storage.recovery import RecoveryCopy, recoverable_projects

CRASHING = """
import os, sys
from pathlib import Path
from waterpark_designer.storage.project_file import load_project
from waterpark_designer.storage.recovery import RecoveryCopy
folder, path = Path(sys.argv[1]), Path(sys.argv[2])
loaded = load_project(path)
copy = RecoveryCopy(folder)
copy.keep(loaded.site.revised(name="Edited before the crash"), path, loaded.fingerprint)
os.kill(os.getpid(), 9)
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "recovery"


@pytest.fixture
def dead_process() -> int:
    """The number of a process that ran and ended."""
    with subprocess.Popen([sys.executable, "-c", ""]) as ended:
        ended.wait()
    return ended.pid


def test_nothing_kept_nothing_offered(folder: Path) -> None:
    assert recoverable_projects(folder) == ()


def test_after_a_real_crash(folder: Path, tmp_path: Path, full_site: Site) -> None:
    path = tmp_path / "a.waterpark"
    mark = save_project(full_site, path, None)
    crashed = subprocess.run([sys.executable, "-c", CRASHING, str(folder), str(path)], check=False)
    assert crashed.returncode != 0
    (found,) = recoverable_projects(folder)
    assert (found.name, found.path, found.fingerprint) == ("Edited before the crash", path, mark)
    assert found.site() == full_site.revised(name="Edited before the crash")
    assert load_project(path).site == full_site
    save_project(found.site(), path, found.fingerprint)
    found.discard()
    assert recoverable_projects(folder) == ()


def test_a_file_saved_elsewhere_since_the_crash_is_not_overwritten(
    folder: Path, tmp_path: Path, full_site: Site, dead_process: int
) -> None:
    path = tmp_path / "a.waterpark"
    mark = save_project(full_site, path, None)
    RecoveryCopy(folder, dead_process).keep(full_site.revised(name="Mine"), path, mark)
    save_project(full_site.revised(name="From elsewhere"), path, mark)
    (found,) = recoverable_projects(folder)
    with pytest.raises(ChangedOnDisk):
        save_project(found.site(), path, found.fingerprint)


def test_the_copies_of_a_running_process_are_its_own(folder: Path, full_site: Site) -> None:
    RecoveryCopy(folder).keep(full_site, None, None)
    assert recoverable_projects(folder) == ()
    with subprocess.Popen([sys.executable, "-c", "input()"], stdin=subprocess.PIPE) as other:
        RecoveryCopy(folder, other.pid).keep(full_site, None, None)
        assert recoverable_projects(folder) == ()
        other.kill()
        other.wait()
        assert len(recoverable_projects(folder)) == 1


@pytest.mark.skipif(not processes.mark_of(os.getpid()), reason="this system does not say when a process began")
def test_a_number_used_again_is_not_the_same_process(
    folder: Path, full_site: Site, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as earlier:
        earlier.setattr(processes, "mark_of", lambda _: "an earlier start of the machine 4711")
        RecoveryCopy(folder).keep(full_site, None, None)
    assert len(recoverable_projects(folder)) == 1


def test_a_project_never_saved(folder: Path, full_site: Site, dead_process: int) -> None:
    RecoveryCopy(folder, dead_process).keep(full_site, None, None)
    (found,) = recoverable_projects(folder)
    assert found.path is None and found.fingerprint is None
    assert found.site() == full_site


def test_each_open_project_has_one_copy_the_latest(folder: Path, full_site: Site, dead_process: int) -> None:
    first, second = RecoveryCopy(folder, dead_process), RecoveryCopy(folder, dead_process)
    first.keep(full_site.revised(name="A"), None, None)
    second.keep(full_site.revised(name="B"), None, None)
    first.keep(full_site.revised(name="A, later"), None, None)
    assert [found.name for found in recoverable_projects(folder)] == ["A, later", "B"]


def test_closing_in_order_leaves_nothing(folder: Path, full_site: Site) -> None:
    copy = RecoveryCopy(folder)
    copy.discard()
    copy.keep(full_site, None, None)
    copy.discard()
    assert list(folder.iterdir()) == []


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b"\xff", b'{"header": {}}', b'{"header": 3, "project": []}'])
def test_a_damaged_copy_hides_no_other(folder: Path, full_site: Site, dead_process: int, content: bytes) -> None:
    RecoveryCopy(folder, dead_process).keep(full_site, None, None)
    (folder / f"1-x{recovery.SUFFIX}").write_bytes(content)
    assert [found.name for found in recoverable_projects(folder)] == [full_site.name]


def test_a_copy_damaged_inside_says_so(folder: Path, full_site: Site, dead_process: int) -> None:
    copy = RecoveryCopy(folder, dead_process)
    copy.keep(full_site, None, None)
    copy.file.write_bytes(copy.file.read_bytes().replace(b'"purity":1.0', b'"purity":"high"'))
    (found,) = recoverable_projects(folder)
    with pytest.raises(ProjectFileError, match="“Alder Bend” cannot be recovered. Salt, purity must be a number"):
        found.site()


def test_no_room_for_a_copy_keeps_the_one_before(
    folder: Path, full_site: Site, dead_process: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = RecoveryCopy(folder, dead_process)
    copy.keep(full_site, None, None)

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(ProjectFileError, match="No recovery copy was kept. There is no room"):
            copy.keep(full_site.revised(name="Later"), None, None)
    assert [found.name for found in recoverable_projects(folder)] == [full_site.name]


def test_a_folder_that_cannot_be_made(tmp_path: Path, full_site: Site) -> None:
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(ProjectFileError, match="No recovery copy was kept"):
        RecoveryCopy(tmp_path / "file" / "recovery").keep(full_site, None, None)

"""A disk that is full, protected or broken while a project is saved."""

import errno
import os
from pathlib import Path
from typing import Any

import pytest

from waterpark_designer.model.site import Site
from waterpark_designer.storage.project_file import (
    Fingerprint,
    ProjectFileError,
    backup_path,
    load_project,
    save_project,
)


class TestDiskTrouble:
    """Wherever writing fails, the old file and its backup are as they were, and nothing is left lying about."""

    @pytest.fixture
    def saved(self, path: Path, full_site: Site) -> Fingerprint:
        mark = save_project(full_site, path, None)
        return save_project(full_site.revised(name="Second"), path, mark)

    def check_nothing_happened(self, path: Path, full_site: Site) -> None:
        assert load_project(path).site == full_site.revised(name="Second")
        assert load_project(backup_path(path)).site in (full_site, full_site.revised(name="Second"))
        assert sorted(os.listdir(path.parent)) == [path.name, backup_path(path).name]

    @pytest.mark.parametrize(
        ("number", "words"),
        [
            (errno.ENOSPC, "no room left on the disk"),
            (errno.EDQUOT, "no room left on the disk"),
            (errno.EROFS, "no permission to write there"),
            (errno.EACCES, "no permission to write there"),
            (errno.EIO, "The disk refused it"),
        ],
    )
    @pytest.mark.parametrize("call", ["fsync", "replace"])
    def test_failing_calls(
        self,
        path: Path,
        full_site: Site,
        saved: Fingerprint,
        monkeypatch: pytest.MonkeyPatch,
        call: str,
        number: int,
        words: str,
    ) -> None:
        def failing(*_: object) -> None:
            raise OSError(number, os.strerror(number))

        with monkeypatch.context() as patched:
            patched.setattr(os, call, failing)
            with pytest.raises(ProjectFileError, match=f"was not saved. .*{words}"):
                save_project(full_site.revised(name="Third"), path, saved)
        self.check_nothing_happened(path, full_site)
        save_project(full_site.revised(name="Third"), path, saved)
        assert load_project(path).site.name == "Third"

    @pytest.mark.skipif(os.name != "posix", reason="this system sets no limit to the size of files")
    def test_disk_full_in_the_middle_of_writing(self, path: Path, full_site: Site, saved: Fingerprint) -> None:
        """A limit on the size of files cuts a real write short, as a full disk does."""
        import resource
        import signal

        before = resource.getrlimit(resource.RLIMIT_FSIZE)
        handler = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (1000, before[1]))
        try:
            with pytest.raises(ProjectFileError, match="was not saved. The disk refused it"):
                save_project(full_site.revised(name="Third"), path, saved)
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, before)
            signal.signal(signal.SIGXFSZ, handler)
        self.check_nothing_happened(path, full_site)

    @pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no device that is always full")
    def test_a_device_that_is_full(
        self, path: Path, full_site: Site, saved: Fingerprint, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """The temporary file is written to a device that answers every write with “no space left”."""
        really_open = Path.open

        def to_full_device(self: Path, mode: str = "r", **more: Any) -> Any:
            return open("/dev/full", "wb") if mode == "xb" else really_open(self, mode, **more)  # noqa: SIM115

        with monkeypatch.context() as patched:
            patched.setattr(Path, "open", to_full_device)
            with pytest.raises(ProjectFileError, match="no room left on the disk"):
                save_project(full_site.revised(name="Third"), path, saved)
        self.check_nothing_happened(path, full_site)

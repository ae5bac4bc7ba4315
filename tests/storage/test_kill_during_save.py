"""The power goes a hundred times while a project is being saved: file and backup are always whole."""

import importlib.util
import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from waterpark_designer.model.site import Site
from waterpark_designer.storage.project_file import backup_path, load_project, save_project
from waterpark_designer.storage.project_text import project_text
from waterpark_designer.storage.safe_file import TEMPORARY

SAVING_PROCESS = Path(__file__).with_name("saving_process.py")
KILLS = 100
LONGEST_WAIT = 0.04
"""Longest time [s] that a program saves before it is killed: a few saves long."""

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")


@pytest.fixture
def versions() -> tuple[Site, Site]:
    spec = importlib.util.spec_from_file_location("saving_process", SAVING_PROCESS)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.version(0), module.version(1)


def test_file_and_backup_are_the_old_or_the_new(tmp_path: Path, versions: tuple[Site, Site]) -> None:
    path = tmp_path / "killed.waterpark"
    mark = save_project(versions[0], path, None)
    save_project(versions[1], path, mark)
    whole = {project_text(site): site.name for site in versions}
    seen: list[str] = []
    dice = random.Random(9)
    with subprocess.Popen(
        [sys.executable, str(SAVING_PROCESS), str(path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        bufsize=1,
    ) as program:
        assert program.stdin and program.stdout
        for _ in range(KILLS):
            program.stdin.write("save\n")
            saving = int(program.stdout.readline())
            time.sleep(dice.uniform(0.0, LONGEST_WAIT))
            os.kill(saving, signal.SIGKILL)
            assert program.stdout.readline() == "ended\n"
            assert load_project(path).site in versions
            assert load_project(backup_path(path)).site in versions
            seen.append(whole[path.read_bytes()])
        program.stdin.close()
    assert program.returncode == 0
    assert len(seen) == KILLS
    # Otherwise the kills would have hit nothing: both versions were met, and saves were cut off half-way.
    assert set(seen) == {"Version 0", "Version 1"}
    cut_off = len(list(tmp_path.glob(TEMPORARY.format("*"))))
    assert cut_off, f"none of {KILLS} kills fell into a save"

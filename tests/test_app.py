"""Where the program begins: what it says where no window can be opened."""

import os
import subprocess
import sys

import pytest

WITHOUT = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="only Linux runs without a display server")
def test_without_a_display_it_says_so_and_ends() -> None:
    environment = {name: value for name, value in os.environ.items() if name not in WITHOUT}
    command = [sys.executable, "-c", "import sys; from waterpark_designer.app import main; sys.exit(main([]))"]
    done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stderr.startswith("There is no display")
    assert done.stdout == ""

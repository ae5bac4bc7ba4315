"""Whether the process that wrote a file still runs."""

import os
import sys
from pathlib import Path


def mark_of(process: int) -> str:
    """What tells this process from a later one of the same number, where the system says; else empty."""
    try:
        boot = Path("/proc/sys/kernel/random/boot_id").read_text(encoding="ascii").strip()
        status = Path(f"/proc/{process}/stat").read_text(encoding="ascii", errors="replace")
        # The fields after the program's name, which may hold blanks; the twentieth is the time of start.
        return f"{boot} {status.rpartition(')')[2].split()[19]}"
    except (OSError, IndexError):
        return ""


def runs(process: int, mark: str) -> bool:
    """Whether the process with this number and mark still runs."""
    if process <= 0 or not _exists(process):
        return False
    return not mark or mark_of(process) in ("", mark)


if sys.platform == "win32":

    def _exists(process: int) -> bool:
        """Asked of the system itself: sending signal 0 would interrupt the process there."""
        import ctypes

        kernel = ctypes.windll.kernel32
        query_limited_information, still_active = 0x1000, 259
        handle = kernel.OpenProcess(query_limited_information, False, process)
        if not handle:
            return False
        code = ctypes.c_ulong()
        known = kernel.GetExitCodeProcess(handle, ctypes.byref(code))
        kernel.CloseHandle(handle)
        return not known or code.value == still_active
else:

    def _exists(process: int) -> bool:
        try:
            os.kill(process, 0)
        except (ProcessLookupError, OverflowError):
            return False
        except PermissionError:
            return True
        return True

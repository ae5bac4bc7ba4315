"""Speed and memory, measured by hand: `python -m tests.benchmarks`.

Prints medians, each with its ratio to a bare baseline of the same run, since absolute times follow the machine.
"""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from tests.benchmarks import documents, engine, files, window  # noqa: E402


def main() -> None:
    """Run every group in turn."""
    for group in (engine, files, documents, window):
        print(f"\n{(group.__doc__ or '').splitlines()[0]}")
        for line in group.measurements():
            print(line)


if __name__ == "__main__":
    main()

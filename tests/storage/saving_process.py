"""A program that saves two versions of a site in turn until it is killed; one fork for every line it is sent.

Imported once and forked, so that a hundred kills take seconds. Run as: python saving_process.py PROJECT_FILE
"""

import os
import sys
import time
from pathlib import Path

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.zones import Zone
from waterpark_designer.storage.project_file import load_project, save_project

LONGEST_LIFE = 20.0
"""Time [s] after which a saving fork ends by itself, should its killer have died."""


def version(number: int) -> Site:
    """One of two large sites that differ in every part and in length."""
    notes = "" if number == 0 else "Second version. " * 10
    return Site(
        id="site",
        name=f"Version {number}",
        systems=(
            RecirculationSystem(
                id="loop",
                name="Loop",
                attractions=tuple(
                    Attraction(
                        id=f"body-{place}",
                        name=f"Body {place}",
                        notes=notes,
                        zones=(Zone(id=f"zone-{place}", name="Basin"),),
                    )
                    for place in range(150)
                ),
            ),
        ),
    )


def save_in_turn(path: Path, versions: tuple[Site, Site]) -> None:
    """Open the file as it is and save one version after the other, until killed or long forgotten."""
    loaded = load_project(path)
    mark = loaded.fingerprint
    turn = 1 if loaded.site == versions[0] else 0
    end = time.monotonic() + LONGEST_LIFE
    while time.monotonic() < end:
        mark = save_project(versions[turn], path, mark)
        turn = 1 - turn


def main() -> None:
    path = Path(sys.argv[1])
    versions = (version(0), version(1))
    for _ in sys.stdin:
        child = os.fork()
        if child == 0:
            save_in_turn(path, versions)
            os._exit(1)
        print(child, flush=True)
        os.waitpid(child, 0)
        print("ended", flush=True)


if __name__ == "__main__":
    main()

"""Project files of older versions, brought up step by step to the current one.

A step works on the raw data of a site, before it is validated, so that old shapes need no models. To change
the file format: raise `CURRENT`, write the step from the version before, and keep a file of that version in
`tests/storage/saved`.
"""

from collections.abc import Callable
from typing import Any

from waterpark_designer.storage.errors import ProjectFileError, ProjectTooNew

CURRENT = 1

RawSite = dict[str, Any]
Step = Callable[[RawSite], RawSite]
STEPS: dict[int, Step] = {}


def migration(version: int) -> Callable[[Step], Step]:
    """Register the step that brings a site from this version to the next."""

    def register(step: Step) -> Step:
        STEPS[version] = step
        return step

    return register


def refuse_newer(version: int) -> None:
    """Raise ProjectTooNew for a version of the format that this program cannot know."""
    if version > CURRENT:
        raise ProjectTooNew(
            f"A newer program saved it, in version {version} of the project format; this program reads up to "
            f"version {CURRENT}. Update the program to open it."
        )


def to_current(site: RawSite, version: int) -> RawSite:
    """The raw site in the current format. Raises ProjectTooNew or ProjectFileError."""
    refuse_newer(version)
    for old in range(version, CURRENT):
        try:
            site = STEPS[old](site)
        except (KeyError, TypeError, ValueError, AttributeError, IndexError) as error:
            raise ProjectFileError(
                f"It is of version {old} of the project format and damaged: it cannot be brought to version "
                f"{old + 1} ({type(error).__name__}: {error})."
            ) from error
    return site

"""What can be told of a project file at a glance: its suffix, and the name and notes in it.

It needs no model, so that the start page stands before the model is loaded; opening the file checks all of it.
"""

import json
from dataclasses import dataclass
from pathlib import Path

SUFFIX = ".waterpark"


@dataclass(frozen=True, slots=True)
class Glance:
    """The name of a site and its notes."""

    name: str
    notes: str


def glance(path: Path) -> Glance | None:
    """The name and notes in a project file; None where they cannot be read."""
    try:
        site = json.loads(path.read_bytes())["site"]
        return Glance(str(site["name"]), str(site.get("notes", "")))
    except (OSError, ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None

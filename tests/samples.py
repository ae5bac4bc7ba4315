"""The sample projects, for tests."""

from pathlib import Path

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.site import Site
from waterpark_designer.model.walk import walk
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.project_file import load_project

SAMPLES: list[Path] = sorted(samples_folder().glob("*.waterpark"))
RESORT, COMMUNITY, INDOOR = "resort-park", "community-pools", "indoor-bath"


def sample(name: str) -> Site:
    return load_project(samples_folder() / f"{name}.waterpark").site


def attractions(site: Site) -> list[Attraction]:
    return [node for node in walk(site) if isinstance(node, Attraction)]

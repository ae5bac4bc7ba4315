"""What all tests share: a screen that is not there, the shipped library, and a small site."""

import os
from typing import TYPE_CHECKING

os.environ["QT_QPA_PLATFORM"] = "offscreen"

import pytest  # noqa: E402

from waterpark_designer.model.kinds import AttractionKind, FeatureKind  # noqa: E402
from waterpark_designer.model.site import Site  # noqa: E402
from waterpark_designer.model.starting_points import add_attraction, add_part, new_feature, new_site  # noqa: E402
from waterpark_designer.model.walk import find  # noqa: E402

if TYPE_CHECKING:
    from waterpark_designer.library import Library


@pytest.fixture(scope="session")
def library() -> "Library":
    """The rule sets and nominal sizes that the program ships."""
    from waterpark_designer.library import read_library
    from waterpark_designer.resources import resources_folder

    return read_library(resources_folder())


CODE_BASIS = ("georgia-511-3-5-2024", "north-carolina-18a-2543", "cdc-mahc-2023", "common-practice")


def make_small_site() -> Site:
    """A river with jets, a lap pool, and a splash pad that shares its water with a wading pool; invented."""
    site = new_site().revised(name="Alder Bend", code_basis=CODE_BASIS)
    site, river = add_attraction(site, AttractionKind.LAZY_RIVER)
    site = add_part(site, find(site, river), new_feature(FeatureKind.CURRENT_JETS, site.units))
    site, _ = add_attraction(site, AttractionKind.LAP_POOL)
    site, pad = add_attraction(site, AttractionKind.SPLASH_PAD)
    site, _ = add_attraction(site, AttractionKind.WADING_POOL, site.systems[-1].id)
    return site


@pytest.fixture
def small_site() -> Site:
    return make_small_site()

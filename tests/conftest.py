"""What all tests share: a screen that is not there, settings that are thrown away, and small sites."""

import os

os.environ["QT_QPA_PLATFORM"] = "offscreen"

import pytest  # noqa: E402

from waterpark_designer.library import Library, read_library  # noqa: E402
from waterpark_designer.resources import resources_folder  # noqa: E402


@pytest.fixture(scope="session")
def library() -> Library:
    """The rule sets and nominal sizes that the program ships."""
    return read_library(resources_folder())

"""What the tests of documents share."""

from typing import TYPE_CHECKING

import pytest

from tests.documents.invented_site import make_piped_site, make_site
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.model.site import Price, Site

if TYPE_CHECKING:
    from waterpark_designer.library import Library


@pytest.fixture
def site() -> Site:
    return make_site()


@pytest.fixture
def design(site: Site, library: "Library") -> SiteDesign:
    return library.design(site)


@pytest.fixture
def piped(library: "Library") -> SiteDesign:
    """The site with pipes and pumps on its first system and its sprays."""
    return library.design(make_piped_site())


@pytest.fixture
def priced(design: SiteDesign, library: "Library") -> SiteDesign:
    """The design with a price on all lines of the schedule but the last."""
    prices = tuple(Price(line=line.key, amount=100.0) for line in design.equipment[:-1])
    return library.design(design.site.revised(prices=prices, prices_invented=True))

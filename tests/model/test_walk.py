"""Ways through the tree."""

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import duplicate_ids, find, parent_of, path_to, walk
from waterpark_designer.model.zones import Zone

BODY = Attraction(
    id="body", name="Body", zones=(Zone(id="zone", name="Zone"),), features=(Feature(id="jets", name="Jets"),)
)
LOOP = RecirculationSystem(id="loop", name="Loop", attractions=(BODY,))
SITE = Site(id="site", name="Site", systems=(LOOP, RecirculationSystem(id="empty", name="Empty")))


def test_parents_come_first() -> None:
    assert [node.id for node in walk(SITE)] == ["site", "loop", "body", "zone", "jets", "empty"]


def test_find() -> None:
    assert find(SITE, "jets") is BODY.features[0]
    assert find(SITE, "nowhere") is None
    assert find(BODY, "loop") is None


def test_path_and_parent() -> None:
    assert path_to(SITE, "zone") == (SITE, LOOP, BODY, BODY.zones[0])
    assert path_to(SITE, "site") == (SITE,)
    assert path_to(SITE, "nowhere") == ()
    assert parent_of(SITE, "zone") is BODY
    assert parent_of(SITE, "site") is None
    assert parent_of(SITE, "nowhere") is None


def test_ids_met_twice() -> None:
    twice = SITE.revised(systems=(LOOP, RecirculationSystem(id="zone", name="X"), LOOP))
    assert duplicate_ids(SITE) == ()
    assert duplicate_ids(twice) == ("zone", "loop", "body", "jets")

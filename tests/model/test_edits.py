"""Edits: what is asked for happens, nothing else does, and what makes no sense is refused."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from pydantic import ValidationError

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.edits import (
    EditRefused,
    accepts,
    clear_override,
    duplicate,
    free_name,
    insert,
    move,
    remove,
    revise,
    revise_plan,
    set_override,
    with_new_ids,
)
from waterpark_designer.model.features import Feature
from waterpark_designer.model.node import Node, Override
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import duplicate_ids, find, parent_of, path_to, walk
from waterpark_designer.model.zones import Channel, Zone
from waterpark_designer.storage.project_file import load_project, save_project


@pytest.fixture
def site() -> Site:
    body = Attraction(
        id="body",
        name="Body",
        zones=(Zone(id="zone-1", name="Deep"), Zone(id="zone-2", name="Shallow")),
        features=(Feature(id="feature-1", name="Jets"), Feature(id="feature-2", name="Slide")),
    )
    other = Attraction(id="other", name="Other", zones=(Zone(id="zone-3", name="Basin"),))
    return Site(
        id="site",
        name="Site",
        systems=(
            RecirculationSystem(id="loop-1", name="Loop 1", attractions=(body, other)),
            RecirculationSystem(id="loop-2", name="Loop 2"),
        ),
    )


def ids_below(site: Site, holder: str) -> list[str]:
    found = find(site, holder)
    assert found is not None
    return [child.id for child in found.children]


class TestRevise:
    def test_only_the_path_to_it_is_rebuilt(self, site: Site) -> None:
        after = revise(site, "zone-1", name="Lagoon")
        assert find(after, "zone-1") == Zone(id="zone-1", name="Lagoon")
        changed = {node.id for node in walk(after) if find(site, node.id) is not node}
        assert changed == {"site", "loop-1", "body", "zone-1"}

    def test_old_site_is_as_it_was(self, site: Site) -> None:
        before = site.model_dump()
        revise(site, "body", target_salinity=3.0)
        assert site.model_dump() == before

    def test_plan_inside_a_node(self, site: Site) -> None:
        after = revise_plan(site, "loop-2", "filters", spare=True)
        assert after.systems[1].filters == site.systems[1].filters.revised(spare=True)
        assert after.systems[1].disinfection is site.systems[1].disinfection
        assert after.systems[0] is site.systems[0]

    def test_shape(self, site: Site) -> None:
        after = revise(site, "zone-3", shape=Channel(depth=1.2))
        zone = find(revise_plan(after, "zone-3", "shape", length=80.0), "zone-3")
        assert isinstance(zone, Zone)
        assert zone.shape == Channel(length=80.0, depth=1.2)

    def test_a_value_out_of_bounds(self, site: Site) -> None:
        with pytest.raises(ValidationError):
            revise(site, "body", target_salinity=-1.0)

    def test_a_field_that_is_not_there(self, site: Site) -> None:
        with pytest.raises(ValidationError):
            revise(site, "body", shade="dark")

    def test_a_node_that_is_not_there(self, site: Site) -> None:
        with pytest.raises(EditRefused, match="no longer in the project"):
            revise(site, "nowhere", name="X")


class TestInsertAndRemove:
    def test_last_and_at_a_position(self, site: Site) -> None:
        after = insert(site, "body", Zone(id="new", name="New"))
        assert ids_below(after, "body") == ["zone-1", "zone-2", "new", "feature-1", "feature-2"]
        after = insert(site, "body", Feature(id="new", name="New"), 1)
        assert ids_below(after, "body") == ["zone-1", "zone-2", "feature-1", "new", "feature-2"]
        after = insert(site, "site", RecirculationSystem(id="new", name="New"), 0)
        assert ids_below(after, "site") == ["new", "loop-1", "loop-2"]

    @pytest.mark.parametrize(
        ("parent", "child", "words"),
        [
            ("site", Attraction(name="X"), "A body of water cannot stand under a site."),
            ("loop-1", Zone(name="X"), "A zone cannot stand under a recirculation system."),
            ("zone-1", Zone(name="X"), "A zone cannot stand under a zone."),
            ("body", RecirculationSystem(name="X"), "A recirculation system cannot stand under a body of water."),
            ("loop-1", Site(name="X"), "A site cannot stand under a recirculation system."),
            ("nowhere", Zone(name="X"), "no longer in the project"),
        ],
    )
    def test_what_cannot_stand_there(self, site: Site, parent: str, child: Node, words: str) -> None:
        with pytest.raises(EditRefused, match=words):
            insert(site, parent, child)

    def test_what_is_there_already(self, site: Site) -> None:
        copy = Attraction(name="Copy", zones=(Zone(id="zone-2", name="Same id"),))
        with pytest.raises(EditRefused, match="in the project already"):
            insert(site, "loop-2", copy)

    def test_one_too_many(self, site: Site) -> None:
        full = revise(site, "other", zones=tuple(Zone(name="Zone") for _ in range(100)))
        with pytest.raises(EditRefused, match="This body of water cannot hold another zone."):
            insert(full, "other", Zone(name="Zone"))
        zone = find(full, "other").children[0]  # type: ignore[union-attr]
        with pytest.raises(EditRefused, match="cannot hold another zone"):
            duplicate(full, zone.id)

    def test_remove(self, site: Site) -> None:
        assert ids_below(remove(site, "loop-1"), "site") == ["loop-2"]
        assert ids_below(remove(site, "zone-1"), "body") == ["zone-2", "feature-1", "feature-2"]

    def test_the_last_zone_stays(self, site: Site) -> None:
        with pytest.raises(EditRefused, match="at least one zone"):
            remove(site, "zone-3")

    @pytest.mark.parametrize("target", ["site", "nowhere"])
    def test_what_cannot_be_removed(self, site: Site, target: str) -> None:
        with pytest.raises(EditRefused):
            remove(site, target)


class TestMove:
    def test_to_another_system(self, site: Site) -> None:
        after = move(site, "body", "loop-2")
        assert (ids_below(after, "loop-1"), ids_below(after, "loop-2")) == (["other"], ["body"])
        assert find(after, "body") is find(site, "body")

    @pytest.mark.parametrize(
        ("position", "order"),
        [
            (0, ["body", "other", "third"]),
            (1, ["other", "body", "third"]),
            (2, ["other", "third", "body"]),
            (None, ["other", "third", "body"]),
        ],
    )
    def test_within_a_system(self, site: Site, position: int | None, order: list[str]) -> None:
        site = insert(site, "loop-1", Attraction(id="third", name="Third"))
        assert ids_below(move(site, "body", "loop-1", position), "loop-1") == order

    def test_the_only_zone_to_where_it_is(self, site: Site) -> None:
        assert move(site, "zone-3", "other", 0) == site

    def test_the_only_zone_away(self, site: Site) -> None:
        with pytest.raises(EditRefused, match="at least one zone"):
            move(site, "zone-3", "body")

    @pytest.mark.parametrize(
        ("target", "parent"),
        [
            ("loop-1", "loop-1"),
            ("loop-1", "body"),
            ("body", "zone-1"),
            ("site", "loop-1"),
            ("body", "site"),
            ("zone-1", "loop-2"),
            ("nowhere", "loop-1"),
            ("body", "nowhere"),
        ],
    )
    def test_where_it_cannot_go(self, site: Site, target: str, parent: str) -> None:
        with pytest.raises(EditRefused):
            move(site, target, parent)


class TestDuplicate:
    def test_a_deep_copy_stands_beside_it(self, site: Site) -> None:
        after, copy = duplicate(site, "body")
        assert ids_below(after, "loop-1") == ["body", copy, "other"]
        assert duplicate_ids(after) == ()
        original, made = find(after, "body"), find(after, copy)
        assert original is find(site, "body")
        assert [node.name for node in walk(made)] == ["Body 2", *[node.name for node in walk(original)][1:]]

    def test_overrides_and_notes_are_copied(self, site: Site) -> None:
        marked = set_override(revise(site, "zone-1", notes="See drawing"), "zone-1", "volume", 80.0, "Survey")
        after, copy = duplicate(marked, "zone-1")
        made = find(after, copy)
        assert made is not None
        assert (made.notes, made.overrides) == (
            "See drawing",
            (Override(figure="volume", value=80.0, reason="Survey"),),
        )

    @pytest.mark.parametrize("target", ["site", "nowhere"])
    def test_what_cannot_be_duplicated(self, site: Site, target: str) -> None:
        with pytest.raises(EditRefused):
            duplicate(site, target)

    @pytest.mark.parametrize(
        ("taken", "wanted", "name"),
        [
            ((), "Pool", "Pool"),
            (("Pool",), "Pool", "Pool 2"),
            (("Pool", "Pool 2"), "Pool", "Pool 3"),
            (("Pool", "Pool 2"), "Pool 2", "Pool 3"),
            (("Pool 2",), "Pool 2", "Pool 3"),
            (("2024",), "2024", "2024 2"),
            (("P" * 200,), "P" * 200, "P" * 198 + " 2"),
        ],
    )
    def test_free_names(self, taken: tuple[str, ...], wanted: str, name: str) -> None:
        holder = RecirculationSystem(name="Loop", attractions=tuple(Attraction(name=one) for one in taken))
        assert free_name(holder, wanted) == name


class TestOverrides:
    def test_set_and_clear(self, site: Site) -> None:
        after = set_override(site, "body", "volume", 500.0, "As built")
        after = set_override(after, "body", "surface_area", 300.0, "As built")
        after = set_override(after, "body", "volume", 510.0, "As built, second survey")
        body = find(after, "body")
        assert body is not None
        assert {one.figure: one.value for one in body.overrides} == {"volume": 510.0, "surface_area": 300.0}
        assert body.override_of("volume") == Override(figure="volume", value=510.0, reason="As built, second survey")
        cleared = clear_override(clear_override(after, "body", "volume"), "body", "surface_area")
        assert cleared == site

    @pytest.mark.parametrize(
        ("value", "reason"),
        [(float("nan"), "Reason"), (float("inf"), "Reason"), (1.0, ""), (1.0, "    "), (1.0, "no"), ("1", "Reason")],
    )
    def test_no_number_or_no_reason(self, site: Site, value: Any, reason: str) -> None:
        with pytest.raises(ValidationError):
            set_override(site, "body", "volume", value, reason)


def random_edit(site: Site, dice: Any) -> tuple[Callable[[], Site], set[str]]:
    """One edit at random, and the ids of the nodes it works on; many are bound to be refused."""
    nodes = list(walk(site))
    target, parent = dice.choice(nodes).id, dice.choice(nodes).id
    holder = parent_of(site, target)
    above = holder.id if holder else target
    position = dice.choice([None, 0, 1, 5])
    return dice.choice(
        [
            (lambda: insert(site, parent, dice.part(), position), {parent}),
            (lambda: insert(site, parent, dice.part(), position), {parent}),
            (lambda: insert(site, parent, dice.choice(nodes), position), {parent}),
            (lambda: insert(site, parent, with_new_ids(dice.choice(nodes)), position), {parent}),
            (lambda: remove(site, target), {above}),
            (lambda: move(site, target, parent, position), {above, parent}),
            (lambda: move(site, target, parent, position), {above, parent}),
            (lambda: duplicate(site, target)[0], {above}),
            (lambda: revise(site, target, name=dice.choice(["A", "B", ""])), {target}),
            (lambda: revise(site, target, notes="n" * dice.choice([0, 10, 5000])), {target}),
            (lambda: set_override(site, target, "volume", dice.choice([1.0, float("nan")]), "Reason"), {target}),
            (lambda: clear_override(site, target, "volume"), {target}),
        ]
    )


@pytest.mark.parametrize("seed", range(12))
def test_random_edits_keep_the_tree_in_order(seed: int, dice_of: Callable[[int], Any], tmp_path: Path) -> None:
    dice = dice_of(seed)
    site = dice.site()
    refused = done = 0
    for _ in range(120):
        before = site.model_dump_json()
        edit, places = random_edit(site, dice)
        try:
            after = edit()
        except (EditRefused, ValidationError):
            refused += 1
            after = site
        assert site.model_dump_json() == before
        if after is not site:
            check_in_order(after)
            check_sharing(site, after, places)
            done += 1
        site = after if len(list(walk(after))) < 150 else dice.site()
    assert refused > 10 and done > 40
    save_project(site, tmp_path / "random.waterpark", None)
    assert load_project(tmp_path / "random.waterpark").site == site


def check_in_order(site: Site) -> None:
    """Ids are unique, every node stands where its sort may, and every body of water has a zone."""
    assert duplicate_ids(site) == ()
    for node in walk(site):
        assert all(accepts(node, child) for child in node.children)
        assert path_to(site, node.id)[-1] is node
        if isinstance(node, Attraction):
            assert node.zones
    assert Site.model_validate(site.model_dump()) == site


def check_sharing(before: Site, after: Site, places: set[str]) -> None:
    """Only the nodes on the way to where the edit worked are new objects; views and engine skip all others."""
    on_the_way = {node.id for place in places for root in (before, after) for node in path_to(root, place)}
    for node in walk(after):
        old = find(before, node.id)
        assert old is None or old is node or node.id in on_the_way, node

"""Parts travel as text; foreign text is refused in plain words."""

import json

import pytest

from waterpark_designer.gui.clipboard import part_from, paste, text_of
from waterpark_designer.model.edits import EditRefused
from waterpark_designer.model.walk import duplicate_ids, find, parent_of, walk


def without_ids(node):
    data = node.model_dump(mode="json")

    def strip(value):
        if isinstance(value, dict):
            return {key: strip(item) for key, item in value.items() if key != "id"}
        return [strip(item) for item in value] if isinstance(value, list) else value

    return strip(data)


def test_every_part_survives_the_journey_under_a_new_id(small_site) -> None:
    for node in list(walk(small_site))[1:]:
        copy = part_from(text_of(node))
        assert type(copy) is type(node)
        assert copy.id != node.id
        assert without_ids(copy) == without_ids(node)


def test_site_itself_is_not_copied(small_site) -> None:
    with pytest.raises(EditRefused, match="whole site"):
        text_of(small_site)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "hello",
        "{}",
        '{"waterpark_part": "attraction"}',
        '{"waterpark_part": "boat", "part": {}}',
        '{"waterpark_part": ["attraction"], "part": {}}',
        '"waterpark_part"',
        "[" * 100_000 + "waterpark_part",
    ],
)
def test_foreign_text_is_refused(text) -> None:
    with pytest.raises(EditRefused, match="clipboard holds no part"):
        part_from(text)


def test_damaged_part_is_refused_by_field(small_site) -> None:
    held = json.loads(text_of(small_site.systems[0].attractions[0]))
    held["part"]["zones"][0]["shape"]["width"] = -3
    with pytest.raises(EditRefused, match="width"):
        part_from(json.dumps(held))


def test_attraction_pasted_at_the_site_gets_its_own_system(small_site) -> None:
    part = part_from(text_of(small_site.systems[0].attractions[0]))
    site, pasted = paste(small_site, part, small_site.id)
    assert len(site.systems) == len(small_site.systems) + 1
    assert parent_of(site, pasted) is site.systems[-1]
    assert find(site, pasted).name == "Lazy river 2"
    assert duplicate_ids(site) == ()


def test_attraction_pasted_at_another_shares_its_system(small_site) -> None:
    part = part_from(text_of(small_site.systems[0].attractions[0]))
    site, pasted = paste(small_site, part, small_site.systems[2].attractions[0].id)
    assert [body.id for body in site.systems[2].attractions][1] == pasted


def test_feature_pasted_at_a_feature_stands_beside_it(small_site) -> None:
    feature = small_site.systems[0].attractions[0].features[0]
    site, pasted = paste(small_site, part_from(text_of(feature)), feature.id)
    names = [item.name for item in site.systems[0].attractions[0].features]
    assert names == ["Current jets", "Current jets 2"]
    assert find(site, pasted).name == "Current jets 2"


def test_feature_needs_a_body_of_water(small_site) -> None:
    feature = small_site.systems[0].attractions[0].features[0]
    with pytest.raises(EditRefused, match="body of water"):
        paste(small_site, part_from(text_of(feature)), small_site.id)


def test_system_pasted_anywhere_goes_to_the_site(small_site) -> None:
    part = part_from(text_of(small_site.systems[0]))
    site, pasted = paste(small_site, part, small_site.systems[0].attractions[0].id)
    assert pasted in [system.id for system in site.systems]

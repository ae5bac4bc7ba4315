"""Reading a rule file: what a row may say, and that every mistake is refused with the row and what would be right."""

from pathlib import Path

import pytest

from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.rules.rule_file import RuleFileError, read_rule_set, read_rule_sets
from waterpark_designer.sources import Provenance
from waterpark_designer.units import UnitSystem

HEAD = 'name = "County Rules"\nedition = "2020"\njurisdiction = "A county"\ndocument = "County Rules, 2020"\n'
ROW = {
    "quantity": '"longest_turnover"',
    "value": '"2 h"',
    "applies_to": '["lazy_river"]',
    "when": '{ temperature_above = "32 °C" }',
    "clause": '"4.1"',
    "provenance": '"read"',
    "note": '"As built."',
}


def row(**changes: str | None) -> str:
    fields = {name: text for name, text in (ROW | changes).items() if text is not None}
    return "[[limit]]\n" + "".join(f"{name} = {text}\n" for name, text in fields.items())


def written(folder: Path, text: str, name: str = "county-2020.toml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def refusal(folder: Path, text: str, name: str = "county-2020.toml") -> str:
    with pytest.raises(RuleFileError) as error:
        read_rule_set(written(folder, text, name))
    return str(error.value)


def test_reads_a_rule_set(tmp_path: Path) -> None:
    rule_set = read_rule_set(written(tmp_path, HEAD + row()))
    assert (rule_set.key, rule_set.title, rule_set.supplement) == ("county-2020", "County Rules (2020)", False)
    (limit,) = rule_set.limits
    assert (limit.key, limit.quantity, limit.value) == ("county-2020:1", "longest_turnover", 7200.0)
    assert limit.applies_to == {AttractionKind.LAZY_RIVER}
    assert limit.source.text == "County Rules (2020), 4.1"
    assert (limit.source.provenance, limit.note) == (Provenance.READ, "As built.")
    assert limit.when[0].text(UnitSystem.SI) == "water temperature is above 32.0 °C"


def test_reads_a_duty_and_a_limit_for_all_kinds(tmp_path: Path) -> None:
    text = row(quantity='"separate_system"', value='"not required"', applies_to=None, when=None, note=None)
    (limit,) = read_rule_set(written(tmp_path, HEAD + text)).limits
    assert (limit.value, limit.applies_to, limit.when, limit.note) == (0.0, frozenset(), (), "")


def test_reads_a_unit_that_only_pint_knows(tmp_path: Path) -> None:
    (limit,) = read_rule_set(written(tmp_path, HEAD + row(value='"120 minutes"'))).limits
    assert limit.value == pytest.approx(7200.0)


def test_reads_every_file_of_a_folder(tmp_path: Path) -> None:
    written(tmp_path, HEAD + row(), "b.toml")
    written(tmp_path, HEAD + row(), "a.toml")
    written(tmp_path, "no rule set", "notes.txt")
    assert list(read_rule_sets(tmp_path)) == ["a", "b"]


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"quantity": None}, "limit 2: quantity must be given."),
        ({"value": None}, "limit 2 (longest_turnover): value must be given."),
        ({"clause": None}, "limit 2 (longest_turnover): clause must be given."),
        ({"clause": '""'}, "limit 2 (longest_turnover): clause must be given."),
        ({"provenance": None}, "limit 2 (longest_turnover): provenance must be given."),
        ({"clause": None, "provenance": None}, "clause, provenance must be given."),
        ({"quantity": '"turnover"'}, "limit 2 (turnover): “turnover” is not a quantity. Use one of: longest_turnover,"),
        ({"quantity": "7"}, "limit 2 (7): quantity must be text in quotes."),
        ({"value": "2"}, "value must be text in quotes."),
        ({"value": '"2"'}, "“2” cannot be read. Type a number in h, or with its unit."),
        ({"value": '"2 gpm"'}, "“2 gpm” does not measure time."),
        ({"value": '"two hours"'}, "“two hours” cannot be read."),
        ({"value": '"1e400 h"'}, "not a number to design with"),
        ({"value": '"0 h"'}, "value must be more than nothing, not 0 h."),
        ({"value": '"-2 h"'}, "value must be more than nothing, not -2 h."),
        (
            {"quantity": '"separate_system"', "value": '"yes"'},
            "“yes” is not a duty. Use one of: required, not required.",
        ),
        ({"provenance": '"certain"'}, "“certain” is not a provenance. Use one of: read, read (secondary), from memory"),
        ({"provenance": '"override"'}, "“override” is not a provenance."),
        ({"applies_to": '"lazy_river"'}, "applies_to must be a list."),
        ({"applies_to": "[]"}, "applies_to names no kind of water. Leave it out where the limit applies to all."),
        ({"applies_to": '["river"]'}, "“river” is not a kind of water. Use one of: lap_pool,"),
        ({"applies_to": "[7]"}, "“7” is not a kind of water."),
        ({"when": '"warm"'}, "when must be a table in braces."),
        ({"when": "{ warm = true }"}, "“warm” is not a condition. Use one of: temperature,"),
        ({"when": '{ warmth_above = "3 °C" }'}, "“warmth” is not a fact to compare. Use one of: temperature,"),
        ({"when": '{ temperature = "32 °C" }'}, "temperature needs a comparison, such as temperature_above."),
        ({"when": "{ temperature_above = 32 }"}, "temperature_above must be a number with its unit, in quotes."),
        ({"when": '{ temperature_above = "32 m" }'}, "“32 m” does not measure temperature."),
        ({"when": '{ medium_above = "precoat" }'}, "medium is not a number; write medium = … instead of medium_above."),
        ({"when": '{ medium = "gravel" }'}, "“gravel” is not a medium. Use one of: cartridge, high_rate_sand,"),
        ({"when": '{ setting = "roofed" }'}, "“roofed” is not a setting. Use one of: indoor, outdoor."),
        ({"when": '{ small_children = "yes" }'}, "small_children must be true or false."),
        ({"note": "7"}, "note must be text in quotes."),
        ({"about": '"yes"'}, "about must be true or false."),
        ({"vlaue": '"2 h"'}, "limit 2 (longest_turnover): “vlaue” is not a field. Use one of: quantity, value,"),
    ],
)
def test_malformed_row_is_refused_by_name(tmp_path: Path, changes: dict[str, str | None], says: str) -> None:
    message = refusal(tmp_path, HEAD + row() + row(**changes))
    assert message.startswith("county-2020.toml: limit 2")
    assert says in message


@pytest.mark.parametrize(
    ("head", "says"),
    [
        (HEAD.replace("name", "nmae", 1), "county-2020.toml: “nmae” is not a field. Use one of: name,"),
        (HEAD.replace('name = "County Rules"\n', ""), "county-2020.toml: name must be given."),
        (HEAD.replace('"A county"', '""'), "county-2020.toml: jurisdiction must be given."),
        (HEAD.replace('"2020"', "2020", 1), "county-2020.toml: edition must be text in quotes."),
        (HEAD + 'supplement = "yes"\n', "county-2020.toml: supplement must be true or false."),
        (HEAD + HEAD, "county-2020.toml: Cannot overwrite a value"),
        (HEAD + "name =\n", "county-2020.toml: "),
    ],
)
def test_malformed_head_is_refused(tmp_path: Path, head: str, says: str) -> None:
    assert refusal(tmp_path, head + row()).startswith(says)


def test_rule_set_without_limits_is_refused(tmp_path: Path) -> None:
    assert refusal(tmp_path, HEAD) == "county-2020.toml: limit must be given."
    assert refusal(tmp_path, HEAD + "limit = []\n") == "county-2020.toml: limit must be given."
    assert "write it as a [[limit]] table" in refusal(tmp_path, HEAD + "limit = [7]\n")


def test_file_name_that_a_project_could_not_name_is_refused(tmp_path: Path) -> None:
    message = refusal(tmp_path, HEAD + row(), "County Rules.toml")
    assert message == "County Rules.toml: the file's name may have small letters, digits and hyphens only."


def test_file_that_is_no_text_is_refused(tmp_path: Path) -> None:
    (tmp_path / "bytes.toml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(RuleFileError, match=r"^bytes\.toml: "):
        read_rule_sets(tmp_path)


def test_missing_file_and_folder_are_refused(tmp_path: Path) -> None:
    with pytest.raises(RuleFileError, match=r"^gone\.toml: "):
        read_rule_set(tmp_path / "gone.toml")
    with pytest.raises(RuleFileError, match="no folder of rule sets"):
        read_rule_sets(tmp_path / "gone")

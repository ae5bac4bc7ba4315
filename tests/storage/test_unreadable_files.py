"""Files that cannot be opened: every fault is named, in plain words."""

import errno
import json
import os
import random
from pathlib import Path
from typing import Any

import pytest

from waterpark_designer.model.site import Site
from waterpark_designer.storage import project_file, project_text
from waterpark_designer.storage.project_file import (
    ProjectFileError,
    ProjectTooNew,
    backup_path,
    load_project,
    save_project,
)


def data_of(site: Site) -> dict[str, Any]:
    return json.loads(project_text.project_text(site))


def refusal(path: Path, content: bytes | str | dict[str, Any]) -> str:
    """What opening a file with this content answers."""
    if isinstance(content, dict):
        content = json.dumps(content)
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    with pytest.raises(ProjectFileError) as refused:
        load_project(path)
    message = str(refused.value)
    assert message.startswith(f"“{path.name}” cannot be opened. ")
    return message


class TestUnreadable:
    def test_not_there(self, path: Path) -> None:
        with pytest.raises(ProjectFileError, match="does not exist"):
            load_project(path)

    def test_folder(self, tmp_path: Path) -> None:
        with pytest.raises(ProjectFileError, match="It is a folder"):
            load_project(tmp_path)

    @pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
    def test_pipe_is_not_waited_for(self, path: Path) -> None:
        os.mkfifo(path)
        with pytest.raises(ProjectFileError, match="a device or a pipe"):
            load_project(path)

    def test_no_permission(self, path: Path, full_site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
        save_project(full_site, path, None)

        def closed(*_: object, **__: object) -> None:
            raise PermissionError(errno.EACCES, "Permission denied")

        monkeypatch.setattr(Path, "open", closed)
        with pytest.raises(ProjectFileError, match="no permission to read"):
            load_project(path)

    @pytest.mark.parametrize("content", [b"", b"  \n", b"\0" * 4096])
    def test_empty(self, path: Path, content: bytes) -> None:
        assert "It is empty" in refusal(path, content)

    def test_not_utf8(self, path: Path) -> None:
        assert "not UTF-8" in refusal(path, '{"format": "é"}'.encode("latin-1"))

    def test_not_json(self, path: Path) -> None:
        assert "damaged at line 2, column 1" in refusal(path, '{"format":\nwaterpark-project}')

    def test_truncated_anywhere(self, path: Path, full_site: Site) -> None:
        content = project_text.project_text(full_site).rstrip()
        dice = random.Random(7)
        for length in [1, len(content) - 1, *(dice.randrange(2, len(content) - 1) for _ in range(60))]:
            message = refusal(path, content[:length])
            assert any(words in message for words in ("It breaks off", "It is damaged at", "not UTF-8")), message

    def test_truncation_between_fields_is_called_that(self, path: Path, full_site: Site) -> None:
        content = project_text.project_text(full_site)
        assert "a part of it is missing" in refusal(path, content[: content.index(b'"client"')])

    def test_huge_is_refused_before_it_is_read(self, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        with path.open("wb") as file:
            file.truncate(100_000_000)

        def forbidden(*_: object) -> None:
            raise AssertionError("The content was read.")

        monkeypatch.setattr(project_file, "site_of_text", forbidden)
        with pytest.raises(ProjectFileError, match="larger than 64 MB"):
            load_project(path)

    @pytest.mark.parametrize(
        ("depth", "words"),
        [
            (100, "Client must be text."),
            (600, "nested more deeply"),
            (100_000, "nested more deeply"),
            (5_000_000, "nested more deeply"),
        ],
    )
    def test_deeply_nested(self, path: Path, full_site: Site, depth: int, words: str) -> None:
        text = project_text.project_text(full_site).decode()
        nested = "[" * depth + "]" * depth
        assert words in refusal(path, text.replace('"client": ""', f'"client": {nested}'))

    def test_number_of_a_million_digits(self, path: Path, full_site: Site) -> None:
        text = project_text.project_text(full_site).decode()
        message = refusal(path, text.replace('"visits_per_place": 2.0', f'"visits_per_place": {"9" * 1_000_000}'))
        assert message.endswith("It has a number that cannot be read: it has thousands of digits.")

    @pytest.mark.parametrize(
        "site", [{f"field_{number}": 1 for number in range(1001)}, {"name": "Many", "systems": [{}] * 1_000_001}]
    )
    def test_far_too_much(self, path: Path, full_site: Site, site: dict[str, Any]) -> None:
        assert "far more than any project" in refusal(path, data_of(full_site) | {"site": site})

    def test_a_long_list_of_wrong_entries_is_left_at_the_first(self, path: Path, full_site: Site) -> None:
        message = refusal(path, data_of(full_site) | {"site": {"name": "Many", "systems": [{}] * 200_000}})
        assert message.splitlines() == [f"“{path.name}” cannot be opened. System 1, name is missing."]

    def test_a_wrong_entry_does_not_make_its_list_empty(self, path: Path, full_site: Site) -> None:
        data = data_of(full_site)
        data["site"]["systems"][0]["attractions"][0]["zones"] = [{"name": "Deep end", "colour": "red"}]
        message = refusal(path, data)
        assert "colour is not a field that this program knows." in message and "must not be empty" not in message

    @pytest.mark.parametrize("word", ["NaN", "Infinity", "-Infinity"])
    def test_words_for_numbers(self, path: Path, full_site: Site, word: str) -> None:
        text = project_text.project_text(full_site).decode()
        message = refusal(path, text.replace('"visits_per_place": 2.0', f'"visits_per_place": {word}'))
        assert f"“{word}” where a number belongs" in message

    def test_number_beyond_all_numbers(self, path: Path, full_site: Site) -> None:
        text = project_text.project_text(full_site).decode()
        message = refusal(path, text.replace('"visits_per_place": 2.0', '"visits_per_place": 1e999'))
        assert "Operation, visits per place must be an ordinary number." in message

    def test_field_twice(self, path: Path, full_site: Site) -> None:
        text = project_text.project_text(full_site).decode()
        message = refusal(path, text.replace('"client": ""', '"client": "A", "client": "B"'))
        assert "The field “client” stands twice" in message

    @pytest.mark.parametrize(
        "content", [[], "text", 3, None, {}, {"format": "another-format", "format_version": 1, "site": {}}]
    )
    def test_other_formats(self, path: Path, content: object) -> None:
        assert "not a project of this program" in refusal(path, json.dumps(content))

    @pytest.mark.parametrize("version", [None, "1", 1.0, True, 0, -3])
    def test_no_version(self, path: Path, full_site: Site, version: object) -> None:
        assert "“format_version” must be" in refusal(path, data_of(full_site) | {"format_version": version})

    def test_newer_version(self, path: Path, full_site: Site) -> None:
        path.write_text(json.dumps(data_of(full_site) | {"format_version": 7, "weather": {}}), encoding="utf-8")
        with pytest.raises(ProjectTooNew, match="version 7 .* reads up to version 1. Update the program"):
            load_project(path)

    def test_unknown_fields_beside_the_site(self, path: Path, full_site: Site) -> None:
        assert "does not know: “weather”" in refusal(path, data_of(full_site) | {"weather": 1})

    @pytest.mark.parametrize("site", [None, [], "site"])
    def test_no_site(self, path: Path, full_site: Site, site: object) -> None:
        assert "no site in it" in refusal(path, data_of(full_site) | {"site": site})

    def test_the_backup_is_pointed_out(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        save_project(full_site.revised(name="Later"), path, mark)
        assert "is kept as “Alder Bend.waterpark.bak”" in refusal(path, b"\xff")
        assert load_project(backup_path(path)).site == full_site


BODY = ("systems", 0, "attractions", 0)
IN_BODY = "System 1 “Loop A”, attraction 1 “Anse d’été <&> “深い” 🌊”, "


class TestWrongFields:
    @pytest.mark.parametrize(
        ("place", "value", "words"),
        [
            (("name",), 5, "Name must be text. It is 5."),
            (("name",), "  ", "Name must not be empty."),
            (("units",), "imperial", "Units must be one of 'us' or 'si'. It is “imperial”."),
            (("operation",), [], "Operation must be a group of fields."),
            (("operation", "open_hours"), "36000", "Operation, open hours must be a number. It is “36000”."),
            (
                ("operation", "open_hours"),
                80000.0,
                "Open hours and hours closed without interruption come to more than",
            ),
            (("salt", "bags_per_pallet"), 48.5, "Salt, bags per pallet must be a whole number. It is 48.5."),
            (("salt", "bags_per_pallet"), True, "Salt, bags per pallet must be a whole number. It is true."),
            (("prices_invented",), 1, "Prices invented must be true or false."),
            (("code_basis",), "rule-a", "Code basis must be a list."),
            (("code_basis", 1), "Rule A!", "Code basis 2 has characters that do not belong there. It is “Rule A!”."),
            (("prices", 0, "amount"), -1.0, "Price 1, amount must be at least 0"),
            (("weather",), {}, "Weather is not a field that this program knows."),
            ((*BODY, "shade"), "dark", IN_BODY + "shade is not a field that this program knows."),
            ((*BODY, "target_salinity"), -3.0, IN_BODY + "target salinity must be at least 0"),
            ((*BODY, "zones"), [], IN_BODY + "zones must not be empty."),
            ((*BODY, "zones", 0, "shape"), [1], IN_BODY + "zone 1 “Zone rectangle”, shape must be a group of fields."),
            (
                (*BODY, "zones", 0, "shape", "length"),
                -12.0,
                IN_BODY + "zone 1 “Zone rectangle”, shape, length must be more than 0. It is -12.0.",
            ),
            (
                (*BODY, "zones", 0, "shape", "shape"),
                "blob",
                IN_BODY + "zone 1 “Zone rectangle”, shape must be one of 'rectangle', ",
            ),
            (
                (*BODY, "zones", 0, "deductions", 1, "height"),
                None,
                IN_BODY + "zone 1 “Zone rectangle”, deduction 2, height must be a number.",
            ),
            ((*BODY, "features", 0, "count"), 0, IN_BODY + "feature 1 “Jets”, count must be at least 1"),
        ],
    )
    def test_place_and_fault_are_named(
        self, path: Path, full_site: Site, place: tuple[int | str, ...], value: object, words: str
    ) -> None:
        data = data_of(full_site)
        holder: Any = data["site"]
        for step in place[:-1]:
            holder = holder[step]
        holder[place[-1]] = value
        assert words in refusal(path, data)

    def test_missing_field(self, path: Path, full_site: Site) -> None:
        data = data_of(full_site)
        del data["site"]["systems"][0]["name"]
        assert "System 1, name is missing." in refusal(path, data)

    def test_shape_that_does_not_say_what_it_is(self, path: Path, full_site: Site) -> None:
        data = data_of(full_site)
        del data["site"]["systems"][0]["attractions"][0]["zones"][0]["shape"]["shape"]
        assert "shape does not say what it is: its field 'shape' is missing." in refusal(path, data)

    def test_every_fault_is_listed_up_to_a_point(self, path: Path, full_site: Site) -> None:
        data = data_of(full_site)
        data["site"] |= {f"field_{number}": 1 for number in range(25)}
        message = refusal(path, data)
        assert message.count("is not a field that this program knows") == 10
        assert "… and 15 more." in message

    def test_same_id_twice(self, path: Path, full_site: Site) -> None:
        data = data_of(full_site)
        data["site"]["systems"][0]["attractions"][0]["features"][0]["id"] = "zone-channel"
        assert "the same id: “zone-channel” (Zone channel, Jets)" in refusal(path, data)

    def test_half_a_character(self, path: Path, full_site: Site) -> None:
        text = project_text.project_text(full_site).decode()
        assert "not Unicode" in refusal(path, text.replace('"client": ""', '"client": "\\ud83c"'))

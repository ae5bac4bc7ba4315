"""Opening and saving project files: nothing changes on the way, nothing is lost, every fault is named."""

import errno
import json
import os
import random
import time
from pathlib import Path
from typing import Any

import pytest

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.zones import Outline, Zone
from waterpark_designer.storage import project_file, project_text, safe_file
from waterpark_designer.storage.project_file import (
    ChangedOnDisk,
    Fingerprint,
    GoneFromDisk,
    ProjectFileError,
    ProjectTooNew,
    backup_path,
    changed_on_disk,
    load_project,
    save_project,
)

AS_ROOT = hasattr(os, "geteuid") and os.geteuid() == 0


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "Alder Bend.waterpark"


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


class TestRoundTrip:
    def test_every_field_comes_back_as_it_was(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        loaded = load_project(path)
        assert loaded.site == full_site
        assert loaded.fingerprint == mark

    def test_random_numbers_come_back_to_the_last_bit(self, path: Path) -> None:
        dice = random.Random(20)
        flows = [0.0, 5e-324, 1 / 3, 20.0, *(10 ** dice.uniform(-12, 1.3) for _ in range(400))]
        features = tuple(Feature(name="Jet", flow_each=flow) for flow in flows)
        body = Attraction(name="Body", features=features)
        site = Site(name="Numbers", systems=(RecirculationSystem(name="Loop", attractions=(body,)),))
        save_project(site, path, None)
        again = load_project(path).site
        assert [feature.flow_each for feature in again.systems[0].attractions[0].features] == flows

    def test_the_same_site_gives_the_same_bytes(self, tmp_path: Path, full_site: Site) -> None:
        save_project(full_site, tmp_path / "a.waterpark", None)
        again = load_project(tmp_path / "a.waterpark").site
        save_project(again, tmp_path / "b.waterpark", None)
        assert (tmp_path / "a.waterpark").read_bytes() == (tmp_path / "b.waterpark").read_bytes()

    def test_text_is_made_for_comparing(self, path: Path, full_site: Site) -> None:
        save_project(full_site, path, None)
        text = path.read_text(encoding="utf-8")
        assert list(json.loads(text)) == ["format", "format_version", "site"]
        assert text.endswith("}\n") and not text.endswith("\n\n")
        assert "深い" in text
        site = full_site.revised(client="Cooperative of Alder Bend")
        changed = project_text.project_text(site).decode().splitlines()
        assert sum(old != new for old, new in zip(text.splitlines(), changed, strict=True)) == 1

    def test_a_byte_order_mark_does_not_matter(self, path: Path, full_site: Site) -> None:
        path.write_bytes(b"\xef\xbb\xbf" + project_text.project_text(full_site))
        assert load_project(path).site == full_site

    def test_a_thousand_attractions_open_and_save_quickly(self, path: Path) -> None:
        body = Attraction(
            name="Body", zones=(Zone(name="A"), Zone(name="B", shape=Outline())),
            features=(Feature(name="C"), Feature(name="D")))
        site = Site(name="Large", systems=tuple(
            RecirculationSystem(name=f"Loop {number}", attractions=tuple(
                Attraction(name=f"Body {number}.{one}", zones=tuple(
                    Zone(name=zone.name, shape=zone.shape) for zone in body.zones), features=tuple(
                    Feature(name=feature.name) for feature in body.features)) for one in range(5)))
            for number in range(200)))
        start = time.perf_counter()
        save_project(site, path, None)
        assert load_project(path).site == site
        # About 0.13 s on a slow laptop; the bound catches what grows faster than the site.
        assert time.perf_counter() - start < 2.0


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
        assert "a part of it is missing" in refusal(path, content[:content.index(b'"client"')])

    def test_huge_is_refused_before_it_is_read(self, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        with path.open("wb") as file:
            file.truncate(100_000_000)

        def forbidden(*_: object) -> None:
            raise AssertionError("The content was read.")

        monkeypatch.setattr(project_file, "site_of_text", forbidden)
        with pytest.raises(ProjectFileError, match="larger than 64 MB"):
            load_project(path)

    @pytest.mark.parametrize(("depth", "words"), [
        (100, "Client must be text."), (600, "nested more deeply"), (100_000, "nested more deeply"),
        (5_000_000, "nested more deeply")])
    def test_deeply_nested(self, path: Path, full_site: Site, depth: int, words: str) -> None:
        text = project_text.project_text(full_site).decode()
        nested = "[" * depth + "]" * depth
        assert words in refusal(path, text.replace('"client": ""', f'"client": {nested}'))

    def test_number_of_a_million_digits(self, path: Path, full_site: Site) -> None:
        text = project_text.project_text(full_site).decode()
        message = refusal(path, text.replace('"visits_per_place": 2.0', f'"visits_per_place": {"9" * 1_000_000}'))
        assert "number that cannot be read" in message and len(message) < 400

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

    @pytest.mark.parametrize("content", [
        [], "text", 3, None, {}, {"format": "another-format", "format_version": 1, "site": {}}])
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
    @pytest.mark.parametrize(("place", "value", "words"), [
        (("name",), 5, "Name must be text. It is 5."),
        (("name",), "  ", "Name must not be empty."),
        (("units",), "imperial", "Units must be one of 'us' or 'si'. It is “imperial”."),
        (("operation",), [], "Operation must be a group of fields."),
        (("operation", "open_hours"), "36000", "Operation, open hours must be a number. It is “36000”."),
        (("operation", "open_hours"), 80000.0, "Open hours and hours closed without interruption come to more than"),
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
        ((*BODY, "zones", 0, "shape", "length"), -12.0,
         IN_BODY + "zone 1 “Zone rectangle”, shape, length must be more than 0"),
        ((*BODY, "zones", 0, "shape", "shape"), "blob",
         IN_BODY + "zone 1 “Zone rectangle”, shape must be one of 'rectangle', "),
        ((*BODY, "zones", 0, "deductions", 1, "height"), None,
         IN_BODY + "zone 1 “Zone rectangle”, deduction 2, height must be a number."),
        ((*BODY, "features", 0, "count"), 0, IN_BODY + "feature 1 “Jets”, count must be at least 1"),
    ])
    def test_place_and_fault_are_named(
            self, path: Path, full_site: Site, place: tuple[int | str, ...], value: object, words: str) -> None:
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


class TestSaving:
    def test_the_file_before_is_kept(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        assert not backup_path(path).exists()
        mark = save_project(full_site.revised(name="Second"), path, mark)
        save_project(full_site.revised(name="Third"), path, mark)
        assert load_project(path).site.name == "Third"
        assert load_project(backup_path(path)).site.name == "Second"
        assert sorted(os.listdir(path.parent)) == [path.name, backup_path(path).name]

    def test_saving_the_same_again_leaves_the_backup(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        mark = save_project(full_site.revised(name="Second"), path, mark)
        assert save_project(full_site.revised(name="Second"), path, mark) == mark
        assert load_project(backup_path(path)).site == full_site

    def test_a_damaged_file_does_not_become_the_backup(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        save_project(full_site.revised(name="Second"), path, mark)
        path.write_bytes(b"damaged")
        save_project(full_site.revised(name="Third"), path, None)
        assert load_project(path).site.name == "Third"
        assert load_project(backup_path(path)).site == full_site

    def test_where_hard_links_are_unknown(
            self, path: Path, full_site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
        def unknown(*_: object, **__: object) -> None:
            raise OSError(errno.EOPNOTSUPP, "Operation not supported")

        monkeypatch.setattr(os, "link", unknown)
        mark = save_project(full_site, path, None)
        save_project(full_site.revised(name="Second"), path, mark)
        assert load_project(backup_path(path)).site == full_site
        assert len(os.listdir(path.parent)) == 2

    def test_a_backup_made_by_a_save_cut_off_does_not_hinder_the_next(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        os.link(path, backup_path(path))
        save_project(full_site.revised(name="Second"), path, mark)
        assert load_project(backup_path(path)).site == full_site
        assert sorted(os.listdir(path.parent)) == [path.name, backup_path(path).name]

    def test_changed_by_another_program(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        other = full_site.revised(name="From elsewhere")
        save_project(other, path, None)
        with pytest.raises(ChangedOnDisk, match="Another program changed it"):
            save_project(full_site.revised(name="Mine"), path, mark)
        assert load_project(path).site == other
        save_project(full_site.revised(name="Mine"), path, None)
        assert load_project(path).site.name == "Mine"
        assert load_project(backup_path(path)).site == other

    def test_changed_without_change_of_size_or_time(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        path.write_bytes(path.read_bytes().replace(b"Alder Bend", b"Elder Bend"))
        os.utime(path, ns=(mark.modified, mark.modified))
        with pytest.raises(ChangedOnDisk):
            save_project(full_site.revised(name="Mine"), path, mark)

    def test_touched_but_not_changed(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        os.utime(path, ns=(mark.modified + 10**9, mark.modified + 10**9))
        assert not changed_on_disk(path, mark)
        save_project(full_site.revised(name="Mine"), path, mark)
        assert load_project(path).site.name == "Mine"

    def test_whether_it_changed(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        assert not changed_on_disk(path, mark)
        save_project(full_site.revised(name="Longer name of the site"), path, None)
        assert changed_on_disk(path, mark)
        path.unlink()
        assert changed_on_disk(path, mark)

    def test_deleted_meanwhile(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        path.unlink()
        with pytest.raises(GoneFromDisk, match="moved or deleted"):
            save_project(full_site, path, mark)
        assert not path.exists()
        save_project(full_site, path, None)
        assert load_project(path).site == full_site

    def test_folder_not_there(self, tmp_path: Path, full_site: Site) -> None:
        with pytest.raises(ProjectFileError, match="was not saved. The folder does not exist"):
            save_project(full_site, tmp_path / "gone" / "a.waterpark", None)

    def test_name_of_a_folder(self, path: Path, full_site: Site) -> None:
        path.mkdir()
        with pytest.raises(ProjectFileError, match="There is a folder of that name"):
            save_project(full_site, path, None)

    def test_name_too_long(self, tmp_path: Path, full_site: Site) -> None:
        with pytest.raises(ProjectFileError, match="The name is too long"):
            save_project(full_site, tmp_path / ("a" * 300), None)

    def test_protected_file(self, path: Path, full_site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
        mark = save_project(full_site, path, None)
        path.chmod(0o444)
        if AS_ROOT:
            # To the superuser no file is protected.
            monkeypatch.setattr(os, "access", lambda *_: False)
        with pytest.raises(ProjectFileError, match="protected against writing"):
            save_project(full_site.revised(name="Second"), path, mark)
        assert load_project(path).site == full_site

    @pytest.mark.skipif(AS_ROOT, reason="to the superuser no folder is protected")
    def test_protected_folder(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        path.parent.chmod(0o555)
        try:
            with pytest.raises(ProjectFileError, match="no permission to write there"):
                save_project(full_site.revised(name="Second"), path, mark)
            assert load_project(path).site == full_site
        finally:
            path.parent.chmod(0o755)

    @pytest.mark.skipif(os.name != "posix", reason="rights are told otherwise on this system")
    def test_rights_of_the_file_stay(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        path.chmod(0o640)
        save_project(full_site.revised(name="Second"), path, mark)
        assert path.stat().st_mode & 0o777 == 0o640

    def test_a_link_stays_a_link(self, path: Path, tmp_path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        link = tmp_path / "link.waterpark"
        link.symlink_to(path)
        save_project(full_site.revised(name="Second"), link, mark)
        assert link.is_symlink()
        assert load_project(path).site.name == "Second"

    def test_only_old_left_overs_are_cleared(self, path: Path, full_site: Site) -> None:
        old, new = (path.with_name(safe_file.TEMPORARY.format(word)) for word in ("old", "new"))
        for left_over in (old, new):
            left_over.write_bytes(b"half")
        before = time.time() - 2 * safe_file.STALE_AFTER
        os.utime(old, (before, before))
        save_project(full_site, path, None)
        assert not old.exists() and new.exists()

    def test_too_large_to_be_opened_again(
            self, path: Path, full_site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr(project_text, "LARGEST_FILE", 500)
        with pytest.raises(ProjectFileError, match="larger than 64 MB"):
            save_project(full_site, path, None)
        assert not path.exists()


class TestDiskTrouble:
    """Wherever writing fails, the old file and its backup are as they were, and nothing is left lying about."""

    @pytest.fixture
    def saved(self, path: Path, full_site: Site) -> Fingerprint:
        mark = save_project(full_site, path, None)
        return save_project(full_site.revised(name="Second"), path, mark)

    def check_nothing_happened(self, path: Path, full_site: Site) -> None:
        assert load_project(path).site == full_site.revised(name="Second")
        assert load_project(backup_path(path)).site in (full_site, full_site.revised(name="Second"))
        assert sorted(os.listdir(path.parent)) == [path.name, backup_path(path).name]

    @pytest.mark.parametrize(("number", "words"), [
        (errno.ENOSPC, "no room left on the disk"), (errno.EDQUOT, "no room left on the disk"),
        (errno.EROFS, "no permission to write there"), (errno.EACCES, "no permission to write there"),
        (errno.EIO, "The disk refused it")])
    @pytest.mark.parametrize("call", ["fsync", "replace"])
    def test_failing_calls(
            self, path: Path, full_site: Site, saved: Fingerprint, monkeypatch: pytest.MonkeyPatch, call: str,
            number: int, words: str) -> None:
        def failing(*_: object) -> None:
            raise OSError(number, os.strerror(number))

        with monkeypatch.context() as patched:
            patched.setattr(os, call, failing)
            with pytest.raises(ProjectFileError, match=f"was not saved. .*{words}"):
                save_project(full_site.revised(name="Third"), path, saved)
        self.check_nothing_happened(path, full_site)
        save_project(full_site.revised(name="Third"), path, saved)
        assert load_project(path).site.name == "Third"

    @pytest.mark.skipif(os.name != "posix", reason="this system sets no limit to the size of files")
    def test_disk_full_in_the_middle_of_writing(self, path: Path, full_site: Site, saved: Fingerprint) -> None:
        """A limit on the size of files cuts a real write short, as a full disk does."""
        import resource
        import signal

        before = resource.getrlimit(resource.RLIMIT_FSIZE)
        handler = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (1000, before[1]))
        try:
            with pytest.raises(ProjectFileError, match="was not saved. The disk refused it"):
                save_project(full_site.revised(name="Third"), path, saved)
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, before)
            signal.signal(signal.SIGXFSZ, handler)
        self.check_nothing_happened(path, full_site)

    @pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no device that is always full")
    def test_a_device_that_is_full(
            self, path: Path, full_site: Site, saved: Fingerprint, monkeypatch: pytest.MonkeyPatch) -> None:
        """The temporary file is written to a device that answers every write with “no space left”."""
        really_open = Path.open

        def to_full_device(self: Path, mode: str = "r", **more: Any) -> Any:
            return open("/dev/full", "wb") if mode == "xb" else really_open(self, mode, **more)  # noqa: SIM115

        with monkeypatch.context() as patched:
            patched.setattr(Path, "open", to_full_device)
            with pytest.raises(ProjectFileError, match="no room left on the disk"):
                save_project(full_site.revised(name="Third"), path, saved)
        self.check_nothing_happened(path, full_site)

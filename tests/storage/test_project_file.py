"""Opening and saving project files: nothing changes on the way and nothing is lost."""

import errno
import json
import os
import random
import stat
import time
from pathlib import Path

import pytest

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.zones import Outline, Zone
from waterpark_designer.storage import project_text, safe_file
from waterpark_designer.storage.project_file import (
    ChangedOnDisk,
    GoneFromDisk,
    ProjectFileError,
    backup_path,
    changed_on_disk,
    load_project,
    save_project,
)

AS_ROOT = hasattr(os, "geteuid") and os.geteuid() == 0


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

    def test_a_feature_saved_before_it_had_a_device_takes_its_suppliers_flow(self, path: Path) -> None:
        feature = Feature(name="Jets", flow_each=0.01, count=3, device_head=4.0)
        body = Attraction(name="Body", features=(feature,))
        site = Site(name="Old", systems=(RecirculationSystem(name="Loop", attractions=(body,)),))
        save_project(site, path, None)
        saved = json.loads(path.read_text(encoding="utf-8"))
        [old] = saved["site"]["systems"][0]["attractions"][0]["features"]
        assert old.pop("device") == {"flow_by": "supplier"} and old.pop("transit_time") is None
        path.write_text(json.dumps(saved), encoding="utf-8")
        assert load_project(path).site == site

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
            name="Body",
            zones=(Zone(name="A"), Zone(name="B", shape=Outline())),
            features=(Feature(name="C"), Feature(name="D")),
        )
        site = Site(
            name="Large",
            systems=tuple(
                RecirculationSystem(
                    name=f"Loop {number}",
                    attractions=tuple(
                        Attraction(
                            name=f"Body {number}.{one}",
                            zones=tuple(Zone(name=zone.name, shape=zone.shape) for zone in body.zones),
                            features=tuple(Feature(name=feature.name) for feature in body.features),
                        )
                        for one in range(5)
                    ),
                )
                for number in range(200)
            ),
        )
        start = time.perf_counter()
        save_project(site, path, None)
        assert load_project(path).site == site
        # About 0.13 s on a slow laptop; the bound catches what grows faster than the site.
        assert time.perf_counter() - start < 2.0


class TestSaving:
    def test_the_file_before_is_kept(self, path: Path, full_site: Site) -> None:
        mark = save_project(full_site, path, None)
        assert not backup_path(path).exists()
        mark = save_project(full_site.revised(name="Second"), path, mark)
        save_project(full_site.revised(name="Third"), path, mark)
        assert load_project(path).site.name == "Third"
        assert load_project(backup_path(path)).site.name == "Second"
        assert sorted(os.listdir(path.parent)) == [path.name, backup_path(path).name]

    def test_the_content_is_on_the_disk_before_its_name(
        self, path: Path, full_site: Site, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """Otherwise a power failure could leave the new name on an empty file."""
        steps: list[str] = []
        really_sync, really_replace = os.fsync, os.replace

        def sync(descriptor: int) -> None:
            steps.append("sync folder" if stat.S_ISDIR(os.fstat(descriptor).st_mode) else "sync file")
            really_sync(descriptor)

        def replace(source: Path, target: Path) -> None:
            steps.append(f"rename to {Path(target).name}")
            really_replace(source, target)

        mark = save_project(full_site, path, None)
        monkeypatch.setattr(os, "fsync", sync)
        monkeypatch.setattr(os, "replace", replace)
        save_project(full_site.revised(name="Second"), path, mark)
        assert steps == [f"rename to {backup_path(path).name}", "sync file", f"rename to {path.name}", "sync folder"]

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

    def test_where_hard_links_are_unknown(self, path: Path, full_site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
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

    def test_too_large_to_be_opened_again(self, path: Path, full_site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr(project_text, "LARGEST_FILE", 500)
        with pytest.raises(ProjectFileError, match="larger than 64 MB"):
            save_project(full_site, path, None)
        assert not path.exists()

"""Files of older versions open; the steps that bring them up are tried with one made for the test."""

import json
from pathlib import Path
from typing import Any

import pytest

from waterpark_designer.model.site import Site
from waterpark_designer.storage import migrations
from waterpark_designer.storage.project_file import ProjectFileError, ProjectTooNew, load_project, save_project
from waterpark_designer.storage.project_text import project_text

SAVED = Path(__file__).with_name("saved")


def test_every_version_so_far_opens(full_site: Site) -> None:
    for version in range(1, migrations.CURRENT + 1):
        assert load_project(SAVED / f"v{version}.waterpark").site == full_site


def test_a_step_leads_from_every_version_to_the_next() -> None:
    assert set(migrations.STEPS) == set(range(1, migrations.CURRENT))


def test_the_newest_saved_file_is_as_the_program_writes_it(full_site: Site) -> None:
    """A change of the format without a new version shows here; see `write_saved.py`."""
    newest = SAVED / f"v{migrations.CURRENT}.waterpark"
    assert newest.read_bytes() == project_text(full_site)


class TestFutureVersion:
    """As it will be once there are two versions: the second calls the client `owner` in the first."""

    @pytest.fixture(autouse=True)
    def second_version(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr(migrations, "CURRENT", 2)
        monkeypatch.setattr(migrations, "STEPS", {})

        @migrations.migration(1)
        def owner_is_the_client(site: dict[str, Any]) -> dict[str, Any]:
            return {**{key: value for key, value in site.items() if key != "owner"}, "client": site["owner"]}

    def old_file(self, folder: Path, full_site: Site, **changes: Any) -> Path:
        data = json.loads(project_text(full_site))
        del data["site"]["client"]
        data["format_version"] = 1
        data["site"] |= changes
        path = folder / "old.waterpark"
        path.write_text(json.dumps(data), encoding="utf-8")
        return path

    def test_an_old_file_is_brought_up(self, tmp_path: Path, full_site: Site) -> None:
        path = self.old_file(tmp_path, full_site, owner="Cooperative")
        loaded = load_project(path)
        assert loaded.site == full_site.revised(client="Cooperative")
        save_project(loaded.site, path, loaded.fingerprint)
        assert json.loads(path.read_bytes())["format_version"] == 2
        assert load_project(path).site == loaded.site

    def test_a_current_file_is_left_alone(self, tmp_path: Path, full_site: Site) -> None:
        save_project(full_site, tmp_path / "new.waterpark", None)
        assert load_project(tmp_path / "new.waterpark").site == full_site

    def test_a_damaged_old_file_says_so(self, tmp_path: Path, full_site: Site) -> None:
        path = self.old_file(tmp_path, full_site)
        with pytest.raises(ProjectFileError, match="version 1 .* cannot be brought to version 2"):
            load_project(path)

    def test_a_field_that_version_did_not_have_is_named(self, tmp_path: Path, full_site: Site) -> None:
        path = self.old_file(tmp_path, full_site, owner="Cooperative", weather="fair")
        with pytest.raises(ProjectFileError, match="Weather is not a field that this program knows"):
            load_project(path)

    def test_one_more_is_too_new(self) -> None:
        with pytest.raises(ProjectTooNew, match="version 3 .* up to version 2"):
            migrations.to_current({}, 3)


def test_steps_follow_one_another(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(migrations, "CURRENT", 4)
    monkeypatch.setattr(
        migrations,
        "STEPS",
        {number: lambda site, number=number: {**site, "steps": [*site["steps"], number]} for number in (1, 2, 3)},
    )
    assert migrations.to_current({"steps": []}, 1) == {"steps": [1, 2, 3]}
    assert migrations.to_current({"steps": []}, 3) == {"steps": [3]}
    assert migrations.to_current({"steps": []}, 4) == {"steps": []}

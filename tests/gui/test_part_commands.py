"""What can be done to the parts of a site: each is one named step that can be undone."""

import pytest
from PySide6.QtGui import QGuiApplication

from waterpark_designer.gui.part_commands import PartCommands
from waterpark_designer.model.kinds import AttractionKind, FeatureKind
from waterpark_designer.model.walk import find, parent_of


@pytest.fixture
def commands(project):
    return PartCommands(project)


@pytest.fixture
def refusals(commands):
    said = []
    commands.refused.connect(said.append)
    return said


def test_new_attraction_is_selected_on_its_own_system(project, commands) -> None:
    commands.add_attraction(AttractionKind.SPA)
    spa = project.selected
    assert spa.kind is AttractionKind.SPA
    assert parent_of(project.site, spa.id).attractions == (spa,)
    assert project.undo_stack.undoText() == "Add spa"


def test_new_attraction_on_the_selected_system(project, commands) -> None:
    project.select(project.site.systems[0].attractions[0].features[0].id)
    commands.add_attraction(AttractionKind.SPA, on_this_system=True)
    assert project.site.systems[0].attractions[-1] is project.selected


def test_feature_and_zone_go_to_the_selected_attraction(project, commands) -> None:
    lap = project.site.systems[1].attractions[0]
    project.select(lap.id)
    commands.add_zone()
    commands.add_feature(FeatureKind.WATERFALL)
    now = find(project.site, lap.id)
    assert [zone.name for zone in now.zones] == ["Basin", "Zone"]
    assert now.features == (project.selected,)


def test_feature_without_an_attraction_is_refused(project, commands, refusals) -> None:
    commands.add_feature(FeatureKind.BUBBLER)
    assert refusals == ["Select a body of water first."]
    assert not project.undo_stack.canUndo()


def test_system(project, commands) -> None:
    commands.add_system()
    assert project.selected is project.site.systems[-1]
    assert project.selected.name == "System 4"


def test_duplicate_delete_undo(project, commands) -> None:
    before = project.site
    project.select(before.systems[0].id)
    commands.duplicate()
    assert len(project.site.systems) == 4
    commands.delete()
    assert project.undo_stack.undoText().startswith("Delete System")
    project.undo_stack.undo()
    project.undo_stack.undo()
    assert project.site is before


def test_after_deleting_the_next_sibling_is_selected(project, commands) -> None:
    first, second, third = project.site.systems
    project.select(second.id)
    commands.delete()
    assert project.selection == third.id
    commands.delete()
    assert project.selection == first.id
    commands.delete()
    assert project.selection == project.site.id


def test_site_and_last_zone_stay(project, commands, refusals) -> None:
    commands.delete()
    commands.duplicate()
    commands.cut()
    project.select(project.site.systems[1].attractions[0].zones[0].id)
    commands.delete()
    assert len(refusals) == 4
    assert "at least one zone" in refusals[-1]
    assert not project.undo_stack.canUndo()


def test_cut_and_paste_moves_a_part(project, commands) -> None:
    jets, pool = project.site.systems[0].attractions[0].features[0], project.site.systems[1].attractions[0]
    project.select(jets.id)
    commands.cut()
    assert "Current jets" in QGuiApplication.clipboard().text()
    project.select(pool.id)
    commands.paste()
    assert [feature.name for feature in find(project.site, pool.id).features] == ["Current jets"]
    assert project.undo_stack.undoText() == "Paste Current jets"


def test_foreign_text_is_refused_and_nothing_changes(project, commands, refusals) -> None:
    QGuiApplication.clipboard().setText("Dear engineer, please find enclosed")
    before = project.site
    commands.paste()
    assert project.site is before
    assert "clipboard holds no part" in refusals[0]


def test_move_by_keys_goes_on_to_the_next_system(project, commands, refusals) -> None:
    river = project.site.systems[0].attractions[0]
    project.select(river.id)
    commands.move(1)
    assert [body.name for body in project.site.systems[1].attractions] == ["Lazy river", "Lap pool"]
    commands.move(1)
    assert [body.name for body in project.site.systems[1].attractions] == ["Lap pool", "Lazy river"]
    commands.move(-1)
    commands.move(-1)
    assert project.site.systems[0].attractions == (river,)
    commands.move(-1)
    assert "already at the top" in refusals[0]

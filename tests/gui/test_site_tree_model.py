"""The tree keeps the identity of its rows through every edit, and says what it should of each."""

import random

import pytest
from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtTest import QAbstractItemModelTester

from waterpark_designer.engine.findings import Status
from waterpark_designer.gui.site_rows import children_shown, row_of
from waterpark_designer.gui.site_tree_model import SiteTreeModel
from waterpark_designer.gui.tree_rows import NAME, NUMBER
from waterpark_designer.model.edits import EditRefused, duplicate, insert, move, remove, revise
from waterpark_designer.model.kinds import AttractionKind, FeatureKind
from waterpark_designer.model.starting_points import add_attraction, new_attraction, new_feature, new_system, new_zone
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import find, parent_of, walk
from waterpark_designer.units import UnitSystem


@pytest.fixture
def model(project):
    made = SiteTreeModel(project)
    made.tester = QAbstractItemModelTester(made, QAbstractItemModelTester.FailureReportingMode.Warning)
    return made


def shown(model, parent=None):
    """(id, children) of the rows as a view sees them."""
    parent = parent or QModelIndex()
    rows = [model.index(row, 0, parent) for row in range(model.rowCount(parent))]
    return [(model.node_at(index).id, shown(model, index)) for index in rows]


def expected(node):
    return node.id, [expected(child) for child in children_shown(node)]


def test_model_keeps_qts_rules(project, model, qtmodeltester) -> None:
    qtmodeltester.check(model)


def test_rows_are_the_site_without_zones_that_stand_alone(project, model) -> None:
    assert shown(model) == [expected(project.site)]
    river = project.site.systems[0].attractions[0]
    assert [child for child, _ in shown(model, model.index_of(river.id))] == [river.features[0].id]


def test_second_zone_brings_both_into_the_tree(project, model) -> None:
    pool = project.site.systems[1].attractions[0]
    assert model.index_of(pool.zones[0].id) == model.index_of(pool.id)
    project.edit("Add zone", insert(project.site, pool.id, new_zone(UnitSystem.US)))
    assert model.rowCount(model.index_of(pool.id)) == 2
    project.undo_stack.undo()
    assert model.rowCount(model.index_of(pool.id)) == 0


def test_key_number_and_count_are_read_from_the_design(project, model) -> None:
    river = project.site.systems[0].attractions[0]
    jets = river.features[0]
    volume = project.design.value(river.id, "volume")
    number = model.index_of(river.id, NUMBER)
    # The mark of its worst finding, then its volume to four figures.
    mark, gallons, unit = number.data().split()
    assert (mark, unit) == ("?", "gal")
    assert float(gallons.replace(",", "")) == pytest.approx(volume / 0.003785411784, rel=5e-4)
    assert model.index_of(jets.id).data() == "Current jets × 2"
    assert model.index_of(jets.id).data(Qt.ItemDataRole.EditRole) == "Current jets"
    assert number.data(Qt.ItemDataRole.TextAlignmentRole) & Qt.AlignmentFlag.AlignRight


def test_units_change_every_number(project, model) -> None:
    river = project.site.systems[0].attractions[0]
    project.edit("Use SI", revise(project.site, project.site.id, units=UnitSystem.SI))
    assert model.index_of(river.id, NUMBER).data().endswith("m³")
    assert model.index_of(project.site.systems[0].id, NUMBER).data().endswith("m³/h")


def test_status_is_a_mark_and_words(project, model) -> None:
    failing = [
        node
        for node in walk(project.site)
        if any(item.status is Status.NOT_MET for item in project.design.sheets[node.id].findings)
    ]
    for node in failing:
        index = model.index_of(node.id, NUMBER)
        assert index.data().startswith(Status.NOT_MET.mark)
        assert "not met" in index.data(Qt.ItemDataRole.ToolTipRole)


def test_rename_in_place_is_one_undo_step(project, model) -> None:
    river = project.site.systems[0].attractions[0]
    assert model.setData(model.index_of(river.id), "Otter run")
    assert find(project.site, river.id).name == "Otter run"
    assert project.undo_stack.undoText() == "Rename Lazy river"
    project.undo_stack.undo()
    assert model.index_of(river.id).data() == "Lazy river"


def test_empty_name_is_refused_with_the_reason(project, model, qtbot) -> None:
    river = project.site.systems[0].attractions[0]
    with qtbot.waitSignal(model.refused) as refused:
        assert not model.setData(model.index_of(river.id), "  ")
    assert "name" in refused.args[0].lower()
    assert find(project.site, river.id).name == "Lazy river"


def test_only_rows_that_read_differently_are_repainted(project, model) -> None:
    repainted = []
    model.dataChanged.connect(lambda first, _last: repainted.append(model.node_at(first).id))
    river = project.site.systems[0].attractions[0]
    project.edit("Rename", revise(project.site, river.id, name="Otter run"))
    assert repainted == [river.id]


def drop(model, node, target, row=-1):
    mime = model.mimeData([model.index_of(node)])
    parent = model.index_of(target) if target else QModelIndex()
    allowed = model.canDropMimeData(mime, Qt.DropAction.MoveAction, row, 0, parent)
    if allowed:
        model.dropMimeData(mime, Qt.DropAction.MoveAction, row, 0, parent)
    return allowed


def test_attraction_dropped_on_a_system_shares_it(project, model) -> None:
    lap, river_system = project.site.systems[1].attractions[0], project.site.systems[0]
    index = QPersistentModelIndex(model.index_of(lap.id))
    assert drop(model, lap.id, river_system.id)
    assert parent_of(project.site, lap.id).id == river_system.id
    assert index.isValid() and model.node_at(index).id == lap.id
    assert project.undo_stack.undoText() == "Move Lap pool"


def test_attraction_dropped_on_empty_area_gets_its_own_system(project, model) -> None:
    shared = project.site.systems[2]
    wading = shared.attractions[1]
    assert drop(model, wading.id, None)
    holder = parent_of(project.site, wading.id)
    assert holder is project.site.systems[-1] and holder.attractions == (wading,)


def test_attraction_alone_takes_its_system_along(project, model) -> None:
    river_system = project.site.systems[0]
    assert drop(model, river_system.attractions[0].id, None)
    assert [system.id for system in project.site.systems].index(river_system.id) == 2
    assert len(project.site.systems) == 3


def test_rows_are_reordered_by_dropping_between(project, model) -> None:
    first, second, third = (system.id for system in project.site.systems)
    assert drop(model, first, project.site.id, 3)
    assert [system.id for system in project.site.systems] == [second, third, first]
    assert drop(model, first, project.site.id, 0)
    assert [system.id for system in project.site.systems] == [first, second, third]


def test_feature_cannot_stand_on_a_system(project, model) -> None:
    jets = project.site.systems[0].attractions[0].features[0]
    assert not drop(model, jets.id, project.site.systems[1].id)
    assert not drop(model, jets.id, None)


def random_edit(rng, site):
    nodes = list(walk(site))
    node, other = rng.choice(nodes), rng.choice(nodes)
    edits = [
        lambda: remove(site, node.id),
        lambda: move(site, node.id, other.id, rng.randrange(4)),
        lambda: move(site, node.id, parent_of(site, node.id).id, rng.randrange(4)),
        lambda: duplicate(site, node.id)[0],
        lambda: revise(site, node.id, name=f"Name {rng.random():.3f}"),
        lambda: add_attraction(site, rng.choice(list(AttractionKind)))[0],
        lambda: insert(site, other.id, new_feature(FeatureKind.BUBBLER, UnitSystem.US), 0),
        lambda: insert(site, other.id, new_zone(UnitSystem.US), 0),
        lambda: regrouped(site, rng),
    ]
    try:
        return rng.choice(edits)()
    except (EditRefused, AttributeError):
        return site


def regrouped(site, rng):
    """All attractions shuffled onto two new systems, or all features in one new attraction: rows must survive
    the loss of every parent."""
    bodies = [body for system in site.systems for body in system.attractions]
    rng.shuffle(bodies)
    if bodies and rng.random() < 0.5:
        features = tuple(feature for body in bodies for feature in body.features)
        bodies = [new_attraction(AttractionKind.SPA, UnitSystem.US).revised(features=features)]
    half = len(bodies) // 2
    systems = [new_system(site).revised(attractions=tuple(part)) for part in (bodies[:half], bodies[half:])]
    return site.revised(systems=tuple(system for system in systems if isinstance(system, RecirculationSystem)))


@pytest.mark.parametrize("seed", range(6))
def test_any_edits_and_undos_leave_the_tree_the_same_as_the_site(seed, project, model) -> None:
    rng = random.Random(seed)
    for _ in range(40):
        kept = {
            node.id: QPersistentModelIndex(model.index_of(node.id))
            for node in walk(project.site)
            if model.index_of(node.id).data(Qt.ItemDataRole.UserRole) == node.id
        }
        if rng.random() < 0.25:
            project.undo_stack.undo()
        else:
            project.edit("Change", random_edit(rng, project.site))
        assert shown(model) == [expected(project.site)]
        for node in walk(project.site):
            index = kept.get(node.id)
            if index is not None and model.index_of(node.id).data(Qt.ItemDataRole.UserRole) == node.id:
                assert index.isValid() and model.node_at(index) is node
                assert index.data() == row_of(node, project.design).name


def test_one_move_to_the_far_end_is_one_move(project, model) -> None:
    for _ in range(20):
        project.edit("Add", add_attraction(project.site, AttractionKind.SPA)[0])
    moves = []
    model.rowsMoved.connect(lambda *_: moves.append(1))
    first = project.site.systems[0].id
    project.edit("Move", move(project.site, first, project.site.id))
    assert len(moves) == 1
    project.undo_stack.undo()
    assert len(moves) == 2
    assert model.index_of(first).row() == 0
    assert model.index_of(first, NAME).data() == "System 1"

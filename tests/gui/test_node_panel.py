"""The panel of the selected node as a whole."""

import pytest
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QWidget

from waterpark_designer.gui.field_spec import specs_of
from waterpark_designer.gui.lay_out_desk import LayOutDesk
from waterpark_designer.gui.node_pages import NAMED_ABOVE, PUMP_FIELDS, SECTIONS, NodePage
from waterpark_designer.gui.node_panel import LEAST_WIDTH, NodePanel, kind_line
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.pump_section import PumpSection
from waterpark_designer.gui.theme import DARK, LIGHT, apply_theme
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.edits import revise
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import EquipmentLosses, HydraulicTerms, PumpPlan
from waterpark_designer.model.node import Node
from waterpark_designer.model.openings import OpeningsPlan, TankPlan
from waterpark_designer.model.site import Operation, SaltSupply, Site, WaterLosses
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan, RecirculationSystem, SecondaryPlan
from waterpark_designer.model.walk import find, walk
from waterpark_designer.model.zones import Zone
from waterpark_designer.units import UnitSystem

SORTS = (Site, RecirculationSystem, Attraction, Zone, Feature)


def first(project: OpenProject, sort: type[Node]) -> Node:
    return next(node for node in walk(project.site) if isinstance(node, sort))


@pytest.fixture
def panel(qtbot, project) -> NodePanel:
    made = NodePanel(project)
    qtbot.addWidget(made)
    made.resize(340, 700)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def type_in(qtbot, line: QWidget, text: str, key: Qt.Key = Qt.Key.Key_Return) -> None:
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    qtbot.keyClick(line, key)


@pytest.mark.parametrize("sort", SORTS)
def test_each_sort_of_node_has_its_page_and_figures(panel, project, sort) -> None:
    node = first(project, sort)
    project.select(node.id)
    assert panel.name.toPlainText() == node.name
    assert panel.pages[sort].isVisible()
    assert not any(page.isVisible() for other, page in panel.pages.items() if other is not sort)
    assert panel.figures.rows.keys() == project.design.sheets[node.id].figures.keys()
    assert panel.notes.toPlainText() == node.notes


@pytest.mark.parametrize("sort", SORTS)
def test_nothing_is_wider_than_the_narrow_panel(qtbot, panel, project, sort) -> None:
    long = "A name that goes on and on, with Wortungetümzusammensetzungskunst " * 2
    project.edit("Long names", revise(project.site, first(project, sort).id, name=long.strip()))
    project.select(first(project, sort).id)
    for row in panel.figures.rows.values():
        row.set_open(True)
    panel.resize(LEAST_WIDTH, 700)
    qtbot.waitUntil(lambda: panel.area.viewport().width() < LEAST_WIDTH)
    assert panel.width() == LEAST_WIDTH
    assert panel.area.widget().minimumSizeHint().width() <= panel.area.viewport().width()


def test_every_field_of_the_model_can_be_reached() -> None:
    every = [section for sections in SECTIONS.values() for section in sections]
    shown = {(section.owner, name) for section in every for name in section.names()}
    # The pumps make their sections themselves, from all fields of the plan and the system's own of the pump.
    shown |= {(RecirculationSystem, name) for name in PUMP_FIELDS}
    owners = (
        Site,
        Operation,
        WaterLosses,
        SaltSupply,
        HydraulicTerms,
        RecirculationSystem,
        FilterPlan,
        DisinfectionPlan,
        SecondaryPlan,
        PumpPlan,
        EquipmentLosses,
        TankPlan,
        OpeningsPlan,
        Attraction,
        Feature,
    )
    assert shown == {(owner, name) for owner in owners for name in specs_of(owner) if name not in NAMED_ABOVE}


def test_selecting_another_node_of_the_sort_keeps_the_widgets(panel, project) -> None:
    bodies = [node for node in walk(project.site) if isinstance(node, Attraction)]
    project.select(bodies[0].id)
    page = panel.pages[Attraction]
    line = page.sections[0].rows["target_salinity"].editor.line
    project.select(bodies[1].id)
    assert panel.pages[Attraction] is page
    assert page.sections[0].rows["target_salinity"].editor.line is line
    assert panel.name.toPlainText() == bodies[1].name


def test_edit_shows_in_field_and_figure(qtbot, panel, project) -> None:
    body = first(project, Attraction)
    project.select(body.id)
    before = panel.figures.rows["salt_mass"].value.text()
    type_in(qtbot, panel.pages[Attraction].sections[0].rows["target_salinity"].editor.line, "3 g/L")
    assert first(project, Attraction).target_salinity == pytest.approx(3.0)
    assert panel.figures.rows["salt_mass"].value.text() != before


def test_good_entry_is_taken_before_the_selection_moves(qtbot, panel, project) -> None:
    body = first(project, Attraction)
    project.select(body.id)
    line = panel.pages[Attraction].sections[0].rows["target_salinity"].editor.line
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "2500")
    project.select(project.site.id)
    assert find(project.site, body.id).target_salinity == pytest.approx(2.5)
    assert panel.name.toPlainText() == project.site.name


def test_bad_entry_is_dropped_when_the_selection_moves(qtbot, panel, project) -> None:
    bodies = [node for node in walk(project.site) if isinstance(node, Attraction)]
    project.select(bodies[0].id)
    row = panel.pages[Attraction].sections[0].rows["target_salinity"]
    type_in(qtbot, row.editor.line, "lots")
    assert row.error.isVisible()
    project.select(bodies[1].id)
    assert row.error.isHidden()
    assert row.editor.line.text() == "0"
    assert project.undo_stack.count() == 0


def test_name_is_typed_over_in_the_title(qtbot, panel, project) -> None:
    body = first(project, Attraction)
    project.select(body.id)
    type_in(qtbot, panel.name, "Meander  river")
    assert find(project.site, body.id).name == "Meander river"
    assert panel.name.toPlainText() == "Meander river"
    assert project.undo_stack.undoText() == "Rename Lazy river"
    panel.name.setFocus()
    panel.name.selectAll()
    qtbot.keyClick(panel.name, Qt.Key.Key_Delete)
    qtbot.keyClick(panel.name, Qt.Key.Key_Return)
    assert panel.name_error.text() == "Give it a name."
    qtbot.keyClick(panel.name, Qt.Key.Key_Escape)
    assert panel.name.toPlainText() == "Meander river"
    assert panel.name_error.isHidden()


def test_notes_are_taken_when_left(qtbot, panel, project) -> None:
    project.select(first(project, RecirculationSystem).id)
    panel.notes.setFocus()
    qtbot.keyClicks(panel.notes, "Pit is 3 m deep")
    panel.notes.clearFocus()
    assert first(project, RecirculationSystem).notes == "Pit is 3 m deep"
    assert project.undo_stack.undoText() == "Change notes of System 1"


def test_kind_line_links_to_the_node_above(qtbot, panel, project) -> None:
    body, system = first(project, Attraction), first(project, RecirculationSystem)
    project.select(body.id)
    assert kind_line(project.site, body) == f'Lazy river · <a href="{system.id}">System 1</a> · outdoors'
    with qtbot.waitSignal(panel.node_requested) as asked:
        panel.kind.linkActivated.emit(system.id)
    assert asked.args == [system.id]


def test_a_name_longer_than_the_panel_is_wide_stands_on_two_lines(qtbot, project) -> None:
    project.edit("Rename", revise(project.site, project.site.id, name="Fernhollow Community Pools and Gardens"))
    desk = LayOutDesk(project)
    qtbot.addWidget(desk)
    desk.resize(1100, 700)
    desk.part_panes(1100)
    with qtbot.waitExposed(desk):
        desk.show()
    name = desk.panel.name
    assert name.document().size().height() == 2
    qtbot.waitUntil(lambda: name.viewport().height() >= 2 * name.fontMetrics().lineSpacing(), timeout=1000)


def test_names_in_the_kind_line_are_no_markup(project) -> None:
    system = first(project, RecirculationSystem)
    site = revise(project.site, system.id, name="<i>River & co</i>")
    assert "&lt;i&gt;River &amp; co&lt;/i&gt;" in kind_line(site, find(site, first(project, Attraction).id))


def test_show_figure_opens_it_and_brings_it_on_screen(qtbot, panel, project) -> None:
    panel.resize(320, 400)
    project.select(first(project, RecirculationSystem).id)
    for key in ("make_up_salt", "volume", "filter_count"):
        panel.show_figure(key)
        row = panel.figures.rows[key]

        def on_screen(row: QWidget = row) -> bool:
            port = panel.area.viewport()
            top = row.mapTo(port, row.rect().topLeft()).y()
            return row.mark.hasFocus() and top >= 0 and row.card.height() > 60 and top + row.height() <= port.height()

        qtbot.waitUntil(on_screen)


def test_show_figure_opens_the_fold_of_a_minor_one(panel, project) -> None:
    project.select(first(project, RecirculationSystem).id)
    panel.show_figure("turnovers_a_day")
    assert panel.figures.rows["turnovers_a_day"].isVisible()


def test_figure_that_is_not_there_is_passed_over(panel) -> None:
    panel.show_figure("no_such_figure")
    assert not any(row.is_open for row in panel.figures.rows.values())


def test_code_basis_in_short_and_the_way_to_it(qtbot, panel, project) -> None:
    page = panel.pages[Site]
    assert page.basis.text() == "\n".join(project.design.basis.titles)
    with qtbot.waitSignal(panel.code_basis_requested):
        qtbot.mouseClick(page.button, Qt.MouseButton.LeftButton)
    project.edit("None", project.site.revised(code_basis=()))
    assert "No rule set is chosen" in page.basis.text()
    project.edit("Odd", project.site.revised(code_basis=("nowhere-2001",)))
    assert page.unknown.text() == "Not installed here: nowhere-2001."
    assert page.unknown.isVisible()


def test_zones_are_added_duplicated_and_removed(qtbot, panel, project) -> None:
    body = first(project, Attraction)
    project.select(body.id)
    page = panel.pages[Attraction]
    assert not page.zones[0].remove_button.isEnabled()
    qtbot.mouseClick(page.add_button, Qt.MouseButton.LeftButton)
    assert len(first(project, Attraction).zones) == 2
    assert project.undo_stack.undoText() == "Add zone to Lazy river"
    assert page.zones[1].fold.is_open and page.zones[1].isVisible()
    qtbot.mouseClick(page.zones[0].duplicate_button, Qt.MouseButton.LeftButton)
    zones = first(project, Attraction).zones
    assert len(zones) == 3 and zones[1].shape == zones[0].shape and zones[1].id != zones[0].id
    qtbot.mouseClick(page.zones[0].remove_button, Qt.MouseButton.LeftButton)
    assert first(project, Attraction).zones == zones[1:]
    for _ in range(3):
        project.undo_stack.undo()
    assert first(project, Attraction).zones == body.zones
    assert [section.isVisible() for section in page.zones] == [True, False, False]


def test_zone_keeps_open_or_folded_as_it_was_left(qtbot, panel, project) -> None:
    bodies = [node for node in walk(project.site) if isinstance(node, Attraction)]
    project.select(bodies[0].id)
    fold = panel.pages[Attraction].zones[0].fold
    qtbot.keyClick(fold.heading, Qt.Key.Key_Return)
    assert not fold.is_open
    project.select(bodies[1].id)
    assert fold.is_open
    project.select(bodies[0].id)
    assert not fold.is_open


def test_folded_section_is_made_when_it_is_opened(qtbot, panel, project) -> None:
    project.select(first(project, RecirculationSystem).id)
    page = panel.pages[RecirculationSystem]
    assert isinstance(page, NodePage)
    assert not any(isinstance(section, PumpSection) for section in page.sections)
    from waterpark_designer.gui.folding import FoldingSection

    fold = next(each for each in page.findChildren(FoldingSection) if each.heading.text() == "Recirculation pump")
    qtbot.mouseClick(fold.heading, Qt.MouseButton.LeftButton)
    pump = next(section for section in page.sections if isinstance(section, PumpSection))
    row = pump.parts[0].rows["pump_head"]
    type_in(qtbot, row.editor.line, "60")
    assert first(project, RecirculationSystem).pump_head == pytest.approx(60 * 0.3048)


def test_node_that_goes_while_it_is_shown_gives_way_to_the_one_above(panel, project) -> None:
    from waterpark_designer.model.edits import remove

    body, system = first(project, Attraction), first(project, RecirculationSystem)
    project.select(body.id)
    project.edit("Remove", remove(project.site, body.id))
    assert panel.name.toPlainText() == system.name


def test_units_are_shown_anew_without_a_step(panel, project) -> None:
    project.select(first(project, Zone).id)
    project.edit("SI", revise(project.site, project.site.id, units=UnitSystem.SI))
    assert panel.pages[Zone].editor.shape.fields.rows["width"].editor.line.text() == "3.048"
    assert project.undo_stack.count() == 1


def test_other_pages_are_made_ahead_once_the_panel_is_seen(qtbot, panel) -> None:
    qtbot.waitUntil(lambda: panel.pages.keys() == SECTIONS.keys())
    assert [sort for sort, page in panel.pages.items() if page.isVisible()] == [Site]


class WindowWatch(QObject):
    """Remembers every widget that comes up as a window of its own."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: list[str] = []

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        if event.type() is QEvent.Type.Show and isinstance(watched, QWidget) and watched.isWindow():
            self.seen.append(repr(watched))
        return False


def test_nothing_flashes_up_as_a_window_of_its_own(qapp, panel, project) -> None:
    watch = WindowWatch()
    qapp.installEventFilter(watch)
    try:
        for sort in SORTS:
            project.select(first(project, sort).id)
            for key in tuple(panel.figures.rows):
                panel.show_figure(key)
        project.edit("SI", revise(project.site, project.site.id, units=UnitSystem.SI))
        qapp.processEvents()
    finally:
        qapp.removeEventFilter(watch)
    assert watch.seen == []


def test_notes_that_are_too_long_are_said_so_and_kept(panel, project) -> None:
    pool = first(project, Attraction)
    project.select(pool.id)
    long = "Tiles, grout and gutter grating. " * 140
    panel.notes.setPlainText(long)
    panel.notes.commit()
    assert panel.notes_error.text() == f"At most 4,000 characters; this has {len(long):,}."
    assert not panel.notes_error.isHidden()
    project.edit("Rename", revise(project.site, pool.id, name="River"))
    assert panel.name.toPlainText() == "River"
    assert panel.notes.toPlainText() == long
    panel.notes.restore()
    assert panel.notes.toPlainText() == pool.notes
    assert panel.notes_error.isHidden()


def test_links_wear_the_theme_that_is_chosen(panel, project, qapp) -> None:
    project.select(first(project, Attraction).id)
    try:
        apply_theme(qapp, "dark")
        seen = panel.kind.grab().toImage()
        pixels = {seen.pixelColor(x, y).name() for x in range(seen.width()) for y in range(seen.height())}
        assert DARK.water in pixels
        assert LIGHT.water not in pixels
    finally:
        apply_theme(qapp, "light")

"""The client's page: large totals, plain words on the checks, and a card for each body of water."""

import re
from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel
from pytestqt.modeltest import ModelTester
from pytestqt.qtbot import QtBot

from waterpark_designer.engine.findings import Status
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.review_cards import NAME_SCALE, PADDING, name_lines, scaled
from waterpark_designer.gui.review_desk import EMPTY, ReviewDesk
from waterpark_designer.gui.review_words import PRELIMINARY, THREE_FIGURES, cards, checks_words, to_put_right, totals
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise
from waterpark_designer.model.kinds import AttractionKind, PrimaryDisinfection, Setting
from waterpark_designer.model.node import Override
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_points import add_attraction, new_site
from waterpark_designer.model.systems import DisinfectionPlan
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.project_file import load_project
from waterpark_designer.units import UnitSystem

Opens = Callable[..., ReviewDesk]


@pytest.fixture
def small_site(small_site: Site) -> Site:
    """The small site under one rule set, which is silent on some limits."""
    return small_site.revised(code_basis=("georgia-511-3-5-2024",))


@pytest.fixture
def opens(qtbot: QtBot) -> Opens:
    def opened(project: OpenProject, width: int = 1400) -> ReviewDesk:
        desk = ReviewDesk(project)
        qtbot.addWidget(desk)
        desk.resize(width, 860)
        with qtbot.waitExposed(desk):
            desk.show()
        return desk

    return opened


@pytest.fixture
def pool_site() -> Site:
    """A lap pool of 25 yd × 60 ft alone, with salt; all of its figures can be told."""
    basis = ("georgia-511-3-5-2024", "cdc-mahc-2023", "common-practice")
    site = new_site().revised(name="Alder Bend", code_basis=basis)
    site, pool = add_attraction(site, AttractionKind.LAP_POOL)
    return revise(site, pool, target_salinity=3.2, setting=Setting.INDOOR)


def said(desk: ReviewDesk) -> list[str]:
    return [label.text() for label in desk.findChildren(QLabel) if label.isVisibleTo(desk) and label.text()]


def test_the_site_is_named_and_called_preliminary(opens: Opens, project: OpenProject) -> None:
    desk = opens(project)
    assert desk.title.text() == "Alder Bend at a glance"
    assert desk.subtitle.text() == f"4 bodies of water on 3 recirculation systems  ·  {PRELIMINARY}"


def test_the_totals_are_those_of_the_design(library: Library, pool_site: Site) -> None:
    design = library.design(pool_site)
    shown = {total.words: total for total in totals(design)}
    assert 6 <= len(shown) <= 8
    site = design.sheets[pool_site.id]
    volume = float(site["volume"]) / 0.003785411784
    water = shown["Water on site"]
    assert float(water.number.replace(",", "")) == pytest.approx(volume, rel=1e-3) and water.unit == "gal"
    hours = float(site["volume"]) / float(site["design_flow"]) / 3600
    assert float(shown["All of it filtered every"].number) == pytest.approx(hours, abs=0.05)
    bags = float(site["salt_bags"])
    assert shown["Salt on opening day"].number == f"{bags:,.0f}"
    pallets = -(-bags // 49)
    assert shown["Salt on opening day"].unit == "bags"
    assert shown["Salt on opening day"].note == f"{pallets:.0f} pallet{'s' if pallets > 1 else ''}"
    assert not any(total.needs for total in shown.values())


def test_what_does_not_arise_is_left_out(library: Library, pool_site: Site) -> None:
    fresh = library.design(revise(pool_site, pool_site.systems[0].attractions[0].id, target_salinity=0.0))
    assert fresh.sheets[pool_site.id]["salt_bags"] == 0.0
    assert "Salt on opening day" not in {total.words for total in totals(fresh)}


def test_what_the_generators_make_is_told_beside_what_is_needed(library: Library, pool_site: Site) -> None:
    """A system that feeds hypochlorite alone adds to the need, not to what is made."""
    alone = {total.words: total for total in totals(library.design(pool_site))}["Chlorine the generators can make"]
    assert alone.unit == "lb/d" and re.fullmatch(r"[\d.]+ lb/d needed", alone.note)
    site, _ = add_attraction(pool_site, AttractionKind.LEISURE_POOL)
    site = revise(site, site.systems[1].id, disinfection=DisinfectionPlan(primary=PrimaryDisinfection.HYPOCHLORITE))
    design = library.design(site)
    both = {total.words: total for total in totals(design)}["Chlorine the generators can make"]
    needed = float(design.sheets[site.id]["feed_capacity"]) * 86400 / 0.45359237
    assert both.number == alone.number and both.note == f"on 1 system; all 2 need {THREE_FIGURES.text(needed)} lb/d"


def test_money_is_rounded_and_called_invented_where_it_is(library: Library) -> None:
    site = load_project(samples_folder() / "resort-park.waterpark").site
    design = library.design(site)
    cost = float(design.sheets[site.id]["energy_cost"])
    power = {total.words: total for total in totals(design)}["Power the pumps draw"]
    told = power.note.removesuffix(" a season at an invented price").removeprefix("$").replace(",", "")
    assert float(told) == pytest.approx(cost, rel=0.005) and told.endswith("00")
    own = {total.words: total for total in totals(library.design(site.revised(prices_invented=False)))}
    assert own["Power the pumps draw"].note.endswith(" a season")


@pytest.mark.parametrize(
    "number, said", [(56_713.56, "56,700"), (3_186.3, "3,190"), (349.5, "350"), (14.1, "14.1"), (0, "0")]
)
def test_numbers_are_rounded_to_three_figures(number: float, said: str) -> None:
    assert THREE_FIGURES.text(number) == said


def test_a_time_below_an_hour_is_told_in_minutes(library: Library, pool_site: Site) -> None:
    pool = pool_site.systems[0].attractions[0]
    quick = Override(figure="longest_turnover", value=1800.0, reason="Told by the operator.")
    design = library.design(revise(pool_site, pool.id, overrides=(quick,)))
    (card,) = cards(design)
    assert float(design.sheets[pool.id]["turnover_time"]) <= 1800.0
    assert (
        dict(card.facts)["All of it filtered every"] == f"{float(design.sheets[pool.id]['turnover_time']) / 60:.0f} min"
    )


def test_totals_are_large_on_screen(opens: Opens, open_project: Callable[[Site], OpenProject], pool_site: Site) -> None:
    desk = opens(open_project(pool_site))
    number = next(total.number for total in totals(desk.project.design) if total.words == "Water on site")
    label = next(label for label in desk.findChildren(QLabel) if label.text() == number)
    ordinary = QLabel("x").fontInfo().pixelSize()
    assert label.fontInfo().pixelSize() >= 2 * ordinary
    assert all(each.fontInfo().pixelSize() >= 1.2 * ordinary for each in desk.findChildren(QLabel) if each.text())


def test_what_is_missing_is_not_known_yet_and_the_reason_is_in_the_tooltip(opens: Opens, project: OpenProject) -> None:
    desk = opens(project)
    missing = [total for total in totals(project.design) if total.needs]
    assert missing
    assert said(desk).count("not known yet") == len(missing)
    assert not any(total.needs in said(desk) for total in missing)
    blocks = [label.parentWidget() for label in desk.findChildren(QLabel) if label.text() == "not known yet"]
    assert {block.toolTip() for block in blocks} == {total.needs for total in missing}


def test_the_checks_are_counted_in_words(opens: Opens, project: OpenProject) -> None:
    design = project.design
    words = checks_words(design)
    assert words.startswith(f"{design.count(Status.MET)} of {len(design.findings)} checks are met.")
    assert f"{design.count(Status.NOT_MET)} are not met and have to be put right." in words
    failed = [finding for finding in design.findings if finding.status is Status.NOT_MET]
    lines = to_put_right(design)
    assert len(lines) == len({finding.title for finding in failed}) < len(failed)
    assert lines[0] == f"✗ {failed[0].title}: not met at System 1, System 2, System 3"
    assert "\n".join(lines) in said(opens(project))


def test_a_card_tells_what_a_guest_would_ask(library: Library, pool_site: Site) -> None:
    design = library.design(pool_site)
    (card,) = cards(design)
    pool = design.sheets[card.node]
    assert (card.name, card.kind) == ("Lap pool", "Lap pool, indoors")
    facts = dict(card.facts)
    assert facts["Salt in the water"] == "3,200 ppm"
    assert facts["Room for"] == f"{float(pool['peak_occupancy']):,.0f} bathers"
    assert facts["All of it filtered every"] == f"{float(pool['turnover_time']) / 3600:.1f} h"
    metric = dict(cards(library.design(pool_site.revised(units=UnitSystem.SI)))[0].facts)
    assert metric["Water"].endswith("m³") and metric["Salt in the water"] == "3,200 mg/L"


def test_a_spray_deck_has_its_water_in_its_tank(library: Library, small_site: Site) -> None:
    pad = next(card for card in cards(library.design(small_site)) if card.name == "Splash pad")
    assert pad.facts[0] == ("Water in its tank", "not known yet")
    assert pad.facts[3] == ("Salt in the water", "none")


@pytest.mark.parametrize("width, columns", [(1500, 4), (1100, 3), (760, 2), (360, 1)])
def test_cards_stand_in_as_many_columns_as_the_width_allows(
    opens: Opens, project: OpenProject, qtbot: QtBot, width: int, columns: int
) -> None:
    desk = opens(project, width)
    assert desk.cards.columns() == columns
    qtbot.waitUntil(lambda: desk.cards.visualRect(desk.cards.cards.index(3)).bottom() > 0)
    tops = [desk.cards.visualRect(desk.cards.cards.index(row)).top() for row in range(4)]
    assert tops.count(tops[0]) == min(columns, 4)
    last = desk.cards.visualRect(desk.cards.cards.index(3))
    assert last.bottom() <= desk.cards.height() and last.right() <= desk.cards.width()


def test_a_long_name_goes_on_in_further_lines_and_is_whole_in_its_tooltip(opens: Opens, project: OpenProject) -> None:
    desk = opens(project)
    low, pool = desk.cards.height(), project.site.systems[1].attractions[0]
    name = "Activity basin of the great waves with its slides on the garden side"
    project.edit("Rename", revise(project.site, pool.id, name=name))
    assert desk.cards.name_lines in (2, 3) and desk.cards.height() > low
    font, width = scaled(desk.cards.font(), NAME_SCALE, True), desk.cards.card_width() - 2 * PADDING
    assert " ".join(name_lines(name, font, width)) == name
    assert name_lines(f"{name} {name}", font, width)[-1].endswith("…")
    assert desk.cards.cards.index(1).data(Qt.ItemDataRole.ToolTipRole) == name
    project.undo_stack.undo()
    assert desk.cards.height() == low


def test_it_follows_edits(opens: Opens, project: OpenProject) -> None:
    desk = opens(project)
    pool = project.site.systems[1].attractions[0]
    project.edit("Rename", revise(project.site, pool.id, name="Long <pool> & more"))
    assert desk.cards.cards.index(1).data() == "Long <pool> & more"
    project.edit("Rename", project.site.revised(name="Heron <b>Bay</b>"))
    assert desk.title.text() == "Heron <b>Bay</b> at a glance"
    assert desk.title.textFormat() is Qt.TextFormat.PlainText
    project.undo_stack.undo()
    assert desk.title.text() == "Alder Bend at a glance"


def test_a_card_is_read_aloud_as_a_sentence(opens: Opens, project: OpenProject) -> None:
    desk = opens(project)
    read = desk.cards.cards.index(1).data(Qt.ItemDataRole.AccessibleDescriptionRole)
    assert read.startswith("Lap pool. Water: ") and "Room for: " in read


def test_an_empty_site_says_so(opens: Opens, open_project: Callable[[Site], OpenProject]) -> None:
    desk = opens(open_project(new_site()))
    assert EMPTY in said(desk) and not desk.cards.isVisible()
    assert "Water on site" not in said(desk)
    assert "Nothing has been checked against a code yet." in said(desk)


def test_a_page_out_of_sight_waits_until_it_is_shown(opens: Opens, project: OpenProject) -> None:
    desk = opens(project)
    desk.hide()
    project.edit("Rename", project.site.revised(name="Heron Bay"))
    assert desk.title.text() == "Alder Bend at a glance"
    desk.show()
    assert desk.title.text() == "Heron Bay at a glance"


def test_a_thousand_bodies_scroll(opens: Opens, project: OpenProject, qtbot: QtBot) -> None:
    desk = opens(project)
    desk.cards.cards.set_cards(tuple(cards(desk.project.design)) * 250)
    last = desk.cards.visualRect(desk.cards.cards.index(999))
    assert last.bottom() <= desk.cards.height()
    qtbot.waitUntil(lambda: desk.verticalScrollBar().maximum() > 10_000)


def test_cards_keep_the_rules_of_a_model(opens: Opens, project: OpenProject, qtmodeltester: ModelTester) -> None:
    qtmodeltester.check(opens(project).cards.cards)

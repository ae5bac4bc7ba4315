"""Overflow, gravity lines, surge tanks and sumps on paper, and the inlets and covers beside them."""

import pytest

from waterpark_designer.documents.circuits import circuits
from waterpark_designer.documents.grounds import METHODS, Grounds
from waterpark_designer.documents.hydraulics import hydraulics_sections
from waterpark_designer.documents.openings import openings_table
from waterpark_designer.documents.table import DASH, Cell, Number, RowKind, Table
from waterpark_designer.documents.tanks import gravity_table, overflow_table, surge_parts_table, tanks_table
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise
from waterpark_designer.model.kinds import Overflow
from waterpark_designer.model.openings import OpeningsPlan, TankPlan
from waterpark_designer.units import FOOT, INCH, UnitSystem

SI = UnitSystem.SI


def rows_of(table: Table) -> list[dict[str, Cell]]:
    headings = [column.heading for column in table.columns]
    return [dict(zip(headings, row.cells, strict=True)) for row in table.rows if row.kind is not RowKind.GROUP]


def value(cell: Cell) -> float:
    assert isinstance(cell, Number), cell
    return cell.value


@pytest.fixture
def tanked(piped: SiteDesign, library: Library) -> SiteDesign:
    """The piped site whose river runs into a gutter, with a surge tank, a sump and drains of a known head."""
    plan = OpeningsPlan(
        overflow=Overflow.GUTTER,
        surface_share=0.8,
        gutter_section=0.01,
        inlets=12,
        inlet_bore=0.04,
        outlet_spacing=2.0,
        cover_area=0.2,
    )
    tanks = TankPlan(usable_volume=500.0, plan_area=20.0, suction_level=0.3, backwashes=1, sewer_flow=0.0)
    drains = next(run for run in piped.site.systems[0].pipe_runs if run.kind.value == "gutter")
    site = revise(piped.site, "river", openings=plan, suction_outlets=2)
    site = revise(site, "one", tanks=tanks.revised(sump_volume=40.0))
    return library.design(revise(site, drains.id, available_head=0.5))


def test_inlets_and_covers_are_told_as_chosen_beside_what_is_needed(tanked: SiteDesign, library: Library) -> None:
    codes = (*tanked.site.code_basis, "common-practice")
    design = library.design(revise(tanked.site, tanked.site.id, code_basis=codes))
    row = next(row for row in rows_of(openings_table(design, SI)) if row["Body of water"] == "Meander river")
    assert value(row["Return inlets"]) == 12
    assert value(row["Flow of one inlet"]) == pytest.approx(value(row["Design flow"]) / 12)
    assert value(row["Least distance apart"]) == 2.0 and value(row["Open area as chosen"]) == 0.2
    needed = value(row["Open area of each cover needed"])
    # Common practice: 1.5 ft/s through the cover.
    assert value(row["Velocity through cover"]) == pytest.approx(1.5 * FOOT * needed / 0.2)


def test_overflow_of_a_body_in_words_and_figures(tanked: SiteDesign, piped: SiteDesign) -> None:
    table = overflow_table(tanked, SI)
    row = rows_of(table)[0]
    assert (row["Body of water"], row["Overflows into"]) == ("Meander river", "Perimeter gutter")
    assert 0 < value(row["Depth over the lip"]) < 1.2 * INCH
    assert any("indicative" in note for note in table.notes)
    assert not any(row["Overflows into"] == "Perimeter gutter" for row in rows_of(overflow_table(piped, SI)))


def test_what_a_gutter_lacks_is_told_below(tanked: SiteDesign, library: Library) -> None:
    site = revise(tanked.site, "river", openings=OpeningsPlan(overflow=Overflow.GUTTER, surface_share=0.8))
    design = library.design(site)
    assert "Meander river: Enter gutter section." in overflow_table(design, SI).notes
    assert rows_of(tanks_table(design, SI))[0]["Surge volume needed"] == DASH
    assert any("Enter gutter section." in note for note in tanks_table(design, SI).notes)


def test_the_surge_tank_adds_up_part_by_part_and_stands_in_levels(tanked: SiteDesign) -> None:
    parts = {str(row["Part"]): value(row["Volume"]) for row in rows_of(surge_parts_table(tanked))}
    together = parts.pop("Together")
    assert {"Bathers", "Above the rim, Meander river", "In gutters, Meander river", "Backwash"} == set(parts)
    assert sum(parts.values()) == pytest.approx(together)
    row = rows_of(tanks_table(tanked, SI))[0]
    assert value(row["Surge volume needed"]) >= together * (1 - 1e-9) and value(row["Surge tank holds"]) == 500.0
    lowest, running, highest = (value(row[f"{name} level"]) for name in ("Lowest", "Running", "Highest"))
    assert running - lowest == pytest.approx(parts["Backwash"] / 20)
    assert highest - lowest == pytest.approx(value(row["Surge volume needed"]) / 20)
    # The sewer takes nothing, so that the sump holds the whole backwash.
    assert value(row["Waste sump volume needed"]) == pytest.approx(parts["Backwash"])


def test_drains_by_gravity_stand_beside_what_the_code_asks(tanked: SiteDesign, piped: SiteDesign) -> None:
    found = circuits(tanked)
    table = gravity_table(found, SI, Grounds(tanked))
    drains, together = (row for row in rows_of(table) if row["Line"])
    assert value(drains["Available head"]) == 0.5
    assert value(together["One carries"]) == pytest.approx(value(drains["Like runs"]) * value(drains["One carries"]))
    assert gravity_table(circuits(piped), SI, Grounds(piped)).rows == ()


def test_tanks_bear_the_caution_of_confined_spaces(tanked: SiteDesign) -> None:
    titles = [section.title for section in hydraulics_sections(tanked, SI)]
    assert titles.index("Openings") < titles.index("Overflow and gravity lines") < titles.index(METHODS)
    section = next(one for one in hydraulics_sections(tanked, SI) if one.title == "Surge tanks and waste sumps")
    assert any("confined spaces" in getattr(block, "title", "") for block in section.blocks)

"""The salt schedule as a table, against arithmetic that anyone can repeat."""

import pytest

from tests.documents.invented_site import POOL_NAME
from waterpark_designer.documents.salt import salt_sections, season_table, start_up_table
from waterpark_designer.documents.table import Number, Row, RowKind, Table, cell_text
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise
from waterpark_designer.model.kinds import PrimaryDisinfection
from waterpark_designer.units import GALLON, POUND, UnitSystem

US, SI = UnitSystem.US, UnitSystem.SI


def row_of(table: Table, title: str) -> Row:
    return next(row for row in table.rows if row.cells[0] == title)


def texts(table: Table, row: Row, system: UnitSystem) -> dict[str, str]:
    return {
        column.heading: cell_text(cell, column, system) for column, cell in zip(table.columns, row.cells, strict=True)
    }


def test_start_up_salt_of_100_000_gallons(design: SiteDesign) -> None:
    # Unit definitions: 2,900 mg/L in 100,000 gal is 100,000 x 3.785411784 L x 2.9 g/L / 453.59237 g = 2,420.2 lb,
    # so 60.5 bags of 40 lb, so 61, so two pallets of 49.
    table = start_up_table(design, US)
    pool = row_of(table, POOL_NAME)
    told = texts(table, pool, US)
    assert (told["Volume"], told["Measured"], told["Target"]) == ("100,000", "300", "3,200")
    assert (told["Salt"], told["Bags"]) == ("2,420", "61")
    mass = pool.cells[[column.heading for column in table.columns].index("Salt")]
    assert isinstance(mass, Number)
    assert mass.value / POUND == pytest.approx(2420.2, abs=0.05)
    together = [row for row in table.rows if row.cells[0] == "Together"][1]
    assert texts(table, together, US)["Pallets"] == "2"


def test_metric_headings_and_numbers(design: SiteDesign) -> None:
    table = start_up_table(design, SI)
    assert table.columns[1].heading_text(SI) == "Volume (m³)"
    told = texts(table, row_of(table, POOL_NAME), SI)
    assert (told["Volume"], told["Salt"]) == ("378.5", "1,098")


def test_too_much_salt_is_exchanged_not_taken_out(design: SiteDesign, library: Library) -> None:
    # Mixing: from 4,800 to 3,200 mg/L with fresh water, a third of 100,000 gal.
    site = revise(design.site, "pool", measured_salinity=4.8)
    table = start_up_table(library.design(site), US)
    told = texts(table, row_of(table, POOL_NAME), US)
    assert (told["Salt"], told["Water to exchange"]) == ("0", "33,330")


def test_water_in_tank_and_pipes_has_a_row_of_its_own(design: SiteDesign, library: Library) -> None:
    site = revise(design.site, "two", surge_volume=10_000 * GALLON)
    table = start_up_table(library.design(site), US)
    tank = texts(table, row_of(table, "Surge tank and pipes, 10,000 gal"), US)
    assert (tank["Volume"], tank["Salt"], tank["Bags"]) == ("", "242.0", "7")
    assert any("salt and bags count tanks and pipes too" in note for note in table.notes)
    bags = {row.cells[0]: texts(table, row, US)["Bags"] for row in table.rows if row.kind is not RowKind.GROUP}
    assert bags["Together"] == "68"


def test_the_season_names_generator_salt_where_there_is_any_and_its_days(design: SiteDesign, library: Library) -> None:
    plan = design.site.systems[1].disinfection
    fed = plan.revised(primary=PrimaryDisinfection.BRINE_FED)
    brine = library.design(revise(design.site, design.site.systems[1].id, disinfection=fed))
    for found, named in ((design, False), (brine, True)):
        table = season_table(found, US)
        headings = [column.heading for column in table.columns]
        assert "Bags" in headings and ("Salt fed to generators" in headings) is named
        assert "100 days" in table.notes[0]


def test_what_is_missing_says_what_it_needs(design: SiteDesign, library: Library) -> None:
    site = revise(design.site, "site", code_basis=())
    notes = season_table(library.design(site), US).notes
    assert any("The code basis is silent on area for each bather" in note for note in notes)


def test_handling_cautions_stand_in_the_schedule(design: SiteDesign) -> None:
    titles = [
        block.title for section in salt_sections(design, US) for block in section.blocks if hasattr(block, "title")
    ]
    assert "Bags are heavy" in titles and "Adding salt" in titles

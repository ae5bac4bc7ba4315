"""The site summary: totals with their units, and sums that a reader can follow."""

import re

from waterpark_designer.documents.site_summary import TANKS_TOO, bodies_table, totals_table
from waterpark_designer.documents.table import RowKind, cell_text
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise
from waterpark_designer.units import UnitSystem

US = UnitSystem.US


def test_money_stands_with_its_currency(piped: SiteDesign, library: Library) -> None:
    def cost(currency: str) -> str:
        table = totals_table(library.design(piped.site.revised(currency=currency)), US)
        row = next(row for row in table.rows if row.key == "energy_cost")
        return cell_text(row.cells[1], table.columns[1], US)

    # Whole, since no season is foretold to the cent; a sign stands close to the number, a word apart.
    assert re.fullmatch(r"€[\d,]+", cost("€"))
    assert re.fullmatch(r"CHF [\d,]+", cost("CHF"))


def test_pallets_follow_the_bags_they_carry(design: SiteDesign) -> None:
    keys = [row.key for row in totals_table(design, US).rows]
    assert keys.index("salt_pallets") == keys.index("salt_bags") + 1


def test_salt_of_tanks_and_pipes_is_told_where_bodies_do_not_add_up_to_the_site(
    design: SiteDesign, library: Library
) -> None:
    larger = library.design(revise(design.site, "two", surge_volume=100.0))
    table = bodies_table(larger, US)
    bags = [column.heading for column in table.columns].index("Start-up salt")
    numbers = {row.kind: [] for row in table.rows}
    for row in table.rows:
        numbers[row.kind] += [getattr(row.cells[bags], "value", 0.0)] if row.kind is not RowKind.GROUP else []
    assert sum(numbers[RowKind.BODY]) < numbers[RowKind.TOTAL][0]
    assert TANKS_TOO in table.notes
    none = revise(revise(larger.site, "two", surge_volume=0.0, piping_volume=0.0), "one", surge_volume=0.0)
    assert TANKS_TOO not in bodies_table(library.design(revise(none, "one", piping_volume=0.0)), US).notes

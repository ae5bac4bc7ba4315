"""What differs between two designs, in words."""

import pytest

from waterpark_designer.gui.amendment_effect import changes
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise
from waterpark_designer.model.site import Site
from waterpark_designer.units import UnitSystem

US, SI = UnitSystem.US, UnitSystem.SI


@pytest.fixture
def small_site(small_site: Site) -> Site:
    """The small site under one rule set, which is silent on some limits."""
    return small_site.revised(code_basis=("georgia-511-3-5-2024",))


def test_equal_designs_differ_in_nothing(library: Library, small_site: Site) -> None:
    assert changes(library.design(small_site), library.design(small_site), US) == ()


def test_a_figure_that_changes_is_told_in_the_units_asked_for(library: Library, small_site: Site) -> None:
    before = library.design(small_site)
    pool = small_site.systems[1].attractions[0]
    after = library.design(revise(small_site, pool.id, name="Long pool", measured_salinity=1.0), before)
    found = {(change.where, change.what): change for change in changes(before, after, SI)}
    salinity = found["Long pool", "Salinity before start-up"]
    assert (salinity.before, salinity.after) == ("0 mg/L", "1,000 mg/L")


def test_differences_too_small_to_be_shown_are_left_out(library: Library, small_site: Site) -> None:
    before = library.design(small_site)
    after = library.design(revise(small_site, small_site.systems[1].id, design_margin=0.1 + 1e-9), before)
    assert float(after.value(small_site.systems[1].id, "design_flow")) != float(
        before.value(small_site.systems[1].id, "design_flow")
    )
    assert changes(before, after, US) == ()


def test_a_check_that_goes_is_told(library: Library, small_site: Site) -> None:
    before = library.design(small_site)
    after = library.design(revise(small_site, small_site.systems[1].attractions[0].id, target_salinity=3.0), before)
    gone = next(
        change for change in changes(before, after, US) if change.what == "Check: Cells in the return need salt water"
    )
    assert (gone.where, gone.before, gone.after) == ("System 2", "✗ not met", "no check")

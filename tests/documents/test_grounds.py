"""What a figure rests on is the same however often and after whatever edit it is asked for."""

from tests.documents.invented_site import make_site
from waterpark_designer.documents.equipment import equipment_table
from waterpark_designer.documents.grounds import worth_noting
from waterpark_designer.engine.worked import Step, Worked, leaf
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise, set_override
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import UnitSystem

STANDARD = Source("A standard", Provenance.READ)
MEMORY = Source("From memory", Provenance.MEMORY)
OVERRIDE = Source("Set by hand", Provenance.OVERRIDE)


def test_numbers_from_memory_are_found_however_deep_and_each_once() -> None:
    known, remembered = leaf(2.0, "Limit", STANDARD), leaf(2.0, "Estimate", MEMORY)
    one = Worked(4.0, Step("Sum", STANDARD, parts=(("a", known), ("b", remembered))))
    both = Worked(8.0, Step("Sum", STANDARD, parts=(("c", one), ("d", remembered))))
    for _ in range(2):
        found = worth_noting(both)
        assert [id(number) for number in found] == [id(remembered)]


def test_equal_numbers_from_different_places_are_both_found() -> None:
    first, second = leaf(2.0, "Estimate", MEMORY), leaf(2.0, "Another", MEMORY)
    whole = Worked(4.0, Step("Sum", STANDARD, parts=(("a", first), ("b", second))))
    assert [number.step.title for number in worth_noting(whole)] == ["Estimate", "Another"]


def test_nothing_is_looked_for_under_a_figure_set_by_hand() -> None:
    by_hand = Worked(3.0, Step("Flow", OVERRIDE, parts=(("Computed", leaf(2.0, "Estimate", MEMORY)),)))
    assert [number.step.title for number in worth_noting(by_hand)] == ["Flow"]


def test_notes_after_edits_are_those_of_a_design_from_nothing(library: Library) -> None:
    site = make_site()
    design = library.design(site)
    equipment_table(design, UnitSystem.US)
    system = site.systems[0]
    edited = revise(site, system.attractions[0].id, name="Renamed")
    edited = set_override(edited, system.id, "design_flow", 0.05, "By the pump at hand.")
    kept = library.design(edited, design)
    fresh = library.design(edited)
    assert equipment_table(kept, UnitSystem.US) == equipment_table(fresh, UnitSystem.US)
    assert "By the pump at hand." in " ".join(equipment_table(kept, UnitSystem.US).notes)

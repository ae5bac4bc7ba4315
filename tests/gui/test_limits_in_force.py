"""Which limits are listed, which can never apply, and what the code basis is silent about."""

import pytest

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.gui.limits_in_force import limit_lines, limited_quantity, silent_lines
from waterpark_designer.library import Library
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.site import Amendment, Site
from waterpark_designer.rules.rule_set import CodeBasis, Condition, Limit
from waterpark_designer.sources import Provenance

LAP, SPA = AttractionKind.LAP_POOL, AttractionKind.SPA
WARM = Condition("temperature", "_above", 305.0)


@pytest.fixture
def small_site(small_site: Site) -> Site:
    """The small site under one rule set, which is silent on some limits."""
    return small_site.revised(code_basis=("georgia-511-3-5-2024",))


def limit(key: str, *kinds: AttractionKind, when: tuple[Condition, ...] = (), quantity: str = "filter_rate") -> Limit:
    return Limit(key, quantity, 0.01, frozenset(kinds), when, "A code", "1.2", Provenance.READ)


def superseded(*limits: Limit) -> list[str]:
    """Keys of the limits that can never apply, in a code basis of these."""
    design = SiteDesign(Site(name="Site"), CodeBasis(limits, ("A code",)), {}, (), (), {})
    return [line.limit.key for line in limit_lines(design) if line.superseded_by]


@pytest.mark.parametrize(
    "earlier, later, expected",
    [
        (limit("a"), limit("b"), ["b"]),
        (limit("a"), limit("b", LAP), ["b"]),
        (limit("a", LAP), limit("b"), []),
        (limit("a", LAP), limit("b", LAP, SPA), []),
        (limit("a", LAP, SPA), limit("b", SPA), ["b"]),
        (limit("a", when=(WARM,)), limit("b"), []),
        (limit("a"), limit("b", when=(WARM,)), ["b"]),
        (limit("a", when=(WARM,)), limit("b", LAP, when=(WARM,)), ["b"]),
        (limit("a"), limit("b", quantity="load_area"), []),
    ],
)
def test_a_limit_is_superseded_only_where_it_is_certain(earlier: Limit, later: Limit, expected: list[str]) -> None:
    assert superseded(earlier, later) == expected


def test_every_limit_is_listed_in_order_with_the_parts_it_binds(library: Library, small_site: Site) -> None:
    design = library.design(small_site)
    lines = limit_lines(design)
    assert [line.limit for line in lines] == list(library.rule_sets["georgia-511-3-5-2024"].limits)
    river = next(line for line in lines if line.limit.applies_to == {AttractionKind.LAZY_RIVER})
    assert river.used_by == ("Lazy river",)
    assert not any(line.superseded_by for line in lines if line.used_by)


def test_an_amendment_stands_before_the_rule_set_and_supersedes_it(library: Library, small_site: Site) -> None:
    amendment = Amendment(
        quantity="longest_turnover", applies_to=(AttractionKind.LAZY_RIVER,), value=3600.0, reason="County letter"
    )
    lines = limit_lines(library.design(small_site.revised(amendments=(amendment,))))
    assert lines[0].limit.clause == "County letter"
    assert lines[0].used_by == ("Lazy river",)
    of_the_code = next(line for line in lines[1:] if line.limit.applies_to == {AttractionKind.LAZY_RIVER})
    assert of_the_code.superseded_by is lines[0].limit


def test_what_the_code_is_silent_about_is_said_once_with_all_parts(library: Library, small_site: Site) -> None:
    design = library.design(small_site)
    lines = silent_lines(design)
    tank = next(line for line in lines if line.title == "Holding tank volume")
    assert tank.nodes == ("Splash pad",)
    assert tank.quantity == "tank_least_volume"
    assert sum(len(line.nodes) for line in lines) == design.count(Status.SILENT)
    assert len({line.title for line in lines}) == len(lines)


def test_a_finding_that_names_no_limit_has_no_limited_quantity() -> None:
    assert limited_quantity(Finding("n", "shared_tank", "A tank", Status.SILENT)) == ""
    assert limited_quantity(Finding("n", "filter_rate", "Filter rate", Status.SILENT)) == "filter_rate"

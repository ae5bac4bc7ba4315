"""The working as it is read: equation, numbers put in with their units, where each comes from."""

import pytest

from waterpark_designer.engine.formulas import disinfection, pumps, river, turnover
from waterpark_designer.engine.worked import Worked, leaf
from waterpark_designer.engine.working import value_text, working_of
from waterpark_designer.model.edits import set_override
from waterpark_designer.model.kinds import SecondaryDisinfection
from waterpark_designer.model.systems import SecondaryPlan
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import FLOW, GALLON, HOUR, HOURS, SHARE, SLOPE, VOLUME, UnitSystem

US, SI = UnitSystem.US, UnitSystem.SI
ENTRY = Source("Entered in the project", Provenance.ENTRY)


@pytest.fixture
def flow():
    """100,000 gal in 6 h."""
    return turnover.turnover_flow(leaf(100_000 * GALLON, "Volume of Pool", ENTRY), leaf(6 * HOUR, "Limit", ENTRY))


def test_working_in_us_units(flow):
    working = working_of(flow, FLOW, US)
    assert working.title == "Turnover flow"
    assert working.equation == "Q = V / T"
    assert working.substitution == "100,000 gal / 6.00 h"
    assert working.result == "278 gpm"
    assert [(line.symbol, line.name, line.text) for line in working.inputs] == [
        ("V", "Volume", "100,000 gal"),
        ("T", "Turnover time", "6.00 h"),
    ]
    assert working.source.text.startswith("Definition of turnover time")
    assert working.cautions == ()


def test_working_in_metric_units(flow):
    working = working_of(flow, FLOW, SI)
    assert working.substitution == "378.5 m³ / 6.00 h"
    assert working.result == "63.1 m³/h"


def test_each_input_tells_its_origin_and_opens_to_its_own_working(build, figure):
    site = build.site(build.pool("wave_pool", gallons=120_000), codes=("georgia-511-3-5-2024",))
    working = working_of(figure(site, "Pool", "least_flow_by_time"), FLOW, US)
    volume, time = working.inputs
    assert volume.origin == "Entered in the project"
    assert time.origin == "Georgia Rules 511-3-5 (2024), .07(1)(b)"
    assert isinstance(time.worked, Worked)
    assert working_of(time.worked, HOURS, US).result == "2.00 h"


def test_a_nested_number_names_the_formula_it_comes_from(build, figure):
    loop = build.system(build.pool(gallons=120_000), design_margin=0.1)
    working = working_of(figure(build.site(loop, amendments=(build.turnover(2),)), "Loop", "design_flow"), FLOW, US)
    assert working.equation == "Q = Q0 · (1 + m)"
    assert working.substitution == "1,000 gpm · (1 + 10.0 %)"
    assert working.result == "1,100 gpm"


def test_a_sum_shows_its_parts(build, figure):
    bodies = (build.pool(name="Laps", gallons=60_000), build.pool(name="Cove", gallons=20_000))
    site = build.site(build.system(*bodies), amendments=(build.turnover(2),))
    working = working_of(figure(site, "Loop", "volume"), VOLUME, US)
    assert (working.equation, working.substitution) == ("Sum of", "60,000 gal + 20,000 gal")
    assert [line.name for line in working.inputs] == ["Laps", "Cove"]


def test_the_least_of_several_shows_them_all(build, figure):
    gallons = 3000 * 3.5 * 1728 / 231
    site = build.site(build.pool("lap_pool", gallons=gallons), codes=("georgia-511-3-5-2024",))
    working = working_of(figure(site, "Pool", "longest_turnover"), HOURS, US)
    assert working.equation == "The least of"
    assert working.substitution == "5.25 h; 6.00 h"


def test_a_limit_is_a_leaf_with_its_note(build, figure):
    site = build.site(build.pool("lazy_river"), codes=("georgia-511-3-5-2024",))
    working = working_of(figure(site, "Pool", "longest_turnover"), HOURS, US)
    assert (working.equation, working.substitution, working.inputs) == ("", "", ())
    assert "Leisure river" in working.note


def test_an_override_shows_reason_and_computed_number(build, figure):
    site = build.site(build.pool(gallons=120_000), amendments=(build.turnover(2),))
    site = set_override(site, "Loop", "design_flow", 1_200 * GALLON / 60, "The pump is there")
    working = working_of(figure(site, "Loop", "design_flow"), FLOW, US)
    assert working.result == "1,200 gpm"
    assert working.note == "The pump is there"
    assert [(line.name, line.text) for line in working.inputs] == [("Computed", "1,000 gpm")]
    assert working.source.provenance is Provenance.OVERRIDE


@pytest.mark.parametrize("reason", ["sum", "least", "greatest"])
def test_any_reason_may_be_given(reason, build, figure):
    site = build.site(build.pool(gallons=120_000), amendments=(build.turnover(2),))
    site = set_override(site, "Loop", "design_flow", 0.1, reason)
    working = working_of(figure(site, "Loop", "design_flow"), FLOW, US)
    assert (working.note, working.equation) == (reason, "")


@pytest.mark.parametrize("system", [US, SI])
def test_an_equation_tied_to_its_units_is_filled_in_those_units(system):
    # The dilution formula holds for gpm, gal and h only, whatever is on the screen: 100,000 gal in 9 h take
    # 100,000 · (14.8 − 11.51293) / 540 = 608.72 gpm, at 0.2271247 m³/h each 138.25 m³/h.
    flow = disinfection.secondary_dilution_flow(100_000 * GALLON, 9 * HOUR)
    working = working_of(flow, FLOW, system)
    assert "100,000 gal" in working.substitution
    assert "9.00 h" in working.substitution
    assert working.substitution == "100,000 gal · max(0, 14.8 − ln(100,000 gal)) / (60 · 9.00 h)"
    assert working.result == ("609 gpm" if system is US else "138.3 m³/h")


def test_the_numbers_put_in_are_listed_in_the_units_of_the_project(build, figure):
    # Only the substitution is in the equation's own units; 100,000 gal are 378.5 m³.
    plan = SecondaryPlan(kind=SecondaryDisinfection.ULTRAVIOLET)
    loop = build.system(build.pool(gallons=100_000), secondary=plan)
    limits = (build.turnover(2), build.limit("secondary_longest_time", 9 * HOUR))
    site = build.site(loop, amendments=limits, units=SI)
    working = working_of(figure(site, "Loop", "secondary_flow_by_dilution"), FLOW, site.units)
    assert [line.text for line in working.inputs] == ["378.5 m³", "9.00 h"]
    assert working.substitution == "100,000 gal · max(0, 14.8 − ln(100,000 gal)) / (60 · 9.00 h)"
    assert working.result == "138.3 m³/h"


def test_an_equation_that_holds_in_any_units_is_filled_in_those_of_the_project(flow):
    assert flow.step.formula.written_in is None
    assert "gal" in working_of(flow, FLOW, US).substitution
    assert "gal" not in working_of(flow, FLOW, SI).substitution


def test_a_formula_out_of_its_range_says_so():
    small = disinfection.secondary_dilution_flow(10 * GALLON, 9 * HOUR)
    assert working_of(small, FLOW, US).cautions == (
        "Volume lies outside the range for which this formula is published.",
    )


def is_filled_in(formula, system):
    """Whether the numbers put in stand in the equation as they are listed: not where it is tied to other units."""
    return formula is None or formula.written_in is None or (formula.written_in, system) == (US, US)


def test_an_estimate_in_gallons_a_minute_is_filled_in_them_in_either_units():
    # 1,000 gpm: -0.316 + 0.24015 * 6.9078 - 0.01199 * 47.717 = 0.7708, as its published table has it (0.771).
    estimate = pumps.pump_efficiency_estimate(1000 * GALLON / 60)
    for system in (US, SI):
        working = working_of(estimate, SHARE, system)
        assert working.substitution == "−0.316 + 0.24015 · ln(1,000 gpm) − 0.01199 · ln(1,000 gpm)²"
    assert float(estimate) == pytest.approx(0.7708, abs=5e-5)


def test_an_equation_in_bare_si_units_is_filled_in_those():
    # Manning: (0.015 · 0.762 / 0.5715^(2/3))² = 2.754e-4, whatever the units of the project.
    slope = river.friction_slope(0.015, 0.762, 0.5715)
    assert working_of(slope, SLOPE, US).substitution == "(0.015 · 0.762 m/s / (0.5715 m)^(2/3))²"
    assert float(slope) == pytest.approx(2.754e-4, rel=1e-3)


def test_every_working_of_a_design_can_be_written(design, small_site):
    for sheet in design(small_site).sheets.values():
        for figure in sheet.figures.values():
            if isinstance(figure.value, Worked):
                for system in (US, SI):
                    working = working_of(figure.value, figure.kind.measure, system)
                    assert working.title and working.result and working.source.text
                    if is_filled_in(figure.value.step.formula, system) and working.substitution:
                        assert all(line.text in working.substitution for line in working.inputs)
            else:
                assert value_text(figure, US) == "—"

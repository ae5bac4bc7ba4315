"""How a check compares: value, limit and clause, and what it says where one of them is not there."""

import pytest

from waterpark_designer.engine.comparing import duty, held_to, said_nothing
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing, leaf
from waterpark_designer.model.edits import set_override
from waterpark_designer.model.systems import FilterPlan, RecirculationSystem
from waterpark_designer.rules.limit_kinds import Sense
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import FILTER_RATE, HOUR

CODE = Source("A code, 1.2", Provenance.READ)
SILENT = Missing("The code says nothing.", silent=True)
FOLLOWS_FROM_SILENCE = Missing("The code says nothing.", silent=True, waits_for="Turnover time")
NOT_ENTERED = Missing("Enter the depth.")


@pytest.fixture
def sheet():
    """A system's sheet with a design flow of 2 m³/s."""
    sheet = Sheet(RecirculationSystem(name="Loop"))
    sheet.record("design_flow", leaf(2.0, "Flow", CODE))
    return sheet


def compared(sheet, sense, limit, value=None):
    held_to(sheet, "check", "Check", "design_flow", sense, limit, "Do better.", value=value)
    return sheet.findings[-1]


@pytest.mark.parametrize(
    ("sense", "limit", "status"),
    [
        (Sense.AT_MOST, 2.0, Status.MET),
        (Sense.AT_MOST, 1.99, Status.NOT_MET),
        (Sense.AT_LEAST, 2.0, Status.MET),
        (Sense.AT_LEAST, 2.01, Status.NOT_MET),
        # Rounding noise decides nothing.
        (Sense.AT_MOST, 2.0 * (1 - 1e-9), Status.MET),
        (Sense.AT_LEAST, 2.0 * (1 + 1e-9), Status.MET),
    ],
)
def test_at_most_and_at_least(sense, limit, status, sheet):
    finding = compared(sheet, sense, leaf(limit, "Limit", CODE))
    assert (finding.status, finding.clause, finding.provenance) == (status, "A code, 1.2", "read")
    assert finding.remedy == ("" if status is Status.MET else "Do better.")


@pytest.mark.parametrize(
    ("limit", "status"),
    [(SILENT, Status.SILENT), (FOLLOWS_FROM_SILENCE, Status.UNKNOWN), (NOT_ENTERED, Status.UNKNOWN)],
)
def test_only_a_limit_that_no_code_states_is_a_silence(limit, status, sheet):
    finding = compared(sheet, Sense.AT_MOST, limit)
    assert (finding.status, finding.limit, finding.remedy) == (status, None, limit.needs)
    said_nothing(sheet, "check", "Check", "design_flow", limit, "Or so.")
    # Advice is for a code's silence; elsewhere the need itself is what to do.
    words = f"{limit.needs} Or so." if status is Status.SILENT else limit.needs
    assert (sheet.findings[-1].status, sheet.findings[-1].remedy) == (status, words)


def test_a_value_that_is_not_known_cannot_be_told(sheet):
    finding = compared(sheet, Sense.AT_MOST, leaf(3.0, "Limit", CODE), NOT_ENTERED)
    assert (finding.status, finding.value, finding.remedy) == (Status.UNKNOWN, None, NOT_ENTERED.needs)
    assert finding.limit == 3.0


@pytest.mark.parametrize(("done", "status", "remedy"), [(True, Status.MET, ""), (False, Status.NOT_MET, "Do it.")])
def test_a_duty_is_done_or_not(done, status, remedy, sheet):
    duty(sheet, "check", "Check", leaf(1.0, "Duty", CODE), done, "Do it.")
    (finding,) = sheet.findings
    assert (finding.status, finding.clause, finding.remedy) == (status, "A code, 1.2", remedy)


@pytest.mark.parametrize("required", [SILENT, leaf(0.0, "Not required", CODE)])
def test_no_duty_is_no_finding(required, sheet):
    duty(sheet, "check", "Check", required, False, "Do it.")
    assert sheet.findings == []


def test_a_check_shows_value_limit_sense_and_figure(build, findings):
    # 1,200 gpm through six filters of 12.566 ft² against 15 gpm/ft².
    plan = FilterPlan(item="High-rate sand filter, 48 in vertical", count=6)
    loop = build.system(build.pool(gallons=144_000), filters=plan)
    limits = (build.turnover(2), build.limit("filter_rate", FILTER_RATE.us.to_si(15)))
    (finding,) = findings(build.site(loop, amendments=limits), "filter_rate")
    assert FILTER_RATE.us.from_si(finding.value) == pytest.approx(1200 / (6 * 12.5664), rel=1e-5)
    assert FILTER_RATE.us.from_si(finding.limit) == pytest.approx(15)
    assert (finding.sense, finding.figure, finding.node) == ("at most", "filter_rate", "Loop")
    assert "Set for this test" in finding.clause
    assert finding.provenance == "local amendment"


def test_rounding_noise_fails_no_check(build, findings):
    # 120,000 gal in 6 h exactly: the flow is computed from the limit itself.
    site = build.site(build.pool(gallons=120_000), amendments=(build.turnover(6),))
    assert [finding.status for finding in findings(site, "longest_turnover")] == [Status.MET]


def test_a_check_cannot_tell_while_its_value_is_missing(build, findings):
    # A filter limit is there, a flow is not.
    site = build.site(build.pool(), amendments=(build.limit("filter_rate", FILTER_RATE.us.to_si(15)),))
    (finding,) = findings(site, "filter_rate")
    assert (finding.status, finding.value) == (Status.UNKNOWN, None)
    assert "turnover time" in finding.remedy


def test_the_clause_of_the_governing_code_is_named(build, findings):
    site = build.site(build.pool("wave_pool"), codes=("georgia-511-3-5-2024",))
    (finding,) = findings(site, "longest_turnover")
    assert finding.clause == "Georgia Rules 511-3-5 (2024), .07(1)(b)"
    assert finding.provenance == "read"


def test_a_value_from_memory_says_so(build, findings):
    site = build.site(build.pool("wave_pool"), codes=("cdc-mahc-2023",))
    assert [finding.provenance for finding in findings(site, "longest_turnover")] == ["from memory, confirm"]


@pytest.mark.parametrize("node", ["Pool", "Pool-basin"])
def test_a_limit_set_by_hand_is_not_laid_to_the_code(node, build, findings):
    site = build.site(build.pool("wave_pool"), codes=("georgia-511-3-5-2024",))
    relaxed = set_override(site, node, "longest_turnover", 12 * HOUR, "Variance 24-17")
    (finding,) = findings(relaxed, "longest_turnover")
    assert finding.limit == 12 * HOUR
    assert "Georgia" not in finding.clause
    assert finding.provenance == "override"

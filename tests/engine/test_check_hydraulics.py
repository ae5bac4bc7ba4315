"""Each check of pipes and pumps, met and not met; jets are with the river's own tests."""

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.model.hydraulics import HydraulicTerms, PumpPlan
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.units import FOOT, GALLON, MINUTE

GPM = GALLON / MINUTE
PRACTICE = ("common-practice",)
MET, NOT_MET, SILENT, UNKNOWN, CAUTION = Status.MET, Status.NOT_MET, Status.SILENT, Status.UNKNOWN, Status.CAUTION

Findings = Callable[[Site, str], list[Finding]]


def piped(build: SimpleNamespace, loop: RecirculationSystem, *codes: str, hours: float = 4) -> Site:
    return build.site(loop, codes=codes or PRACTICE, amendments=(build.turnover(hours),))


def only(found: list[Finding]) -> Finding:
    assert len(found) == 1
    return found[0]


@pytest.mark.parametrize(("kind", "size", "status"), [
    # 500 gpm in 3.998 in run at 12.8 ft/s, in 5.016 in at 8.1, in 6.031 in at 5.6.
    ("return_header", "5", NOT_MET), ("return_header", "6", MET),
    ("tank_suction", "5", NOT_MET), ("tank_suction", "6", MET),
    ("gutter", "8", NOT_MET), ("gutter", "10", MET),
])  # fmt: skip
def test_velocity(build: SimpleNamespace, findings: Findings, kind: str, size: str, status: Status) -> None:
    found = only(findings(piped(build, build.pumped(0, build.run("Line", 30, kind, size=size))), "velocity"))
    assert (found.node, found.status) == ("Line", status)
    assert found.clause.startswith("Common practice") and found.limit is not None
    assert ("larger pipe" in found.remedy) is (status is NOT_MET)


def test_velocity_where_the_code_says_nothing(build: SimpleNamespace, findings: Findings) -> None:
    site = piped(build, build.pumped(0, build.run("Line", 30, size="6")), "austria-bhygv-2012")
    found = only(findings(site, "velocity"))
    assert found.status is SILENT and found.value == pytest.approx(5.616 * FOOT, rel=1e-3)


def test_velocity_is_not_known_while_the_flow_is_not(build: SimpleNamespace, findings: Findings) -> None:
    # The code names no turnover time, so that there is no flow.
    site = build.site(build.pumped(0, build.run("Line", 30)), codes=PRACTICE)
    assert only(findings(site, "velocity")).status is UNKNOWN


@pytest.mark.parametrize(("static", "status"), [(0.0, []), (200.0, [NOT_MET])])
def test_pump_and_system_meet(build: SimpleNamespace, findings: Findings, static: float, status: list[Status]) -> None:
    # A head of 60 ft that was settled on cannot lift by 196 ft (59.7 m, near the end of the field).
    plan = PumpPlan(static_head=min(static * FOOT, 59.7))
    loop = build.pumped(20, pump=plan, pump_head=60 * FOOT)
    assert [finding.status for finding in findings(piped(build, loop), "no_operating_point")] == status


@pytest.mark.parametrize(("required", "status"), [(25.0, MET), (32.0, NOT_MET), (None, None)])
def test_suction_head(
    build: SimpleNamespace, findings: Findings, required: float | None, status: Status | None
) -> None:
    # About 33 ft there are; a margin of 3 ft, or a tenth, is kept.
    plan = PumpPlan(suction_head_required=None if required is None else required * FOOT, water_above_pump=0.0)
    found = findings(piped(build, build.pumped(60, pump=plan)), "suction_head")
    assert [finding.status for finding in found] == ([] if status is None else [status])
    if found:
        assert "Margin" in found[0].clause and ("lower" in found[0].remedy) is (status is NOT_MET)


@pytest.mark.parametrize(("metres", "statuses"), [(-2.0, []), (-7.0, [NOT_MET])])
def test_water_that_no_pump_can_draw(
    build: SimpleNamespace, findings: Findings, metres: float, statuses: list[Status]
) -> None:
    # ISO 2533 standard atmosphere: 57.73 kPa at 4,500 m, 5.9 m of water, less what it loses to vapour.
    loop = build.pumped(60, pump=PumpPlan(water_above_pump=metres))
    high = piped(build, loop).revised(hydraulics=HydraulicTerms(altitude=4500))
    found = findings(high, "suction_head")
    assert [finding.status for finding in found] == statuses
    assert all("No pump can draw" in finding.remedy for finding in found)


@pytest.mark.parametrize(("code", "head", "status"), [
    # 60 ft with dirty filters, 40 ft with clean ones. A pump for 42 ft is enough for Wisconsin, not for Georgia.
    ("georgia-511-3-5-2024", 60.0, MET), ("georgia-511-3-5-2024", 42.0, NOT_MET),
    ("wisconsin-sps-390-2024", 42.0, MET), ("wisconsin-sps-390-2024", 38.0, NOT_MET),
    ("common-practice", 60.0, MET), ("common-practice", 42.0, NOT_MET),
])  # fmt: skip
def test_required_flow_by_the_filters_that_the_code_names(
    build: SimpleNamespace, findings: Findings, code: str, head: float, status: Status
) -> None:
    loop = build.pumped(0, equipment=build.losses(heater=40, filter_dirt=20), pump_head=head * FOOT)
    found = only(findings(piped(build, loop, code, *PRACTICE), "operating_flow"))
    assert found.status is status
    named = {"georgia-511-3-5-2024": "Georgia", "wisconsin-sps-390-2024": "Wisconsin", "common-practice": "Sense"}
    assert named[code] in found.clause
    assert ("clean" in found.title) is (code == "wisconsin-sps-390-2024")


@pytest.mark.parametrize(("head", "status"), [(60.1, MET), (59.0, NOT_MET)])
def test_least_pump_head_of_wyoming(build: SimpleNamespace, findings: Findings, head: float, status: Status) -> None:
    """Wyoming 010-4 s.9(b): 60 ft at design flow."""
    found = only(findings(piped(build, build.pumped(head), "wyoming-010-4", *PRACTICE), "least_pump_head"))
    assert found.status is status and "Wyoming" in found.clause
    assert findings(piped(build, build.pumped(head)), "least_pump_head") == []


@pytest.mark.parametrize(("settled", "status"), [(70.0, [MET]), (60.0, [MET]), (55.0, [NOT_MET]), (None, [])])
def test_a_head_that_was_settled_on_covers_the_losses(
    build: SimpleNamespace, findings: Findings, settled: float | None, status: list[Status]
) -> None:
    loop = build.pumped(
        0, equipment=build.losses(heater=40, filter_dirt=20), pump_head=None if settled is None else settled * FOOT
    )
    assert [finding.status for finding in findings(piped(build, loop), "head_settled")] == status


def test_nothing_of_hydraulics_is_checked_without_runs(
    build: SimpleNamespace, design: Callable[[Site], SiteDesign]
) -> None:
    done: Any = design(build.site(build.system(build.pool(), pump_head=10.0), codes=PRACTICE))
    checked = {finding.key for finding in done.findings}
    assert not checked & {"velocity", "operating_flow", "head_settled", "least_pump_head", "suction_head"}


@pytest.mark.parametrize(("lift", "status"), [(0.0, MET), (62.0, CAUTION)])
def test_pressure_of_a_sudden_stop(
    build: SimpleNamespace, findings: Findings, design: Callable[[Site], SiteDesign], lift: float, status: Status
) -> None:
    # Joukowsky by hand: 500 gpm in 6 in Sch 40 at 1.712 m/s. With E 2.76 GPa, D 6.031 in, an average wall of
    # (6.625 − 6.031) / 2 = 0.297 in and K 2.2 GPa the wave runs 358 m/s, so 996 · 358 · 1.712 = 611 kPa, 89 psi.
    # The pipe is rated 180 psi at 73 °F, about 85 % of it at 82 °F.
    # The pump at no flow gives 1.25 of its head: 52 psi on top for 95 ft, 86 psi with 62 ft of lift besides.
    pump = PumpPlan(static_head=lift * FOOT)
    site = piped(build, build.pumped(95, build.run("Line", 30, size="6"), pump=pump))
    assert design(site).value("Line", "surge_pressure") == pytest.approx(611e3, rel=0.005)
    found = only(findings(site, "pipe_pressure"))
    assert found.status is status
    assert ("slow valves" in found.remedy) is (status is CAUTION)

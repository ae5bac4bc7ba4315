"""What devices get while their pump runs on its supplier's curve."""

from typing import Any

import pytest

from waterpark_designer.engine.findings import Status
from waterpark_designer.model.devices import Nozzle
from waterpark_designer.model.hydraulics import CurvePoint, PumpPlan
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE

GPM = GALLON / MINUTE


def site_of(build: Any, shutoff: float, **fields: Any) -> Any:
    """A feature of 100 gpm at 30 ft behind its device, on a pump whose curve falls evenly from its shutoff head [ft]
    by 10 ft for each 100 gpm."""
    points = ((0, shutoff), (100, shutoff - 10), (200, shutoff - 20))
    plan = PumpPlan(curve=tuple(CurvePoint(flow=flow * GPM, head=head * FOOT) for flow, head in points))
    usual = {"pump_plan": plan, "pipe_runs": (build.run("Supply"),), "device_head": 30 * FOOT}
    one = build.feature("Play", 100, **usual | fields)
    return build.site(build.pool(features=(one,)), codes=("common-practice",), amendments=(build.turnover(4),))


@pytest.mark.parametrize(("shutoff", "status"), [(40, Status.MET), (45, Status.MET), (35, Status.NOT_MET)])
def test_a_feature_gets_its_flow(build: Any, findings: Any, shutoff: float, status: Status) -> None:
    """The curve meets 30 ft at 100 gpm where it starts from 40 ft."""
    [check] = findings(site_of(build, shutoff), "feature_operating_flow")
    assert check.status is status
    assert findings(site_of(build, shutoff), "nozzle_head") == []


def test_a_nozzle_gets_its_head(build: Any, findings: Any, figure: Any) -> None:
    # 100 nozzles at 30 ft; 19.637 · 0.95 · d² · √30 = 1 gpm each where d = 0.0989 in. From 35 ft the pump gives
    # 35 − 0.1 q = 30 (q / 100)², q = 92.6 gpm, and 25.7 ft are left at the nozzles.
    bore = (1 / (19.637 * 0.95 * 30**0.5)) ** 0.5 * INCH
    fields = {"device": Nozzle(bore=bore, head=30 * FOOT), "count": 100}
    [met] = findings(site_of(build, 41, **fields), "nozzle_head")
    weak = site_of(build, 35, **fields)
    [check] = findings(weak, "nozzle_head")
    assert met.status is Status.MET and check.status is Status.NOT_MET and "pump" in check.remedy
    assert figure(weak, "Play", "device_head_running") / FOOT == pytest.approx(25.7, abs=0.05)
    assert findings(weak, "feature_operating_flow") == []


def test_nothing_is_said_of_a_pump_without_runs(build: Any, findings: Any) -> None:
    assert findings(site_of(build, 35, pipe_runs=()), "feature_operating_flow") == []

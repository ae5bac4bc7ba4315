"""Branches side by side: how flow divides between them, against EPANET 2.2 and by hand.

EPANET takes Swamee and Jain's approximation of Colebrook and 32.2 ft/s² for gravity: heads within 0.8 % by Darcy and
Weisbach, 0.3 % by Hazen and Williams, and flows by half of that.
"""

import math
import random
import warnings
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
import wntr

from tests.engine.test_design_epanet import EPANET_VISCOSITY, GROUND, LAWS, VISCOSITY, WARM, bore_of, crane
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Worked
from waterpark_designer.model.edits import set_override
from waterpark_designer.model.hydraulics import HydraulicTerms, PipeRun, PumpPlan
from waterpark_designer.model.kinds import FrictionMethod
from waterpark_designer.model.site import Site
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE

GPM = GALLON / MINUTE
Design = Callable[[Site], SiteDesign]
Figure = Callable[[Site, str, str], Worked]
each_method = pytest.mark.parametrize("method", LAWS, ids=str)
KINDS = ("pump_discharge", "filter_line", "return_header", "return_branch")
SIZES = ("", "", "2", "3", "4", "6")


def random_site(build: SimpleNamespace, chance: random.Random, method: FrictionMethod) -> Site:
    """A loop of runs in a row and two junctions of two to four branches, some of them of several like pipes."""
    runs = []
    for number in range(chance.randrange(6, 12)):
        branch = chance.choice(["", "A", "A", "B", "B"])
        fields = {
            "size": chance.choice(SIZES) if branch else "",
            "count": chance.choice([1, 1, 2, 4]) if branch else 1,
            "flow_share": 0.6 if branch == "B" else 1.0,
            "elbows_90": chance.randrange(6),
            "tees_branch": chance.randrange(3),
            "butterfly_valves": chance.randrange(2),
        }
        length = chance.uniform(10, 300)
        runs.append(build.run(f"Run {number}", length, chance.choice(KINDS), branch=branch, **fields))
    loop = build.system(
        build.pool(water_temperature=WARM),
        fixed_flow=chance.uniform(150, 900) * GPM,
        pipe_runs=tuple(runs),
        equipment=build.losses(),
        pump=PumpPlan(),
    )
    terms = HydraulicTerms(method=method)
    return build.site(loop, codes=("common-practice",), amendments=(build.turnover(6),), hydraulics=terms)


def in_a_row(runs: tuple[PipeRun, ...]) -> list[list[PipeRun]]:
    found: dict[str, list[PipeRun]] = {}
    for run in runs:
        found.setdefault(run.branch or run.id, []).append(run)
    return list(found.values())


def epanet_of(
    group: list[PipeRun], done: SiteDesign, flow: float, method: FrictionMethod, folder: Path
) -> tuple[float, dict[str, float]]:
    """Head [m] that all pipes of a junction lose together, and the flow [m³/s] of one pipe of each run."""
    law, roughness, _ = LAWS[method]
    made = wntr.network.WaterNetworkModel()
    with warnings.catch_warnings():
        # wntr warns of every change of law, though no pipe has a roughness yet.
        warnings.filterwarnings("ignore", message="Changing the headloss formula", category=UserWarning)
        made.options.hydraulic.headloss = law
    made.options.hydraulic.viscosity = VISCOSITY / EPANET_VISCOSITY
    made.options.hydraulic.accuracy = 1e-7
    made.options.time.duration = 0
    made.add_reservoir("LOW", base_head=GROUND)
    made.add_junction("END", base_demand=flow, elevation=0.0)
    for run in group:
        for number in range(run.count):
            bore = bore_of(run, done)
            made.add_pipe(f"{run.id}-{number}", "LOW", "END", run.length, bore, roughness, crane(run, bore))
    results = wntr.sim.EpanetSimulator(made).run_sim(file_prefix=str(folder / "network"))
    heads, flows = results.node["head"].iloc[0], results.link["flowrate"].iloc[0]
    return float(heads["LOW"] - heads["END"]), {run.id: float(flows[f"{run.id}-0"]) for run in group}


@each_method
@pytest.mark.parametrize("seed", range(10))
def test_random_systems_divide_as_in_epanet(
    build: SimpleNamespace, design: Design, tmp_path: Path, seed: int, method: FrictionMethod
) -> None:
    done = design(random_site(build, random.Random(seed), method))
    [loop] = done.site.systems
    tolerance, pipe_loss = LAWS[method][2], 0.0
    for group in in_a_row(loop.pipe_runs):
        together = loop.fixed_flow * group[0].flow_share
        head, flows = epanet_of(group, done, together, method, tmp_path)
        pipe_loss += head
        ours = {run.id: float(done.value(run.id, "run_flow")) for run in group}
        assert sum(ours[run.id] * run.count for run in group) == pytest.approx(together, rel=1e-9)
        # A trickle in half-inch pipe has Reynolds numbers where Swamee and Jain are off by some per cent.
        assert ours == pytest.approx(flows, rel=tolerance, abs=5e-4 * together)
        losses = [float(done.value(run.id, "run_loss")) for run in group]
        assert losses == pytest.approx([losses[0]] * len(group), rel=1e-6)
        assert losses[0] == pytest.approx(head, rel=tolerance)
    assert done.value("Loop", "pipe_loss") == pytest.approx(pipe_loss, rel=tolerance)
    assert not [finding for finding in done.findings if finding.key == "branches"]


@pytest.mark.parametrize("seed", range(6))
def test_the_systems_curve_divides_the_flow_at_every_flow(
    build: SimpleNamespace, design: Design, tmp_path: Path, seed: int
) -> None:
    method = FrictionMethod.DARCY_WEISBACH
    done = design(random_site(build, random.Random(20 + seed), method))
    [loop] = done.site.systems
    curve = done.curves["Loop"].clean
    for part in (0.5, 1.2):
        flow = part * loop.fixed_flow
        groups = in_a_row(loop.pipe_runs)
        expected = sum(epanet_of(group, done, flow * group[0].flow_share, method, tmp_path)[0] for group in groups)
        assert curve.head(flow) == pytest.approx(expected, rel=0.012)


def site_of(build: SimpleNamespace, piped: Any, *runs: PipeRun, **fields: Any) -> Site:
    return piped(build.pumped(30, *runs, **fields))


def test_like_branches_divide_as_like_runs(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    fields = {"elbows_90": 3, "butterfly_valves": 1}
    apart = site_of(build, piped, *(build.run(f"Branch {n}", 80, branch="A", **fields) for n in (1, 2)))
    alike = site_of(build, piped, build.run("Both", 80, count=2, **fields))
    for key in ("run_flow", "inside_diameter", "velocity", "run_loss"):
        for name in ("Branch-1", "Branch-2"):
            assert figure(apart, name, key) == pytest.approx(figure(alike, "Both", key))
    for key in ("pipe_loss", "duty_head", "operating_flow_dirty"):
        assert figure(apart, "Loop", key) == pytest.approx(figure(alike, "Loop", key))


def test_four_times_the_length_takes_half_the_flow(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    # With Hazen and Williams flows go as length to the power of 1/1.852: 4^0.54 = 2.114; 500 gpm to 339.4 and 160.6.
    terms = HydraulicTerms(method=FrictionMethod.HAZEN_WILLIAMS)
    runs = (build.run("Near", 50, branch="1", size="6"), build.run("Far", 200, branch="1", size="6"))
    site = piped(build.pumped(30, *runs), hydraulics=terms)
    assert figure(site, "Near", "run_flow") / GPM == pytest.approx(339.4, abs=0.1)
    assert figure(site, "Far", "run_flow") / GPM == pytest.approx(160.6, abs=0.1)


def test_a_branch_that_takes_more_than_its_even_share_is_made_wider(
    build: SimpleNamespace, design: Design, piped: Any
) -> None:
    # 250 gpm evenly would be a 4 in pipe at 8 ft/s (313 gpm); the near branch takes more and grows until it holds.
    site = site_of(build, piped, build.run("Near", 20, branch="1"), build.run("Far", 400, branch="1", elbows_90=20))
    done = design(site)
    assert done.value("Near", "inside_diameter") > 4.1 * INCH
    assert done.value("Near", "velocity") <= 8 * FOOT * (1 + 1e-9)
    assert {one.status for one in done.findings if one.key == "velocity"} == {Status.MET}
    assert design(site).value("Near", "run_flow") == done.value("Near", "run_flow")


def test_a_branch_without_resistance_is_a_finding(
    build: SimpleNamespace, figure: Figure, findings: Any, piped: Any
) -> None:
    runs = (build.run("Open", 0, branch="A"), build.run("Long", 90, branch="A"))
    site = site_of(build, piped, *runs)
    [found] = findings(site, "branches")
    assert (found.status, found.node) == (Status.CAUTION, "Open") and "Give each branch a length" in found.remedy
    assert figure(site, "Open", "run_flow") == figure(site, "Long", "run_flow") == pytest.approx(250 * GPM)
    assert figure(site, "Loop", "pipe_loss") == figure(site, "Long", "run_loss")
    assert figure(site, "Loop", "operating_flow_dirty") > 0


@pytest.mark.parametrize(("key", "value"), [("run_loss", 3.0), ("run_flow", 0.01)])
def test_what_is_set_by_hand_keeps_the_even_split_and_says_so(
    build: SimpleNamespace, figure: Figure, findings: Any, piped: Any, key: str, value: float
) -> None:
    runs = (build.run("One", 50, branch="A"), build.run("Other", 90, branch="A"))
    site = set_override(site_of(build, piped, *runs), "One", key, value, "Measured")
    assert figure(site, "One", key) == value
    assert figure(site, "Other", "run_flow") == pytest.approx(250 * GPM)
    losses = [figure(site, name, "run_loss") for name in ("One", "Other")]
    assert figure(site, "Loop", "pipe_loss") == max(losses)
    [found] = findings(site, "branches")
    assert "set by hand" in found.remedy


def test_branches_of_one_junction_agree_on_their_share(
    build: SimpleNamespace, figure: Figure, findings: Any, piped: Any
) -> None:
    runs = (build.run("One", 50, branch="A"), build.run("Other", 50, branch="A", flow_share=0.8))
    site = site_of(build, piped, *runs)
    assert [one.status for one in findings(site, "branch_shares")] == [Status.CAUTION]
    assert figure(site, "One", "run_flow") == pytest.approx(250 * GPM)
    agreed = site_of(build, piped, *(run.revised(flow_share=0.8) for run in runs))
    assert findings(agreed, "branch_shares") == []
    assert figure(agreed, "One", "run_flow") == pytest.approx(200 * GPM)


def test_a_size_that_there_is_not_holds_up_its_junction_only(
    build: SimpleNamespace, design: Design, figure: Figure, piped: Any
) -> None:
    runs = (build.run("One", 50, branch="A", size="7"), build.run("Other", 50, branch="A"), build.run("Row", 50))
    site = site_of(build, piped, *runs)
    assert "no size 7 in" in design(site).value("Loop", "pipe_loss").needs  # type: ignore[union-attr]
    assert figure(site, "Row", "run_loss") > 0


def test_branches_of_a_feature(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    runs = (build.run("Short", 20, "feature_supply", branch="2"), build.run("Long", 90, "feature_supply", branch="2"))
    jets = build.feature("Jets", 400, pipe_runs=runs, device_head=5.0)
    site = piped(build.system(build.pool(gallons=120_000, features=(jets,))))
    flows = [figure(site, name, "run_flow") for name in ("Short", "Long")]
    assert math.fsum(flows) == pytest.approx(400 * GPM) and flows[0] > flows[1]
    assert figure(site, "Jets", "pipe_loss") == pytest.approx(figure(site, "Long", "run_loss"))

"""Whole designs against EPANET 2.2, run through wntr: head with clean and dirty filters, and where the pump runs.

EPANET takes Swamee and Jain's approximation of Colebrook and 32.2 ft/s² for gravity: within 0.8 % by Darcy and
Weisbach, 0.3 % by Hazen and Williams. Like runs side by side, and a run with half of the flow, are as many pipes there.
Bores are the average inside diameters of ASTM D1785 Schedule 40; the loss coefficients are worked here from Crane's
multiples of the friction factor at full turbulence (Technical Paper 410).
"""

import math
import warnings
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
import wntr

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.worked import Worked
from waterpark_designer.model.hydraulics import HydraulicTerms, PipeRun, PumpPlan
from waterpark_designer.model.kinds import FrictionMethod
from waterpark_designer.model.site import Site
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE

GPM = GALLON / MINUTE
WARM = 300.15
"""27 °C: 0.8539 mm²/s, from 0.8509 mPa·s and 996.5 kg/m³ (IAPWS)."""
VISCOSITY = 8.539e-7
EPANET_VISCOSITY = 1.1e-5 * FOOT**2
BORES = {
    "0.5": 0.602, "0.75": 0.804, "1": 1.029, "1.25": 1.36, "1.5": 1.59,
    "2": 2.047, "2.5": 2.445, "3": 3.042, "4": 3.998, "5": 5.016, "6": 6.031, "8": 7.942, "10": 9.976, "12": 11.889,
}  # fmt: skip
MULTIPLES = {"elbows_90": 30, "elbows_45": 16, "tees_run": 20, "tees_branch": 60, "check_valves": 100}
LAWS = {FrictionMethod.DARCY_WEISBACH: ("D-W", 1.5e-6, 8e-3), FrictionMethod.HAZEN_WILLIAMS: ("H-W", 150.0, 3e-3)}
GROUND = 100.0
EPANET_SHUTOFF = 4 / 3
"""EPANET makes a parabola of one point of a pump's curve, with this shutoff head over it."""


@dataclass(frozen=True)
class Case:
    """A system: its flow [gpm], lift, clean filter with the rest of the equipment, dirt [ft], pumps, and its runs."""

    name: str
    flow: float
    lift: float
    equipment: float
    dirt: float
    pumps: int
    runs: tuple[tuple[str, float, dict[str, Any]], ...]


LOOP = (
    ("tank_suction", 18.0, {"size": "8", "elbows_90": 2, "entrances": 1, "butterfly_valves": 1}),
    ("pump_discharge", 22.0, {"size": "6", "elbows_90": 3, "check_valves": 1, "tees_run": 1}),
    ("filter_line", 26.0, {"size": "5", "count": 3, "elbows_90": 4, "tees_branch": 2, "butterfly_valves": 2}),
    ("return_header", 150.0, {"size": "6", "elbows_90": 5, "elbows_45": 4, "tees_run": 6}),
    ("return_header", 220.0, {"size": "5", "flow_share": 0.5, "elbows_90": 6, "tees_run": 10}),
    ("return_branch", 12.0, {"size": "2", "count": 12, "elbows_90": 2, "tees_branch": 1, "exits": 1}),
)
CASES = (
    Case("a loop with clean water and no lift", 520, 0.0, 18.0, 23.1, 1, LOOP),
    Case("a loop that lifts", 520, 12.0, 18.0, 23.1, 1, LOOP),
    Case("two pumps side by side", 640, 5.0, 12.0, 15.0, 2, LOOP),
    Case("a long run without fittings", 300, 0.0, 4.0, 6.0, 1, (
        ("pump_suction", 20.0, {"size": "6"}), ("pump_discharge", 30.0, {"size": "4"}),
        ("filter_line", 40.0, {"size": "4"}), ("equipment_line", 60.0, {"size": "5"}),
        ("return_header", 900.0, {"size": "5"}))),
    Case("sizes chosen by velocity", 1500, 4.0, 20.0, 23.1, 1, tuple(
        (kind, feet, {name: value for name, value in fields.items() if name != "size"})
        for kind, feet, fields in LOOP)),
)  # fmt: skip


def whole_site(build: SimpleNamespace, case: Case, method: FrictionMethod, shutoff: float) -> Site:
    runs = tuple(
        build.run(f"Run {number}", feet, kind, **fields) for number, (kind, feet, fields) in enumerate(case.runs)
    )
    loop = build.system(
        build.pool(water_temperature=WARM),
        fixed_flow=case.flow * GPM,
        pipe_runs=runs,
        equipment=build.losses(filter_clean=case.equipment, filter_dirt=case.dirt),
        pump=PumpPlan(count=case.pumps, static_head=case.lift * FOOT, shutoff_ratio=shutoff),
    )
    terms = HydraulicTerms(method=method)
    return build.site(loop, codes=("common-practice",), amendments=(build.turnover(6),), hydraulics=terms)


def bore_of(run: PipeRun, design: SiteDesign) -> float:
    """Inside diameter [m] by the standard of the size that the run has."""
    value = design.value(run.id, "inside_diameter")
    assert isinstance(value, Worked)
    nominal = value.step.title.split(" in ")[0]
    assert not run.size or nominal == run.size
    return BORES[nominal] * INCH


def crane(run: PipeRun, bore: float) -> float:
    at_full_turbulence = 0.25 / math.log10(0.0018 * INCH / (3.7 * bore)) ** 2
    butterfly = 45 if bore <= 8.5 * INCH else 35
    multiples = sum(getattr(run, name) * multiple for name, multiple in MULTIPLES.items())
    turned = (multiples + run.butterfly_valves * butterfly) * at_full_turbulence
    return turned + 0.5 * run.entrances + 1.0 * run.exits


class Network:
    """The same system in EPANET, from the reservoir LOW through its equipment, a throttle, to the node END."""

    def __init__(self, case: Case, design: SiteDesign, method: FrictionMethod, equipment: float) -> None:
        self.law, self.roughness, self.tolerance = LAWS[method]
        self.made = wntr.network.WaterNetworkModel()
        with warnings.catch_warnings():
            # wntr warns of every change of law, though no pipe has a roughness yet.
            warnings.filterwarnings("ignore", message="Changing the headloss formula", category=UserWarning)
            self.made.options.hydraulic.headloss = self.law
        self.made.options.hydraulic.viscosity = VISCOSITY / EPANET_VISCOSITY
        self.made.options.hydraulic.accuracy = 1e-7
        self.made.options.time.duration = 0
        self.made.add_reservoir("LOW", base_head=GROUND)
        self.node("START")
        self.node("A0")
        [loop] = design.site.systems
        for number, run in enumerate(loop.pipe_runs):
            self.node(f"A{number + 1}")
            self.pipes(run, bore_of(run, design), f"A{number}", f"A{number + 1}")
        self.throttle(case, equipment, f"A{len(loop.pipe_runs)}")

    def node(self, name: str) -> None:
        self.made.add_junction(name, base_demand=0.0, elevation=GROUND - 60.0)

    def pipes(self, run: PipeRun, bore: float, start: str, end: str) -> None:
        """As many pipes side by side as make each carry what the run carries."""
        for number in range(round(run.count / run.flow_share)):
            name = f"{start}-{end}-{number}"
            self.made.add_pipe(name, start, end, run.length, bore, self.roughness, crane(run, bore))

    def throttle(self, case: Case, head: float, start: str) -> None:
        bore = 6 * INCH
        velocity = case.flow * GPM / (math.pi / 4 * bore**2)
        self.node("END")
        setting = head * FOOT / (velocity**2 / (2 * 32.2 * FOOT))
        self.made.add_valve("equipment", start, "END", diameter=bore, valve_type="TCV", initial_setting=setting)

    def head_at(self, flow: float, folder: Path) -> float:
        """Head [m] that the flow [m³/s] takes, without lift."""
        self.made.add_pipe("start", "LOW", "START", 0.01, 5.0, self.roughness)
        self.made.add_pipe("on", "START", "A0", 0.01, 5.0, self.roughness)
        self.made.get_node("END").demand_timeseries_list[0].base_value = flow
        heads, _ = self.simulated(folder)
        return float(heads["LOW"] - heads["END"])

    def flow_of(self, pumps: int, duty: tuple[float, float], lift: float, folder: Path) -> tuple[float, float]:
        """Flow [m³/s] and head [m] of like pumps, each through its point of duty, that lift by `lift` [m]."""
        self.made.add_pipe("start", "LOW", "START", 0.01, 5.0, self.roughness)
        self.made.add_reservoir("HIGH", base_head=GROUND + lift)
        self.made.add_pipe("end", "END", "HIGH", 0.01, 5.0, self.roughness)
        self.made.add_curve("curve", "HEAD", [duty])
        for number in range(pumps):
            self.made.add_pump(f"pump{number}", "START", "A0", pump_type="HEAD", pump_parameter="curve")
        heads, flows = self.simulated(folder)
        return float(flows["end"]), float(heads["A0"] - heads["START"])

    def simulated(self, folder: Path) -> Any:
        results = wntr.sim.EpanetSimulator(self.made).run_sim(file_prefix=str(folder / "network"))
        return results.node["head"].iloc[0], results.link["flowrate"].iloc[0]


each_case = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
each_method = pytest.mark.parametrize("method", LAWS, ids=str)
Design = Callable[[Site], SiteDesign]


@each_method
@each_case
def test_head_with_clean_and_with_dirty_filters(
    build: SimpleNamespace, design: Design, tmp_path: Path, case: Case, method: FrictionMethod
) -> None:
    done = design(whole_site(build, case, method, EPANET_SHUTOFF))
    for key, equipment in (("head_clean", case.equipment), ("head_dirty", case.equipment + case.dirt)):
        epanet = Network(case, done, method, equipment).head_at(case.flow * GPM, tmp_path) + case.lift * FOOT
        assert done.value("Loop", key) == pytest.approx(epanet, rel=LAWS[method][2])


@each_method
@each_case
def test_where_the_pump_runs(
    build: SimpleNamespace, design: Design, tmp_path: Path, case: Case, method: FrictionMethod
) -> None:
    done = design(whole_site(build, case, method, EPANET_SHUTOFF))
    dirty = Network(case, done, method, case.equipment + case.dirt).head_at(case.flow * GPM, tmp_path)
    duty = (case.flow * GPM / case.pumps, dirty + case.lift * FOOT)
    for filters, equipment in (("clean", case.equipment), ("dirty", case.equipment + case.dirt)):
        network = Network(case, done, method, equipment)
        flow, head = network.flow_of(case.pumps, duty, case.lift * FOOT, tmp_path)
        assert done.value("Loop", f"operating_flow_{filters}") == pytest.approx(flow, rel=LAWS[method][2])
        assert done.value("Loop", f"operating_head_{filters}") == pytest.approx(head, rel=LAWS[method][2])
    clean, soiled = (done.value("Loop", f"operating_flow_{filters}") for filters in ("clean", "dirty"))
    assert clean > soiled * 1.03

"""Single pipes and whole systems against EPANET 2.2, run through wntr.

EPANET takes Swamee and Jain's approximation of Colebrook and 32.2 ft/s² for gravity: within 0.8 % by Darcy and
Weisbach, 0.3 % by Hazen and Williams.
"""

import itertools
import math
import warnings
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import wntr

from waterpark_designer.engine.pump_curves import GenericCurve, InParallel, OperatingPoint, operating_point
from waterpark_designer.engine.system_curve import Branches, EquipmentLoss, Line, SystemCurve
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE, STANDARD_GRAVITY

GPM = GALLON / MINUTE
SMOOTH = 1.5e-6
VISCOSITY = 8.53881e-7
EPANET_VISCOSITY = 1.1e-5 * FOOT**2
HIGH_GROUND = 100.0
"""Level of the lower reservoir [m]: keeps pressures above nothing."""
LAWS = {"D-W": 8e-3, "H-W": 3e-3}
each_law = pytest.mark.parametrize("law", LAWS)

Network = Any
Run = Callable[[Network], Any]


@pytest.fixture
def run(tmp_path: Path) -> Run:
    """Heads [m] of nodes and flows [m³/s] of links of a network at rest in its one state."""

    def simulated(network: Network) -> Any:
        results = wntr.sim.EpanetSimulator(network).run_sim(file_prefix=str(tmp_path / "network"))
        return results.node["head"].iloc[0], results.link["flowrate"].iloc[0]

    return simulated


def network(law: str) -> Network:
    """A reservoir LOW and nothing more, by a law of friction."""
    made = wntr.network.WaterNetworkModel()
    with warnings.catch_warnings():
        # wntr warns of every change of law, though no pipe has a roughness yet.
        warnings.filterwarnings("ignore", message="Changing the headloss formula", category=UserWarning)
        made.options.hydraulic.headloss = law
    made.options.hydraulic.viscosity = VISCOSITY / EPANET_VISCOSITY
    made.options.hydraulic.accuracy = 1e-7
    made.options.time.duration = 0
    made.add_reservoir("LOW", base_head=HIGH_GROUND)
    return made


def add_line(made: Network, name: str, start: str, end: str, line: Line) -> None:
    roughness = line.hazen_williams or line.roughness
    made.add_pipe(name, start, end, line.length, line.inside_diameter, roughness, line.loss_coefficient)


def add_junctions(made: Network, *names: str) -> None:
    for name in names:
        made.add_junction(name, base_demand=0.0, elevation=HIGH_GROUND - 50.0)


def add_pump(made: Network, name: str, start: str, end: str, pump: GenericCurve) -> None:
    """EPANET makes a parabola of one point: shutoff head 4/3 of it."""
    made.add_curve(f"{name}-curve", "HEAD", [(pump.duty_flow, pump.duty_head)])
    made.add_pump(name, start, end, pump_type="HEAD", pump_parameter=f"{name}-curve")


def generic(duty_gpm: float, duty_ft: float) -> GenericCurve:
    return GenericCurve(4 / 3 * duty_ft * FOOT, duty_gpm * GPM, duty_ft * FOOT)


def line(law: str, inches: float, feet: float, fittings: float = 0.0, share: float = 1.0) -> Line:
    made = Line(inches * INCH, feet * FOOT, SMOOTH, fittings, share)
    return replace(made, hazen_williams=150.0) if law == "H-W" else made


def solved(pump: GenericCurve | InParallel, static: float, *parts: Line | Branches | EquipmentLoss) -> OperatingPoint:
    found = operating_point(pump, SystemCurve(static, VISCOSITY, parts))
    assert found is not None
    return found


PIPES = list(itertools.product((2.047, 3.042, 3.998, 6.031, 9.976, 11.889), (3.0, 8.0), (0.0, 6.0)))
"""Average bores of Schedule 40 PVC [in], velocities [ft/s], sums of loss coefficients."""


@each_law
@pytest.mark.parametrize(("bore", "velocity", "fittings"), PIPES)
def test_single_pipe(run: Run, law: str, bore: float, velocity: float, fittings: float) -> None:
    pipe = line(law, bore, 200.0, fittings)
    flow = math.pi / 4 * pipe.inside_diameter**2 * velocity * FOOT
    made = network(law)
    made.add_junction("END", base_demand=flow, elevation=0.0)
    add_line(made, "pipe", "LOW", "END", pipe)
    heads, _ = run(made)
    assert pipe.loss(flow, VISCOSITY) == pytest.approx(heads["LOW"] - heads["END"], rel=LAWS[law])


@each_law
def test_three_pipes_in_series(run: Run, law: str) -> None:
    pipes = [line(law, 7.942, 60, 4.0), line(law, 6.031, 180, 9.0), line(law, 4.0, 30, 3.0)]
    made, flow = network(law), 450 * GPM
    add_junctions(made, "A", "B")
    made.add_junction("END", base_demand=flow, elevation=0.0)
    for pipe, (start, end) in zip(pipes, [("LOW", "A"), ("A", "B"), ("B", "END")], strict=True):
        add_line(made, start + end, start, end, pipe)
    heads, _ = run(made)
    ours = SystemCurve(0.0, VISCOSITY, tuple(pipes)).head(flow)
    assert ours == pytest.approx(heads["LOW"] - heads["END"], rel=LAWS[law])


@each_law
def test_flow_divides_between_branches(run: Run, law: str) -> None:
    branches = Branches((line(law, 3.998, 150, 5.0), line(law, 3.042, 80, 8.0), line(law, 6.031, 400, 2.0)))
    made, flow = network(law), 900 * GPM
    made.add_junction("END", base_demand=flow, elevation=0.0)
    for number, branch in enumerate(branches.lines):
        add_line(made, f"branch{number}", "LOW", "END", branch)
    heads, flows = run(made)
    assert branches.loss(flow, VISCOSITY) == pytest.approx(heads["LOW"] - heads["END"], rel=LAWS[law])
    ours = branches.flows(flow, VISCOSITY)
    assert ours == pytest.approx([flows[f"branch{number}"] for number in range(3)], rel=LAWS[law])


@each_law
def test_pump_against_static_head(run: Run, law: str) -> None:
    pump, suction, discharge = generic(600, 70), line(law, 7.942, 30, 2.5), line(law, 6.031, 320, 14.0)
    made = network(law)
    made.add_reservoir("HIGH", base_head=HIGH_GROUND + 6.0)
    add_junctions(made, "IN", "OUT")
    add_line(made, "suction", "LOW", "IN", suction)
    add_pump(made, "pump", "IN", "OUT", pump)
    add_line(made, "discharge", "OUT", "HIGH", discharge)
    heads, flows = run(made)
    ours = solved(pump, 6.0, suction, discharge)
    assert ours.flow == pytest.approx(flows["pump"], rel=LAWS[law])
    assert ours.head == pytest.approx(heads["OUT"] - heads["IN"], rel=LAWS[law])


@each_law
def test_two_pumps_in_parallel(run: Run, law: str) -> None:
    pump, own, common = generic(400, 60), line(law, 6.031, 15, 6.0, share=0.5), line(law, 7.942, 500, 11.0)
    made = network(law)
    made.add_reservoir("HIGH", base_head=HIGH_GROUND + 4.0)
    add_junctions(made, "OUT1", "OUT2", "JOIN")
    for number in (1, 2):
        add_pump(made, f"pump{number}", "LOW", f"OUT{number}", pump)
        add_line(made, f"own{number}", f"OUT{number}", "JOIN", own)
    add_line(made, "common", "JOIN", "HIGH", common)
    heads, flows = run(made)
    ours = solved(InParallel(pump, 2), 4.0, own, common)
    assert flows["pump1"] == pytest.approx(flows["pump2"], rel=1e-4)
    assert ours.flow == pytest.approx(flows["common"], rel=LAWS[law])
    assert ours.head == pytest.approx(heads["OUT1"] - heads["LOW"], rel=LAWS[law])


@each_law
@pytest.mark.parametrize("throttle", [5.0, 80.0, 400.0])
def test_throttled_system(run: Run, law: str, throttle: float) -> None:
    pump, pipe = generic(500, 80), line(law, 6.031, 250, 10.0)
    made = network(law)
    made.add_reservoir("HIGH", base_head=HIGH_GROUND + 2.0)
    add_junctions(made, "OUT", "VALVE")
    add_pump(made, "pump", "LOW", "OUT", pump)
    made.add_valve(
        "throttle", "OUT", "VALVE", diameter=pipe.inside_diameter, valve_type="TCV", initial_setting=throttle
    )
    add_line(made, "pipe", "VALVE", "HIGH", pipe)
    heads, flows = run(made)
    velocity = 500 * GPM / (math.pi / 4 * pipe.inside_diameter**2)
    valve = EquipmentLoss(throttle * velocity**2 / (2 * STANDARD_GRAVITY), 500 * GPM)
    ours = solved(pump, 2.0, valve, pipe)
    assert ours.flow == pytest.approx(flows["pump"], rel=LAWS[law])
    assert ours.head == pytest.approx(heads["OUT"] - heads["LOW"], rel=LAWS[law])

"""Solvers: roots, curves through points, and the balance of energy over random systems."""

import math
import random

import pytest
from scipy.interpolate import PchipInterpolator
from scipy.optimize import bisect

from waterpark_designer.engine.curves import curve_through
from waterpark_designer.engine.formulas import pipes, pumps
from waterpark_designer.engine.pump_curves import GenericCurve, OperatingPoint, operating_point
from waterpark_designer.engine.solve import root
from waterpark_designer.engine.system_curve import Branches, EquipmentLoss, Line, SystemCurve
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE, STANDARD_GRAVITY

GPM = GALLON / MINUTE
DENSITY = 996.516
VISCOSITY = 8.53881e-7
BORES = (2.047, 3.042, 3.998, 6.031, 7.942, 9.976)


@pytest.mark.parametrize(
    ("function", "low", "high"),
    [
        (lambda x: x**3 - 2.0, 0.0, 2.0),
        (lambda x: math.cos(x) - x, 0.0, 1.0),
        (lambda x: math.exp(-5.0 * x) - 1e-6, 0.0, 50.0),
        (lambda x: math.atan(1e6 * (x - 0.123456)), -1.0, 1.0),
        (lambda x: (x - 0.7) ** 3, -1.0, 2.0),
    ],
)
def test_root_agrees_with_an_independent_solver(function: object, low: float, high: float) -> None:
    found = root(function, low, high)  # type: ignore[arg-type]
    expected = bisect(function, low, high, xtol=1e-14, rtol=1e-14)
    assert found == pytest.approx(expected, rel=1e-9)


def test_root_takes_few_steps() -> None:
    asked = []

    def counted(x: float) -> float:
        asked.append(x)
        return x**1.852 - 0.3

    assert root(counted, 0.0, 10.0) == pytest.approx(0.3 ** (1 / 1.852), rel=1e-11)
    assert len(asked) < 20


def test_root_at_either_end() -> None:
    assert root(lambda x: x, 0.0, 1.0) == 0.0
    assert root(lambda x: x - 1.0, 0.0, 1.0) == 1.0


@pytest.mark.parametrize(
    "function",
    [
        lambda x: x + 1.0,
        lambda x: math.nan,
        lambda x: 1.0 / 0.0,
        lambda x: math.nan if 0.4 < x < 0.6 else x - 0.5,
        lambda x: math.exp(1e6 * (x + 1.0)),
    ],
    ids=["no change of sign", "not a number", "division by nothing", "not a number within", "overflow"],
)
def test_trouble_gives_none(function: object) -> None:
    assert root(function, 0.0, 1.0) is None  # type: ignore[arg-type]


def random_points(rng: random.Random, falling: bool) -> list[tuple[float, float]]:
    flows = sorted(rng.uniform(0.0, 1.0) for _ in range(rng.randint(3, 9)))
    heads = [rng.uniform(0.0, 30.0) for _ in flows]
    return list(zip(flows, sorted(heads, reverse=True) if falling else heads, strict=True))


@pytest.mark.parametrize("falling", [True, False])
def test_curve_is_the_published_monotone_one(falling: bool) -> None:
    rng = random.Random(17)
    for _ in range(100):
        points = random_points(rng, falling)
        curve = curve_through(rng.sample(points, len(points)))
        expected = PchipInterpolator(*zip(*points, strict=True))
        assert curve is not None
        assert curve.falls or not falling
        for step in range(101):
            x = curve.low + (curve.high - curve.low) * step / 100
            assert curve.at(x) == pytest.approx(float(expected(x)), rel=1e-9, abs=1e-9)


def test_curve_never_rises_between_points_that_fall() -> None:
    rng = random.Random(4)
    for _ in range(50):
        curve = curve_through(random_points(rng, falling=True))
        assert curve is not None
        heights = [curve.at(curve.low + (curve.high - curve.low) * step / 200) for step in range(201)]
        assert all(after <= before + 1e-9 for before, after in zip(heights, heights[1:], strict=False))


def test_a_curve_with_a_hump_does_not_fall() -> None:
    hump = curve_through([(0.0, 20.0), (1.0, 21.0), (2.0, 15.0)])
    assert hump is not None and not hump.falls


def test_two_points_make_a_straight_line_held_at_its_ends() -> None:
    curve = curve_through([(2.0, 10.0), (4.0, 6.0)])
    assert curve is not None
    assert [curve.at(x) for x in (0.0, 2.0, 3.0, 4.0, 9.0)] == pytest.approx([10.0, 10.0, 8.0, 6.0, 6.0])


@pytest.mark.parametrize("points", [[], [(1.0, 2.0)], [(1.0, 2.0), (1.0, 3.0)], [(1.0, math.nan), (2.0, 3.0)]])
def test_no_curve_through_too_few_points(points: list[tuple[float, float]]) -> None:
    assert curve_through(points) is None


def random_system(rng: random.Random) -> tuple[GenericCurve, SystemCurve, float]:
    """A pump, a system of lines and equipment, and the least static head."""
    duty_flow, duty_head = rng.uniform(50.0, 2000.0) * GPM, rng.uniform(20.0, 120.0) * FOOT
    pump = GenericCurve(rng.uniform(1.1, 1.5) * duty_head, duty_flow, duty_head)
    lines = tuple(
        Line(
            rng.choice(BORES) * INCH,
            rng.uniform(5.0, 600.0) * FOOT,
            rng.choice((1.5e-6, 4.5e-5)),
            rng.uniform(0.0, 20.0),
            rng.choice((1.0, 1.0, 0.5, 0.25)),
            rng.choice((None, None, 140.0)),
        )
        for _ in range(rng.randint(1, 6))
    )
    equipment = EquipmentLoss(rng.uniform(0.5, 10.0), duty_flow)
    static = rng.uniform(0.0, 0.5) * duty_head
    return pump, SystemCurve(static, VISCOSITY, (*lines, equipment)), static


def loss_by_formulas(part: Line | EquipmentLoss | Branches, flow: float) -> float:
    """Head lost in one part, by the formulas that a working prints."""
    if isinstance(part, EquipmentLoss):
        return part.head * (flow / part.flow) ** 2
    assert isinstance(part, Line)
    own = pipes.part_of_flow(flow, part.flow_share)
    velocity = pipes.pipe_velocity(own, part.inside_diameter)
    if part.hazen_williams is not None:
        friction = pipes.empirical_friction_loss(own, part.hazen_williams, part.length, part.inside_diameter)
    else:
        reynolds = pipes.reynolds_number(velocity, part.inside_diameter, VISCOSITY)
        factor = pipes.friction_factor(reynolds, part.roughness, part.inside_diameter)
        friction = pipes.friction_loss(factor, part.length, part.inside_diameter, velocity)
    return friction + pipes.minor_loss(part.loss_coefficient, velocity)


def test_power_given_is_power_lost() -> None:
    rng = random.Random(1848)
    for _ in range(200):
        pump, system, static = random_system(rng)
        found = operating_point(pump, system)
        assert found is not None
        lost = static + math.fsum(loss_by_formulas(part, found.flow) for part in system.parts)
        power = pumps.hydraulic_power(DENSITY, found.flow, found.head)
        assert power == pytest.approx(DENSITY * STANDARD_GRAVITY * found.flow * lost, rel=1e-8)


def changed(system: SystemCurve, number: int, **change: float) -> SystemCurve:
    parts = list(system.parts)
    line = parts[number]
    assert isinstance(line, Line)
    values = {name: getattr(line, name) for name in Line.__slots__} | {
        name: getattr(line, name) * factor for name, factor in change.items()
    }
    parts[number] = Line(**values)
    return SystemCurve(system.static_head, system.kinematic_viscosity, tuple(parts))


def running(pump: GenericCurve, system: SystemCurve) -> OperatingPoint:
    found = operating_point(pump, system)
    assert found is not None
    return found


def test_more_length_takes_head_and_flow_and_a_larger_pipe_gives_them_back() -> None:
    rng = random.Random(77)
    for _ in range(200):
        pump, system, _ = random_system(rng)
        flow = rng.uniform(0.001, 1.5) * pump.duty_flow
        longer = changed(system, 0, length=rng.uniform(1.001, 5.0))
        wider = changed(system, 0, inside_diameter=rng.uniform(1.001, 2.0))
        assert longer.head(flow) > system.head(flow) > wider.head(flow)
        assert running(pump, longer).flow < running(pump, system).flow < running(pump, wider).flow


def test_head_rises_with_flow_through_every_kind_of_flow() -> None:
    line = SystemCurve(0.0, VISCOSITY, (Line(0.05, 100.0, 1.5e-6, 2.0),))
    flows = [10 ** (-7 + step / 100) for step in range(501)]
    heads = [line.head(flow) for flow in flows]
    assert all(after > before for before, after in zip(heads, heads[1:], strict=False))
    assert line.head(0.0) == 0.0


def test_branches_of_one_kind_share_alike() -> None:
    line = Line(0.1, 50.0, 1.5e-6, 3.0)
    three = Branches((line, line, line))
    assert three.flows(0.03, VISCOSITY) == pytest.approx([0.01] * 3)
    assert three.loss(0.03, VISCOSITY) == pytest.approx(line.loss(0.01, VISCOSITY))
    assert three.loss(0.0, VISCOSITY) == 0.0
    assert Branches((line, line, line), 0.5).loss(0.06, VISCOSITY) == pytest.approx(line.loss(0.01, VISCOSITY))


def test_branches_lose_one_head_and_carry_all_flow_from_a_trickle_to_a_flood() -> None:
    rng = random.Random(3)
    for _ in range(300):
        lines = tuple(
            Line(
                rng.choice(BORES) * INCH,
                rng.uniform(0.5, 300.0),
                rng.choice((1.5e-6, 4.5e-5, 1e-3)),
                rng.uniform(0.0, 20.0),
                rng.choice((1.0, 0.5, 0.25)),
                rng.choice((None, None, 140.0)),
            )
            for _ in range(rng.randint(2, 6))
        )
        branches, flow = Branches(lines), 10 ** rng.uniform(-6, 0)
        flows = branches.flows(flow, VISCOSITY)
        assert flows is not None and math.fsum(flows) == pytest.approx(flow, rel=1e-9)
        losses = [line.loss(own, VISCOSITY) for line, own in zip(lines, flows, strict=True)]
        assert losses == pytest.approx([branches.loss(flow, VISCOSITY)] * len(lines), rel=1e-8)


def test_a_branch_that_loses_nothing_is_not_divided_into() -> None:
    branches = Branches((Line(0.1, 0.0, 1.5e-6), Line(0.1, 50.0, 1.5e-6)))
    assert branches.flows(0.03, VISCOSITY) is None and math.isnan(branches.loss(0.03, VISCOSITY))

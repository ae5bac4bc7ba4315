"""The head a pump must give at any flow: static head, pipe friction, fittings and equipment, as bare numbers.

Solvers evaluate these many times. What is printed is worked once more, at the flow found, with the formulas.
"""

import math
from dataclasses import dataclass

from waterpark_designer.engine.friction import friction
from waterpark_designer.engine.solve import root
from waterpark_designer.units import STANDARD_GRAVITY

HAZEN_WILLIAMS_CONSTANT = 10.666
"""From 4.727 with feet and cubic feet a second, at the exponents below (EPANET 2.2 manual)."""
HAZEN_WILLIAMS_FLOW_EXPONENT = 1.852
HAZEN_WILLIAMS_BORE_EXPONENT = 4.871
MOST_ROUNDS, SETTLED = 100, 1e-12
LEAST_FRICTION = 0.005
"""Below the friction factor of any pipe at any flow met here; closes a bracket."""


@dataclass(frozen=True, slots=True)
class Line:
    """A full pipe: inside diameter, length and roughness [m], sum of its loss coefficients K.

    `flow_share` is its part of the system's flow. Friction is by Darcy and Weisbach, or by Hazen and Williams
    where their C is given.
    """

    inside_diameter: float
    length: float
    roughness: float
    loss_coefficient: float = 0.0
    flow_share: float = 1.0
    hazen_williams: float | None = None

    def loss(self, system_flow: float, kinematic_viscosity: float) -> float:
        """Head lost [m] when the system carries `system_flow` [m³/s] of water of that viscosity [m²/s]."""
        flow = system_flow * self.flow_share
        if flow <= 0.0:
            return 0.0
        velocity = 4.0 * flow / (math.pi * self.inside_diameter**2)
        velocity_head = velocity**2 / (2.0 * STANDARD_GRAVITY)
        return self._friction_loss(flow, velocity, velocity_head, kinematic_viscosity) + (
            self.loss_coefficient * velocity_head
        )

    def _friction_loss(self, flow: float, velocity: float, velocity_head: float, kinematic_viscosity: float) -> float:
        if self.hazen_williams is not None:
            return hazen_williams(flow, self.hazen_williams, self.length, self.inside_diameter)
        reynolds = velocity * self.inside_diameter / kinematic_viscosity
        factor = friction(reynolds, self.roughness / self.inside_diameter)
        return factor * self.length / self.inside_diameter * velocity_head


def hazen_williams(flow: float, coefficient: float, length: float, inside_diameter: float) -> float:
    """Friction loss [m] by Hazen and Williams; flow [m³/s], length and inside diameter [m]."""
    return (
        HAZEN_WILLIAMS_CONSTANT
        * length
        * (flow / coefficient) ** HAZEN_WILLIAMS_FLOW_EXPONENT
        / inside_diameter**HAZEN_WILLIAMS_BORE_EXPONENT
    )


@dataclass(frozen=True, slots=True)
class EquipmentLoss:
    """A filter, heater or valve that loses `head` [m] at `flow` [m³/s], and with the square of the flow elsewhere."""

    head: float
    flow: float

    def loss(self, system_flow: float, kinematic_viscosity: float = 0.0) -> float:
        """Head lost [m] when the system carries `system_flow` [m³/s]."""
        return self.head * (max(system_flow, 0.0) / self.flow) ** 2


@dataclass(frozen=True, slots=True)
class Branches:
    """Lines side by side between the same two points; the flow divides so that each loses the same head.

    `flow_share` is their part of the system's flow together; that of a line is what one of like pipes in it carries
    of the line's flow.
    """

    lines: tuple[Line, ...]
    flow_share: float = 1.0

    def loss(self, system_flow: float, kinematic_viscosity: float) -> float:
        """Head lost [m] when the system carries `system_flow` [m³/s]; not a number where the division is not found."""
        if system_flow <= 0.0:
            return 0.0
        flows = self.flows(system_flow, kinematic_viscosity)
        return math.nan if flows is None else self.lines[0].loss(flows[0], kinematic_viscosity)

    def flows(self, system_flow: float, kinematic_viscosity: float) -> tuple[float, ...] | None:
        """Flow [m³/s] in each line; None where the division is not found.

        With each line's loss as r·Q², flows divide as 1/√r; r hardly depends on the flow, so a few rounds settle it.
        """
        together = system_flow * self.flow_share
        found = _divided(together, [1.0 / line.flow_share for line in self.lines])
        for _ in range(MOST_ROUNDS):
            losses = [line.loss(flow, kinematic_viscosity) for line, flow in zip(self.lines, found, strict=True)]
            if min(losses) <= 0.0 or not all(map(math.isfinite, losses)):
                return None
            before = found
            found = _divided(together, [flow / math.sqrt(loss) for flow, loss in zip(before, losses, strict=True)])
            if max(abs(now - then) for now, then in zip(found, before, strict=True)) <= SETTLED * together:
                return found
        return None


def _divided(together: float, weights: list[float]) -> tuple[float, ...]:
    """A flow divided in proportion to weights."""
    unit = together / math.fsum(weights)
    return tuple(unit * weight for weight in weights)


@dataclass(frozen=True, slots=True)
class SystemCurve:
    """Static head [m] and all that loses head in a row, for water of one kinematic viscosity [m²/s]."""

    static_head: float
    kinematic_viscosity: float
    parts: tuple[Line | EquipmentLoss | Branches, ...]

    def head(self, flow: float) -> float:
        """Head [m] the system takes at a flow [m³/s]."""
        return self.static_head + math.fsum(part.loss(flow, self.kinematic_viscosity) for part in self.parts)


def gravity_flow(line: Line, available_head: float, kinematic_viscosity: float) -> float | None:
    """Flow [m³/s] that a full line carries on a head [m] alone, its own share being all of it; None if not found."""
    if not available_head > 0.0:
        return 0.0 if available_head == 0.0 else None
    area = math.pi / 4.0 * line.inside_diameter**2
    least_loss = line.loss_coefficient + LEAST_FRICTION * line.length / line.inside_diameter
    if least_loss <= 0.0:
        return None
    most = area * math.sqrt(2.0 * STANDARD_GRAVITY * available_head / least_loss) / line.flow_share
    return root(lambda flow: line.loss(flow, kinematic_viscosity) - available_head, 0.0, most)

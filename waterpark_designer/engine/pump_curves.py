"""Pump curves as bare numbers, and where a curve meets the system it pumps through."""

import math
from dataclasses import dataclass
from typing import Protocol

from waterpark_designer.engine.curves import MonotoneCurve
from waterpark_designer.engine.solve import root
from waterpark_designer.engine.system_curve import SystemCurve


class PumpCurve(Protocol):
    """Head [m] over flow [m³/s], known from `least_flow` to `greatest_flow`."""

    @property
    def least_flow(self) -> float: ...

    @property
    def greatest_flow(self) -> float: ...

    def head(self, flow: float) -> float:
        """Head [m] at a flow [m³/s]."""


@dataclass(frozen=True, slots=True)
class GenericCurve:
    """H = H0 − (H0 − H)·(Q/Qd)² through a duty point; the shutoff head must be above the duty head."""

    shutoff_head: float
    duty_flow: float
    duty_head: float

    @property
    def least_flow(self) -> float:
        return 0.0

    @property
    def greatest_flow(self) -> float:
        """Flow [m³/s] at which no head is left; without end where the curve does not fall."""
        fall = self.shutoff_head - self.duty_head
        return self.duty_flow * math.sqrt(self.shutoff_head / fall) if fall > 0.0 else math.inf

    def head(self, flow: float) -> float:
        """Head [m] at a flow [m³/s]."""
        return self.shutoff_head - (self.shutoff_head - self.duty_head) * (flow / self.duty_flow) ** 2


@dataclass(frozen=True, slots=True)
class PointsCurve:
    """The curve through a user's points (flow [m³/s], head [m]); it says nothing beyond its first and last."""

    curve: MonotoneCurve

    @property
    def least_flow(self) -> float:
        return self.curve.low

    @property
    def greatest_flow(self) -> float:
        return self.curve.high

    def head(self, flow: float) -> float:
        """Head [m] at a flow [m³/s]."""
        return self.curve.at(flow)


@dataclass(frozen=True, slots=True)
class AtSpeed:
    """A pump at another speed, by the affinity laws: flow with the ratio of speeds, head with its square."""

    pump: PumpCurve
    speed_ratio: float

    @property
    def least_flow(self) -> float:
        return self.pump.least_flow * self.speed_ratio

    @property
    def greatest_flow(self) -> float:
        return self.pump.greatest_flow * self.speed_ratio

    def head(self, flow: float) -> float:
        """Head [m] at a flow [m³/s]."""
        return self.speed_ratio**2 * self.pump.head(flow / self.speed_ratio)


@dataclass(frozen=True, slots=True)
class InParallel:
    """Like pumps side by side, each giving its part of the flow at the same head."""

    pump: PumpCurve
    count: int

    @property
    def least_flow(self) -> float:
        return self.pump.least_flow * self.count

    @property
    def greatest_flow(self) -> float:
        return self.pump.greatest_flow * self.count

    def head(self, flow: float) -> float:
        """Head [m] at a flow [m³/s] of all together."""
        return self.pump.head(flow / self.count)


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """Where a pump runs: flow [m³/s] and head [m]."""

    flow: float
    head: float


def operating_point(pump: PumpCurve, system: SystemCurve) -> OperatingPoint | None:
    """Where the pump's curve meets the system's; None where it does not within the curve's ends."""
    flow = root(lambda flow: pump.head(flow) - system.head(flow), pump.least_flow, pump.greatest_flow)
    return None if flow is None else OperatingPoint(flow, pump.head(flow))


def speed_for_flow(pump: PumpCurve, system: SystemCurve, flow: float) -> float | None:
    """Ratio of speeds, up to one, at which the pump drives a flow [m³/s] through the system; None if there is none.

    The system's static head does not fall with speed, so this is not the ratio of the flows.
    """
    needed = system.head(flow)
    least = flow / pump.greatest_flow
    if not 0.0 < least <= 1.0:
        return None
    return root(lambda ratio: AtSpeed(pump, ratio).head(flow) - needed, least, 1.0)

"""Roots within a bracket. Trouble gives None: the caller makes a finding of it."""

import math
from collections.abc import Callable

MOST_STEPS = 100
TOLERANCE = 1e-12


def root(function: Callable[[float], float], low: float, high: float, tolerance: float = TOLERANCE) -> float | None:
    """Where a function passes through nothing between `low` and `high`; None where it does not change sign there.

    `tolerance` is relative to the wider end of the bracket. Chandrupatla's method (1997): inverse quadratic
    interpolation where it is safe, bisection where not, so a continuous function always converges. Arithmetic
    trouble in the function and results that are not numbers give None as well.
    """
    try:
        return _root(function, low, high, tolerance * max(abs(low), abs(high)))
    except ArithmeticError:
        return None


def _root(function: Callable[[float], float], low: float, high: float, width: float) -> float | None:
    a, b = high, low
    at_a, at_b = function(a), function(b)
    if at_a == 0.0 or at_b == 0.0:
        return b if at_b == 0.0 else a
    if not at_a * at_b < 0.0:
        return None
    share = 0.5
    for _ in range(MOST_STEPS):
        x = a + share * (b - a)
        at_x = function(x)
        if math.isnan(at_x):
            return None
        if (at_x > 0.0) == (at_a > 0.0):
            c, at_c = a, at_a
        else:
            c, at_c, b, at_b = b, at_b, a, at_a
        a, at_a = x, at_x
        nearest = a if abs(at_a) < abs(at_b) else b
        least = width / abs(b - a) if b != a else 1.0
        if least > 0.5 or at_x == 0.0:
            return nearest
        share = min(max(_next_share(a, b, c, at_a, at_b, at_c), least), 1.0 - least)
    return None


def _next_share(a: float, b: float, c: float, at_a: float, at_b: float, at_c: float) -> float:
    """How far from `a` to `b` to look next."""
    across = (a - b) / (c - b)
    rise = (at_a - at_b) / (at_c - at_b)
    if not (rise**2 < across and (1.0 - rise) ** 2 < 1.0 - across):
        return 0.5
    return at_a / (at_b - at_a) * at_c / (at_b - at_c) + (c - a) / (b - a) * at_a / (at_c - at_a) * at_b / (at_c - at_b)

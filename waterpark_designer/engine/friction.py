"""The friction factor of a full pipe as bare numbers, quick enough to stand inside a solver."""

import math
from typing import Any

LAMINAR_REYNOLDS = 2000.0
TURBULENT_REYNOLDS = 4000.0
CLOSE_ENOUGH = 1e-12
MOST_STEPS = 30


def friction(reynolds: float, relative_roughness: float) -> float:
    """Darcy friction factor for a Reynolds number above nothing and roughness over inside diameter.

    64/Re to Re 2000, Colebrook from Re 4000. Between the two the flow is unsettled: the factor goes straight from
    one to the other, so that more flow never loses less head.
    """
    if reynolds <= LAMINAR_REYNOLDS:
        return 64.0 / reynolds
    if reynolds >= TURBULENT_REYNOLDS:
        return colebrook(reynolds, relative_roughness)
    laminar = 64.0 / LAMINAR_REYNOLDS
    turbulent = colebrook(TURBULENT_REYNOLDS, relative_roughness)
    done = (reynolds - LAMINAR_REYNOLDS) / (TURBULENT_REYNOLDS - LAMINAR_REYNOLDS)
    return laminar + (turbulent - laminar) * done


def colebrook(reynolds: Any, relative_roughness: Any) -> float:
    """Darcy friction factor by Colebrook's equation, to within 1e-10 of its root.

    Newton on x = 1/√f. x + 2 log(a + b x) rises and bends down, so every step from the first on stays on the near
    side of the root and moves towards it.
    """
    a, b = float(relative_roughness) / 3.7, 2.51 / float(reynolds)
    x = -2.0 * math.log10(a + 13.0 * b)
    for _ in range(MOST_STEPS):
        inner = a + b * x
        step = (x + 2.0 * math.log10(inner)) / (1.0 + 2.0 * b / (inner * math.log(10.0)))
        x -= step
        if abs(step) <= CLOSE_ENOUGH * x:
            break
    return x**-2

"""How many like things make up an amount."""

import math

SLACK = 1e-9
"""So that what divides evenly on paper does in binary too."""


def whole_number(ratio: float) -> int:
    """The least whole number not below a ratio of two amounts."""
    return math.ceil(ratio - SLACK)

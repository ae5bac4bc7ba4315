"""A smooth curve through a user's points that never rises or falls between points that do not."""

import math
from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class MonotoneCurve:
    """A piecewise cubic through points in rising order of x, with the slope at each."""

    xs: tuple[float, ...]
    ys: tuple[float, ...]
    slopes: tuple[float, ...]

    @property
    def low(self) -> float:
        return self.xs[0]

    @property
    def high(self) -> float:
        return self.xs[-1]

    @property
    def falls(self) -> bool:
        """Whether each point lies below the one before."""
        return all(after < before for before, after in zip(self.ys, self.ys[1:], strict=False))

    def at(self, x: float) -> float:
        """The curve's height at x; beyond its ends the height there."""
        x = min(max(x, self.low), self.high)
        i = min(bisect_right(self.xs, x) - 1, len(self.xs) - 2)
        width = self.xs[i + 1] - self.xs[i]
        t = (x - self.xs[i]) / width
        rest = 1.0 - t
        return (
            rest**2 * (1.0 + 2.0 * t) * self.ys[i]
            + t**2 * (3.0 - 2.0 * t) * self.ys[i + 1]
            + t * rest * width * (rest * self.slopes[i] - t * self.slopes[i + 1])
        )


def curve_through(points: Iterable[tuple[float, float]]) -> MonotoneCurve | None:
    """The curve through points (x, y) in any order; None for fewer than two, or two at the same x.

    Slopes by Fritsch and Butland (1984): the harmonic mean of the two chords, weighted by their widths.
    """
    ordered = sorted(points)
    xs, ys = tuple(x for x, _ in ordered), tuple(y for _, y in ordered)
    widths = [after - before for before, after in zip(xs, xs[1:], strict=False)]
    finite = all(math.isfinite(number) for number in (*xs, *ys))
    if len(xs) < 2 or not finite or min(widths) <= 0.0:
        return None
    chords = [(ys[i + 1] - ys[i]) / width for i, width in enumerate(widths)]
    if len(xs) == 2:
        return MonotoneCurve(xs, ys, (chords[0], chords[0]))
    inner = [_slope(*pair) for pair in zip(widths, widths[1:], chords, chords[1:], strict=False)]
    first = _end_slope(widths[0], widths[1], chords[0], chords[1])
    last = _end_slope(widths[-1], widths[-2], chords[-1], chords[-2])
    return MonotoneCurve(xs, ys, (first, *inner, last))


def _slope(width: float, next_width: float, chord: float, next_chord: float) -> float:
    """Slope between two chords; none where the curve turns."""
    if chord * next_chord <= 0.0:
        return 0.0
    weight, next_weight = 2.0 * next_width + width, next_width + 2.0 * width
    return (weight + next_weight) / (weight / chord + next_weight / next_chord)


def _end_slope(width: float, next_width: float, chord: float, next_chord: float) -> float:
    """Slope at an end from three points, held within what keeps the first piece monotone."""
    slope = ((2.0 * width + next_width) * chord - width * next_chord) / (width + next_width)
    if slope * chord <= 0.0:
        return 0.0
    if chord * next_chord <= 0.0 and abs(slope) > 3.0 * abs(chord):
        return 3.0 * chord
    return slope

"""Turnover times of shipped rule sets against those printed in the codes; the clause stands beside each.

Figures marked "memory" in a heading were recalled: the test holds the program to what it says it recalls.
"""

import pytest

from tests.rules.limits_in_force import (
    FT,
    GAL,
    GEORGIA,
    HOUR,
    ILLINOIS,
    MODEL_CODE,
    NEW_YORK,
    WISCONSIN,
    fahrenheit,
    is_value,
    value_in_force,
)


@pytest.mark.parametrize(
    ("kind", "hours"),
    [
        ("activity_pool", 2),  # Activity pool
        ("vortex_pool", 1),  # Continuous water channel
        ("diving_pool", 8),  # Diving pool
        ("splash_pad", 0.5),  # Interactive water play, spray pad: 30 min
        ("plunge_pool", 1),  # Landing pool, flume, slide and every other plunge pool: 60 min
        ("runout_slide", 1),  # the same line
        ("cold_plunge", 1),  # the same line
        ("lazy_river", 2),  # Leisure river
        ("spa", 0.5),  # Spa, exercise spa: 30 min
        ("wading_pool", 1),  # Wading pool, interactive and not: 60 min
        ("wave_pool", 2),  # Wave pool
    ],
)
def test_georgia_turnover_list(kind: str, hours: float) -> None:
    """Georgia Rules 511-3-5-.07(1)(b), 2024."""
    is_value(GEORGIA, "longest_turnover", hours * HOUR, kind)
    is_value(GEORGIA, "longest_turnover", hours * HOUR, kind, depth=1.5, temperature=fahrenheit(84), area=400.0)
    assert value_in_force(GEORGIA, "turnover_per_depth", kind, depth=1.5) is None


def test_georgia_dual_use_pool() -> None:
    """Georgia Rules 511-3-5-.07(1)(b): a slide or another feature, average depth above 24 in: 4 h."""
    is_value(GEORGIA, "longest_turnover", 4 * HOUR, "leisure_pool", depth=3.5 * FT, features=True)
    assert value_in_force(GEORGIA, "turnover_per_depth", "leisure_pool", depth=3.5 * FT, features=True) is None
    for depth, features in ((24 / 12 * FT, True), (3.5 * FT, False)):
        is_value(GEORGIA, "longest_turnover", 6 * HOUR, "leisure_pool", depth=depth, features=features)
        is_value(GEORGIA, "turnover_per_depth", 1.5 * HOUR / FT, "leisure_pool", depth=depth, features=features)


@pytest.mark.parametrize("kind", ["lap_pool", "other"])
@pytest.mark.parametrize(("feet", "hours"), [(3.5, 5.25), (4.5, 6)])
def test_georgia_pools_not_named(kind: str, feet: float, hours: float) -> None:
    """Georgia Rules 511-3-5-.07(1)(a): 1.5 x mean depth in feet, 6 h at most; worked by hand for two depths."""
    per_depth = value_in_force(GEORGIA, "turnover_per_depth", kind, depth=feet * FT)
    longest = value_in_force(GEORGIA, "longest_turnover", kind, depth=feet * FT)
    assert per_depth is not None and longest is not None
    assert min(per_depth * feet * FT, longest) == pytest.approx(hours * HOUR)


@pytest.mark.parametrize(
    ("kind", "hours"),
    [
        ("leisure_pool", 6),  # Swimming / diving
        ("diving_pool", 6),  # Swimming / diving
        ("activity_pool", 2),  # Activity pool
        ("splash_pad", 0.5),  # Interactive play attraction
        ("lap_pool", 6),  # Lap lanes
        ("lazy_river", 2),  # Leisure river
        ("plunge_pool", 1),  # Plunge
        ("runout_slide", 1),  # Runout slide
        ("vortex_pool", 1),  # Vortex pool
        ("wave_pool", 2),  # Wave pool
        ("cold_plunge", 4),  # Cold soak pool
        ("wading_pool", 1),  # Wading pool
        ("spa", 0.5),  # Whirlpool
    ],
)
def test_wisconsin_turnover_table(kind: str, hours: float) -> None:
    """Wisconsin SPS 390.14, Table 390.14-1."""
    is_value(WISCONSIN, "longest_turnover", hours * HOUR, kind)


@pytest.mark.parametrize(
    ("degrees", "gallons", "hours"),
    [
        (72, 2500, 4),
        (84, 2501, 4),
        (93, 9000, 4),
        (72, 2499, 2),
        (93, 451, 2),
        (84, 450, 1),
        (84, 449, 1),
        (93, 20, 1),
        (93.1, 9000, 0.5),
        (104, 20, 0.5),
        (71.9, 9000, None),
        (104.1, 9000, None),
    ],
)
def test_wisconsin_therapy_table(degrees: float, gallons: float, hours: float | None) -> None:
    """Wisconsin SPS 390.14, Table 390.14-2: water temperature in °F, gallons for each person of the posted load."""
    found = value_in_force(
        WISCONSIN, "longest_turnover", "therapy_pool", temperature=fahrenheit(degrees), volume_per_bather=gallons * GAL
    )
    assert found == (hours and pytest.approx(hours * HOUR))


def test_hot_therapy_water_needs_no_load() -> None:
    """Wisconsin SPS 390.14, Table 390.14-2: above 93 up to 104 °F, any load: 0.5 h."""
    is_value(WISCONSIN, "longest_turnover", 0.5 * HOUR, "therapy_pool", temperature=fahrenheit(98))
    assert value_in_force(WISCONSIN, "longest_turnover", "therapy_pool", temperature=fahrenheit(90)) is None


@pytest.mark.parametrize(
    ("kind", "hours"),
    [
        ("activity_pool", 2),
        ("diving_pool", 8),
        ("splash_pad", 0.5),
        ("lazy_river", 2),
        ("plunge_pool", 1),
        ("runout_slide", 1),
        ("wading_pool", 1),
        ("wave_pool", 2),
        ("spa", 0.5),
        # All other pools
        ("lap_pool", 4),
        ("leisure_pool", 4),
        ("vortex_pool", 4),
        ("surf_pool", 4),
        ("cold_plunge", 4),
        ("other", 4),
    ],
)
def test_model_code_turnover_from_memory(kind: str, hours: float) -> None:
    """Model Aquatic Health Code 4.7.1.10, table (memory)."""
    is_value(MODEL_CODE, "longest_turnover", hours * HOUR, kind)


@pytest.mark.parametrize(
    ("degrees", "gallons", "hours"),
    [(84, 2600, 4), (84, 2400, 2), (84, 460, 2), (84, 440, 1), (98, 2600, 0.5), (60, 2600, None), (106, 2600, None)],
)
def test_model_code_therapy_from_memory(degrees: float, gallons: float, hours: float | None) -> None:
    """Model Aquatic Health Code 4.7.1.10, therapy table (memory): > 2,500, > 450, < 450 gal a person."""
    found = value_in_force(
        MODEL_CODE, "longest_turnover", "therapy_pool", temperature=fahrenheit(degrees), volume_per_bather=gallons * GAL
    )
    assert found == (hours and pytest.approx(hours * HOUR))


@pytest.mark.parametrize(
    ("kind", "hours"),
    [
        ("diving_pool", 8),
        ("wading_pool", 2),
        ("plunge_pool", 2),
        ("lazy_river", 2),
        ("spa", 0.5),
        # Other pools
        ("lap_pool", 6),
        ("leisure_pool", 6),
        ("wave_pool", 6),
        ("other", 6),
        ("splash_pad", None),
        ("therapy_pool", None),
    ],
)
def test_illinois_turnover(kind: str, hours: float | None) -> None:
    """Illinois 77 IAC 820.210(a)."""
    assert value_in_force(ILLINOIS, "longest_turnover", kind) == (hours and pytest.approx(hours * HOUR))


def test_new_york_turnover() -> None:
    """New York 10 NYCRR 6-1.11(a): swimming pools built after 31 March 1973, 6 h."""
    is_value(NEW_YORK, "longest_turnover", 6 * HOUR, "lap_pool")
    assert value_in_force(NEW_YORK, "longest_turnover", "splash_pad") is None

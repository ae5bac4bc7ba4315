"""Rule sets that state a few limits, against the codes' own figures; the clause stands beside each."""

import pytest

from tests.rules.limits_in_force import (
    DAY,
    FT,
    GAL,
    GPM_PER_FT2,
    HOUR,
    LB,
    LOUISIANA,
    MINUTE,
    NORTH_CAROLINA,
    is_value,
    limit_in_force,
    value_in_force,
)

MARYLAND, INDIANA, WASHINGTON = "maryland-10-17-01-25", "indiana-675-20-2-17", "washington-246-260"
FRANCE, PIMA, COLUMBIA = "france-arrete-1981-2021", "pima-county-az-8-32-160", "district-of-columbia-25-c409"
FORT_WORTH, PUTNAM, SUNSET_CITY = "fort-worth-tx-16-503", "putnam-county-in-111-05", "sunset-city-ut-9-7-23"
COLORADO, CALIFORNIA, NEVADA = "colorado-5-ccr-1003-5", "california-22-65525", "nevada-444-160"
OREGON = "oregon-333-060-0505"


@pytest.mark.parametrize(
    ("code", "kind", "hours"),
    [
        # COMAR 10.17.01.25 B (2024): V(gal) over 480, 360, 120 and 30 min.
        (MARYLAND, "lap_pool", 480 / 60),
        (MARYLAND, "diving_pool", 480 / 60),
        (MARYLAND, "lazy_river", 360 / 60),
        (MARYLAND, "wave_pool", 360 / 60),
        (MARYLAND, "therapy_pool", 360 / 60),
        (MARYLAND, "wading_pool", 120 / 60),
        (MARYLAND, "spa", 30 / 60),
        # 675 IAC 20-2-17(b).
        (INDIANA, "diving_pool", 12),
        (INDIANA, "leisure_pool", 6),
        (INDIANA, "wading_pool", 1),
        (INDIANA, "wave_pool", 2),
        (INDIANA, "lazy_river", None),
        # WAC 246-260-071(4); 246-260-081(2)(e).
        (WASHINGTON, "wading_pool", 3),
        (WASHINGTON, "splash_pad", 0.5),
        (WASHINGTON, "lap_pool", None),
        # Pima County 8.32.160 A.
        (PIMA, "leisure_pool", 8),
        # D.C. 25-C409, Table 407.2 of ISPSC 2012.
        (COLUMBIA, "wading_pool", 1),
        (COLUMBIA, "lap_pool", 6),
        # NAC 444.484.
        (NEVADA, "spa", 0.5),
        (NEVADA, "lap_pool", None),
    ],
)
def test_turnover(code: str, kind: str, hours: float | None) -> None:
    assert value_in_force(code, "longest_turnover", kind) == (hours and pytest.approx(hours * HOUR))


@pytest.mark.parametrize(
    ("kind", "metres", "hours"),
    [
        ("diving_pool", 4.0, 8),
        ("wading_pool", 0.3, 0.5),
        ("leisure_pool", 1.5, 1.5),
        ("lap_pool", 1.51, 4),
        ("spa", 1.0, None),
    ],
)
def test_french_cycle_times(kind: str, metres: float, hours: float | None) -> None:
    """Order of 7 April 1981 (2021), art. 4 bis A: diving 8 h, paddling 30 min, else 1 h 30 to 1.50 m, 4 h deeper."""
    found = value_in_force(FRANCE, "longest_turnover", kind, depth=metres)
    assert found == (hours and pytest.approx(hours * HOUR))


def test_french_openings_and_night() -> None:
    """The same order: half the flow from the surface, a skimmer for 50 m² (25 m² paddling), 25 % less while closed."""
    is_value(FRANCE, "surface_share", 0.5, "leisure_pool")
    is_value(FRANCE, "area_per_skimmer", 50, "leisure_pool")
    is_value(FRANCE, "area_per_skimmer", 25, "wading_pool")
    is_value(FRANCE, "area_per_skimmer", 25, "spa")
    is_value(FRANCE, "night_flow", 0.75, "leisure_pool")


@pytest.mark.parametrize(("feet", "hours"), [(3.5, 5.25), (4.5, 6)])
def test_district_of_columbia_by_depth(feet: float, hours: float) -> None:
    """25-C409: 1.5 h for each foot of average depth, 6 h at most; worked by hand for two depths."""
    per_depth = value_in_force(COLUMBIA, "turnover_per_depth", "leisure_pool")
    longest = value_in_force(COLUMBIA, "longest_turnover", "leisure_pool")
    assert per_depth is not None and longest is not None
    assert min(per_depth * feet * FT, longest) == pytest.approx(hours * HOUR)


@pytest.mark.parametrize(
    ("code", "quantity", "kind", "value"),
    [
        (INDIANA, "velocity_pressure", "lap_pool", 10 * FT),  # 675 IAC 20-2-17(e)
        (INDIANA, "velocity_suction", "lap_pool", None),  # not read
        (WASHINGTON, "velocity_suction", "splash_pad", 6 * FT),  # WAC 246-260-081(4)(b)
        (WASHINGTON, "velocity_suction", "lap_pool", None),
        (WASHINGTON, "outlet_count", "splash_pad", 2),  # WAC 246-260-081(4)(c)
        (WASHINGTON, "outlet_spacing", "splash_pad", 3 * FT),
        (PIMA, "velocity_pressure", "lap_pool", 10 * FT),  # 8.32.160 B
        (PIMA, "velocity_suction", "lap_pool", 6 * FT),
        (PIMA, "strainer_ratio", "lap_pool", 4),  # 8.32.160 D
        (COLORADO, "perimeter_per_inlet", "lap_pool", 15 * FT),  # 5 CCR 1003-5-3.5: wall inlets 15 ft apart at most
        (CALIFORNIA, "night_flow", "lap_pool", 0.75),  # 22 CCR 65525(b): never below 75 % of the rate required
        (NORTH_CAROLINA, "inlet_count", "wading_pool", 2),  # 15A NCAC 18A .2531
        (NORTH_CAROLINA, "inlet_count", "lap_pool", None),
        (NORTH_CAROLINA, "greatest_depth", "wading_pool", 24 / 12 * FT),  # 15A NCAC 18A .2531
        (LOUISIANA, "greatest_depth", "wading_pool", 24 / 12 * FT),  # LAC 51:XXIV.321
        (LOUISIANA, "greatest_depth", "lap_pool", None),
        (OREGON, "flow_per_skimmer_most", "wading_pool", 45 * GAL / MINUTE),  # OAR 333-060-0505(1)(b)
        (PUTNAM, "secondary_required", "splash_pad", 1),  # 111.05 with 675 IAC 20-5-23
        (PUTNAM, "secondary_required", "leisure_pool", None),
        (SUNSET_CITY, "feed_per_volume", "lap_pool", 3 * LB / DAY / (10_000 * GAL)),  # 9-7-23: 1 lb in 8 h
    ],
)
def test_other_limits(code: str, quantity: str, kind: str, value: float | None) -> None:
    assert value_in_force(code, quantity, kind) == (value and pytest.approx(value, rel=1e-9))


def test_sunset_city_in_metric() -> None:
    """1 lb of chlorine in 8 h for 10,000 gal is 1.498 mg/L in an hour, by hand."""
    feed = value_in_force(SUNSET_CITY, "feed_per_volume")
    assert feed is not None
    assert feed * HOUR * 1000 == pytest.approx(1.498, abs=5e-4)


def test_spray_grounds_of_fort_worth() -> None:
    """Fort Worth 16-503(b)(3): high-rate sand 15, backwash 12 to 15, diatomaceous earth 2 with body feed, else 1.5."""
    sand = {"medium": "high_rate_sand"}
    is_value(FORT_WORTH, "filter_rate", 15 * GPM_PER_FT2, "splash_pad", **sand)
    is_value(FORT_WORTH, "backwash_rate_least", 12 * GPM_PER_FT2, "splash_pad", **sand)
    is_value(FORT_WORTH, "backwash_rate_most", 15 * GPM_PER_FT2, "splash_pad", **sand)
    is_value(FORT_WORTH, "filter_rate", 2 * GPM_PER_FT2, "splash_pad", medium="precoat", continuous_feed=True)
    is_value(FORT_WORTH, "filter_rate", 1.5 * GPM_PER_FT2, "splash_pad", medium="precoat", continuous_feed=False)
    assert limit_in_force(FORT_WORTH, "filter_rate", "lap_pool", **sand) is None

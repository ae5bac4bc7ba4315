"""Shipped limits against the figures printed in the codes; the clause stands beside each.

Figures marked "memory" in a heading were recalled: the test holds the program to what it says it recalls.
"""

import pytest

from tests.rules.limits_in_force import (
    AUSTRIA,
    DAY,
    FT,
    FT2,
    FULTON,
    GAL,
    GEORGIA,
    GPM_PER_FT2,
    HOUR,
    ILLINOIS,
    LB,
    LOUISIANA,
    MINUTE,
    MODEL_CODE,
    NEW_YORK,
    NORTH_CAROLINA,
    PRACTICE,
    UTAH,
    WICHITA,
    WISCONSIN,
    celsius,
    fahrenheit,
    is_value,
    limit_in_force,
    value_in_force,
)
from waterpark_designer.rules.condition import Fact

SAND, LAYERS, PRECOAT, CARTRIDGE, RAPID = (
    {"medium": medium} for medium in ("high_rate_sand", "two_layer", "precoat", "cartridge", "rapid_sand")
)
DEEP, SHALLOW = {"bed_depth": 15 * FT / 12}, {"bed_depth": 14.9 * FT / 12}
FED, UNFED = {"continuous_feed": True}, {"continuous_feed": False}
PRESSURE, VACUUM = {"pressure_vessel": True}, {"pressure_vessel": False}


@pytest.mark.parametrize(
    ("code", "facts", "rate"),
    [
        # Georgia 511-3-5-.08(1)(b): granular, bed >= 15 in / < 15 in; surface cartridge; vacuum and pressure precoat
        (GEORGIA, SAND | DEEP, 15),
        (GEORGIA, SAND | SHALLOW, 12),
        (GEORGIA, LAYERS | DEEP, 15),
        (GEORGIA, LAYERS | SHALLOW, 12),
        (GEORGIA, CARTRIDGE, 0.3),
        (GEORGIA, PRECOAT | VACUUM | UNFED, 2),
        (GEORGIA, PRECOAT | VACUUM | FED, 2.5),
        (GEORGIA, PRECOAT | PRESSURE | FED, 2),
        (GEORGIA, PRECOAT | PRESSURE | UNFED, 2),
        # Wisconsin SPS 390.14(10)(b): high-rate sand
        (WISCONSIN, SAND, 15),
        (WISCONSIN, CARTRIDGE, None),
        # New York 6-1.11(b), 6-3.11(b): sand, diatomaceous earth with and without body feed, cartridge
        (NEW_YORK, SAND, 15),
        (NEW_YORK, RAPID, 3),
        (NEW_YORK, PRECOAT | FED, 2),
        (NEW_YORK, PRECOAT | UNFED, 1.5),
        (NEW_YORK, CARTRIDGE, 0.375),
        (NEW_YORK, LAYERS, None),
        # Utah R392-302-23(4)(a): rapid-rate sand
        (UTAH, RAPID, 3),
        (UTAH, SAND, None),
        # Model Aquatic Health Code 4.7.2.2 to 4.7.2.4 (memory)
        (MODEL_CODE, SAND | DEEP, 15),
        (MODEL_CODE, SAND | SHALLOW, 12),
        (MODEL_CODE, LAYERS | DEEP, 15),
        (MODEL_CODE, LAYERS | SHALLOW, 12),
        (MODEL_CODE, PRECOAT | UNFED, 2),
        (MODEL_CODE, PRECOAT | FED, 2.5),
        (MODEL_CODE, CARTRIDGE, 0.3),
        # Common practice: 12 to 15 gpm/ft² is the usual ceiling for public pools
        (PRACTICE, SAND, 15),
        (PRACTICE, CARTRIDGE, None),
    ],
)
def test_filter_rates(code: str, facts: dict[str, Fact], rate: float | None) -> None:
    """Largest flow per filter area in gpm/ft²."""
    expected = rate and pytest.approx(rate * GPM_PER_FT2, rel=1e-12)
    assert value_in_force(code, "filter_rate", "leisure_pool", **facts) == expected
    assert value_in_force(code, "filter_rate", "splash_pad", **facts) == expected


@pytest.mark.parametrize(
    ("facts", "kind", "rate"),
    [
        (LAYERS, "leisure_pool", 40),
        (LAYERS | {"temperature": celsius(35), "salinity": 1.0}, "leisure_pool", 40),
        (LAYERS | {"temperature": celsius(35.1)}, "leisure_pool", 25),  # water above 35 °C
        (LAYERS, "spa", 25),  # whirlpools
        (LAYERS | {"salinity": 1.01}, "leisure_pool", 25),  # more than 1 g/L of sodium chloride
        (SAND, "leisure_pool", None),  # the clause is for two-layer filters
    ],
)
def test_austrian_filter_velocity(facts: dict[str, Fact], kind: str, rate: float | None) -> None:
    """BHygV 2012 § 28(2), with the salt water of § 2; metres an hour."""
    found = value_in_force(AUSTRIA, "filter_rate", kind, **facts)
    assert found == (rate and pytest.approx(rate / HOUR, rel=1e-12))


@pytest.mark.parametrize(
    ("code", "facts", "least", "most"),
    [
        (NEW_YORK, SAND, 12, 15),
        (NEW_YORK, RAPID, 12, 15),  # 6-1.11(b): 12 to 15 gpm/ft²
        (UTAH, RAPID, 15, None),  # R392-302-23(4)(e)
        (ILLINOIS, SAND, 15, None),
        (ILLINOIS, RAPID, 15, None),  # 820.210(b)(2)
        (MODEL_CODE, SAND, 15, None),  # 4.7.2.2 (memory)
        (PRACTICE, SAND, 15, 20),  # common practice: 15 to 20 gpm/ft²
        (GEORGIA, SAND, None, None),
        (NEW_YORK, CARTRIDGE, None, None),
        (ILLINOIS, PRECOAT, None, None),
    ],
)
def test_backwash_rates(code: str, facts: dict[str, Fact], least: float | None, most: float | None) -> None:
    """Backwash flow per bed area in gpm/ft²."""
    for quantity, rate in (("backwash_rate_least", least), ("backwash_rate_most", most)):
        assert value_in_force(code, quantity, None, **facts) == (rate and pytest.approx(rate * GPM_PER_FT2))


@pytest.mark.parametrize(
    "code",
    [
        UTAH,  # R392-302-24(1)(b)
        MODEL_CODE,  # 4.7.3.2 (memory)
    ],
)
@pytest.mark.parametrize(("setting", "pounds"), [("outdoor", 4.0), ("indoor", 2.5)])
def test_feed_capacity_by_volume(code: str, setting: str, pounds: float) -> None:
    """Pounds of free available chlorine a day for each 10,000 gal."""
    is_value(code, "feed_per_volume", pounds * LB / DAY / (10_000 * GAL), "leisure_pool", setting=setting)


@pytest.mark.parametrize(("setting", "grams_a_day_per_cubic_metre"), [("outdoor", 47.9), ("indoor", 30.0)])
def test_feed_capacity_in_metric(setting: str, grams_a_day_per_cubic_metre: float) -> None:
    """Utah R392-302-24(1)(b) worked into grams a day for each cubic metre, to three figures."""
    found = value_in_force(UTAH, "feed_per_volume", "lap_pool", setting=setting)
    assert found is not None
    assert found * DAY * 1000 == pytest.approx(grams_a_day_per_cubic_metre, abs=0.05)


def test_feed_capacity_by_flow() -> None:
    """Fulton County Code 34-582(b): at least 12 ppm into the circulation flow; 1 ppm is 1 g/m³."""
    is_value(FULTON, "feed_per_flow", 0.012)
    assert value_in_force(GEORGIA, "feed_per_flow") is None


@pytest.mark.parametrize(
    ("kind", "square_feet"),
    [
        ("lap_pool", 20),
        ("leisure_pool", 20),
        ("wading_pool", 20),
        ("diving_pool", 20),
        ("cold_plunge", 20),  # flat
        ("activity_pool", 15),
        ("lazy_river", 15),
        ("wave_pool", 15),
        ("vortex_pool", 15),  # agitated
        ("spa", 10),
        ("therapy_pool", 10),  # hot
        ("splash_pad", 10),  # interactive water play
        ("plunge_pool", None),
        ("runout_slide", None),
        ("surf_pool", None),  # capacity of the manufacturer
    ],
)
def test_model_code_occupancy_from_memory(kind: str, square_feet: float | None) -> None:
    """Model Aquatic Health Code 4.1.2.3.5 (memory)."""
    expected = square_feet and pytest.approx(square_feet * FT2)
    assert value_in_force(MODEL_CODE, "area_per_bather", kind) == expected


@pytest.mark.parametrize(("feet", "square_feet"), [(3, 15), (5, 15), (5.1, 20), (12, 20)])
def test_louisiana_area_for_each_user(feet: float, square_feet: float) -> None:
    """Louisiana LAC 51:XXIV.319, minimum deck: shallow 15, deep 20 ft²."""
    is_value(LOUISIANA, "area_per_bather", square_feet * FT2, "lap_pool", depth=feet * FT)


def test_north_carolina_tank_of_interactive_play() -> None:
    """15A NCAC 18A .2543(d)(1): 3 min and 1,000 gal; above 10,000 gal, 7.5 gal for each ft² of splash zone."""
    is_value(NORTH_CAROLINA, "tank_feature_time", 3 * MINUTE, "splash_pad")
    is_value(NORTH_CAROLINA, "tank_least_volume", 1000 * GAL, "splash_pad")
    is_value(NORTH_CAROLINA, "tank_large_volume", 10_000 * GAL, "splash_pad")
    is_value(NORTH_CAROLINA, "tank_volume_per_area", 7.5 * GAL / FT2, "splash_pad")
    assert value_in_force(NORTH_CAROLINA, "tank_least_volume", "leisure_pool") is None


def test_wichita_tank_of_water_features() -> None:
    """Wichita Code 7.72.191(2), (3): 4,000 gal, three minutes' flow of all pumps; turnover 30 min."""
    is_value(WICHITA, "tank_least_volume", 4000 * GAL, "splash_pad")
    is_value(WICHITA, "tank_feature_time", 3 * MINUTE, "splash_pad")
    is_value(WICHITA, "longest_turnover", 30 * MINUTE, "splash_pad")
    assert value_in_force(WICHITA, "tank_volume_per_area", "splash_pad") is None


def test_north_carolina_slide_landing_and_wading_pool() -> None:
    """15A NCAC 18A .2543(b): landing below 60,000 gal, 2 h; .2531(a)(3): wading pool, 12 turnovers in 24 h."""
    is_value(NORTH_CAROLINA, "longest_turnover", 2 * HOUR, "plunge_pool", volume=59_999 * GAL)
    assert value_in_force(NORTH_CAROLINA, "longest_turnover", "plunge_pool", volume=60_000 * GAL) is None
    is_value(NORTH_CAROLINA, "longest_turnover", DAY / 12, "wading_pool")


@pytest.mark.parametrize(
    ("code", "kind", "required"),
    [
        (WISCONSIN, "leisure_pool", 1.0),
        (WISCONSIN, "wading_pool", 1.0),  # 390.14(2): each basin
        (NORTH_CAROLINA, "wading_pool", 1.0),
        (NORTH_CAROLINA, "leisure_pool", None),  # .2531
        (GEORGIA, "wading_pool", None),
    ],
)
def test_system_of_its_own(code: str, kind: str, required: float | None) -> None:
    assert value_in_force(code, "separate_system", kind) == required


def test_flow_given_to_features() -> None:
    """Wisconsin SPS 390.14(3): 10 % of the required circulation; model code 4.7.1.10 (memory): 3 to 1."""
    is_value(WISCONSIN, "feature_share", 0.10, "leisure_pool")
    is_value(MODEL_CODE, "feature_ratio", 3.0, "splash_pad")
    assert value_in_force(MODEL_CODE, "feature_ratio", "leisure_pool") is None


@pytest.mark.parametrize(("metres", "square_metres"), [(0.4, 3), (1.35, 3), (1.36, 5), (2.5, 5)])
def test_austrian_load_factor(metres: float, square_metres: float) -> None:
    """BHygV 2012 § 15(3): f = 3 up to 1.35 m of depth, 5 above."""
    is_value(AUSTRIA, "load_area", square_metres, "leisure_pool", depth=metres)


@pytest.mark.parametrize(("treatment", "load"), [("none", 0.5), ("ultraviolet", 0.5), ("ozone", 0.6)])
def test_austrian_specific_load(treatment: str, load: float) -> None:
    """BHygV 2012 § 15(4): b = 0.6 for the ozone train, 0.5 for the standard trains."""
    is_value(AUSTRIA, "load_per_water", load, "lap_pool", secondary=treatment)


def test_austrian_flow_of_the_older_rule() -> None:
    """Bäderhygieneverordnung, older text, § 11: N = A/f, Q = A/(f b), so 312.5 m² of shallow water takes 208.3 m³/h."""
    load_area = value_in_force(AUSTRIA, "load_area", "leisure_pool", depth=1.2)
    load = value_in_force(AUSTRIA, "load_per_water", "leisure_pool", secondary="none")
    assert load_area is not None and load is not None
    assert 312.5 / (load_area * load) == pytest.approx(208.3, abs=0.05)


def test_austrian_therapy_basin() -> None:
    """BHygV 2012 § 20(1), (3): 1 m³/h for each m² with the standard trains, never below 16 m³/h."""
    is_value(AUSTRIA, "flow_per_surface", 1 / HOUR, "therapy_pool", secondary="none")
    is_value(AUSTRIA, "flow_per_surface", 1 / HOUR, "therapy_pool", secondary="ultraviolet")
    assert value_in_force(AUSTRIA, "flow_per_surface", "therapy_pool", secondary="ozone") is None
    is_value(AUSTRIA, "least_basin_flow", 16 / HOUR, "therapy_pool")
    assert value_in_force(AUSTRIA, "load_area", "therapy_pool", depth=1.2) is None
    assert value_in_force(AUSTRIA, "least_basin_flow", "leisure_pool") is None


@pytest.mark.parametrize(
    ("degrees", "square_metres", "hours"), [(33, 40.1, 2), (33, 40, 1), (33, 12, 1), (32, 40.1, None), (28, 12, None)]
)
def test_austrian_warm_basin(degrees: float, square_metres: float, hours: float | None) -> None:
    """BHygV 2012 § 18(2), (3): above 32 °C, 2 h above 40 m² of surface, else 1 h."""
    for kind in ("leisure_pool", "therapy_pool"):
        found = value_in_force(AUSTRIA, "longest_turnover", kind, temperature=celsius(degrees), area=square_metres)
        assert found == (hours and pytest.approx(hours * HOUR))


@pytest.mark.parametrize(("metres", "flow"), [(0.5, 5), (1, 5), (1.5, 35), (1.99, 35), (2, 60), (12, 60)])
def test_austrian_slide_surcharge(metres: float, flow: float) -> None:
    """BHygV 2012 § 22(4): start height up to 1 m 5, 1 to 2 m 35, from 2 m 60 m³/h."""
    is_value(AUSTRIA, "surcharge_slide", flow / HOUR, "leisure_pool", start_height=metres)


def test_austrian_surcharges_by_place_and_area() -> None:
    """BHygV 2012 § 22(2), (3): 3 m³/h a place, 5 above 32 °C; 60 m³/h for each large-area feature."""
    is_value(AUSTRIA, "surcharge_per_place", 3 / HOUR, "leisure_pool", temperature=celsius(32))
    is_value(AUSTRIA, "surcharge_per_place", 5 / HOUR, "leisure_pool", temperature=celsius(32.1))
    is_value(AUSTRIA, "surcharge_large_area", 60 / HOUR, "leisure_pool")


@pytest.mark.parametrize(
    "code",
    [
        GEORGIA,  # 511-3-5-.16(2)(a): increased-risk pools
        MODEL_CODE,  # 4.7.3.3.2 (memory): therapy, wading, interactive water play, for children under 5
    ],
)
def test_secondary_disinfection(code: str) -> None:
    for kind in ("therapy_pool", "wading_pool", "splash_pad"):
        is_value(code, "secondary_required", 1.0, kind, small_children=False)
    is_value(code, "secondary_required", 1.0, "leisure_pool", small_children=True)
    assert value_in_force(code, "secondary_required", "leisure_pool", small_children=False) is None


def test_secondary_treatment_of_the_model_code_from_memory() -> None:
    """Model Aquatic Health Code 4.7.3.3.2 (memory): 3-log in one pass; the lesser of 9 h and 75 % of closed time."""
    is_value(MODEL_CODE, "secondary_log", 3.0)
    is_value(MODEL_CODE, "secondary_longest_time", 9 * HOUR)
    is_value(MODEL_CODE, "secondary_closed_share", 0.75)


def test_water_of_the_model_code_from_memory() -> None:
    """Model Aquatic Health Code 4.7.4: 4 gal (15 L) a bather; 4.7.1.5: 1 gal/ft² (40.7 L/m²) of surge (memory)."""
    replaced = value_in_force(MODEL_CODE, "replacement_per_bather")
    surge = value_in_force(MODEL_CODE, "surge_per_area")
    assert replaced == pytest.approx(0.015, abs=0.0005)
    assert surge == pytest.approx(0.0407, abs=0.00005)


@pytest.mark.parametrize(
    ("code", "quantity", "kind"),
    [
        (GEORGIA, "longest_turnover", "therapy_pool"),
        (GEORGIA, "longest_turnover", "surf_pool"),
        (GEORGIA, "area_per_bather", "leisure_pool"),
        (GEORGIA, "feed_per_volume", "leisure_pool"),
        (GEORGIA, "tank_least_volume", "splash_pad"),
        (WISCONSIN, "longest_turnover", "surf_pool"),
        (WISCONSIN, "longest_turnover", "other"),
        (WISCONSIN, "area_per_bather", "lap_pool"),
        (UTAH, "longest_turnover", "lap_pool"),
        (NEW_YORK, "area_per_bather", "lap_pool"),
        (AUSTRIA, "longest_turnover", "lap_pool"),
        (AUSTRIA, "load_area", "spa"),
        (AUSTRIA, "load_area", "splash_pad"),
        (AUSTRIA, "feed_per_volume", "lap_pool"),
        (MODEL_CODE, "turnover_per_depth", "lap_pool"),
        (MODEL_CODE, "area_per_bather", "other"),
        (PRACTICE, "longest_turnover", "lap_pool"),
        (PRACTICE, "tank_feature_time", "splash_pad"),
    ],
)
def test_silence_where_the_code_says_nothing(code: str, quantity: str, kind: str) -> None:
    facts: dict[str, Fact] = {
        "temperature": fahrenheit(84),
        "depth": 1.2,
        "area": 300.0,
        "volume": 360.0,
        "volume_per_bather": 3.0,
        "salinity": 0.0,
        "setting": "outdoor",
        "secondary": "none",
        "small_children": False,
        "medium": "high_rate_sand",
        "bed_depth": 0.6,
        "continuous_feed": False,
        "pressure_vessel": True,
        "start_height": 3.0,
    }
    assert limit_in_force(code, quantity, kind, **facts) is None

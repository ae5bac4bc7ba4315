"""Units: factors against pint's registry, what can be typed, what is shown."""

import math
import random
import subprocess
import sys

import pytest

from waterpark_designer import units as u
from waterpark_designer.units import MEASURES, Measure, Unit, UnitSystem, UnreadableQuantity

US, SI = UnitSystem.US, UnitSystem.SI
PAPER_UNITS = [
    pytest.param(measure, unit, id=f"{measure.name}, {unit.symbol}")
    for measure in MEASURES
    for unit in dict.fromkeys((measure.metric, measure.us))
    if unit.name
]
# In the water trade 1 ppm is 1 mg/L; pint takes ppm as a pure number.
IN_PINT = {"ppm": "milligram/liter"}


@pytest.mark.parametrize(("measure", "unit"), PAPER_UNITS)
def test_factor_and_offset_agree_with_pint(measure: Measure, unit: Unit) -> None:
    spelled = IN_PINT.get(unit.name, unit.name)
    si = measure.si.replace("²", "^2").replace("³", "^3").replace("·", "*")
    for shown in (0.0, 1.0, 37.5, 12_345.0):
        expected = u.registry().Quantity(shown, spelled).m_as("" if si == "1" else si)
        assert unit.to_si(shown) == pytest.approx(expected, rel=1e-12, abs=1e-15)
        assert unit.from_si(expected) == pytest.approx(shown, rel=1e-12, abs=1e-9)


def test_every_measure_with_a_dimension_is_checked_against_pint() -> None:
    unchecked = {measure.name for measure in MEASURES if not measure.metric.name or not measure.us.name}
    assert unchecked == {"ratio", "coefficient", "count", "bathers", "bags", "money"}
    assert all(measure.metric.factor == 1.0 for measure in MEASURES if measure.name in unchecked)


@pytest.mark.parametrize(
    ("measure", "text", "si"),
    [
        # Exact definitions: inch 25.4 mm, US gallon 231 in³, pound 0.453 592 37 kg (NIST SP 811, appendix B).
        (u.LENGTH, "18 in", 0.4572),
        (u.LENGTH, "3 x 25 yd", 68.58),
        (u.LENGTH, "3x25yd", 68.58),
        (u.LENGTH, "6 ft 3 in", 1.905),
        (u.LENGTH, "6 feet 3 inches", 1.905),
        (u.LENGTH, "6 ft-3 in", 1.905),
        (u.LENGTH, "5'6\"", 1.6764),
        (u.LENGTH, "5'-6\"", 1.6764),
        (u.LENGTH, "5'6", 1.6764),
        (u.LENGTH, "5′6″", 1.6764),
        (u.LENGTH, "5’ 6”", 1.6764),
        (u.LENGTH, "-5'6\"", -1.6764),
        (u.LENGTH, "5 ft 3/4 in", 1.54305),
        (u.LENGTH, "5 ft - 6 in", 1.3716),
        (u.LENGTH, "1 1/2 in", 0.0381),
        (u.LENGTH, "1-1/2 in", 0.0381),
        (u.LENGTH, "1½ in", 0.0381),
        (u.LENGTH, "3 m - 1/2 m", 2.5),
        (u.LENGTH, "3/4 in - 1/2 in", 0.00635),
        (u.LENGTH, "1e3 mm * 2", 2.0),
        (u.LENGTH, " (2 + 3) m ", 5.0),
        (u.AREA, "10 m x 20 m", 200.0),
        (u.AREA, "100 sq ft", 9.290304),
        (u.AREA, "100 ft2", 9.290304),
        (u.AREA, "100 sqft", 9.290304),
        (u.VOLUME, "1,000 gal", 3.785411784),
        (u.FLOW, "600 m3/h", 600 / 3600),
        (u.FLOW, "600 m³/h", 600 / 3600),
        (u.FLOW, "500 GPM", 500 * 3.785411784e-3 / 60),
        (u.FLOW, "10,000 gal / 6 h", 37.85411784 / 21600),
        (u.FILTER_RATE, "15 gpm/ft2", 15 * 3.785411784e-3 / 60 / 0.09290304),
        (u.TEMPERATURE, "82 degF", 300.9277777777778),
        (u.TEMPERATURE, "82°F", 300.9277777777778),
        (u.TEMPERATURE, "82 F", 300.9277777777778),
        (u.TEMPERATURE, "28C", 301.15),
        (u.TEMPERATURE, "-5 degC", 268.15),
        (u.TEMPERATURE, "−5 °C", 268.15),
        (u.SALINITY, "3,200 ppm", 3.2),
        (u.SALINITY, "3.2 g/L", 3.2),
        (u.MASS, "40 lbs", 18.1436948),
        (u.HOURS, "90 min", 5400.0),
        (u.HOURS, "1 h 30 min", 5400.0),
        (u.SHARE, "75%", 0.75),
        (u.SHARE, "2 x 7.5 %", 0.15),
        (u.SHARE, "(10 + 5) %", 0.15),
        (u.SHARE, "10 % + 5 %", 0.15),
        (u.SLOPE, "1/4 in/ft", 0.25 / 12),
        (u.SALINITY, "0.32 %", 3.2),
        (u.SALINITY, "3.2 ‰", 3.2),
        (u.SALINITY, "3.2 ppt", 3.2),
        (u.LENGTH, "12 FT 6 IN", 3.81),
        (u.FLOW, "600 M3/H", 600 / 3600),
        (u.FLOW, "0.9 MGD", 0.9e6 * 3.785411784e-3 / 86400),
        (u.VOLUME, "500 US gal", 1.892705892),
        (u.VOLUME, "100 imperial gallons", 0.454609),
        (u.FEED_PER_VOLUME, "4 lb/day per 10,000 gal", 4 * 0.45359237 / 86400 / 37.85411784),
        (u.BATHER_LOAD, "0.5 per m3", 0.5),
    ],
)
def test_reads_quantity_with_its_unit_in_either_system(measure: Measure, text: str, si: float) -> None:
    assert measure.read(text, US) == pytest.approx(si, rel=1e-12)
    assert measure.read(text, SI) == pytest.approx(si, rel=1e-12)


@pytest.mark.parametrize(
    ("measure", "text", "us", "si"),
    [
        (u.LENGTH, "1,200", 365.76, 1200.0),
        (u.LENGTH, "2 * 3.5", 2.1336, 7.0),
        (u.LENGTH, "5-1/2", 1.6764, 5.5),
        (u.LENGTH, ".5", 0.1524, 0.5),
        (u.TEMPERATURE, "82", 300.9277777777778, 355.15),
        (u.SHARE, "50", 0.5, 0.5),
        (u.COUNT, "12", 12.0, 12.0),
        (u.MONEY, "1,234.50", 1234.5, 1234.5),
    ],
)
def test_bare_number_is_in_the_unit_on_screen(measure: Measure, text: str, us: float, si: float) -> None:
    assert measure.read(text, US) == pytest.approx(us, rel=1e-12)
    assert measure.read(text, SI) == pytest.approx(si, rel=1e-12)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "  ",
        "ft",
        "abc",
        "nan",
        "inf",
        "1.5.2",
        "1:30",
        "1;2",
        "[5]",
        "5 #",
        "$5",
        "1 << 9",
        "5 == 5",
        "1_000",
        "1j",
        "lambda: 5",
        "sqrt(2)",
        "__import__('os')",
        "open('x')",
        "9^9^9^9",
        "9**9",
        "(9**9)**4 m",
        "((9)^4)^4 m",
        "(" * 60,
        "1" + "+1" * 80,
        "5 ±2 m",
        "2 m % 3",
        "5 / 0 m",
    ],
)
def test_refuses_what_is_no_quantity(text: str) -> None:
    with pytest.raises(UnreadableQuantity, match="cannot be read. Type a number in ft, or with its unit."):
        u.LENGTH.read(text, US)


@pytest.mark.parametrize("text", ["6 ft 3", "5 6 in", "1 200 m", "3 m 2", "25 yd 3 ft", "2 (3 m)", "5\n6"])
def test_numbers_side_by_side_are_never_multiplied(text: str) -> None:
    for measure in (u.LENGTH, u.AREA):
        with pytest.raises(UnreadableQuantity, match="cannot be read"):
            measure.read(text, US)


@pytest.mark.parametrize("text", ["1.200,5", "1,2", "12,34,567", "1,5 m"])
def test_decimal_comma_is_refused_with_advice(text: str) -> None:
    with pytest.raises(UnreadableQuantity, match="Write decimals with a point, such as 1.5"):
        u.LENGTH.read(text, SI)


@pytest.mark.parametrize("text", ["1e400", "-1e400", "1e400 m", "1e308 * 1e308"])
def test_number_too_large_is_refused(text: str) -> None:
    with pytest.raises(UnreadableQuantity, match="not a number to design with"):
        u.LENGTH.read(text, US)
    with pytest.raises(UnreadableQuantity):
        u.quantity("1e400 m", u.LENGTH)


@pytest.mark.parametrize(
    ("measure", "text", "named"),
    [
        (u.LENGTH, "5 gal", "length"),
        (u.FLOW, "5 m", "flow"),
        (u.AREA, "3 ft", "area"),
        (u.TEMPERATURE, "3 ft", "temperature"),
        (u.COUNT, "3 m", "count"),
        (u.LENGTH, "5 - 1/2 m", "length"),
        (u.LENGTH, "5 %", "length"),
        (u.LENGTH, "10 ft / 2 ft", "length"),
        (u.FLOW, "2 x 5 %", "flow"),
    ],
)
def test_wrong_dimension_is_refused_by_name(measure: Measure, text: str, named: str) -> None:
    with pytest.raises(UnreadableQuantity, match=f"does not measure {named}"):
        measure.read(text, US)


def test_long_entry_is_refused_without_being_repeated() -> None:
    with pytest.raises(UnreadableQuantity) as refusal:
        u.LENGTH.read("9" * 100_000 + " parsecs and a half", US)
    assert len(str(refusal.value)) < 150


@pytest.mark.parametrize(("text", "measure"), [("5", u.LENGTH), ("75", u.SHARE), ("2", u.HOURS)])
def test_resource_file_must_state_the_unit(text: str, measure: Measure) -> None:
    with pytest.raises(UnreadableQuantity):
        u.quantity(text, measure)


def test_resource_file_may_spell_a_unit_its_own_way() -> None:
    assert u.quantity("120 minutes", u.HOURS) == pytest.approx(7200.0)
    assert u.quantity("3", u.RATIO) == 3.0


@pytest.mark.parametrize(
    ("measure", "si", "system", "shown"),
    [
        (u.VOLUME, 3.785411784e-3 * 123_456, US, "123,500 gal"),
        (u.VOLUME, 467.33, SI, "467.3 m³"),
        (u.LENGTH, 0.4572, US, "1.50 ft"),
        (u.LENGTH, 1.0 / 3, SI, "0.33 m"),
        (u.FLOW, 0.0315451, US, "500 gpm"),
        (u.HOURS, 7200.0, US, "2.00 h"),
        (u.HOURS, 5400.0, SI, "1.50 h"),
        (u.FILTER_RATE, 99.96 / 3600, SI, "100 m/h"),
        (u.FILTER_RATE, 0.3 * 6.790972e-4, US, "0.300 gpm/ft²"),
        (u.TEMPERATURE, 300.9277777777778, US, "82.0 °F"),
        (u.TEMPERATURE, 273.15, SI, "0 °C"),
        (u.SHARE, 0.9502, SI, "95.0 %"),
        (u.COUNT, 1_234_567.0, SI, "1,234,567"),
        (u.BATHERS, 240.0, US, "240 bathers"),
        (u.SALINITY, 3.2, US, "3,200 ppm"),
        (u.MOTOR_POWER, 10 * u.HORSEPOWER, US, "10 hp"),
        (u.MOTOR_POWER, 7.5 * u.HORSEPOWER, US, "7.5 hp"),
        (u.MOTOR_POWER, 750.0, SI, "0.75 kW"),
        (u.MOTOR_POWER, 110e3, SI, "110 kW"),
        (u.nominal(u.SMALL_VOLUME), 500 * u.GALLON, US, "500 gal"),
        (u.nominal(u.AREA), 4.9 * u.FOOT**2, US, "4.9 ft²"),
    ],
)
def test_shown_as_a_practitioner_writes_it(measure: Measure, si: float, system: UnitSystem, shown: str) -> None:
    assert measure.phrase(si, system) == shown


@pytest.mark.parametrize("measure", MEASURES, ids=lambda measure: measure.name)
def test_shown_number_has_no_more_figures_than_its_unit_allows(measure: Measure) -> None:
    rng = random.Random(8)
    for unit in (measure.metric, measure.us):
        for _ in range(200):
            shown = 10 ** rng.uniform(-3, 7)
            text = unit.text(unit.to_si(shown)).replace(",", "")
            figures = text.replace(".", "").lstrip("0").rstrip("0")
            assert len(figures) <= unit.significant
            assert len(text.partition(".")[2]) <= unit.decimals
            before_point = max(math.floor(math.log10(shown)) + 1, 0)
            slack = 0.5 * 10 ** -min(unit.decimals, unit.significant - before_point)
            assert abs(float(text) - shown) <= slack * 1.0001


def test_heads_are_read_from_pressures_as_gauges_show_them() -> None:
    # The handbook's 2.31 ft of water to a psi; 1 bar is 10.197 m of water at 1,000 kg/m³ and 9.80665 m/s².
    assert u.HEAD.read("10 psi", US) / u.FOOT == pytest.approx(23.1, abs=0.05)
    assert u.HEAD.read("0.5 bar", SI) == pytest.approx(5.0986, abs=1e-4)
    with pytest.raises(UnreadableQuantity, match="does not measure length"):
        u.LENGTH.read("10 psi", US)


def test_what_was_typed_claims_no_more_than_was_typed() -> None:
    written = [u.nominal(u.LENGTH).text(feet * u.FOOT, US) for feet in (90, 140, 7.5, 0.333, 1200)]
    assert written == ["90", "140", "7.5", "0.33", "1,200"]


def test_not_a_number_is_shown_as_a_dash() -> None:
    assert u.LENGTH.phrase(math.nan, SI) == "– m"
    assert u.LENGTH.text(math.inf, US) == "–"


def test_small_negative_number_is_not_shown_as_minus_nothing() -> None:
    assert not u.LENGTH.text(-1e-6, SI).startswith("-")


@pytest.mark.parametrize("measure", MEASURES, ids=lambda measure: measure.name)
def test_entry_text_reads_back_the_same(measure: Measure) -> None:
    rng = random.Random(8)
    for system in UnitSystem:
        for _ in range(100):
            value = measure.unit(system).to_si(10 ** rng.uniform(-3, 8))
            again = measure.read(measure.entry_text(value, system), system)
            assert again == pytest.approx(value, rel=1e-9)


def test_entry_text_shows_what_was_typed() -> None:
    assert u.TEMPERATURE.entry_text(u.TEMPERATURE.read("82 degF", SI), US) == "82"
    assert u.TEMPERATURE.entry_text(u.TEMPERATURE.read("0 degF", SI), US) == "0"
    assert u.LENGTH.entry_text(u.LENGTH.read("18 in", SI), US) == "1.5"
    assert u.SHARE.entry_text(0.1, SI) == "10"


def test_measure_is_found_in_annotations() -> None:
    assert u.measure_of(u.Length) is u.LENGTH
    assert u.measure_of(u.Flow | None) is u.FLOW
    assert u.measure_of(float) is None


def test_units_of_the_program_are_read_without_loading_pint() -> None:
    code = (
        "import sys; from waterpark_designer import units as u\n"
        "for measure in u.MEASURES:\n"
        "    for system in u.UnitSystem: measure.read('2 ' + measure.symbol(system), system)\n"
        "assert 'pint' not in sys.modules\n"
        "u.LENGTH.read('18 in', u.UnitSystem.US)\n"
        "assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)

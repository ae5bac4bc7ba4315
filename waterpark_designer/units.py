"""Units on paper and SI inside: the only module that knows pint.

Inside the program every number is an SI float. A `Measure` is a kind of quantity: it knows the unit it
is shown in, metric and US customary, and how many figures a practitioner would write. Showing needs only
the factors below; pint is loaded the first time somebody types a unit or an arithmetic expression.
"""

import functools
import math
import re
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, Any, get_args, get_origin


class UnitSystem(StrEnum):
    """The two ways to put a number on paper."""

    US = "us"
    SI = "si"

    @property
    def label(self) -> str:
        return "US customary" if self is UnitSystem.US else "SI (metric)"


class UnreadableQuantity(ValueError):
    """What was typed cannot be read as a quantity of this measure; says what would be right."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit on paper: value_SI = shown * factor + offset.

    `decimals` is the most decimals shown, `significant` the most significant figures.
    """

    symbol: str
    name: str
    factor: float
    decimals: int = 1
    significant: int = 4
    offset: float = 0.0

    def to_si(self, shown: float) -> float:
        return shown * self.factor + self.offset

    def from_si(self, value: float) -> float:
        return (value - self.offset) / self.factor

    def text(self, value: float) -> str:
        """The SI value as a practitioner writes it in this unit, without the unit."""
        shown = self.from_si(value)
        if not math.isfinite(shown):
            return "–"
        rounded = self._rounded(self._rounded(shown))
        places = self._places(rounded)
        text = f"{rounded:,.{max(places, 0)}f}"
        return "0" if shown == 0 else text

    def _rounded(self, shown: float) -> float:
        """Rounded to the figures shown; twice, where rounding up brings a figure before the point."""
        return round(shown, self._places(shown)) + 0.0

    def _places(self, shown: float) -> int:
        before_point = len(str(int(abs(shown)))) if abs(shown) >= 1 else 0
        return min(self.decimals, self.significant - before_point)


@dataclass(frozen=True, slots=True, eq=False)
class Measure:
    """A kind of quantity: its SI unit inside, its units on paper."""

    name: str
    si: str
    metric: Unit
    us: Unit

    def unit(self, system: UnitSystem) -> Unit:
        return self.us if system is UnitSystem.US else self.metric

    def symbol(self, system: UnitSystem) -> str:
        return self.unit(system).symbol

    def shown(self, value: float, system: UnitSystem) -> float:
        """The number on paper, unrounded."""
        return self.unit(system).from_si(value)

    def text(self, value: float, system: UnitSystem) -> str:
        """Rounded number on paper, without its unit."""
        return self.unit(system).text(value)

    def phrase(self, value: float, system: UnitSystem) -> str:
        """Rounded number on paper with its unit."""
        unit = self.unit(system)
        return f"{unit.text(value)} {unit.symbol}".rstrip()

    def entry_text(self, value: float, system: UnitSystem) -> str:
        """The number as an entry field shows it: what was typed, not what a schedule would round to."""
        shown = self.unit(system).from_si(value)
        return "0" if abs(shown) < NOISE else f"{shown:.10g}"

    def read(self, text: str, system: UnitSystem) -> float:
        """SI value of what was typed; a bare number is in the unit on screen.

        Raises UnreadableQuantity with a message that says what would be right.
        """
        value = _read_plainly(text, self, self.unit(system))
        if value is None:
            value = _read_expression(text, self, system)
        if not math.isfinite(value):
            raise UnreadableQuantity(f"“{text[:40]}” is not a number to design with.")
        return value


NOISE = 1e-9
"""What is left of nothing when a temperature goes through its offset."""

THOUSANDS = re.compile(r"(?<![\d.,])\d{1,3}(,\d{3})+(?![\d,])")

FOOT = 0.3048
INCH = 0.0254
GALLON = 231 * INCH**3
POUND = 0.45359237
MINUTE = 60.0
HOUR = 3600.0
DAY = 86400.0
ZERO_CELSIUS = 273.15
STANDARD_GRAVITY = 9.80665


def _measure(name: str, si: str, metric: Unit, us: Unit | None = None) -> Measure:
    return Measure(name, si, metric, us or metric)


LENGTH = _measure("length", "m", Unit("m", "meter", 1.0, 2), Unit("ft", "foot", FOOT, 2))
SMALL_LENGTH = _measure(
    "size", "m", Unit("mm", "millimeter", 1e-3, 1), Unit("in", "inch", INCH, 2))
AREA = _measure("area", "m²", Unit("m²", "meter^2", 1.0, 1), Unit("ft²", "foot^2", FOOT**2, 1))
VOLUME = _measure("volume", "m³", Unit("m³", "meter^3", 1.0, 1), Unit("gal", "gallon", GALLON, 0))
SMALL_VOLUME = _measure("volume", "m³", Unit("L", "liter", 1e-3, 1), Unit("gal", "gallon", GALLON, 1))
FLOW = _measure(
    "flow", "m³/s", Unit("m³/h", "meter^3/hour", 1 / HOUR, 1), Unit("gpm", "gpm", GALLON / MINUTE, 0))
DAILY_VOLUME = _measure(
    "volume a day", "m³/s", Unit("L/d", "liter/day", 1e-3 / DAY, 0),
    Unit("gal/d", "gallon/day", GALLON / DAY, 1))
HOURS = _measure("time", "s", Unit("h", "hour", HOUR, 2, 3))
MINUTES = _measure("time", "s", Unit("min", "minute", MINUTE, 1, 3))
DAYS = _measure("time", "s", Unit("d", "day", DAY, 1, 4))
TEMPERATURE = _measure(
    "temperature", "K", Unit("°C", "degree_Celsius", 1.0, 1, 4, ZERO_CELSIUS),
    Unit("°F", "degree_Fahrenheit", 5 / 9, 1, 4, ZERO_CELSIUS - 32 * 5 / 9))
SALINITY = _measure(
    "salinity", "kg/m³", Unit("mg/L", "milligram/liter", 1e-3, 0, 5), Unit("ppm", "ppm", 1e-3, 0, 5))
CONCENTRATION = _measure(
    "concentration", "kg/m³", Unit("mg/L", "milligram/liter", 1e-3, 2, 3), Unit("ppm", "ppm", 1e-3, 2, 3))
FILTER_RATE = _measure(
    "filter rate", "m/s", Unit("m/h", "meter/hour", 1 / HOUR, 2, 3),
    Unit("gpm/ft²", "gpm/foot^2", GALLON / MINUTE / FOOT**2, 3, 3))
MASS = _measure("mass", "kg", Unit("kg", "kilogram", 1.0, 1), Unit("lb", "pound", POUND, 1))
MASS_RATE = _measure(
    "mass a day", "kg/s", Unit("kg/d", "kilogram/day", 1 / DAY, 2, 4),
    Unit("lb/d", "pound/day", POUND / DAY, 1, 4))
MASS_PER_AREA = _measure(
    "mass per area", "kg/m²", Unit("kg/m²", "kilogram/meter^2", 1.0, 2, 3),
    Unit("lb/ft²", "pound/foot^2", POUND / FOOT**2, 3, 3))
FEED_PER_VOLUME = _measure(
    "feed per volume", "kg/(s·m³)", Unit("g/d per m³", "gram/day/meter^3", 1e-3 / DAY, 1, 3),
    Unit("lb/d per 10,000 gal", "pound/day/ten_thousand_gallons", POUND / DAY / (1e4 * GALLON), 2, 3))
MASS_PER_BATHER = _measure("mass per bather", "kg", Unit("g", "gram", 1e-3, 1, 3))
VOLUME_PER_AREA = _measure(
    "volume per area", "m", Unit("L/m²", "liter/meter^2", 1e-3, 1, 3),
    Unit("gal/ft²", "gallon/foot^2", GALLON / FOOT**2, 2, 3))
TIME_PER_DEPTH = _measure(
    "time per depth", "s/m", Unit("h/m", "hour/meter", HOUR, 2, 3),
    Unit("h/ft", "hour/foot", HOUR / FOOT, 2, 3))
AIR_FLOW = _measure(
    "air flow", "m³/s", Unit("m³/h", "meter^3/hour", 1 / HOUR, 2, 3),
    Unit("cfm", "foot^3/minute", FOOT**3 / MINUTE, 2, 3))
BATHER_LOAD = _measure("bathers per water", "1/m³", Unit("per m³", "1/meter^3", 1.0, 2, 3))
GAS_PER_MASS = _measure(
    "gas per mass", "m³/kg", Unit("L/kg", "liter/kilogram", 1e-3, 1, 4),
    Unit("ft³/lb", "foot^3/pound", FOOT**3 / POUND, 2, 4))
VOLUME_TIME = _measure(
    "volume times time", "m³·s", Unit("m³·h", "meter^3*hour", HOUR, 1),
    Unit("gal·h", "gallon*hour", GALLON * HOUR, 0))
SHARE = _measure("share", "1", Unit("%", "percent", 0.01, 1, 4))
RATIO = _measure("ratio", "1", Unit("", "", 1.0, 2, 4))
COUNT = _measure("count", "1", Unit("", "", 1.0, 0, 15))
BATHERS = _measure("bathers", "1", Unit("bathers", "", 1.0, 0, 15))
BAGS = _measure("bags", "1", Unit("bags", "", 1.0, 0, 15))
MONEY = _measure("money", "1", Unit("", "", 1.0, 2, 15))

MEASURES: tuple[Measure, ...] = tuple(value for value in [*globals().values()] if isinstance(value, Measure))

Length = Annotated[float, LENGTH]
SmallLength = Annotated[float, SMALL_LENGTH]
Area = Annotated[float, AREA]
Volume = Annotated[float, VOLUME]
SmallVolume = Annotated[float, SMALL_VOLUME]
Flow = Annotated[float, FLOW]
DailyVolume = Annotated[float, DAILY_VOLUME]
Hours = Annotated[float, HOURS]
Minutes = Annotated[float, MINUTES]
Days = Annotated[float, DAYS]
Temperature = Annotated[float, TEMPERATURE]
Salinity = Annotated[float, SALINITY]
Concentration = Annotated[float, CONCENTRATION]
FilterRate = Annotated[float, FILTER_RATE]
Mass = Annotated[float, MASS]
MassRate = Annotated[float, MASS_RATE]
MassPerArea = Annotated[float, MASS_PER_AREA]
FeedPerVolume = Annotated[float, FEED_PER_VOLUME]
MassPerBather = Annotated[float, MASS_PER_BATHER]
VolumePerArea = Annotated[float, VOLUME_PER_AREA]
TimePerDepth = Annotated[float, TIME_PER_DEPTH]
AirFlow = Annotated[float, AIR_FLOW]
BatherLoad = Annotated[float, BATHER_LOAD]
GasPerMass = Annotated[float, GAS_PER_MASS]
VolumeTime = Annotated[float, VOLUME_TIME]
Share = Annotated[float, SHARE]
Ratio = Annotated[float, RATIO]
Count = Annotated[float, COUNT]
Bathers = Annotated[float, BATHERS]
Bags = Annotated[float, BAGS]
Money = Annotated[float, MONEY]


def measure_of(annotation: Any) -> Measure | None:
    """The Measure in an annotation such as `Length`, `Length | None` or `Annotated[Length, …]`."""
    if get_origin(annotation) is Annotated:
        for item in annotation.__metadata__:
            if isinstance(item, Measure):
                return item
    for inner in get_args(annotation):
        found = inner if isinstance(inner, Measure) else measure_of(inner)
        if found is not None:
            return found
    return None


NUMBER_AND_UNIT = re.compile(r"\s*([-+]?(?:\d[\d,]*\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)\s*(.*?)\s*")


def quantity(text: str, measure: Measure) -> float:
    """SI value of a number written with its unit in a resource file, such as "2 h" or "15 gpm/ft²".

    Quick for the units of this module, through pint for any other. Raises UnreadableQuantity.
    """
    value = _read_plainly(text, measure, None)
    if value is None:
        value = _read_expression(text, measure, None)
    if not math.isfinite(value):
        raise UnreadableQuantity(f"“{text[:40]}” is not a number to design with.")
    return value


def _read_plainly(text: str, measure: Measure, bare: Unit | None) -> float | None:
    """SI value of a number with one of the measure's own units, or with none where `bare` is given."""
    match = NUMBER_AND_UNIT.fullmatch(text)
    if not match:
        return None
    number, symbol = match.groups()
    if "," in _without_thousands(number):
        return None
    try:
        shown = float(_without_thousands(number))
    except ValueError:
        return None
    for unit in (measure.metric, measure.us):
        if symbol in (unit.symbol, unit.name):
            return (bare if not symbol and bare else unit).to_si(shown)
    return bare.to_si(shown) if bare and not symbol else None


def _without_thousands(text: str) -> str:
    return THOUSANDS.sub(lambda match: match.group().replace(",", ""), text)


LONGEST_EXPRESSION = 120
SPELLINGS = (
    ("×", "*"), ("·", "*"), ("÷", "/"), ("−", "-"), ("²", "^2"), ("³", "^3"), ("½", " 1/2"), ("¼", " 1/4"),
    ("¾", " 3/4"), ("°C", " degC"), ("°F", " degF"), ("µ", "u"), ("%", " percent "),
    ("′", "'"), ("’", "'"), ("″", '"'), ("”", '"'),
    # In the water trade a part per million is a milligram per litre.
    ("ppm", " milligram/liter "),
)
MIXED_FRACTION = re.compile(r"(?<![\d./])(\d+)(?: +|-)(\d+/\d+)")
INCHES = r"([\d.]+|\([\d./+]+\)|\d+/\d+)"
FEET_AND_INCHES = (
    re.compile(rf"([\d.]+)\s*(?:ft|foot|feet)(?:-|\s*){INCHES}\s*(?:in|inch|inches|\")(?![A-Za-z])"),
    re.compile(rf"([\d.]+)\s*'(?:-|\s*){INCHES}(?:\s*(?:in|inch|inches)\b|\s*\"|(?=\s*$))"),
)
TIMES = re.compile(r"(?<=[\d\s)])\s*[xX]\s*(?=[\d\s(])")
PER = re.compile(r"\bper\b")
UNIT_OVER_QUANTITY = re.compile(r"(?<=[A-Za-z])((?:\^[23])?\s*)/\s*([\d.]+\s*[A-Za-z]+)")
GLUED_EXPONENT = re.compile(r"(?<=[A-Za-z])(?<!\d[eE])([23])\b")
TOKEN = re.compile(
    r"\s*(?:(?P<number>(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)|(?P<name>[^\W\d_]\w*)"
    r"|(?P<power>(?:\^|\*\*)-?[1-4](?![\d.]))|(?P<sign>[-+*/()]))\s*")
DEGREES = {"F": "degF", "C": "degC"}


@functools.cache
def registry() -> Any:
    """The pint registry, made on first need with what the water trade writes and pint does not know."""
    import pint

    made: Any = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    for definition in (
        "gpm = gallon / minute = _ = GPM",
        "gph = gallon / hour = _ = GPH",
        "gpd = gallon / day = _ = GPD",
        "cfs = foot ** 3 / second",
        "cfm = foot ** 3 / minute",
        "cmh = meter ** 3 / hour",
        "ten_thousand_gallons = 10000 * gallon",
        "@alias square_foot = sqft",
        "@alias cubic_foot = cuft",
        "@alias yard = yds",
    ):
        made.define(definition)
    return made


def _read_expression(text: str, measure: Measure, system: UnitSystem | None) -> float:
    """SI value of an expression with units or arithmetic, read by pint."""
    example = measure.us if system is UnitSystem.US else measure.metric
    advice = f"Type a number in {example.symbol}, or with its unit" if example.symbol else "Type a number"
    unreadable = UnreadableQuantity(f"“{text[:40]}” cannot be read. {advice}.")
    if "," in _without_thousands(text):
        raise UnreadableQuantity(f"“{text[:40]}” cannot be read. Write decimals with a point, such as 1.5.")
    expression = _arithmetic(_spelled_for_pint(text)) if len(text) <= LONGEST_EXPRESSION else None
    if expression is None:
        raise unreadable
    import tokenize

    import pint

    try:
        typed = registry().Quantity(expression)
        if typed.unitless and system is not None:
            return measure.unit(system).to_si(float(typed.m_as("")))
        if typed.unitless and measure.metric.symbol:
            raise unreadable
        return float(typed.m_as(_pint_unit(measure)))
    except pint.DimensionalityError:
        raise UnreadableQuantity(f"“{text[:40]}” does not measure {measure.name}. {advice}.") from None
    except (pint.PintError, tokenize.TokenError, AttributeError, TypeError, ValueError, ZeroDivisionError,
            OverflowError, SyntaxError, KeyError, AssertionError, RecursionError):
        raise unreadable from None


def _spelled_for_pint(text: str) -> str:
    text = _without_thousands(text.strip())
    for written, read in SPELLINGS:
        text = text.replace(written, read)
    text = MIXED_FRACTION.sub(r"(\1+\2)", text)
    for feet_and_inches in FEET_AND_INCHES:
        text = feet_and_inches.sub(r"(\1 foot + \2 inch)", text)
    text = text.replace("'", " foot ").replace('"', " inch ")
    text = PER.sub("/", GLUED_EXPONENT.sub(r"^\1", TIMES.sub(" * ", text)))
    return UNIT_OVER_QUANTITY.sub(r"\1/(\2)", text)


def _arithmetic(text: str) -> str | None:
    """The expression, where it is arithmetic on numbers with units; else None.

    pint takes two numbers side by side for a product and leaves out signs it does not know, so "5 ft 6"
    would be 30 ft. Powers are for units alone.
    """
    parts: list[str] = []
    before, at = "", 0
    while at < len(text):
        token = TOKEN.match(text, at)
        if token is None or not _may_follow(token, before):
            return None
        parts.append(DEGREES.get(token[0].strip(), token[0].strip()))
        before, at = token["sign"] or token.lastgroup or "", token.end()
    return " ".join(parts) if any(part[-1:].isdigit() for part in parts) else None


def _may_follow(token: re.Match[str], before: str) -> bool:
    """Whether a token may stand after the one before, told by its kind, or by itself where it is a sign."""
    if token.lastgroup == "number" or token["sign"] == "(":
        return before not in ("number", "name", "power", ")")
    return before == "name" if token.lastgroup == "power" else True


def _pint_unit(measure: Measure) -> str:
    """The SI unit of a measure in pint's spelling."""
    return measure.si.replace("²", "^2").replace("³", "^3").replace("·", "*") if measure.si != "1" else ""

"""Units on paper and SI inside: the only module that knows pint.

Inside the program every number is an SI float. A `Measure` is a kind of quantity: it knows the unit it
is shown in, metric and US customary, and how many figures a practitioner would write. Showing needs only
the factors below; pint is loaded the first time somebody types a unit or an arithmetic expression.
"""

import functools
import math
import re
from dataclasses import dataclass, replace
from typing import Annotated, Any, get_args, get_origin

from waterpark_designer.expressions import UNITS_OF_THE_TRADE, arithmetic, without_thousands
from waterpark_designer.paper_units import Unit, UnitSystem


class UnreadableQuantity(ValueError):
    """What was typed cannot be read as a quantity of this measure; says what would be right."""


@dataclass(frozen=True, slots=True, eq=False)
class Measure:
    """A kind of quantity: its SI unit inside, its units on paper."""

    name: str
    si: str
    metric: Unit
    us: Unit

    @property
    def is_money(self) -> bool:
        return self.name == "money"

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
            value = _read_in_any_case(text, self, system)
        if not math.isfinite(value):
            raise UnreadableQuantity(f"“{text[:40]}” is not a number to design with.")
        return value


NOISE = 1e-9
"""What is left of nothing when a temperature goes through its offset."""

FOOT = 0.3048
INCH = 0.0254
GALLON = 231 * INCH**3
POUND = 0.45359237
MINUTE = 60.0
HOUR = 3600.0
DAY = 86400.0
ZERO_CELSIUS = 273.15
WATER_BY_CONVENTION = 1000.0
"""Kilograms in a cubic metre, by which a share by mass is one by volume, as in 1 ppm = 1 mg/L."""
STANDARD_GRAVITY = 9.80665
POUND_FORCE = POUND * STANDARD_GRAVITY
PSI = POUND_FORCE / INCH**2
HORSEPOWER = 550 * FOOT * POUND_FORCE


def _measure(name: str, si: str, metric: Unit, us: Unit | None = None) -> Measure:
    return Measure(name, si, metric, us or metric)


@functools.cache
def nominal(measure: Measure) -> Measure:
    """The measure for what is chosen or typed, not reckoned: written without zeros at the end, as 500 for 500.0."""
    metric, us = (replace(measure.unit(system), nominal=True) for system in (UnitSystem.SI, UnitSystem.US))
    return replace(measure, metric=metric, us=us)


LENGTH = _measure("length", "m", Unit("m", "meter", 1.0, 2), Unit("ft", "foot", FOOT, 2))
HEAD = _measure("head", "m", Unit("m", "meter", 1.0, 2, 3), Unit("ft", "foot", FOOT, 1))
SMALL_LENGTH = _measure("size", "m", Unit("mm", "millimeter", 1e-3, 1), Unit("in", "inch", INCH, 2))
AREA = _measure("area", "m²", Unit("m²", "meter^2", 1.0, 1), Unit("ft²", "foot^2", FOOT**2, 1))
VOLUME = _measure("volume", "m³", Unit("m³", "meter^3", 1.0, 1), Unit("gal", "gallon", GALLON, 0))
SMALL_VOLUME = _measure("volume", "m³", Unit("L", "liter", 1e-3, 1), Unit("gal", "gallon", GALLON, 1))
FLOW = _measure("flow", "m³/s", Unit("m³/h", "meter^3/hour", 1 / HOUR, 1), Unit("gpm", "gpm", GALLON / MINUTE, 0))
SMALL_FLOW = _measure("flow", "m³/s", Unit("m³/h", "meter^3/hour", 1 / HOUR, 2), Unit("gpm", "gpm", GALLON / MINUTE, 1))
DAILY_VOLUME = _measure(
    "volume a day", "m³/s", Unit("L/d", "liter/day", 1e-3 / DAY, 0), Unit("gal/d", "gallon/day", GALLON / DAY, 1)
)
HOURS = _measure("time", "s", Unit("h", "hour", HOUR, 2, 3))
MINUTES = _measure("time", "s", Unit("min", "minute", MINUTE, 1, 3))
DAYS = _measure("time", "s", Unit("d", "day", DAY, 1, 4))
TEMPERATURE = _measure(
    "temperature",
    "K",
    Unit("°C", "degree_Celsius", 1.0, 1, 4, ZERO_CELSIUS),
    Unit("°F", "degree_Fahrenheit", 5 / 9, 1, 4, ZERO_CELSIUS - 32 * 5 / 9),
)
SALINITY = _measure("salinity", "kg/m³", Unit("mg/L", "milligram/liter", 1e-3, 0, 5), Unit("ppm", "ppm", 1e-3, 0, 5))
CONCENTRATION = _measure(
    "concentration", "kg/m³", Unit("mg/L", "milligram/liter", 1e-3, 2, 3), Unit("ppm", "ppm", 1e-3, 2, 3)
)
FILTER_RATE = _measure(
    "filter rate",
    "m/s",
    Unit("m/h", "meter/hour", 1 / HOUR, 2, 3),
    Unit("gpm/ft²", "gpm/foot^2", GALLON / MINUTE / FOOT**2, 3, 3),
)
MASS = _measure("mass", "kg", Unit("kg", "kilogram", 1.0, 1), Unit("lb", "pound", POUND, 1))
MASS_RATE = _measure(
    "mass a day", "kg/s", Unit("kg/d", "kilogram/day", 1 / DAY, 2, 4), Unit("lb/d", "pound/day", POUND / DAY, 1, 4)
)
MASS_PER_AREA = _measure(
    "mass per area",
    "kg/m²",
    Unit("kg/m²", "kilogram/meter^2", 1.0, 2, 3),
    Unit("lb/ft²", "pound/foot^2", POUND / FOOT**2, 3, 3),
)
FEED_PER_VOLUME = _measure(
    "feed per volume",
    "kg/(s·m³)",
    Unit("g/d per m³", "gram/day/meter^3", 1e-3 / DAY, 1, 3),
    Unit("lb/d per 10,000 gal", "pound/day/ten_thousand_gallons", POUND / DAY / (1e4 * GALLON), 2, 3),
)
MASS_PER_BATHER = _measure("mass per bather", "kg", Unit("g", "gram", 1e-3, 1, 3))
VOLUME_PER_AREA = _measure(
    "volume per area",
    "m",
    Unit("L/m²", "liter/meter^2", 1e-3, 1, 3),
    Unit("gal/ft²", "gallon/foot^2", GALLON / FOOT**2, 2, 3),
)
TIME_PER_DEPTH = _measure(
    "time per depth", "s/m", Unit("h/m", "hour/meter", HOUR, 2, 3), Unit("h/ft", "hour/foot", HOUR / FOOT, 2, 3)
)
AIR_FLOW = _measure(
    "air flow",
    "m³/s",
    Unit("m³/h", "meter^3/hour", 1 / HOUR, 2, 3),
    Unit("cfm", "foot^3/minute", FOOT**3 / MINUTE, 2, 3),
)
BATHER_LOAD = _measure("bathers per water", "1/m³", Unit("per m³", "1/meter^3", 1.0, 2, 3))
GAS_PER_MASS = _measure(
    "gas per mass",
    "m³/kg",
    Unit("L/kg", "liter/kilogram", 1e-3, 1, 4),
    Unit("ft³/lb", "foot^3/pound", FOOT**3 / POUND, 2, 4),
)
VOLUME_TIME = _measure(
    "volume times time", "m³·s", Unit("m³·h", "meter^3*hour", HOUR, 1), Unit("gal·h", "gallon*hour", GALLON * HOUR, 0)
)
SMALL_AREA = _measure("size of opening", "m²", Unit("cm²", "centimeter^2", 1e-4, 1), Unit("in²", "inch^2", INCH**2, 2))
GRAIN_SIZE = _measure("grain size", "m", Unit("mm", "millimeter", 1e-3, 2))
ROUGHNESS = _measure("roughness", "m", Unit("mm", "millimeter", 1e-3, 4), Unit("in", "inch", INCH, 6, 6))
SLOPE = _measure("slope", "1", Unit("m/km", "meter/kilometer", 1e-3, 3), Unit("ft/1,000 ft", "foot/kilofoot", 1e-3, 3))
SECONDS = _measure("time", "s", Unit("s", "second", 1.0, 2))
VELOCITY = _measure("velocity", "m/s", Unit("m/s", "meter/second", 1.0, 2), Unit("ft/s", "foot/second", FOOT, 2))
ACCELERATION = _measure(
    "acceleration", "m/s²", Unit("m/s²", "meter/second^2", 1.0, 3), Unit("ft/s²", "foot/second^2", FOOT, 2)
)
FLOW_PER_LENGTH = _measure(
    "flow per length",
    "m²/s",
    Unit("m³/h per m", "meter^3/hour/meter", 1 / HOUR, 2),
    Unit("gpm/ft", "gpm/foot", GALLON / MINUTE / FOOT, 1),
)
PRESSURE = _measure("pressure", "Pa", Unit("kPa", "kilopascal", 1e3, 1), Unit("psi", "psi", PSI, 2))
STIFFNESS = _measure("stiffness", "Pa", Unit("GPa", "gigapascal", 1e9, 2), Unit("ksi", "ksi", 1e3 * PSI, 0))
SPRAY_COEFFICIENT = _measure(
    "spray coefficient",
    "m³/(s·Pa^0.5)",
    Unit("L/min/√bar", "liter/minute/bar^0.5", 1e-3 / MINUTE / 1e5**0.5, 2),
    Unit("gpm/√psi", "gpm/psi^0.5", GALLON / MINUTE / PSI**0.5, 2),
)
FORCE = _measure("force", "N", Unit("N", "newton", 1.0, 0), Unit("lbf", "force_pound", POUND_FORCE, 1))
POWER = _measure("power", "W", Unit("kW", "kilowatt", 1e3, 2), Unit("hp", "horsepower", HORSEPOWER, 2))
MOTOR_POWER = nominal(POWER)
ELECTRIC_POWER = _measure("electric power", "W", Unit("kW", "kilowatt", 1e3, 2))
ENERGY = _measure("energy", "J", Unit("kWh", "kilowatt_hour", 1e3 * HOUR, 1))
ENERGY_PRICE = _measure("price of energy", "1/J", Unit("per kWh", "1/kilowatt_hour", 1 / (1e3 * HOUR), 3))
CURRENT = _measure("current", "A", Unit("A", "ampere", 1.0, 1))
VOLTAGE = _measure("voltage", "V", Unit("V", "volt", 1.0, 0))
DENSITY = _measure(
    "density", "kg/m³", Unit("kg/m³", "kilogram/meter^3", 1.0, 1), Unit("lb/ft³", "pound/foot^3", POUND / FOOT**3, 2)
)
VISCOSITY = _measure(
    "viscosity", "Pa·s", Unit("mPa·s", "millipascal*second", 1e-3, 3), Unit("cP", "centipoise", 1e-3, 3)
)
KINEMATIC_VISCOSITY = _measure(
    "kinematic viscosity", "m²/s", Unit("mm²/s", "millimeter^2/second", 1e-6, 3), Unit("cSt", "centistokes", 1e-6, 3)
)
SHARE = _measure("share", "1", Unit("%", "percent", 0.01, 1, 4))
RATIO = _measure("ratio", "1", Unit("", "", 1.0, 2, 4))
COEFFICIENT = _measure("coefficient", "1", Unit("", "", 1.0, 4))
COUNT = _measure("count", "1", Unit("", "", 1.0, 0, 15))
BATHERS = _measure("bathers", "1", Unit("bathers", "", 1.0, 0, 15))
BAGS = _measure("bags", "1", Unit("bags", "", 1.0, 0, 15))
MONEY = _measure("money", "1", Unit("", "", 1.0, 2, 15))
WHOLE_MONEY = _measure("money", "1", Unit("", "", 1.0, 0, 15))

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
SmallArea = Annotated[float, SMALL_AREA]
GrainSize = Annotated[float, GRAIN_SIZE]
Roughness = Annotated[float, ROUGHNESS]
Slope = Annotated[float, SLOPE]
Seconds = Annotated[float, SECONDS]
Velocity = Annotated[float, VELOCITY]
Acceleration = Annotated[float, ACCELERATION]
FlowPerLength = Annotated[float, FLOW_PER_LENGTH]
Pressure = Annotated[float, PRESSURE]
Head = Annotated[float, HEAD]
Stiffness = Annotated[float, STIFFNESS]
SprayCoefficient = Annotated[float, SPRAY_COEFFICIENT]
Force = Annotated[float, FORCE]
Power = Annotated[float, POWER]
ElectricPower = Annotated[float, ELECTRIC_POWER]
Energy = Annotated[float, ENERGY]
EnergyPrice = Annotated[float, ENERGY_PRICE]
Current = Annotated[float, CURRENT]
Voltage = Annotated[float, VOLTAGE]
Density = Annotated[float, DENSITY]
Viscosity = Annotated[float, VISCOSITY]
KinematicViscosity = Annotated[float, KINEMATIC_VISCOSITY]
Share = Annotated[float, SHARE]
Ratio = Annotated[float, RATIO]
Coefficient = Annotated[float, COEFFICIENT]
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
    number, symbol = without_thousands(match[1]), match[2]
    if "," in number:
        return None
    shown = float(number)
    for unit in (measure.metric, measure.us):
        if symbol in (unit.symbol, unit.name):
            return (bare if not symbol and bare else unit).to_si(shown)
    return bare.to_si(shown) if bare and not symbol else None


@functools.cache
def registry() -> Any:
    """The pint registry, made on first need with what the water trade writes and pint does not know."""
    import pint

    made: Any = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    for definition in UNITS_OF_THE_TRADE:
        made.define(definition)
    return made


def _read_in_any_case(text: str, measure: Measure, system: UnitSystem) -> float:
    """SI value of an expression whose units may stand in capitals, as draughtsmen write them."""
    try:
        return _read_expression(text, measure, system)
    except UnreadableQuantity:
        if text == text.lower():
            raise
        return _read_expression(text.lower(), measure, system)


def _read_expression(text: str, measure: Measure, system: UnitSystem | None) -> float:
    """SI value of an expression with units or arithmetic, read by pint."""
    example = measure.us if system is UnitSystem.US else measure.metric
    advice = f"Type a number in {example.symbol}, or with its unit" if example.symbol else "Type a number"
    unreadable = UnreadableQuantity(f"“{text[:40]}” cannot be read. {advice}.")
    if "," in without_thousands(text):
        raise UnreadableQuantity(f"“{text[:40]}” cannot be read. Write decimals with a point, such as 1.5.")
    expression = arithmetic(text)
    if expression is None:
        raise unreadable
    import tokenize

    import pint

    try:
        typed = registry().Quantity(expression)
        if not any(part[0].isalpha() for part in expression.split()):
            if system is None and measure.metric.symbol:
                raise unreadable
            return measure.unit(system or UnitSystem.SI).to_si(float(typed.m_as("")))
        if typed.unitless and measure in (SALINITY, CONCENTRATION):
            return float(typed.m_as("")) * WATER_BY_CONVENTION
        if measure is HEAD and typed.check("[pressure]"):
            return float(typed.m_as("Pa")) / (WATER_BY_CONVENTION * STANDARD_GRAVITY)
        return float(typed.m_as(_pint_unit(measure)))
    except pint.DimensionalityError:
        raise UnreadableQuantity(f"“{text[:40]}” does not measure {measure.name}. {advice}.") from None
    except (
        pint.PintError,
        tokenize.TokenError,
        AttributeError,
        TypeError,
        ValueError,
        ZeroDivisionError,
        OverflowError,
        SyntaxError,
        KeyError,
        AssertionError,
        RecursionError,
    ):
        raise unreadable from None


def _pint_unit(measure: Measure) -> str:
    """The SI unit of a measure in pint's spelling."""
    return measure.si.replace("²", "^2").replace("³", "^3").replace("·", "*") if measure.si != "1" else ""

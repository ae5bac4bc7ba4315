"""Quantities as people type them, such as “18 1/2 in” or “3 x 25 yd”, respelled as plain arithmetic."""

import re

THOUSANDS = re.compile(r"(?<![\d.,])\d{1,3}(,\d{3})+(?![\d,])")
LONGEST_EXPRESSION = 120
SPELLINGS = (
    ("×", "*"),
    ("·", "*"),
    ("÷", "/"),
    ("−", "-"),
    ("²", "^2"),
    ("³", "^3"),
    ("½", " 1/2"),
    ("¼", " 1/4"),
    ("¾", " 3/4"),
    ("°C", " degC"),
    ("°F", " degF"),
    ("µ", "u"),
    ("%", " percent "),
    ("‰", " permille "),
    ("′", "'"),
    ("’", "'"),
    ("″", '"'),
    ("”", '"'),
    # In the water trade a part per million is a milligram per litre, and one per thousand a gram.
    ("ppm", " milligram/liter "),
    ("ppt", " gram/liter "),
    ("US gal", "gal"),
    ("imperial gal", "imperial_gal"),
)
UNITS_OF_THE_TRADE = (
    "gpm = gallon / minute = _ = GPM",
    "gph = gallon / hour = _ = GPH",
    "gpd = gallon / day = _ = GPD",
    "cfs = foot ** 3 / second",
    "cfm = foot ** 3 / minute",
    "cmh = meter ** 3 / hour",
    "MGD = 1000000 * gallon / day = _ = mgd",
    "ten_thousand_gallons = 10000 * gallon",
    "@alias square_foot = sqft",
    "@alias cubic_foot = cuft",
    "@alias yard = yds",
)
"""What the water trade writes and pint does not know, as pint is told of it."""
MIXED_FRACTION = re.compile(r"(?<![\d./])(\d+)(?: +|-)(\d+/\d+)")
INCHES = r"([\d.]+|\([\d./+]+\)|\d+/\d+)"
FEET_AND_INCHES = (
    re.compile(rf"([\d.]+)\s*(?:ft|foot|feet)(?:-|\s*){INCHES}\s*(?:in|inch|inches|\")(?![A-Za-z])"),
    re.compile(rf"([\d.]+)\s*'(?:-|\s*){INCHES}(?:\s*(?:in|inch|inches)\b|\s*\"|(?=\s*$))"),
)
HOURS_AND_MINUTES = re.compile(r"([\d.]+)\s*(?:h|hr|hrs|hour|hours)\s*([\d.]+)\s*(?:min|minute|minutes)\b")
TIMES = re.compile(r"(?<=[\d\s)])\s*[xX]\s*(?=[\d\s(])")
PER = re.compile(r"\bper\b")
UNIT_OVER_QUANTITY = re.compile(r"(?<=[A-Za-z])((?:\^[23])?\s*)/\s*([\d.]+\s*[A-Za-z]+)")
GLUED_EXPONENT = re.compile(r"(?<=[A-Za-z])(?<!\d[eE])([23])\b")
TOKEN = re.compile(
    r"\s*(?:(?P<number>(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)|(?P<name>[^\W\d_]\w*)"
    r"|(?P<power>(?:\^|\*\*)-?[1-4](?![\d.]))|(?P<sign>[-+*/()]))\s*"
)
DEGREES = {"F": "degF", "C": "degC"}


def arithmetic(text: str) -> str | None:
    """The expression as pint reads it, where it is arithmetic on numbers with units; else None.

    pint takes two numbers side by side for a product and leaves out signs it does not know, so "5 ft 6"
    would be 30 ft. Powers are for units alone.
    """
    if len(text) > LONGEST_EXPRESSION:
        return None
    text = _spelled_for_pint(text)
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


def _spelled_for_pint(text: str) -> str:
    text = without_thousands(text.strip())
    for written, read in SPELLINGS:
        text = text.replace(written, read)
    text = MIXED_FRACTION.sub(r"(\1+\2)", text)
    for feet_and_inches in FEET_AND_INCHES:
        text = feet_and_inches.sub(r"(\1 foot + \2 inch)", text)
    text = HOURS_AND_MINUTES.sub(r"(\1 hour + \2 minute)", text)
    text = text.replace("'", " foot ").replace('"', " inch ")
    text = PER.sub("/", GLUED_EXPONENT.sub(r"^\1", TIMES.sub(" * ", text)))
    return UNIT_OVER_QUANTITY.sub(r"\1/(\2)", text)


def without_thousands(text: str) -> str:
    """The text with “1,234” written 1234."""
    return THOUSANDS.sub(lambda match: match.group().replace(",", ""), text)

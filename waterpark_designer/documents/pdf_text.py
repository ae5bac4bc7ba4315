"""Text on paper: the fonts, what they cannot show, how wide words are, and where lines break."""

import functools
import itertools
import unicodedata
from collections.abc import Iterator

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.cidfonts import UnicodeCIDFont
from reportlab.pdfbase.ttfonts import TTFont

from waterpark_designer.documents.scripts import east_asian_font, joined
from waterpark_designer.documents.stylesheet import BOLD, REGULAR, TextStyle
from waterpark_designer.resources import resources_folder
from waterpark_designer.units import MEASURES

UNIT_SIGNS = frozenset(
    unit.symbol.split()[0] for measure in MEASURES for unit in (measure.metric, measure.us) if unit.symbol
)
NOMINAL_DIAMETER = "DN"
REPLACEMENT = "□"
"""Stands for a character that no font has, so that its absence is seen."""


@functools.cache
def font(name: str) -> TTFont:
    """A font of the program's own, embedded in every document that uses it."""
    made = TTFont(name, str(resources_folder() / "fonts" / f"{name}.ttf"))
    pdfmetrics.registerFont(made)
    return made


def load_fonts() -> None:
    """Make both fonts known to the writer."""
    font(REGULAR)
    font(BOLD)


def printable(text: str, style: TextStyle) -> str:
    """The text with its letters joined, and a visible sign for every character that no font has."""
    if text.isascii() and text.isprintable():
        return text
    known = font(style.font).face.charToGlyph
    spaced = (" " if unicodedata.category(sign) == "Cc" else sign for sign in unicodedata.normalize("NFC", text))
    has = (sign if ord(sign) in known or sign == " " or east_asian_font(sign) else REPLACEMENT for sign in spaced)
    return joined("".join(has))


def by_font(text: str, font_name: str) -> Iterator[tuple[str, str]]:
    """The text in pieces, each with the name of the font that has its characters."""
    if text.isascii():
        yield font_name, text
        return
    known = font(font_name).face.charToGlyph
    for other, signs in itertools.groupby(text, lambda sign: None if ord(sign) in known else east_asian_font(sign)):
        yield _borrowed(other) if other else font_name, "".join(signs)


@functools.cache
def _borrowed(name: str) -> str:
    """A font that the reader of the document has, made known to the writer."""
    pdfmetrics.registerFont(UnicodeCIDFont(name))
    return name


@functools.lru_cache(maxsize=100_000)
def _width_of_word(word: str, font_name: str, size: float) -> float:
    return sum(float(pdfmetrics.stringWidth(piece, name, size)) for name, piece in by_font(word, font_name))


def width_of(text: str, style: TextStyle) -> float:
    """Width of a line in points."""
    words = text.split(" ")
    space = _width_of_word(" ", style.font, style.size)
    return sum(_width_of_word(word, style.font, style.size) for word in words) + space * (len(words) - 1)


def longest_word(text: str, style: TextStyle) -> float:
    """Width of the widest word, below which a line has to break within words."""
    return max((_width_of_word(word, style.font, style.size) for word in text.split()), default=0.0)


def wrapped(text: str, style: TextStyle, width: float) -> list[str]:
    """The text in lines no wider than `width`; breaks of the text's own are kept."""
    lines: list[str] = []
    for part in text.split("\n"):
        lines += _lines_of(printable(part, style), style, width)
    return lines


def _lines_of(text: str, style: TextStyle, width: float) -> list[str]:
    lines: list[str] = []
    line: list[str] = []
    used = 0.0
    space = _width_of_word(" ", style.font, style.size)
    for word in _breakable(text, style, width):
        wide = _width_of_word(word, style.font, style.size)
        if line and used + space + wide > width:
            lines.append(" ".join(line))
            line, used = [], 0.0
        used += wide + (space if line else 0.0)
        line.append(word)
    return [*lines, " ".join(line)]


def _breakable(text: str, style: TextStyle, width: float) -> Iterator[str]:
    """What stays on one line: words, numbers with their units; words wider than a whole line are cut into pieces."""
    for word in _with_units(text.split(), style, width):
        if _width_of_word(word, style.font, style.size) <= width:
            yield word
        else:
            yield from _pieces(word, style, width)


def _with_units(words: list[str], style: TextStyle, width: float) -> Iterator[str]:
    """Words, a number and the unit after it as one where both fit on a line."""
    held = ""
    for word in words:
        joined = f"{held} {word}" if held else word
        unit = held[-1:].isdigit() and word.rstrip(",;.") in UNIT_SIGNS or held == NOMINAL_DIAMETER
        if held and not (unit and _width_of_word(joined, style.font, style.size) <= width):
            yield held
            joined = word
        held = joined
    if held:
        yield held


def _pieces(word: str, style: TextStyle, width: float) -> Iterator[str]:
    piece, used = "", 0.0
    for sign in word:
        wide = _width_of_word(sign, style.font, style.size)
        if piece and used + wide > width:
            yield piece
            piece, used = "", 0.0
        piece, used = piece + sign, used + wide
    yield piece

"""Names in scripts beside Latin, Greek and Cyrillic: Arabic letters joined, right-to-left words in the order of
their drawing, and East Asian signs by the fonts that PDF readers keep for them."""

import functools
import itertools
import unicodedata
from collections.abc import Iterator

FORMS = ("isolated", "final", "initial", "medial")
PRESENTATION_FORMS = (*range(0xFB50, 0xFC00), *range(0xFE80, 0xFEFD))
LAM = "ل"
RIGHT_TO_LEFT = ("R", "AL")
NUMBER = ("EN", "AN")
WITHIN = (*RIGHT_TO_LEFT, *NUMBER, "NSM", "WS", "ON", "CS", "ES", "ET", "BN")
MIRRORED = str.maketrans("()[]{}<>«»‹›", ")(][}{><»«›‹")
CLOSING = {")": "(", "]": "[", "}": "{"}

EAST_ASIAN = (
    ("cp949", "HYGothic-Medium"),
    ("cp932", "HeiseiKakuGo-W5"),
    ("gbk", "STSong-Light"),
    ("big5", "MSung-Light"),
)
"""Character sets and the fonts that show them: not embedded, but found or replaced by every common PDF reader."""


@functools.cache
def east_asian_font(sign: str) -> str | None:
    """The font for a sign of Korean, Japanese or Chinese; None for any other."""
    if unicodedata.east_asian_width(sign) not in ("W", "F"):
        return None
    hangul = unicodedata.name(sign, "").startswith("HANGUL")
    for encoding, font in EAST_ASIAN if hangul else EAST_ASIAN[1:]:
        try:
            sign.encode(encoding)
        except UnicodeEncodeError:
            continue
        return font
    return None


def joined(text: str) -> str:
    """The text with each Arabic letter in the form that its neighbours ask for."""
    if not any("\u0600" <= sign <= "\u06ff" for sign in text):
        return text
    units = list(_units(text))
    bases = [place for place, unit in enumerate(units) if not unicodedata.combining(unit[0])]
    before, after = dict(zip(bases[1:], bases, strict=False)), dict(zip(bases, bases[1:], strict=False))
    shown = []
    for place, unit in enumerate(units):
        back = place in before and _joins(units[before[place]], "initial") and _joins(unit, "final")
        on = place in after and _joins(unit, "initial") and _joins(units[after[place]], "final")
        form = FORMS[(1 if back else 0) + (2 if on else 0)]
        shown.append(_forms().get((unit, form), unit))
    return "".join(shown)


def drawn(line: str) -> str:
    """A line in the order in which its signs are drawn from left to right, where it is in the order of reading."""
    kinds = [unicodedata.bidirectional(sign) for sign in line]
    if not any(kind in RIGHT_TO_LEFT for kind in kinds):
        return line
    signs, at = list(line), 0
    while at < len(signs):
        end = _end_of_run(line, kinds, at) if kinds[at] in RIGHT_TO_LEFT else at
        if end > at:
            signs[at:end] = _backwards(line[at:end])
        at = max(end, at + 1)
    return "".join(signs)


def _end_of_run(line: str, kinds: list[str], at: int) -> int:
    """Behind the last right-to-left sign or number that nothing of the other direction parts from `at`."""
    reach = itertools.takewhile(lambda place: kinds[place] in WITHIN, range(at, len(line)))
    end = max(place for place in reach if kinds[place] in (*RIGHT_TO_LEFT, *NUMBER)) + 1
    while line[end : end + 1] in CLOSING and line.count(CLOSING[line[end]], at, end) > line.count(line[end], at, end):
        end += 1
    return end


def _backwards(run: str) -> str:
    """Right-to-left signs turned round, with numbers as they are and brackets that open the other way."""
    groups = itertools.groupby(run, lambda sign: unicodedata.bidirectional(sign) in NUMBER)
    turned = ["".join(group) if is_number else "".join(group)[::-1].translate(MIRRORED) for is_number, group in groups]
    return "".join(reversed(turned))


def _units(text: str) -> Iterator[str]:
    """Signs one by one, lam and alef together, which are written as one."""
    at = 0
    while at < len(text):
        wide = 2 if text[at] == LAM and (text[at : at + 2], "isolated") in _forms() else 1
        yield text[at : at + wide]
        at += wide


def _joins(unit: str, form: str) -> bool:
    return (unit, form) in _forms()


@functools.cache
def _forms() -> dict[tuple[str, str], str]:
    """The sign for a letter, or for lam and alef, in one of its forms, as the Unicode tables have it."""
    found = {}
    for code in PRESENTATION_FORMS:
        form, *letters = unicodedata.decomposition(chr(code)).split() or [""]
        if form.strip("<>") in FORMS and len(letters) <= 2:
            found["".join(chr(int(letter, 16)) for letter in letters), form.strip("<>")] = chr(code)
    return found

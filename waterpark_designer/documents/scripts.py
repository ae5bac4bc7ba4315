"""Names in scripts beside Latin, Greek and Cyrillic: Arabic letters joined, right-to-left words in the order of
their drawing, and East Asian signs by the fonts that PDF readers keep for them."""

import functools
import itertools
import unicodedata

import arabic_reshaper

RIGHT_TO_LEFT = ("R", "AL")
NUMBER = ("EN", "AN")
WITHIN = (*RIGHT_TO_LEFT, *NUMBER, "NSM", "WS", "ON", "CS", "ES", "ET", "BN")
SHAPING = arabic_reshaper.ArabicReshaper({"delete_harakat": False, "ARABIC LIGATURE ALLAH": False})
"""Keeps the marks above and below letters, and makes no ligature that the shipped font lacks."""
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
    has_arabic = any("\u0600" <= sign <= "\u06ff" for sign in text)
    return str(SHAPING.reshape(text)) if has_arabic else text


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

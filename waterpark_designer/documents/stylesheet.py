"""How documents look: sizes in points, colours as hexadecimal, fonts by file name."""

from dataclasses import dataclass

from waterpark_designer.units import UnitSystem

INK = "#16303d"
DIM = "#546a75"
ACCENT = "#a8430f"
RULE = "#c9d3d8"
BAND = "#eef3f5"
PAPER = "#ffffff"

REGULAR = "DejaVuSansCondensed"
BOLD = "DejaVuSansCondensed-Bold"

A4 = (595.28, 841.89)
LETTER = (612.0, 792.0)

SIDE_MARGIN = 48.0
TOP_MARGIN = 34.0
BOTTOM_MARGIN = 30.0
GAP = 6.0
INDENT = 14.0


@dataclass(frozen=True, slots=True)
class TextStyle:
    """Font, size, colour and distance from line to line."""

    font: str = REGULAR
    size: float = 9.0
    colour: str = INK
    leading: float = 12.0


DOCUMENT_TITLE = TextStyle(BOLD, 20.0, INK, 26.0)
SECTION_TITLE = TextStyle(BOLD, 14.0, INK, 18.0)
LARGE = TextStyle(BOLD, 17.0, INK, 22.0)
PART_TITLE = TextStyle(BOLD, 11.0, INK, 15.0)
HEADING = TextStyle(BOLD, 9.0, ACCENT, 12.0)
BODY = TextStyle()
STRONG = TextStyle(BOLD)
QUIET = TextStyle(size=8.0, colour=DIM, leading=10.5)
NEEDED = TextStyle(size=8.0, colour=ACCENT, leading=10.5)
WARNING = TextStyle(BOLD, 8.0, ACCENT, 10.5)
SMALL = TextStyle(size=7.5, colour=DIM, leading=10.0)
SMALL_STRONG = TextStyle(BOLD, 7.5, INK, 10.0)
CELL = TextStyle(size=8.0, leading=10.5)
CELL_STRONG = TextStyle(BOLD, 8.0, INK, 10.5)
COLUMN_HEADING = TextStyle(BOLD, 7.5, INK, 9.5)
COLUMN_UNIT = TextStyle(size=7.5, colour=DIM, leading=9.5)


def page_size(units: UnitSystem, landscape: bool) -> tuple[float, float]:
    """Letter where units are US customary, A4 elsewhere; points."""
    width, height = LETTER if units is UnitSystem.US else A4
    return (height, width) if landscape else (width, height)

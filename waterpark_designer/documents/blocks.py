"""The blocks of a document, besides tables and workings."""

from dataclasses import dataclass

from waterpark_designer.documents.table import Number
from waterpark_designer.sources import Source


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading within a section; kept with what follows it."""

    text: str


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Running text."""

    text: str


@dataclass(frozen=True, slots=True)
class Caution:
    """What can hurt someone, what is usually done about it, and where that is written."""

    title: str
    text: str
    source: Source


@dataclass(frozen=True, slots=True)
class Highlights:
    """The few figures that a client reads first, printed large; a table says them too. None where one is missing."""

    figures: tuple[tuple[str, Number | None], ...]

"""The first page: particulars, and contents that name the page of every part they list."""

import io
from collections.abc import Iterator, Sequence
from typing import Any

import pypdf
import pytest

from tests.documents.invented_site import pdf_of
from tests.large_site import large_site
from waterpark_designer.documents.document import Document
from waterpark_designer.documents.pdf_page import Pages
from waterpark_designer.documents.pdf_text import width_of
from waterpark_designer.documents.register import PARTS, build_document
from waterpark_designer.documents.stylesheet import SIDE_MARGIN, TextStyle
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.library import Library


def contents_of(document: Document, monkeypatch: pytest.MonkeyPatch) -> tuple[pypdf.PdfReader, dict[int, int]]:
    """The document as PDF, and the page number that its contents print beside the title of each section listed."""
    refer, write = Pages.refer_to_page, Pages._write
    place_of: list[tuple[int, float]] = []
    told: dict[int, int] = {}

    def watch(pages: Pages, place: int, x: float, width: float, height: float) -> None:
        place_of.append((place, SIDE_MARGIN + x + width))
        refer(pages, place, x, width, height)

    def number(pages: Pages, text: str, style: TextStyle, x: float, y: float) -> None:
        if text.isdecimal():
            place, right = place_of[len(told)]
            assert x + width_of(text, style) == pytest.approx(right)
            told[place] = int(text)
        write(pages, text, style, x, y)

    monkeypatch.setattr(Pages, "refer_to_page", watch)
    monkeypatch.setattr(Pages, "_write", number)
    return pypdf.PdfReader(io.BytesIO(pdf_of(document))), told


def titles_in(reader: pypdf.PdfReader) -> Iterator[tuple[int, str, int]]:
    """(level, title, page) of each entry of the outline."""

    def entries(outline: Sequence[Any], level: int) -> Iterator[tuple[int, str, int]]:
        for entry in outline:
            if isinstance(entry, list):
                yield from entries(entry, level + 1)
            else:
                number = reader.get_destination_page_number(entry)
                assert number is not None
                yield level, str(entry.title), number + 1

    return entries(reader.outline, 1)


def test_the_contents_name_the_page_of_each_part(design: SiteDesign, monkeypatch: pytest.MonkeyPatch) -> None:
    reader, told = contents_of(build_document(design, "all"), monkeypatch)
    outline = list(titles_in(reader))
    assert [title for level, title, _ in outline if level == 1] == [kind.title for kind in PARTS]
    for place, page in told.items():
        _, title, where = outline[place]
        assert page == where and title in reader.pages[page - 1].extract_text()
    assert {place for place, (level, *_) in enumerate(outline) if level == 1} < set(told)


@pytest.mark.parametrize("bodies", [12, 60])
def test_the_contents_of_a_long_document_lead_to_its_bodies_of_water(
    library: Library, bodies: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    document = build_document(library.design(large_site(bodies)), "calculation-sheets")
    reader, told = contents_of(document, monkeypatch)
    outline = list(titles_in(reader))
    assert all(outline[place][-1] == page for place, page in told.items())
    depths = [outline[place][1].count("›") for place in told]
    assert depths.count(1) == bodies and max(depths) == 1
    assert sum(len(page.get("/Annots", ())) for page in reader.pages) == len(told)


def test_a_short_document_has_no_contents(design: SiteDesign) -> None:
    assert (
        "Contents"
        not in pypdf.PdfReader(io.BytesIO(pdf_of(build_document(design, "salt-schedule")))).pages[0].extract_text()
    )

"""Every document can be built from any site, in both unit systems, and drawn in every form."""

from pathlib import Path

import pytest

from waterpark_designer.documents.document import NOTICE
from waterpark_designer.documents.export import SUFFIXES, export
from waterpark_designer.documents.register import DOCUMENTS, PARTS, build_document
from waterpark_designer.documents.table import RowKind, Table
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.library import Library
from waterpark_designer.model.site import Site
from waterpark_designer.units import UnitSystem


@pytest.fixture(params=["design", "piped", "empty", "small"])
def any_design(request: pytest.FixtureRequest, library: Library) -> SiteDesign:
    if request.param == "empty":
        return library.design(Site(name="Nothing yet"))
    if request.param == "small":
        return library.design(request.getfixturevalue("small_site"))
    return request.getfixturevalue(request.param)


def test_the_documents_by_name() -> None:
    assert list(DOCUMENTS) == [
        "site-summary",
        "equipment-schedule",
        "hydraulics",
        "salt-schedule",
        "checks",
        "cautions",
        "calculation-sheets",
        "all",
    ]
    assert all(kind.title and kind.description.endswith(".") for kind in DOCUMENTS.values())


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("name", DOCUMENTS)
def test_rows_fit_their_columns(any_design: SiteDesign, name: str, units: UnitSystem) -> None:
    document = build_document(any_design, name, units)
    assert document.particulars.units is units
    tables = [block for section in document.sections for block in section.blocks if isinstance(block, Table)]
    for table in tables:
        for row in table.rows:
            assert len(row.cells) == (1 if row.kind is RowKind.GROUP else len(table.columns)), table.title


@pytest.mark.parametrize("suffix", SUFFIXES)
@pytest.mark.parametrize("name", DOCUMENTS)
def test_every_document_is_written_in_every_form(
    any_design: SiteDesign, name: str, suffix: str, tmp_path: Path
) -> None:
    path = tmp_path / f"document{suffix}"
    export(any_design, name, path)
    begins = {".pdf": b"%PDF-", ".xlsx": b"PK", ".csv": "\ufeffProject".encode()}[suffix]
    assert path.read_bytes().startswith(begins)


def test_the_complete_set_holds_every_part_on_pages_of_its_own(design: SiteDesign) -> None:
    whole = build_document(design, "all")
    chapters = [section for section in whole.sections if section.level == 1]
    assert [chapter.title for chapter in chapters] == [kind.title for kind in PARTS]
    assert [chapter.new_page for chapter in chapters] == [False] + [True] * (len(PARTS) - 1)


def test_the_particulars_say_what_is_not_stated(library: Library) -> None:
    lines = dict(build_document(library.design(Site(name="Bare")), "checks").particulars.lines())
    assert lines["Client"] == "not stated" and lines["Date of issue"] == "not stated"
    assert lines["Code basis"] == "none chosen" and lines["Status"] == NOTICE

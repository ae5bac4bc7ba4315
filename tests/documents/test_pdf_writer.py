"""PDF as a reader finds it: every page says what it must, nothing is lost or cut off."""

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

import pypdf
import pytest

from tests.documents.invented_site import OVERRIDE_REASON, pdf_of
from tests.large_site import large_site
from waterpark_designer.documents.blocks import Heading, Paragraph
from waterpark_designer.documents.document import NOTICE, Document, Section, particulars_of
from waterpark_designer.documents.pdf_page import Pages, Run
from waterpark_designer.documents.pdf_text import REPLACEMENT, font, printable, width_of, wrapped
from waterpark_designer.documents.pdf_writer import write_pdf
from waterpark_designer.documents.progress import ExportCancelled
from waterpark_designer.documents.register import DOCUMENTS, build_document
from waterpark_designer.documents.stylesheet import A4, BODY, BOLD, CELL, LETTER, REGULAR, SIDE_MARGIN
from waterpark_designer.documents.table import Column, Row, RowKind, Table, count, group
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Step, Worked
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise
from waterpark_designer.model.hydraulics import EquipmentLosses
from waterpark_designer.model.node import Override
from waterpark_designer.model.starting_runs import starting_runs
from waterpark_designer.units import COUNT, MEASURES, UnitSystem


def pages_of(document: Document) -> list[pypdf.PageObject]:
    return list(pypdf.PdfReader(io.BytesIO(pdf_of(document))).pages)


def texts_of(document: Document) -> list[str]:
    return [page.extract_text() for page in pages_of(document)]


def of_table(design: SiteDesign, table: Table) -> Document:
    """A document with nothing but one table."""
    return Document("trial", "Trial", particulars_of(design, UnitSystem.US), (Section(table.title, (table,)),))


def test_every_page_carries_the_particulars_and_its_number(design: SiteDesign) -> None:
    texts = texts_of(build_document(design, "all"))
    assert len(texts) > 10
    for number, text in enumerate(texts, 1):
        assert re.search(rf"Page {number} of\s+{len(texts)}\b", text), number
        for told in (
            "Quillwater <draft> & Сад",
            "Harbour & Sons",
            "Q-114",
            "Revision B",
            "2 June 2026",
            "Georgia Rules",
            "US customary",
            NOTICE,
        ):
            assert told in text.replace("\n", " "), (number, told)


def test_names_with_markup_and_other_letters_print_as_they_are(design: SiteDesign) -> None:
    text = "\n".join(texts_of(build_document(design, "salt-schedule")))
    assert 'Бухта <Ёж> & "Söhne"' in text


def test_an_override_is_printed_with_its_reason(design: SiteDesign) -> None:
    for name in ("site-summary", "equipment-schedule", "calculation-sheets", "checks"):
        text = " ".join("\n".join(texts_of(build_document(design, name))).split())
        assert OVERRIDE_REASON in text, name


def test_the_same_design_gives_the_same_bytes(design: SiteDesign) -> None:
    document = build_document(design, "all")
    assert pdf_of(document) == pdf_of(build_document(design, "all"))


@pytest.mark.parametrize("units, size", [(UnitSystem.US, LETTER), (UnitSystem.SI, A4)])
def test_paper_follows_the_units(design: SiteDesign, units: UnitSystem, size: tuple[float, float]) -> None:
    page = pages_of(build_document(design, "cautions", units))[0]
    assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.01)
    across = pages_of(build_document(design, "checks", units))[0]
    assert (float(across.mediabox.height), float(across.mediabox.width)) == pytest.approx(size, abs=0.01)


def test_every_font_that_is_named_is_embedded(design: SiteDesign) -> None:
    for page in pages_of(build_document(design, "all")):
        fonts = [reference.get_object() for reference in page["/Resources"]["/Font"].values()]  # type: ignore[index]
        assert fonts
        for one in fonts:
            assert "DejaVuSansCondensed" in one["/BaseFont"]
            assert "/FontFile2" in one["/FontDescriptor"].get_object()


def test_letters_outside_the_font_are_seen_to_be_missing(design: SiteDesign, library: Library) -> None:
    document = build_document(library.design(revise(design.site, "pool", name="ก bath")), "salt-schedule")
    assert f"{REPLACEMENT} bath" in "\n".join(texts_of(document))


@pytest.mark.parametrize("name", ["杉の湯プール", "乐园 水池", "수영장"])
def test_east_asian_names_are_written_by_their_own_fonts(design: SiteDesign, library: Library, name: str) -> None:
    document = build_document(library.design(revise(design.site, "pool", name=name)), "salt-schedule")
    text = "\n".join(texts_of(document))
    assert name in text and REPLACEMENT not in text


def test_right_to_left_names_are_drawn_in_their_order(design: SiteDesign, library: Library) -> None:
    """The PDF library puts what it finds drawn from right to left in the order of reading."""
    document = build_document(library.design(revise(design.site, "pool", name="בריכה")), "salt-schedule")
    assert "בריכה" in "\n".join(texts_of(document))


def symbols_printed() -> Iterator[str]:
    for measure in MEASURES:
        yield from (measure.metric.symbol, measure.us.symbol, measure.si)
    for kind in FIGURE_KINDS.values():
        yield from (kind.label, kind.symbol, kind.definition)
    for status in Status:
        yield status.mark
    yield "² ³ µ ≤ ≥ × ÷ → Δ ½ ✓ ✗ ⚠ – — “ ” · › □ Бухта Ελλάδα Łódź Ő ⌈⌉ √ π"


def test_the_fonts_have_every_sign_that_the_program_prints(design: SiteDesign) -> None:
    equations = [
        step.formula.equation
        for sheet in design.sheets.values()
        for figure in sheet.figures.values()
        if isinstance(figure.value, Worked) and isinstance(step := figure.value.step, Step) and step.formula
    ]
    assert equations
    for name in (REGULAR, BOLD):
        known = font(name).face.charToGlyph
        missing = {sign for text in (*symbols_printed(), *equations) for sign in text if ord(sign) not in known}
        assert not missing


def test_control_characters_become_spaces_and_accents_join_their_letter() -> None:
    assert printable("a\x07b\tc", BODY) == "a b c"
    assert printable("Ame\u0301lie", BODY) == "Amélie"


def test_a_number_is_not_parted_from_its_unit() -> None:
    text, style = "Butterfly valve, PVC Sch 40, 12 in", CELL
    width = width_of("Butterfly valve, PVC Sch 40, 12", style)
    assert wrapped(text, style, width) == ["Butterfly valve, PVC Sch 40,", "12 in"]
    # Where both do not fit on a line they part, and words that only look like units do not hold.
    assert wrapped("12 in", style, width_of("12", style)) == ["12", "in"]
    assert wrapped("one in four", style, width_of("one in", style)) == ["one in", "four"]


def test_a_word_wider_than_its_line_is_cut_not_clipped() -> None:
    lines = wrapped("W" * 200, CELL, 100.0)
    assert "".join(lines) == "W" * 200 and len(lines) > 5


def groups_of(rows_each: int, groups: int) -> Table:
    rows = [
        row
        for number in range(groups)
        for row in (
            group(f"Group {number}"),
            *(Row((f"line {number}.{line}", count(line))) for line in range(rows_each)),
        )
    ]
    rows.append(Row(("Sum", count(1)), RowKind.TOTAL))
    return Table("Long table", (Column("Name"), Column("Amount", COUNT)), tuple(rows))


def test_long_tables_repeat_their_headings_and_lose_no_row(design: SiteDesign) -> None:
    texts = texts_of(of_table(design, groups_of(7, 40)))
    assert len(texts) > 5
    assert all("Name" in text and "Amount" in text for text in texts)
    whole = "\n".join(texts)
    assert all(f"line {number}.{line}" in whole for number in range(40) for line in range(7))


@pytest.mark.parametrize("rows_each", [1, 2, 3, 5, 8, 13])
def test_no_group_heading_ends_a_page_and_no_total_begins_one(design: SiteDesign, rows_each: int) -> None:
    for text in texts_of(of_table(design, groups_of(rows_each, 60))):
        rows = re.findall(r"^(Group \d+(?: \(continued\))?|line \d+\.\d+|Sum)", text, flags=re.MULTILINE)
        assert not rows[-1].startswith("Group")
        assert rows[0] != "Sum"


def test_notes_begin_no_page_without_a_row_of_their_table(design: SiteDesign) -> None:
    for rows in range(24, 56):
        table = replace(groups_of(rows, 1), notes=("First note.", "Second note."))
        [page] = [text for text in texts_of(of_table(design, table)) if "First note." in text]
        assert re.search(r"line \d+\.\d+[^N]*Sum[^N]*First note", page), rows


def test_a_row_taller_than_a_page_goes_on_over_pages(design: SiteDesign) -> None:
    words = [f"word{number}" for number in range(3000)]
    table = Table("Tall", (Column("A", weight=1), Column("B", weight=1)), (Row(("x", " ".join(words))),))
    texts = texts_of(of_table(design, table))
    assert len(texts) > 1
    assert re.findall(r"word\d+", "\n".join(texts)) == words


@dataclass(frozen=True)
class Drawn:
    """A piece of text as it was drawn: page, edges and baseline in points, and the page's size."""

    page: int
    text: str
    left: float
    right: float
    baseline: float
    width: float


def drawn_in(document: Document, monkeypatch: pytest.MonkeyPatch) -> list[Drawn]:
    """Every piece of text that drawing the document puts on its pages."""
    found: list[Drawn] = []
    draw = Pages.text

    def watch(pages: Pages, run: Run, baseline: float) -> None:
        wide = width_of(run.text, run.style)
        left = SIDE_MARGIN + run.x - (wide if run.right else 0.0)
        found.append(Drawn(pages.number, run.text, left, left + wide, baseline, pages.width))
        draw(pages, run, baseline)

    monkeypatch.setattr(Pages, "text", watch)
    pdf_of(document)
    return found


@pytest.fixture
def wordy(design: SiteDesign, library: Library) -> SiteDesign:
    """A design whose every name, note and reason is as long as the model allows."""
    site = design.site.revised(
        name="Wide " * 39,
        client="C" * 200,
        project_number="9" * 200,
        notes="note \n" * 500,
        code_basis=(*(f"rule-set-{number}-that-is-not-installed" for number in range(17)), *design.site.code_basis),
    )
    site = revise(site, "pool", name="W" * 200)
    runs = starting_runs()
    long_run = runs[4].revised(name="R" * 200, size="1.25")
    return library.design(
        revise(
            site,
            "one",
            name="Ж" * 200,
            pipe_runs=(*runs[:4], long_run, *runs[5:]),
            equipment=EquipmentLosses(filter_clean=2.0, filter_dirt=5.0),
            overrides=(
                Override(figure="filter_count", value=2.0, reason="because " * 120),
                Override(figure="salt_mass", value=1e12, reason="W" * 900),
            ),
        )
    )


@pytest.mark.parametrize("name", DOCUMENTS)
def test_nothing_is_cut_off_at_the_margins(wordy: SiteDesign, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    drawn = drawn_in(build_document(wordy, name), monkeypatch)
    assert len(drawn) > 50
    for piece in drawn:
        assert piece.left >= SIDE_MARGIN - 7, piece
        assert piece.right <= piece.width - SIDE_MARGIN + 0.01, piece
        assert piece.baseline >= 24, piece


@pytest.mark.parametrize("name", DOCUMENTS)
def test_no_text_runs_into_another(wordy: SiteDesign, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    lines: dict[tuple[int, float], list[Drawn]] = {}
    for piece in drawn_in(build_document(wordy, name), monkeypatch):
        lines.setdefault((piece.page, round(piece.baseline, 2)), []).append(piece)
    for pieces in lines.values():
        in_order = sorted((piece for piece in pieces if piece.text), key=lambda piece: piece.left)
        for before, after in pairwise(in_order):
            assert before.right <= after.left + 0.01, (before, after)


def test_numbers_of_a_column_end_at_one_edge(design: SiteDesign, monkeypatch: pytest.MonkeyPatch) -> None:
    table = Table("T", (Column("Name"), Column("Amount", COUNT)), (Row(("a", count(1))), Row(("b", count(1234567)))))
    edges = {piece.text: piece for piece in drawn_in(of_table(design, table), monkeypatch)}
    assert edges["1,234,567"].right == pytest.approx(edges["1"].right)
    assert edges["1,234,567"].left < edges["1"].left


def test_the_numbers_put_in_stand_beside_their_equation(design: SiteDesign, monkeypatch: pytest.MonkeyPatch) -> None:
    drawn = drawn_in(build_document(design, "calculation-sheets"), monkeypatch)
    equations = [piece for piece in drawn if piece.text.startswith("T = V / Q")]
    assert equations
    for equation in equations:
        beside = [one for one in drawn if (one.page, one.baseline) == (equation.page, equation.baseline)]
        symbol = next(one for one in beside if one.text == "V")
        assert symbol.left > equation.right


def test_no_step_of_a_working_is_parted_from_its_source(piped: SiteDesign, monkeypatch: pytest.MonkeyPatch) -> None:
    """What begins a page of workings is a title, a figure or a step, never the middle of one."""
    drawn = drawn_in(build_document(piped, "calculation-sheets"), monkeypatch)
    heads: dict[int, list[Drawn]] = {}
    for piece in drawn:
        if piece.width < LETTER[1] and 80 < piece.baseline < LETTER[1] - 66:
            heads.setdefault(piece.page, []).append(piece)
    assert len(heads) > 10
    for page, pieces in heads.items():
        top = max(piece.baseline for piece in pieces)
        first = [piece for piece in pieces if piece.baseline == top]
        assert not any(piece.text.startswith("Source: ") for piece in first), (page, first)


def test_a_long_symbol_keeps_clear_of_its_name(piped: SiteDesign, monkeypatch: pytest.MonkeyPatch) -> None:
    drawn = drawn_in(build_document(piped, "calculation-sheets"), monkeypatch)
    symbol = next(piece for piece in drawn if piece.text == "NPSH_r")
    name = next(
        one for one in drawn if (one.page, one.baseline, one.text) == (symbol.page, symbol.baseline, "Required")
    )
    assert symbol.right < name.left


def test_long_workings_leave_no_page_half_blank(design: SiteDesign, monkeypatch: pytest.MonkeyPatch) -> None:
    """Between the sheets of two nodes every page of workings is filled, but for what is kept together."""
    drawn = drawn_in(build_document(design, "calculation-sheets"), monkeypatch)
    upright = [piece for piece in drawn if piece.width < LETTER[1]]
    last = max(piece.page for piece in upright)
    for page in range(1, last):
        body = [piece.baseline for piece in upright if piece.page == page and piece.baseline > 80]
        assert min(body) < LETTER[1] * 0.4, page


def test_a_table_without_rows_says_so_in_the_line_of_its_title(
    design: SiteDesign, monkeypatch: pytest.MonkeyPatch
) -> None:
    table = Table("Trials", (Column("Name"),), (), notes=("A note.",), empty="No trials.")
    document = replace(of_table(design, table), sections=(Section("Part", (table,)),))
    drawn = {piece.text: piece for piece in drawn_in(document, monkeypatch)}
    assert drawn["Trials"].baseline == drawn["No trials."].baseline > drawn["A note."].baseline
    assert drawn["Trials"].right < drawn["No trials."].left


def test_a_number_stays_near_the_words_it_belongs_to(design: SiteDesign, monkeypatch: pytest.MonkeyPatch) -> None:
    table = Table("T", (Column("Part", weight=3.0), Column("Amount", COUNT)), (Row(("Bathers", count(12))),))
    across = replace(of_table(design, table), sections=(Section("T", (table,), landscape=True),))
    drawn = {piece.text: piece for piece in drawn_in(across, monkeypatch)}
    assert drawn["12"].left - drawn["Bathers"].right < drawn["12"].width / 3


def test_the_size_of_a_pipe_is_not_cut_into_words(piped: SiteDesign, monkeypatch: pytest.MonkeyPatch) -> None:
    drawn = drawn_in(build_document(piped, "calculation-sheets", UnitSystem.SI), monkeypatch)
    assert any(re.fullmatch(r"PVC Sch 40, DN [0-9]+", piece.text) for piece in drawn)


@pytest.mark.parametrize("filler", range(30, 60))
def test_a_title_stays_with_what_follows_its_first_words(
    design: SiteDesign, filler: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = Section("Before", tuple(Paragraph(f"filler {number}") for number in range(filler)))
    part = Section("Part", (Paragraph("What it is."), Paragraph("Its notes."), Heading("Topic"), Paragraph("Text.")), 2)
    document = replace(of_table(design, groups_of(1, 1)), sections=(before, part))
    pages = {piece.text: piece.page for piece in drawn_in(document, monkeypatch)}
    assert len({pages[text] for text in ("Part", "What it is.", "Its notes.", "Topic", "Text.")}) == 1


def test_progress_is_told_and_can_stop_the_work(design: SiteDesign) -> None:
    document = build_document(design, "calculation-sheets")
    shares: list[float] = []
    write_pdf(document, io.BytesIO(), lambda share: shares.append(share) or True)  # type: ignore[func-returns-value]
    assert shares == sorted(shares) and shares[-1] == pytest.approx(1.0) and len(shares) > 20
    stream = io.BytesIO()
    with pytest.raises(ExportCancelled):
        write_pdf(document, stream, lambda share: share < 0.5)
    assert stream.getvalue() == b""


def test_the_work_grows_no_faster_than_the_site(library: Library) -> None:
    def pages(bodies: int) -> int:
        return len(pages_of(build_document(library.design(large_site(bodies)), "checks")))

    assert pages(24) <= 3 * pages(8) + 3


def test_a_document_can_be_drawn_again_with_other_particulars(design: SiteDesign) -> None:
    document = build_document(design, "cautions")
    other = replace(document, particulars=replace(document.particulars, revision="C"))
    assert "Revision C" in texts_of(other)[0] and "Revision B" not in texts_of(other)[0]

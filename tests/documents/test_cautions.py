"""The cautions: every danger is named, says its source, and defers to those who know the site."""

from waterpark_designer.documents import safety
from waterpark_designer.documents.blocks import Caution
from waterpark_designer.documents.cautions import cautions_sections
from waterpark_designer.documents.table import Number, Table
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.starting_points import add_attraction, new_site
from waterpark_designer.sources import Provenance
from waterpark_designer.units import UnitSystem

US = UnitSystem.US
CAUTIONS = [
    caution
    for topic in vars(safety).values()
    if isinstance(topic, tuple)
    for caution in topic
    if isinstance(caution, Caution)
]


def test_every_danger_has_a_section(design: SiteDesign) -> None:
    titles = [section.title for section in cautions_sections(design, US)]
    assert titles == [
        "Cautions",
        "Chlorine and acid",
        "Hypochlorite and chemical storage",
        "Hydrogen",
        "Electricity",
        "Pumps and motors",
        "Suction entrapment",
        "Features",
        "Confined spaces",
        "Salt",
    ]


def test_it_defers_to_local_code_suppliers_and_licensed_practice(design: SiteDesign) -> None:
    first = cautions_sections(design, US)[0].blocks[0]
    text = getattr(first, "text", "")
    assert all(words in text for words in ("local code", "suppliers", "licensed"))


def test_every_caution_says_where_it_is_written() -> None:
    assert len(CAUTIONS) >= 18
    known = {Provenance.READ, Provenance.SECONDARY, Provenance.MEMORY, Provenance.COMMON_PRACTICE}
    assert all(caution.source.text and caution.source.provenance in known for caution in CAUTIONS)


def test_codes_that_were_not_read_are_marked_so() -> None:
    for caution in CAUTIONS:
        if any(name in caution.source.text for name in ("OSHA", "NFPA", "NIOSH", "Model Aquatic Health Code")):
            assert caution.source.provenance is Provenance.MEMORY, caution.title


def test_hydrogen_is_stated_for_systems_with_generators_only(design: SiteDesign) -> None:
    section = next(section for section in cautions_sections(design, US) if section.title == "Hydrogen")
    table = section.blocks[-1]
    assert isinstance(table, Table)
    assert [row.cells[0] for row in table.rows] == ["System 2"]
    hydrogen, air = table.rows[0].cells[2], table.rows[0].cells[3]
    assert isinstance(hydrogen, Number) and isinstance(air, Number)
    # A quarter of a lower flammable limit of 4 % is 1 %: 99 parts of air to one of hydrogen.
    assert abs(air.value / hydrogen.value - 99) < 1e-6


def section_of(design: SiteDesign, title: str) -> str:
    """Every word of a section, tables included."""
    section = next(section for section in cautions_sections(design, US) if section.title == title)
    words = []
    for block in section.blocks:
        if isinstance(block, Table):
            words += [str(cell) for row in block.rows for cell in row.cells]
        else:
            words.append(f"{getattr(block, 'title', '')} {getattr(block, 'text', '')}")
    return " ".join(words)


def test_pumps_are_locked_out_and_their_table_current_is_explained(piped: SiteDesign) -> None:
    told = section_of(piped, "Pumps and motors")
    assert "lock" in told and "overload protection is set by the motor's nameplate" in told
    assert "System 1 › Meander river › Arch sprays" in told and "460 V" in told


def test_river_cautions_are_for_sites_with_a_river(piped: SiteDesign, library) -> None:
    pool, _ = add_attraction(new_site(), AttractionKind.LAP_POOL)
    assert "river" not in section_of(library.design(pool), "Suction entrapment")
    assert "river jets" in section_of(piped, "Suction entrapment")


def test_a_single_outlet_is_told_beside_the_cautions_on_suction(piped: SiteDesign) -> None:
    told = section_of(piped, "Suction entrapment")
    assert "one outlet blocked" in told and "river jets" in told
    assert "single outlet: needs a second device against entrapment" in told

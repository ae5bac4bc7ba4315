"""A design as text for a terminal."""

from tests.documents.invented_site import AMENDMENT_REASON, OVERRIDE_REASON
from waterpark_designer.documents.as_text import checks_text, figures_text
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.worked import Missing
from waterpark_designer.library import Library
from waterpark_designer.model.edits import revise
from waterpark_designer.units import UnitSystem

US, SI = UnitSystem.US, UnitSystem.SI


def test_each_part_has_its_figures_under_their_disciplines(design: SiteDesign) -> None:
    lines = list(figures_text(design, US))
    river = lines[lines.index("System 1 › Meander river   Lazy river, outdoor") :]
    assert river[1] == "  Geometry"
    volume = next(line for line in river if line.startswith("    Volume "))
    assert " 128,400 gal " in volume
    assert any("Least flow by turnover time" in line and " 1,427 gpm " in line for line in river)


def test_every_figure_has_its_line(design: SiteDesign) -> None:
    lines = [line for line in figures_text(design, US) if line.startswith("    ")]
    assert len(lines) == sum(len(sheet.figures) for sheet in design.sheets.values())


def test_numbers_of_a_part_end_at_one_edge(design: SiteDesign) -> None:
    lines = list(figures_text(design, SI))
    start = lines.index("System 2   Recirculation system") + 1
    part = [line for line in lines[start : lines.index("", start)] if line.startswith("    ")]
    figures = design.sheets["two"].figures.values()
    ends = set()
    for figure in figures:
        if not isinstance(figure.value, Missing):
            line = next(line for line in part if line.strip().startswith(f"{figure.kind.label}  "))
            text = f" {figure.kind.measure.text(figure.value, SI)} "
            ends.add(line.index(text, 4 + len(figure.kind.label)) + len(text))
    assert len(ends) == 1


def test_an_override_and_a_lack_are_told(design: SiteDesign, library: Library) -> None:
    assert any(f"set by hand: {OVERRIDE_REASON} (computed: " in line for line in figures_text(design, US))
    silent = library.design(revise(design.site, "site", code_basis=(), amendments=()))
    assert any("needs: The code basis is silent on turnover time" in line for line in figures_text(silent, US))


def test_checks_tell_status_value_limit_clause_and_remedy(design: SiteDesign, library: Library) -> None:
    broken = library.design(revise(design.site, "one", fixed_flow=0.01))
    lines = list(checks_text(broken, US))
    place = next(number for number, line in enumerate(lines) if "✗ not met" in line and "Turnover time" in line)
    assert "at most 1.50 h" in lines[place] and AMENDMENT_REASON in lines[place]
    assert "flow" in lines[place + 1]
    assert "not met" in lines[-1]
    assert not any("✗" in line for line in checks_text(design, US))

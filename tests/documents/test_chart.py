"""Charts: the values, and how they are drawn on paper."""

import io
import re

import pypdf
import pytest

from tests.documents.invented_site import pdf_of
from waterpark_designer.documents.chart import Axis, Chart, ChartLine, ChartPoint, LineStyle, chart_table
from waterpark_designer.documents.document import Document, Section, particulars_of
from waterpark_designer.documents.pdf_chart import scale_of
from waterpark_designer.documents.pump_chart import pump_chart
from waterpark_designer.documents.table import Number
from waterpark_designer.engine.curves import curve_through
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.pump_curves import GenericCurve, PointsCurve, operating_point
from waterpark_designer.engine.size_pump import PumpCurves
from waterpark_designer.engine.system_curve import EquipmentLoss, SystemCurve
from waterpark_designer.units import FLOW, FOOT, GALLON, LENGTH, MINUTE, UnitSystem

US, SI = UnitSystem.US, UnitSystem.SI
GPM = GALLON / MINUTE


def curves_of(clean: float = 10.0, dirty: float = 16.0, duty_head: float = 16.0) -> PumpCurves:
    """A pump for 0.1 m³/s, in a system that takes these heads at that flow."""
    pump = GenericCurve(1.25 * duty_head, 0.1, duty_head)
    systems = [SystemCurve(0.0, 1e-6, (EquipmentLoss(head, 0.1),)) for head in (clean, dirty)]
    points = [operating_point(pump, system) for system in systems]
    return PumpCurves(pump, *systems, *points, 0.1, duty_head)


def test_duty_and_operating_points_are_marked() -> None:
    chart = pump_chart(curves_of())
    assert [(point.letter, point.name) for point in chart.points] == [
        ("A", "Duty and operating, dirty filters"),
        ("B", "Operating, clean filters"),
    ]
    duty, clean = chart.points
    assert (duty.along, duty.up) == (0.1, 16.0)
    # 20 − 4 (Q / 0.1)² = 10 (Q / 0.1)²: Q = 0.1 √(20 / 14), worked by hand.
    assert clean.along == pytest.approx(0.1 * (20 / 14) ** 0.5) and clean.up == pytest.approx(20 * 10 / 14)


def test_lines_are_told_apart_by_style() -> None:
    lines = pump_chart(curves_of()).lines
    assert [line.name for line in lines] == ["Pumps", "System, clean filters", "System, dirty filters"]
    assert len({line.style for line in lines}) == 3


def test_a_system_without_filters_has_one_line_and_one_operating_point() -> None:
    chart = pump_chart(curves_of(clean=16.0))
    assert [line.name for line in chart.lines] == ["Pumps", "System"]
    assert [point.name for point in chart.points] == ["Duty and operating point"]


def test_without_an_operating_point_the_duty_is_still_drawn() -> None:
    found = curve_through([(0.0, 9.0), (0.05, 8.0), (0.1, 5.0)])
    assert found is not None
    pump, full = PointsCurve(found), curves_of()
    chart = pump_chart(PumpCurves(pump, full.clean, full.dirty, None, None, 0.1, 16.0))
    assert [point.name for point in chart.points] == ["Duty"]
    assert max(along for along, _ in chart.lines[0].points) <= 0.1


def test_no_line_runs_far_above_the_pump() -> None:
    chart = pump_chart(curves_of(dirty=15.9))
    assert max(up for line in chart.lines for _, up in line.points) <= 1.15 * 20.0


@pytest.mark.parametrize(("most", "system"), [(2750 * GPM, US), (96 * GPM, US), (0.013, SI), (83.0 / 3600, SI)])
def test_axes_begin_at_zero_and_have_round_ticks(most: float, system: UnitSystem) -> None:
    scale = scale_of(Axis("Flow", FLOW), [most / 2, most], system, 400.0)
    ticks = list(scale.ticks())
    numbers = [float(text.replace(",", "")) for _, text in ticks]
    assert numbers[0] == 0 and numbers[-1] >= FLOW.shown(most, system)
    assert 4 <= len(ticks) <= 8
    assert ticks[-1][0] == pytest.approx(400.0) and scale.at(0.0) == 0.0
    first = f"{numbers[1]:e}"[0]
    assert first in "125"
    assert scale.title == ("Flow (gpm)" if system is US else "Flow (m³/h)")


def test_an_axis_reaches_below_zero_where_a_value_does() -> None:
    scale = scale_of(Axis("Head", LENGTH), [-3.0 * FOOT, 20 * FOOT], US, 100.0)
    assert scale.least <= -3.0 < 20.0 <= scale.greatest and scale.at(-3 * FOOT) >= 0


def chart_of(design: SiteDesign, units: UnitSystem) -> str:
    section = Section("Trial", (pump_chart(curves_of()),))
    document = Document("trial", "Trial", particulars_of(design, units), (section,))
    (page,) = pypdf.PdfReader(io.BytesIO(pdf_of(document))).pages
    content = page.get_contents()
    assert content is not None
    return " ".join(page.extract_text().split()) + content.get_data().decode("latin-1")


def test_the_chart_is_drawn_as_vectors_with_axes_and_legend(design: SiteDesign) -> None:
    drawn = chart_of(design, SI)
    for told in ("Head (m)", "Flow (m³/h)", "Pumps", "System, clean filters", "360.0 m³/h, 16.0 m"):
        assert told in drawn, told
    assert "Head (ft)" in chart_of(design, US)
    assert re.search(r"\[7 3\] 0 d", drawn), "dashed"
    assert re.search(r"\[1\.2 2\.4\] 0 d", drawn), "dotted"
    assert drawn.count(" l\n") + drawn.count(" l ") > 150
    assert "/Image" not in drawn


def test_as_a_table_it_holds_points_and_lines() -> None:
    line = ChartLine("Pump", LineStyle.SOLID, ((0.0, 12.0), (0.1, 10.0)))
    chart = Chart("Curve", Axis("Flow", FLOW), Axis("Head", LENGTH), (line,), (ChartPoint("A", "Duty", 0.1, 10.0),))
    table = chart_table(chart)
    assert [row.cells[0] for row in table.rows] == ["A  Duty", "Pump", "Pump"]
    assert table.rows[1].cells[2] == Number(12.0, LENGTH)
    assert [column.heading_text(US) for column in table.columns[1:]] == ["Flow (gpm)", "Head (ft)"]

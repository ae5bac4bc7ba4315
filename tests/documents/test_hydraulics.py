"""Hydraulics and pumps as a document: runs, head line by line, pump, take-off, openings, current."""

import io

import openpyxl
import pytest

from tests.documents.invented_site import make_piped_site
from waterpark_designer.documents.chart import Chart
from waterpark_designer.documents.circuits import CircuitSheets, circuits
from waterpark_designer.documents.features import drawdown_table, features_table
from waterpark_designer.documents.grounds import Grounds
from waterpark_designer.documents.head_table import head_table
from waterpark_designer.documents.hydraulics import hydraulics_sections
from waterpark_designer.documents.openings import current_table, openings_table, system_openings_table
from waterpark_designer.documents.pipe_names import NOMINAL_DIAMETERS, in_units
from waterpark_designer.documents.pipe_runs import runs_table, take_off_table
from waterpark_designer.documents.pumps import (
    BOTH_CURRENTS,
    ESTIMATED_CURRENT,
    TABLE_CURRENT,
    motors_table,
    pump_table,
    site_pumps_table,
)
from waterpark_designer.documents.register import build_document
from waterpark_designer.documents.table import DASH, Cell, Number, RowKind, Table
from waterpark_designer.documents.xlsx_writer import write_xlsx
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.library import Library
from waterpark_designer.model.devices import Nozzle
from waterpark_designer.model.edits import revise, set_override
from waterpark_designer.model.hydraulics import EquipmentLosses, PumpPlan
from waterpark_designer.model.kinds import FilterMedium, SupplyVoltage
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE, UnitSystem

US, SI = UnitSystem.US, UnitSystem.SI


@pytest.fixture
def loop(piped: SiteDesign) -> CircuitSheets:
    """The first system's own circuit."""
    return circuits(piped)[0]


def rows_of(table: Table) -> list[dict[str, Cell]]:
    headings = [column.heading for column in table.columns]
    return [dict(zip(headings, row.cells, strict=True)) for row in table.rows if row.kind is not RowKind.GROUP]


def value(cell: Cell) -> float:
    assert isinstance(cell, Number), cell
    return cell.value


def test_circuits_stand_with_the_system_before_its_features(piped: SiteDesign) -> None:
    assert [one.where for one in circuits(piped)] == ["System 1", "System 1 › Meander river › Arch sprays"]


def test_runs_stand_in_flow_order_with_what_is_assumed_in_words(piped: SiteDesign, loop: CircuitSheets) -> None:
    table = runs_table(loop, Grounds(piped), US)
    rows = rows_of(table)
    assert [row.node for row in table.rows] == [run.id for run in piped.site.systems[0].pipe_runs]
    assert rows[0]["State"] == "assumed, not counted" and rows[4]["State"] == "assumed"
    assert any("common practice" in note for note in table.notes)
    for row in rows:
        assert value(row["Velocity"]) <= value(row["Limit"])
        assert value(row["Friction"]) + value(row["Fittings"]) == pytest.approx(value(row["Loss"]))


def test_a_run_above_its_limit_and_one_as_drawn_say_so(piped: SiteDesign, library: Library) -> None:
    run = piped.site.systems[0].pipe_runs[4]
    design = library.design(revise(piped.site, run.id, size="4", assumed=False))
    row = rows_of(runs_table(circuits(design)[0], Grounds(design), US))[4]
    assert row["State"] == "as drawn, velocity over, size fixed"
    assert row["Pipe"] == "PVC Sch 40, 4 in"


def test_a_size_that_there_is_not_is_told(piped: SiteDesign, library: Library) -> None:
    run = piped.site.systems[0].pipe_runs[4]
    design = library.design(revise(piped.site, run.id, size="7"))
    table = runs_table(circuits(design)[0], Grounds(design), US)
    assert rows_of(table)[4]["Pipe"] == "PVC Sch 40, no size yet" and rows_of(table)[4]["Loss"] == DASH
    assert any(note.startswith("Pump discharge: ") and "size 7 in" in note for note in table.notes)
    assert "Runs without a standard size, not in it: 1." in take_off_table(circuits(design), US).notes


def test_the_head_adds_up_line_by_line(piped: SiteDesign, loop: CircuitSheets) -> None:
    table = head_table(loop, piped, US)
    body = [row for row in table.rows if row.kind is RowKind.BODY]
    named = {str(row.cells[0]): row for row in table.rows}
    losses = [value(row.cells[1]) for row in body if row.cells[0] != "Dirt on the filters"]
    clean = value(named["Total with clean filters"].cells[2])
    assert sum(losses) == pytest.approx(clean)
    assert losses[0] == 1.5 and value(named["Heater"].cells[1]) == 1.0 and value(named["Clean filter"].cells[1]) == 2.5
    assert value(named["Total with dirty filters"].cells[2]) == pytest.approx(clean + 5.0)
    assert value(named["Duty head of the pump"].cells[2]) == pytest.approx(piped.sheets["one"]["duty_head"])
    assert "Gutter drains" not in named and "Backwash line" not in named


def test_a_loss_that_is_not_known_ends_the_running_total(library: Library) -> None:
    site = revise(make_piped_site(), "one", equipment=EquipmentLosses())
    site = revise(site, "one", filters=site.systems[0].filters.revised(medium=FilterMedium.CARTRIDGE))
    design = library.design(site)
    table = head_table(circuits(design)[0], design, US)
    rows = {str(row.cells[0]): row for row in table.rows}
    assert rows["Head taken by equipment"].cells[2] == DASH and rows["Total with clean filters"].cells[2] == DASH
    assert any("Enter the head that a clean filter takes" in note for note in table.notes)


def test_the_pump_tells_flow_head_power_and_energy(piped: SiteDesign, loop: CircuitSheets) -> None:
    table = pump_table(loop, piped)
    left = {str(row.cells[0]): row.cells[1] for row in table.rows}
    right = {str(row.cells[2]): row.cells[3] for row in table.rows}
    assert value(left["Pumps in duty"]) == 2 and value(left["Pumps that stand by"]) == 1
    # Two pumps share the flow; 3 m and 10 % or 3 ft are needed at the suction.
    assert value(left["Duty flow of one pump"]) * 2 == pytest.approx(piped.sheets["one"]["design_flow"])
    assert value(left["Suction head needed"]) == pytest.approx(3.0 + 3 * FOOT)
    power = value(right["Power drawn by the recirculation pump"])
    season = value(right["Recirculation pump energy a season"])
    assert season == pytest.approx(power * piped.site.operation.season, rel=1e-6)
    assert value(right["Recirculation pump energy cost a season"]) == pytest.approx(
        season * piped.site.hydraulics.energy_price
    )
    assert any(note.startswith("Motor supply: three-phase, 460 V.") for note in table.notes)


def test_a_feature_has_one_operating_point(piped: SiteDesign) -> None:
    table = pump_table(circuits(piped)[1], piped)
    left = [row.cells[0] for row in table.rows]
    assert "Operating flow" in left and not any("filters" in str(label) for label in left)
    assert any("ask its supplier" in note for note in table.notes)


def test_the_pumps_of_the_site_add_up(piped: SiteDesign) -> None:
    table = site_pumps_table(circuits(piped), piped, US)
    *pumps, site = rows_of(table)
    assert [row["Pump of"] for row in pumps] == ["System 1", "System 1 › Meander river › Arch sprays"]
    for heading in ("Power drawn", "Energy a day", "Energy a season", "Cost a season", "In duty", "Standby"):
        assert sum(value(row[heading]) for row in pumps) == pytest.approx(value(site[heading])), heading


@pytest.mark.parametrize(("voltage", "other", "note"), [
    (SupplyVoltage.V460, SupplyVoltage.V230, TABLE_CURRENT),
    (SupplyVoltage.V400, SupplyVoltage.V400, ESTIMATED_CURRENT),
    (SupplyVoltage.V400, SupplyVoltage.V460, BOTH_CURRENTS),
])  # fmt: skip
def test_a_current_is_called_an_estimate_where_it_is_one(
    piped: SiteDesign, library: Library, voltage: SupplyVoltage, other: SupplyVoltage, note: str
) -> None:
    site = revise(piped.site, "one", pump=piped.site.systems[0].pump.revised(voltage=voltage))
    design = library.design(revise(site, "sprays", pump_plan=PumpPlan(voltage=other)))
    found = circuits(design)
    for table in (site_pumps_table(found, design, US), motors_table(found, design)):
        assert {told for told in table.notes if told.startswith("Motor current")} == {note}


def test_dirt_and_duty_say_who_stated_them(piped: SiteDesign, library: Library) -> None:
    table = head_table(circuits(piped)[0], piped, US)
    told = {str(row.cells[0]): str(row.cells[-1]) for row in table.rows}
    assert told["Dirt on the filters"] == "Usual allowances (common practice)"
    losses = piped.site.systems[0].equipment
    sheet_7 = library.design(revise(piped.site, "one", equipment=losses.revised(source="Sheet 7 of the supplier")))
    told = {str(row.cells[0]): str(row.cells[-1]) for row in head_table(circuits(sheet_7)[0], sheet_7, US).rows}
    assert told["Dirt on the filters"] == told["Strainer"] == "Sheet 7 of the supplier"
    site = revise(piped.site, "one", equipment=losses.revised(filter_dirt=None))
    site = revise(site, "one", filters=site.systems[0].filters.revised(medium=FilterMedium.HIGH_RATE_SAND))
    by_practice = library.design(site.revised(code_basis=("common-practice",)))
    told = {str(row.cells[0]): str(row.cells[-1]) for row in head_table(circuits(by_practice)[0], by_practice, US).rows}
    assert told["Dirt on the filters"].startswith("Common practice")
    assert told["Duty head of the pump"].count("Head with dirty filters") == 1


def test_branches_stand_in_the_head_once_and_say_what_they_are(piped: SiteDesign, library: Library) -> None:
    site = piped.site
    for run in [run for run in site.systems[0].pipe_runs if run.in_pump_head][:2]:
        site = revise(site, run.id, branch="North")
    design = library.design(site)
    circuit = circuits(design)[0]
    [row] = [row for row in head_table(circuit, design, US).rows if row.cells[0] == "Branches North"]
    assert "side by side" in str(row.cells[3])
    losses = [value(cell) for row in head_table(circuit, design, US).rows if not isinstance(cell := row.cells[1], str)]
    assert sum(losses) == pytest.approx(float(design.value("one", "head_dirty")))
    table = runs_table(circuit, Grounds(design), US)
    assert sum("branch North" in str(row["State"]) for row in rows_of(table)) == 2
    assert any("side by side" in note for note in table.notes)


def test_sums_say_which_pump_they_wait_for(piped: SiteDesign, library: Library) -> None:
    [supply, *_] = piped.site.systems[0].attractions[0].features[0].pipe_runs
    design = library.design(revise(piped.site, supply.id, size="7"))
    table = site_pumps_table(circuits(design), design, US)
    system, *_, site = rows_of(table)
    assert value(system["Power drawn"]) > 0 and site["Power drawn"] == DASH
    assert any(note.startswith("Sums wait for: ") and "Arch sprays" in note for note in table.notes)


def test_a_figure_set_by_hand_is_told_with_its_reason(piped: SiteDesign, library: Library) -> None:
    design = library.design(set_override(piped.site, "one", "pump_efficiency", 0.81, "The maker <tested> it"))
    notes = pump_table(circuits(design)[0], design).notes
    assert "Pump efficiency: set by hand. Reason: The maker <tested> it" in notes


def test_a_head_set_by_hand_says_what_it_does_to_the_curve(piped: SiteDesign, library: Library) -> None:
    assert not any("square of the flow" in note for note in pump_table(circuits(piped)[0], piped).notes)
    design = library.design(set_override(piped.site, "one", "head_clean", 30.0, "Measured"))
    assert any("square of the flow" in note for note in pump_table(circuits(design)[0], design).notes)


def test_the_take_off_counts_every_run_and_like_run(piped: SiteDesign) -> None:
    table = take_off_table(circuits(piped), US)
    *sizes, whole = rows_of(table)
    runs = [*piped.site.systems[0].pipe_runs, *piped.site.systems[0].attractions[0].features[0].pipe_runs]
    assert value(whole["Length"]) == pytest.approx(sum(run.length * run.count for run in runs))
    assert value(whole["Elbows 90°"]) == sum(run.elbows_90 * run.count for run in runs)
    assert value(whole["Tees"]) == sum((run.tees_run + run.tees_branch) * run.count for run in runs)
    for heading in ("Length", "Elbows 90°", "Tees", "Butterfly valves", "Check valves", "Runs"):
        assert sum(value(row[heading]) for row in sizes) == pytest.approx(value(whole[heading]))
    nominal = [float(str(row["Pipe"]).split(", ")[1].split(" ")[0]) for row in sizes]
    assert nominal == sorted(nominal) and len(set(nominal)) == len(nominal)


def test_metric_documents_name_pipes_by_nominal_diameter(piped: SiteDesign) -> None:
    def pipes(system: UnitSystem) -> list[str]:
        return [str(row.cells[0]) for row in take_off_table(circuits(piped), system).rows[:-1]]

    # ASME B36.10M: 4 in is DN 100, 6 in is DN 150, 8 in is DN 200.
    pairs = {"4": 100, "6": 150, "8": 200}
    sizes = [pipe.removeprefix("PVC Sch 40, ").removesuffix(" in") for pipe in pipes(US)]
    assert set(pairs) & set(sizes)
    for size, metric in zip(sizes, pipes(SI), strict=True):
        if size in pairs:
            assert metric == f"PVC Sch 40, DN {pairs[size]} ({size} in)"
    assert in_units("in the suction, HDPE DR 17, 8 in", SI) == "in the suction, HDPE DR 17, DN 200"
    assert in_units("Two-layer filter, 48 in vertical", SI) == "Two-layer filter, 48 in vertical"


def test_every_size_of_the_pipe_tables_has_a_nominal_diameter(library: Library) -> None:
    assert {size.nominal for size in library.stock.pipe_sizes} == set(NOMINAL_DIAMETERS)


def test_a_single_outlet_is_told_in_words(piped: SiteDesign) -> None:
    rows = {str(row["Body of water"]): row for row in rows_of(openings_table(piped, US))}
    assert "single outlet" in str(rows["Meander river"]["Remarks"])
    assert rows["Meander river"]["Flow of one outlet, one blocked"] == ""


def test_covers_are_rated_with_one_outlet_blocked(piped: SiteDesign, library: Library) -> None:
    design = library.design(revise(piped.site, "river", suction_outlets=3))
    row = next(row for row in rows_of(openings_table(design, US)) if row["Body of water"] == "Meander river")
    assert value(row["Flow of one outlet, one blocked"]) == pytest.approx(value(row["Design flow"]) / 2)


def test_each_pump_has_its_strainer(piped: SiteDesign) -> None:
    (row,) = rows_of(system_openings_table(circuits(piped), piped, US))
    assert row["System"] == "System 1" and value(row["Strainers"]) == 3
    assert str(row["Pump suction"]).startswith("PVC Sch 40, ")


def test_the_current_of_a_river_with_its_caution(piped: SiteDesign, library: Library) -> None:
    assert current_table(piped, US).rows == ()
    site = revise(piped.site, "sprays", current_speed=0.8, jet_speed=3.0, standing_people=5)
    design = library.design(site)
    (row,) = rows_of(current_table(design, US))
    walls, people, thrust = (value(row[name]) for name in LABELS)
    assert walls + people == pytest.approx(thrust)
    section = next(section for section in hydraulics_sections(design, US) if section.title == "River current")
    assert any(getattr(block, "title", "") == "Suction at river jets" for block in section.blocks)


def test_jets_of_a_river_are_drawn_and_listed_over_their_speed(piped: SiteDesign, library: Library) -> None:
    design = library.design(revise(piped.site, "sprays", current_speed=0.8, jet_speed=5.0))
    [section] = [one for one in hydraulics_sections(design, US) if one.title.startswith("Jet speed: ")]
    assert section.title.endswith("System 1 › Meander river › Arch sprays")
    table, flow, power = section.blocks
    assert isinstance(table, Table) and isinstance(flow, Chart) and isinstance(power, Chart)
    rows = rows_of(table)
    # Twice the current, at which power is least, to eight times, and the speed entered.
    assert [value(row["Jet speed"]) for row in rows] == pytest.approx([1.6, 3.2, 4.8, 5.0, 6.4])
    assert [row["Remarks"] for row in rows] == ["least power", "", "", "speed entered", ""]
    for label, key in (
        ("Jet flow needed", "jet_flow"),
        ("Bore of one jet", "jet_bore"),
        ("Head at the jets", "jet_head"),
    ):
        assert value(rows[3][label]) == pytest.approx(design.value("sprays", key)), label
    assert power.points[1].up == pytest.approx(design.value("sprays", "jet_power"))
    assert [point.along for point in flow.points] == pytest.approx([1.6, 5.0])
    flows = [up for _, up in flow.lines[0].points]
    assert flows == sorted(flows, reverse=True), "faster jets need less flow"


def test_a_river_whose_thrust_is_not_known_has_no_speeds(piped: SiteDesign, library: Library) -> None:
    lap = piped.site.systems[1].attractions[0].zones
    design = library.design(revise(revise(piped.site, "river", zones=lap), "sprays", current_speed=0.8))
    assert not any(one.title.startswith("Jet speed") for one in hydraulics_sections(design, US))


def test_features_stand_with_their_devices_and_what_they_need(piped: SiteDesign, library: Library) -> None:
    nozzle = Nozzle(bore=0.375 * INCH, head=30 * FOOT)
    design = library.design(revise(piped.site, "sprays", device=nozzle, transit_time=4.0))
    [row] = rows_of(features_table(design, US))
    assert row["Flow of one by"] == ("Nozzle: bore and head (bore 0.375 in, head 30 ft, discharge coefficient 0.95)")
    # 19.637 · 0.95 · 0.375² · √30 = 14.37 gpm.
    assert value(row["Flow of one"]) / (GALLON / MINUTE) == pytest.approx(14.37, rel=1e-3)
    assert value(row["Head at the device"]) / FOOT == pytest.approx(30)
    assert value(row["Feature flow"]) == pytest.approx(6 * value(row["Flow of one"]))
    [drawn] = rows_of(drawdown_table(design, US))
    assert value(drawn["Feature water in transit"]) == pytest.approx(4 * value(row["Feature flow"]))
    area = design.value("river", "surface_area")
    assert value(drawn["Drawdown by features"]) == pytest.approx(4 * value(row["Feature flow"]) / area)
    empty = library.design(revise(piped.site, "sprays", device=Nozzle(head=3.0)))
    assert any("Arch sprays: Enter bore." in note for note in features_table(empty, US).notes)


LABELS = ("Resistance of the walls", "Drag of people standing", "Thrust needed")


def test_a_river_without_a_channel_says_what_it_needs(piped: SiteDesign, library: Library) -> None:
    design = library.design(revise(make_piped_site(), "river", zones=piped.site.systems[1].attractions[0].zones))
    design = library.design(revise(design.site, "sprays", current_speed=0.8))
    assert any("channel zone" in note for note in current_table(design, US).notes)


def test_every_circuit_is_drawn(piped: SiteDesign) -> None:
    charts = [block for part in hydraulics_sections(piped, US) for block in part.blocks if isinstance(block, Chart)]
    assert len(charts) == len(circuits(piped)) == 2


def test_methods_to_be_confirmed_are_listed_once(piped: SiteDesign) -> None:
    table = hydraulics_sections(piped, US)[-1].blocks[0]
    assert isinstance(table, Table)
    texts = [str(row.cells[0]) for row in table.rows]
    assert len(texts) == len(set(texts)) > 4
    assert any("Colebrook" in text for text in texts)
    assert not any("Model Aquatic Health Code" in text for text in texts), "limits are no methods"


def test_a_spreadsheet_joins_the_runs_of_all_circuits_on_one_sheet(piped: SiteDesign) -> None:
    stream = io.BytesIO()
    write_xlsx(build_document(piped, "hydraulics", SI), stream)
    book = openpyxl.load_workbook(io.BytesIO(stream.getvalue()))
    assert book.sheetnames.count("Pipe runs in flow order") == 1 and len(book.sheetnames) < 15
    first = [row[0] for row in book["Pipe runs in flow order"].iter_rows(values_only=True)]
    assert (
        first.index("System 1")
        < first.index("Gutter drains")
        < first.index("System 1 › Meander river › Arch sprays")
        < first.index("Feature supply")
    )
    curves = list(book["Pump and system curves"].iter_rows(values_only=True))
    assert sum(isinstance(row[1], float) for row in curves) > 100


def test_a_site_without_pipes_says_so(design: SiteDesign) -> None:
    opening = hydraulics_sections(design, US)[0].blocks[-1]
    assert isinstance(opening, Table) and opening.rows == ()
    assert opening.empty == "No pump has pipe runs yet. Add runs to a system."

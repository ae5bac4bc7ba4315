"""The shipped pipes against the standards' dimensions, and what a broken table says."""

import csv
from pathlib import Path

import fluids.piping
import pytest

from waterpark_designer.engine.next_size import next_pipe
from waterpark_designer.pipe_tables import PipeSize, PipeTableError, read_pipe_materials, read_pipe_sizes
from waterpark_designer.resources import resources_folder
from waterpark_designer.units import INCH, PSI

SIZES = read_pipe_sizes(resources_folder())
PRINTED = Path(__file__).parent / "engine" / "published" / "pvc_inside_diameters.csv"


def size(material: str, schedule: str, nominal: str) -> PipeSize:
    return next(each for each in SIZES if (each.material, each.schedule, each.nominal) == (material, schedule, nominal))


def printed_rows() -> list[dict[str, str]]:
    with PRINTED.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


@pytest.mark.parametrize("schedule", ["40", "80"])
def test_average_inside_diameter_of_pvc(schedule: str) -> None:
    rows = printed_rows()
    assert len(rows) == 19
    for row in rows:
        pipe = size("pvc", f"Sch {schedule}", row["NPS_in"])
        assert pipe.outside_diameter / INCH == pytest.approx(float(row["OD_in"]), abs=6e-4)
        assert pipe.wall / INCH == pytest.approx(float(row[f"sch{schedule}_wall_min_in"]), abs=6e-4)
        assert pipe.inside_diameter / INCH == pytest.approx(float(row[f"sch{schedule}_ID_avg_in"]), abs=6e-4)
        assert pipe.inside_diameter < float(row[f"sch{schedule}_ID_nom_in"]) * INCH


# ASTM D1785, ratings of PVC 12454 at 73 °F [psi], recalled from memory.
@pytest.mark.parametrize(
    ("schedule", "ratings"),
    [
        ("Sch 40", {"0.5": 600, "1": 450, "2": 280, "3": 260, "4": 220, "6": 180, "8": 160, "10": 140, "12": 130}),
        ("Sch 80", {"0.5": 850, "1": 630, "2": 400, "3": 370, "4": 320, "6": 280, "8": 250, "10": 230, "12": 230}),
    ],
)
def test_pressure_rating_of_pvc(schedule: str, ratings: dict[str, int]) -> None:
    for nominal, rating in ratings.items():
        pipe = size("pvc", schedule, nominal)
        assert pipe.pressure_rating == pytest.approx(rating * PSI)
        # ASTM D1785: 2 · S · t / (D − t) with S = 2,000 psi.
        by_stress = 2 * 2000 * PSI * pipe.wall / (pipe.outside_diameter - pipe.wall)
        assert by_stress == pytest.approx(rating * PSI, abs=5.5 * PSI)


def test_steel_is_that_of_the_standard() -> None:
    for pipe in (each for each in SIZES if each.material == "steel"):
        _, inside, outside, wall = fluids.piping.nearest_pipe(NPS=float(pipe.nominal), schedule="40")
        assert (pipe.inside_diameter, pipe.outside_diameter, pipe.wall) == pytest.approx(
            (inside, outside, wall), abs=2e-5
        )
        assert pipe.pressure_rating is None


def test_polyethylene_has_a_seventeenth_of_its_diameter_for_wall() -> None:
    pipes = [each for each in SIZES if each.material == "hdpe"]
    assert len(pipes) == 14
    for pipe in pipes:
        assert pipe.wall == pytest.approx(pipe.outside_diameter / 17, abs=6e-4 * INCH)
        assert pipe.inside_diameter == pytest.approx(pipe.outside_diameter - 2 * 1.06 * pipe.wall, abs=6e-4 * INCH)
        # 2 S / (DR − 1) with S 1,000 psi.
        assert pipe.pressure_rating == pytest.approx(2 * 1000 / 16 * PSI)


def test_every_pipe_has_its_material_and_source() -> None:
    materials = read_pipe_materials(resources_folder())
    assert {pipe.material for pipe in SIZES} == set(materials)
    assert all(len(each.source) > 20 for each in (*SIZES, *materials.values()))
    # EPANET 2.2 manual: 0.005 millifeet of roughness for plastic; steel 0.00015 ft.
    assert materials["pvc"].roughness == pytest.approx(0.005e-3 * 0.3048, rel=0.02)
    assert materials["steel"].roughness == pytest.approx(0.00015 * 0.3048, rel=0.02)
    assert materials["pvc"].elastic_modulus == pytest.approx(400_000 * PSI, rel=0.01)


def test_next_pipe_is_the_smallest_wide_enough() -> None:
    def chosen(inches: float) -> str | None:
        pipe = next_pipe(inches * INCH, SIZES, "pvc", "Sch 40")
        return pipe and pipe.label

    assert [chosen(5.834), chosen(6.031), chosen(6.04)] == ["6 in Sch 40", "6 in Sch 40", "8 in Sch 40"]
    assert chosen(23.0) is None
    assert next_pipe(0.1, SIZES, "copper", "L") is None


@pytest.mark.parametrize(
    ("row", "says"), [("pvc,Sch 40,2,wide,2.047,0.154,280,someone", "row 2"), ("pvc,Sch 40", "row 2")]
)
def test_a_broken_row_is_named(tmp_path: Path, row: str, says: str) -> None:
    header = "material,schedule,nps_in,outside_in,inside_average_in,wall_in,pressure_psi,source"
    (tmp_path / "pipe_sizes.csv").write_text(f"{header}\n{row}\n", encoding="utf-8")
    with pytest.raises(PipeTableError, match=says):
        read_pipe_sizes(tmp_path)

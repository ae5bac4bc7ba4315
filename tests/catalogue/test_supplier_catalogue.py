"""Catalogues of the user's own: any unit is read, and every row at fault is named with what would be right."""

import errno
from pathlib import Path

import pytest

from waterpark_designer.catalogue.catalogue import COLUMNS, CatalogueError, read_supplier_catalogue
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.units import FOOT, GALLON, INCH, POUND

HEADER = ",".join(COLUMNS)
GOOD = "pump,Pump A,100,gpm,5.5,,Data sheet 1"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "sizes.csv"


def read(path: Path, *rows: str, header: str = HEADER) -> tuple[CatalogueItem, ...]:
    path.write_text("\n".join([header, *rows]) + "\n", encoding="utf-8")
    return read_supplier_catalogue(path)


def refusal(path: Path, *rows: str, header: str = HEADER) -> tuple[str, ...]:
    with pytest.raises(CatalogueError) as refused:
        read(path, *rows, header=header)
    assert str(refused.value).startswith("“sizes.csv” cannot be used as a catalogue.\n")
    return refused.value.problems


class TestReading:
    @pytest.mark.parametrize(
        ("kind", "size", "unit", "value"),
        [
            ("high_rate_sand_filter", "28.27", "ft²", 28.27 * FOOT**2),
            ("High-rate sand filter", "28.27", "ft^2", 28.27 * FOOT**2),
            ("two_layer_filter", "3.14", "m2", 3.14),
            ("in_return_cells", "1,000", "g/h", 1 / 3600),
            ("brine_fed_generator", "400", "lb/d", 400 * POUND / 86400),
            ("feed_pump", "5", "gph", 5 * GALLON / 3600),
            ("solution_tank", "200", "L", 0.2),
            ("holding_tank", "10,000", "gal", 10_000 * GALLON),
            ("ultraviolet_reactor", "150", "m3/h", 150 / 3600),
            ("pump", "600", "gal/min", 600 * GALLON / 60),
            ("pump", "20", "L/s", 0.02),
            ("pipe", "6.031", "in", 6.031 * INCH),
            ("pipe", "150", "mm", 0.15),
        ],
    )
    def test_any_unit_of_the_measure(self, path: Path, kind: str, size: str, unit: str, value: float) -> None:
        (item,) = read(path, f'{kind},Name,"{size}",{unit},,,Data sheet')
        assert item.size == pytest.approx(value, rel=1e-12)

    def test_all_fields(self, path: Path) -> None:
        items = read(path, 'pump," Pump A, 5 kW ",100,gpm,5.5,"Wet, dry",Data sheet 1')
        assert items == (
            CatalogueItem(
                kind=ItemKind.PUMP,
                name="Pump A, 5 kW",
                size=100 * GALLON / 60,
                power=5500.0,
                remarks="Wet, dry",
                source="Data sheet 1",
            ),
        )

    def test_columns_in_any_order_and_case_and_blank_rows(self, path: Path) -> None:
        header = "Source, NAME ,kind,unit,size,remarks,power_kw"
        assert read(path, "", "Data sheet 1,Pump A,pump,gpm,100,,5.5", ",,,,,,", header=header) == read(path, GOOD)

    @pytest.mark.parametrize("separator", [";", "\t"])
    def test_other_separators_that_spreadsheets_write(self, path: Path, separator: str) -> None:
        again = read(path, GOOD.replace(",", separator), header=HEADER.replace(",", separator))
        assert again == read(path, GOOD)

    def test_byte_order_mark_and_line_ends_of_a_spreadsheet(self, path: Path) -> None:
        path.write_bytes(b"\xef\xbb\xbf" + f"{HEADER}\r\n{GOOD}\r\n".encode())
        assert len(read_supplier_catalogue(path)) == 1

    def test_the_same_name_for_another_kind(self, path: Path) -> None:
        assert len(read(path, "pump,Type 1,100,gpm,,,S", "ozone_contactor,Type 1,100,gpm,,,S")) == 2

    def test_text_that_looks_like_a_formula_is_only_text(self, path: Path) -> None:
        (item,) = read(path, "pump,=1+1,100,gpm,,@SUM(A1),S")
        assert (item.name, item.remarks) == ("=1+1", "@SUM(A1)")


class TestRefusals:
    @pytest.mark.parametrize(
        ("row", "problem"),
        [
            ("boiler,A,100,gpm,,,S", "Row 2, kind: “boiler” is not known. Write one of high_rate_sand_filter, "),
            (",A,100,gpm,,,S", "Row 2, kind: “” is not known."),
            ("pump,,100,gpm,,,S", "Row 2, name: It is empty. Give each size a name."),
            (f"pump,{'n' * 121},100,gpm,,,S", "Row 2, name: It has 121 characters. Write at most 120."),
            ("pump,A,many,gpm,,,S", "Row 2, size: “many” is not a number. Write one such as 12.5, without its unit."),
            ("pump,A,,gpm,,,S", "Row 2, size: “” is not a number."),
            ("pump,A,100 gpm,gpm,,,S", "Row 2, size: “100 gpm” is not a number."),
            ('pump,A,"12,5",gpm,,,S', "Row 2, size: “12,5” is not a number."),
            ("pump,A,nan,gpm,,,S", "Row 2, size: “nan” is not a number."),
            ("pump,A,NaN,gpm,,,S", "Row 2, size: “NaN” is not a number."),
            ("pump,A,inf,gpm,,,S", "Row 2, size: “inf” is not a number."),
            ("pump,A,1e999,gpm,,,S", "Row 2, size: “1e999” is not a number."),
            ("pump,A,-100,gpm,,,S", "Row 2, size: -100 is not a size. Write a number above zero."),
            ("pump,A,0,gpm,,,S", "Row 2, size: 0 is not a size. Write a number above zero."),
            ("pump,A,1e300,gpm,,,S", "Row 2, size: 1e300 gpm is beyond any real size. Check number and unit."),
            ("pump,A,100,,,,S", "Row 2, unit: It is empty. Write gpm or m³/h."),
            ("pump,A,100,kg,,,S", "Row 2, unit: “kg” is not a unit of flow. Write gpm or m³/h."),
            ("pump,A,100,furlongs per,,,S", "Row 2, unit: “furlongs per” is not a unit of flow. Write gpm or m³/h."),
            ("pump,A,100,gpm,five,,S", "Row 2, power_kw: “five” is not a number."),
            ("pump,A,100,gpm,-5,,S", "Row 2, power_kw: -5 is not a power. Write kilowatts from 0 to 10,000"),
            ("pump,A,100,gpm,nan,,S", "Row 2, power_kw: “nan” is not a number."),
            ("pump,A,100,gpm,5e9,,S", "Row 2, power_kw: 5e9 is not a power."),
            ("pump,A,100,gpm,,,", "Row 2, source: It is empty. Say where the size comes from."),
            (f"pump,A,100,gpm,,,{'s' * 401}", "Row 2, source: It has 401 characters. Write at most 400."),
            (
                "pump,A,100,gpm,,S",
                "Row 2 has 6 cells where 7 belong. Put quotation marks round text with a comma in it.",
            ),
            ("pump,Pump A, large,100,gpm,,,S", "Row 2 has 8 cells where 7 belong."),
        ],
    )
    def test_row_column_and_remedy(self, path: Path, row: str, problem: str) -> None:
        (found,) = refusal(path, row)
        assert found.startswith(problem)

    def test_every_bad_row_is_listed(self, path: Path) -> None:
        problems = refusal(path, GOOD, "boiler,,100,gpm,many,,", "", "pump,B,x,gpm,,,S", "pump,pump a,100,gpm,,,S")
        assert [problem.partition(":")[0] for problem in problems] == [
            "Row 3, kind",
            "Row 3, power_kw",
            "Row 3, name",
            "Row 3, source",
            "Row 5, size",
            "Row 6, name",
        ]
        assert "“pump a” stands in row 2 already" in problems[-1]

    def test_a_long_list_is_cut_in_the_message_only(self, path: Path) -> None:
        with pytest.raises(CatalogueError) as refused:
            read(path, *[f"boiler,{number},1,gpm,,,S" for number in range(50)])
        assert len(refused.value.problems) == 50
        assert str(refused.value).count("\n") == 21
        assert str(refused.value).endswith("… and 30 more.")

    def test_wrong_columns(self, path: Path) -> None:
        problems = refusal(path, GOOD, header="kind,name,size,unit,power,remarks,remarks")
        assert problems == (
            "Row 1: the column “power_kw” is missing.",
            "Row 1: the column “source” is missing.",
            "Row 1: the column “power” is not known.",
            "Row 1: the column “remarks” is there twice.",
            f"The columns are: {', '.join(COLUMNS)}.",
        )

    def test_column_without_a_name(self, path: Path) -> None:
        assert "Row 1: column 8 has no name." in refusal(path, GOOD + ",", header=HEADER + ",")

    @pytest.mark.parametrize("content", [b"", b"\n\n", b"\xef\xbb\xbf"])
    def test_empty_file(self, path: Path, content: bytes) -> None:
        path.write_bytes(content)
        with pytest.raises(CatalogueError, match="It is empty. Its first row names the columns: kind, name"):
            read_supplier_catalogue(path)

    def test_columns_alone(self, path: Path) -> None:
        assert refusal(path) == ("It has column names but no sizes. Put one size in each row below them.",)

    def test_not_utf8(self, path: Path) -> None:
        path.write_bytes(f"{HEADER}\npump,Größe,100,gpm,,,S\n".encode("latin-1"))
        with pytest.raises(CatalogueError, match="not UTF-8 text. Save it from your spreadsheet as “CSV UTF-8”"):
            read_supplier_catalogue(path)

    @pytest.mark.parametrize("row", ['pump,"A,100,gpm,,,S', 'pump,"A"B,100,gpm,,,S'])
    def test_quotation_marks_left_open(self, path: Path, row: str) -> None:
        assert "not a table of comma-separated values" in refusal(path, row)[0]

    def test_too_large(self, path: Path) -> None:
        with path.open("wb") as file:
            file.truncate(5_000_001)
        with pytest.raises(CatalogueError, match="larger than 5 MB"):
            read_supplier_catalogue(path)

    def test_too_many_rows(self, path: Path) -> None:
        (problem,) = refusal(path, *["boiler"] * 5001)
        assert problem == "It has 5,001 rows. Keep at most 5,000 sizes, those you use."

    def test_not_there(self, path: Path) -> None:
        with pytest.raises(CatalogueError, match="It does not exist"):
            read_supplier_catalogue(path)

    def test_folder(self, tmp_path: Path) -> None:
        with pytest.raises(CatalogueError, match="It cannot be read"):
            read_supplier_catalogue(tmp_path)

    def test_no_permission(self, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        def closed(*_: object) -> None:
            raise PermissionError(errno.EACCES, "Permission denied")

        monkeypatch.setattr(Path, "open", closed)
        with pytest.raises(CatalogueError, match="It cannot be read: Permission denied"):
            read_supplier_catalogue(path)

"""The commands as a user runs them: what they print, where, and how they end."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import NamedTuple

import openpyxl
import pypdf
import pytest

from tests.documents.invented_site import make_piped_site, make_site
from waterpark_designer import app, headless
from waterpark_designer.arguments import COMMANDS, wants_window
from waterpark_designer.documents.register import DOCUMENTS
from waterpark_designer.library import Library
from waterpark_designer.model.edits import insert, revise
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_points import new_site, new_system
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.project_file import save_project

ROOT = Path(__file__).resolve().parent.parent
SAMPLES = sorted(samples_folder().glob("*.waterpark"))


class Ended(NamedTuple):
    code: int
    out: str
    err: str


def run(*arguments: str | Path) -> Ended:
    """Run the program in a process of its own, with no display to be found."""
    environment = {key: value for key, value in os.environ.items() if not key.startswith(("QT_", "DISPLAY", "WAYLAND"))}
    done = subprocess.run(
        [sys.executable, "-m", "waterpark_designer", *map(str, arguments)],
        capture_output=True,
        check=False,
        timeout=60,
        cwd=ROOT,
        env=environment,
    )
    return Ended(done.returncode, done.stdout.decode(), done.stderr.decode())


def call(capsys: pytest.CaptureFixture[str], *arguments: str | Path) -> Ended:
    """Run a command within this process."""
    code = app.main([str(argument) for argument in arguments])
    return Ended(code, *capsys.readouterr())


def saved(site: Site, folder: Path) -> Path:
    path = folder / "park.waterpark"
    save_project(site, path, None)
    return path


@pytest.fixture
def park(tmp_path: Path) -> Path:
    return saved(make_site(), tmp_path)


@pytest.fixture
def broken_park(tmp_path: Path) -> Path:
    """A park whose river turns over too slowly."""
    return saved(revise(make_site(), "one", fixed_flow=0.01), tmp_path)


def test_figures_as_a_table_in_either_units(park: Path, capsys: pytest.CaptureFixture[str]) -> None:
    us = call(capsys, "figures", park)
    assert (us.code, us.err) == (0, "")
    assert "1,427 gpm" in us.out and "Units: US customary." in us.out
    si = call(capsys, "figures", park, "--units", "si")
    # 486 m³ in 1.5 h.
    assert "324.0 m³/h" in si.out and "gpm" not in si.out


def test_figures_as_json(park: Path, capsys: pytest.CaptureFixture[str]) -> None:
    ended = call(capsys, "figures", park, "--format", "json", "--units", "si")
    data = json.loads(ended.out)
    assert ended.code == 0 and data["units"] == "si"
    assert {node["sort"] for node in data["nodes"]} == {
        "site",
        "recirculation system",
        "body of water",
        "zone",
        "feature",
    }
    assert data["project"]["name"] == "Quillwater <draft> & Сад"
    assert data["project"]["currency"] == "$"
    assert {check["status"] for check in data["checks"]} <= {"met", "not_met", "caution", "unknown", "silent"}


def test_pipes_and_pumps_are_told_by_discipline(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = saved(make_piped_site(), tmp_path)
    lines = call(capsys, "figures", path).out.splitlines()
    start = next(number for number, line in enumerate(lines) if line.startswith("System 1   "))
    sheet = lines[start : lines.index("", start)]
    titles = [line.strip() for line in sheet if line.startswith("  ") and not line.startswith("    ")]
    assert titles.index("Hydraulics") < titles.index("Power") < titles.index("Disinfection")
    below = sheet[sheet.index("  Power") + 1]
    assert below.strip().startswith("Hydraulic power of one pump") and " hp " in below
    run = lines.index("System 1 › Gutter drains   Pipe run")
    assert lines[run + 1] == "  Hydraulics" and "Flow of one run" in lines[run + 2]


def test_reading_changes_nothing_on_disk(park: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = park.read_bytes()
    for command in (
        ("figures", park),
        ("checks", park),
        ("export", park, "--document", "checks", "--to", park.with_suffix(".csv")),
    ):
        call(capsys, *command)
    assert park.read_bytes() == before
    assert {path.name for path in park.parent.iterdir()} == {"park.waterpark", "park.csv"}


def test_checks_end_with_0_where_all_are_met(park: Path, capsys: pytest.CaptureFixture[str]) -> None:
    ended = call(capsys, "checks", park)
    assert ended.code == 0 and "✓ met" in ended.out and "✗" not in ended.out


def test_checks_end_with_1_where_some_are_not(broken_park: Path, capsys: pytest.CaptureFixture[str]) -> None:
    ended = call(capsys, "checks", broken_park)
    assert ended.code == 1 and "✗ not met" in ended.out and ended.err == ""


def test_silence_is_no_failure(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    site = make_site().revised(code_basis=(), amendments=())
    ended = call(capsys, "checks", saved(site, tmp_path))
    assert "– code silent" in ended.out
    assert ended.code == 0


@pytest.mark.parametrize("content", [None, b"", b"{", b"[]", b"\xff\xfe", b'{"format_version": 9999}'])
@pytest.mark.parametrize("command", ["figures", "checks"])
def test_what_cannot_be_read_ends_with_2_and_one_plain_sentence(
    command: str, content: bytes | None, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "park.waterpark"
    if content is not None:
        path.write_bytes(content)
    ended = call(capsys, command, path)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith("waterpark-designer: “park.waterpark” ") and "Traceback" not in ended.err


def test_pipes_of_a_system_without_water_stop_no_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    site = new_site()
    path = saved(insert(site, site.id, new_system(site)), tmp_path)
    assert call(capsys, "figures", path).code == 0
    assert call(capsys, "figures", path, "--format", "json").code == 0
    assert call(capsys, "checks", path).code == 0
    assert call(capsys, "export", path, "--document", "all", "--to", tmp_path / "all.xlsx") == Ended(0, "", "")


@pytest.mark.parametrize("suffix", [".pdf", ".xlsx", ".csv"])
def test_export_writes_what_its_suffix_says(park: Path, suffix: str, capsys: pytest.CaptureFixture[str]) -> None:
    target = park.with_name(f"salt{suffix}")
    ended = call(capsys, "export", park, "--document", "salt-schedule", "--to", target)
    assert ended == Ended(0, "", "")
    if suffix == ".pdf":
        assert "Start-up salt" in pypdf.PdfReader(target).pages[0].extract_text()
    elif suffix == ".xlsx":
        assert "Start-up salt" in openpyxl.load_workbook(target).sheetnames
    else:
        assert "Start-up salt" in target.read_text(encoding="utf-8-sig")


def test_export_in_other_units(park: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = park.with_name("salt.csv")
    call(capsys, "export", park, "--document", "salt-schedule", "--to", target, "--units", "si")
    assert "Salt (kg)" in target.read_text(encoding="utf-8-sig")


def test_an_export_that_fails_ends_with_1(park: Path, capsys: pytest.CaptureFixture[str]) -> None:
    ended = call(capsys, "export", park, "--document", "checks", "--to", park.parent / "nowhere" / "checks.pdf")
    assert (ended.code, ended.out) == (1, "")
    assert ended.err == (
        "waterpark-designer: “checks.pdf” was not written: the folder does not exist. Choose another folder.\n"
    )
    ended = call(capsys, "export", park, "--document", "checks", "--to", park.with_suffix(".doc"))
    assert ended.code == 1 and "must end in .pdf, .xlsx or .csv" in ended.err


@pytest.mark.parametrize(
    "arguments",
    [
        ("nonsense",),
        ("figures",),
        ("figures", "a", "--units", "imperial"),
        ("export", "a", "--to", "b.pdf"),
        ("export", "a", "--document", "nothing", "--to", "b.pdf"),
        ("--wrong",),
        ("a.waterpark", "b.waterpark"),
    ],
)
def test_misuse_ends_with_2_and_says_how_it_is_used(
    arguments: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        app.main(arguments)
    assert ended.value.code == 2
    assert "usage: waterpark-designer" in capsys.readouterr().err


def test_the_manual_tells_commands_documents_exit_codes_and_examples(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        app.main(["--help"])
    manual = capsys.readouterr().out
    assert ended.value.code == 0
    assert all(f"\n  {name} " in manual for name in DOCUMENTS)
    assert all(f"{command} FILE" in manual for command in COMMANDS)
    assert all(part in manual for part in ("exit codes\n  0  ", "\n  1  ", "\n  2  ", "examples\n"))
    assert max(map(len, manual.splitlines())) <= 120


def test_examples_of_the_manual_are_understood(capsys: pytest.CaptureFixture[str]) -> None:
    """Every example with a command is one that the parser takes."""
    with pytest.raises(SystemExit):
        app.main(["--help"])
    examples = capsys.readouterr().out.partition("examples\n")[2].partition("\n\n")[0]
    understood = 0
    for line in examples.splitlines():
        words = line.split(">")[0].split("&&")[0].replace('"', "").replace("park, revision B", "park").split()
        if words[1] in COMMANDS:
            headless.make_parser().parse_args(words[1:])
            understood += 1
    assert understood >= 5


def test_the_version(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        app.main(["--version"])
    assert ended.value.code == 0
    assert capsys.readouterr().out.startswith("waterpark-designer 0.")


@pytest.mark.parametrize(
    "arguments, asks",
    [
        ((), True),
        (("park.waterpark",), True),
        (("PARK.WATERPARK",), True),
        (("figures", "park.waterpark"), False),
        (("figures",), False),
        (("--help",), False),
        (("--version",), False),
        (("nonsense",), False),
        (("a.waterpark", "b.waterpark"), False),
    ],
)
def test_when_the_window_is_asked_for(arguments: tuple[str, ...], asks: bool) -> None:
    assert wants_window(arguments) is asks


def test_a_file_by_any_name_opens_in_the_window(tmp_path: Path) -> None:
    (tmp_path / "old park").touch()
    assert wants_window([str(tmp_path / "old park")])


def test_without_a_command_the_window_opens(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[tuple[list[str], int, Path]] = []

    def run_window(arguments: list[str], library: Callable[[], Library], samples: Path) -> int:
        asked.append((arguments, len(library().rule_sets), samples))
        return 7

    stand_in = ModuleType("waterpark_designer.gui.application")
    stand_in.run_window = run_window  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, stand_in.__name__, stand_in)
    assert app.main(["park.waterpark"]) == 7
    ((arguments, rule_sets, samples),) = asked
    assert (arguments, samples) == (["park.waterpark"], samples_folder()) and rule_sets >= 7


def test_in_a_process_of_its_own_without_a_display(broken_park: Path) -> None:
    ended = run("checks", broken_park)
    assert ended.code == 1 and "✗ not met" in ended.out and ended.err == ""


def test_no_command_loads_qt(park: Path) -> None:
    program = (
        "import sys; from waterpark_designer.app import main;"
        "codes = [main(['figures', sys.argv[1]]), main(['checks', sys.argv[1]]),"
        " main(['export', sys.argv[1], '--document', 'all', '--to', sys.argv[1] + '.pdf'])];"
        "print('codes', codes, 'Qt', [name for name in sys.modules if name.startswith(('PySide6', 'shiboken'))])"
    )
    done = subprocess.run(
        [sys.executable, "-c", program, str(park)], capture_output=True, check=False, timeout=60, cwd=ROOT
    )
    assert done.stdout.decode().splitlines()[-1] == "codes [0, 0, 0] Qt []", done.stderr.decode()


@pytest.mark.skipif(sys.platform == "win32", reason="needs a POSIX pipe")
@pytest.mark.parametrize("words", [("figures", "--format", "json"), ("figures",), ("checks",)])
def test_a_reader_that_goes_away_hears_no_complaint(broken_park: Path, words: tuple[str, ...]) -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "waterpark_designer", *words, str(broken_park)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=ROOT,
    )
    assert process.stdout is not None and process.stderr is not None
    process.stdout.close()
    complaint = process.stderr.read()
    process.stderr.close()
    assert (process.wait(timeout=60), complaint) == (1 if words[0] == "checks" else 0, b"")


def test_text_is_utf_8_whatever_the_machine_is_set_to(park: Path) -> None:
    environment = {**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    done = subprocess.run(
        [sys.executable, "-m", "waterpark_designer", "figures", str(park)],
        capture_output=True,
        check=False,
        timeout=60,
        cwd=ROOT,
        env=environment,
    )
    assert done.returncode == 0 and "Бухта" in done.stdout.decode("utf-8")


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
class TestSamples:
    """Every command on every sample."""

    def test_figures(self, path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        assert call(capsys, "figures", path).code == 0
        data = json.loads(call(capsys, "figures", path, "--format", "json").out)
        figures = [figure for node in data["nodes"] for figure in node["figures"]]
        assert len(figures) > 100 and all(figure["source"] for figure in figures if "needs" not in figure)

    def test_checks(self, path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        ended = call(capsys, "checks", path)
        assert ended.code == (1 if "✗ not met" in ended.out else 0)

    @pytest.mark.parametrize("name", DOCUMENTS)
    def test_export(self, path: Path, name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        for suffix in (".pdf", ".xlsx", ".csv"):
            target = tmp_path / f"{name}{suffix}"
            assert call(capsys, "export", path, "--document", name, "--to", target) == Ended(0, "", "")
            assert target.stat().st_size > 500
        pages = pypdf.PdfReader(tmp_path / f"{name}.pdf").pages
        assert f"Page {len(pages)} of {len(pages)}" in pages[-1].extract_text()


def test_the_samples_show_a_check_that_is_not_met(capsys: pytest.CaptureFixture[str]) -> None:
    codes = [call(capsys, "checks", path).code for path in SAMPLES]
    assert len(codes) == 3 and 1 in codes and 0 in codes

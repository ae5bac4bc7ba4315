"""The direction of imports, what stays out of the way of a quick start, and the manners of the code."""

import ast
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "waterpark_designer"
MODULES = sorted(PACKAGE.rglob("*.py"))
SOURCES = sorted([*MODULES, *(ROOT / "tests").rglob("*.py")])

BASE = {"units", "sources", "resources", "pipe_tables", "motor_tables", "drive_tables"}
MODEL = BASE | {"model"}
ENGINE = MODEL | {"rules", "catalogue", "engine"}
DOCUMENTS = ENGINE | {"library", "documents"}
HEADLESS = DOCUMENTS | {"storage", "arguments", "headless"}

MAY_IMPORT: dict[str, set[str]] = {
    "__init__": set(),
    "expressions": set(),
    "paper_units": set(),
    "units": {"expressions", "paper_units"},
    "sources": set(),
    "resources": set(),
    "pipe_tables": {"units"},
    "motor_tables": {"units", "sources"},
    "drive_tables": {"units"},
    "model": MODEL,
    "rules": MODEL | {"rules"},
    "catalogue": MODEL | {"catalogue"},
    "engine": ENGINE - {"resources"},
    "library": ENGINE,
    "documents": DOCUMENTS,
    "storage": {"units", "model", "storage"},
    "arguments": {"storage"},
    "headless": HEADLESS,
    "gui": HEADLESS | {"gui"},
    "app": HEADLESS | {"gui", "app"},
    "__main__": {"app"},
}
"""What each part of the package may import of the package; a part that is not listed fails."""

GUARDED: dict[str, re.Pattern[str]] = {
    "PySide6": re.compile(r"gui/|app\.py"),
    "shiboken6": re.compile(r"gui/|app\.py"),
    "reportlab": re.compile(r"documents/pdf\w*\.py"),
    "xlsxwriter": re.compile(r"documents/xlsx\w*\.py"),
    "pint": re.compile(r"units\.py"),
}
"""Where each of these may be imported, by path within the package."""

ENGINE_NEVER = {
    "time",
    "datetime",
    "os",
    "pathlib",
    "io",
    "random",
    "tempfile",
    "shutil",
    "socket",
    "subprocess",
    "threading",
    "logging",
    "locale",
    "secrets",
    "uuid",
}
LAZY = {"pint", "reportlab", "xlsxwriter", "numpy"}
LONGEST_MODULE = 400
LONGEST_BODY = 50


def name_of(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def within_package(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), str(path))


def imported(path: Path) -> set[str]:
    """Every dotted name a module imports, wherever it stands, each name of `from … import` included."""
    found: set[str] = set()
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = absolute_base(path, node)
            found |= {base} | {f"{base}.{alias.name}" for alias in node.names}
    return found


def absolute_base(path: Path, node: ast.ImportFrom) -> str:
    """The dotted name after `from`, with the leading dots of a relative import resolved."""
    if not node.level:
        return node.module or ""
    parents = path.relative_to(ROOT).with_suffix("").parts[: -node.level]
    return ".".join([*parents, *([node.module] if node.module else [])])


def parts_imported(path: Path) -> set[str]:
    """The parts of the package that a module imports."""
    dotted = (name.split(".") for name in imported(path))
    return {parts[1] for parts in dotted if parts[0] == PACKAGE.name and len(parts) > 1}


def bodies(path: Path) -> Iterator[tuple[str, int]]:
    """(name, lines of the body less its docstring) of every function."""
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            body = node.body[1:] if ast.get_docstring(node) is not None else node.body
            yield node.name, (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0


@pytest.mark.parametrize("path", MODULES, ids=within_package)
def test_imports_point_down(path: Path) -> None:
    part = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
    assert part in MAY_IMPORT, f"{part} has no place in the direction of imports yet"
    assert parts_imported(path) <= MAY_IMPORT[part]


@pytest.mark.parametrize("path", MODULES, ids=within_package)
def test_outside_libraries_stay_where_they_belong(path: Path) -> None:
    outside = {name.split(".")[0] for name in imported(path)}
    strays = {name for name in outside & GUARDED.keys() if not GUARDED[name].match(within_package(path))}
    assert not strays


@pytest.mark.parametrize("path", sorted((PACKAGE / "engine").rglob("*.py")), ids=within_package)
def test_engine_reads_no_clock_file_or_setting(path: Path) -> None:
    assert not {name.split(".")[0] for name in imported(path)} & ENGINE_NEVER
    called = {
        node.func.id
        for node in ast.walk(tree_of(path))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    assert not called & {"open", "input", "print", "exec", "eval", "__import__"}


@pytest.mark.parametrize(
    "sample, found",
    [
        ("import pint", {"pint"}),
        ("def late():\n    import pint.util", {"pint.util"}),
        ("from waterpark_designer import gui", {"waterpark_designer", "waterpark_designer.gui"}),
        ("from ..gui.theme import role", {"waterpark_designer.gui.theme", "waterpark_designer.gui.theme.role"}),
    ],
)
def test_every_way_to_import_is_seen(monkeypatch: pytest.MonkeyPatch, sample: str, found: set[str]) -> None:
    path = PACKAGE / "engine" / "sample.py"
    monkeypatch.setattr(Path, "read_text", lambda self, encoding: sample)
    assert imported(path) == found


def loaded_by(modules: str) -> set[str]:
    """Top-level modules loaded once these are imported, in a fresh interpreter."""
    program = f"import sys, {modules}; print(*{{name.split('.')[0] for name in sys.modules}})"
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, cwd=ROOT, timeout=60, check=False
    )
    assert done.returncode == 0, done.stderr
    return set(done.stdout.split())


def test_headless_work_needs_no_window_and_starts_quickly() -> None:
    loaded = loaded_by("waterpark_designer.app, waterpark_designer.headless")
    assert not loaded & (LAZY | {"PySide6"})
    assert "pydantic" in loaded


def test_the_window_opens_before_the_slow_libraries_are_read() -> None:
    loaded = loaded_by("waterpark_designer.app, waterpark_designer.gui.application")
    assert not loaded & (LAZY | {"pydantic"})
    assert "PySide6" in loaded


@pytest.mark.parametrize("path", SOURCES, ids=name_of)
def test_modules_and_functions_stay_small(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST_MODULE
    assert {name: lines for name, lines in bodies(path) if lines > LONGEST_BODY} == {}


@pytest.mark.parametrize("path", MODULES, ids=within_package)
def test_public_functions_and_classes_say_what_they_do(path: Path) -> None:
    tree = tree_of(path)
    public = (node for node in tree.body if isinstance(node, ast.FunctionDef | ast.ClassDef))
    silent = [node.name for node in public if not node.name.startswith("_") and not ast.get_docstring(node)]
    assert silent == []
    assert not tree.body or ast.get_docstring(tree), "the module has no docstring"


def test_the_installed_qt_binding_gives_back_what_it_borrows() -> None:
    """PySide6 6.12.0 under Python 3.11 loses a reference to None in each call and so ends the program."""
    from PySide6.QtCore import QObject

    borrower = QObject()
    before = sys.getrefcount(None)
    for _ in range(500):
        borrower.setObjectName("again")
    assert abs(sys.getrefcount(None) - before) < 100


TEXT_FILES = {".py", ".md", ".toml", ".csv", ".json", ".txt", ".waterpark", ".yml", ".yaml", ".sh", ""}
LEFT_ALONE = {".git", ".venv", "build", "dist", "__pycache__", ".mypy_cache", ".ruff_cache", ".pytest_cache"}
MACHINE_PATH = re.compile(r"(?<![\w.:/])(?:/(?:home|root|work|tmp|Users)/\w|[A-Z]:\\Users\\)")


def text_files() -> Iterator[Path]:
    """The text files of the project, whatever folder they are in."""
    for folder, below, names in os.walk(ROOT):
        below[:] = [name for name in below if name not in LEFT_ALONE and not name.endswith(".egg-info")]
        yield from (Path(folder, name) for name in names if Path(name).suffix in TEXT_FILES and name not in LEFT_ALONE)


def test_no_path_of_one_machine_is_written_down() -> None:
    written = {
        f"{name_of(path)}:{number}"
        for path in text_files()
        for number, line in enumerate(path.read_text(encoding="utf-8", errors="replace").splitlines(), 1)
        if MACHINE_PATH.search(line)
    }
    assert written == set()


@pytest.mark.parametrize(
    "text, found",
    [
        ("/" + "home/someone/project", True),
        ("'/" + "tmp/out.pdf'", True),
        ("C:" + "\\Users\\someone", True),
        ("network/work/flow", False),
        ("https://example.org/" + "home/x", False),
    ],
)
def test_machine_paths_are_recognised(text: str, found: bool) -> None:
    assert bool(MACHINE_PATH.search(text)) is found

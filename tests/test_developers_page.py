"""The glossary in DEVELOPERS.md names every figure as the program does."""

from pathlib import Path

from waterpark_designer.engine.figure_kinds import FIGURE_KINDS

PAGE = Path(__file__).resolve().parent.parent / "DEVELOPERS.md"


def test_glossary_holds_every_figure_and_no_other() -> None:
    lines = PAGE.read_text(encoding="utf-8").splitlines()
    start = lines.index("| term | symbol | SI unit |") + 2
    table = [line for line in lines[start : start + len(FIGURE_KINDS) + 1] if line.startswith("|")]
    assert table == [f"| {kind.label} | {kind.symbol} | {kind.measure.si} |" for kind in FIGURE_KINDS.values()]

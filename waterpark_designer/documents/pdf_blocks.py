"""Headings, paragraphs, cautions and workings on paper, each as lines."""

from collections.abc import Iterator
from itertools import zip_longest

from waterpark_designer.documents import stylesheet as s
from waterpark_designer.documents.blocks import Caution, Highlights, Paragraph
from waterpark_designer.documents.calculations import computed_text, equation_text
from waterpark_designer.documents.pdf_page import Line, Run
from waterpark_designer.documents.pdf_text import printable, width_of, wrapped
from waterpark_designer.documents.stylesheet import TextStyle
from waterpark_designer.documents.table import DASH, Number
from waterpark_designer.documents.workings import FigureWorking, source_text
from waterpark_designer.engine.worked import Missing
from waterpark_designer.engine.working import InputLine, Working, working_of
from waterpark_designer.units import UnitSystem

INPUTS_AT = 236.0
NAME_AT = 258.0
VALUE_ENDS = 384.0
ORIGIN_AT = 390.0
HIGHLIGHTS_ABREAST = 4


def text_lines(text: str, style: TextStyle, width: float, x: float = 0.0) -> Iterator[Line]:
    """Running text from x to the right margin."""
    for line in wrapped(text, style, width - x):
        yield Line(style.leading, (Run(x, line, style),))


def paragraph_lines(paragraph: Paragraph, width: float) -> list[Line]:
    """Running text and the gap after it."""
    return [*text_lines(paragraph.text, s.BODY, width), Line(s.GAP, ())]


def highlight_lines(highlights: Highlights, system: UnitSystem, width: float) -> list[Line]:
    """The figures in rows of four, each under its label."""
    lines: list[Line] = []
    step = width / HIGHLIGHTS_ABREAST
    for start in range(0, len(highlights.figures), HIGHLIGHTS_ABREAST):
        row = list(enumerate(highlights.figures[start : start + HIGHLIGHTS_ABREAST]))
        labels = tuple(Run(place * step, label, s.QUIET) for place, (label, _) in row)
        numbers = [run for place, (_, number) in row for run in _large_number(place * step, number, system, step)]
        lines += [Line(s.QUIET.leading, labels), Line(s.LARGE.leading, tuple(numbers)), Line(s.GAP, ())]
    return lines


def _large_number(x: float, number: Number | None, system: UnitSystem, width: float) -> tuple[Run, Run]:
    """A number and its unit, in the largest size that fits."""
    text = number.measure.text(number.value, system) if number else DASH
    unit = printable(number.measure.symbol(system), s.QUIET) if number else ""
    room = width - width_of(unit, s.QUIET) - 2 * s.GAP
    style = next((style for style in (s.LARGE, s.PART_TITLE) if width_of(text, style) <= room), s.SMALL_STRONG)
    return Run(x, text, style), Run(x + width_of(text, style) + s.GAP / 2, unit, s.QUIET)


def caution_lines(caution: Caution, width: float) -> list[Line]:
    """A caution: a sign and a title, what to do, and where it is written."""
    return [
        *text_lines(f"⚠ {caution.title}", s.STRONG, width),
        *text_lines(caution.text, s.BODY, width, s.INDENT),
        *text_lines(source_text(caution.source), s.SMALL, width, s.INDENT),
        Line(s.GAP, ()),
    ]


def working_lines(entry: FigureWorking, system: UnitSystem, width: float) -> list[list[Line]]:
    """The working of one figure: result, steps between, equation, numbers put in, source; each step in one list."""
    kind, value = entry.figure.kind, entry.figure.value
    if isinstance(value, Missing):
        needs = text_lines(f"Needed: {value.needs}", s.NEEDED, width, s.INDENT)
        return [[*_opening(entry, DASH, "", width), *needs, Line(s.GAP, ())]]
    lines = [*_opening(entry, *_result(entry, value, system), width)]
    if entry.same_as and value.step.inputs():
        return [[*lines, *text_lines(f"The same as: {entry.same_as}", s.SMALL, width, s.INDENT), Line(s.GAP, ())]]
    working = working_of(value, kind.measure, system)
    parts: list[list[Line]] = []
    between = [(name, working_of(step, measure, system)) for name, step, measure in entry.steps_between()]
    for name, step in [*between, (kind.label, working)]:
        if between:
            lines += text_lines(f"{name}: {step.result}", s.CELL_STRONG, width, s.INDENT)
        parts.append([*lines, *_steps(entry, step, width)])
        lines = []
    if entry.figure.override:
        told = f"Set by hand. {computed_text(entry, system)} Reason: {entry.figure.override.reason}"
        parts[-1] += text_lines(told, s.WARNING, width, s.INDENT)
    parts[-1].append(Line(s.GAP, ()))
    return parts


def _result(entry: FigureWorking, value: float, system: UnitSystem) -> tuple[str, str]:
    """The figure's number and its unit; a currency stands before its number."""
    measure = entry.figure.kind.measure
    text = measure.text(value, system)
    return (entry.with_currency(text, measure), "") if measure.is_money else (text, measure.symbol(system))


def _opening(entry: FigureWorking, result: str, unit: str, width: float) -> Iterator[Line]:
    """Label and symbol at the left, result and unit at the right."""
    kind = entry.figure.kind
    label, symbol, unit = printable(kind.label, s.STRONG), printable(kind.symbol, s.QUIET), printable(unit, s.QUIET)
    unit_width = width_of(unit, s.QUIET) + 3 if unit else 0.0
    yield Line(
        s.STRONG.leading,
        (
            Run(0, label, s.STRONG),
            Run(width_of(label, s.STRONG) + 8, symbol, s.QUIET),
            Run(width - unit_width, result, s.STRONG, right=True),
            Run(width, unit, s.QUIET, right=True),
        ),
    )


def _steps(entry: FigureWorking, working: Working, width: float) -> Iterator[Line]:
    """Equation with the numbers put in, source and remarks; beside them each number put in with its origin."""
    inputs = [line for put_in in working.inputs for line in _input_lines(entry, put_in, width)]
    told = _told(working, INPUTS_AT - 2 * s.GAP if inputs else width)
    for left, right in zip_longest(told, inputs, fillvalue=Line(0.0, ())):
        yield Line(max(left.height, right.height), (*left.runs, *right.runs))


def _origin(entry: FigureWorking, line: InputLine) -> str:
    """Where a number comes from, unless the part of a sum says so already by the name of its owner."""
    origin = entry.origin(line)
    return "" if origin == f"{entry.figure.kind.label}, {line.name}" else origin


def _told(working: Working, width: float) -> Iterator[Line]:
    equation = equation_text(working, parts=False)
    if equation:
        yield from text_lines(equation, s.CELL, width, s.INDENT)
    yield from text_lines(f"Source: {source_text(working.source)}", s.SMALL, width, s.INDENT)
    if working.note:
        yield from text_lines(working.note, s.SMALL, width, s.INDENT)
    for caution in working.cautions:
        yield from text_lines(f"⚠ {caution}", s.WARNING, width, s.INDENT)


def _input_lines(entry: FigureWorking, line: InputLine, width: float) -> Iterator[Line]:
    """Symbol, name, value and origin in columns; a long name or origin takes more lines."""
    value = wrapped(entry.with_currency(line.text, line.measure), s.CELL, VALUE_ENDS - NAME_AT)
    value_width = max(width_of(text, s.CELL) for text in value)
    symbol = printable(line.symbol, s.CELL)
    name_at = max(NAME_AT, INPUTS_AT + width_of(symbol, s.CELL) + s.GAP) if symbol else INPUTS_AT
    names = wrapped(line.name, s.QUIET, VALUE_ENDS - name_at - value_width - 8)
    origins = wrapped(_origin(entry, line), s.QUIET, width - ORIGIN_AT)
    for number in range(max(len(names), len(origins), len(value))):
        runs = [Run(name_at, names[number], s.QUIET)] if number < len(names) else []
        if number == 0:
            runs.append(Run(INPUTS_AT, symbol, s.CELL))
        if number < len(value):
            runs.append(Run(VALUE_ENDS, value[number], s.CELL, right=True))
        if number < len(origins):
            runs.append(Run(ORIGIN_AT, origins[number], s.QUIET))
        yield Line(s.QUIET.leading, tuple(runs))

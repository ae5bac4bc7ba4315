"""A figure's working as it is read: label, symbol, formula, the numbers put in, result, source.

The window, the calculation sheets and the headless output all print this.
"""

import re
from dataclasses import dataclass, replace

from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.worked import Missing, Step, Worked
from waterpark_designer.sources import Source
from waterpark_designer.units import Measure, UnitSystem


@dataclass(frozen=True, slots=True)
class InputLine:
    """One number put in: its symbol, name, text with unit, and where it comes from."""

    symbol: str
    name: str
    text: str
    value: float
    measure: Measure
    origin: str
    worked: Worked | None


@dataclass(frozen=True, slots=True)
class Working:
    """The working of one number."""

    title: str
    equation: str
    substitution: str
    inputs: tuple[InputLine, ...]
    result: str
    source: Source
    note: str
    cautions: tuple[str, ...]


def working_of(value: Worked, measure: Measure, system: UnitSystem) -> Working:
    """The working of a number in the units asked for."""
    step = value.step
    inputs = tuple(_input_line(*item, system) for item in step.inputs())
    # An empirical equation holds only in the units it is written for, so its numbers are put in in those.
    written = (
        inputs
        if step.formula is None or step.formula.written_in is None
        else tuple(_in_written_units(item, step.formula.written_in) for item in step.inputs())
    )
    equation = step.formula.equation if step.formula else _equation_of_parts(step)
    return Working(
        title=step.title,
        equation=equation,
        substitution=_substituted(equation, step, written),
        inputs=inputs,
        result=measure.phrase(value, system),
        source=step.source,
        note=step.note,
        cautions=step.cautions(),
    )


def value_text(figure: Figure, system: UnitSystem) -> str:
    """The figure's number as shown, without its unit; a dash where there is none."""
    return "—" if isinstance(figure.value, Missing) else figure.kind.measure.text(figure.value, system)


JOINTS = {"sum": "Sum of", "greatest": "The greatest of", "least": "The least of"}


def _equation_of_parts(step: Step) -> str:
    if step.joined and len(step.parts) == 1:
        return f"The same as “{step.parts[0][0]}”"
    return JOINTS.get(step.joined, "")


def _substituted(equation: str, step: Step, inputs: tuple[InputLine, ...]) -> str:
    """The right-hand side with numbers for symbols, or the parts of a sum."""
    if step.formula is None:
        joint = " + " if step.joined == "sum" else "; "
        return joint.join(line.text for line in inputs) if step.joined else ""
    right = equation.partition("=")[2].strip() or equation
    texts = {line.symbol: line.text for line in inputs if line.symbol}
    if not texts:
        return ""
    pattern = "|".join(
        rf"(?<![A-Za-z_]){re.escape(symbol)}(?![A-Za-z_0-9])" for symbol in sorted(texts, key=len, reverse=True)
    )
    return re.sub(pattern, lambda match: _in_place(texts[match.group()], right[match.end() :]), right)


def _in_place(text: str, following: str) -> str:
    """A number with its unit where its symbol stood: in brackets where a power or a minus sign would be misread."""
    raised = following.startswith(("²", "³", "^")) and " " in text
    return f"({text})" if raised or text.startswith("-") else text


def _in_written_units(item: tuple[str, str, float, Measure], system: UnitSystem) -> InputLine:
    """A number as an empirical equation takes it: in US units, or in bare SI."""
    line = _input_line(*item, system)
    if system is UnitSystem.US:
        return line
    return replace(line, text=f"{line.value:.5g} {line.measure.si}".removesuffix(" 1"))


def _input_line(symbol: str, name: str, value: object, measure: Measure, system: UnitSystem) -> InputLine:
    number = float(value)  # type: ignore[arg-type]
    worked = value if isinstance(value, Worked) else None
    origin = "" if worked is None else worked.step.title if worked.step.formula else worked.step.source.text
    return InputLine(symbol, name, measure.phrase(number, system), number, measure, origin, worked)

"""Numbers that remember where they came from.

`Worked` is a float with the `Step` that produced it. Bare arithmetic on it drops the trace, on purpose: a figure
must come from a named formula, an entry, a limit or the catalogue, and a test holds every figure to that.
`Missing` stands where a figure cannot be computed and says what is needed; a formula fed with one is not
called, so the reason travels to every figure that waits for it.
"""

import functools
import inspect
import math
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple, get_type_hints

from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import RATIO, Measure, UnitSystem, measure_of


@dataclass(frozen=True, slots=True)
class Formula:
    """What a reader needs to know of a formula: its equation, symbols, measures, source and validity."""

    name: str
    title: str
    equation: str
    source: Source
    parameters: tuple[str, ...]
    symbols: Mapping[str, str]
    measures: Mapping[str, Measure]
    result: Measure
    valid: Mapping[str, tuple[float, float]]
    written_in: UnitSystem | None

    @property
    def empirical(self) -> bool:
        """Whether the equation holds only in the units it is written for."""
        return self.written_in is not None


class Step(NamedTuple):
    """One step of a working: a formula with what was put in, or a leaf that says where its value is from.

    A leaf has no formula; `title` names it and `source` says where it stands. `inputs` are the values put in,
    in the order of the formula's parameters, or (name, value) pairs under a sum or an override. `limit` is the key
    of the code's limit that a leaf stands for, `about` whether the code calls it approximate; `joined` how parts make
    the number: sum, greatest or least.
    """

    title: str
    source: Source
    formula: Formula | None = None
    values: tuple[Any, ...] = ()
    parts: tuple[tuple[str, float], ...] = ()
    measure: Measure = RATIO
    note: str = ""
    limit: str = ""
    about: bool = False
    joined: str = ""

    def inputs(self) -> tuple[tuple[str, str, float, Measure], ...]:
        """(symbol, name, value, measure) of each number put in."""
        if self.formula is None:
            return tuple(("", name, value, self.measure) for name, value in self.parts)
        formula = self.formula
        return tuple(
            (formula.symbols.get(name, ""), title_of(name), value, formula.measures.get(name, RATIO))
            for name, value in zip(formula.parameters, self.values, strict=True)
        )

    def cautions(self) -> tuple[str, ...]:
        """Where an input lies outside the range the formula was made for."""
        if self.formula is None:
            return ()
        found = []
        for name, value in zip(self.formula.parameters, self.values, strict=True):
            low, high = self.formula.valid.get(name, (value, value))
            if not low <= value <= high:
                found.append(f"{title_of(name)} lies outside the range for which this formula is published.")
        return tuple(found)


class Worked(float):
    """A number in SI units that remembers the Step it came from.

    `rests_on` is for whoever traces a number: what was found below it, kept as long as the number itself, since a
    number never changes and edits share most of them.
    """

    __slots__ = ("step", "rests_on")
    step: Step
    rests_on: "tuple[Worked, ...]"

    def __new__(cls, value: float, step: Step) -> "Worked":
        self = float.__new__(cls, value)
        self.step = step
        return self

    def __getnewargs__(self) -> tuple[float, Step]:  # type: ignore[override]
        return float(self), self.step


@dataclass(frozen=True, slots=True)
class Missing:
    """No number, and what is needed to have one.

    `silent` where the code basis says nothing; `waits_for` names the figure that is missing first, once the lack has
    travelled on to figures that follow from it.
    """

    needs: str
    silent: bool = False
    waits_for: str = ""

    @property
    def stated_nowhere(self) -> bool:
        """The code is silent on this very figure, rather than on one that it follows from."""
        return self.silent and not self.waits_for

    @property
    def short(self) -> str:
        """What to show beside a figure: the need itself, or the figure that must come first."""
        return f"Waits for {self.waits_for.lower()}." if self.waits_for else self.needs

    def __bool__(self) -> bool:
        return False


Value = Worked | Missing


def formula(
    equation: str,
    source: Source,
    *,
    valid: Mapping[str, tuple[float, float]] | None = None,
    written_in: UnitSystem | None = None,
    **symbols: str,
) -> Callable[[Callable[..., float]], Callable[..., Any]]:
    """Give a function of SI floats its equation, symbols and citation; its result becomes Worked.

    A `Missing` argument makes the result that Missing; a result that is no finite number makes it Missing too. Every
    parameter carries a Measure in its annotation and a symbol in `symbols`. `written_in` marks an empirical equation
    that only holds in the units of that system.
    """

    def decorate(function: Callable[..., float]) -> Callable[..., Any]:
        hints = get_type_hints(function, include_extras=True)
        signature = inspect.signature(function)
        names = tuple(signature.parameters)
        defaults = function.__defaults__ or ()
        described = Formula(
            name=function.__name__,
            title=title_of(function.__name__),
            equation=equation,
            source=source,
            parameters=names,
            symbols=symbols,
            measures={name: measure_of(hints[name]) or RATIO for name in names},
            result=measure_of(hints["return"]) or RATIO,
            valid=valid or {},
            written_in=written_in,
        )

        @functools.wraps(function)
        def worked(*args: Any, **keywords: Any) -> Value:
            missing = len(names) - len(args)
            if not keywords and 0 < missing <= len(defaults):
                args += defaults[-missing:]
            elif keywords or missing:
                bound = signature.bind(*args, **keywords)
                bound.apply_defaults()
                args = tuple(bound.arguments.values())
            for argument in args:
                if type(argument) is Missing:
                    return argument
            try:
                result = function(*args)
                if type(result) is complex:
                    return _no_real_root(described, args)
                if math.isfinite(result):
                    return Worked(result, Step(described.title, source, described, args))
                return _not_defined(described, args)
            except (ZeroDivisionError, ValueError, OverflowError):
                return _not_defined(described, args)

        worked.formula = described  # type: ignore[attr-defined]
        return worked

    return decorate


def _not_defined(described: Formula, args: tuple[Any, ...]) -> Missing:
    """What a formula lacks where it divides by nothing, takes the logarithm of nothing or comes to no finite number."""
    nothing = [title_of(name).lower() for name, value in zip(described.parameters, args, strict=True) if value <= 0]
    lack = f"needs more than zero for {' and '.join(nothing)}" if nothing else "is not defined for these numbers"
    return Missing(f"{described.title} {lack}.")


def _no_real_root(described: Formula, args: tuple[Any, ...]) -> Missing:
    """What a formula lacks where it takes the root of less than nothing."""
    less = [title_of(name).lower() for name, value in zip(described.parameters, args, strict=True) if value < 0]
    lack = f"takes nothing below zero for {' and '.join(less)}" if less else "is not defined for these numbers"
    return Missing(f"{described.title} {lack}.")


def total(title: str, parts: Sequence[tuple[str, Value]], measure: Measure, source: Source) -> Value:
    """Sum of named parts; Missing where any part is."""
    known = tuple([(name, value) for name, value in parts if isinstance(value, Worked)])
    if len(known) < len(parts):
        return next(value for _, value in parts if isinstance(value, Missing))
    try:
        summed = math.fsum([value for _, value in known])
    except OverflowError:
        return Missing(f"{title} is not defined for these numbers.")
    return Worked(summed, Step(title, source, parts=known, measure=measure, joined="sum"))


def sum_of_owners(title: str, parts: Sequence[tuple[str, Value]], measure: Measure, source: Source) -> Value:
    """Sum of one figure over several owners; where it is not known of some, says of which and what each needs."""
    lacking = [(name, value) for name, value in parts if isinstance(value, Missing)]
    if not lacking or len(parts) == 1:
        return total(title, parts, measure, source)
    return Missing(" ".join(f"{name}: {value.needs}" for name, value in lacking))


def greatest(title: str, parts: Sequence[tuple[str, Value]], measure: Measure, source: Source) -> Value:
    """The greatest of the parts that a code or the project states.

    Parts on which the code is silent do not count; Missing where one that counts is, or where none does.
    """
    return _chosen(max, "greatest", title, parts, measure, source)


def least(title: str, parts: Sequence[tuple[str, Value]], measure: Measure, source: Source) -> Value:
    """The least of the parts that a code or the project states; Missing as with `greatest`."""
    return _chosen(min, "least", title, parts, measure, source)


def _chosen(
    choose: Callable[..., float],
    joined: str,
    title: str,
    parts: Sequence[tuple[str, Value]],
    measure: Measure,
    source: Source,
) -> Value:
    lacking = [value for _, value in parts if isinstance(value, Missing)]
    unknown = next((value for value in lacking if not value.stated_nowhere), None)
    known = tuple((name, value) for name, value in parts if isinstance(value, Worked))
    if unknown is not None:
        return unknown
    if not known:
        return next(iter(lacking), Missing(f"{title} has nothing to go by."))
    value = choose(part for _, part in known)
    return Worked(float(value), Step(title, source, parts=known, measure=measure, joined=joined))


def governing_sources(value: Worked) -> tuple[Source, ...]:
    """The sources of the limits behind a number, each once; where a part was chosen, only those of that part."""
    step = value.step
    if step.limit:
        return (step.source,)
    if step.source.provenance is Provenance.OVERRIDE:
        return (step.source,)
    if step.joined in ("greatest", "least"):
        behind: list[Any] = [part for _, part in step.parts if float(part) == float(value)][:1]
    else:
        behind = [*step.values, *(part for _, part in step.parts)]
    found = (source for part in behind if isinstance(part, Worked) for source in governing_sources(part))
    return tuple(dict.fromkeys(found))


def leaf(value: float, title: str, source: Source, note: str = "", measure: Measure = RATIO) -> Worked:
    """A number that comes from outside the formulas."""
    return Worked(float(value), Step(title, source, note=note, measure=measure))


YOUR_ENTRY = Source("Entered in the project", Provenance.ENTRY)


def given(owner: Any, field: str, source: Source = YOUR_ENTRY) -> Value:
    """A field of the model as a leaf; Missing where it was left blank."""
    value = getattr(owner, field)
    name = vars(owner).get("name")
    title = f"{title_of(field)} of {name}" if name else title_of(field)
    if value is None:
        return Missing(f"Enter {title_of(field).lower()}.")
    return Worked(float(value), Step(title, source))


@functools.cache
def title_of(name: str) -> str:
    """“turnover_flow” as it is read: “Turnover flow”."""
    words = name.replace("_", " ").strip().capitalize()
    return re.sub(r"\b(start|make) up\b", r"\1-up", words, flags=re.IGNORECASE)

"""What a reader must know a figure rests on: overrides, local amendments and values not yet confirmed."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from waterpark_designer.documents.tree import Place, places
from waterpark_designer.documents.workings import source_text
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import Discipline
from waterpark_designer.engine.worked import Step, Worked
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import RATIO, Measure, UnitSystem

WORTH_A_NOTE = (Provenance.MEMORY, Provenance.SECONDARY, Provenance.AMENDMENT, Provenance.OVERRIDE)
HYDRAULIC = (Discipline.HYDRAULICS, Discipline.OPENINGS, Discipline.POWER, Discipline.CURRENT)
METHODS = "Methods and data to be confirmed"
METHODS_TOLD = (
    "It rests on methods and data of pipes, pumps and water that are to be confirmed; the document "
    "“Hydraulics and pumps” lists them."
)
"""Stands for the many sources of a head or a power."""


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """One thing a figure rests on; `node` and `where` tell the place of an override.

    `method` marks the way a figure is worked, or the data it takes, rather than a limit or an override.
    Within a `Grounds` the same ground is the same object: thousands of lines are compared by it.
    """

    title: str
    node: str
    where: str
    source: Source
    value: float
    computed: float | None
    measure: Measure
    reason: str
    method: bool = False

    def told(self) -> tuple[object, ...]:
        """All that the ground says; grounds that say the same are one."""
        return self.title, self.node, self.where, self.source, self.value, self.computed, self.measure, self.reason

    def text(self, system: UnitSystem) -> str:
        """The ground as a note under a table."""
        if self is _METHODS:
            return METHODS_TOLD
        if self.source.provenance is not Provenance.OVERRIDE:
            return f"{self.title}: {source_text(self.source).rstrip('.')}."
        computed = "" if self.computed is None else f" in place of {self.measure.phrase(self.computed, system)}"
        used = self.measure.phrase(self.value, system)
        return f"{self.where}: {self.title.lower()}, {used}{computed}. Reason: {self.reason}"


_METHODS = Ground(METHODS, "", "", Source(METHODS, Provenance.SECONDARY), 0.0, None, RATIO, "", method=True)


def _is_method(step: Step) -> bool:
    return not step.limit and step.source.provenance in (Provenance.MEMORY, Provenance.SECONDARY)


class Grounds:
    """What the figures of a design rest on, found once for each number however many figures share it."""

    def __init__(self, design: SiteDesign) -> None:
        self._overridden = _overridden(design)
        self._places: Mapping[str, Place] = places(design.site) if self._overridden else {}
        self._known: dict[int, tuple[Ground, ...]] = {}
        self._grounds: dict[int, Ground] = {}
        self._each_once: dict[tuple[object, ...], Ground] = {}
        self._design = design

    def of(self, value: object) -> tuple[Ground, ...]:
        """The grounds worth a note under a number of this design, each once; none where it is missing."""
        if not isinstance(value, Worked):
            return ()
        if id(value) not in self._known:
            self._known[id(value)] = tuple(dict.fromkeys(self._ground(one) for one in worth_noting(value)))
        return self._known[id(value)]

    def of_figures(self, node: str, keys: Iterable[str]) -> tuple[Ground, ...]:
        """The grounds of several figures of one node, each once; the methods of hydraulics as one."""
        return tuple(dict.fromkeys(ground for key in keys for ground in self._of_figure(node, key)))

    def without_methods(self, node: str, keys: Iterable[str]) -> tuple[Ground, ...]:
        """As `of_figures`, limits and overrides alone."""
        return tuple(ground for ground in self.of_figures(node, keys) if not ground.method)

    def methods_of_hydraulics(self) -> tuple[Ground, ...]:
        """Every method and set of data to be confirmed behind the hydraulics of the site, each source once."""
        found = {
            ground.source: ground
            for sheet in self._design.sheets.values()
            for figure in sheet.figures.values()
            if figure.kind.discipline in HYDRAULIC
            for ground in self.of(figure.value)
            if ground.method
        }
        return tuple(sorted(found.values(), key=lambda ground: ground.source.text))

    def _of_figure(self, node: str, key: str) -> tuple[Ground, ...]:
        figure = self._design.sheets[node].figures.get(key)
        found = () if figure is None else self.of(figure.value)
        if figure is None or figure.kind.discipline not in HYDRAULIC:
            return found
        return tuple(_METHODS if ground.method else ground for ground in found)

    def _ground(self, value: Worked) -> Ground:
        if id(value) not in self._grounds:
            made = self._made(value)
            self._grounds[id(value)] = self._each_once.setdefault(made.told(), made)
        return self._grounds[id(value)]

    def _made(self, value: Worked) -> Ground:
        step = value.step
        if step.source.provenance is not Provenance.OVERRIDE:
            return Ground(step.title, "", "", step.source, 0.0, None, step.measure, step.note, _is_method(step))
        node = self._overridden.get(id(value), "")
        where = self._places[node].where if node in self._places else ""
        computed = next((float(part) for _, part in step.parts), None)
        return Ground(step.title, node, where, step.source, float(value), computed, step.measure, step.note)


def _overridden(design: SiteDesign) -> dict[int, str]:
    """The node of every figure set by hand, by identity of its number."""
    return {
        id(figure.value): node
        for node, sheet in design.sheets.items()
        if sheet.node.overrides
        for figure in sheet.figures.values()
        if figure.override
    }


def worth_noting(value: Worked) -> tuple[Worked, ...]:
    """The numbers that a note is due for under this one, itself first, each once."""
    own = (value,) if value.step.source.provenance in WORTH_A_NOTE else ()
    return (*own, *_below(value))


def _below(value: Worked) -> tuple[Worked, ...]:
    """What is worth noting of the numbers put in; kept with the number, so that an edit traces only what is new."""
    kept: tuple[Worked, ...] | None = getattr(value, "rests_on", None)
    if kept is None:
        # By identity: two numbers that are equal may come from different places.
        kept = value.rests_on = tuple({id(one): one for part in _put_in(value) for one in worth_noting(part)}.values())
    return kept


def _put_in(value: Worked) -> tuple[Worked, ...]:
    """The numbers put in; none under a figure set by hand, which no longer follows from them."""
    step = value.step
    if step.source.provenance is Provenance.OVERRIDE:
        return ()
    return tuple(part for part in (*step.values, *(part for _, part in step.parts)) if isinstance(part, Worked))


class Notes:
    """Numbered notes under a table; the same note is printed once."""

    def __init__(self, system: UnitSystem) -> None:
        self._system = system
        self._numbers: dict[str, int] = {}
        self._known: dict[Ground, int] = {}

    def refer(self, grounds: Iterable[Ground]) -> str:
        """The numbers of the notes for these grounds, such as "1, 3"; empty where there are none."""
        numbers = {self._known.get(ground) or self._number(ground) for ground in grounds}
        return ", ".join(str(number) for number in sorted(numbers))

    def _number(self, ground: Ground) -> int:
        number = self._numbers.setdefault(ground.text(self._system), len(self._numbers) + 1)
        self._known[ground] = number
        return number

    @property
    def lines(self) -> tuple[str, ...]:
        return tuple(f"Note {number}. {text}" for text, number in self._numbers.items())

"""The workings of a design: which steps are printed under each figure."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from waterpark_designer.documents.table import spaced
from waterpark_designer.documents.tree import Place, places
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.worked import Worked
from waterpark_designer.engine.working import InputLine
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import ENERGY_PRICE, Measure, UnitSystem

Named = Mapping[int, str]
"""What each number that is a figure in its own right is called, by identity of the number."""


@dataclass(frozen=True, slots=True)
class FigureWorking:
    """A figure whose working is to be printed, where it stands, and how other figures are called there.

    `elsewhere` says of steps that were worked under an earlier figure where that was; they are not worked again.
    `same_as` names the figure nearer to the site that is this very number and has its working, where there is one.
    """

    node: str
    where: str
    figure: Figure
    named: Named
    own: Named
    elsewhere: Named = field(default_factory=dict)
    currency: str = ""
    same_as: str = ""

    def unit(self, measure: Measure, system: UnitSystem) -> str:
        """The unit of a number in this working: the project's currency for money."""
        return self.currency if measure.is_money else measure.symbol(system)

    def with_currency(self, text: str, measure: Measure) -> str:
        """A number as text, behind the currency where it is money or a price."""
        return spaced(self.currency, text) if measure.is_money or measure is ENERGY_PRICE else text

    def origin(self, line: InputLine) -> str:
        """Where a number put in comes from: another figure, a step above, an entry, a limit with its provenance."""
        if line.worked is None:
            return ""
        called = self.own.get(id(line.worked)) or self.named.get(id(line.worked))
        source = line.worked.step.source
        if called:
            by_hand = ", set by hand" if source.provenance is Provenance.OVERRIDE else ""
            return f"{called}{by_hand}"
        if id(line.worked) in self.elsewhere:
            return self.elsewhere[id(line.worked)]
        return "worked above" if line.worked.step.inputs() else source_text(source)

    def steps_between(self) -> tuple[tuple[str, Worked, Measure], ...]:
        """(name, number, measure) of steps that lead to the figure and are no figures themselves."""
        value = self.figure.value
        known = {id(value), *self.elsewhere}
        return tuple(_steps_between(value, self.named, known)) if isinstance(value, Worked) else ()


def named_figures(design: SiteDesign) -> Named:
    """Every figure of the site with its place; a number that several share goes by the one nearest to the site."""
    found, named = places(design.site), dict[int, str]()
    for node, place in found.items():
        for number, label in own_figures(design, node).items():
            named.setdefault(number, f"{label}, {place.node.name}")
    return named


def own_figures(design: SiteDesign, node: str) -> Named:
    """The figures of one node by their labels alone."""
    figures = design.sheets[node].figures.values()
    return {id(figure.value): figure.kind.label for figure in figures if isinstance(figure.value, Worked)}


def entries_of(design: SiteDesign, place: Place, named: Named) -> Iterator[FigureWorking]:
    """The figures of one node in their order, each step worked once."""
    own, elsewhere = own_figures(design, place.node.id), dict[int, str]()
    for figure in design.sheets[place.node.id].figures.values():
        called = named.get(id(figure.value), "")
        same_as = "" if called == f"{figure.kind.label}, {place.node.name}" else called
        entry = FigureWorking(
            place.node.id, place.where, figure, named, own, dict(elsewhere), design.site.currency, same_as
        )
        for _, step, _ in entry.steps_between():
            elsewhere[id(step)] = f"worked under {figure.kind.label}"
        yield entry


def source_text(source: Source) -> str:
    """A source with its provenance; what the project itself says needs none."""
    if source.provenance in (Provenance.ENTRY, Provenance.OVERRIDE):
        return source.text
    return with_provenance(source.text, source.provenance)


def with_provenance(text: str, provenance: str) -> str:
    """A source or clause with its provenance behind it, unless it begins with those words."""
    return f"{text} ({provenance})" if provenance and not text.lower().startswith(provenance) else text


def _steps_between(value: Worked, named: Named, seen: set[int]) -> Iterator[tuple[str, Worked, Measure]]:
    for _, name, part, measure in value.step.inputs():
        if not isinstance(part, Worked) or id(part) in seen or id(part) in named or not part.step.inputs():
            continue
        seen.add(id(part))
        yield from _steps_between(part, named, seen)
        yield name, part, measure

"""A design in plain words, for whoever pays for the site."""

from dataclasses import dataclass

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.gui.part_names import part_names
from waterpark_designer.gui.site_rows import counted
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.kinds import Setting
from waterpark_designer.model.site import Site
from waterpark_designer.units import (
    DAILY_VOLUME,
    ELECTRIC_POWER,
    HOUR,
    HOURS,
    MASS_RATE,
    MINUTE,
    SALINITY,
    Measure,
    Unit,
    UnitSystem,
)

PRELIMINARY = "preliminary, for review by a licensed engineer"
NOT_KNOWN = "not known yet"
MOST_NAMED = 6
THREE_FIGURES = Unit("", "", 1.0, decimals=2, significant=3, nominal=True)
ROUNDED = (MASS_RATE, DAILY_VOLUME, ELECTRIC_POWER)
"""What is told to three figures, as nobody can check more of it."""


@dataclass(frozen=True, slots=True)
class Total:
    """One large figure: what it is, the number, its unit and what else is said of it; `needs` where it is missing."""

    words: str
    number: str
    unit: str = ""
    note: str = ""
    needs: str = ""


@dataclass(frozen=True, slots=True)
class Card:
    """One body of water: its name, what it is, and (what, figure) in the order in which a guest would ask."""

    node: str
    name: str
    kind: str
    facts: tuple[tuple[str, str], ...]


def opening(site: Site) -> str:
    """The site in one line."""
    bodies = sum(len(system.attractions) for system in site.systems)
    systems = len(site.systems)
    return (
        f"{counted(bodies, 'body', 'bodies')} of water on "
        f"{counted(systems, 'recirculation system', 'recirculation systems')}  ·  {PRELIMINARY}"
    )


def totals(design: SiteDesign) -> tuple[Total, ...]:
    """Six to eight figures of the whole site; one that does not arise here is left out."""
    lines = (
        _total(design, "Water on site", "volume"),
        _total(design, "All of it filtered every", "turnover_time"),
        _total(design, "Room in the water for", "peak_occupancy"),
        _total(design, "Salt on opening day", "salt_bags", _pallets(design)),
        _total(design, "Chlorine the generators can make", "generator_capacity", _chlorine_needed(design)),
        _total(design, "Hypochlorite feed needed", "backup_feed"),
        _total(design, "Power the pumps draw", "electric_power", _energy_cost(design)),
        _total(design, "Salt in a season", "make_up_bags"),
    )
    return tuple(line for line in lines if line is not None)


def _total(design: SiteDesign, words: str, key: str, note: str = "") -> Total | None:
    figure = design.sheets[design.site.id].figures.get(key)
    if figure is None or (isinstance(figure.value, Worked) and figure.value == 0.0):
        return None
    if isinstance(figure.value, Missing):
        return Total(words, "—", needs=figure.value.needs)
    return Total(words, *_shown(figure.value, figure.kind.measure, design.site.units), note)


def _shown(value: float, measure: Measure, units: UnitSystem) -> tuple[str, str]:
    """Number and unit as they are said: hours, rates and power to three figures, a time below an hour in minutes."""
    if measure is HOURS:
        minutes = round(value / MINUTE)
        return (f"{minutes}", "min") if minutes < 60 else (f"{value / HOUR:.1f}", "h")
    if measure in ROUNDED:
        return THREE_FIGURES.text(measure.shown(value, units)), measure.symbol(units)
    return measure.text(value, units), measure.symbol(units)


def _pallets(design: SiteDesign) -> str:
    pallets = design.value(design.site.id, "salt_pallets")
    return "" if isinstance(pallets, Missing) else counted(round(pallets), "pallet", "pallets")


def _chlorine_needed(design: SiteDesign) -> str:
    """What the site needs beside what its generators make, which may stand on some of its systems only."""
    needed, systems = design.value(design.site.id, "feed_capacity"), design.site.systems
    if isinstance(needed, Missing):
        return ""
    number, unit = _shown(needed, MASS_RATE, design.site.units)
    having = sum("generator_capacity" in design.sheets[system.id].figures for system in systems)
    if having == len(systems):
        return f"{number} {unit} needed"
    return f"on {counted(having, 'system', 'systems')}; all {len(systems):,} need {number} {unit}"


def _energy_cost(design: SiteDesign) -> str:
    cost = design.value(design.site.id, "energy_cost")
    if isinstance(cost, Missing):
        return ""
    invented = " at an invented price" if design.site.prices_invented else ""
    return f"{design.site.currency}{THREE_FIGURES.text(cost)} a season{invented}"


def cards(design: SiteDesign) -> tuple[Card, ...]:
    """A card for each body of water, in the order of the site."""
    return tuple(_card(design, body) for system in design.site.systems for body in system.attractions)


def _card(design: SiteDesign, body: Attraction) -> Card:
    units = design.site.units
    water = "Water in its tank" if body.has_spray_deck else "Water"
    facts = [
        _fact(design, body, water, "volume"),
        _fact(design, body, "All of it filtered every", "turnover_time"),
        _fact(design, body, "Room for", "peak_occupancy"),
        ("Salt in the water", salinity_words(body, units)),
    ]
    setting = ", indoors" if body.setting is Setting.INDOOR else ""
    return Card(body.id, body.name, f"{body.kind.label}{setting}", tuple(facts))


def _fact(design: SiteDesign, body: Attraction, words: str, key: str) -> tuple[str, str]:
    figure = design.sheets[body.id].figures.get(key)
    if figure is None or not isinstance(figure.value, Worked):
        return words, NOT_KNOWN
    return words, " ".join(_shown(figure.value, figure.kind.measure, design.site.units))


def salinity_words(body: Attraction, units: UnitSystem) -> str:
    """How salty a body of water is meant to be."""
    return SALINITY.phrase(body.target_salinity, units) if body.target_salinity else "none"


def checks_words(design: SiteDesign) -> str:
    """The checks in a sentence or two."""
    checked = len(design.findings)
    if not checked or not any(system.attractions for system in design.site.systems):
        return "Nothing has been checked against a code yet."
    met = design.count(Status.MET)
    sentences = [f"{met:,} of {counted(checked, 'check', 'checks')} {'is' if met == 1 else 'are'} met."]
    for status, one, several in (
        (Status.NOT_MET, "is not met and has to be put right", "are not met and have to be put right"),
        (Status.CAUTION, "is worth a look", "are worth a look"),
        (Status.UNKNOWN, "cannot be told yet", "cannot be told yet"),
        (Status.SILENT, "has no limit in the code chosen", "have no limit in the code chosen"),
    ):
        count = design.count(status)
        if count:
            sentences.append(f"{count:,} {one if count == 1 else several}.")
    return " ".join(sentences)


def to_put_right(design: SiteDesign) -> tuple[str, ...]:
    """The checks that are not met, each once with the parts it is about; the first few, and how many more there are."""
    names = part_names(design.site)
    failed: dict[str, list[Finding]] = {}
    for finding in design.findings:
        if finding.status is Status.NOT_MET:
            failed.setdefault(finding.title, []).append(finding)
    lines = tuple(_line(same, names) for same in list(failed.values())[:MOST_NAMED])
    more = len(failed) - len(lines)
    return (*lines, f"and {more:,} more") if more else lines


def _line(same: list[Finding], names: dict[str, str]) -> str:
    where = ", ".join(names.get(finding.node, "") for finding in same[:MOST_NAMED])
    more = f" and {len(same) - MOST_NAMED:,} more" if len(same) > MOST_NAMED else ""
    return f"{same[0].status.mark} {same[0].title}: {same[0].status.label} at {where}{more}"

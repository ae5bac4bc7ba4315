"""The equipment schedule: what to buy by system, its duty, rating and price, and why it has this size."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from waterpark_designer.documents.calculations import equation_text
from waterpark_designer.documents.circuits import CircuitSheets, circuits
from waterpark_designer.documents.document import Section
from waterpark_designer.documents.grounds import Ground, Grounds, Notes
from waterpark_designer.documents.pipe_names import in_units
from waterpark_designer.documents.pipe_runs import TAKE_OFF, take_off_table
from waterpark_designer.documents.pumps import MOTORS, motors_table
from waterpark_designer.documents.safety import SHORT_CAUTION
from waterpark_designer.documents.table import DASH, Cell, Column, Number, Row, RowKind, Table, group, number
from waterpark_designer.documents.tree import places
from waterpark_designer.documents.workings import source_text
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.schedule import Amount, ScheduleLine
from waterpark_designer.engine.worked import Missing
from waterpark_designer.engine.working import working_of
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.site import Site
from waterpark_designer.units import COUNT, MONEY, WHOLE_MONEY, Measure, UnitSystem

PIPES_ELSEWHERE = "Pipes and valves have the sizes of their runs, which the document on hydraulics and pumps works."
PIPE_LOTS = "A line of pipe is one lot, with the elbows and tees named beside it; valves are lines of their own."
INVENTED_PRICES = "The prices are invented for demonstration and mean nothing."


def equipment_sections(design: SiteDesign, system: UnitSystem) -> tuple[Section, ...]:
    """The schedule, and the workings that size its lines."""
    return (
        Section("Equipment schedule", (equipment_table(design, system), SHORT_CAUTION)),
        *_lists(circuits(design), design, system),
        Section("Why each has this size", (reasons_table(design, system),), level=2),
    )


def _lists(found: tuple[CircuitSheets, ...], design: SiteDesign, system: UnitSystem) -> Iterator[Section]:
    """Motors, and pipe with its fittings, where pumps have pipe runs: what the lines are made up of."""
    if found:
        yield Section(MOTORS, (motors_table(found, design),), level=2)
        yield Section(TAKE_OFF, (take_off_table(found, system),), level=2)


def equipment_table(design: SiteDesign, system: UnitSystem) -> Table:
    """The schedule by system; the unit system is for pipes and notes, the numbers stay SI until they are drawn."""
    notes, grounds = Notes(system), Grounds(design)
    prices = {price.line: price.amount for price in design.site.prices}
    money = WHOLE_MONEY if all(amount.is_integer() for amount in prices.values()) else MONEY
    rows: list[Row] = []
    for title, node, lines in _by_system(design):
        rows.append(group(title, node))
        for line in (_named(line, system) for line in lines):
            rows.append(_row(line, prices.get(line.key), money, notes.refer(_grounds(line, grounds))))
    rows += _total_row(design.equipment, prices, money)
    return Table(
        "Equipment schedule",
        _columns(design.site, money),
        tuple(rows),
        notes=(*_price_notes(design, prices), *_lots(design), *notes.lines),
        empty="No equipment yet. Add a body of water to see what it needs.",
    )


def _named(line: ScheduleLine, system: UnitSystem) -> ScheduleLine:
    """The line with its pipes named as the unit system does."""
    return replace(line, item=in_units(line.item, system), remarks=in_units(line.remarks, system))


def _lots(design: SiteDesign) -> tuple[str, ...]:
    """What belongs to a line of pipe, where there is any."""
    return (PIPE_LOTS,) if any("/pipe-" in line.key for line in design.equipment) else ()


def price_unit(site: Site) -> str:
    """What stands beside "Price": the currency, and that the price is invented where it is."""
    return f"{site.currency}, invented" if site.prices_invented else site.currency


def _columns(site: Site, money: Measure) -> tuple[Column, ...]:
    unit = price_unit(site)
    return (
        Column("Tag", weight=0.8),
        Column("Item", weight=2.2),
        Column("Qty", COUNT, weight=0.5),
        Column("Duty", weight=1.6),
        Column("Rating", weight=1.9),
        Column("Remarks", weight=2.2),
        Column("Notes", weight=0.6),
        Column("Price each", money, weight=1.0, unit=unit),
        Column("Price", money, weight=1.1, unit=unit),
    )


def _by_system(design: SiteDesign) -> Iterator[tuple[str, str, tuple[ScheduleLine, ...]]]:
    found = places(design.site)
    gathered: dict[str, list[ScheduleLine]] = {}
    for line in design.equipment:
        gathered.setdefault(line.system, []).append(line)
    for node, lines in gathered.items():
        yield found[node].where if node in found else design.site.name, node, tuple(lines)


def _grounds(line: ScheduleLine, grounds: Grounds) -> Iterable[Ground]:
    return dict.fromkeys(ground for node, key in line.why for ground in grounds.of_figures(node, (key,)))


def _row(line: ScheduleLine, each: float | None, money: Measure, notes: str) -> Row:
    return Row(
        (
            line.tag,
            line.item,
            number(line.quantity, COUNT),
            _amounts(line.duty),
            _amounts(line.rating),
            line.remarks,
            notes,
            "" if each is None else Number(each, money),
            _price(line, each, money),
        ),
        node=line.system,
        key=line.key,
    )


def _amounts(amounts: Iterable[Amount]) -> Cell:
    """Numbers that bring their own unit; what cannot be told yet is left out."""
    known = tuple(
        Number(float(amount.value), amount.measure, after=amount.after)
        for amount in amounts
        if not isinstance(amount.value, Missing)
    )
    return known[0] if len(known) == 1 else known or ""


def _price(line: ScheduleLine, each: float | None, money: Measure) -> Cell:
    if each is None or isinstance(line.quantity, Missing):
        return ""
    return Number(each * line.quantity, money)


def _total_row(lines: Iterable[ScheduleLine], prices: Mapping[str, float], money: Measure) -> Iterator[Row]:
    found = (_price(line, prices.get(line.key), money) for line in lines)
    sums = [price.value for price in found if isinstance(price, Number)]
    if sums:
        yield Row(("", "Total of the priced lines", "", "", "", "", "", "", Number(sum(sums), money)), RowKind.TOTAL)


def _price_notes(design: SiteDesign, prices: Mapping[str, float]) -> tuple[str, ...]:
    if not prices:
        return ()
    unpriced = sum(line.key not in prices for line in design.equipment)
    short = (f"{unpriced} of {len(design.equipment)} lines have no price.",) if unpriced else ()
    return (*((INVENTED_PRICES,) if design.site.prices_invented else ()), *short)


def reasons_table(design: SiteDesign, system: UnitSystem) -> Table:
    """The figures that size each line, in the order in which they are worked."""
    rows = [
        row
        for line in design.equipment
        if (reasons := tuple(_reasons(design, line, system)))
        for row in (group(f"{line.tag}  {in_units(line.item, system)}", line.system), *reasons)
    ]
    columns = (
        Column("Figure", weight=2.0),
        Column("Result", weight=1.2),
        Column("Working", weight=4.0),
        Column("Source", weight=2.6),
    )
    return Table("Why each has this size", columns, tuple(rows), (PIPES_ELSEWHERE,) if circuits(design) else ())


def _reasons(design: SiteDesign, line: ScheduleLine, system: UnitSystem) -> Iterator[Row]:
    for node, key in line.why:
        figure = design.sheets[node].figures.get(key)
        if figure is None or isinstance(design.sheets[node].node, PipeRun):
            continue
        if isinstance(figure.value, Missing):
            yield Row((figure.kind.label, DASH, figure.value.needs, ""), node=node)
            continue
        working = working_of(figure.value, figure.kind.measure, system)
        cell = number(figure.value, figure.kind.measure)
        reason = f". Reason: {figure.override.reason}" if figure.override else ""
        source = f"{source_text(working.source)}{reason}"
        yield Row((figure.kind.label, cell, equation_text(working), source), node=node)

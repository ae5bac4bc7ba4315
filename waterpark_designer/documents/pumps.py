"""Pumps and motors: the pumps of the site, and the figures of each."""

from collections.abc import Iterator
from itertools import zip_longest

from waterpark_designer.documents.circuits import CircuitSheets
from waterpark_designer.documents.grounds import Grounds, Notes
from waterpark_designer.documents.table import Cell, Column, Row, RowKind, Table, count, number
from waterpark_designer.documents.workings import source_text
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.size_pump import by_hand
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.units import COUNT, WHOLE_MONEY, UnitSystem

SITE_FIGURES = {
    "pump_flow": "Flow of one",
    "duty_head": "Head",
    "motor_rating": "Motor",
    "motor_current": "Current",
    "electric_power": "Power drawn",
    "energy_a_day": "Energy a day",
    "energy_of_season": "Energy a season",
}
HEAD_FIGURES = (
    "pump_flow",
    "duty_head",
    "operating_flow_clean",
    "operating_head_clean",
    "operating_flow_dirty",
    "operating_head_dirty",
    "suction_head_available",
    "suction_head_needed",
)
POWER_FIGURES = (
    "hydraulic_power",
    "pump_efficiency",
    "shaft_power",
    "motor_rating",
    "motor_efficiency",
    "motor_current",
    "drive_efficiency",
    "electric_power",
    "night_speed",
    "night_drive_efficiency",
    "night_power",
    "energy_saved_a_day",
    "energy_a_day",
    "energy_of_season",
    "energy_cost",
)
MOTORS = "Motors on this site"
SOURCES_TOLD = ("pump_efficiency", "motor_rating", "drive_efficiency")
BY_HAND = (
    "Part of the head is set by hand: the system's curve goes through it at design flow, and what it differs by is "
    "taken to grow with the square of the flow."
)
NO_SUCTION_FIGURE = "The suction head that the pump needs is not entered; ask its supplier."
PRICED_WITH_PUMP = "A motor is bought and priced with its pump; a variable-speed drive is a line of its own."
TABLE_CURRENT = (
    "Motor current is that of the standard tables, for conductors and switches; overload protection goes by the "
    "motor's nameplate."
)
BOTH_CURRENTS = (
    "Motor current is that of the standard tables at 60 Hz, for conductors and switches, and an estimate with a power "
    "factor of 0.85 at 50 Hz; the motor's nameplate governs."
)
ESTIMATED_CURRENT = "Motor current is an estimate, with a power factor of 0.85; the motor's nameplate governs."


def site_pumps_table(found: tuple[CircuitSheets, ...], design: SiteDesign, system: UnitSystem) -> Table:
    """Every pump with pipe runs: duty, motor, power and energy, and the site's totals."""
    notes, grounds = Notes(system), Grounds(design)
    columns = (
        Column("Pump of", weight=3.0),
        Column("In duty", COUNT),
        Column("Standby", COUNT),
        *(Column(heading, FIGURE_KINDS[key].measure) for key, heading in SITE_FIGURES.items()),
        Column("Cost a season", WHOLE_MONEY, unit=design.site.currency),
        Column("Notes", weight=0.5),
    )
    rows = [_site_row(circuit, notes, grounds) for circuit in found]
    if rows:
        rows.append(_site_total(found, design))
    short = (*_lacking(found), *_sums_that_lack(design))
    told = (*currents_told(found), *short, *notes.lines)
    return Table("Pumps of the site", columns, tuple(rows), told, "No pump has pipe runs yet. Add runs to a system.")


def _site_row(circuit: CircuitSheets, notes: Notes, grounds: Grounds) -> Row:
    keys = tuple(circuit.key_of_pump(key) for key in (*SITE_FIGURES, "energy_cost"))
    cells = (number(circuit.sheet[key], FIGURE_KINDS[key].measure) for key in keys)
    refer = notes.refer(grounds.without_methods(circuit.node.id, keys))
    return Row((circuit.where, count(circuit.plan.count), count(circuit.standby), *cells, refer), node=circuit.node.id)


def _site_total(found: tuple[CircuitSheets, ...], design: SiteDesign) -> Row:
    sheet = design.sheets[design.site.id]
    totals = (
        number(sheet[key], FIGURE_KINDS[key].measure) if key in sheet.figures else ""
        for key in (*SITE_FIGURES, "energy_cost")
    )
    in_duty, standby = sum(one.plan.count for one in found), sum(one.standby for one in found)
    return Row(("Site", count(in_duty), count(standby), *totals, ""), RowKind.TOTAL, design.site.id)


def _lacking(found: tuple[CircuitSheets, ...]) -> tuple[str, ...]:
    """What the first dash of each pump waits for."""
    lacks = ((one, one.sheet["duty_head"]) for one in found)
    return tuple(f"{one.where}: {lack.needs}" for one, lack in lacks if isinstance(lack, Missing))


def _sums_that_lack(design: SiteDesign) -> tuple[str, ...]:
    """Which pumps the site's power waits for."""
    power = design.sheets[design.site.id]["electric_power"]
    waits = isinstance(power, Missing) and "electric_power" in design.sheets[design.site.id].figures
    return (f"Sums wait for: {power.needs}",) if waits and isinstance(power, Missing) else ()


def currents_told(found: tuple[CircuitSheets, ...]) -> tuple[str, ...]:
    """What the motor currents are: those of standard tables, estimates, or, where a site has both, which are which."""
    currents = [one.sheet["motor_current"] for one in found]
    formulas = {current.step.formula is not None for current in currents if isinstance(current, Worked)}
    if len(formulas) == 2:
        return (BOTH_CURRENTS,)
    return tuple(ESTIMATED_CURRENT if estimated else TABLE_CURRENT for estimated in formulas)


def motors_table(found: tuple[CircuitSheets, ...], design: SiteDesign) -> Table:
    """Every pump's motor, for whoever wires it or works on it; each is priced with its pump."""
    tags = {line.key: line.tag for line in design.equipment}
    keys = ("motor_rating", "motor_efficiency", "motor_current")
    columns = (
        Column("Pump", weight=0.8),
        Column("Of", weight=3.0),
        Column("In duty", COUNT),
        Column("Standby", COUNT),
        *(Column(FIGURE_KINDS[key].label, FIGURE_KINDS[key].measure) for key in keys),
        Column("Supply", weight=1.2),
        Column("Drive", weight=1.2),
    )
    rows = tuple(
        Row(
            (
                tags.get(f"{one.node.id}/pump", ""),
                one.where,
                count(one.plan.count),
                count(one.standby),
                *(number(one.sheet[key], FIGURE_KINDS[key].measure) for key in keys),
                one.plan.voltage.label,
                tags.get(f"{one.node.id}/drive", "") if one.plan.has_drive else "none",
            ),
            node=one.node.id,
        )
        for one in found
    )
    told = (*currents_told(found), PRICED_WITH_PUMP) if rows else ()
    return Table(MOTORS, columns, rows, told, empty="No pump of this site has pipe runs yet.")


def pump_table(circuit: CircuitSheets, design: SiteDesign) -> Table:
    """The pump and motor of one circuit: flow and head at the left, power and energy at the right."""
    columns = (
        Column("Pump", weight=2.0),
        Column("Flow and head", weight=1.4),
        Column("Motor and energy", weight=2.0),
        Column("Power and energy", weight=1.4),
    )
    left, right = _head_cells(circuit), _figure_cells(circuit, POWER_FIGURES, design)
    pairs = zip_longest(left, right, fillvalue=("", ""))
    rows = tuple(Row((*one, *other), node=circuit.node.id) for one, other in pairs)
    return Table("Pump and motor", columns, rows, notes=tuple(_told(circuit)), gathered=True)


def _head_cells(circuit: CircuitSheets) -> list[tuple[str, Cell]]:
    """Pumps, flow and head, by label."""
    return [
        ("Pumps in duty", count(circuit.plan.count)),
        ("Pumps that stand by", count(circuit.standby)),
        *_figure_cells(circuit, HEAD_FIGURES),
    ]


def _figure_cells(
    circuit: CircuitSheets, keys: tuple[str, ...], design: SiteDesign | None = None
) -> list[tuple[str, Cell]]:
    currency = design.site.currency if design else ""
    return [
        (figure.kind.label, number(figure.value, figure.kind.measure, before=currency if key == "energy_cost" else ""))
        for key in keys
        if (figure := circuit.sheet.figures.get(circuit.key_of_pump(key)))
    ]


def _told(circuit: CircuitSheets) -> Iterator[str]:
    """What is set by hand, what is needed, and where estimates and table values come from."""
    for key in (*HEAD_FIGURES, *POWER_FIGURES):
        figure = circuit.sheet.figures.get(circuit.key_of_pump(key))
        if figure is not None and figure.override:
            yield f"{figure.kind.label}: set by hand. Reason: {figure.override.reason}"
        elif key in SOURCES_TOLD and figure is not None and isinstance(figure.value, Worked):
            yield f"{figure.kind.label}: {source_text(figure.value.step.source)}"
    for note in currents_told((circuit,)):
        yield f"Motor supply: three-phase, {circuit.plan.voltage.label}. {note}"
    if "suction_head_needed" not in circuit.sheet.figures:
        yield NO_SUCTION_FIGURE
    if by_hand(circuit.sheet):
        yield BY_HAND
    yield from _lacks(circuit)


def _lacks(circuit: CircuitSheets) -> Iterator[str]:
    """What is needed for the figures with a dash, each need once, under the first figure that lacks it."""
    told: set[str] = set()
    for key in (*HEAD_FIGURES, *POWER_FIGURES):
        figure = circuit.sheet.figures.get(circuit.key_of_pump(key))
        if figure is not None and isinstance(figure.value, Missing) and figure.value.needs not in told:
            told.add(figure.value.needs)
            yield f"{figure.kind.label}: {figure.value.needs}"

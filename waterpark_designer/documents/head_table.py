"""The head of a circuit built up line by line, with clean filters, with dirty ones, and at duty."""

from collections.abc import Iterator

from waterpark_designer.documents.circuits import FILTERS, CircuitSheets
from waterpark_designer.documents.figures import needed
from waterpark_designer.documents.pipe_names import pipe_text
from waterpark_designer.documents.table import DASH, Cell, Column, Number, Row, RowKind, Table, number
from waterpark_designer.documents.workings import source_text
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.divide_flow import Group, groups_on_path, loss_of, name_of
from waterpark_designer.engine.size_pipes import run_on
from waterpark_designer.engine.worked import Missing, Value, Worked
from waterpark_designer.units import HEAD, UnitSystem

KEYS = ("static_head", "filter_loss", "pipe_loss", "equipment_loss", "head_clean", "filter_dirt", "head_dirty")


def head_table(circuit: CircuitSheets, design: SiteDesign, system: UnitSystem) -> Table:
    """Lift, each run on the path, each piece of equipment, and the totals."""
    columns = (Column("Head", weight=2.4), Column("Loss", HEAD), Column("Together", HEAD), Column("From", weight=3.6))
    needs = needed(design, circuit.node.id, (*KEYS, "duty_head"))
    return Table("Head build-up", columns, tuple(_rows(circuit, system)), notes=needs, gathered=True)


def _rows(circuit: CircuitSheets, system: UnitSystem) -> Iterator[Row]:
    sheet, together = circuit.sheet, 0.0
    for name, value, told in _lines(circuit, system):
        # Past the first loss that is not known there is no running total.
        together += float("nan") if isinstance(value, Missing) else float(value)
        yield Row((name, number(value, HEAD), _running(together), told), node=circuit.node.id)
    filters, by_hand = FILTERS in sheet.figures, bool(sheet.figures["head_clean"].override)
    if filters or by_hand:
        yield _total(circuit, "Total with clean filters" if filters else "Total", "head_clean")
    if filters:
        dirt = sheet["filter_dirt"]
        told = _source(dirt) if isinstance(dirt, Worked) else ""
        yield Row(("Dirt on the filters", number(dirt, HEAD), "", told), node=circuit.node.id, key="filter_dirt")
        yield _total(circuit, "Total with dirty filters", "head_dirty")
    yield _total(circuit, "Duty head of the pump", "duty_head", _why_duty(circuit))


def _lines(circuit: CircuitSheets, system: UnitSystem) -> Iterator[tuple[str, Value, str]]:
    """(name, loss, where it comes from) of everything on the path, as water meets it."""
    sheet = circuit.sheet
    lift = sheet["static_head"]
    yield sheet.figures["static_head"].kind.label, lift, _source(lift) if isinstance(lift, Worked) else ""
    for group in groups_on_path(circuit.runs):
        yield name_of(group), loss_of(group), _pipe_of(group, system)
    equipment = sheet["equipment_loss"]
    if isinstance(equipment, Worked) and equipment.step.joined == "sum":
        for name, part in equipment.step.parts:
            if isinstance(part, Worked):
                yield name, part, _source(part)
    else:
        yield sheet.figures["equipment_loss"].kind.label, equipment, ""


def _pipe_of(group: Group, system: UnitSystem) -> str:
    """Size of a run, or the runs that stand side by side, each of which takes this head."""
    if len(group) > 1:
        return f"{', '.join(sheet.node.name for sheet in group)}, side by side"
    return f"{pipe_text(group[0], system)}{', assumed' if run_on(group[0]).assumed else ''}"


def _running(together: float) -> Cell:
    return DASH if together != together else Number(together, HEAD)


def _total(circuit: CircuitSheets, title: str, key: str, told: str = "") -> Row:
    figure = circuit.sheet.figures[key]
    by_hand = f"Set by hand: {figure.override.reason}" if figure.override else told
    return Row((title, "", number(figure.value, HEAD), by_hand), RowKind.TOTAL, circuit.node.id, key)


def _why_duty(circuit: CircuitSheets) -> str:
    """By which rule one of the totals is the duty, or that it was settled on."""
    value = circuit.sheet["duty_head"]
    if isinstance(value, Missing) or FILTERS not in circuit.sheet.figures:
        return ""
    title, source = value.step.title, value.step.source.text
    return source if source.startswith(title) else f"{title}: {source}"


def _source(value: Worked) -> str:
    """Where a loss comes from: who stated it or the pressure it is turned into a head from, or that it was worked."""
    if value.step.parts:
        return "Worked on the calculation sheets"
    stated = [part for _, _, part, _ in value.step.inputs() if isinstance(part, Worked) and not part.step.inputs()]
    return source_text(stated[0].step.source if stated else value.step.source)

"""The head of a pump as lines to be read from top to bottom: pipes, equipment, dirt, duty, where it runs."""

from dataclasses import dataclass

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.divide_flow import Group, groups_on_path, loss_of, name_of
from waterpark_designer.engine.hydraulics_of_system import OWN
from waterpark_designer.engine.sheet import Figure, Sheet
from waterpark_designer.engine.worked import Missing, Value, Worked
from waterpark_designer.engine.working import value_text
from waterpark_designer.gui.figure_row import unit_of
from waterpark_designer.gui.loops import Loop
from waterpark_designer.gui.paper_rows import Cell, Row, RowStyle
from waterpark_designer.gui.pipe_columns import asking
from waterpark_designer.units import HEAD, VELOCITY, UnitSystem

HEADING, LINE, TOTAL = RowStyle.HEADING, RowStyle.LINE, RowStyle.TOTAL
WHERE_IT_RUNS = (
    "pump_flow",
    "operating_flow_clean",
    "operating_head_clean",
    "operating_flow_dirty",
    "operating_head_dirty",
    "suction_head_available",
    "suction_head_needed",
)
MOTOR = ("shaft_power", "motor_rating", "motor_current", "drive_efficiency")
POWER = ("electric_power", "energy_a_day", "energy_of_season", "energy_cost")
NIGHT = ("night_speed", "night_power", "energy_saved_a_day")
NOTHING = "—"


@dataclass(frozen=True, slots=True)
class HeadLine:
    """One line: words, number and unit; `node` and `figure` lead to the working, `note` says what else to know."""

    words: str
    number: str = ""
    unit: str = ""
    note: str = ""
    node: str = ""
    figure: str = ""
    style: RowStyle = LINE

    def row(self) -> Row:
        """The line as a table shows it."""
        return Row((Cell(self.words, self.note), Cell(self.number), Cell(self.unit, tone="dim")), self.style)


def head_lines(design: SiteDesign, loop: Loop) -> list[HeadLine]:
    """The lines of a loop; none where its head is not worked."""
    sheet = design.sheets[loop.id]
    if "pipe_loss" not in sheet.figures:
        return []
    lines = [HeadLine("Head at design flow", style=HEADING), _figure(sheet, "static_head", design)]
    runs = [design.sheets[run.id] for run in loop.pipe_runs]
    lines += [_runs(design, group) for group in groups_on_path(runs)]
    lines += [_figure(sheet, "pipe_loss", design, TOTAL), *_equipment(design, sheet)]
    lines += [_figure(sheet, "equipment_loss", design, TOTAL), _figure(sheet, "head_clean", design, TOTAL)]
    if "head_dirty" in sheet.figures:
        lines += [_figure(sheet, "filter_dirt", design), _figure(sheet, "head_dirty", design, TOTAL)]
    lines.append(_duty(sheet, design))
    lines += _group("Where the pump runs", WHERE_IT_RUNS, sheet, design)
    own = tuple(f"{OWN}{key}" for key in POWER)
    if own[0] not in sheet.figures:
        return lines + _group("Motor and energy", (*MOTOR, *NIGHT, *POWER), sheet, design)
    lines += _group("Motor and energy", (*MOTOR, *NIGHT, *own), sheet, design)
    return lines + (_group("With the pumps of its features", POWER, sheet, design) if _has_features(sheet) else [])


def _has_features(sheet: Sheet) -> bool:
    """Whether the system's power is that of more pumps than its own."""
    own, power = sheet[f"{OWN}electric_power"], sheet["electric_power"]
    return isinstance(power, Missing) != isinstance(own, Missing) or (
        isinstance(power, Worked) and len(power.step.parts) > 1
    )


def _duty(sheet: Sheet, design: SiteDesign) -> HeadLine:
    line = _figure(sheet, "duty_head", design, TOTAL)
    value = sheet["duty_head"]
    has_dirt = "head_dirty" in sheet.figures
    note = value.step.title if isinstance(value, Worked) and has_dirt and not line.note else line.note
    return HeadLine(line.words, line.number, line.unit, note, line.node, line.figure, TOTAL)


def _group(title: str, keys: tuple[str, ...], sheet: Sheet, design: SiteDesign) -> list[HeadLine]:
    found = [_figure(sheet, key, design) for key in keys if key in sheet.figures]
    return [HeadLine(title, style=HEADING), *found] if found else []


def _figure(sheet: Sheet, key: str, design: SiteDesign, style: RowStyle = LINE) -> HeadLine:
    figure = sheet.figures[key]
    return _line(figure.kind.label, figure, sheet.node.id, design, style)


def _runs(design: SiteDesign, group: Group) -> HeadLine:
    """A run, or the branches of a junction, whose head counts once."""
    first = _run(design, group[0].node.id)
    if len(group) == 1:
        return first
    loss, units, measure = loss_of(group), design.site.units, group[0].figures["run_loss"].kind.measure
    number = (measure.text(loss, units), measure.symbol(units)) if isinstance(loss, Worked) else (NOTHING, "")
    note = f"Side by side: {', '.join(sheet.node.name for sheet in group)}."
    return HeadLine(name_of(group), *number, note, first.node, "run_loss")


def _run(design: SiteDesign, run: str) -> HeadLine:
    sheet = design.sheets[run]
    velocity = sheet["velocity"]
    speed = VELOCITY.phrase(velocity, design.site.units) if isinstance(velocity, Worked) else ""
    status = asking("velocity", sheet)
    note = f"{status.mark} Velocity {status.label}: {speed}" if status else ""
    line = _line(sheet.node.name, sheet.figures["run_loss"], run, design, LINE)
    return HeadLine(line.words, line.number, line.unit, line.note or note, run, "run_loss")


def _equipment(design: SiteDesign, sheet: Sheet) -> list[HeadLine]:
    """What equipment takes, part by part; where one part is not known, the total says so."""
    value, units = sheet["equipment_loss"], design.site.units
    if not isinstance(value, Worked):
        return []
    figure = "device_head" if "device_head" in sheet.figures else "equipment_loss"
    return [
        HeadLine(name, *_number(part, units), node=sheet.node.id, figure=figure)
        for name, part in value.step.parts
        if isinstance(part, Worked)
    ]


def _number(value: Value, units: UnitSystem) -> tuple[str, str]:
    return (NOTHING, "") if isinstance(value, Missing) else (HEAD.text(value, units), HEAD.symbol(units))


def _line(words: str, figure: Figure, node: str, design: SiteDesign, style: RowStyle) -> HeadLine:
    kind = figure.kind
    if isinstance(figure.value, Missing):
        return HeadLine(words, NOTHING, "", figure.value.short, node, kind.key, style)
    note = f"Set by hand: {figure.override.reason}" if figure.override else ""
    units, currency = design.site.units, design.site.currency
    unit = unit_of(figure, units, currency)
    return HeadLine(words, value_text(figure, units), unit, note, node, kind.key, style)

"""The head a pump must give, line by line, with clean filters and with dirty ones."""

from collections.abc import Sequence
from dataclasses import dataclass

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.divide_flow import groups_on_path, loss_of, name_of, part_of
from waterpark_designer.engine.expand_bed import GRAIN_SIZE, POROSITY, SANDS, SPHERICITY
from waterpark_designer.engine.formulas import filter_bed, pipes
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pipes import run_on
from waterpark_designer.engine.system_curve import EquipmentLoss, SystemCurve
from waterpark_designer.engine.water_at import Water
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, Value, given, leaf, total
from waterpark_designer.model.hydraulics import ALLOWANCES, EquipmentLosses
from waterpark_designer.model.kinds import VelocityClass
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.rules.rule_set import Fact
from waterpark_designer.sources import ARITHMETIC, Provenance, Source
from waterpark_designer.units import HEAD

FILTER_PIPING = Source("Laterals, heads and face piping of a filter, about 2 psi", Provenance.COMMON_PRACTICE)
ROUNDING = 1e-6
FILTER_PIPING_HEAD = 1.4


def states_of_filters(sheet: Sheet) -> tuple[str, ...]:
    """The states in which a pump runs at points of its own: one alone, where no filter fouls on its way."""
    return ("clean", "dirty") if "head_dirty" in sheet.figures else ("clean",)


@dataclass(frozen=True, slots=True)
class Circuit:
    """What a pump drives water through: pipe runs on its path and everything else that takes head."""

    runs: Sequence[Sheet]
    equipment: Sequence[tuple[str, Value]]
    static: Value
    dirt: Value | None

    def head(self, sheet: Sheet) -> tuple[Value, Value]:
        """Enter the head build-up; returns the head with clean and with dirty filters, one where there are none."""
        piping = [(name_of(group), loss_of(group)) for group in groups_on_path(self.runs)]
        sheet.record("static_head", self.static)
        sheet.record("pipe_loss", total("Head lost in pipes", piping, HEAD, ARITHMETIC))
        sheet.record("equipment_loss", total("Head taken by equipment", self.equipment, HEAD, ARITHMETIC))
        parts = [("Lift", sheet["static_head"]), ("Pipes", sheet["pipe_loss"]), ("Equipment", sheet["equipment_loss"])]
        title = "Total head" if self.dirt is None else "Head, clean filters"
        clean = sheet.record("head_clean", total(title, parts, HEAD, ARITHMETIC))
        if self.dirt is None:
            return clean, clean
        dirt = sheet.record("filter_dirt", self.dirt)
        parts = [("Clean", clean), ("Dirt", dirt)]
        return clean, sheet.record("head_dirty", total("Head, dirty filters", parts, HEAD, ARITHMETIC))

    def suction_loss(self, strainer: Value) -> Value:
        """Head lost ahead of the pump."""
        ahead = [run for run in self.runs if run_on(run).kind.velocity_class is VelocityClass.SUCTION]
        parts = [(name_of(group), loss_of(group)) for group in groups_on_path(ahead)]
        return total("Head lost ahead of the pump", [*parts, ("Strainer", strainer)], HEAD, ARITHMETIC)

    def curves(
        self, sheet: Sheet, flow: Value, water: Water, context: Context
    ) -> tuple[SystemCurve, SystemCurve] | None:
        """The circuit with clean and with dirty filters, one and the same where there are none, as solvers take it.

        Each goes through the head on the sheet at the design flow: what pipes and lift leave of it, a head set by hand
        included, grows with the square of the flow. None while something on it is not known.
        """
        clean = self._curve(sheet["static_head"], sheet["head_clean"], flow, water, context)
        if self.dirt is None or clean is None:
            return None if clean is None else (clean, clean)
        dirty = self._curve(sheet["static_head"], sheet["head_dirty"], flow, water, context)
        return None if dirty is None else (clean, dirty)

    def _curve(self, static: Value, head: Value, flow: Value, water: Water, context: Context) -> SystemCurve | None:
        if isinstance(flow, Missing) or isinstance(head, Missing) or isinstance(static, Missing) or flow <= 0:
            return None
        viscosity = water.kinematic_viscosity
        if isinstance(viscosity, Missing):
            return None
        lift, design_flow = min(float(static), float(head)), float(flow)
        lines = [part_of(group, design_flow, context) for group in groups_on_path(self.runs)]
        piping = SystemCurve(lift, float(viscosity), tuple(line for line in lines if line is not None))
        rest = float(head) - piping.head(design_flow)
        if None in lines or rest < -ROUNDING * float(head):
            # Lines not known, or more than a head set by hand leaves them: all of it by the square.
            return SystemCurve(lift, float(viscosity), (EquipmentLoss(float(head) - lift, design_flow),))
        return SystemCurve(lift, float(viscosity), (*piping.parts, EquipmentLoss(max(rest, 0.0), design_flow)))


def recirculation_circuit(
    sheet: Sheet,
    system: RecirculationSystem,
    runs: Sequence[Sheet],
    water: Water,
    facts: dict[str, Fact],
    context: Context,
) -> Circuit:
    """The circuit of a recirculation pump."""
    losses, source = system.equipment, source_of(system.equipment)
    equipment = [
        (name.capitalize(), given(losses, name, source))
        for name in ("strainer", "heater", "reactor", "generator", "valves", "inlets")
        if getattr(losses, name)
    ]
    clean = given(losses, "filter_clean", source)
    if losses.filter_clean is None:
        clean = _clean_filter(sheet, system, water)
    equipment.append(("Clean filter", sheet.record("filter_loss", clean)))
    return Circuit(runs, equipment, given(system.pump, "static_head"), _dirt(sheet, system, water, facts, context))


def source_of(losses: EquipmentLosses) -> Source:
    """Where the heads that equipment takes are from, as the project says."""
    if losses.source == ALLOWANCES:
        return Source(ALLOWANCES, Provenance.COMMON_PRACTICE)
    return Source(losses.source, Provenance.ENTRY) if losses.source else YOUR_ENTRY


def _clean_filter(sheet: Sheet, system: RecirculationSystem, water: Water) -> Value:
    """Bed by Ergun and the filter's own piping, for beds of sand; other media have no estimate."""
    if system.filters.medium not in SANDS:
        medium = system.filters.medium.label.lower()
        return Missing(f"Enter the head that a clean filter takes; there is no estimate for {medium} filters.")
    bed = filter_bed.clean_bed_loss(
        given(system.filters, "bed_depth"),
        sheet["filter_rate"],
        GRAIN_SIZE,
        POROSITY,
        SPHERICITY,
        water.viscosity,
        water.density,
    )
    parts = [
        ("Bed", pipes.pressure_head(bed, water.density)),
        ("Filter piping", leaf(FILTER_PIPING_HEAD, "Filter piping", FILTER_PIPING, measure=HEAD)),
    ]
    return total("Clean filter", parts, HEAD, ARITHMETIC)


def _dirt(sheet: Sheet, system: RecirculationSystem, water: Water, facts: dict[str, Fact], context: Context) -> Value:
    if system.equipment.filter_dirt is not None:
        return given(system.equipment, "filter_dirt", source_of(system.equipment))
    where = f"{system.filters.medium.label.lower()} filters"
    allowance = context.strictest(sheet, "filter_dirt", system.kinds, facts, where)
    return pipes.pressure_head(allowance, water.density)

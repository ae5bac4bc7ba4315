"""The equipment of one system: what to buy, how many, for what duty, and which figures size it."""

from waterpark_designer.engine.choose import Choice, with_spare
from waterpark_designer.engine.design_system import SizedSystem
from waterpark_designer.engine.schedule import Amount, ScheduleLine
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import YOUR_ENTRY, Value, Worked, leaf, total
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import FeaturePump, PrimaryDisinfection, SecondaryDisinfection
from waterpark_designer.sources import ARITHMETIC
from waterpark_designer.units import COUNT, FLOW, HEAD, LENGTH, RATIO, VOLUME

PUMP_FIGURES = (
    "pump_flow",
    "head_clean",
    "head_dirty",
    "duty_head",
    "operating_flow_clean",
    "operating_flow_dirty",
    "shaft_power",
    "motor_rating",
    "motor_current",
)
HYDROGEN_REMARKS = {
    PrimaryDisinfection.IN_RETURN_CELLS: "hydrogen leaves with the water: prove flow, no still pockets",
    PrimaryDisinfection.BRINE_FED: "vent hydrogen outdoors",
}


def equipment_of(sized: SizedSystem, number: int) -> tuple[ScheduleLine, ...]:
    """The schedule lines of the site's system of this number, in the order in which water meets them."""
    if not sized.system.attractions:
        return ()
    return (*_Lines(sized, number).all(),)


class _Lines:
    """Draws up the lines of one system."""

    def __init__(self, sized: SizedSystem, number: int) -> None:
        self._sized, self._number = sized, number
        self._sheet, self._system = sized.sheet, sized.system
        self._next: dict[str, int] = {}

    def all(self) -> list[ScheduleLine]:
        lines = [self._pump(), *self._feature_pumps(), self._filter()]
        if self._sized.disinfection.generator is not None:
            lines.append(self._generator(self._sized.disinfection.generator))
        if self._sized.disinfection.feed_pump and self._sized.disinfection.tank:
            lines.append(self._feed_pump(self._sized.disinfection.feed_pump))
            lines.append(self._solution_tank(self._sized.disinfection.tank))
        lines += [*self._holding_tanks(), *self._surge_tank()]
        if self._sized.disinfection.reactor is not None:
            lines.append(self._secondary(self._sized.disinfection.reactor))
        return [*lines, *self._pipes()]

    def _line(
        self,
        key: str,
        letter: str,
        item: str,
        quantity: Value,
        duty: tuple[Amount, ...],
        rating: tuple[Amount, ...],
        remarks: str,
        *figures: str,
        sheet: Sheet | None = None,
    ) -> ScheduleLine:
        owner = sheet or self._sheet
        return ScheduleLine(
            key=f"{owner.node.id}/{key}",
            system=self._system.id,
            item=item,
            quantity=quantity,
            duty=duty,
            rating=rating,
            tag=self._tag(letter),
            remarks=remarks,
            why=tuple((owner.node.id, figure) for figure in figures if figure in owner.figures),
        )

    def _tag(self, letter: str) -> str:
        """System and item in one number, as P-101; with a dash where the item's number has three figures."""
        item = self._next[letter] = self._next.get(letter, 0) + 1
        return f"{letter}-{self._number}{item:02d}" if item < 100 else f"{letter}-{self._number}-{item}"

    def _amount(self, figure: str, after: str = "", sheet: Sheet | None = None) -> Amount:
        found = (sheet or self._sheet).figures[figure]
        return Amount(found.value, found.kind.measure, after)

    def _pump(self) -> ScheduleLine:
        system, plan = self._system, self._system.pump
        flow = self._amount("pump_flow", "each") if "pump_flow" in self._sheet.figures else self._amount("design_flow")
        duty = [flow, *self._present("duty_head", "head")]
        if len(duty) == 1 and system.pump_head is not None:
            duty.append(Amount(leaf(system.pump_head, "Pump head", ARITHMETIC), HEAD, "head"))
        remarks = "duty and standby" if system.standby_pump else "no standby"
        return self._line(
            "pump",
            "P",
            "Recirculation pump with strainer",
            _count(plan.count + (1 if system.standby_pump else 0)),
            tuple(duty),
            self._motor(self._sheet),
            remarks if len(duty) > 1 else f"{remarks}; head to be stated",
            "least_flow",
            "design_flow",
            *PUMP_FIGURES,
        )

    def _feature_pumps(self) -> list[ScheduleLine]:
        return [
            self._feature_pump(sheet, sheet.node)
            for sheet in self._sized.below
            if isinstance(sheet.node, Feature) and sheet.node.pump is FeaturePump.OWN and sheet["feature_flow"] != 0
        ]

    def _feature_pump(self, sheet: Sheet, feature: Feature) -> ScheduleLine:
        plan = feature.pump_plan
        each = self._amount("pump_flow", "each", sheet) if plan.count > 1 and "pump_flow" in sheet.figures else None
        head = self._present("duty_head", "head", sheet)
        water = feature.water.label.lower()
        return self._line(
            "pump",
            "P",
            f"Feature pump, {feature.name}",
            _count(plan.count),
            (each or self._amount("feature_flow", "", sheet), *head),
            self._motor(sheet),
            water if head else f"{water}; head to be stated",
            "feature_flow",
            *PUMP_FIGURES,
            sheet=sheet,
        )

    def _present(self, figure: str, after: str = "", sheet: Sheet | None = None) -> tuple[Amount, ...]:
        """A figure as an amount, where the sheet has it."""
        return (self._amount(figure, after, sheet),) if figure in (sheet or self._sheet).figures else ()

    def _motor(self, sheet: Sheet) -> tuple[Amount, ...]:
        return (*self._present("motor_rating", "motor", sheet), *self._present("motor_current", "full load", sheet))

    def _pipes(self) -> list[ScheduleLine]:
        """Pipe by size: the length of all runs of one standard and size together."""
        lengths: dict[str, list[tuple[str, Value]]] = {}
        for sheet in sorted(self._sized.below, key=_bore):
            run, bore = sheet.node, sheet["inside_diameter"]
            if isinstance(run, PipeRun) and isinstance(bore, Worked):
                nominal, sized, _ = bore.step.title.partition(" in ")
                size = f"{run.standard.label}, {nominal} in" if sized else f"{run.standard.label}, bore set by hand"
                lengths.setdefault(size, []).append((run.name, leaf(run.length * run.count, run.name, YOUR_ENTRY)))
        return [
            self._line(
                f"pipe-{size}",
                "L",
                f"Pipe, {size}",
                _count(1),
                (Amount(total("Length of all runs", parts, LENGTH, ARITHMETIC), LENGTH, "in all"),),
                (),
                ", ".join(name for name, _ in parts),
            )
            for size, parts in sorted(lengths.items(), key=lambda item: item[0].partition(",")[0])
        ]

    def _filter(self) -> ScheduleLine:
        plan = self._system.filters
        rating = [self._amount("filter_rate", "all in duty")]
        remarks = "one spare included" if plan.spare else ""
        if "backwash_flow" in self._sheet.figures:
            rating.append(self._amount("backwash_flow", "backwash"))
        return self._line(
            "filter",
            "F",
            self._named(self._sized.filters, plan.medium.label),
            with_spare(self._sheet["filter_count"], plan.spare),
            (self._amount("filter_size", "each"),),
            tuple(rating),
            remarks,
            "filter_rate_limit",
            "filter_area_needed",
            "filter_size",
            "filter_count",
            "filter_rate",
            "filter_rate_one_out",
            "backwash_flow",
        )

    def _generator(self, choice: Choice) -> ScheduleLine:
        plan = self._system.disinfection
        spare = "one spare included; " if plan.spare else ""
        return self._line(
            "generator",
            "G",
            self._named(choice, plan.primary.label),
            with_spare(self._sheet["generator_count"], plan.spare),
            (self._amount("generator_size", "chlorine each"),),
            (self._amount("dilution_air", "least air for hydrogen"),),
            f"primary; {spare}{HYDROGEN_REMARKS[plan.primary]}",
            "feed_capacity",
            "generator_size",
            "generator_count",
            "generator_capacity",
            "capacity_one_out",
            "hydrogen",
            "dilution_air",
        )

    def _feed_pump(self, choice: Choice) -> ScheduleLine:
        alone = self._system.disinfection.primary is PrimaryDisinfection.HYPOCHLORITE
        return self._line(
            "feed-pump",
            "D",
            self._named(choice, "Hypochlorite feed pump"),
            self._sheet["feed_pump_count"],
            (self._amount("backup_feed", "together"),),
            (self._amount("feed_pump_size", "each"),),
            "only feed" if alone else "backup",
            "feed_capacity",
            "backup_feed",
            "feed_pump_size",
            "feed_pump_count",
        )

    def _solution_tank(self, tank: Choice) -> ScheduleLine:
        return self._line(
            "hypochlorite-tank",
            "T",
            self._named(tank, "Hypochlorite tank"),
            tank.count,
            (self._amount("hypochlorite_storage", "stored"),),
            (self._amount("hypochlorite_tank", "each"),),
            "with secondary containment, apart from acid",
            "backup_feed",
            "hypochlorite_storage",
            "hypochlorite_tank",
        )

    def _holding_tanks(self) -> list[ScheduleLine]:
        return [
            self._line(
                "holding-tank",
                "T",
                f"Holding tank, {body.node.name}",
                _count(1),
                (self._amount("least_tank_volume", "least", body),),
                (self._amount("tank_volume", "", body),),
                "confined space: entry by permit",
                "feature_flow",
                "least_tank_volume",
                "tank_volume",
                sheet=body,
            )
            for body in self._sized.bodies
            if "tank_volume" in body.figures
        ]

    def _surge_tank(self) -> list[ScheduleLine]:
        if not self._system.surge_volume:
            return []
        volume = Amount(leaf(self._system.surge_volume, "Surge tank", ARITHMETIC), VOLUME)
        return [
            self._line("surge-tank", "T", "Surge tank", _count(1), (volume,), (), "confined space: entry by permit")
        ]

    def _secondary(self, choice: Choice) -> ScheduleLine:
        plan = self._system.secondary
        ozone = plan.kind is SecondaryDisinfection.OZONE
        log = Amount(leaf(plan.log_reduction, "Log reduction", ARITHMETIC), RATIO, "log Cryptosporidium in one pass")
        return self._line(
            "secondary",
            "O" if ozone else "U",
            self._named(choice, "Ozone contactor" if ozone else "Ultraviolet reactor"),
            choice.count,
            (self._amount("secondary_flow"),),
            (Amount(choice.size, FLOW, "each"), log),
            plan.flow.label.lower(),
            "secondary_time",
            "secondary_flow_by_dilution",
            "secondary_flow",
        )

    def _named(self, choice: Choice, otherwise: str) -> str:
        return choice.item.name if choice.item else otherwise


def _bore(sheet: Sheet) -> float:
    """Inside diameter [m] of a run; nothing for other nodes."""
    value = sheet["inside_diameter"]
    return float(value) if isinstance(value, Worked) else 0.0


def _count(number: int) -> Value:
    return leaf(number, "Number", ARITHMETIC, measure=COUNT)

"""The equipment of one system: what to buy, how many, for what duty, and which figures size it."""

from waterpark_designer.engine.choose import Choice, with_spare
from waterpark_designer.engine.design_system import SizedSystem
from waterpark_designer.engine.draw_up_fittings import flow_meter, openings, pipes, pumps_bought, strainers, valves
from waterpark_designer.engine.schedule import Amount, ScheduleLine
from waterpark_designer.engine.schedule_lines import ScheduleLines, counted
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_surge_tank import usable_volume
from waterpark_designer.engine.worked import Worked, given
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import PumpPlan
from waterpark_designer.model.kinds import FeaturePump, PrimaryDisinfection, SecondaryDisinfection
from waterpark_designer.units import FLOW, HEAD, RATIO, VOLUME, nominal

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
    return (*_Equipment(sized, number).all(),)


DRIVE_FIGURES = ("motor_rating", "motor_current", "drive_efficiency", "night_speed", "energy_saved_a_day")
STANDBY = "duty and standby, piped as drawn"


class _Equipment(ScheduleLines):
    """Draws up the lines of one system."""

    def all(self) -> list[ScheduleLine]:
        lines = [self._pump(), *strainers(self), *self._drive(), *self._feature_pumps(), self._filter()]
        if self.sized.disinfection.generator is not None:
            lines.append(self._generator(self.sized.disinfection.generator))
        if self.sized.disinfection.feed_pump and self.sized.disinfection.tank:
            lines.append(self._feed_pump(self.sized.disinfection.feed_pump))
            lines.append(self._solution_tank(self.sized.disinfection.tank))
        lines += [*self._holding_tanks(), *self._surge_tank(), *self._waste_sump()]
        if self.sized.disinfection.reactor is not None:
            lines.append(self._secondary(self.sized.disinfection.reactor))
        return [*lines, *flow_meter(self), *openings(self), *pipes(self), *valves(self)]

    def _pump(self) -> ScheduleLine:
        system, plan = self.system, self.system.pump
        flow = self.amount("pump_flow", "each") if "pump_flow" in self.sheet.figures else self.amount("design_flow")
        duty = [flow, *self.present("duty_head", "head")]
        if len(duty) == 1 and system.pump_head is not None:
            duty.append(Amount(given(system, "pump_head"), HEAD, "head"))
        remarks = f"{STANDBY if system.standby_pump else 'no standby'}{_with_motor(self.sheet, plan)}"
        return self.line(
            "pump",
            "P",
            "Recirculation pump with motor",
            counted(pumps_bought(system)),
            tuple(duty),
            self._motor(self.sheet),
            remarks if len(duty) > 1 else f"{remarks}; head to be stated",
            "least_flow",
            "design_flow",
            *PUMP_FIGURES,
        )

    def _feature_pumps(self) -> list[ScheduleLine]:
        lines = []
        for sheet in self.sized.below:
            feature = sheet.node
            if isinstance(feature, Feature) and feature.pump is FeaturePump.OWN and sheet["feature_flow"] != 0:
                lines.append(self._feature_pump(sheet, feature))
                lines += self._drive(sheet, feature.pump_plan, f", {feature.name}", feature.pump_plan.count)
        return lines

    def _drive(
        self, sheet: Sheet | None = None, plan: PumpPlan | None = None, whose: str = "", count: int | None = None
    ) -> list[ScheduleLine]:
        """The drives of a pump, one for each motor, where there are any."""
        sheet, plan = sheet or self.sheet, plan or self.system.pump
        if not plan.has_drive:
            return []
        return [
            self.line(
                "drive",
                "VS",
                f"Variable-speed drive{whose}",
                counted(count or pumps_bought(self.system)),
                self.present("motor_rating", "motor", sheet),
                self.present("motor_current", "full load", sheet),
                f"one for each motor, {plan.voltage.label} three-phase",
                *DRIVE_FIGURES,
                sheet=sheet,
            )
        ]

    def _feature_pump(self, sheet: Sheet, feature: Feature) -> ScheduleLine:
        plan = feature.pump_plan
        each = self.amount("pump_flow", "each", sheet) if plan.count > 1 and "pump_flow" in sheet.figures else None
        head = self.present("duty_head", "head", sheet)
        water = f"{feature.water.label.lower()}{_with_motor(sheet, plan)}"
        return self.line(
            "pump",
            "P",
            f"Feature pump, {feature.name}",
            counted(plan.count),
            (each or self.amount("feature_flow", "", sheet), *head),
            self._motor(sheet),
            water if head else f"{water}; head to be stated",
            "feature_flow",
            *(figure for figure in PUMP_FIGURES if figure != "head_clean"),
            sheet=sheet,
        )

    def _motor(self, sheet: Sheet) -> tuple[Amount, ...]:
        return (*self.present("motor_rating", "motor", sheet), *self.present("motor_current", "full load", sheet))

    def _filter(self) -> ScheduleLine:
        plan = self.system.filters
        rating = [self.amount("filter_rate", "all in duty")]
        remarks = "one spare included" if plan.spare else ""
        if "backwash_flow" in self.sheet.figures:
            rating.append(self.amount("backwash_flow", "backwash"))
        return self.line(
            "filter",
            "F",
            self._named(self.sized.filters, plan.medium.label),
            with_spare(self.sheet["filter_count"], plan.spare),
            (self.amount("filter_size", "each"),),
            tuple(rating),
            remarks,
            "filter_rate_limit",
            "filter_area_needed",
            "filter_size",
            "filter_count",
            "filter_rate",
            "filter_rate_one_out",
            "backwash_flow",
            "bed_expansion_warm",
            "bed_expansion_cold",
        )

    def _generator(self, choice: Choice) -> ScheduleLine:
        plan = self.system.disinfection
        spare = "one spare included; " if plan.spare else ""
        return self.line(
            "generator",
            "G",
            self._named(choice, plan.primary.label),
            with_spare(self.sheet["generator_count"], plan.spare),
            (self.amount("generator_size", "chlorine each"),),
            (self.amount("dilution_air", "least air for hydrogen"),),
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
        alone = self.system.disinfection.primary is PrimaryDisinfection.HYPOCHLORITE
        return self.line(
            "feed-pump",
            "D",
            self._named(choice, "Hypochlorite feed pump"),
            self.sheet["feed_pump_count"],
            (self.amount("backup_feed", "together"),),
            (self.amount("feed_pump_size", "each"),),
            "only feed" if alone else "backup",
            "feed_capacity",
            "backup_feed",
            "feed_pump_size",
            "feed_pump_count",
        )

    def _solution_tank(self, tank: Choice) -> ScheduleLine:
        return self.line(
            "hypochlorite-tank",
            "T",
            self._named(tank, "Hypochlorite tank"),
            tank.count,
            (self.amount("hypochlorite_storage", "stored"),),
            (self.amount("hypochlorite_tank", "each"),),
            "with secondary containment, apart from acid",
            "backup_feed",
            "hypochlorite_storage",
            "hypochlorite_tank",
        )

    def _holding_tanks(self) -> list[ScheduleLine]:
        return [
            self.line(
                "holding-tank",
                "T",
                f"Holding tank, {body.node.name}",
                counted(1),
                (self.amount("least_tank_volume", "least", body),),
                (self.amount("tank_volume", "", body),),
                "confined space: entry by permit",
                "feature_flow",
                "least_tank_volume",
                "tank_volume",
                sheet=body,
            )
            for body in self.sized.bodies
            if "tank_volume" in body.figures
        ]

    def _surge_tank(self) -> list[ScheduleLine]:
        """The tank by what it must take and what it holds, which is more or less than the water in it while running."""
        usable = usable_volume(self.system)
        if usable is None:
            return []
        holds = Amount(usable, nominal(VOLUME), "from lowest level to overflow")
        return [self._chamber("surge-tank", "Surge tank", "surge_needed", "surge to take", holds)]

    def _waste_sump(self) -> list[ScheduleLine]:
        needed, tanks = self.sheet["sump_needed"], self.system.tanks
        holds = Amount(given(tanks, "sump_volume"), nominal(VOLUME)) if tanks.sump_volume else None
        wanted = holds or (isinstance(needed, Worked) and needed > 0)
        return [self._chamber("waste-sump", "Waste sump", "sump_needed", "needed", holds)] if wanted else []

    def _chamber(self, key: str, item: str, figure: str, told: str, holds: Amount | None) -> ScheduleLine:
        """A tank or sump that is built: the volume needed, and what it holds where that is settled."""
        rating, remark = (holds,) if holds else (), "confined space: entry by permit"
        return self.line(key, "T", item, counted(1), self.present(figure, told), rating, remark, figure)

    def _secondary(self, choice: Choice) -> ScheduleLine:
        plan = self.system.secondary
        ozone = plan.kind is SecondaryDisinfection.OZONE
        log = Amount(given(plan, "log_reduction"), nominal(RATIO), "log Cryptosporidium in one pass")
        return self.line(
            "secondary",
            "O" if ozone else "U",
            self._named(choice, "Ozone contactor" if ozone else "Ultraviolet reactor"),
            choice.count,
            (self.amount("secondary_flow"),),
            (Amount(choice.size, nominal(FLOW), "each"), log),
            plan.flow.label.lower(),
            "secondary_time",
            "secondary_flow_by_dilution",
            "secondary_flow",
        )

    def _named(self, choice: Choice, otherwise: str) -> str:
        return choice.item.name if choice.item else otherwise


def _with_motor(sheet: Sheet, plan: PumpPlan) -> str:
    """A pump is bought with its motor; its drive, where there is one, is a line of its own."""
    return f"; motor included, {plan.voltage.label} three-phase" if "motor_rating" in sheet.figures else ""

"""Every figure the program states: its one name, symbol, measure, discipline and definition."""

from dataclasses import dataclass
from enum import StrEnum

from waterpark_designer import units as u
from waterpark_designer.units import Measure


class Discipline(StrEnum):
    """The order in which a designer works, and figures are shown."""

    GEOMETRY = "geometry"
    OCCUPANCY = "occupancy"
    TURNOVER = "turnover"
    FEATURES = "features"
    FILTRATION = "filtration"
    HYDRAULICS = "hydraulics"
    OPENINGS = "tanks and openings"
    POWER = "power"
    CURRENT = "current"
    DISINFECTION = "disinfection"
    SALT = "salt"

    @property
    def label(self) -> str:
        return self.value.capitalize()


@dataclass(frozen=True, slots=True)
class FigureKind:
    """One term for one thing: key, label, symbol, measure, discipline, definition; `minor` figures fold away."""

    key: str
    label: str
    symbol: str
    measure: Measure
    discipline: Discipline
    definition: str
    minor: bool = False


G, P, T, F = Discipline.GEOMETRY, Discipline.OCCUPANCY, Discipline.TURNOVER, Discipline.FEATURES
L, D, S = Discipline.FILTRATION, Discipline.DISINFECTION, Discipline.SALT
H, N, W, C = Discipline.HYDRAULICS, Discipline.OPENINGS, Discipline.POWER, Discipline.CURRENT

# fmt: off
FIGURE_KINDS: dict[str, FigureKind] = {kind.key: kind for kind in (
    FigureKind("volume", "Volume", "V", u.VOLUME, G, "Water in the body, steps, benches and islands taken off."),
    FigureKind("surface_area", "Surface area", "A", u.AREA, G, "Area of the water surface, or of a spray deck."),
    FigureKind("perimeter", "Perimeter", "P", u.LENGTH, G,
        "Length of the water's edge, islands included; the edges of zones are added, so set it by hand where zones "
        "adjoin."),
    FigureKind("mean_depth", "Mean depth", "d", u.LENGTH, G, "Volume over surface area."),
    FigureKind("greatest_depth", "Greatest depth", "d max", u.LENGTH, G, "Deepest water of the body."),

    FigureKind("peak_occupancy", "Peak occupancy", "N", u.BATHERS, P,
        "Theoretical peak number of bathers at one time: area over the area the code gives each."),
    FigureKind("bathers_a_day", "Bathers on the design day", "N d", u.BATHERS, P,
        "Visits on the design day: your own figure, or peak occupancy times the site's visits per place."),

    FigureKind("longest_turnover", "Longest turnover allowed", "T max", u.HOURS, T,
        "The longest time in which a flow equal to the volume may pass the filters."),
    FigureKind("least_flow_by_time", "Least flow by turnover time", "Q T", u.FLOW, T,
        "Volume over the longest turnover allowed."),
    FigureKind("least_flow_by_load", "Least flow by surface and load", "Q A", u.FLOW, T,
        "Surface over the load factor and the specific load of the treatment, where the code sizes that way."),
    FigureKind("feature_surcharge", "Flow added for features", "Q Z", u.FLOW, T,
        "Treated flow that the code adds for slides, jets and large-area features."),
    FigureKind("least_flow", "Least recirculation flow", "Q min", u.FLOW, T,
        "The least filtered flow that satisfies every limit that applies."),
    FigureKind("design_flow", "Design flow", "Q", u.FLOW, T,
        "Filtered flow the system is built for: the least flow and the design margin."),
    FigureKind("turnover_time", "Turnover at design flow", "T", u.HOURS, T, "Volume over design flow."),
    FigureKind("turnovers_a_day", "Turnovers a day", "n", u.RATIO, T,
        "Volumes that pass the filters in 24 hours.", minor=True),
    FigureKind("treated_share", "Water treated after the turnovers counted", "X", u.SHARE, T,
        "Part of the water that has passed the filters at least once, by the law of dilution.", minor=True),

    FigureKind("feature_flow", "Feature flow", "Q f", u.FLOW, F, "Flow of the features while all run."),
    FigureKind("device_flow", "Flow of one device", "q f", u.SMALL_FLOW, F,
        "Flow of one nozzle, weir, slide, bucket or bubbler, by what is entered of it."),
    FigureKind("spray_coefficient", "Spray coefficient", "K", u.SPRAY_COEFFICIENT, F,
        "Flow of a nozzle over the root of its pressure.", minor=True),
    FigureKind("crest_flow", "Flow over the crest", "w", u.FLOW_PER_LENGTH, F,
        "Flow of a weir on each length of its crest."),
    FigureKind("bucket_cycle", "Time between tips", "t b", u.SECONDS, F, "Time in which a bucket fills."),
    FigureKind("device_head", "Head at the device", "h D", u.HEAD, F,
        "Head that one device needs at its flow, its lift apart; it counts in the feature pump's head."),
    FigureKind("device_head_running", "Head at the device, pump running", "h D,o", u.HEAD, F,
        "Head that a nozzle gets at the flow its pump gives."),
    FigureKind("feature_water_in_transit", "Feature water in transit", "V f", u.SMALL_VOLUME, F,
        "Water that features keep out of the basin or tank while they run: in the air, on slides and decks, in "
        "buckets, behind weirs. All of it comes back when they stop; splash-out is counted with the salt."),
    FigureKind("level_drop", "Drawdown by features", "Δh", u.SMALL_LENGTH, F,
        "Fall of the water level while all features run and nothing makes up for it: water in transit over surface."),
    FigureKind("tank_share_in_transit", "Part of the tank in transit", "r t", u.SHARE, F,
        "Feature water in transit as a part of the holding tank's volume."),
    FigureKind("recycled_feature_flow", "Feature flow from unfiltered water", "Q r", u.FLOW, F,
        "Feature water drawn from the basin or tank; it does not count as treated.", minor=True),
    FigureKind("circulation_feature_flow", "Feature flow taken from the recirculation", "Q s", u.FLOW, F,
        "Feature water that the recirculation pump delivers.", minor=True),
    FigureKind("least_tank_volume", "Least holding tank volume", "V t,min", u.VOLUME, F,
        "Least water a splash pad's tank must hold by the code basis."),
    FigureKind("tank_volume", "Holding tank volume", "V t", u.VOLUME, F, "Water kept in the splash pad's tank."),

    FigureKind("filter_rate_limit", "Largest filter rate allowed", "q max", u.FILTER_RATE, L,
        "Largest flow per filter area that the code basis allows for this medium."),
    FigureKind("filter_area_needed", "Filter area needed", "A F,min", u.AREA, L,
        "Design flow over the largest filter rate."),
    FigureKind("filter_size", "Area of one filter", "a F", u.nominal(u.AREA), L,
        "Filter area of the chosen nominal size."),
    FigureKind("filter_count", "Filters in duty", "n F", u.COUNT, L, "Filters that carry the design flow together."),
    FigureKind("filter_area", "Filter area in duty", "A F", u.AREA, L, "Area of the filters in duty."),
    FigureKind("filter_rate", "Filter rate, all in duty", "q", u.FILTER_RATE, L,
        "Design flow over filter area in duty."),
    FigureKind("filter_rate_one_out", "Filter rate, one out", "q n-1", u.FILTER_RATE, L,
        "Design flow over the area left while one filter is backwashed."),
    FigureKind("backwash_rate", "Backwash rate", "q B", u.FILTER_RATE, L, "Backwash flow per bed area."),
    FigureKind("backwash_flow", "Backwash flow, one filter", "Q B", u.FLOW, L,
        "Backwash rate times the area of one filter."),
    FigureKind("backwash_volume", "Water of one backwash", "V B", u.VOLUME, L,
        "Backwash flow over its duration, one filter."),
    FigureKind("backwash_water_a_day", "Backwash water a day", "Q B,d", u.DAILY_VOLUME, L,
        "Backwash water of all filters in duty, spread over the days between backwashes.", minor=True),
    FigureKind("backwash_water_a_season", "Backwash water a year", "V B,a", u.VOLUME, L,
        "Backwash water of all filters in duty over the days of operation in a year."),
    FigureKind("fluidising_rate", "Least fluidising rate", "q mf", u.FILTER_RATE, L, "Rate at which backwash begins to "
        "lift the bed with the warmest water; spheres of 0.5 mm.", minor=True),
    FigureKind("bed_expansion_least", "Bed expansion, lower figure", "x R", u.SHARE, L, "At the backwash rate with the "
        "warmest water, by Richardson and Zaki; spheres of 0.5 mm. Models differ widely.", minor=True),
    FigureKind("bed_expansion_warm", "Bed expansion, warmest water", "x W", u.SHARE, L, "At the backwash rate, by the "
        "Ergun balance; spheres of 0.5 mm. Richardson and Zaki give less."),
    FigureKind("bed_expansion_cold", "Bed expansion, coldest water", "x C", u.SHARE, L, "At the backwash rate, by the "
        "Ergun balance; spheres of 0.5 mm. Cold water lifts the bed further."),
    FigureKind("precoat_charge", "Precoat medium, one charge", "m P", u.MASS, L,
        "Medium for one coat of all filters in duty."),

    FigureKind("feed_by_volume", "Chlorine feed by volume", "F V", u.MASS_RATE, D,
        "Feed capacity the code basis asks for by volume of water."),
    FigureKind("feed_by_flow", "Chlorine feed by flow", "F Q", u.MASS_RATE, D,
        "Feed capacity the code basis asks for by recirculation flow."),
    FigureKind("chlorine_demand", "Chlorine used by bathers", "D N", u.MASS_RATE, D,
        "Chlorine that the bathers of the design day use up."),
    FigureKind("background_demand", "Chlorine used by sunlight and the water", "D B", u.MASS_RATE, D,
        "Chlorine that sunlight and the water itself use in a day, by your own estimate.", minor=True),
    FigureKind("chlorine_use", "Chlorine used on the design day", "D", u.MASS_RATE, D,
        "Chlorine that bathers, sunlight and the water use on the design day."),
    FigureKind("feed_by_demand", "Chlorine feed by demand", "F N", u.MASS_RATE, D,
        "Chlorine used on the design day times the design factor."),
    FigureKind("feed_capacity", "Chlorine feed capacity needed", "F", u.MASS_RATE, D,
        "The greatest of the feed capacities by volume, by flow and by demand."),
    FigureKind("generator_size", "Output of one generator", "f G", u.nominal(u.MASS_RATE), D,
        "Chlorine output of the chosen nominal size."),
    FigureKind("generator_count", "Generators in duty", "n G", u.COUNT, D,
        "Generators that give the feed capacity together."),
    FigureKind("generator_capacity", "Chlorine output installed", "F G", u.MASS_RATE, D,
        "Output of all generators, spare included."),
    FigureKind("capacity_one_out", "Capacity left, one generator out", "r n-1", u.SHARE, D,
        "Output of the generators left, as a share of the capacity needed."),
    FigureKind("hydrogen", "Hydrogen released at full output", "Q H", u.AIR_FLOW, D,
        "Hydrogen that the generators release while they run at full output."),
    FigureKind("dilution_air", "Least air to dilute the hydrogen", "Q L", u.AIR_FLOW, D,
        "Air that keeps hydrogen at a quarter of its lower flammable limit, before any safety factor."),
    FigureKind("backup_feed", "Hypochlorite feed", "Q hyp", u.DAILY_VOLUME, D,
        "Hypochlorite solution that gives the feed capacity, or the backup share of it where generators come first."),
    FigureKind("feed_pump_size", "Output of one feed pump", "q hyp", u.nominal(u.DAILY_VOLUME), D,
        "Nominal output of the chosen feed pump.", minor=True),
    FigureKind("feed_pump_count", "Feed pumps", "n hyp", u.COUNT, D,
        "Feed pumps that give the backup feed together.", minor=True),
    FigureKind("hypochlorite_storage", "Hypochlorite storage needed", "V hyp", u.SMALL_VOLUME, D,
        "Backup feed over the days it must last."),
    FigureKind("hypochlorite_tank", "Hypochlorite tank", "V tank", u.nominal(u.SMALL_VOLUME), D,
        "Nominal volume of the chosen solution tank."),
    FigureKind("secondary_time", "Time for secondary treatment", "T 2", u.HOURS, D,
        "Time in which the dilution formula lets secondary treatment clear the water.", minor=True),
    FigureKind("secondary_flow_by_dilution", "Secondary treatment flow by dilution", "Q D", u.FLOW, D,
        "Least flow through ultraviolet or ozone treatment by the dilution formula."),
    FigureKind("secondary_flow", "Secondary treatment flow", "Q 2", u.FLOW, D,
        "Flow that ultraviolet or ozone treatment is sized for."),

    FigureKind("salinity", "Salinity before start-up", "S 0", u.SALINITY, S,
        "Measured salinity, mixed over shared water."),
    FigureKind("salt_mass", "Start-up salt", "m S", u.MASS, S,
        "Salt that brings the water from measured to target salinity."),
    FigureKind("salt_bags", "Start-up salt, bags", "n S", u.BAGS, S, "Whole bags of start-up salt."),
    FigureKind("salt_pallets", "Start-up salt, pallets", "n P", u.COUNT, S, "Whole pallets for the bags."),
    FigureKind("exchange_volume", "Water to exchange", "V X", u.VOLUME, S,
        "Water to drain and refill where salinity stands above target."),
    FigureKind("saline_loss", "Salt water lost a day", "Q out", u.DAILY_VOLUME, S,
        "Water that leaves with its salt: splash-out, carry-out, backwash and dilution. Evaporation takes none."),
    FigureKind("average_saline_loss", "Salt water lost on an average day", "Q avg", u.DAILY_VOLUME, S,
        "Water that leaves with its salt on an average day of the season.", minor=True),
    FigureKind("replacement_water", "Water to be renewed a day", "Q R", u.DAILY_VOLUME, S,
        "Fresh water that the code basis or your own rule asks for each bather.", minor=True),
    FigureKind("salt_lost", "Salt lost a day", "L S", u.MASS_RATE, S,
        "Salt that leaves with lost water on an average day of the season, less what make-up brings.", minor=True),
    FigureKind("salt_from_chlorine", "Salt left by chlorine a day", "G S", u.MASS_RATE, S,
        "Salt that brine-fed product or hypochlorite leaves in the water; cells in the return leave none."
        " On an average day of the season.", minor=True),
    FigureKind("generator_salt", "Salt fed to generators a season", "m G", u.MASS, S,
        "Salt that brine-fed generators take over a season of average days; cells in the return take none."),
    FigureKind("make_up_salt", "Make-up salt a season", "m M", u.MASS, S,
        "Salt to add over a season to hold the target salinity."),
    FigureKind("make_up_bags", "Make-up salt a season, bags", "n M", u.BAGS, S,
        "Whole bags of make-up and generator salt a season."),
    FigureKind("lasting_salinity", "Salinity the water drifts to", "S end", u.SALINITY, S,
        "Salinity at which the salt that chlorine leaves and the salt lost balance. What salty make-up for evaporated "
        "water adds is not counted."),

    FigureKind("run_flow", "Flow of one run", "Q r", u.FLOW, H, "Flow that one pipe of the run carries."),
    FigureKind("velocity_limit", "Largest velocity allowed", "v max", u.VELOCITY, H,
        "Largest mean velocity that the code basis allows in lines of this kind."),
    FigureKind("least_bore", "Least inside diameter", "D min", u.SMALL_LENGTH, H,
        "Inside diameter at which the velocity is at its limit.", minor=True),
    FigureKind("inside_diameter", "Inside diameter", "D", u.SMALL_LENGTH, H, "Average inside diameter of the pipe."),
    FigureKind("velocity", "Velocity", "v", u.VELOCITY, H, "Mean velocity in the pipe."),
    FigureKind("friction_loss", "Friction", "h f", u.HEAD, H, "Head lost by friction over the length of the run."),
    FigureKind("fittings_loss", "Fittings", "h K", u.HEAD, H, "Head lost in the fittings of the run."),
    FigureKind("run_loss", "Head lost in the run", "h", u.HEAD, H, "Friction and fittings together."),
    FigureKind("gravity_capacity", "Flow on the head available", "Q h", u.FLOW, H,
        "Flow that one run carries full on the difference of levels alone."),
    FigureKind("pressure_allowed", "Pressure allowed at this temperature", "p max", u.PRESSURE, H,
        "Pressure rating of the pipe, less what it loses in warm water."),
    FigureKind("wave_speed", "Speed of a pressure wave", "a", u.VELOCITY, H,
        "Speed at which a sudden stop travels through the pipe.", minor=True),
    FigureKind("surge_pressure", "Pressure of a sudden stop", "p s", u.PRESSURE, H,
        "Water hammer if a valve shuts at once or a pump trips against a closing check valve."),
    FigureKind("filter_loss", "Clean filter", "h F", u.HEAD, H, "Head that the filters take when they are clean."),
    FigureKind("static_head", "Lift", "h s", u.HEAD, H, "Level to which the pump lifts the water."),
    FigureKind("pipe_loss", "Head lost in pipes", "h p", u.HEAD, H, "Loss of all runs on the pump's longest path."),
    FigureKind("equipment_loss", "Head taken by equipment", "h e", u.HEAD, H,
        "Strainer, clean filter, heater, reactor, cells, valves and inlets, or the device of a feature."),
    FigureKind("head_clean", "Total head, clean filters", "H c", u.HEAD, H, "Head at design flow with clean filters."),
    FigureKind("filter_dirt", "Head that filter dirt adds", "h d", u.HEAD, H, "Allowance for dirt just before "
        "cleaning."),
    FigureKind("head_dirty", "Total head, dirty filters", "H d", u.HEAD, H, "Head at design flow just before "
        "cleaning."),
    FigureKind("pump_flow", "Duty flow of one pump", "Q P", u.FLOW, H, "Flow of each pump in duty."),
    FigureKind("duty_head", "Duty head", "H", u.HEAD, H, "Head for which the pump is chosen."),
    FigureKind("operating_flow_clean", "Operating flow, clean filters", "Q c", u.FLOW, H,
        "Flow at which the pump runs with clean filters."),
    FigureKind("operating_head_clean", "Operating head, clean filters", "H oc", u.HEAD, H,
        "Head at which the pump runs with clean filters.", minor=True),
    FigureKind("operating_flow_dirty", "Operating flow, dirty filters", "Q d", u.FLOW, H,
        "Flow at which the pump runs just before the filters are cleaned."),
    FigureKind("operating_head_dirty", "Operating head, dirty filters", "H od", u.HEAD, H,
        "Head at which the pump runs just before the filters are cleaned.", minor=True),
    FigureKind("suction_loss", "Head lost ahead of the pump", "h su", u.HEAD, H,
        "Suction lines and strainer.", minor=True),
    FigureKind("suction_head_available", "Suction head available", "NPSH a", u.HEAD, H,
        "Net positive suction head at the pump, by altitude, temperature, level and loss."),
    FigureKind("suction_head_needed", "Suction head needed", "NPSH r", u.HEAD, H,
        "Net positive suction head that the pump requires, with a margin."),

    FigureKind("strainer_area", "Strainer open area", "A S", u.SMALL_AREA, N, "Least open area of the strainer."),
    FigureKind("meter_range", "Flow meter reads to", "Q M", u.FLOW, N, "Least upper end of the flow meter's range."),
    FigureKind("surge_needed", "Surge volume needed", "V S", u.VOLUME, N,
        "Volume between the surge tank's lowest level and its overflow: water that bathers displace, water on its way "
        "over the rim and in gutters, and reserves for backwash and features; or what the code asks by surface. A tank "
        "is a confined space."),
    FigureKind("surge_lowest", "Lowest level in the surge tank", "z 1", u.LENGTH, N,
        "Above the tank's floor: the suction and the water kept over it against a vortex."),
    FigureKind("surge_running", "Running level in the surge tank", "z 2", u.LENGTH, N,
        "Above the tank's floor, nobody in the water: the lowest level and the reserves for backwash and features."),
    FigureKind("surge_highest", "Highest level in the surge tank", "z 3", u.LENGTH, N,
        "Above the tank's floor, all bathers in the water and the pump stopped; its overflow lies no lower."),
    FigureKind("gutter_capacity_needed", "Gutter capacity needed", "Q G,min", u.FLOW, N,
        "Flow that gutters and their drains must take by the code basis."),
    FigureKind("gutter_line_capacity", "Capacity of the gutter drains", "Q G", u.FLOW, N,
        "Flow of the gutters at which the first of their drains, each with its share, runs full on its head."),
    FigureKind("sump_needed", "Waste sump volume needed", "V W", u.VOLUME, N,
        "Water of one backwash that the sewer does not take while it comes. A sump is a confined space."),
    FigureKind("inlets", "Return inlets", "n I", u.COUNT, N, "Least number of return inlets."),
    FigureKind("inlet_flow", "Flow of one inlet", "Q I", u.FLOW, N, "Design flow over the number of inlets."),
    FigureKind("inlet_velocity", "Velocity through one inlet", "v I", u.VELOCITY, N,
        "Flow of one inlet over the area of its orifice."),
    FigureKind("inlet_head", "Head behind one inlet", "h I", u.HEAD, N,
        "Velocity head of its jet, the least that the inlet takes; its supplier's figure may be more."),
    FigureKind("surface_flow", "Flow drawn from the surface", "Q K", u.FLOW, N,
        "Part of the design flow that leaves over a gutter's lip or by skimmers."),
    FigureKind("lip_flow", "Flow over each length of lip", "q L", u.FLOW_PER_LENGTH, N,
        "Flow drawn from the surface over the length of the gutter's lip."),
    FigureKind("lip_head", "Depth over the lip", "h L", u.SMALL_LENGTH, N,
        "Depth at which the water runs over the gutter's lip; indicative below about 30 mm (1.2 in)."),
    FigureKind("water_above_rim", "Water above the rim", "V A", u.VOLUME, N,
        "Water that stands above the rim while it overflows, and runs to the tank when the pump stops."),
    FigureKind("gutter_water", "Water in the gutters", "V G", u.VOLUME, N,
        "Water on its way in the gutters, which runs to the tank when the pump stops."),
    FigureKind("skimmers", "Skimmers", "n K", u.COUNT, N, "Least number of skimmers where the body has no gutter."),
    FigureKind("skimmer_flow", "Flow of one skimmer", "Q S", u.FLOW, N,
        "Flow drawn from the surface over the number of skimmers."),
    FigureKind("outlet_flow", "Flow of one outlet, one blocked", "Q O", u.FLOW, N,
        "Flow that each cover must be rated for while any one of the suction outlets is blocked."),
    FigureKind("cover_area_needed", "Open area of each cover needed", "A O,min", u.SMALL_AREA, N,
        "Open area at which the velocity through a cover is at its limit: while any one of several is blocked, or with "
        "the whole flow through a single one."),
    FigureKind("cover_velocity", "Velocity through each cover", "v O", u.VELOCITY, N,
        "Flow over the open area of a cover while any one of several is blocked, or the whole flow through a single "
        "one. A broken or missing cover traps at any velocity: the pump stays off."),

    FigureKind("hydraulic_power", "Hydraulic power of one pump", "P h", u.POWER, W, "Power that the water receives "
        "at duty."),
    FigureKind("pump_efficiency", "Pump efficiency", "η P", u.SHARE, W, "Hydraulic over shaft power at duty."),
    FigureKind("shaft_power", "Shaft power of one pump", "P s", u.POWER, W, "Power that the motor must give at duty."),
    FigureKind("motor_rating", "Motor rating", "P M", u.MOTOR_POWER, W, "Next standard motor."),
    FigureKind("motor_efficiency", "Motor efficiency", "η M", u.SHARE, W, "Nominal efficiency at full load."),
    FigureKind("motor_current", "Motor full-load current", "I", u.CURRENT, W,
        "Table current of a three-phase motor, for conductors and switches."),
    FigureKind("drive_efficiency", "Drive efficiency", "η D", u.SHARE, W, "Output over input of the variable-speed "
        "drive, where the pump takes most power."),
    FigureKind("recirculation_electric_power", "Power drawn by the recirculation pump", "P R", u.ELECTRIC_POWER, W,
        "Electric power of the recirculation pumps in duty alone, where they draw most."),
    FigureKind("electric_power", "Power drawn by pumps", "P", u.ELECTRIC_POWER, W, "Electric power of all pumps in "
        "duty, where they draw most."),
    FigureKind("night_speed", "Speed at night", "s", u.SHARE, W, "Speed that gives the reduced flow while "
        "closed.", minor=True),
    FigureKind("night_drive_efficiency", "Drive efficiency at night", "η N", u.SHARE, W, "Output over input of the "
        "variable-speed drive at the reduced flow.", minor=True),
    FigureKind("night_power", "Power drawn at night", "P N", u.ELECTRIC_POWER, W, "Electric power of the pumps in duty "
        "at the reduced flow, drive losses included.", minor=True),
    FigureKind("energy_saved_a_day", "Energy saved a day", "E s", u.ENERGY, W, "By reduced flow while closed, less "
        "what the variable-speed drive loses all day; against the same pump without a drive."),
    FigureKind("recirculation_energy_a_day", "Recirculation pump energy a day", "E R", u.ENERGY, W,
        "Energy of the recirculation pumps alone on a day of the season."),
    FigureKind("recirculation_energy_of_season", "Recirculation pump energy a season", "E R,a", u.ENERGY, W,
        "Energy of the recirculation pumps alone over a season.", minor=True),
    FigureKind("recirculation_energy_cost", "Recirculation pump energy cost a season", "k R", u.WHOLE_MONEY, W,
        "Of the recirculation pumps alone, at the project's price of energy.", minor=True),
    FigureKind("energy_a_day", "Pump energy a day", "E d", u.ENERGY, W, "Energy of the pumps on a day of the season."),
    FigureKind("energy_of_season", "Pump energy a season", "E a", u.ENERGY, W, "Energy of the pumps over a season."),
    FigureKind("energy_cost", "Pump energy cost a season", "k", u.WHOLE_MONEY, W, "At the project's price of energy."),

    FigureKind("wall_resistance", "Resistance of the walls", "F w", u.FORCE, C, "Drag of bed and walls on the "
        "current."),
    FigureKind("people_drag", "Drag of people standing", "F p", u.FORCE, C, "Drag of people who stand in the current."),
    FigureKind("jet_thrust", "Thrust needed", "F", u.FORCE, C, "Thrust that holds the current."),
    FigureKind("jet_flow", "Jet flow needed", "Q j", u.FLOW, C, "Flow of all jets that gives the thrust."),
    FigureKind("jet_power", "Power of the jets", "P j", u.POWER, C, "Kinetic power of the jets."),
    FigureKind("propulsive_efficiency", "Propulsive efficiency", "η j", u.SHARE, C, "Useful power over jet power."),
    FigureKind("jet_bore", "Bore of one jet", "d j", u.SMALL_LENGTH, C, "Bore of each jet at the jet flow."),
    FigureKind("jet_head", "Head at the jets", "h j", u.HEAD, C, "Head that drives the jets at their speed."),
)}
OF_FEATURES: dict[str, FigureKind] = FIGURE_KINDS | {kind.key: kind for kind in (
    FigureKind("head_clean", "Total head", "H c", u.HEAD, H, "Head at design flow."),
    FigureKind("operating_flow_clean", "Operating flow", "Q c", u.FLOW, H, "Flow at which the pump runs."),
    FigureKind("operating_head_clean", "Operating head", "H oc", u.HEAD, H, "Head at which the pump runs.", minor=True),
)}
"""As they are called on the sheet of a feature, whose water passes no filter."""
# fmt: on

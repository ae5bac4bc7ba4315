"""Salt of one system: start-up per body, exchange where there is too much, and what a season takes."""

from collections.abc import Callable

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import salt
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing, Value, Worked, given, greatest, leaf, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.kinds import PrimaryDisinfection
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.sources import ARITHMETIC, SALT_BALANCE, SALT_OF_CELLS, SALT_OF_HYPOCHLORITE
from waterpark_designer.units import BAGS, DAILY_VOLUME, MASS, MASS_RATE, SMALL_VOLUME, VOLUME

BathersOf = Callable[[Sheet, Context], Value]
HYPOCHLORITE_SALT_PER_CHLORINE = 1.648


def plan_salt(sheet: Sheet, bodies: list[Sheet], system: RecirculationSystem, context: Context) -> None:
    """Fill in the salt figures of a system and of each body of water on it."""
    measured = sheet.record("salinity", _mixed(bodies, "measured_salinity", "Salinity before start-up"))
    for body in bodies:
        _start_up(body, measured, context)
    _start_up_totals(sheet, bodies, system, measured, context)
    _season(sheet, bodies, system, context)


def _mixed(bodies: list[Sheet], field: str, title: str) -> Value:
    """Salinity of the bodies' water once the pump has mixed it."""
    if len(bodies) == 1:
        return given(bodies[0].node, field)
    salts = [(body.node.name, salt.salt_in_water(body["volume"], given(body.node, field))) for body in bodies]
    volumes = [(body.node.name, body["volume"]) for body in bodies]
    return salt.mixed_salinity(
        total(title, salts, MASS, SALT_BALANCE), total("Shared water", volumes, VOLUME, ARITHMETIC)
    )


def _start_up(body: Sheet, measured: Value, context: Context) -> None:
    attraction = body.node
    assert isinstance(attraction, Attraction)
    target = given(attraction, "target_salinity")
    body.record("salinity", measured)
    _salt_or_exchange(body, body["volume"], target, measured, context)
    body.work("salt_bags", salt.whole_bags, body["salt_mass"], given(context.salt, "bag_mass"))


def _salt_or_exchange(sheet: Sheet, volume: Value, target: Value, measured: Value, context: Context) -> None:
    """Salt to add, or water to exchange where the water is too salty already; a target of none asks for neither."""
    none = leaf(0.0, "No salt to add", ARITHMETIC, measure=MASS)
    if isinstance(target, Missing) or isinstance(measured, Missing) or target == 0:
        sheet.record("salt_mass", none if isinstance(measured, Worked) else measured)
    elif measured <= target:
        sheet.work("salt_mass", salt.start_up_salt, volume, target, measured, given(context.salt, "purity"))
    else:
        sheet.record("salt_mass", none)
        sheet.record("exchange_volume", _exchange(volume, target, measured, context))


def _exchange(volume: Value, target: Value, measured: Value, context: Context) -> Value:
    make_up = given(context.salt, "make_up_salinity")
    if isinstance(target, Worked) and isinstance(make_up, Worked) and make_up >= target:
        return Missing("Make-up water is saltier than the target, so exchange cannot reach it. Raise the target.")
    return salt.exchange_volume(volume, measured, target, make_up)


def _start_up_totals(
    sheet: Sheet, bodies: list[Sheet], system: RecirculationSystem, measured: Value, context: Context
) -> None:
    """Salt of the bodies and of the water in tank and pipes, which takes the bodies' mean target."""
    masses = [(body.node.name, body["salt_mass"]) for body in bodies]
    bags = [(body.node.name, body["salt_bags"]) for body in bodies]
    extra = system.surge_volume + system.piping_volume
    if extra > 0:
        target = _mixed(bodies, "target_salinity", "Target salinity")
        tank = Sheet(system.revised(overrides=()))
        water = total(
            "Water in tank and pipes",
            [("Surge tank", given(system, "surge_volume")), ("Piping", given(system, "piping_volume"))],
            VOLUME,
            ARITHMETIC,
        )
        _salt_or_exchange(tank, water, target, measured, context)
        masses.append(("Tank and pipes", tank["salt_mass"]))
        bags.append(("Tank and pipes", salt.whole_bags(tank["salt_mass"], given(context.salt, "bag_mass"))))
    sheet.record("salt_mass", total("Start-up salt", masses, MASS, ARITHMETIC))
    count = sheet.record("salt_bags", total("Start-up salt, bags", bags, BAGS, ARITHMETIC))
    sheet.work("salt_pallets", salt.whole_pallets, count, given(context.salt, "bags_per_pallet"))
    over = [(body.node.name, body) for body in bodies] + ([("Tank and pipes", tank)] if extra > 0 else [])
    exchanges = [(name, one["exchange_volume"]) for name, one in over if "exchange_volume" in one.figures]
    if exchanges:
        sheet.record("exchange_volume", total("Water to exchange", exchanges, VOLUME, ARITHMETIC))


def _season(sheet: Sheet, bodies: list[Sheet], system: RecirculationSystem, context: Context) -> None:
    """Salt of a season of average days; the loss of the design day is stated beside."""
    renewed = sheet.record("replacement_water", _replacement(sheet, bodies, context, _bathers_of))
    sheet.record("saline_loss", _saline_loss(sheet, sheet["bathers_a_day"], renewed, context))
    renewed = _replacement(sheet, bodies, context, _average_bathers_of)
    loss = sheet.record(
        "average_saline_loss", _saline_loss(sheet, _average_bathers_of(sheet, context), renewed, context)
    )
    use = given(context.operation, "average_use")
    chlorine = _average_chlorine(sheet, use)
    make_up = given(context.salt, "make_up_salinity")
    gained = sheet.work("salt_from_chlorine", salt.salt_from_chlorine, _salt_per_chlorine(system), chlorine)
    season, purity = given(context.operation, "season"), given(context.salt, "purity")
    target = _mixed(bodies, "target_salinity", "Target salinity")
    if isinstance(target, Worked) and target > 0:
        lost = sheet.work("salt_lost", salt.salt_lost, loss, target, make_up)
        sheet.work("make_up_salt", salt.make_up_salt, lost, gained, season, purity)
    else:
        sheet.record("make_up_salt", leaf(0.0, "No target salinity to hold", ARITHMETIC, measure=MASS))
    bought = [("Make-up", sheet["make_up_salt"])]
    if system.disinfection.primary is PrimaryDisinfection.BRINE_FED:
        ratio = given(system.disinfection, "salt_per_chlorine")
        fed = sheet.work("generator_salt", salt.generator_salt, ratio, chlorine, season, purity)
        bought.append(("Generators", fed))
    if system.disinfection.primary is not PrimaryDisinfection.IN_RETURN_CELLS and not _nothing(loss):
        sheet.work("lasting_salinity", salt.lasting_salinity, make_up, gained, loss)
    all_salt = total("Salt of a season", bought, MASS, ARITHMETIC)
    sheet.work("make_up_bags", salt.whole_bags, all_salt, given(context.salt, "bag_mass"))


def _average_chlorine(sheet: Sheet, use: Value) -> Value:
    """Chlorine used on an average day: the bathers' part follows use, what sunlight and water take does not."""
    parts = [("Bathers", salt.on_average_day(use, sheet["chlorine_demand"]))]
    if "background_demand" in sheet.figures:
        parts.append(("Sunlight and the water", sheet["background_demand"]))
    return total("Chlorine used on an average day", parts, MASS_RATE, ARITHMETIC)


def _bathers_of(sheet: Sheet, context: Context) -> Value:
    return sheet["bathers_a_day"]


def _average_bathers_of(sheet: Sheet, context: Context) -> Value:
    return salt.bathers_on_average_day(given(context.operation, "average_use"), sheet["bathers_a_day"])


def _nothing(loss: Value) -> bool:
    return isinstance(loss, Worked) and loss <= 0


def _salt_per_chlorine(system: RecirculationSystem) -> Value:
    primary = system.disinfection.primary
    if primary is PrimaryDisinfection.IN_RETURN_CELLS:
        return leaf(0.0, "Salt left per mass of chlorine", SALT_OF_CELLS)
    if primary is PrimaryDisinfection.BRINE_FED:
        return given(system.disinfection, "salt_per_chlorine")
    return leaf(HYPOCHLORITE_SALT_PER_CHLORINE, "Salt left per mass of chlorine", SALT_OF_HYPOCHLORITE)


def _saline_loss(sheet: Sheet, bathers: Value, renewed: Value, context: Context) -> Value:
    """Splash-out, carry-out, and the greater of backwash and the water that must be renewed, since backwash counts."""
    splash = salt.water_by_bathers(bathers, given(context.losses, "splash_out"))
    carry = salt.water_by_bathers(bathers, given(context.losses, "carry_out"))
    wasted = [("Renewed", renewed)]
    if "backwash_water_a_day" in sheet.figures:
        wasted.append(("Backwash", sheet["backwash_water_a_day"]))
    waste = greatest("Backwash or renewal, the greater", wasted, DAILY_VOLUME, ARITHMETIC)
    parts = [("Splash-out", splash), ("Carry-out", carry), ("To waste", waste)]
    return total("Salt water lost a day", parts, DAILY_VOLUME, ARITHMETIC)


def _replacement(sheet: Sheet, bodies: list[Sheet], context: Context, bathers_of: BathersOf) -> Value:
    """Water renewed for each visit: by the code basis or by the project's own rule, the greater."""
    own = given(context.losses, "dilution")
    parts = []
    for body in bodies:
        kinds = body.node.kinds  # type: ignore[attr-defined]
        code = context.strictest(sheet, "replacement_per_bather", kinds, {}, body.node.name)
        each = greatest(
            "Water renewed for each visit", [("Code basis", code), ("Own rule", own)], SMALL_VOLUME, ARITHMETIC
        )
        parts.append((body.node.name, salt.water_by_bathers(bathers_of(body, context), each)))
    return total("Water to be renewed a day", parts, DAILY_VOLUME, ARITHMETIC)

"""Salt of one system: start-up per body, exchange where there is too much, and what a season takes."""

from collections.abc import Sequence

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import salt
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing, Value, Worked, given, greatest, leaf, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.kinds import PrimaryDisinfection
from waterpark_designer.model.node import Node
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.sources import ARITHMETIC, SALT_BALANCE, SALT_OF_CELLS, SALT_OF_HYPOCHLORITE
from waterpark_designer.units import BAGS, DAILY_VOLUME, MASS, MASS_RATE, SMALL_VOLUME, VOLUME, Measure

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


def _salt_or_exchange(sheet: Sheet, volume: Value, target: Value, measured: Value, context: Context) -> None:
    """Salt to add and its bags, or water to exchange where it is too salty; a target of none asks for neither."""
    none = leaf(0.0, "No salt to add", ARITHMETIC, measure=MASS)
    if isinstance(target, Missing) or isinstance(measured, Missing) or target == 0:
        sheet.record("salt_mass", none if isinstance(measured, Worked) else measured)
    elif measured <= target:
        sheet.work("salt_mass", salt.start_up_salt, volume, target, measured, given(context.salt, "purity"))
    else:
        sheet.record("salt_mass", none)
        sheet.record("exchange_volume", _exchange(volume, target, measured, context))
    sheet.work("salt_bags", salt.whole_bags, sheet["salt_mass"], given(context.salt, "bag_mass"))


def _exchange(volume: Value, target: Value, measured: Value, context: Context) -> Value:
    make_up = given(context.salt, "make_up_salinity")
    if isinstance(target, Worked) and isinstance(make_up, Worked) and make_up >= target:
        return Missing("Make-up water is saltier than the target, so exchange cannot reach it. Raise the target.")
    return salt.exchange_volume(volume, measured, target, make_up)


def _start_up_totals(
    sheet: Sheet, bodies: list[Sheet], system: RecirculationSystem, measured: Value, context: Context
) -> None:
    """Salt of the bodies and of the water in tank and pipes, which takes the bodies' mean target."""
    waters = list(bodies)
    if system.surge_volume + system.piping_volume > 0:
        tank = Sheet(Node(name="Tank and pipes"))
        parts = [("Surge tank", given(system, "surge_volume")), ("Piping", given(system, "piping_volume"))]
        water = total("Water in tank and pipes", parts, VOLUME, ARITHMETIC)
        _salt_or_exchange(tank, water, _mixed(bodies, "target_salinity", "Target salinity"), measured, context)
        waters.append(tank)

    def summed(key: str, title: str, measure: Measure) -> Value:
        parts = [(water.node.name, water[key]) for water in waters if key in water.figures]
        return total(title, parts, measure, ARITHMETIC)

    sheet.record("salt_mass", summed("salt_mass", "Start-up salt", MASS))
    bags = sheet.record("salt_bags", summed("salt_bags", "Start-up salt, bags", BAGS))
    sheet.work("salt_pallets", salt.whole_pallets, bags, given(context.salt, "bags_per_pallet"))
    if any("exchange_volume" in water.figures for water in waters):
        sheet.record("exchange_volume", summed("exchange_volume", "Water to exchange", VOLUME))


def _season(sheet: Sheet, bodies: list[Sheet], system: RecirculationSystem, context: Context) -> None:
    """Salt of a season of average days; the loss of the design day is stated beside."""
    use = given(context.operation, "average_use")
    bathers = sheet["bathers_a_day"]
    visits = [body["bathers_a_day"] for body in bodies]
    renewed = sheet.record("replacement_water", _replacement(sheet, bodies, visits, context))
    sheet.record("saline_loss", _saline_loss(sheet, bathers, renewed, context))
    renewed = _replacement(sheet, bodies, [salt.bathers_on_average_day(use, each) for each in visits], context)
    bathers = salt.bathers_on_average_day(use, bathers)
    loss = sheet.record("average_saline_loss", _saline_loss(sheet, bathers, renewed, context))
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


def _replacement(sheet: Sheet, bodies: list[Sheet], visits: Sequence[Value], context: Context) -> Value:
    """Water renewed for each visit to each body: by the code basis or by the project's own rule, the greater."""
    own = given(context.losses, "dilution")
    parts = []
    for body, bathers in zip(bodies, visits, strict=True):
        kinds = body.node.kinds  # type: ignore[attr-defined]
        code = context.strictest(sheet, "replacement_per_bather", kinds, {}, body.node.name)
        each = greatest(
            "Water renewed for each visit", [("Code basis", code), ("Own rule", own)], SMALL_VOLUME, ARITHMETIC
        )
        parts.append((body.node.name, salt.water_by_bathers(bathers, each)))
    return total("Water to be renewed a day", parts, DAILY_VOLUME, ARITHMETIC)

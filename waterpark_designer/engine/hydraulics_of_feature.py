"""Hydraulics of one feature on a pump of its own, and of jets that drive a river."""

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.divide_flow import size_runs
from waterpark_designer.engine.formulas import openings, pipes, river
from waterpark_designer.engine.head_build_up import Circuit
from waterpark_designer.engine.pipe_pressures import rate_run
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pump import PumpCurves, size_pump
from waterpark_designer.engine.water_at import Water, water_at
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, Value, Worked, given, leaf, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.devices import Nozzle, SprayNozzle
from waterpark_designer.model.features import Feature
from waterpark_designer.model.kinds import FeaturePump
from waterpark_designer.model.zones import Channel
from waterpark_designer.sources import ARITHMETIC, Provenance, Source
from waterpark_designer.units import COEFFICIENT, COUNT, FORCE, HEAD

NOZZLES = (Nozzle, SprayNozzle)
RIVER_ROUGHNESS = Source("Manning's n 0.015 found in the field: McEnroe (2006)", Provenance.READ)
NO_STRAINER = Source("No strainer ahead of a feature pump is reckoned", Provenance.COMMON_PRACTICE)


def pipe_the_feature(
    sheet: Sheet, attraction: Attraction, context: Context
) -> tuple[tuple[Sheet, ...], PumpCurves | None]:
    """Enter a feature's hydraulics; returns the sheets of its pipe runs, and its pump's curves where known."""
    feature = sheet.node
    assert isinstance(feature, Feature)
    water = water_at(attraction.water_temperature)
    if feature.current_speed is not None:
        _current(sheet, feature, attraction, water)
    if feature.pump is not FeaturePump.OWN:
        return (), None
    flow = sheet["feature_flow"]
    _outlets(sheet, feature, flow)
    if not feature.pipe_runs:
        return (), None
    runs = size_runs(feature.pipe_runs, lambda _run: flow, (attraction.kind,), water, context)
    for run in runs:
        rate_run(run, attraction.water_temperature, water, context)
    if "device_head" not in sheet.figures:
        sheet.record("device_head", given(feature, "device_head"))
    circuit = Circuit(runs, [("Device", sheet["device_head"])], given(feature.pump_plan, "static_head"), None)
    head, _ = circuit.head(sheet)
    strainer = leaf(0.0, "Strainer", NO_STRAINER, measure=HEAD)
    curves = size_pump(sheet, feature.pump_plan, circuit, flow, head, strainer, water, water, context)
    if isinstance(feature.device, NOZZLES) and curves is not None:
        running = sheet["operating_flow_clean"]
        sheet.work("device_head_running", pipes.equipment_loss, sheet["device_head"], running, flow)
    return runs, curves


def _outlets(sheet: Sheet, feature: Feature, flow: Value) -> None:
    """What each cover takes while another is blocked: only those on the same suction line can take its flow."""
    if feature.outlets_on_each_line is None or feature.outlets_on_each_line <= 1:
        return
    outlets = given(feature, "suction_outlets")
    if feature.suction_lines > 1:
        lines = leaf(float(feature.suction_lines), "Suction lines, one for each pump", YOUR_ENTRY, measure=COUNT)
        flow, outlets = openings.flow_of_each(flow, lines), openings.outlets_on_each_line(outlets, lines)
    sheet.work("outlet_flow", openings.outlet_flow_one_blocked, flow, outlets)


def _current(sheet: Sheet, feature: Feature, attraction: Attraction, water: Water) -> None:
    """Thrust that the channels and those who stand in them ask for, and the jets that give it.

    Where the river has several channels the current is taken as the same in all.
    """
    channels = [(zone.name, zone.shape) for zone in attraction.zones if isinstance(zone.shape, Channel)]
    if not channels:
        sheet.record("jet_thrust", Missing("Give the river a channel zone; the current follows from its section."))
        return
    speed = given(feature, "current_speed")
    parts = [(name, _wall_resistance(channel, speed, water)) for name, channel in channels]
    together = total("Resistance of all channels", parts, FORCE, ARITHMETIC) if len(parts) > 1 else parts[0][1]
    walls = sheet.record("wall_resistance", together)
    people = sheet.work("people_drag", river.people_drag, given(feature, "standing_people"), water.density, speed)
    thrust = sheet.work("jet_thrust", river.jet_thrust, walls, people)
    _jets(sheet, feature, thrust, speed, water)


def _wall_resistance(channel: Channel, speed: Value, water: Water) -> Value:
    width, depth = given(channel, "width"), given(channel, "depth")
    area = river.channel_area(width, depth)
    radius = river.hydraulic_radius(area, river.wetted_perimeter(width, depth))
    manning = leaf(river.RIVER_MANNING, "Manning's n", RIVER_ROUGHNESS, measure=COEFFICIENT)
    loss = river.channel_loss(river.friction_slope(manning, speed, radius), given(channel, "length"))
    return river.wall_resistance(water.density, area, loss)


def _jets(sheet: Sheet, feature: Feature, thrust: Value, speed: Value, water: Water) -> None:
    jet_speed = given(feature, "jet_speed")
    if isinstance(jet_speed, Worked) and isinstance(speed, Worked) and jet_speed <= speed:
        jet_speed = Missing("Jets must be faster than the current they drive. Enter a higher jet speed.")
    flow = sheet.work("jet_flow", river.jet_flow, thrust, water.density, jet_speed, speed)
    power = sheet.work("jet_power", river.jet_power, water.density, flow, jet_speed)
    sheet.work("propulsive_efficiency", river.propulsive_efficiency, river.useful_power(thrust, speed), power)
    sheet.work("jet_bore", river.jet_bore, flow, given(feature, "count"), jet_speed)
    sheet.work("jet_head", river.jet_head, jet_speed)

"""Flow of a feature: from its supplier, or by what is entered of one device, with the head that one needs."""

from collections.abc import Callable
from typing import Any

from waterpark_designer.engine.formulas import flow_features, pipes, turnover
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.water_at import water_at
from waterpark_designer.engine.worked import Missing, Value, Worked, given
from waterpark_designer.model.devices import (
    BroadCrest,
    Bubbler,
    Nozzle,
    SlideLanes,
    SprayNozzle,
    SupplierFlow,
    TippingBucket,
    Weir,
)
from waterpark_designer.model.features import Feature

NO_LANE_FLOW = Missing("Enter the flow per lane that the slide's supplier states; no published value was found.")
SHORT_CREST = Missing("Make the crest longer, or the head over it less: drawn in at its ends, no water passes.")


def enter_flow(sheet: Sheet, feature: Feature, temperature: float) -> None:
    """Enter the flow of a feature whose water has a temperature [K], and what is known of its device."""
    device = feature.device
    if isinstance(device, SupplierFlow):
        each = given(feature, "flow_each")
    else:
        each = sheet.record("device_flow", FLOWS[type(device)](sheet, device, temperature))
        _follow_up(sheet, device, each)
    sheet.work("feature_flow", turnover.flow_of_several, given(feature, "count"), each)


def _follow_up(sheet: Sheet, device: Any, each: Value) -> None:
    """What follows from the flow of one device."""
    if isinstance(device, Weir | BroadCrest):
        sheet.work("crest_flow", flow_features.flow_per_length, each, given(device, "length"))
    if isinstance(device, TippingBucket):
        sheet.work("bucket_cycle", flow_features.bucket_cycle, given(device, "bucket_volume"), each)


def _nozzle(sheet: Sheet, nozzle: Nozzle, temperature: float) -> Value:
    bore, coefficient = given(nozzle, "bore"), given(nozzle, "discharge_coefficient")
    density = water_at(temperature).density
    sheet.work("spray_coefficient", flow_features.spray_coefficient, bore, density, coefficient)
    head = sheet.record("device_head", given(nozzle, "head"))
    return flow_features.orifice_flow(bore, head, coefficient)


def _spray_nozzle(sheet: Sheet, nozzle: SprayNozzle, temperature: float) -> Value:
    pressure = given(nozzle, "pressure")
    sheet.work("device_head", pipes.pressure_head, pressure, water_at(temperature).density)
    return flow_features.nozzle_flow(given(nozzle, "spray_coefficient"), pressure)


def _weir(sheet: Sheet, weir: Weir, temperature: float) -> Value:
    length, ends = given(weir, "length"), given(weir, "end_contractions")
    head = sheet.record("device_head", given(weir, "head"))
    flow = flow_features.weir_flow(length, head, ends)
    return SHORT_CREST if isinstance(flow, Worked) and flow <= 0 else flow


def _broad_crest(sheet: Sheet, crest: BroadCrest, temperature: float) -> Value:
    head = sheet.record("device_head", given(crest, "head"))
    coefficient = given(crest, "discharge_coefficient")
    return flow_features.broad_crest_flow(given(crest, "length"), head, coefficient)


def _slide(sheet: Sheet, slide: SlideLanes, temperature: float) -> Value:
    flow = given(slide, "flow_per_lane")
    return NO_LANE_FLOW if isinstance(flow, Missing) else turnover.flow_of_several(given(slide, "lanes"), flow)


def _bucket(sheet: Sheet, bucket: TippingBucket, temperature: float) -> Value:
    return flow_features.bucket_fill_flow(given(bucket, "bucket_volume"), given(bucket, "time_between_tips"))


def _bubbler(sheet: Sheet, bubbler: Bubbler, temperature: float) -> Value:
    height = sheet.record("device_head", given(bubbler, "jet_height"))
    return flow_features.bubbler_flow(given(bubbler, "bore"), height)


FLOWS: dict[type, Callable[[Sheet, Any, float], Value]] = {
    Nozzle: _nozzle,
    SprayNozzle: _spray_nozzle,
    Weir: _weir,
    BroadCrest: _broad_crest,
    SlideLanes: _slide,
    TippingBucket: _bucket,
    Bubbler: _bubbler,
}

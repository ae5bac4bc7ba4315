"""Features of each body of water: what each device gives and needs, and what their water in transit draws down."""

from typing import get_type_hints

from waterpark_designer.documents.circuits import bodies
from waterpark_designer.documents.figures import figure_cell, figure_cells, needed
from waterpark_designer.documents.grounds import Grounds, Notes
from waterpark_designer.documents.table import Cell, Column, Number, Row, Table, count, group, without_blank_columns
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.worked import title_of
from waterpark_designer.model.devices import DEVICE_LABELS, SupplierFlow
from waterpark_designer.model.features import Feature
from waterpark_designer.units import COUNT, SMALL_FLOW, UnitSystem, measure_of

FEATURE_FIGURES = ("feature_flow", "device_head", "crest_flow", "bucket_cycle", "feature_water_in_transit")
BODY_FIGURES = ("feature_water_in_transit", "surface_area", "level_drop", "tank_volume", "tank_share_in_transit")
FIGURES_OF_A_SIZE = 4
ALL_RUN = "All features run at once, and nothing tops the water up. All water in transit comes back when they stop."


def features_table(design: SiteDesign, system: UnitSystem) -> Table:
    """Every feature by its body: devices, the flow of one, and what follows."""
    notes, grounds = Notes(system), Grounds(design)
    rows: list[Row] = []
    needs: list[str] = []
    for _, body in bodies(design):
        rows += [group(body.name, body.id)] if body.features else []
        for feature in body.features:
            refer = notes.refer(grounds.of_figures(feature.id, FEATURE_FIGURES))
            rows.append(Row((*_feature_cells(feature, design, system), refer), node=feature.id))
            lacks = needed(design, feature.id, ("device_flow", *FEATURE_FIGURES))
            needs += [f"{body.name}, {feature.name}: {lack}" for lack in lacks]
    told = (*dict.fromkeys(needs), *notes.lines)
    table = Table("Features", _columns(), tuple(rows), told, "No body of water has features.")
    return without_blank_columns(table) if rows else table


def _columns() -> tuple[Column, ...]:
    return (
        Column("Feature", weight=2.0),
        Column("Devices", COUNT),
        Column("Flow of one by", weight=3.0),
        Column("Flow of one", SMALL_FLOW),
        *(Column(FIGURE_KINDS[key].label, FIGURE_KINDS[key].measure) for key in FEATURE_FIGURES),
        Column("Notes", weight=0.5),
    )


def _feature_cells(feature: Feature, design: SiteDesign, system: UnitSystem) -> tuple[Cell, ...]:
    stated = isinstance(feature.device, SupplierFlow)
    each = Number(feature.flow_each, SMALL_FLOW) if stated else figure_cell(design, feature.id, "device_flow")
    figures = figure_cells(design, feature.id, FEATURE_FIGURES)
    return (feature.name, count(feature.count), device_text(feature, system), each, *figures)


def device_text(feature: Feature, system: UnitSystem) -> str:
    """How the flow of one device is had, with its sizes: “Nozzle: bore and head (bore 0.375 in, head 34.6 ft, …)”."""
    device = feature.device
    hints = get_type_hints(type(device), include_extras=True)
    sizes = []
    for name, value in device:
        if name == "flow_by" or value is None:
            continue
        measure = measure_of(hints[name]) or COUNT
        size = f"{measure.shown(value, system):.{FIGURES_OF_A_SIZE}g} {measure.symbol(system)}".rstrip()
        sizes.append(f"{title_of(name).lower()} {size}")
    label = DEVICE_LABELS[device.flow_by]
    return f"{label} ({', '.join(sizes)})" if sizes else label


def drawdown_table(design: SiteDesign, system: UnitSystem) -> Table:
    """Bodies whose features keep water in transit, and how far that draws their level or their tank down."""
    notes, grounds = Notes(system), Grounds(design)
    rows = tuple(
        Row(
            (body.name, *_body_cells(design, body.id), notes.refer(grounds.without_methods(body.id, BODY_FIGURES[:1]))),
            node=body.id,
        )
        for _, body in bodies(design)
        if BODY_FIGURES[0] in design.sheets[body.id].figures
    )
    columns = (
        Column("Body of water", weight=2.4),
        *(Column(FIGURE_KINDS[key].label, FIGURE_KINDS[key].measure) for key in BODY_FIGURES),
        Column("Notes", weight=0.5),
    )
    table = Table("Drawdown by features", columns, rows, (ALL_RUN, *notes.lines) if rows else ())
    return without_blank_columns(table)


def _body_cells(design: SiteDesign, body: str) -> tuple[Cell, ...]:
    """A body with a tank shows its tank, any other its surface."""
    has_tank = "tank_share_in_transit" in design.sheets[body].figures
    unused = ("surface_area", "level_drop") if has_tank else ("tank_volume", "tank_share_in_transit")
    return tuple("" if key in unused else figure_cell(design, body, key) for key in BODY_FIGURES)

"""Nominal sizes that a design chooses from."""

from typing import Annotated

from pydantic import Field, StringConstraints

from waterpark_designer.model.kinds import Kind
from waterpark_designer.model.node import Part, Text

LONGEST_ITEM_NAME = 120
ItemName = Annotated[str, StringConstraints(min_length=1, max_length=LONGEST_ITEM_NAME, strip_whitespace=True)]


class ItemKind(Kind):
    """What a nominal size is a size of."""

    HIGH_RATE_SAND_FILTER = "high_rate_sand_filter"
    RAPID_SAND_FILTER = "rapid_sand_filter"
    TWO_LAYER_FILTER = "two_layer_filter"
    PRECOAT_FILTER = "precoat_filter"
    CARTRIDGE_FILTER = "cartridge_filter"
    IN_RETURN_CELLS = "in_return_cells"
    BRINE_FED_GENERATOR = "brine_fed_generator"
    FEED_PUMP = "feed_pump"
    SOLUTION_TANK = "solution_tank"
    HOLDING_TANK = "holding_tank"
    ULTRAVIOLET_REACTOR = "ultraviolet_reactor"
    OZONE_CONTACTOR = "ozone_contactor"
    PUMP = "pump"
    PIPE = "pipe"


class CatalogueItem(Part):
    """One nominal size: `size` is the SI value by which items of its kind are chosen.

    Filters by bed area [m²], generators by chlorine output [kg/s], feed pumps and reactors and pumps by
    flow [m³/s], tanks by volume [m³], pipes by average inside diameter [m].
    """

    kind: ItemKind
    name: ItemName
    size: Annotated[float, Field(gt=0, le=1e6)]
    power: float | None = Field(None, ge=0, le=1e7, description="Electrical power at full output [W].")
    remarks: Text = ""
    source: Annotated[str, StringConstraints(min_length=1, max_length=400)]

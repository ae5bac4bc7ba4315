"""Overflow, inlets and outlets of a body of water, and the tanks of a system, as they are entered."""

from pydantic import Field

from waterpark_designer.model.kinds import Overflow
from waterpark_designer.model.node import Part
from waterpark_designer.units import Area, Flow, Length, Share, SmallArea, SmallLength, Volume


class OpeningsPlan(Part):
    """Where a body's surface overflows to, and what its inlets and suction outlets are."""

    overflow: Overflow = Field(
        Overflow.NOT_STATED, description="Where the surface water leaves: over a lip into a gutter, or by skimmers."
    )
    surface_share: Share | None = Field(
        None,
        ge=0,
        le=1,
        description="Part of the design flow that is drawn from the surface. Leave blank to take the code's.",
    )
    gutter_length: Length | None = Field(
        None, gt=0, le=5000, description="Length of lip that water runs over. Leave blank to take the whole perimeter."
    )
    gutter_section: SmallArea | None = Field(
        None, gt=0, le=2, description="Cross-section of the water in the gutter while it runs, not of the whole gutter."
    )
    skimmers: int | None = Field(
        None, ge=1, le=500, description="Skimmers as drawn. Leave blank to take the least number."
    )
    skimmer_rating: Flow | None = Field(
        None, gt=0, le=1, description="Largest flow of one skimmer, from its supplier; the number follows from it."
    )
    inlets: int | None = Field(
        None, ge=1, le=2000, description="Return inlets as drawn. Leave blank to take the code's least number."
    )
    inlet_bore: SmallLength | None = Field(
        None, gt=0, le=0.5, description="Bore of the orifice of one return inlet; a round opening of the same area."
    )
    outlet_spacing: Length | None = Field(
        None, ge=0, le=200, description="Least distance between two suction outlets on one pump."
    )
    cover_area: SmallArea | None = Field(
        None, gt=0, le=10, description="Open area of the cover of one suction outlet, from its supplier."
    )


class TankPlan(Part):
    """Surge tank and waste sump of a system."""

    usable_volume: Volume | None = Field(
        None,
        gt=0,
        le=1e5,
        description="What the surge tank holds between its lowest working level and its overflow. Leave blank to take "
        "the water in it while running.",
    )
    shared_name: str = Field(
        "",
        max_length=60,
        description="Name of the surge tank where another system draws from it too: systems that give one name share "
        "its water. Leave blank where the tank is this system's alone.",
    )
    plan_area: Area | None = Field(None, gt=0, le=1e4, description="Plan area of the surge tank; its levels follow.")
    suction_level: Length | None = Field(
        None, ge=0, le=20, description="Centre of the suction opening above the floor of the surge tank."
    )
    suction_cover: Length | None = Field(
        None,
        gt=0,
        le=10,
        description="Water kept above the centre of the suction, so that no vortex draws air. Leave blank for an "
        "estimate from the suction line.",
    )
    backwashes: int = Field(
        0,
        ge=0,
        le=50,
        description="Backwashes that the surge tank supplies before it is filled again: none where backwash water "
        "comes from elsewhere; one filter's is common practice where it comes from the tank.",
    )
    drawn_by_features: Volume | None = Field(
        None,
        ge=0,
        le=1e5,
        description="Water that features and their lines take from the surge tank when they start. Leave blank to take "
        "the water in transit of bodies with a gutter, and of those that do not say how they overflow.",
    )
    sewer_flow: Flow | None = Field(
        None, ge=0, le=10, description="Flow that the sewer may be given, from its owner; a waste sump holds the rest."
    )
    sump_volume: Volume | None = Field(None, gt=0, le=1e5, description="Volume of the waste sump between its levels.")

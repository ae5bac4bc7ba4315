"""The site: everything that one project file holds."""

from typing import Annotated, Any

from pydantic import Field, StringConstraints, model_validator

from waterpark_designer.model.catalogue import CatalogueItem
from waterpark_designer.model.hydraulics import HydraulicTerms
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.node import LARGEST_FIGURE, Many, Node, Part, Reason
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.units import Days, Hours, Mass, Money, Ratio, Salinity, Share, SmallVolume, UnitSystem

MOST_CATALOGUE_ITEMS = 5000
RuleSetKey = Annotated[str, StringConstraints(pattern=r"^[a-z0-9-]{1,80}$")]
ShortText = Annotated[str, StringConstraints(max_length=200)]


class Amendment(Part):
    """A limit that the local authority sets against the rule sets, typed in with its reason."""

    quantity: Annotated[str, StringConstraints(pattern=r"^[a-z_]{1,60}$")] = Field(
        description="Key of the limited quantity."
    )
    applies_to: Many[AttractionKind] = Field((), description="Kinds of water it applies to; none means all.")
    value: float = Field(ge=0, le=LARGEST_FIGURE, description="The limit in SI units.")
    reason: Reason = Field(description="Who set it, where it is written, and when.")


class Operation(Part):
    """Opening hours, season and use."""

    open_hours: Hours = Field(10 * 3600.0, gt=0, le=86400.0, description="Hours open on a usual day.")
    closed_hours: Hours = Field(
        12 * 3600.0,
        ge=0,
        le=86400.0,
        description="Longest time closed without interruption each day; secondary treatment may use it.",
    )
    season: Days = Field(100 * 86400.0, gt=0, le=366 * 86400.0, description="Days of operation in a year.")
    average_use: Share = Field(
        0.6,
        ge=0,
        le=1,
        description="Visits on an average day of the season, as a share of the design day; your own estimate.",
    )
    visits_per_place: Ratio = Field(
        2.0, ge=0, le=50, description="Visits on the design day for each place of peak occupancy; your own estimate."
    )


class WaterLosses(Part):
    """Water that leaves with its salt; evaporation takes none."""

    splash_out: SmallVolume = Field(
        0.0075, ge=0, le=1.0, description="Water splashed out per visit; an estimate to be replaced by your own."
    )
    carry_out: SmallVolume = Field(
        0.0005,
        ge=0,
        le=0.1,
        description="Water carried out on skin and costume per visit; an estimate to be replaced by your own.",
    )
    dilution: SmallVolume = Field(
        0.0,
        ge=0,
        le=1.0,
        description="Water renewed per visit by your own rule, where it is more than the code asks for.",
    )


class SaltSupply(Part):
    """How salt is bought, and what the make-up water brings."""

    bag_mass: Mass = Field(18.14369480, gt=0, le=2000, description="Salt in one bag.")
    bags_per_pallet: int = Field(49, ge=1, le=1000, description="Bags on one pallet.")
    purity: Share = Field(1.0, gt=0.5, le=1, description="Sodium chloride in the salt.")
    make_up_salinity: Salinity = Field(0.0, ge=0, le=10, description="Salt content of the make-up water.")


class Price(Part):
    """What one line of the equipment schedule costs, each."""

    line: Annotated[str, StringConstraints(min_length=1, max_length=120)] = Field(
        description="Key of the schedule line."
    )
    amount: Money = Field(ge=0, le=1e9, description="Price of one.")


class Site(Node):
    """A project: its recirculation systems and all they are designed against."""

    client: ShortText = Field("", description="For whom the site is designed.")
    place: ShortText = Field("", description="Where the site is.")
    project_number: ShortText = Field("", description="Your number for the project.")
    revision: ShortText = Field("A", description="Revision of the design, printed on every page.")
    issue_date: ShortText = Field("", description="Date of issue, printed on every page.")
    prepared_by: ShortText = Field("", description="Who prepared the design.")
    units: UnitSystem = Field(UnitSystem.US, description="Units on screen and on paper.")
    code_basis: Many[RuleSetKey] = Field(
        (), max_length=20, description="Rule sets in order; the first that states a limit gives it."
    )
    amendments: Many[Amendment] = Field(
        (), max_length=500, description="Local amendments; they come before every rule set."
    )
    hydraulics: HydraulicTerms = Field(
        default_factory=HydraulicTerms, description="What holds for all pipes and pumps."
    )
    operation: Operation = Field(default_factory=Operation, description="Opening hours, season and use.")
    losses: WaterLosses = Field(default_factory=WaterLosses, description="Water that leaves with its salt.")
    salt: SaltSupply = Field(default_factory=SaltSupply, description="How salt is bought.")
    turnovers_counted: Ratio = Field(
        6.0, gt=0, le=50, description="Turnovers after which the part of the water treated is stated."
    )
    catalogue: Many[CatalogueItem] = Field(
        (), max_length=MOST_CATALOGUE_ITEMS, description="Your supplier's sizes; they come before the generic ones."
    )
    currency: ShortText = Field("$", description="Sign before prices.")
    prices: Many[Price] = Field((), max_length=20_000, description="Prices of schedule lines.")
    prices_invented: bool = Field(False, description="The prices are a demonstration and mean nothing.")
    systems: Many[RecirculationSystem] = Field((), max_length=2000, description="Recirculation systems on the site.")

    @model_validator(mode="after")
    def _day_has_24_hours(self) -> "Site":
        if self.operation.open_hours + self.operation.closed_hours > 86400.0 + 1e-6:
            raise ValueError("Open hours and hours closed without interruption come to more than a day.")
        return self

    @property
    def children(self) -> tuple[Node, ...]:
        return self.systems

    def with_children(self, children: tuple[Any, ...]) -> "Site":
        return self.revised(systems=children)

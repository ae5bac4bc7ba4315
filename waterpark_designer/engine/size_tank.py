"""The holding tank of a spray deck: a fixed least, a reserve for its pumps, or its splash area where it is large."""

from dataclasses import dataclass

from waterpark_designer.engine.context import Context
from waterpark_designer.engine.formulas import turnover
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import YOUR_ENTRY, Missing, Value, Worked, given, greatest, leaf, least, total
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.zones import SprayDeck, Zone
from waterpark_designer.sources import ARITHMETIC
from waterpark_designer.units import AREA, FLOW, SHARE, VOLUME

NO_TANK = Missing("The tank's reserve time is as long as its turnover time, so no tank would do. Amend one of them.")


def reserve_above(reserve: Value, large: Worked) -> bool:
    """Whether a reserve is so large that the rule for large tanks may be used."""
    return isinstance(reserve, Worked) and reserve > large


@dataclass(frozen=True, slots=True)
class TankRule:
    """What the code asks of a tank, with the flow of its features and the deck that drains to it.

    `chosen` is the volume that the project enters, if it does.
    """

    fixed: Value
    reserve_time: Value
    large: Value
    per_area: Value
    feature_flow: Value
    splash_area: Value
    chosen: float | None

    def least(self, reserve: Value) -> Value:
        """Least tank volume, given the reserve for feature and filter pumps."""
        if isinstance(self.large, Worked) and (reserve is NO_TANK or reserve_above(reserve, self.large)):
            by_features = turnover.tank_volume_by_features(self.reserve_time, self.feature_flow)
            by_area = turnover.tank_volume_by_area(self.splash_area, self.per_area)
            parts = [("Feature flow", by_features), ("Splash area", by_area)]
            reserve = least("Reserve of a large tank", parts, VOLUME, ARITHMETIC)
        parts = [("Fixed", self.fixed), ("Reserve", reserve)]
        return greatest("Least holding tank volume", parts, VOLUME, ARITHMETIC)

    def least_at(self, filter_flow: Value) -> Value:
        """Least tank volume where the filter pump's flow is known."""
        return self.least(turnover.tank_volume_by_flows(self.reserve_time, self.feature_flow, filter_flow))


def tank_rule(sheet: Sheet, attraction: Attraction, context: Context) -> TankRule:
    """The rule for an attraction's tank, by the kind of its first spray deck."""
    decks = spray_decks(attraction)
    kind = attraction.kind_of(decks[0])
    flow = sheet["feature_flow"] if attraction.features else leaf(0.0, "No features", YOUR_ENTRY, measure=FLOW)
    return TankRule(
        fixed=context.limit(sheet, "tank_least_volume", kind, {}),
        reserve_time=context.limit(sheet, "tank_feature_time", kind, {}),
        large=context.limit(sheet, "tank_large_volume", kind, {}),
        per_area=context.limit(sheet, "tank_volume_per_area", kind, {}),
        feature_flow=flow,
        chosen=_entered(decks[0]),
        splash_area=total("Splash area", [(deck.name, given(deck.shape, "area")) for deck in decks], AREA, ARITHMETIC),
    )


def size_tank(
    sheet: Sheet,
    attraction: Attraction,
    turnover_time: Value,
    margin: float,
    fixed_flow: float | None,
    context: Context,
) -> Value:
    """Enter the least and the chosen tank volume on an attraction's sheet, and return the chosen one.

    `fixed_flow` is the filter pump's where it is settled; otherwise the pump follows from the tank.
    """
    rule = tank_rule(sheet, attraction, context)
    if fixed_flow is None:
        needed = rule.least(_reserve(rule, turnover_time, margin))
    else:
        needed = rule.least_at(leaf(fixed_flow, "Fixed flow", YOUR_ENTRY, measure=FLOW))
    needed = sheet.record("least_tank_volume", needed)
    chosen = given(spray_decks(attraction)[0].shape, "tank_volume")
    return sheet.record("tank_volume", needed if isinstance(chosen, Missing) else chosen)


def settle_tank(body: Sheet, context: Context) -> None:
    """Say what the tank must hold at the flow its filters will have, which is more where their system gives more."""
    attraction = body.node
    assert isinstance(attraction, Attraction)
    rule = tank_rule(body, attraction, context)
    body.record("least_tank_volume", rule.least_at(body["design_flow"]))


def spray_decks(attraction: Attraction) -> tuple[Zone, ...]:
    """The zones that drain to the tank."""
    return tuple(zone for zone in attraction.zones if isinstance(zone.shape, SprayDeck))


def _entered(deck: Zone) -> float | None:
    return deck.shape.tank_volume if isinstance(deck.shape, SprayDeck) else None


def _reserve(rule: TankRule, turnover_time: Value, margin: float) -> Value:
    """The reserve where the filter flow is the tank's own turnover with the design margin."""
    time = rule.reserve_time
    if isinstance(time, Worked) and isinstance(turnover_time, Worked) and time * (1 + margin) >= turnover_time:
        return NO_TANK
    return turnover.tank_volume_by_reserve(
        time, rule.feature_flow, turnover_time, leaf(margin, "Design margin", YOUR_ENTRY, measure=SHARE)
    )

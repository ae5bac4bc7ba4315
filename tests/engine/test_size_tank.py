"""Tanks of spray decks: sized for the pumps they feed, and checked at the flow those will have."""

import pytest

from waterpark_designer.engine.findings import Status
from waterpark_designer.model.edits import set_override
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.zones import SprayDeck
from waterpark_designer.units import FLOW, FOOT, GALLON, HOUR

MET, NOT_MET = Status.MET, Status.NOT_MET
NORTH_CAROLINA, GEORGIA = "north-carolina-18a-2543", "georgia-511-3-5-2024"
CODES = (NORTH_CAROLINA, GEORGIA)
"""15A NCAC 18A .2543(d)(1): 3 min of all feature and filter pumps, 1,000 gal at least; above 10,000 gal the lesser of
3 min of the features and 7.5 gal for each square foot. Georgia .07(1)(b) turns a spray pad over in 30 min."""


@pytest.fixture
def status(findings):
    def of(site):
        (finding,) = findings(site, "least_tank_volume")
        return finding.status

    return of


@pytest.mark.parametrize(
    ("tank", "fields", "expected"),
    [
        # 500 gpm of sprays and V / 30 of filtering for 3 min: V = 1,500 / (1 − 0.1) = 1,666.7 gal.
        (1_667, {}, MET),
        (1_666, {}, NOT_MET),
        # With a fifth more flow through the filters: 1,500 / (1 − 0.12) = 1,704.5 gal.
        (1_705, {"design_margin": 0.2}, MET),
        (1_704, {"design_margin": 0.2}, NOT_MET),
        # A filter pump of 1,000 gpm that is settled on: 3 · 1,500 = 4,500 gal.
        (4_500, {"fixed_flow": FLOW.us.to_si(1_000)}, MET),
        (4_499, {"fixed_flow": FLOW.us.to_si(1_000)}, NOT_MET),
    ],
)
def test_a_tank_is_checked_at_the_design_flow(tank, fields, expected, build, status):
    loop = build.system(build.pad(500, tank=tank), **fields)
    assert status(build.site(loop, codes=CODES)) is expected


def test_the_sheet_says_what_the_check_asks(build, design, findings):
    site = build.site(build.system(build.pad(500, tank=1_705), design_margin=0.2), codes=CODES)
    (finding,) = findings(site, "least_tank_volume")
    assert design(site).value("Pad", "least_tank_volume") == finding.limit
    # Sprays of 500 gpm, and filters that turn 1,705 gal over in 30 min with a fifth more, for 3 min.
    assert finding.limit / GALLON == pytest.approx(3 * (500 + 1.2 * 1_705 / 30))


@pytest.mark.parametrize(
    ("deck", "tank", "expected"),
    # 4,000 gpm of features: 12,000 gal in 3 min. 1,200 ft² ask for 9,000 gal, 3,000 ft² for 22,500.
    [(1_200, 9_000, MET), (1_200, 8_999, NOT_MET), (3_000, 12_000, MET), (3_000, 11_999, NOT_MET)],
)
def test_a_large_tank_holds_the_lesser_of_two(deck, tank, expected, build, status):
    assert status(build.site(build.pad(4_000, deck=deck, tank=tank), codes=CODES)) is expected


def test_a_tank_short_of_large_holds_all_pumps(build, figure):
    # 2,900 gpm of features: 8,700 / 0.9 = 9,667 gal, though the small deck would ask for 1,500 only.
    site = build.site(build.pad(2_900, deck=200), codes=CODES)
    assert figure(site, "Pad", "tank_volume") == pytest.approx(8_700 / 0.9 * GALLON)


@pytest.mark.parametrize("fields", [{}, {"design_margin": 0.3}, {"fixed_flow": FLOW.us.to_si(1_000)}])
@pytest.mark.parametrize("feature_gpm", [50, 500, 2_900, 4_000])
def test_a_tank_left_blank_does(feature_gpm, fields, build, status):
    assert status(build.site(build.system(build.pad(feature_gpm), **fields), codes=CODES)) is MET


def beside_a_basin(build):
    """A deck whose body has a wading basin too, whose flow the tank's filters get."""
    deck = build.zone("Deck", shape=SprayDeck(area=2_000 * FOOT**2))
    basin = build.zone("Wading", gallons=10_000, area=2_000, kind=AttractionKind.WADING_POOL)
    body = build.pool("splash_pad", zones=(deck, basin), features=(build.feature("Sprays", 500),))
    return build.site(body, codes=CODES)


def on_shared_water(build):
    """A flow settled on for a pad and a pool, of which the pad's part is more than its own turnover asks."""
    loop = build.system(build.pad(500), build.pool(gallons=50_000), fixed_flow=FLOW.us.to_si(2_000))
    return build.site(loop, codes=CODES)


def with_a_turnover_set_by_hand(build):
    """A pad whose turnover is set on the body and not on its deck."""
    site = build.site(build.pad(500), codes=CODES)
    return set_override(site, "Pad", "longest_turnover", HOUR / 6, "Agreed with the health officer")


@pytest.mark.parametrize("site", [beside_a_basin, on_shared_water, with_a_turnover_set_by_hand])
def test_a_tank_left_blank_says_when_its_filters_get_more_than_its_turnover_asks(site, build, findings):
    found = findings(site(build), "least_tank_volume")[0]
    assert found.status is NOT_MET
    assert found.value < found.limit
    assert found.remedy.startswith("Enter a larger tank")


def test_the_tank_reckons_with_a_turnover_of_its_deck_set_by_hand(build, design, status):
    # 3 min of 500 gpm of sprays and of a filter flow V / 10 min: V = 1,500 / (1 − 0.3) gal.
    site = build.site(build.pad(500), codes=CODES)
    site = set_override(site, "Deck", "longest_turnover", HOUR / 6, "Agreed with the health officer")
    assert design(site).value("Pad", "tank_volume") / GALLON == pytest.approx(1_500 / 0.7)
    assert status(site) is MET


def test_a_least_volume_set_by_hand_is_the_limit(build, findings):
    site = build.site(build.pad(500, tank=1_500), codes=CODES)
    relaxed = set_override(site, "Pad", "least_tank_volume", 1_200 * GALLON, "Variance 24-18")
    (finding,) = findings(relaxed, "least_tank_volume")
    assert (finding.status, finding.provenance) == (MET, "override")


def test_a_large_tank_may_turn_over_within_its_reserve(build, figure):
    # In 3 min the filters pass the tank itself, so that the reserve is beyond 10,000 gal: 3 min of features are enough.
    site = build.site(build.pad(4_000, deck=3_000), codes=CODES)
    site = set_override(site, "Deck", "longest_turnover", 180.0, "Agreed with the health officer")
    assert figure(site, "Pad", "tank_volume") == pytest.approx(12_000 * GALLON)


def test_more_features_never_give_a_smaller_tank(build, figure):
    sites = [build.site(build.pad(flow), codes=CODES) for flow in (100, 800, 2_000, 3_500)]
    tanks = [figure(site, "Pad", "tank_volume") for site in sites]
    assert tanks == sorted(tanks)
    assert tanks[0] < tanks[-1]


# Further decks drain to the tank of the first.


def two_decks(build, feature_gpm, tanks, square_feet=1_000):
    decks = tuple(
        build.zone(name, shape=SprayDeck(area=square_feet * FOOT**2, tank_volume=gallons and gallons * GALLON))
        for name, gallons in zip(("North", "South"), tanks, strict=True)
    )
    sprays = (build.feature("Sprays", feature_gpm),)
    return build.site(build.pool("splash_pad", "Pad", zones=decks, features=sprays), codes=CODES)


def test_two_decks_share_the_tank_of_the_first(build, figure, status):
    site = two_decks(build, 500, (2_000, None))
    for node in ("Pad", "North", "Loop"):
        assert figure(site, node, "volume") == pytest.approx(2_000 * GALLON), node
    assert figure(site, "South", "volume") == 0
    assert figure(site, "Pad", "surface_area") == pytest.approx(2_000 * FOOT**2)
    # Half an hour for the one tank; 1,500 / 0.9 gal are least.
    assert FLOW.us.from_si(figure(site, "Pad", "design_flow")) == pytest.approx(2_000 / 30)
    assert status(site) is MET


def test_the_splash_area_of_all_decks_counts(build, figure):
    # 4,000 gpm: the lesser of 12,000 gal and 2 · 700 ft² · 7.5 = 10,500 gal.
    assert figure(two_decks(build, 4_000, (None, None), 700), "Pad", "tank_volume") == pytest.approx(10_500 * GALLON)


def test_tanks_of_two_decks_add_up(build, figure):
    volume = figure(two_decks(build, 500, (2_000, 3_000)), "Pad", "volume")
    assert volume == pytest.approx(5_000 * GALLON)

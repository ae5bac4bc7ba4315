"""Water that features keep in transit, and how far it draws a basin or a tank down."""

from types import SimpleNamespace
from typing import Any

import pytest

from waterpark_designer.engine.findings import Status
from waterpark_designer.model.devices import BroadCrest, TippingBucket, Weir
from waterpark_designer.model.edits import revise, set_override
from waterpark_designer.model.kinds import Overflow
from waterpark_designer.model.openings import OpeningsPlan, TankPlan
from waterpark_designer.units import FOOT, GALLON, INCH


def pool(build: SimpleNamespace, *features: Any, **fields: Any) -> Any:
    """3,000 ft² of water."""
    loop = build.system(build.pool(features=features), **fields)
    return build.site(loop, codes=("common-practice",), amendments=(build.turnover(4),))


def test_nothing_is_counted_where_nothing_is_entered(build: Any, design: Any) -> None:
    found = design(pool(build, build.feature("Slide", 1_000, "slide")))
    assert "feature_water_in_transit" not in found.sheets["Slide"].figures
    assert not {"feature_water_in_transit", "level_drop"} & found.sheets["Pool"].figures.keys()
    assert "feature_water_in_transit" not in found.sheets["Loop"].figures


def test_water_on_a_slide_draws_the_pool_down(build: Any, figure: Any) -> None:
    # 2 · 900 gpm for 20 s are 600 gal, 80.21 ft³; over 3,000 ft² 0.321 in.
    site = pool(build, build.feature("Slide", 900, "slide", count=2, transit_time=20.0))
    assert figure(site, "Slide", "feature_water_in_transit") / GALLON == pytest.approx(600)
    assert figure(site, "Pool", "level_drop") / INCH == pytest.approx(600 * 231 / 1728 / 3_000 * 12)


def test_buckets_and_basins_behind_weirs_hold_water_of_their_own(build: Any, figure: Any) -> None:
    # Two buckets of 180 gal; a basin of 200 ft² that rises 1.5 in: 25 ft³, 187.0 gal.
    bucket = build.feature(
        "Bucket",
        kind="tipping_bucket",
        count=2,
        device=TippingBucket(bucket_volume=180 * GALLON, time_between_tips=180.0),
    )
    for crest in (Weir, BroadCrest):
        weir = crest(length=6 * FOOT, head=1.5 * INCH, basin_area=200 * FOOT**2)
        fall = build.feature("Fall", kind="waterfall", device=weir)
        site = pool(build, bucket, fall)
        assert figure(site, "Bucket", "feature_water_in_transit") / GALLON == pytest.approx(360)
        assert figure(site, "Fall", "feature_water_in_transit") / FOOT**3 == pytest.approx(25)
        for node in ("Pool", "Loop"):
            assert figure(site, node, "feature_water_in_transit") / GALLON == pytest.approx(360 + 25 * 1728 / 231)


def test_a_basin_rises_by_the_head_on_the_sheet(build: Any, figure: Any) -> None:
    # 200 ft² that rise 3 in: 50 ft³.
    weir = Weir(length=6 * FOOT, head=1.5 * INCH, basin_area=200 * FOOT**2)
    site = pool(build, build.feature("Fall", kind="waterfall", device=weir))
    site = set_override(site, "Fall", "device_head", 3 * INCH, "Measured")
    assert figure(site, "Fall", "feature_water_in_transit") / FOOT**3 == pytest.approx(50)


def test_a_fall_counts_its_basin_and_its_sheet_together(build: Any, figure: Any) -> None:
    weir = Weir(length=10 * FOOT, head=2 * INCH, basin_area=100 * FOOT**2)
    site = pool(build, build.feature("Fall", kind="waterfall", device=weir, transit_time=2.0))
    # 1,017 gpm (Francis, 2 in) for 2 s: 33.9 gal; 100 ft² · 2 in: 124.7 gal.
    assert figure(site, "Fall", "feature_water_in_transit") / GALLON == pytest.approx(33.9 + 124.7, rel=2e-3)


def test_a_pad_draws_on_its_tank(build: Any, design: Any) -> None:
    # 300 gpm for 30 s: 150 gal of 2,000.
    site = build.site(build.pad(300, tank=2_000), codes=("common-practice",))
    found = design(revise(site, "Sprays", transit_time=30.0))
    assert found.value("Pad", "tank_share_in_transit") == pytest.approx(0.075)
    assert "level_drop" not in found.sheets["Pad"].figures
    [check] = [finding for finding in found.findings if finding.key == "tank_in_transit"]
    assert check.status is Status.MET
    dry = design(revise(site, "Sprays", transit_time=500.0))
    [check] = [finding for finding in dry.findings if finding.key == "tank_in_transit"]
    assert check.status is Status.NOT_MET and "tank" in check.remedy


@pytest.mark.parametrize(("seconds", "status"), [(220.0, Status.MET), (260.0, Status.CAUTION)])
def test_a_basin_is_not_drawn_below_its_skimmers(build: Any, findings: Any, seconds: float, status: Status) -> None:
    # 50 mm of 3,000 ft² are 492 ft³, 3,681 gal: 1,000 gpm for 221 s.
    slide = build.feature("Slide", 1_000, "slide", transit_time=seconds)
    [check] = findings(pool(build, slide), "level_drop")
    assert check.status is status and bool(check.remedy) is (status is Status.CAUTION)
    tank = {"tanks": TankPlan(usable_volume=20.0)}
    for site in (pool(build, slide, surge_volume=20.0), pool(build, slide, **tank)):
        assert findings(site, "level_drop") == [], "a surge tank tops it up"
        # What a tank does not take back over a gutter it does not top up: skimmers draw from the basin itself.
        skimmed = revise(site, "Pool", openings=OpeningsPlan(overflow=Overflow.SKIMMERS, surface_share=0.8))
        [check] = findings(skimmed, "level_drop")
        assert check.status is status

"""Feature pumps, and a river whose current is held by jets, in whole designs."""

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.jet_speeds import jet_speeds
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.model.edits import revise
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import PumpPlan
from waterpark_designer.model.kinds import FeaturePump
from waterpark_designer.model.site import Site
from waterpark_designer.model.zones import Channel, Zone
from waterpark_designer.units import FOOT, GALLON, HORSEPOWER, HOUR, INCH, MINUTE, POUND, STANDARD_GRAVITY

GPM = GALLON / MINUTE
POUND_FORCE = POUND * STANDARD_GRAVITY
AT_62_2 = 300.75
"""27.6 °C: water of 62.2 lb/ft³, for which the worked example stands."""

Design = Callable[[Site], SiteDesign]
Figure = Callable[[Site, str, str], Worked]
Lack = Callable[[Site, str, str], Missing]


@pytest.fixture
def river(build: SimpleNamespace) -> Callable[..., Site]:
    """600 ft of river, 10 ft wide and 3 ft deep, with jets at 15 ft/s for a current of 2.5 ft/s."""

    def made(shape: Any = None, gpm: float = 5_800, **fields: Any) -> Site:
        channel = shape or Channel(length=600 * FOOT, width=10 * FOOT, depth=3 * FOOT)
        jets = build.feature("Jets", gpm / 4, "current_jets", **{
            "count": 4, "current_speed": 2.5 * FOOT, "jet_speed": 15 * FOOT} | fields)  # fmt: skip
        zone = Zone(id="Channel", name="Channel", shape=channel)
        body = build.pool("lazy_river", "River", zones=(zone,), features=(jets,), water_temperature=AT_62_2)
        return build.site(body, codes=("common-practice",), amendments=(build.turnover(2),))

    return made


@pytest.mark.parametrize(("jet_speed", "gpm", "horsepower", "efficiency"), [
    # Momentum jets worked by hand in US units: n 0.015, R 1.875 ft, slope 2.7544e-4, 308.4 lbf, 1.402 hp of use.
    (5, 28_638, 2.804, 0.500), (10, 9_546, 3.738, 0.375), (15, 5_728, 5.046, 0.278), (20, 4_091, 6.408, 0.219),
])  # fmt: skip
def test_a_river_as_worked_by_hand(
    river: Any, figure: Figure, jet_speed: float, gpm: float, horsepower: float, efficiency: float
) -> None:
    site = river(jet_speed=jet_speed * FOOT)
    assert figure(site, "Jets", "wall_resistance") / POUND_FORCE == pytest.approx(308.4, rel=1e-3)
    assert figure(site, "Jets", "people_drag") == 0
    assert figure(site, "Jets", "jet_thrust") / POUND_FORCE == pytest.approx(308.4, rel=1e-3)
    assert figure(site, "Jets", "jet_flow") / GPM == pytest.approx(gpm, rel=1e-3)
    assert figure(site, "Jets", "jet_power") / HORSEPOWER == pytest.approx(horsepower, rel=1e-3)
    assert figure(site, "Jets", "propulsive_efficiency") == pytest.approx(efficiency, abs=5.1e-4)


def test_a_river_of_several_channels_is_held_back_by_all(river: Any, figure: Figure, design: Design) -> None:
    """The river worked by hand, 308.4 lbf on 600 ft, in two channels of 400 and 200 ft."""
    parts = [Zone(id=f"{feet}", name=f"{feet}", shape=Channel(length=feet * FOOT, width=10 * FOOT, depth=3 * FOOT))
             for feet in (400, 200)]  # fmt: skip
    site = revise(river(), "River", zones=tuple(parts))
    assert figure(site, "Jets", "wall_resistance") / POUND_FORCE == pytest.approx(308.4, rel=1e-3)
    assert figure(site, "Jets", "jet_flow") / GPM == pytest.approx(5_728, rel=1e-3)
    done = design(site)
    jets = done.sheets["Jets"]
    assert isinstance(jets.node, Feature)
    compared = jet_speeds(jets.node, jets)
    assert compared is not None and compared.thrust / POUND_FORCE == pytest.approx(308.4, rel=1e-3)
    assert compared.density / (POUND / FOOT**3) == pytest.approx(62.2, abs=0.05)


def test_people_who_stand_hold_the_river_back(river: Any, figure: Figure) -> None:
    # 20 people, drag area 3.3 ft² each: 398.7 lbf more, 13,133 gpm, 11.57 hp.
    site = river(standing_people=20)
    assert figure(site, "Jets", "people_drag") / POUND_FORCE == pytest.approx(398.7, rel=1e-3)
    assert figure(site, "Jets", "jet_flow") / GPM == pytest.approx(13_133, rel=1e-3)
    assert figure(site, "Jets", "jet_power") / HORSEPOWER == pytest.approx(11.57, rel=1e-3)


def test_bore_and_head_of_the_jets(river: Any, figure: Figure) -> None:
    # 12.76 ft³/s in 4 jets at 15 ft/s: 0.2127 ft² each, 6.245 in. 15² / 64.35 = 3.497 ft.
    site = river()
    assert figure(site, "Jets", "jet_bore") / INCH == pytest.approx(6.245, rel=1e-3)
    assert figure(site, "Jets", "jet_head") / FOOT == pytest.approx(3.497, rel=1e-3)


@pytest.mark.parametrize("jet_speed", [2.5, 2.0])
def test_jets_no_faster_than_the_current_drive_nothing(river: Any, lack: Lack, jet_speed: float) -> None:
    site = river(jet_speed=jet_speed * FOOT)
    for key in ("jet_flow", "jet_power", "jet_bore"):
        assert lack(site, "Jets", key).needs == (
            "Jets must be faster than the current they drive. Enter a higher jet speed."
        )


def test_a_current_without_a_jet_speed_waits_for_it(river: Any, lack: Lack, figure: Figure) -> None:
    site = river(jet_speed=None)
    assert figure(site, "Jets", "jet_thrust") > 0
    assert lack(site, "Jets", "jet_flow").needs == "Enter jet speed."


def test_a_river_without_a_channel_says_so(build: SimpleNamespace, river: Any, lack: Lack) -> None:
    site = river(build.pool().zones[0].shape)
    assert "channel" in lack(site, "Jets", "jet_thrust").needs
    assert lack(site, "Jets", "jet_thrust").needs.endswith(".")


def test_jets_have_their_pump_like_any_feature(build: SimpleNamespace, river: Any, figure: Figure) -> None:
    runs = (build.run("Manifold", 40, "feature_supply", count=3),)
    site = river(pipe_runs=runs, device_head=6 * FOOT, pump_plan=PumpPlan(count=3))
    assert figure(site, "Jets", "duty_head") == pytest.approx(6 * FOOT + figure(site, "Manifold", "run_loss"))
    assert figure(site, "Jets", "pump_flow") == pytest.approx(5_800 / 3 * GPM)


@pytest.mark.parametrize(("flow", "status"), [(5_700.0, Status.NOT_MET), (5_760.0, Status.MET)])
def test_flow_of_the_jets_is_checked(
    river: Any, findings: Callable[[Site, str], list[Finding]], flow: float, status: Status
) -> None:
    [found] = findings(river(gpm=flow), "jet_flow")
    assert (found.node, found.status) == ("Jets", status)
    assert bool(found.remedy) is (status is Status.NOT_MET)


def test_other_features_have_no_current(build: SimpleNamespace, design: Design) -> None:
    sprays = build.feature("Sprays", 20)
    done = design(build.site(build.pool(features=(sprays,)), codes=("common-practice",)))
    assert "jet_thrust" not in done.sheets["Sprays"].figures
    assert [finding for finding in done.findings if finding.key == "jet_flow"] == []


@pytest.fixture
def slide(build: SimpleNamespace) -> Callable[..., Site]:
    """A slide of 900 gpm whose pump lifts 30 ft and leaves 2 ft at the start tub."""

    def made(gpm: float = 900, **fields: Any) -> Site:
        usual = {
            "device_head": 2 * FOOT,
            "pipe_runs": (build.run("Riser", 120, "feature_supply", size="8"),),
            "pump_plan": PumpPlan(static_head=30 * FOOT, efficiency=0.75, running_hours=10 * HOUR),
        }
        feature: Feature = build.feature("Slide", gpm, "slide", **usual | fields)
        return build.site(build.pool("plunge_pool", features=(feature,)), codes=("common-practice",))

    return made


def test_a_feature_pump_lifts_and_has_no_dirty_filter(slide: Any, design: Design, figure: Figure) -> None:
    site = slide()
    head = 32 * FOOT + figure(site, "Riser", "run_loss")
    assert figure(site, "Slide", "duty_head") == pytest.approx(head)
    sheet = design(site).sheets["Slide"]
    assert "head_dirty" not in sheet.figures and "filter_dirt" not in sheet.figures
    assert figure(site, "Slide", "operating_flow_clean") == pytest.approx(900 * GPM)
    assert figure(site, "Slide", "operating_head_clean") == pytest.approx(head)
    assert not any(key.endswith("_dirty") for key in sheet.figures)
    drawn = design(site).curves["Slide"]
    assert drawn.dirty is drawn.clean and drawn.at_dirty is drawn.at_clean


def test_power_of_a_slides_pump(slide: Any, figure: Figure) -> None:
    # hp = gpm · ft · 8.31 lb/gal / 33,000 / 0.75.
    site = slide()
    feet = figure(site, "Slide", "duty_head") / FOOT
    assert 33 < feet < 37
    horsepower = 900 * feet * 8.31 / 33_000 / 0.75
    assert figure(site, "Slide", "shaft_power") / HORSEPOWER == pytest.approx(horsepower, rel=2e-3)
    assert figure(site, "Slide", "motor_rating") / HORSEPOWER == pytest.approx(15)
    electric = figure(site, "Slide", "electric_power")
    assert figure(site, "Slide", "energy_a_day") == pytest.approx(electric * 10 * HOUR)


@pytest.mark.parametrize("fields", [{"pump": FeaturePump.RECIRCULATION}, {"pipe_runs": ()}])
def test_no_pump_of_its_own_no_pump_figures(slide: Any, design: Design, fields: dict[str, Any]) -> None:
    done = design(slide(**fields))
    assert "duty_head" not in done.sheets["Slide"].figures
    assert "Slide" not in done.curves


def test_a_feature_without_flow_says_so(slide: Any, lack: Lack) -> None:
    site = slide(gpm=0.0)
    assert lack(site, "Slide", "motor_rating").needs.startswith("Nothing flows")
    assert lack(site, "Slide", "operating_flow_clean").needs.endswith(".")

"""Pumps of whole designs: motor, points of running, suction head, energy. Worked by hand beside each check."""

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import fluids
import pytest

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.pump_curves import PumpCurve
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.model.hydraulics import CurvePoint, HydraulicTerms, PumpPlan
from waterpark_designer.model.kinds import SupplyVoltage
from waterpark_designer.model.site import Operation, Site
from waterpark_designer.sources import Provenance
from waterpark_designer.units import FOOT, GALLON, HORSEPOWER, HOUR, MINUTE, TEMPERATURE

GPM = GALLON / MINUTE
EIGHTY = TEMPERATURE.us.to_si(80.0)
"""80 °F, at which 1,000 gpm and 60 ft take 15.12 hp: 1,000 · 8.3171 · 60 / 33,000 (water at 8.3171 lb/gal)."""

Design = Callable[[Site], SiteDesign]
Figure = Callable[[Site, str, str], Worked]
Lack = Callable[[Site, str, str], Missing]


def test_power_motor_and_current(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    # 500 gpm at 60 ft take 500 · 8.3171 · 60 / 33,000 = 7.561 hp at 80 °F, 10.80 hp at the shaft of a pump of 70 %.
    # 15 hp: 21 A at 460 V, 46.2 A at 208 V (NEC Table 430.250), 92.4 % (10 CFR 431.25, 4-pole enclosed).
    # With a service factor of 1.15 in use 9.39 hp will do: 10 hp, 14 A, 91.7 %.
    def loop(**plan: Any) -> Site:
        made = build.pumped(60, pump=PumpPlan(efficiency=0.70, **plan))
        return piped(made.revised(attractions=(made.attractions[0].revised(water_temperature=EIGHTY),)))

    site = loop()
    assert figure(site, "Loop", "hydraulic_power") / HORSEPOWER == pytest.approx(7.561, rel=5e-4)
    assert figure(site, "Loop", "shaft_power") / HORSEPOWER == pytest.approx(10.80, rel=1e-3)
    assert figure(site, "Loop", "motor_rating") / HORSEPOWER == pytest.approx(15)
    assert figure(site, "Loop", "motor_efficiency") == pytest.approx(0.924)
    assert figure(site, "Loop", "motor_current") == pytest.approx(21)
    assert figure(site, "Loop", "electric_power") / 1000 == pytest.approx(10.80 * 0.7457 / 0.924, rel=1e-3)
    assert figure(loop(voltage=SupplyVoltage.V208), "Loop", "motor_current") == pytest.approx(46.2)
    reserve = loop(service_factor=1.15)
    assert figure(reserve, "Loop", "motor_rating") / HORSEPOWER == pytest.approx(10)
    assert figure(reserve, "Loop", "motor_current") == pytest.approx(14)


def test_the_motor_bears_the_flow_that_clean_filters_let_through(
    build: SimpleNamespace, figure: Figure, piped: Any
) -> None:
    # Duty 500 gpm at 56 ft with dirty filters, 26 ft when clean, curve 70 − 14 (Q/500)²: clean they cross where
    # (Q/500)² = 70 / 40, 661 gpm at 45.5 ft. Shaft at 70 %: 10.08 hp at duty, 10.83 there.
    equipment = build.losses(heater=26, filter_dirt=30)
    loop = build.pumped(0, equipment=equipment, pump=PumpPlan(efficiency=0.70, service_factor=1.05))
    site = piped(loop.revised(attractions=(loop.attractions[0].revised(water_temperature=EIGHTY),)))
    assert figure(site, "Loop", "operating_flow_clean") / GPM == pytest.approx(661.4, rel=1e-3)
    assert figure(site, "Loop", "operating_head_clean") / FOOT == pytest.approx(45.5, rel=1e-3)
    assert figure(site, "Loop", "shaft_power") / HORSEPOWER == pytest.approx(10.08, rel=1e-3)
    # 10.08 / 1.05 = 9.6 hp would pass for 10 hp; 10.83 / 1.05 = 10.3 does not.
    assert figure(site, "Loop", "motor_rating") / HORSEPOWER == pytest.approx(15)


def test_two_pumps_side_by_side_share_the_flow(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    one, two = (piped(build.pumped(60, pump=PumpPlan(count=count, efficiency=0.7))) for count in (1, 2))
    assert figure(two, "Loop", "pump_flow") == pytest.approx(250 * GPM)
    for key in ("duty_head", "operating_flow_dirty"):
        assert figure(two, "Loop", key) == pytest.approx(figure(one, "Loop", key))
    assert figure(two, "Loop", "shaft_power") == pytest.approx(figure(one, "Loop", "shaft_power") / 2)
    # 5.4 hp: 7.5 hp each, 91.7 %; one pump of 10.8 hp: 15 hp, 92.4 %.
    assert figure(two, "Loop", "motor_rating") / HORSEPOWER == pytest.approx(7.5)
    assert figure(two, "Loop", "electric_power") == pytest.approx(figure(one, "Loop", "electric_power") * 92.4 / 91.7)


def test_an_operating_point_on_a_generic_curve_is_no_more_than_practice(
    build: SimpleNamespace, figure: Figure, piped: Any
) -> None:
    supplied = PumpPlan(curve=points((0, 75), (500, 60), (900, 30)))
    for plan, provenance in ((PumpPlan(), Provenance.COMMON_PRACTICE), (supplied, Provenance.DEFINITION)):
        source = figure(piped(build.pumped(60, pump=plan)), "Loop", "operating_flow_clean").step.source
        assert source.provenance is provenance
        assert ("generic" in source.text) is (plan is not supplied)


def points(*pairs: tuple[float, float]) -> tuple[CurvePoint, ...]:
    """Points of a curve, gpm and feet."""
    return tuple(CurvePoint(flow=gpm * GPM, head=feet * FOOT) for gpm, feet in pairs)


def test_a_suppliers_curve_says_where_the_pump_runs(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    # H = 90 − Q/10 against 60 (Q/500)²: 2.4e-4 Q² + 0.1 Q − 90 = 0, Q = 438.5 gpm, H = 46.15 ft.
    plan = PumpPlan(curve=points((0, 90), (600, 30)))
    site = piped(build.pumped(60, pump=plan))
    assert figure(site, "Loop", "operating_flow_dirty") / GPM == pytest.approx(438.5, rel=2e-4)
    assert figure(site, "Loop", "operating_head_dirty") / FOOT == pytest.approx(46.15, rel=2e-4)
    # Two of them: H = 90 − Q/20; 2.4e-4 Q² + 0.05 Q − 90 = 0, Q = 517.0 gpm.
    both = piped(build.pumped(60, pump=plan.revised(count=2)))
    assert figure(both, "Loop", "operating_flow_dirty") / GPM == pytest.approx(517.0, rel=2e-4)


def test_the_curve_drawn_goes_through_the_suppliers_points(build: SimpleNamespace, design: Design, piped: Any) -> None:
    typed = points((0, 92), (150, 88), (300, 79), (450, 63), (600, 41))
    curve: PumpCurve = design(piped(build.pumped(60, pump=PumpPlan(curve=typed)))).curves["Loop"].pumps
    assert [curve.head(point.flow) for point in typed] == pytest.approx([point.head for point in typed])


@pytest.mark.parametrize("plan", [
    PumpPlan(curve=points((0, 20), (600, 5)), static_head=40 * FOOT),   # shutoff below the lift
    PumpPlan(curve=points((0, 300), (100, 299))),                       # ends before it meets the system
])  # fmt: skip
def test_a_pump_that_does_not_meet_its_system_is_a_finding(
    build: SimpleNamespace, design: Design, lack: Lack, piped: Any, plan: PumpPlan
) -> None:
    site = piped(build.pumped(60, pump=plan))
    assert "does not meet" in lack(site, "Loop", "operating_flow_dirty").needs
    [found] = [finding for finding in design(site).findings if finding.key == "no_operating_point"]
    assert found.status is Status.NOT_MET and "Choose a pump" in found.remedy
    assert design(site).curves["Loop"].at_dirty is None


@pytest.mark.parametrize("night", [1.0, 0.5])
def test_water_that_falls_by_itself_gives_no_power_back(
    build: SimpleNamespace, design: Design, lack: Lack, piped: Any, night: float
) -> None:
    """Bernoulli's equation: a fall of 60 ft against losses of 20 ft leaves the pump no head; a pump gives nothing."""
    site = piped(build.pumped(20, pump=PumpPlan(static_head=-60 * FOOT, night_flow=night)))
    for key in ("hydraulic_power", "motor_rating", "electric_power", "energy_a_day", "energy_cost"):
        assert "No head is left" in lack(site, "Loop", key).needs, key
    assert "No head is left" in lack(site, "Loop", "operating_flow_dirty").needs
    [found] = [finding for finding in design(site).findings if finding.key == "no_operating_point"]
    assert found.status is Status.NOT_MET and "Check the lift" in found.remedy


def test_a_fall_that_suffices_at_night_leaves_the_pump_nothing_to_do(
    build: SimpleNamespace, lack: Lack, figure: Figure, piped: Any
) -> None:
    # 20 (Q/500)² ft of loss against a fall of 10 ft: 10 ft at 500 gpm, −5 ft at 250 gpm.
    site = piped(build.pumped(20, pump=PumpPlan(static_head=-10 * FOOT, night_flow=0.5)))
    assert figure(site, "Loop", "duty_head") == pytest.approx(10 * FOOT)
    assert "No head is left" in lack(site, "Loop", "energy_saved_a_day").needs


@pytest.mark.parametrize("curve", [points((300, 60)), points((0, 30), (600, 90)), points((0, 60), (600, 60))])
def test_points_that_make_no_pump_curve_say_what_is_needed(
    build: SimpleNamespace, lack: Lack, findings: Any, piped: Any, curve: tuple[CurvePoint, ...]
) -> None:
    site = piped(build.pumped(60, pump=PumpPlan(curve=curve)))
    assert "at least two points whose head falls" in lack(site, "Loop", "operating_flow_dirty").needs
    assert findings(site, "no_operating_point") == []
    assert [finding.status for finding in findings(site, "operating_flow")] == [Status.UNKNOWN]


def test_a_trickle_has_no_estimate_of_efficiency(
    build: SimpleNamespace, figure: Figure, lack: Lack, piped: Any
) -> None:
    # At 3 gpm the equation gives −0.316 + 0.2638 − 0.0145 = −0.07: no efficiency at all.
    small = piped(build.pumped(60, fixed_flow=3 * GPM))
    assert "no estimate for so small a flow" in lack(small, "Loop", "pump_efficiency").needs
    assert isinstance(lack(small, "Loop", "motor_rating"), Missing)
    known = piped(build.pumped(60, fixed_flow=3 * GPM, pump=PumpPlan(efficiency=0.2)))
    assert figure(known, "Loop", "motor_rating") / HORSEPOWER == pytest.approx(1)


def test_suction_head_by_altitude_and_temperature(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    # Steam tables at 85 °F: 0.5960 psi and 62.16 lb/ft³; standard atmosphere 14.696 psi, at 5,000 ft 12.228 psi.
    # (14.696 − 0.596) · 144 / 62.16 = 32.66 ft, 26.95 ft; with 3 ft of water above and 1.5 ft of strainer 1.5 ft more.
    # At 104 °F 1.070 psi and 61.94 lb/ft³: 31.68 ft.
    def available(altitude: float, fahrenheit: float) -> float:
        plan = PumpPlan(water_above_pump=3 * FOOT, suction_head_required=10 * FOOT)
        loop = build.pumped(0, equipment=build.losses(strainer=1.5, heater=40), pump=plan)
        body = loop.attractions[0].revised(water_temperature=TEMPERATURE.us.to_si(fahrenheit))
        site = piped(loop.revised(attractions=(body,)), hydraulics=HydraulicTerms(altitude=altitude * FOOT))
        assert figure(site, "Loop", "suction_head_needed") / FOOT == pytest.approx(13)
        return figure(site, "Loop", "suction_head_available") / FOOT

    assert available(0, 85) == pytest.approx(32.66 + 1.5, abs=0.03)
    assert available(5000, 85) == pytest.approx(26.95 + 1.5, abs=0.03)
    assert available(0, 104) == pytest.approx(31.68 + 1.5, abs=0.03)


def test_lines_ahead_of_the_pump_take_suction_head(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    def available(kind: str) -> float:
        return figure(piped(build.pumped(0, build.run("Line", 60, kind, size="6"))), "Loop", "suction_head_available")

    loss = figure(piped(build.pumped(0, build.run("Line", 60, "pump_suction", size="6"))), "Line", "run_loss")
    assert available("return_header") - available("pump_suction") == pytest.approx(loss)


def slowed(build: SimpleNamespace, piped: Any, lift: float, **plan: Any) -> Site:
    """60 ft at 500 gpm, of which `lift` [ft]; closed for 12 h, for which the flow falls to 60 %."""
    loop = build.pumped(60 - lift, pump=PumpPlan(static_head=lift * FOOT, efficiency=0.7, **{"night_flow": 0.6} | plan))
    return piped(loop, operation=Operation(open_hours=10 * HOUR, closed_hours=12 * HOUR, season=100 * 24 * HOUR),
                 hydraulics=HydraulicTerms(energy_price=0.15 / 3.6e6))  # fmt: skip


def slowed_powers(site: Site, figure: Figure, ratio: float) -> tuple[float, float, float]:
    """Power [W] without a drive, with one at full flow, and with one at a share of the shaft power.

    15 hp, 92.4 % (10 CFR 431.25); the drive by the fluids library, from the tip sheet of the US DOE, in 4 places.
    """
    shaft = figure(site, "Loop", "shaft_power")
    rating = 15 * HORSEPOWER
    assert figure(site, "Loop", "motor_rating") == pytest.approx(rating)
    full, slow = (fluids.VFD_efficiency(rating, load=share * shaft / rating) for share in (1.0, ratio))
    return shaft / 0.924, shaft / 0.924 / full, ratio * shaft / 0.924 / slow


def test_reduced_flow_at_night_against_a_lift(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    # Curve 75 − 15 (Q/500)². At 300 gpm the system takes 20 + 40 · 0.36 = 34.4 ft: 75 s² − 15 · 0.36 = 34.4,
    # s = 0.7285. Hydraulic power falls to 0.6 · 34.4 / 60 = 0.344 of what it was, not to 0.6³ = 0.216.
    site = slowed(build, piped, 20)
    direct, full, night = slowed_powers(site, figure, 0.344)
    assert figure(site, "Loop", "electric_power") == pytest.approx(full, rel=2e-4)
    assert figure(site, "Loop", "night_speed") == pytest.approx(0.7285, abs=1e-4)
    assert figure(site, "Loop", "night_power") == pytest.approx(night, rel=2e-4)
    daily = 12 * HOUR * (full + night)
    assert figure(site, "Loop", "energy_a_day") == pytest.approx(daily, rel=2e-4)
    assert figure(site, "Loop", "energy_saved_a_day") == pytest.approx(24 * HOUR * direct - daily, rel=5e-4)
    season = figure(site, "Loop", "energy_of_season")
    assert season == pytest.approx(100 * daily, rel=2e-4)
    assert figure(site, "Loop", "energy_cost") == pytest.approx(season / 3.6e6 * 0.15)


def test_without_a_lift_the_affinity_laws_hold(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    site = slowed(build, piped, 0)
    assert figure(site, "Loop", "night_speed") == pytest.approx(0.6)
    *_, night = slowed_powers(site, figure, 0.6**3)
    assert figure(site, "Loop", "night_power") == pytest.approx(night, rel=2e-4)


@pytest.mark.parametrize(("running", "slow"), [(24, 12), (16, 4), (12, 0), (2, 0)])
def test_only_hours_that_run_into_closing_time_are_slowed(
    build: SimpleNamespace, figure: Figure, findings: Any, piped: Any, running: float, slow: float
) -> None:
    site = slowed(build, piped, 20, running_hours=running * HOUR)
    direct, full, night = slowed_powers(site, figure, 0.344)
    daily = HOUR * ((running - slow) * full + slow * night)
    assert figure(site, "Loop", "energy_a_day") == pytest.approx(daily, rel=2e-4)
    saved = figure(site, "Loop", "energy_saved_a_day")
    assert saved == pytest.approx(running * HOUR * direct - daily, rel=2e-3)
    # Where nothing is slowed the drive only loses, and that is worth a look.
    assert (saved < 0) is (slow == 0)
    assert [one.status for one in findings(site, "drive_saves")] == [Status.CAUTION if slow == 0 else Status.MET]


def test_a_drive_that_is_fitted_loses_at_full_flow(build: SimpleNamespace, figure: Figure, piped: Any) -> None:
    site = slowed(build, piped, 20, night_flow=1.0, drive=True)
    _, full, _ = slowed_powers(site, figure, 1.0)
    assert figure(site, "Loop", "electric_power") == pytest.approx(full, rel=2e-4)
    assert figure(site, "Loop", "energy_a_day") == pytest.approx(24 * HOUR * full, rel=2e-4)
    # The tip sheet: 15 hp at 72 % load, half way between 10 and 20 hp: 0.949 at half load, 0.955 at 75 %.
    assert 0.949 < figure(site, "Loop", "drive_efficiency") < 0.956


def test_full_flow_saves_nothing(build: SimpleNamespace, design: Design, piped: Any) -> None:
    sheet = design(slowed(build, piped, 20, night_flow=1.0)).sheets["Loop"]
    for key in ("night_speed", "energy_saved_a_day", "drive_efficiency", "night_power"):
        assert key not in sheet.figures
    assert sheet["energy_a_day"] == pytest.approx(sheet["electric_power"] * 24 * HOUR)


def sprayed(build: SimpleNamespace, piped: Any, *names: str, **fields: Any) -> Site:
    """The pool of `pumped`, with features of 100 gpm."""
    loop = build.pumped(60)
    usual = {"pipe_runs": (build.run("Supply"),), "device_head": 20 * FOOT} | fields
    sprays = tuple(build.feature(name, 100, **usual) for name in names)
    return piped(loop.revised(attractions=(loop.attractions[0].revised(features=sprays),)))


POWER_KEYS = ("electric_power", "energy_a_day", "energy_of_season", "energy_cost")


@pytest.mark.parametrize("key", POWER_KEYS)
def test_the_recirculation_pump_has_figures_of_its_own(
    build: SimpleNamespace, figure: Figure, piped: Any, key: str
) -> None:
    alone, both = piped(build.pumped(60)), sprayed(build, piped, "Sprays")
    own = figure(alone, "Loop", f"recirculation_{key}")
    assert own == figure(alone, "Loop", key) == figure(both, "Loop", f"recirculation_{key}")
    assert figure(both, "Loop", key) == pytest.approx(own + figure(both, "Sprays", key))


@pytest.mark.parametrize("key", POWER_KEYS)
def test_a_sum_says_which_pump_is_not_known(
    build: SimpleNamespace, figure: Figure, lack: Lack, piped: Any, key: str
) -> None:
    # 7 in is no size of this standard, so that the head of both features is not known.
    no_size = {"pipe_runs": (build.run("Supply", 10, size="7"),)}
    site = sprayed(build, piped, "Sprays", "Bubblers", **no_size)
    assert figure(site, "Loop", f"recirculation_{key}") > 0
    for node in ("Loop", "Site"):
        needs = lack(site, node, key).needs
        assert "Sprays: " in needs and "Bubblers: " in needs and "no size 7 in" in needs
        assert "Recirculation" not in needs


def test_energy_of_the_site_is_that_of_its_systems_and_features(
    build: SimpleNamespace, figure: Figure, piped: Any
) -> None:
    sprays = build.feature("Sprays", 100, pipe_runs=(build.run("Supply"),), device_head=20 * FOOT)
    loop = build.pumped(60)
    loop = loop.revised(attractions=(loop.attractions[0].revised(features=(sprays,)),))
    alone, both = piped(build.pumped(60)), piped(loop)
    for key in ("electric_power", "energy_a_day", "energy_of_season", "energy_cost"):
        own, extra = figure(alone, "Loop", key), figure(both, "Sprays", key)
        assert extra > 0
        assert figure(both, "Loop", key) == pytest.approx(own + extra)
        assert figure(both, "Site", key) == pytest.approx(own + extra)

"""Pipes, pumps, openings and tanks of the samples, and what their river and features show."""

import pytest

from tests.samples import COMMUNITY, INDOOR, RESORT, SAMPLES, sample
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Worked
from waterpark_designer.library import Library
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import HydraulicTerms, PipeRun
from waterpark_designer.model.kinds import FeaturePump
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import walk
from waterpark_designer.storage.project_file import load_project
from waterpark_designer.units import FOOT, GALLON, HORSEPOWER, HOUR, INCH, MINUTE, POUND, STANDARD_GRAVITY


@pytest.fixture(params=SAMPLES, ids=lambda path: path.stem)
def design(request: pytest.FixtureRequest, library: Library) -> SiteDesign:
    return library.design(load_project(request.param).site)


def pumps_of(site: Site) -> list[RecirculationSystem | Feature]:
    own = [node for node in walk(site) if isinstance(node, Feature) and node.pump is FeaturePump.OWN]
    return [*site.systems, *own]


def test_every_system_and_feature_pump_is_piped_and_meets_its_system(design: SiteDesign) -> None:
    for node in pumps_of(design.site):
        assert node.pipe_runs and not all(run.assumed for run in node.pipe_runs), node.name
        dirty = ("operating_flow_dirty",) if isinstance(node, RecirculationSystem) else ()
        for key in (
            "duty_head",
            "operating_flow_clean",
            *dirty,
            "motor_rating",
            "motor_current",
            "suction_head_available",
            "energy_cost",
        ):
            assert isinstance(design.value(node.id, key), Worked), (node.name, key)
        assert node.id in design.curves
    assert all(system.pump_head is None for system in design.site.systems)


def test_every_run_keeps_to_its_velocity_limit(design: SiteDesign) -> None:
    found = [finding for finding in design.findings if finding.key == "velocity"]
    assert len(found) == sum(isinstance(node, PipeRun) for node in walk(design.site)) >= 20
    assert {finding.status for finding in found} == {Status.MET}


def test_pumps_of_a_site_cost_what_their_energy_does(design: SiteDesign) -> None:
    site = design.site
    price = site.hydraulics.energy_price
    assert price != HydraulicTerms().energy_price
    energy = sum(design.value(system.id, "energy_of_season") for system in site.systems)
    assert design.value(site.id, "energy_cost") == pytest.approx(energy * price)


def test_the_resorts_river_runs(library: Library) -> None:
    # 640 ft, 11 by 3.25 ft, 2.5 ft/s, n 0.015: A 35.75 ft², P 17.5 ft, R 2.0429 ft,
    # S (0.015 · 2.5 / (1.486 · 2.0429^(2/3)))² = 2.457e-4, h 0.1572 ft; walls 62.15 · 35.75 · 0.1572 = 349 lbf;
    # six who stand 6 · 1.932 / 2 · 3.3 · 2.5² = 120 lbf. At 16 ft/s: 469 / (1.932 · 13.5) = 17.98 ft³/s, 8,071 gpm.
    design = library.design(sample(RESORT))
    figures = {key: float(figure.value) for key, figure in design.sheets["river-jets"].figures.items()}
    assert figures["wall_resistance"] / (POUND * STANDARD_GRAVITY) == pytest.approx(349, rel=3e-3)
    assert figures["people_drag"] / (POUND * STANDARD_GRAVITY) == pytest.approx(120, rel=5e-3)
    assert figures["jet_flow"] / (GALLON / MINUTE) == pytest.approx(8_071, rel=3e-3)
    assert figures["feature_flow"] / (GALLON / MINUTE) == pytest.approx(12 * 700)
    [check] = [finding for finding in design.findings if finding.key == "jet_flow"]
    assert check.status is Status.MET
    # 17.98 ft³/s through 12 at 16 ft/s: 0.0937 ft², 4.14 in; the device's 7 ft cover the 3.98 ft behind such a jet.
    assert figures["jet_bore"] / INCH == pytest.approx(4.14, abs=0.01)
    jets = next(node for node in walk(design.site) if node.id == "river-jets")
    assert isinstance(jets, Feature) and jets.device_head > figures["jet_head"]


def test_the_halves_of_the_resorts_ring_share_its_flow(library: Library) -> None:
    # 340 and 300 ft of one bore with one set of fittings: friction is a third of the loss, so the flows stand some 2 %
    # apart, and both halves lose one head.
    sheets = library.design(sample(RESORT)).sheets
    longer, shorter = sheets["sys-river-ring"], sheets["sys-river-ring-short"]
    assert longer["run_flow"] + shorter["run_flow"] == pytest.approx(sheets["sys-river"]["design_flow"])
    assert shorter["run_flow"] / longer["run_flow"] == pytest.approx(1.02, abs=0.01)
    assert longer["run_loss"] == pytest.approx(shorter["run_loss"])


def test_the_resorts_features_follow_their_devices(library: Library) -> None:
    sheets = library.design(sample(RESORT)).sheets

    def gpm(node: str) -> float:
        return sheets[node]["feature_flow"] / (GALLON / MINUTE)

    # gpm = 19.637 C d² √ft: 32 nozzles of 5/16 in, C 0.95, under 15 ft; bubblers of 1 in that rise 7 in.
    assert gpm("splash-ground") == pytest.approx(32 * 19.637 * 0.95 * 0.3125**2 * 15**0.5, rel=1e-3)
    assert gpm("cove-bubblers") == pytest.approx(5 * 19.637 * (7 / 12) ** 0.5, rel=1e-3)
    # K 4.75 gpm/√psi at 8.7 psi; 180 gal every 3 minutes; Francis, 1.5 in: 66.05 gpm/ft on 8 ft.
    assert gpm("splash-arches") == pytest.approx(6 * 4.75 * 8.7**0.5, rel=1e-3)
    assert gpm("splash-bucket") == pytest.approx(60)
    assert gpm("river-fall") == pytest.approx(8 * 66.05, rel=1e-3)
    # 1,900 gpm for 18 s over 1,040 ft²: 570 gal, 0.88 in.
    assert sheets["landing"]["level_drop"] / INCH == pytest.approx(570 * 231 / (1_040 * 144), rel=1e-3)
    # Sprays for 20 s and the bucket's 180 gal, of 3,000 gal.
    in_transit = (gpm("splash-ground") + gpm("splash-arches")) / 3 + 180
    assert sheets["splash"]["tank_share_in_transit"] == pytest.approx(in_transit / 3_000)


def test_a_slide_pump_of_the_resort(library: Library) -> None:
    # Each: 950 gpm in 7.942 in run at 6.152 ft/s, 0.588 ft of velocity head. Riser: friction 0.0134 · 140 / 0.6618 and
    # 6 elbows, a check and a butterfly valve (180 + 100 + 45) · 0.0140 with the exit: (2.83 + 5.55) · 0.588 = 4.93 ft.
    sheets = library.design(sample(RESORT)).sheets
    assert sheets["landing-slides-supply"]["velocity"] / FOOT == pytest.approx(6.152, rel=1e-3)
    assert sheets["landing-slides-supply"]["run_loss"] / FOOT == pytest.approx(4.93, rel=0.01)
    # 28.5 ft of lift, 2 ft at the tub, 4.93 + 0.64 ft of pipe: 36.1 ft. 950 · 36.1 · 8.31 / 33,000 / 0.767 = 11.26 hp.
    assert sheets["landing-slides"]["duty_head"] / FOOT == pytest.approx(36.1, rel=3e-3)
    assert sheets["landing-slides"]["shaft_power"] / HORSEPOWER == pytest.approx(11.26, rel=5e-3)
    # NEC Table 430.250 at 460 V.
    assert sheets["landing-slides"]["motor_rating"] / HORSEPOWER == pytest.approx(15)
    assert sheets["landing-slides"]["motor_current"] == pytest.approx(21)


def test_the_wave_pumps_bear_clean_filters(library: Library) -> None:
    # Duty H = 69.1 ft, 5 ft of it lift, 51.1 ft when clean: 1.25 H − 0.25 H x² = 5 + 46.1 x², x = 1.133: 3,064 gpm.
    # Each then gives 1,532 gpm at 64.2 ft: 1,532 · 64.2 · 8.31 / 33,000 / 0.792 = 31.3 hp, more than a motor of 30.
    sheets = library.design(sample(RESORT)).sheets
    assert sheets["sys-wave"]["operating_flow_clean"] / (GALLON / MINUTE) == pytest.approx(3_064, rel=3e-3)
    assert sheets["sys-wave"]["operating_head_clean"] / FOOT == pytest.approx(64.2, rel=3e-3)
    assert sheets["sys-wave"]["shaft_power"] / HORSEPOWER < 30
    assert sheets["sys-wave"]["motor_rating"] / HORSEPOWER == pytest.approx(40)


def test_the_family_pools_pump_runs_on_its_suppliers_curve(library: Library) -> None:
    """Wisconsin Table 390.14-1, notes a and c: the required flow is that of clean filters."""
    design = library.design(sample(COMMUNITY))
    flows = {
        key: design.value("sys-family", key) / (GALLON / MINUTE)
        for key in ("least_flow", "design_flow", "operating_flow_clean", "operating_flow_dirty")
    }
    assert flows["design_flow"] == pytest.approx(1.1 * flows["least_flow"])
    assert 550 < flows["operating_flow_clean"] < 700, "between its points of 58 and 47 ft"
    assert 400 < flows["operating_flow_dirty"] < flows["design_flow"], "which Wisconsin lets pass"
    [check] = [one for one in design.findings if one.key == "operating_flow" and one.node == "sys-family"]
    assert check.status is Status.MET and "390.14-1" in check.clause


def test_the_sports_pool_rests_at_night(library: Library) -> None:
    # H = 18.18 m, 2.4 m of it lift. At 60 % of the flow 2.4 + 15.78 · 0.36 = 8.08 m:
    # 22.73 s² − 4.545 · 0.36 = 8.08, s = 0.654; power falls to 0.6 · 8.08 / 18.18 = 0.267 for the 10 h it is closed.
    design = library.design(sample(INDOOR))
    assert design.value("sys-sport", "duty_head") == pytest.approx(18.18, rel=1e-3)
    assert design.value("sys-sport", "night_speed") == pytest.approx(0.654, abs=3e-3)
    # Duty 10.58 of 15 kW, 71 % load: 0.959 by the tip sheet's 96 and 95 %; at night 19 %: 0.896 between 86 and 93 %.
    # The motor of 92.1 % takes 11.49 kW at duty, where the drive's input falls from 11.98 kW to 3.43 kW for 10 h, and
    # most 12.15 kW with clean filters, to which the drive adds 4.2 % for 24 h: 8.55 · 10 − 0.51 · 24 = 73.3 kWh.
    assert design.value("sys-sport", "night_drive_efficiency") == pytest.approx(0.896, abs=2e-3)
    assert design.value("sys-sport", "night_power") == pytest.approx(3_430, rel=5e-3)
    assert design.value("sys-sport", "energy_saved_a_day") / (1000 * HOUR) == pytest.approx(73.3, rel=5e-3)


def test_the_rivers_surge_tank_takes_what_comes_at_once(library: Library) -> None:
    # 80 % of 2,199 gpm over 700 ft: 2.513 gpm/ft, Francis (2.513 / 448.8 / 3.33)^(2/3) ft = 0.1695 in on 7,760 ft²:
    # 820 gal. 700 ft of 20 in²: 727 gal. 754 gpm of backwash for 5 min: 3,770 gal; 75 L, 19.81 gal, for each bather.
    design = library.design(sample(RESORT))
    river, loop = design.sheets["river"], design.sheets["sys-river"]
    assert river["lip_head"] / INCH == pytest.approx(0.1695, rel=2e-3)
    assert river["water_above_rim"] / GALLON == pytest.approx(820, rel=3e-3)
    assert river["gutter_water"] / GALLON == pytest.approx(727, rel=1e-3)
    # Rock fall: 528.4 gpm for 2 s, 17.6 gal, and 1.5 in on 60 ft² behind its crest, 56.1 gal.
    reserves = 3_770 + 17.6 + 56.1
    parts = 820 + 727 + reserves + 19.81 * river["peak_occupancy"]
    assert loop["surge_needed"] / GALLON == pytest.approx(parts, rel=1e-3)
    # On 450 ft² over a lowest level of 0.8 + 1.2 ft.
    assert loop["surge_running"] / FOOT == pytest.approx(2 + reserves / 7.4805 / 450, rel=1e-3)
    assert loop["surge_highest"] / FOOT == pytest.approx(2 + parts / 7.4805 / 450, rel=1e-3)
    # The sewer takes 250 gpm of 754; two covers of 480 in² pass 2,199 gpm at 2,199 / (3.117 · 480) ft/s through one.
    assert loop["sump_needed"] / GALLON == pytest.approx(504 * 5, rel=1e-3)
    assert river["cover_velocity"] / FOOT == pytest.approx(2_199 / 3.117 / 480, rel=1e-3)
    checked = {finding.key: finding.status for finding in design.findings if finding.node in ("river", "sys-river")}
    keys = ("surge_needed", "sump_needed", "gutter_capacity", "outlet_spacing", "cover_velocity")
    assert [checked[key] for key in keys] == [Status.MET] * len(keys)


def test_the_sports_pools_tank_keeps_a_backwash(library: Library) -> None:
    # 159.2 m³/h over 100 m: 4.42e-4 m²/s, (4.42e-4 / 1.84)^(2/3) = 3.87 mm on 312.5 m²: 1.21 m³; 1.2 m³ in gutters of
    # 120 cm²; 84.7 m³/h for 6 min: 8.47 m³; 75 L a bather.
    design = library.design(sample(INDOOR))
    pool, loop = design.sheets["sportbecken"], design.sheets["sys-sport"]
    assert pool["lip_head"] == pytest.approx(3.87e-3, rel=5e-3)
    parts = 1.21 + 1.2 + 8.47 + 0.075 * pool["peak_occupancy"]
    assert loop["surge_needed"] == pytest.approx(parts, rel=2e-3)
    # ANSI/HI 9.8 over the suction of 191.8 mm at 1.53 m/s: 0.1918 · (1 + 2.3 · 1.53 / (9.81 · 0.1918)^0.5) = 0.684 m.
    assert loop["surge_lowest"] == pytest.approx(0.25 + 0.684, abs=3e-3)
    # 18 m³/h of 84.7 go to the sewer for 6 min; 159.2 / 32 m³/h through 30 mm.
    assert loop["sump_needed"] == pytest.approx((84.7 - 18) / 10, rel=2e-3)
    assert pool["inlet_velocity"] == pytest.approx(159.2 / 32 / 3600 / (3.14159 / 4 * 0.03**2), rel=1e-3)

"""Whole designs: every figure is worked or says what it needs, and overrides take their place."""

import math

import pytest

from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.model.edits import clear_override, revise, set_override
from waterpark_designer.model.kinds import AttractionKind, FeaturePump, PrimaryDisinfection, SecondaryDisinfection
from waterpark_designer.model.node import LARGEST_FIGURE
from waterpark_designer.model.starting_points import add_attraction, new_site
from waterpark_designer.model.systems import DisinfectionPlan, SecondaryPlan
from waterpark_designer.model.walk import walk
from waterpark_designer.units import FLOW, FOOT, GALLON, HOUR, HOURS, LENGTH, TEMPERATURE, VOLUME, UnitSystem

CODES = ((), ("georgia-511-3-5-2024",), ("cdc-mahc-2023",), ("austria-bhygv-2012",), ("wisconsin-sps-390-2024",))


def everything(codes, units=UnitSystem.US):
    """One of each kind of water, each on its own system, all treatments in turn."""
    site = new_site(units).revised(code_basis=codes)
    for kind in AttractionKind:
        site, _ = add_attraction(site, kind)
    for number, system in enumerate(site.systems):
        primary = list(PrimaryDisinfection)[number % 3]
        secondary = list(SecondaryDisinfection)[number % 3]
        site = revise(
            site, system.id, disinfection=DisinfectionPlan(primary=primary), secondary=SecondaryPlan(kind=secondary)
        )
    return site


def leaves(value, path=()):
    """What a number rests on in the end, with the way there."""
    parts = [*value.step.values, *(part for _, part in value.step.parts)]
    if not parts:
        yield value, path
    for part in parts:
        if isinstance(part, Worked):
            yield from leaves(part, (*path, value.step.title))


@pytest.mark.parametrize("codes", CODES)
def test_every_figure_is_worked_or_missing(codes, design):
    site = everything(codes)
    done = design(site)
    assert set(done.sheets) == {node.id for node in walk(site)}
    for sheet in done.sheets.values():
        for figure in sheet.figures.values():
            value = figure.value
            assert isinstance(value, Worked | Missing), figure.kind.key
            if isinstance(value, Missing):
                assert value.needs.endswith("."), value.needs
            else:
                assert math.isfinite(value), figure.kind.key
                assert value >= 0, figure.kind.key


@pytest.mark.parametrize("codes", CODES)
def test_every_number_rests_on_named_sources(codes, design):
    for sheet in design(everything(codes)).sheets.values():
        for figure in sheet.figures.values():
            if isinstance(figure.value, Worked):
                for end, path in leaves(figure.value):
                    assert end.step.title and end.step.source.text, (figure.kind.key, path)


def test_every_number_put_in_says_where_it_comes_from(design):
    """Only a formula's own constants may stand without an origin."""
    untold = set()
    for sheet in design(everything(("cdc-mahc-2023",))).sheets.values():
        for figure in sheet.figures.values():
            untold |= set(without_origin(figure.value))
    assert not untold


def without_origin(value):
    if not isinstance(value, Worked) or value.step.formula is None:
        parts = [part for _, part in value.step.parts] if isinstance(value, Worked) else []
    else:
        parts = value.step.values
        constants = CONSTANTS.get(value.step.formula.name, ())
        for name, part in zip(value.step.formula.parameters, parts, strict=True):
            if not isinstance(part, Worked) and name not in constants:
                yield f"{name} of {value.step.formula.name}"
    for part in parts:
        yield from without_origin(part)


CONSTANTS = {
    "archimedes_number": ("gravity",),
    "expanded_porosity": ("gravity",),
    "settling_rate": ("gravity",),
    "flow_by_load": ("hour",),
    "turnovers_a_day": ("day",),
    "chlorine_demand": ("chlorine_per_bather", "day"),
    "hydrogen_flow": ("hydrogen_per_chlorine",),
    "hydrogen_dilution_air": ("air_per_hydrogen",),
    "hypochlorite_flow": ("full_strength",),
    "precoat_charge": ("dose",),
    "water_by_bathers": ("day",),
    "bather_displacement": ("displaced_each",),
    "wave_speed": ("bulk_modulus",),
    "electric_power": ("drive_efficiency",),
    "energy_of_season": ("day",),
    "running_time_while_closed": ("day",),
    "full_turbulence_friction": ("roughness",),
    "friction_loss": ("gravity",),
    "hydraulic_power": ("gravity",),
    "minor_loss": ("gravity",),
    "pressure_head": ("gravity",),
    "suction_head_available": ("gravity",),
}


def test_an_override_takes_the_place_and_keeps_the_computed(build, design):
    site = build.site(build.pool("wave_pool", gallons=120_000), amendments=(build.turnover(2),))
    changed = design(set_override(site, "Pool", "longest_turnover", 1 * HOUR, "Agreed with the operator"))
    figure = changed.sheets["Pool"].figures["longest_turnover"]
    assert figure.value == 1 * HOUR
    assert figure.computed == 2 * HOUR
    assert figure.override.reason == "Agreed with the operator"
    assert figure.value.step.source.provenance.value == "override"
    assert FLOW.us.from_si(changed.value("Loop", "design_flow")) == pytest.approx(2_000)
    assert FLOW.us.from_si(design(site).value("Loop", "design_flow")) == pytest.approx(1_000)


def test_clearing_an_override_brings_the_computed_back(build, design):
    site = build.site(build.pool(), amendments=(build.turnover(2),))
    changed = clear_override(set_override(site, "Pool", "volume", 1.0, "Survey"), "Pool", "volume")
    assert design(changed).value("Pool", "volume") == design(site).value("Pool", "volume")


@pytest.mark.parametrize(
    ("node", "key", "follows", "of"),
    [
        ("Pool-basin", "surface_area", "surface_area", "Pool"),
        ("Pool-basin", "volume", "volume", "Loop"),
        ("Pool-basin", "longest_turnover", "turnover_time", "Pool"),
        ("Pool", "design_flow", "design_flow", "Pool"),
        ("Loop", "design_flow", "design_flow", "Pool"),
        ("Loop", "backwash_rate", "backwash_flow", "Loop"),
        ("Loop", "feed_capacity", "generator_count", "Loop"),
        ("Sprays", "feature_flow", "feature_flow", "Pool"),
        ("Pool", "salt_mass", "salt_mass", "Site"),
        ("Site", "volume", "turnover_time", "Site"),
    ],
)
def test_what_follows_goes_by_the_override(node, key, follows, of, build, design):
    body = build.pool(features=(build.feature("Sprays", 100),), target_salinity=3.0)
    site = build.site(body, codes=("cdc-mahc-2023",))
    before = design(site)
    after = design(set_override(site, node, key, before.value(node, key) * 3, "Three times as much"))
    assert after.value(of, follows) != before.value(of, follows)


def test_a_feed_that_a_code_asks_for_is_never_left_out(build, design):
    # 12 ppm of a flow that is not known yet: demand by bathers alone must not pass for the capacity needed.
    done = design(build.site(build.pool(bathers_a_day=500), codes=("fulton-county-ga-34-582",)))
    assert isinstance(done.value("Loop", "feed_by_flow"), Missing)
    assert isinstance(done.value("Loop", "feed_capacity"), Missing)


def test_a_flow_settled_on_is_all_for_the_only_body(build, design):
    done = design(build.site(build.system(build.pool(), fixed_flow=FLOW.us.to_si(500))))
    assert FLOW.us.from_si(done.value("Loop", "design_flow")) == pytest.approx(500)
    assert done.value("Pool", "design_flow") == done.value("Loop", "design_flow")


def test_an_override_fills_a_lack(build, design):
    site = build.site(build.pool(gallons=120_000))
    assert isinstance(design(site).value("Loop", "design_flow"), Missing)
    filled = design(set_override(site, "Pool", "longest_turnover", 2 * HOUR, "No code asks"))
    assert FLOW.us.from_si(filled.value("Loop", "design_flow")) == pytest.approx(1_000)


def test_a_lack_travels_and_names_the_figure_it_waits_for(build, design):
    sheet = design(build.site(build.pool())).sheets["Loop"]
    for key in ("design_flow", "turnover_time", "filter_area_needed", "filter_count", "filter_rate"):
        value = sheet.figures[key].value
        assert isinstance(value, Missing) and value.silent, key
        assert value.short == "Waits for longest turnover allowed."
        assert "silent on turnover time" in value.needs


def test_where_the_lack_begins_it_says_what_is_needed(build, design):
    value = design(build.site(build.pool())).sheets["Pool"].figures["longest_turnover"].value
    assert value.short.startswith("The code basis is silent on turnover time for leisure pool.")


def test_a_least_or_greatest_limit_on_which_the_code_is_silent_reads_as_a_sentence(build, design):
    needs = design(build.site(build.pool(), codes=())).sheets["Loop"].figures["backwash_rate"].value.needs
    assert needs.startswith("The code basis is silent on the least backwash rate for high-rate sand filters.")


def test_a_silent_code_is_found_and_never_a_default(build, design):
    done = design(build.site(build.pool()))
    silent = {(finding.node, finding.key) for finding in done.findings if finding.status is Status.SILENT}
    assert {("Pool", "longest_turnover"), ("Pool", "peak_occupancy"), ("Loop", "filter_rate")} <= silent
    for key in ("longest_turnover", "peak_occupancy", "least_flow", "design_flow"):
        assert isinstance(done.value("Pool", key), Missing), key
    assert isinstance(done.value("Loop", "feed_capacity"), Missing)


def test_site_totals_are_the_sums_of_the_systems(design):
    site = everything(("cdc-mahc-2023",))
    done = design(site)
    for key in ("volume", "surface_area", "salt_mass", "salt_bags", "backup_feed", "filter_area"):
        parts = [done.value(system.id, key) for system in site.systems]
        missing = [part for part in parts if isinstance(part, Missing)]
        whole = done.value(site.id, key)
        assert isinstance(whole, Missing) if missing else whole == pytest.approx(sum(parts)), key


def test_units_on_paper_change_nothing_inside(design):
    site = everything(("georgia-511-3-5-2024",))
    inches, metres = design(site), design(revise(site, site.id, units=UnitSystem.SI))
    for node, sheet in inches.sheets.items():
        assert {key: figure.value for key, figure in sheet.figures.items()} == {
            key: figure.value for key, figure in metres.sheets[node].figures.items()
        }
    assert inches.findings == metres.findings
    assert inches.equipment == metres.equipment


def test_metric_and_us_entry_of_one_project_give_one_design(build, design):
    def typed(length, volume, flow, temperature, units):
        basin = build.zone("Basin")
        shape = basin.shape.revised(
            volume=VOLUME.read(volume, units), area=LENGTH.read(length, units) ** 2, perimeter=0.0
        )
        body = build.pool(
            "therapy_pool",
            zones=(basin.revised(shape=shape),),
            water_temperature=TEMPERATURE.read(temperature, units),
            features=(build.feature("Jets").revised(flow_each=FLOW.read(flow, units)),),
        )
        return design(build.site(body, codes=("cdc-mahc-2023",), units=units))

    metric = typed("12.192", "94.6352946 m3", "22.712470704", "30", UnitSystem.SI)
    us = typed("40 ft", "25,000", "100 gpm", "86", UnitSystem.US)
    for node, sheet in metric.sheets.items():
        for key, figure in sheet.figures.items():
            other = us.sheets[node].figures[key].value
            if isinstance(figure.value, Worked):
                assert other == pytest.approx(figure.value, rel=1e-9), key
            else:
                assert other == figure.value


def test_an_empty_site_and_an_empty_system_say_so(build, design):
    nothing = design(build.site())
    assert isinstance(nothing.value("Site", "volume"), Missing)
    assert [finding.key for finding in nothing.findings] == ["no_code_basis", "no_systems"]
    assert nothing.equipment == ()
    no_water = design(build.site(build.system()))
    assert [finding.key for finding in no_water.findings if finding.node == "Loop"] == ["no_water"]
    assert no_water.equipment == ()


@pytest.mark.parametrize("pump", list(FeaturePump))
def test_every_node_has_a_sheet_though_no_water_flows_through_it(pump, build, design):
    jets = build.feature("Jets", 50, pump=pump, pipe_runs=(build.run("Supply"),))
    served = build.system(build.pool(features=(jets,)), pipe_runs=(build.run("Header"),))
    idle = build.system(name="Spare", pipe_runs=(build.run("Idle"),))
    site = build.site(served, set_override(build.site(idle), "Idle", "velocity", 1.0, "Measured").systems[0])
    done = design(site)
    assert done.sheets.keys() == {node.id for node in walk(site)}
    assert [finding.key for finding in done.findings if finding.node == "Idle"] == ["override_idle"]


def test_limit_uses_name_the_nodes_that_drew_on_a_limit(build, design):
    loop = build.system(build.pool(name="One"), build.pool("spa", name="Two"))
    site = build.site(loop, amendments=(build.turnover(2, "spa"), build.turnover(6)))
    uses = design(site).limit_uses
    assert uses["amendment:1"] == {"Two-basin"}
    assert uses["amendment:2"] == {"One-basin"}


@pytest.fixture
def full_site(build):
    """A pool and a splash pad on one system, with all treatments and limits on feed by volume and by flow."""
    body = build.pool(features=(build.feature("Jets", 100),), target_salinity=3.0, measured_salinity=5.0)
    system = build.system(
        body, build.pad(300), secondary=SecondaryPlan(kind=SecondaryDisinfection.OZONE), surge_volume=10.0
    )
    return build.site(system, codes=("cdc-mahc-2023", "north-carolina-18a-2543", "fulton-county-ga-34-582"))


@pytest.mark.parametrize("factor", [2.0, 20.0])
def test_any_figure_may_be_set_by_hand(factor, full_site, design):
    broken = []
    for node, sheet in design(full_site).sheets.items():
        for key, figure in sheet.figures.items():
            value = factor * (figure.value if isinstance(figure.value, Worked) else 1.0)
            try:
                done = design(set_override(full_site, node, key, value, "Agreed"))
            except Exception as error:
                broken.append((node, key, repr(error)))
                continue
            assert done.value(node, key) == value, (node, key)
    assert not broken


@pytest.mark.parametrize("value", [0.0, -1.0, LARGEST_FIGURE])
def test_no_override_however_absurd_breaks_the_design(value, full_site, design):
    broken = []
    for node, sheet in design(full_site).sheets.items():
        for key in sheet.figures:
            try:
                done = design(set_override(full_site, node, key, value, "Mistyped"))
            except Exception as error:
                broken.append((node, key, repr(error)))
                continue
            assert [each.status for each in done.findings if each.key == "override"] == [Status.CAUTION]
            numbers = [figure.value for sheet in done.sheets.values() for figure in sheet.figures.values()]
            assert all(math.isfinite(number) for number in numbers if isinstance(number, Worked)), (node, key)
    assert not broken


@pytest.mark.parametrize("kind", list(AttractionKind))
@pytest.mark.parametrize("codes", CODES)
def test_water_without_depth_breaks_nothing(kind, codes, build, design):
    from waterpark_designer.model.zones import DepthStation, Rectangle

    shape = Rectangle(length=10 * FOOT, width=10 * FOOT, stations=(DepthStation(distance=0.0, depth=0.0),))
    dry = build.pool(kind.value, zones=(build.zone("Dry", shape=shape),))
    done = design(build.site(build.system(dry, build.pool(name="Other")), codes=codes))
    assert ("Dry", "zero_depth", Status.NOT_MET) in [(each.node, each.key, each.status) for each in done.findings]


@pytest.mark.parametrize("quantity", ["longest_turnover", "area_per_bather", "filter_rate", "feed_per_volume"])
def test_an_amendment_of_nothing_breaks_nothing(quantity, build, design):
    done = design(build.site(build.pool(), codes=("cdc-mahc-2023",), amendments=(build.limit(quantity, 0.0),)))
    assert done.value("Pool", "volume") / GALLON == pytest.approx(100_000)


def test_a_day_without_bathers_breaks_nothing(build, design):
    body = build.pool(bathers_a_day=0)
    done = design(build.site(body, codes=("georgia-511-3-5-2024",)))
    assert done.value("Loop", "chlorine_demand") == 0
    assert HOURS.us.from_si(done.value("Pool", "turnover_time")) > 0

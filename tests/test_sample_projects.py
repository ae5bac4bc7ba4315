"""Every sample opens, computes, and shows what it was made to show."""

from pathlib import Path
from typing import Any, get_type_hints

import pytest

from tests.samples import COMMUNITY, INDOOR, RESORT, SAMPLES, attractions, sample
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Status
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.library import Library
from waterpark_designer.model.kinds import AttractionKind, FilterMedium, PrimaryDisinfection, Setting
from waterpark_designer.model.node import Part
from waterpark_designer.model.walk import walk
from waterpark_designer.storage.project_file import load_project, save_project
from waterpark_designer.units import BAGS, COUNT, GALLON, MINUTE, UnitSystem, measure_of

WHOLE = (BAGS, COUNT)


def test_there_are_the_three_samples() -> None:
    assert [path.stem for path in SAMPLES] == [COMMUNITY, INDOOR, RESORT]


@pytest.fixture(params=SAMPLES, ids=lambda path: path.stem)
def path(request: pytest.FixtureRequest) -> Path:
    return request.param


@pytest.fixture
def design(path: Path, library: Library) -> SiteDesign:
    return library.design(load_project(path).site)


def test_a_sample_is_saved_as_it_was_read(path: Path, tmp_path: Path) -> None:
    copy = tmp_path / path.name
    save_project(load_project(path).site, copy, None)
    assert copy.read_bytes() == path.read_bytes()


def test_a_sample_says_what_it_is_and_that_it_is_invented(path: Path) -> None:
    site = load_project(path).site
    first, _, rest = site.notes.partition("\n")
    assert 40 <= len(first) <= 160 and "nvented" in rest
    assert all((site.client, site.place, site.project_number, site.revision, site.issue_date))
    assert all("nvented" in amendment.reason for amendment in site.amendments)
    assert site.prices and site.prices_invented


def test_every_rule_set_is_known(design: SiteDesign) -> None:
    assert design.basis.unknown == ()
    assert len(design.basis.titles) == len(design.site.code_basis)


def test_every_price_hangs_on_a_line_of_the_schedule(design: SiteDesign) -> None:
    assert {price.line for price in design.site.prices} <= {line.key for line in design.equipment}


def test_every_figure_has_a_value_or_says_what_it_needs(design: SiteDesign) -> None:
    for node in walk(design.site):
        for key, figure in design.sheets[node.id].figures.items():
            if isinstance(figure.value, Missing):
                assert figure.value.needs.endswith("."), (node.name, key)
            else:
                assert isinstance(figure.value, Worked) and figure.value >= 0, (node.name, key)


@pytest.mark.parametrize(
    "key",
    [
        "volume",
        "surface_area",
        "peak_occupancy",
        "design_flow",
        "filter_area",
        "feed_capacity",
        "salt_bags",
        "make_up_salt",
        "turnover_time",
    ],
)
def test_the_site_totals_are_complete(design: SiteDesign, key: str) -> None:
    assert isinstance(design.value(design.site.id, key), Worked)


def test_nothing_stays_open_in_a_sample(design: SiteDesign) -> None:
    assert design.count(Status.UNKNOWN) == 0
    assert design.count(Status.MET) >= 10


def test_one_check_of_the_resort_is_not_met_and_says_why(library: Library) -> None:
    site = sample(RESORT)
    failed = [finding for finding in library.design(site).findings if finding.status is Status.NOT_MET]
    cove = next(body for body in attractions(site) if body.kind is AttractionKind.WADING_POOL)
    assert [finding.node for finding in failed] == [cove.id]
    assert ".2531" in failed[0].clause and "system of its own" in failed[0].remedy


@pytest.mark.parametrize("name", [COMMUNITY, INDOOR])
def test_the_other_samples_meet_their_code(library: Library, name: str) -> None:
    assert library.design(sample(name)).count(Status.NOT_MET) == 0


def test_the_resort_is_what_its_name_says() -> None:
    site = sample(RESORT)
    assert (len(site.systems), site.units) == (5, UnitSystem.US)
    assert [body.kind.value for body in attractions(site)] == [
        "lazy_river",
        "lap_pool",
        "splash_pad",
        "wading_pool",
        "wave_pool",
        "plunge_pool",
        "spa",
    ]
    salted = [body for body in attractions(site) if body.target_salinity == pytest.approx(3.2)]
    assert len(salted) == 6
    assert {system.filters.medium for system in site.systems} == {
        FilterMedium.HIGH_RATE_SAND,
        FilterMedium.PRECOAT,
        FilterMedium.CARTRIDGE,
    }


def test_the_community_site_feeds_hypochlorite_and_brine() -> None:
    site = sample(COMMUNITY)
    assert [system.disinfection.primary for system in site.systems] == [
        PrimaryDisinfection.BRINE_FED,
        PrimaryDisinfection.HYPOCHLORITE,
    ]
    assert site.code_basis[0] == "wisconsin-sps-390-2024"
    assert {zone.kind for body in attractions(site) for zone in body.zones} == {
        None,
        AttractionKind.LAP_POOL,
        AttractionKind.PLUNGE_POOL,
    }


def test_the_indoor_bath_is_metric_salt_and_sized_by_surface(library: Library) -> None:
    site = sample(INDOOR)
    assert site.units is UnitSystem.SI and site.code_basis == ("austria-bhygv-2012", "common-practice")
    assert all(body.setting is Setting.INDOOR for body in attractions(site))
    assert any(ord(letter) > 127 for body in attractions(site) for letter in body.name)
    sheets = library.design(site).sheets
    shallow, deep = (sheets[zone]["mean_depth"] for zone in ("sport-flach", "sport-tief"))
    assert shallow < 1.35 < deep
    # BHygV 2012, section 15: A / (f b) with f = 3 and 5 m², b = 0.5 per m³.
    assert sheets["sport-flach"]["least_flow_by_load"] * 3600 == pytest.approx(8 * 12.5 / (3 * 0.5))
    assert sheets["sport-tief"]["least_flow_by_load"] * 3600 == pytest.approx(17 * 12.5 / (5 * 0.5))
    # Section 22: 3 m³/h for each of 6 places up to 32 °C, 60 for a large area, 60 for a slide from 2 m up.
    assert sheets["erlebnisbecken"]["feature_surcharge"] * 3600 == pytest.approx(6 * 3 + 60 + 60)
    # Section 22: 5 m³/h for each place above 32 °C; section 28: 25 m/h for two layers in salt water, else 40.
    assert sheets["waermebecken"]["feature_surcharge"] * 3600 == pytest.approx(4 * 5)
    assert sheets["sys-warm"]["filter_rate_limit"] * 3600 == pytest.approx(25)
    assert sheets["sys-sport"]["filter_rate_limit"] * 3600 == pytest.approx(40)


def test_the_resorts_flows_are_those_of_its_rules(library: Library) -> None:
    sheets = library.design(sample(RESORT)).sheets

    def gpm(node: str) -> float:
        return sheets[node]["least_flow"] / (GALLON / MINUTE)

    # Gallons of the drawn sizes, at 1728/231 gal/ft³, over the minutes of the rule.
    per_foot = 1728 / 231
    river = 640 * 11 * 3.25 + 36 * 20 * 3.25 / 2
    assert gpm("river") == pytest.approx(river * per_foot / 90), "amendment: 1.5 h"
    wave = 95 * 88 * 3.5 / 2 + 76 * (30 * 4.75 + 15 * 6)
    assert gpm("wave") == pytest.approx(wave * per_foot / 120), "Georgia 511-3-5-.07(1)(b): 2 h"
    landing = 40 * 26 * 3.5 - 8 * 5 * 3.5 / 2
    assert gpm("landing") == pytest.approx(landing * per_foot / 60), "Georgia 511-3-5-.07(1)(b): 1 h"
    assert gpm("splash") == pytest.approx(3000 / 30), "Georgia 511-3-5-.07(1)(b): 30 min"


def typed_again(part: Any, system: UnitSystem) -> Any:
    """The same part with each of its quantities typed as an entry field shows it in these units."""
    hints = get_type_hints(type(part), include_extras=True)
    changes: dict[str, Any] = {}
    for name, value in part:
        measure = measure_of(hints[name])
        if measure is not None and isinstance(value, float):
            changes[name] = measure.read(measure.entry_text(value, system), system)
        elif isinstance(value, Part):
            changes[name] = typed_again(value, system)
        elif isinstance(value, tuple):
            changes[name] = tuple(typed_again(one, system) if isinstance(one, Part) else one for one in value)
    return part.revised(**changes)


def test_typed_in_either_units_a_sample_gives_one_design(path: Path, library: Library) -> None:
    site = load_project(path).site
    us, metric = (library.design(typed_again(site, system).revised(units=system)) for system in UnitSystem)
    assert us.site.units is not metric.site.units
    for node in walk(site):
        for key, figure in us.sheets[node.id].figures.items():
            other = metric.sheets[node.id].figures[key]
            if isinstance(figure.value, Missing):
                assert figure.value == other.value
            elif figure.kind.measure in WHOLE:
                assert figure.value == other.value, (node.name, key)
            else:
                assert figure.value == pytest.approx(other.value, rel=1e-7, abs=1e-12), (node.name, key)
    assert [finding.status for finding in us.findings] == [finding.status for finding in metric.findings]
    assert [line.item for line in us.equipment] == [line.item for line in metric.equipment]

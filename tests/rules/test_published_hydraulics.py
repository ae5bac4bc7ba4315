"""Limits of pipes, pumps, inlets and outlets against the figures printed in the codes; the clause stands beside each.

Figures of the Model Aquatic Health Code and of common practice were recalled: the test holds the program to what it
says it recalls.
"""

import pytest

from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.resources import resources_folder
from waterpark_designer.rules.condition import Fact
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS
from waterpark_designer.rules.rule_file import read_rule_sets
from waterpark_designer.rules.rule_set import Limit, code_basis
from waterpark_designer.sources import Provenance
from waterpark_designer.units import UnitSystem

RULE_SETS = read_rule_sets(resources_folder() / "rules")
GEORGIA, WISCONSIN, MODEL_CODE = "georgia-511-3-5-2024", "wisconsin-sps-390-2024", "cdc-mahc-2023"
FULTON, ILLINOIS, PRACTICE = "fulton-county-ga-34-582", "illinois-77-820-210", "common-practice"
MINNESOTA, WYOMING, NEVADA, OREGON = ("minnesota-4717-2570", "wyoming-010-4", "nevada-444-160", "oregon-333-060-0505")
CODES = (GEORGIA, WISCONSIN, MODEL_CODE, FULTON, ILLINOIS, PRACTICE, MINNESOTA, WYOMING, NEVADA, OREGON)
READ, MEMORY, HABIT = Provenance.READ, Provenance.MEMORY, Provenance.COMMON_PRACTICE

# Exact: foot 0.3048 m, US gallon 3.785411784 L (NIST SP 811, appendix B); psi 6894.757 Pa to seven figures (B.9).
FT, FT2, PSI, GPM = 0.3048, 0.09290304, 6894.757, 3.785411784e-3 / 60
SAND, RAPID, LAYERS, PRECOAT, CARTRIDGE = (
    {"medium": medium} for medium in ("high_rate_sand", "rapid_sand", "two_layer", "precoat", "cartridge")
)
FLAT, PADDLING, RIVER, SPRAY = (
    AttractionKind.LEISURE_POOL,
    AttractionKind.WADING_POOL,
    AttractionKind.LAZY_RIVER,
    AttractionKind.SPLASH_PAD,
)


def limit_in_force(
    code: str, quantity: str, kind: AttractionKind, facts: dict[str, Fact] | None = None
) -> Limit | None:
    return code_basis([code], (), RULE_SETS).limit(quantity, kind, facts or {})


def is_stated(
    code: str,
    quantity: str,
    kind: AttractionKind,
    value: float,
    clause: str,
    provenance: Provenance,
    facts: dict[str, Fact] | None = None,
) -> None:
    limit = limit_in_force(code, quantity, kind, facts)
    assert limit is not None
    assert limit.value == pytest.approx(value, rel=1e-6)
    assert (limit.clause, limit.provenance) == (clause, provenance)


@pytest.mark.parametrize(
    ("code", "suction", "pressure", "gravity", "clause", "provenance"),
    [
        (MINNESOTA, 6, 8, 3, "subp. 3", READ),  # 4717.2570 subp. 3: suction, discharge, gravity
        (NEVADA, 6, 10, None, "444.160(1)", READ),  # discharge 10, copper 6, suction 6
        (FULTON, 6, 10, None, "34-576(a)(1)", READ),  # pressure 10, suction 6
        (MODEL_CODE, 6, 8, 3, "4.7.1.7", MEMORY),  # discharge 8, suction 6; gravity 3 commonly applied
        (PRACTICE, 6, 8, 3, None, HABIT),
        (GEORGIA, None, None, None, None, READ),
        (WISCONSIN, None, None, None, None, READ),
    ],
)
@pytest.mark.parametrize("kind", [FLAT, RIVER, SPRAY])
def test_velocities(
    code: str,
    suction: float | None,
    pressure: float | None,
    gravity: float | None,
    clause: str | None,
    provenance: Provenance,
    kind: AttractionKind,
) -> None:
    """Greatest mean velocity in feet a second."""
    for quantity, expected in (
        ("velocity_suction", suction),
        ("velocity_pressure", pressure),
        ("velocity_gravity", gravity),
    ):
        if expected is None:
            assert limit_in_force(code, quantity, kind) is None
        else:
            stated = clause or f"{quantity.removeprefix('velocity_')} lines"
            is_stated(code, quantity, kind, expected * FT, stated, provenance)


@pytest.mark.parametrize(
    ("quantity", "metric"),
    [
        ("velocity_suction", "at most 1.83 m/s"),
        ("velocity_pressure", "at most 2.44 m/s"),
        ("velocity_gravity", "at most 0.91 m/s"),
    ],
)
def test_velocities_of_minnesota_in_metric(quantity: str, metric: str) -> None:
    """6, 8 and 3 ft/s worked into metres a second, to two decimals."""
    limit = limit_in_force(MINNESOTA, quantity, FLAT)
    assert limit is not None
    assert limit.value_text(UnitSystem.SI) == metric


@pytest.mark.parametrize(
    ("code", "clause", "duty"),
    [
        (GEORGIA, ".07(1)(a)", "required"),  # media dirty, just before cleaning
        (WISCONSIN, "Table 390.14-1, notes a and c", "not required"),  # flow and pressure drop with a clean filter
    ],
)
def test_filter_condition_in_which_the_flow_is_met(code: str, clause: str, duty: str) -> None:
    limit = limit_in_force(code, "flow_when_dirty", FLAT)
    assert limit is not None
    assert (limit.clause, limit.provenance, limit.value_text(UnitSystem.US)) == (clause, READ, duty)


def test_codes_that_do_not_say_which_filter_condition_counts() -> None:
    assert [code for code in CODES if limit_in_force(code, "flow_when_dirty", FLAT)] == [GEORGIA, WISCONSIN]


@pytest.mark.parametrize(
    ("code", "facts", "psi", "clause", "provenance"),
    [
        (WYOMING, SAND, 15, "s. 9(e)", READ),  # 010-4 s. 9(e): high-rate sand, above clean
        (WYOMING, RAPID, 8, "s. 9(e)", READ),  # rapid sand, influent to effluent
        (WYOMING, CARTRIDGE, 10, "s. 9(e)", READ),  # cartridge, influent to effluent
        (PRACTICE, SAND, 10, "dirty filter", HABIT),  # 10 to 15 psi
        (PRACTICE, RAPID, 10, "dirty filter", HABIT),
        (PRACTICE, LAYERS, 10, "dirty filter", HABIT),
    ],
)
def test_pressure_that_dirt_adds(
    code: str, facts: dict[str, Fact], psi: float, clause: str, provenance: Provenance
) -> None:
    is_stated(code, "filter_dirt", FLAT, psi * PSI, clause, provenance, facts)


@pytest.mark.parametrize(
    ("code", "facts"),
    [(WYOMING, LAYERS), (WYOMING, PRECOAT), (PRACTICE, PRECOAT), (PRACTICE, CARTRIDGE), (WYOMING, {}), (PRACTICE, {})],
)
def test_no_allowance_is_made_up_for_other_media(code: str, facts: dict[str, Fact]) -> None:
    assert limit_in_force(code, "filter_dirt", FLAT, facts) is None


@pytest.mark.parametrize(
    ("code", "quantity", "value", "clause", "provenance"),
    [
        (WYOMING, "least_pump_head", 60 * FT, "s. 9(b)", READ),  # 60 ft TDH at design flow
        (MINNESOTA, "strainer_ratio", 4, "subp. 2", READ),  # free area 4 x suction-line area
        (PRACTICE, "strainer_ratio", 4, "strainer", HABIT),
        (MINNESOTA, "flow_meter_ratio", 1.5, "subp. 4", READ),  # reads 1.5 x design flow
        (MODEL_CODE, "gutter_capacity", 1.25, "4.7.1.5", MEMORY),  # 125 % of total recirculation flow
        (MODEL_CODE, "night_flow", 0.75, "4.7.1.10", MEMORY),  # at most 25 % below design minimum
    ],
)
def test_pumps_and_their_equipment(code: str, quantity: str, value: float, clause: str, provenance: Provenance) -> None:
    is_stated(code, quantity, FLAT, value, clause, provenance)


@pytest.mark.parametrize(
    ("code", "kind", "count", "area", "perimeter"),
    [
        (GEORGIA, FLAT, 2, 300, 20),  # .10(1): at least 2; greater of 1 per 300 ft² or 20 ft of perimeter
        (GEORGIA, RIVER, 2, 300, 20),
        (WISCONSIN, FLAT, None, 300, None),  # 390.14(13)(b): one additional per 300 ft² or fraction
        (WISCONSIN, RIVER, None, None, None),  # all except leisure rivers
        (MODEL_CODE, FLAT, None, None, 20),  # 4.7.1.3 (memory): wall inlets 20 ft apart at most
    ],
)
def test_inlets(
    code: str, kind: AttractionKind, count: int | None, area: float | None, perimeter: float | None
) -> None:
    clause, provenance = {
        GEORGIA: (".10(1)", READ),
        WISCONSIN: ("390.14(13)(b)", READ),
        MODEL_CODE: ("4.7.1.3", MEMORY),
    }[code]
    for quantity, expected, unit in (
        ("inlet_count", count, 1),
        ("area_per_inlet", area, FT2),
        ("perimeter_per_inlet", perimeter, FT),
    ):
        if expected is None:
            assert limit_in_force(code, quantity, kind) is None
        else:
            is_stated(code, quantity, kind, expected * unit, clause, provenance)


def test_wisconsin_counts_inlets_of_every_water_but_rivers() -> None:
    """Wisconsin SPS 390.14(13)(b): all except leisure rivers."""
    silent = [kind for kind in AttractionKind if limit_in_force(WISCONSIN, "area_per_inlet", kind) is None]
    assert silent == [RIVER]


@pytest.mark.parametrize(
    ("code", "kind", "count", "feet", "clause", "provenance"),
    [
        (WISCONSIN, FLAT, 2, None, "390.14(13)(c)", READ),  # any one blocked, the rest carry 100 %
        (MODEL_CODE, FLAT, 2, 3, "4.7.1.6", MEMORY),  # two or more, 3 ft (0.9 m) apart
        (ILLINOIS, PADDLING, 2, 3, "820.230(f)", READ),  # two or more, 3 ft centre to centre
        (ILLINOIS, FLAT, None, None, "820.230(f)", READ),
    ],
)
def test_suction_outlets(
    code: str, kind: AttractionKind, count: int | None, feet: float | None, clause: str, provenance: Provenance
) -> None:
    for quantity, expected in (("outlet_count", count), ("outlet_spacing", feet and feet * FT)):
        if expected is None:
            assert limit_in_force(code, quantity, kind) is None
        else:
            is_stated(code, quantity, kind, expected, clause, provenance)


@pytest.mark.parametrize(
    ("code", "quantity", "value", "clause"),
    [
        (ILLINOIS, "area_per_skimmer", 500 * FT2, "820.230(g)"),  # wading pools: 1 per 500 ft²
        (OREGON, "area_per_skimmer", 400 * FT2, "(3)(a)"),  # new wading pools: 1 per 400 ft² or fraction
        (OREGON, "flow_per_skimmer", 30 * GPM, "(1)(b)"),  # 30 to 45 gpm each
        (OREGON, "surface_share", 0.70, "(1)(b)"),  # 70 % of flow through skimmers
        (OREGON, "longest_turnover", 3600.0, "(1)"),  # 1 h, or the skimmer-driven flow
    ],
)
def test_skimmers_of_wading_pools(code: str, quantity: str, value: float, clause: str) -> None:
    is_stated(code, quantity, PADDLING, value, clause, READ)
    assert limit_in_force(code, quantity, FLAT) is None


@pytest.mark.parametrize("kind", [FLAT, PADDLING])
def test_flow_of_a_skimmer_in_illinois(kind: AttractionKind) -> None:
    """Illinois 77 IAC 820.210(a): 30 gpm for each skimmer."""
    is_stated(ILLINOIS, "flow_per_skimmer", kind, 30 * GPM, "820.210(a)", READ)


@pytest.mark.parametrize(
    ("code", "clause", "provenance"),
    [
        (WISCONSIN, "ATCP 76.11(2)", READ),  # about 80 % skimmers / 20 % main drain; about 75 % / 25 % with a gutter
        (MODEL_CODE, "5.7.1", MEMORY),  # at least 80 % surface
    ],
)
def test_flow_from_the_surface(code: str, clause: str, provenance: Provenance) -> None:
    is_stated(code, "surface_share", FLAT, 0.80, clause, provenance)


def test_share_of_a_gutter_stands_beside_the_share_of_skimmers() -> None:
    """Wisconsin ATCP 76.11(2) tells gutters (75 %) from skimmers (80 %), which also hold while it is not stated."""
    for overflow, share in (("perimeter_gutter", 0.75), ("skimmers", 0.80), ("not_stated", 0.80)):
        is_stated(WISCONSIN, "surface_share", FLAT, share, "ATCP 76.11(2)", READ, {"overflow": overflow})


@pytest.mark.parametrize(("overflow", "least"), [("perimeter_gutter", 5), ("not_stated", 5), ("skimmers", 10)])
def test_velocity_through_inlets_of_wisconsin(overflow: str, least: float) -> None:
    """SPS 390.14(13)(b): 5 to 20 ft/s, 10 to 20 ft/s where skimmers are used."""
    facts: dict[str, Fact] = {"overflow": overflow}
    is_stated(WISCONSIN, "inlet_velocity_least", FLAT, least * FT, "390.14(13)(b)", READ, facts)
    is_stated(WISCONSIN, "inlet_velocity_most", FLAT, 20 * FT, "390.14(13)(b)", READ, facts)


def test_velocity_through_covers_is_common_practice() -> None:
    """1.5 ft/s through a grate, with one outlet blocked, is a habit: no code that was read states one."""
    is_stated(PRACTICE, "cover_velocity", FLAT, 1.5 * FT, "suction outlet covers", HABIT)
    others = [code for code in CODES if code != PRACTICE]
    assert not any(limit_in_force(code, "cover_velocity", FLAT) for code in others)


@pytest.mark.parametrize(
    "quantity",
    ["least_pump_head", "flow_meter_ratio", "gutter_capacity", "night_flow", "inlet_count", "outlet_spacing"],
)
def test_common_practice_is_silent_where_only_codes_speak(quantity: str) -> None:
    assert quantity in LIMIT_KINDS
    assert limit_in_force(PRACTICE, quantity, FLAT, dict(SAND)) is None

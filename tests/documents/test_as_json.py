"""A design as data: complete, in both unit systems, and valid JSON whatever is in it."""

import json
from typing import Any

import pytest

from tests.documents.invented_site import AMENDMENT_REASON, OVERRIDE_REASON
from waterpark_designer.documents.as_json import design_data
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.worked import Missing
from waterpark_designer.library import Library
from waterpark_designer.model.site import Site
from waterpark_designer.units import GALLON, MINUTE, UnitSystem

FIGURE_FIELDS = {
    "key",
    "label",
    "symbol",
    "value",
    "unit",
    "si_value",
    "si_unit",
    "formula",
    "inputs",
    "source",
    "provenance",
    "override",
}


@pytest.fixture
def data(design: SiteDesign) -> dict[str, Any]:
    return json.loads(json.dumps(design_data(design, UnitSystem.US), allow_nan=False))


def figure(data: dict[str, Any], node: str, key: str) -> dict[str, Any]:
    found = next(item for item in data["nodes"] if item["id"] == node)
    return next(item for item in found["figures"] if item["key"] == key)


def test_every_figure_of_every_node_is_there(design: SiteDesign, data: dict[str, Any]) -> None:
    told = {(node["id"], item["key"]) for node in data["nodes"] for item in node["figures"]}
    assert told == {(node, key) for node, sheet in design.sheets.items() for key in sheet.figures}


def test_a_figure_that_is_known_tells_all_of_its_working(design: SiteDesign, data: dict[str, Any]) -> None:
    known = 0
    for node in data["nodes"]:
        for item in node["figures"]:
            if not isinstance(design.value(node["id"], item["key"]), Missing):
                known += 1
                assert item.keys() >= FIGURE_FIELDS, item
                assert item["source"] and item["provenance"]
    assert known > 100


def test_a_flow_in_both_units(data: dict[str, Any]) -> None:
    # 180 m x 3 m x 0.9 m = 486 m³ in the amended 1.5 h is 0.09 m³/s; a gallon is 231 cubic inches.
    flow = figure(data, "river", "least_flow_by_time")
    assert flow["si_value"] == pytest.approx(0.09) and flow["si_unit"] == "m³/s"
    assert flow["value"] == pytest.approx(0.09 / (GALLON / MINUTE)) and flow["unit"] == "gpm"
    assert flow["formula"].startswith("Q = V")
    volume, time = flow["inputs"]
    assert (volume["si_value"], volume["si_unit"]) == (pytest.approx(486.0), "m³")
    assert (time["value"], time["unit"]) == (pytest.approx(1.5), "h")


def test_units_change_what_is_shown_and_nothing_else(design: SiteDesign, data: dict[str, Any]) -> None:
    metric = design_data(design, UnitSystem.SI)
    assert figure(metric, "river", "least_flow_by_time")["unit"] == "m³/h"
    for one, other in zip(data["nodes"], metric["nodes"], strict=True):
        for ours, theirs in zip(one["figures"], other["figures"], strict=True):
            assert ours["si_value"] == theirs["si_value"]


def test_an_override_tells_its_reason_and_what_was_computed(data: dict[str, Any]) -> None:
    count = figure(data, "two", "filter_count")
    assert count["value"] == 4 and count["provenance"] == "override"
    assert count["override"]["reason"] == OVERRIDE_REASON
    assert count["override"]["computed"]["value"] != 4
    assert figure(data, "one", "filter_count")["override"] is None


def test_the_code_basis_tells_its_amendments(data: dict[str, Any]) -> None:
    basis = data["code_basis"]
    assert basis["rule_sets"][0].startswith("Georgia") and basis["not_installed"] == []
    (amendment,) = basis["amendments"]
    assert (amendment["reason"], amendment["value"], amendment["unit"]) == (AMENDMENT_REASON, pytest.approx(1.5), "h")


def test_checks_tell_value_limit_clause_and_node(design: SiteDesign, data: dict[str, Any]) -> None:
    assert len(data["checks"]) == len(design.findings)
    check = next(item for item in data["checks"] if item["node"] == "river" and item["key"] == "longest_turnover")
    assert check["status"] == "met" and check["sense"] == "at most"
    assert check["limit"]["value"] == pytest.approx(1.5) and check["value"]["unit"] == "h"
    assert AMENDMENT_REASON in check["clause"] and check["provenance"] == "local amendment"
    assert check["node_name"] == "Meander river"


def test_what_cannot_be_told_says_what_it_needs(library: Library) -> None:
    data = design_data(library.design(Site(id="bare", name="Bare")), UnitSystem.SI)
    volume = figure(data, "bare", "volume")
    assert volume["value"] is None and volume["si_value"] is None
    assert volume["needs"] == "Add a body of water to the site."


def test_runs_and_pump_points_are_told(piped: SiteDesign) -> None:
    data = json.loads(json.dumps(design_data(piped, UnitSystem.US), allow_nan=False))
    run = piped.site.systems[0].pipe_runs[4]
    assert figure(data, run.id, "velocity")["unit"] == "ft/s"
    points = next(node for node in data["nodes"] if node["id"] == "one")["pump_points"]
    flow, head = (points["duty"][name]["si_value"] for name in ("flow", "head"))
    assert flow == pytest.approx(figure(data, "one", "design_flow")["si_value"])
    assert head == pytest.approx(figure(data, "one", "duty_head")["si_value"])
    # Less is lost in clean filters, so the pumps give more at less head.
    clean, dirty = points["operating_clean"], points["operating_dirty"]
    assert clean["flow"]["value"] > dirty["flow"]["value"] and clean["flow"]["unit"] == "gpm"
    assert clean["head"]["si_value"] < dirty["head"]["si_value"]


def test_a_node_without_a_pump_has_no_points(piped: SiteDesign) -> None:
    data = design_data(piped, UnitSystem.SI)
    assert next(node for node in data["nodes"] if node["id"] == "pool")["pump_points"] is None

"""A design as data: every figure with its working, and every check, in both unit systems."""

import math
from collections.abc import Iterator
from typing import Any

from waterpark_designer.documents.document import NOTICE, particulars_of
from waterpark_designer.documents.tree import Place, places, what_it_is
from waterpark_designer.documents.workings import FigureWorking, named_figures, own_figures
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding
from waterpark_designer.engine.pump_curves import OperatingPoint
from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.size_pump import PumpCurves
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.engine.working import working_of
from waterpark_designer.model.edits import sort_name
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS
from waterpark_designer.units import FLOW, LENGTH, Measure, UnitSystem

Data = dict[str, Any]


def design_data(design: SiteDesign, units: UnitSystem) -> Data:
    """Project, code basis, nodes with their figures, and checks; numbers unrounded."""
    return {
        "notice": NOTICE,
        "units": units.value,
        "project": _project(design, units),
        "code_basis": _code_basis(design, units),
        "nodes": list(_nodes(design, units)),
        "checks": [_check(design, finding, units) for finding in design.findings],
    }


def _project(design: SiteDesign, units: UnitSystem) -> Data:
    stated = particulars_of(design, units)
    return {
        "name": stated.project,
        "client": stated.client,
        "place": stated.place,
        "number": stated.number,
        "revision": stated.revision,
        "issue_date": stated.issue_date,
        "prepared_by": stated.prepared_by,
        "currency": design.site.currency,
    }


def _code_basis(design: SiteDesign, units: UnitSystem) -> Data:
    amendments = [
        {
            "quantity": item.quantity,
            "label": LIMIT_KINDS[item.quantity].label,
            "reason": item.reason,
            "applies_to": [kind.value for kind in item.applies_to],
            **_number(item.value, LIMIT_KINDS[item.quantity].measure, units),
        }
        for item in design.site.amendments
        if item.quantity in LIMIT_KINDS
    ]
    return {
        "rule_sets": list(design.basis.titles),
        "not_installed": list(design.basis.unknown),
        "amendments": amendments,
    }


def _nodes(design: SiteDesign, units: UnitSystem) -> Iterator[Data]:
    named = named_figures(design)
    for place in places(design.site).values():
        node, own = place.node, own_figures(design, place.node.id)
        entries = (
            FigureWorking(node.id, place.where, figure, named, own)
            for figure in design.sheets[node.id].figures.values()
        )
        yield {
            **_place(place),
            "figures": [_figure(entry, units) for entry in entries],
            "pump_points": _pump_points(design.curves.get(node.id), units),
        }


def _pump_points(curves: PumpCurves | None, units: UnitSystem) -> Data | None:
    """Duty and operating points of a node's pumps together; null where there are none."""
    if curves is None:
        return None
    return {
        "duty": _point(OperatingPoint(curves.duty_flow, curves.duty_head), units),
        "operating_clean": _point(curves.at_clean, units),
        "operating_dirty": _point(curves.at_dirty, units),
    }


def _point(point: OperatingPoint | None, units: UnitSystem) -> Data | None:
    if point is None:
        return None
    return {"flow": _number(point.flow, FLOW, units), "head": _number(point.head, LENGTH, units)}


def _place(place: Place) -> Data:
    node = place.node
    return {
        "id": node.id,
        "name": node.name,
        "sort": sort_name(node),
        "what": what_it_is(node),
        "path": list(place.path),
    }


def _figure(entry: FigureWorking, units: UnitSystem) -> Data:
    figure, kind = entry.figure, entry.figure.kind
    value = None if isinstance(figure.value, Missing) else float(figure.value)
    data: Data = {
        "key": kind.key,
        "label": kind.label,
        "symbol": kind.symbol,
        "discipline": kind.discipline.value,
        **_number(value, kind.measure, units),
    }
    if isinstance(figure.value, Missing):
        return {**data, "needs": figure.value.needs, "code_silent": figure.value.stated_nowhere, "override": None}
    steps = [
        {"name": name, **_number(float(step), measure, units), **_working(entry, step, measure, units)}
        for name, step, measure in entry.steps_between()
    ]
    return {
        **data,
        **_working(entry, figure.value, kind.measure, units),
        "steps": steps,
        "override": _override(figure, units),
    }


def _working(entry: FigureWorking, value: Worked, measure: Measure, units: UnitSystem) -> Data:
    working = working_of(value, measure, units)
    inputs = [
        {
            "symbol": line.symbol,
            "name": line.name,
            **_number(line.value, line.measure, units),
            "origin": entry.origin(line),
        }
        for line in working.inputs
    ]
    return {
        "formula": working.equation,
        "substitution": working.substitution,
        "inputs": inputs,
        "source": working.source.text,
        "provenance": working.source.provenance.value,
        "note": working.note,
        "cautions": list(working.cautions),
    }


def _override(figure: Figure, units: UnitSystem) -> Data | None:
    if figure.override is None:
        return None
    computed = None if figure.computed is None or isinstance(figure.computed, Missing) else float(figure.computed)
    return {"reason": figure.override.reason, "computed": _number(computed, figure.kind.measure, units)}


def _check(design: SiteDesign, finding: Finding, units: UnitSystem) -> Data:
    measure, limit = finding.measure, finding.limit
    return {
        "key": finding.key,
        "title": finding.title,
        "status": finding.status.value,
        "node": finding.node,
        "node_name": design.sheets[finding.node].node.name,
        "figure": finding.figure,
        "value": None if measure is None else _number(finding.value, measure, units),
        "limit": None if measure is None or limit is None else _number(float(limit), measure, units),
        "sense": finding.sense,
        "clause": finding.clause,
        "provenance": finding.provenance,
        "remedy": finding.remedy,
    }


def _number(value: float | None, measure: Measure, units: UnitSystem) -> Data:
    """A number in the units asked for and in SI; null where there is none, or none that JSON can hold."""
    shown = math.nan if value is None else measure.shown(value, units)
    known = math.isfinite(shown)
    return {
        "value": _plain(shown) if known else None,
        "unit": measure.symbol(units),
        "si_value": value if known else None,
        "si_unit": measure.si,
    }


def _plain(shown: float) -> float:
    """A converted number without the last digits, in which conversion leaves its dust."""
    return float(f"{shown:.12g}")

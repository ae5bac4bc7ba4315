"""Fields: every one is described, bounded and strict, so that editors can be built from them."""

import math
from collections.abc import Iterator
from typing import Any, get_args

import pytest
from annotated_types import Ge, Gt, Le, Lt
from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.catalogue import CatalogueItem
from waterpark_designer.model.devices import DEVICES
from waterpark_designer.model.features import Feature
from waterpark_designer.model.node import Node, Override, Part, new_id
from waterpark_designer.model.site import Amendment, Operation, Price, SaltSupply, Site, WaterLosses
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan, RecirculationSystem, SecondaryPlan
from waterpark_designer.model.zones import DEDUCTIONS, SHAPES, DepthStation, OutlinePoint, Zone
from waterpark_designer.units import measure_of

EDITED: tuple[type[Part], ...] = (
    Site,
    Operation,
    WaterLosses,
    SaltSupply,
    RecirculationSystem,
    FilterPlan,
    DisinfectionPlan,
    SecondaryPlan,
    Attraction,
    Feature,
    *DEVICES.values(),
    Zone,
    DepthStation,
    OutlinePoint,
    *SHAPES.values(),
    *DEDUCTIONS.values(),
)
NOT_EDITED = {"id", "name", "overrides", "shape", "takes", "flow_by", "source"}


def edited_fields() -> Iterator[Any]:
    for model in EDITED:
        for name, field in model.model_fields.items():
            if name not in NOT_EDITED or (model is Zone and name == "shape"):
                yield pytest.param(model, name, field, id=f"{model.__name__}.{name}")


def bounds(field: FieldInfo) -> dict[type, Any]:
    return {type(item): item for item in field.metadata if isinstance(item, Gt | Ge | Lt | Le)}


def needed(model: type[BaseModel]) -> dict[str, Any]:
    """Values for the fields of a model that have no default."""
    values = {"name": "X", "distance": 1.0, "depth": 1.0, "x": 0.0, "y": 0.0}
    return {name: values[name] for name, field in model.model_fields.items() if field.is_required()}


def is_number(field: FieldInfo) -> bool:
    return any(kind in (int, float) for kind in (field.annotation, *get_args(field.annotation))) or (
        measure_of(field.annotation) is not None
    )


NUMBERS = [case for case in edited_fields() if is_number(case.values[2])]


@pytest.mark.parametrize(("model", "name", "field"), list(edited_fields()))
def test_every_field_is_described(model: type[Part], name: str, field: FieldInfo) -> None:
    assert field.description and field.description.rstrip().endswith(".")


def test_there_are_numbers_to_try() -> None:
    assert len(NUMBERS) > 60


@pytest.mark.parametrize(("model", "name", "field"), NUMBERS)
def test_every_number_is_bounded_on_both_sides(model: type[Part], name: str, field: FieldInfo) -> None:
    assert {Gt, Ge} & set(bounds(field)) and {Le, Lt} & set(bounds(field))


@pytest.mark.parametrize(("model", "name", "field"), NUMBERS)
def test_numbers_beyond_their_bounds_are_refused(model: type[Part], name: str, field: FieldInfo) -> None:
    limits = bounds(field)
    beyond: list[float] = []
    if Gt in limits:
        beyond.append(limits[Gt].gt)
    if Ge in limits:
        beyond.append(limits[Ge].ge - 1)
    if Le in limits:
        beyond.append(limits[Le].le + 1)
    for value in beyond:
        with pytest.raises(ValidationError) as refused:
            model(**needed(model) | {name: value})
        assert {error["loc"][0] for error in refused.value.errors()} == {name}


@pytest.mark.parametrize(("model", "name", "field"), NUMBERS)
def test_what_is_no_number_is_refused(model: type[Part], name: str, field: FieldInfo) -> None:
    for value in (math.nan, math.inf, -math.inf, "1", True, [1.0], {}):
        with pytest.raises(ValidationError):
            model(**needed(model) | {name: value})


@pytest.mark.parametrize("model", EDITED)
def test_fields_that_do_not_exist_are_refused(model: type[Part]) -> None:
    with pytest.raises(ValidationError, match="shade"):
        model(**needed(model) | {"shade": 1})


@pytest.mark.parametrize("model", EDITED)
def test_nothing_can_be_changed_in_place(model: type[Part]) -> None:
    made = model(**needed(model))
    for name in model.model_fields:
        with pytest.raises(ValidationError, match="frozen"):
            setattr(made, name, getattr(made, name))


@pytest.mark.parametrize(
    ("model", "values"),
    [
        (Node, {"name": ""}),
        (Node, {"name": "   "}),
        (Node, {"name": "n" * 201}),
        (Node, {"name": "X", "id": ""}),
        (Node, {"name": "X", "id": "a b"}),
        (Node, {"name": "X", "id": "a\n"}),
        (Node, {"name": "X", "id": "a" * 41}),
        (Node, {"name": "X", "notes": "n" * 4001}),
        (Node, {"name": "\ud83c"}),
        (Override, {"figure": "", "value": 1.0, "reason": "Reason"}),
        (Override, {"figure": "volume", "value": 1.0, "reason": " x "}),
        (Amendment, {"quantity": "turnover", "value": -1.0, "reason": "Reason"}),
        (Amendment, {"quantity": "Turn over", "value": 1.0, "reason": "Reason"}),
        (Amendment, {"quantity": "turnover", "value": 1.0, "reason": ""}),
        (Amendment, {"quantity": "turnover", "value": 1.0, "reason": "Reason", "applies_to": ("moat",)}),
        (Price, {"line": "", "amount": 1.0}),
        (Price, {"line": "pump", "amount": -0.01}),
        (CatalogueItem, {"kind": "pump", "name": "X", "size": 1.0, "source": "S"}),
        (Site, {"name": "X", "code_basis": ("Rule A",)}),
        (Site, {"name": "X", "code_basis": ["rule-a"]}),
        (Site, {"name": "X", "units": "us"}),
        (Attraction, {"name": "X", "zones": ()}),
    ],
)
def test_refused(model: type[Part], values: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        model(**values)


def test_a_day_has_24_hours() -> None:
    assert Operation(open_hours=16 * 3600.0, closed_hours=8 * 3600.0)
    with pytest.raises(ValidationError, match="come to more than a day"):
        Site(name="X", operation=Operation(open_hours=16 * 3600.0, closed_hours=9 * 3600.0))


def test_blanks_round_a_name_are_dropped() -> None:
    assert Node(name="  Deep end ").name == "Deep end"


def test_a_revision_is_checked_and_keeps_the_rest() -> None:
    body = Attraction(name="Body")
    after = body.revised(target_salinity=3.0)
    assert after.zones[0] is body.zones[0]
    with pytest.raises(ValidationError):
        body.revised(target_salinity=-3.0)


def test_ids_are_new_each_time() -> None:
    made = {new_id() for _ in range(10_000)}
    assert len(made) == 10_000
    assert all(Node(name="X", id=identity).id == identity for identity in list(made)[:20])

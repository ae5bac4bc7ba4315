"""Everything an editor needs to know of a field is read from the model."""

import pytest

from waterpark_designer.gui.field_spec import BLANKS, LABELS, Bounds, Entry, plain_message, specs_of
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.devices import DEVICES
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import CurvePoint, EquipmentLosses, HydraulicTerms, PipeRun, PumpPlan
from waterpark_designer.model.node import Part
from waterpark_designer.model.site import Operation, SaltSupply, Site, WaterLosses
from waterpark_designer.model.systems import DisinfectionPlan, FilterPlan, RecirculationSystem, SecondaryPlan
from waterpark_designer.model.zones import (
    DEDUCTIONS,
    SHAPES,
    Channel,
    DepthStation,
    OutlinePoint,
    Rectangle,
    SprayDeck,
    Zone,
)
from waterpark_designer.units import AREA, LENGTH, TEMPERATURE, UnitSystem

US, SI = UnitSystem.US, UnitSystem.SI
EDITED: tuple[type[Part], ...] = (
    Site,
    Operation,
    WaterLosses,
    SaltSupply,
    RecirculationSystem,
    FilterPlan,
    DisinfectionPlan,
    SecondaryPlan,
    PipeRun,
    PumpPlan,
    CurvePoint,
    EquipmentLosses,
    HydraulicTerms,
    Attraction,
    Feature,
    *DEVICES.values(),
    Zone,
    DepthStation,
    OutlinePoint,
    *SHAPES.values(),
    *DEDUCTIONS.values(),
)


def test_entry_follows_from_the_annotation() -> None:
    specs = specs_of(FilterPlan)
    assert specs["medium"].entry is Entry.CHOICE
    assert specs["bed_depth"].entry is Entry.QUANTITY
    assert specs["spare"].entry is Entry.YES_NO
    assert specs["item"].entry is Entry.TEXT
    assert specs["count"].entry is Entry.WHOLE_NUMBER
    assert specs["count"].optional and not specs["bed_depth"].optional


def test_lists_and_plans_have_no_single_editor() -> None:
    assert "stations" not in specs_of(Rectangle)
    assert not {"filters", "attractions"} & specs_of(RecirculationSystem).keys()


def test_bounds_are_the_models() -> None:
    bounds = specs_of(Channel)["width"].bounds
    assert not bounds.holds(0.0)
    assert bounds.holds(1e-9) and bounds.holds(5000.0)
    assert not bounds.holds(5000.1)


@pytest.mark.parametrize(
    ("bounds", "measure", "units", "words"),
    [
        (Bounds(0.0, 152.4, low_open=True), LENGTH, US, "more than 0 and at most 500 ft"),
        (Bounds(0.0, None), AREA, SI, "at least 0 m²"),
        (Bounds(None, 2.0, high_open=True), LENGTH, SI, "less than 2 m"),
        (Bounds(273.15, 317.15), TEMPERATURE, US, "at least 32 and at most 111.2 °F"),
        (Bounds(273.15, 317.15), TEMPERATURE, SI, "at least 0 and at most 44 °C"),
        (Bounds(), LENGTH, SI, ""),
    ],
)
def test_bounds_read_in_the_unit_shown(bounds, measure, units, words) -> None:
    """0 °C is 32 °F and 44 °C is 111.2 °F; 500 ft is 152.4 m: definitions of the units."""
    assert bounds.phrase(measure, units) == words


@pytest.mark.parametrize("owner", EDITED, ids=lambda owner: owner.__name__)
@pytest.mark.parametrize("units", [US, SI])
def test_a_bound_that_is_offered_is_accepted(owner, units) -> None:
    for spec in specs_of(owner).values():
        phrase = spec.range_text(units) if spec.entry is Entry.QUANTITY else ""
        for sentence in phrase.split(" and "):
            if sentence.startswith("at "):
                shown = sentence.removeprefix("at least ").removeprefix("at most ").split()[0]
                assert spec.bounds.holds(spec.measure.read(shown, units)), (spec.name, sentence)


@pytest.mark.parametrize("owner", EDITED, ids=lambda owner: owner.__name__)
def test_every_field_has_a_definition_and_every_blank_a_meaning(owner) -> None:
    for name, spec in specs_of(owner).items():
        if name not in ("id", "name", "shape", "takes", "flow_by"):
            assert spec.description
            assert spec.definition(US).endswith(".")
        if spec.optional:
            assert spec.blank, f"{owner.__name__}.{name} does not say what a blank stands for"


def test_no_label_or_blank_is_for_a_field_that_is_gone() -> None:
    known = {f"{owner.__name__}.{name}" for owner in EDITED for name in owner.model_fields}
    assert LABELS.keys() <= known
    assert BLANKS.keys() <= known


def test_models_own_sentence_is_told_as_it_is() -> None:
    with pytest.raises(ValueError) as caught:
        Rectangle(length=5.0, stations=(DepthStation(distance=1.0, depth=1.0), DepthStation(distance=1.0, depth=2.0)))
    assert plain_message(caught.value) == (
        "Depth stations must stand in order, each farther from the wall than the one before."
    )
    with pytest.raises(ValueError) as caught:
        SprayDeck(area=-1.0)
    assert plain_message(caught.value).startswith("Area: input should be greater than 0")

"""Every formula balances in its units and says what its symbols mean."""

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any, get_type_hints

import pytest

from waterpark_designer.engine import formulas
from waterpark_designer.engine.worked import Formula, formula
from waterpark_designer.sources import ARITHMETIC
from waterpark_designer.units import Area, Length, Measure, UnitSystem, measure_of, registry

PRIMES = (43.0, 41.0, 37.0, 31.0, 29.0, 23.0, 19.0, 17.0)
"""Falling, so that what is left of a difference is more than nothing."""
FUNCTIONS_OF_MATHEMATICS = {"max", "ln", "log", "exp", "π"}
IMPLICIT = {"turbulent_friction", "expanded_porosity", "settling_rate"}
"""Their equations are solved: the result stands on both sides."""


def every_formula() -> list[Callable[..., Any]]:
    names = [f"{formulas.__name__}.{each.name}" for each in pkgutil.iter_modules(formulas.__path__)]
    modules = [importlib.import_module(name) for name in names]
    return [
        function
        for module in modules
        for function in vars(module).values()
        if hasattr(function, "formula") and function.__module__ == module.__name__
    ]


def name_of(function: Callable[..., Any]) -> str:
    return function.__name__


FORMULAS = every_formula()
EMPIRICAL = [each for each in FORMULAS if each.formula.empirical]  # type: ignore[attr-defined]
HOMOGENEOUS = [each for each in FORMULAS if each not in EMPIRICAL]
each_formula = pytest.mark.parametrize("function", FORMULAS, ids=name_of)


def pint_unit(measure: Measure) -> str:
    return measure.si.replace("²", "^2").replace("³", "^3").replace("·", "*") if measure.si != "1" else ""


def measures(function: Callable[..., Any]) -> dict[str, Measure]:
    """The measure of each parameter, and of the result under “return”."""
    hints = get_type_hints(inspect.unwrap(function), include_extras=True)
    found = {name: measure_of(hint) for name, hint in hints.items()}
    assert all(found.values()), f"{function.__name__}: every parameter and the result need a measure"
    return {name: measure for name, measure in found.items() if measure}


def balances(function: Callable[..., Any]) -> bool:
    """Whether the bare function, fed with quantities, gives a quantity of the result's unit."""
    units = measures(function)
    expected = pint_unit(units.pop("return"))
    values = dict(zip(units, PRIMES, strict=False))
    put_in = {name: registry().Quantity(values[name], pint_unit(measure)) for name, measure in units.items()}
    result = registry().Quantity(inspect.unwrap(function)(**put_in))
    return bool(result.is_compatible_with(registry().Quantity(1.0, expected)))


def test_the_walk_finds_formulas_of_every_module() -> None:
    modules = {function.__module__.rpartition(".")[2] for function in FORMULAS}
    assert modules == {each.name for each in pkgutil.iter_modules(formulas.__path__)}
    assert len(FORMULAS) > 50


@pytest.mark.parametrize("function", HOMOGENEOUS, ids=name_of)
def test_units_balance(function: Callable[..., Any]) -> None:
    assert balances(function)


def test_a_lost_unit_is_caught() -> None:
    @formula("A = L · w", ARITHMETIC, length="L", width="w")
    def lost_width(length: Length, width: Length) -> Area:
        """Area A [m²] of length L [m] and width w [m]."""
        return length

    assert not balances(lost_width)


def test_only_formulas_that_do_not_balance_are_tied_to_units() -> None:
    assert {name_of(each): each.formula.written_in for each in EMPIRICAL} == {  # type: ignore[attr-defined]
        "secondary_dilution_flow": UnitSystem.US,
        "pump_efficiency_estimate": UnitSystem.US,
        "empirical_friction_loss": UnitSystem.SI,
        "friction_slope": UnitSystem.SI,
        "atmospheric_pressure": UnitSystem.SI,
        "vapour_pressure": UnitSystem.SI,
        "water_density": UnitSystem.SI,
        "water_viscosity": UnitSystem.SI,
    }
    for function in FORMULAS:
        described: Formula = function.formula  # type: ignore[attr-defined]
        assert described.empirical is (described.written_in is not None)


@pytest.mark.parametrize("function", EMPIRICAL, ids=name_of)
def test_a_formula_tied_to_its_units_owes_a_published_table(function: Callable[..., Any]) -> None:
    assert (Path(__file__).parent / "published" / f"{function.__name__}.csv").is_file()


@each_formula
def test_every_parameter_has_a_symbol_of_its_own_in_the_equation(function: Callable[..., Any]) -> None:
    described: Formula = function.formula  # type: ignore[attr-defined]
    assert set(described.symbols) == set(inspect.signature(inspect.unwrap(function)).parameters)
    assert len(set(described.symbols.values())) == len(described.symbols)
    right = described.equation.partition("=")[2]
    for symbol in described.symbols.values():
        assert re.search(rf"(?<![A-Za-z_]){re.escape(symbol)}(?![A-Za-z_0-9])", right), symbol


@each_formula
def test_the_equation_has_no_symbol_that_nothing_is_put_in_for(function: Callable[..., Any]) -> None:
    described: Formula = function.formula  # type: ignore[attr-defined]
    left, _, right = described.equation.partition("=")
    tokens = set(re.findall(r"[A-Za-zΑ-Ωα-ω][A-Za-z0-9_]*", right)) - FUNCTIONS_OF_MATHEMATICS
    solved_for = {left.strip()} if described.name in IMPLICIT else set()
    assert tokens == set(described.symbols.values()) | solved_for


@each_formula
def test_the_docstring_gives_every_symbol_its_unit(function: Callable[..., Any]) -> None:
    described: Formula = function.formula  # type: ignore[attr-defined]
    text = inspect.getdoc(function) or ""
    units = measures(function)
    symbols = dict(described.symbols) | {"return": described.equation.partition("=")[0].strip()}
    for name, symbol in symbols.items():
        rest = [text[named.end() :] for named in re.finditer(rf"(?<!\w){re.escape(symbol)}(?!\w)", text)]
        assert rest, f"{symbol} is not named"
        if units[name].si != "1":
            # One unit in brackets may stand behind several symbols: “depths d1, d2 [m]”.
            following = {unit[1] for unit in (re.search(r"\[(.+?)\]", after) for after in rest) if unit}
            assert units[name].si in following, f"{symbol} is in {units[name].si}"


@each_formula
def test_every_formula_names_its_source(function: Callable[..., Any]) -> None:
    described: Formula = function.formula  # type: ignore[attr-defined]
    assert len(described.source.text) > 10
    assert described.source.provenance.value

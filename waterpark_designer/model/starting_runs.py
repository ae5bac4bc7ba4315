"""Pipe runs that a new system or feature starts with: a sensible set, each marked as assumed.

Lengths and fittings are common practice for a pump room some tens of metres from its basin, to be replaced by what the
drawing shows.
"""

from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.kinds import LineKind
from waterpark_designer.units import FOOT, UnitSystem


def starting_runs(units: UnitSystem = UnitSystem.SI) -> tuple[PipeRun, ...]:
    """Runs of a recirculation loop, in flow order, with lengths that are round in the units of the site."""
    return _round((*_to_the_pump(), *_through_treatment(), *_back_to_the_basin()), units)


def _round(runs: tuple[PipeRun, ...], units: UnitSystem) -> tuple[PipeRun, ...]:
    """The runs in whole metres as they stand, or to the nearest five feet."""
    if units is UnitSystem.SI:
        return runs
    return tuple(run.revised(length=5 * round(run.length / FOOT / 5) * FOOT) for run in runs)


def _to_the_pump() -> tuple[PipeRun, ...]:
    return (
        PipeRun(
            name="Gutter drains",
            kind=LineKind.GUTTER,
            length=25.0,
            count=2,
            flow_share=0.8,
            elbows_90=3,
            entrances=1,
            exits=1,
            in_pump_head=False,
        ),
        PipeRun(
            name="Main drain",
            kind=LineKind.MAIN_DRAIN,
            length=30.0,
            flow_share=1.0,
            elbows_90=4,
            entrances=1,
            tees_branch=1,
            butterfly_valves=1,
            in_pump_head=False,
        ),
        PipeRun(
            name="Suction from surge tank",
            kind=LineKind.TANK_SUCTION,
            length=6.0,
            elbows_90=2,
            entrances=1,
            butterfly_valves=1,
        ),
        PipeRun(
            name="Pump suction", kind=LineKind.PUMP_SUCTION, length=2.0, elbows_90=1, tees_run=1, butterfly_valves=1
        ),
    )


def _through_treatment() -> tuple[PipeRun, ...]:
    return (
        PipeRun(
            name="Pump discharge",
            kind=LineKind.PUMP_DISCHARGE,
            length=6.0,
            elbows_90=3,
            check_valves=1,
            butterfly_valves=1,
            tees_run=1,
        ),
        PipeRun(
            name="Filter piping", kind=LineKind.FILTER_LINE, length=6.0, elbows_90=4, tees_branch=2, butterfly_valves=2
        ),
        PipeRun(
            name="Treatment piping",
            kind=LineKind.EQUIPMENT_LINE,
            length=10.0,
            elbows_90=4,
            tees_run=4,
            butterfly_valves=2,
        ),
    )


def _back_to_the_basin() -> tuple[PipeRun, ...]:
    return (
        PipeRun(
            name="Return header", kind=LineKind.RETURN_HEADER, length=40.0, elbows_90=4, tees_run=4, butterfly_valves=1
        ),
        PipeRun(
            name="Return branches",
            kind=LineKind.RETURN_BRANCH,
            length=15.0,
            count=4,
            elbows_90=2,
            tees_branch=1,
            tees_run=3,
        ),
        PipeRun(
            name="Backwash line",
            kind=LineKind.BACKWASH,
            length=20.0,
            elbows_90=4,
            butterfly_valves=2,
            in_pump_head=False,
        ),
    )


def starting_feature_runs(units: UnitSystem = UnitSystem.SI) -> tuple[PipeRun, ...]:
    """Runs of a feature's own loop, in flow order."""
    runs = (
        PipeRun(
            name="Feature suction",
            kind=LineKind.FEATURE_SUCTION,
            length=10.0,
            elbows_90=3,
            entrances=1,
            butterfly_valves=1,
        ),
        PipeRun(
            name="Feature supply",
            kind=LineKind.FEATURE_SUPPLY,
            length=30.0,
            elbows_90=5,
            check_valves=1,
            butterfly_valves=1,
            tees_run=2,
        ),
    )
    return _round(runs, units)

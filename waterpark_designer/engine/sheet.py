"""The sheet of one node: its figures, each overridable, and what the checks found."""

import functools
from collections.abc import Callable
from typing import Any, NamedTuple

from waterpark_designer.engine.figure_kinds import FIGURE_KINDS, OF_FEATURES, FigureKind
from waterpark_designer.engine.findings import Finding
from waterpark_designer.engine.worked import Missing, Step, Value, Worked
from waterpark_designer.model.features import Feature
from waterpark_designer.model.node import Node, Override
from waterpark_designer.sources import Provenance, Source

OVERRIDDEN = Source("Set by hand", Provenance.OVERRIDE)


class Figure(NamedTuple):
    """A figure of a node: the value in use, and the computed one where an override replaces it."""

    kind: FigureKind
    value: Value
    override: Override | None = None
    computed: Value | None = None

    @property
    def as_computed(self) -> Value:
        """The computed value, also where an override replaces it."""
        return self.value if self.computed is None else self.computed


class Sheet:
    """Figures and findings of one node, filled by the engine and then only read."""

    __slots__ = ("node", "figures", "findings", "limits", "_kinds")

    def __init__(self, node: Node) -> None:
        self.node = node
        self.figures: dict[str, Figure] = {}
        self.findings: list[Finding] = []
        self.limits: set[str] = set()
        self._kinds = OF_FEATURES if isinstance(node, Feature) else FIGURE_KINDS

    def __getitem__(self, key: str) -> Value:
        """The value in use; Missing where the node has no such figure."""
        figure = self.figures.get(key)
        return _onward(figure.value, figure.kind) if figure else _not_here(key)

    def stated(self, key: str) -> Value:
        """The figure as it stands: a lack is its own, not one that others wait for."""
        figure = self.figures.get(key)
        return figure.value if figure else _not_here(key)

    def continued(self) -> "Sheet":
        """A copy to go on with, so that the sheet of an earlier stage can be kept."""
        copy = Sheet(self.node)
        copy.figures, copy.findings, copy.limits = dict(self.figures), list(self.findings), set(self.limits)
        return copy

    def record(self, key: str, computed: Value) -> Value:
        """Enter a figure; the designer's override, if there is one, takes its place."""
        kind = self._kinds[key]
        if isinstance(computed, Missing) and computed.waits_for == kind.label:
            computed = Missing(computed.needs, computed.silent)
        override = self.node.override_of(key) if self.node.overrides else None
        if override is None:
            self.figures[key] = Figure(kind, computed)
            return _onward(computed, kind)
        parts = (("Computed", computed),) if isinstance(computed, Worked) else ()
        used = Worked(
            override.value,
            Step(f"{kind.label}, set by hand", OVERRIDDEN, parts=parts, measure=kind.measure, note=override.reason),
        )
        self.figures[key] = Figure(kind, used, override, computed)
        return used

    def work(self, key: str, function: Callable[..., Value], *arguments: Any) -> Value:
        """Apply a formula and enter its result."""
        return self.record(key, function(*arguments))


def _onward(value: Value, kind: FigureKind) -> Value:
    """A value as the figures that follow from it receive it: a lack now says which figure it waits for."""
    if isinstance(value, Missing) and not value.waits_for:
        return Missing(value.needs, value.silent, kind.label)
    return value


@functools.cache
def _not_here(key: str) -> Missing:
    return Missing(f"{FIGURE_KINDS[key].label} does not apply here.")

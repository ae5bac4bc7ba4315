"""What the engine returns: sheets, findings and schedule of a whole site."""

import functools
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.schedule import ScheduleLine
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pump import PumpCurves
from waterpark_designer.engine.worked import Value
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.walk import find
from waterpark_designer.rules.rule_set import CodeBasis


@dataclass(frozen=True)
class SiteDesign:
    """The design of a site: one sheet per node id, all findings in tree order, the equipment schedule.

    `curves` are the pump curves of systems and features by node id; `kept` is the engine's own memory, by which
    the next design skips what did not change.
    """

    site: Site
    basis: CodeBasis
    sheets: Mapping[str, Sheet]
    findings: tuple[Finding, ...]
    equipment: tuple[ScheduleLine, ...]
    curves: Mapping[str, PumpCurves] = field(default_factory=dict)
    kept: Any = field(default=None, repr=False, compare=False)

    @functools.cached_property
    def limit_uses(self) -> Mapping[str, frozenset[str]]:
        """For each limit key, the ids of the nodes whose figures or checks drew on it."""
        uses: dict[str, set[str]] = {}
        for node, sheet in self.sheets.items():
            for limit in sheet.limits:
                uses.setdefault(limit, set()).add(node)
        return {limit: frozenset(nodes) for limit, nodes in uses.items()}

    def node(self, node: str) -> Node | None:
        """The node with this id, by its sheet where it has one: sites of a thousand bodies are not walked through."""
        sheet = self.sheets.get(node)
        return sheet.node if sheet is not None else find(self.site, node)

    def value(self, node: str, figure: str) -> Value:
        """The value in use of one figure of one node."""
        return self.sheets[node][figure]

    def count(self, status: Status) -> int:
        return sum(finding.status is status for finding in self.findings)

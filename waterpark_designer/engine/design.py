"""What the engine returns: sheets, findings and schedule of a whole site."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.schedule import ScheduleLine
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Value
from waterpark_designer.model.site import Site
from waterpark_designer.rules.rule_set import CodeBasis


@dataclass(frozen=True, slots=True)
class SiteDesign:
    """The design of a site: one sheet per node id, all findings in tree order, the equipment schedule.

    `limit_uses` tells for each limit key which nodes it bound; `kept` is the engine's own memory, by which
    the next design skips what did not change.
    """

    site: Site
    basis: CodeBasis
    sheets: Mapping[str, Sheet]
    findings: tuple[Finding, ...]
    equipment: tuple[ScheduleLine, ...]
    limit_uses: Mapping[str, frozenset[str]]
    kept: Any = field(default=None, repr=False, compare=False)

    def value(self, node: str, figure: str) -> Value:
        """The value in use of one figure of one node."""
        return self.sheets[node][figure]

    def count(self, status: Status) -> int:
        return sum(finding.status is status for finding in self.findings)

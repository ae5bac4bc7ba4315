"""Findings: what the checks say, each with its value, its limit and what would put it right."""

from dataclasses import dataclass
from enum import StrEnum

from waterpark_designer.engine.worked import Worked
from waterpark_designer.units import Measure


class Status(StrEnum):
    """How a design stands to a limit."""

    NOT_MET = "not_met"
    CAUTION = "caution"
    UNKNOWN = "unknown"
    SILENT = "silent"
    MET = "met"

    @property
    def label(self) -> str:
        return STATUS_WORDS[self]

    @property
    def mark(self) -> str:
        """A sign beside the word, so that status never rests on colour."""
        return STATUS_MARKS[self]


STATUS_WORDS = {
    Status.NOT_MET: "not met",
    Status.CAUTION: "look at this",
    Status.UNKNOWN: "cannot tell yet",
    Status.SILENT: "code silent",
    Status.MET: "met",
}
STATUS_MARKS = {Status.NOT_MET: "✗", Status.CAUTION: "⚠", Status.UNKNOWN: "?", Status.SILENT: "–", Status.MET: "✓"}


@dataclass(frozen=True, slots=True)
class Finding:
    """One check of one node.

    `key` names the check, `figure` the figure it looks at (for the jump), `remedy` what would put it right.
    `value` and `limit` are SI; either may be absent where there is nothing to compare.
    """

    node: str
    key: str
    title: str
    status: Status
    figure: str = ""
    value: float | None = None
    limit: Worked | None = None
    measure: Measure | None = None
    sense: str = ""
    clause: str = ""
    provenance: str = ""
    remedy: str = ""

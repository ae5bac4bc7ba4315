"""What the code basis page lists: every limit in force, who it binds, and where the code basis is silent."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.gui.part_names import part_names
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS
from waterpark_designer.rules.rule_set import Limit
from waterpark_designer.units import UnitSystem


@dataclass(frozen=True, slots=True)
class LimitLine:
    """A limit, the names of the parts it binds, and the earlier limit that always comes before it, if any."""

    limit: Limit
    used_by: tuple[str, ...]
    superseded_by: Limit | None

    @property
    def label(self) -> str:
        return LIMIT_KINDS[self.limit.quantity].label


@dataclass(frozen=True, slots=True)
class SilentLine:
    """A check on which the code basis has no word, and the parts that miss one."""

    title: str
    quantity: str
    remedy: str
    nodes: tuple[str, ...]


def limit_lines(design: SiteDesign) -> tuple[LimitLine, ...]:
    """Every limit of the code basis in its order."""
    names = part_names(design.site)
    before = _superseding(design.basis.limits)
    lines = []
    for limit in design.basis.limits:
        users = sorted({names[node] for node in design.limit_uses.get(limit.key, ()) if node in names})
        lines.append(LimitLine(limit, tuple(users), None if users else before.get(limit.key)))
    return tuple(lines)


def silent_lines(design: SiteDesign) -> tuple[SilentLine, ...]:
    """What the code basis is silent about, each thing once."""
    names = part_names(design.site)
    found: dict[tuple[str, str], list[Finding]] = {}
    for finding in design.findings:
        if finding.status is Status.SILENT:
            found.setdefault((finding.key, finding.title), []).append(finding)
    return tuple(
        SilentLine(
            title,
            limited_quantity(findings[0]),
            findings[0].remedy,
            tuple(names.get(finding.node, "") for finding in findings),
        )
        for (_, title), findings in found.items()
    )


LIMITS_OF_FIGURES = {"least_tank_volume": "tank_least_volume", "peak_occupancy": "area_per_bather"}
"""The limit behind a figure that a finding names, where figure and limit do not share their name."""


def limited_quantity(finding: Finding) -> str:
    """The limited quantity a finding is about; empty where it names none."""
    named = (finding.key, finding.figure)
    known = (key for key in (*named, *(LIMITS_OF_FIGURES.get(name, "") for name in named)) if key in LIMIT_KINDS)
    return next(known, "")


def kinds_text(kinds: Iterable[AttractionKind]) -> str:
    """The kinds of water a limit applies to, in words."""
    labels = sorted(kind.label for kind in kinds)
    return ", ".join(labels) or "All kinds of water"


def conditions_text(limit: Limit, units: UnitSystem) -> str:
    """What must hold for a limit to apply, in words; empty where nothing must."""
    texts = [condition.text(units) for condition in limit.when]
    return f"where {' and '.join(texts)}" if texts else ""


def _superseding(limits: Sequence[Limit]) -> dict[str, Limit]:
    """For each limit that can never apply the earlier one that always comes first.

    Only where it is certain: the earlier limit asks for no condition that the later one does not ask for, and
    applies to every kind of water that the later one applies to.
    """
    found: dict[str, Limit] = {}
    earlier: dict[str, list[Limit]] = {}
    for limit in limits:
        rivals = earlier.setdefault(limit.quantity, [])
        first = next((rival for rival in rivals if _covers(rival, limit)), None)
        if first is not None:
            found[limit.key] = first
        rivals.append(limit)
    return found


def _covers(earlier: Limit, later: Limit) -> bool:
    kinds = not earlier.applies_to or (bool(later.applies_to) and later.applies_to <= earlier.applies_to)
    return kinds and set(earlier.when) <= set(later.when)

"""What the tree and the comparison table say of one node: its key number and how its checks stand."""

from dataclasses import dataclass

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.worked import Missing
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.zones import Zone
from waterpark_designer.units import UnitSystem

KEY_FIGURES: dict[type[Node], str] = {
    Site: "volume",
    RecirculationSystem: "design_flow",
    Attraction: "volume",
    Zone: "volume",
    Feature: "feature_flow",
}
ASKING = (Status.NOT_MET, Status.CAUTION, Status.UNKNOWN)
MOST_LINES = 6


@dataclass(frozen=True, slots=True)
class SiteRow:
    """One row as it is read: name, key number with its unit, worst status, and the words behind both."""

    name: str
    number: str
    status: Status | None
    tip: str

    @property
    def marked_number(self) -> str:
        return f"{self.status.mark} {self.number}" if self.status else self.number


def children_shown(node: Node) -> tuple[Node, ...]:
    """The children that stand in the tree; the only zone of a body is the body itself, pipe runs have a table."""
    if isinstance(node, Attraction) and len(node.zones) == 1:
        return node.features
    if isinstance(node, RecirculationSystem):
        return node.attractions
    return () if isinstance(node, Feature) else node.children


def row_of(node: Node, design: SiteDesign) -> SiteRow:
    """The row of a node in a design."""
    figure = figure_of(node, design, KEY_FIGURES[type(node)])
    asking = asking_findings(node, design)
    if isinstance(node, Site) and not node.systems:
        return SiteRow(_name(node), "", None, _kind_words(node))
    return SiteRow(
        name=_name(node),
        number=_number(figure, design.site.units),
        status=min((finding.status for finding in asking), key=ASKING.index, default=None),
        tip=_tip(node, figure, asking),
    )


def figure_of(node: Node, design: SiteDesign, key: str) -> Figure | None:
    """A figure of a node; nothing where the node has no such figure."""
    sheet = design.sheets.get(node.id)
    return sheet.figures.get(key) if sheet else None


def asking_findings(node: Node, design: SiteDesign) -> list[Finding]:
    """The findings that ask for something, of the node and of parts without a row of their own, the worst first."""
    found = [
        finding
        for part in (node, *_without_rows(node))
        if (sheet := design.sheets.get(part.id))
        for finding in sheet.findings
        if finding.status in ASKING
    ]
    return sorted(found, key=lambda finding: ASKING.index(finding.status))


def _without_rows(node: Node) -> tuple[Node, ...]:
    """Parts for which the row of the node stands: the only zone of a body of water, pipe runs."""
    if isinstance(node, RecirculationSystem | Feature):
        return node.pipe_runs
    return node.zones if isinstance(node, Attraction) and len(node.zones) == 1 else ()


def _name(node: Node) -> str:
    return f"{node.name} × {node.count:,}" if isinstance(node, Feature) and node.count > 1 else node.name


def _number(figure: Figure | None, units: UnitSystem) -> str:
    if figure is None:
        return ""
    if isinstance(figure.value, Missing):
        return "—"
    return figure.kind.measure.phrase(figure.value, units)


def _tip(node: Node, figure: Figure | None, asking: list[Finding]) -> str:
    lines = [_kind_words(node)]
    if figure is not None:
        lines.append(f"{figure.kind.label}: {figure.kind.definition}")
        if isinstance(figure.value, Missing):
            lines.append(figure.value.needs)
    runs = {part.id: f"{part.name}, " for part in _without_rows(node) if isinstance(part, PipeRun)}
    lines += [
        f"{item.status.mark} {runs.get(item.node, '')}{item.title}: {item.status.label}" for item in asking[:MOST_LINES]
    ]
    if len(asking) > MOST_LINES:
        lines.append(f"and {len(asking) - MOST_LINES} more checks to look at")
    return "\n".join(lines)


def _kind_words(node: Node) -> str:
    if isinstance(node, Site):
        return site_words(node)
    if isinstance(node, RecirculationSystem):
        return f"Recirculation system, {counted(len(node.attractions), 'body', 'bodies')} of water"
    if isinstance(node, Zone):
        return f"Zone, {node.kind.label.lower()}" if node.kind else "Zone"
    assert isinstance(node, Attraction | Feature)
    return node.kind.label


def site_words(site: Site) -> str:
    """“7 bodies of water on 5 systems”."""
    bodies = counted(sum(len(system.attractions) for system in site.systems), "body", "bodies")
    return f"{bodies} of water on {counted(len(site.systems), 'system', 'systems')}"


def counted(count: int, one: str, many: str) -> str:
    """“1 body”, “7 bodies”."""
    return f"{count:,} {one if count == 1 else many}"

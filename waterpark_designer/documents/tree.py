"""Where a part of the site stands, in words."""

from collections.abc import Mapping
from dataclasses import dataclass

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.edits import sort_name
from waterpark_designer.model.features import Feature
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.zones import SHAPE_LABELS, Zone

PATH_JOINT = " › "


@dataclass(frozen=True, slots=True)
class Place:
    """A node and the names that lead to it, the site's own left out."""

    node: Node
    path: tuple[str, ...]

    @property
    def where(self) -> str:
        """The way down to the node, such as "River loop › Meander river"."""
        return PATH_JOINT.join(self.path) or self.node.name

    @property
    def depth(self) -> int:
        return len(self.path)


def places(site: Site) -> Mapping[str, Place]:
    """Every node of the site by id, parents first."""
    found: dict[str, Place] = {}
    _collect(site, (), found)
    return found


def _collect(node: Node, path: tuple[str, ...], found: dict[str, Place]) -> None:
    found[node.id] = Place(node, path)
    for child in node.children:
        _collect(child, (*path, child.name), found)


def what_it_is(node: Node) -> str:
    """The sort and kind of a node in the trade's words: "Lazy river, outdoor"."""
    if isinstance(node, Attraction):
        return f"{node.kind.label}, {node.setting.label.lower()}"
    if isinstance(node, Feature):
        return f"Feature: {node.kind.label.lower()}"
    if isinstance(node, Zone):
        kind = f", {node.kind.label.lower()}" if node.kind else ""
        return f"Zone: {SHAPE_LABELS[node.shape.shape].lower()}{kind}"
    return sort_name(node).capitalize()

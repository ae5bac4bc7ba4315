"""Edits: a new tree from an old one, rebuilding only the path that changed.

Every edit returns a new site; what it did not touch keeps its identity, so views and the engine can skip it.
"""

from collections.abc import Callable, Set
from typing import Any, TypeVar

from pydantic import ValidationError

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.node import LONGEST_NAME, Node, Override, new_id
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import find, parent_of, path_to, walk
from waterpark_designer.model.zones import Zone

AnyNode = TypeVar("AnyNode", bound=Node)


class EditRefused(ValueError):
    """The edit makes no sense here; says why in plain words."""


def revise(root: AnyNode, target: str, **changes: Any) -> AnyNode:
    """Change fields of one node. Raises pydantic's ValidationError where a value is out of bounds."""
    return _changed(root, target, lambda node: node.revised(**changes))


def revise_plan(root: AnyNode, target: str, plan: str, **changes: Any) -> AnyNode:
    """Change fields of a plan inside one node, such as a system's `filters` or a zone's `shape`."""
    return _changed(root, target, lambda node: node.revised(**{plan: getattr(node, plan).revised(**changes)}))


def insert(site: Site, parent: str, child: Node, position: int | None = None) -> Site:
    """Put a node under a parent, at a position among the children of its own sort. Raises EditRefused."""
    holder = find(site, parent)
    if holder is None:
        raise EditRefused("The place to put it is no longer in the project.")
    if not accepts(holder, child):
        raise EditRefused(f"A {sort_name(child)} cannot stand under a {sort_name(holder)}.")
    known = {node.id for node in walk(site)}
    if any(node.id in known for node in walk(child)):
        raise EditRefused("It is in the project already. Duplicate it instead.")
    return _with_child(site, holder, child, position)


def remove(site: Site, target: str) -> Site:
    """Take a node out. An attraction keeps at least one zone."""
    holder = parent_of(site, target)
    if holder is None:
        raise EditRefused("The site itself cannot be deleted.")
    left = tuple(child for child in holder.children if child.id != target)
    if isinstance(holder, Attraction) and not any(isinstance(child, Zone) for child in left):
        raise EditRefused("A body of water needs at least one zone.")
    return _changed(site, holder.id, lambda _: holder.with_children(left))


def move(site: Site, target: str, parent: str, position: int | None = None) -> Site:
    """Move a node under another parent, or to another position under its own. Raises EditRefused.

    The position counts the children of its own sort without the node itself.
    """
    node, holder = find(site, target), parent_of(site, target)
    if node is None:
        raise EditRefused("That part is no longer in the project.")
    if find(node, parent) is not None:
        raise EditRefused("A part cannot be moved into itself.")
    if holder is not None and holder.id == parent:
        return _with_child(site, holder, node, position)
    return insert(remove(site, target), parent, node, position)


def duplicate(site: Site, target: str) -> tuple[Site, str]:
    """A copy of a node beside it, under new ids; returns the site and the copy's id."""
    holder, node = parent_of(site, target), find(site, target)
    if holder is None or node is None:
        raise EditRefused("The site itself cannot be duplicated.")
    copy = with_new_ids(node).revised(name=free_name(holder, node.name))
    kin = [child for child in holder.children if type(child) is type(node)]
    return insert(site, holder.id, copy, kin.index(node) + 1), copy.id


def with_new_ids(node: AnyNode) -> AnyNode:
    """A deep copy under fresh ids, for duplicating and pasting."""
    copy = node.revised(id=new_id())
    if copy.children:
        copy = copy.with_children(tuple(with_new_ids(child) for child in copy.children))  # type: ignore[assignment]
    return copy


def set_override(site: Site, target: str, figure: str, value: float, reason: str) -> Site:
    """Set a figure by hand, with a reason."""
    override = Override(figure=figure, value=value, reason=reason)
    return _changed(site, target, lambda node: node.revised(overrides=(*_overrides_but(node, figure), override)))


def clear_override(site: Site, target: str, figure: str) -> Site:
    """Go back to the computed figure."""
    return _changed(site, target, lambda node: node.revised(overrides=_overrides_but(node, figure)))


def accepts(holder: Node, child: Node) -> bool:
    """Whether a node of this sort can stand under that one."""
    return isinstance(child, ACCEPTED.get(type(holder), ()))


ACCEPTED: dict[type[Node], tuple[type[Node], ...]] = {
    Site: (RecirculationSystem,),
    RecirculationSystem: (Attraction, PipeRun),
    Attraction: (Zone, Feature),
    Feature: (PipeRun,),
}
SORT_NAMES: dict[type[Node], str] = {
    Site: "site",
    RecirculationSystem: "recirculation system",
    Attraction: "body of water",
    Zone: "zone",
    Feature: "feature",
    PipeRun: "pipe run",
}


def sort_name(node: Node) -> str:
    """The sort of a node in the trade's words."""
    return SORT_NAMES[type(node)]


def free_name(holder: Node, wanted: str) -> str:
    """The wanted name, with a number after it where a sibling bears it already."""
    return name_beside({child.name for child in holder.children}, wanted)


def name_beside(taken: Set[str], wanted: str) -> str:
    """The wanted name, with a number after it where it is taken already."""
    if wanted not in taken:
        return wanted
    stem = (wanted.rstrip("0123456789 ") or wanted)[: LONGEST_NAME - len(str(len(taken) + 2)) - 1]
    return next(name for number in range(2, len(taken) + 3) if (name := f"{stem} {number}") not in taken)


def _with_child(site: Site, holder: Node, child: Node, position: int | None) -> Site:
    """The site with a child at a position among its kin, taken from wherever it stood under the same holder."""
    left = [node for node in holder.children if node.id != child.id]
    kin = [node for node in left if type(node) is type(child)]
    others = [node for node in left if type(node) is not type(child)]
    kin.insert(len(kin) if position is None else position, child)
    try:
        return _changed(site, holder.id, lambda _: holder.with_children((*kin, *others)))
    except ValidationError:
        # All else is valid already, so that only their number can be wrong.
        raise EditRefused(f"This {sort_name(holder)} cannot hold another {sort_name(child)}.") from None


def _overrides_but(node: Node, figure: str) -> tuple[Override, ...]:
    return tuple(override for override in node.overrides if override.figure != figure)


def _changed(root: AnyNode, target: str, change: Callable[[Any], Node]) -> AnyNode:
    """The tree with one node changed, its ancestors rebuilt and all else as it was."""
    path = path_to(root, target)
    if not path:
        raise EditRefused("That part is no longer in the project.")
    new = change(path[-1])
    for holder, old in zip(reversed(path[:-1]), reversed(path[1:]), strict=True):
        if new is old:
            return root
        new = holder.with_children(tuple(new if child is old else child for child in holder.children))
    return new  # type: ignore[return-value]

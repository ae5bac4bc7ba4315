"""Ways through the tree of a site."""

from collections.abc import Iterator

from waterpark_designer.model.node import Node


def walk(node: Node) -> Iterator[Node]:
    """The node and all below it, parents first."""
    yield node
    for child in node.children:
        yield from walk(child)


def find(root: Node, target: str) -> Node | None:
    """The node with this id."""
    return next((node for node in walk(root) if node.id == target), None)


def path_to(root: Node, target: str) -> tuple[Node, ...]:
    """The nodes from the root down to the one with this id; empty where there is none."""
    if root.id == target:
        return (root,)
    for child in root.children:
        below = path_to(child, target)
        if below:
            return (root, *below)
    return ()


def parent_of(root: Node, target: str) -> Node | None:
    """The node that holds the one with this id."""
    path = path_to(root, target)
    return path[-2] if len(path) > 1 else None


def duplicate_ids(root: Node) -> tuple[str, ...]:
    """Ids that more than one node bears, in order of discovery."""
    seen: set[str] = set()
    twice: dict[str, None] = {}
    for node in walk(root):
        if node.id in seen:
            twice[node.id] = None
        seen.add(node.id)
    return tuple(twice)

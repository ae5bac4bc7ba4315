"""Where a part goes when it is dragged or moved with the keyboard."""

from waterpark_designer.gui.site_rows import children_shown
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.edits import EditRefused, accepts, insert, move, remove
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_points import new_system
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import find, parent_of, path_to


def site_after_drop(site: Site, node: Node, target: Node, row: int) -> Site:
    """The site after a node is dropped on a target (`row` -1) or before one of its rows.

    A body of water dropped on the site gets a system of its own. Raises EditRefused where it cannot stand.
    """
    if isinstance(node, Attraction) and isinstance(target, Site):
        return _on_its_own(site, node, row)
    if accepts(target, node):
        return move(site, node.id, target.id, _position(target, node, row))
    holder = next((step for step in reversed(path_to(site, target.id)) if accepts(step, node)), None)
    if holder is None or target.id == node.id:
        raise EditRefused(f"“{node.name}” cannot stand there.")
    beside = next(child for child in holder.children if find(child, target.id) is not None)
    position = _kin(holder, node).index(beside) if type(beside) is type(node) else None
    return move(site, node.id, holder.id, position)


def shifted(site: Site, target: str, step: int) -> Site:
    """The site with a node one place up (-1) or down (1) among its own sort.

    A body of water at the end of its system goes on to the next one. Raises EditRefused at the very end.
    """
    node, holder = find(site, target), parent_of(site, target)
    if node is None or holder is None:
        raise EditRefused("The site itself cannot be moved.")
    kin = _kin(holder, node)
    position = kin.index(node) + step
    if 0 <= position < len(kin):
        return move(site, target, holder.id, position)
    if isinstance(holder, RecirculationSystem):
        return _to_next_system(site, node, holder, step)
    raise EditRefused(f"“{node.name}” is already at the {'top' if step < 0 else 'bottom'}.")


def _to_next_system(site: Site, node: Node, holder: RecirculationSystem, step: int) -> Site:
    place = site.systems.index(holder) + step
    if not 0 <= place < len(site.systems):
        raise EditRefused(f"“{node.name}” is already at the {'top' if step < 0 else 'bottom'}.")
    system = site.systems[place]
    return move(site, node.id, system.id, len(system.attractions) if step < 0 else 0)


def _on_its_own(site: Site, attraction: Attraction, row: int) -> Site:
    """A body of water on a system of its own; one that has its own takes it along."""
    system = parent_of(site, attraction.id)
    if isinstance(system, RecirculationSystem) and len(system.attractions) == 1:
        return move(site, system.id, site.id, _position(site, system, row))
    own = new_system(site).revised(attractions=(attraction,))
    return insert(remove(site, attraction.id), site.id, own, row if row >= 0 else None)


def _position(holder: Node, node: Node, row: int) -> int | None:
    """Position among the node's own sort, after it was taken out, for a row of the tree."""
    if row < 0:
        return None
    before = children_shown(holder)[:row]
    return sum(type(child) is type(node) and child.id != node.id for child in before)


def _kin(holder: Node, node: Node) -> list[Node]:
    return [child for child in holder.children if type(child) is type(node)]

"""Parts of a site on the clipboard, as JSON text that can also be mailed or kept."""

import json
from typing import Any

from pydantic import TypeAdapter, ValidationError

from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.edits import EditRefused, accepts, free_name, insert, with_new_ids
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_points import free_site_name, new_system
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import find, parent_of, path_to
from waterpark_designer.model.zones import Zone
from waterpark_designer.storage.complaints import complaints

MARK = "waterpark_part"
LONGEST_TEXT = 20_000_000
SORTS: dict[str, type[Node]] = {
    "system": RecirculationSystem,
    "attraction": Attraction,
    "zone": Zone,
    "feature": Feature,
    "pipe_run": PipeRun,
}
FOREIGN = "The clipboard holds no part of a site. Copy a system, a body of water, a zone or a feature first."


def text_of(node: Node) -> str:
    """A part and all below it as text for the clipboard. Raises EditRefused for the site itself."""
    sort = next((name for name, kind in SORTS.items() if type(node) is kind), None)
    if sort is None:
        raise EditRefused("The whole site cannot be copied; save it under another name instead.")
    return json.dumps({MARK: sort, "part": node.model_dump(mode="json")}, ensure_ascii=False, indent=1)


def part_from(text: str) -> Node:
    """The part in a text from the clipboard, under new ids. Raises EditRefused where it holds none."""
    if MARK not in text or len(text) > LONGEST_TEXT:
        raise EditRefused(FOREIGN)
    try:
        held: Any = json.loads(text)
        sort = SORTS[held[MARK]]
        part = TypeAdapter(sort).validate_json(json.dumps(held["part"]))
    except ValidationError as error:
        raise EditRefused(f"What was copied cannot be used. {complaints(error, held['part'])}") from None
    except (ValueError, KeyError, TypeError, RecursionError):
        raise EditRefused(FOREIGN) from None
    return with_new_ids(part)


def paste(site: Site, part: Node, at: str) -> tuple[Site, str]:
    """Put a part at or beside the node with id `at`, under a free name; returns the site and the part's id.

    A body of water pasted at the site gets a system of its own. Raises EditRefused where there is no place.
    """
    beside = find(site, at) or site
    if isinstance(part, Attraction):
        part = part.revised(name=free_site_name(site, part.name))
        if beside is site:
            system = new_system(site).revised(attractions=(part,))
            return insert(site, site.id, system), part.id
    holder = next((node for node in reversed(path_to(site, beside.id)) if accepts(node, part)), None)
    if holder is None:
        raise EditRefused(PLACES[type(part)])
    part = part.revised(name=free_name(holder, part.name))
    return insert(site, holder.id, part, _position_after(site, holder, beside, part)), part.id


PLACES: dict[type[Node], str] = {
    Feature: "Select a body of water first: a feature stands in one.",
    Zone: "Select a body of water first: a zone is part of one.",
    PipeRun: "Select a recirculation system or a feature first: a pipe run belongs to one.",
}


def _position_after(site: Site, holder: Node, beside: Node, part: Node) -> int | None:
    """Behind the sibling that is selected; last where none is."""
    if type(beside) is not type(part) or parent_of(site, beside.id) is not holder:
        return None
    return [child.id for child in holder.children if type(child) is type(part)].index(beside.id) + 1

"""What a part of the site is called where it does not stand under its body of water."""

from waterpark_designer.model.node import Node
from waterpark_designer.model.site import Site
from waterpark_designer.model.zones import Zone


def part_names(site: Site) -> dict[str, str]:
    """The name of every part by id: a zone or feature with its body of water, an only zone as the body itself."""
    names = {site.id: site.name}
    for system in site.systems:
        names[system.id] = system.name
        names |= {run.id: f"{system.name}, {run.name}" for run in system.pipe_runs}
        for attraction in system.attractions:
            names[attraction.id] = attraction.name
            alone = len(attraction.zones) == 1
            for part in attraction.children:
                names[part.id] = _name(attraction, part, alone)
                names |= {run.id: f"{names[part.id]}, {run.name}" for run in part.children}
    return names


def _name(attraction: Node, part: Node, alone: bool) -> str:
    return attraction.name if alone and isinstance(part, Zone) else f"{attraction.name}, {part.name}"

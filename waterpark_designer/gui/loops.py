"""Loops of water with a pump: recirculation systems, and features with a pump of their own."""

from waterpark_designer.gui.site_rows import counted
from waterpark_designer.model.features import Feature
from waterpark_designer.model.kinds import FeaturePump
from waterpark_designer.model.site import Site
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import path_to

Loop = RecirculationSystem | Feature
NO_LOOP = "Select a recirculation system, a body of water or a feature in the tree."
NOT_ON_ITS_OWN = "This feature takes its water from the recirculation pump. Its own pipe runs and pump do not count."


def loop_of(site: Site, selected: str) -> Loop | None:
    """The loop that is selected, or that serves what is selected; the only system where the site itself is."""
    found = next((node for node in reversed(path_to(site, selected)) if isinstance(node, Loop)), None)
    return found or (site.systems[0] if len(site.systems) == 1 else None)


def runs_words(loop: Loop) -> str:
    """“10 pipe runs, 9 of them assumed”."""
    runs = loop.pipe_runs
    assumed = sum(run.assumed for run in runs)
    if not runs:
        return "No pipe runs yet, so that no head is known"
    words = "all measured" if not assumed else "all assumed" if assumed == len(runs) else f"{assumed} of them assumed"
    return f"{counted(len(runs), 'pipe run', 'pipe runs')}, {words}"


def idle_words(loop: Loop) -> str:
    """Why the loop's own runs and pump do not count, where they do not."""
    if isinstance(loop, Feature) and loop.pump is not FeaturePump.OWN:
        return NOT_ON_ITS_OWN
    if isinstance(loop, RecirculationSystem) and not loop.attractions:
        return "This system serves no body of water yet."
    return ""

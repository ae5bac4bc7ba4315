"""Checks of pipe runs side by side: that their flow could be divided, and that they agree on how much it is."""

from waterpark_designer.engine.comparing import noted
from waterpark_designer.engine.design_system import SizedSystem
from waterpark_designer.engine.divide_flow import BY_HAND, EVENLY, Group, division_of, groups_of, name_of, shares_differ
from waterpark_designer.engine.findings import Status
from waterpark_designer.model.features import Feature
from waterpark_designer.model.systems import RecirculationSystem

REMEDIES = {
    EVENLY: "Give each branch a length or fittings, so that it loses head. Until then its flow is that of an even "
    "split over like pipes.",
    BY_HAND: "Clear the flow or loss set by hand to have the flow divided. Until then the others have an even split.",
}
ONE_SHARE = "Give all branches of a junction the same share of flow: it is that of all of them together."


def with_runs(sized: SizedSystem) -> list[RecirculationSystem | Feature]:
    """The system and its features, which have the pipe runs."""
    features = [sheet.node for sheet in sized.below if isinstance(sheet.node, Feature)]
    return [sized.system, *features]


def check_branches(sized: SizedSystem) -> None:
    """Check the branches of a system and of its features; findings go on the sheet of the first branch."""
    sheets = {sheet.node.id: sheet for sheet in sized.below}
    for owner in with_runs(sized):
        runs = [sheets[run.id] for run in owner.pipe_runs if run.id in sheets]
        for group in groups_of(runs):
            if len(group) > 1:
                _check(group)


def _check(group: Group) -> None:
    division = division_of(group[0])
    if division in REMEDIES:
        _note(group, "branches", "Flow divides between branches", REMEDIES[division])
    if shares_differ(group):
        _note(group, "branch_shares", "Branches state one share of flow", ONE_SHARE)


def _note(group: Group, key: str, title: str, remedy: str) -> None:
    noted(group[0], key, f"{title}: {name_of(group).lower()}", Status.CAUTION, remedy, "run_flow")

"""What an amendment would change: figures and checks that differ between two designs of a site."""

from collections.abc import Iterator
from dataclasses import dataclass

from PySide6.QtCore import QObject, QThread

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding
from waterpark_designer.engine.sheet import Figure
from waterpark_designer.engine.worked import Missing
from waterpark_designer.gui.part_names import part_names
from waterpark_designer.library import Library
from waterpark_designer.model.site import Site
from waterpark_designer.units import UnitSystem

NOT_KNOWN = "cannot be told"
NO_CHECK = "no check"


@dataclass(frozen=True, slots=True)
class Change:
    """One figure or check that would change, in words."""

    node: str
    where: str
    what: str
    before: str
    after: str
    is_check: bool


class EffectWork(QThread):
    """Works out in the background what an edited site would change; `found` holds it when it has finished."""

    def __init__(self, library: Library, before: SiteDesign, after: Site, parent: QObject) -> None:
        super().__init__(parent)
        self.found: tuple[Change, ...] = ()
        self._library, self._before, self._after = library, before, after

    def run(self) -> None:
        design = self._library.design(self._after, self._before)
        self.found = changes(self._before, design, self._before.site.units)


def changes(before: SiteDesign, after: SiteDesign, units: UnitSystem) -> tuple[Change, ...]:
    """Checks whose state differs, then figures that read differently, between two designs of the same parts.

    Figures that differ by less than is ever shown are left out.
    """
    names = part_names(after.site)
    return (*_checks(before, after, names), *_figures(before, after, names, units))


def _figures(before: SiteDesign, after: SiteDesign, names: dict[str, str], units: UnitSystem) -> Iterator[Change]:
    for node, name in names.items():
        old, new = before.sheets[node], after.sheets[node]
        if old is new:
            continue
        for key in {**old.figures, **new.figures}:
            was, now = _text(old.figures.get(key), units), _text(new.figures.get(key), units)
            if was != now:
                kind = (new.figures.get(key) or old.figures[key]).kind
                yield Change(node, name, kind.label, was, now, False)


def _text(figure: Figure | None, units: UnitSystem) -> str:
    if figure is None:
        return "none"
    return NOT_KNOWN if isinstance(figure.value, Missing) else figure.kind.measure.phrase(figure.value, units)


def _checks(before: SiteDesign, after: SiteDesign, names: dict[str, str]) -> Iterator[Change]:
    old, new = _by_key(before), _by_key(after)
    for key in {**old, **new}:
        was, now = old.get(key), new.get(key)
        if _state(was) != _state(now):
            finding = now or was
            assert finding is not None
            where = names.get(finding.node, "")
            yield Change(finding.node, where, f"Check: {finding.title}", _state(was), _state(now), True)


def _by_key(design: SiteDesign) -> dict[tuple[str, str, str, int], Finding]:
    """Findings by what they are about; findings alike in all of it are told apart by their order."""
    found: dict[tuple[str, str, str, int], Finding] = {}
    for finding in design.findings:
        number = 0
        while (key := (finding.node, finding.key, finding.figure, number)) in found:
            number += 1
        found[key] = finding
    return found


def _state(finding: Finding | None) -> str:
    return f"{finding.status.mark} {finding.status.label}" if finding else NO_CHECK

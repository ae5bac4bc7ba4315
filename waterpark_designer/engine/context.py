"""What every part of a design draws on: the code basis, the catalogue and the site's own terms."""

from collections.abc import Iterable, Mapping

from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.stock import Stock
from waterpark_designer.engine.worked import Missing, Step, Value, Worked, greatest, least
from waterpark_designer.model.catalogue import CatalogueItem, ItemKind
from waterpark_designer.model.kinds import AttractionKind
from waterpark_designer.model.site import Site
from waterpark_designer.rules.limit_kinds import LIMIT_KINDS, Sense
from waterpark_designer.rules.rule_set import CodeBasis, Fact, Limit
from waterpark_designer.sources import ARITHMETIC


class Context:
    """The same for every system of a site; two designs with equal contexts may share their results."""

    def __init__(self, site: Site, basis: CodeBasis, stock: Stock) -> None:
        self.operation, self.losses, self.salt = site.operation, site.losses, site.salt
        self.turnovers_counted = site.turnovers_counted
        self.basis = basis
        self.stock, self.hydraulics = stock, site.hydraulics
        self._supplier, self._generic = site.catalogue, stock.catalogue
        self._items: dict[ItemKind, tuple[CatalogueItem, ...]] = {}
        self._limits: dict[str, Worked] = {}
        self._silences: dict[tuple[str, ...], Missing] = {}

    def same_as(self, other: "Context") -> bool:
        """Whether a design made in the other context still holds in this one."""
        return (
            self.basis is other.basis
            and self.stock is other.stock
            and self._supplier == other._supplier
            and (self.operation, self.losses, self.salt, self.turnovers_counted, self.hydraulics)
            == (other.operation, other.losses, other.salt, other.turnovers_counted, other.hydraulics)
        )

    def items(self, kind: ItemKind) -> tuple[CatalogueItem, ...]:
        """Nominal sizes of a kind, smallest first; the supplier's where the project has any, else the generic ones."""
        if kind not in self._items:
            own = [item for item in self._supplier if item.kind is kind]
            chosen = own or [item for item in self._generic if item.kind is kind]
            self._items[kind] = tuple(sorted(chosen, key=lambda item: item.size))
        return self._items[kind]

    def named_item(self, kind: ItemKind, name: str) -> CatalogueItem | None:
        """The item of that name; the supplier's before the generic one."""
        both = (*self._supplier, *self._generic)
        return next((item for item in both if item.kind is kind and item.name == name), None)

    def limit(
        self, sheet: Sheet, quantity: str, kind: AttractionKind | None, facts: Mapping[str, Fact], where: str = ""
    ) -> Value:
        """The limit in force as a leaf of the working, noted on the sheet; Missing where the code basis is silent."""
        found = self.basis.limit(quantity, kind, facts)
        if found is None:
            return self._silence(quantity, kind, facts, where or (kind.label.lower() if kind else "this system"))
        sheet.limits.add(found.key)
        return self._leaf(found)

    def strictest(
        self,
        sheet: Sheet,
        quantity: str,
        kinds: Iterable[AttractionKind],
        facts: Mapping[str, Fact],
        where: str = "this system",
    ) -> Value:
        """The strictest of the limits for several kinds of water that share equipment.

        Kinds on which the code is silent do not count; Missing where it is silent on all.
        """
        found = {kind.label: self.limit(sheet, quantity, kind, facts, where) for kind in sorted(kinds)}
        stated = {float(value): value for value in found.values() if isinstance(value, Worked)}
        if len(stated) == 1 and all(isinstance(value, Worked) or value.stated_nowhere for value in found.values()):
            return next(iter(stated.values()))
        kind = LIMIT_KINDS[quantity]
        choose = least if kind.sense is Sense.AT_MOST else greatest
        return choose(kind.label, list(found.items()), kind.measure, ARITHMETIC)

    def _silence(self, quantity: str, kind: AttractionKind | None, facts: Mapping[str, Fact], for_whom: str) -> Missing:
        """What is missing where no limit holds: a fact that the limits ask for, or a code that says something."""
        wanted = self.basis.facts_wanted(quantity, kind, facts)
        key = (quantity, for_whom, *wanted)
        if key not in self._silences:
            name, _, which = LIMIT_KINDS[quantity].label.lower().partition(", ")
            label = f"the {which} {name}" if which in ("least", "greatest") else LIMIT_KINDS[quantity].label.lower()
            self._silences[key] = (
                Missing(
                    f"The code basis limits {label} for {for_whom} by {' and '.join(wanted)}, which is not known yet."
                )
                if wanted
                else Missing(
                    f"The code basis is silent on {label} for {for_whom}. "
                    "Add a rule set, amend it, or set this figure by hand.",
                    silent=True,
                )
            )
        return self._silences[key]

    def _leaf(self, limit: Limit) -> Worked:
        if limit.key not in self._limits:
            kind = LIMIT_KINDS[limit.quantity]
            self._limits[limit.key] = Worked(
                limit.value,
                Step(
                    f"{kind.label}, {kind.sense.value}",
                    limit.source,
                    measure=kind.measure,
                    note=limit.note,
                    limit=limit.key,
                ),
            )
        return self._limits[limit.key]

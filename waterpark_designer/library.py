"""What the program ships and every design draws on: rule sets and generic nominal sizes."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from waterpark_designer.catalogue.catalogue import read_generic_catalogue
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.design_site import design_site
from waterpark_designer.model.catalogue import CatalogueItem
from waterpark_designer.model.site import Site
from waterpark_designer.rules.rule_file import read_rule_sets
from waterpark_designer.rules.rule_set import RuleSet, code_basis


@dataclass(frozen=True, slots=True)
class Library:
    """Rule sets by key and the generic catalogue, read once."""

    rule_sets: Mapping[str, RuleSet]
    catalogue: tuple[CatalogueItem, ...]

    def design(self, site: Site, previous: SiteDesign | None = None) -> SiteDesign:
        """The design of a site; `previous` lets what did not change be kept."""
        if previous and site.code_basis == previous.site.code_basis and site.amendments == previous.site.amendments:
            basis = previous.basis
        else:
            basis = code_basis(site.code_basis, site.amendments, self.rule_sets)
        return design_site(site, basis, self.catalogue, previous)


def read_library(resources: Path) -> Library:
    """The library in a resources folder."""
    return Library(read_rule_sets(resources / "rules"), read_generic_catalogue(resources / "catalogue"))

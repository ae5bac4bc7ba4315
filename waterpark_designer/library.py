"""What the program ships and every design draws on: rule sets, nominal sizes, standard pipes, motors and drives."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from waterpark_designer.catalogue.catalogue import read_generic_catalogue
from waterpark_designer.drive_tables import read_drive_table
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.design_site import design_site
from waterpark_designer.engine.stock import Stock
from waterpark_designer.model.catalogue import CatalogueItem
from waterpark_designer.model.site import Site
from waterpark_designer.motor_tables import read_motor_ratings
from waterpark_designer.pipe_tables import read_pipe_materials, read_pipe_sizes
from waterpark_designer.rules.rule_file import read_rule_sets
from waterpark_designer.rules.rule_set import RuleSet, code_basis


@dataclass(frozen=True, slots=True)
class Library:
    """Rule sets by key, and what designs choose from, read once."""

    rule_sets: Mapping[str, RuleSet]
    stock: Stock

    @property
    def catalogue(self) -> tuple[CatalogueItem, ...]:
        """The generic nominal sizes."""
        return self.stock.catalogue

    def design(self, site: Site, previous: SiteDesign | None = None) -> SiteDesign:
        """The design of a site; `previous` lets what did not change be kept."""
        if previous and site.code_basis == previous.site.code_basis and site.amendments == previous.site.amendments:
            basis = previous.basis
        else:
            basis = code_basis(site.code_basis, site.amendments, self.rule_sets)
        return design_site(site, basis, self.stock, previous)


def read_library(resources: Path) -> Library:
    """The library in a resources folder."""
    stock = Stock(
        catalogue=read_generic_catalogue(resources / "catalogue"),
        pipe_sizes=read_pipe_sizes(resources),
        pipe_materials=read_pipe_materials(resources),
        motors=read_motor_ratings(resources),
        drives=read_drive_table(resources),
    )
    return Library(read_rule_sets(resources / "rules"), stock)

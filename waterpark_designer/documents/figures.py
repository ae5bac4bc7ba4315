"""Figures of nodes as table cells."""

from waterpark_designer.documents.table import Cell, number
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.figure_kinds import FIGURE_KINDS
from waterpark_designer.engine.worked import Missing

NOT_HERE = ""


def figure_cell(design: SiteDesign, node: str, key: str) -> Cell:
    """A figure in a column of its measure: blank where the node has no such figure, a dash where it is missing."""
    figure = design.sheets[node].figures.get(key)
    return NOT_HERE if figure is None else number(figure.value, FIGURE_KINDS[key].measure)


def figure_cells(design: SiteDesign, node: str, keys: tuple[str, ...]) -> tuple[Cell, ...]:
    """Several figures of one node, in the order of their keys."""
    return tuple(figure_cell(design, node, key) for key in keys)


def needed(design: SiteDesign, node: str, keys: tuple[str, ...]) -> tuple[str, ...]:
    """What is needed for the figures that cannot be computed yet, each sentence once."""
    figures = design.sheets[node].figures
    values = (figures[key].value for key in keys if key in figures)
    return tuple(dict.fromkeys(value.needs for value in values if isinstance(value, Missing)))

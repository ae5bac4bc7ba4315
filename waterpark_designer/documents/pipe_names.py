"""How pipes are named on paper: by nominal size in inches in US units, by nominal diameter (DN) in metric ones."""

import re

from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.size_pipes import pipe_name
from waterpark_designer.model.kinds import PipeStandard
from waterpark_designer.units import UnitSystem

NOMINAL_DIAMETERS = {
    "0.5": 15,
    "0.75": 20,
    "1": 25,
    "1.25": 32,
    "1.5": 40,
    "2": 50,
    "2.5": 65,
    "3": 80,
    "4": 100,
    "5": 125,
    "6": 150,
    "8": 200,
    "10": 250,
    "12": 300,
    "14": 350,
    "16": 400,
    "18": 450,
    "20": 500,
    "24": 600,
}
"""DN by nominal size in inches: ASME B36.10M, which pairs them as ISO 6708 does (from memory)."""
NAMED = re.compile(rf"({'|'.join(re.escape(standard.label) for standard in PipeStandard)}), ([\d.]+) in\b")


def in_units(text: str, system: UnitSystem) -> str:
    """The text with the pipes it names, such as "PVC Sch 40, 6 in", named as the unit system does."""
    return text if system is UnitSystem.US else NAMED.sub(_by_diameter, text)


def pipe_text(sheet: Sheet, system: UnitSystem) -> str:
    """Standard and size of a run in words: "PVC Sch 40, 6 in" or "PVC Sch 40, DN 150"."""
    return in_units(pipe_name(sheet), system)


def _by_diameter(named: re.Match[str]) -> str:
    diameter = NOMINAL_DIAMETERS.get(named[2])
    return f"{named[1]}, DN {diameter}" if diameter else named[0]

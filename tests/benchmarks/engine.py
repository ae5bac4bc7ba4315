"""Engine: full computation, growth, and one edit to all figures fresh."""

import math
from collections.abc import Iterator

from tests.benchmarks.timing import line, median_of, median_seconds
from tests.large_site import large_site
from waterpark_designer.app import tune_memory
from waterpark_designer.library import Library, read_library
from waterpark_designer.model.edits import revise
from waterpark_designer.model.site import Site
from waterpark_designer.resources import resources_folder

FORMULAS_PER_BODY = 30


def measurements() -> Iterator[str]:
    """Full computation at 10, 100 and 1,000 bodies, and an edit at 30 and 1,000."""
    tune_memory()
    library = read_library(resources_folder())
    full = {count: full_seconds(library, large_site(count)) for count in (10, 100, 1000)}
    for count, seconds in full.items():
        goal = "1000 ms" if count == 1000 else ""
        yield line(f"full computation, {count} bodies", seconds, bare_arithmetic(count), "bare floats", goal)
    growth = math.log10(full[1000] / full[100])
    yield f"  growth from 100 to 1,000 bodies: n^{growth:.2f}   goal n^1.1"
    piped = full_seconds(library, large_site(1000, piped=True))
    yield line(
        "full computation, 1000 bodies with pipes and pumps", piped, bare_arithmetic(1000), "bare floats", "2000 ms"
    )
    wet = edit_seconds(library, large_site(30, piped=True))
    yield line("one edit, 30 bodies with pipes and pumps", wet, bare_arithmetic(30), "bare floats", "8 ms")
    for count, goal in ((30, "5 ms"), (1000, "16 ms")):
        yield line(
            f"one edit to all figures fresh, {count} bodies",
            edit_seconds(library, large_site(count)),
            bare_arithmetic(count),
            "bare floats",
            goal,
        )


def full_seconds(library: Library, site: Site) -> float:
    """Median time of a design from nothing."""
    return median_seconds(lambda: library.design(site))


def bare_arithmetic(count: int) -> float:
    """As many products and quotients of plain floats as a design of this many bodies has formulas."""
    return median_seconds(lambda: [1.5 * (body + 2.0) / 3.25 for body in range(count * FORMULAS_PER_BODY)])


def edit_seconds(library: Library, site: Site) -> float:
    """Median time from a changed entry to the new design."""
    design = library.design(site)
    body = site.systems[len(site.systems) // 2].attractions[0]

    def edit(temperature: float) -> None:
        library.design(revise(site, body.id, water_temperature=temperature), design)

    return median_of([lambda step=step: edit(300.0 + step / 10) for step in range(1, 22)])

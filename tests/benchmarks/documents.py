"""Documents: every PDF of the resort sample, against one empty page."""

import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.timing import line, median_seconds
from waterpark_designer.documents.export import export
from waterpark_designer.documents.register import DOCUMENTS
from waterpark_designer.library import read_library
from waterpark_designer.resources import resources_folder, samples_folder
from waterpark_designer.storage.project_file import load_project


def measurements() -> Iterator[str]:
    """Each document as PDF."""
    site = load_project(samples_folder() / "resort-park.waterpark").site
    design = read_library(resources_folder()).design(site)
    with tempfile.TemporaryDirectory() as folder:
        empty = median_seconds(lambda: empty_page(Path(folder) / "empty.pdf"), runs=5)
        for name in DOCUMENTS:
            path = Path(folder) / f"{name}.pdf"
            seconds = median_seconds(lambda name=name, path=path: export(design, name, path), runs=3)
            yield line(f"{name}.pdf, {path.stat().st_size / 1000:.0f} kB", seconds, empty, "an empty page")


def empty_page(path: Path) -> None:
    """One page with nothing on it."""
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(str(path))
    canvas.showPage()
    canvas.save()

"""Files: opening and saving 1,000 bodies of water."""

import itertools
import json
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.timing import line, median_seconds
from tests.large_site import large_site
from waterpark_designer.storage.project_file import load_project, save_project


def measurements() -> Iterator[str]:
    """Opening and saving, against plain JSON of the same text."""
    site = large_site(1000)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "large.waterpark"
        save_project(site, path, None)
        text = path.read_text(encoding="utf-8")
        data = json.loads(text)
        plain = Path(folder) / "plain.json"
        yield line(
            "open, 1,000 bodies",
            median_seconds(lambda: load_project(path)),
            median_seconds(lambda: json.loads(path.read_bytes())),
            "json.loads",
        )
        # Saving what stands there already writes nothing, so each save is of another revision.
        revisions = itertools.cycle([site.revised(revision="B"), site])
        yield line(
            "save, 1,000 bodies",
            median_seconds(lambda: save_project(next(revisions), path, None)),
            median_seconds(lambda: plain.write_text(json.dumps(data, indent=1))),
            "json.dumps and write",
        )
        yield f"  size of the file: {len(text) / 1e6:.2f} MB"

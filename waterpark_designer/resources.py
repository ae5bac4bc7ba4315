"""Where the program's data files are, in a wheel, an editable install or a plain clone."""

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent


def resources_folder() -> Path:
    """The resources folder: inside the package in a wheel, beside it in a clone."""
    return _first_folder(PACKAGE / "resources", PACKAGE.parent / "resources")


def samples_folder() -> Path:
    """The sample projects: inside the resources in a wheel, beside the package in a clone."""
    return _first_folder(PACKAGE / "resources" / "sample_projects", PACKAGE.parent / "sample_projects")


def _first_folder(*candidates: Path) -> Path:
    for candidate in candidates:
        if candidate.is_dir():
            return candidate
    raise FileNotFoundError(f"The program's data is not installed; looked in {candidates[0]}.")

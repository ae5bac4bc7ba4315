"""The text of a project file, from a site and back.

JSON with one field to a line and the fields in the order of the model, so that two versions compare well as
text. Numbers are in SI units.
"""

import json
from typing import Any, Final, Literal

from pydantic import BaseModel, ConfigDict, ValidationError

from waterpark_designer.model.site import Site
from waterpark_designer.model.walk import duplicate_ids, walk
from waterpark_designer.storage import migrations
from waterpark_designer.storage.complaints import complaints
from waterpark_designer.storage.errors import ProjectFileError

FORMAT: Final = "waterpark-project"
LARGEST_FILE = 64_000_000
MOST_FIELDS = 1000
MOST_GROUPS = 1_000_000
"""Groups of fields in a file; the largest that can be opened has about half as many."""
FIELDS = ("format", "format_version", "site")


class ProjectData(BaseModel):
    """What stands in a project file."""

    model_config = ConfigDict(frozen=True)

    format: Literal["waterpark-project"] = FORMAT
    format_version: int
    site: Site


class _Refused(ValueError):
    """Found while the JSON was being read."""


def project_text(site: Site) -> bytes:
    """A site as the content of a project file. Raises ProjectFileError where it could not be opened again."""
    data = ProjectData(format_version=migrations.CURRENT, site=site)
    content = data.model_dump_json(indent=1).encode() + b"\n"
    if len(content) > LARGEST_FILE:
        raise ProjectFileError("It would be larger than 64 MB. Divide the site into several projects.")
    return content


def site_of_text(content: bytes) -> Site:
    """The site in the content of a project file. Raises ProjectFileError with the reason alone."""
    return site_of_data(json_of_text(content))


def json_of_text(content: bytes) -> Any:
    """The JSON in a file, refusing what JSON readers usually let pass. Raises ProjectFileError."""
    if not content.strip(b"\0 \t\r\n"):
        raise ProjectFileError("It is empty.")
    try:
        text = content.decode("utf-8-sig")
        return json.loads(text, object_pairs_hook=_Groups().checked, parse_constant=_no_constant)
    except UnicodeDecodeError as error:
        raise ProjectFileError(f"It is not UTF-8 text (byte {error.start:,}): damaged or foreign.") from error
    except _Refused as refused:
        raise ProjectFileError(str(refused)) from None
    except json.JSONDecodeError as error:
        raise ProjectFileError(_where_it_breaks(error)) from error
    except RecursionError:
        raise ProjectFileError("It is nested more deeply than any project.") from None
    except ValueError as error:
        raise ProjectFileError("It has a number that cannot be read: it has thousands of digits.") from error


def site_of_data(data: Any) -> Site:
    """The site in the JSON of a project file. Raises ProjectFileError with the reason alone."""
    raw = _site_in_current_version(data)
    try:
        # Validated from JSON, because strict models take lists for tuples and words for choices only there.
        site = Site.model_validate_json(json.dumps(raw))
    except ValidationError as error:
        raise ProjectFileError(_complaints(error, raw)) from error
    twice = duplicate_ids(site)
    if twice:
        raise ProjectFileError(_duplicates(site, twice))
    return site


def _site_in_current_version(data: Any) -> dict[str, Any]:
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        raise ProjectFileError("It is not a project of this program.")
    version = data.get("format_version")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        raise ProjectFileError("Its “format_version” must be a whole number from 1 up.")
    migrations.refuse_newer(version)
    unknown = [f"“{name[:60]}”" for name in data if name not in FIELDS]
    if unknown:
        raise ProjectFileError(f"It has fields that this program does not know: {', '.join(unknown[:10])}.")
    if not isinstance(data.get("site"), dict):
        raise ProjectFileError("It has no site in it: “site” must be a group of fields.")
    return migrations.to_current(data["site"], version)


class _Groups:
    """Checks each group of fields in a file as it is read, and how many there are."""

    def __init__(self) -> None:
        self._count = 0

    def checked(self, pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        self._count += 1
        if self._count > MOST_GROUPS or len(pairs) > MOST_FIELDS:
            raise _Refused("It holds far more than any project.")
        fields = dict(pairs)
        if len(fields) < len(pairs):
            names = [name for name, _ in pairs]
            twice = next(name for name in names if names.count(name) > 1)
            raise _Refused(f"The field “{twice[:60]}” stands twice in the same place. Keep one of the two.")
        return fields


def _no_constant(word: str) -> None:
    raise _Refused(f"It has “{word}” where a number belongs. Write an ordinary number.")


def _where_it_breaks(error: json.JSONDecodeError) -> str:
    place = f"line {error.lineno}, column {error.colno}"
    if not error.doc[error.pos :].strip() or error.msg.startswith("Unterminated string"):
        return f"It breaks off at {place}: a part of it is missing."
    return f"It is damaged at {place}: {error.msg}."


def _complaints(error: ValidationError, raw: Any) -> str:
    if any(detail["type"] == "json_invalid" for detail in error.errors(include_url=False)):
        return "It is nested more deeply than any project, or has text that is not Unicode."
    return complaints(error, raw)


def _duplicates(site: Site, twice: tuple[str, ...]) -> str:
    ids = ", ".join(
        f"“{identity}” ({', '.join(node.name for node in walk(site) if node.id == identity)})" for identity in twice[:5]
    )
    return f"Several parts have the same id: {ids}. Give each an id of its own."

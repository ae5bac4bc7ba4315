"""What validation found wrong in a project file, with the place in words."""

from collections.abc import Sequence
from typing import Any

from pydantic import ValidationError

MOST_SHOWN = 10
LONGEST_SHOWN = 60

MESSAGES: dict[str, str] = {
    "missing": "is missing.",
    "extra_forbidden": "is not a field that this program knows.",
    "string_type": "must be text.",
    "string_unicode": "must be text in Unicode.",
    "float_type": "must be a number.",
    "finite_number": "must be an ordinary number.",
    "int_type": "must be a whole number.",
    "int_from_float": "must be a whole number.",
    "int_parsing_size": "is too large a number.",
    "bool_type": "must be true or false.",
    "model_type": "must be a group of fields.",
    "model_attributes_type": "must be a group of fields.",
    "dict_type": "must be a group of fields.",
    "tuple_type": "must be a list.",
    "greater_than": "must be more than {gt:,.10g}.",
    "greater_than_equal": "must be at least {ge:,.10g}.",
    "less_than": "must be less than {lt:,.10g}.",
    "less_than_equal": "must be at most {le:,.10g}.",
    "string_too_short": "must have at least {min_length} characters.",
    "string_too_long": "must have at most {max_length} characters.",
    "string_pattern_mismatch": "has characters that do not belong there.",
    "too_short": "must have at least {min_length} entries.",
    "too_long": "must have at most {max_length} entries.",
    "enum": "must be one of {expected}.",
    "literal_error": "must be one of {expected}.",
    "union_tag_invalid": "must be one of {expected_tags}.",
    "union_tag_not_found": "does not say what it is: its field {discriminator} is missing.",
    "value_error": "{error}",
}


def complaints(error: ValidationError, data: Any) -> str:
    """Every problem with its place, one to a line; `data` is what was validated."""
    details = _at_their_roots(error.errors(include_url=False))
    lines = [_complaint(detail["type"], detail, data) for detail in details[:MOST_SHOWN]]
    if len(details) > MOST_SHOWN:
        lines.append(f"… and {len(details) - MOST_SHOWN} more.")
    return "\n".join(lines)


def _at_their_roots(details: Sequence[Any]) -> list[Any]:
    """The problems without those lists that count as empty only because an entry of theirs is wrong."""
    places = [detail["loc"] for detail in details]

    def follows(place: tuple[int | str, ...]) -> bool:
        return any(len(other) > len(place) and other[: len(place)] == place for other in places)

    return [detail for detail in details if detail["type"] != "too_short" or not follows(detail["loc"])]


def _complaint(kind: str, detail: Any, data: Any) -> str:
    message = MESSAGES.get(kind)
    if detail.get("ctx", {}).get("min_length") == 1:
        message = "must not be empty."
    text = message.format(**detail.get("ctx", {})) if message else f"{detail['msg']}."
    found = detail["input"]
    if kind not in ("missing", "extra_forbidden") and isinstance(found, str | int | float):
        text += f" It is {_shortened(found)}."
    place = place_in_words(detail["loc"], data)
    return f"{place}: {text}" if kind == "value_error" else f"{place} {text}"


def _shortened(found: str | int | float) -> str:
    if isinstance(found, bool):
        return str(found).lower()
    text = f"“{found}”" if isinstance(found, str) else repr(found)
    return text if len(text) <= LONGEST_SHOWN else text[:LONGEST_SHOWN] + "…"


def place_in_words(location: tuple[int | str, ...], data: Any) -> str:
    """Where in the file, such as "System 1 “Main loop”, attraction 2 “River”, target salinity"."""
    words: list[str] = []
    for step in location:
        if isinstance(step, int):
            data = data[step] if isinstance(data, list) and step < len(data) else None
            words.append(f"{_entry_of(words.pop())} {step + 1}{_named(data)}")
        elif isinstance(data, dict) and step not in data and step in data.values():
            # The tag of a choice between shapes is in the location, but not a field of its own.
            continue
        else:
            data = data.get(step) if isinstance(data, dict) else None
            words.append(step.replace("_", " "))
    place = ", ".join(words) or "The site"
    return place[:1].upper() + place[1:]


def _entry_of(list_name: str) -> str:
    return list_name if list_name == "code basis" else list_name.removesuffix("s")


def _named(data: Any) -> str:
    name = data.get("name") if isinstance(data, dict) else None
    return f" “{name[:LONGEST_SHOWN]}”" if isinstance(name, str) and name else ""

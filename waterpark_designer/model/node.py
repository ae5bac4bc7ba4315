"""What every part of a site has in common: frozen, validated, and with an identity of its own."""

import uuid
from typing import Annotated, Any, Self, TypeVar

from pydantic import BaseModel, ConfigDict, FailFast, Field, StringConstraints

AnyPart = TypeVar("AnyPart")
# Checked up to the first entry that is wrong: a file of millions of wrong entries is refused at once.
Many = Annotated[tuple[AnyPart, ...], FailFast()]
SHORTEST_REASON, LONGEST_REASON = 3, 1000
Reason = Annotated[str, StringConstraints(min_length=SHORTEST_REASON, max_length=LONGEST_REASON, strip_whitespace=True)]
LARGEST_FIGURE = 1e12
"""In SI units. No limit and no figure of a plant comes near it, and what is worked from it does not overflow."""
Text = Annotated[str, StringConstraints(max_length=4000)]
LONGEST_NAME = 200
Name = Annotated[str, StringConstraints(min_length=1, max_length=LONGEST_NAME, strip_whitespace=True)]
Identity = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9_-]{1,40}$")]


class Part(BaseModel):
    """Frozen, strict data: unknown fields, NaN, infinity and numbers written as text are errors."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, allow_inf_nan=False)

    def revised(self, **changes: Any) -> Self:
        """A copy with changes, validated as a whole; untouched parts keep their identity."""
        return type(self).model_validate({**dict(self), **changes})


class Override(Part):
    """A figure that the designer sets against the computed one, and why."""

    figure: Annotated[str, StringConstraints(min_length=1, max_length=60)] = Field(
        description="Key of the figure that is set by hand."
    )
    value: float = Field(
        ge=-LARGEST_FIGURE, le=LARGEST_FIGURE, description="The value that is used instead, in SI units."
    )
    reason: Reason = Field(description="Why the computed figure is not used; printed in every document.")


class Node(Part):
    """A part of the site that can be selected, named, overridden and moved."""

    id: Identity = Field(default_factory=lambda: new_id())
    name: Name
    notes: Text = Field("", description="Remarks for whoever reads this next.")
    overrides: Many[Override] = Field((), max_length=500, description="Figures set by hand, with the reasons.")

    @property
    def children(self) -> "tuple[Node, ...]":
        return ()

    def with_children(self, children: "tuple[Node, ...]") -> "Node":
        raise TypeError(f"a {type(self).__name__} has no parts")

    def override_of(self, figure: str) -> Override | None:
        return next((override for override in self.overrides if override.figure == figure), None)


def new_id() -> str:
    """A short identity, unique for all practical purposes, that reads well in a text diff."""
    return uuid.uuid4().hex[:12]

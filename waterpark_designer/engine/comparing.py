"""How a check compares: a value with a limit, a duty with what was done, always with its clause and a remedy."""

from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Missing, Value, Worked, governing_sources
from waterpark_designer.rules.limit_kinds import Sense
from waterpark_designer.sources import Provenance, Source
from waterpark_designer.units import Measure

SLACK = 1e-6
ABOUT = 0.1
"""How far off a figure that a code calls approximate is a matter of judgement: a tenth, our reading."""
SENSE = Source("Sense check", Provenance.COMMON_PRACTICE)


def held_to(
    sheet: Sheet,
    key: str,
    title: str,
    figure: str,
    sense: Sense,
    limit: Value,
    remedy: str,
    *,
    value: Value | None = None,
    measure: Measure | None = None,
    sources: tuple[Source, ...] = (),
    otherwise: Status = Status.NOT_MET,
) -> None:
    """Check a figure against a limit and enter the finding: silent without a limit, unknown without a value.

    `value` stands for the figure where what is checked is derived from it, `measure` for its measure; `sources` for
    the clauses behind the limit; `otherwise` is what it means where the limit is not kept. What comes within a tenth
    of a limit that the code itself calls approximate is a caution.
    """
    value = sheet[figure] if value is None else value
    measure = measure or sheet.figures[figure].kind.measure
    status, clauses = _status(value, sense, limit, otherwise), sources
    if isinstance(limit, Worked):
        clauses = sources or governing_sources(limit) or (limit.step.source,)
    lacking = limit if isinstance(limit, Missing) else value if isinstance(value, Missing) else None
    sheet.findings.append(
        Finding(
            sheet.node.id,
            key,
            title,
            status,
            figure,
            value=float(value) if isinstance(value, Worked) else None,
            limit=limit if isinstance(limit, Worked) else None,
            measure=measure,
            sense=sense.value,
            clause="; ".join(source.text for source in clauses),
            provenance="; ".join(dict.fromkeys(source.provenance.value for source in clauses)),
            remedy=lacking.needs if lacking is not None else "" if status is Status.MET else remedy,
        )
    )


def _status(value: Value, sense: Sense, limit: Value, otherwise: Status) -> Status:
    if isinstance(limit, Missing):
        return Status.SILENT if limit.stated_nowhere else Status.UNKNOWN
    if isinstance(value, Missing):
        return Status.UNKNOWN
    if _within(value, sense, limit, SLACK):
        return Status.MET
    return Status.CAUTION if limit.step.about and _within(value, sense, limit, ABOUT) else otherwise


def _within(value: float, sense: Sense, limit: float, slack: float) -> bool:
    return value <= limit * (1 + slack) if sense is Sense.AT_MOST else value >= limit * (1 - slack)


def duty(sheet: Sheet, key: str, title: str, required: Value, done: bool, remedy: str, figure: str = "") -> None:
    """Check a duty that a code lays down and enter the finding; nothing where it lays down none."""
    if isinstance(required, Missing) or not required:
        return
    source = (governing_sources(required) or (required.step.source,))[0]
    sheet.findings.append(
        Finding(
            sheet.node.id,
            key,
            title,
            Status.MET if done else Status.NOT_MET,
            figure if figure in sheet.figures else "",
            clause=source.text,
            provenance=source.provenance.value,
            remedy="" if done else remedy,
        )
    )


def said_nothing(sheet: Sheet, key: str, title: str, figure: str, lack: Missing, advice: str = "") -> None:
    """Enter that a figure cannot be had, because the code is silent or something is not known yet."""
    status = Status.SILENT if lack.stated_nowhere else Status.UNKNOWN
    remedy = f"{lack.needs} {advice}".strip() if lack.stated_nowhere else lack.needs
    sheet.findings.append(Finding(sheet.node.id, key, title, status, figure, remedy=remedy))


def noted(
    sheet: Sheet,
    key: str,
    title: str,
    status: Status,
    remedy: str,
    figure: str = "",
    value: Value | None = None,
    limit: Value | None = None,
    *,
    source: Source = SENSE,
) -> None:
    """Enter what is worth a look; `value` and `limit`, in the figure's measure, where numbers say why."""
    sheet.findings.append(
        Finding(
            sheet.node.id,
            key,
            title,
            status,
            figure,
            value=float(value) if isinstance(value, Worked) else None,
            limit=limit if isinstance(limit, Worked) else None,
            measure=sheet.figures[figure].kind.measure if figure in sheet.figures else None,
            clause=source.text,
            provenance=source.provenance.value,
            remedy=remedy,
        )
    )

"""The checks document: every finding by status, with its limit, clause and what would put it right."""

from waterpark_designer.documents.blocks import Paragraph
from waterpark_designer.documents.document import Section
from waterpark_designer.documents.table import Cell, Column, Number, Row, Table, count, group, without_blank_columns
from waterpark_designer.documents.tree import PATH_JOINT, Place, places
from waterpark_designer.documents.workings import with_provenance
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Finding, Status
from waterpark_designer.model.hydraulics import PipeRun
from waterpark_designer.units import UnitSystem

MEANINGS = {
    Status.NOT_MET: "The design breaks this limit, or a check of sense failed.",
    Status.CAUTION: "No limit is broken; someone should look at it.",
    Status.UNKNOWN: "An entry is missing; the check says which.",
    Status.SILENT: "The code basis states no limit. Nothing was assumed in its place.",
    Status.MET: "The design keeps this limit.",
}

TALLIED = {
    Status.NOT_MET: "not met",
    Status.CAUTION: "to look at",
    Status.UNKNOWN: "not to be told yet",
    Status.SILENT: "where the code is silent",
    Status.MET: "met",
}


def checks_sections(design: SiteDesign, system: UnitSystem) -> tuple[Section, ...]:
    """The tally, then the findings of each status, the worst first."""
    tally = Section("Checks", (Paragraph(tally_text(design)), tally_table(design)))
    return (
        tally,
        *(
            Section(
                _title(status), (without_blank_columns(findings_table(design, (status,), _title(status))),), level=2
            )
            for status in Status
            if design.count(status)
        ),
    )


def tally_text(design: SiteDesign) -> str:
    """The checks in one sentence: "41 met, 1 not met, 3 where the code is silent."."""
    counts = ((design.count(status), TALLIED[status]) for status in (Status.MET, *list(Status)[:-1]))
    told = ", ".join(f"{number} {label}" for number, label in counts if number)
    return f"{told}." if told else "There is nothing to check yet."


def tally_table(design: SiteDesign) -> Table:
    """How many findings have each status, and what the status means."""
    columns = (
        Column("Status", weight=1.4),
        Column("Checks", numeric=True, weight=0.7),
        Column("What it means", weight=5.0),
    )
    rows = tuple(Row((status_text(status), count(design.count(status)), MEANINGS[status])) for status in Status)
    return Table("Checks by status", columns, rows)


def _title(status: Status) -> str:
    return f"{status.mark} {status.label.capitalize()}"


def findings_table(design: SiteDesign, statuses: tuple[Status, ...], title: str = "Checks") -> Table:
    """The findings of these statuses in their order, each by node in tree order, those of a circuit's runs together."""
    columns = (
        Column("Status", weight=1.0),
        Column("Check", weight=2.2),
        Column("Value", weight=1.1),
        Column("Limit", weight=1.3),
        Column("Clause", weight=3.2),
        Column("What would put it right", weight=3.0),
    )
    return Table(title, columns, tuple(_rows(design, statuses)))


def _rows(design: SiteDesign, statuses: tuple[Status, ...]) -> list[Row]:
    """Each status after the other, each in tree order."""
    found, rows = places(design.site), list[Row]()
    for status in statuses:
        above = ""
        for finding in design.findings:
            if finding.status is status:
                place = found[finding.node]
                if _heading(place) != above:
                    above = _heading(place)
                    rows.append(group(above, finding.node))
                rows.append(finding_row(finding, place))
    return rows


def _heading(place: Place) -> str:
    """The node of a finding, or for a pipe run the circuit it belongs to: most runs have one or two findings."""
    return f"{PATH_JOINT.join(place.path[:-1])}: pipe runs" if isinstance(place.node, PipeRun) else place.where


def finding_row(finding: Finding, place: Place) -> Row:
    """One finding as a row of `findings_table`; that of a pipe run names it."""
    title = finding.title
    if isinstance(place.node, PipeRun):
        title = f"{place.node.name}: {title[:1].lower()}{title[1:]}"
    return Row(
        (
            status_text(finding.status),
            title,
            value_cell(finding),
            limit_cell(finding),
            with_provenance(finding.clause, finding.provenance),
            finding.remedy,
        ),
        node=finding.node,
        key=finding.key,
    )


def status_text(status: Status) -> str:
    """A sign and a word, so that status never rests on colour."""
    return f"{status.mark} {status.label}"


def value_cell(finding: Finding) -> Cell:
    """What was checked; blank where there is nothing to compare."""
    if finding.value is None or finding.measure is None:
        return ""
    return Number(finding.value, finding.measure)


def limit_cell(finding: Finding) -> Cell:
    """What it was checked against, with its sense; blank where there is nothing to compare."""
    if finding.limit is None or finding.measure is None:
        return ""
    return Number(float(finding.limit), finding.measure, before=finding.sense or "against")

"""The commands that need no window and no display: figures, checks, export."""

import argparse
import json
import os
import sys
from collections.abc import Iterable, Sequence
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import NoReturn

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.findings import Status
from waterpark_designer.library import read_library
from waterpark_designer.resources import resources_folder
from waterpark_designer.storage.project_file import SUFFIX, ProjectFileError, load_project
from waterpark_designer.units import UnitSystem

PROGRAM = "waterpark-designer"
DONE, NOT_MET, NOT_WRITTEN, UNREADABLE = 0, 1, 1, 2

DESCRIPTION = """\
Design and start-up of the water treatment of sites with several bodies of water: volumes, turnover, filtration,
disinfection and salt of each body, each recirculation system and the whole site, with the working behind every figure.

Without a command the window opens, with the project in FILE where one is named. The commands below need no window
and no display; they read a project file and leave it as it is."""

EPILOG = """\
what the commands print
  figures FILE   every figure of every part of the site, by discipline: label, symbol, value, unit and source; a figure
                 set by hand with its reason, a figure that cannot be told yet with what it needs. With --format json
                 also formula, numbers put in, SI values, duty and operating points of pumps, and the checks.
  checks FILE    every check with its value, limit, clause and remedy, and the tally.
  export FILE    nothing; writes the document to the file named with --to.
  Text goes to the standard output, what went wrong to the standard error as one sentence.

documents
{documents}

exit codes
  0  done; for checks: nothing is not met. A check that is silent, cannot be told yet or wants a look is no failure.
  1  checks: some are not met. export: the document was not written; what stood there before is still there.
  2  the project cannot be read, or the command was not understood.

examples
  {program} park.waterpark
  {program} figures park.waterpark --units si
  {program} figures park.waterpark --format json > park.json
  {program} checks park.waterpark && echo "all met"
  {program} export park.waterpark --document equipment-schedule --to schedule.xlsx
  {program} export park.waterpark --document all --to "park, revision B.pdf"

All figures are preliminary, for review by a licensed engineer."""


def run(arguments: Sequence[str]) -> int:
    """Run one command and return its exit code; the manual and misuse end in SystemExit, as argparse has it."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            # What is redirected shall not depend on the machine's own encoding.
            stream.reconfigure(encoding="utf-8", errors="replace")
    options = make_parser().parse_args(arguments)
    try:
        design = _read_design(Path(options.file))
    except ProjectFileError as error:
        return _refuse(str(error), UNREADABLE)
    units = UnitSystem(options.units) if options.units else design.site.units
    code: int = options.run(design, units, options)
    return code


def make_parser() -> argparse.ArgumentParser:
    """The commands and their manual."""
    from waterpark_designer.documents.register import DOCUMENTS

    listed = "\n".join(f"  {kind.name:<20} {kind.description}" for kind in DOCUMENTS.values())
    parser = argparse.ArgumentParser(
        prog=PROGRAM,
        description=DESCRIPTION,
        epilog=EPILOG.format(documents=listed, program=PROGRAM),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="print the version and end")
    commands = parser.add_subparsers(metavar="command", required=True)

    figures = _command(commands, "figures", _figures, "print every figure")
    figures.add_argument(
        "--format", choices=("table", "json"), default="table", help="aligned text (the default) or JSON"
    )
    _command(commands, "checks", _checks, "print every check; ends with 1 where some are not met")
    export = _command(commands, "export", _export, "write a document as PDF, XLSX or CSV")
    export.add_argument(
        "--document", required=True, choices=tuple(DOCUMENTS), metavar="NAME", help="one of: " + ", ".join(DOCUMENTS)
    )
    export.add_argument(
        "--to", required=True, metavar="OUT", help="the file to write; its suffix, .pdf, .xlsx or .csv, says the form"
    )
    return parser


def _command(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]", name: str, run: object, help_text: str
) -> argparse.ArgumentParser:
    command = commands.add_parser(name, help=help_text, description=help_text.capitalize() + ".")
    command.add_argument("file", metavar="FILE", help=f"a project file (*{SUFFIX})")
    command.add_argument(
        "--units",
        choices=[system.value for system in UnitSystem],
        help="units to print in: us (US customary) or si (metric); the project's own where left out. "
        "The design stays the same.",
    )
    command.set_defaults(run=run)
    return command


class _Version(argparse.Action):
    """Looks the version up only when it is asked for."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> NoReturn:
        try:
            told = version(PROGRAM)
        except PackageNotFoundError:
            told = "(not installed)"
        print(f"{PROGRAM} {told}")
        parser.exit(DONE)


def _read_design(path: Path) -> SiteDesign:
    return read_library(resources_folder()).design(load_project(path).site)


def _figures(design: SiteDesign, units: UnitSystem, options: argparse.Namespace) -> int:
    if options.format == "json":
        from waterpark_designer.documents.as_json import design_data

        _say([json.dumps(design_data(design, units), ensure_ascii=False, indent=1, allow_nan=False)])
    else:
        from waterpark_designer.documents.as_text import figures_text

        _say(figures_text(design, units))
    return DONE


def _checks(design: SiteDesign, units: UnitSystem, _options: argparse.Namespace) -> int:
    from waterpark_designer.documents.as_text import checks_text

    _say(checks_text(design, units))
    return NOT_MET if design.count(Status.NOT_MET) else DONE


def _export(design: SiteDesign, units: UnitSystem, options: argparse.Namespace) -> int:
    from waterpark_designer.documents.export import ExportError, export

    try:
        export(design, options.document, Path(options.to), units=units)
    except ExportError as error:
        return _refuse(str(error), NOT_WRITTEN)
    return DONE


def _say(lines: Iterable[str]) -> None:
    """Print lines; a reader that has gone away, such as `head`, wants no more and hears no complaint."""
    try:
        for line in lines:
            print(line)
        sys.stdout.flush()
    except BrokenPipeError:
        # Whatever the interpreter still flushes at its end goes nowhere.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _refuse(sentence: str, code: int) -> int:
    print(f"{PROGRAM}: {sentence}", file=sys.stderr)
    return code

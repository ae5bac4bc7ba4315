"""Hydraulics and pumps: pipe runs, head, pump and motor of each circuit, take-off, openings and river current."""

from collections.abc import Iterator

from waterpark_designer.documents import safety
from waterpark_designer.documents.blocks import Paragraph
from waterpark_designer.documents.circuits import CircuitSheets, circuits
from waterpark_designer.documents.document import Block, Section
from waterpark_designer.documents.features import drawdown_table, features_table
from waterpark_designer.documents.grounds import METHODS, Grounds
from waterpark_designer.documents.head_table import head_table
from waterpark_designer.documents.jet_charts import jet_charts, jet_table
from waterpark_designer.documents.openings import current_table, openings_table, rivers, system_openings_table
from waterpark_designer.documents.pipe_runs import TAKE_OFF, runs_table, take_off_table
from waterpark_designer.documents.pump_chart import pump_chart
from waterpark_designer.documents.pumps import pump_table, site_pumps_table
from waterpark_designer.documents.table import Column, Row, Table, spaced
from waterpark_designer.documents.tanks import tank_sections
from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.engine.jet_speeds import jet_speeds
from waterpark_designer.engine.size_pipes import run_on
from waterpark_designer.model.features import Feature
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.units import ENERGY_PRICE, LENGTH, UnitSystem


def hydraulics_sections(design: SiteDesign, system: UnitSystem) -> tuple[Section, ...]:
    """The site's pumps, each circuit, then what is bought and built over the whole site."""
    found, grounds = circuits(design), Grounds(design)
    current = current_table(design, system)
    river = (Section("River current", (current, *safety.RIVER_JETS), level=2),) if current.rows else ()
    jets = tuple(_jets_section(feature, where, design) for feature, where in rivers(design))
    opening = (Paragraph(_terms(design, found, system)), site_pumps_table(found, design, system))
    return (
        Section("Hydraulics and pumps", opening),
        *(_circuit_section(circuit, design, grounds, system) for circuit in found),
        Section(TAKE_OFF, (take_off_table(found, system),), level=2),
        Section(
            "Openings",
            (openings_table(design, system), system_openings_table(found, design, system), *safety.OUTLET_COVERS),
            level=2,
        ),
        *tank_sections(design, found, grounds, system),
        *_features_sections(design, system),
        *river,
        *(section for section in jets if section is not None),
        Section(METHODS, (methods_table(grounds),), level=2),
    )


def _features_sections(design: SiteDesign, system: UnitSystem) -> tuple[Section, ...]:
    """Features and their drawdown, where the site has any."""
    features, drawdown = features_table(design, system), drawdown_table(design, system)
    tables = tuple(table for table in (features, drawdown) if table.rows)
    return (Section("Features", (*tables, *safety.FEATURE_WATER), level=2),) if tables else ()


def _jets_section(feature: Feature, where: str, design: SiteDesign) -> Section | None:
    """What other jet speeds would take; None while the thrust is not known."""
    speeds = jet_speeds(feature, design.sheets[feature.id])
    if speeds is None:
        return None
    return Section(f"Jet speed: {where}", (jet_table(speeds), *jet_charts(speeds)), level=2, listed=False)


def methods_table(grounds: Grounds) -> Table:
    """Methods and data behind heads, powers and openings that stand to be confirmed."""
    rows = tuple(Row((ground.source.text, str(ground.source.provenance))) for ground in grounds.methods_of_hydraulics())
    columns = (Column("Method or data", weight=6.0), Column("Provenance", weight=1.5))
    return Table(METHODS, columns, rows, empty="There are none: no pump has pipe runs yet.")


def _terms(design: SiteDesign, found: tuple[CircuitSheets, ...], system: UnitSystem) -> str:
    """What holds for all pipes and pumps, and how much of it is assumed."""
    terms = design.site.hydraulics
    runs = [run_on(sheet) for circuit in found for sheet in circuit.runs]
    assumed = sum(run.assumed for run in runs)
    told = f"{assumed} of {len(runs)} pipe runs are assumed, to be replaced by what the drawing shows."
    return " ".join(
        (
            f"Friction by {terms.method.label}, fittings by their loss coefficients.",
            f"Site {LENGTH.phrase(terms.altitude, system)} above sea level.",
            f"Energy at {spaced(design.site.currency, ENERGY_PRICE.phrase(terms.energy_price, system))}.",
            told if assumed else "",
        )
    ).strip()


def _circuit_section(circuit: CircuitSheets, design: SiteDesign, grounds: Grounds, system: UnitSystem) -> Section:
    blocks = tuple(_circuit_blocks(circuit, design, grounds, system))
    return Section(circuit.where, blocks, level=2, listed=isinstance(circuit.node, RecirculationSystem))


def _circuit_blocks(
    circuit: CircuitSheets, design: SiteDesign, grounds: Grounds, system: UnitSystem
) -> Iterator[Block]:
    yield runs_table(circuit, grounds, system)
    yield head_table(circuit, design, system)
    yield pump_table(circuit, design)
    curves = design.curves.get(circuit.node.id)
    if curves is not None:
        yield pump_chart(curves)

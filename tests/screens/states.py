"""The states that are looked at: empty, typical, failing, long names, many bodies of water, and every dialog."""

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from tests.large_site import large_site
from tests.screens.stage import Stage
from waterpark_designer.documents.register import build_document
from waterpark_designer.gui.amendment_dialog import AmendmentDialog
from waterpark_designer.gui.catalogue_dialog import CatalogueDialog
from waterpark_designer.gui.checks_dialog import ChecksDialog
from waterpark_designer.gui.code_basis_page import CodeBasisPage
from waterpark_designer.gui.crash_dialog import CrashDialog
from waterpark_designer.gui.folding import FoldingSection
from waterpark_designer.gui.help_dialogs import IN_PLACES, KeysDialog
from waterpark_designer.gui.lay_out_desk import HEAD, PIPES
from waterpark_designer.gui.main_window import LAY_OUT, REVIEW, SCHEDULE
from waterpark_designer.gui.message import Message
from waterpark_designer.gui.override_dialog import OverrideDialog
from waterpark_designer.gui.print_preview import PrintPreview
from waterpark_designer.gui.recovery_prompt import RecoveryPrompt
from waterpark_designer.gui.unsaved_prompt import CHOICES, WARNING
from waterpark_designer.model.attractions import Attraction
from waterpark_designer.model.devices import BroadCrest, Nozzle, TippingBucket
from waterpark_designer.model.edits import insert, revise
from waterpark_designer.model.features import Feature
from waterpark_designer.model.hydraulics import CurvePoint, PumpPlan
from waterpark_designer.model.kinds import AttractionKind, FeatureKind
from waterpark_designer.model.node import Node, Part
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_points import add_attraction, new_feature
from waterpark_designer.model.systems import RecirculationSystem
from waterpark_designer.model.walk import walk
from waterpark_designer.storage.recovery import Recoverable

State = Callable[[Stage], QWidget]
LONG = "Bassin d’activités et de détente « Les Grandes Vagues de l’Archipel » & ses toboggans, côté jardin <nord>"


def _desk(sample: str, desk: int) -> State:
    def show(stage: Stage) -> QWidget:
        window = stage.sample(sample)
        window.show_desk(desk)
        return window

    return show


def _selected(sample: str, sort: type[Node], figure: str = "") -> State:
    """The Lay out desk with the first node of a sort selected, and a figure of it opened."""

    def show(stage: Stage) -> QWidget:
        window = stage.sample(sample)
        window.show_desk(LAY_OUT)
        assert window.project is not None
        node = next(node for node in walk(window.project.site) if isinstance(node, sort))
        window.project.select(node.id)
        if figure:
            window.show_figure(node.id, figure)
        return window

    return show


def _device(sample: str, device: type[Part], figure: str = "") -> State:
    """The first feature whose device is of a kind, its entries on screen or a figure of it opened."""

    def show(stage: Stage) -> QWidget:
        window = stage.sample(sample)
        window.show_desk(LAY_OUT)
        nodes = (node for node in walk(_project(stage).site) if isinstance(node, Feature))
        node = next(node for node in nodes if isinstance(node.device, device))
        _project(stage).select(node.id)
        if figure:
            window.show_figure(node.id, figure)
        return window

    return show


def _site(site: Callable[[], Site], desk: int) -> State:
    def show(stage: Stage) -> QWidget:
        window = stage.site(site())
        window.show_desk(desk)
        return window

    return show


def _view(sample: str, sort: type[Node], view: int) -> State:
    """A view of the first loop of a sort in the middle of the Lay out desk."""

    def show(stage: Stage) -> QWidget:
        window = _selected(sample, sort)(stage)
        window.show_view(view)  # type: ignore[attr-defined]
        return window

    return show


def _view_of(site: Callable[[], Site], view: int) -> State:
    """A view of the first feature of a site, or of its first system."""

    def show(stage: Stage) -> QWidget:
        window = stage.site(site())
        loops = [node for node in walk(_project(stage).site) if isinstance(node, Feature | RecirculationSystem)]
        _project(stage).select(next((node for node in loops if isinstance(node, Feature)), loops[0]).id)
        window.show_view(view)
        return window

    return show


def _working(stage: Stage) -> QWidget:
    """The pipe runs with the working of one opened, as a check leads there."""
    window = stage.sample("resort-park")
    run = _project(stage).site.systems[0].pipe_runs[7]
    window.show_figure(run.id, "run_loss")
    return window


def _pump(stage: Stage) -> QWidget:
    """A pump's entries, with a curve from its supplier."""
    window = stage.sample("resort-park")
    project = _project(stage)
    system = project.site.systems[0]
    flow, head = (float(project.design.value(system.id, key)) for key in ("design_flow", "duty_head"))
    shape = ((0.0, 1.3), (0.5, 1.25), (1.0, 1.05), (1.4, 0.7))
    curve = tuple(CurvePoint(flow=flow * across, head=head * up) for across, up in shape)
    project.edit("Curve", revise(project.site, system.id, pump=PumpPlan(curve=curve)))
    project.select(system.id)
    window.show_view(HEAD)
    assert window.lay_out is not None
    page = window.lay_out.panel.page(RecirculationSystem)
    fold = next(each for each in page.findChildren(FoldingSection) if each.heading.text() == "Recirculation pump")
    fold.heading.setChecked(True)
    stage.settle()
    window.lay_out.panel.area.ensureWidgetVisible(fold, 0, 0)
    return window


def failing_runs() -> Site:
    """Long names, a pipe too small, and a system that is selected for it."""
    site, _ = add_attraction(empty_site(), AttractionKind.LAP_POOL)
    runs = site.systems[0].pipe_runs
    site = revise(site, runs[4].id, size="4", name=LONG, length=4321.5, elbows_90=120)
    return revise(site, runs[8].id, size="1.5")


def bare_loop() -> Site:
    """A system of which no pipe run is known."""
    site, _ = add_attraction(empty_site(), AttractionKind.LAP_POOL)
    return revise(site, site.systems[0].id, pipe_runs=())


def river() -> Site:
    """A river whose jets hold a current."""
    site, body = add_attraction(empty_site(), AttractionKind.LAZY_RIVER)
    jets = new_feature(FeatureKind.CURRENT_JETS, site.units)
    return insert(site, body, jets.revised(current_speed=0.6, jet_speed=4.0, standing_people=40, device_head=3.0))


def empty_site() -> Site:
    """A site without water."""
    return Site(name="New site", code_basis=("cdc-mahc-2023", "common-practice"))


def long_names() -> Site:
    """Names as long as they come, with markup and letters of several alphabets."""
    body = Attraction(name=LONG, features=(Feature(name=f"Фонтан «Дельфин» — {LONG}", flow_each=0.004, count=12),))
    site = Site(name=LONG, client=LONG, place=LONG, code_basis=("cdc-mahc-2023", "common-practice"))
    return insert(site, site.id, RecirculationSystem(name=f"System 1 · {LONG}", attractions=(body,)))


def silent() -> Site:
    """A body of water of which the code basis says nothing."""
    site = large_site(5)
    return revise(site, site.id, code_basis=())


def _dialog(make: Callable[[Stage], QWidget]) -> State:
    def show(stage: Stage) -> QWidget:
        stage.sample("resort-park")
        return stage.dialog(make(stage))  # type: ignore[arg-type]

    return show


def _project(stage: Stage):  # type: ignore[no-untyped-def]
    assert stage.window.project is not None
    return stage.window.project


def _override(stage: Stage) -> OverrideDialog:
    project = _project(stage)
    body = project.site.systems[0].attractions[0]
    figure = project.design.sheets[body.id].figures["least_flow"]
    return OverrideDialog(figure, body.name, project.units, stage.window)


def _recovery(stage: Stage) -> RecoveryPrompt:
    found = Recoverable(
        stage.folder / "copy.json", "Alder Bend Leisure Park", stage.folder / "alder.waterpark", None, 1.79e9
    )
    return RecoveryPrompt(stage.window, (found,))


STATES: dict[str, State] = {
    "start-page": lambda stage: stage.window,
    "lay-out": _desk("resort-park", LAY_OUT),
    "lay-out-metric": _desk("indoor-bath", LAY_OUT),
    "lay-out-community": _desk("community-pools", LAY_OUT),
    "lay-out-system": _selected("resort-park", RecirculationSystem, "filter_area_needed"),
    "lay-out-attraction": _selected("resort-park", Attraction, "least_flow"),
    "lay-out-feature": _selected("resort-park", Feature, "feature_flow"),
    "lay-out-feature-nozzle": _device("resort-park", Nozzle),
    "lay-out-feature-bucket": _device("resort-park", TippingBucket, "feature_water_in_transit"),
    "lay-out-feature-crest": _device("indoor-bath", BroadCrest, "device_flow"),
    "lay-out-pipes": _view("resort-park", RecirculationSystem, PIPES),
    "lay-out-pipes-working": _working,
    "lay-out-pipes-failing": _view_of(failing_runs, PIPES),
    "lay-out-pipes-none": _view_of(bare_loop, PIPES),
    "lay-out-pipes-metric": _view("indoor-bath", RecirculationSystem, PIPES),
    "lay-out-head": _view("resort-park", RecirculationSystem, HEAD),
    "lay-out-head-metric": _view("indoor-bath", RecirculationSystem, HEAD),
    "lay-out-head-none": _view_of(bare_loop, HEAD),
    "lay-out-head-river": _view_of(river, HEAD),
    "lay-out-pump": _pump,
    "lay-out-empty": _site(empty_site, LAY_OUT),
    "lay-out-long-names": _site(long_names, LAY_OUT),
    "lay-out-silent-code": _site(silent, LAY_OUT),
    "lay-out-100": _site(lambda: large_site(100), LAY_OUT),
    "schedule": _desk("resort-park", SCHEDULE),
    "schedule-metric": _desk("indoor-bath", SCHEDULE),
    "schedule-empty": _site(empty_site, SCHEDULE),
    "schedule-long-names": _site(long_names, SCHEDULE),
    "schedule-100": _site(lambda: large_site(100), SCHEDULE),
    "review": _desk("resort-park", REVIEW),
    "review-metric": _desk("indoor-bath", REVIEW),
    "review-empty": _site(empty_site, REVIEW),
    "review-long-names": _site(long_names, REVIEW),
    "review-100": _site(lambda: large_site(100), REVIEW),
    "dialog-checks": _dialog(lambda stage: ChecksDialog(_project(stage), stage.window)),
    "dialog-code-basis": _dialog(lambda stage: CodeBasisPage(_project(stage), stage.window)),
    "dialog-amendment": _dialog(
        lambda stage: AmendmentDialog(_project(stage), "longest_turnover", ("lazy_river",), parent=stage.window)
    ),
    "dialog-catalogue": _dialog(lambda stage: CatalogueDialog(_project(stage), stage.window)),
    "dialog-override": _dialog(_override),
    "dialog-preview": _dialog(
        lambda stage: PrintPreview(build_document(_project(stage).design, "equipment-schedule"), stage.window)
    ),
    "dialog-keys": _dialog(lambda stage: KeysDialog(stage.window, [*stage.window.actions_of.with_keys(), *IN_PLACES])),
    "dialog-unsaved": _dialog(lambda stage: Message(stage.window, "Save the changes to Alder Bend?", WARNING, CHOICES)),
    "dialog-recovery": _dialog(_recovery),
    "dialog-crash": _dialog(
        lambda stage: CrashDialog(stage.window, "Traceback: an example of what is shown here", True)
    ),
}

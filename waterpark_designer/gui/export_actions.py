"""Saving documents as files, off the window's thread, with progress and a way to stop; and their preview."""

from pathlib import Path

from PySide6.QtCore import QObject, QThread, QUrl, Signal
from PySide6.QtGui import QAction, QDesktopServices
from PySide6.QtWidgets import QFileDialog, QMenu, QProgressDialog, QWidget

from waterpark_designer.engine.design import SiteDesign
from waterpark_designer.gui.file_dialogs import UNFIT_FOR_A_NAME, settled
from waterpark_designer.gui.folders import last_folder, remember_folder
from waterpark_designer.gui.message import tell
from waterpark_designer.gui.open_project import OpenProject

SUFFIXES = {"pdf": "PDF document (*.pdf)", "xlsx": "Excel workbook (*.xlsx)", "csv": "Comma-separated values (*.csv)"}
PAUSE_BEFORE_PROGRESS = 400
STEPS = 1000


class ExportActions(QObject):
    """Exports documents of the open project; one at a time."""

    exported = Signal(Path)
    """A document was saved here."""
    failed = Signal(str)
    """A document could not be saved; says why."""
    cancelled = Signal()

    def __init__(self, project: OpenProject, window: QWidget) -> None:
        super().__init__(window)
        self.project = project
        self._window = window
        self._work: _Export | None = None
        self._progress: QProgressDialog | None = None

    @property
    def busy(self) -> bool:
        return self._work is not None

    def menu(self, parent: QWidget) -> QMenu:
        """A menu of every document in every form it can be saved in."""
        from waterpark_designer.documents.register import DOCUMENTS

        menu = QMenu("Export", parent)
        for kind in DOCUMENTS.values():
            forms = menu.addMenu(kind.title)
            forms.setToolTip(kind.description)
            for suffix in SUFFIXES:
                action = QAction(f"{suffix.upper()}…", forms)
                action.triggered.connect(lambda _on=False, name=kind.name, suffix=suffix: self.export(name, suffix))
                forms.addAction(action)
        return menu

    def export(self, document: str, suffix: str) -> None:
        """Ask where to, then save the document; `exported`, `failed` or `cancelled` tells how it ended."""
        if self.busy:
            return
        chosen = self.choose_file(document, suffix)
        if chosen is not None:
            remember_folder(str(chosen))
            self.export_to(document, chosen)

    def export_to(self, document: str, path: Path) -> None:
        """Save the document to a file whose suffix tells the form."""
        self._progress = QProgressDialog(f"Saving “{path.name}”…", "Stop", 0, STEPS, self._window)
        self._progress.setWindowTitle("Export")
        self._progress.setMinimumDuration(PAUSE_BEFORE_PROGRESS)
        self._progress.setModal(True)
        self._progress.setAutoClose(False)
        self._progress.setAutoReset(False)
        self._progress.setValue(0)
        self._work = _Export(self.project.design, document, path, self)
        self._work.progressed.connect(self._progress.setValue)
        self._progress.canceled.connect(self._work.requestInterruption)
        self._work.finished.connect(self._ended)
        self._work.start()

    def choose_file(self, document: str, suffix: str) -> Path | None:
        """Ask where to save; None where the question is put away. No file is replaced unasked."""
        from waterpark_designer.documents.register import DOCUMENTS

        name = file_name(self.project.site.name, DOCUMENTS[document].title, self.project.site.revision)
        suggested = str(Path(last_folder()) / f"{name}.{suffix}")
        chosen = QFileDialog.getSaveFileName(self._window, "Export", suggested, SUFFIXES[suffix])[0]
        if not chosen:
            return None
        return settled(self._window, Path(chosen), f".{suffix}", lambda _path: self.choose_file(document, suffix))

    def preview(self, document: str) -> None:
        """Show the document as it comes out of a printer, and print it from there."""
        from waterpark_designer.documents.register import build_document
        from waterpark_designer.gui.print_preview import PrintPreview

        dialog = PrintPreview(build_document(self.project.design, document), self._window)
        dialog.exec()
        dialog.deleteLater()

    def open_folder(self, path: Path) -> None:
        """Show the folder of a saved file."""
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(path.parent)))

    def _ended(self) -> None:
        work, progress = self._work, self._progress
        if work is None or progress is None:
            return
        self._work = self._progress = None
        progress.close()
        progress.deleteLater()
        work.deleteLater()
        if work.stopped:
            self.cancelled.emit()
        elif work.problem:
            self.failed.emit(work.problem)
            tell(self._window, "The document was not saved", work.problem)
        else:
            self.exported.emit(work.path)


class _Export(QThread):
    """One document being built and written."""

    progressed = Signal(int)

    def __init__(self, design: SiteDesign, document: str, path: Path, parent: QObject) -> None:
        super().__init__(parent)
        self.path = path
        self.problem = ""
        self.stopped = False
        self._design, self._document = design, document

    def run(self) -> None:
        from waterpark_designer.documents.export import ExportError, export
        from waterpark_designer.documents.progress import ExportCancelled

        try:
            export(self._design, self._document, self.path, progress=self._told)
        except ExportCancelled:
            self.stopped = True
        except ExportError as error:
            self.problem = str(error)
        except Exception as error:
            # Nothing hears an exception that leaves a thread; the window would take the file for written.
            self.problem = f"“{self.path.name}” was not written: a fault in the program, {error!r}."

    def _told(self, share: float) -> bool:
        self.progressed.emit(round(share * STEPS))
        return not self.isInterruptionRequested()


def file_name(site: str, title: str, revision: str) -> str:
    """A file name that every system takes: site, document and revision."""
    words = " ".join(part for part in (site, title.lower(), f"rev {revision}" if revision else "") if part)
    return UNFIT_FOR_A_NAME.sub(" ", words).strip(" .")[:120].strip(" .")

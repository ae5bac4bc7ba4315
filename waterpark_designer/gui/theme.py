"""Colours, fonts and the look of every widget, light and dark, following the system.

A widget says what it is through the property `role`; the style sheet gives that role its look. Whatever
paints by itself asks `colours()` while it paints, so that a change of theme needs no more than a repaint.
The main window wears the style sheet and its dialogs with it. Worn by the whole application it would be resolved
anew at every step while a page is put together, which takes longer than all else on the page.
"""

from dataclasses import dataclass
from typing import Literal, TypeVar

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QFontInfo, QPalette
from PySide6.QtWidgets import QApplication, QWidget

from waterpark_designer.gui.style_sheet import style_sheet
from waterpark_designer.resources import resources_folder

Choice = Literal["system", "light", "dark"]
CHOICES: tuple[Choice, ...] = ("system", "light", "dark")
SCHEMES = {"system": Qt.ColorScheme.Unknown, "light": Qt.ColorScheme.Light, "dark": Qt.ColorScheme.Dark}
AnyWidget = TypeVar("AnyWidget", bound=QWidget)


@dataclass(frozen=True, slots=True)
class Colours:
    """The colours of one theme by their use, as #rrggbb."""

    name: str
    paper: str
    surface: str
    ink: str
    dim: str
    line: str
    accent: str
    accent_soft: str
    water: str
    water_soft: str
    band: str
    band_ink: str
    band_dim: str
    band_alert: str
    ok: str
    caution: str
    error: str
    selection: str


LIGHT = Colours(
    name="light",
    paper="#fdfdfc",
    surface="#f0f4f5",
    ink="#153240",
    dim="#4d626c",
    line="#cfd9dc",
    accent="#a94516",
    accent_soft="#fbefe7",
    water="#1d6b79",
    water_soft="#d3e8ea",
    band="#15323f",
    band_ink="#f6fafa",
    band_dim="#a8c1c9",
    band_alert="#f3b08c",
    ok="#1d6842",
    caution="#7f5300",
    error="#a5262e",
    selection="#f7e5d9",
)
DARK = Colours(
    name="dark",
    paper="#111a1f",
    surface="#18242b",
    ink="#e4edf0",
    dim="#9fb3bb",
    line="#33464f",
    accent="#f09a6a",
    accent_soft="#33261f",
    water="#7cc5cf",
    water_soft="#1b3a42",
    band="#0a1318",
    band_ink="#f0f6f7",
    band_dim="#98b0b9",
    band_alert="#f3b08c",
    ok="#7ccaa0",
    caution="#e2b860",
    error="#f39593",
    selection="#40302a",
)

_current = LIGHT


def colours() -> Colours:
    """The colours of the theme in force."""
    return _current


def role(widget: AnyWidget, name: str) -> AnyWidget:
    """Say what a widget is, and give it that look; returns the widget."""
    return restyle(widget, "role", name)


def restyle(widget: AnyWidget, name: str, value: object) -> AnyWidget:
    """Set a property that the style sheet looks at, and repaint where it changed; returns the widget."""
    if widget.property(name) != value:
        widget.setProperty(name, value)
        widget.style().unpolish(widget)
        widget.style().polish(widget)
    return widget


def apply_theme(app: QApplication, choice: Choice) -> None:
    """Put a theme in force, for all that is dressed; `system` goes on following the system's colour scheme."""
    if app.property("theme_choice") is None:
        _prepare(app)
    app.setProperty("theme_choice", choice)
    app.styleHints().setColorScheme(SCHEMES[choice])
    _change(app)


def dress(wearer: QApplication | QWidget) -> None:
    """Give a window, or the whole application, the look of the theme in force, now and after every change."""
    wearer.setProperty("dressed", True)
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    wearer.setStyleSheet(style_sheet(_current, resources_folder() / "icons", QFontInfo(app.font()).pixelSize()))


def _prepare(app: QApplication) -> None:
    """Once: our fonts, the base style, and an ear for the system's colour scheme."""
    load_fonts()
    app.setStyle("Fusion")
    app.setFont(_with_fallback(app.font()))
    app.styleHints().colorSchemeChanged.connect(lambda _scheme: _change(app))


def load_fonts() -> None:
    """Make the shipped fonts known, so that text shows on a machine without any."""
    for name in ("DejaVuSans", "DejaVuSans-Bold"):
        QFontDatabase.addApplicationFont(str(resources_folder() / "fonts" / f"{name}.ttf"))


def _with_fallback(system: QFont) -> QFont:
    """The system's font, ours behind it, figures of one width."""
    font = QFont(system)
    font.setFamilies([system.family(), "DejaVu Sans"])
    font.setFeature(QFont.Tag("tnum"), 1)
    return font


def _change(app: QApplication) -> None:
    global _current
    chosen = _chosen(app)
    if chosen is _current and app.property("colours") == chosen.name:
        return
    _current = chosen
    app.setProperty("colours", chosen.name)
    app.setPalette(_palette(_current))
    wearers: list[QApplication | QWidget] = [app, *app.topLevelWidgets()]
    for wearer in wearers:
        if wearer.property("dressed"):
            dress(wearer)


def _chosen(app: QApplication) -> Colours:
    choice = app.property("theme_choice")
    dark = system_is_dark(app) if choice == "system" else choice == "dark"
    return DARK if dark else LIGHT


def system_is_dark(app: QApplication) -> bool:
    """Whether the desktop asks for dark windows; a desktop that says nothing is light."""
    return app.styleHints().colorScheme() is Qt.ColorScheme.Dark


def _palette(of: Colours) -> QPalette:
    """The palette for what the style sheet does not reach."""
    roles = QPalette.ColorRole
    palette = QPalette()
    for colour_role, colour in (
        (roles.Window, of.paper),
        (roles.WindowText, of.ink),
        (roles.Base, of.paper),
        (roles.Text, of.ink),
        (roles.AlternateBase, of.surface),
        (roles.Button, of.surface),
        (roles.ButtonText, of.ink),
        (roles.BrightText, of.error),
        (roles.Highlight, of.selection),
        (roles.HighlightedText, of.ink),
        (roles.PlaceholderText, of.dim),
        (roles.ToolTipBase, of.surface),
        (roles.ToolTipText, of.ink),
        (roles.Link, of.water),
        (roles.LinkVisited, of.water),
        (roles.Light, of.paper),
        (roles.Midlight, of.surface),
        (roles.Mid, of.line),
        (roles.Dark, of.line),
        (roles.Shadow, of.line),
        (roles.Accent, of.accent),
    ):
        palette.setColor(colour_role, QColor(colour))
    for colour_role in (roles.WindowText, roles.Text, roles.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, colour_role, QColor(of.dim))
    return palette

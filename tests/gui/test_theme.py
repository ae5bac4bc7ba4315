"""The two themes can be read, and the choice between them holds."""

from itertools import product

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton

from waterpark_designer.gui import theme
from waterpark_designer.gui.theme import DARK, LIGHT, apply_theme, colours, role

BACKGROUNDS = ("paper", "surface", "selection", "water_soft", "accent_soft")
TEXTS = ("ink", "dim", "ok", "caution", "error", "water", "accent")
PAIRS = [
    *product(TEXTS, BACKGROUNDS),
    *product(("band_ink", "band_dim", "band_alert"), ("band",)),
    ("paper", "accent"),
    ("paper", "ink"),
    ("paper", "water"),
]


def luminance(colour: str) -> float:
    """Relative luminance by WCAG 2.1, definition "relative luminance"."""
    channels = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(first: str, second: str) -> float:
    """Contrast ratio by WCAG 2.1, definition "contrast ratio"."""
    lighter, darker = sorted((luminance(first), luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_contrast_formula_gives_the_standards_extremes() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize("of", [LIGHT, DARK], ids=lambda of: of.name)
@pytest.mark.parametrize(("text", "background"), PAIRS)
def test_text_can_be_read(of, text, background) -> None:
    assert contrast(getattr(of, text), getattr(of, background)) >= 4.5


@pytest.fixture
def light_again(qapp):
    yield qapp
    apply_theme(qapp, "light")


def test_choice_changes_colours_and_palette(light_again) -> None:
    apply_theme(light_again, "dark")
    assert colours() is DARK
    assert light_again.palette().window().color().name() == DARK.paper
    apply_theme(light_again, "light")
    assert colours() is LIGHT
    assert LIGHT.ink in light_again.styleSheet()


def test_theme_follows_the_system_where_that_is_chosen(light_again, monkeypatch) -> None:
    monkeypatch.setattr(theme, "system_is_dark", lambda _app: True)
    apply_theme(light_again, "system")
    assert colours() is DARK
    monkeypatch.setattr(theme, "system_is_dark", lambda _app: False)
    light_again.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Light)
    assert colours() is LIGHT
    monkeypatch.setattr(theme, "system_is_dark", lambda _app: True)
    apply_theme(light_again, "light")
    light_again.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    assert colours() is LIGHT


def test_role_changes_the_look_of_a_shown_widget(qtbot, light_again) -> None:
    apply_theme(light_again, "light")
    label = QLabel("Depth is missing")
    qtbot.addWidget(label)
    label.show()
    role(label, "error")
    assert label.palette().windowText().color().name() == LIGHT.error
    role(label, "dim")
    assert label.palette().windowText().color().name() == LIGHT.dim


def test_primary_button_is_set_apart(qtbot, light_again) -> None:
    apply_theme(light_again, "light")
    button = role(QPushButton("Save"), "primary")
    qtbot.addWidget(button)
    button.ensurePolished()
    assert button.font().bold()

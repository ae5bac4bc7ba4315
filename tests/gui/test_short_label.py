"""A text gives way to its room, never over its edge."""

from waterpark_designer.gui.short_label import ShortLabel


def test_text_is_shortened_within_its_margins_and_grows_back(qtbot) -> None:
    label = ShortLabel("dim")
    qtbot.addWidget(label)
    label.setContentsMargins(20, 0, 20, 0)
    label.resize(200, 20)
    label.show_text("100 bodies of water on 100 systems")
    label.show()
    assert label.text().endswith("…")
    assert label.fontMetrics().horizontalAdvance(label.text()) <= 160
    label.resize(600, 20)
    assert label.text() == "100 bodies of water on 100 systems"
    assert label.toolTip() == label.text()

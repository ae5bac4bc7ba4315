"""The style sheet: the look of each role, filled with a theme's colours and sizes."""

from dataclasses import asdict
from pathlib import Path
from string import Template
from typing import Any

SIZES = {"title": 1.5, "heading": 1.25, "subheading": 1.0, "figure": 1.17, "total": 1.4, "small": 0.92}


def style_sheet(theme: Any, icons: Path, text_size: int) -> str:
    """The style sheet of a theme (a dataclass of colours), for a text size in pixels."""
    sizes = {f"{name}_size": round(text_size * scale) for name, scale in SIZES.items()}
    opposite = "dark" if theme.name == "light" else "light"
    return SHEET.substitute(asdict(theme), **sizes, text_size=text_size, icons=icons.as_posix(), opposite=opposite)


SHEET = Template("""
* { outline: none; }
QWidget { color: $ink; }
QMainWindow, QDialog, QMessageBox { background: $paper; }

QLabel { background: transparent; }
QLabel[role="title"] { font-size: ${title_size}px; font-weight: 700; }
QLabel[role="heading"] { font-size: ${heading_size}px; font-weight: 700; }
QLabel[role="subheading"] { font-weight: 700; }
QLabel[role="dim"] { color: $dim; }
QLabel[role="figure"] { font-size: ${figure_size}px; font-weight: 700; }
QLabel[role="unit"] { color: $dim; font-size: ${small_size}px; }
QLabel[role="error"] { color: $error; }
QLabel[role="caution"] { color: $caution; }
QLabel[role="ok"] { color: $ok; }
QLabel[role="mono"] { font-family: "DejaVu Sans Mono", monospace; }

QFrame[role="card"] { background: $paper; border: 1px solid $line; border-radius: 5px; }
QFrame[role="alert"] { background: $paper; border: 1px solid $error; border-radius: 4px; }
QFrame[role="panel"] { background: $surface; border: none; }
QFrame[role="rule"] { background: $line; border: none; max-height: 1px; min-height: 1px; }
QFrame[role="band"] { background: $band; border: none; }
QFrame[role="band"] QLabel { color: $band_ink; }
QFrame[role="band"] QLabel[role="dim"], QFrame[role="band"] QLabel[role="unit"] { color: $band_dim; }
QFrame[role="band"] QLabel[role="error"], QFrame[role="band"] QLabel[role="caution"] { color: $band_alert; }
QFrame[role="head"] { background: $paper; border: none; border-bottom: 1px solid $line; }
QFrame[role="band_line"] { background: rgba(255, 255, 255, 40); border: none; }
QFrame[role="band"] QLabel[role="figure"] { font-size: ${total_size}px; }

QPushButton, QToolButton {
  background: $paper; border: 1px solid $line; border-radius: 5px; padding: 5px 11px; }
QPushButton:hover, QToolButton:hover { background: $water_soft; }
QPushButton:pressed, QToolButton:pressed { background: $selection; }
QPushButton:focus, QToolButton:focus { border: 2px solid $water; padding: 4px 10px; }
QPushButton:disabled, QToolButton:disabled { color: $dim; background: $surface; }
QToolButton::menu-indicator, QPushButton::menu-indicator {
  image: url("$icons/down-$name.svg"); width: 9px; subcontrol-position: right center; right: 6px; }
QPushButton[role="primary"] { background: $accent; color: $paper; border-color: $accent; font-weight: 700; }
QPushButton[role="primary"]::menu-indicator { image: url("$icons/down-$opposite.svg"); }
QPushButton[role="primary"]:hover { background: $ink; border-color: $ink; }
QPushButton[role="primary"]:focus { border: 2px solid $ink; }
QPushButton[role="primary"]:disabled { background: $surface; color: $dim; border-color: $line; }
QPushButton[role="quiet"], QToolButton[role="quiet"] {
  background: transparent; border: 1px solid transparent; }
QPushButton[role="quiet"]:hover, QToolButton[role="quiet"]:hover { background: $water_soft; }
QPushButton[role="quiet"]:focus, QToolButton[role="quiet"]:focus { border: 2px solid $water; }
QPushButton[role="chip"] { color: $dim; }
QPushButton[role="chip"]:hover { color: $ink; }
QPushButton[role="tab"] { border-radius: 0; padding: 6px 22px; }
QPushButton[role="tab"]:checked { background: $ink; color: $paper; border-color: $ink; font-weight: 700; }
QPushButton[role="tab"]:focus { border: 2px solid $accent; padding: 5px 21px; }
QFrame[role="band"] QPushButton { background: transparent; border: none; border-radius: 0; padding: 0; }
QFrame[role="band"] QPushButton:hover { background: $water; }
QFrame[role="band"] QPushButton:focus { border: 2px solid $band_dim; }

QLineEdit, QPlainTextEdit, QTextEdit, QComboBox, QSpinBox, QDoubleSpinBox, QDateEdit {
  background: $paper; border: 1px solid $line; border-radius: 4px; padding: 3px 6px;
  selection-background-color: $water; selection-color: $paper; placeholder-text-color: $dim; }
QLineEdit:hover, QComboBox:hover, QPlainTextEdit:hover { border-color: $dim; }
QLineEdit:focus, QPlainTextEdit:focus, QTextEdit:focus, QComboBox:focus, QSpinBox:focus, QDoubleSpinBox:focus,
QDateEdit:focus { border: 2px solid $water; padding: 2px 5px; }
QLineEdit:read-only, QLineEdit:disabled, QComboBox:disabled, QPlainTextEdit:disabled {
  background: $surface; color: $dim; }
QLineEdit[invalid="true"], QComboBox[invalid="true"], QPlainTextEdit[invalid="true"] {
  border: 2px solid $error; padding: 2px 5px; }
QComboBox, QComboBox:focus, QComboBox[invalid="true"] { padding-right: 0; }
QComboBox::drop-down { border: none; width: 18px; }
QComboBox::down-arrow { image: url("$icons/down-$name.svg"); width: 10px; height: 10px; }
QComboBox QAbstractItemView { background: $paper; border: 1px solid $line; padding: 2px; }
QSpinBox::up-button, QSpinBox::down-button, QDoubleSpinBox::up-button, QDoubleSpinBox::down-button {
  border: none; width: 16px; }
QSpinBox::up-arrow, QDoubleSpinBox::up-arrow { image: url("$icons/up-$name.svg"); width: 8px; height: 8px; }
QSpinBox::down-arrow, QDoubleSpinBox::down-arrow {
  image: url("$icons/down-$name.svg"); width: 8px; height: 8px; }

QCheckBox, QRadioButton {
  spacing: 7px; background: transparent; border: 1px solid transparent; padding: 1px; }
QCheckBox:focus, QRadioButton:focus { border: 1px solid $water; border-radius: 3px; }
QCheckBox::indicator, QRadioButton::indicator, QAbstractItemView::indicator {
  width: 13px; height: 13px; background: $paper; border: 1px solid $dim; }
QCheckBox::indicator, QAbstractItemView::indicator { border-radius: 3px; }
QAbstractItemView::indicator { width: 11px; height: 11px; }
QRadioButton::indicator { border-radius: 7px; }
QCheckBox::indicator:checked, QAbstractItemView::indicator:checked {
  image: url("$icons/check-$name.svg"); border-color: $ink; }
QRadioButton::indicator:checked { background: $accent; border: 3px solid $paper; border-radius: 7px; }

QAbstractItemView {
  background: $paper; alternate-background-color: $surface; border: none;
  selection-background-color: $selection; selection-color: $ink; gridline-color: $line; }
QTreeView, QListView[role="panel"] { background: $surface; }
QTableView { border: 1px solid $line; }
QTableView:focus, QTreeView:focus, QListView:focus { border: 1px solid $water; }
QTreeView, QListView { border: 1px solid transparent; }
QTreeView::item { padding: 0 6px 0 2px; }
QTableView[role="sheet"]::item, QTableView[role="frozen"]::item { padding: 0 6px; }
QTableView[role="frozen"] { border: none; border-right: 1px solid $line; }
QAbstractItemView::item:selected { background: $selection; color: $ink; }
QAbstractItemView::item:hover:!selected { background: $water_soft; }
QListView[role="panel"], QListView[role="panel"]:focus { border: none; }
QListView[role="panel"]::item {
  padding: 8px 11px 8px 9px; border: 1px solid transparent; border-left: 3px solid transparent; }
QListView[role="panel"]::item:selected { border-left: 3px solid $accent; }
QListView[role="panel"]::item:selected:focus { border: 1px solid $water; border-left: 3px solid $accent; }
QListView[role="choices"]::item { padding: 7px 10px; }
QTreeView::branch { background: transparent; }
QTreeView::branch:selected { background: $selection; }
QTreeView::branch:has-children:closed { image: url("$icons/right-$name.svg"); }
QTreeView::branch:has-children:open { image: url("$icons/down-$name.svg"); }
QAbstractItemView QLineEdit { border-radius: 0; padding: 0 4px; }
QAbstractItemView QLineEdit:focus { padding: 0 3px; }
QHeaderView { background: $paper; }
QHeaderView::section {
  background: $paper; color: $dim; border: none; border-bottom: 1px solid $ink;
  padding: 5px 7px; font-weight: 600; }
QTableCornerButton::section { background: $paper; border: none; border-bottom: 1px solid $ink; }

QScrollArea { border: none; background: transparent; }
QScrollArea > QWidget > QWidget { background: transparent; }
QScrollBar:vertical { background: transparent; width: 11px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 11px; margin: 0; }
QScrollBar::handle { background: $line; border-radius: 3px; margin: 2px; }
QScrollBar::handle:hover { background: $dim; }
QScrollBar::handle:vertical { min-height: 28px; }
QScrollBar::handle:horizontal { min-width: 28px; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QAbstractScrollArea::corner { background: transparent; }

QMenuBar { background: $paper; }
QMenuBar::item { background: transparent; padding: 4px 9px; }
QMenuBar::item:selected { background: $water_soft; }
QMenu { background: $paper; border: 1px solid $line; padding: 4px 0; }
QMenu::item { padding: 5px 26px 5px 24px; background: transparent; }
QMenu::item:selected { background: $water_soft; }
QMenu::item:disabled { color: $dim; }
QMenu::separator { height: 1px; background: $line; margin: 4px 0; }
QMenu::indicator { width: 12px; height: 12px; left: 6px; }
QMenu::indicator:checked { image: url("$icons/check-$name.svg"); }
QMenu::right-arrow { image: url("$icons/right-$name.svg"); width: 9px; height: 9px; right: 6px; }
QToolTip { background: $surface; color: $ink; border: 1px solid $line; padding: 4px; }

QSplitter::handle { background: transparent; }
QSplitter::handle:horizontal { width: 5px; border-left: 1px solid $line; }
QSplitter::handle:vertical { height: 5px; border-top: 1px solid $line; }
QSplitter::handle:hover { background: $selection; }
QTabWidget::pane { border: 1px solid $line; }
QTabBar::tab { background: transparent; padding: 6px 12px; border-bottom: 2px solid transparent; }
QTabBar::tab:selected { border-bottom: 2px solid $accent; font-weight: 700; }
QTabBar::tab:focus { border-bottom: 2px solid $water; }
QGroupBox { border: 1px solid $line; border-radius: 5px; margin-top: 9px; padding-top: 9px; }
QGroupBox::title { subcontrol-origin: margin; left: 9px; padding: 0 3px; font-weight: 700; }
QProgressBar { border: 1px solid $line; border-radius: 4px; background: $paper; text-align: center; }
QProgressBar::chunk { background: $water_soft; }
QStatusBar { background: $paper; color: $dim; }
""")

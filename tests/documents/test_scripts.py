"""Scripts beside Latin: the forms and orders that the Unicode standard gives."""

import pytest

from waterpark_designer.documents.scripts import drawn, east_asian_font, joined


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        # The Unicode Standard 16.0, section 9.2: joining of Arabic letters; the lam-alef ligature is obligatory.
        ("\u0645\u0633\u0628\u062d", "\ufee3\ufeb4\ufe92\ufea2"),
        ("\u0633\u0644\u0627\u0645", "\ufeb3\ufefc\ufee1"),
        # Alef and reh join only to what stands before them.
        ("\u062f\u0627\u0631", "\ufea9\ufe8d\ufead"),
        # A mark above a letter parts nothing.
        ("\u0628\u064e\u0628", "\ufe91\u064e\ufe90"),
        ("Pool", "Pool"),
    ],
)
def test_arabic_letters_take_the_form_their_neighbours_ask_for(text: str, shown: str) -> None:
    assert joined(text) == shown


@pytest.mark.parametrize(
    ("read", "shown"),
    [
        # Unicode Standard Annex 9, left-to-right paragraphs: capitals stand for Hebrew in its own examples.
        ("car is ABC.", "car is CBA."),
        ("ABC 12 DEF", "FED 12 CBA"),
        ("a ABC (DEF) b", "a (FED) CBA b"),
        ("a (ABC) b", "a (CBA) b"),
        ("ABC 12 b", "12 CBA b"),
        ("ABC b DEF", "CBA b FED"),
        ("plain (text) 12", "plain (text) 12"),
    ],
)
def test_right_to_left_words_are_drawn_from_the_left(read: str, shown: str) -> None:
    hebrew = str.maketrans("ABCDEF", "אבגדהו")
    assert drawn(read.translate(hebrew)) == shown.translate(hebrew)


@pytest.mark.parametrize(
    ("sign", "font"),
    [
        ("수", "HYGothic-Medium"),
        ("プ", "HeiseiKakuGo-W5"),
        ("杉", "HeiseiKakuGo-W5"),
        ("乐", "STSong-Light"),
        ("a", None),
    ],
)
def test_each_east_asian_script_has_its_font(sign: str, font: str | None) -> None:
    assert east_asian_font(sign) == font

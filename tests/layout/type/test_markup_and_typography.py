"""Light markup, and the quotes and dashes of the trade."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.type.markup import VoicedText, read_markup
from layout.type.typography import Quotes, polish

QUOTES = Quotes()
GERMAN = Quotes(("„", "“"), ("‚", "‘"))


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ('"Low water," he said.', "“Low water,” he said."),
        ("the lock-keeper's 'old' lamp", "the lock-keeper’s ‘old’ lamp"),
        ("the summer of '87", "the summer of ’87"),
        ('("so")', "(“so”)"),
        ('"*Quite*"', "“*Quite*”"),
        ("low -- very low", "low\u00a0– very low"),
        ("low --- very low", "low — very low"),
        ("low - very low", "low\u00a0– very low"),
        ("pages 12-15", "pages 12–15"),
        ("979-4-1706-0345-1", "979-4-1706-0345-1"),
        ("low-lying", "low-lying"),
        ("wait...", "wait…"),
        ("a  lot \n of\tspace ", "a lot of space"),
        ("e\u0301", "é"),
        ("soft\u00adhyphen", "softhyphen"),
        ("ebb at 5 % of the flood", "ebb at 5\u00a0% of the flood"),
        ("J. R. Marsh", "J.\u00a0R. Marsh"),
        ("plan A. B. Wade drew it", "plan A.\u00a0B. Wade drew it"),
    ],
)
def test_typed_text_is_polished(typed, printed):
    assert polish(typed, QUOTES) == printed


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("\"so 'und' so\"", "„so ‚und‘ so“"),
        ("\"so 'und'\"", "„so ‚und‘“"),
        ("\"'So' war's\", sagte er.", "„‚So‘ war’s“, sagte er."),
        ("Klaus' Kahn, anno '87", "Klaus’ Kahn, anno ’87"),
        ("er schrieb - mit Blei -, und", "er schrieb\u00a0– mit Blei\u00a0–, und"),
        ("z. B. 5 %", "z.\u00a0B. 5\u00a0%"),
        ('("so" - "so")', "(„so“\u00a0– „so“)"),
    ],
)
def test_quotes_go_by_the_language(typed, printed):
    assert polish(typed, GERMAN) == printed


@given(st.text(max_size=200))
def test_polished_text_has_no_straight_quotes_and_stays_so(text):
    once = polish(text, QUOTES)
    assert '"' not in once
    assert "'" not in once
    assert polish(once, QUOTES) == once


def blocks(text):
    return [(block.kind, list(block.runs)) for block in read_markup(text, QUOTES)]


def test_paragraphs_lists_and_headings():
    text = "# The marsh\nLow water\nand high.\n\nNext.\n- a pencil\n  of wood\n- time\n"
    assert blocks(text) == [
        ("heading", [VoicedText("The marsh")]),
        ("paragraph", [VoicedText("Low water and high.")]),
        ("paragraph", [VoicedText("Next.")]),
        ("item", [VoicedText("a pencil of wood")]),
        ("item", [VoicedText("time")]),
    ]


def test_emphasis():
    (block,) = read_markup("so *very* and **most** low", QUOTES)
    assert block.runs == (
        VoicedText("so "),
        VoicedText("very", "italic"),
        VoicedText(" and "),
        VoicedText("most", "bold"),
        VoicedText(" low"),
    )


@pytest.mark.parametrize("text", ["5 * 3", "a * b * c", "*", "**", "so*", r"\*so\*", "* a*"])
def test_asterisks_without_a_partner_are_printed(text):
    (block,) = read_markup(text, QUOTES)
    assert "".join(run.text for run in block.runs) == text.replace("\\", "")
    assert {run.voice for run in block.runs} == {"roman"}


def test_a_dash_at_the_start_can_be_meant():
    assert blocks(r"\- not a list") == [("paragraph", [VoicedText("- not a list")])]


@given(st.text("ab *\\-#\n", max_size=300))
def test_any_text_is_read_and_no_letter_lost(text):
    letters = "".join(
        char for block in read_markup(text, QUOTES) for run in block.runs for char in run.text
    )
    assert [char for char in letters if char in "ab"] == [char for char in text if char in "ab"]


def test_a_long_row_of_asterisks_takes_no_time():
    read_markup("*a " * 20_000, QUOTES)

"""Line breaks: the best over the whole paragraph, against trying all of them."""

from itertools import combinations, pairwise
from math import inf
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.type.breaking import LinePart, even_breaks, justified_breaks, ragged_breaks
from layout.type.face import Face, Voices
from layout.type.markup import VoicedText, plain_run, read_markup
from layout.type.paragraph import one_line, set_paragraph, set_words
from layout.type.typography import Quotes

MEASURE = 20.0
VOICES = Voices("Spectral Regular", "Spectral Italic", "Spectral SemiBold", 3.5, 4.9)
PROSE = (
    "The sluices stand open from the first of the ebb, and a punt that has been left on the mud "
    "will stay there until the evening tide has found its way along the creeks, past the reed "
    "beds and the unprepossessing little weir, to the old gauge at the bridge."
)
words = st.lists(st.floats(1, 9), min_size=1, max_size=9).map(
    lambda widths: [LinePart(width, 1.0) for width in widths]
)


def natural(line):
    return sum(part.width + part.space for part in line) - line[-1].space


def every_way(parts):
    for count in range(len(parts)):
        for cuts in combinations(range(1, len(parts)), count):
            bounds = [0, *cuts, len(parts)]
            yield [parts[a:b] for a, b in pairwise(bounds)]


def ragged_cost(lines):
    slacks = [(MEASURE - natural(line)) / MEASURE for line in lines]
    if min(slacks) < -1e-9:
        return inf
    runt = 0.12 if natural(lines[-1]) < 0.22 * MEASURE else 0.0
    return sum(slack * slack for slack in slacks[:-1]) + runt


@given(words)
def test_ragged_lines_have_the_least_squared_slack(parts):
    breaks = ragged_breaks(parts, MEASURE)
    lines = [parts[a:b] for a, b in breaks]
    assert [part for line in lines for part in line] == parts
    best = min(ragged_cost(way) for way in every_way(parts))
    assert ragged_cost(lines) == pytest.approx(best)


@given(words)
def test_headings_take_the_fewest_lines_and_even_them(parts):
    lines = [parts[a:b] for a, b in even_breaks(parts, MEASURE)]
    fitting = [
        way for way in every_way(parts) if all(natural(line) <= MEASURE + 1e-9 for line in way)
    ]
    fewest = min(len(way) for way in fitting)
    assert len(lines) == fewest

    def unevenness(way):
        return sum((MEASURE - natural(line)) ** 2 for line in way)

    best = min(unevenness(way) for way in fitting if len(way) == fewest)
    assert unevenness(lines) == pytest.approx(best)


@given(st.lists(st.floats(1, 9), min_size=1, max_size=40))
def test_justified_lines_are_never_overfull(widths):
    parts = [LinePart(width, 1.0) for width in widths]
    for a, b in justified_breaks(parts, MEASURE):
        line = parts[a:b]
        assert natural(line) - 0.2 * (len(line) - 1) <= MEASURE + 1e-6


def test_justified_lines_end_at_the_measure_and_are_not_loose():
    for measure in (70.0, 90.0, 115.0):
        *lines, last = set_paragraph((VoicedText(PROSE),), VOICES, measure, "justified")
        for line in lines:
            assert line.width == pytest.approx(measure, abs=1e-6)
            spaces = [
                advance
                for span in line.spans
                for char, advance in zip(span.text, span.advances, strict=True)
                if char == " "
            ]
            assert max(spaces) <= 2.1 * 0.25  # about twice the font's own word space
            assert min(spaces) >= 0.75 * 0.25
        assert last.width <= measure


def test_no_line_of_one_word_passes_for_a_good_one():
    """What rounding leaves of its spaces once passed for spaces that could be stretched."""
    dice = Random(3)
    for _ in range(100):
        parts = [LinePart(dice.uniform(1, 5), 0.3) for _ in range(40)]
        lines = [parts[a:b] for a, b in justified_breaks(parts, MEASURE)]
        assert all(len(line) > 1 for line in lines[:-1])


def test_indent_shortens_the_first_line_alone():
    first, second, *_ = set_paragraph((VoicedText(PROSE),), VOICES, 80.0, "justified", 5.0)
    assert first.width == pytest.approx(75)
    assert second.width == pytest.approx(80)


def test_hyphens_leave_two_letters_and_take_three():
    # common practice, no source: two letters before a hyphen at least, three after
    word = "unprepossessing"
    broken = [
        line.text
        for measure in range(18, 34)
        for line in set_paragraph(
            (VoicedText(f"a {word} of it " * 6),), VOICES, measure, "justified"
        )
        if line.text.endswith("-")
    ]
    assert broken
    for text in broken:
        start = text[:-1].split(" ")[-1]
        assert start in word
        assert len(start) >= 2
        assert len(word) - word.index(start) - len(start) >= 3


def test_ragged_text_is_not_hyphenated():
    lines = set_paragraph((VoicedText(PROSE),), VOICES, 30.0)
    assert not any(line.text.endswith("-") for line in lines)
    assert " ".join(line.text for line in lines) == PROSE


def test_a_word_wider_than_a_line_is_hyphenated_in_ragged_text_too():
    run = VoicedText("Jedes Ungleichheitszeichen öffnet sich.")
    lines = [line.text for line in set_paragraph((run,), VOICES, 24.0, language="de")]
    assert lines[1] == "Ungleichheits-"
    assert "".join(lines).replace("-", "").replace(" ", "") == run.text.replace(" ", "")


def test_tied_words_stay_together():
    tied = "answer on page\u00a0164"
    for measure in range(16, 30):
        lines = [line.text for line in set_words(tied, Face("Spectral Italic", 3.5, 4.9), measure)]
        assert any("page\u00a0164" in line for line in lines)


def test_an_unbroken_word_is_parted_rather_than_run_over():
    face = Face("Spectral Light", 8.0, 10.0)
    lines = set_words("W" * 50, face, 60.0)
    assert all(line.width <= 60 for line in lines)
    assert "".join(line.text for line in lines) == "W" * 50


@given(st.text("abcd  -–—“”*'\"éß", max_size=120), st.sampled_from(["justified", "ragged"]))
def test_all_words_are_set_and_no_line_is_too_wide(text, align):
    blocks = read_markup(text, Quotes())
    for block in blocks:
        lines = set_paragraph(block.runs, VOICES, 25.0, align)
        assert all(line.width <= 25.0 + 1e-6 for line in lines)
        said = "".join(run.text for run in block.runs).replace(" ", "")
        shown = "".join(line.text for line in lines).replace(" ", "")
        assert shown.replace("-", "") == said.replace("-", "")


def test_advances_carry_the_kerning_and_the_voices():
    runs = read_markup("AV *so* it **is**", Quotes())[0].runs
    (line,) = set_paragraph(runs, VOICES, 100.0)
    assert [span.font for span in line.spans] == [
        "Spectral Regular",
        "Spectral Italic",
        "Spectral Regular",
        "Spectral SemiBold",
    ]
    kerned, plain = one_line("AV", VOICES.face), one_line("A", VOICES.face)
    assert kerned.width < plain.width + one_line("V", VOICES.face).width
    assert plain_run("it's", Quotes())[0].text == "it’s"

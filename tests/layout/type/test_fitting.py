"""Titles that shrink, then wrap, and never run over."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.type.face import Face
from layout.type.fitting import DoesNotFit, fit_title
from layout.type.hyphens import hyphen_points

FACE = Face("Spectral Light", 8.8, 10.2)


def test_a_short_title_keeps_its_size():
    (line,), face = fit_title("Slack Water", FACE, 100, 2.3, 2)
    assert face == FACE
    assert line.text == "Slack Water"


def test_a_longer_title_shrinks_before_it_wraps():
    (line,), face = fit_title("The Lock-keeper’s Lamp at Dusk", FACE, 115, 2.3, 2)
    assert 0.7 * FACE.size < face.size < FACE.size
    assert line.width <= 115


def test_a_long_title_wraps_into_even_lines():
    text = "The Lock-keeper’s Account of the Great Spring Tide at the Old Bridge"
    one, two = fit_title(text, FACE, 115, 2.3, 2)[0]
    assert min(one.width, two.width) > 0.7 * max(one.width, two.width)


def test_no_letter_is_smaller_than_the_least():
    with pytest.raises(DoesNotFit):
        fit_title("tide " * 40, FACE, 60, 6.0, 2)
    lines, face = fit_title("tide " * 5, FACE, 60, 6.0, 2)
    assert face.size >= 6.0
    assert len(lines) <= 2


@given(st.text("abc dWM-", min_size=1, max_size=120).filter(str.strip), st.integers(1, 4))
def test_lines_are_never_wider_than_the_measure_nor_more_than_allowed(text, most):
    text = " ".join(text.split())
    try:
        lines, face = fit_title(text, FACE, 70, 2.3, most)
    except DoesNotFit:
        return
    assert len(lines) <= max(most, 1)
    assert all(line.width <= 70 + 1e-6 for line in lines)
    assert face.size >= 2.3
    assert "".join(line.text for line in lines).replace(" ", "") == text.replace(" ", "")


def test_names_and_short_words_are_not_parted():
    assert hyphen_points("Thornbury", "en-GB") == ()
    assert hyphen_points("heron", "en-GB") == ()
    assert hyphen_points("typography", "en-GB")
    assert hyphen_points("typography", "xx") == ()
    # pyphen's patterns: British ty-po-graphy, American ty-pog-ra-phy
    assert list(hyphen_points("typography", "en-GB")) == [2, 4]
    assert list(hyphen_points("typography", "en-US")) == [2, 5, 7]


def test_nouns_are_parted_where_they_have_capitals():
    # Dudenredaktion: Zif-fern; Un-gleich-heits-zei-chen; Buch-sta-ben
    assert list(hyphen_points("Buchstaben", "de")) == [4, 7]
    assert list(hyphen_points("Ungleichheitszeichen", "de-AT")) == [2, 8, 13, 16]
    assert hyphen_points("ISBN-Nummer", "de") == ()
    assert hyphen_points("TIDEWRACK", "de") == ()

"""What a message may hold."""

import pytest

from layout.console import complain, counted, printable


@pytest.mark.parametrize(("count", "words"), [(0, "0 pages"), (1, "1 page"), (2, "2 pages")])
def test_numbers_and_words_agree(count, words):
    assert counted(count, "page") == words


def test_what_a_terminal_may_obey_is_shown_by_its_number():
    assert printable("a\x1b[2J\u202eb\x9b\ud800") == "a<U+001B>[2J<U+202E>b<U+009B><U+D800>"
    assert printable("Flussm\u00fcndung\u00a0\u2013\n") == "Flussm\u00fcndung\u00a0\u2013\n"


def test_a_message_is_one_line_and_not_endless(capsys):
    complain("two\nlines" + "h" * 10_000)
    err = capsys.readouterr().err
    assert err.startswith("two<U+000A>lines")
    assert (err.count("\n"), err.endswith("…\n")) == (1, True)

"""What a message may hold."""

import pytest

from layout.console import Pace, answer_json, answer_json_list, complain, counted, printable


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


def test_pace_tells_rate_and_time_left_and_not_too_often():
    now, told = [0.0], []
    pace = Pace(100, 30.0, lambda pace: told.append(pace.words("checking", 1000)), lambda: now[0])
    for second in range(1, 66):
        now[0] = float(second)
        pace.note(100 + 2 * second)
    assert told == [
        "checking: 160 of 1000, 2.0 a second, 7:00 left",
        "checking: 220 of 1000, 2.0 a second, 6:30 left",
    ]


@pytest.mark.parametrize(
    ("done", "total", "left"),
    [(1, 7201, "2:00:00"), (0, 9, "-:--"), (9, 3, "-:--"), (3, 3, "0:00")],
)
def test_time_left_is_told_where_it_is_known(done, total, left):
    now = [0.0]
    pace = Pace(0, 1.0, lambda pace: None, lambda: now[0])
    now[0] = 1.0
    pace.note(done)
    assert pace.left(total) == left


@pytest.mark.parametrize("items", [[], [{}], [{"a": [1, "x\ny"]}, 2, []]])
def test_a_list_that_is_told_item_by_item_looks_as_one_told_whole(items, capsys):
    answer_json_list({"reglet": "1"}, "puzzles", iter(items))
    streamed = capsys.readouterr().out
    answer_json({"reglet": "1", "puzzles": items})
    whole = capsys.readouterr().out
    assert streamed == whole

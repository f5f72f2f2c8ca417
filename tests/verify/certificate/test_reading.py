"""Files of certificates that are no such files: each is refused, with the line."""

import json
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from verify.certificate import reading
from verify.certificate.reading import read_cnf, read_proof, read_statement
from verify.certificate.refused import Refused

SHA = "0" * 64
SAID = {
    "certificate": 1,
    "puzzle": "reed",
    "manifest": SHA,
    "answer": {"r1c1": 1},
    "model": [1],
    "digests": {"cnf": SHA, "drat": SHA},
}


def line_of(read, *given_):
    with pytest.raises(Refused) as refused:
        read(*given_)
    return refused.value.line


def whole_proof(data, file, variables):
    return list(read_proof(data, file, variables))


def test_a_formula():
    cnf = read_cnf(b"c r1c2=3 is 2\nc words\np cnf 2 3\n1 -2 0\n0\n-1 0\n", "a.cnf")
    assert (cnf.variables, cnf.clauses, cnf.lines) == (2, [[1, -2], [], [-1]], [4, 5, 6])
    assert cnf.names == {2: ("r1c2", 3)}


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("", 1),
        ("c words\n", 1),
        ("p cnf 2 1\n1 2 0", 2),
        ("p cnf 2 1\n1 2\n", 2),
        ("p cnf 2 1\n1 2 0 0\n", 2),
        ("p cnf 2 1\n1 3 0\n", 2),
        ("p cnf 2 1\n1 -3 0\n", 2),
        ("p cnf 2 2\n1 2 0\n", 2),
        ("p cnf 2 1\n1 0\n2 0\n", 3),
        ("p cnf 2 1\n1 x 0\n", 2),
        ("p cnf 2 1\n1 +2 0\n", 2),
        ("p cnf 2 1\n1_0 0\n", 2),
        ("p cnf 2 1\n-0 0\n", 2),
        ("p cnf 2 1\n01 0\n", 2),
        ("p cnf 2 1\n\n", 2),
        ("p cnf 2 1\n1 0\r\n", 2),
        ("p cnf 2 1\n" + "9" * 5000 + " 0\n", 2),
        ("p cnf 9999999 1\n1 0\n", 1),
        ("p cnf 2 9999999\n1 0\n", 1),
        ("p cnf -2 1\n1 0\n", 1),
        ("p dnf 2 1\n1 0\n", 1),
        ("1 0\np cnf 2 1\n", 1),
        ("p cnf 2 1\np cnf 2 1\n", 2),
        ("c r1c1=1 is 1\nc r1c1=2 is 1\np cnf 1 0\n", 2),
        ("c r1c1=1 is 9999999\np cnf 1 0\n", 1),
    ],
)
def test_what_is_no_formula(text, line):
    assert line_of(read_cnf, text.encode(), "a.cnf") == line


def test_a_proof():
    steps = list(read_proof(b"c words\n1 -2 0\nd 1 2 0\n0\n", "a.drat", 2))
    assert [(each.line, each.deletes, each.clause) for each in steps] == [
        (2, False, [1, -2]),
        (3, True, [1, 2]),
        (4, False, []),
    ]


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (b"1 0\n3 0\n", 2),
        (b"1 0\nd 3 0\n", 2),
        (b"1 0\nd1 0\n", 2),
        (b"1 0\n0", 2),
        (b"1 0\n\xff\xfe\n", 2),
        (b"a\x02\x00\x61\x00\n", 1),
        (b"", 1),
    ],
)
def test_what_is_no_proof(data, line):
    assert line_of(whole_proof, data, "a.drat", 2) == line


@given(
    st.binary(max_size=60), st.sampled_from([b"", b"p cnf 3 2\n", b"1 2 0\n", b"c r1c1=1 is 1\n"])
)
def test_any_bytes_are_read_or_refused(data, before):
    for read in (read_cnf, read_statement, lambda data, file: whole_proof(data, file, 3)):
        with suppress(Refused):
            read(before + data, "a")


def test_too_much_is_refused(monkeypatch):
    monkeypatch.setattr(reading, "MOST_LITERALS", 4)
    assert line_of(read_cnf, b"p cnf 3 2\n1 2 3 0\n1 2 3 0\n", "a.cnf") == 3
    assert line_of(whole_proof, b"1 2 3 0\n1 2 0\n", "a.drat", 3) == 2
    monkeypatch.setattr(reading, "MOST_BYTES", 6)
    assert line_of(read_cnf, b"p cnf 0 0\n", "a.cnf") == 1
    assert line_of(whole_proof, b"1 2 3 0\n", "a.drat", 3) == 1
    assert line_of(read_statement, json.dumps(SAID).encode(), "a.json") == 1


def test_a_statement():
    said = read_statement(json.dumps(SAID).encode(), "a.json")
    assert (said.puzzle, said.answer, said.model) == ("reed", {"r1c1": 1}, (1,))


@pytest.mark.parametrize(
    "change",
    [
        {"certificate": 2},
        {"puzzle": 3},
        {"puzzle": ""},
        {"manifest": "0" * 63},
        {"manifest": "G" * 64},
        {"answer": [1]},
        {"answer": {"r1c1": "1"}},
        {"answer": {"r1c1": True}},
        {"model": {"1": 1}},
        {"model": [0]},
        {"model": [10**9]},
        {"model": [1.0]},
        {"digests": {"cnf": SHA}},
        {"digests": {"cnf": SHA, "drat": None}},
    ],
    ids=str,
)
def test_what_is_no_statement(change):
    with pytest.raises(Refused):
        read_statement(json.dumps({**SAID, **change}).encode(), "a.json")


@pytest.mark.parametrize(
    ("data", "line"),
    [(b"{\n{", 2), (b"[" * 100_000, 1), (b"\xff", 1), (b"9" * 5000, 1), (b"[]", 1), (b"", 1)],
)
def test_what_is_no_json(data, line):
    assert line_of(read_statement, data, "a.json") == line


def test_a_long_formula_looks_at_the_clock():
    looked = []
    lines = b"1 0\n" * (3 * reading.BETWEEN_LOOKS)
    head = b"p cnf 1 %d\n" % (3 * reading.BETWEEN_LOOKS)
    read_cnf(head + lines, "a.cnf", lambda: looked.append(1))
    assert len(looked) == 3

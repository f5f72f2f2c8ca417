"""`reglet check --certificate` and `reglet verify-certificate`: files, words, exit codes."""

import json
import os

import pytest

from layout.command import main
from layout.output.write import Outputs
from tests.support.books import JOB, manifest, write_job

KINDS = ("cnf", "drat", "json")


def told(capsys, *words):
    code = main([*map(str, words)])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return code, out, err


@pytest.fixture
def puzzles(tmp_path):
    folder = tmp_path / "puzzles"
    folder.mkdir()
    for number in (1, 2, 3):
        (folder / f"reed-{number}.yaml").write_text(manifest(number))
    return folder


@pytest.fixture
def certificates(puzzles, tmp_path, capsys):
    folder = tmp_path / "certificates"
    assert told(capsys, "check", puzzles, "--certificate", folder)[0] == 0
    return folder


def names(folder):
    return sorted(name for name in os.listdir(folder) if not name.startswith("."))


def test_three_files_for_each_puzzle(puzzles, tmp_path, capsys):
    folder = tmp_path / "new" / "certificates"
    code, out, err = told(capsys, "check", puzzles, "--certificate", folder)
    assert (code, out.count(": one")) == (0, 3)
    assert "3 certificates" in err
    assert names(folder) == [f"reed-{number}.{kind}" for number in (1, 2, 3) for kind in KINDS]


def test_only_a_puzzle_with_one_answer_gets_one(puzzles, tmp_path, capsys):
    (puzzles / "loose.yaml").write_text(manifest(4, answers=2))
    (puzzles / "none.yaml").write_text(manifest(4, answers=0))
    folder = tmp_path / "certificates"
    code, out, _ = told(capsys, "check", puzzles, "--certificate", folder, "--json", "--quiet")
    written = json.loads(out)["written"]
    assert (code, len(written), len(names(folder))) == (1, 9, 9)
    assert all(path.startswith(folder.as_posix()) for path in written)


def test_without_the_option_nothing_is_said_of_certificates(puzzles, capsys):
    _, out, err = told(capsys, "check", puzzles, "--json")
    assert "written" not in json.loads(out)
    assert "certificate" not in err


def test_a_bank_s_puzzles_each_have_one_that_holds(tmp_path, capsys):
    bank = tmp_path / "bank.txt"
    bank.write_text("1..4..1.2......3\n\n4..3..4.1......2 words\n")
    code, _, _ = told(capsys, "check", bank, "--certificate", tmp_path / "c")
    assert (code, names(tmp_path / "c")[:3]) == (0, [f"bank-1.{kind}" for kind in KINDS])
    bank.write_text("1..4..1.2......3 other words\n\n4..3..4.1......2\n")
    assert told(capsys, "verify-certificate", tmp_path / "c", "--puzzle", bank)[0] == 0
    bank.write_text("1..4..1.2......3\n\n4..3..4.1.......\n")
    code, out, _ = told(capsys, "verify-certificate", tmp_path / "c", "--puzzle", bank)
    assert (code, out.count(": accepted"), out.count("has changed since")) == (1, 1, 1)


def test_two_puzzles_of_one_id_are_refused_and_nothing_is_written(puzzles, tmp_path, capsys):
    (puzzles / "more").mkdir()
    (puzzles / "more" / "Reed-1.yaml").write_text(manifest(2))
    code, _, err = told(capsys, "check", puzzles, "--certificate", tmp_path / "c")
    assert code == 2
    assert "a certificate needs its own" in err
    assert not (tmp_path / "c").exists()


def test_a_certificate_is_never_written_over_a_bank(tmp_path, capsys):
    bank = tmp_path / "tide-1.cnf"
    bank.write_text("1..4..1.2......3\n")
    (tmp_path / "tide.txt").write_text("1..4..1.2......3\n")
    code, _, err = told(capsys, "check", bank, tmp_path / "tide.txt", "--certificate", tmp_path)
    assert (code, bank.read_text()) == (2, "1..4..1.2......3\n")
    assert "it is what is read" in err


def test_a_folder_that_is_a_file(puzzles, tmp_path, capsys):
    (tmp_path / "c").write_text("words")
    code, _, err = told(capsys, "check", puzzles, "--certificate", tmp_path / "c")
    assert (code, (tmp_path / "c").read_text()) == (2, "words")
    assert "no folder" in err


def test_without_time_there_is_none(puzzles, tmp_path, capsys, monkeypatch):
    from verify.certificate import writing

    monkeypatch.setattr(writing, "MOST_BYTES", 100)
    code, out, err = told(capsys, "check", puzzles, "--certificate", tmp_path / "c")
    assert (code, out.count(": one")) == (1, 3)
    assert "no certificate in this time and room" in err
    assert "reed-1 reed-2 reed-3" in err


def test_they_are_accepted(certificates, puzzles, capsys):
    code, out, err = told(capsys, "verify-certificate", certificates, "--puzzle", puzzles)
    assert (code, out.count(": accepted"), out.count("the manifest's own")) == (0, 3, 3)
    assert "3 certificates: 3 accepted" in err


def test_without_a_manifest_that_is_told(certificates, capsys):
    code, out, _ = told(capsys, "verify-certificate", certificates / "reed-2.drat")
    assert (code, out.count("no manifest was asked")) == (0, 1)


def test_the_json_document(certificates, puzzles, capsys):
    (certificates / "reed-2.drat").write_text("1 0\nx\n")
    code, out, _ = told(capsys, "verify-certificate", certificates, "--json", "--puzzle", puzzles)
    one, two, _ = json.loads(out)["certificates"]
    assert (code, one["verdict"], one["bound"]) == (1, "accepted", True)
    assert two == {
        "certificate": (certificates / "reed-2").as_posix(),
        "verdict": "refused",
        "file": (certificates / "reed-2.drat").as_posix(),
        "line": 1,
        "message": "it is not the file that reed-2.json was written with",
    }


def test_a_changed_manifest_is_refused(certificates, puzzles, capsys):
    path = puzzles / "reed-2.yaml"
    path.write_text(path.read_text() + "\n")
    code, out, _ = told(capsys, "verify-certificate", certificates, "--puzzle", puzzles)
    assert (code, out.count("refused"), out.count(": accepted")) == (1, 1, 2)
    assert "reed-2.json:1: refused: the manifest is not the one that was certified" in out


def test_a_puzzle_without_a_certificate_is_told(certificates, puzzles, capsys):
    (puzzles / "reed-4.yaml").write_text(manifest(4))
    code, out, _ = told(capsys, "verify-certificate", certificates, "--puzzle", puzzles)
    assert (code, "reed-4 has no certificate" in out) == (1, True)


def test_a_certificate_of_none_of_the_puzzles_is_refused(certificates, puzzles, capsys):
    code, out, _ = told(
        capsys, "verify-certificate", certificates, "--puzzle", puzzles / "reed-1.yaml"
    )
    assert (code, out.count("none of the puzzles given")) == (1, 2)


def test_a_renamed_certificate_is_another_puzzle_s(certificates, puzzles, capsys):
    for kind in KINDS:
        (certificates / f"reed-1.{kind}").replace(certificates / f"reed-3.{kind}")
    code, out, _ = told(
        capsys, "verify-certificate", certificates / "reed-3.cnf", "--puzzle", puzzles
    )
    assert (code, out.count("it is of another puzzle than reed-3")) == (1, 1)


def test_what_cannot_be_read(certificates, tmp_path, capsys):
    (certificates / "reed-1.drat").unlink()
    code, out, _ = told(capsys, "verify-certificate", certificates)
    assert (code, out.count("unreadable: no such file"), out.count(": accepted")) == (2, 1, 2)
    (tmp_path / "empty").mkdir()
    for path in (tmp_path / "empty", tmp_path / "reed.txt"):
        code, out, err = told(capsys, "verify-certificate", path)
        assert (code, out, "certificate" in err) == (2, "", True)
    code, out, _ = told(capsys, "verify-certificate", tmp_path / "nothing.cnf")
    assert (code, "no such file" in out) == (2, True)


def test_the_time_is_bounded(certificates, capsys):
    code, out, _ = told(
        capsys, "verify-certificate", certificates / "reed-1.cnf", "--seconds", "0.0000001"
    )
    assert (code, "can't be checked in" in out) == (1, True)


WITH = JOB.replace("pdf: build/book.pdf", "pdf: build/book.pdf\n  certificates: build/proofs")


def test_a_book_s_certificates_stand_beside_it(tmp_path, capsys):
    job = write_job(tmp_path, WITH)
    code, out, _ = told(capsys, "make", job, "--json")
    written = json.loads(out)["written"]
    assert (code, len(written)) == (0, 19)
    assert written[0].endswith("build/book.pdf")
    words = ("verify-certificate", tmp_path / "build/proofs", "--puzzle")
    assert told(capsys, *words, tmp_path / "low", tmp_path / "high")[0] == 0
    first = (tmp_path / "build/book.pdf").read_bytes()
    assert told(capsys, "make", write_job(tmp_path / "plain"))[0] == 0
    assert (tmp_path / "plain/build/book.pdf").read_bytes() == first


def test_book_and_certificates_stand_and_fall_together(tmp_path, capsys, monkeypatch):
    job = write_job(tmp_path, WITH)
    assert told(capsys, "make", job)[0] == 0
    before = {path: path.read_bytes() for path in (tmp_path / "build").rglob("*.*")}
    job.write_text(WITH.replace("Small Almanac", "Large Almanac"))
    staged = Outputs._stage

    def full(outputs, path, data, check):
        if path.name == "reed-6.json":
            raise OSError(28, "No space left on device")
        return staged(outputs, path, data, check)

    monkeypatch.setattr(Outputs, "_stage", full)
    assert told(capsys, "make", job)[0] == 2
    assert {path: path.read_bytes() for path in (tmp_path / "build").rglob("*.*")} == before


def test_a_book_whose_certificates_cannot_be_made_is_not_made(tmp_path, capsys, monkeypatch):
    from verify.certificate import writing

    monkeypatch.setattr(writing, "MOST_BYTES", 100)
    job = write_job(tmp_path, WITH)
    code, _, err = told(capsys, "make", job)
    assert (code, "no certificate can be made" in err) == (1, True)
    assert not (tmp_path / "build" / "book.pdf").exists()


@pytest.mark.parametrize("wanted", ["../proofs", "/proofs", '""', "[a]"])
def test_certificates_stay_in_the_job_s_folder(tmp_path, capsys, wanted):
    job = write_job(tmp_path, WITH.replace("build/proofs", wanted))
    code, _, err = told(capsys, "make", job)
    assert (code, "book.yaml:21:" in err) == (2, True), err

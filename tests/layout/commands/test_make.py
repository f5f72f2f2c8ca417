"""`reglet make`: the whole job, its answers and exit codes, and what it leaves untouched."""

import json
import os
from functools import partial

import pytest

from layout.command import main
from layout.jobs.book import make_book as making
from layout.jobs.common.read_back import FaultyFile, read_back
from layout.output.folder_lock import LOCK
from layout.output.write import Outputs, write_whole
from layout.pages.common.format import Trim
from layout.picture.document import Document, Info, Leaf
from layout.writers.pdf import pdf_of_document
from tests.support.books import GRID, JOB, OPEN, Printed, manifest, write_job
from verify.walk import walk as walking

EARLIER = b"the earlier file"


def told(capsys, *words):
    code = main(["make", *map(str, words)])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return code, out, err


@pytest.fixture
def job(tmp_path):
    return write_job(tmp_path)


@pytest.fixture
def earlier(job):
    """The file of an earlier run, which a failing run must leave alone."""
    output = job.parent / "build" / "book.pdf"
    output.parent.mkdir()
    output.write_bytes(EARLIER)
    return output


def untouched(output):
    beside = set(os.listdir(output.parent)) - {LOCK}
    return output.read_bytes() == EARLIER and beside == {output.name}


def test_a_book_is_made(job, capsys):
    code, out, err = told(capsys, job)
    assert (code, out) == (0, "")
    assert "6 puzzles" in err
    data = (job.parent / "build" / "book.pdf").read_bytes()
    pdf = Printed(data, Trim(152.4, 228.6, 3))
    assert f"{len(pdf)} pages" in err
    assert any("The Small Almanac" in pdf.text(at) for at in range(len(pdf)))


def test_the_json_document(job, capsys):
    code, out, err = told(capsys, job, "--json", "--quiet")
    assert (code, err) == (0, "")
    facts = json.loads(out)
    assert facts["job"] == job.as_posix()
    assert facts["written"] == [(job.parent / "build" / "book.pdf").as_posix()]
    pdf = Printed((job.parent / "build" / "book.pdf").read_bytes())
    assert facts["pages"] == len(pdf)
    assert [puzzle["id"] for puzzle in facts["puzzles"]] == [f"reed-{n}" for n in range(1, 7)]
    for puzzle in facts["puzzles"]:
        assert puzzle["verdict"] == "one"
        assert puzzle["grade"] == {"band": "calm", "score": puzzle["grade"]["score"]}
        assert puzzle["file"].endswith(f"{puzzle['id']}.yaml")
        title = puzzle["id"].replace("reed-", "Reed ")
        for page in ("puzzle_page", "answer_page"):
            assert title in pdf.text(pdf.labels().index(puzzle[page]))


def test_the_same_job_gives_the_same_bytes(job, capsys):
    output = job.parent / "build" / "book.pdf"
    told(capsys, job)
    first = output.read_bytes()
    told(capsys, job, "--jobs", "2")
    assert output.read_bytes() == first


def test_puzzles_from_another_root(tmp_path, capsys):
    job = write_job(tmp_path / "job", low=0, high=0)
    write_job(tmp_path / "bank")
    assert told(capsys, job)[0] == 2
    assert told(capsys, job, "--puzzles", tmp_path / "bank")[0] == 0


def test_all_puzzles_without_one_answer_are_listed_together(job, earlier, capsys):
    (job.parent / "low" / "reed-2.yaml").write_text(manifest(2, answers=2))
    (job.parent / "high" / "reed-5.yaml").write_text(manifest(5, answers=0))
    wrong = manifest(4) + "answer: |\n  1 3 2 4\n  3 4 1 2\n  2 1 4 3\n  4 1 2 3\n"
    (job.parent / "high" / "reed-4.yaml").write_text(wrong)
    code, out, err = told(capsys, job)
    assert (code, out) == (1, "")
    assert "reed-2.yaml: reed-2: many answers" in err
    assert "reed-5.yaml: reed-5: no answer" in err
    assert "reed-4.yaml:10:9: reed-4: the manifest's own answer is wrong in r1c2 r1c3" in err
    assert "reed-1.yaml" not in err
    assert untouched(earlier)
    code, out, _ = told(capsys, job, "--json")
    facts = json.loads(out)
    assert (code, facts["written"], facts["pages"]) == (1, [], 0)
    verdicts = {puzzle["id"]: puzzle["verdict"] for puzzle in facts["puzzles"]}
    assert (verdicts["reed-1"], verdicts["reed-2"], verdicts["reed-5"]) == ("one", "many", "none")


def easy(number):
    """A puzzle of which a single cell is open."""
    return manifest(number).replace("\n  ".join(OPEN), "\n  ".join((*GRID[:3], "412.")))


@pytest.fixture
def foggy(job, monkeypatch):
    """The job where nobody knows more than how to fill a last cell: one puzzle has a grade."""
    (job.parent / "low" / "reed-2.yaml").write_text(easy(4).replace("Reed 4", "Reed 2"))
    monkeypatch.setattr(walking, "LADDER", walking.LADDER[:1])
    return job


def test_ungraded_puzzles_are_refused_and_listed_together(foggy, earlier, capsys):
    code, out, err = told(capsys, foggy)
    assert (code, out) == (1, "")
    named = [line.split(": ")[1] for line in err.splitlines() if ": ungraded: " in line]
    assert named == ["reed-1", "reed-3", "reed-4", "reed-5", "reed-6"]
    assert untouched(earlier)
    _, out, _ = told(capsys, foggy, "--json")
    facts = json.loads(out)
    assert (facts["written"], facts["pages"]) == ([], 0)
    first, second, *_ = facts["puzzles"]
    assert first["grade"] == {"band": "ungraded", "score": None}
    assert (second["verdict"], second["grade"]["band"]) == ("one", "calm")


def test_ungraded_puzzles_are_printed_where_the_job_says_so(foggy, capsys):
    foggy.write_text(JOB + "ungraded: print\n")
    code, out, err = told(capsys, foggy, "--json")
    assert code == 0
    assert "ungraded: reed-1 reed-3 reed-4 reed-5 reed-6" in err
    bands = [puzzle["grade"]["band"] for puzzle in json.loads(out)["puzzles"]]
    assert bands.count("ungraded") == 5


def order_of(capsys, job, order):
    job.write_text(JOB + f"order: {order}\nungraded: print\n")
    code, out, _ = told(capsys, job, "--json")
    assert code == 0
    return [puzzle["id"] for puzzle in json.loads(out)["puzzles"]]


def test_puzzles_by_grade_keep_to_their_section_and_else_to_the_list(job, capsys):
    (job.parent / "low" / "reed-3.yaml").write_text(easy(4))
    (job.parent / "high" / "reed-5.yaml").write_text(easy(8))
    listed = [f"reed-{number}" for number in range(1, 7)]
    assert order_of(capsys, job, "as-listed") == listed
    by_grade = ["reed-3", "reed-1", "reed-2", "reed-5", "reed-4", "reed-6"]
    assert order_of(capsys, job, "by-grade") == by_grade
    pdf = Printed((job.parent / "build" / "book.pdf").read_bytes())
    pages = [pdf.text(at) for at in range(len(pdf)) if "answer on page" in pdf.text(at)]
    assert "Reed 4" in pages[0]
    assert "Reed 8" in pages[3]


def test_ungraded_puzzles_stand_last_by_grade(foggy, capsys):
    assert order_of(capsys, foggy, "by-grade")[:3] == ["reed-2", "reed-1", "reed-3"]


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("low/*.yaml", "lo/*.yaml", "no file for"),
        ("low/*.yaml", "../*.yaml", "inside the folder of the job"),
        ("build/book.pdf", "../book.pdf", "inside the folder of the job"),
        ("bleed: 3mm", "style: paperbak", 'did you mean "paperback"?'),
        ("title: Low Water", "title: " + "Low " * 49, "is too long for its place"),
        ("title: The Small Almanac", "title: 潮の本", "U+6F6E"),
        ("per-page: 2", "per-page: 2\n    intro: ☃", "U+2603"),
        ("trim: 6x9in", "trim: 89x89mm\nstyle: large-print", "mm or more"),
    ],
)
def test_what_can_not_be_used_is_told_at_its_place(job, earlier, capsys, old, new, expected):
    text = JOB.replace(old, new, 1)
    job.write_text(text, encoding="utf-8")
    code, out, err = told(capsys, job)
    assert (code, out) == (2, "")
    assert expected in err
    assert untouched(earlier)
    code, out, _ = told(capsys, job, "--json")
    assert code == 2
    errors = json.loads(out)["errors"]
    assert any(expected in error["message"] for error in errors)
    assert all(error["line"] >= 1 for error in errors)


def test_a_title_with_a_letter_that_is_missing_is_told_in_its_manifest(job, earlier, capsys):
    (job.parent / "low" / "reed-1.yaml").write_text(manifest(1, "Marsh 潮"), encoding="utf-8")
    code, _, err = told(capsys, job)
    assert code == 2
    assert "low/reed-1.yaml:1:8: " in err
    assert untouched(earlier)


def test_unreadable_puzzles_are_told_all_at_once(job, earlier, capsys):
    (job.parent / "low" / "reed-1.yaml").write_text("kind: sudoku\nsize: 26\n")
    (job.parent / "low" / "reed-2.yaml").write_text(
        "kind: sudoku\nsize: 4\nrules: {arow: [r1c1]}\n"
    )
    (job.parent / "high" / "reed-4.yaml").write_text("a: &a [x]\nb: *a\n")
    code, _, err = told(capsys, job)
    assert code == 2
    for name in ("low/reed-1.yaml:2", "low/reed-2.yaml:3", "high/reed-4.yaml:1"):
        assert name in err
    assert untouched(earlier)


@pytest.mark.parametrize("what", ["missing", "folder", "large", "binary"])
def test_files_that_are_no_job(tmp_path, capsys, what):
    path = tmp_path / "book.yaml"
    if what == "folder":
        path.mkdir()
    elif what == "large":
        path.write_bytes(b"# " + b"x" * 10_000_000)
    elif what == "binary":
        path.write_bytes(bytes(range(256)))
    code, out, err = told(capsys, path)
    assert (code, out) == (2, "")
    assert err.count("\n") == 1


def test_a_place_that_can_not_be_written(job, capsys):
    (job.parent / "build").write_text("a file where a folder should be")
    code, _, err = told(capsys, job)
    assert code == 2
    assert "can't write" in err


def test_a_full_disk_leaves_the_earlier_file(job, earlier, capsys, monkeypatch):
    def full(source, target):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    code, _, err = told(capsys, job)
    monkeypatch.undo()
    assert code == 2
    assert "no space left" in err
    assert untouched(earlier)


@pytest.mark.parametrize("stage", ["read_listed", "prove_all", "walk_all", "lay_out", "write_all"])
def test_an_interrupt_leaves_the_earlier_file(job, earlier, capsys, monkeypatch, stage):
    def stop(*arguments):
        raise KeyboardInterrupt

    monkeypatch.setattr(Outputs if stage == "write_all" else making, stage, stop)
    code, out, err = told(capsys, job)
    assert (code, out) == (130, "")
    # Before the files are written the plan of pages is told; twins are told once all are proved.
    told_besides = [line for line in err.splitlines() if " is reed-" not in line]
    assert len(told_besides) == (2 if stage == "write_all" else 1)
    assert untouched(earlier)


def test_a_file_is_read_back_before_it_takes_its_name(tmp_path):
    leaves = (Leaf(100, 150, (), "1", 3.0), Leaf(100, 150, (), "2", 3.0))
    document = Document(leaves, Info("Book"))
    data = pdf_of_document(document)
    larger = Document((leaves[0], Leaf(100, 151, (), "2", 3.0)), Info("Book"))
    path = tmp_path / "book.pdf"
    path.write_bytes(b"the earlier book")
    for fault, expected in (
        (data[: len(data) // 2], document),
        (data, Document(leaves[:1], Info("Book"))),
        (data, larger),
    ):
        with pytest.raises(FaultyFile):
            write_whole(path, fault, partial(read_back, document=expected))
        assert path.read_bytes() == b"the earlier book"
        assert list(tmp_path.iterdir()) == [path]
    write_whole(path, data, lambda beside: read_back(beside, document))
    assert path.read_bytes() == data


LOOPS = {"a file": ("build/book.pdf", "book.pdf"), "a folder": ("build", "build")}


@pytest.mark.parametrize("name", LOOPS)
def test_a_link_to_itself_where_the_book_would_stand_is_no_defect(tmp_path, capsys, name):
    path, (link, target) = write_job(tmp_path), LOOPS[name]
    (tmp_path / link).parent.mkdir(exist_ok=True)
    (tmp_path / link).symlink_to(target)
    code = main(["make", str(path), "--quiet"])
    err = capsys.readouterr().err
    assert "defect" not in err
    assert code == 2
    assert "a link that leads to nothing" in err


def test_a_style_that_is_a_link_to_itself_is_told(tmp_path, capsys):
    path = write_job(tmp_path, JOB.replace("trim:", "style: loop.yaml\ntrim:"))
    (tmp_path / "loop.yaml").symlink_to("loop.yaml")
    assert main(["make", str(path)]) == 2
    assert capsys.readouterr().err.startswith("loop.yaml:1:1: the file can't be read")


def test_a_style_named_in_full_is_read_where_it_lies_with_the_job(tmp_path, monkeypatch):
    path = write_job(tmp_path, JOB.replace("trim:", f"style: {tmp_path / 'mine.yaml'}\ntrim:"))
    (tmp_path / "mine.yaml").write_text("like: newsprint\n")
    monkeypatch.chdir(tmp_path)
    assert main(["make", path.name, "--quiet"]) == 0


@pytest.mark.parametrize("key", ["puzzles: [low/*.yaml]", "title: Low Water", "style: paperback"])
def test_what_a_terminal_may_obey_is_never_printed_back(tmp_path, capsys, key):
    job = JOB.replace("trim:", "style: paperback\ntrim:")
    value = '["\\x1b[31m*"]' if "[" in key else '"\\x1b[31m.yaml"'
    path = write_job(tmp_path, job.replace(key, f"{key.split(':')[0]}: {value}", 1))
    assert main(["make", str(path)]) == 2
    assert all(line.isprintable() for line in capsys.readouterr().err.splitlines())

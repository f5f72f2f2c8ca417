"""A column's season: what is made, what stands, and what is told where something is wrong."""

import csv
import json
import os
import xml.etree.ElementTree as ElementTree
import zipfile
from io import BytesIO

import pypdfium2
import pytest
from PIL import Image

from layout.command import main
from layout.jobs.column.ledger import FILE_NAME, checksum
from layout.output.folder_lock import LOCK
from tests.support.seasons import BANK, JOB, small_bank, write_column

LARGE = BANK.read_text().splitlines()[1]
"""A classic puzzle."""

DAYS = ["2027-02-26", "2027-02-27", "2027-03-01", "2027-03-02"]


@pytest.fixture
def job(tmp_path):
    return write_column(tmp_path)


def told(capsys, *words):
    code = main(["make", *map(str, words)])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return code, out, err


def made(capsys, job, *words):
    """The JSON document of a run that goes well."""
    code, out, err = told(capsys, job, "--json", *words)
    assert code == 0, err
    return json.loads(out)


def held(job):
    folder = job.parent / "build"
    files = [path for path in folder.iterdir() if path.name != LOCK] if folder.exists() else []
    return {path.name: path.read_bytes() for path in files}


def ledger(job):
    with (job.parent / "build" / FILE_NAME).open(newline="") as file:
        return list(csv.DictReader(file))


def rewrite(job, old, new):
    text = job.read_text(encoding="utf-8")
    assert old in text
    job.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_a_season_and_its_ledger(job, capsys):
    facts = made(capsys, job)
    names = [f"{day}-eel-{number}.svg" for number, day in enumerate(DAYS, start=1)]
    assert sorted(held(job)) == sorted([*names, FILE_NAME])
    assert [day["date"] for day in facts["days"]] == DAYS
    assert [day["number"] for day in facts["days"]] == [1, 2, 3, 4]
    assert facts["due"] == {"number": 4, "id": "eel-4", "date": "2027-03-03"}
    rows = ledger(job)
    assert [(row["date"], row["puzzle"], row["file"]) for row in rows] == [
        (day, f"eel-{number}", name)
        for number, (day, name) in enumerate(zip(DAYS, names, strict=True), start=1)
    ]
    for row in rows:
        assert row["checksum"] == checksum(held(job)[row["file"]])
    assert len({row["canonical"] for row in rows}) == 4


def test_the_editor_is_told_which_answer_is_due(job, capsys):
    _, _, err = told(capsys, job)
    assert "days made: 4, as they were published: 0" in err
    assert "due on 2027-03-03: the answer to number 4 (eel-4)" in err


def test_a_second_run_changes_nothing(job, capsys):
    made(capsys, job)
    before = held(job)
    facts = made(capsys, job)
    assert facts["written"] == []
    assert all(day["published"] for day in facts["days"])
    assert held(job) == before


def test_the_same_job_gives_the_same_bytes_however_it_is_spread(tmp_path, capsys):
    rule = ("issues: 4", "issues: 10")
    jobs = [write_column(tmp_path / name, JOB.replace(*rule), 10) for name in ("one", "two")]
    made(capsys, jobs[0], "--jobs", "1")
    made(capsys, jobs[1], "--jobs", "2")
    assert held(jobs[0]) == held(jobs[1])


def test_a_published_day_outlives_another_style_and_another_bank(job, capsys):
    made(capsys, job)
    before = held(job)
    rewrite(job, "width: 60mm", "width: 70mm")
    rewrite(job, "issues: 4", "issues: 6")
    bank = job.parent / "bank" / "eel.txt"
    made(capsys, job)
    after = held(job)
    assert all(after[name] == data for name, data in before.items() if name != FILE_NAME)
    assert len(ledger(job)) == 6
    assert after[FILE_NAME].startswith(before[FILE_NAME])
    bank.write_text("\n".join([*bank.read_text().split()[:5], "0" * 16]))
    assert made(capsys, job)["written"] == []


def test_from_a_day_on_all_is_made_anew(job, capsys):
    made(capsys, job)
    before = held(job)
    rewrite(job, "width: 60mm", "width: 70mm")
    rewrite(job, "formats: [svg]", 'name: "{number}"\n  formats: [svg]')
    facts = made(capsys, job, "--from", "2027-03-01")
    after = held(job)
    assert [day["published"] for day in facts["days"]] == [True, True, False, False]
    stand = ["2027-02-26-eel-1.svg", "2027-02-27-eel-2.svg"]
    assert sorted(after) == sorted([*stand, "3.svg", "4.svg", FILE_NAME])
    assert all(after[name] == before[name] for name in stand)
    assert ElementTree.fromstring(after["3.svg"]).get("width") == "70mm"


def test_from_a_day_before_which_days_are_missing(job, capsys):
    code, _, err = told(capsys, job, "--from", "2027-03-01")
    assert code == 2
    assert "2 earlier days are not in the ledger, first 2027-02-26" in err
    assert held(job) == {}


def test_from_is_for_columns(tmp_path, capsys):
    from tests.support.books import write_job

    code, _, err = told(capsys, write_job(tmp_path), "--from", "2027-03-01")
    assert code == 2
    assert "--from" in err


def test_the_next_season_goes_on_from_the_ledger(job, capsys):
    made(capsys, job)
    rewrite(job, "from: 2027-02-26\n  issues: 4", "from: 2027-03-08\n  issues: 2")
    facts = made(capsys, job)
    assert [(day["number"], day["id"]) for day in facts["days"]][4:] == [
        (5, "eel-5"),
        (6, "eel-6"),
    ]


def test_a_lost_file_is_made_again_just_as_it_was(job, capsys):
    made(capsys, job)
    before = held(job)
    (job.parent / "build" / "2027-02-27-eel-2.svg").unlink()
    facts = made(capsys, job)
    assert len(facts["written"]) == 2
    assert held(job) == before


@pytest.mark.parametrize(
    ("old", "new", "line"), [("width: 60mm", "width: 61mm", 3), ("title: Small", "title: Tall", 3)]
)
def test_a_lost_file_that_would_come_out_otherwise(job, capsys, old, new, line):
    made(capsys, job)
    (job.parent / "build" / "2027-02-27-eel-2.svg").unlink()
    before = held(job)
    rewrite(job, old, new)
    code, _, err = told(capsys, job)
    assert code == 2
    assert f"{FILE_NAME}:{line}:1: 2027-02-27-eel-2.svg is missing and would come out" in err
    assert held(job) == before


def test_a_file_edited_by_hand_is_told_and_stays(job, capsys):
    made(capsys, job)
    (job.parent / "build" / "2027-03-01-eel-3.svg").write_text("<svg/>")
    before = held(job)
    code, _, err = told(capsys, job, "--from", "2027-02-26")
    assert code == 2
    assert f"{FILE_NAME}:4:1: 2027-03-01-eel-3.svg is not the file that was published" in err
    assert held(job) == before


def test_a_file_in_the_way_that_the_ledger_does_not_know(job, capsys):
    folder = job.parent / "build"
    folder.mkdir()
    (folder / "2027-03-01-eel-3.svg").write_text("drawn by hand")
    before = held(job)
    code, _, err = told(capsys, job)
    assert code == 2
    assert "2027-03-01-eel-3.svg stands there already and is not in the ledger" in err
    assert held(job) == before


def test_a_bank_that_runs_dry(job, capsys):
    rewrite(job, "issues: 4", "issues: 9\n  grades: {mon: steep, tue-wed: calm}")
    code, _, err = told(capsys, job)
    assert code == 2
    assert "steep by 2 of 2" in err
    assert "calm" not in err
    assert "of any grade by 1 of 5" in err
    assert "daily.yaml:4:" in err
    assert held(job) == {}


def test_a_puzzle_without_one_answer_is_never_printed(job, capsys):
    bank = job.parent / "bank" / "eel.txt"
    bank.write_text("0" * 16 + "\n" + bank.read_text())
    code, _, err = told(capsys, job)
    assert code == 1
    assert "eel.txt:1:1: eel-1: many answers" in err
    assert held(job) == {}


WRONG = [
    ("width: 60mm", "width: 10mm", "a length from 20mm"),
    ("width: 60mm", "columns: 2", "columns without a measure"),
    ("title: Small Water", "title: 潮", "U+6F6E"),
    ("days: mon-sat", "grades: {mon: clam}", 'unknown grade "clam"; did you mean "calm"?'),
    ("days: mon-sat", "grades: {moon: calm}", "expected days of the week"),
    ("days: mon-sat", "days: []", "expected days of the week"),
    (
        "issues: 4\n  days: mon-sat",
        "until: 2027-02-27\n  days: sun",
        "a schedule without a single day",
    ),
    ("issues: 4", "until: 2027-02-25", "2027-02-26, its first day, or later"),
    ("issues: 4", "until: 2027-02-30", "expected a day such as"),
    ("issues: 4", "issues: 4\n  until: 2027-03-02", "issues beside until"),
    ("  issues: 4\n", "", "found no end"),
    ("issues: 4", "until: 2999-12-31", "more than 2000 days"),
    ("formats: [svg]", "formats: [svgz]", 'unknown format "svgz"; did you mean "svg"?'),
    ("formats: [svg]", "formats: [svg, svg]", "stands in the list already"),
    ("formats: [svg]", 'name: "{week}"', "2027-02-26 and 2027-02-27 one file, 2027-W08.svg"),
    ("formats: [svg]", 'name: "{dat}"', 'unknown word in braces "dat"; did you mean "date"?'),
    ("formats: [svg]", 'name: "a/{date}"', "without a folder"),
    ("folder: build", "folder: ../build", "inside the folder of the job"),
    ("formats: [svg]", "profile: 26", "expected a dot gain such as 26%, or a grey"),
    ("formats: [svg]", "profile: 60%", "expected a percentage from 0% to 40%"),
    ("formats: [svg]", "profile: no.icc", 'there is no file "no.icc"'),
    ("bank/*.txt", "bank/*.tex", "no file for"),
    ("job: column", "job: column\nshow: [hading]", 'did you mean "heading"?'),
    ("job: column", "job: column\nshow: [heading, rules]", "no grid among what is shown"),
    (
        "output:",
        "specials:\n  - {days: sun, puzzles: [bank/*.txt]}\noutput:",
        "sun is not among the days",
    ),
]


def test_a_column_too_narrow_for_its_grids(job, capsys):
    (job.parent / "bank" / "eel.txt").write_text("\n".join([LARGE, *small_bank(6)]))
    rewrite(job, "width: 60mm", "width: 40mm")
    code, _, err = told(capsys, job)
    assert code == 2
    assert err.count("gets cells of 4.4 mm in 40 mm; the style wants 5 mm or more") == 1
    assert "daily.yaml:3:8: " in err
    assert held(job) == {}


@pytest.mark.parametrize(("old", "new", "expected"), WRONG)
def test_what_can_not_be_used_is_told_at_its_place(job, capsys, old, new, expected):
    rewrite(job, old, new)
    code, out, err = told(capsys, job)
    assert (code, out) == (2, "")
    assert expected in err
    assert ".yaml:" in err or ".txt:" in err
    assert held(job) == {}


def test_a_day_between_published_ones(job, capsys):
    made(capsys, job)
    rewrite(job, "days: mon-sat", "days: mon-sun")
    rewrite(job, "issues: 4", "issues: 6")
    code, _, err = told(capsys, job)
    assert code == 2
    assert "1 earlier day is not in the ledger, first 2027-02-28, but 2027-03-02 is" in err
    rewrite(job, "days: mon-sun", "days: mon-sun\n  except: [2027-02-28]")
    assert [day["number"] for day in made(capsys, job)["days"]] == [1, 2, 3, 4, 5, 6]


def test_numbers_that_the_ledger_has_otherwise(job, capsys):
    made(capsys, job)
    rewrite(job, "days: mon-sat", "days: mon-sat\n  first-number: 7")
    code, _, err = told(capsys, job)
    assert code == 2
    assert f"{FILE_NAME}:2:1: found number 1 on 2027-02-26, expected 7" in err


def test_a_folder_that_can_not_be_written(job, capsys):
    (job.parent / "build").write_text("a file where a folder should be")
    code, _, err = told(capsys, job)
    assert code == 2
    assert "build" in err


@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt()])
@pytest.mark.parametrize("moves", [1, 3, 6])
def test_a_run_that_is_stopped_leaves_all_as_it_was(job, capsys, monkeypatch, moves, error):
    made(capsys, job)
    before, replace, left = held(job), os.replace, [moves]

    def fail_once(source, target):
        left[0] -= 1
        if left[0] == 0:
            raise error
        replace(source, target)

    rewrite(job, "width: 60mm", "width: 70mm")
    monkeypatch.setattr(os, "replace", fail_once)
    code, _, err = told(capsys, job, "--from", "2027-02-26")
    assert code in (2, 130)
    assert err.count("\n") == 1
    assert held(job) == before


SPECIAL = """\
job: column
title: Kleines Wasser
language: de
columns: 1
measure: {column: 46mm, gutter: 4mm}
puzzles: [bank/*.txt]
schedule: {from: 2027-W08, until: 2027-W08, days: [fri, sun], first-number: 40}
specials:
  - {days: sun, title: Sonntagswasser, columns: 2, puzzles: [sundays/*.yaml]}
output: {folder: build, name: "{day}", formats: [svg, pdf, png, tiff, html, txt], dpi: 300}
"""

SUNDAY = """\
title: Schleuse
constructor: Ida Marsh
kind: sudoku
size: 4
givens: |
  1 . . 4
  . . 1 .
  2 . . .
  . 3 . .
"""


@pytest.fixture(scope="module")
def week(tmp_path_factory):
    folder = tmp_path_factory.mktemp("week")
    (folder / "sundays").mkdir()
    (folder / "sundays" / "lock.yaml").write_text(SUNDAY)
    assert main(["make", str(write_column(folder, SPECIAL)), "--quiet"]) == 0
    return folder / "build"


@pytest.mark.parametrize(("day", "width"), [("fri", 46.0), ("sun", 96.0)])
def test_every_file_of_a_day_is_as_wide_as_its_columns(week, day, width):
    svg = ElementTree.fromstring((week / f"{day}.svg").read_bytes())
    assert float(svg.get("width").removesuffix("mm")) == pytest.approx(width, abs=0.1)
    page = pypdfium2.PdfDocument((week / f"{day}.pdf").read_bytes())[0]
    assert page.get_width() / 72 * 25.4 == pytest.approx(width, abs=0.1)
    for kind in ("png", "tiff"):
        image = Image.open(BytesIO((week / f"{day}.{kind}").read_bytes()))
        assert image.width == round(width / 25.4 * 300)
        assert image.info["dpi"] == pytest.approx((300, 300), abs=0.1)


def test_a_special_in_german_with_the_answer_of_the_day_before(week):
    page = pypdfium2.PdfDocument((week / "sun.pdf").read_bytes())[0]
    text = page.get_textpage().get_text_range().replace("\u00a0", " ")
    for words in ("Sonntagswasser", "Sonntag, 28. Februar 2027", "Nr. 41", "Lösung von Nr. 40"):
        assert words in text
    text = (week / "sun.txt").read_text(encoding="utf-8")
    assert "Zeile 2: 1 in Spalte 3." in text
    assert "Lösung:" in text


def test_answers_are_left_out_where_they_are_not_shown(tmp_path, capsys):
    job = write_column(tmp_path, JOB.replace("formats: [svg]", "formats: [pdf]"))
    rewrite(job, "width: 60mm", "width: 60mm\nshow: [number, grid]")
    made(capsys, job)
    data = held(job)["2027-02-27-eel-2.pdf"]
    text = pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range().replace("\u00a0", " ")
    assert "No. 2" in text
    assert "no. 1" not in text
    given = small_bank(2)[1].replace("0", "")
    assert sorted(char for char in text if char.isdecimal()) == sorted([*given, "2"])


def test_a_dry_run_prints_the_calendar_and_writes_nothing(job, capsys):
    before = held(job)
    assert main(["make", str(job), "--dry-run"]) == 0
    shown = capsys.readouterr()
    lines = shown.out.splitlines()
    assert [line.split()[:3] for line in lines] == [
        ["2027-02-26", "fri", "1"],
        ["2027-02-27", "sat", "2"],
        ["2027-03-01", "mon", "3"],
        ["2027-03-02", "tue", "4"],
    ]
    assert {line.split()[4] for line in lines} == {"new"}
    assert "days to be made: 4; nothing was written" in shown.err
    assert {name for name in held(job) if name.endswith(".svg")} == set(before)
    made(capsys, job)
    named = [row["puzzle"] for row in ledger(job)]
    assert named == [line.split()[-1] for line in lines]
    assert main(["make", str(job), "--dry-run"]) == 0
    assert {line.split()[4] for line in capsys.readouterr().out.splitlines()} == {"out"}


def test_a_changed_job_says_which_days_would_come_out_otherwise(job, capsys):
    made(capsys, job)
    assert main(["make", str(job)]) == 0
    assert "would come out otherwise" not in capsys.readouterr().err
    rewrite(job, "title: Small Water", "title: Still Water")
    assert main(["make", str(job)]) == 0
    said = capsys.readouterr().err
    assert "4 published days would come out otherwise, the first on 2027-02-26" in said
    assert "--from 2027-02-26 makes them anew" in said
    assert main(["make", str(job), "--from", "2027-03-01"]) == 0
    assert main(["make", str(job)]) == 0
    assert "2 published days would come out otherwise" in capsys.readouterr().err


def test_from_past_the_end_is_refused(job, capsys):
    made(capsys, job)
    code, _, said = told(capsys, job, "--from", "2027-03-03")
    assert code == 2
    assert "--from 2027-03-03 is past its last day, 2027-03-02" in said


def test_a_grade_for_a_day_without_a_paper_is_told_and_no_more(job, capsys):
    rewrite(job, "days: mon-sat", "days: mon-sat\n  grades: {sun: steep}")
    assert main(["make", str(job)]) == 0
    assert "sun has a grade, but is not among the days" in capsys.readouterr().err


def test_a_day_takes_any_of_the_grades_that_will_do(job, capsys):
    """Those of 4x4 puzzles are calm; a list that has that word will do, one that has not won't."""
    rewrite(job, "days: mon-sat", "days: mon-sat\n  grades: {mon-sat: [severe, calm]}")
    assert main(["make", str(job), "--dry-run"]) == 0
    assert {line.split()[3] for line in capsys.readouterr().out.splitlines()} == {"calm"}
    rewrite(job, "[severe, calm]", "[severe, steep]")
    code, _, said = told(capsys, job, "--dry-run")
    assert code == 2
    assert "short are: steep or severe by 4 of 4" in said


def packed(job, week):
    """A week's zip: its files, and the lists in it."""
    with zipfile.ZipFile(job.parent / "build" / f"{week}.zip") as whole:
        files = {name: whole.read(name) for name in whole.namelist()}
    rows = list(csv.DictReader(files.pop("manifest.csv").decode("utf-8-sig").splitlines()))
    return files, rows, json.loads(files.pop("manifest.json"))


def test_weeks_come_in_zips_with_lists_of_their_files(job, capsys):
    """A week that goes on in the next season is packed anew, with all of its days."""
    rewrite(job, "formats: [svg]", "formats: [svg, png]\n  weekly: true")
    rewrite(job, "width: 60mm", "width: 60mm\ncredit: Saltmarsh Desk")
    rewrite(job, "issues: 4", "issues: 3")
    made(capsys, job)
    files, rows, told_days = packed(job, "2027-W09")
    assert [row["date"] for row in rows] == ["2027-03-01"] * 2
    rewrite(job, "issues: 3", "issues: 5")
    made(capsys, job)
    files, rows, told_days = packed(job, "2027-W09")
    assert [row["date"] for row in rows] == [
        day for day in ("2027-03-01", "2027-03-02", "2027-03-03") for _ in range(2)
    ]
    stands = held(job)
    for row in rows:
        assert checksum(files[row["file"]]) == row["sha256"] == checksum(stands[row["file"]])
        assert row["credit"] == "Saltmarsh Desk"
        assert row["rules"].startswith("Each row, column and box")
    assert [day["number"] for day in told_days["days"]] == [3, 4, 5]
    assert {file["file"] for day in told_days["days"] for file in day["files"]} == set(files)


EDITIONS = """\
editions:
  valley: {width: 40mm, language: de, formats: [svg, txt], title: Stilles Wasser}
  coast: {depth: 120mm, answer: next-day, show: [heading, grid, rules, previous-answer]}
"""


def test_papers_share_a_season_and_a_ledger(job, capsys):
    """Each in its own width, language and formats, and with what it shows."""
    rewrite(job, "title: Small Water\n", f"title: Small Water\n{EDITIONS}")
    rewrite(job, "folder: build\n", 'folder: build\n  name: "{edition}-{date}"\n')
    made(capsys, job)
    files = held(job)
    days = ("2027-02-26", "2027-02-27", "2027-03-01", "2027-03-02")
    assert set(files) == {
        FILE_NAME,
        *(f"valley-{day}.{ending}" for day in days for ending in ("svg", "txt")),
        *(f"coast-{day}.svg" for day in days),
    }
    assert [row["puzzle"] for row in ledger(job)][::3] == [row["puzzle"] for row in ledger(job)][
        2::3
    ]
    valley, coast = (
        ElementTree.fromstring(files[f"{name}-2027-03-01.svg"]) for name in ("valley", "coast")
    )
    assert (valley.get("width"), coast.get("width")) == ("40mm", "60mm")
    assert coast.get("height") == "120mm"
    assert b"Stilles Wasser" in files["valley-2027-03-01.svg"]
    assert "In jeder Zeile" in files["valley-2027-03-01.txt"].decode()
    (job.parent / "build" / "valley-2027-03-01.svg").unlink()
    (job.parent / "build" / "coast-2027-03-02.svg").unlink()
    made(capsys, job)
    assert held(job) == files
    assert main(["make", str(job)]) == 0
    assert "would come out otherwise" not in capsys.readouterr().err
    rewrite(job, "width: 40mm", "width: 45mm")
    assert main(["make", str(job)]) == 0
    assert "4 published days would come out otherwise" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("old", "new", "line", "expected"),
    [
        ("{edition}-{date}", "{date}", 14, "expected {edition} in it: there are several"),
        ("width: 40mm", "width: 10mm", 4, "expected"),
        ("width: 40mm", "columns: 2", 4, "found columns without a measure"),
        ("language: de", "style: newsprnt", 4, 'did you mean "newsprint"?'),
        ("valley:", "the valley:", 4, "a name of letters, digits and hyphens"),
        ("show: [heading, grid,", "show: [heading,", 5, "found no grid among what is shown"),
        ("width: 40mm", "widht: 40mm", 4, 'did you mean "width"?'),
    ],
)
def test_a_slip_of_an_edition_is_told_in_its_line(job, capsys, old, new, line, expected):
    rewrite(job, "title: Small Water\n", f"title: Small Water\n{EDITIONS}")
    rewrite(job, "folder: build\n", 'folder: build\n  name: "{edition}-{date}"\n')
    rewrite(job, old, new)
    code, _, err = told(capsys, job)
    assert code == 2
    assert f"daily.yaml:{line}:" in err, err
    assert expected in err


def test_sheets_to_be_signed_show_every_day_its_answer_and_its_files(job, capsys):
    rewrite(job, "formats: [svg]", "formats: [svg, txt]\n  proof: sign/proof.pdf")
    document = made(capsys, job)
    assert document["written"][-2].endswith("sign/proof.pdf")
    data = (job.parent / "sign" / "proof.pdf").read_bytes()
    pdf = pypdfium2.PdfDocument(data)
    try:
        pages = [page.get_textpage().get_text_bounded().replace("\r\n", " ") for page in pdf]
    finally:
        pdf.close()
    months, whole = pages[:2], " ".join(pages)
    assert ["2027-02" in months[0], "2027-03" in months[1]] == [True, True]
    assert sum("In full size" in page for page in pages) >= 1
    assert whole.count("No. 1") >= 4, "its contact sheet, itself, its answer"
    (answers,) = [page for page in pages if "Answers" in page]
    (calendar,) = [page for page in pages if "Calendar by grade" in page]
    for row in ledger(job):
        assert row["file"] in calendar
        assert row["puzzle"] in calendar
    assert sum(char.isdigit() for char in answers) >= 4 * 16
    before = held(job)
    made(capsys, job)
    assert (job.parent / "sign" / "proof.pdf").read_bytes() == data
    assert held(job) == before
    made(capsys, job, "--from", "2027-02-26")
    assert (job.parent / "sign" / "proof.pdf").read_bytes() == data, (
        "the same input, the same bytes"
    )


LAST = JOB.replace(
    "formats: [svg]", "formats: [pdf, html, txt]\n  last-answer: true\n  weekly: true"
).replace("width: 60mm", "width: 60mm\nanswer: next-day")


def test_the_last_answer_has_files_of_its_own_on_its_day(tmp_path, capsys):
    job = write_column(tmp_path, LAST, 8)
    assert main(["make", str(job), "--dry-run"]) == 0
    *_, line = capsys.readouterr().out.splitlines()
    assert line.split() == ["2027-03-03", "wed", "4", line.split()[3], "answer", "eel-4"]
    facts = made(capsys, job)
    names = [f"2027-03-03-eel-4-answer.{ending}" for ending in ("pdf", "html", "txt")]
    assert facts["due"]["files"] == names
    assert [row["date"] for row in ledger(job) if row["file"] in names] == ["2027-03-02"] * 3
    files = held(job)
    page = pypdfium2.PdfDocument(files[names[0]])[0]
    said = page.get_textpage().get_text_range().replace("\u00a0", " ")
    assert "Wednesday, 3 March 2027" in said
    assert "Answer to no. 4" in said
    digits = said.partition("March 2027")[2].replace("no. 4", "").replace("2 March", "")
    assert sorted(each for each in digits if each.isdecimal()) == sorted("1234" * 4)
    text = files[names[2]].decode().replace("\u00a0", " ")
    assert text.startswith(
        "Small Water\nWednesday, 3 March 2027\n\nAnswer to no. 4, Tuesday, 2 March"
    )
    assert text.count("Row ") == 4
    html = files[names[1]].decode()
    assert (html.count("<svg"), html.count("<table"), html.count("<details")) == (1, 1, 0)
    with zipfile.ZipFile(BytesIO(files["2027-W09.zip"])) as week:
        assert set(names) < set(week.namelist())
    (job.parent / "build" / names[0]).unlink()
    assert made(capsys, job)["written"]
    assert held(job) == files
    rewrite(job, "issues: 4", "issues: 6")
    facts = made(capsys, job)
    assert facts["due"]["files"][0] == "2027-03-05-eel-6-answer.pdf"
    assert held(job)[names[0]] == files[names[0]]


def test_nothing_is_made_of_the_last_answer_where_earlier_ones_are_not_shown(tmp_path, capsys):
    text = LAST.replace("answer: next-day", "answer: same-day\nshow: [grid]")
    facts = made(capsys, write_column(tmp_path, text))
    assert "files" not in facts["due"]

"""The command line: what it refuses, and how it ends."""

import subprocess
import sys

import pytest

from layout.command import COMMANDS, main
from tests.support.checkout import ROOT


def code_of(*words):
    return main(words)


def test_help_names_every_command(capsys):
    assert code_of("--help") == 0
    out = capsys.readouterr().out
    assert all(name in out for name in COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help_with_the_common_options(name, capsys):
    assert code_of(name, "--help") == 0
    out = capsys.readouterr().out
    assert all(option in out for option in ("--json", "--quiet", "--jobs"))


def test_an_unknown_command_gets_the_nearest_name(capsys):
    assert code_of("chekc") == 2
    assert 'unknown command "chekc"; did you mean "check"?' in capsys.readouterr().err


@pytest.mark.parametrize(
    "words",
    [
        ("check",),
        ("check", "--jobs", "0", "x"),
        ("check", "--jobs", "many", "x"),
        ("check", "--nonsense", "x"),
        ("rules", "--schema", "page"),
    ],
)
def test_a_command_line_that_cannot_be_used_is_one_sentence(words, capsys):
    assert code_of(*words) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1


def test_a_defect_is_told_without_a_traceback(monkeypatch, capsys):
    def broken(options):
        raise ZeroDivisionError("oh")

    monkeypatch.setattr("layout.commands.rules.run", broken)
    assert code_of("rules") == 2
    assert capsys.readouterr().err == "reglet: a defect in Reglet itself: ZeroDivisionError: oh\n"


def test_an_interrupt_is_told(monkeypatch, capsys):
    def interrupted(options):
        raise KeyboardInterrupt

    monkeypatch.setattr("layout.commands.rules.run", interrupted)
    assert code_of("rules") == 130
    assert "interrupted" in capsys.readouterr().err


def test_a_reader_that_closes_the_pipe_early_gets_no_traceback():
    run = "import sys; from layout.command import main; sys.exit(main(['rules', 'cage']))"
    with subprocess.Popen(
        [sys.executable, "-c", run],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as process:
        process.stdout.close()
        assert b"Traceback" not in process.stderr.read()


def test_help_imports_nothing_heavy():
    heavy = ["pikepdf", "pysat", "uharfbuzz", "PIL", "pypdfium2", "yaml", "rich", "babel", "stdnum"]
    run = (
        "import sys\n"
        "from layout.command import main\n"
        "main(['--help'])\n"
        f"print([name for name in {heavy} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", run], cwd=ROOT, capture_output=True, text=True)
    assert done.stdout.endswith("[]\n")

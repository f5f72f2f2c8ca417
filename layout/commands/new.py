"""`reglet new NAME`: writes a manifest to fill in; `--rule` shows what a new rule needs."""

import argparse
import os
import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

from layout.commands.new_rule_texts import ROOMS
from layout.console import answer, answer_json, complain, tell

if TYPE_CHECKING:
    from layout.commands.new_rule import Stub

_NUMBERED: Final = re.compile(r"([0-9]{2,4})-.*\.yaml")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("name", nargs="?", metavar="NAME", help="the file to write; .yaml is added")
    rule = parser.add_argument_group("a rule for the catalogue, for contributors")
    rule.add_argument("--rule", metavar="NAME", help="show the files that a new rule needs")
    rule.add_argument("--room", choices=tuple(ROOMS), help="what its marks are; lines unless told")
    rule.add_argument(
        "--into", type=Path, metavar="FOLDER", help="write those that are new into a checkout"
    )


def run(options: argparse.Namespace) -> int:
    """Writes NAME.yaml, or shows or writes the stubs of a rule; never over a file that is there."""
    if options.rule is not None and options.name is None:
        return _new_rule(options)
    if options.name is None or options.rule is not None:
        complain("reglet new: expected the name of a manifest, or --rule and the name of a rule")
        return 2
    if options.room or options.into:
        complain("reglet new: --room and --into go with --rule")
        return 2
    return _new_manifest(options)


def _new_manifest(options: argparse.Namespace) -> int:
    from layout.output.write import write_whole
    from verify.manifest.blank import new_manifest
    from verify.reading.node import shown

    path = _path(options.name)
    if path is None:
        complain(f'reglet new: found "{shown(options.name)}", expected a name such as heron')
        return 2
    if os.path.lexists(path):
        complain(f"reglet new: {path}: is there already, and is left as it is")
        return 2
    write_whole(path, new_manifest(path.stem).encode("utf-8"))
    if options.json:
        answer_json({"written": str(path)})
    tell(f"{path}: written; fill it in, then: reglet check {path}", options.quiet)
    return 0


def _path(name: str) -> Path | None:
    """The file that a name means; None where it is no name, or one that can't be printed."""
    last = os.path.basename(name)
    if last in ("", ".", "..") or not name.isprintable():
        return None
    path = Path(name)
    return path if path.suffix in (".yaml", ".yml") else path.with_name(path.name + ".yaml")


def _new_rule(options: argparse.Namespace) -> int:
    from layout.commands.new_rule import rule_stubs, why_no_name
    from verify.reading.node import shown

    room, into = options.room or "lines", options.into
    expected = why_no_name(options.rule)
    if expected is not None:
        complain(f'reglet new: --rule: found "{shown(options.rule)}", expected {expected}')
        return 2
    if into is None:
        _show(list(rule_stubs(options.rule, room)), options)
        return 0
    if not (into / "verify" / "rules" / "__init__.py").is_file():
        complain(f"reglet new: --into: {shown(str(into))}: expected a checkout, with verify/rules")
        return 2
    stubs = list(rule_stubs(options.rule, room, _next_number(into, room)))
    own = [into / stub.path for stub in stubs if stub.is_new]
    there = [path for path in own if os.path.lexists(path)]
    for path in there:
        complain(f"reglet new: {shown(str(path))}: is there already, and is left as it is")
    if there:
        return 2
    _write(stubs, into, options)
    return 0


def _next_number(checkout: Path, room: str) -> str:
    """The number of the next puzzle in a section of the gallery."""
    folder = checkout / "books" / "gallery" / "puzzles" / room
    names = os.listdir(folder) if folder.is_dir() else ()
    numbers = (int(match[1]) for match in map(_NUMBERED.fullmatch, names) if match)
    return f"{max(numbers, default=0) + 1:02}"


def _write(stubs: Sequence["Stub"], into: Path, options: argparse.Namespace) -> None:
    """Writes what is new, and shows what is to be added to files that stand."""
    from layout.output.write import write_whole

    for stub in stubs:
        if stub.is_new:
            write_whole(into / stub.path, stub.text.encode("utf-8"))
            tell(f"{into / stub.path}: written: {stub.purpose}", options.quiet)
    _show([stub for stub in stubs if not stub.is_new or options.json], options)


def _show(stubs: Sequence["Stub"], options: argparse.Namespace) -> None:
    """Each file with what it is for, and its text."""
    if options.json:
        answer_json(
            [
                {
                    "path": str(stub.path),
                    "purpose": stub.purpose,
                    "text": stub.text,
                    "new": stub.is_new,
                }
                for stub in stubs
            ]
        )
        return
    for stub in stubs:
        what = "a new file" if stub.is_new else "add to it"
        answer(f"==> {stub.path} ({what}): {stub.purpose}\n\n{stub.text}")

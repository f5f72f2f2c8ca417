"""`reglet new NAME`: writes a manifest to fill in."""

import argparse
import os
from pathlib import Path

from layout.console import answer_json, complain, tell


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("name", metavar="NAME", help="the file to write; .yaml is added")


def run(options: argparse.Namespace) -> int:
    """Writes NAME.yaml; never over a file that is there."""
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

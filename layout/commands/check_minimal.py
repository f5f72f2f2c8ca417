"""The minimal puzzle that `reglet check` writes."""

from pathlib import Path

from layout.console import complain, tell
from layout.output.write import write_whole
from verify.check import Finding


def write_minimal(path: Path, finding: Finding, quiet: bool) -> list[Path]:
    """Writes the minimal puzzle of a manifest, where there is one.

    Raises OutputError where that can't be done.
    """
    if finding.minimal is None:
        complain(f"{finding.file}: no minimal puzzle: {path} is not written")
        return []
    write_whole(path, finding.minimal.text.encode("utf-8"))
    tell(f"{path}: written", quiet)
    return [path]

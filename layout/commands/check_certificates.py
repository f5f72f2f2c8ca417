"""The certificates that `reglet check` writes, and what it says of them."""

import argparse
from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import Final

from layout.console import complain, counted, first_of, tell
from layout.output.certificates import CertificateFolder
from layout.output.write import OutputFile, outputs_in
from verify.check import Finding
from verify.manifest.find import Found
from verify.reading.node import Place

MOST_NAMED: Final = 12


def write_certificates(
    options: argparse.Namespace, found: Sequence[Found], fresh: Iterable[Finding]
) -> list[Path]:
    """Writes the certificates of the findings as they come, in the end all of them or none."""
    folder = CertificateFolder(options.certificate, [each.path for each in found if each.is_bank])
    with outputs_in([folder.path], "check", partial(tell, quiet=options.quiet)) as outputs:
        return outputs.write_all(_files(fresh, folder))


def _files(fresh: Iterable[Finding], folder: CertificateFolder) -> Iterator[OutputFile]:
    """The files of each certificate as it comes: their bytes are not kept."""
    for finding in fresh:
        if finding.certificate is not None:
            place = finding.place or Place(finding.file, 1, 1)
            yield from folder.files(finding.certificate, place)


def tell_missing(
    options: argparse.Namespace, findings: Sequence[Finding], written: Sequence[Path]
) -> int:
    """Says how many certificates there are; 1 where a puzzle with one answer has none."""
    names = {path.stem for path in written}
    without = [each.id for each in findings if each.verdict == "one" and each.id not in names]
    tell(f"{options.certificate}: {counted(len(names), 'certificate')}", options.quiet)
    if without:
        named = first_of(without, MOST_NAMED)
        complain(f"reglet: no certificate in this time and room, which --seconds extends: {named}")
    return 1 if without else 0

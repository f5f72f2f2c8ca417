"""What a file says of itself, in its two ways."""

from collections.abc import Iterator, Mapping
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile

SAME: Final[Mapping[str, str]] = {
    "/Title": "dc:title",
    "/Author": "dc:creator",
    "/Subject": "dc:description",
    "/Creator": "xmp:CreatorTool",
    "/Producer": "pdf:Producer",
    "/CreationDate": "xmp:CreateDate",
    "/ModDate": "xmp:ModifyDate",
    "/Trapped": "pdf:Trapped",
    "/GTS_PDFXVersion": "pdfx:GTS_PDFXVersion",
}
"""Entries of the information dictionary and the properties that say the same."""


def check_metadata(file: FinishedFile) -> Iterator[Finding]:
    """Missing titles and identifiers, and entries that contradict each other."""
    if not file.info.get("/Title", "").strip():
        yield Finding("metadata", 0, "the title is missing")
    if not file.language:
        yield Finding("metadata", 0, "the language is missing")
    if len(file.identifiers) != 2 or not all(file.identifiers):
        yield Finding("metadata", 0, "the file has no identifiers")
    if file.xmp_fault:
        yield Finding("metadata", 0, f"the XMP metadata can't be read: {file.xmp_fault}")
    for key, name in SAME.items():
        told, said = file.info.get(key), file.xmp.get(name)
        if told is not None and said is not None and _value(key, told) != _value(key, said):
            words = f"{key[1:]} is {told!r} in the information and {said!r} in the XMP metadata"
            yield Finding("metadata", 0, words)


def _value(key: str, text: str) -> str:
    """A value for comparing: dates as digits alone, names without their stroke."""
    if key.endswith("Date"):
        return "".join(char for char in text if char.isdigit())[:14]
    return " ".join(text.removeprefix("/").split())

"""The standard that a file claims: PDF/X-1a:2003, or PDF/UA-1.

The rules of ISO 15930-4 as open preflight tools and vendors' notes state them: no clause of the
paid text was at hand. Of others it is told that they are not checked.
"""

from collections.abc import Iterator
from typing import Final

from layout.preflight.checks.accessible import check_accessible
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile, Leaf
from layout.preflight.reading.geometry import Box

X1A: Final = "PDF/X-1a:2003"

REGISTRY: Final = "http://www.color.org"
"""The registry of printing conditions of the International Color Consortium."""

PRINTED: Final = frozenset({"DeviceGray", "DeviceCMYK", "Separation", "DeviceN", "Pattern"})


def claims_of(file: FinishedFile) -> list[str]:
    """The standards that the file says it keeps."""
    claims = [file.info["/GTS_PDFXVersion"]] if "/GTS_PDFXVersion" in file.info else []
    if "pdfxid:GTS_PDFXVersion" in file.xmp:
        claims.append(file.xmp["pdfxid:GTS_PDFXVersion"])
    if "pdfuaid:part" in file.xmp:
        claims.append(f"PDF/UA-{file.xmp['pdfuaid:part']}")
    if "pdfaid:part" in file.xmp:
        claims.append(f"PDF/A-{file.xmp['pdfaid:part']}")
    return claims


def check_standard(file: FinishedFile, wanted: str = "") -> Iterator[Finding]:
    """What stands against each claim; and that the file claims what is `wanted` of it."""
    claims = claims_of(file)
    if wanted and wanted not in claims:
        yield _whole(f"the file does not claim {wanted}, which its job asks for")
    for claim in claims:
        if claim == X1A:
            yield from _x1a(file)
        elif claim == "PDF/UA-1":
            yield from check_accessible(file)
        else:
            yield _whole(f"the file claims {claim}, which is not checked here")


def _whole(words: str) -> Finding:
    return Finding("standard", 0, words)


def _x1a(file: FinishedFile) -> Iterator[Finding]:
    if file.header != "%PDF-1.4":
        yield _whole(f"{X1A}: found the header {file.header!r}, expected %PDF-1.4")
    yield from _keys(file)
    yield from _intents(file)
    for name in sorted(file.banned):
        yield _whole(f"{X1A} allows no {name.removeprefix('a ').removeprefix('an ')}")
    if file.encrypted:
        yield _whole(f"{X1A} allows no encryption")
    for leaf in file.leaves:
        yield from _page(leaf)


def _keys(file: FinishedFile) -> Iterator[Finding]:
    for key in ("/Title", "/CreationDate", "/ModDate"):
        if not file.info.get(key):
            yield _whole(f"{X1A} asks for {key[1:]} in the information dictionary")
    if file.info.get("/Trapped") not in ("/True", "/False"):
        found = file.info.get("/Trapped", "none")
        yield _whole(f"{X1A}: found {found} for Trapped, expected True or False")
    if len(file.identifiers) != 2:
        yield _whole(f"{X1A} asks for the file's identifiers")
    if "/Metadata" in file.catalog:
        for key, name in (("/CreationDate", "xmp:CreateDate"), ("/ModDate", "xmp:ModifyDate")):
            if key in file.info and name not in file.xmp:
                yield _whole(f"{X1A}: the XMP metadata lack {name}, which the information has")


def _intents(file: FinishedFile) -> Iterator[Finding]:
    intents = [each for each in file.intents if each.kind == "/GTS_PDFX"]
    if len(intents) != 1:
        yield _whole(f"{X1A}: found {len(intents)} output intents for PDF/X, expected one")
        return
    intent = intents[0]
    if not intent.condition:
        yield _whole(f"{X1A}: the output intent names no condition")
    if not intent.info:
        yield _whole(f"{X1A}: the output intent has no Info")
    if intent.profile is None and intent.registry != REGISTRY:
        yield _whole(f"{X1A}: the output intent has neither a profile nor the registry {REGISTRY}")
    if intent.profile is not None:
        kind, space, count = intent.profile
        if kind != "prtr" or {"CMYK": 4, "GRAY": 1}.get(space) != count:
            yield _whole(f"{X1A}: the output intent's profile is not that of a grey or CMYK press")


def _page(leaf: Leaf) -> Iterator[Finding]:
    marks, number = leaf.marks, leaf.number
    if leaf.group:
        yield Finding("standard", number, f"{X1A} allows no transparency: the page is a group")
    for state in sorted(marks.states):
        yield Finding("standard", number, f"{X1A} allows no {state.removeprefix('a ')}")
    for space in sorted(marks.inks - PRINTED):
        yield Finding("standard", number, f"{X1A} allows no colour in {space}")
    if any(not face.embedded for face in marks.faces):
        yield Finding("standard", number, f"{X1A} asks for embedded fonts")
    if not (("Trim" in leaf.boxes) ^ ("Art" in leaf.boxes)):
        yield Finding("standard", number, f"{X1A} asks for a trim box or an art box")
    notes = [("Link", link.box) for link in leaf.links] + list(leaf.kinds)
    for kind, box in notes:
        if kind not in ("TrapNet", "PrinterMark") and _meets(box, leaf.bleed):
            yield Finding(
                "standard", number, f"{X1A} allows no annotation such as {kind} on a page"
            )
            break


def _meets(one: Box, other: Box) -> bool:
    return not one.common(other).is_empty()

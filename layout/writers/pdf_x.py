"""What makes a file PDF/X-1a:2003 (ISO 15930-4): its keys, its output intent, its dates.

The rules are those that open preflight tools and vendors' notes state. Colours, fonts and boxes
are as the standard asks in every file; links and the outline it does not allow.
"""

import hashlib
import os
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Final
from uuid import UUID

if TYPE_CHECKING:
    import pikepdf

X1A: Final = "PDF/X-1a:2003"

REGISTRY: Final = "http://www.color.org"
"""The registry of printing conditions, of the International Color Consortium."""

CONDITIONS: Final = ("CGATS TR 001", "FOGRA39", "FOGRA47", "FOGRA51", "FOGRA52")
"""Printing conditions of the registry: a file that names one needs no profile inside."""

NO_DATE: Final = datetime(2000, 1, 1, tzinfo=UTC)
"""What a file says that it was made where nobody tells: the same input gives the same bytes."""


@dataclass(frozen=True, slots=True)
class Press:
    """What a file is printed by: a registered condition, and when the file was made."""

    condition: str = CONDITIONS[0]
    made: datetime = NO_DATE


def press_of(condition: str) -> Press:
    """A press, and the moment that `SOURCE_DATE_EPOCH` tells, in seconds since 1970."""
    told = os.environ.get("SOURCE_DATE_EPOCH", "")
    if not told.isdecimal():
        return Press(condition)
    try:
        return Press(condition, datetime.fromtimestamp(int(told), UTC))
    except (OverflowError, OSError, ValueError):
        return Press(condition)


def claim_x1a(pdf: "pikepdf.Pdf", press: Press) -> None:
    """Adds the keys of the standard, in both kinds of metadata alike."""
    from pikepdf import Array, Dictionary, Name

    identifier = _identifier(pdf)
    when = press.made.strftime("%Y-%m-%dT%H:%M:%SZ")
    with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as told:
        told["xmp:CreateDate"] = told["xmp:ModifyDate"] = told["xmp:MetadataDate"] = when
        told["pdf:Trapped"] = "False"
        told["pdfx:GTS_PDFXVersion"] = X1A
        told["xmpMM:DocumentID"] = told["xmpMM:InstanceID"] = f"uuid:{identifier}"
        told["xmpMM:RenditionClass"] = "default"
        told["xmpMM:VersionID"] = "1"
    info = pdf.docinfo
    info["/CreationDate"] = info["/ModDate"] = press.made.strftime("D:%Y%m%d%H%M%SZ")
    info["/Trapped"] = Name("/False")
    info["/GTS_PDFXVersion"] = X1A
    pdf.Root.OutputIntents = Array(
        [
            Dictionary(
                Type=Name.OutputIntent,
                S=Name.GTS_PDFX,
                OutputConditionIdentifier=press.condition,
                OutputCondition=press.condition,
                RegistryName=REGISTRY,
                Info=f"{press.condition}, a printing condition registered at {REGISTRY}",
            )
        ]
    )


def _identifier(pdf: "pikepdf.Pdf") -> UUID:
    """A name for the document that is another wherever anything is painted otherwise."""
    digest = hashlib.sha256()
    for page in pdf.pages:
        digest.update(page.Contents.read_bytes())
    return UUID(bytes=digest.digest()[:16], version=5)

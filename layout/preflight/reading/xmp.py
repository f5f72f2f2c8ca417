"""The metadata of a file in XMP: its plain properties by prefix and name (ISO 16684-1)."""

from collections.abc import Mapping
from typing import Final
from xml.etree import ElementTree

from layout.preflight.reading.streams import Unread

RDF: Final = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"

PREFIXES: Final[Mapping[str, str]] = {
    "http://purl.org/dc/elements/1.1/": "dc",
    "http://ns.adobe.com/xap/1.0/": "xmp",
    "http://ns.adobe.com/xap/1.0/mm/": "xmpMM",
    "http://ns.adobe.com/pdf/1.3/": "pdf",
    "http://ns.adobe.com/pdfx/1.3/": "pdfx",
    "http://www.npes.org/pdfx/ns/id/": "pdfxid",
    "http://www.aiim.org/pdfua/ns/id/": "pdfuaid",
    "http://www.aiim.org/pdfa/ns/id/": "pdfaid",
}
"""Namespaces by the prefix that they usually have."""


def read_xmp(data: bytes) -> dict[str, str]:
    """Properties such as `dc:title`; of a list its items, one a line. Raises Unread."""
    if b"<!DOCTYPE" in data or b"<!ENTITY" in data:
        raise Unread("metadata with a document type of its own")
    try:
        root = ElementTree.fromstring(data)  # noqa: S314 - without a document type it can't grow
    except ElementTree.ParseError as error:
        raise Unread("metadata that is no XML") from error
    found: dict[str, str] = {}
    for told in root.iter(f"{RDF}Description"):
        for name, value in told.attrib.items():
            if key := _key(name):
                found[key] = value
        for child in told:
            if key := _key(child.tag):
                items = [item.text or "" for item in child.iter(f"{RDF}li")]
                found[key] = "\n".join(items) if items else (child.text or "").strip()
    return found


def _key(name: str) -> str:
    space, _, plain = name[1:].partition("}")
    return f"{PREFIXES[space]}:{plain}" if space in PREFIXES else ""

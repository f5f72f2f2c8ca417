"""What an image says of itself to a picture desk: its caption, as XMP and as IPTC-IIM.

XMP (ISO 16684-1) is written into SVG, PDF, PNG and TIFF, with the properties of Dublin Core and
Photoshop that the IPTC Photo Metadata Standard maps its fields to; IPTC-IIM 4.2, which older desks
read, into TIFF. Dates are those of publication: nothing tells when a file was made.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from typing import Final
from xml.etree import ElementTree
from zlib import crc32

from layout.writers.pdf import saved

NAMESPACES: Final = {
    "x": "adobe:ns:meta/",
    "rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
    "dc": "http://purl.org/dc/elements/1.1/",
    "photoshop": "http://ns.adobe.com/photoshop/1.0/",
}

XMP_TAG: Final = 700
IPTC_TAG: Final = 33723
"""Where TIFF keeps either."""

LONGEST_DATASET: Final = 2000
"""Bytes of a caption in IIM, 2:120; others are shorter."""

_UTF_8: Final = b"\x1c\x01\x5a\x00\x03\x1b%G"
"""Record 1, dataset 90: what follows is UTF-8."""


@dataclass(frozen=True, slots=True)
class Caption:
    """What is said of a picture; `date` is ISO 8601, any of the others may be empty."""

    title: str
    description: str
    creator: str = ""
    credit: str = ""
    date: str = ""


def xmp_packet(caption: Caption, kind: str) -> bytes:
    """The XMP of a picture whose media type is `kind`, between the marks of a packet."""
    packet = ElementTree.tostring(_meta(caption, kind), encoding="unicode")
    begin = '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>'
    return f'{begin}\n{packet}\n<?xpacket end="r"?>'.encode()


def iptc_records(caption: Caption) -> bytes:
    """The datasets of record 2, each with its length: IIM 4.2, chapter 3."""
    datasets = {
        5: caption.title,
        55: caption.date.replace("-", ""),
        80: caption.creator,
        110: caption.credit,
        120: caption.description,
    }
    said = {number: _cut(text) for number, text in datasets.items() if text}
    return _UTF_8 + b"".join(
        bytes((0x1C, 2, number)) + len(data).to_bytes(2, "big") + data
        for number, data in said.items()
    )


def with_caption(data: bytes, caption: Caption, ending: str) -> bytes:
    """A finished file of one of the formats with its caption; any other format as it is.

    Pixels stay as they are.
    """
    if ending == "svg":
        return _svg(data, caption)
    if ending == "png":
        return _png(data, caption)
    if ending == "tiff":
        return _tiff(data, caption)
    return _pdf(data, caption) if ending == "pdf" else data


def _cut(text: str) -> bytes:
    """No more bytes than a dataset holds, and no part of a character."""
    return text.encode()[:LONGEST_DATASET].decode(errors="ignore").encode()


def _meta(caption: Caption, kind: str) -> ElementTree.Element:
    for prefix, uri in NAMESPACES.items():
        ElementTree.register_namespace(prefix, uri)
    root = ElementTree.Element(_name("x:xmpmeta"))
    rdf = ElementTree.SubElement(root, _name("rdf:RDF"))
    about = ElementTree.SubElement(rdf, _name("rdf:Description"), {_name("rdf:about"): ""})
    ElementTree.SubElement(about, _name("dc:format")).text = kind
    _language(about, "dc:title", caption.title)
    _language(about, "dc:description", caption.description)
    if caption.creator:
        creator = ElementTree.SubElement(about, _name("dc:creator"))
        names = ElementTree.SubElement(creator, _name("rdf:Seq"))
        ElementTree.SubElement(names, _name("rdf:li")).text = caption.creator
    for name, text in (
        ("photoshop:Credit", caption.credit),
        ("photoshop:DateCreated", caption.date),
    ):
        if text:
            ElementTree.SubElement(about, _name(name)).text = text
    return root


def _language(about: ElementTree.Element, name: str, text: str) -> None:
    """A property that may be told in several languages, in the one that stands for any."""
    alternatives = ElementTree.SubElement(about, _name(name))
    alt = ElementTree.SubElement(alternatives, _name("rdf:Alt"))
    item = ElementTree.SubElement(
        alt, _name("rdf:li"), {"{http://www.w3.org/XML/1998/namespace}lang": "x-default"}
    )
    item.text = text


def _name(short: str) -> str:
    prefix, name = short.split(":")
    return f"{{{NAMESPACES[prefix]}}}{name}"


def _svg(data: bytes, caption: Caption) -> bytes:
    """The metadata as the first child of the drawing (SVG 2, 5.8)."""
    packet = ElementTree.tostring(_meta(caption, "image/svg+xml"), encoding="unicode")
    text = data.decode()
    start = text.index(">", text.index("<svg ")) + 1
    return f"{text[:start]}\n <metadata>{packet}</metadata>{text[start:]}".encode()


def _png(data: bytes, caption: Caption) -> bytes:
    """An iTXt chunk behind the header, as XMP asks for (ISO 16684-3, from memory)."""
    text = b"XML:com.adobe.xmp\0\0\0\0\0" + xmp_packet(caption, "image/png")
    chunk = b"iTXt" + text
    whole = len(text).to_bytes(4, "big") + chunk + crc32(chunk).to_bytes(4, "big")
    header = 8 + 4 + 4 + 13 + 4
    return data[:header] + whole + data[header:]


def _tiff(data: bytes, caption: Caption) -> bytes:
    """The tags added to the one page; its strips stay as they are packed."""
    from PIL import Image
    from PIL.TiffImagePlugin import ImageFileDirectory_v2

    with Image.open(BytesIO(data)) as image:
        tags = ImageFileDirectory_v2()
        for tag, kind, value in _tags(caption):
            tags.tagtype[tag] = kind
            tags[tag] = value
        written = BytesIO()
        packing = image.info["compression"]
        image.save(written, "TIFF", compression=packing, dpi=image.info["dpi"], tiffinfo=tags)
    return written.getvalue()


def _tags(caption: Caption) -> Iterator[tuple[int, int, bytes]]:
    """The tags, their types (1: bytes, 7: undefined) and values."""
    yield XMP_TAG, 1, xmp_packet(caption, "image/tiff")
    yield IPTC_TAG, 7, iptc_records(caption)


def _pdf(data: bytes, caption: Caption) -> bytes:
    """The same added to what the document tells of itself already (ISO 32000-1, 14.3.2)."""
    import pikepdf

    with pikepdf.open(BytesIO(data)) as pdf:
        with pdf.open_metadata(set_pikepdf_as_editor=False) as told:
            told["dc:title"] = caption.title
            told["dc:description"] = caption.description
            if caption.creator:
                told["dc:creator"] = [caption.creator]
            if caption.credit:
                told["photoshop:Credit"] = caption.credit
            if caption.date:
                told["photoshop:DateCreated"] = caption.date
        return saved(pdf)

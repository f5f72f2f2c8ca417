"""The bytes of streams, with a bound: a few kilobytes of a hostile file may say gigabytes."""

import zlib
from binascii import Error
from typing import Any, Final

MOST_BYTES: Final = 64 * 2**20
"""Bytes of one stream, unpacked: a page of line art has a few hundred thousand."""


class Unread(Exception):  # noqa: N818 - what befell a part of the file, in a printer's words
    """A part of the file that can't be read; the message says why."""


def bytes_of(stream: Any, most: int = MOST_BYTES) -> bytes:
    """What is in a stream. Raises Unread for more than `most` bytes, and for unknown filters."""
    data = bytes(stream.read_raw_bytes())
    for name in _filters(stream):
        data = _unpacked(data, name, most)
    if len(data) > most:
        raise Unread(f"a stream of more than {most} bytes")
    return data


def _filters(stream: Any) -> list[str]:
    import pikepdf

    found = stream.get("/Filter")
    if found is None:
        return []
    if stream.get("/DecodeParms") is not None and "/Predictor" in str(stream.get("/DecodeParms")):
        raise Unread("a stream with a predictor where none is usual")
    return [str(each) for each in found] if isinstance(found, pikepdf.Array) else [str(found)]


def _unpacked(data: bytes, name: str, most: int) -> bytes:
    if name in ("/FlateDecode", "/Fl"):
        return inflated(data, most)
    if name in ("/ASCII85Decode", "/A85"):
        from base64 import a85decode

        try:
            return a85decode(data.strip().removesuffix(b"~>"))
        except ValueError as error:
            raise Unread("a damaged stream") from error
    if name in ("/ASCIIHexDecode", "/AHx"):
        return _from_hex(data)
    raise Unread(f"a stream packed by {name[1:]}")


def _from_hex(data: bytes) -> bytes:
    from binascii import unhexlify

    digits = b"".join(data.partition(b">")[0].split())
    try:
        return unhexlify(digits + b"0" * (len(digits) % 2))
    except Error as error:
        raise Unread("a damaged stream") from error


def inflated(data: bytes, most: int) -> bytes:
    """Flate data unpacked. Raises Unread for what is damaged, and for more than `most` bytes."""
    unpacking = zlib.decompressobj()
    try:
        found = unpacking.decompress(data, most)
    except zlib.error as error:
        raise Unread("a damaged stream") from error
    if unpacking.unconsumed_tail:
        raise Unread(f"a stream of more than {most} bytes")
    return found

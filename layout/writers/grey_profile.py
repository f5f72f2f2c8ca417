"""Profiles of grey printing, which tell other programs what a grey comes out as (ICC.1:2001-04).

A profile of one channel holds a curve: how much light the paper throws back, by the grey of the
file. A press prints tints darker than they are asked for; that gain is largest at half of the ink.
"""

import struct
from functools import cache
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    import pikepdf

HEADER: Final = 128
STEPS: Final = 256
"""Values of the curve."""

D50: Final = (0.9642, 1.0, 0.8249)
"""The white that profiles are told by."""

NAME: Final = "Grey, {:.0%} dot gain"


@cache
def grey_profile(gain: float) -> bytes:
    """A profile of a press that prints half of the ink as so much more: 0.26 for 26 %.

    The gain of other tints follows a parabola, nothing at none and at all of the ink.
    """
    curve = (_light(step / (STEPS - 1), gain) for step in range(STEPS))
    name = NAME.format(gain)
    tags = {
        b"desc": _description(name),
        b"cprt": b"text" + bytes(4) + b"No rights reserved\0",
        b"wtpt": b"XYZ " + bytes(4) + b"".join(map(_fixed, D50)),
        b"kTRC": b"curv" + bytes(4) + struct.pack(f">I{STEPS}H", STEPS, *curve),
    }
    table, data, offset = b"", b"", HEADER + 4 + 12 * len(tags)
    for sign, body in tags.items():
        table += sign + struct.pack(">II", offset + len(data), len(body))
        data += body + bytes(-len(body) % 4)
    whole = struct.pack(">I", len(tags)) + table + data
    return _header(HEADER + len(whole)) + whole


def _light(grey: float, gain: float) -> int:
    """What the paper throws back, of 65535, where 0 is all of the ink."""
    ink = 1 - grey
    return round((1 - min(ink + 4 * gain * ink * (1 - ink), 1.0)) * 65535)


def _header(size: int) -> bytes:
    """The header of a printer's profile; its date is fixed, as the same input gives the same."""
    return b"".join(
        (
            struct.pack(">I4sI", size, bytes(4), 0x02400000),
            b"prtrGRAYXYZ ",
            struct.pack(">6H", 2000, 1, 1, 0, 0, 0),
            b"acsp" + bytes(4 + 4 + 4 + 4 + 8 + 4),
            b"".join(map(_fixed, D50)),
        )
    ).ljust(HEADER, b"\0")


def _description(name: str) -> bytes:
    """A name in ASCII alone; what else there may be is empty (6.5.17)."""
    text = name.encode("ascii") + b"\0"
    return b"desc" + bytes(4) + struct.pack(">I", len(text)) + text + bytes(8 + 3 + 67)


def _fixed(number: float) -> bytes:
    """A number with sixteen bits behind the point."""
    return struct.pack(">i", round(number * 65536))


def is_grey_profile(data: bytes) -> bool:
    """Whether this is a profile of one grey channel, by its header."""
    return len(data) > HEADER and data[36:40] == b"acsp" and data[16:20] == b"GRAY"


def profile_name(data: bytes) -> str:
    """What a profile calls itself, as far as it says so in ASCII."""
    at = data.find(b"desc\0\0\0\0", HEADER)
    length = int.from_bytes(data[at + 8 : at + 12], "big") if at > 0 else 0
    text = data[at + 12 : at + 12 + min(length, 100)].partition(b"\0")[0] if length else b""
    return text.decode("ascii", "replace") or "Grey"


def add_intent(pdf: "pikepdf.Pdf", profile: bytes) -> None:
    """Adds to a file what it is printed by (ISO 32000-1, 14.11.5), and claims no standard."""
    from pikepdf import Array, Dictionary, Name

    name = profile_name(profile)
    stream = pdf.make_stream(profile, N=1, Alternate=Name.DeviceGray)
    intent = Dictionary(
        Type=Name.OutputIntent,
        S=Name.GTS_PDFX,
        OutputConditionIdentifier="Custom",
        OutputCondition=name,
        Info=name,
        DestOutputProfile=stream,
    )
    pdf.Root.OutputIntents = Array([pdf.make_indirect(intent)])

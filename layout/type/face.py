"""Faces: a font at a size, with its leading, as style sheets give them."""

from dataclasses import dataclass, replace
from typing import Annotated, TypeAlias

from layout.lengths import Length
from layout.type.font_name import FontName

Size: TypeAlias = Annotated[float, Length(1.4, 60)]
"""The em or the leading of a face: from 4 to 170 points."""


@dataclass(frozen=True, slots=True)
class Face:
    """A font by name, its em and its leading in millimetres."""

    font: FontName
    size: Size
    leading: Size

    def scaled(self, share: float) -> "Face":
        """The same at a share of its size."""
        return replace(self, size=self.size * share, leading=self.leading * share)


@dataclass(frozen=True, slots=True)
class Voices:
    """The fonts of roman, italic and bold words at one size (the em) and leading, in millimetres.

    `italic` is what emphasis is set in; a sheet that wants no italics names another font.
    """

    roman: FontName
    italic: FontName
    bold: FontName
    size: Size
    leading: Size

    @classmethod
    def of(cls, face: Face) -> "Voices":
        """One font for all voices."""
        return cls(face.font, face.font, face.font, face.size, face.leading)

    @property
    def face(self) -> Face:
        """The roman face."""
        return Face(self.roman, self.size, self.leading)

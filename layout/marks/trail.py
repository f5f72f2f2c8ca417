"""Trails: shapes through the middles of cells, with bulbs, rings, circles and arrowheads.

Each is painted as one thing in three coats: a white edge that clears what it passes over,
its edge line, its body; so that forks show no seams. Where it crosses itself the later part
passes over the earlier one as a bridge. A line of dashes or dots has no bridge: nothing is
hidden where two of them cross.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import dist, tan
from typing import Literal

from layout.marks.course import circled, crossings, lines
from layout.marks.lattice import Lattice
from layout.marks.pattern import Broken, broken, cross_strokes, dotted, stroke_across
from layout.picture.items import Contour, Fill, Item, Path, Point, Stroke
from layout.picture.order import Layer, Painted
from layout.picture.shapes import HEAD_ANGLE, along, arrowhead, capsule, disc, polyline, unit
from layout.style.board import TrailLook
from verify.board import Board, Cell
from verify.marks import Trail


@dataclass(frozen=True, slots=True)
class Body:
    """A trail in millimetres.

    `lines` run through the cells, `heads` are the arrowheads at their ends, `rungs` the strokes
    across. `pen` is the width of a head, of a rung, and of either half of a double line, `core`
    that of the white between those. A bridge is the stretch of line that passes over an earlier
    part of the same trail.
    """

    width: float
    pen: float
    core: float
    cap: Literal["butt", "round"]
    lines: Path
    heads: Path
    bulbs: Path
    rungs: Path
    bridges: Path


def draw(mark: Trail, look: TrailLook, lattice: Lattice) -> Iterator[Painted]:
    """White edge, edge line, body, bridges; and the ring or the circles at its ends."""
    layer = Layer.SHAFT if is_line(mark, look) else Layer.TRAIL
    for item in _items(mark, look, lattice):
        yield layer, item


def is_line(mark: Trail, look: TrailLook) -> bool:
    """Whether a trail is drawn as a line rather than as a broad shape that digits stand on."""
    return bool(mark.ring) or not look.broad


def lined(mark: Trail) -> Iterator[Cell]:
    """The cells that its line runs through: all but those with a ring or a circle."""
    clear = {*mark.ring, *circled(mark)}
    return (cell for branch in mark.branches for cell in branch if cell not in clear)


def tell(mark: Trail, board: Board) -> str:
    """The role, and the cells of each branch."""
    ring = f" with {' '.join(map(board.name, mark.ring))} ringed" if mark.ring else ""
    branches = "; ".join(" ".join(map(board.name, branch)) for branch in mark.branches)
    return f"{mark.role}{ring}: {branches}"


def _items(mark: Trail, look: TrailLook, lattice: Lattice) -> Iterator[Item]:
    side = lattice.side
    line, clear = look.ring_line.at(side), look.clear * side
    # A white body is told by its edge line, and so is what it ends on.
    ink = 1 - (look.ink or look.edge_ink)
    ring = (capsule(lattice.centres(mark.ring), look.ring * side / 2),) if mark.ring else ()
    circles = tuple(
        disc(lattice.centre(cell), look.circle * side / 2 - line / 2) for cell in circled(mark)
    )
    if ring or circles:
        yield Stroke(ring + circles, line + 2 * clear, 1.0)
    if look.dash or look.dots:
        yield from _broken(mark, look, lattice)
    else:
        yield from _whole(_body(mark, look, lattice), look, side)
    if circles:
        yield Fill(circles, 1 - look.circle_ink)
    if ring or circles:
        yield Stroke(ring + circles, line, ink)


def _broken(mark: Trail, look: TrailLook, lattice: Lattice) -> Iterator[Item]:
    """Dashes, dots or both, on a white ground of their own; bulb and heads are whole."""
    side, body = lattice.side, _body(mark, look, lattice)
    edge, clear = look.edge.at(side), look.clear * side
    pattern = _pattern(lines(mark, look, lattice), look, side)
    yield Stroke(body.lines, body.width + 2 * (edge + clear), 1.0, "round", "round")
    yield from _features(body, edge + clear, 1.0)
    if edge:
        yield from _pieces(pattern, body.width, edge, 1 - look.edge_ink)
        yield from _features(body, edge, 1 - look.edge_ink)
    yield from _pieces(pattern, body.width, 0.0, 1 - look.ink)
    yield from _features(body, 0.0, 1 - look.ink)


def _pattern(courses: list[list[Point]], look: TrailLook, side: float) -> Broken:
    """What the line is made of."""
    width, dash, gap = look.width.at(side), look.dash * side, look.gap * side
    dashes: Path = ()
    dots: tuple[Point, ...] = ()
    for course in courses:
        if dash:
            found = broken(course, dash, 2 * gap + width if look.dots else gap)
            dashes += found.dashes
            dots += found.dots if look.dots else ()
        else:
            dots += dotted(course, gap + width)
    return Broken(dashes, dots)


def _pieces(pattern: Broken, width: float, beyond: float, grey: float) -> Iterator[Item]:
    """Dashes and dots in one grey, each so much larger all round."""
    if pattern.dashes:
        dashes = tuple(_drawn_out(dash, beyond) for dash in pattern.dashes)
        yield Stroke(dashes, width + 2 * beyond, grey, join="round")
    if pattern.dots:
        yield Fill(tuple(disc(dot, width / 2 + beyond) for dot in pattern.dots), grey)


def _drawn_out(dash: Contour, beyond: float) -> Contour:
    """A dash that is so much longer at both ends."""
    if not beyond:
        return dash
    corners = [dash.start, *((segment[-2], segment[-1]) for segment in dash.segments)]
    start = along(corners[0], unit(corners[1], corners[0]), beyond)
    end = along(corners[-1], unit(corners[-2], corners[-1]), beyond)
    return polyline([start, *corners[1:-1], end])


def _whole(body: Body, look: TrailLook, side: float) -> Iterator[Item]:
    """A body without gaps."""
    edge, clear = look.edge.at(side), look.clear * side
    ink, edge_ink = 1 - look.ink, 1 - look.edge_ink
    yield from _coat(body, edge + clear, 1.0)
    if edge:
        yield from _coat(body, edge, edge_ink)
    yield from _coat(body, 0.0, ink)
    if body.core:
        yield Stroke(body.lines, body.core, 1.0, join="round")
    if body.bridges:
        yield Stroke(body.bridges, body.width + 2 * (edge + clear), 1.0)
        yield Stroke(body.bridges, body.width + 2 * edge, edge_ink if edge else ink)
        yield Stroke(body.bridges, body.width, ink, "square")
        if body.core:
            yield Stroke(body.bridges, body.core, 1.0, "square")
    if body.rungs:
        yield Stroke(body.rungs, body.pen, ink)


def _coat(body: Body, beyond: float, grey: float) -> Iterator[Item]:
    """The whole body in one grey, so much larger all round."""
    yield Stroke(body.lines, body.width + 2 * beyond, grey, body.cap, "round")
    yield from _features(body, beyond, grey)


def _features(body: Body, beyond: float, grey: float) -> Iterator[Item]:
    """What a body has besides its line: heads, rungs and bulbs."""
    if body.heads:
        yield Stroke(body.heads, body.pen + 2 * beyond, grey)
    if body.rungs and beyond:
        yield Stroke(body.rungs, body.pen + 2 * beyond, grey, "square")
    if body.bulbs:
        yield Fill(body.bulbs, grey)
        if beyond:
            yield Stroke(body.bulbs, 2 * beyond, grey)


def _body(mark: Trail, look: TrailLook, lattice: Lattice) -> Body:
    side = lattice.side
    width = look.width.at(side)
    pen = look.pen.at(side) if look.double else width
    courses = lines(mark, look, lattice)
    heads: Path = ()
    if mark.end == "arrowhead":
        heads = tuple(
            arrowhead(course[-1], unit(course[-2], course[-1]), look.head * side)
            for course in courses
        )
        if look.double:
            # Both halves of a double line end on the arms of the head.
            courses = [_shortened(course, width / 2 / tan(HEAD_ANGLE)) for course in courses]
    start = lattice.centre(mark.branches[0][0])
    squared = heads or mark.ring or look.double or look.circle
    return Body(
        width=width,
        pen=pen,
        core=width - 2 * pen if look.double else 0.0,
        cap="butt" if squared else "round",
        lines=tuple(map(polyline, courses)),
        heads=heads,
        bulbs=(disc(start, look.bulb * side / 2),) if mark.start == "bulb" else (),
        rungs=tuple(_rungs(mark, courses, pen, look, lattice)) if look.rungs else (),
        bridges=tuple(_bridges(mark, look, lattice)),
    )


def _shortened(course: list[Point], length: float) -> list[Point]:
    """The course with so much cut off its end."""
    return [*course[:-1], along(course[-1], unit(course[-1], course[-2]), length)]


def _rungs(
    mark: Trail, courses: list[list[Point]], pen: float, look: TrailLook, lattice: Lattice
) -> Iterator[Contour]:
    """Strokes across, none on a crossing; a double line is closed by one at either end."""
    length = look.rung * lattice.side
    crossed = [crossing.at for crossing in crossings(mark, lattice)]
    for course in courses:
        for stroke in cross_strokes(course, look.rungs * lattice.side, length):
            (x1, y1), (x2, y2) = stroke
            middle = (x1 + x2) / 2, (y1 + y2) / 2
            if all(dist(middle, at) > length for at in crossed):
                yield polyline(stroke)
        if look.double:
            for end, inner in ((course[0], course[1]), (course[-1], course[-2])):
                ahead = unit(end, inner)
                yield polyline(stroke_across(along(end, ahead, pen / 2), ahead, length))


def _bridges(mark: Trail, look: TrailLook, lattice: Lattice) -> Iterator[Contour]:
    """The stretches over earlier steps."""
    reach = look.width.at(lattice.side) / 2 + look.edge.at(lattice.side)
    for crossing in crossings(mark, lattice):
        ends = [along(crossing.at, crossing.ahead, way) for way in (-reach, reach)]
        yield polyline(ends)

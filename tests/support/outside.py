"""Places outside a board, drawn by hypothesis or by dice, with what is seen from there."""

from hypothesis import strategies as st

from verify.board import COMPASS, SIDES, Board, Outside


def every_place(board: Board, diagonal: bool = False) -> list[Outside]:
    """Every place from which a cell is seen."""
    beside = {
        "top": [(-1, column) for column in range(board.columns)],
        "bottom": [(board.rows, column) for column in range(board.columns)],
        "left": [(row, -1) for row in range(board.rows)],
        "right": [(row, board.columns) for row in range(board.rows)],
    }
    places = []
    for side, at in beside.items():
        ahead = COMPASS[SIDES[side]]
        for name, (down, right) in COMPASS.items():
            slanted = bool(down and right) and (down == ahead[0] or right == ahead[1])
            if slanted if diagonal else name == SIDES[side]:
                places += [Outside(row, column, name) for row, column in at]
    return [place for place in places if board.sight(place)]


def drawn_place(draw, board, diagonal=False):
    """A place and the cells that are seen."""
    place = draw(st.sampled_from(every_place(board, diagonal)))
    return place, board.sight(place)


def sown_clues(board, dice, make, share=0.6, diagonal=False):
    """Clues at some of the places: what `make(place, cells)` gives, where it gives any."""
    places = every_place(board, diagonal)
    chosen = dice.sample(places, round(len(places) * share))
    clues = (make(place, board.sight(place)) for place in sorted(chosen, key=repr))
    return tuple(clue for clue in clues if clue is not None)

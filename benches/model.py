"""Folding a sheet and landing its pages, in plain Python: a second opinion on the Rust engine, and what it is timed
against. Written from the protocol's description alone (src/ask/PROTOCOL.md); it needs no package.

    python3 benches/model.py            one scheme in JSON a line in, its landing in JSON a line out
    python3 benches/model.py time       the same scheme over and over: the best time in seconds

A packet is a table of piles. Each pile holds the panels that lie at that place, from the bottom to the top. A panel
remembers where on the sheet it is and whether it lies mirrored left to right, top to bottom, or both.
"""

import json
import sys
from time import perf_counter
from typing import NamedTuple


class Panel(NamedTuple):
    row: int
    column: int
    mirrored_across: bool = False  # left and right are exchanged
    mirrored_along: bool = False  # top and bottom are exchanged

    def side_up(self):
        """Two mirrorings turn a panel round; one turns it over."""
        return "A" if self.mirrored_across == self.mirrored_along else "B"

    def on_sheet(self, direction):
        """Which way on the sheet, seen from side A, a direction in the packet is for this panel."""
        if direction in ("left", "right"):
            return OPPOSITE[direction] if self.mirrored_across else direction
        return OPPOSITE[direction] if self.mirrored_along else direction


OPPOSITE = {"left": "right", "right": "left", "up": "down", "down": "up"}
CLOCKWISE = {"up": "right", "right": "down", "down": "left", "left": "up"}
STEP = {"up": (-1, 0), "right": (0, 1), "down": (1, 0), "left": (0, -1)}
EDGE = {"top": "up", "bottom": "down", "left": "left", "right": "right"}


def flat(rows, columns):
    """The sheet before the first fold: a pile of one panel everywhere."""
    return [[[Panel(row, column)] for column in range(columns)] for row in range(rows)]


def transposed(packet):
    return [list(column) for column in zip(*packet)]


def fold(packet, fold):
    """The packet after one fold of all layers."""
    across = fold["crease"] == "vertical"
    # A fold across a horizontal crease is one across a vertical crease with rows and columns exchanged.
    table = packet if across else transposed(packet)
    part = fold["moves"] if across else {"top": "left", "bottom": "right"}[fold["moves"]]
    folded = [fold_row(row, fold["after"], part, fold["lands"], across) for row in table]
    return folded if across else transposed(folded)


def fold_row(row, after, moves, lands, across):
    """One row of piles, folded over a crease `after` so many piles."""
    left, right = row[:after], row[after:]
    # Count both parts from the crease outwards: the first pile of one meets the first pile of the other.
    left.reverse()
    stays, goes = (right, left) if moves == "left" else (left, right)
    piles = []
    for distance in range(max(len(stays), len(goes))):
        staying = stays[distance] if distance < len(stays) else []
        moving = turned_over(goes[distance], across) if distance < len(goes) else []
        piles.append(staying + moving if lands == "over" else moving + staying)
    # What stayed at the left of the crease is written from left to right again.
    if moves == "right":
        piles.reverse()
    return piles


def turned_over(pile, across):
    """The pile the other way up: its order is reversed, and every panel is mirrored."""
    if across:
        return [Panel(p.row, p.column, not p.mirrored_across, p.mirrored_along) for p in reversed(pile)]
    return [Panel(p.row, p.column, p.mirrored_across, not p.mirrored_along) for p in reversed(pile)]


def landing(scheme):
    """Where each page lands on the flat sheet."""
    rows, columns = scheme["rows"], scheme["columns"]
    packet = flat(rows, columns)
    for one in scheme["folds"]:
        packet = fold(packet, one)
    pile = packet[0][0]
    # The spine is the last crease, and the part that moved came from there.
    spine, head = EDGE[scheme["folds"][-1]["moves"]], EDGE[scheme["head"]]
    # With the head up, what is a quarter turn before it lies at the left. Seen from beneath it is the other way round.
    spine_at_left = CLOCKWISE[spine] == head
    front_is_up = spine_at_left == (scheme.get("reads", "left_to_right") == "left_to_right")

    # From front to back, every leaf with the two faces that the reader meets.
    faces = []
    for panel in reversed(pile) if front_is_up else pile:
        up = panel.side_up()
        down = "B" if up == "A" else "A"
        for side in (up, down) if front_is_up else (down, up):
            faces.append((side, panel))
    page_on = {(side, panel.row, panel.column): page for page, (side, panel) in enumerate(faces, 1)}

    pages, loose_leaves = [], []
    for page, (side, panel) in enumerate(faces, 1):
        down, right = STEP[panel.on_sheet(spine)]
        conjugate = page_on.get((side, panel.row + down, panel.column + right))
        leaf = (page + 1) // 2
        if conjugate is None and page % 2 == 1:
            loose_leaves.append(leaf)
        points = panel.on_sheet(head)
        if side == "B" and points in ("left", "right"):
            points = OPPOSITE[points]
        pages.append({
            "page": page,
            "side": side,
            "row": panel.row,
            "column": panel.column if side == "A" else columns - 1 - panel.column,
            "head": points,
            "leaf": leaf,
            "backed_by": page + 1 if page % 2 == 1 else page - 1,
            "conjugate": conjugate,
            "forme": "outer" if side == faces[0][0] else "inner",
        })
    return {"pages": pages, "loose_leaves": loose_leaves}


def best_time(scheme, rounds=200, repeats=5):
    """Seconds for one landing in the best of many rounds: what disturbs a measurement only ever adds to it."""
    best = float("inf")
    for _ in range(rounds):
        start = perf_counter()
        for _ in range(repeats):
            landing(scheme)
        best = min(best, (perf_counter() - start) / repeats)
    return best


if __name__ == "__main__":
    for line in sys.stdin:
        scheme = json.loads(line)
        print(best_time(scheme) if "time" in sys.argv[1:] else json.dumps(landing(scheme)), flush=True)

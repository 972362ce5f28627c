#!/usr/bin/env python3
"""Compares our plane geometry with GEOS, by way of shapely.

    python3 -m venv /somewhere && /somewhere/bin/pip install shapely
    cargo build --release --test against_geos --no-default-features
    /somewhere/bin/python tests/against_geos/compare.py PROGRAM [FOLDER]

PROGRAM is the program that the build names (target/release/deps/against_geos-...). FOLDER holds published case files
(`*.xml`); without it those under tests/data/geometry are taken. Asks both for unions, intersections, differences,
buffers, splits along a line, soundness and label places: on the published cases and on 10,000 random pairs from a
fixed seed. Prints the largest difference of each and leaves with 1 where one is too large. Metres.

An overlay is compared by the area of the ground in one answer but not in the other, as a share of both inputs
together, so that ground in the wrong place counts as much as ground missing.
"""

import json
import math
import pathlib
import random
import re
import subprocess
import sys

import shapely
from shapely import wkb, wkt
from shapely.geometry import LineString, MultiPolygon, Point, Polygon
from shapely.ops import split

# A new corner within this of one given is that one, metres: ours may move a boundary by so much, and no more.
GRID_M = 1e-5
# A line drawn within this of a corner runs through it, metres.
SAME_PLACE_M = 2e-3
SPLIT_AT_MOST = 1e-7
# Ground of less than this has no place for a name, square metres.
LEAST_M2 = 1e-6
PAIRS = 10_000
SEED = 20260


def parts(shape):
    """The polygons of a shape, whatever else it holds."""
    if shape.geom_type == "Polygon":
        return [] if shape.is_empty else [shape]
    if shape.geom_type in ("MultiPolygon", "GeometryCollection"):
        return [part for piece in shape.geoms for part in parts(piece)]
    return []


def ground(shape):
    return MultiPolygon(parts(shape))


def coordinates(shape):
    return [
        [[list(at[:2]) for at in ring.coords] for ring in [part.exterior, *part.interiors] if not ring.is_empty]
        for part in parts(shape)
    ]


def shape_of(coordinates):
    made = [Polygon(part[0], part[1:]) for part in coordinates if len(part[0]) > 3]
    return MultiPolygon(made)


class Asked:
    """Questions gathered, asked all at once, and answered in order."""

    def __init__(self, program):
        self.program = program
        self.questions = []

    def ask(self, about, **question):
        self.questions.append((about, question))

    def answers(self):
        lines = "\n".join(json.dumps(question) for _, question in self.questions)
        done = subprocess.run([self.program], input=lines, capture_output=True, text=True, check=True)
        answers = done.stdout.splitlines()
        assert len(answers) == len(self.questions), done.stderr
        for (about, question), answer in zip(self.questions, answers):
            yield about, question, json.loads(answer)


class Tally:
    """The largest difference of a sort, and those that are too large."""

    def __init__(self):
        self.count, self.worst, self.bad = {}, {}, []

    def take(self, sort, about, off, most):
        self.count[sort] = self.count.get(sort, 0) + 1
        if off > self.worst.get(sort, (-1.0, ""))[0]:
            self.worst[sort] = (off, about)
        if not off <= most:
            self.bad.append((sort, about, off))

    def tell(self):
        for sort in sorted(self.count):
            off, about = self.worst[sort]
            print(f"{sort}: {self.count[sort]} compared, largest {off:.2e} ({about})")
        for sort, about, off in self.bad[:40]:
            print(f"DISAGREES {sort} {about}: {off:.3e}")
        print(f"{len(self.bad)} disagreements")


OPERATIONS = {
    "union": shapely.union,
    "intersection": shapely.intersection,
    "difference": shapely.difference,
}


def compare(tally, source, about, question, answer):
    a = shape_of(question["a"]) if question["a"] else Polygon()
    ask = question["ask"]
    if ask in OPERATIONS:
        b = shape_of(question["b"])
        theirs = ground(OPERATIONS[ask](a, b))
        ours = shapely.make_valid(shape_of(answer["outline"]))
        size = a.area + b.area
        most = GRID_M * (a.length + b.length) / size
        off = ground(ours).symmetric_difference(theirs).area / size
        tally.take(f"{source} {ask}", about, off, most)
        planar = abs(sum(p.area for p in parts(shape_of(answer["outline"]))) - theirs.area) / size
        tally.take(f"{source} {ask}, area alone", about, planar, most)
    elif ask == "buffer":
        distance = question["distance"]
        theirs = a.buffer(distance, quad_segs=64)
        ours = shapely.make_valid(shape_of(answer["outline"]))
        # Our bends are chords: what they may miss lies along the boundary, 0.2 % of the distance wide.
        may_miss = abs(distance) * 0.002 * (a.length + 2 * math.pi * abs(distance)) + 1e-6 * a.area
        off = ground(ours).symmetric_difference(theirs).area / may_miss
        tally.take(f"{source} buffer, share of what may miss", about, off, 1.0)
    elif ask == "split":
        line = LineString(question["line"])
        if any(line.distance(Point(at)) <= SAME_PLACE_M for at in shapely.get_coordinates(a)):
            # Ours then runs through the corner, which may part ground that theirs leaves hanging together by a hair.
            total = sum(shape_of(part).area for part in answer.get("parts", []))
            off = abs(total - a.area) / a.area
            tally.take(f"{source} split within 2 mm of a corner: sum", about, off, SPLIT_AT_MOST)
            return
        theirs = sorted(part.area for part in parts(split(a.geoms[0], line)))
        if "refused" in answer:
            if len(theirs) > 1:
                tally.take(f"{source} split", f"{about}: {answer['refused']}", math.inf, SPLIT_AT_MOST)
            return
        ours = sorted(shape_of(part).area for part in answer["parts"])
        off = math.inf
        if len(ours) == len(theirs):
            off = max(abs(x - y) for x, y in zip(ours, theirs)) / a.area
        tally.take(f"{source} split", about, off, SPLIT_AT_MOST)
    elif ask == "sound":
        tally.take(f"{source} sound", about, float(answer["sound"] != a.is_valid), 0.0)
    elif ask == "label" and "refused" in answer:
        tally.take(f"{source} label: outside", f"{about}: {answer['refused']}", 1.0, 0.0)
    elif ask == "label":
        place = Point(answer["place"])
        boundary = a.boundary.distance(place)
        off = abs(boundary - answer["room"]) / max(a.length, 1e-9)
        tally.take(f"{source} label: room, share of the way round", about, off, 1e-9)
        tally.take(f"{source} label: outside", about, float(not a.contains(place)), 0.0)


# -- published cases ------------------------------------------------------------------------------------------------


def read(text):
    text = text.strip()
    try:
        return wkb.loads(text, hex=True) if re.fullmatch(r"[0-9A-Fa-f\s]+", text) else wkt.loads(text)
    except (shapely.errors.ShapelyError, ValueError):
        return None


def published(folder):
    for path in sorted(folder.glob("Test*.xml")):
        text = path.read_text(encoding="utf-8")
        for number, case in enumerate(re.findall(r"<case>(.*?)</case>", text, re.S), 1):
            shapes = [re.search(rf"<{name}>(.*?)</{name}>", case, re.S) for name in "ab"]
            shapes = [read(found.group(1)) if found else None for found in shapes]
            yield f"{path.stem} {number}", *shapes


def ask_published(asked, folder):
    for about, a, b in published(folder):
        if a is None or not parts(a) or a.geom_type not in ("Polygon", "MultiPolygon"):
            continue
        if not all(math.isfinite(figure) for figure in shapely.get_coordinates(a).flat):
            continue  # JSON has no word for what is not a number; the suite asks such shapes itself.
        if any(len(part.exterior.coords) < 4 for part in parts(a)):
            continue
        if about.startswith(("TestValid", "TestInvalid")):
            asked.ask(about, ask="sound", a=coordinates(a))
        if not a.is_valid:
            continue
        if a.area > LEAST_M2:
            asked.ask(about, ask="label", a=coordinates(a))
        if b is not None and parts(b) and b.is_valid:
            for operation in OPERATIONS:
                asked.ask(about, ask=operation, a=coordinates(a), b=coordinates(b))


# -- random pairs ---------------------------------------------------------------------------------------------------


def star(chance, middle, corners, least, most):
    turns = sorted(chance.uniform(0, 2 * math.pi) for _ in range(corners))
    return Polygon(
        [
            (middle[0] + math.cos(turn) * reach, middle[1] + math.sin(turn) * reach)
            for turn in turns
            for reach in [chance.uniform(least, most)]
        ]
    )


def on_millimetres(shape):
    return shapely.transform(shape, lambda at: at.round(3))


def with_hole(chance, shape):
    place = shape.representative_point()
    room = shape.exterior.distance(place)
    hole = star(chance, (place.x, place.y), 6, room * 0.3, room * 0.8)
    return shape.difference(hole) if hole.is_valid and shape.is_valid else shape


def pair(chance, sort):
    """Two outlines on a farm some kilometres from the origin, on whole millimetres for the most part."""
    middle = (chance.uniform(-3000, 3000), chance.uniform(-3000, 3000))
    a = star(chance, middle, chance.randint(3, 14), 20, 120)
    near = (middle[0] + chance.uniform(-100, 100), middle[1] + chance.uniform(-100, 100))
    b = star(chance, near, chance.randint(3, 14), 20, 120)
    if sort == "holes":
        a, b = with_hole(chance, a), with_hole(chance, b)
    elif sort == "shared side":
        # Two pieces of one field, parted along a bent line; then each shifted by nothing.
        x0, y0 = middle
        bend = [(x0 + chance.uniform(-8, 8), y0 + step * 20) for step in range(6)]
        a = Polygon([(x0 - 60, y0), *bend, (x0 - 60, y0 + 100)])
        b = Polygon([(x0 + 60, y0), *bend, (x0 + 60, y0 + 100)])
    elif sort == "touching":
        # A corner of one on a side of the other.
        corners = list(a.exterior.coords)
        (x1, y1), (x2, y2) = corners[0], corners[1]
        share = chance.choice([0.0, 0.5, chance.random()])
        tip = list(b.exterior.coords)[0]
        shift = (x1 + (x2 - x1) * share - tip[0], y1 + (y2 - y1) * share - tip[1])
        b = shapely.transform(b, lambda at: at + shift)
    elif sort == "sliver":
        # The same outline with corners off by up to a few millimetres.
        b = Polygon([(x + chance.uniform(-5e-3, 5e-3), y + chance.uniform(-5e-3, 5e-3)) for x, y in a.exterior.coords[:-1]])
    elif sort == "near collinear":
        # Long sides that run within a millimetre of each other.
        x0, y0 = middle
        length, off = chance.uniform(50, 300), chance.uniform(-1e-3, 1e-3)
        a = Polygon([(x0, y0), (x0 + length, y0 + chance.uniform(-1e-3, 1e-3)), (x0 + length, y0 + 40), (x0, y0 + 40)])
        b = Polygon([(x0 + 10, y0 + off), (x0 + length * 0.8, y0 - off), (x0 + length * 0.8, y0 - 30), (x0 + 10, y0 - 30)])
    elif sort == "the same":
        b = Polygon(list(reversed(a.exterior.coords)))
    if sort != "raw":
        a, b = on_millimetres(a), on_millimetres(b)
    return a, b


SORTS = ["raw", "plain", "holes", "shared side", "touching", "sliver", "near collinear", "the same"]


def ask_random(asked):
    chance = random.Random(SEED)
    made = 0
    while made < PAIRS:
        sort = SORTS[made % len(SORTS)]
        a, b = pair(chance, sort)
        sound = all(p.is_valid and p.geom_type == "Polygon" and p.area > 1 for p in (a, b))
        if not sound:
            continue
        made += 1
        about = f"{sort} {made}"
        for operation in OPERATIONS:
            asked.ask(about, ask=operation, a=coordinates(a), b=coordinates(b))
        asked.ask(about, ask="label", a=coordinates(a))
        asked.ask(about, ask="sound", a=coordinates(a))
        if made % 4 == 0:
            asked.ask(about, ask="buffer", a=coordinates(a), distance=chance.choice([-1, 1]) * chance.uniform(0.5, 15))
            west, south, east, north = a.bounds
            line = [
                [west - 5, chance.uniform(south, north)],
                [chance.uniform(west, east), chance.uniform(south, north)],
                [east + 5, chance.uniform(south, north)],
            ]
            asked.ask(about, ask="split", a=coordinates(a), line=line)


def main():
    program = sys.argv[1]
    here = pathlib.Path(__file__).resolve().parent
    folder = pathlib.Path(sys.argv[2]) if len(sys.argv) > 2 else here.parent / "data" / "geometry"
    tally = Tally()
    for source, gather in [("published", lambda asked: ask_published(asked, folder)), ("random", ask_random)]:
        asked = Asked(program)
        gather(asked)
        for about, question, answer in asked.answers():
            compare(tally, source, about, question, answer)
    print(f"shapely {shapely.__version__}, GEOS {shapely.geos_version_string}, seed {SEED}")
    tally.tell()
    return 1 if tally.bad else 0


if __name__ == "__main__":
    sys.exit(main())

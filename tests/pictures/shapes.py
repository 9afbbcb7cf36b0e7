"""Writes five meshes that are nothing like the demo's, to try the drawing of models on: python3 shapes.py FOLDER

A torus knot, a bust, a tank-like stack of boxes, a tile of terrain and an open scan with holes. All numbers are worked
out here; the same script writes the same bytes.
"""

import math
import pathlib
import sys


def obj(groups):
    """A text of groups of triangles, each with corners of its own."""
    lines, first = [], 1
    for name, (corners, faces) in groups:
        lines.append(f"g {name}")
        lines += ["v %.4f %.4f %.4f" % tuple(corner) for corner in corners]
        lines += ["f %d %d %d" % tuple(at + first for at in face) for face in faces]
        first += len(corners)
    return "\n".join(lines) + "\n"


def grid(wide, tall, place, round_=False):
    """A sheet of quads, closed across where it runs around something."""
    corners = [place(x / wide, y / tall) for y in range(tall + 1) for x in range(wide + (not round_))]
    row = wide + (not round_)
    faces = []
    for y in range(tall):
        for x in range(wide):
            a, b = y * row + x, y * row + (x + 1) % row
            faces += [(a, b, b + row), (a, b + row, a + row)]
    return corners, faces


def ball(middle, sizes, wide=64, tall=40):
    def place(u, v):
        turn, rise = u * math.tau, (v - 0.5) * math.pi
        out = (math.cos(rise) * math.sin(turn), math.sin(rise), math.cos(rise) * math.cos(turn))
        return [m + s * o for m, s, o in zip(middle, sizes, out)]

    return grid(wide, tall, place, True)


def box(low, high):
    corners = [[(low, high)[at >> axis & 1][axis] for axis in range(3)] for at in range(8)]
    sides = [(0, 4, 6, 2), (1, 3, 7, 5), (0, 1, 5, 4), (2, 6, 7, 3), (0, 2, 3, 1), (4, 5, 7, 6)]
    return corners, [face for a, b, c, d in sides for face in ((a, b, c), (a, c, d))]


def together(*parts):
    corners, faces = [], []
    for more, own in parts:
        faces += [tuple(at + len(corners) for at in face) for face in own]
        corners += more
    return corners, faces


def knot(half):
    def middle(at):
        turn = at * math.tau
        wide = 20 + 9 * math.cos(3 * turn)
        return [wide * math.cos(2 * turn), 9 * math.sin(3 * turn) + 16, wide * math.sin(2 * turn)]

    def place(u, v):
        at = (v + half) / 2
        here, ahead = middle(at), middle(at + 1e-4)
        along = [b - a for a, b in zip(here, ahead)]
        long = math.sqrt(sum(part * part for part in along))
        along = [part / long for part in along]
        side = [along[2], 0.0, -along[0]]
        long = math.hypot(side[0], side[2])
        side = [part / long for part in side]
        up = [along[1] * side[2] - along[2] * side[1], along[2] * side[0] - along[0] * side[2],
              along[0] * side[1] - along[1] * side[0]]
        turn = u * math.tau
        return [h + 4 * (math.cos(turn) * s + math.sin(turn) * w) for h, s, w in zip(here, side, up)]

    return grid(36, 240, place, True)


def height(x, z):
    return 3 * math.sin(x * 0.11) + 4 * math.cos(z * 0.07 + x * 0.03) + 1.2 * math.sin(x * 0.6) * math.cos(z * 0.5)


def scan():
    """Half a shell, seen from inside too, with holes, each corner with a colour of its own."""
    corners, faces = ball([0, 20, 0], [18, 20, 14], 120, 80)
    rough = lambda x, y, z: 0.25 * math.sin(2.1 * x + 1.3 * y) * math.cos(1.7 * z - 0.9 * y)
    corners = [[x * (1 + rough(x, y, z) / 20), y, z * (1 + rough(x, y, z) / 20)] for x, y, z in corners]

    def kept(face):
        x, y, z = (sum(corners[at][axis] for at in face) / 3 for axis in range(3))
        hole = math.dist((x, y), (5, 24)) < 3 or math.dist((x, y), (-6, 12)) < 2.2
        return z > -6 and not (hole and z > 0)

    faces = [face for face in faces if kept(face)]
    colour = lambda corner: (220, 30, 30) if corner[1] > 20 else (30, 30, 220)
    head = ["ply", "format ascii 1.0", f"element vertex {len(corners)}"]
    head += [f"property float {axis}" for axis in "xyz"] + [f"property uchar {name}" for name in ("red", "green", "blue")]
    head += [f"element face {len(faces)}", "property list uchar int vertex_indices", "end_header"]
    body = ["%.4f %.4f %.4f %d %d %d" % (*corner, *colour(corner)) for corner in corners]
    return "\n".join(head + body + ["3 %d %d %d" % face for face in faces]) + "\n"


def shapes():
    terrain = lambda u, v: [u * 80 - 40, height(u * 80, v * 80), v * 80 - 40]
    wheels = [ball([side, 5, at], [3, 5, 5], 32, 20) for side in (-13, 13) for at in range(-18, 19, 9)]
    return {
        "knot.obj": obj([("first", knot(0)), ("second", knot(1))]),
        "bust.obj": obj([
            ("skin", together(ball([0, 44, 0], [9, 12, 10]), ball([0, 30, 0], [5, 9, 5]), ball([0, 43, 10], [2, 3, 3], 24, 16))),
            ("coat", together(ball([0, 18, 0], [20, 9, 10]), ball([-14, 17, 0], [8, 8, 8]), ball([14, 17, 0], [8, 8, 8]))),
            ("plinth", box([-9, 0, -9], [9, 12, 9]))]),
        "boxes.obj": obj([
            ("hull", together(box([-12, 6, -24], [12, 14, 24]), box([-10, 14, -14], [10, 16, 16]))),
            ("turret", together(box([-7, 16, -8], [7, 22, 8]), box([-1, 18, 8], [1, 20, 30]))),
            ("tracks", together(box([-16, 1, -22], [-12, 10, 22]), box([12, 1, -22], [16, 10, 22]), *wheels))]),
        "terrain.obj": obj([("ground", grid(120, 120, terrain)), ("hut", box([-6, 2, -6], [8, 16, 6]))]),
        "scan.ply": scan(),
    }


if __name__ == "__main__":
    folder = pathlib.Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in shapes().items():
        (folder / name).write_text(text)

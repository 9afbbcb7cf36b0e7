"""Export the demo guide's models as meshes.

The same shapes that ``draw.py`` photographs become low meshes, one OBJ a model,
whose groups are named like the areas of the scheme; what belongs to no area is
the group ``rest``.  Distances are sampled on a grid, a surface is laid through
it, what lies inside another part is taken away, and the rest is made coarser.

Run:  python3 meshes.py [--only PART-OF-NAME] [--out FOLDER]
Needs: numpy, Pillow, fast-simplification.  The same versions give the same bytes.
"""

import argparse
from pathlib import Path

import fast_simplification
import numpy as np

import draw

LICENCE = "# Drawn by tests/pictures/meshes.py of this guide's project; MIT OR Apache-2.0, like the project itself.\n"
CELL = 0.021
MILLIMETRES = 13.0          # of the model for one unit of the shapes

# scheme         model                 triangles  area -> paints of the shapes
MODELS = {
    "fen-warden": ("warden", 15000, {
        "shell": ("shell",), "cloth": ("hood", "tunic", "reed", "reed_light"),
        "leather": ("leather", "boots"), "lantern": ("glass",)}),
    "reed-boat": ("boat", 13000, {
        "boards": ("hull", "rail"), "reeds": ("bundle", "rope", "basket"), "deck": ("plank", "pole"),
        "iron": ("iron", "rivet")}),
    "heron-rider": ("heron_before_reeds", 19000, {
        "feathers": ("heron", "wing", "head", "crest", "leg"), "beak": ("beak", "eye_yellow"), "pupils": ("eye",),
        "cloak": ("cloak",), "leather": ("saddle",)}),
    "marsh-levy": ("levy", 19000, {
        "coat": ("coat",), "skin": ("skin",), "leather": ("strap", "boot"), "shield": ("reeds", "shaft")}),
    "lantern-pier": ("pier_before_reeds", 15000, {
        "stones": ("stone",), "planks": ("plank", "post", "beam"), "lamps": ("iron", "glass")}),
}
WEIGHT = {"rest": 0.25, "lamps": 2.5}
FINE = {"beak": 0.012, "pupils": 0.006, "lamps": 0.011}     # what is small has a finer grid, and more triangles
LEAST, LEAST_FINE = 60, 300
TURNED = {"heron-rider": -90, "reed-boat": -90}             # about the upright, so that the front looks along z


def distance(parts, points, far):
    """The distance of each point to the nearest part, at most ``far``."""
    nearest = np.full(points.shape[1], far, np.float32)
    for part in parts:
        near = ((points - part.centre.reshape(3, 1)) ** 2).sum(axis=0) < (part.radius + far) ** 2
        if near.any():
            nearest[near] = np.minimum(nearest[near], part.dist(points[:, near]))
    return nearest


def surface(parts, grid):
    """Corners and triangles of a surface around some parts: one corner a cell that it runs through."""
    low = np.min([p.centre - p.radius for p in parts], axis=0) - 2 * grid
    high = np.max([p.centre + p.radius for p in parts], axis=0) + 2 * grid
    shape = np.ceil((high - low) / grid).astype(int) + 1
    axes = [low[i] + grid * np.arange(shape[i]) for i in range(3)]
    field = np.empty(shape, np.float32)
    for x in range(shape[0]):
        y, z = np.meshgrid(axes[1], axes[2], indexing="ij")
        points = np.stack([np.full(y.size, axes[0][x]), y.ravel(), z.ravel()]).astype(np.float32)
        field[x] = distance(parts, points, 3 * grid).reshape(y.shape)
    inside = field < 0
    total = np.zeros(tuple(shape - 1) + (3,), np.float64)
    count = np.zeros(shape - 1, int)
    cell = [slice(0, -1)] * 3
    for axis in range(3):
        for da in (0, 1):
            for db in (0, 1):
                others = [i for i in range(3) if i != axis]
                start, end = [slice(0, -1)] * 3, [slice(0, -1)] * 3
                for other, d in zip(others, (da, db)):
                    start[other] = end[other] = slice(d, None if d else -1)
                end[axis] = slice(1, None)
                a, b = field[tuple(start)], field[tuple(end)]
                crossing = (a < 0) != (b < 0)
                at = np.where(crossing, a / np.where(crossing, a - b, 1), 0)
                place = np.zeros(a.shape + (3,))
                place[..., axis] = at
                for other, d in zip(others, (da, db)):
                    place[..., other] = d
                total += np.where(crossing[..., None], place, 0)
                count += crossing
    cells = np.argwhere(count > 0)
    number = np.full(count.shape, -1)
    number[tuple(cells.T)] = np.arange(len(cells))
    corners = low + grid * (cells + total[tuple(cells.T)] / count[tuple(cells.T)][:, None])
    faces = []
    for axis in range(3):
        b, c = [(1, 2), (2, 0), (0, 1)][axis]
        start, end = [slice(1, -1)] * 3, [slice(1, -1)] * 3
        start[axis], end[axis] = slice(0, -1), slice(1, None)
        out = inside[tuple(start)] & ~inside[tuple(end)]
        into = ~inside[tuple(start)] & inside[tuple(end)]
        for found, flipped in ((out, False), (into, True)):
            at = np.argwhere(found) + np.array([0 if i == axis else 1 for i in range(3)])
            step_b, step_c = np.eye(3, dtype=int)[b], np.eye(3, dtype=int)[c]
            ring = [number[tuple((at - s).T)] for s in (step_b + step_c, step_c, 0 * step_b, step_b)]
            if flipped:
                ring.reverse()
            faces += [np.stack([ring[0], ring[1], ring[2]], 1), np.stack([ring[0], ring[2], ring[3]], 1)]
    return corners, np.concatenate(faces)


def shrunk(parts, corners, grid):
    """Corners moved onto the surface itself."""
    for _ in range(2):
        p = corners.T.astype(np.float32)
        d = distance(parts, p, 3 * grid)
        e = 0.3 * grid
        slope = np.stack([distance(parts, p + e * draw.column(np.eye(3)[i]), 3 * grid)
                          - distance(parts, p - e * draw.column(np.eye(3)[i]), 3 * grid) for i in range(3)]) / (2 * e)
        size = np.maximum((slope ** 2).sum(axis=0), 0.3)
        move = np.clip(d / size, -0.5 * grid, 0.5 * grid) * slope
        corners = (p - move).T
    return corners


def visible(corners, faces, others, grid):
    """The faces that do not lie inside another part."""
    middle = corners[faces].mean(axis=1).T.astype(np.float32)
    return faces[distance(others, middle, 3 * grid) > -0.6 * grid]


def used(corners, faces):
    known, at = np.unique(faces, return_inverse=True)
    return corners[known], at.reshape(faces.shape)


def area_of(corners, faces):
    a, b, c = (corners[faces[:, i]] for i in range(3))
    return np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2


def export(scheme, out):
    model, budget, areas = MODELS[scheme]
    parts = draw.MODELS[model]().parts
    area_by_paint = {paint: area for area, paints in areas.items() for paint in paints}
    groups = {}
    for part in parts:
        groups.setdefault(area_by_paint.get(part.paint, "rest"), []).append(part)
    made = {}
    for name, own in groups.items():
        grid = FINE.get(name, CELL)
        corners, faces = surface(own, grid)
        corners = shrunk(own, corners, grid)
        faces = visible(corners, faces, [part for other, parts in groups.items() if other != name for part in parts], grid)
        made[name] = used(corners, faces)
    weights = {name: area_of(*mesh) * WEIGHT.get(name, 1.0) + 0.4 * area_of(*mesh) ** 0.5 for name, mesh in made.items()}
    lines, first, turned = [LICENCE], 1, draw.turn(y=TURNED.get(scheme, 0)).T
    for name in [*areas, "rest"]:
        corners, faces = made[name]
        wanted = max(LEAST_FINE if name in FINE else LEAST, int(budget * weights[name] / sum(weights.values())))
        if len(faces) > wanted:
            corners, faces = fast_simplification.simplify(
                corners.astype(np.float32), faces.astype(np.int32), 1 - wanted / len(faces), agg=4)
        lines.append(f"g {name}\n")
        lines += ["v %.2f %.2f %.2f\n" % tuple(corner * MILLIMETRES) for corner in corners @ turned]
        lines += ["f %d %d %d\n" % tuple(face + first) for face in faces]
        first += len(corners)
        print(f"{scheme} {name}: {len(faces)} triangles")
    out.mkdir(parents=True, exist_ok=True)
    (out / "model.obj").write_text("".join(lines))


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--only", default="", help="export only the models whose name contains this")
    options.add_argument("--out", type=Path, default=draw.CONTENT, help="folder of the schemes")
    options = options.parse_args()
    for scheme in MODELS:
        if options.only in scheme:
            export(scheme, options.out / scheme)


if __name__ == "__main__":
    main()

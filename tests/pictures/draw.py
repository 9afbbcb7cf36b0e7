"""Draw the demo guides' photographs.

The demo site of the Lantern Fen needs photographs of painted miniatures that
belong to nobody.  This script makes them: every model is built from signed
distance shapes, lit like a small product table (softbox, fill, curved warm-grey
backdrop), ray-marched with numpy and written as JPEG below ``content/schemes``.

The files deliberately carry what phones and cameras leave behind - sideways
pixels with an Orientation tag, a location, a serial number, a thumbnail, a
comment, a colour profile - so that the compiler's picture handling has honest
material to work on.  The table ``PHOTOS`` at the end of the settings says which
file carries what.  Camera, serial numbers and the place are invented; the
coordinates lie in the open ocean.

Run:  python3 draw.py [--only PART-OF-NAME] [--scale 0.4] [--out FOLDER]
Needs: numpy, Pillow.  The same versions give the same bytes.
"""

import argparse
import io
import struct
import time
from functools import lru_cache
from pathlib import Path
from types import SimpleNamespace

import numpy as np
from PIL import Image, ImageCms, ImageDraw, ImageFilter

CONTENT = Path(__file__).resolve().parents[2] / "content" / "schemes"
QUALITY = 82
LARGEST_FILE = 158_000
TILE = 90
TRACED = 0.64       # rays are traced at this part of the size; the lens is no sharper

CAMERA_MAKE = "Peatglim"
CAMERA_MODEL = "Peatglim box no 2"

# file                     model     colours            view              upright size  carried metadata
PHOTOS = [
    ("fen-warden/finished", "warden", "warden_finished", "warden_front", (1050, 1400),
     dict(orientation=6, gps=True, serial="FL2-000417", date="2031:04:12 18:22:07")),
    ("fen-warden/gold", "warden", "warden_gold", "warden_back", (1050, 1400),
     dict(serial="FL2-000417", date="2031:04:03 20:10:44")),
    ("fen-warden/amber", "warden", "warden_amber", "warden_back", (1050, 1400),
     dict(orientation=8, gps=True, serial="FL2-000417", date="2031:04:05 21:31:15")),
    ("fen-warden/decals", "warden", "warden_decals", "warden_close", (1400, 1050),
     dict(profile=True, date="2031:04:09 19:02:50")),
    ("reed-boat/finished", "boat_afloat", "boat_finished", "boat", (1400, 1050),
     dict(orientation=3, gps=True, serial="FL2-000417", date="2031:05:20 11:45:33")),
    ("reed-boat/chipped", "boat", "boat_chipped", "boat_step", (1400, 1050),
     dict(thumbnail=True, date="2031:05:11 10:12:01")),
    ("reed-boat/rust", "boat", "boat_rust", "boat_close", (1400, 1050), dict()),
    ("heron-rider/finished", "heron", "heron_finished", "heron", (1050, 1400),
     dict(orientation=6, gps=True, serial="FL2-000902", date="2031:06:02 16:40:20")),
    ("heron-rider/basecoat", "heron_before_reeds", "heron_basecoat", "heron", (1050, 1400),
     dict(comment="Heron on the window sill, flat coats only", date="2031:05:28 09:15:59")),
    ("lantern-pier/finished", "pier", "pier_finished", "pier", (1400, 1050),
     dict(gps=True, serial="FL2-000902", date="2031:07:19 21:05:12")),
    ("lantern-pier/foam", "pier_before_reeds", "pier_foam", "pier", (1400, 1050),
     dict(serial="FL2-000902", date="2031:07:01 14:27:36")),
]

# Camera: turn around the model in degrees, height angle, distance, point looked at,
# height of the picture in model units at that point.
VIEWS = {
    "warden_front": (27, 11, 15.0, (-0.24, 1.38, 0.1), 3.85),
    "warden_back": (157, 13, 15.0, (0.0, 1.40, 0.0), 3.65),
    "warden_close": (16, 12, 15.0, (0.0, 1.72, 0.2), 1.6),
    "boat": (-32, 24, 16.0, (-0.02, 0.66, 0.0), 3.15),
    "boat_step": (-32, 24, 16.0, (-0.02, 0.62, 0.0), 3.1),
    "boat_close": (-16, 12, 16.0, (0.25, 0.31, 0.5), 1.02),
    "heron": (22, 9, 17.0, (0.16, 1.85, 0.0), 4.75),
    "pier": (-30, 20, 18.0, (0.0, 1.08, 0.0), 4.15),
}


# ---------------------------------------------------------------- small maths

def column(v):
    return np.array(v, np.float32).reshape(3, 1)


def unit(v):
    v = np.asarray(v, np.float32)
    return v / np.sqrt((v * v).sum(axis=0))


def length(x, y, z):
    return np.sqrt(x * x + y * y + z * z)


def dot(a, b):
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def smooth(low, high, x):
    t = np.clip((x - low) / (high - low), 0, 1)
    return t * t * (3 - 2 * t)


def mix(a, b, t):
    return a + (b - a) * t


def turn(x=0, y=0, z=0):
    """Rotation matrix: about x, then y, then z, in degrees."""
    result = np.eye(3)
    for axis, angle in enumerate((x, y, z)):
        c, s = np.cos(np.radians(angle)), np.sin(np.radians(angle))
        m = np.eye(3)
        i, j = [(1, 2), (2, 0), (0, 1)][axis]
        m[i, i] = m[j, j] = c
        m[i, j], m[j, i] = -s, s
        result = m @ result
    return result.astype(np.float32)


LATTICE = np.random.default_rng(41).random((32, 32, 32)).astype(np.float32).ravel()


def noise(p, scale, shift=0.0):
    """Smooth value noise in 0..1."""
    q = p * scale + shift
    cell = np.floor(q)
    f = q - cell
    f = f * f * (3 - 2 * f)
    i = cell.astype(np.int32)
    lo, hi = i & 31, (i + 1) & 31
    x0, x1, y0, y1, z0, z1 = lo[0] << 10, hi[0] << 10, lo[1] << 5, hi[1] << 5, lo[2], hi[2]

    def edge(x, y):
        return mix(LATTICE[x | y | z0], LATTICE[x | y | z1], f[2])

    return mix(mix(edge(x0, y0), edge(x0, y1), f[1]), mix(edge(x1, y0), edge(x1, y1), f[1]), f[0])


def clouds(p, scale, shift=0.0):
    return (noise(p, scale, shift) * 0.55 + noise(p, scale * 2.1, shift + 7.3) * 0.3
            + noise(p, scale * 4.3, shift + 3.1) * 0.15)


# --------------------------------------------------------------------- shapes

class Part:
    """A shape: its distance function, a bounding sphere and the paint it takes."""

    def __init__(self, dist, centre, radius, paint=""):
        self.dist, self.paint = dist, paint
        self.centre, self.radius = np.array(centre, np.float32), float(radius)


def ellipsoid(centre, radii, rotation=None, paint=""):
    c, r = column(centre), column(radii)
    r2 = r * r

    def dist(p):
        q = p - c
        if rotation is not None:
            q = rotation.T @ q
        a, b = q / r, q / r2
        k0 = length(*a)
        return k0 * (k0 - 1) / (length(*b) + 1e-6)

    return Part(dist, centre, max(radii), paint)


def ball(centre, radius, paint=""):
    x, y, z = map(float, centre)

    def dist(p):
        return length(p[0] - x, p[1] - y, p[2] - z) - radius

    return Part(dist, centre, radius, paint)


def rod(a, b, ra, rb=None, paint=""):
    """Round-ended rod whose thickness runs from ra to rb."""
    rb = ra if rb is None else rb
    ax, ay, az = map(float, a)
    bx, by, bz = (float(v - u) for u, v in zip(a, b))
    inverse = 1.0 / (bx * bx + by * by + bz * bz)
    grow = rb - ra

    def dist(p):
        x, y, z = p[0] - ax, p[1] - ay, p[2] - az
        h = np.minimum(np.maximum((x * bx + y * by + z * bz) * inverse, 0), 1)
        return length(x - bx * h, y - by * h, z - bz * h) - (ra + grow * h)

    reach = 0.5 / inverse ** 0.5 + max(ra, rb)
    return Part(dist, [(u + v) / 2 for u, v in zip(a, b)], reach, paint)


def box(centre, half, rounding=0.02, rotation=None, paint=""):
    c = column(centre)
    hx, hy, hz = (float(h - rounding) for h in half)

    def dist(p):
        q = p - c
        if rotation is not None:
            q = rotation.T @ q
        x, y, z = np.abs(q[0]) - hx, np.abs(q[1]) - hy, np.abs(q[2]) - hz
        outside = length(np.maximum(x, 0), np.maximum(y, 0), np.maximum(z, 0))
        return outside + np.minimum(np.maximum(np.maximum(x, y), z), 0) - rounding

    return Part(dist, centre, float(np.linalg.norm(half)), paint)


def drum(centre, radius, half_height, rounding=0.02, squash=(1, 1), paint="", low=None):
    """Upright cylinder; ``low`` gives another radius at the foot, squash an oval."""
    cx, cy, cz = map(float, centre)
    sx, sz = squash
    foot = radius if low is None else low

    def dist(p):
        x, y, z = (p[0] - cx) / sx, p[1] - cy, (p[2] - cz) / sz
        r = mix(foot, radius, np.clip((y + half_height) / (2 * half_height), 0, 1))
        a = (np.sqrt(x * x + z * z) - r + rounding) * min(sx, sz)
        b = np.abs(y) - half_height + rounding
        ax, bx = np.maximum(a, 0), np.maximum(b, 0)
        return np.sqrt(ax * ax + bx * bx) + np.minimum(np.maximum(a, b), 0) - rounding

    wide = max(radius, foot) * max(sx, sz)
    return Part(dist, centre, (wide * wide + half_height ** 2) ** 0.5, paint)


def ring(centre, radius, thick, rotation=None, paint="", squash=1.0):
    """Torus around y; squash flattens the tube's height."""
    c = column(centre)

    def dist(p):
        q = p - c
        if rotation is not None:
            q = rotation.T @ q
        a = np.sqrt(q[0] * q[0] + q[2] * q[2]) - radius
        b = q[1] / squash
        return (np.sqrt(a * a + b * b) - thick) * min(1.0, squash)

    return Part(dist, centre, radius + thick * max(1.0, squash), paint)


def bounds(parts):
    low = np.min([q.centre - q.radius for q in parts], axis=0)
    high = np.max([q.centre + q.radius for q in parts], axis=0)
    centre = (low + high) / 2
    return centre, max(np.linalg.norm(q.centre - centre) + q.radius for q in parts)


def blend(parts, k, paint):
    """Union with soft seams of width k, as sculpted in putty."""
    centre, radius = bounds(parts)

    def dist(p):
        d = parts[0].dist(p)
        for q in parts[1:]:
            e = q.dist(p)
            h = np.maximum(k - np.abs(d - e), 0) * (1 / k)
            d = np.minimum(d, e) - h * h * (k * 0.25)
        return d

    return Part(dist, centre, radius + k / 4, paint)


def carved(part, keep, paint=None):
    """The part where ``keep(p)`` is negative."""
    return Part(lambda p: np.maximum(part.dist(p), keep(p)), part.centre, part.radius, paint or part.paint)


def displaced(part, relief, room):
    """The part with a relief (positive = outward) laid on its surface."""
    return Part(lambda p: part.dist(p) - relief(p), part.centre, part.radius + room, part.paint)


def placed(part, rotation, shift):
    s = column(shift)
    centre = (rotation @ column(part.centre) + s).ravel()
    return Part(lambda p: part.dist(rotation.T @ (p - s)), centre, part.radius, part.paint)


def chain(points, radii, k, paint):
    """A bent limb through the points."""
    links = [rod(points[i], points[i + 1], radii[i], radii[i + 1]) for i in range(len(points) - 1)]
    return blend(links, k, paint)


def sheaf(rods, paint):
    """Many rods (a, b, ra, rb) measured in one go."""
    a, b = (np.array([q[i] for q in rods], np.float32) for i in (0, 1))
    ra, rb = (np.array([[q[i]] for q in rods], np.float32) for i in (2, 3))
    ax, ay, az = (a[:, i:i + 1] for i in range(3))
    bx, by, bz = ((b - a)[:, i:i + 1] for i in range(3))
    inverse = 1 / (bx * bx + by * by + bz * bz)

    def dist(p):
        x, y, z = p[0] - ax, p[1] - ay, p[2] - az
        h = np.minimum(np.maximum((x * bx + y * by + z * bz) * inverse, 0), 1)
        return (length(x - bx * h, y - by * h, z - bz * h) - (ra + (rb - ra) * h)).min(axis=0)

    ends = np.concatenate([a, b])
    centre = (ends.min(axis=0) + ends.max(axis=0)) / 2
    return Part(dist, centre, np.sqrt(((ends - centre) ** 2).sum(axis=1)).max() + max(ra.max(), rb.max()), paint)


def tuft(rng, centre, count, height, spread, paint, thick=0.016):
    """A tuft of grass or reed blades, each slightly bent."""
    blades = []
    x0, y0, z0 = centre
    for _ in range(count):
        angle, lean = rng.uniform(0, 2 * np.pi), rng.uniform(0.1, 1.0) * spread
        tall = height * rng.uniform(0.6, 1.0)
        dx, dz = np.cos(angle) * lean, np.sin(angle) * lean
        root = (x0 + dx * 0.3, y0, z0 + dz * 0.3)
        knee = (x0 + dx * 0.6, y0 + tall * 0.6, z0 + dz * 0.6)
        tip = (x0 + dx * 1.25, y0 + tall, z0 + dz * 1.25)
        blades += [(root, knee, thick, thick * 0.8), (knee, tip, thick * 0.8, thick * 0.25)]
    return [sheaf(blades, paint)]


def lantern(centre, size, panes=4):
    """A storm lantern with so many panes; returns its parts and the place of the flame."""
    x, y, z = centre
    s = size
    parts = [
        drum((x, y - 0.98 * s, z), 0.78 * s, 0.14 * s, 0.05 * s, paint="iron"),
        drum((x, y, z), 0.56 * s, 0.85 * s, 0.1 * s, paint="glass"),
        drum((x, y + 1.02 * s, z), 0.42 * s, 0.2 * s, 0.06 * s, paint="iron", low=0.85 * s),
        drum((x, y + 1.28 * s, z), 0.2 * s, 0.14 * s, 0.05 * s, paint="iron"),
        ring((x, y + 1.62 * s, z), 0.24 * s, 0.07 * s, turn(x=90, y=35), "iron"),
    ]
    bars = []
    for angle in np.radians([20 + at * 360 / panes for at in range(panes)]):
        dx, dz = 0.62 * s * np.cos(angle), 0.62 * s * np.sin(angle)
        bars.append(((x + dx, y - 0.9 * s, z + dz), (x + dx, y + 0.9 * s, z + dz), 0.075 * s, 0.075 * s))
    return parts + [sheaf(bars, "iron")], centre


# --------------------------------------------------------------------- models

def round_base(rng, radius, blade, tufts):
    """A round plastic base with earth, stones and tufts."""
    def rough(p):
        x, z = p[0], p[2]
        return 0.018 * (np.sin(x * 13 + 2 * np.sin(z * 7)) + np.sin(z * 15 + 2 * np.sin(x * 9 + 1)))

    earth = ellipsoid((0, 0.15, 0), (radius * 0.96, 0.12, radius * 0.96), paint="earth")
    parts = [
        drum((0, 0.085, 0), radius * 0.95, 0.085, 0.025, low=radius, paint="rim"),
        displaced(earth, rough, 0.04),
    ]
    for _ in range(9):
        angle, r = rng.uniform(0, 6.28), radius * rng.uniform(0.5, 0.86)
        size = rng.uniform(0.04, 0.1)
        parts.append(ellipsoid((r * np.cos(angle), 0.225, r * np.sin(angle)), (size, size * 0.7, size * 0.85),
                               turn(y=rng.uniform(0, 180)), "stone"))
    for x, z, height in tufts:
        parts += tuft(rng, (x, 0.2, z), 13, height, 0.2, blade)
    return parts


def wing_case():
    """The large back shell: two wing cases with a seam and fine furrows."""
    core = ellipsoid((0, 0, 0), (0.74, 0.86, 0.5))

    def dist(p):
        x, y, z = p
        across = np.abs(x) / (0.74 * np.sqrt(np.maximum(1 - (y / 0.95) ** 2, 0.08)))
        furrow = 0.010 * np.exp(-((np.mod(across * 4.6, 1.0) - 0.5) / 0.13) ** 2) * smooth(0.12, 0.2, across)
        seam = 0.045 * np.exp(-(x / 0.022) ** 2)
        lip = 0.05 * smooth(-0.13, -0.06, z)
        return np.maximum(core.dist(p) + furrow + seam - lip, z - 0.02) * 0.85

    return placed(Part(dist, (0, 0, 0), 0.92, "shell"), turn(x=12), (0, 1.36, -0.26))


def shell_plate(centre, radii, rotation, cut, flare=0.035):
    """A domed plate cut off below with a raised lip along the cut."""
    core = ellipsoid((0, 0, 0), radii)

    def dist(p):
        lip = flare * smooth(cut + 0.09, cut + 0.04, p[1])
        groove = 0.02 * np.exp(-((p[1] - cut - 0.11) / 0.018) ** 2)
        return np.maximum(core.dist(p) - lip + groove, cut - p[1]) * 0.9

    return placed(Part(dist, (0, 0, 0), max(radii) + flare, "shell"), rotation, centre)


def reed_skirt(low, high, narrow, wide, paint, strands):
    """A flared skirt of reed strands with a ragged hem."""
    middle, tall = (low + high) / 2, (high - low) / 2

    def dist(p):
        x, y, z = p[0], p[1], p[2] * 1.1
        angle = np.arctan2(x, z)
        fall = np.clip((high - y) / (high - low), 0, 1)
        r = mix(narrow, wide, fall ** 0.8) + 0.022 * np.cos(angle * strands) * (0.3 + fall)
        hem = low + 0.05 * np.cos(angle * 9 + 1) + 0.025 * np.cos(angle * strands)
        side = np.sqrt(x * x + z * z) - r
        return np.maximum(np.maximum(side, y - high), hem - y) * 0.6

    return Part(dist, (0, middle, 0), (wide ** 2 + tall ** 2) ** 0.5 + 0.1, paint)


def warden_head():
    """A hood of reed cloth, and in it a face plate grown like a beetle's: a seam, two slits to look through."""
    hood = blend([ellipsoid((0, 2.06, 0.1), (0.37, 0.4, 0.38)), rod((0, 2.32, -0.02), (0, 2.2, -0.34), 0.2, 0.06),
                  ellipsoid((0, 1.78, 0.05), (0.46, 0.16, 0.4))], 0.1, "hood")
    opening = ellipsoid((0, 2.02, 0.44), (0.27, 0.33, 0.26))

    def hooded(p):
        fold = 0.012 * np.sin(np.arctan2(p[0], p[2] - 0.1) * 14) * smooth(1.9, 1.7, p[1])
        return np.maximum(hood.dist(p) + fold, -opening.dist(p)) * 0.85

    plate = ellipsoid((0, 2.02, 0.2), (0.26, 0.33, 0.28))

    def face(p):
        x, y, z = p
        seam = 0.03 * np.exp(-(x / 0.016) ** 2) * smooth(1.98, 1.9, y)
        brow = 0.03 * np.exp(-((y - 2.13 - 0.25 * np.abs(x)) / 0.03) ** 2)
        furrow = 0.012 * np.exp(-((np.mod(y * 9, 1.0) - 0.5) / 0.16) ** 2) * smooth(1.95, 1.88, y)
        slit = ((np.abs(x) - 0.125) / 0.085) ** 2 + ((y - 2.075 - 0.18 * (np.abs(x) - 0.125)) / 0.026) ** 2
        hole = 0.07 * smooth(1.5, 0.7, slit)
        return np.maximum(plate.dist(p) - brow + seam + furrow + hole, 0.16 - z) * 0.7

    parts = [Part(hooded, (0, 2.02, 0.05), 0.75, "hood"), Part(face, (0, 2.02, 0.2), 0.42, "shell"),
             ellipsoid((0, 2.05, 0.2), (0.215, 0.2, 0.225), paint="eye")]
    for s in (-1, 1):
        parts.append(chain([(s * 0.07, 1.76, 0.44), (s * 0.13, 1.7, 0.5), (s * 0.05, 1.64, 0.53)], (0.045, 0.038, 0.014), 0.02, "shell"))
    return parts


def warden_arms():
    right = [(-0.58, 1.62, 0.06), (-0.84, 1.42, 0.26), (-0.92, 1.66, 0.68)]
    left = [(0.58, 1.62, 0.06), (0.86, 1.28, 0.12), (0.62, 1.06, 0.46)]
    parts = []
    for points in (right, left):
        parts.append(chain(points, (0.17, 0.155, 0.12), 0.05, "tunic"))
        wrist, elbow = np.array(points[2]), np.array(points[1])
        ahead = (wrist - elbow) / np.linalg.norm(wrist - elbow)
        hand = wrist + ahead * 0.12
        parts += [rod(wrist - ahead * 0.16, wrist + ahead * 0.02, 0.135, 0.165, "leather"),
                  blend([ball(hand, 0.125), ball(hand + ahead * 0.05, 0.11)], 0.05, "leather")]
    for i in range(4):
        parts.append(rod((-1.03, 1.83 - i * 0.055, 0.78), (-0.88, 1.83 - i * 0.055, 0.88), 0.042, paint="leather"))
    return parts


def warden():
    rng = np.random.default_rng(7)
    parts = round_base(rng, 1.12, "grass", ())
    parts += warden_head() + warden_arms()
    for s in (-1, 1):
        parts += [
            blend([rod((s * 0.3, 0.34, -0.03), (s * 0.4, 0.31, 0.36), 0.16, 0.155), rod((s * 0.3, 0.36, 0), (s * 0.28, 0.8, 0), 0.17, 0.2)],
                  0.08, "boots"),
            ring((s * 0.29, 0.66, 0.0), 0.2, 0.05, turn(x=4), "leather"),
            ring((s * 0.345, 0.38, 0.14), 0.17, 0.028, turn(x=70, y=14), "leather"),
            shell_plate((s * 0.68, 1.66, 0.04), (0.34, 0.3, 0.37), turn(z=-s * 24), -0.03),
            shell_plate((s * 0.77, 1.5, 0.05), (0.29, 0.22, 0.32), turn(z=-s * 34), -0.04),
        ]
    parts += [
        reed_skirt(0.5, 0.98, 0.5, 0.74, "reed", 30),
        reed_skirt(0.72, 1.14, 0.46, 0.66, "reed_light", 26),
        ellipsoid((0, 1.42, 0.04), (0.54, 0.52, 0.43), paint="tunic"),
        drum((0, 1.1, 0.02), 0.53, 0.075, 0.03, (1, 0.88), "leather"),
        box((0, 1.1, 0.49), (0.11, 0.1, 0.035), 0.03, paint="leather"),
        box((-0.34, 1.0, 0.43), (0.13, 0.13, 0.07), 0.05, turn(y=-32), "leather"),
        box((-0.34, 1.06, 0.47), (0.14, 0.07, 0.06), 0.04, turn(y=-32), "boots"),
        wing_case(),
        shell_plate((0, 1.7, -0.2), (0.62, 0.36, 0.48), turn(x=-28), 0.0),
    ]
    strap = ellipsoid((0, 1.42, 0.04), (0.575, 0.55, 0.465), paint="boots")
    parts.append(carved(strap, lambda p: np.abs(p[0] * 0.62 + (p[1] - 1.42) * 0.78) - 0.05))
    lamp_parts, flame = lantern((-0.96, 1.24, 0.84), 0.235)
    return SimpleNamespace(parts=parts + lamp_parts, flame=flame)


def draped(low, high, narrow, wide, folds, deep, ragged, squash=1.0, lean=(0, 0)):
    """A cone of cloth that hangs in folds: from a narrow collar to a wide, ragged hem."""
    middle, tall = (low + high) / 2, (high - low) / 2

    def dist(p):
        y = p[1]
        fall = np.clip((high - y) / (high - low), 0, 1)
        x, z = p[0] - lean[0] * fall, (p[2] - lean[1] * fall) * squash
        angle = np.arctan2(x, z)
        pleat = np.cos(angle * folds + 1.3 * np.sin(angle * 2))
        r = mix(narrow, wide, fall ** 0.9) + deep * pleat * (0.15 + fall)
        hem = low + ragged * (np.cos(angle * 7 + 1) + 0.6 * np.cos(angle * 16))
        side = np.sqrt(x * x + z * z) - r
        return np.maximum(np.maximum(side, y - high), hem - y) * 0.6

    reach = max(wide, narrow) + deep * 1.2 + max(map(abs, lean))
    return Part(dist, (0, middle, 0), (reach ** 2 + (tall + 2 * ragged) ** 2) ** 0.5, "coat")


def levy_head():
    """A deep hood with a flap down the neck, a thin face in it."""
    hood = blend([ellipsoid((0, 1.77, 0.05), (0.265, 0.3, 0.29)), ellipsoid((0, 1.68, -0.2), (0.2, 0.26, 0.1), turn(x=14))], 0.1, "coat")
    opening = ellipsoid((0, 1.73, 0.36), (0.205, 0.27, 0.25))
    brow = ellipsoid((0, 1.75, 0.14), (0.17, 0.23, 0.19))
    face = blend([brow, ellipsoid((0, 1.62, 0.2), (0.11, 0.11, 0.12)), rod((0, 1.79, 0.31), (0, 1.71, 0.37), 0.028, 0.045),
                  rod((-0.13, 1.82, 0.25), (0.13, 1.82, 0.25), 0.04)], 0.05, "skin")

    def with_eyes(p):
        socket = ((np.abs(p[0]) - 0.075) / 0.042) ** 2 + ((p[1] - 1.765) / 0.022) ** 2
        mouth = (p[0] / 0.07) ** 2 + ((p[1] - 1.635) / 0.014) ** 2
        return (face.dist(p) + 0.035 * smooth(1.4, 0.5, socket) + 0.02 * smooth(1.4, 0.5, mouth)) * 0.75

    return [carved(hood, lambda p: -opening.dist(p)), Part(with_eyes, face.centre, face.radius, "skin")]


def levy_hand(at, along, across):
    """A fist around something that runs along a direction; the fingers lie across it."""
    at, along, across = (np.array(v, float) for v in (at, along, across))
    parts = [blend([ball(at, 0.1), ball(at + along * 0.05, 0.085)], 0.05, "skin")]
    for i in range(4):
        knuckle = at + along * (0.08 - i * 0.055) + across * 0.06
        parts.append(rod(knuckle - across * 0.03, knuckle + across * 0.055, 0.04, paint="skin"))
    return parts


def reed_shield(centre, around):
    """A mat of reeds of unequal length, bent round a hoop and tied on it with two straps."""
    rng = np.random.default_rng(53)
    parts, turned = [], turn(y=around)
    reeds = []
    for i in range(17):
        x = (i - 8) * 0.052
        z = 0.06 * rng.uniform(0.6, 1.2) * (i % 2) - 0.55 * x * x
        top, foot = 0.62 - 0.75 * x * x + rng.uniform(-0.09, 0.07), -0.55 + 0.5 * x * x + rng.uniform(-0.05, 0.05)
        reeds.append(((x * 0.94, foot, z), (x * 1.06, top, z - 0.03), 0.04, 0.033))
    parts += [sheaf(reeds[i:i + 6], "reeds") for i in range(0, len(reeds), 6)]
    for y, wide in ((0.28, 0.46), (-0.26, 0.43)):
        xs = np.linspace(-wide, wide, 9)
        for thick, ahead in ((0.034, 0.085), (0.03, -0.035)):
            band = [(float(x), y, -0.55 * float(x) ** 2 + ahead) for x in xs]
            parts.append(sheaf([(a, b, thick, thick) for a, b in zip(band, band[1:])], "strap"))
    return [placed(part, turned, centre) for part in parts]


def levy_spear(foot, tip):
    """A pole cut to a point, bound where it could split."""
    foot, tip = np.array(foot, float), np.array(tip, float)
    way = unit(tip - foot)
    parts = [rod(foot, tip - way * 0.34, 0.04, 0.036, "shaft"), rod(tip - way * 0.36, tip, 0.052, 0.006, "shaft")]
    for k in range(5):
        at = tip - way * (0.42 + 0.05 * k)
        parts.append(rod(at - way * 0.012, at + way * 0.012, 0.056, paint="strap"))
    return parts


def levy():
    """A slight figure in a hooded coat with a shield of reeds and a pointed pole."""
    parts = round_base(np.random.default_rng(47), 0.96, "grass", ())
    for s, ahead in ((-1, -0.1), (1, 0.18)):
        x = s * 0.18
        parts.append(blend([rod((x, 0.3, ahead), (x + s * 0.05, 0.28, ahead + 0.26), 0.105, 0.095),
                            rod((x, 0.32, ahead - 0.02), (x * 0.9, 0.96, ahead * 0.5), 0.105, 0.145)], 0.07, "boot"))
        parts += [ring((x * 0.97, 0.4 + 0.1 * k, ahead * (1 - 0.08 * k) - 0.01), 0.118 + 0.007 * k, 0.024, turn(x=6, z=9 - 18 * (k % 2)), "strap")
                  for k in range(4)]
    upper = levy_head()
    right = [(-0.31, 1.44, 0.0), (-0.52, 1.2, 0.06), (-0.54, 1.32, 0.34)]
    left = [(0.31, 1.44, 0.02), (0.5, 1.14, 0.0), (0.43, 1.08, 0.3)]
    for points in (right, left):
        upper.append(chain(points, (0.13, 0.12, 0.115), 0.05, "coat"))
        elbow, wrist = np.array(points[1]), np.array(points[2])
        way = unit(wrist - elbow)
        upper.append(rod(wrist - way * 0.01, wrist + way * 0.02, 0.125, 0.138, "coat"))
    upper += levy_hand((0.45, 1.08, 0.42), (0, 1, 0), (0.5, 0, -0.8)) + reed_shield((0.5, 1.0, 0.55), 26)
    upper += [
        ellipsoid((0, 1.24, 0.0), (0.31, 0.4, 0.26), paint="coat"),
        draped(0.52, 1.1, 0.29, 0.45, 11, 0.034, 0.03, 1.12, (0.0, 0.03)),
        draped(1.22, 1.62, 0.2, 0.44, 9, 0.032, 0.03, 1.15),
        drum((0, 1.05, 0.0), 0.335, 0.055, 0.03, (1, 0.86), "strap"),
        box((-0.1, 1.05, 0.3), (0.07, 0.07, 0.03), 0.025, paint="strap"),
        rod((-0.12, 1.0, 0.32), (-0.16, 0.78, 0.4), 0.036, 0.03, paint="strap"),
        box((-0.32, 0.92, 0.17), (0.1, 0.13, 0.11), 0.05, turn(y=-60), "strap"),
        box((-0.33, 0.99, 0.18), (0.11, 0.07, 0.12), 0.04, turn(y=-60), "strap"),
        rod((-0.27, 1.05, -0.32), (0.27, 1.13, -0.32), 0.11, paint="boot"),
    ]
    upper += [ring((x, 1.09 + x * 0.15, -0.32), 0.11, 0.022, turn(z=99), "strap") for x in (-0.18, 0.18)]
    parts += [placed(part, turn(), (0, 0.17, 0)) for part in upper]
    foot, tip = np.array((-0.66, 0.24, 0.46)), np.array((-0.46, 2.86, 0.4))
    parts += levy_hand(mix(foot, tip, 0.49), unit(tip - foot), (0.8, 0.1, 0.55)) + levy_spear(foot, tip)
    return SimpleNamespace(parts=parts, flame=None)


def hull_plan(x):
    """Half width in plan, keel lift and height of the rim along the boat."""
    u2 = (x / 1.72) ** 2
    s = np.maximum(1 - u2 * np.sqrt(u2), 0)
    return 0.6 * np.sqrt(s * np.sqrt(s)) + 0.03, 0.3 * u2 * u2, 0.5 + 0.2 * u2


def flare(y, bottom, top):
    return np.minimum(np.maximum((y - bottom) / (top - bottom), 0), 1.2)


def hull():
    def dist(p):
        x, y, z = p[0], p[1], np.abs(p[2])
        plan, lift, top = hull_plan(x)
        h = flare(y, 0.06 + lift, top)
        lap = 0.026 * np.mod(h * 3.0, 1.0) * (h < 1)
        outer = np.maximum(np.maximum(z - plan * (0.76 + 0.24 * h) + lap, 0.06 + lift - y), y - top)
        h = flare(y, 0.15 + lift, top)
        inner = np.maximum(z - plan * (0.76 + 0.24 * h) + 0.075, 0.15 + lift - y)
        return np.maximum(np.maximum(outer, -inner), np.abs(x) - 1.66) * 0.62

    return Part(dist, (0, 0.38, 0), 1.8, "hull")


def along_hull(x, side, y):
    plan, lift, top = hull_plan(x)
    return (x, y, side * float(plan * (0.76 + 0.24 * flare(y, 0.06 + lift, top))))


def iron_bands():
    """Iron straps over the hull sides, with rivets: where the rust starts."""
    parts = []
    for x in (-0.95, 0.0, 0.95):
        for side in (-1, 1):
            heights = (0.14, 0.34, 0.56 + 0.06 * abs(x))
            points = [along_hull(x, side, y) for y in heights]
            for a, b in zip(points, points[1:]):
                parts.append(rod(a, b, 0.045, paint="iron"))
            for y in (0.24, 0.42):
                px, py, pz = along_hull(x, side, y)
                parts.append(ball((px, py, pz + side * 0.035), 0.03, "rivet"))
    return parts


def rail():
    """Gunwale capping along both edges."""
    parts = []
    for side in (-1, 1):
        xs = np.linspace(-1.6, 1.6, 15)
        points = [along_hull(float(x), side, 0.5 + 0.2 * float(x / 1.72) ** 2) for x in xs]
        points = [(x, y, z - side * 0.03) for x, y, z in points]
        lengths = [(a, b, 0.05, 0.05) for a, b in zip(points, points[1:])]
        parts += [sheaf(lengths[i:i + 5], "rail") for i in range(0, len(lengths), 5)]
    return parts


def reed_stern():
    """Bundled reeds that sweep up at the stern and bind with rope."""
    rng = np.random.default_rng(19)
    low, bend, high = [], [], []
    for i in range(26):
        a = i * 2.399
        r = 0.16 * ((i + 0.5) / 26) ** 0.5
        dy, dz = r * np.cos(a), r * np.sin(a)
        points = ((-1.0, 0.42 + dy, dz), (-1.55, 0.66 + dy, dz), (-1.83 + dy * 0.7, 1.0 + dy * 0.5, dz),
                  (-1.88 + dy * 1.5, 1.5 + rng.uniform(-0.12, 0.12), dz * 1.5))
        low.append((points[0], points[1], 0.038, 0.038))
        bend.append((points[1], points[2], 0.038, 0.036))
        high.append((points[2], points[3], 0.036, 0.018))
    parts = [sheaf(group, "bundle") for group in (low, bend, high)]
    for x, y, lean in ((-1.34, 0.57, 66), (-1.66, 0.8, 42), (-1.85, 1.1, 4)):
        dx, dy = -0.05 * np.sin(np.radians(lean)), 0.05 * np.cos(np.radians(lean))
        parts += [ring((x + k * dx, y + k * dy, 0), 0.18, 0.03, turn(z=lean), "rope") for k in (-1, 0, 1)]
    return parts


def boat_fittings():
    parts = []
    for x in (-0.42, 0.62):
        parts.append(box((x, 0.43, 0), (0.13, 0.035, 0.49), 0.015, paint="plank"))
    for i, half in zip((-2, -1, 0, 1, 2), (0.7, 1.0, 1.12, 1.0, 0.7)):
        parts.append(box((0, 0.17, i * 0.14), (half, 0.02, 0.063), 0.012, paint="plank"))
    parts += [ring((0.12, 0.22 + 0.055 * k, 0.1), 0.16 - 0.012 * k, 0.035, paint="rope") for k in range(3)]
    parts += [drum((-0.78, 0.34, 0.02), 0.17, 0.16, 0.04, paint="basket"),
              ring((-0.78, 0.48, 0.02), 0.165, 0.03, paint="rope"), ring((-0.78, 0.34, 0.02), 0.165, 0.022, paint="rope"),
              rod((-0.9, 0.56, -0.3), (1.5, 0.72, -0.16), 0.032, paint="pole")]
    post = chain([(1.3, 0.25, 0), (1.32, 1.2, 0), (1.42, 1.5, 0), (1.6, 1.56, 0), (1.72, 1.46, 0)], (0.045, 0.04, 0.035, 0.03, 0.025), 0.05, "pole")
    lamp_parts, flame = lantern((1.72, 1.12, 0), 0.17)
    parts += [post, ring((1.31, 0.62, 0), 0.05, 0.03, paint="rope"), ring((1.31, 0.67, 0), 0.05, 0.03, paint="rope")]
    return parts + lamp_parts, flame


def boat():
    fittings, flame = boat_fittings()
    parts = [hull()] + iron_bands() + rail() + reed_stern() + fittings
    return lifted(SimpleNamespace(parts=parts, flame=flame), -0.055)


def lifted(model, rise):
    x, y, z = model.flame
    return SimpleNamespace(parts=[placed(q, turn(), (0, rise, 0)) for q in model.parts], flame=(x, y + rise, z))


def boat_afloat():
    """The finished boat on an oval base of still marsh water."""
    afloat = lifted(boat(), 0.155)
    rng = np.random.default_rng(23)

    def ripple(p):
        r = np.sqrt((p[0] / 1.5) ** 2 + p[2] ** 2)
        return 0.004 * np.sin(r * 26) + 0.004 * np.sin(p[0] * 9 + np.sin(p[2] * 7))

    water = drum((0, 0.02, 0), 0.965, 0.06, 0.03, (2.1, 1.05), "water")
    parts = [drum((0, -0.06, 0), 0.97, 0.08, 0.03, (2.12, 1.06), "rim", low=1.0),
             displaced(water, ripple, 0.01)]
    for x, z, height in ((-1.35, 0.62, 0.5), (1.5, -0.55, 0.75), (-0.6, -0.85, 0.85), (0.95, 0.8, 0.36), (1.2, -0.72, 0.6)):
        parts += tuft(rng, (x, 0.05, z), 11, height, 0.16, "grass")
    for x, z in ((0.2, 0.86), (0.42, 0.78), (-0.75, 0.8), (1.62, 0.15)):
        parts.append(drum((x, 0.09, z), 0.11, 0.012, 0.006, paint="leaf"))
    parts = [placed(q, turn(), (0, 0.14, 0)) for q in parts]
    return SimpleNamespace(parts=parts + afloat.parts, flame=afloat.flame)


def heron_wing(side):
    """A folded wing with rows of feathers."""
    core = ellipsoid((0, 0, 0), (0.88, 0.38, 0.17))

    def dist(p):
        x, y, z = p
        row = np.mod(x * 2.6 - np.abs(y + 0.1) * 1.4, 1.0)
        quill = np.mod(y * 7 + np.floor(x * 2.6) * 0.5, 1.0)
        tile = 0.036 * (1 - row) * (0.5 + 0.5 * np.sin(quill * np.pi))
        return (core.dist(p) - tile) * 0.7

    return placed(Part(dist, (0, 0, 0), 0.92, "wing"), turn(z=16, y=side * 5), (-0.22, 2.02, side * 0.33))


def heron_bird():
    neck = [(0.5, 2.14, 0), (0.86, 2.26, 0), (1.05, 2.5, 0), (0.95, 2.78, 0), (0.8, 3.02, 0), (0.86, 3.28, 0), (1.02, 3.38, 0)]
    parts = [
        blend([ellipsoid((-0.05, 2.02, 0), (0.82, 0.4, 0.38), turn(z=14)), chain(neck, (0.3, 0.22, 0.16, 0.13, 0.115, 0.115, 0.12), 0.1, "")],
              0.18, "heron"),
        heron_wing(1), heron_wing(-1),
        ellipsoid((1.06, 3.4, 0), (0.2, 0.135, 0.125), turn(z=-6), "head"),
        rod((1.19, 3.39, 0), (1.66, 3.3, 0), 0.074, 0.012, "beak"),
        rod((1.17, 3.345, 0), (1.6, 3.29, 0), 0.055, 0.01, "beak"),
        chain([(1.0, 3.5, 0), (0.78, 3.53, 0), (0.5, 3.38, 0), (0.36, 3.2, 0)], (0.05, 0.04, 0.03, 0.008), 0.03, "crest"),
        chain([(1.0, 3.47, 0.05), (0.8, 3.46, 0.07), (0.6, 3.3, 0.08)], (0.05, 0.035, 0.01), 0.03, "crest"),
    ]
    for s in (-1, 1):
        parts += [ball((1.11, 3.435, s * 0.095), 0.05, "eye_yellow"), ball((1.12, 3.437, s * 0.124), 0.03, "eye")]
    for i in range(5):
        z = (i - 2) * 0.09
        parts.append(rod((-0.7, 1.86, z * 0.6), (-1.32, 1.6 - abs(z) * 0.3, z), 0.09, 0.05, "wing"))
    return parts


def heron_legs():
    parts = []
    for s, knee, foot in ((1, (-0.16, 1.1, 0.2), (0.1, 0.26, 0.24)), (-1, (0.08, 1.12, -0.2), (0.42, 0.26, -0.24))):
        hip = (-0.02, 1.72, s * 0.17)
        parts += [rod(hip, tuple(mix(np.array(hip), np.array(knee), 0.5)), 0.16, 0.07, "heron"),
                  chain([hip, knee, foot], (0.055, 0.05, 0.042), 0.03, "leg"), ball(knee, 0.065, "leg")]
        for dx, dz in ((0.34, 0.02), (0.24, 0.2), (0.24, -0.18), (-0.2, 0.0)):
            parts.append(rod(foot, (foot[0] + dx, 0.25, foot[2] + dz), 0.04, 0.02, "leg"))
    return parts


def heron_rider():
    """A small reed-cloth rider with a lantern pole."""
    x = -0.12
    parts = [
        blend([ellipsoid((x, 2.42, 0), (0.4, 0.09, 0.3), turn(z=12)), ball((x - 0.34, 2.42, 0), 0.13), ball((x + 0.34, 2.55, 0), 0.1)], 0.1, "saddle"),
        ring((x + 0.05, 2.06, 0), 0.42, 0.035, turn(x=90, y=90), "saddle"),
        blend([ellipsoid((x, 2.82, 0), (0.24, 0.34, 0.24), turn(z=-6)), ellipsoid((x - 0.03, 2.6, 0), (0.3, 0.16, 0.31))], 0.12, "cloak"),
        ring((x, 2.68, 0), 0.26, 0.04, turn(z=-4), "saddle"),
        ellipsoid((x + 0.07, 3.24, 0), (0.16, 0.18, 0.16), paint="saddle"),
        ball((x + 0.225, 3.2, 0), 0.042, "saddle"),
        ring((x + 0.02, 3.06, 0), 0.17, 0.075, turn(z=-12), "cloak", 0.8),
    ]
    drape = blend([ellipsoid((x - 0.2, 2.72, 0), (0.26, 0.46, 0.36), turn(z=-14)), ellipsoid((x - 0.5, 2.4, 0), (0.42, 0.12, 0.42), turn(z=18))], 0.2, "cloak")
    parts.append(displaced(drape, lambda p: 0.034 * np.sin(p[2] * 22 + 2 * np.sin(p[1] * 4)), 0.036))
    hood = blend([ellipsoid((x, 3.27, 0), (0.21, 0.22, 0.21)), rod((x - 0.1, 3.38, 0), (x - 0.36, 3.3, 0), 0.12, 0.03)], 0.1, "cloak")
    parts.append(carved(hood, lambda p: (p[0] - (x + 0.1)) * 0.93 - (p[1] - 3.27) * 0.36))
    for s in (-1, 1):
        hand = (x + 0.42, 2.72, s * 0.16)
        parts += [
            ball((x + 0.2, 3.27, s * 0.065), 0.024, "saddle"),
            chain([(x, 2.62, s * 0.2), (x + 0.22, 2.46, s * 0.44), (x + 0.08, 2.12, s * 0.52)], (0.14, 0.13, 0.1), 0.05, "cloak"),
            rod((x + 0.07, 2.08, s * 0.53), (x + 0.24, 2.02, s * 0.54), 0.095, 0.08, "saddle"),
            chain([(x + 0.02, 2.98, s * 0.2), (x + 0.14, 2.72, s * 0.34), hand], (0.11, 0.1, 0.075), 0.04, "cloak"),
            ball((hand[0] + 0.03, hand[1], hand[2]), 0.085, "saddle"),
            chain([hand, (0.62, 2.75, s * 0.15), (0.9, 3.1, s * 0.13), (1.08, 3.36, s * 0.12)], (0.018,) * 4, 0.02, "saddle"),
        ]
    for k in range(2):
        parts.append(rod((x - 0.42, 2.6 + 0.15 * k, -0.26), (x - 0.42, 2.6 + 0.15 * k, 0.26), 0.085, paint="saddle"))
    return parts


def heron(spots=None):
    rng = np.random.default_rng(11)
    spots = spots if spots is not None else [(-0.62, 0.4, 0.42), (0.72, 0.42, 0.36), (-0.5, -0.5, 0.62), (0.66, -0.62, 0.5), (-0.85, -0.1, 0.46), (0.2, 0.78, 0.3),
             (-0.2, 0.62, 0.26), (0.95, -0.1, 0.34), (-0.25, -0.85, 0.5), (0.42, 0.05, 0.22)]
    parts = round_base(rng, 1.15, "grass", spots)
    return SimpleNamespace(parts=parts + heron_bird() + heron_legs() + heron_rider(), flame=None)


def heron_before_reeds():
    return heron(())


def stone_courses(rng):
    """Rough blocks in staggered courses for the landward half of the pier."""
    parts = []
    for course in range(3):
        y = 0.3 + course * 0.24
        edges = [-1.7, -1.2, -0.68, -0.2] if course % 2 == 0 else [-1.7, -1.42, -0.92, -0.46, -0.2]
        for a, b in zip(edges, edges[1:]):
            for z, depth in ((0.42, 0.24), (-0.42, 0.24), (0.0, 0.2)):
                jitter = rng.uniform(-0.018, 0.018, 3)
                half = ((b - a) / 2 - 0.012, 0.112, depth - 0.012)
                block = box(((a + b) / 2 + jitter[0], y, z + jitter[2]), half, 0.035, turn(y=rng.uniform(-2, 2), z=rng.uniform(-1.5, 1.5)), "stone")
                parts.append(displaced(block, lambda p: 0.007 * np.sin(p[0] * 31 + 3 * np.sin(p[1] * 23)) * np.sin(p[2] * 27 + p[1] * 19), 0.01))
    return parts


def pier_steps(rng):
    parts = []
    for i in range(3):
        parts.append(box((-0.72, 0.23 + 0.2 * i, 0.98 - 0.14 * i), (0.3, 0.1, 0.12 + 0.02 * i), 0.03, turn(y=rng.uniform(-2, 2)), "stone"))
    return parts


def mooring(x, z, top):
    return [drum((x, top / 2 + 0.05, z), 0.115, top / 2, 0.035, paint="post"),
            drum((x, top + 0.06, z), 0.13, 0.03, 0.02, paint="iron")]


def pier_deck(rng):
    parts = []
    for i in range(17):
        x = -1.66 + i * 0.207
        half = 0.72 + rng.uniform(-0.05, 0.05)
        parts.append(box((x, 0.985 + rng.uniform(-0.008, 0.008), rng.uniform(-0.03, 0.03)), (0.094, 0.04, half), 0.012,
                         turn(y=rng.uniform(-1.3, 1.3)), "plank"))
        parts += [ball((x, 1.028, z), 0.018, "iron") for z in (-0.5, 0.5)]
    parts += [box((0.0, 0.9, z), (1.74, 0.05, 0.07), 0.015, paint="beam") for z in (-0.5, 0.5)]
    for x in (0.35, 1.45):
        parts += [box((x, 0.83, 0), (0.07, 0.06, 0.66), 0.02, paint="beam"),
                  rod((x, 0.3, -0.5), (x, 0.8, 0.45), 0.05, paint="beam")]
    return parts


def pier_lamp(centre):
    """A lantern with seams that the rain finds: hoops between foot and hood, and a rim under the hood."""
    parts, flame = lantern(centre, 0.245, panes=6)
    x, y, z = centre
    parts += [ring((x, y + k * 0.245, z), 0.147, 0.019, paint="iron") for k in (-0.42, 0.18)]
    return parts + [drum((x, y + 0.2, z), 0.225, 0.012, 0.008, paint="iron")], flame


def pier(bare=False):
    rng = np.random.default_rng(31)
    parts = [box((0, 0.07, 0), (2.08, 0.07, 1.2), 0.02, paint="plinth"),
             displaced(box((0.0, 0.15, 0), (2.0, 0.05, 1.12), 0.03, paint="water"),
                       lambda p: 0.006 * np.sin(p[0] * 11 + 2 * np.sin(p[2] * 6)) * np.sin(p[2] * 13), 0.01)]
    parts += stone_courses(rng) + pier_steps(rng) + pier_deck(rng)
    for x, z, top in ((0.35, 0.62, 1.32), (1.45, 0.62, 1.42), (0.35, -0.62, 1.3)):
        parts += mooring(x, z, top)
    parts += [drum((1.45, 1.3, -0.62), 0.1, 1.25, 0.03, paint="post"),
              chain([(1.45, 2.35, -0.62), (1.3, 2.46, -0.5), (1.1, 2.46, -0.34)], (0.055, 0.05, 0.04), 0.04, "beam"),
              rod((1.45, 2.0, -0.62), (1.26, 2.4, -0.47), 0.04, paint="beam"),
              rod((1.12, 2.46, -0.36), (1.12, 2.3, -0.36), 0.022, paint="iron")]
    lamp_parts, flame = pier_lamp((1.12, 1.88, -0.36))
    parts += [drum((-1.5, 1.62, -0.55), 0.1, 0.72, 0.03, paint="post"),
              chain([(-1.5, 2.12, -0.55), (-1.38, 2.22, -0.46), (-1.16, 2.22, -0.36)], (0.055, 0.05, 0.04), 0.04, "beam"),
              rod((-1.16, 2.22, -0.36), (-1.16, 1.95, -0.36), 0.022, paint="iron")]
    lamp_parts += pier_lamp((-1.16, 1.53, -0.36))[0]
    for x, z, height in () if bare else ((-1.7, 0.85, 0.4), (-1.35, 0.95, 0.55), (0.95, -0.9, 0.7), (-0.1, 0.9, 0.3), (1.75, 0.9, 0.5), (-1.85, -0.7, 0.6)):
        parts += tuft(rng, (x, 0.17, z), 11, height, 0.17, "grass")
    return SimpleNamespace(parts=parts + lamp_parts, flame=flame)


def pier_before_reeds():
    return pier(bare=True)


MODELS = {f.__name__: f for f in (warden, levy, boat, boat_afloat, heron, heron_before_reeds, pier, pier_before_reeds)}


# --------------------------------------------------------------------- paints

def colour(code):
    """'#rrggbb' as a linear-light column."""
    v = np.array([int(code[i:i + 2], 16) for i in (1, 3, 5)], np.float32) / 255
    return column(np.where(v < 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4))


class Look:
    """What the light meets at a set of points."""

    def __init__(self, tint, gloss, metal):
        n = tint.shape[1]
        self.tint = tint
        self.gloss = np.full(n, gloss, np.float32)
        self.metal = np.full(n, metal, np.float32)
        self.glow = np.zeros_like(tint)

    def cover(self, amount, tint, gloss=None, metal=None):
        """Lay another paint over this one where amount is 1."""
        self.tint = mix(self.tint, tint, amount)
        if gloss is not None:
            self.gloss = mix(self.gloss, gloss, amount)
        if metal is not None:
            self.metal = mix(self.metal, metal, amount)


def paint(base, dark=None, light=None, gloss=0.12, metal=0.0, mottle=0.1, scale=8.0, edge=0.8, over=()):
    """A painted surface: base coat, wash in the recesses, highlight on edges and tops.

    ``over`` lists functions (look, point) that add weathering on top.
    """
    base_c = colour(base)
    dark_c = colour(dark) if dark else base_c * 0.75
    light_c = colour(light) if light else base_c

    def surface(point):
        p = point.position
        t = mix(base_c, dark_c, np.clip(point.recess * 1.1, 0, 1))
        t = mix(t, light_c, np.clip(point.edge * edge, 0, 0.9))
        t = mix(t, light_c, 0.3 * smooth(0.1, 0.95, point.normal[1]))
        t = t * (1 + mottle * 2 * (clouds(p, scale) - 0.5))
        look = Look(t.astype(np.float32), gloss, metal)
        for layer in over:
            layer(look, point)
        return look

    return surface


def glowing(code, strength):
    def surface(point):
        look = Look(np.repeat(colour(code) * 0.3, point.position.shape[1], 1), 0.7, 0.0)
        facing = np.clip(dot(point.normal, point.towards), 0, 1)
        look.glow = colour(code) * strength * (0.35 + 0.65 * facing ** 1.5)
        return look

    return surface


def wood_grain(dark):
    c = colour(dark)

    def layer(look, point):
        p = point.position * column((3.2, 22.0, 22.0))
        look.cover(0.6 * smooth(0.5, 0.72, clouds(p, 1.0, 5.0)), c)

    return layer


def deck_grain(dark):
    c = colour(dark)

    def layer(look, point):
        p = point.position * column((24.0, 10.0, 2.2))
        look.cover(0.6 * smooth(0.48, 0.72, clouds(p, 1.0, 5.0)), c)

    return layer


def chips(code, amount, gloss=0.1):
    """Worn-through paint: densest on edges, with a few loose specks."""
    c = colour(code)

    def layer(look, point):
        p = point.position
        grain = clouds(p, 17.0, 2.0)
        worn = 0.34 * smooth(0.15, 0.8, point.edge) + 0.1 * smooth(0.6, 0.85, noise(p, 4.0, 9.0))
        look.cover(smooth(0.80 - amount, 0.84 - amount, grain + worn), c, gloss)

    return layer


def rust_streaks(amount):
    """Rust that starts at the iron straps and runs down the planks."""
    warm, deep = colour("#8f4a20"), colour("#522813")

    def layer(look, point):
        p = point.position
        near = np.zeros_like(p[0])
        for x in (-0.95, 0.0, 0.95):
            near = np.maximum(near, np.exp(-(np.abs(p[0] - x) / 0.16) ** 2))
        run = noise(p * column((17.0, 1.1, 17.0)), 1.0, 4.0) * 0.7 + noise(p * column((41.0, 2.6, 41.0)), 1.0, 1.0) * 0.3
        stray = 0.45 * smooth(0.68, 0.85, noise(p * column((9.0, 0.5, 3.0)), 1.0, 12.0))
        stain = smooth(0.33, 0.72, run * (0.45 + near * 0.75) + stray * 0.5) * np.clip(near + stray, 0, 1)
        look.cover(amount * 0.85 * stain, warm, 0.06)
        look.cover(amount * 0.75 * smooth(0.55, 0.95, stain * run * 1.7), deep, 0.06)

    return layer


def mud(line, soft):
    wet, dry = colour("#4a3a27"), colour("#8a7654")

    def layer(look, point):
        p = point.position
        level = p[1] - line + 0.2 * (clouds(p, 5.0, 6.0) - 0.5)
        amount = smooth(soft, -soft * 0.3, level) * (0.55 + 0.45 * smooth(0.35, 0.6, clouds(p, 14.0)))
        look.cover(amount, mix(wet, dry, smooth(-0.08, 0.05, level)), 0.18)

    return layer


def sun_bleach(code, amount):
    c = colour(code)

    def layer(look, point):
        look.cover(amount * smooth(0.42, 0.75, clouds(point.position, 3.0, 3.0)), c)

    return layer


def moss(amount):
    c = colour("#4f5a28")

    def layer(look, point):
        p = point.position
        damp = smooth(0.75, 0.15, p[1]) * 0.35 + np.clip(point.recess, 0, 1) * 0.25
        look.cover(amount * smooth(0.55, 0.72, clouds(p, 7.0, 8.0) + damp), c * (0.7 + 0.6 * noise(p, 40.0)), 0.05)

    return layer


def heron_marks(look, point):
    """Pale neck front with dark flecks."""
    x, y, z = point.position
    pale = smooth(2.2, 2.6, y + (x - 0.8) * 0.5) * smooth(0.35, 0.75, point.normal[0] + 0.25)
    look.cover(pale, colour("#dfe0d8"))
    fleck = smooth(0.6, 0.7, noise(point.position * column((6.0, 9.0, 22.0)), 1.0)) * pale * smooth(0.09, 0.03, np.abs(z))
    look.cover(fleck * 0.85, colour("#2b323c"))


def wing_bands(look, point):
    """Darker flight feathers towards the lower edge and tail."""
    x, y, _ = point.position
    low = smooth(0.16, -0.22, (y - 2.02) - (x + 0.22) * 0.28) + smooth(-0.75, -1.15, x)
    look.cover(np.clip(low, 0, 1) * 0.8, colour("#39434f"))


def dark_brow(look, point):
    _, y, z = point.position
    look.cover(smooth(0.03, 0.055, np.abs(z)) * smooth(3.42, 3.45, y), colour("#20252c"))


@lru_cache
def mask_of(draw_on):
    image = Image.new("L", (512, 512), 0)
    draw_on(ImageDraw.Draw(image))
    return np.asarray(image.filter(ImageFilter.GaussianBlur(1.6)), np.float32) / 255


def wing_mark(d):
    """A dragonfly's pair of wings, spread to one side."""
    for lean, reach, wide in ((-0.42, 230, 46), (0.05, 205, 54)):
        ax, ay = np.cos(lean), np.sin(lean)
        outline = []
        for t in list(np.linspace(0, 1, 24)) + list(np.linspace(1, 0, 24)):
            side = 1 if len(outline) < 24 else -1
            w = wide * np.sin(np.pi * t ** 0.7) * side
            outline.append((90 + ax * reach * t * 1.6 - ay * w, 270 + ay * reach * t * 1.6 + ax * w))
        d.polygon(outline, fill=255)
        d.line([(90 + ax * 60, 270 + ay * 60), (90 + ax * reach * 1.3, 270 + ay * reach * 1.3)], fill=0, width=6)
    d.ellipse((66, 240, 120, 300), fill=255)


def decals(look, point):
    """A pale wing on each shoulder plate, seen from the front."""
    x, y, z = point.position
    front = smooth(0.1, 0.2, z)
    for side, cx, cy, size in ((1, 0.7, 1.79, 0.27), (-1, -0.7, 1.79, 0.27)):
        u = side * (x - cx) / size + 0.5
        v = (cy - y) / size + 0.5
        inside = (u > 0) & (u < 1) & (v > 0) & (v < 1)
        mask = mask_of(wing_mark)
        value = mask[(np.clip(v, 0, 0.999) * 512).astype(int), (np.clip(u, 0, 0.999) * 512).astype(int)]
        look.cover((value * inside * front * 0.95).astype(np.float32), colour("#f0e6c4"), 0.8, 0.0)


GREY_COAT = paint("#8d8f8e", "#66686a", "#a5a7a6", mottle=0.04, edge=0.5)
BLACK_COAT = paint("#252527", "#18181a", "#38383b", gloss=0.12, mottle=0.03, edge=0.4)


def lit_from_above(look, point):
    """A pale mist on what looks up, as the airbrush leaves it."""
    look.cover(0.85 * smooth(0.0, 0.8, point.normal[1]), colour("#b9b9b6"), 0.1)


LIT_BLACK = paint("#252527", "#18181a", "#38383b", gloss=0.12, mottle=0.03, edge=0.4, over=(lit_from_above,))
REEDS = paint("#5c6a30", "#2d3616", "#929a50")
BLACK_RIM = paint("#1d1d1f", "#151516", "#2a2a2c", gloss=0.25, mottle=0.02, edge=0.2)
LIT_GLASS = glowing("#ffb347", 5.0)
GOLD = paint("#f7c376", "#85541c", "#ffe3ac", gloss=0.62, metal=0.92, mottle=0.05, edge=0.5)
AMBER_SATIN = paint("#c97f1e", "#5a2c08", "#f0b850", gloss=0.66, metal=0.72, mottle=0.10, scale=5, edge=0.4)
AMBER_GLOSS = dict(base="#b5650f", dark="#4a2205", light="#dd9530", gloss=0.97, metal=0.3, mottle=0.10, scale=5, edge=0.35)

NIGHT_CLOTH = paint("#1c3230", "#0c1819", "#4d6a62", edge=0.8)
FINISHED_WARDEN = {
    "shell": paint(**AMBER_GLOSS, over=(decals,)),
    **dict.fromkeys(("hood", "tunic", "reed", "reed_light"), NIGHT_CLOTH),
    "leather": paint("#5e4029", "#2a190d", "#8f6a48", gloss=0.25),
    "boots": paint("#56402f", "#271a10", "#856a52", gloss=0.25),
    "eye": paint("#0c0a09", gloss=0.3, mottle=0.0),
    "iron": BLACK_COAT,
    "glass": LIT_GLASS,
    "rim": BLACK_RIM,
    "earth": BLACK_COAT,
    "stone": BLACK_COAT,
}


CLOTH = ("hood", "tunic", "reed", "reed_light")


def on_black(shell):
    """The warden with its shell painted: the rest still black, the cloth lit from above."""
    return {**dict.fromkeys(FINISHED_WARDEN, BLACK_COAT), **dict.fromkeys(CLOTH, LIT_BLACK), "shell": shell, "rim": BLACK_RIM}


BOAT_TEAL = dict(base="#285a5c", dark="#122c2e", light="#568886", mottle=0.08, scale=4)
CHIP_BROWN = "#4a2c19"
BOAT_CHIPPED = {
    "hull": paint(**BOAT_TEAL, over=(chips(CHIP_BROWN, 0.0),)),
    "rail": paint("#285a5c", "#122c2e", "#628f8d", over=(chips(CHIP_BROWN, 0.09),)),
    "iron": paint("#4a4642", "#231f1c", "#8d8780", gloss=0.35, metal=0.35),
    "rivet": paint("#55504b", "#231f1c", "#9a948c", gloss=0.35, metal=0.4),
    "plank": paint("#8a7250", "#3f3120", "#bda57b", over=(wood_grain("#58452c"),)),
    "bundle": paint("#b59a58", "#5a4620", "#dfcb8c"),
    "rope": paint("#9b8156", "#4c3b22", "#ccb585"),
    "basket": paint("#8d6a3a", "#402b13", "#bd9a62", over=(wood_grain("#5b4020"),)),
    "pole": paint("#6b4d31", "#332213", "#9b7a53"),
    "glass": paint("#c9c6b4", gloss=0.8, mottle=0.02),
}
RUSTED = dict(
    hull=paint(**BOAT_TEAL, over=(sun_bleach("#6f9796", 0.25), chips(CHIP_BROWN, 0.0), rust_streaks(1.0))),
    rail=paint("#285a5c", "#122c2e", "#628f8d", over=(chips(CHIP_BROWN, 0.09), rust_streaks(0.5))),
    iron=paint("#5e3a24", "#2c170d", "#a0643a", gloss=0.12, mottle=0.4, scale=20),
    rivet=paint("#6a3d22", "#33190c", "#94603a", gloss=0.12, mottle=0.4, scale=24),
)
BOAT_FINISHED = {
    **BOAT_CHIPPED, **RUSTED,
    "hull": paint(**BOAT_TEAL, over=(sun_bleach("#6f9796", 0.25), chips(CHIP_BROWN, 0.0), rust_streaks(0.9), mud(0.43, 0.1))),
    "iron": paint("#5e3a24", "#2c170d", "#a0643a", gloss=0.12, mottle=0.4, scale=20, over=(mud(0.43, 0.1),)),
    "rim": BLACK_RIM,
    "water": paint("#27301f", "#1c2417", "#2f3a26", gloss=0.96, mottle=0.3, scale=2.5, edge=0.1),
    "grass": REEDS,
    "leaf": paint("#5f7d3a", "#2f4320", "#92a95c", gloss=0.3),
}

FEN_MUD = paint("#4a3c2d", "#2a2016", "#75644d", mottle=0.3, scale=13)
HERON_FINISHED = {
    "heron": paint("#7b8690", "#3b444d", "#b4bdc4", over=(heron_marks,)),
    "wing": paint("#6a7580", "#262e36", "#a9b5be", edge=1.2, over=(wing_bands,)),
    "head": paint("#b9bfc3", "#7d858c", "#e6e8e4", over=(dark_brow,)),
    "crest": paint("#43494e", "#22272c", "#7b8690"),
    "beak": paint("#cfae4a", "#7c5318", "#e8d28c", gloss=0.12),
    "eye_yellow": paint("#cfae4a", gloss=0.12, mottle=0.0),
    "eye": paint("#0c0a09", gloss=0.95, mottle=0.0),
    "leg": paint("#7b8690", "#3b444d", "#a9b5be"),
    "saddle": paint("#5e3d28", "#2b170b", "#96704f", gloss=0.3),
    "cloak": paint("#863f37", "#3d1210", "#b87060", mottle=0.15, scale=30),
    "rim": BLACK_RIM, "earth": FEN_MUD, "stone": FEN_MUD, "grass": REEDS,
}


def flat(code, gloss=0.1):
    return paint(code, mottle=0.03, edge=0.0, gloss=gloss)


HERON_BASECOAT = {
    **dict.fromkeys(HERON_FINISHED, GREY_COAT),
    **dict.fromkeys(("heron", "wing", "head", "crest", "beak", "leg", "eye_yellow", "eye"), flat("#6d7f92")),
}

WEATHERED_STONE = paint("#7f7c74", "#35342f", "#b7b3a6", mottle=0.3, scale=5, over=(moss(0.7),))
WEEPING_BRASS = paint("#a2823f", "#4c8573", "#e2c987", gloss=0.5, metal=0.7)
PIER_FINISHED = {
    "plinth": BLACK_RIM,
    "water": paint("#4a3c2d", "#2c2319", "#6d5c47", mottle=0.3, scale=9),
    "stone": WEATHERED_STONE,
    "plank": paint("#7b6450", "#352a1e", "#bfae92", mottle=0.25, scale=4, over=(deck_grain("#54442f"),)),
    "beam": paint("#6c523a", "#2c2013", "#9c8260", over=(wood_grain("#453320"),)),
    "post": paint("#6c523a", "#291d12", "#97805f", mottle=0.2),
    "iron": WEEPING_BRASS,
    "glass": WEEPING_BRASS,
    "grass": REEDS,
}
PINK_FOAM = paint("#dca9a4", "#bb8481", "#e9c3bd", gloss=0.05, mottle=0.09, scale=30, edge=0.4)
GREY_FOAM = paint("#a9aaa8", "#848584", "#bcbdba", gloss=0.05, mottle=0.08, scale=30, edge=0.4)
RESIN = paint("#8f949a", "#6a6f75", "#a9aeb3", gloss=0.3, mottle=0.02, edge=0.3)
PIER_FOAM = {
    **dict.fromkeys(("stone", "plank", "beam", "post", "water"), PINK_FOAM),
    **dict.fromkeys(("iron", "glass"), RESIN),
    "plinth": GREY_FOAM,
}

COLOURS = {
    "warden_finished": FINISHED_WARDEN,
    "warden_gold": on_black(GOLD),
    "warden_amber": on_black(AMBER_SATIN),
    "warden_decals": FINISHED_WARDEN,
    "boat_finished": BOAT_FINISHED,
    "boat_chipped": BOAT_CHIPPED,
    "boat_rust": {**BOAT_CHIPPED, **RUSTED},
    "heron_finished": HERON_FINISHED,
    "heron_basecoat": HERON_BASECOAT,
    "pier_finished": PIER_FINISHED,
    "pier_foam": PIER_FOAM,
}


# --------------------------------------------------------------- photo studio

KEY = unit(column((-0.58, 0.86, 0.62)))
FILL = unit(column((0.86, 0.32, 0.42)))
STRIP = unit(column((0.9, 0.28, 0.1)))
LAMP_TINT = colour("#ff9a3a")
WALL_DISTANCE, CURVE = 5.5, 2.6


class Studio:
    """The model on the table, seen by one camera; parts without a paint are not there yet."""

    def __init__(self, model, colours, view, size):
        around, above, distance, target, span = view
        self.parts, self.colours = [q for q in model.parts if q.paint in colours], colours
        self.group = Group(self.parts)
        self.lamp = None
        if model.flame is not None and colours.get("glass") is LIT_GLASS:
            self.lamp = column(model.flame)
        self.table = turn(y=-around)           # model frame to table frame
        eye = column((0, np.sin(np.radians(above)), np.cos(np.radians(above)))) * distance
        self.forward = unit(-eye)
        self.right = column((1, 0, 0))
        self.up = column(np.cross(self.right.ravel(), self.forward.ravel()))
        self.eye = self.table @ column(target) + eye
        self.size, self.half = size, span / 2 / distance
        self.key, self.fill = self.table.T @ KEY, self.table.T @ FILL

    def rays(self, px, py):
        """Table-frame directions through pixel positions."""
        width, height = self.size
        u = (px - width / 2) / (height / 2) * self.half
        v = (height / 2 - py) / (height / 2) * self.half
        return unit(self.forward + self.right * u.astype(np.float32) + self.up * v.astype(np.float32))

    def backdrop(self, d):
        """Distance and normal of floor, curve and wall along table-frame rays."""
        o = self.eye
        floor = np.where(d[1] < -1e-4, -o[1] / np.minimum(d[1], -1e-4), 1e6)
        wall = (-WALL_DISTANCE - o[2]) / np.minimum(d[2], -1e-4)
        cy, cz = CURVE, -WALL_DISTANCE + CURVE
        a = d[1] ** 2 + d[2] ** 2
        b = d[1] * (o[1] - cy) + d[2] * (o[2] - cz)
        c = (o[1] - cy) ** 2 + (o[2] - cz) ** 2 - CURVE ** 2
        arc = (-b + np.sqrt(np.maximum(b * b - a * c, 0))) / a
        on_floor = o[2] + floor * d[2] > cz
        on_wall = o[1] + wall * d[1] > cy
        t = np.where(on_floor, floor, np.where(on_wall, wall, arc))
        y, z = o[1] + t * d[1], o[2] + t * d[2]
        n = np.stack([np.zeros_like(t), np.where(on_floor, 1, np.where(on_wall, 0, (cy - y) / CURVE)),
                      np.where(on_floor, 0, np.where(on_wall, 1, (cz - z) / CURVE))])
        return t.astype(np.float32), n.astype(np.float32)


class Group:
    """Some parts, measured from the nearest bounding sphere outwards."""

    def __init__(self, parts):
        self.parts = parts
        self.centres = np.array([q.centre for q in parts]).reshape(-1, 3)
        self.radii = np.array([q.radius for q in parts])

    def near_first(self, p):
        """Parts with the least distance that any of the points can have to them."""
        low, high = p.min(axis=1), p.max(axis=1)
        centre = (low + high) / 2
        size = 0.5 * float(np.sqrt(((high - low) ** 2).sum()))
        away = np.sqrt(((self.centres - centre) ** 2).sum(axis=1)) - self.radii - size
        return [(float(away[i]), self.parts[i]) for i in np.argsort(away)]

    def distance(self, p, limit=1e3):
        """Distance to the union, counted only up to ``limit``."""
        d, most = np.full(p.shape[1], limit, np.float32), limit
        for away, part in self.near_first(p):
            if away > most:
                break
            d = np.minimum(d, part.dist(p))
            most = float(d.max())
        return d

    def nearest(self, p):
        """The paint name of the nearest part of each point on the surface."""
        d, best = np.full(p.shape[1], 0.05, np.float32), np.zeros(p.shape[1], int)
        names = [""]
        for away, part in self.near_first(p):
            if away > 0.05:
                break
            e = part.dist(p)
            closer = e < d
            if closer.any():
                best[closer] = len(names)
                d = np.where(closer, e, d)
                names.append(part.paint)
        return np.array(names)[best]


def in_cone(parts, origin, directions):
    """Parts that a bundle of rays can meet, and the range of distances."""
    axis = unit(directions.mean(axis=1))
    spread = np.arccos(np.clip((axis[:, None] * directions).sum(axis=0).min(), -1, 1)) + 1e-3
    kept, near, far = [], 1e6, 0.0
    for q in parts:
        v = q.centre - origin.ravel()
        along = float(v @ axis)
        off = max(float(v @ v) - along * along, 0) ** 0.5
        if off < q.radius / np.cos(spread) + along * np.tan(spread):
            kept.append(q)
            near, far = min(near, along - q.radius), max(far, along + q.radius + 0.2)
    return Group(kept), near, far


def march(group, origin, directions, near, far):
    """Distance along each ray to the model; infinite where it misses."""
    n = directions.shape[1]
    t = np.full(n, max(near, 0), np.float32)
    found = np.full(n, np.inf, np.float32)
    live = np.arange(n)
    for _ in range(80):
        d = group.distance(origin + directions[:, live] * t[live])
        hit = d < 0.0012
        found[live[hit]] = t[live[hit]]
        t[live] += d * 0.92
        before = live
        live = live[~hit & (t[live] < far)]
        if live.size == 0:
            return found
    grazing = live[d[~hit & (t[before] < far)] < 0.006]
    found[grazing] = t[grazing]
    return found


def gradient(group, p):
    """Slope of the distance: its direction is the normal."""
    h = 0.0016
    n = np.zeros_like(p)
    for k in ((1, -1, -1), (-1, -1, 1), (-1, 1, -1), (1, 1, 1)):
        n += column(k) * group.distance(p + column(k) * h)
    return n / (4 * h)


def occlusion(group, p, n):
    dark = np.zeros(p.shape[1], np.float32)
    weight = 1.0
    for h in (0.03, 0.09, 0.2, 0.38, 0.62):
        dark += weight * (h - group.distance(p + n * h, h)) / h
        weight *= 0.72
    return np.clip(1 - 0.36 * dark, 0.06, 1)


def shadow(group, p, n, light):
    """Soft shadow of the key light: 0 dark, 1 lit."""
    lit = np.ones(p.shape[1], np.float32)
    facing = dot(n, light) > -0.08
    lit[~facing] = 0
    start = p + n * 0.012
    t = np.full(p.shape[1], 0.02, np.float32)
    live = np.flatnonzero(facing)
    for _ in range(26):
        if live.size == 0:
            break
        d = group.distance(start[:, live] + light * t[live], 0.65)
        lit[live] = np.minimum(lit[live], 0.5 + 0.5 * 6.5 * d / t[live])
        t[live] += np.clip(d * 0.9, 0.03, 0.5)
        live = live[(lit[live] > 0.0) & (t[live] < 4.2)]
    return smooth(0, 1, np.clip(lit, 0, 1))


def window(d, centre, wide, tall, soft):
    """A soft-edged rectangular light as seen in a reflection."""
    side = unit(np.cross([0, 1, 0], centre.ravel()))
    top = np.cross(centre.ravel(), side)
    front = np.maximum((centre.ravel() @ d), 1e-3)
    a, b = np.abs(side.astype(np.float32) @ d) / front, np.abs(top.astype(np.float32) @ d) / front
    return (smooth(wide + soft, wide - soft, a) * smooth(tall + soft, tall - soft, b) * smooth(0.0, 0.2, front)).astype(np.float32)


def reflection(d, gloss):
    """What a surface of that gloss mirrors of the room (table frame)."""
    soft = 0.03 + 0.75 * (1 - gloss) ** 1.3
    dim = 1 / (1 + 3.0 * soft)
    room = mix(0.34, 0.5, smooth(-0.4, 0.15, d[1]))
    room = mix(room, 0.2, smooth(0.25, 0.95, d[1]))
    room = room * mix(0.6, 1.0, smooth(-0.7, 0.6, d[2]))
    return room + dim * (6.0 * window(d, KEY, 0.34, 0.42, soft) + 2.2 * window(d, STRIP, 0.13, 0.75, soft))


def lamp_light(studio, p, n):
    if studio.lamp is None:
        return np.zeros_like(p)
    v = studio.lamp - p
    r = length(*v)
    facing = np.clip((dot(v, n) / r + 0.25) / 1.25, 0, 1)
    return LAMP_TINT * (0.62 * facing / (r * r + 0.08))


def light_up(studio, look, p, n, towards):
    """Colour of lit points (model frame) in linear light."""
    ambient = occlusion(studio.group, p, n)
    lit = shadow(studio.group, p, n, studio.key)
    key = np.clip((dot(n, studio.key) + 0.08) / 1.08, 0, 1) * lit
    fill = np.clip(dot(n, studio.fill) * 0.6 + 0.4, 0, 1) * ambient
    sky = mix(0.5, 1.0, n[1] * 0.5 + 0.5) * ambient
    light = (column((1.0, 0.965, 0.9)) * 1.8 * key + column((0.86, 0.93, 1.0)) * 0.34 * fill
             + column((1.0, 0.98, 0.95)) * 0.46 * sky)
    light += lamp_light(studio, p, n) * (0.35 + 0.65 * ambient)
    mirror = 2 * dot(n, towards) * n - towards
    seen = reflection(studio.table @ mirror, look.gloss) * mix(0.35, 1.0, lit) * (0.25 + 0.75 * ambient)
    fresnel = 0.04 + 0.96 * np.clip(1 - dot(n, towards), 0, 1) ** 5 * look.gloss
    matt = look.tint * light * (1 - 0.85 * look.metal)
    return matt + look.tint * seen * look.metal * 0.95 + seen * fresnel * (0.25 + 0.75 * look.gloss) + look.glow


def looks(studio, p, n, towards, steep):
    """Paint of each point: the nearest part's, with edges and recesses found for it."""
    names = studio.group.nearest(p)
    depth, fine = 0.035, 0.05
    edge = np.clip(1 + studio.group.distance(p - n * depth) / (depth * steep), 0, 1)
    recess = np.clip(1 - studio.group.distance(p + n * fine, 1.0) / (fine * steep), 0, 1)
    whole = Look(np.zeros_like(p), 0.0, 0.0)
    for name in np.unique(names):
        m = names == name
        point = SimpleNamespace(position=p[:, m], normal=n[:, m], towards=towards[:, m], edge=edge[m], recess=recess[m])
        one = studio.colours[str(name)](point)
        whole.tint[:, m], whole.gloss[m], whole.metal[m], whole.glow[:, m] = one.tint, one.gloss, one.metal, one.glow
    return whole


PAPER = colour("#a39b90")


def trace(studio, px, py):
    """Linear colours and glow for pixel positions of one tile."""
    d_table = studio.rays(px, py)
    d, eye = studio.table.T @ d_table, studio.table.T @ studio.eye
    t_back, n_back = studio.backdrop(d_table)
    kept, near, far = in_cone(studio.parts, eye, d)
    t = march(kept, eye, d, near, far) if kept.parts else np.full(px.size, np.inf, np.float32)
    out, glow = np.zeros_like(d), np.zeros_like(d)
    model = t < t_back
    if model.any():
        p, towards = eye + d[:, model] * t[model], -d[:, model]
        slope = gradient(studio.group, p)
        steep = length(*slope) + 1e-6
        n = slope / steep
        look = looks(studio, p, n, towards, steep)
        out[:, model] = light_up(studio, look, p, n, towards)
        glow[:, model] = look.glow
    paper = ~model
    if paper.any():
        p, n = eye + d[:, paper] * t_back[paper], studio.table.T @ n_back[:, paper]
        look = Look(np.repeat(PAPER, p.shape[1], 1), 0.0, 0.0)
        out[:, paper] = light_up(studio, look, p, n, -d[:, paper])
    return out, glow


def busy(tile):
    """Pixels beside a strong step in brightness: they get more samples."""
    v = 1 - np.exp(-1.3 * tile.mean(axis=0))
    mark = np.zeros(v.shape, bool)
    for axis in (0, 1):
        step = np.abs(np.diff(v, axis=axis)) > 0.04
        front, back = [slice(None)] * 2, [slice(None)] * 2
        front[axis], back[axis] = slice(1, None), slice(None, -1)
        mark[tuple(front)] |= step
        mark[tuple(back)] |= step
    return mark


def render_tile(studio, x0, y0):
    width, height = studio.size
    w, h = min(TILE, width - x0), min(TILE, height - y0)
    gy, gx = np.mgrid[y0:y0 + h, x0:x0 + w].astype(np.float32) + 0.5
    px, py = gx.ravel(), gy.ravel()
    out, glow = trace(studio, px, py)
    again = np.flatnonzero(busy(out.reshape(3, h, w)).ravel())
    if again.size:
        total = np.minimum(out[:, again], 2.0)
        for dx, dy in ((-0.33, -0.2), (0.37, -0.1), (-0.05, 0.35)):
            total = total + np.minimum(trace(studio, px[again] + dx, py[again] + dy)[0], 2.0)
        out[:, again] = total / 4
    return out.reshape(3, h, w), glow.reshape(3, h, w)


def render(studio):
    width, height = studio.size
    out = np.zeros((3, height, width), np.float32)
    glow = np.zeros_like(out)
    for y0 in range(0, height, TILE):
        for x0 in range(0, width, TILE):
            tile, shine = render_tile(studio, x0, y0)
            h, w = tile.shape[1:]
            out[:, y0:y0 + h, x0:x0 + w], glow[:, y0:y0 + h, x0:x0 + w] = tile, shine
    return out, glow


# ---------------------------------------------------------------- development

def box_blur(a, radius, axis):
    """Running mean over 2 * radius + 1 samples, edges repeated."""
    pad = [(0, 0)] * a.ndim
    pad[axis] = (radius + 1, radius)
    total = np.cumsum(np.pad(a, pad, mode="edge"), axis=axis, dtype=np.float64)
    n, width = a.shape[axis], 2 * radius + 1
    high = np.take(total, range(width, width + n), axis=axis)
    low = np.take(total, range(0, n), axis=axis)
    return ((high - low) / width).astype(np.float32)


def blurred(a, radius):
    """Nearly Gaussian blur over the last two axes."""
    radius = max(1, round(radius))
    for axis in (-1, -2) * 3:
        a = box_blur(a, radius, axis % a.ndim)
    return a


def enlarged(layers, size):
    return np.stack([np.asarray(Image.fromarray(c).resize(size, Image.Resampling.BICUBIC)) for c in layers])


def develop(out, glow, size, seed):
    """Bloom, vignette, tone curve and a little grain; returns an 8-bit picture."""
    width, height = size
    out, glow = enlarged(np.minimum(out, 4.0), size), enlarged(glow, size)
    unit_px = height / 1050
    if glow.any():
        out = out + 0.10 * blurred(glow, 7 * unit_px) + 0.16 * blurred(glow, 34 * unit_px) + 0.1 * blurred(glow, 90 * unit_px)
    y, x = np.mgrid[-1:1:height * 1j, -1:1:width * 1j].astype(np.float32)
    out = out * (1 - 0.13 * (x * x + y * y) ** 1.2 / 2)
    v = 1 - np.exp(-1.28 * np.maximum(out, 0))
    v = np.where(v < 0.0031308, 12.92 * v, 1.055 * np.maximum(v, 1e-6) ** (1 / 2.4) - 0.055)
    v = mix(v, v * v * (3 - 2 * v), 0.28)
    rng = np.random.default_rng(seed)
    grain = rng.normal(0, 1, (height, width)).astype(np.float32)
    grain = 0.5 * grain + blurred(grain, 1)
    v = v + 0.011 * grain * (1.15 - v)
    return Image.fromarray((np.clip(v, 0, 1) * 255 + 0.5).astype(np.uint8).transpose(1, 2, 0))


# ------------------------------------------------------------------- metadata

ASCII, SHORT, LONG, RATIONAL, UNDEFINED, BYTE = 2, 3, 4, 5, 7, 1
EXIF_IFD, GPS_IFD, THUMB_AT, THUMB_LENGTH = 0x8769, 0x8825, 0x0201, 0x0202


def field(tag, kind, value):
    """One TIFF entry as (tag, type, count, payload)."""
    if kind == ASCII:
        raw = value.encode("ascii") + b"\0"
        return tag, kind, len(raw), raw
    if kind in (UNDEFINED, BYTE):
        return tag, kind, len(value), value
    values = value if isinstance(value, (list, tuple)) else [value]
    if kind == RATIONAL:
        return tag, kind, len(values), b"".join(struct.pack(">II", *v) for v in values)
    return tag, kind, len(values), b"".join(struct.pack(">H" if kind == SHORT else ">I", v) for v in values)


def directory(fields, offset, following=0):
    """Bytes of a TIFF directory that starts at ``offset``."""
    head = struct.pack(">H", len(fields))
    data_at = offset + 2 + 12 * len(fields) + 4
    data = b""
    for tag, kind, count, raw in sorted(fields):
        if len(raw) <= 4:
            slot = raw.ljust(4, b"\0")
        else:
            slot = struct.pack(">I", data_at + len(data))
            data += raw + b"\0" * (len(raw) % 2)
        head += struct.pack(">HHI", tag, kind, count) + slot
    return head + struct.pack(">I", following) + data


def place_fields():
    """A made-up place: a spot in the open ocean."""
    return [field(0, BYTE, bytes((2, 3, 0, 0))),
            field(1, ASCII, "N"), field(2, RATIONAL, [(48, 1), (31, 1), (1234, 100)]),
            field(3, ASCII, "W"), field(4, RATIONAL, [(30, 1), (14, 1), (5020, 100)]),
            field(5, BYTE, b"\0"), field(6, RATIONAL, [(37, 10)])]


def exif_block(carries, thumbnail):
    """The APP1 payload for one photo."""
    main = [field(0x010F, ASCII, CAMERA_MAKE), field(0x0110, ASCII, CAMERA_MODEL),
            field(0x0112, SHORT, carries.get("orientation", 1)), field(0x0131, ASCII, "Pocket firmware 2.4"),
            field(0x0132, ASCII, carries["date"])]
    detail = [field(0x9000, UNDEFINED, b"0232"), field(0x9003, ASCII, carries["date"]), field(0x829A, RATIONAL, [(1, 60)]),
              field(0x829D, RATIONAL, [(56, 10)]), field(0x8827, SHORT, 200)]
    if "serial" in carries:
        detail.append(field(0xA431, ASCII, carries["serial"]))
    if "comment" in carries:
        detail.append(field(0x9286, UNDEFINED, b"ASCII\0\0\0" + carries["comment"].encode("ascii")))
    place = place_fields() if carries.get("gps") else []
    pointers = [field(EXIF_IFD, LONG, 0)] + ([field(GPS_IFD, LONG, 0)] if place else [])
    detail_at = 8 + len(directory(main + pointers, 8))
    place_at = detail_at + len(directory(detail, detail_at))
    thumb_at = place_at + (len(directory(place, place_at)) if place else 0)
    pointers = [field(EXIF_IFD, LONG, detail_at)] + ([field(GPS_IFD, LONG, place_at)] if place else [])
    block = b"MM\0*" + struct.pack(">I", 8) + directory(main + pointers, 8, thumb_at if thumbnail else 0) + directory(detail, detail_at)
    if place:
        block += directory(place, place_at)
    return b"Exif\0\0" + block + (thumbnail_directory(thumbnail, thumb_at) if thumbnail else b"")


def thumbnail_directory(jpeg, offset):
    def fields(start):
        return [field(0x0103, SHORT, 6), field(THUMB_AT, LONG, start), field(THUMB_LENGTH, LONG, len(jpeg))]

    start = offset + len(directory(fields(0), offset))
    return directory(fields(start), offset) + jpeg


def small_jpeg(picture):
    small = picture.copy()
    small.thumbnail((160, 120))
    buffer = io.BytesIO()
    small.save(buffer, "JPEG", quality=70)
    return buffer.getvalue()


def s15(value):
    return struct.pack(">i", round(value * 65536))


def wide_profile():
    """A small matrix profile with wider primaries than sRGB and gamma 2.2."""
    white = (0.9642, 1.0, 0.8249)
    red, green = (0.6480, 0.3070, 0.0160), (0.1930, 0.6250, 0.0620)
    blue = tuple(w - r - g for w, r, g in zip(white, red, green))

    def xyz(v):
        return b"XYZ \0\0\0\0" + b"".join(map(s15, v))

    def words(text):
        return text.encode("ascii") + b"\0"

    name = words("Peatglim Wide")
    described = b"desc\0\0\0\0" + struct.pack(">I", len(name)) + name + b"\0" * 78
    curve = b"curv\0\0\0\0" + struct.pack(">IH", 1, round(2.2 * 256))
    tags = [(b"desc", described), (b"cprt", b"text\0\0\0\0" + words("No rights reserved")), (b"wtpt", xyz(white)),
            (b"rXYZ", xyz(red)), (b"gXYZ", xyz(green)), (b"bXYZ", xyz(blue)),
            (b"rTRC", curve), (b"gTRC", curve), (b"bTRC", curve)]
    table, data, at = struct.pack(">I", len(tags)), b"", 128 + 4 + 12 * len(tags)
    for tag, raw in tags:
        table += tag + struct.pack(">II", at + len(data), len(raw))
        data += raw + b"\0" * (-len(raw) % 4)
    total = 128 + len(table) + len(data)
    head = struct.pack(">I", total) + b"\0\0\0\0" + struct.pack(">I", 0x02400000) + b"mntrRGB XYZ "
    head += struct.pack(">6H", 2031, 4, 1, 0, 0, 0) + b"acsp" + b"\0" * 28 + b"".join(map(s15, white))
    return head.ljust(128, b"\0") + table + data


def to_profile(picture, profile):
    return ImageCms.profileToProfile(picture, ImageCms.createProfile("sRGB"), ImageCms.ImageCmsProfile(io.BytesIO(profile)))


STORED_TURN = {3: Image.Transpose.ROTATE_180, 6: Image.Transpose.ROTATE_90, 8: Image.Transpose.ROTATE_270}


def write_photo(picture, path, carries):
    """Save with the metadata that the table asks for; lower the quality only if too large."""
    options = {}
    if carries.get("profile"):
        options["icc_profile"] = wide_profile()
        picture = to_profile(picture, options["icc_profile"])
    if carries.get("orientation") in STORED_TURN:
        picture = picture.transpose(STORED_TURN[carries["orientation"]])
    if carries:
        options["exif"] = exif_block(carries, small_jpeg(picture) if carries.get("thumbnail") else None)
    if "comment" in carries:
        options["comment"] = carries["comment"].encode("ascii")
    quality = QUALITY
    while True:
        buffer = io.BytesIO()
        picture.save(buffer, "JPEG", quality=quality, optimize=True, **options)
        if buffer.tell() <= LARGEST_FILE or quality <= 60:
            break
        quality -= 3
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(buffer.getvalue())
    return buffer.tell(), quality


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--only", default="", help="draw only the photos whose name contains this")
    options.add_argument("--scale", type=float, default=1.0, help="smaller trial pictures")
    options.add_argument("--out", type=Path, default=CONTENT, help="folder of the schemes")
    options = options.parse_args()
    for number, (name, model, colours, view, size, carries) in enumerate(PHOTOS):
        if options.only not in name:
            continue
        began = time.perf_counter()
        size = tuple(round(s * options.scale) for s in size)
        traced = tuple(round(s * TRACED) for s in size)
        out, glow = render(Studio(MODELS[model](), COLOURS[colours], VIEWS[view], traced))
        scheme, photo = name.split("/")
        written, quality = write_photo(develop(out, glow, size, number), options.out / scheme / "photos" / f"{photo}.jpg", carries)
        print(f"{name}: {written // 1000} kB, quality {quality}, {time.perf_counter() - began:.1f} s")


if __name__ == "__main__":
    main()

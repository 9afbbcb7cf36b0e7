#!/usr/bin/env python3
"""Lays out guides that are small and were dear, runs the program on each, and says what it took.

    python3 tests/bounds/measure.py PROGRAM [NAME ...]

Prints a table in Markdown: the size of the guide, processor time, the most memory resident, the size of the site, and
the exit status. The rule that it shows: no guide of less than 1 MB takes more than 10 s of processor, 1 GB of memory or
200 MB of site. A run is stopped after two minutes of processor time. `tests/suite/bounds.rs` holds the program to it.
"""

import os
import random
import resource
import shutil
import subprocess
import sys
import tempfile
import zlib
from pathlib import Path

SCHEME = "content/schemes/first-figure"


def write(guide, path, text):
    path = guide / path
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def swatches(guide, count):
    """So many swatches of one paint."""
    lines = "".join(
        f'      - {{over: {"white" if at % 2 else "black"}, coats: {1 + at % 3}, colour: "#5b{40 + at * 3 % 90:02x}3a"}}\n'
        for at in range(count)
    )
    paints = guide / "content/paints/my-paints.yaml"
    found = "  moss-green: {name: Moss Green, kind: paint, colour: \"#5b6b3a\", hiding: opaque, touch-dry: 15 min, recoat: 30 min}\n"
    text = paints.read_text()
    assert found in text
    entry = "  moss-green:\n    name: Moss Green\n    kind: paint\n    colour: \"#5b6b3a\"\n    swatches:\n" + lines
    paints.write_text(text.replace(found, entry))


def shuffled(guide, count, orders=0):
    """A scheme whose steps are in any order, and house orders for all of them."""
    dice = random.Random(7)
    for old in (guide / SCHEME).glob("[0-9]*.md"):
        if old.name != "20-grey-undercoat.md":
            old.unlink()
    stages = ["basecoat", "shade", "highlight", "varnish", "detail", "glaze", "layer"]
    paints = ["moss-green", "pale-moss", "saddle-brown", "dark-wash", "matt-varnish"]
    for at in range(count):
        number = 100 + dice.randrange(count * 100) * 10 + at % 10
        areas = dice.choice(["coat", "leather", "coat, leather"])
        write(
            guide,
            f"{SCHEME}/{number}-step-{at}.md",
            f"---\ntitle: Step {at}\nstage: {dice.choice(stages)}\nareas: [{areas}]\nwith: brush\n"
            f"paints: [{{use: {dice.choice(paints)}}}]\n---\n\nPaint it.\n",
        )
    if orders:
        pairs = [(first, then) for first in stages for then in stages if first != then][:orders]
        rules = "".join(f"  - {{first: {first}, then: {then}, why: Ours.}}\n" for first, then in pairs)
        with open(guide / "content/guide.yaml", "a", encoding="utf-8") as file:
            file.write("house-order:\n" + rules)


def pages(guide, count):
    """Free pages with nothing in them."""
    for at in range(count):
        write(guide, f"content/pages/p{at}.md", "---\ntitle: P\n---\n")


def title(guide, size):
    """Titles of so many letters."""
    words = "word " * (size // 5)
    text = (guide / "content/guide.yaml").read_text()
    (guide / "content/guide.yaml").write_text(text.replace("title: My painting guide", f"title: {words}"))
    text = (guide / f"{SCHEME}/scheme.md").read_text()
    (guide / f"{SCHEME}/scheme.md").write_text(text.replace("title: My first figure", f"title: {words}"))


def shown_again(guide, count):
    """One picture, shown again and again."""
    png(guide / SCHEME / "photo.png", 900, 600, 8, dice=random.Random(3))
    step = guide / SCHEME / "30-green-coat.md"
    step.write_text(step.read_text() + "\n" + "![A photo.](photo.png)\n\n" * count)


def png(path, wide, tall, depth=8, dice=None):
    """A picture of one colour, or of dice, packed as small as it goes; line by line, so that it takes no memory."""
    line = wide * 3 * depth // 8
    packer = zlib.compressobj(9)
    rows = []
    for _ in range(tall):
        body = dice.randbytes(line) if dice and _ % 16 == 0 else bytes(line)
        rows.append(packer.compress(b"\0" + body))
    data = b"".join(rows) + packer.flush()

    def chunk(name, body):
        return len(body).to_bytes(4, "big") + name + body + zlib.crc32(name + body).to_bytes(4, "big")

    head = wide.to_bytes(4, "big") + tall.to_bytes(4, "big") + bytes([depth, 2, 0, 0, 0])
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", data) + chunk(b"IEND", b""))


def picture(guide, wide, tall, depth):
    """A large picture that takes little room."""
    png(guide / "content/pages/photo.png", wide, tall, depth)
    write(guide, "content/pages/about.md", "---\ntitle: About\n---\n\n![A photo.](photo.png)\n")


def code(guide, size):
    """Code in one line."""
    line = ("let a" + "=b+(c*[d-{e}/'f'])" * (size // 18))[:size]
    write(guide, "content/pages/about.md", f"---\ntitle: About\n---\n\n```js\n{line}\n```\n")


def equal_paints(guide, count):
    """Paints of one colour."""
    paints = "".join(f'  paint-{at}: {{name: Paint {at}, kind: paint, colour: "#5b6b3a"}}\n' for at in range(count))
    write(guide, "content/paints/more.yaml", f"maker: Tarn\nrange: More\nfamily: water\npaints:\n{paints}")


def long_schemes(guide, count, armies=0):
    """So many schemes of 200 steps, and armies of them."""
    for scheme in range(count):
        write(guide, f"content/schemes/long{scheme}/scheme.md", f"---\ntitle: L{scheme}\nareas: {{a: 50%, b: 50%}}\nmodel: {{scale: 28 mm}}\n---\n")
        write(guide, f"content/schemes/long{scheme}/10-g.md", "---\ntitle: G\nstage: undercoat\nareas: [all]\nwith: brush\npaints: [grey-primer]\n---\n")
        for at in range(199):
            text = f"---\ntitle: A{at}\nstage: layer\nareas: [{'ab'[at % 2]}]\nwhere: edges\nwith: brush\npaints: [moss-green]\n---\n"
            write(guide, f"content/schemes/long{scheme}/{20 + 2 * at}-a.md", text)
    evenings = 'evenings: {days: [tue, thu], from: "19:00", length: 2 h, first: 2027-01-12}'
    for army in range(armies):
        units = "".join(f"  - {{scheme: long{(army + unit) % count}, models: {7 + unit}}}\n" for unit in range(3))
        write(guide, f"content/armies/a{army}.yaml", f"title: A{army}\nunits:\n{units}{evenings}\n")


def schemes(guide, count):
    """Schemes as small as they go."""
    for at in range(count):
        write(guide, f"content/schemes/s{at}/scheme.md", "---\ntitle: S\nareas: {coat: 100%}\n---\n")
        write(guide, f"content/schemes/s{at}/10-g.md", "---\ntitle: G\nstage: undercoat\nareas: coat\nwith: brush\npaints: [{use: grey-primer}]\n---\nG.\n")


def style(guide, size):
    """A theme's style of rules that never end."""
    write(guide, "themes/chart/style/own.css", "{" * (size // 4) + ".caution{color:red" * (size // 36) + "/*" * (size // 8))


def markdown(guide, text, size):
    """A text of one piece again and again."""
    write(guide, "content/pages/about.md", "---\ntitle: About\n---\n\n" + text * (size // len(text)))


INPUTS = {
    "400 swatches of one paint": (lambda g: swatches(g, 400), ["publish"]),
    "1,000 swatches of one paint": (lambda g: swatches(g, 1000), ["check"]),
    "200 shuffled steps": (lambda g: shuffled(g, 190), ["check"]),
    "200 shuffled steps, ten house orders": (lambda g: shuffled(g, 190, 10), ["check"]),
    "80 shuffled steps, mended": (lambda g: shuffled(g, 80), ["check", "--mend", "--yes"]),
    "4,000 empty pages": (lambda g: pages(g, 4000), ["publish"]),
    "titles of 400,000 letters": (lambda g: title(g, 400_000), ["publish"]),
    "a picture at 20,000 places, in one file each": (lambda g: shown_again(g, 20_000), ["publish", "--single"]),
    "a picture of 7,000 × 7,000": (lambda g: picture(g, 7000, 7000, 8), ["publish"]),
    "the same with 16 bits": (lambda g: picture(g, 7000, 7000, 16), ["publish"]),
    "a strip of 20,000 × 1": (lambda g: picture(g, 20_000, 1, 8), ["publish"]),
    "a strip of 1,000,000 × 1": (lambda g: picture(g, 1_000_000, 1, 8), ["publish"]),
    "code of 900,000 letters in a line": (lambda g: code(g, 900_000), ["publish"]),
    "6,000 equal paints": (lambda g: equal_paints(g, 5990), ["publish"]),
    "10,000 equal paints": (lambda g: equal_paints(g, 10_000), ["publish"]),
    "1,000 schemes of one step": (lambda g: schemes(g, 1000), ["publish"]),
    "3,000 schemes of one step": (lambda g: schemes(g, 3000), ["publish"]),
    "4 schemes of 200 steps, two armies of 600": (lambda g: long_schemes(g, 4, 2), ["publish"]),
    "12 schemes of 200 steps": (lambda g: long_schemes(g, 12), ["publish"]),
    "style of 900,000 letters": (lambda g: style(g, 900_000), ["check"]),
    "900,000 letters of emphasis": (lambda g: markdown(g, "*a ", 900_000), ["publish"]),
    "900,000 letters of brackets": (lambda g: markdown(g, "[", 900_000), ["publish"]),
    "30,000 dead links": (lambda g: markdown(g, "[a](b) ", 210_000), ["check"]),
    "100,000 footnotes": (lambda g: markdown(g, "a[^1] \n\n[^1]: b\n\n", 900_000), ["publish"]),
    "900,000 letters of tables": (lambda g: markdown(g, "|a|b|\n|-|-|\n|c|d|\n\n", 900_000), ["publish"]),
    "90,000 headings": (lambda g: markdown(g, "# a\n\n", 450_000), ["publish"]),
}


def size_of(folder):
    seen, total = set(), 0
    for file in Path(folder).rglob("*"):
        found = file.lstat()
        if file.is_file() and found.st_ino not in seen:
            seen.add(found.st_ino)
            total += found.st_size
    return total


def bound():
    resource.setrlimit(resource.RLIMIT_CPU, (120, 130))
    os.nice(5)


def run(program, name):
    lay, arguments = INPUTS[name]
    with tempfile.TemporaryDirectory() as folder:
        guide = Path(folder) / "mine"
        subprocess.run([program, "start", str(guide)], check=True, stdout=subprocess.DEVNULL)
        lay(guide)
        size = size_of(guide)
        command = [program, arguments[0], str(guide), *arguments[1:]]
        child = subprocess.Popen(
            command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, preexec_fn=bound
        )
        _, status, used = os.wait4(child.pid, 0)
        site = size_of(guide / "published") if (guide / "published").exists() else 0
        shutil.rmtree(guide, ignore_errors=True)
        status = os.waitstatus_to_exitcode(status)
        return size, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, site, status


def main():
    program = os.path.abspath(sys.argv[1])
    names = sys.argv[2:] or INPUTS
    print("| input | guide, kB | command | processor, s | memory, MB | site, MB | status |")
    print("| --- | ---: | --- | ---: | ---: | ---: | ---: |")
    for name in names:
        size, seconds, memory, site, status = run(program, name)
        command = " ".join(INPUTS[name][1])
        print(f"| {name} | {size / 1000:.0f} | `{command}` | {seconds:.1f} | {memory:.0f} | {site / 1e6:.1f} | {status} |", flush=True)


if __name__ == "__main__":
    main()

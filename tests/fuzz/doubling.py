#!/usr/bin/env python3
"""Looks for work that grows with the square of a list: doubles every list and every group of keys that a guide can hold.

    python3 tests/fuzz/doubling.py PROGRAM [PART OF A NAME ...]

What can be written comes from `PROGRAM schema`, so a new key is tried without a change here. Each list is laid out with
1,000 entries (where a list ends) after 500, each group of keys with 4,000 after 2,000; `check` reads both. A list whose
time more than trebles, and then lasts longer than half a second, is printed with a mark, and the exit status is 1.
"""

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

SCHEME = "content/schemes/first-figure"

# Where a file of each kind is in a guide, and whether it is a front matter.
FILES = {
    "guide": ("content/guide.yaml", False),
    "paints": ("content/paints/doubled.yaml", False),
    "tools": ("content/tools.yaml", False),
    "scheme": (f"{SCHEME}/scheme.md", True),
    "step": (f"{SCHEME}/30-green-coat.md", True),
    "sequence": ("content/sequences/doubled/sequence.md", True),
    "army": ("content/armies/doubled.yaml", False),
    "page": ("content/pages/about.md", True),
}


def either(schema):
    return [schema] + [inner for choice in schema.get("anyOf", []) for inner in either(choice)]


def places(schema, way=()):
    """The ways to all lists and groups of keys: the names of keys, `[]` for an entry, `*` for a key of the author's."""
    found = []
    for one in either(schema):
        if isinstance(one.get("items"), dict):
            found.append((*way, "[]"))
            found += places(one["items"], (*way, "[]"))
        if isinstance(one.get("additionalProperties"), dict):
            found.append((*way, "*"))
            found += places(one["additionalProperties"], (*way, "*"))
        for key, inner in one.get("properties", {}).items():
            found += places(inner, (*way, key))
    return list(dict.fromkeys(found))


def example(schema):
    if schema.get("examples"):
        return schema["examples"][0]
    if schema.get("enum"):
        return str(schema["enum"][0])
    for one in either(schema):
        if isinstance(one.get("properties"), dict):
            return record(one, {})
        if one.get("enum"):
            return str(one["enum"][0])
        if one.get("examples"):
            return one["examples"][0]
        if "such as '" in one.get("description", ""):
            return one["description"].split("such as '")[1].split("'")[0]
    return "moss-green"


def record(schema, own):
    wanted = {key: example(schema["properties"][key]) for key in schema.get("required", [])} | own
    return "{" + ", ".join(f"{key}: {value}" for key, value in wanted.items()) + "}"


def written(schema, way, count):
    """The value with so many entries at the end of a way."""
    step, rest = way[0], way[1:]
    for one in either(schema):
        if step == "[]" and isinstance(one.get("items"), dict):
            entry = written(one["items"], rest, count) if rest else example(one["items"])
            return "[" + ", ".join([entry] * (1 if rest else count)) + "]"
        if step == "*" and isinstance(one.get("additionalProperties"), dict):
            entry = written(one["additionalProperties"], rest, count) if rest else example(one["additionalProperties"])
            return "{" + ", ".join(f"key-{at}: {entry}" for at in range(1 if rest else count)) + "}"
        if step in one.get("properties", {}):
            return record(one, {step: written(one["properties"][step], rest, count)})
    raise ValueError(way)


def lay(guide, kind, schema, way, count):
    path, front = FILES[kind]
    file = guide / path
    file.parent.mkdir(parents=True, exist_ok=True)
    text = file.read_text() if file.exists() else ("---\n---\n\nWords.\n" if front else "")
    head, body = (text[4:].split("---\n", 1)[0], "---\n" + text[4:].split("---\n", 1)[1]) if front else (text, "")
    own = way[0]
    kept, skipping = [], False
    for line in head.splitlines():
        if not line.startswith((" ", "#")):
            skipping = line.split(":")[0] == own
        if not skipping:
            kept.append(line)
    known = {line.split(":")[0] for line in kept}
    needed = [f"{key}: {example(schema['properties'][key])}" for key in schema.get("required", []) if key not in known and key != own]
    rest = way[1:]
    kept += needed + [f"{own}: {written(schema['properties'][own], rest, count)}"]
    file.write_text(("---\n" if front else "") + "\n".join(kept) + "\n" + body)


def seconds(program, kind, schema, way, count):
    with tempfile.TemporaryDirectory() as folder:
        guide = Path(folder) / "mine"
        subprocess.run([program, "start", str(guide)], check=True, stdout=subprocess.DEVNULL)
        lay(guide, kind, schema, way, count)
        child = subprocess.Popen(
            [program, "check", str(guide)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL
        )
        _, status, used = os.wait4(child.pid, 0)
        return used.ru_utime + used.ru_stime, os.waitstatus_to_exitcode(status)


def main():
    program, wanted = os.path.abspath(sys.argv[1]), sys.argv[2:]
    squares = 0
    for kind in FILES:
        schema = json.loads(subprocess.run([program, "schema", kind], check=True, capture_output=True).stdout)
        # A file of a step may stand for a sequence; its own keys are those of a step with a title.
        branches = [schema.get("then"), schema.get("else")]
        schema = next((one for one in branches if one and "title" in one.get("properties", {})), schema)
        for way in places(schema):
            name = f"{kind}/" + "/".join(way)
            if wanted and not any(part in name for part in wanted):
                continue
            once, twice = (500, 1000) if way[-1] == "[]" else (2000, 4000)
            (first, _), (second, status) = (seconds(program, kind, schema, way, count) for count in (once, twice))
            is_square = second > 0.5 and second > 3 * first
            squares += is_square
            mark = " SQUARE" if is_square else ""
            print(f"{second:6.2f} s  {second / max(first, 0.01):5.1f} x  status {status}  {name}{mark}", flush=True)
            if status not in (0, 1):
                print(f"        the program ended with {status}")
                squares += 1
    sys.exit(squares > 0)


if __name__ == "__main__":
    main()

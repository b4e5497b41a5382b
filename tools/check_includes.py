#!/usr/bin/env python3
"""Holds every #include under src/ against the rooms and edges that CMake wrote to rooms.txt.

A room may include itself and the rooms listed for it, never what those use in turn. Edges go down the
floors (shop, bench, science) and never in a circle. Of the headers outside the house, each room may take
those of its floor and of the table LIBRARIES.

usage: check_includes.py build/<preset>/rooms.txt [SOURCE_ROOT]
"""
import fnmatch
import re
import sys
from pathlib import Path
from typing import NamedTuple

FLOORS = ["science", "bench", "shop"]  # from the ground up

# Header pattern, rooms that may include it, and whether their own headers may pass it on: all, none, or those named.
LIBRARIES = [
    ("tl/expected.hpp", "*", True),
    ("fmt/*", "*", True),
    ("Eigen/*", "science/numeric", False),
    ("unsupported/Eigen/*", "science/numeric", False),
    ("boost/math/*", "science/*", False),
    ("nlohmann/*", "shop/files", False),
    ("CLI/*", "shop/cli", False),
    ("SQLiteCpp/*", "shop/store", False),
    ("sqlite3.h", "shop/store", False),
    ("boost/*", "shop/net", {"core.h", "connection.h", "live.h"}),  # private to server.cpp
    ("openssl/evp.h", "shop/[fn]*", False),  # files: content hashes
    ("openssl/*", "shop/net", False),
    ("qrencode.h", "shop/net", False),
    ("zlib.h", "shop/net", False),
    ("sys/*", "shop/*", False),
    ("fcntl.h", "shop/*", False),
    ("unistd.h", "shop/*", False),
]

# Standard headers that bring files, streams or the time of day: the domain gets these handed in.
SHOP_ONLY = {"chrono", "ctime", "filesystem", "fstream", "iostream", "time.h", "stdio.h"}

# The plain-C++ headers of the standard library have neither a folder nor a suffix.
STANDARD = re.compile(r"[a-z_0-9]+")
INCLUDE = re.compile(r'^\s*#\s*include\s*(?:"(?P<quoted>[^"]+)"|<(?P<angled>[^>]+)>|(?P<other>\S.*))')


class Problem(NamedTuple):
    place: str
    text: str

    def __str__(self):
        return f"{self.place}: {self.text}"


def read_rooms(text):
    """The lines "room : used rooms" as {room: [used]}."""
    rooms = {}
    for line in filter(str.strip, text.splitlines()):
        room, colon, used = line.partition(":")
        if not colon or len(room.split()) != 1:
            raise ValueError(f'rooms.txt: "{line}": expected "room : used rooms"')
        rooms[room.strip()] = used.split()
    return rooms


def floor_of(room):
    return room.split("/")[0]


def check_edges(rooms):
    """Every edge leads to a listed room, to the same floor or a lower one, and never back."""
    for room, used in rooms.items():
        if floor_of(room) not in FLOORS:
            yield Problem("rooms.txt", f"{room}: no floor of that name, expected one of {', '.join(FLOORS)}")
            continue
        for other in used:
            if other not in rooms:
                yield Problem("rooms.txt", f"{room}: uses {other}, which is no room")
            elif FLOORS.index(floor_of(room)) < FLOORS.index(floor_of(other)):
                yield Problem("rooms.txt", f"{room}: uses {other}, a floor above it")
    circle = find_circle(rooms)
    if circle:
        yield Problem("rooms.txt", f"the rooms use each other in a circle: {' -> '.join(circle)}")


def find_circle(rooms):
    """The rooms of one circle, first and last the same; empty when there is none."""
    done = set()

    def walk(room, path):
        if room in path:
            return path[path.index(room):] + [room]
        if room in done:
            return []
        for used in rooms.get(room, []):
            circle = walk(used, path + [room])
            if circle:
                return circle
        done.add(room)
        return []

    for room in rooms:
        circle = walk(room, [])
        if circle:
            return circle
    return []


def check_own(room, header, rooms, src):
    """What is wrong with #include "header" in this room; None when nothing is."""
    if "/" not in header and header.endswith(".inc"):
        return None  # made by CMake for this room's own use
    target = header.rpartition("/")[0]
    if target not in rooms:
        return f'"{header}" is in no room; write the path from src/'
    if not (src / header).is_file():
        return f'"{header}" does not exist'
    if target != room and target not in rooms[room]:
        allowed = ", ".join(rooms[room]) or "itself only"
        return f'"{header}": {room} may not use {target}, but: {allowed}'
    return None


def check_foreign(room, header, in_header):
    """What is wrong with #include <header> in this room, in the header of that name ("" in a .cpp); None when nothing is."""
    if header in SHOP_ONLY:
        if floor_of(room) == "shop":
            return None
        return f"<{header}>: files, streams and the time of day belong to shop/; hand the values in"
    if STANDARD.fullmatch(header):
        return None
    for pattern, allowed, passed_on in LIBRARIES:
        if not fnmatch.fnmatch(header, pattern):
            continue
        if not fnmatch.fnmatch(room, allowed):
            return f"<{header}>: only for {allowed}"
        if in_header and passed_on is not True and in_header not in (passed_on or ()):
            return f"<{header}>: not in a header of ours; include it in the .cpp"
        return None
    return f"<{header}>: not in the table of libraries in tools/check_includes.py"


def check_file(path, room, rooms, src):
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        match = INCLUDE.match(line)
        if not match:
            continue
        if match["quoted"]:
            wrong = check_own(room, match["quoted"], rooms, src)
        elif match["angled"]:
            wrong = check_foreign(room, match["angled"], path.name if path.suffix == ".h" else "")
        else:
            wrong = f"#include {match['other']}: name the header itself"
        if wrong:
            yield Problem(f"{path.relative_to(src.parent)}:{number}", wrong)


def check_tree(rooms, root):
    src = root / "src"
    yield from check_edges(rooms)
    for path in sorted(src.rglob("*")):
        if path.suffix not in (".h", ".cpp"):
            continue
        room = path.parent.relative_to(src).as_posix()
        if room in rooms:
            yield from check_file(path, room, rooms, src)
        else:
            yield Problem(str(path.relative_to(root)), f"{room} is no room; add it to cmake/rooms.cmake")


def main(arguments):
    if len(arguments) not in (1, 2):
        print(__doc__, file=sys.stderr)
        return 2
    root = Path(arguments[1] if len(arguments) == 2 else Path(__file__).parents[1])
    try:
        rooms = read_rooms(Path(arguments[0]).read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        print(error, file=sys.stderr)
        return 2
    problems = list(check_tree(rooms, root))
    for problem in problems:
        print(problem)
    print(f"includes: {len(rooms)} rooms, {len(problems)} problems")
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

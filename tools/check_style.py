#!/usr/bin/env python3
"""What the formatter does not see: exec bits, tabs, line ends, stray paths and hosts, overlong files.

usage: check_style.py [ROOT]
"""
import os
import re
import sys
from pathlib import Path

# What belongs to the house. A guitar or a log that somebody keeps beside it is none of our business.
FOLDERS = [".ci", "benchmarks", "cmake", "data", "demo", "docs", "fuzz", "packaging", "schema", "src", "tests",
           "tools", "web"]
FILES = [".clang-format", ".gitignore", "CHANGELOG.md", "CMakeLists.txt", "CMakePresets.json", "LICENSE",
         "README.md", "dev"]
SKIPPED_FOLDERS = {"__pycache__", "node_modules", "dist"}
MOST_LINES = 500
SOURCE = {".cpp", ".h"}
TABLE = re.compile(r"_(data|table)\.(cpp|h)$")  # rows of data, as long as they need to be

# A place that exists on one machine only. "/work/0/when" in a bench file is a JSON pointer and none of these.
MACHINE_PATH = re.compile(r"(?<![\w.#])/(?:work/[a-z.]|(?:home|root|Users)/\w)|\.\./(?:shared)/")
REGISTRY_HOST = re.compile(
    r"(?:registry\.npmjs|registry\.yarnpkg|pypi|pythonhosted|crates|rubygems|proxy\.golang|deb\.debian"
    r"|security\.debian|ftp\.debian|conan|vcpkg)\.(?:org|io|com)")


def is_test_data(path):
    """Files that tests read; they may be as ugly as the world is."""
    return path.parts[0] == "tests" and path.suffix not in {".cpp", ".h", ".py", ".sh"} \
        and path.name != "CMakeLists.txt"


def check_exec_bit(path, raw, mode):
    if raw.startswith(b"#!") and not mode & 0o111:
        yield 1, "starts with #! but is not executable"
    if mode & 0o111 and not raw.startswith(b"#!"):
        yield 1, "is executable but does not start with #!"


def check_blanks(text):
    for number, line in enumerate(text.split("\n"), 1):
        if line.endswith("\r"):
            yield number, "ends with a carriage return"
        elif line.endswith((" ", "\t")):
            yield number, "ends with blanks"
        if "\t" in line.rstrip():
            yield number, "holds a tab"
    if text and (not text.endswith("\n") or text.endswith("\n\n")):
        yield text.count("\n"), "must end with exactly one line end"


def check_strays(text):
    for number, line in enumerate(text.split("\n"), 1):
        for what, pattern in (("a machine path", MACHINE_PATH), ("a registry host", REGISTRY_HOST)):
            found = pattern.search(line)
            if found:
                yield number, f'names {what}: "{found[0]}"'


def check_length(path, text):
    lines = text.count("\n")
    if path.suffix in SOURCE and lines > MOST_LINES and not TABLE.search(path.name):
        yield lines, f"is longer than {MOST_LINES} lines: split it by idea"


def check_bytes(path, raw, mode):
    """The problems of one file, as (line, text)."""
    yield from check_exec_bit(path, raw, mode)
    if b"\0" in raw:
        return
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        if not is_test_data(path):
            yield raw.count(b"\n", 0, error.start) + 1, "is not UTF-8"
        return
    yield from check_strays(text)
    yield from check_length(path, text)
    if not is_test_data(path):
        yield from check_blanks(text)


def files_of_the_house(root):
    yield from (root / name for name in FILES if (root / name).is_file())
    for top in FOLDERS:
        for folder, folders, names in os.walk(root / top):
            folders[:] = sorted(set(folders) - SKIPPED_FOLDERS)
            yield from (Path(folder, name) for name in sorted(names))


def check_tree(root):
    """The problems of every file of the house, as "path:line: text"."""
    for path in files_of_the_house(root):
        name = path.relative_to(root)
        for line, text in check_bytes(name, path.read_bytes(), path.stat().st_mode):
            yield f"{name}:{line}: {text}"


def main(arguments):
    root = Path(arguments[0] if arguments else Path(__file__).parents[1])
    problems = list(check_tree(root))
    for problem in problems:
        print(problem)
    print(f"style: {len(problems)} problems")
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

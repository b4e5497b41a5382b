"""tools/check_style.py must refuse each of these files and say why. The rules are our own (docs/house.md)."""
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tools"))
import check_style  # noqa: E402


def problems(name, raw, mode=0o644):
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(raw)
        path.chmod(mode)
        return list(check_style.check_tree(Path(folder)))


class Style(unittest.TestCase):
    def refused(self, expected, name, raw, mode=0o644):
        found = problems(name, raw, mode)
        self.assertEqual(len(found), 1, found)
        self.assertTrue(found[0].startswith(name + ":"), found)
        self.assertIn(expected, found[0])

    def passes(self, name, raw, mode=0o644):
        self.assertEqual(problems(name, raw, mode), [])

    def test_clean_files_pass(self):
        self.passes("src/a.cpp", b"int a;\n")
        self.passes("docs/empty.md", b"")
        self.passes("dev", b"#!/usr/bin/env bash\n", 0o755)
        self.passes("data/note.flac", b"fLaC\0\t \r\n")

    def test_exec_bits(self):
        self.refused("not executable", "dev", b"#!/usr/bin/env bash\n")
        self.refused("does not start with #!", "src/a.cpp", b"int a;\n", 0o755)

    def test_blanks_and_line_ends(self):
        self.refused("carriage return", "src/a.h", b"int a;\r\n")
        self.refused("ends with blanks", "docs/a.md", b"one  \n")
        self.refused("holds a tab", "src/a.cpp", b"\tint a;\n")
        self.refused("exactly one line end", "src/a.cpp", b"int a;")
        self.refused("exactly one line end", "src/a.cpp", b"int a;\n\n")
        self.refused("not UTF-8", "docs/a.md", b"5 \xb5m\n")

    def test_data_of_tests_may_be_ugly(self):
        self.passes("tests/shop/files/broken/tab.json", b"{\t} \r\n\n")
        self.passes("tests/shop/files/broken/latin.json", b"{\xb5}")

    def test_machine_paths(self):
        # Put together here, or this file would be refused itself.
        for path in ("/ho" + "me/ruta/a.json", "/wo" + "rk/main/src", "/ro" + "ot/x", ".." + "/shared/design.md"):
            self.refused("machine path", "docs/a.md", f"see {path}\n".encode())
            self.refused("machine path", "tests/shop/a.json", f'"{path}"'.encode())

    def test_json_pointers_are_no_machine_paths(self):
        self.passes("docs/a.md", b"file: /wo" + b"rk/0/when and #/properties/wo" + b"rk/items\n")

    def test_registry_hosts(self):
        for host in ("registry.npmjs." + "org", "pypi." + "org", "deb.debian." + "org"):
            self.refused("registry host", ".ci/run", f"fetch {host}\n".encode())

    def test_long_files(self):
        self.passes("src/a.cpp", b"int a;\n" * 500)
        self.refused("longer than 500", "src/a.cpp", b"int a;\n" * 501)
        self.passes("src/wire_table.cpp", b"{1, 2},\n" * 501)
        self.passes("data/wire.txt", b"1 2\n" * 501)

    def test_what_is_not_ours_is_not_looked_at(self):
        self.passes("build/dev/a.cpp", b"\t")
        self.passes("out/a.html", b"\t")
        self.passes("my_guitar.json", b"\t")

    def test_the_house_is_where_the_script_looks(self):
        for name in ["dev", "src", "tests", "tools", "docs", "README.md"]:
            self.assertIn(name, check_style.FILES + check_style.FOLDERS)
            self.assertTrue((ROOT / name).exists(), name)


if __name__ == "__main__":
    unittest.main()

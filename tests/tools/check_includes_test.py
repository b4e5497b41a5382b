"""tools/check_includes.py must refuse each of these trees and say why. The rules are our own (docs/house.md)."""
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tools"))
import check_includes  # noqa: E402

ROOMS = """science/base :
science/numeric : science/base
bench/evidence : science/numeric
shop/files : bench/evidence
shop/cli : shop/files
"""

GOOD = {
    "science/base/length.h": "#include <cmath>\n#include <tl/expected.hpp>\n",
    "science/numeric/fit.h": '#include "science/base/length.h"\n',
    "science/numeric/fit.cpp": '#include "science/numeric/fit.h"\n#include <Eigen/Dense>\n',
    "bench/evidence/reading.h": '#include "science/numeric/fit.h"\n',
    "shop/files/codec.cpp": '#include <nlohmann/json.hpp>\n#include <fstream>\n#include "made.inc"\n',
    "shop/cli/main.cpp": "#include <CLI/CLI.hpp>\n#include <iostream>\n",
}


def problems(changes=None, rooms=ROOMS):
    with tempfile.TemporaryDirectory() as folder:
        for name, text in {**GOOD, **(changes or {})}.items():
            path = Path(folder, "src", name)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return [str(p) for p in check_includes.check_tree(check_includes.read_rooms(rooms), Path(folder))]


class Includes(unittest.TestCase):
    def refused(self, expected, name, text):
        found = problems({name: text})
        self.assertEqual(len(found), 1, found)
        self.assertIn(f"src/{name}", found[0])
        self.assertIn(expected, found[0])

    def test_a_good_tree_passes(self):
        self.assertEqual(problems(), [])

    def test_an_unlisted_edge(self):
        self.refused("may not use bench/evidence", "science/base/a.cpp", '#include "bench/evidence/reading.h"\n')

    def test_an_edge_of_an_edge_is_not_an_edge(self):
        self.refused("bench/evidence may not use science/base", "bench/evidence/a.cpp",
                     '#include "science/base/length.h"\n')

    def test_a_header_that_does_not_exist(self):
        self.refused("does not exist", "science/numeric/a.cpp", '#include "science/base/lenght.h"\n')

    def test_a_path_that_does_not_start_at_src(self):
        self.refused("in no room", "science/numeric/a.cpp", '#include "fit.h"\n')
        self.refused("in no room", "science/numeric/a.cpp", '#include "../base/length.h"\n')

    def test_a_folder_that_is_no_room(self):
        self.refused("is no room", "science/attic/a.cpp", "")

    def test_the_domain_reads_no_files_and_no_clock(self):
        for header in ("fstream", "filesystem", "iostream", "chrono", "ctime"):
            self.refused("belong to shop/", "science/numeric/a.cpp", f"#include <{header}>\n")
            self.refused("belong to shop/", "bench/evidence/a.cpp", f"#  include <{header}>\n")

    def test_libraries_stay_in_their_room(self):
        self.refused("only for shop/files", "bench/evidence/a.cpp", "#include <nlohmann/json.hpp>\n")
        self.refused("only for science/numeric", "bench/evidence/a.cpp", "#include <Eigen/Core>\n")
        self.refused("only for shop/cli", "shop/files/a.cpp", "#include <CLI/CLI.hpp>\n")
        self.refused("only for science/*", "shop/files/a.cpp", "#include <boost/math/tools/roots.hpp>\n")

    def test_libraries_stay_out_of_our_headers(self):
        for name, header in (("science/numeric/a.h", "Eigen/Core"), ("shop/files/a.h", "nlohmann/json.hpp"),
                             ("shop/cli/a.h", "CLI/CLI.hpp"), ("science/base/a.h", "boost/math/special_functions.hpp")):
            self.refused("not in a header of ours", name, f"#include <{header}>\n")

    def test_an_unknown_library(self):
        self.refused("not in the table", "shop/files/a.cpp", "#include <zmq.h>\n")

    def test_a_computed_include(self):
        self.refused("name the header itself", "shop/files/a.cpp", "#include HEADER\n")


class Edges(unittest.TestCase):
    def refused(self, expected, rooms):
        found = [str(p) for p in check_includes.check_edges(check_includes.read_rooms(rooms))]
        self.assertEqual(len(found), 1, found)
        self.assertIn(expected, found[0])

    def test_a_circle(self):
        self.refused("science/a -> science/b -> science/a", "science/a : science/b\nscience/b : science/a\n")

    def test_a_room_that_uses_itself(self):
        self.refused("science/a -> science/a", "science/a : science/a\n")

    def test_a_diamond_is_no_circle(self):
        rooms = "science/a :\nscience/b : science/a\nscience/c : science/a\nbench/d : science/b science/c\n"
        self.assertEqual(list(check_includes.check_edges(check_includes.read_rooms(rooms))), [])

    def test_a_floor_above(self):
        self.refused("a floor above", "science/a : bench/b\nbench/b :\n")

    def test_a_room_nobody_built(self):
        self.refused("no room", "science/a : science/b\n")

    def test_a_floor_nobody_built(self):
        self.refused("no floor", "cellar/a :\n")

    def test_a_line_that_is_no_room(self):
        with self.assertRaisesRegex(ValueError, "expected"):
            check_includes.read_rooms("science/a science/b\n")


if __name__ == "__main__":
    unittest.main()

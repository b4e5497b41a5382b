"""export, import, backup, restore, check: by the command line, on a shop that is worked in meanwhile."""
import hashlib
import json
import os
import shutil
import signal
import subprocess
import tempfile
import unittest
from pathlib import Path

from bench_server import BINARY, PATIENCE_S, Server, entry, height, new_id, run

PHOTO = b"\xff\xd8\xff\xe0 a photo \xff\xd9"
BENCH = {"fallaway": 1, "instrument": {"kind": "electric guitar", "maker": "Ostrel", "model": "Heron"}}


class Upkeep(unittest.TestCase):
    def setUp(self):
        self.place = Path(tempfile.mkdtemp(prefix="fallaway_upkeep_"))
        self.addCleanup(shutil.rmtree, self.place, True)
        self.shop = self.place / "shop"

    def done(self, *words):
        code, out, err = run(*words)
        self.assertEqual((code, err), (0, ""), out)
        return out

    def refused(self, *words):
        """The error of a command that must refuse."""
        code, out, err = run(*words, "--json")
        self.assertEqual((code, out), (2, ""), err)
        return json.loads(err)["error"]

    def write(self, name, bench, beside=()):
        path = self.place / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(json.dumps(bench))
        for file, bytes in dict(beside).items():
            (path.parent / file).parent.mkdir(parents=True, exist_ok=True)
            (path.parent / file).write_bytes(bytes)
        return path

    def fill(self):
        """A shop with one visit that has a photo; the visit's id."""
        with Server(self.shop) as server:
            desk = server.client()
            visit = desk.open_visit()
            medium = desk.put("/api/media", PHOTO, type="image/jpeg").json
            desk.write(visit, height(1, "1.6 mm"), entry("/photos", {"path": medium["path"], "what": "arrival"}))
        return visit

    def test_out_and_in_again_with_photos(self):
        visit = self.fill()
        target = self.place / "out" / "heron.json"
        target.parent.mkdir()
        written = json.loads(self.done("export", target, "--shop", self.shop, "--visit", visit, "--json"))["written"]
        name = hashlib.sha256(PHOTO).hexdigest() + ".jpg"
        self.assertEqual(written, [str(target.parent / "heron_media" / name), str(target)])
        self.assertEqual((target.parent / "heron_media" / name).read_bytes(), PHOTO)
        self.assertEqual(json.loads(target.read_text())["photos"][0]["path"], f"heron_media/{name}")
        self.assertEqual(sorted(os.listdir(target.parent)), ["heron.json", "heron_media"])
        other = self.place / "other"
        arrived = json.loads(self.done("import", target, "--shop", other, "--json"))["visits"]
        self.assertEqual([one["new"] for one in arrived], [True])
        with Server(other) as server:
            desk = server.client()
            view = desk.get(f"/api/visits/{arrived[0]['visit']}").json
            photo = next(e["value"] for e in view["entries"] if e["path"] == "/photos")
            self.assertEqual(desk.get("/" + photo["path"]).body, PHOTO)
            self.assertTrue(desk.get("/api/visits").json["visits"][0]["verdict"])
        again = json.loads(self.done("import", target, "--shop", other, "--json"))["visits"]
        self.assertEqual([one["new"] for one in again], [False])
        back = self.place / "back.json"
        self.done("export", back, "--shop", other)
        was, now = json.loads(target.read_text()), json.loads(back.read_text())
        now["photos"][0]["path"] = now["photos"][0]["path"].replace("back_media", "heron_media")
        self.assertEqual(was, now)

    def test_all_visits_into_a_folder(self):
        with Server(self.shop, "--demo"):
            pass
        target = self.place / "all"
        self.done("export", target, "--all", "--shop", self.shop)
        files = sorted(target.glob("*.json"))
        self.assertEqual(len(files), 3)
        self.assertTrue(any(path.name.startswith("ostrel_heron_") for path in files))
        self.done("export", target, "--all", "--shop", self.shop)  # the same again is no harm
        files[0].write_text("{}")
        error = self.refused("export", target, "--all", "--shop", self.shop)
        self.assertEqual(error["path"], str(files[0]))
        self.assertEqual(files[0].read_text(), "{}")
        self.assertEqual(sorted(target.glob("*.json")), files)

    def test_what_goes_out_must_be_named(self):
        with Server(self.shop, "--demo"):
            pass
        self.assertEqual(self.refused("export", self.place / "x.json", "--shop", self.shop)["path"], "--visit")
        self.assertEqual(self.refused("export", self.place / "x.json", "--shop", self.shop, "--visit", new_id())["path"],
                         "--visit")
        self.assertEqual(self.refused("export", self.place / "x.json", "--shop", self.place / "none")["code"], "file")
        self.assertFalse((self.place / "none").exists())

    def test_paths_that_lead_out_are_refused_by_name(self):
        outside = self.place / "outside.jpg"
        outside.write_bytes(PHOTO)
        (self.place / "in").mkdir()
        (self.place / "in" / "link.jpg").symlink_to(outside)
        (self.place / "in" / "folder").symlink_to(self.place)
        for path, code in (("../outside.jpg", "forbidden"), (str(outside), "forbidden"), ("link.jpg", "forbidden"),
                           ("folder/outside.jpg", "forbidden"), ("a/../../outside.jpg", "forbidden"),
                           ("not_there.jpg", "missing"), ("in.json", "type"), (".", "type"),
                           ("/dev/zero", "forbidden"), ("media/../../outside.jpg", "forbidden")):
            file = self.write("in/in.json", {**BENCH, "photos": [{"path": path}]})
            error = self.refused("import", file, "--shop", self.shop)
            self.assertEqual((path, error["code"], error["path"]), (path, code, "/photos/0/path"))
            self.assertIn(path[:30], error["message"])  # long ones are cut
        with Server(self.shop) as server:
            self.assertEqual(server.client().get("/api/visits").json["total"], 0)

    def test_photos_that_are_none_are_refused(self):
        file = self.write("a.json", {**BENCH, "photos": [{"path": "x.jpg"}]}, {"x.jpg": b"<html>"})
        self.assertEqual(self.refused("import", file, "--shop", self.shop)["code"], "type")

    def test_one_bad_file_keeps_all_out(self):
        good = self.write("good.json", BENCH)
        bad = self.write("bad.json", {**BENCH, "scope": "no such scope"})
        code, out, err = run("import", good, bad, "--shop", self.shop)
        self.assertEqual((code, out), (2, ""))
        self.assertIn("bad.json: /scope", err)
        with Server(self.shop) as server:
            self.assertEqual(server.client().get("/api/visits").json["total"], 0)

    def test_backup_while_others_write_and_restore(self):
        visit = self.fill()
        backup = self.place / "backup"
        with Server(self.shop) as server:
            desk = server.client()
            desk.write(visit, entry("/remarks", {"text": "before"}))
            self.done("backup", backup, "--shop", self.shop)
            desk.write(visit, entry("/remarks", {"text": "after"}))
            self.assertEqual(self.refused("restore", backup, "--shop", self.shop)["code"], "busy")
        self.assertEqual(self.refused("backup", backup, "--shop", self.shop)["code"], "file")
        self.assertFalse((backup / "secret").exists())
        answer = json.loads(self.done("restore", backup, "--shop", self.shop, "--json"))
        self.assertTrue(Path(answer["kept"], "shop.sqlite").exists())
        with Server(self.shop) as server:
            texts = json.dumps(server.client().get(f"/api/visits/{visit}").json["entries"])
        self.assertIn("before", texts)
        self.assertNotIn("after", texts)
        self.done("check", "--shop", self.shop)

    def test_check_tells_what_is_wrong(self):
        self.fill()
        photo = next((self.shop / "media").rglob("*.jpg"))
        photo.write_bytes(PHOTO[:-1] + b"x")
        code, out, err = run("check", "--shop", self.shop)
        self.assertEqual((code, out), (2, ""))
        self.assertIn(photo.name, err)
        code, out, _ = run("check", "--shop", self.shop, "--json")
        self.assertEqual((code, len(json.loads(out)["faults"])), (2, 1))
        code, _, err = run("check", "--shop", self.place / "none")
        self.assertEqual(code, 2)

    def test_ctrl_c_leaves_nothing_half_made(self):
        files = [self.write(f"many/{n}.json", {**BENCH, "job": {"id": f"{n}"}}) for n in range(400)]
        process = subprocess.Popen([BINARY, "import", *files, "--shop", self.shop], stdout=subprocess.PIPE,
                                   stderr=subprocess.PIPE)
        while not (self.shop / "shop.sqlite").exists() and process.poll() is None:
            pass
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=PATIENCE_S)
        self.assertEqual(process.returncode, 2, err)
        self.assertIn(b"stopped", err)
        self.done("check", "--shop", self.shop)
        with Server(self.shop) as server:
            total = server.client().get("/api/visits").json["total"]
        self.assertEqual(total, out.count(b": visit "))
        self.assertLess(total, len(files))

    def test_the_usual_shop_is_in_the_users_data_folder(self):
        file = self.write("a.json", BENCH)
        code, _, err = run("import", file, env={"XDG_DATA_HOME": str(self.place / "data")})
        self.assertEqual((code, err), (0, ""))
        self.assertTrue((self.place / "data" / "fallaway" / "shop.sqlite").exists())


if __name__ == "__main__":
    unittest.main()

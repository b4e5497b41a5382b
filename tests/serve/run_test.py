"""Starting and stopping, disks that are full or cannot be written."""
import contextlib
import json
import os
import shutil
import socket
import subprocess
import tempfile
import unittest
from pathlib import Path

from bench_server import BINARY, OPEN_TO, Server, entry, height, new_id, run


def may_mount():
    """Only root may, and not in every container."""
    probe = subprocess.run(["unshare", "-m", "sh", "-c", "mount -t tmpfs tmpfs /mnt"], capture_output=True)
    return probe.returncode == 0


class Starting(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.mkdtemp(prefix="fallaway_run_")
        self.addCleanup(shutil.rmtree, self.folder, True)

    def test_says_where_it_is(self):
        with Server(self.folder) as server:
            self.assertEqual(set(server.said), {"schema", "address"})
            self.assertEqual(server.client().get("/api/shop").status, 200)

    def test_stops_when_it_is_asked_and_says_goodbye(self):
        server = Server(self.folder).start()
        desk = server.client()
        visit = desk.open_visit()
        line = desk.live(visit)
        line.heard("judged")
        self.assertEqual(server.stop(), 0)
        self.assertEqual(line.close_code(), 1001)
        line.close()
        self.assertEqual((server.out, server.err), (b"", b""))
        # Nothing waits to be written: the database is one file again, and whole.
        self.assertEqual(run("check", "--shop", self.folder)[0], 0)

    def test_a_port_that_is_taken(self):
        with socket.socket() as taken:
            taken.bind(("127.0.0.1", 0))
            taken.listen()
            port = taken.getsockname()[1]
            code, out, err = run("serve", "--port", port, "--shop", self.folder)
            self.assertEqual((code, out), (2, ""))
            self.assertIn(f"port {port}", err)
            code, _, err = run("serve", "--json", "--port", port, "--shop", self.folder)
            self.assertEqual((code, json.loads(err)["error"]["code"]), (2, "address"))

    def test_addresses_that_are_not_ours(self):
        for address in ("0.0.0.0", "127.0.0.1", "::", "192.0.2.77", "shop.example", "1.2.3"):
            code, _, err = run("serve", "--port", "40999", "--open-to", address, "--shop", self.folder)
            self.assertEqual(code, 2, address)
            self.assertIn(address, err)
        code, _, err = run("serve", "--port", "0", "--open-to", OPEN_TO, "--shop", self.folder)
        self.assertEqual(code, 2)
        self.assertIn("--port", err)

    def test_a_folder_that_is_a_file(self):
        path = Path(self.folder) / "file"
        path.write_text("x")
        code, _, err = run("serve", "--port", "0", "--shop", path)
        self.assertEqual(code, 2)
        self.assertIn(str(path), err)

    def test_two_servers_at_one_shop(self):
        with Server(self.folder) as one, Server(self.folder) as two:
            visit = one.client().open_visit()
            desk = two.client()
            desk.write(visit, entry("/remarks", {"text": "from the other"}))
            view = one.client().get(f"/api/visits/{visit}").json
            self.assertIn("/remarks", [e["path"] for e in view["entries"]])

    def test_the_demo_comes_once(self):
        for _ in range(2):
            with Server(self.folder, "--demo") as server:
                self.assertEqual(server.client().get("/api/visits").json["total"], 3)
        with Server(None) as plain:
            self.assertEqual(plain.client().get("/api/visits").json["total"], 0)

    def test_verdicts_come_to_the_list_by_themselves(self):
        with Server(self.folder, "--demo") as server:
            desk = server.client()
            line = desk.live()
            while not all(visit["verdict"] for visit in desk.get("/api/visits").json["visits"]):
                line.heard("visits")
            line.close()


@unittest.skipUnless(may_mount(), "mounting a small disk needs root")
class Disks(unittest.TestCase):
    """The server runs among mounts of its own; its disk is reached from here through /proc."""

    def start(self, commands, **more):
        self.place = tempfile.mkdtemp(prefix="fallaway_disk_")
        self.addCleanup(shutil.rmtree, self.place, True)
        script = f"{commands.format(place=self.place, **more)} && exec \"$@\""
        server = Server(f"{self.place}/shop", wrap=["unshare", "-m", "sh", "-c", script, "sh"]).start()
        self.addCleanup(server.stop)
        self.pid = server.process.pid
        self.seen = Path(f"/proc/{self.pid}/root{self.place}")
        return server.client()

    def test_a_full_disk(self):
        desk = self.start("mount -t tmpfs -o size=6m tmpfs {place}")
        visit = desk.open_visit()
        before = desk.write(visit, height(1, "1.6 mm"))
        with contextlib.suppress(OSError), open(self.seen / "filler", "wb", buffering=0) as filler:
            while True:
                filler.write(b"x" * 65536)
        refused = None
        for n in range(2000):
            made = entry("/remarks", {"text": f"{n} " + "x" * 8000})
            answer = desk.add(visit, made)
            if answer.status != 200:
                refused = answer
                break
            before = answer.json["seq"]
        self.assertEqual((refused.status, refused.code), (507, "full"))
        self.assertIn("disk", refused.json["error"]["message"])
        answer = desk.put("/api/media", b"\x89PNG\r\n\x1a\n" + b"x" * 100000, type="image/png")
        self.assertEqual((answer.status, answer.code), (507, "full"))
        # What was there can be read, and with room again work goes on where it stopped.
        self.assertEqual(desk.get(f"/api/visits/{visit}").json["seq"], before)
        os.remove(self.seen / "filler")
        self.assertEqual(desk.add(visit, made).status, 200)
        self.assertEqual(desk.put("/api/media", b"\x89PNG\r\n\x1a\n" + b"x" * 100000, type="image/png").status, 200)
        ids = [e["id"] for e in desk.get(f"/api/visits/{visit}/history").json["entries"]]
        self.assertEqual(ids.count(made["id"]), 1)
        check = subprocess.run(["nsenter", "-t", str(self.pid), "-m", BINARY, "check", "--shop", f"{self.place}/shop"],
                               capture_output=True)
        self.assertEqual((check.returncode, check.stderr), (0, b""))

    def test_a_disk_that_cannot_be_written(self):
        with Server(None) as server:
            visit = server.client().open_visit()
            server.client().write(visit, height(1, "1.6 mm"))
            server.stop()
            desk = self.start("cp -r {shop} {place}/shop && mount --bind {place} {place} "
                              "&& mount -o remount,ro,bind {place}", shop=server.folder)
            self.assertEqual(desk.get(f"/api/visits/{visit}").status, 200)
            for answer in (desk.add(visit, height(2, "1.6 mm")), desk.put("/api/shop", {"name": "x"}),
                           desk.post("/api/visits", {"id": new_id(), "kind": "electric bass"}),
                           desk.put("/api/media", b"\x89PNG\r\n\x1a\n", type="image/png")):
                self.assertEqual((answer.status, answer.code), (507, "read only"), answer.body)
                self.assertTrue(answer.json["error"]["message"])


class Slow(unittest.TestCase):
    def test_requests_under_way_are_answered_when_it_stops(self):
        with Server(None) as server:
            desk = server.client()
            visit = desk.open_visit()
            with socket.create_connection(("127.0.0.1", server.port), timeout=60) as line:
                body = json.dumps({"entries": [entry("/remarks", {"text": "the last word"})]}).encode()
                head = (f"POST /api/visits/{visit}/entries HTTP/1.1\r\nHost: 127.0.0.1:{server.port}\r\n"
                        f"Origin: {desk.origin}\r\nX-Device: {desk.device}\r\nContent-Type: application/json\r\n"
                        f"Content-Length: {len(body)}\r\nExpect: 100-continue\r\n\r\n").encode()
                line.sendall(head)
                self.assertIn(b" 100 ", line.recv(4096))  # so the server has it in hand
                server.process.terminate()
                line.sendall(body)
                answer = b""
                while more := line.recv(4096):
                    answer += more
                self.assertIn(b" 200 ", answer.split(b"\r\n")[0])
            self.assertEqual(server.wait(), 0)


if __name__ == "__main__":
    unittest.main()

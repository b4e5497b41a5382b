"""What others may try over the loopback listener: other sites, other names, other bytes."""
import http.client
import json
import socket
import time
import unittest

from bench_server import Live, ServedTest, entry, new_id

SCRIPT = "<script>alert(1)</script><img src=x onerror=alert(2)>'\"&"
STRANGE = ["../../etc/passwd", "..\\..\\x", "\u202egnp.exe", "a\u0000b".replace("\u0000", ""), "' OR 1=1 --", "x" * 150,
           "\U0001f3b8 naïve ﬁ", "=1+1", "%2e%2e%2f", "${jndi:x}"]


class OtherSites(ServedTest):
    def test_nothing_changes_for_a_page_of_another_site(self):
        for origin in ("https://example.org", "null", f"http://127.0.0.1:{self.server.port + 1}",
                       f"http://localhost.example.org:{self.server.port}", None):
            answer = self.desk.put("/api/shop", {"name": "taken"}, headers={"Origin": origin})
            self.assertEqual((origin, answer.status), (origin, 403))
        # A form can send neither JSON nor our origin; a form with our origin (a page that was tricked) no JSON.
        answer = self.desk.put("/api/shop", b'{"name": "taken"}', type="text/plain")
        self.assertEqual((answer.status, answer.code), (400, "type"))
        self.assertNotEqual(self.desk.get("/api/shop").json.get("name"), "taken")

    def test_other_sites_read_nothing(self):
        answer = self.desk.get("/api/shop", headers={"Origin": "https://example.org"})
        self.assertEqual(answer.status, 403)
        answer = self.desk.get("/api/shop")
        self.assertIsNone(answer.headers["Access-Control-Allow-Origin"])
        self.assertEqual(answer.headers["Cross-Origin-Resource-Policy"], "same-origin")

    def test_a_name_that_points_at_us_is_not_ours(self):
        for host in ("evil.example", f"evil.example:{self.server.port}", "127.0.0.1:1", ""):
            answer = self.desk.get("/api/shop", headers={"Host": host})
            self.assertIn(answer.status, (400, 421))

    def test_no_line_for_another_site(self):
        visit = self.desk.open_visit()
        for origin in ("https://example.org", "null", None):
            line = Live(self.desk, f"/api/live?device={new_id()}&visit={visit}", {"Origin": origin})
            self.assertEqual((origin, line.status), (origin, 403))
            line.close()
        line = Live(self.desk, f"/api/live?device={new_id()}&visit={new_id()}")
        self.assertEqual(line.status, 404)
        line.close()

    def test_what_every_answer_forbids(self):
        for path in ("/", "/api/shop", "/nothing/here", "/api/nothing"):
            headers = self.desk.get(path).headers
            self.assertIn("default-src 'none'", headers["Content-Security-Policy"])
            self.assertNotIn("unsafe-eval", headers["Content-Security-Policy"])
            self.assertEqual(headers["X-Content-Type-Options"], "nosniff")
            self.assertIn("frame-ancestors 'none'", headers["Content-Security-Policy"])


class Bytes(ServedTest):
    def raw(self, bytes_sent, until_closed=True):
        with socket.create_connection(("127.0.0.1", self.server.port), timeout=60) as line:
            line.sendall(bytes_sent)
            got = b""
            while more := line.recv(65536):
                got += more
                if not until_closed:
                    break
            return got

    def status(self, head):
        host = f"Host: 127.0.0.1:{self.server.port}\r\nConnection: close\r\n"
        answer = self.raw(f"{head}\r\n{host}\r\n".encode())
        return int(answer.split()[1])

    def test_no_path_leads_to_a_file(self):
        for path in ("/../../etc/passwd", "/assets/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd",
                     "/assets/..%2f..%2fetc%2fpasswd", "/media/..%2f..%2fshop.sqlite", "/media/%2e%2e",
                     "/assets/%5c..%5c..%5cshop.sqlite", "//etc/passwd", "/media/shop.sqlite", "/secret/authority.pem",
                     "/media/%00", "/assets/%c0%ae%c0%ae/x"):
            answer = self.raw(f"GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{self.server.port}\r\n"
                              "Connection: close\r\n\r\n".encode())
            self.assertIn(int(answer.split()[1]), (400, 404), path)
            self.assertNotIn(b"SQLite format", answer)
            self.assertNotIn(b"root:", answer)
            self.assertNotIn(b"PRIVATE KEY", answer)

    def test_too_large_a_body(self):
        answer = self.desk.put("/api/shop", b'{"name": "' + b"x" * (1 << 20) + b'"}')
        self.assertEqual((answer.status, answer.code), (413, "size"))

    def test_too_large_a_header(self):
        self.assertEqual(self.status("GET / HTTP/1.1\r\nCookie: " + "x" * 20000), 431)

    def test_too_large_a_frame_and_no_text(self):
        line = self.desk.live(self.desk.open_visit())
        line.send(b"x" * (300 << 10))
        self.assertEqual(line.close_code(), 1009)
        line = self.desk.live()
        line.send(b"{}", opcode=2)
        self.assertEqual(line.close_code(), 1003)
        line = self.desk.live()
        line.send(b"no json")
        self.assertEqual(line.close_code(), 1008)

    def test_deep_broken_and_doubled_json(self):
        visit = self.desk.open_visit()
        for body in (b"[" * 100000, b"{", b'{"entries": [], "entries": []}', b'\xff\xfe{}', b"null", b"[]", b"",
                     b'{"entries": [' + b'{"id": "00",' * 3 + b"]}", b'{"entries": [1e999]}'):
            answer = self.desk.post(f"/api/visits/{visit}/entries", body)
            self.assertEqual(answer.status, 400, body[:40])
            self.assertTrue(answer.json["error"]["message"])

    def test_more_entries_than_are_taken(self):
        visit = self.desk.open_visit()
        many = [entry("/remarks", {"text": "x"}) for _ in range(501)]
        answer = self.desk.add(visit, *many)
        self.assertEqual((answer.status, answer.code), (413, "size"))
        self.assertEqual(self.desk.add(visit, *many[:500]).status, 200)

    def test_smuggled_requests(self):
        host = f"Host: 127.0.0.1:{self.server.port}"
        for head in (f"GET / HTTP/1.1\r\n{host}\r\n{host}", f"GET / HTTP/1.1\r\n{host}\r\nHost: evil.example",
                     f"POST /api/visits HTTP/1.1\r\n{host}\r\nContent-Length: 3\r\nTransfer-Encoding: chunked",
                     f"GET / HTTP/1.1\r\n{host}\r\nContent-Length: 1\r\nContent-Length: 2", "GET / HTTP/1.1"):
            answer = self.raw(f"{head}\r\n\r\n".encode(), until_closed=False)
            self.assertEqual(int(answer.split()[1]) // 100, 4, head)

    def test_media_are_what_they_say(self):
        for body, type in ((b"<svg onload=alert(1)>", "image/png"), (b"GIF89a", "image/gif"),
                           (b"<html>", "text/html"), (b"\x89PNG\r\n\x1a\n", "image/jpeg"), (b"", "image/png"),
                           (b"RIFF\0\0\0\0WAVEfmt ", "image/webp"), (b"\xff\xd8\xff", "image/svg+xml")):
            answer = self.desk.put("/api/media", body, type=type)
            self.assertEqual((type, answer.status // 100), (type, 4))
        # JPEG bytes with a page behind them: taken as a JPEG, given as a JPEG and nothing else.
        medium = self.desk.put("/api/media", b"\xff\xd8\xff\xe0<script>alert(1)</script>", type="image/jpeg").json
        answer = self.desk.get("/" + medium["path"])
        self.assertEqual(answer.headers["Content-Type"], "image/jpeg")
        self.assertEqual(answer.headers["X-Content-Type-Options"], "nosniff")
        self.assertIn("sandbox", answer.headers["Content-Security-Policy"])

    def test_hostile_bench_files(self):
        for body in (b"PK\x03\x04" + b"\0" * 100, b"\x1f\x8b" + b"\0" * 50, b'{"fallaway": 99}',
                     b'{"fallaway": 1, "instrument": {"kind": "electric guitar", "frets": 1e9}}',
                     b'{"fallaway": 1}' + b" " * 100 + b"x"):
            answer = self.desk.post(f"/api/import?id={new_id()}", body)
            self.assertEqual(answer.status, 400, body[:30])
        self.assertEqual(self.desk.post("/api/import?id=../../x", b"{}").status, 400)


class Texts(ServedTest):
    def test_script_stays_text_everywhere(self):
        visit = self.desk.open_visit(player=SCRIPT, by="Ruta Vell")
        paths = {"/instrument/maker": SCRIPT, "/instrument/model": SCRIPT, "/instrument/serial": SCRIPT,
                 "/job/owner": SCRIPT, "/remarks": {"text": SCRIPT, "by": SCRIPT},
                 "/wants/complaints": {"text": SCRIPT}}
        for path, value in paths.items():
            answer = self.desk.add(visit, entry(path, value))
            self.assertEqual(answer.status, 200, (path, answer.body))
        texts = json.dumps(self.desk.get(f"/api/visits/{visit}").json["entries"])
        self.assertEqual(texts.count(json.dumps(SCRIPT)), 8)  # player, and the seven above
        self.assertEqual(json.loads(self.desk.get(f"/api/visits/{visit}/bench").body)["instrument"]["maker"], SCRIPT)
        report = self.desk.get(f"/api/visits/{visit}/report")
        self.assertIn(b"&lt;script&gt;", report.body)
        for raw in (b"<script", b"<img src=x"):
            self.assertNotIn(raw, report.body)
        self.assertNotIn("script-src", report.headers["Content-Security-Policy"])
        self.assertRegex(report.headers["Content-Disposition"], r'^inline; filename="[a-z0-9_]{1,60}\.html"$')

    def test_strange_names_come_back_as_they_went_in(self):
        for name in STRANGE:
            answer = self.desk.put("/api/people", {"name": name, "remark": name})
            if answer.status == 200:
                self.assertIn(name, [person["name"] for person in answer.json["people"]])
            else:
                self.assertEqual(answer.status, 400, (name, answer.body))
            self.assertEqual(self.desk.get("/api/visits?q=" + "".join(f"%{b:02x}" for b in name.encode())).status, 200)

    def test_an_id_is_an_id(self):
        for bad in ("", "x", "0" * 15, "0" * 17, "G" * 16, "0123456789ABCDEF", "../0123456789ab", None, 7):
            answer = self.desk.post("/api/visits", {"id": bad, "kind": "electric guitar"})
            self.assertEqual((bad, answer.status), (bad, 400))
        answer = self.desk.post("/api/visits", {"id": new_id(), "kind": "electric guitar"},
                                headers={"X-Device": "not an id"})
        self.assertEqual((answer.status, answer.json["error"]["path"]), (400, "X-Device"))


class SlowClients(ServedTest):
    """A hundred that send a byte and then nothing, while somebody works."""

    def test_others_work_on_and_the_slow_are_let_go(self):
        slow = [socket.create_connection(("127.0.0.1", self.server.port), timeout=60) for _ in range(100)]
        for line in slow:
            line.sendall(b"G")
        visit = self.desk.open_visit()
        self.assertEqual(self.desk.add(visit, entry("/remarks", {"text": "meanwhile"})).status, 200)
        began = time.monotonic()
        for line in slow:
            while line.recv(4096):
                pass
            line.close()
        self.assertLess(time.monotonic() - began, 60)

    def test_too_many_connections_of_one_peer(self):
        lines = [socket.create_connection(("127.0.0.1", self.server.port), timeout=60) for _ in range(140)]
        request = f"GET /api/shop HTTP/1.1\r\nHost: 127.0.0.1:{self.server.port}\r\n\r\n".encode()
        lines[-1].sendall(request)
        self.assertIn(b" 503 ", lines[-1].recv(4096).split(b"\r\n")[0])
        for line in lines:
            line.close()
        connection = http.client.HTTPConnection("127.0.0.1", self.server.port, timeout=60)
        for _ in range(100):  # the server sees the closing a moment later
            connection.request("GET", "/api/shop")
            answer = connection.getresponse()
            answer.read()
            if answer.status == 200:
                break
            connection.close()
        self.assertEqual(answer.status, 200)


if __name__ == "__main__":
    unittest.main()

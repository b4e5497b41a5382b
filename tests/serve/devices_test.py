"""Two devices at one visit, and tablets over the shop's network: pairing, tokens, taking out."""
import contextlib
import http.client
import os
import re
import ssl
import unittest

from bench_server import OPEN_TO, Live, OpenedServer, ServedTest, entry, height, new_id


class TwoAtOneVisit(ServedTest):
    def setUp(self):
        super().setUp()
        self.phone = self.server.client()
        self.visit = self.desk.open_visit()
        self.lines = [self.desk.live(self.visit), self.phone.live(self.visit)]
        for line in self.lines:
            line.heard("judged")
            self.addCleanup(line.close)

    def test_each_sees_what_the_other_writes(self):
        for writer, reader in ((self.desk, self.lines[1]), (self.phone, self.lines[0])):
            made = height(1, "1.6 mm") if writer is self.desk else height(2, "1.7 mm")
            seq = writer.write(self.visit, made)
            heard = reader.heard("visit", seq=seq)
            self.assertIn(made["id"], [put["id"] for put in heard["put"]])
            self.assertEqual(reader.heard("judged", seq=seq)["whole"], False)

    def test_what_both_wrote_unseen_is_a_conflict_until_one_is_kept(self):
        seen = self.desk.get(f"/api/visits/{self.visit}").json["seq"]
        mine, theirs = height(3, "1.6 mm", saw=seen), height(3, "1.9 mm", saw=seen)
        self.desk.write(self.visit, mine)
        self.phone.write(self.visit, theirs)
        conflicts = self.desk.get(f"/api/visits/{self.visit}").json["conflicts"]
        self.assertEqual([(c["earlier"], c["later"]) for c in conflicts], [(mine["id"], theirs["id"])])
        seq = self.phone.write(self.visit, entry("", replaces=[mine["id"]]))
        self.assertEqual(self.lines[0].heard("visit", seq=seq)["drop"], [mine["id"]])
        self.assertEqual(self.desk.get(f"/api/visits/{self.visit}").json["conflicts"], [])

    def test_undo_takes_back_only_ones_own(self):
        mine, theirs = height(4, "1.6 mm"), height(5, "1.9 mm")
        self.desk.write(self.visit, mine)
        self.phone.write(self.visit, theirs)
        undo = {"id": new_id()}
        first = self.desk.post(f"/api/visits/{self.visit}/undo", undo).json
        self.assertEqual(first["took_back"]["id"], mine["id"])
        self.assertEqual(self.desk.post(f"/api/visits/{self.visit}/undo", undo).json, first)
        ids = [e["id"] for e in self.phone.get(f"/api/visits/{self.visit}").json["entries"]]
        self.assertIn(theirs["id"], ids)
        self.assertNotIn(mine["id"], ids)
        stranger = self.server.client()
        answer = stranger.post(f"/api/visits/{self.visit}/undo", {"id": new_id()}).json
        self.assertNotIn("took_back", answer)

    def test_a_line_that_was_lost_comes_back_with_what_it_missed(self):
        seq = self.desk.get(f"/api/visits/{self.visit}").json["seq"]
        self.lines[1].close()
        made = [height(1, "1.6 mm"), height(2, "1.6 mm")]
        for one in made:
            self.desk.write(self.visit, one)
        again = self.phone.live(self.visit, since=seq)
        self.addCleanup(again.close)
        self.assertEqual([put["id"] for put in again.heard("visit")["put"]], [one["id"] for one in made])


class Paired(ServedTest):
    server_class = OpenedServer

    def test_a_tablet_is_let_in_works_and_is_taken_out(self):
        tablet = self.server.paired("bench tablet")
        shop = tablet.get("/api/shop").json
        self.assertEqual((shop["local"], shop["opened"], shop["device"]["name"]), (False, True, "bench tablet"))
        visit = tablet.open_visit()
        self.assertEqual(tablet.add(visit, height(1, "1.6 mm")).status, 200)
        devices = [e["device"] for e in tablet.get(f"/api/visits/{visit}/history").json["entries"]]
        self.assertIn(tablet.device, devices)
        line = tablet.live(visit)
        line.heard("judged")
        self.assertIn(tablet.device, [d["id"] for d in self.desk.get("/api/devices").json["devices"]])
        answer = self.desk.ask("DELETE", f"/api/devices/{tablet.device}").json["devices"]
        self.assertTrue(next(d for d in answer if d["id"] == tablet.device)["revoked"])
        self.assertEqual(line.close_code(), 1008)
        stolen = tablet.get("/api/shop")
        self.assertEqual((stolen.status, stolen.code), (401, "login"))
        self.assertEqual(Live(tablet, f"/api/live?device={tablet.device}").status, 401)

    def test_the_cookie_is_kept_to_this_shop(self):
        tablet = self.server.tablet()
        code = self.desk.post("/api/pairing", {}).json["code"]
        self.assertRegex(code, r"^[A-Z0-9]{4}-[A-Z0-9]{4}$")
        cookie = tablet.post("/api/pair", {"code": code.lower(), "name": "phone"}).headers["Set-Cookie"]
        self.assertRegex(cookie, r"^__Host-fallaway=[0-9a-f]{64};")
        for part in ("Path=/", "Secure", "HttpOnly", "SameSite=Strict"):
            self.assertIn(part, cookie.split("; "))
        # The token stands nowhere in the shop's folder.
        token = re.match(r"__Host-fallaway=([0-9a-f]+)", cookie)[1].encode()
        for path in self.server.folder.rglob("*"):
            if path.is_file():
                self.assertNotIn(token, path.read_bytes(), path)

    def test_a_stranger_sees_the_door_and_nothing_else(self):
        stranger = self.server.tablet()
        self.assertEqual(stranger.get("/").status, 200)
        self.assertEqual(stranger.get("/pair?code=x").status, 200)
        for method, path in (("GET", "/api/shop"), ("GET", "/api/visits"), ("GET", "/api/catalogue"),
                             ("POST", "/api/pairing"), ("GET", "/api/devices"), ("GET", "/api/nothing"),
                             ("PUT", "/api/shop"), ("GET", "/media/" + "0" * 64 + ".png")):
            answer = stranger.ask(method, path, {} if method != "GET" else None)
            self.assertEqual((path, answer.status, answer.code), (path, 401, "login"))
        self.assertEqual(Live(stranger, f"/api/live?device={new_id()}").status, 401)
        for cookie in ("__Host-fallaway=", "__Host-fallaway=" + "0" * 64, "__Host-fallaway", "x=y"):
            self.assertEqual(stranger.get("/api/shop", headers={"Cookie": cookie}).status, 401)

    def test_what_a_tablet_says_of_itself_does_not_count(self):
        tablet = self.server.paired()
        other = new_id()
        visit = tablet.open_visit()
        tablet.ask("POST", f"/api/visits/{visit}/entries", {"entries": [height(1, "1.6 mm")]},
                   headers={"X-Device": other})
        devices = [e["device"] for e in tablet.get(f"/api/visits/{visit}/history").json["entries"]]
        self.assertNotIn(other, devices)

    def test_codes_are_good_once(self):
        code = self.desk.post("/api/pairing", {}).json["code"]
        self.assertEqual(self.server.tablet().post("/api/pair", {"code": code, "name": "a"}).status, 200)
        answer = self.server.tablet().post("/api/pair", {"code": code, "name": "b"})
        self.assertEqual((answer.status, answer.json["error"]["path"]), (403, "/code"))

    def test_the_shop_survives_a_new_start_with_its_devices(self):
        tablet = self.server.paired("kept")
        self.server.stop()
        self.server.start()
        self.assertEqual(tablet.get("/api/shop").status, 200)

    def test_pages_of_other_sites_are_kept_out_here_too(self):
        tablet = self.server.paired()
        answer = tablet.put("/api/shop", {"name": "taken"}, headers={"Origin": "https://example.org"})
        self.assertEqual(answer.status, 403)
        self.assertIn(tablet.get("/api/shop", headers={"Host": "evil.example"}).status, (400, 421))


class Guessing(ServedTest):
    server_class = OpenedServer

    def test_guessing_ends_after_five_tries(self):
        tablet = self.server.tablet()
        code = self.desk.post("/api/pairing", {}).json["code"]
        for n in range(5):
            answer = tablet.post("/api/pair", {"code": f"AAAA-AAA{n + 2}", "name": "guess"})
            self.assertEqual((n, answer.status), (n, 403))
        refused = tablet.post("/api/pair", {"code": code, "name": "guess"})
        self.assertEqual((refused.status, refused.code), (429, "many"))
        self.assertGreater(int(refused.headers["Retry-After"]), 0)

    def test_strangers_who_ask_too_much_wait(self):
        stranger = self.server.tablet()
        statuses = [stranger.get("/api/shop").status for _ in range(300)]
        self.assertIn(429, statuses)
        # Who is at the shop's computer notices nothing.
        self.assertEqual(self.desk.get("/api/shop").status, 200)


class Trust(ServedTest):
    server_class = OpenedServer

    def notice(self, path, method="GET"):
        with contextlib.closing(http.client.HTTPConnection(OPEN_TO, self.server.open_port + 1, timeout=60)) as line:
            line.request(method, path)
            answer = line.getresponse()
            return answer.status, answer.headers, answer.read().decode()

    def test_the_notice_tells_how_and_hands_out_the_authority(self):
        status, headers, page = self.notice("/")
        self.assertEqual(status, 200)
        self.assertNotIn("<script", page)
        rows = re.search(r"<pre>([0-9A-F:\s]+)</pre>", page)[1].split()
        self.assertEqual(":".join(rows), self.server.said["fingerprint"])
        for system in ("iPadOS", "Android", "Windows", "macOS", "Linux"):
            self.assertIn(system, page)
        status, headers, pem = self.notice("/authority.crt")
        self.assertEqual((status, headers["Content-Type"]), (200, "application/x-x509-ca-cert"))
        self.assertIn("BEGIN CERTIFICATE", pem)
        self.assertNotIn("PRIVATE", pem)

    def test_the_notice_has_nothing_else(self):
        for path in ("/api/shop", "/assets/x.js", "/secret/authority.pem", "/api/pair", "/visits"):
            self.assertEqual(self.notice(path)[0], 404, path)
        self.assertEqual(self.notice("/", "POST")[0], 405)

    def test_without_trust_no_line(self):
        with self.assertRaises(ssl.SSLError):
            bare = http.client.HTTPSConnection(OPEN_TO, self.server.open_port, timeout=60,
                                               context=ssl.create_default_context())
            bare.request("GET", "/")

    def test_no_plain_line_to_the_page(self):
        plain = http.client.HTTPConnection(OPEN_TO, self.server.open_port, timeout=60)
        with self.assertRaises((http.client.HTTPException, OSError)):
            plain.request("GET", "/")
            plain.getresponse()

    def test_secrets_are_the_owners_alone(self):
        for path in (self.server.folder / "secret").iterdir():
            self.assertEqual(oct(os.stat(path).st_mode & 0o777), "0o600", path)


if __name__ == "__main__":
    unittest.main()

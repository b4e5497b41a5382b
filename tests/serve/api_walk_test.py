"""Every route once, every answer held against schema/api.schema.json; and the same work by API and by command line."""
import json
import re
import tempfile
import unittest
from pathlib import Path

import jsonschema

from bench_server import SOURCE, ServedTest, entry, height, new_id, run

SCHEMA = json.loads((SOURCE / "schema/api.schema.json").read_text())
# What GET /api/... answers, by the name in its "schema" key.
RECORDS = {"shop": "shop", "catalogue": "catalogue", "visits": "visits", "names": "names",
           "visit-opened": "visit_opened", "visit": "visit_view", "entries": "entries_stored", "tried": "tried",
           "visit-line": "visit_line", "history": "history", "dossier": "dossier", "medium": "medium",
           "pairing": "pairing", "paired": "paired", "devices": "devices"}
PNG = b"\x89PNG\r\n\x1a\n" + b"\0\0\0\rIHDR\0\0\0\x01\0\0\0\x01\x08\0\0\0\0"


def validate(message, record):
    jsonschema.Draft202012Validator({**SCHEMA, "$ref": f"#/$defs/{record}"}).validate(message)


class ApiWalk(ServedTest):
    words = ("--demo",)

    def ok(self, answer):
        """The answer's JSON, after its form was checked."""
        self.assertEqual(answer.status, 200, answer.body)
        self.assertTrue(answer.headers["Content-Type"].startswith("application/json"))
        message = answer.json
        validate(message, RECORDS[message["schema"].split("/")[1]])
        return message

    def refused(self, answer, status, code):
        self.assertEqual((answer.status, answer.code), (status, code), answer.body)
        validate(answer.json, "refusal")
        return answer.json["error"]

    def test_shop(self):
        desk = self.desk
        self.assertTrue(self.ok(desk.get("/api/shop"))["demo"])
        self.assertTrue(self.ok(desk.get("/api/shop"))["local"])
        self.assertEqual(self.ok(desk.put("/api/shop", {"name": "Vell's bench"}))["name"], "Vell's bench")
        self.ok(desk.put("/api/people", {"name": "Ruta Vell", "technician": True}))
        tool = {"id": "blue caliper", "kind": "digital caliper", "calibrated": "2026-01-05"}
        self.assertIn("blue caliper", [t["id"] for t in self.ok(desk.put("/api/tools", tool))["tools"]])
        self.refused(desk.put("/api/tools", {"id": "x", "kind": "no such kind"}), 400, "unknown")
        self.ok(desk.put("/api/rates", {"work": "set-up", "amount": "60 EUR"}))
        shop = self.ok(desk.ask("DELETE", "/api/rates/set-up"))
        self.assertNotIn("set-up", [rate["work"] for rate in shop["rates"]])
        self.refused(desk.ask("DELETE", "/api/rates/set-up"), 404, "not found")

    def test_shop_limits(self):
        limit = {"checkpoint": "relief", "low": "0.05 mm", "high": "0.2 mm", "source": "shop rule"}
        self.assertEqual(len(self.ok(self.desk.put("/api/limits", limit))["limits"]), 1)
        self.refused(self.desk.put("/api/limits", {**limit, "high": "2 kohm"}), 400, "unit")
        self.assertEqual(self.ok(self.desk.ask("DELETE", "/api/limits/relief")).get("limits", []), [])

    def test_catalogue_is_fetched_once(self):
        answer = self.desk.get("/api/catalogue")
        again = self.desk.get("/api/catalogue", headers={"If-None-Match": answer.headers["ETag"]})
        self.assertEqual((again.status, again.body), (304, b""))

    def test_visits(self):
        desk = self.desk
        visit = desk.open_visit(player="Joon Aster", scope="quick look", by="Ruta Vell")
        view = self.ok(desk.get(f"/api/visits/{visit}"))
        self.ok(desk.add(visit, height(1, "1.6 mm"), entry("/remarks", {"text": "quiet"})))
        view = self.ok(desk.get(f"/api/visits/{visit}"))
        self.ok(desk.post(f"/api/visits/{visit}/try", {"entries": [height(2, "9 mm")]}))
        self.assertEqual(len(self.ok(desk.get(f"/api/visits/{visit}"))["entries"]), len(view["entries"]))
        took = self.ok(desk.post(f"/api/visits/{visit}/undo", {"id": new_id()}))["took_back"]
        self.assertEqual(took["id"], view["undo"]["id"])
        self.ok(desk.get(f"/api/visits/{visit}/history"))
        self.assertTrue(self.ok(desk.post(f"/api/visits/{visit}/close", {"closed": True}))["closed"])
        dossier = self.ok(desk.get(f"/api/dossiers/{view['dossier']}"))
        self.assertEqual(dossier["visits"][0]["id"], visit)
        owner = self.ok(desk.put(f"/api/dossiers/{view['dossier']}", {"owner": "Maren Tolk"}))["owner"]
        self.assertEqual(owner, "Maren Tolk")
        found = self.ok(desk.get("/api/visits?q=joon&limit=1000"))["visits"]
        self.assertIn(visit, [line["id"] for line in found])
        self.ok(desk.get("/api/names?q=joon"))

    def test_stored_entries_come_again_the_same(self):
        visit = self.desk.open_visit()
        entries = [height(1, "1.6 mm"), height(2, "1.7 mm")]
        first = self.ok(self.desk.add(visit, *entries))
        self.assertEqual(self.ok(self.desk.add(visit, *entries)), first)
        other = {**entries[0], "value": {**entries[0]["value"], "value": "1.8 mm"}}
        self.assertEqual(self.refused(self.desk.add(visit, other), 409, "conflict")["path"], "/entries/0/id")

    def test_all_or_nothing(self):
        visit = self.desk.open_visit()
        before = self.desk.get(f"/api/visits/{visit}").json["seq"]
        error = self.refused(self.desk.add(visit, height(1, "1.6 mm"), height(2, "1.60")), 400, "unit")
        self.assertTrue(error["path"].startswith("/entries/1/value"), error)
        self.assertEqual(self.desk.get(f"/api/visits/{visit}").json["seq"], before)

    def test_media(self):
        medium = self.ok(self.desk.put("/api/media", PNG, type="image/png"))
        answer = self.desk.get("/" + medium["path"])
        self.assertEqual((answer.status, answer.body), (200, PNG))
        self.assertEqual(answer.headers["Content-Type"], "image/png")
        self.assertIn("immutable", answer.headers["Cache-Control"])
        self.refused(self.desk.get("/media/" + "0" * 64 + ".png"), 404, "not found")

    def test_sums_are_those_of_the_command_line(self):
        answer = self.desk.get("/api/sums")
        validate(answer.json, "sum_list")
        self.assertEqual(answer.body.decode(), run("sums", "--list", "--json")[1])
        for sum in answer.json["sums"]:
            given = self.desk.post(f"/api/sums/{sum['name']}", {"inputs": sum["example"]})
            self.assertEqual(given.status, 200, given.body)
            validate(given.json, "sum_answer")
            self.assertLessEqual(set(given.json["outputs"]), {output["name"] for output in sum["outputs"]})
        answer = self.desk.post("/api/sums/fret-places", {"inputs": {"scale": "635 mm", "frets": "22"}})
        self.assertEqual(answer.body.decode(), run("sums", "fret-places", "scale=635 mm", "frets=22", "--json")[1])
        self.refused(self.desk.post("/api/sums/fret-places", {"inputs": {"scale": "635"}}), 400, "unit")
        self.assertEqual(self.desk.post("/api/sums/none", {"inputs": {}}).status, 404)

    def test_devices(self):
        self.assertEqual(self.ok(self.desk.get("/api/devices"))["devices"], [])
        self.refused(self.desk.post("/api/pairing", {}), 409, "conflict")
        self.refused(self.desk.ask("DELETE", "/api/devices/" + new_id()), 404, "not found")

    def test_unknown_addresses_and_methods(self):
        self.refused(self.desk.get("/api/nothing"), 404, "not found")
        self.refused(self.desk.get("/api/visits/" + new_id()), 404, "not found")
        self.refused(self.desk.get("/api/visits/not-an-id"), 404, "not found")
        answer = self.desk.post("/api/catalogue", {})
        self.refused(answer, 405, "method")
        self.assertEqual(answer.headers["Allow"], "GET")
        self.assertEqual(self.desk.get("/visits/" + new_id() + "/action-12").headers["Content-Type"],
                         "text/html; charset=utf-8")

    def test_every_documented_get_was_walked(self):
        text = (SOURCE / "docs/api.md").read_text()
        documented = set(re.findall(r"^\| `GET (/api/[^`?{]+)[`?]", text, re.M))
        for path in sorted(documented):
            self.assertEqual(self.desk.get(path.rstrip("/")).status, 200, path)

    def test_live_messages(self):
        visit = self.desk.open_visit()
        line = self.desk.live(visit)
        self.addCleanup(line.close)
        for type in ("visit", "here", "judged"):
            validate(line.heard(type), f"live_{type}")
        self.desk.write(visit, height(1, "1.6 mm"))
        validate(line.heard("visit"), "live_visit")
        validate(line.heard("judged", whole=False), "live_judged")
        line.send({"type": "ping"})
        validate(line.heard("pong"), "live_pong")


class SameByBothWays(ServedTest):
    def test_export_assessed_is_the_view(self):
        visit = self.desk.open_visit(scope="quick look")
        for string, text in enumerate(("1.6 mm", "1.7 mm", "4/64 in", "0.07 in", "1.9 mm", "2.0 mm"), 1):
            self.desk.write(visit, height(string, text))
        self.desk.write(visit, entry("/hands", "adjust"), entry("/readings", {"what": "relief", "value": "0.3 mm"}))
        view = self.desk.get(f"/api/visits/{visit}").json
        with tempfile.TemporaryDirectory() as folder:
            target = Path(folder) / "one.json"
            code, _, err = run("export", target, "--shop", self.server.folder, "--visit", visit)
            self.assertEqual((code, err), (0, ""))
            self.assertEqual(json.loads(target.read_text()), self.desk.get(f"/api/visits/{visit}/bench").json)
            assessed = json.loads(run("assess", target, "--json")[1])
            report = Path(folder) / "report.html"
            run("assess", target, "--report", report)
            self.assertEqual(report.read_bytes(), self.desk.get(f"/api/visits/{visit}/report").body)
        self.assertEqual(assessed, view["assessment"])

    def test_a_file_comes_back_as_it_went_in(self):
        with tempfile.TemporaryDirectory() as folder:
            run("demo", folder)
            for path in sorted(Path(folder).glob("*.json")):
                visit = new_id()
                answer = self.desk.post(f"/api/import?id={visit}", path.read_bytes())
                self.assertEqual(answer.status, 200, answer.body)
                came = self.desk.get(f"/api/visits/{visit}/bench")
                again = new_id()
                self.assertEqual(self.desk.post(f"/api/import?id={again}", came.body).status, 200)
                self.assertEqual(self.desk.get(f"/api/visits/{again}/bench").body, came.body)
                self.assertEqual(self.desk.get(f"/api/visits/{visit}").json["assessment"],
                                 json.loads(run("assess", path, "--json")[1]))


if __name__ == "__main__":
    unittest.main()

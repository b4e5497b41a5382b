"""A visit that holds all a bench file can, entered piece by piece as oddly as people type, comes out as it went in."""
import copy
import hashlib
import json
import tempfile
import unittest
from pathlib import Path

from bench_server import SOURCE, Server, ServedTest, entry, new_id, run

SCHEMA = json.loads((SOURCE / "schema/bench.schema.json").read_text())["$defs"]
# Two bench files: no instrument is fretless, fanned and everything else at once.
TYPED = json.loads((Path(__file__).parent / "whole_visit.json").read_text())
PHOTO, RECORDING = b"\x89PNG\r\n\x1a\n a photo", b"fLaC a recording"
LISTS = {"readings", "ratings", "claims", "tools", "room", "recordings", "photos", "work", "accepted", "limits",
         "remarks", "wants/complaints", "card/lines"}
RECORDS = ("job", "instrument", "wants", "price", "card")


def keys_met(value, schema, met):
    """Notes in `met` every "record.key" of the bench file's schema that stands in the value."""
    if "$ref" in schema:
        name = schema["$ref"].rsplit("/", 1)[1]
        return keys_met(value, {**SCHEMA[name], "name": name}, met)
    for choice in schema.get("anyOf", ()):
        keys_met(value, choice, met)
    if isinstance(value, list):
        for item in value:
            keys_met(item, schema.get("items", {}), met)
    elif isinstance(value, dict) and set(value) <= set(schema.get("properties", ())):
        for key, member in value.items():
            met.add(f"{schema['name']}.{key}")
            keys_met(member, schema["properties"][key], met)
    return met


def everything_there_is():
    return {f"{name}.{key}" for name, record in SCHEMA.items() for key in record.get("properties", ())}


def entries_of(name, value):
    """A top-level key of a bench file as entries."""
    if name in RECORDS:
        pairs = [(f"{name}/{key}", member) for key, member in value.items()]
    else:
        pairs = [(name, value)]
    return [entry("/" + path, item) for path, whole in pairs for item in (whole if path in LISTS else [whole])]


def without_complaints(file):
    file = copy.deepcopy(file)
    complaints = file.get("wants", {}).pop("complaints", [])
    return file, [entry("/wants/complaints", item) for item in complaints]


class WholeVisit(ServedTest):
    def typed(self):
        """The files, with photos and recordings that the shop has."""
        paths = {}
        for mark, bytes, type in (("PHOTO", PHOTO, "image/png"), ("RECORDING", RECORDING, "audio/flac")):
            answer = self.desk.put("/api/media", bytes, type=type)
            self.assertEqual(answer.status, 200, answer.body)
            self.assertEqual(answer.json["hash"], hashlib.sha256(bytes).hexdigest())
            paths[mark] = answer.json["path"]
        text = json.dumps(TYPED, ensure_ascii=False)
        for mark, path in paths.items():
            text = text.replace(f'"{mark}"', f'"{path}"')
        return json.loads(text)

    def entered(self, file):
        """A visit into which two devices write the file in turns, one of them spelling every letter above ASCII out."""
        plain, escaping = self.desk, self.server.client()
        visit = plain.open_visit(file["instrument"]["kind"])
        file, complaints = without_complaints(file)
        # A scope names checkpoints of the procedure, an ending readings: what is named is written before.
        first = [name for name in ("instrument", "procedure") if name in file]
        rest = [name for name in file if name not in (*first, "fallaway")]
        groups = [entries_of(name, file[name]) for name in (*first, *rest)]
        for number, group in enumerate([*groups, complaints]):
            client = escaping if number % 2 else plain
            body = json.dumps({"entries": group}, ensure_ascii=bool(number % 2)).encode()
            if group:
                answer = client.post(f"/api/visits/{visit}/entries", body)
                self.assertEqual(answer.status, 200, (group[0]["path"], answer.body))
        return visit

    def test_nothing_a_bench_file_knows_is_left_out(self):
        met = set()
        for file in self.typed():
            visit = self.entered(file)
            keys_met(self.desk.get(f"/api/visits/{visit}/bench").json, {"$ref": "#/$defs/bench"}, met)
        self.assertEqual(everything_there_is() - met, set())

    def test_lists_are_those_of_the_manual(self):
        manual = (SOURCE / "docs/api.md").read_text()
        sentence = manual[manual.index("The lists are "):].split(".")[0]
        self.assertEqual({word.strip("`/ ,\n") for word in sentence.split("`")[1::2]}, LISTS)

    def test_comes_out_as_it_was_typed(self):
        for file in self.typed():
            came = self.desk.get(f"/api/visits/{self.entered(file)}/bench").json
            file["job"] = {**came["job"], **file.get("job", {})}  # the shop notes when the instrument came
            self.assertEqual(came, file)

    def test_out_and_in_again_gives_the_same_bytes(self):
        for file in self.typed():
            visit = self.entered(file)
            bytes = self.desk.get(f"/api/visits/{visit}/bench").body
            with tempfile.TemporaryDirectory() as folder, Server() as other:
                target = Path(folder) / "one.json"
                self.assertEqual(run("export", target, "--shop", self.server.folder, "--visit", visit)[::2], (0, ""))
                self.assertEqual(target.read_bytes().replace(b"one_media/", b"media/"),
                                 bytes)
                code, out, err = run("import", target, "--shop", other.folder, "--json")
                self.assertEqual((code, err), (0, ""))
                by_command = json.loads(out)["visits"][0]["visit"]
                self.assertEqual(other.client().get(f"/api/visits/{by_command}/bench").body, bytes)
                by_page = new_id()
                self.assertEqual(other.client().post(f"/api/import?id={by_page}", bytes).status, 200)
                self.assertEqual(other.client().get(f"/api/visits/{by_page}/bench").body, bytes)

    def test_assessed_by_both_ways(self):
        for file in self.typed():
            visit = self.entered(file)
            with tempfile.TemporaryDirectory() as folder:
                target = Path(folder) / "one.json"
                target.write_bytes(self.desk.get(f"/api/visits/{visit}/bench").body)
                code, out, err = run("assess", target, "--json")
                self.assertEqual((code, err), (0, ""))
                self.assertEqual(json.loads(out), self.desk.get(f"/api/visits/{visit}").json["assessment"])

    def test_a_decimal_comma_is_refused_by_place_and_nothing_is_kept(self):
        visit = self.desk.open_visit()
        before = self.desk.get(f"/api/visits/{visit}/bench").body
        for value in ("1,70 mm", "1 700,0 mm", "1.70", "1,5"):
            answer = self.desk.add(visit, entry("/readings", {"what": "relief", "value": value}))
            self.assertEqual((answer.status, answer.json["error"]["path"]), (400, "/entries/0/value/value"))
            self.assertIn(value, answer.json["error"]["message"])
        self.assertEqual(self.desk.get(f"/api/visits/{visit}/bench").body, before)


if __name__ == "__main__":
    unittest.main()

"""schema/bench.schema.json holds the good files and refuses broken ones, by a validator that is not ours
(python3-jsonschema, draft 2020-12)."""
import json
import unittest
from pathlib import Path

import jsonschema

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads((ROOT / "schema/bench.schema.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)

# Faults of form, which a schema can see. The others need the instrument, the calendar or the units.
REFUSED = """version-missing version-later version-text key-close key-unknown instrument-missing kind-missing
    kind-unknown hands-unknown demo-text null-value job-purpose job-received-form job-technicians-text
    job-owner-long hand-unknown scale-bare-number note-name string-core string-key frets-text frets-fraction
    frets-many radius-no-nut bridge-type pickup-without-name wants-tuning-note wants-rattle ending-word
    scope-empty-list claim-source-missing claim-outcome room-when-no-offset reading-what reading-value-missing
    reading-value-and-repeats reading-repeats-empty reading-list-value reading-fret-negative reading-string-0
    reading-side reading-place-key reading-stage rating-step rating-step-missing work-kind acceptance-by
    limit-source remark-text photo-mark photo-path-missing photo-key json-list json-number""".split()


def load(path):
    return json.loads(path.read_text(encoding="utf-8"))


class BenchSchemaTest(unittest.TestCase):
    def test_schema_is_valid_itself(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)

    def test_good_files_pass(self):
        for path in sorted((ROOT / "tests/good").glob("*.json")) + sorted((ROOT / "demo").glob("*.json")):
            with self.subTest(path.name):
                self.assertEqual([e.message for e in VALIDATOR.iter_errors(load(path))], [])

    def test_faults_of_form_are_refused(self):
        for name in REFUSED:
            with self.subTest(name):
                self.assertFalse(VALIDATOR.is_valid(load(ROOT / f"tests/broken/{name}.json")))


if __name__ == "__main__":
    unittest.main()

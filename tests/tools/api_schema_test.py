"""schema/api.schema.json holds one sample of every message as the program writes it, and refuses what is not one, by a
validator that is not ours (python3-jsonschema, draft 2020-12)."""
import copy
import json
import unittest
from pathlib import Path

import jsonschema

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads((ROOT / "schema/api.schema.json").read_text(encoding="utf-8"))
DEFS = SCHEMA["$defs"]
SAMPLES = json.loads((ROOT / "tests/shop/files/golden/api_samples.json").read_text(encoding="utf-8"))


def validator(name):
    return jsonschema.Draft202012Validator({"$ref": f"#/$defs/{name}", "$defs": DEFS})


class ApiSchemaTest(unittest.TestCase):
    def test_schema_is_valid_itself(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)

    def test_samples_pass(self):
        for sample in SAMPLES:
            with self.subTest(sample["is"]):
                errors = validator(sample["is"]).iter_errors(sample["value"])
                self.assertEqual([f"{list(e.absolute_path)}: {e.message}" for e in errors], [])

    def test_every_answer_has_a_sample(self):
        answers = {name for name, one in DEFS.items() if "schema" in one.get("properties", {})}
        # The list of sums is long; tests/serve/api_walk_test.py holds the program's own against the schema.
        self.assertLessEqual(answers - {"assessment", "sum_list"}, {sample["is"] for sample in SAMPLES})

    def test_a_key_too_few_or_too_many_is_refused(self):
        for sample in SAMPLES:
            check = validator(sample["is"])
            for key in DEFS[sample["is"]].get("required", []):
                with self.subTest(sample["is"], without=key):
                    less = copy.deepcopy(sample["value"])
                    del less[key]
                    self.assertFalse(check.is_valid(less))
            with self.subTest(sample["is"], more=True):
                self.assertFalse(check.is_valid({**sample["value"], "zzz": 1}))


if __name__ == "__main__":
    unittest.main()

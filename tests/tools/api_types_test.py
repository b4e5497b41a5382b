"""web/src/api/types.ts is what web/tools/types.mjs makes of schema/api.schema.json. Skipped without Node."""
import shutil
import subprocess
import unittest
from pathlib import Path

WEB = Path(__file__).parents[2] / "web"
NODE = shutil.which("node")


@unittest.skipUnless(NODE, "needs Node")
class ApiTypesTest(unittest.TestCase):
    def test_types_are_up_to_date(self):
        run = subprocess.run([NODE, "tools/types.mjs", "--check"], cwd=WEB, capture_output=True, text=True)
        self.assertEqual(run.returncode, 0, run.stderr)


if __name__ == "__main__":
    unittest.main()

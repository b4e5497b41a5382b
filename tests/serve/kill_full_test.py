import unittest

from kills import kill_again_and_again


class Killed(unittest.TestCase):
    def test_twenty_times(self):
        kill_again_and_again(self, 20)


if __name__ == "__main__":
    unittest.main()

import unittest

from kills import kill_again_and_again


class Killed(unittest.TestCase):
    def test_two_hundred_times(self):
        kill_again_and_again(self, 200)


if __name__ == "__main__":
    unittest.main()

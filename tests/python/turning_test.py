"""The picture of how a coat is turned: drawn from the drafts of now."""

import os
import subprocess
import sys
import unittest

import tool


class Turning(unittest.TestCase):
    def test_the_picture_is_that_of_the_drafts_of_now(self):
        drawn = subprocess.run([sys.executable, tool.ROOT / "tests/turning.py", os.environ["COATWRIGHT"]], check=True,
                               capture_output=True, text=True, encoding="utf-8", timeout=60).stdout
        self.assertIn("</svg>", drawn)
        self.assertEqual(drawn, (tool.ROOT / "assets/turning.svg").read_text(encoding="utf-8"))

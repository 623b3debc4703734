"""web/fetch.sh on a cache, a table and an npm of the test's own: no network."""

import hashlib
import io
import os
import pathlib
import shutil
import subprocess
import tarfile
import tempfile
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]


def archive():
    out = io.BytesIO()
    with tarfile.open(fileobj=out, mode="w:gz") as tar:
        entry = tarfile.TarInfo("package/hello.txt")
        entry.size = 3
        tar.addfile(entry, io.BytesIO(b"hi\n"))
    return out.getvalue()


class Fetch(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)
        shutil.copy(ROOT / "web/fetch.sh", self.folder)
        (self.folder / "npm").write_text('#!/bin/sh\necho asked >>"$ASKED"\n[ ! -f "$OFFER" ] || cp "$OFFER" demo-1.0.tgz\n')
        (self.folder / "npm").chmod(0o755)
        self.offer = self.folder / "offer.tgz"
        self.asked = self.folder / "asked"
        self.cache = self.folder / "cache"
        self.data = archive()

    def fetch(self, name="demo", sha256=None):
        sha256 = sha256 or hashlib.sha256(self.data).hexdigest()
        (self.folder / "sources.txt").write_text(f"# pinned\ndemo 1.0 npm demo-1.0.tgz {sha256}\n")
        environment = os.environ | {"PATH": f"{self.folder}:{os.environ['PATH']}", "COATWRIGHT_CACHE": str(self.cache),
                                    "OFFER": str(self.offer), "ASKED": str(self.asked)}
        return subprocess.run(["sh", self.folder / "fetch.sh", name], env=environment, capture_output=True, text=True)

    def cached(self):
        return sorted(p.name for p in self.cache.iterdir()) if self.cache.exists() else []

    def test_an_archive_is_fetched_once_and_unpacked(self):
        self.offer.write_bytes(self.data)
        first = self.fetch()
        self.assertEqual(0, first.returncode, first.stderr)
        folder = pathlib.Path(first.stdout.strip())
        self.assertEqual("hi\n", (folder / "hello.txt").read_text())
        second = self.fetch()
        self.assertEqual((0, first.stdout, ""), (second.returncode, second.stdout, second.stderr))
        self.assertEqual("asked\n", self.asked.read_text())
        self.assertEqual([folder.name], self.cached())

    def test_an_archive_with_another_checksum_is_not_used(self):
        self.offer.write_bytes(self.data)
        done = self.fetch(sha256="0" * 64)
        self.assertEqual((1, ""), (done.returncode, done.stdout))
        self.assertIn("it was not used", done.stderr)
        self.assertEqual([], self.cached())

    def test_a_version_that_is_gone_is_told_with_what_to_do(self):
        done = self.fetch()
        self.assertEqual((1, ""), (done.returncode, done.stdout))
        self.assertIn("pin it in web/sources.txt", done.stderr)
        self.assertEqual([], self.cached())

    def test_a_name_that_is_not_in_the_table_is_refused(self):
        done = self.fetch("other")
        self.assertEqual((1, ""), (done.returncode, done.stdout))
        self.assertIn("no source called 'other'", done.stderr)
        self.assertFalse(self.asked.exists())

"""run.py COATWRIGHT [FILE...]: runs every *_test.py beside it, or these, and prints 'ok NAME' or 'FAIL NAME' for each test.

COATWRIGHT is the command-line tool; the tests find it as the environment variable of that name. Files run side by side,
as many as there are processors.
"""

import concurrent.futures
import os
import pathlib
import subprocess
import sys
import unittest

HERE = pathlib.Path(__file__).resolve().parent
LONGEST = ["ticket_schema_test.py", "sheet_print_test.py"]  # begun first, so that nobody waits for them at the end


class LineResult(unittest.TestResult):
    def addSuccess(self, test):
        print("ok", test.id(), flush=True)

    def addFailure(self, test, err):
        super().addFailure(test, err)
        self.tell(test, self.failures)

    def addError(self, test, err):
        super().addError(test, err)
        self.tell(test, self.errors)

    def addSubTest(self, test, subtest, err):
        super().addSubTest(test, subtest, err)
        if err is not None:
            self.tell(subtest, self.failures if issubclass(err[0], test.failureException) else self.errors)

    def tell(self, test, faults):
        print(faults[-1][1], end="")
        print("FAIL", test.id(), flush=True)


def run_here(file):
    result = LineResult()
    unittest.defaultTestLoader.discover(str(HERE), file).run(result)
    return result.wasSuccessful()


def run_apart(file):
    """The same in a process of its own: its output, which says FAIL also where it ends before its tests do, and its success."""
    run = subprocess.run([sys.executable, __file__, os.environ["COATWRIGHT"], file], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    told = run.returncode == 0 or "FAIL " in run.stdout
    return run.stdout + ("" if told else f"FAIL {file} ended with exit code {run.returncode}\n"), run.returncode == 0


os.environ["COATWRIGHT"] = os.path.abspath(sys.argv[1])
files = sys.argv[2:] or sorted((path.name for path in HERE.glob("*_test.py")), key=lambda name: (name not in LONGEST, name))
if len(files) == 1:
    sys.exit(0 if run_here(files[0]) else 1)
all_passed = True
with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
    for output, passed in pool.map(run_apart, files):
        print(output, end="", flush=True)
        all_passed = all_passed and passed
sys.exit(0 if all_passed else 1)

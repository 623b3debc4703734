"""run.py COATWRIGHT: runs every *_test.py beside it and prints 'ok NAME' or 'FAIL NAME' for each test.

COATWRIGHT is the command-line tool; the tests find it as the environment variable of that name.
"""

import os
import sys
import unittest


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


os.environ["COATWRIGHT"] = os.path.abspath(sys.argv[1])
suite = unittest.defaultTestLoader.discover(os.path.dirname(os.path.abspath(__file__)), "*_test.py")
result = LineResult()
suite.run(result)
sys.exit(0 if result.wasSuccessful() else 1)

"""A slip by the command-line tool: the code that asks, and what came back beside its ticket."""

import copy
import json
import pathlib
import re
import tempfile
import unittest
import urllib.parse

import jsonschema
import tool

BOSUN = tool.ROOT / "assets/tickets/bosun.json"
# The answer whose bytes tests/core/slip/slip_test.cpp holds: back 22 1/2 in and 57,5 cm, weight 20.5 kg, head 15⅞ in, "Müde".
ANSWER = "cwSLgQAiAQIDBAUGAAIiobLgD1fV4B9xIMXgP9EV4K4A_wVNw7xkZXoKlkkz"
# The same with throat 2 7/8 in and 7,5 cm and girth-place 6¼, which version 1 does not have.
LATER_ANSWER = "cwSLggAwAQIDBAUGAAIiobLgD1fV4B9xIMXgP9EV4K4A_gIqe44A99XgH-EW4F_wBU3DvGRlGdSFgQz"
# Twelve measures: the wrap coat is drafted from the two of the foreleg as well.
REQUEST = ("cwSLAgByAQIDBAUGw_8AFGRlY2tAaGFyYm91ci5leGFtcGxlDVRoZSBTYWlsIExvZnQFQm9zdW4_SGUgcHVsbHMgbGVmdCB3aGVuIGEgZ3VsbCBsYW5kcywgc28gcGxl"
           "YXNlIHRha2UgZWFjaCBvbmUgdHdpY2UuldrsFgz")


class Slip(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def ticket(self, ticket):
        path = self.folder / "t.json"
        path.write_text(json.dumps(ticket), encoding="utf-8")
        return path

    def answer(self, *arguments, **options):
        answer = tool.run("answer", *arguments, **options)
        self.assertEqual((0, ""), (answer.returncode, answer.stderr))
        printed = json.loads(answer.stdout)
        jsonschema.Draft202012Validator(tool.schema("answer")).validate(printed)
        return printed

    def assert_refused(self, answer, key):
        self.assertEqual((2, ""), (answer.returncode, answer.stdout), answer.stderr)
        self.assertEqual(key, tool.code_of(answer.stderr), answer.stderr)

    # ---- asking ----

    def test_a_slip_is_the_code_that_the_library_holds(self):
        answer = tool.run("slip", BOSUN, "--all", "--studio", "The Sail Loft", "--back", "deck@harbour.example", "--token", "AQIDBAUG",
                          "--note", "He pulls left when a gull lands, so please take each one twice.")
        self.assertEqual((0, REQUEST + "\n", ""), (answer.returncode, answer.stdout, answer.stderr))

    def test_a_slip_fits_into_a_link_and_has_a_token_of_its_own(self):
        codes = {tool.run("slip", path).stdout for path in tool.DEMO_TICKETS for _ in range(3)}
        self.assertEqual(3 * len(tool.DEMO_TICKETS), len(codes))
        for code in codes:
            self.assertRegex(code, r"^cwSL[A-Za-z0-9_-]+z\n$")
            self.assertLess(len(code), 120)

    def test_a_slip_asks_for_what_is_missing(self):
        ticket = tool.demo()
        ticket["readings"].update({"underline": ["17 in"], "foreleg-spacing": ["5 in"], "foreleg-girth": ["7 in"]})
        measured = self.ticket(ticket)
        every = tool.run("slip", measured, "--token", "AQIDBAUG").stdout
        del ticket["readings"]["loin"]
        some = tool.run("slip", self.ticket(ticket), "--token", "AQIDBAUG").stdout
        whole = tool.run("slip", self.ticket(ticket), "--token", "AQIDBAUG", "--all").stdout
        self.assertNotEqual(some, whole)
        # All were there: all are asked for again.
        self.assertEqual(whole, every)

    def test_a_slip_that_cannot_be_sent_is_refused(self):
        self.assert_refused(tool.run("slip", BOSUN, "--back", "mail me"), "slip-address-unfit")
        self.assert_refused(tool.run("slip", BOSUN, "--studio", "x" * 61), "slip-text-too-long")
        self.assert_refused(tool.run("slip", BOSUN, "--note", "a\x07"), "slip-text-unclean")
        self.assert_refused(tool.run("slip", BOSUN, "--note", "犬" * 200), "slip-too-long")
        self.assert_refused(tool.run("slip", self.folder / "none.json"), "tool.no-reading")

    # ---- the answer ----

    def test_an_answer_stands_beside_its_ticket(self):
        printed = self.answer(BOSUN, ANSWER)
        self.assertEqual({"name": "Ferry deck coat", "dog": "Bosun"}, printed["ticket"])
        self.assertEqual(("AQIDBAUG", "in", "Müde"), (printed["token"], printed["unit"], printed["note"]))
        rows = {row["id"]: row for row in printed["rows"]}
        self.assertEqual(["back", "weight", "head-girth"], list(rows))
        back, weight, head = rows.values()
        self.assertEqual((["22 1/2 in", "22 5/8 in"], ["22 1/2 in", "57,5 cm"]), (back["before"], back["sent"]))
        self.assertAlmostEqual(22.5625 * 25.4, back["before_mm"], delta=0.0006)
        self.assertAlmostEqual((22.5 * 25.4 + 575) / 2, back["sent_mm"], delta=0.0006)
        self.assertAlmostEqual(back["sent_mm"] - back["before_mm"], back["difference_mm"], delta=0.0011)
        self.assertFalse(back["differs"])
        self.assertAlmostEqual(20.5 - 45 * 0.45359237, weight["difference_kg"], delta=0.0006)
        self.assertEqual(([], ["15⅞ in"]), (head["before"], head["sent"]))
        self.assertNotIn("difference_mm", head)
        self.assertEqual([], printed["findings"])

    def test_an_answer_of_the_second_version_stands_beside_its_ticket_in_the_order_of_the_tape(self):
        ticket = tool.demo()
        ticket["readings"].pop("throat", None)
        printed = self.answer(self.ticket(ticket), LATER_ANSWER)
        rows = {row["id"]: row for row in printed["rows"]}
        self.assertEqual(["back", "throat", "girth-place", "weight", "head-girth"], list(rows))
        self.assertEqual(([], ["2 7/8 in", "7,5 cm"]), (rows["throat"]["before"], rows["throat"]["sent"]))
        self.assertAlmostEqual((2.875 * 25.4 + 75) / 2, rows["throat"]["sent_mm"], delta=0.0006)
        self.assertAlmostEqual(6.25 * 25.4, rows["girth-place"]["sent_mm"], delta=0.0006)
        self.assertEqual([], printed["findings"])

    def test_what_differs_and_what_is_implausible_is_marked(self):
        ticket = tool.demo()
        ticket["readings"]["back"] = ["31 in"]
        ticket["readings"]["neck"] = ["21 1/2 in"]
        printed = self.answer(self.ticket(ticket), ANSWER)
        self.assertTrue(printed["rows"][0]["differs"])
        odd = [(f["code"], f["subject"]) for f in printed["findings"]]
        self.assertIn(("ratio-high", "neck"), odd)
        self.assertTrue(all(f["level"] != "note" for f in printed["findings"]))

    def test_an_answer_survives_what_messengers_do(self):
        wanted = self.answer(BOSUN, ANSWER)
        coded = urllib.parse.quote(ANSWER.replace("_", "%5F"), safe="")
        for message in [f"https://studio.example/#{ANSWER}", f"Readings for Bosun\nBack length: 22 1/2 in\n\n{ANSWER}.", coded,
                        f"<{ANSWER}>, thanks", f"> {ANSWER[:30]}\r\n> {ANSWER[30:]}", f"{ANSWER[:44]}=\n{ANSWER[44:]}", ANSWER[:-1]]:
            with self.subTest(message):
                self.assertEqual(wanted, self.answer(BOSUN, message))
                self.assertEqual(wanted, self.answer(BOSUN, "-", input=message))

    def test_an_answer_that_is_damaged_is_refused_and_says_how(self):
        for message, key in [("", "slip-not-found"), ("Neck 16 in", "slip-not-found"), (ANSWER[:40], "slip-cut"), (ANSWER[:20] + ".", "slip-cut"),
                             (ANSWER[:30] + "A" + ANSWER[31:], "slip-damaged"), (ANSWER.lower(), "slip-damaged"), (REQUEST, "slip-is-request")]:
            with self.subTest(message):
                self.assert_refused(tool.run("answer", BOSUN, message), key)
        self.assert_refused(tool.run("answer", BOSUN, "-", input="x" * 70000), "slip-too-large")

    def test_an_answer_to_another_ticket_is_refused(self):
        self.answer(BOSUN, ANSWER, "--token", "AQIDBAUG")
        self.assert_refused(tool.run("answer", BOSUN, ANSWER, "--token", "AQIDBAUH"), "slip-other-ticket")

    def test_wrong_use_ends_with_1(self):
        for arguments in [["slip"], ["slip", BOSUN, BOSUN], ["slip", BOSUN, "--token", "short"], ["slip", BOSUN, "--full"], ["answer", BOSUN],
                          ["answer", BOSUN, ANSWER, "x"], ["answer", BOSUN, ANSWER, "--studio", "x"], ["check", BOSUN, "--all"]]:
            with self.subTest(arguments):
                answer = tool.run(*arguments)
                self.assertEqual((1, ""), (answer.returncode, answer.stdout))
                self.assertIn("usage: coatwright", answer.stderr)

    def test_an_answer_that_is_wrong_does_not_fit_its_schema(self):
        judge = jsonschema.Draft202012Validator(tool.schema("answer"))
        judge.check_schema(tool.schema("answer"))
        printed = self.answer(BOSUN, ANSWER)
        for spoil in [
            lambda a: a.pop("token"), lambda a: a.update(token="AQID"), lambda a: a.update(unit="mm"), lambda a: a["rows"].clear(),
            lambda a: a["rows"][0].update(id="tail"), lambda a: a["rows"][0].pop("sent_mm"), lambda a: a["rows"][0]["sent"].clear(),
            lambda a: a["rows"][0].update(sent_kg=1), lambda a: a["rows"][1].update(sent_mm=1), lambda a: a["rows"][0].pop("difference_mm"),
            lambda a: a["rows"][2].update(difference_mm=0), lambda a: a["findings"].append({"level": "check"}), lambda a: a.update(more=1),
        ]:
            spoilt = copy.deepcopy(printed)
            spoil(spoilt)
            self.assertFalse(judge.is_valid(spoilt))

    def test_every_sentence_about_slips_can_be_met(self):
        # Those that only the page or the studio can meet are met in tests/core and tests/web.
        own = pathlib.Path(__file__).read_text(encoding="utf-8")
        others = {"slip-malformed", "slip-from-future", "slip-is-answer", "slip-is-ticket", "slip-nothing-asked", "slip-nothing-read"}
        for key in tool.words():
            if re.match("slip-", key) and key not in others:
                self.assertIn(f'"{key}"', own)
        tests = "\n".join(p.read_text(encoding="utf-8") for p in (tool.ROOT / "tests/core/slip").glob("*_test.cpp"))
        for key in others:
            self.assertIn("".join(part.capitalize() for part in key.split("-")), tests)

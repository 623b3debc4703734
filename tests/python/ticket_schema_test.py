"""The JSON Schemas of assets/, judged by an independent validator (python3-jsonschema), against the tool."""

import copy
import json
import pathlib
import random
import re
import tempfile
import unittest

import jsonschema
import tool

# What the reader refuses in a ticket that it was able to parse, and that a schema can refuse too.
OF_THE_TICKET = {key for key in tool.PATTERNS if key.startswith("ticket-")} | {"number-out-of-range", "reading-too-many"}

MEASURES = [key.split(".")[1] for key in tool.words() if key.startswith("measure.") and key.count(".") == 1]
CHOICES = [key.split(".")[1] for key in tool.words() if key.startswith("choice.") and key.count(".") == 1]

TEXTS = ["", "a4", "in", "cm", "male", "wrap", "level", "2021-04", "2021-13", "1899-12", "2199-12", "2200-01", "2021-04\n",
         "x" * 24, "x" * 25, "x" * 40, "x" * 41, "½" * 60, "🐕" * 61, "n" * 2000, "n" * 2001, "a\nb", "a\tb", "\x7f", "\x85",
         "\u202e", "\ufeff", "\uffff", "\u2028", "<b>&", "é", "landscape", "0 cm"]
NUMBERS = [0, 1, -1, 2, 1.0, 0.5, 100, 100.001, 9999.5, 10000, -10000, 10000.01, 1e300, -0.0]
OTHERS = [None, True, False, [], {}, [1], ["a"], {"a": 1}, [[]]]


def options_of(choice):
    return [key.split(".")[1] for key in tool.words() if key.startswith(choice + ".")]


def narrowed(schema):
    """The schema with the styles and choices that there are, from the word table: a new option needs no new schema."""
    properties = schema["properties"]
    if "style" in properties:
        properties["style"] = {"enum": [key.split(".")[1] for key in tool.words() if key.startswith("style.")]}
    if "choices" in properties:
        number = properties["choices"]["additionalProperties"]["anyOf"][0]
        properties["choices"] = {"type": "object", "additionalProperties": False, "properties": {
            choice: {"enum": options_of(choice)} if options_of(choice) else number for choice in CHOICES}}
    return schema


def with_exact_ends(schema):
    """The schema with its patterns (ECMA 262, where $ is the very end) as Python spells them."""
    if isinstance(schema, list):
        return [with_exact_ends(part) for part in schema]
    if not isinstance(schema, dict):
        return schema
    return {key: re.sub(r"\$$", r"\\Z", part) if key == "pattern" and isinstance(part, str) else with_exact_ends(part)
            for key, part in schema.items()}


def validator(name):
    return jsonschema.Draft202012Validator(with_exact_ends(narrowed(tool.schema(name))))


def places(value, path=()):
    """Every place in a JSON value, as the path of keys to it."""
    yield path
    for key in value if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else ():
        yield from places(value[key], path + (key,))


def mutated(ticket, dice):
    """A copy of the ticket with one to three places changed."""
    ticket = copy.deepcopy(ticket)
    for _ in range(dice.choice([1, 1, 1, 2, 3])):
        path = dice.choice([p for p in places(ticket) if p])
        parent = ticket
        for key in path[:-1]:
            parent = parent[key]
        kind = dice.randrange(6)
        if kind == 0:
            del parent[path[-1]]
        elif kind == 1 and isinstance(parent, dict):
            key = dice.choice(MEASURES + CHOICES + list(ticket) + ["tail", "", "Dog", "x" * 90])
            parent[key] = dice.choice([parent[path[-1]], dice.choice(TEXTS), dice.choice(NUMBERS), dice.choice(OTHERS)])
        elif kind == 2 and isinstance(parent, list):
            parent.extend([parent[path[-1]]] * dice.randrange(1, 5))
        else:
            parent[path[-1]] = dice.choice([dice.choice(TEXTS), dice.choice(NUMBERS), dice.choice(OTHERS)])
    return ticket


def every_field():
    """A ticket that has every field that there is."""
    return json.loads((tool.ROOT / "tests/corpus/ticket/every_field.json").read_text(encoding="utf-8"))


def properties(schema):
    """Every name of a property that a schema gives, at any depth."""
    for key, value in schema.items() if isinstance(schema, dict) else enumerate(schema) if isinstance(schema, list) else ():
        if key == "properties":
            yield from value
        yield from properties(value)


class TicketSchema(unittest.TestCase):
    def test_the_schemas_are_schemas(self):
        for name in ["ticket", "check", "draft"]:
            jsonschema.Draft202012Validator.check_schema(tool.schema(name))

    def test_the_ticket_schema_knows_every_measure(self):
        self.assertEqual(MEASURES, list(tool.schema("ticket")["properties"]["readings"]["properties"]))

    def test_a_demo_ticket_fits_the_schema_as_it_is_published_and_with_the_choices_that_there_are(self):
        self.assertIn("hem-line", CHOICES)
        self.assertEqual(["belly", "level", "wave", "raised"], options_of("hem-line"))
        for schema in [tool.schema("ticket"), narrowed(tool.schema("ticket"))]:
            judge = jsonschema.Draft202012Validator(schema)
            self.assertTrue(judge.is_valid(tool.demo()))
            self.assertFalse(judge.is_valid({**tool.demo(), "choices": {"hem-line": "Level!"}}))

    def test_demo_tickets_fit(self):
        for path in tool.DEMO_TICKETS:
            validator("ticket").validate(json.loads(path.read_text(encoding="utf-8")))
        self.assertGreaterEqual(len(tool.DEMO_TICKETS), 6)

    def test_what_the_tool_writes_fits(self):
        with tempfile.TemporaryDirectory() as out:
            for path in tool.DEMO_TICKETS:
                for full in [[], ["--full"]]:
                    self.assertEqual(0, tool.run("draft", path, *full, "--out", out).returncode)
                    draft = json.loads((pathlib.Path(out) / "draft.json").read_text(encoding="utf-8"))
                    validator("draft").validate(draft)
                validator("check").validate(json.loads(tool.run("check", path).stdout))

    def test_a_draft_that_is_wrong_does_not_fit(self):
        with tempfile.TemporaryDirectory() as out:
            tool.run("draft", tool.DEMO_TICKETS[0], "--out", out)
            draft = json.loads((pathlib.Path(out) / "draft.json").read_text(encoding="utf-8"))
        for spoil in [
            lambda d: d.pop("pieces"), lambda d: d.update(unit="in"), lambda d: d["pieces"].clear(),
            lambda d: d["pieces"][0].update(layer="felt"), lambda d: d["pieces"][0].update(fold=None),
            lambda d: d["pieces"][0].update(on_fold=False), lambda d: d["pieces"][0]["net"].append([1, 2, 3]),
            lambda d: d["pieces"][0]["cut"].__delitem__(slice(2, None)), lambda d: d["pieces"][0].update(cut_count=0),
            lambda d: d["pieces"][0]["edges"][0].update(length_mm="573"), lambda d: d["pieces"][0].update(seam=1),
            lambda d: d["findings"].append({"level": "check"}), lambda d: d["trace"][0]["numbers"].append(None),
            lambda d: d["invariants"][0].update(got_mm=None), lambda d: d["choices"].update(overlap=None),
            lambda d: d["pieces"][0]["marks"][0].update(kind="button"), lambda d: d["pieces"][0]["marks"][0].pop("id"),
            lambda d: d["invariants"][0].update(relation="at-most"), lambda d: d["steps"][0].update(edges="body.hem"),
            lambda d: d["steps"][0].pop("notions"), lambda d: d["notions"][0].update(id="Hook"),
        ]:
            spoilt = copy.deepcopy(draft)
            spoil(spoilt)
            self.assertFalse(validator("draft").is_valid(spoilt))
        self.assertTrue(validator("draft").is_valid(draft))

    def test_a_report_that_is_wrong_does_not_fit(self):
        report = json.loads(tool.run("check", tool.DEMO_TICKETS[0]).stdout)
        for spoil in [
            lambda r: r["values"][0].pop("value_mm"), lambda r: r["values"][0].update(value_kg=3),
            lambda r: r["values"][0].update(id="tail"), lambda r: r["values"][0].update(readings=6),
            lambda r: r["values"][0].update(rule="guess"), lambda r: r["values"][0].update(value_mm=0),
            lambda r: r["findings"][0].update(level="odd"), lambda r: r["findings"][0].update(values=[1.0]),
        ]:
            spoilt = copy.deepcopy(report)
            spoil(spoilt)
            self.assertFalse(validator("check").is_valid(spoilt))
        self.assertTrue(validator("check").is_valid(report))

    def agree_on(self, tickets, judge):
        """Runs the tool on each ticket beside the schema; gives back the verdicts and what was refused."""
        verdicts = {True: 0, False: 0}
        keys = set()
        with tempfile.TemporaryDirectory() as folder:
            path = pathlib.Path(folder) / "t.json"
            for number, ticket in enumerate(tickets):
                text = json.dumps(ticket, ensure_ascii=number % 2 == 0)
                path.write_text(text, encoding="utf-8")
                answer = tool.run("check", path)
                key = tool.code_of(answer.stderr) if answer.returncode else None
                self.assertIn(answer.returncode, (0, 2), text)
                self.assertEqual(answer.returncode == 2, key is not None, answer.stderr)
                if key == "ticket-field-twice":  # no schema can say that two cloths have one use
                    continue
                fits = judge.is_valid(ticket)
                if not fits and key and key not in OF_THE_TICKET:  # of two faults the reader tells one that no schema knows
                    continue
                self.assertEqual(fits, key not in OF_THE_TICKET, f"{key}: {answer.stderr} {text}")
                verdicts[fits] += 1
                keys.add(key)
        return verdicts, keys

    def test_schema_and_reader_agree_on_every_value_at_every_place(self):
        full = tool.demo()
        full["birth"] = "2020-03"
        full["choices"] = {"overlap": 60, "neck-fullness": 0.25, "hem-line": "wave", "tail-line": "square"}
        changed = []
        for path in places(full):
            for value in TEXTS + NUMBERS + OTHERS if path and path[0] != "readings" or len(path) == 2 else TEXTS[-12:] + OTHERS:
                ticket = copy.deepcopy(full)
                parent = ticket
                for key in path[:-1]:
                    parent = parent[key]
                if path:
                    parent[path[-1]] = value
                else:
                    ticket = value
                changed.append(ticket)
        verdicts, keys = self.agree_on(changed, validator("ticket"))
        self.assertGreater(min(verdicts.values()), 100, verdicts)
        self.assertGreater(len(keys), 8, keys)

    def test_schema_and_reader_agree_on_strange_values_in_every_field(self):
        dice = random.Random(20261127)
        changed = []
        for path in places(every_field()):
            for value in dice.sample(TEXTS, 3) + dice.sample(NUMBERS, 2) + dice.sample(OTHERS, 2) if path else ():
                changed.append(every_field())
                parent = changed[-1]
                for key in path[:-1]:
                    parent = parent[key]
                parent[path[-1]] = value
        verdicts, _ = self.agree_on(changed, validator("ticket"))
        self.assertGreater(min(verdicts.values()), 100, verdicts)

    def test_a_ticket_with_every_field_stands_in_the_corpus_and_the_words_of_all_fields_in_the_dictionary(self):
        fields = set(properties(tool.schema("ticket")))
        self.assertGreater(len(fields), 70)
        self.assertEqual(set(), fields - {key for path in places(every_field()) for key in path if isinstance(key, str)})
        words = set(re.findall(r'\\"([a-z0-9-]+)\\":', (tool.ROOT / "tests/fuzz/ticket.dict").read_text(encoding="utf-8")))
        self.assertEqual(set(), fields - words)
        validator("ticket").validate(every_field())

    def test_schema_and_reader_agree_on_mutated_tickets(self):
        dice = random.Random(20251101)
        bases = [every_field()] + [json.loads(p.read_text(encoding="utf-8")) for p in tool.DEMO_TICKETS]
        tickets = [mutated(dice.choice(bases), dice) for _ in range(800)]
        verdicts, keys = self.agree_on(tickets, validator("ticket"))
        self.assertGreater(min(verdicts.values()), 100, verdicts)
        self.assertGreater(len(keys), 10, keys)

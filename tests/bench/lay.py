#!/usr/bin/env python3
"""tests/bench/lay.py TOOL [--seconds S] [--best SECONDS] [--seeds N]: how near short lays of real coats come to long ones.

Twenty coats, toy to giant, in every style, with collars, hoods, pockets and laminate, on common widths; then some of them
together, where no single piece is as long as the lay. Each is laid for S seconds (usually 3) a cloth with each seed, and for
SECONDS with the first; printed is how much longer the short lay is than the best of all, in per cent. Ends with 1 if one is more
than 1 % longer, or shorter than its area over the usable width.
"""
import argparse
import json
import pathlib
import subprocess
import sys
import tempfile

# Dogs made up for this table, in cm: back, neck, chest, drop, breast.
DOGS = {
    "toy": (24, 20, 33, 12, 29), "small": (33, 29, 45, 15, 39), "long": (48, 35, 56, 19, 57),
    "medium": (52, 41, 68, 25, 63), "deep": (60, 42, 74, 28, 72), "large": (68, 49, 86, 31, 82), "giant": (84, 62, 104, 38, 102),
}
# Choices that add pieces.
EXTRAS = [
    {}, {"collar": "turned"}, {"collar": "stand", "pocket": "patch", "pocket-sides": "both"},
    {"laminate": "shell", "pocket": "flap"}, {"lining": "none", "collar": "snood"},
]
# cm; a giant's coat is as wide as the usual cloth, so it is cut from the widest.
WIDTHS = {"toy": 91, "small": 112, "long": 112, "medium": 112, "deep": 137, "large": 150, "giant": 150}
STYLES = ["wrap", "strap", "underpanel"]
# Of the twenty, by their numbers, those that are laid together, on the cloths of the first.
TOGETHER = [(2, 8), (4, 11), (5, 3, 9), (6, 17), (12, 10, 16), (7, 1, 15, 8), (13, 18, 2), (20, 19)]


def tickets():
    for n in range(20):
        dog, style = list(DOGS)[n % len(DOGS)], STYLES[n // len(DOGS) % len(STYLES)]
        readings = dict(zip(["back", "neck", "chest", "drop", "breast"], ([f"{v} cm"] for v in DOGS[dog])))
        ticket = {"coatwright": 1, "dog": dog.capitalize(), "unit": "cm", "readings": readings, "style": style,
                  "choices": EXTRAS[n % len(EXTRAS)],
                  "cloths": [{"use": "shell", "width": 10 * WIDTHS[dog]}, {"use": "lining", "width": 10 * max(112, WIDTHS[dog])}]}
        yield f"{n + 1:2} {dog} {style}", ticket


def companies():
    """Name and tickets of all that is laid: each coat, then those together."""
    coats = list(tickets())
    yield from ((name, [ticket]) for name, ticket in coats)
    for numbers in TOGETHER:
        yield " + ".join(map(str, numbers)), [coats[n - 1][1] for n in numbers]


def lays(tool, company, folder, seconds, seed):
    """Length, area and usable width of each lay; a sentence if it was refused."""
    paths = [pathlib.Path(folder) / f"{n}.json" for n in range(len(company))]
    for path, ticket in zip(paths, company):
        path.write_text(json.dumps(ticket), encoding="utf-8")
    done = subprocess.run([tool, "lay", *paths, "--out", folder, "--seconds", str(seconds), "--seed", str(seed)],
                          capture_output=True, text=True, check=False)
    if done.returncode != 0:
        return done.stderr.strip()
    return json.loads((pathlib.Path(folder) / "lay.json").read_text(encoding="utf-8"))["lays"]


def main():
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("tool")
    asked.add_argument("--seconds", type=float, default=3.0)
    asked.add_argument("--best", type=float, default=600.0)
    asked.add_argument("--seeds", type=int, default=1)
    args = asked.parse_args()
    worst, bad = 0.0, 0
    with tempfile.TemporaryDirectory() as folder:
        for name, company in companies():
            runs = [lays(args.tool, company, folder, args.seconds, seed + 1) for seed in range(args.seeds)]
            runs.append(lays(args.tool, company, folder, args.best, 1))
            refused = next((run for run in runs if isinstance(run, str)), None)
            if refused:
                print(f"{name}: {refused}")
                bad += 1
                continue
            for cloth, best_of in enumerate(zip(*runs)):
                best = min(lay["length_mm"] for lay in best_of)
                longer = [100.0 * (lay["length_mm"] / best - 1.0) for lay in best_of[:-1]]
                least = best_of[0]["efficiency"] * best_of[0]["length_mm"]
                worst = max(worst, *longer)
                bad += any(percent > 1.0 for percent in longer) + (best < least - 1e-6)
                print(f"{name:22} {runs[0][cloth]['cloth']:10} {best:8.1f} mm {100.0 * least / best:5.1f} %  "
                      + " ".join(f"+{percent:.2f} %" for percent in longer), flush=True)
    print(f"worst +{worst:.2f} %, {bad} beyond")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())

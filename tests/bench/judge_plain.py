#!/usr/bin/python3
"""A plain Python script that judges a batch of curves: the floor `quarterbreath-lab judge` is held
against. The same rules (tests/outside/judge_reference.py), the same shape of answer, with the
numbers Python reads by itself.

Usage: judge_plain.py < curves.jsonl > answers.jsonl
"""
import json
import os
import sys

sys.dont_write_bytecode = True
HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.join(os.path.dirname(HERE), "outside"))

import judge_reference as reference  # noqa: E402


def cell(reading):
    return (reading[0], float(reading[1:])) if isinstance(reading, str) else reading


def answer(line, slack):
    told = json.loads(line)
    rows = [tuple(map(cell, row)) + (None,) * (4 - len(row)) for row in told["curve"]]
    criteria, flags = reference.judge(told["test"], rows, slack)
    return {"id": told["id"], "criteria": [dict(one, id=name) for name, one in criteria.items()],
            "flags": flags, "areas": [reference.areas(rows, place) for place in (1, 2)]}


def main():
    for line in sys.stdin:
        sys.stdout.write(json.dumps(answer(line, 3)) + "\n")


main()

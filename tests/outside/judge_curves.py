"""Random curves that love edges: values at and beside thresholds, minutes at and beside window
ends, late, early and missing samples, missing readings, no baseline, two samples at or before
time zero.

Numbers are made as texts, so that what both judges read is the same to the last digit.
"""
import json
from decimal import Decimal

GRID_STEP = {"lactulose-10g": 15, "glucose-75g": 15, "glucose-50g": 15, "lactose-25g": 30,
             "fructose-25g": 30}
TESTS = sorted(GRID_STEP)
RANGED = 0.02  # of readings that are below or above the analyser's range
SLACKS = ["0", "3", "7.5", "0.25", "12"]
CO2 = ["5.1", "4.0", "2", "1.999", "2.000000001", "0.4"]
TINY = ["0.1", "0.5", "0.000001", "0.000000000000000001"]


def decimal(whole, chance, edge_share=0.25):
    """The number as a text, sometimes a little more or a little less."""
    if chance.random() >= edge_share:
        return str(whole)
    tiny = chance.choice(TINY)
    if chance.random() < 0.5:
        return f"{whole}{tiny[1:]}" if whole >= 0 else str(whole)
    if whole <= 0:
        return str(whole)
    digits = len(tiny) - 2
    return f"{whole - 1}.{10 ** digits - int(tiny[2:]):0{digits}d}"


def minutes(step, chance):
    count = 10 if step == 15 else 7
    out = []
    for number in range(count):
        if chance.random() < 0.12:
            continue
        due = number * step
        shift = 0
        if chance.random() < 0.5:
            shift = chance.choice([1, -1, 2, 3, 4, 5, step // 2, -(step // 2),
                                   chance.randint(-9, 12)])
        text = decimal(due + shift, chance)
        if chance.random() < 0.15 and due > 0:  # edges of on time, and half a minute beside them
            text = chance.choice([f"{due - 1}.5", f"{due - 1}.499", f"{due + 1}.5", f"{due + 2}.5",
                                  f"{due + 4}.5", f"{due + 5}.5", str(due - 1)])
        if chance.random() < 0.1 and due > 0:  # exactly half an interval early
            text = f"{due - step // 2 - step % 2}.5" if step % 2 else str(due - step // 2)
        out.append(text)
    if chance.random() < 0.1:
        out.append(str(chance.choice([-20, -5, -1])))
    if chance.random() < 0.1:
        out = out[1:]
    return out


def rising(texts):
    seen = {}
    for text in texts:
        seen.setdefault(Decimal(text), text)
    return [seen[key] for key in sorted(seen)]


def reading(base, chance):
    if chance.random() < 0.06:
        return None
    if chance.random() < RANGED:
        return chance.choice("<>") + decimal(max(1, base), chance)
    return decimal(max(0, base), chance)


def readings(count, chance):
    """H2, CH4 and CO2 as texts, of one of some characters of curve."""
    kind = chance.choice(["edge", "edge", "flat", "spike", "high", "dip", "any"])
    base = {"flat": chance.randint(0, 3), "high": chance.choice([15, 16, 30])}.get(
        kind, chance.randint(0, 15))
    methane = chance.choice([0, 1, 2, 8, 9, 10, 20])
    with_co2 = chance.random() < 0.3
    for place in range(count):
        rise = {"flat": chance.randint(-1, 1), "spike": 10 if place == 1 else chance.randint(0, 9),
                "dip": -base if place == 2 else chance.choice([8, 12, 20])}.get(
            kind, chance.choice([0, 2, 9, 10, 11, 12, 17, 18, 19, 20, 21, 30, 60]))
        if kind == "edge" and chance.random() < 0.6:
            rise = chance.choice([0, 3, 8, 11])
        low = kind == "flat"
        ch4 = min(methane, 2) if low else max(0, methane + chance.choice([0, 0, 0, 1, -1, -10, 3]))
        co2 = chance.choice(CO2) if with_co2 else None
        yield reading(base + rise if place else base, chance), reading(ch4, chance), co2


def curve(chance):
    """(test, rows of texts)"""
    test = chance.choice(TESTS)
    if chance.random() < 0.01:
        return test, []
    at = rising(minutes(GRID_STEP[test], chance))
    return test, [(minute, *gases) for minute, gases in zip(at, readings(len(at), chance))]


def line(name, test, rows):
    """The line of JSON. Texts go in as numbers, digit by digit."""
    def written(cell):
        if cell is None:
            return "null"
        return f'"{cell}"' if cell[0] in "<>" else cell
    cells = ",".join("[" + ",".join(map(written, row if row[3] is not None else row[:3])) + "]"
                     for row in rows)
    return f'{{"id":{json.dumps(name)},"test":"{test}","curve":[{cells}]}}\n'

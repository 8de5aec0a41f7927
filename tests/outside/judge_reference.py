"""A second judge of breath curves, written from the citations and from the rules of the
laboratory's side, sharing nothing with the program: neither its code nor its data files.

Citations: Rezaie et al., Am J Gastroenterol 2017;112:775-784, table T4 (rise of H2 >= 20 by 90 min;
CH4 >= 10 at any sample; rise of H2 >= 20 after lactose or fructose); Kerlin and Wong 1988 (50 g of
glucose: rise >= 12 within 2 h; a baseline over 15 is elevated); Hovde and Farup 2009 (H2 + 2 x CH4,
18 ppm, after 25 g of lactose); Rumessen et al. 1987 (no rise of means of duplicates that mattered
was over 10 ppm, held here against single readings too; the short early peak).

Numbers may be of any kind that adds and compares: decimals or fractions for the comparison, binary
fractions where speed is asked. A row is (minute, h2, ch4, co2), a missing reading None.
"""
EVERY_15 = [15 * n for n in range(10)]
EVERY_30 = [30 * n for n in range(7)]
GRIDS = {"lactulose-10g": EVERY_15, "glucose-75g": EVERY_15, "glucose-50g": EVERY_15,
         "lactose-25g": EVERY_30, "fructose-25g": EVERY_30}
MEETS, NOT, UNKNOWN = "meets", "does-not-meet", "cannot-be-determined"
NOISE = 10


class Criterion:
    """`gases` is how often H2 and CH4 count; `until` the window's last minute, None for any."""

    def __init__(self, name, tests, gases, rise, least, until, others=()):
        self.name, self.tests, self.gases, self.rise = name, tests, gases, rise
        self.least, self.until, self.others = least, until, others

    def value(self, row):
        total = 0
        for times, reading in zip(self.gases, row[1:3]):
            if times:
                if reading is None:
                    return None
                total += times * reading
        return total


TABLE = {c.name: c for c in [
    Criterion("hovde-farup-2009-combined", {"lactose-25g"}, (1, 2), True, 18, None,
              ("nac-2017-h2-sugar",)),
    Criterion("kerlin-wong-1988-h2-12", {"glucose-50g"}, (1, 0), True, 12, 120,
              ("nac-2017-h2-90",)),
    Criterion("nac-2017-ch4", set(GRIDS), (0, 1), False, 10, None),
    Criterion("nac-2017-h2-90", {"lactulose-10g", "glucose-75g"}, (1, 0), True, 20, 90,
              ("kerlin-wong-1988-h2-12",)),
    Criterion("nac-2017-h2-sugar", {"lactose-25g", "fructose-25g"}, (1, 0), True, 20, None,
              ("hovde-farup-2009-combined",)),
]}


def half(a):
    """Half of a whole number: a binary fraction holds it exactly, and compares exactly with all."""
    return a / 2


def last_due(c, grid):
    """The last due minute in the window, and the minute after which it counts as taken."""
    place = max(i for i, due in enumerate(grid) if c.until is None or due <= c.until)
    return grid[place], grid[place] - half(grid[place] - grid[place - 1])


def steps(c, rows, lowest):
    """(minute, rise or level) of each sample with a reading, and whether there is a baseline."""
    seen = [(row[0], c.value(row)) for row in rows]
    seen = [(minute, value) for minute, value in seen if value is not None]
    if not c.rise:
        return seen, True
    based = bool(rows) and rows[0][0] <= 0 and c.value(rows[0]) is not None
    if lowest:
        return [(seen[i][0], seen[i][1] - min(v for _, v in seen[:i]))
                for i in range(1, len(seen))], based
    if not based:
        return [], False
    return [(minute, value - seen[0][1]) for minute, value in seen[1:]], True


def verdict(c, rows, grid, slack, lowest=False, enough=None):
    """(answer, minute, value): of the first that is enough, else of the greatest in the window."""
    if enough is None:
        def enough(value):
            return value >= c.least
    def inside(minute):
        return c.until is None or minute <= c.until + slack
    found, based = steps(c, rows, lowest)
    found = [one for one in found if inside(one[0])]
    for minute, value in found:
        if enough(value):
            return MEETS, minute, value
    if not based:
        return UNKNOWN, None, None
    _, after = last_due(c, grid)
    if not any(after < row[0] and inside(row[0]) and c.value(row) is not None for row in rows):
        return UNKNOWN, None, None
    if not found:
        return NOT, None, None
    minute, value = max(found, key=lambda one: one[1])
    return NOT, minute, value


def nominal(rows, grid):
    return [(min(grid, key=lambda due: (abs(due - row[0]), due)),) + tuple(row[1:]) for row in rows]


def is_low(row):
    """Perhaps no alveolar air: a carbon dioxide under 2 per cent, this laboratory's choice."""
    return row[3] is not None and row[3] < 2


def firmness(c, rows, grid, slack, answer):
    out = {"strict": verdict(c, rows, grid, 0)[0],
           "nominal_times": verdict(c, nominal(rows, grid), grid, slack)[0],
           "lowest_earlier": verdict(c, rows, grid, slack, lowest=True)[0] if c.rise else None}
    noise = NOISE * sum(c.gases)
    if not c.rise:
        out["readings_noise"] = None  # Rumessen speaks of changes, not of levels
    elif answer == MEETS:
        out["readings_noise"] = verdict(c, rows, grid, slack,
                                        enough=lambda v: v - noise >= c.least)[0]
    else:
        out["readings_noise"] = verdict(c, rows, grid, slack,
                                        enough=lambda v: v + noise > c.least)[0]
    needed = []
    for i, row in enumerate(rows):
        if c.value(row) is None or (c.rise and i == 0 and row[0] <= 0):
            continue
        # A first sample that is taken away must not make a baseline of the next.
        without = verdict(c, [(*r[:1], None, None, None) if j == i else r
                              for j, r in enumerate(rows)], grid, slack)[0]
        if without != answer:
            needed.append((row[0], without))
    out["without_one_sample"] = needed[0][1] if needed else answer
    out["needs_min"] = [minute for minute, _ in needed]
    out["others"] = {name: verdict(TABLE[name], rows, grid, slack) for name in c.others}
    if any(is_low(row) for row in rows):
        alveolar = [(row[0], None, None, None) if is_low(row) else row for row in rows]
        out["without_low_co2"] = verdict(c, alveolar, grid, slack)[0]
    taken = [row[0] for row in rows if c.value(row) is not None]
    due = last_due(c, grid)[0]
    out["earlier_gaps_min"] = [g for g in gaps(taken, grid) if g < due] if answer == NOT else []
    firm = all(out.get(key) in (answer, None) for key in
               ("strict", "nominal_times", "lowest_earlier", "readings_noise",
                "without_one_sample", "without_low_co2"))
    out["firm"] = (firm and all(o[0] == answer for o in out["others"].values())
                   and not out["earlier_gaps_min"])
    return out


def gaps(taken, grid):
    """Due minutes that nothing was taken near; the last has no end."""
    out = []
    for i in range(1, len(grid)):
        after = grid[i] - half(grid[i] - grid[i - 1])
        until = None if i + 1 == len(grid) else grid[i] + half(grid[i + 1] - grid[i])
        if not any(after < minute and (until is None or minute <= until) for minute in taken):
            out.append(grid[i])
    return out


def spike(rows, slack):
    """The minute of a single early spike: risen by 15 min, fallen back at the next reading."""
    seen = [(row[0], row[1] - rows[0][1]) for row in rows if row[1] is not None]
    for (minute, rise), (_, following) in zip(seen[1:], seen[2:]):
        if minute > 15 + slack:
            return None
        if rise >= NOISE:
            return minute if following < NOISE else None
    return None


def flags(rows, grid, slack):
    """[(id, minute)] in no order."""
    out = []
    base = rows[0] if rows and rows[0][0] <= 0 else None
    h2 = [row[1] for row in rows if row[1] is not None]
    ch4 = [row[2] for row in rows if row[2] is not None]
    co2 = [(row[3], row[0]) for row in rows if row[3] is not None]
    if base is None:
        out.append(("no-baseline", None))
    else:
        if base[1] is not None and base[1] > 15:
            out.append(("high-baseline", base[0]))
        if base[1] is not None and spike(rows, slack) is not None:
            out.append(("single-early-spike", spike(rows, slack)))
        later = [(row[2], row[0]) for row in rows[1:] if row[2] is not None]
        if base[2] is not None and later and base[2] - min(later)[0] >= NOISE:
            out.append(("falling-methane", min(later)[1]))
    if len(h2) > 1 and len(ch4) > 1 and max(h2) <= 3 and max(ch4) <= 2:
        out.append(("flat", None))
    if co2 and min(co2)[0] < 2:
        out.append(("low-co2", min(co2)[1]))
    return out + [("gap", due) for due in gaps([row[0] for row in rows], grid)]


def areas(rows, place):
    """Total, and above the baseline; None where it cannot be told."""
    seen = [(row[0], row[place]) for row in rows if row[place] is not None]
    if len(seen) < 2:
        return None, None
    def area(points):
        return sum((b[0] - a[0]) * (a[1] + b[1]) / 2 for a, b in zip(points, points[1:]))
    if rows[0][0] > 0 or rows[0][place] is None:
        return area(seen), None
    return area(seen), area([(minute, value - seen[0][1]) for minute, value in seen])


def judge(test, rows, slack):
    """{criterion: {answer, minute, value, strict, firmness}} and the flags."""
    grid = GRIDS[test]
    criteria = {}
    for c in TABLE.values():
        if test in c.tests:
            answer, minute, value = verdict(c, rows, grid, slack)
            criteria[c.name] = {"answer": answer, "minute": minute, "value": value,
                                "strict": verdict(c, rows, grid, 0),
                                "firmness": firmness(c, rows, grid, slack, answer)}
    return criteria, flags(rows, grid, slack)

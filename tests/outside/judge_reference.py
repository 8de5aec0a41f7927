"""A second judge of breath curves, written from the citations and from the rules of the
laboratory's side, sharing nothing with the program: neither its code nor its data files.

Citations: Rezaie et al., Am J Gastroenterol 2017;112:775-784, table T4 (rise of H2 >= 20 by 90 min;
CH4 >= 10 at any sample; rise of H2 >= 20 after lactose or fructose); Kerlin and Wong 1988 (50 g of
glucose: rise >= 12 within 2 h; a baseline over 15 is elevated); Hovde and Farup 2009 (H2 + 2 x CH4,
18 ppm, after 25 g of lactose); Rumessen et al. 1987 (the short early peak).

The invented laboratory's own choices, with no published source: on time is from half a minute
before the due time to two after (a minute before to five after, where samples are half an hour
apart); under 2 per cent of carbon dioxide a sample decides nothing; plausible are half a minute of
the clock, 3 ppm or a tenth of one reading, and no sample that stands 20 ppm above both beside it,
or below. That a sample on time is that of its due minute is an inference of ours.

Numbers may be of any kind that adds and compares: exact decimals for the comparison, binary
fractions where speed is asked. A row is (minute, h2, ch4, co2), a missing reading None, one outside
the analyser's range ("<", figure) or (">", figure).
"""
import math
from collections import namedtuple

EVERY_15 = [15 * n for n in range(10)]
EVERY_30 = [30 * n for n in range(7)]
TESTS = {"lactulose-10g": ("lactulose", 10), "glucose-75g": ("glucose", 75),
         "glucose-50g": ("glucose", 50), "lactose-25g": ("lactose", 25),
         "fructose-25g": ("fructose", 25)}
GRIDS = {"lactulose-10g": EVERY_15, "glucose-75g": EVERY_15, "glucose-50g": EVERY_15,
         "lactose-25g": EVERY_30, "fructose-25g": EVERY_30}
MEETS, NOT, UNKNOWN = "meets", "does-not-meet", "cannot-be-determined"
SPIKE = 10
# In half minutes, so that every number of ours is a whole one.
EARLY, ON_TIME = {15: 1, 30: 2}, {15: 4, 30: 10}
CLOCK = 1
PPM, TENTHS = 3, 1
IMPLAUSIBLE = 20
LEAST_CO2 = 2


class Criterion:
    """`sugars` are those it is for, with the dose, None for any; `gases` is how often H2 and CH4
    count; `until` the window's last minute, None for any."""

    def __init__(self, name, sugars, gases, rise, least, until, others=()):
        self.name, self.sugars, self.gases, self.rise = name, sugars, gases, rise
        self.least, self.until, self.others = least, until, others

    def is_for(self, test):
        name, dose = TESTS[test]
        return (name, dose) in self.sugars or (name, None) in self.sugars

    def beside(self, test):
        """The others of the same sugar, whatever the dose."""
        return [TABLE[name] for name in self.others
                if TESTS[test][0] in {sugar for sugar, _ in TABLE[name].sugars}]


# What a criterion sees of one sample, or of how far one is above another: the least and the most
# that it may be, whether it is sure to be more than that and less than this, the figure shown, and
# by how many thousandths of a ppm one reading may move it.
Seen = namedtuple("Seen", "minute least most over under shown off")


def figure_of(reading):
    return reading[1] if isinstance(reading, tuple) else reading


def look(c, row):
    """What the criterion sees of a row; None where that decides nothing."""
    if row[3] is not None and row[3] < LEAST_CO2:
        return None
    least = most = shown = off = 0
    over = under = False
    for times, reading in zip(c.gases, row[1:3]):
        if not times:
            continue
        if reading is None:
            return None
        figure = figure_of(reading)
        sign = reading[0] if isinstance(reading, tuple) else ""
        shown += times * figure
        off = max(off, times * max(1000 * PPM, 100 * TENTHS * figure))
        least += 0 if sign == "<" else times * figure
        most += times * figure
        under, over = under or sign == "<", over or sign == ">"
    return Seen(row[0], least, math.inf if over else most, over, under, shown, off)


def above(a, b):
    least = -math.inf if b.most == math.inf else a.least - b.most
    most = math.inf if a.most == math.inf else a.most - b.least
    return Seen(a.minute, least, most, a.over or b.under, a.under or b.over, a.shown - b.shown,
                max(a.off, b.off))


def has(found, least, how):
    """(surely, perhaps)"""
    if how == "worst":
        return (1000 * found.least >= 1000 * least + found.off,) * 2
    if how == "best":
        return (1000 * found.most >= 1000 * least - found.off,) * 2
    return found.least >= least, found.most > least or found.most == least and not found.under


def told(found):
    """(minute, value, what the value is of it)"""
    if found.least == found.most:
        return found.minute, found.shown, None
    ranges = {found.least: "more-than", found.most: "less-than"}
    return found.minute, found.shown, ranges.get(found.shown, "not-known")


TABLE = {c.name: c for c in [
    Criterion("hovde-farup-2009-combined", {("lactose", 25)}, (1, 2), True, 18, None,
              ("nac-2017-h2-sugar",)),
    Criterion("kerlin-wong-1988-h2-12", {("glucose", 50)}, (1, 0), True, 12, 120,
              ("nac-2017-h2-90",)),
    Criterion("nac-2017-ch4", {(sugar, None) for sugar, _ in TESTS.values()}, (0, 1), False, 10,
              None),
    Criterion("nac-2017-h2-90", {("lactulose", 10), ("glucose", 75)}, (1, 0), True, 20, 90,
              ("kerlin-wong-1988-h2-12",)),
    Criterion("nac-2017-h2-sugar", {("lactose", 25), ("fructose", 25)}, (1, 0), True, 20, None,
              ("hovde-farup-2009-combined",)),
]}


def last_due(c, grid):
    """The last due minute in the window, and the half minute after which it counts as taken."""
    place = max(i for i, due in enumerate(grid) if c.until is None or due <= c.until)
    return grid[place], grid[place] + grid[place - 1]


def nearest(grid, minute):
    return min(grid, key=lambda due: (abs(due - minute), due))


def shifted(grid, minute, by, strict):
    """The half minute where a sample counts: of its due minute if it was closed on time, else its
    own; strictly always its own. With the clock off it is still the sample that was due then."""
    if strict:
        return 2 * minute
    due, step = nearest(grid, minute), grid[1] - grid[0]
    return 2 * due if -EARLY[step] <= 2 * (minute - due) + by <= ON_TIME[step] else 2 * minute + by


def sight(c, rows):
    """The samples that count, and whether the first of them is the baseline."""
    found = [look(c, row) for row in rows]
    based = bool(rows) and rows[0][0] <= 0 and found[0] is not None
    return [one for one in found if one is not None], based


def verdict(c, seen, based, grid, slack, strict=False, lowest=False, skip=None, how="told",
            off=(0, 0)):
    """(answer, minute, value, what the value is): of the first that surely has it, else of the
    greatest in the window. `off` is how many half minutes late all clocks are, at the window's end
    and for the last sample in it."""
    end = None if c.until is None else 2 * (c.until + (0 if strict else slack))
    _, after = last_due(c, grid)
    perhaps = taken = False
    greatest = None
    for i, one in enumerate(seen):
        if i == skip:
            continue
        base = based and i == 0
        if end is not None and shifted(grid, one.minute, off[0], strict) > end:
            continue
        if c.rise and not base and one.minute <= 0:
            continue
        taken = taken or shifted(grid, one.minute, off[1], strict) > after
        found = one
        if c.rise:
            if lowest:
                before = [s for k, s in enumerate(seen[:i]) if k != skip]
                reference = min(before, key=lambda s: s.shown) if before else None
            else:
                reference = seen[0] if based else None
            if reference is None or base:
                continue
            found = above(one, reference)
        surely, maybe = has(found, c.least, how)
        if surely:
            return (MEETS,) + told(found)
        perhaps = perhaps or maybe
        if greatest is None or found.shown > greatest.shown:
            greatest = found
    if c.rise and not based or perhaps or not taken:
        return UNKNOWN, None, None, None
    return (NOT,) + (told(greatest) if greatest else (None, None, None))


def turns(c, seen, based, grid, slack, answer):
    """[(change, the answer it turns to, minute)] in the order in which they are tried."""
    def ask(**how):
        return verdict(c, seen, based, grid, how.pop("slack", slack), **how)[0]
    tried = []
    if c.until is not None and slack:
        tried.append(("slack", ask(slack=0), None))
    ways = [ask(off=(end, last)) for end in (-CLOCK, CLOCK) for last in (-CLOCK, CLOCK)]
    tried.append(("timing", next((way for way in ways if way != answer), answer), None))
    tried.append(("readings", ask(how="worst" if answer == MEETS else "best"), None))
    if c.rise:
        tried.append(("lowest-earlier", ask(lowest=True), None))
    for i in range(1, len(seen) - 1):
        here, beside = seen[i].shown, (seen[i - 1].shown, seen[i + 1].shown)
        far = IMPLAUSIBLE * sum(c.gases)
        if here - max(beside) >= far or min(beside) - here >= far:
            tried.append(("implausible", ask(skip=i), seen[i].minute))
    if answer == NOT:
        due = last_due(c, grid)[0]
        tried += [("gap", MEETS, gap) for gap in gaps([one.minute for one in seen], grid)
                  if gap < due]
    return [one for one in tried if one[1] != answer]


def firmness(c, test, rows, slack, answer):
    grid = GRIDS[test]
    seen, based = sight(c, rows)
    changes = turns(c, seen, based, grid, slack, answer)
    others = {o.name: verdict(o, *sight(o, rows), grid, slack) for o in c.beside(test)}
    return {"firm": answer != UNKNOWN and not changes, "turned_by": changes, "others": others}


def gaps(taken, grid):
    """Due minutes that nothing was taken near; the last has no end."""
    out = []
    for i in range(1, len(grid)):
        after = grid[i] + grid[i - 1]
        until = math.inf if i + 1 == len(grid) else grid[i] + grid[i + 1]
        if not any(after < 2 * minute <= until for minute in taken):
            out.append(grid[i])
    return out


def spike(rows, slack):
    """The minute of a single early spike: risen by 15 min, fallen back at the next reading."""
    seen = [(row[0], row[1] - rows[0][1]) for row in rows if row[1] is not None]
    for (minute, rise), (_, following) in zip(seen[1:], seen[2:]):
        if minute > 15 + slack:
            return None
        if rise >= SPIKE:
            return minute if following < SPIKE else None
    return None


def flags(rows, grid, slack):
    """[(id, minute)] in no order. Of a reading outside the range the figure counts."""
    rows = [(row[0], figure_of(row[1]), figure_of(row[2]), row[3]) for row in rows]
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
        if base[2] is not None and later and base[2] - min(later)[0] >= SPIKE:
            out.append(("falling-methane", min(later)[1]))
    if len(h2) > 1 and len(ch4) > 1 and max(h2) <= 3 and max(ch4) <= 2:
        out.append(("flat", None))
    if co2 and min(co2)[0] < 2:
        out.append(("low-co2", min(co2)[1]))
    return out + [("gap", due) for due in gaps([row[0] for row in rows], grid)]


def areas(rows, place):
    """Total, and above the baseline; None where it cannot be told."""
    if any(isinstance(row[place], tuple) for row in rows):
        return None, None
    seen = [(row[0], row[place]) for row in rows if row[place] is not None]
    if len(seen) < 2:
        return None, None
    def area(points):
        return sum((b[0] - a[0]) * (a[1] + b[1]) / 2 for a, b in zip(points, points[1:]))
    if rows[0][0] > 0 or rows[0][place] is None:
        return area(seen), None
    return area(seen), area([(minute, value - seen[0][1]) for minute, value in seen])


def judge(test, rows, slack, with_firmness=True):
    """{criterion: {answer, minute, value, value_is, strict, firmness}} and the flags."""
    grid = GRIDS[test]
    criteria = {}
    for c in TABLE.values():
        if not c.is_for(test):
            continue
        seen, based = sight(c, rows)
        answer, minute, value, value_is = verdict(c, seen, based, grid, slack)
        criteria[c.name] = {"answer": answer, "minute": minute, "value": value,
                            "value_is": value_is,
                            "strict": verdict(c, seen, based, grid, slack, strict=True)}
        if with_firmness:
            criteria[c.name]["firmness"] = firmness(c, test, rows, slack, answer)
    return criteria, flags(rows, grid, slack)

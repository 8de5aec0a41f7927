"""What core must not do: read a clock, chance, the environment, a file; print; hold state.

Everything core needs is passed in, so that a test, a rehearsal and the laboratory's replay get the
same answer. The shell around it has two seams to the machine: app/machine, and app/glass
for window and sound.
"""
import re

from source import Finding, blocks

FREE = r"(?<![\w.>])"  # not a member, not the tail of a longer name

CLOCK = (r"\b(?:system|steady|high_resolution|utc|file)_clock\s*::\s*now\b"
         r"|\bstd::(?:time|clock)\b|" + FREE +
         r"(?:time\s*\(\s*(?:nullptr|NULL|0|&)|(?:::)?(?:clock_gettime|gettimeofday|mktime"
         r"|localtime(?:_r)?|gmtime(?:_r)?|adjtimex|nanosleep|glfwGetTime|current_zone)\s*\()")
RANDOM = FREE + (r"(?:std::)?(?:random_device|mt19937\w*|default_random_engine|s?rand\s*\("
                 r"|get(?:random|entropy)\s*\(|randombytes\w*|arc4random\w*"
                 r"|uuid_generate(?!_sha1\b)\w*)")
ENVIRONMENT = FREE + r"(?:std::)?(?:(?:secure_)?getenv|setenv|putenv|unsetenv|setlocale)\s*\("
THREADS = (r"\bstd::(?:j?thread|async|(?:\w+_)?mutex|condition_variable\w*|atomic\w*|future"
           r"|this_thread|promise)\b|\bthread_local\b|\bpthread_\w+")
FILES = FREE + (r"(?:std::(?:[io]?fstream|filesystem|remove|rename)\b|(?:std::)?(?:fopen|freopen"
                r"|tmpfile|sqlite3_\w+)\s*\("
                r"|::(?:open|openat|creat|unlink|mkdir|stat|fsync|rename)\s*\()")
OUTPUT = r"\bstd::(?:cout|cerr|clog|cin)\b|" + FREE + (
    r"(?:(?:std::)?(?:printf|fprintf|puts|fputs|system|exit|abort)|fmt::print)\s*\(")

CORE_RULES = [
    ("clock", CLOCK, "a clock is read", "take the reading as a parameter"),
    ("random", RANDOM, "chance is asked", "take the bytes or the seed as a parameter"),
    ("environment", ENVIRONMENT, "the environment is read", "take the value as a parameter"),
    ("threads", THREADS, "a thread or its tools", "core has none: return a value instead"),
    ("files", FILES, "a file is touched", "take or return the text; app/machine reads files"),
    ("output", OUTPUT, "something is printed or ended", "return a value or a refusal"),
]
# The shell outside app/machine and app/glass may print and read files, but asks for the rest.
SHELL = ("clock", "random", "environment", "threads")
SHELL_RULES = [rule for rule in CORE_RULES if rule[0] in SHELL]
# Headers with which core could do any of this under another name.
TOOLS = {"ctime": "clock", "time.h": "clock", "sys/time.h": "clock", "random": "random",
         "thread": "threads", "mutex": "threads", "atomic": "threads", "future": "threads",
         "condition_variable": "threads", "shared_mutex": "threads", "fstream": "files",
         "filesystem": "files", "fcntl.h": "files", "unistd.h": "files", "sys/stat.h": "files",
         "iostream": "output", "sqlite3.h": "files"}
# Broken beliefs stop the program, and only there.
EXCUSED = {("output", "core/base/result.cpp")}


def machine(tree):
    for file in tree.cpp("core"):
        yield from look(file, CORE_RULES)
        for number, name in file.includes():
            if name in TOOLS:
                cure = next(rule[3] for rule in CORE_RULES if rule[0] == TOOLS[name])
                yield Finding(TOOLS[name], file.path, number, f"core includes <{name}>", cure)
    for file in tree.cpp("app"):
        if not (file.under("app/machine") or file.under("app/glass")):
            yield from look(file, SHELL_RULES)


def look(file, rules):
    for number, line in enumerate(file.code_lines, 1):
        for name, pattern, what, cure in rules:
            found = re.search(pattern, line)
            if found and (name, file.path) not in EXCUSED:
                yield Finding(name, file.path, number, f"{what}: {found.group(0).strip()}", cure)


_STATIC = re.compile(r"^\s*(?:inline\s+)?static\s+(?!const\b|constexpr\b|constinit\b|inline const)"
                     r"(?P<rest>[^;={(]*?[\w>]\s+\w+(?:\[[^\]]*\])?\s*[;={])")
_NOT_A_VARIABLE = re.compile(
    r"^(?:using|typedef|struct|class|union|enum|namespace|template|friend|static_assert|concept"
    r"|constexpr|constinit const|const|inline const|static const|inline constexpr"
    r"|extern template)\b|^\[\[|\(")


def state(tree):
    """No variable that outlives a call: neither a static one nor one outside every function."""
    cure = "pass the state in and return it; constants are constexpr"
    for file in tree.cpp("core"):
        for number, line in enumerate(file.code_lines, 1):
            if _STATIC.match(line) and "operator" not in line:
                yield Finding("state", file.path, number, "a mutable static variable", cure)
        for text, line in blocks(file.code)[1]:
            first = text.split("=")[0]
            if _NOT_A_VARIABLE.search(first) or first.startswith("static"):
                continue
            if re.match(r"^[\w:<>,\s*&]+\s[\w]+(?:\[[^\]]*\])?\s*$", first):
                yield Finding("state", file.path, line, "a mutable variable out of functions", cure)

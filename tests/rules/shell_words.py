"""Which commands a shell script starts: the words that stand where a command stands.

Bash taken apart just far enough for the plain bash of this house. A command whose name is put
together at run time is not seen.
"""
import re

KEYWORDS = set("if then elif else fi while until do done time { } ! [[ coproc".split())
# A sentence that begins with one of these starts nothing before its next border.
NOT_STARTED = set("for case select function esac".split())
BUILTINS = set(". : [ alias bg break builtin cd continue declare echo eval exit export false fg "
               "getopts hash jobs kill let local logout mapfile popd printf pushd pwd read "
               "readonly return set shift shopt source test times trap true type typeset ulimit "
               "umask unalias unset wait exec command".split())
# What these are given is a command in its turn, after options, settings and numbers.
RUNNERS = set("command env exec faketime flock nice nohup nsenter setpriv sudo timeout unshare "
              "xargs".split())
# A word before a command that is none itself: an option, a number, a setting.
_NO_COMMAND = re.compile(r"[-+<>\d]|[A-Za-z_]\w*\+?=")
_COMMAND = re.compile(r"[A-Za-z_][\w.+-]*\Z")
_FUNCTION = re.compile(r"^\s*([A-Za-z_]\w*)\(\)", re.M)
_HERE_DOCUMENT = re.compile(r"<<-?\s*(['\"]?)(\w+)\1[^\n]*\n.*?\n\s*\2(?=\n|\Z)", re.S)


def functions(text):
    """The names of the functions that a script defines."""
    return set(_FUNCTION.findall(text))


def commands(text, known=()):
    """(line, name) of each command that is started by its name; `known` are functions."""
    ours = BUILTINS | functions(text) | set(known)
    text = _HERE_DOCUMENT.sub(lambda found: "\n" * found.group(0).count("\n"), text)
    script = _Script(text)
    script.run(0, None)
    return [(line, name) for line, words in script.sentences for name in started(words)
            if name not in ours]


def started(words):
    """The commands of one sentence: its first word, and what that is told to run."""
    for word in words:
        if word in NOT_STARTED:
            return
        if word in KEYWORDS or _NO_COMMAND.match(word):
            continue
        if _COMMAND.match(word):
            yield word
        if word not in RUNNERS:
            return


class _Script:
    """Gathers sentences: (line, words) of all that stands between two borders of commands."""

    def __init__(self, text):
        self.text, self.sentences = text, []

    def run(self, i, closer):
        """Reads commands from `i` on until `closer`; answers the place after it."""
        words, word, cases = [], "", []  # cases: for each `case` around, whether a pattern is due
        begun = i

        def end_word():
            nonlocal word
            if not word:
                return
            words.append(word)
            if words[0] == "case" and word == "in":
                cases.append(True)
                words.clear()
            elif word == "esac" and cases:
                cases.pop()
            word = ""

        def end_sentence():
            end_word()
            if words and not (cases and cases[-1]):
                self.sentences.append((self.text.count("\n", 0, begun) + 1, words[:]))
            words.clear()

        while i < len(self.text):
            char = self.text[i]
            if not words and not word:
                begun = i
            if char == "#" and not word:
                i = self.after("\n", i) - 1
            elif char in " \t" or self.text.startswith("\\\n", i):
                end_word()
                i += 1 + (char == "\\")
            elif char in "\n;&|":
                end_sentence()
                if self.text.startswith(";;", i) and cases:
                    cases[-1] = True
                i += 1
            elif char == ")" and cases and cases[-1]:
                words.clear()
                word, cases[-1] = "", False
                i += 1
            elif char == ")" and closer == ")":
                end_sentence()
                return i + 1
            elif char == "(":
                word, i = self.opened(word, i, end_sentence)
            else:
                piece, i = self.piece(i)
                word += piece
        end_sentence()
        return i

    def opened(self, word, i, end_sentence):
        """An opening parenthesis: of a function, an array, a calculation or a shell of its own."""
        if self.text.startswith("()", i):
            end_sentence()
            return "", i + 2
        if word.endswith("="):
            return word, self.array(i + 1)
        if self.text.startswith("((", i):
            return "/", self.after("))", i)
        end_sentence()
        return "", self.run(i + 1, ")")

    def array(self, i):
        while self.text[i] != ")":
            _, i = self.piece(i)
        return i + 1

    def piece(self, i):
        """One letter, string or substitution at `i`, as much of it as is known, and its end."""
        char = self.text[i]
        if char == "\\":
            return "/", i + 2
        if char == "'":
            end = self.after("'", i + 1)
            return self.text[i + 1:end - 1] or "/", end
        if char == '"':
            return self.string(i + 1)
        if self.text.startswith("$((", i):
            return "/", self.after("))", i)
        if self.text.startswith("$(", i):
            return "/", self.run(i + 2, ")")
        if self.text.startswith("${", i):
            return "/", self.braces(i + 2)
        return char, i + 1

    def string(self, i):
        inner = ""
        while i < len(self.text) and self.text[i] != '"':
            piece, i = (self.text[i], i + 1) if self.text[i] == "'" else self.piece(i)
            inner += piece
        return inner or "/", i + 1

    def braces(self, i):
        while i < len(self.text) and self.text[i] != "}":
            _, i = self.piece(i)
        return i + 1

    def after(self, mark, i):
        end = self.text.find(mark, i)
        return len(self.text) + 1 if end < 0 else end + len(mark)

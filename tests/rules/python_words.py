"""Which commands, modules and libraries a Python script uses, read from its syntax tree.

Commands are seen where a list of words begins with a literal: in a call of subprocess, in a call of
a function of the same file that hands its words on to one, and in any list whose second word is an
option. A command whose name is put together at run time is not seen.
"""
import ast
import sys

from shell_words import RUNNERS

STARTERS = {"run", "Popen", "call", "check_call", "check_output"}


class Uses:
    """`commands`, `modules` and `shared` libraries: (line, name) each."""

    def __init__(self, text):
        self.tree = ast.parse(text)
        self.commands, self.modules, self.shared, self.maybe = set(), set(), set(), set()
        self.passed_on = {one.name for one in ast.walk(self.tree)
                          if isinstance(one, ast.FunctionDef) and passes_on(one)}
        for node in ast.walk(self.tree):
            self.see(node)

    def see(self, node):
        if isinstance(node, ast.Import):
            self.modules |= {(node.lineno, one.name.split(".")[0]) for one in node.names}
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            self.modules.add((node.lineno, node.module.split(".")[0]))
        elif isinstance(node, (ast.List, ast.Tuple)):
            self.see_words(node.elts, self.maybe)
        elif isinstance(node, ast.Call) and node.args:
            self.see_call(node)

    def see_call(self, node):
        name = called(node)
        first = node.args[0]
        if is_start(node) or name == "which":
            words = first.elts if isinstance(first, (ast.List, ast.Tuple)) else [first]
            self.see_words(words, self.commands)
        elif name in self.passed_on:
            self.see_words(node.args, self.commands)
        elif name == "CDLL" and is_text(first):
            self.shared.add((node.lineno, first.value))

    def see_words(self, words, into):
        """The command that a list of words begins with, and what that is told to run."""
        words = words[starred(words):]
        if len(words) > 2 and is_text(words[1]) and words[1].value == "-m" and is_text(words[2]) \
                and not is_text(words[0]):
            self.modules.add((words[2].lineno, words[2].value))
        if into is self.maybe and not (len(words) > 1 and is_text(words[1])
                                       and words[1].value.startswith("-")):
            if not (words and is_text(words[0]) and words[0].value in RUNNERS):
                return
        for at, word in enumerate(words):
            if not is_text(word):
                return
            if at and (word.value.startswith(("-", "+")) or "=" in word.value
                       or word.value[:1].isdigit()):
                continue
            if "/" not in word.value:
                into.add((word.lineno, word.value))
            if word.value not in RUNNERS:
                return


def is_text(node):
    return isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value != ""


def called(node):
    return node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")


def is_start(node):
    """Whether it is a call of subprocess."""
    owner = getattr(getattr(node.func, "value", None), "id", "")
    return owner == "subprocess" and called(node) in STARTERS and bool(node.args)


def passes_on(function):
    """Whether a function starts the very words it is given, as in `def told(*words)`."""
    given = function.args.vararg
    if given is None:
        return False
    for node in ast.walk(function):
        if isinstance(node, ast.Call) and is_start(node):
            words = node.args[0]
            words = words.elts if isinstance(words, (ast.List, ast.Tuple)) else [words]
            first = [getattr(one, "value", one) for one in words[:1 + starred(words)]]
            if any(isinstance(one, ast.Name) and one.id == given.arg for one in first):
                return True
    return False


def starred(words):
    """How many lists of words are put before the first that stands for itself."""
    return next((i for i, one in enumerate(words) if not isinstance(one, ast.Starred)), len(words))


def foreign(modules, ours):
    """Those that neither Python itself nor this repository brings."""
    return {(line, name) for line, name in modules
            if name not in sys.stdlib_module_names and name not in ours}

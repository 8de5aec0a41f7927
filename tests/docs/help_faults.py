"""What may be wrong with a help or a man page, beside examples that do not work."""
import glob
import os
import re
import subprocess

from claims import NEVER

COLUMNS = 80
USAGE_WITHIN = 6
PATH = re.compile(r"(?<![\w./-])((?:app|assets|core|demo-data|tests)/[\w./-]*\w)")


def help_faults(name, page, root):
    """Faults of one help; `name` is how the command is typed."""
    faults = [f"longer than {COLUMNS} columns: {line}" for line in page.lines
              if len(line) > COLUMNS]
    faults += [f"not plain ASCII: {line}" for line in page.lines if not line.isascii()]
    usage = [n for n, line in enumerate(page.lines) if line.startswith(f"Usage: {name}")]
    if not usage or usage[0] >= USAGE_WITHIN:
        faults.append(f"does not say within {USAGE_WITHIN} lines how it is typed")
    if "Examples" in page.sections and list(page.sections)[0] != "Examples":
        faults.append("something stands before the examples")
    if page.text.count("Exit status: ") != 1:
        faults.append("does not say once what its exit status means")
    faults += [f"does not say what {option} is for" for option, what in page.options()
               if not what]
    if NEVER.search(page.text):
        faults.append(f"says {NEVER.search(page.text).group(0)}")
    text = page.text.replace("\n", " ")
    return faults + [f"there is no {path}" for path in PATH.findall(text)
                     if not glob.glob(os.path.join(root, path))]


def repeated_faults(helps):
    """Commands that share an example; `helps` is by command, the program itself left out."""
    seen, faults = {}, []
    for name, page in helps.items():
        for example in page.examples():
            for command in example.commands:
                if seen.setdefault(command, name) != name:
                    faults.append((name, f"has the example of {seen[command]}: {command}"))
    return faults


def man_faults(man, text, helps):
    """Faults of a man page: what groff says, what cannot be copied, what a help has beside it."""
    said = subprocess.run(["groff", "-man", "-ww", "-z", "-Tutf8"], input=text, text=True,
                          capture_output=True, check=False)
    faults = [f"groff: {line}" for line in said.stderr.splitlines()[:3]]
    env = dict(os.environ, MANWIDTH=str(COLUMNS), LC_ALL="C.UTF-8", MAN_KEEP_FORMATTING="")
    shown = subprocess.run(["man", "--warnings", "-l", "-"], input=text, text=True, env=env,
                           capture_output=True, check=False)
    faults += [f"man: {line}" for line in shown.stderr.splitlines()[:3]]
    if "\u2010" in shown.stdout:
        faults.append("breaks a word with a hyphen that is not its own")
    lines = {line.strip() for line in shown.stdout.splitlines()}
    faults += [f"longer than {COLUMNS} columns: {line}" for line in shown.stdout.splitlines()
               if len(line) > COLUMNS]
    for _, examples in man.parts.values():
        faults += [f"cannot be copied: {line}" for example in examples
                   for command in example.commands for line in command.splitlines()
                   if line.strip() not in lines]
    for name, page in helps.items():
        heading = name or "EXAMPLES"
        if man.examples(heading) != page.examples():
            faults.append(f"other examples than --help: {heading}")
        told = man.words(heading) if name else text.replace("\\-", "-")
        faults += [f"does not tell {option} of {heading}" for option, _ in page.options()
                   if option.split()[0].rstrip(",") not in told and option != "-h, --help"]
    return faults

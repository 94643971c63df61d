"""Makes the computed values of data/reference again and compares them with what the files say.

Every number of the files must be one of two things: made again by a script of this folder, or named by it as given
(invented, typed in from a publication or from memory), with the reason. A number that is neither, or that differs,
fails the run. Called by `npm run reference:remake`; `--without-r` lets the values of R go unmade, and says so.
"""

import csv
import importlib
import json
import platform
import re
import shutil
import subprocess
import sys
import traceback
from collections import Counter
from decimal import Decimal
from fractions import Fraction
from importlib.metadata import version
from pathlib import Path

HERE = Path(__file__).parent
REFERENCE = HERE.parent
# A script without GIVEN (file: pattern: reason) holds what the others share.
SCRIPTS = sorted(p.stem for p in HERE.glob("*.py") if p.stem != "run")
R_SCRIPTS = sorted(HERE.glob("*.R"))


def read(name):
    path = REFERENCE / name
    if path.suffix == ".csv":
        with path.open() as lines:
            return {"rows": list(csv.DictReader(lines))}
    return json.loads(path.read_text())


def leaves(value, path=""):
    """Every number, truth value and null of a file with its path; words are not compared."""
    if isinstance(value, dict):
        for key, part in value.items():
            yield from leaves(part, f"{path}/{key}")
    elif isinstance(value, list):
        for i, part in enumerate(value):
            yield from leaves(part, f"{path}/{i}")
    elif not isinstance(value, str):
        yield path[1:], value
    elif re.fullmatch(r"-?\d+(\.\d+)?(e-?\d+)?", value):
        yield path[1:], float(value)


def plain(value):
    """Arrays and numbers of numpy as those of Python."""
    if hasattr(value, "tolist"):
        return plain(value.tolist())
    if isinstance(value, dict):
        return {str(k): plain(v) for k, v in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(v) for v in value]
    return float(value) if isinstance(value, (Fraction, Decimal)) else value


def matcher(pattern):
    """`*` stands for one part of a path, `**` for any number of them."""
    parts = re.escape(pattern).replace(r"\*\*", ".*").replace(r"\*", "[^/]*")
    return re.compile(parts + r"\Z")


def apart(stored, made):
    """The difference, relative to what the file says (absolute where that is 0); infinite for what cannot be compared."""
    if type(stored) is bool or type(made) is bool or stored is None or made is None:
        return 0.0 if stored is made else float("inf")
    difference = abs(stored - made) / (abs(stored) if stored != 0 else 1.0)
    return difference if difference == difference else float("inf")


class Book:
    """What one file says, and what has been made of it."""

    def __init__(self, name):
        self.name = name
        self.data = read(name)
        self.stored = dict(leaves(self.data))
        self.made = set()
        self.given = {}
        self.wrong = []
        self.worst = 0.0
        self.tolerances = set()
        self.unmade = set()

    def compare(self, path, value, tolerance):
        for below, number in leaves(plain(value)):
            full = f"{path}/{below}".strip("/")
            if full not in self.stored:
                self.wrong.append(f"{full}: made as {number}, but the file has no such value")
                continue
            self.made.add(full)
            self.tolerances.add(tolerance)
            difference = apart(self.stored[full], number)
            if difference <= tolerance:
                self.worst = max(self.worst, difference)
            else:
                self.wrong.append(f"{full}: the file says {self.stored[full]}, made again {number}; differs by {difference:.2g}, allowed {tolerance:.2g}")

    def give(self, pattern, reason):
        fits = matcher(pattern)
        found = [path for path in self.stored if fits.match(path)]
        if not found:
            self.wrong.append(f"{pattern}: named as given ({reason}), but the file has no such value")
        self.given.update({path: reason for path in found})

    def close(self):
        """Nothing may be left over, and nothing may be both."""
        for path in sorted(self.made & self.given.keys()):
            self.wrong.append(f"{path}: named as given and made again")
        for path in self.stored:
            if path not in self.made and path not in self.given and path not in self.unmade:
                self.wrong.append(f"{path}: covered by no script")


def run_python(books):
    for stem in SCRIPTS:
        script = importlib.import_module(stem)
        for name, given in getattr(script, "GIVEN", {}).items():
            book = books.setdefault(name, Book(name))
            for pattern, reason in given.items():
                book.give(pattern, reason)
            try:
                for path, value, tolerance in script.values(book.data, name):
                    book.compare(path, value, tolerance)
            except Exception:
                book.wrong.append(f"{stem}.py failed: {traceback.format_exc(limit=-2)}")


def run_r(books, without):
    """The scripts of R print one JSON: file, then rows of path, value, tolerance. Gives how many values stay unmade."""
    rscript = shutil.which("Rscript")
    unmade = 0
    for script in R_SCRIPTS:
        header = script.read_text().splitlines()[0]
        name = header.removeprefix("# file: ")
        book = books.setdefault(name, Book(name))
        if rscript is None:
            left = [p for p in book.stored if p not in book.made and p not in book.given]
            book.unmade.update(left)
            unmade += len(left)
            if not without:
                book.wrong.append(f"{script.name}: R was not found; {len(left)} numbers of the file are covered by nothing else (on Debian: apt-get install r-base-core r-cran-jsonlite r-cran-multcomp r-cran-nlme; to go without: --without-r)")
            continue
        done = subprocess.run([rscript, "--vanilla", str(script), str(REFERENCE / name)], capture_output=True, text=True)
        if done.returncode != 0:
            book.wrong.append(f"{script.name} failed: {done.stderr.strip()}")
            continue
        told = json.loads(done.stdout)
        print(f"{script.name}: {told['with']}")
        for row in told["given"]:
            book.give(*row)
        for row in told["values"]:
            book.compare(row["path"], row["value"], row["tolerance"])
    return unmade


def main(words):
    unknown = [w for w in words if w != "--without-r"]
    if unknown:
        print(f"Unknown: {' '.join(unknown)}. The only word is --without-r.")
        return 1
    print("Python", platform.python_version(), *(f"{p} {version(p)}" for p in ("numpy", "scipy", "mpmath", "pandas", "statsmodels")))
    books = {}
    run_python(books)
    unmade = run_r(books, "--without-r" in words)
    files = sorted(p.relative_to(REFERENCE).as_posix() for e in ("json", "csv") for p in REFERENCE.rglob(f"*.{e}"))
    print(f"\n{'file':36} {'made':>5} {'given':>6}  {'worst':>8}  tolerance")
    failures = 0
    for name in files:
        if name not in books:
            print(f"{name:36} covered by no script")
            failures += 1
            continue
        book = books[name]
        book.close()
        failures += len(book.wrong)
        tolerances = sorted(book.tolerances)
        span = "-" if not tolerances else f"{tolerances[0]:.1g}" if len(tolerances) == 1 else f"{tolerances[0]:.1g} to {tolerances[-1]:.1g}"
        print(f"{name:36} {len(book.made):5} {len(book.given):6}  {book.worst:8.1g}  {span}")
        for line in book.wrong[:20]:
            print(f"    WRONG {line}")
        if len(book.wrong) > 20:
            print(f"    and {len(book.wrong) - 20} more")
    made = sum(len(b.made) for b in books.values())
    given = sum(len(b.given) for b in books.values())
    print(f"\n{made} values made again, {given} given (data, published, from memory), {failures} wrong.")
    reasons = Counter(reason for b in books.values() for reason in b.given.values())
    print("Given:", "; ".join(f"{count} {reason}" for reason, count in reasons.most_common()))
    if unmade:
        print(f"NOT MADE AGAIN, because R was not found: {unmade} numbers.")
    return 0 if failures == 0 else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

"""Small whole panels solved a second way: the same energy under the exact, unsmoothed law, minimised by SciPy.

    python3 solve_reference.py [--check] [<panel>...]

reads <panel>_problem.txt beside this file (words and units: problem.py), works its steps and writes <panel>_answer.txt
(answer.py). With --check it writes nothing, compares with the stored answer and ends with 1 if they differ. Without a
name all panels are solved, in one to three minutes each.

Triangles, strains, yarn axes, ties, members, joints that turn, wires, load lines, friction and energy are worked out
here anew from docs/model.md; only the mesh and the stated numbers come from the problem. The ways part company in the
law (cases of the exact one against a smoothed interior-point form), in the members (integrated shapes against closed
forms), in wires (their energy within the minimiser against an iteration that takes each for taut or slack), in friction
(method of multipliers against a regularised force that is remembered) and in the minimiser. Needs NumPy and SciPy
(Debian: python3-scipy).
"""

import os
import sys
import time
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # sums in the same order everywhere

import numpy  # noqa: E402
import scipy  # noqa: E402

from answer import describe, differences  # noqa: E402
from job import begin, work  # noqa: E402
from mechanics import Mechanics  # noqa: E402
from problem import read_problem  # noqa: E402

HERE = Path(__file__).resolve().parent


def solve(name):
    m = Mechanics(read_problem(HERE / f"{name}_problem.txt"))
    state, lines = begin(m), []
    for index, step in enumerate(m.problem.steps):
        began = time.monotonic()
        state = work(m, state, step)
        lines.extend(describe(m, state, index, step.kind))
        print(f"{name} {index} {step.kind}: {time.monotonic() - began:.1f} s", file=sys.stderr, flush=True)
    return lines


def remarks(name):
    return [f"# {name}, solved by tests/reference/solve_reference.py (words and units: answer.py)",
            f"# SciPy {scipy.__version__}, NumPy {numpy.__version__}"]


def main(arguments):
    check = "--check" in arguments
    names = [a for a in arguments if not a.startswith("-")]
    names = names or sorted(p.name.removesuffix("_problem.txt") for p in HERE.glob("*_problem.txt"))
    failed = False
    for name in names:
        lines, file = solve(name), HERE / f"{name}_answer.txt"
        if not check:
            file.write_text("\n".join(remarks(name) + lines) + "\n", encoding="ascii")
            continue
        stored = [line for line in file.read_text(encoding="ascii").splitlines() if not line.startswith("#")]
        for sentence in differences(stored, lines):
            print(f"{name}: {sentence}")
            failed = True
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

#!/usr/bin/env python3
"""A zone-step beside SciPy on the same tangent: what Newton's method with its sparse factorisation would take at least.

    python3 bench/scipy_step.py [NODES]

Runs build/bench/bench/evenpull_scale_report up to NODES (2000 if not said), reads the tangents that it leaves, and prints a table.
SciPy's share is that of factorisation and solution alone (scipy.sparse.linalg.splu, SuperLU, the ordering of three in which it
is fastest), as many times as our step takes iterations: law, forces and tangent of the cloth are counted as nothing for it.
Debian: python3-scipy. One core.
"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile
import time

import numpy
import scipy
import scipy.io
import scipy.sparse
import scipy.sparse.linalg

REPORT = pathlib.Path(__file__).resolve().parents[1] / "build" / "bench" / "bench" / "evenpull_scale_report"
ORDERINGS = ["MMD_AT_PLUS_A", "COLAMD", "MMD_ATA"]


def median_of_three(work):
    taken = []
    for _ in range(3):
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return sorted(taken)[1]


def iteration(matrix):
    """Processor seconds of the fastest factorisation and solution, and its ordering."""
    right = numpy.ones(matrix.shape[0])

    def once(ordering):
        options = {"SymmetricMode": True} if ordering == "MMD_AT_PLUS_A" else {}
        threshold = 0.0 if options else None
        factor = scipy.sparse.linalg.splu(matrix, permc_spec=ordering, diag_pivot_thresh=threshold, options=options)
        residual = matrix @ factor.solve(right) - right
        assert abs(residual).max() < 1e-4, f"{ordering}: residual {abs(residual).max()}"

    return min((median_of_three(lambda: once(o)), o) for o in ORDERINGS)


def main():
    nodes = sys.argv[1] if len(sys.argv) > 1 else "2000"
    print(f"SciPy {scipy.__version__}\n\n| nodes | SciPy's factorisation and solution / our factorisation | ordering | "
          "a step: SciPy's / ours, at least |\n|---|---|---|---|")
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([REPORT, nodes, folder], check=True, stdout=subprocess.DEVNULL,
                       env={**os.environ, "OPENBLAS_NUM_THREADS": "1"})
        for path in sorted(pathlib.Path(folder).glob("*.json")):
            ours = json.loads(path.read_text())
            seconds, ordering = iteration(scipy.sparse.csc_matrix(scipy.io.mmread(path.with_suffix(".mtx"))))
            print(f"| {ours['nodes']:.0f} | {seconds / ours['seconds_a_factorisation']:.1f} | {ordering} | "
                  f"{ours['iterations_a_step'] * seconds / ours['seconds_a_step']:.1f} |")


if __name__ == "__main__":
    main()

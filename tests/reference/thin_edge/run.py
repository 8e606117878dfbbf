"""Runs folded trailing edges through CalculiX and prints their rows: docs/data.md, "Thin edges by finite elements".

    python3 run.py --folder edges 0.020x25x12 0.016x19x10      # sheet [in] x leg [mm] x ribs apart [in]

Five elements across a leg make it 13 % too hard to buckle (docs/data.md): eight are used where nothing is said.
Needs numpy and the program `ccx` (Debian: calculix-ccx; the rows were made with 2.20). No test runs it.
"""

import argparse
import os
import pathlib
import subprocess

import numpy as np

import answer
import edge

LAST_STAGE = 0.880  # N/mm: the pull of cloth ironed at 350 degF
WAVES = 0.5  # mm


def solve(folder, name, deck):
    """Runs the program in the folder, on one thread."""
    for old in folder.glob(f"{name}.*"):  # an answer that stayed would be read for that of a run that failed
        old.unlink()
    (folder / f"{name}.inp").write_text(deck)
    with open(folder / f"{name}.log", "w") as log:
        subprocess.run(["nice", "-n", "15", "ccx", name], cwd=folder, stdout=log, stderr=log,
                       env={**os.environ, "OMP_NUM_THREADS": "1"}, check=False)


def imperfection(folder, mesh):
    """The first mode, a tenth of the sheet deep; and the pulls [N/mm] of the first modes."""
    solve(folder, "buckle", edge.buckling_deck(mesh))
    pulls, shapes = answer.modes(folder / "buckle.frd", len(mesh.places))
    pulls = edge.MODES_NEAR * np.array(pulls)
    return edge.IMPERFECTION * mesh.edge.sheet * shapes[0] / np.abs(shapes[0]).max(), pulls


def loads_up_to(furthest, back):
    """To the pull of a last stage, on to the furthest, and back to none; N/mm."""
    return [LAST_STAGE] + [furthest] * (furthest > LAST_STAGE) + [0.0] * back


def history(folder, mesh, made, loads, step):
    """The pulling run: one reading an increment, with its P; and whether it came to its end."""
    solve(folder, "pull", edge.pulling_deck(mesh, made, loads, step))
    reading, rows = answer.Reading(mesh), []
    for time, displacement, strain in answer.printed(folder / "pull.dat"):
        pull = edge.pull_at(time, loads)
        rows.append({"time": time, "P": pull, "strain": strain, **reading.read(displacement, pull)})
    return rows, rows[-1]["time"] > len(loads) - 1e-6


def crossing(rows, depth):
    """P at which the depth is first reached, between increments along a line; None where it is not."""
    before = {"P": 0.0, "depth": 0.0}
    for row in rows:
        if row["depth"] >= depth:
            share = (depth - before["depth"]) / (row["depth"] - before["depth"])
            return before["P"] + share * (row["P"] - before["P"])
        before = row
    return None


def at_pull(rows, pull, key):
    return np.interp(pull, [row["P"] for row in rows], [row[key] for row in rows], right=np.nan)


def summary(rows, ended, turn):
    """The columns of the table; N/m and mm. Rise: of the mean pull with P; below 0 the edge collapses.

    turn: the time from which on it is unloaded."""
    loading = [row for row in rows if row["time"] < turn + 1e-6]
    rises = np.diff([0.0] + [row["mean"] for row in loading]) / np.diff([0.0] + [row["P"] for row in loading])
    at, last = crossing(loading, WAVES), loading[-1]
    stage = {key: at_pull(loading, LAST_STAGE, key) for key in ("depth", "mean", "middle", "strain")}
    return {"waves at": 1e3 * at if at else None, "depth": stage["depth"], "mean": 1e3 * stage["mean"],
            "middle bay": 1e3 * stage["middle"], "strain": stage["strain"], "run up to": 1e3 * last["P"],
            "depth there": last["depth"], "mean there": 1e3 * last["mean"], "strain there": last["strain"],
            "least rise": min(rises), "last rise": rises[-1], "ended": ended,
            "left": rows[-1]["depth"] if rows[-1]["P"] < 1e-9 else None}


def case(name, args):
    sheet, leg, ribs = name.split("x")
    folder = args.folder / name
    folder.mkdir(parents=True, exist_ok=True)
    mesh = edge.Mesh(edge.Edge(float(sheet) * edge.INCH, float(leg), float(ribs) * edge.INCH, args.along, args.across,
                               args.flange))
    made, pulls = imperfection(folder, mesh)
    loads = loads_up_to(args.furthest / 1e3, not args.stay)
    rows, ended = history(folder, mesh, made, loads, args.step)
    told = summary(rows, ended, len(loads) - (not args.stay))
    words = [f"{key} {value:.4g}" if isinstance(value, float) else f"{key} {value}" for key, value in told.items()]
    print(name, "modes at " + ", ".join(f"{1e3 * p:.0f}" for p in pulls), *words, sep="; ", flush=True)
    with open(folder / "rows.txt", "w") as out:
        print(*rows[0], sep="\t", file=out)
        for row in rows:
            print(*(f"{value:.6g}" for value in row.values()), sep="\t", file=out)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("cases", nargs="+")
    parser.add_argument("--folder", type=pathlib.Path, required=True, help="where input and answers are left")
    parser.add_argument("--furthest", type=float, default=1760, help="pull to run up to, N/m")
    parser.add_argument("--step", type=float, default=0.05, help="largest increment, as a share of a stage")
    parser.add_argument("--along", type=float, default=9.0, help="elements along the span, mm")
    parser.add_argument("--across", type=int, default=8, help="elements across a leg")
    parser.add_argument("--stay", action="store_true", help="do not unload")
    parser.add_argument("--flange", type=float, default=12.0, help="span that a rib keeps flat, mm")
    args = parser.parse_args()
    for name in args.cases:
        case(name, args)


if __name__ == "__main__":
    main()

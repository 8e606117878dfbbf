#!/usr/bin/env python3
"""Measures what RECORD.md promises, in one run on one machine, and writes the table into it.

    cmake --preset bench && cmake --build --preset bench
    python3 bench/measure.py [--before PROGRAM] [--scale NODES]

PROGRAM: an earlier build of evenpull, to compare with; without it that line stays out. `--scale 30000` measures the cost of a
zone-step up to meshes so fine (0: not at all). Debian: valgrind, libsuitesparse-dev, libopenblas0-pthread. Leave the machine
alone meanwhile: about a quarter of an hour, half an hour with an earlier build. Nothing else in RECORD.md is touched.
"""
import argparse
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[1]
BUILD = ROOT / "build" / "bench"
RECORD = ROOT / "bench" / "RECORD.md"
BEGIN, END = "<!-- measured: begin -->", "<!-- measured: end -->"
DEMOS = ["metal_aileron", "light_tube_rudder", "two_sheet_elevator", "very_light_bow"]


def start(program, case, accuracy, threads, folder):
    command = [program, "plan", str(case), "--accuracy", accuracy, "--quiet", "--out", str(folder)]
    if threads:
        command += ["--threads", str(threads)]
    return subprocess.Popen(command, stdout=subprocess.DEVNULL)


def finish(process):
    """Processor seconds and largest memory [MB] of a child that was started."""
    _, status, use = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode != 0:
        sys.exit(f"{' '.join(process.args)} ended with {process.returncode}")
    return use.ru_utime + use.ru_stime, use.ru_maxrss / 1024


class Run:
    """A plan by the command, from the case to its folder."""

    def __init__(self, program, case, accuracy, threads):
        with tempfile.TemporaryDirectory() as folder:
            folder = pathlib.Path(folder) / "plan"
            before = time.monotonic()
            self.processor, self.memory = finish(start(program, case, accuracy, threads, folder))
            self.clock = time.monotonic() - before
            self.plan = json.loads((folder / "plan.json").read_text())
            self.timing = json.loads((folder / "timing.json").read_text())
        print(f"  {case.stem}, {accuracy}, {threads or 'all'} threads: {self.processor:.0f} s, {self.memory:.0f} MB",
              file=sys.stderr)


def pair_on_the_clock(program, case):
    """Seconds that two plans of one thread each take side by side."""
    with tempfile.TemporaryDirectory() as folder:
        before = time.monotonic()
        for process in [start(program, case, "normal", 1, pathlib.Path(folder) / str(i)) for i in range(2)]:
            finish(process)
        return time.monotonic() - before


def iterations_a_step(plan):
    """Of certified zone-steps, by stage; stage ends and releases left out."""
    by_stage = {}
    for certificate in plan["certificates"]:
        if ", pass " in certificate["after"]:
            by_stage.setdefault(certificate["stage_degF"], []).append(certificate["iterations"])
    return [sum(values) / len(values) for _, values in sorted(by_stage.items())]


def instructions(program, case):
    """Counted by callgrind over a quick plan, in thousands of millions."""
    with tempfile.TemporaryDirectory() as folder:
        run = subprocess.run(
            ["valgrind", "--tool=callgrind", f"--callgrind-out-file={folder}/counts", program, "plan", str(case), "--accuracy",
             "quick", "--threads", "1", "--quiet", "--out", f"{folder}/plan"],
            capture_output=True, text=True, check=True)
    return int(re.search(r"Collected : (\d+)", run.stderr).group(1)) / 1e9


def measure(options):
    program, aileron = str(BUILD / "app" / "evenpull"), ROOT / "cases" / "metal_aileron.toml"
    lines = ["| what | measured |", "|---|---|"]

    def line(what, value):
        lines.append(f"| {what} | {value} |")
        print(lines[-1], file=sys.stderr, flush=True)

    one = Run(program, aileron, "normal", 1)
    if options.before:
        before = Run(options.before, aileron, "normal", None)
        line("normal plan of the metal aileron, processor time with drawing, against the earlier build",
             f"{one.processor / before.processor:.2f}")
    by_stage = " / ".join(f"{value:.1f}" for value in iterations_a_step(one.plan))
    line("iterations a certified step, stages 1 / 2 / 3", by_stage)
    two = Run(program, aileron, "normal", 2)
    pair = pair_on_the_clock(program, aileron)
    line("speed-up of the whole plan from 1 to 2 threads, as a share of what two plans side by side gain",
         f"{one.clock / two.clock:.2f} of {2 * one.clock / pair:.2f}: {one.clock / two.clock / (2 * one.clock / pair):.2f}")
    quick = Run(program, aileron, "quick", 1)
    line("quick plan, one thread: computing / writing",
         f"{quick.timing['computing_s']:.1f} / {quick.timing['writing_s']:.1f} s, "
         f"{100 * quick.processor / one.processor:.0f} % of the normal one")
    memory = [two.memory] + [Run(program, ROOT / "cases" / f"{name}.toml", "normal", 2).memory for name in DEMOS[1:]]
    line("memory of a normal plan, two threads: aileron / rudder / elevator / bow",
         " / ".join(f"{value:.0f}" for value in memory) + " MB")
    small = ROOT / "tests" / "cases" / "three_ribs.toml"
    line("instructions of a quick plan of tests/cases/three_ribs.toml", f"{instructions(program, small):.1f} thousand millions")
    if options.scale:
        run = subprocess.run([str(BUILD / "bench" / "evenpull_scale_report"), str(options.scale)], capture_output=True, text=True,
                             check=True, env={**os.environ, "OPENBLAS_NUM_THREADS": "1"})
        lines.extend(["", run.stdout.strip()])
    return "\n".join(lines)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--before", metavar="PROGRAM")
    parser.add_argument("--scale", metavar="NODES", type=int, default=30000)
    table = measure(parser.parse_args())
    text = RECORD.read_text()
    head, rest = text.split(BEGIN)
    tail = rest.split(END)[1]
    aside = RECORD.with_suffix(".new")
    aside.write_text(f"{head}{BEGIN}\n\n{table}\n\n{END}{tail}")
    aside.replace(RECORD)
    print(table)


if __name__ == "__main__":
    main()

#!/usr/bin/env python3
"""Shows that a change which should change no answer changes none.

    python3 tests/support/same_answers.py record before --program build/release/app/evenpull
    ... change, build ...
    python3 tests/support/same_answers.py record after --program build/release/app/evenpull
    python3 tests/support/same_answers.py compare before after

`record` plans the demo cases and 100 cases drawn at random (`--accuracy quick`) and keeps plan.json, the exit code and what
was said, as they are. `compare` asks for the same bytes in all of them and ends with 1 if there is a difference. With
`--normal` the demo cases are planned with normal accuracy as well (minutes each), with `--normal-cases 20` so are the
first 20 drawn ones, every other of them on a mesh fine enough to have one of half its fineness. The cases are invented;
a seed draws the same case everywhere.

Where numbers may change within their tolerance, `compare --verdicts` asks for the same exit code and the same hottest safe
stage alone, and says which differ and by how much the uses moved.
"""
import argparse
import json
import pathlib
import random
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

ROOT = pathlib.Path(__file__).resolve().parents[2]


def mm(value):
    return f'"{value:.4g} mm"'


def tube(outside, wall):
    return f'{{ shape = "tube", outside_diameter = {mm(outside)}, wall = {mm(wall)} }}'


def frame_of_tube(draw, chord):
    """A ladder of tube: sections grow with the chord."""
    big = chord * draw.uniform(0.05, 0.09)
    small = big * draw.uniform(0.45, 0.8)
    wall = draw.choice([0.71, 0.89, 1.24])
    profile = f'at = ["0 %", "100 %"]\nheight = [{mm(big / 2)}, {mm(small / 2)}]'
    return profile, tube(big, wall), tube(small, wall), tube(small, wall), "6061-T6 tube", None


def frame_of_sheet(draw, chord):
    """A closed nose, pressed ribs, a folded trailing edge."""
    sheet, nose = draw.choice([0.4, 0.5, 0.6]), chord * draw.uniform(0.2, 0.3)
    deep = chord * draw.uniform(0.06, 0.09)
    profile = (f'at = ["0 mm", {mm(0.25 * nose)}, {mm(nose)}, {mm(chord)}]\n'
               f'height = ["0 mm", {mm(0.7 * deep)}, {mm(deep)}, "3 mm"]')
    edge = f'{{ shape = "folded edge", sheet = {mm(sheet)}, leg = {mm(draw.uniform(18, 28))}, opening = "6 mm" }}'
    rib = f'{{ shape = "sheet rib", sheet = {mm(sheet)}, flange = {mm(draw.uniform(10, 16))} }}'
    return profile, f'{{ shape = "closed nose", sheet = {mm(sheet)} }}', edge, rib, "2024-T3 sheet", nose


def frame_of_wood(draw, chord):
    """Spruce bars as deep as the panel."""
    deep = chord * draw.uniform(0.04, 0.06)
    profile = f'at = ["0 %", "10 %", "100 %"]\nheight = [{mm(deep)}, {mm(deep)}, {mm(deep / 4)}]'
    edge = f'{{ shape = "bar", width = {mm(draw.uniform(20, 34))} }}'
    rib = f'{{ shape = "bar", width = {mm(draw.uniform(5, 12))} }}'
    return profile, f'{{ shape = "bar", width = {mm(draw.uniform(16, 24))} }}', edge, rib, "Sitka spruce", None


def stages(draw):
    """One to three stages; passes stated or left to the plan."""
    out = []
    for temperature in [250, 300, 350][: draw.randint(1, 3)]:
        passes = draw.choice(['["full"]', '["light", "full"]', '["full", "full"]', None])
        out.append(f'[[stage]]\ntemperature = "{temperature} degF"' + (f"\npasses = {passes}" if passes else ""))
    return out


def case_text(seed):
    draw = random.Random(seed)
    bays, chord = draw.randint(2, 3), draw.uniform(250, 500)
    span = bays * draw.uniform(180, 320)
    profile, lead, trail, rib, material, nose = draw.choice([frame_of_tube, frame_of_sheet, frame_of_wood])(draw, chord)
    tip = "" if draw.random() < 0.6 else f"tip_chord = {mm(chord * draw.uniform(0.7, 0.95))}\n"
    two_sheets = draw.random() < 0.25
    text = [
        f'format = 1\ntitle = "Panel {seed} (invented)"\ninvented = true',
        f"[outline]\nspan = {mm(span)}\nchord = {mm(chord)}\n{tip}",
        f"[profile]\n{profile}",
        f'[[member]]\nname = "front"\nrole = "leading edge"\nsection = {lead}\nmaterial = "{material}"'
        + (f"\nat = {mm(nose)}" if nose else ""),
        f'[[member]]\nname = "rear"\nrole = "trailing edge"\nsection = {trail}\nmaterial = "{material}"',
        f"[ribs]\nbays = {bays}",
        f'[ribs.inner]\nsection = {rib}\nmaterial = "{material}"',
        f'[ribs.end]\nsection = {rib}\nmaterial = "{material}"',
        '[[supports.while_ironed]]\nmember = "front"\nat = ["inboard end", "outboard end"]\nas = "clamp"',
        '[[supports.in_use]]\nmember = "front"\nat = "inboard end"\nas = "clamp"',
        f'[cloth]\nclass = "{draw.choice(["light", "medium", "heavy"])}"\nlooseness = "{draw.uniform(0.2, 3):.2g} %"\n'
        f'warp_angle = "{draw.choice([0, 0, 90, 30])} deg"',
        f'[blanket]\nkind = "{"two sheets" if two_sheets else "full wrap"}"\n'
        f'inner_ribs = "{draw.choice(["bearing", "glued", "free"])}"'
        + ("" if two_sheets else f'\nwrap_angle = "{draw.randint(160, 190)} deg"\nedge_friction = {draw.uniform(0.1, 0.6):.2g}'),
        *stages(draw),
        f"[work]\nboth_sides_reachable = {draw.choice(['true', 'false'])}",
        f"[mesh]\nnodes = {draw.choice([250, 400, 550])}",
    ]
    return "\n\n".join(text) + "\n"


def plan(program, case, folder, accuracy):
    """One run: plan.json, and beside it what was said and the exit code."""
    name = case.stem + ("" if accuracy == "quick" else "_" + accuracy)
    with tempfile.TemporaryDirectory() as work:  # the same relative names wherever this runs
        shutil.copy(case, work)
        run = subprocess.run([program, "plan", case.name, "--accuracy", accuracy, "--json", "--quiet", "--out", "results"],
                             capture_output=True, text=True, check=False, cwd=work)
    (folder / f"{name}.json").write_text(run.stdout)
    (folder / f"{name}.said").write_text(f"exit code {run.returncode}\n{run.stderr}")
    return name, run.returncode


def record(options):
    folder = pathlib.Path(options.folder)
    folder.mkdir(parents=True)
    (folder / "cases").mkdir()
    jobs, program = [], str(pathlib.Path(options.program).resolve())
    demos = sorted(p for p in (ROOT / "cases").glob("*.toml") if p.stem != "template")
    jobs += [(demo, accuracy) for demo in demos for accuracy in (["normal", "quick"] if options.normal else ["quick"])]
    for seed in range(1, options.cases + 1):
        case = folder / "cases" / f"panel_{seed:03}.toml"
        case.write_text(case_text(seed))
        jobs.append((case, "quick"))
    for seed in range(1, options.normal_cases + 1):
        case = folder / "cases" / f"panel_{seed:03}_whole.toml"
        text = case_text(seed)
        case.write_text(re.sub(r"(?m)^nodes = .*", "nodes = 800", text) if seed % 2 == 0 else text)
        jobs.append((case, "normal"))
    codes = {}
    with ThreadPoolExecutor(2) as pool:
        for name, code in pool.map(lambda job: plan(program, job[0], folder, job[1]), jobs):
            codes[code] = codes.get(code, 0) + 1
            print(f"{name}: exit code {code}", flush=True)
    print(f"{sum(codes.values())} runs; by exit code: {json.dumps(codes, sort_keys=True)}")
    return 0


def compare(options):
    before, after = ({p.name: p.read_bytes() for p in pathlib.Path(f).iterdir() if p.is_file()}
                     for f in (options.before, options.after))
    differ = sorted(name for name in before.keys() | after.keys() if before.get(name) != after.get(name))
    for name in differ:
        print(f"differs: {name}")
    answers = sum(1 for name in before if name.endswith(".json") and before[name])
    print(f"{len(before) // 2} runs compared, {answers} of them with a plan; {len(differ)} files differ")
    return 1 if differ or not before else 0


def verdict(text):
    """Hottest safe stage [F], and the use of each limit at each stage."""
    if not text:
        return None, {}
    plan = json.loads(text)
    return plan["hottest_safe"]["stage_degF"], {(u["name"], u["stage_degF"]): u["use"] for u in plan["limits"]}


def compare_verdicts(options):
    before, after = ({p.stem: (p.with_suffix(".said").read_text().splitlines()[0], p.read_text())
                      for p in pathlib.Path(f).glob("*.json")} for f in (options.before, options.after))
    differ, moved = [], []
    for name in sorted(before.keys() & after.keys()):
        (stage, uses), (new_stage, new_uses) = verdict(before[name][1]), verdict(after[name][1])
        if before[name][0] != after[name][0] or stage != new_stage:
            differ.append(name)
            print(f"differs: {name}: {before[name][0]}, {stage} F before, {after[name][0]}, {new_stage} F after")
            for key in uses.keys() & new_uses.keys():
                if max(uses[key], new_uses[key]) > 0.8:
                    print(f"    {key[0]} at {key[1]} F: {uses[key]:.4f} before, {new_uses[key]:.4f} after")
        common = [key for key in uses.keys() & new_uses.keys() if uses[key] > 0.1]
        moved += [abs(new_uses[key] / uses[key] - 1) for key in common]
    moved.sort()
    if moved:
        print(f"uses above 0.1 moved by {100 * moved[len(moved) // 2]:.2f} % (median), "
              f"{100 * moved[int(0.95 * len(moved))]:.2f} % (95 of 100), {100 * moved[-1]:.1f} % (most)")
    print(f"{len(before.keys() & after.keys())} verdicts compared, {len(differ)} differ")
    return 1 if differ or not before else 0


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    commands = parser.add_subparsers(required=True)
    recorder = commands.add_parser("record")
    recorder.add_argument("folder")
    recorder.add_argument("--program", required=True)
    recorder.add_argument("--cases", type=int, default=100)
    recorder.add_argument("--normal", action="store_true")
    recorder.add_argument("--normal-cases", type=int, default=0)
    recorder.set_defaults(work=record)
    comparer = commands.add_parser("compare")
    comparer.add_argument("before")
    comparer.add_argument("after")
    comparer.add_argument("--verdicts", action="store_true")
    comparer.set_defaults(work=lambda o: compare_verdicts(o) if o.verdicts else compare(o))
    options = parser.parse_args()
    return options.work(options)


if __name__ == "__main__":
    sys.exit(main())

"""The statement of a small panel's problem, read from <panel>_problem.txt.

One word and its numbers a line, SI units (m, N, N/m, Pa, K, rad); a line that starts with # is a remark. Things are
counted from 0 in the order in which they stand. Shares (looseness, shrink, dose) are plain numbers.

    stiffness E_w E_f nu G        cold cloth, docs/model.md, section 2
    looseness x_w x_f             shares of length
    creep g                       section 3
    curve T s_w s_f P_w P_f       free shrink (share of length) and pull at fixed length at a temperature, rising
    edge_friction mu theta        wrapped edge, section 6
    rib_friction mu, nose_friction mu
    joint x y z
    member E G allowable          followed by its pieces:
    piece from to ux uy uz hinge_from hinge_to      (u: direction of "up"), followed by three sections:
    section A I_up I_flat J c_up c_flat c_twist round [kA_up kA_flat]
                                  at mid-length (stiffness), at the first and the second end (stress); round: 1 where the
                                  rim is a circle, else 0; effective areas of shear where it gives in shear
    turns a_up a_flat b_up b_flat
                                  after a piece whose ends turn against their joints: alpha = k L/(E I) in either
                                  bending at its first end (a) and its second (b), k moment per radian, L from the first
                                  joint of the member to the last, I at the end; inf: not at all (docs/model.md,
                                  section 5)
    warping C_w ends              after a piece: warping constant [m^6], and how many ends of its member cannot warp
    wire from to E A allowable tightness
                                  between two joints, only pulls; tightness [N]: on the bare frame, held as while ironed
    hold ironed|in_use joint component      component: translations 0 1 2, rotations 3 4 5
    node top|bottom row column x y z tie joint on_nose      tie: free, glued, bearing, wrapped;
                                  absent: there is no cloth round it, and it does not move
    quad n0 n1 n2 n3 zone angle   corners in turn; angle of the warp from the span towards the trailing edge
    iron zone T dose              the steps, in order
    settle                        nothing hot, until the members' compression is consistent
    release                       the same, held as in use from here on

Rows run from the leading edge to the trailing edge and columns along the span on each side. A tie's chordwise direction
is that from the node before it in its column to the one after it; its normal is at right angles to that and to the line
from the node before to the one after in its row, outwards.
"""

from dataclasses import dataclass, field
from types import SimpleNamespace

import numpy as np


@dataclass
class Problem:
    stiffness: list = field(default_factory=list)
    looseness: list = field(default_factory=list)
    creep: float = 0.0
    curve: list = field(default_factory=list)
    edge_friction: list = field(default_factory=list)
    rib_friction: float = 0.0
    nose_friction: float = 0.0
    joints: list = field(default_factory=list)
    members: list = field(default_factory=list)
    pieces: list = field(default_factory=list)
    wires: list = field(default_factory=list)
    held: dict = field(default_factory=lambda: {"ironed": [], "in_use": []})
    nodes: list = field(default_factory=list)
    quads: list = field(default_factory=list)
    steps: list = field(default_factory=list)


def read_problem(path):
    """Problem from a file; raises ValueError with the line on a word that is not known."""
    p = Problem()
    with open(path, encoding="ascii") as file:
        for line in file:
            words = line.split()
            if words and not words[0].startswith("#"):
                _take(p, words[0], words[1:], line)
    _set_lengths(p)
    _set_directions(p)
    return p


def _take(p, word, rest, line):
    if word in ("stiffness", "looseness", "edge_friction"):
        setattr(p, word, [float(v) for v in rest])
    elif word in ("creep", "rib_friction", "nose_friction"):
        setattr(p, word, float(rest[0]))
    elif word == "curve":
        p.curve.append([float(v) for v in rest])
    elif word == "joint":
        p.joints.append(np.array(rest, float))
    elif word == "member":
        young, shear, allowable = map(float, rest)
        p.members.append(SimpleNamespace(young=young, shear=shear, allowable=allowable, warp_held=0, length=0.0))
    elif word == "piece":
        p.pieces.append(SimpleNamespace(
            ends=(int(rest[0]), int(rest[1])), up=np.array(rest[2:5], float), hinges=(rest[5] == "1", rest[6] == "1"),
            member=len(p.members) - 1, section=None, end_sections=[], turns=((np.inf, np.inf), (np.inf, np.inf))))
    elif word == "section":
        names = ("area", "inertia_up", "inertia_flat", "torsion", "reach_up", "reach_flat", "reach_twist")
        section = SimpleNamespace(**dict(zip(names, map(float, rest))), round=rest[7] == "1",
                                  shear_up=float(rest[8]) if len(rest) > 8 else 0.0,
                                  shear_flat=float(rest[9]) if len(rest) > 9 else 0.0, warping=0.0)
        if p.pieces[-1].section is None:
            p.pieces[-1].section = section
        else:
            p.pieces[-1].end_sections.append(section)
    elif word == "turns":
        a_up, a_flat, b_up, b_flat = map(float, rest)
        p.pieces[-1].turns = ((a_up, a_flat), (b_up, b_flat))
    elif word == "warping":
        p.pieces[-1].section.warping = float(rest[0])
        p.members[-1].warp_held = int(rest[1])
    elif word == "wire":
        p.wires.append(SimpleNamespace(ends=(int(rest[0]), int(rest[1])), young=float(rest[2]), area=float(rest[3]),
                                       allowable=float(rest[4]), tightness=float(rest[5])))
    elif word == "hold":
        p.held[rest[0]].append((int(rest[1]), int(rest[2])))
    elif word == "node":
        p.nodes.append(SimpleNamespace(
            side=rest[0], row=int(rest[1]), column=int(rest[2]), placed=np.array(rest[3:6], float), tie=rest[6],
            joint=int(rest[7]), on_nose=rest[8] == "1"))
    elif word == "quad":
        p.quads.append(SimpleNamespace(nodes=[int(v) for v in rest[:4]], zone=int(rest[4]), angle=float(rest[5])))
    elif word == "iron":
        p.steps.append(SimpleNamespace(kind=word, zone=int(rest[0]), temperature=float(rest[1]), dose=float(rest[2])))
    elif word in ("settle", "release"):
        p.steps.append(SimpleNamespace(kind=word))
    else:
        raise ValueError("not understood: " + line)


def _set_lengths(p):
    for i, member in enumerate(p.members):
        of = [piece for piece in p.pieces if piece.member == i]
        member.length = np.linalg.norm(p.joints[of[-1].ends[1]] - p.joints[of[0].ends[0]])


def _set_directions(p):
    at = {(n.side, n.row, n.column): n.placed for n in p.nodes}
    rows = 1 + max(n.row for n in p.nodes)
    columns = 1 + max(n.column for n in p.nodes)
    for n in p.nodes:
        chord = at[n.side, min(n.row + 1, rows - 1), n.column] - at[n.side, max(n.row - 1, 0), n.column]
        span = at[n.side, n.row, min(n.column + 1, columns - 1)] - at[n.side, n.row, max(n.column - 1, 0)]
        normal = np.cross(chord, span)
        if normal[2] * (1 if n.side == "top" else -1) < 0:
            normal = -normal
        n.chordwise = chord / np.linalg.norm(chord)
        n.normal = normal / np.linalg.norm(normal)
        across = np.cross(n.normal, n.chordwise)
        n.spanwise = across if across[1] > 0 else -across

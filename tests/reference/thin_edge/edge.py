"""A folded trailing edge under the pull of cloth, as input of the finite element program CalculiX (`ccx`).

What is modelled, and what it showed, stands in docs/data.md, "Thin edges by finite elements". Here: the mesh and the
input files. x is forward, y along the span, z up, all in N and mm; the mid lines of both legs meet at x = z = 0. Half
of the three bays is meshed: the mid-plane of the span is one of symmetry. Top and bottom are not mirrored, since legs
turn together. The edge may turn in its own plane at every rib, at the outer two as well, where it ends: the outer bays
sag most, and waves begin there, beside the inner ribs.
"""

from dataclasses import dataclass

import numpy as np

INCH = 25.4
HALF_ANGLE = np.radians(11.5)
BAYS = 3
CLOTH_STIFFNESS = 100.0  # N/mm
CLOTH_DEPTH = 300.0  # mm from the free edge to where the cloth is held
SHEET = {"E": 72400.0, "nu": 0.33, "proof": 269.0, "exponent": 10}  # 2024-T3: docs/data.md, Structure
PROOF_STRAIN = 0.002
IMPERFECTION = 0.1  # of the sheet
MODES_NEAR = 0.1  # N/mm: below the pull of any mode looked for
FIRST_YIELD = 1e-6  # plastic strain below which the sheet is taken as elastic: 0.47 of the proof stress
FARTHEST_STRAIN = 0.1  # the end of the hardening curve

# corners and mid-sides of a 20-node solid in the program's order: across, through the sheet, along the span
CORNERS = ((0, 0, 0), (2, 0, 0), (2, 2, 0), (0, 2, 0), (0, 0, 2), (2, 0, 2), (2, 2, 2), (0, 2, 2))
SIDES = ((1, 0, 0), (2, 1, 0), (1, 2, 0), (0, 1, 0), (1, 0, 2), (2, 1, 2), (1, 2, 2), (0, 1, 2),
         (0, 0, 1), (2, 0, 1), (2, 2, 1), (0, 2, 1))


@dataclass(frozen=True)
class Edge:
    """What a run is about [mm]: thickness of sheet, leg from the fold's mid line to its free edge, ribs apart."""

    sheet: float
    leg: float
    ribs: float
    along: float = 9.0  # elements along the span, about
    across: int = 8  # elements across a leg
    flange: float = 12.0  # span over which a rib's flange keeps the legs flat; 0: on a line

    def stations(self):
        """Span of the lines between elements, from the first rib to mid-span; ribs and ends of flanges have theirs."""
        half = self.flange / 2
        count = 2 * round((self.ribs - self.flange) / self.along / 2)
        clear = np.linspace(half, self.ribs - half, count + 1)
        under = np.linspace(0, half, int(np.ceil(half / self.along)) + 1)
        one = np.concatenate([under[:-1], clear, self.ribs - under[-2::-1]])[:-1]
        whole = np.concatenate([one, self.ribs + one])
        return whole[whole < (BAYS / 2) * self.ribs + 1e-6]


class Mesh:
    """Nodes by place in a grid of half elements: across from the top's free edge to the bottom's, through, along."""

    def __init__(self, edge):
        self.edge, self.lines = edge, edge.stations()
        self.shape = (4 * edge.across, 2, 2 * (len(self.lines) - 1))
        self.grid = [(a, h, s) for s in range(self.shape[2] + 1) for a in range(self.shape[0] + 1) for h in range(3)
                     if a % 2 + h % 2 + s % 2 < 2]
        self.number = {place: n + 1 for n, place in enumerate(self.grid)}
        self.places = np.array([self._place(*at) for at in self.grid])

    def _place(self, a, h, s):
        if a % 2:
            return (self._place(a - 1, h, s) + self._place(a + 1, h, s)) / 2
        if s % 2:
            return (self._place(a, h, s - 1) + self._place(a, h, s + 1)) / 2
        return self._on_line(a, (h - 1) * self.edge.sheet / 2, self.lines[s // 2])

    def _on_line(self, a, out, y):
        middle = self.shape[0] // 2
        from_fold = self.edge.leg * abs(middle - a) / middle
        up = np.sign(middle - a)
        if not up:  # the mitre
            return np.array([-out / np.sin(HALF_ANGLE), y, 0.0])
        leg, normal = directions(up)
        return from_fold * leg + out * normal + np.array([0.0, y, 0.0])

    def elements(self):
        """The 20 nodes of every element."""
        origins = [(a, s) for s in range(0, self.shape[2], 2) for a in range(0, self.shape[0], 2)]
        return [[self.number[a + i, h, s + k] for i, h, k in CORNERS + SIDES] for a, s in origins]

    def free_edges(self):
        """Each node that cloth pulls at, with its leg (1 top, -1 bottom) and the span [mm] that it stands for."""
        span = np.zeros(self.shape[2] + 1)
        for s, length in zip(range(0, self.shape[2], 2), np.diff(self.lines)):
            span[s:s + 3] += length * np.array([1, 4, 1]) / 6
        return [(self.number[a, h, s], up, span[s] / 2)
                for a, up in ((0, 1), (self.shape[0], -1)) for h in (0, 2) for s in range(self.shape[2] + 1)]

    def at(self, chosen):
        """Numbers of the nodes for whose span [mm] `chosen` is true."""
        return [n + 1 for n, place in enumerate(self.places) if chosen(place[1])]

    def from_rib(self, y):
        return abs(y - self.edge.ribs * round(y / self.edge.ribs))

    def supports(self):
        """Nodes and the direction they are held in: ribs hold their line forward, and legs up and down."""
        return [(self.at(lambda y: self.from_rib(y) < 1e-6), 1),
                (self.at(lambda y: self.from_rib(y) < self.edge.flange / 2 + 1e-6), 3),
                (self.at(lambda y: y > self.lines[-1] - 1e-6), 2)]


def directions(up):
    """Unit vectors along a leg, away from the fold, and out of its outer face; up: 1 the top, -1 the bottom."""
    return (np.array([np.cos(HALF_ANGLE), 0.0, up * np.sin(HALF_ANGLE)]),
            np.array([-np.sin(HALF_ANGLE), 0.0, up * np.cos(HALF_ANGLE)]))


def _listed(name, numbers, keyword="NSET"):
    rows = [", ".join(map(str, numbers[i:i + 12])) for i in range(0, len(numbers), 12)]
    return [f"*{keyword}, {keyword}={name}"] + rows


def _nodes(places, first=1):
    return ["*NODE"] + [f"{n}, {x:.9g}, {y:.9g}, {z:.9g}" for n, (x, y, z) in enumerate(places, first)]


def hardening(rows=40):
    """Stress [MPa] and plastic strain of Ramberg and Osgood, from where the strain counts."""
    strain = np.geomspace(FIRST_YIELD, FARTHEST_STRAIN, rows)
    stress = SHEET["proof"] * (strain / PROOF_STRAIN) ** (1 / SHEET["exponent"])
    return stress, strain - strain[0]


def _material(plastic):
    text = ["*MATERIAL, NAME=SHEET", "*ELASTIC", f"{SHEET['E']}, {SHEET['nu']}"]
    if plastic:
        text += ["*PLASTIC"] + [f"{s:.5f}, {e:.4e}" for s, e in zip(*hardening())]
    return text + ["*SOLID SECTION, ELSET=SOLIDS, MATERIAL=SHEET"]


def _model(mesh, places, plastic):
    text = _nodes(places) + ["*ELEMENT, TYPE=C3D20R, ELSET=SOLIDS"]
    for n, nodes in enumerate(mesh.elements(), 1):  # a line holds 16 numbers at most
        text += [f"{n}, " + ", ".join(map(str, nodes[:15])) + ",", ", ".join(map(str, nodes[15:]))]
    text += _listed("ALL", list(range(1, len(places) + 1))) + _material(plastic)
    for k, (nodes, direction) in enumerate(mesh.supports()):
        text += _listed(f"HELD{k}", nodes) + ["*BOUNDARY", f"HELD{k}, {direction}, {direction}"]
    return text


def buckling_deck(mesh, modes=6):
    """Finds the first modes under a pull that does not give; a mode's factor is its pull over MODES_NEAR.

    The program looks for the factors that are nearest to 1, so a load beyond the first mode may miss it."""
    text = _model(mesh, mesh.places, plastic=False) + ["*STEP", "*BUCKLE", f"{modes}, 0.001", "*CLOAD"]
    for node, up, span in mesh.free_edges():
        along, _ = directions(up)
        text += [f"{node}, 1, {MODES_NEAR * along[0] * span:.9g}", f"{node}, 3, {MODES_NEAR * along[2] * span:.9g}"]
    return "\n".join(text + ["*NODE FILE", "U", "*END STEP", ""])


def _cloth(mesh, places):
    edges, first = mesh.free_edges(), len(places) + 1
    far = [places[node - 1] + CLOTH_DEPTH * directions(up)[0] for node, up, _ in edges]
    text = _nodes(far, first)
    element = len(mesh.elements()) + 1
    kinds = {}
    for n, (node, up, span) in enumerate(edges):
        kinds.setdefault(round(span, 9), []).append((node, first + n))
    for k, (span, pairs) in enumerate(kinds.items()):
        text += [f"*ELEMENT, TYPE=SPRINGA, ELSET=CLOTH{k}"]
        text += [f"{element + i}, {a}, {b}" for i, (a, b) in enumerate(pairs)]
        text += [f"*SPRING, ELSET=CLOTH{k}", "", f"{CLOTH_STIFFNESS / CLOTH_DEPTH * span:.9g}"]
        element += len(pairs)
    for name, up in (("TOP", 1), ("BOTTOM", -1)):
        text += _listed("FAR" + name, [first + n for n, e in enumerate(edges) if e[1] == up])
    return text + _listed("FREE", [e[0] for e in edges]) + ["*BOUNDARY", "FARTOP, 1, 3", "FARBOTTOM, 1, 3"]


def _pulling(loads, step):
    moves = [pull * CLOTH_DEPTH / CLOTH_STIFFNESS for pull in [0.0] + loads]
    text = ["*AMPLITUDE, NAME=LOADS"] + [f"{time}., {moved:.9g}" for time, moved in enumerate(moves)]
    text += ["*STEP, NLGEOM, INC=2000", "*STATIC", f"{step}, {len(loads)}., 1e-6, {step}", "*BOUNDARY, AMPLITUDE=LOADS"]
    for name, up in (("FARTOP", 1), ("FARBOTTOM", -1)):
        along, _ = directions(up)
        text += [f"{name}, 1, 1, {along[0]:.9g}", f"{name}, 3, 3, {along[2]:.9g}"]
    return text + ["*NODE PRINT, NSET=FREE", "U", "*EL PRINT, ELSET=SOLIDS", "PEEQ", "*END STEP", ""]


def pulling_deck(mesh, imperfection, loads, step):
    """Pulls from none to one load P [N/mm] after the other, 1 of time each, in increments of `step` of it at most.

    The far end of the cloth moves forward by what makes P where nothing gives. imperfection [mm]: one row a node. All
    is one step of the program's: a step that begins with yielded sheet and unloads it finds no equilibrium."""
    places = mesh.places + imperfection
    return "\n".join(_model(mesh, places, plastic=True) + _cloth(mesh, places) + _pulling(loads, step))


def pull_at(time, loads):
    """P [N/mm] at a time of the pulling run."""
    return np.interp(time, range(len(loads) + 1), [0.0] + loads)

"""The answer to a problem, <panel>_answer.txt: a word and its numbers a line, for each step of the problem in order.

    step index what          what: iron, settle or release
    energy cloth frame       integral of 1/2 N:C:N, and 1/2 u K u of the members without geometric stiffness, with
                             N^2/2k of wires [J]
    use v                    worst stress over allowable stress of all members, from the moments that hold the joints,
                             and of all wires
    mean v v v v             pull over the area: top and bottom along the chord, top and bottom along the span [N/m]
    slip v ...               of the wrapped columns from the inboard end [mm]
    wire v ...               pull of each wire [N]; 0: it is slack
    pull w f s               of each quad, mean of its triangles: warp, fill, sqrt(2) shear [N/m]
    joint x y z              displacement of each joint [mm], after settling and release only
    node x y z               displacement of each node [mm], after settling and release only
"""

import numpy as np

# Largest change of a number that is only another version of SciPy: what the minimiser leaves out of balance, with room.
SAME = {"energy": 1e-4, "use": 1e-4, "mean": 0.05, "slip": 5e-3, "wire": 0.05, "pull": 0.5, "joint": 1e-3, "node": 0.05}


def describe(m, state, index, kind):
    """Lines of the answer after one step."""
    p = m.problem
    quads = len(p.quads)
    weight = m.weight.reshape(quads, 4)
    pull = np.einsum("qt,qti->qi", weight, state.pull.reshape(quads, 4, 3)) / weight.sum(1)[:, None]
    angle = np.array([q.angle for q in p.quads])
    c, s, shear = np.cos(angle), np.sin(angle), pull[:, 2] / np.sqrt(2)
    chord = s * s * pull[:, 0] + c * c * pull[:, 1] + 2 * s * c * shear
    span = c * c * pull[:, 0] + s * s * pull[:, 1] - 2 * s * c * shear
    top = np.array([p.nodes[q.nodes[0]].side == "top" for q in p.quads])
    mean = [np.average(v[side], weights=weight.sum(1)[side]) for v in (chord, span) for side in (top, ~top)]
    elastic = 0.5 * np.einsum("ti,ij,tj->t", state.pull, m.compliance, state.pull) @ m.weight
    frame = m.frame_energy(state.u)
    slips = sorted((p.nodes[x.nodes[0]].column, 1e3 * state.u[x.unknowns[0]]) for x in m.slides if x.wrapped)
    yield f"step {index} {kind}"
    yield f"energy {elastic:.6f} {frame:.6f}"
    yield f"use {m.worst_use(state.u):.6f}"
    yield "mean " + " ".join(f"{v:.3f}" for v in mean)
    yield " ".join(["slip"] + [f"{v:.4f}" for _, v in slips])
    if m.wires:
        yield _row("wire", [wire.axial(ends) for wire, _, ends in m.wires_at(state.u)], 4)
    yield from (_row("pull", v, 2) for v in pull)
    if kind != "iron":
        yield from (_row("joint", v[:3], 4) for v in 1e3 * state.u[:6 * len(p.joints)].reshape(-1, 6))
        yield from (_row("node", v, 4) for v in 1e3 * (m.to_nodes @ state.u).reshape(-1, 3))


def _row(word, values, digits):
    return word + " " + " ".join(f"{v + 0.0:.{digits}f}" for v in values)


def differences(stored, made):
    """Sentences on where two answers differ by more than another version of a library explains."""
    if len(stored) != len(made):
        return ["the answers differ in length"]
    worst = {}
    for before, now in zip(stored, made):
        (word, *a), (other, *b) = before.split(), now.split()
        if word != other or word == "step" and a != b:
            return [f"'{before}' has become '{now}'"]
        if word != "step":
            change = max((abs(float(x) - float(y)) for x, y in zip(a, b)), default=0)
            worst[word] = max(worst.get(word, 0), change)
    return [f"{word} has changed by {change:.3g}, more than {SAME[word]:g}" for word, change in worst.items()
            if change > SAME[word]]

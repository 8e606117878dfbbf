"""The job step by step: one zone-step is one balance; then shrink is stored."""

from dataclasses import dataclass, replace

import numpy as np

import cloth
from balance import balance


@dataclass
class State:
    u: np.ndarray
    shrink: np.ndarray  # triangle, (warp, fill)
    friction: list
    pull: np.ndarray  # triangle, (warp, fill, sqrt(2) shear)
    held: str = "ironed"


def begin(mechanics):
    """Cloth as laid on: loose, so that nothing moves but what wires draw."""
    n = len(mechanics.weight)
    laid = State(np.zeros(mechanics.count), np.zeros((n, 2)), [np.zeros(len(s.unknowns)) for s in mechanics.slides],
                 np.zeros((n, 3)))
    return solve(mechanics, laid) if mechanics.wires else laid


def free_shrink(problem, temperature):
    """Free shrink (strain) and Nc [N/m] of both directions at a temperature: docs/model.md, section 3."""
    t = [row[0] for row in problem.curve]
    share, pull = (np.array([np.interp(temperature, t, [row[k] for row in problem.curve]) for k in pair])
                   for pair in ((1, 2), (3, 4)))
    shrink = 0.5 * (1 - (1 - share) ** 2)
    stretch = (cloth.compliance(*problem.stiffness) @ np.append(pull, 0))[:2]
    return shrink, pull / (1 - stretch / shrink)


def load_lines(problem, before, temperature, dose):
    shrink, limit = free_shrink(problem, temperature)
    a = before + dose * (shrink - before)
    b = np.broadcast_to(dose * shrink / limit, a.shape)
    return cloth.PanelLoadLines(a, b, np.broadcast_to(limit, a.shape), problem.creep)


def solve(m, state, hot=(), lines=None):
    held = [6 * j + k for j, k in m.problem.held[state.held]]
    hot = np.array(hot, int)
    u, friction, pull, _ = balance(m, held, state.u, state.friction, (state.shrink, hot, lines))
    shrink = state.shrink.copy()
    if len(hot):
        shrink[hot] = lines.end_shrink(state.shrink[hot], pull[hot, :2])
    return State(u, shrink, friction, pull, state.held)


def work(m, state, step):
    """State after one step of the problem."""
    if step.kind == "iron":
        hot = np.nonzero(m.zone == step.zone)[0]
        return solve(m, state, hot, load_lines(m.problem, state.shrink[hot], step.temperature, step.dose))
    return solve(m, replace(state, held="in_use") if step.kind == "release" else state)

"""What the finite element program answered: modes, places of the free edges, pull of the cloth, plastic strain."""

import numpy as np

from edge import CLOTH_DEPTH, CLOTH_STIFFNESS, directions


def modes(frd, nodes):
    """Factors and displacements (modes, nodes, 3) of a buckling run; the first block is the state before."""
    factors, shapes, rows = [], [], None
    for line in open(frd):
        if line.startswith("  100CL"):
            factors.append(float(line[12:24]))
        elif line.startswith(" -4  DISP"):
            rows = []
        elif line.startswith(" -3") and rows is not None:
            shapes.append(rows)
            rows = None
        elif line.startswith(" -1") and rows is not None:
            rows.append([float(line[13 + 12 * k:25 + 12 * k]) for k in range(3)])
    shapes = np.array(shapes)
    if shapes.shape[1:] != (nodes, 3):
        raise ValueError(f"{frd}: {shapes.shape} is not one row of three for each of {nodes} nodes")
    return factors[1:], shapes[1:]


def printed(dat):
    """For each increment its time, displacements by node (a dict) and largest plastic strain."""
    found, at = [], None
    for line in open(dat):
        words = line.split()
        if line.startswith(" displacements"):
            found.append([float(words[-1]), {}, 0.0])
            at = "place"
        elif "plastic strain" in line:
            at = "strain"
        elif len(words) == 4 and at == "place":
            found[-1][1][int(words[0])] = np.array(words[1:], float)
        elif len(words) == 3 and at == "strain":
            found[-1][2] = max(found[-1][2], float(words[2]))
    return found


class Reading:
    """What the waves are and what the cloth pulls, from displacements of the free edges."""

    def __init__(self, mesh):
        self.edges = mesh.free_edges()
        self.y = np.array([mesh.places[node - 1][1] for node, _, _ in self.edges])
        self.up = np.array([up for _, up, _ in self.edges])
        self.span = np.array([span for _, _, span in self.edges])
        self.along = np.array([directions(up)[0] for up in self.up])
        self.ribs = mesh.edge.ribs

    def together(self, moved):
        """How far both free edges are up or down together, by span: the average of both legs' two rows of nodes."""
        return moved[:, 2].reshape(4, -1).mean(axis=0)

    def read(self, displacement, pull):
        """Depth of waves [mm] (what the load adds), mean pull, that of the middle bay [N/mm]; largest bow [mm]."""
        u = np.array([displacement[node] for node, _, _ in self.edges])
        far = pull / (CLOTH_STIFFNESS / CLOTH_DEPTH) * self.along
        longer = np.linalg.norm(CLOTH_DEPTH * self.along + far - u, axis=1) - CLOTH_DEPTH
        line = CLOTH_STIFFNESS / CLOTH_DEPTH * longer
        middle = self.y > self.ribs + 1e-6
        return {"depth": np.abs(self.together(u)).max(), "mean": np.average(line, weights=self.span),
                "middle": np.average(line[middle], weights=self.span[middle]), "bow": u[:, 0].max()}

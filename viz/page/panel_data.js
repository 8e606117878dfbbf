// The panel's numbers, and what of them can be shown.
"use strict";

const METRES_PER_INCH = 0.0254;
const NEWTONS_PER_METRE_OF_POUND_PER_INCH = 4.4482216152605 / METRES_PER_INCH;

function colourOf(hex) {
  return [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255);
}

function bandOf(scale, value) {
  let k = 0;
  while (k + 1 < scale.colours.length && value >= scale.bounds[k + 1]) ++k;
  return k;
}

// What can be shown on the cloth. `zone` gives the word that stands in a zone.
function shownFields(data) {
  const minus = (word) => word.replace("-", "\u2212");
  const pounds = (v) => minus((v / NEWTONS_PER_METRE_OF_POUND_PER_INCH).toFixed(1));
  const units = ["lb/in", "N/m"], both = (v) => [minus(v.toFixed(0)), pounds(v)];
  const signed = (v) => (v > 0 ? "+" : "");
  const pull = (name, title, words) => ({
    name, title, words, unit: "lb/in", scale: data.pull_scale, lines: true, hatch: true,
    values: (panel, step) => panel.quadValues(name, step), zone: pounds, units, scaleWords: both,
  });
  return {
    larger: pull("larger", "Pull", "Pull, the larger one, whichever way it runs"),
    chord: pull("chord", "Pull along the chord", "Pull along the chord"),
    span: pull("span", "Pull along the span", "Pull along the span"),
    difference: {
      name: "difference", title: "Pull difference (risk to the frame)", words: "Pull difference along the chord, top minus bottom: what bends and twists the frame",
      unit: "lb/in", scale: data.difference_scale, lines: true, hatch: false,
      values: (panel, step) => panel.differenceValues(step),
      zone: (v) => signed(v) + pounds(v), units, scaleWords: (v) => both(v).map((word) => signed(v) + word),
    },
    state: {
      name: "state", title: "State of the cloth", words: "State: loose, puckered (pulls one way), tight (pulls both ways)", unit: "",
      scale: { bounds: [-0.5, 0.5, 1.5, 2.5], colours: ["#33407f", "#4fa39a", "#f0e6a0"], open_end: false },
      lines: false, hatch: true, flat: true,
      values: (panel, step) => panel.stateValues(step),
      zone: (v) => (v < 0.5 ? "loose" : v < 1.5 ? "puckered" : "tight"),
      bandWords: ["loose", "puckered", "tight"],
    },
    use: {
      name: "use", title: "Use of the frame", words: "Stress in the frame as a share of its limit (1 is the limit)", unit: "of the limit",
      scale: data.use_scale, frame: true, lines: false, hatch: false,
      values: (panel, step) => panel.quadValues("larger", step), zone: () => "", scaleWords: (v) => [v.toFixed(1)],
    },
  };
}

// The panel's numbers, without any drawing.
class PanelData {
  constructor(data, fields) {
    this.data = data;
    this.fields = fields;
    this.columns = data.columns;
    this.rows = data.rows;
    this.quadCount = fields.zone.length;
    this.nodeCount = fields.placed.length / 3;
    this.moments = data.labels.length;
    this.corners = new Uint32Array(4 * this.quadCount);
    this.keys = new Uint32Array(4 * this.quadCount); // corner and bay: a rib may divide the pull
    const bayOf = new Uint16Array(this.columns);
    for (let b = 0; b + 1 < data.rib_columns.length; ++b)
      for (let c = data.rib_columns[b]; c < data.rib_columns[b + 1]; ++c) bayOf[c] = b;
    for (let q = 0; q < this.quadCount; ++q) {
      const side = q < this.quadCount / 2 ? 0 : 1, row = fields.row[q], column = fields.column[q];
      const node = (r, c) => (side * this.rows + r) * this.columns + c;
      [node(row, column), node(row + 1, column), node(row + 1, column + 1), node(row, column + 1)].forEach((n, i) => {
        this.corners[4 * q + i] = n;
        this.keys[4 * q + i] = bayOf[column] * this.nodeCount + n;
      });
    }
    this.sums = new Float64Array(this.nodeCount * Math.max(1, data.bays));
    this.weights = new Float64Array(this.sums.length);
    for (let i = 0; i < this.keys.length; ++i) this.weights[this.keys[i]] += fields.area[i >> 2];
  }

  quadValues(name, step) {
    const field = this.fields[name], frame = field.frame(step);
    return Float32Array.from(frame, (v) => v * field.step);
  }
  differenceValues(step) {
    const v = this.quadValues("chord", step), half = v.length / 2;
    return Float32Array.from(v, (_, q) => v[q % half] - v[half + (q % half)]);
  }
  stateValues(step) {
    return Float32Array.from(this.fields.state.frame(step));
  }
  cornerValues(perQuad, flat) {
    const out = new Float32Array(4 * this.quadCount);
    if (flat) {
      for (let i = 0; i < out.length; ++i) out[i] = perQuad[i >> 2];
      return out;
    }
    this.sums.fill(0);
    for (let i = 0; i < this.keys.length; ++i) this.sums[this.keys[i]] += this.fields.area[i >> 2] * perQuad[i >> 2];
    for (let i = 0; i < out.length; ++i) out[i] = this.sums[this.keys[i]] / this.weights[this.keys[i]];
    return out;
  }
  zoneMeans(perQuad) {
    const sum = new Float64Array(this.data.zones.length), area = new Float64Array(sum.length);
    perQuad.forEach((v, q) => {
      sum[this.fields.zone[q]] += v * this.fields.area[q];
      area[this.fields.zone[q]] += this.fields.area[q];
    });
    return sum.map((v, z) => (area[z] > 0 ? v / area[z] : 0));
  }
  largestUse(step) {
    const use = this.fields.use;
    return use.frame(step).reduce((most, v) => Math.max(most, v), 0) * use.step;
  }
  largestSlip(step) {
    const slip = this.fields.slip;
    return slip.frame(step).reduce((most, v) => (Math.abs(v) > Math.abs(most) ? v : most), 0) * slip.step;
  }
  places(step, factor) {
    const { placed, moved } = this.fields, m = moved.frame(step);
    return Float32Array.from(placed, (v, i) => v + factor * moved.step * m[i]);
  }
  jointPlaces(step, factor) {
    const { joints, joint_moved } = this.fields, m = joint_moved.frame(step);
    return Float32Array.from(joints, (v, i) => v + factor * joint_moved.step * m[6 * Math.floor(i / 3) + (i % 3)]);
  }
  // Nodes round each piece of a zone, in order. Cut-outs may leave it any shape.
  outlines(zone) {
    if (!this.zoneOutlines) this.zoneOutlines = this.data.zones.map((_, z) => this.traceZone(z));
    return this.zoneOutlines[zone];
  }
  // The longest of them.
  outline(zone) {
    return this.outlines(zone).reduce((most, piece) => (piece.length > most.length ? piece : most), []);
  }
  traceZone(zone) {
    return this.traceQuads((q) => this.fields.zone[q] === zone);
  }
  skinOutlines() {
    if (!this.skins) this.skins = [0, 1].flatMap((side) => this.traceQuads((q) => (q < this.quadCount / 2 ? 0 : 1) === side));
    return this.skins;
  }
  traceQuads(counts) {
    const edges = new Map(), key = (a, b) => a * this.nodeCount + b;
    for (let q = 0; q < this.quadCount; ++q) {
      if (!counts(q)) continue;
      for (let i = 3; i >= 0; --i) {
        const from = this.corners[4 * q + ((i + 1) % 4)], to = this.corners[4 * q + i];
        if (!edges.delete(key(to, from))) edges.set(key(from, to), [from, to]);
      }
    }
    const next = new Map(edges.values()), pieces = [];
    while (next.size > 0) {
      const piece = [];
      for (let at = Math.min(...next.keys()); next.has(at); ) {
        piece.push(at);
        const to = next.get(at);
        next.delete(at);
        at = to;
      }
      pieces.push(piece);
    }
    return pieces;
  }
}

// The panel in three dimensions: cloth in bands of colour, frame, zones. A small WebGL2 renderer; words, numbers and the
// outline of the next zone are drawn over it on a second canvas. Looked at square on (no perspective), as a drawing is.
"use strict";

const CLOTH_VERTEX = `#version 300 es
in vec3 position; in float value; in float state;
uniform mat4 view; out float v; flat out float s; out vec3 p;
void main() { vec4 q = view * vec4(position, 1.0); gl_Position = q; v = value; s = state; p = q.xyz; }`;

// Band by band as on paper: flat colour, a thin dark line between bands, strokes where the cloth is puckered, crossed
// strokes where it is loose. The strokes keep to the screen, so they stay readable at any size.
const CLOTH_FRAGMENT = `#version 300 es
precision highp float;
in float v; flat in float s; in vec3 p; out vec4 ink;
uniform int count; uniform float bounds[32]; uniform vec3 colours[32];
uniform float lines; uniform float hatch; uniform float opacity; uniform float pixel;
float stroke(float at) { return abs(fract(at) - 0.5) * 2.0; }
void main() {
  int k = 0; float nearest = 1e9, steep = max(fwidth(v), 1e-6);
  for (int i = 1; i < 32; ++i) {
    if (i >= count) break;
    if (v >= bounds[i]) k = i;
    nearest = min(nearest, abs(v - bounds[i]));
  }
  vec3 c = colours[k];
  vec3 n = normalize(cross(dFdx(p), dFdy(p)));
  c *= 0.90 + 0.10 * abs(n.z);
  if (lines > 0.5 && nearest / steep < 0.5 * pixel) c *= 0.45;
  if (hatch > 0.5 && s < 0.5) c = vec3(0.93); // nothing pulls there, so there is no value to show
  if (hatch > 0.5 && s < 1.5) {
    vec2 at = gl_FragCoord.xy / (9.0 * pixel);
    float d = stroke(at.x + at.y);
    if (s < 0.5) d = min(d, stroke(at.x - at.y));
    if (d < 0.16) c = vec3(s < 0.5 ? 0.45 : 0.0); else if (s > 0.5 && d < 0.36) c = mix(c, vec3(1.0), 0.75);
  }
  ink = vec4(c, opacity);
}`;

// A line as a strip of `width` pixels: WebGL's own lines are a pixel wide whatever one asks for.
const LINE_VERTEX = `#version 300 es
in vec3 from; in vec3 to; in vec2 corner; in float width; in vec3 colour;
uniform mat4 view; uniform vec2 screen; uniform float nearer; out vec3 c;
void main() {
  vec4 a = view * vec4(from, 1.0), b = view * vec4(to, 1.0);
  vec2 d = (b.xy - a.xy) * screen; float l = max(length(d), 1e-6);
  vec2 along = d / l, across = vec2(-along.y, along.x);
  vec4 q = mix(a, b, corner.x);
  q.xy += (across * corner.y + along * (corner.x * 2.0 - 1.0)) * width / screen;
  q.z -= nearer; gl_Position = q; c = colour;
}`;
const LINE_FRAGMENT = `#version 300 es
precision highp float; in vec3 c; out vec4 ink; void main() { ink = vec4(c, 1.0); }`;

const MOST_BANDS = 32;
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
    const across = this.columns - 1, down = this.rows - 1;
    for (let q = 0; q < this.quadCount; ++q) {
      const side = Math.floor(q / (across * down)), row = Math.floor(q / across) % down, column = q % across;
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
  // Nodes round a zone, in order.
  outline(zone) {
    const z = this.data.zones[zone], { rib_columns, strip_rows } = this.data;
    const r0 = strip_rows[z.strip], r1 = strip_rows[z.strip + 1], c0 = rib_columns[z.bay], c1 = rib_columns[z.bay + 1];
    const node = (r, c) => (z.side * this.rows + r) * this.columns + c, nodes = [];
    for (let c = c0; c < c1; ++c) nodes.push(node(r0, c));
    for (let r = r0; r < r1; ++r) nodes.push(node(r, c1));
    for (let c = c1; c > c0; --c) nodes.push(node(r1, c));
    for (let r = r1; r > r0; --r) nodes.push(node(r, c0));
    return nodes;
  }
}

class PanelView {
  constructor(canvas, overlay, panel) {
    this.canvas = canvas;
    this.overlay = overlay;
    this.panel = panel;
    this.roll = 0;    // about the span: half a turn shows the bottom, as when the panel is rolled over on the bench
    this.turn = 0;    // about what stands up from the bench
    this.tilt = 0.6;  // away from looking straight down
    this.zoom = 1;
    this.shift = [0, 0];
    this.factor = 20;
    this.step = 0;
    this.next = -1;
    this.picked = -1;
    this.shown = null;
    const gl = canvas.getContext("webgl2", { antialias: true, preserveDrawingBuffer: true });
    if (!gl) throw new Error("no WebGL2");
    this.gl = gl;
    this.cloth = makeProgram(gl, CLOTH_VERTEX, CLOTH_FRAGMENT);
    this.line = makeProgram(gl, LINE_VERTEX, LINE_FRAGMENT);
    this.buffers = {};
    const index = new Uint32Array(6 * panel.quadCount);
    for (let q = 0; q < panel.quadCount; ++q) index.set([0, 1, 2, 0, 2, 3].map((i) => 4 * q + i), 6 * q);
    this.indexBuffer = gl.createBuffer();
    gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, this.indexBuffer);
    gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, index, gl.STATIC_DRAW);
    this.indexCount = index.length;
    this.frameRange();
  }

  frameRange() {
    const low = [1e9, 1e9, 1e9], high = [-1e9, -1e9, -1e9];
    this.panel.fields.placed.forEach((v, i) => {
      low[i % 3] = Math.min(low[i % 3], v);
      high[i % 3] = Math.max(high[i % 3], v);
    });
    this.middle = low.map((v, k) => (v + high[k]) / 2);
    this.size = high.map((v, k) => v - low[k]);
  }

  // Lies along the longer side of the picture.
  lieDown() {
    this.turn = this.overlay.clientHeight > this.overlay.clientWidth ? Math.PI / 2 : 0;
    this.shift = [0, 0];
    this.zoom = 1;
  }

  // Rows of the rotation: span to the right, leading edge up, before it is rolled, turned and tilted.
  rotation() {
    const [cr, sr] = [Math.cos(this.roll), Math.sin(this.roll)], [ct, st] = [Math.cos(this.turn), Math.sin(this.turn)];
    const [cl, sl] = [Math.cos(this.tilt), Math.sin(this.tilt)];
    const lay = [[0, 1, 0], [-1, 0, 0], [0, 0, 1]];
    const roll = [[1, 0, 0], [0, cr, -sr], [0, sr, cr]];
    const turn = [[ct, -st, 0], [st, ct, 0], [0, 0, 1]];
    const tilt = [[1, 0, 0], [0, cl, sl], [0, -sl, cl]];
    return multiply(tilt, multiply(turn, multiply(roll, lay)));
  }

  // From metres to pixels of the overlay.
  scale() {
    const w = this.overlay.clientWidth, h = this.overlay.clientHeight, r = this.rotation();
    const reach = [0, 1].map((i) => r[i].reduce((sum, v, k) => sum + Math.abs(v) * this.size[k], 0));
    return this.zoom * Math.min((w - 40) / reach[0], (h - 48) / reach[1]);
  }
  project(x, y, z) {
    const r = this.r, s = this.s, p = [x - this.middle[0], y - this.middle[1], z - this.middle[2]];
    const dot = (row) => row[0] * p[0] + row[1] * p[1] + row[2] * p[2];
    return [this.overlay.clientWidth / 2 + this.shift[0] + s * dot(r[0]),
      this.overlay.clientHeight / 2 + this.shift[1] - s * dot(r[1]), dot(r[2])];
  }

  matrix() {
    const r = this.r, s = this.s, w = this.overlay.clientWidth, h = this.overlay.clientHeight;
    const depth = 1 / (2 * Math.hypot(...this.size));
    const scale = [2 * s / w, 2 * s / h, -depth], shift = [2 * this.shift[0] / w, -2 * this.shift[1] / h, 0];
    const m = new Float32Array(16);
    for (let i = 0; i < 3; ++i) {
      let constant = shift[i];
      for (let k = 0; k < 3; ++k) {
        m[4 * k + i] = scale[i] * r[i][k];
        constant -= scale[i] * r[i][k] * this.middle[k];
      }
      m[12 + i] = constant;
    }
    m[15] = 1;
    return m;
  }

  draw() {
    const gl = this.gl, pixel = Math.min(window.devicePixelRatio || 1, 2);
    const w = this.overlay.clientWidth, h = this.overlay.clientHeight;
    if (!w || !h || !this.shown) return;
    for (const c of [this.canvas, this.overlay])
      if (c.width !== Math.round(w * pixel) || c.height !== Math.round(h * pixel)) {
        c.width = Math.round(w * pixel);
        c.height = Math.round(h * pixel);
      }
    this.r = this.rotation();
    this.s = this.scale();
    this.nodes = this.panel.places(this.step, this.factor);
    gl.viewport(0, 0, this.canvas.width, this.canvas.height);
    gl.clearColor(1, 1, 1, 1);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    gl.enable(gl.DEPTH_TEST);
    const matrix = this.matrix();
    const perQuad = this.shown.values(this.panel, this.step);
    this.drawCloth(matrix, perQuad, pixel);
    this.drawZoneLines(matrix, pixel);
    if (this.shown.frame) this.drawFrame(matrix, pixel);
    this.drawWords(perQuad, pixel);
  }

  drawCloth(matrix, perQuad, pixel) {
    const gl = this.gl, { panel, shown, cloth } = this, n = 4 * panel.quadCount;
    const position = new Float32Array(3 * n), state = new Float32Array(n);
    const loose = panel.fields.state.frame(this.step);
    for (let i = 0; i < n; ++i) {
      const node = panel.corners[i];
      position[3 * i] = this.nodes[3 * node];
      position[3 * i + 1] = this.nodes[3 * node + 1];
      position[3 * i + 2] = this.nodes[3 * node + 2];
      state[i] = loose[i >> 2];
    }
    gl.useProgram(cloth.program);
    this.feed(cloth, "position", position, 3);
    this.feed(cloth, "value", panel.cornerValues(perQuad, shown.flat), 1);
    this.feed(cloth, "state", state, 1);
    const colours = new Float32Array(3 * MOST_BANDS), bounds = new Float32Array(MOST_BANDS);
    const scale = shown.frame ? { bounds: [0, 1], colours: ["#e9e6df"] } : shown.scale;
    scale.colours.forEach((c, i) => colours.set(colourOf(c), 3 * i));
    bounds.set(scale.bounds.slice(0, MOST_BANDS));
    gl.uniformMatrix4fv(cloth.at("view"), false, matrix);
    gl.uniform1i(cloth.at("count"), scale.colours.length);
    gl.uniform1fv(cloth.at("bounds"), bounds);
    gl.uniform3fv(cloth.at("colours"), colours);
    gl.uniform1f(cloth.at("lines"), shown.lines ? 1 : 0);
    gl.uniform1f(cloth.at("hatch"), shown.hatch ? 1 : 0);
    gl.uniform1f(cloth.at("opacity"), 1);
    gl.uniform1f(cloth.at("pixel"), pixel);
    gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, this.indexBuffer);
    gl.drawElements(gl.TRIANGLES, this.indexCount, gl.UNSIGNED_INT, 0);
  }

  drawZoneLines(matrix, pixel) {
    const lines = [];
    for (let z = 0; z < this.panel.data.zones.length; ++z) {
      const nodes = this.panel.outline(z);
      nodes.forEach((n, i) => {
        const m = nodes[(i + 1) % nodes.length];
        lines.push({ a: this.nodes.subarray(3 * n, 3 * n + 3), b: this.nodes.subarray(3 * m, 3 * m + 3) });
      });
    }
    this.drawLines(matrix, lines, () => 1.4 * pixel, () => [0.1, 0.1, 0.1], 0.004);
  }

  drawFrame(matrix, pixel) {
    const { beams } = this.panel.fields, joints = this.panel.jointPlaces(this.step, this.factor);
    const use = this.panel.fields.use, now = use.frame(this.step), lines = [];
    for (let b = 0; b < beams.length / 3; ++b) {
      const [from, to] = [beams[3 * b], beams[3 * b + 1]];
      lines.push({ a: joints.subarray(3 * from, 3 * from + 3), b: joints.subarray(3 * to, 3 * to + 3), use: now[b] * use.step });
    }
    lines.sort((p, q) => p.use - q.use); // the worst lies on top
    this.gl.disable(this.gl.DEPTH_TEST);
    const width = (l) => (4 + 8 * Math.min(1, l.use)) * pixel;
    this.drawLines(matrix, lines, (l) => width(l) + 3 * pixel, () => [0, 0, 0], 0);
    this.drawLines(matrix, lines, width, (l) => colourOf(this.shown.scale.colours[bandOf(this.shown.scale, l.use)]), 0);
  }

  drawLines(matrix, lines, width, colour, nearer) {
    const gl = this.gl, n = lines.length, from = new Float32Array(18 * n), to = new Float32Array(18 * n);
    const corner = new Float32Array(12 * n), wide = new Float32Array(6 * n), tint = new Float32Array(18 * n);
    const corners = [[0, -1], [1, -1], [1, 1], [0, -1], [1, 1], [0, 1]];
    lines.forEach((l, i) => {
      const w = width(l), c = colour(l);
      corners.forEach((at, k) => {
        const v = 6 * i + k;
        from.set(l.a, 3 * v);
        to.set(l.b, 3 * v);
        corner.set(at, 2 * v);
        wide[v] = w;
        tint.set(c, 3 * v);
      });
    });
    gl.useProgram(this.line.program);
    this.feed(this.line, "from", from, 3);
    this.feed(this.line, "to", to, 3);
    this.feed(this.line, "corner", corner, 2);
    this.feed(this.line, "width", wide, 1);
    this.feed(this.line, "colour", tint, 3);
    gl.uniformMatrix4fv(this.line.at("view"), false, matrix);
    gl.uniform2f(this.line.at("screen"), this.canvas.width, this.canvas.height);
    gl.uniform1f(this.line.at("nearer"), nearer);
    gl.drawArrays(gl.TRIANGLES, 0, 6 * n);
  }

  feed(program, name, values, size) {
    const gl = this.gl, at = gl.getAttribLocation(program.program, name);
    if (at < 0) return;
    const buffer = (this.buffers[name] ||= gl.createBuffer());
    gl.bindBuffer(gl.ARRAY_BUFFER, buffer);
    gl.bufferData(gl.ARRAY_BUFFER, values, gl.DYNAMIC_DRAW);
    gl.enableVertexAttribArray(at);
    gl.vertexAttribPointer(at, size, gl.FLOAT, false, 0, 0);
  }

  // The outline of a zone on the screen and whether it faces us.
  zoneOnScreen(zone) {
    const points = this.panel.outline(zone).map((n) => this.project(...this.nodes.subarray(3 * n, 3 * n + 3)));
    let twice = 0;
    points.forEach((p, i) => {
      const q = points[(i + 1) % points.length];
      twice += p[0] * q[1] - q[0] * p[1];
    });
    const side = this.panel.data.zones[zone].side;
    return { points, facing: side === 0 ? twice > 0 : twice < 0, area: Math.abs(twice) / 2 };
  }

  drawWords(perQuad, pixel) {
    const g = this.overlay.getContext("2d"), { panel, shown } = this;
    g.setTransform(pixel, 0, 0, pixel, 0, 0);
    g.clearRect(0, 0, this.overlay.clientWidth, this.overlay.clientHeight);
    const means = panel.zoneMeans(perQuad);
    for (let z = 0; z < means.length; ++z) {
      const { points, facing, area } = this.zoneOnScreen(z);
      if (!facing || panel.data.zones[z].side !== this.facingSide()) continue;
      if (z === this.next || z === this.picked) outlineZone(g, points, z === this.next);
      this.zoneWords(g, points, area, panel.data.zones[z].label, shown.zone(means[z]), z === this.next);
    }
    this.edgeWords(g);
  }

  zoneWords(g, points, area, label, number, next) {
    const xs = points.map((p) => p[0]), ys = points.map((p) => p[1]);
    const width = Math.max(...xs) - Math.min(...xs), height = Math.max(...ys) - Math.min(...ys);
    const x = (Math.max(...xs) + Math.min(...xs)) / 2, y = (Math.max(...ys) + Math.min(...ys)) / 2;
    const words = next ? [label, "next"] : number ? [label, number] : [label];
    const size = 13, line = 15;
    g.font = `600 ${size}px system-ui, sans-serif`;
    g.textAlign = "center";
    g.textBaseline = "middle";
    let fits = words.filter((word) => g.measureText(word).width + 6 < Math.max(width, 0));
    if (fits.length * line + 2 > height || area < 500) fits = fits.slice(0, height > line ? 1 : 0);
    fits.forEach((word, i) => {
      const at = y + (i - (fits.length - 1) / 2) * line, w = g.measureText(word).width + 6;
      g.fillStyle = next && word === label ? "#000" : "rgba(255,255,255,0.88)";
      g.fillRect(x - w / 2, at - line / 2, w, line);
      g.fillStyle = next && word === label ? "#fff" : "#000";
      g.fillText(word, x, at + 1);
    });
  }

  // Leading and trailing edge, root and tip by name, outside the cloth that faces us.
  edgeWords(g) {
    const { rows, columns } = this.panel, side = this.facingSide();
    const at = (r, c) => {
      const n = 3 * ((side * rows + r) * columns + c);
      return this.project(...this.nodes.subarray(n, n + 3));
    };
    const centre = at(rows >> 1, columns >> 1);
    g.font = "12px system-ui, sans-serif";
    g.textAlign = "center";
    g.lineWidth = 4;
    g.strokeStyle = "#fff";
    g.fillStyle = "#000";
    const across = this.overlay.clientWidth, down = this.overlay.clientHeight;
    const within = (v, half, most) => Math.min(Math.max(v, half + 2), most - half - 2);
    // Beside the panel there may be room for two letters only.
    const name = (word, p, short = word) => {
      const d = Math.hypot(p[0] - centre[0], p[1] - centre[1]) || 1;
      const ux = (p[0] - centre[0]) / d, uy = (p[1] - centre[1]) / d;
      const beside = Math.abs(ux) > Math.abs(uy), room = ux > 0 ? across - p[0] : p[0];
      const text = beside && g.measureText(word).width + 8 > room ? short : word;
      const half = g.measureText(text).width / 2, away = 10 + Math.abs(ux) * half;
      const x = within(p[0] + away * ux, half, across), y = within(p[1] + away * uy, 7, down);
      g.strokeText(text, x, y);
      g.fillText(text, x, y);
    };
    name("leading edge", at(0, columns >> 1), "LE");
    name("trailing edge", at(rows - 1, columns >> 1), "TE");
    name("root", at(rows >> 1, 0));
    name("tip", at(rows >> 1, columns - 1));
  }

  facingSide() {
    return this.rotation()[2][2] >= 0 ? 0 : 1;
  }

  zoneAt(x, y) {
    for (let z = 0; z < this.panel.data.zones.length; ++z) {
      const { points, facing } = this.zoneOnScreen(z);
      if (facing && inside(points, x, y)) return z;
    }
    return -1;
  }
}

function outlineZone(g, points, next) {
  const trace = () => {
    g.beginPath();
    points.forEach((p, i) => (i ? g.lineTo(p[0], p[1]) : g.moveTo(p[0], p[1])));
    g.closePath();
  };
  g.lineJoin = "round";
  for (const [width, ink, dash] of [[8, "#fff", []], [5, "#000", next ? [] : [6, 6]]]) {
    trace();
    g.lineWidth = width;
    g.strokeStyle = ink;
    g.setLineDash(dash);
    g.stroke();
  }
  g.setLineDash([]);
}

function inside(points, x, y) {
  let is = false;
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length];
    if (p[1] > y !== q[1] > y && x < p[0] + ((q[0] - p[0]) * (y - p[1])) / (q[1] - p[1])) is = !is;
  });
  return is;
}

function multiply(a, b) {
  return a.map((row) => [0, 1, 2].map((k) => row[0] * b[0][k] + row[1] * b[1][k] + row[2] * b[2][k]));
}

function makeProgram(gl, vertex, fragment) {
  const program = gl.createProgram();
  for (const [kind, text] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, text);
    gl.compileShader(shader);
    if (!gl.getShaderParameter(shader, gl.COMPILE_STATUS)) throw new Error(gl.getShaderInfoLog(shader));
    gl.attachShader(program, shader);
  }
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS)) throw new Error(gl.getProgramInfoLog(program));
  const places = {};
  return { program, at: (name) => (name in places ? places[name] : (places[name] = gl.getUniformLocation(program, name))) };
}

// The panel in three dimensions: cloth in bands of colour, frame, zones. A small WebGL2 renderer; words, numbers and the
// outline of the next zone are drawn over it on a second canvas. Looked at square on (no perspective), as a drawing is.
"use strict";

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
      for (const nodes of this.panel.outlines(z))
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
    let fits = words.filter((word) => g.measureText(word).width + 2 < width);
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

// The lesson: three ways with one clock. Both skins are laid out flat about the trailing edge, as on the sheet.
"use strict";

const by = (id) => document.getElementById(id);
const numbers = JSON.parse(by("numbers").textContent);
const skinGap = 58; // room between the skins, in which the pencil marks slide
const pens = [
  { ink: "#9e4c0d", width: 3.2, dash: "" },
  { ink: "#1a738c", width: 2.6, dash: "9 5" },
  { ink: "#0d0d0d", width: 2.6, dash: "2 4" },
];

function roundFactor(wanted) {
  let best = 1;
  for (let power = 1; power <= 1000; power *= 10) for (const m of [1, 2, 5]) if (m * power <= wanted) best = m * power;
  return best;
}
function degrees(radians) {
  const d = (180 / Math.PI) * radians;
  return d.toFixed(Math.abs(d) < 0.1 ? 3 : 2) + "°";
}
const largest = (lists) => lists.flat().reduce((most, v) => Math.max(most, Math.abs(v)), 0);

class WayPanel {
  constructor(index, panel) {
    this.canvas = by("panel-" + index);
    this.way = numbers.ways[index];
    this.panel = panel;
    this.out = by("numbers-" + index);
    this.last = panel.moments - 1;
  }

  // Metres to pixels: span across, top skin above, the bottom rolled over below it.
  layOut() {
    const { placed } = this.panel.fields;
    let [x0, x1, y0, y1] = [1e9, -1e9, 1e9, -1e9];
    for (let i = 0; i < placed.length; i += 3) {
      x0 = Math.min(x0, placed[i]);
      x1 = Math.max(x1, placed[i]);
      y0 = Math.min(y0, placed[i + 1]);
      y1 = Math.max(y1, placed[i + 1]);
    }
    this.width = this.canvas.clientWidth;
    this.scale = Math.min((this.width - 24) / (y1 - y0), 240 / (x1 - x0));
    this.twistRoom = 84;
    this.height = 2 * this.scale * (x1 - x0) + skinGap + 40 + this.twistRoom;
    const left = (this.width - this.scale * (y1 - y0)) / 2, chord = this.scale * (x1 - x0), top = 22;
    this.at = (node) => {
      const x = placed[3 * node], y = placed[3 * node + 1], along = this.scale * (x - x0);
      const bottom = node >= this.panel.nodeCount / 2;
      return [left + this.scale * (y - y0), top + (bottom ? 2 * chord + skinGap - along : along)];
    };
    this.edge = top + chord + skinGap / 2;
    this.pixel = Math.min(window.devicePixelRatio || 1, 2);
    this.canvas.style.height = this.height + "px";
    this.canvas.width = Math.round(this.width * this.pixel);
    this.canvas.height = Math.round(this.height * this.pixel);
  }

  draw(clock, factors) {
    const step = Math.min(clock, this.last), g = this.canvas.getContext("2d"), { panel } = this;
    g.setTransform(this.pixel, 0, 0, this.pixel, 0, 0);
    g.fillStyle = "#fff";
    g.fillRect(0, 0, this.width, this.height);
    const pull = panel.quadValues("larger", step), state = panel.fields.state.frame(step);
    for (let q = 0; q < panel.quadCount; ++q) {
      g.fillStyle = state[q] === 0 ? "#ececec" : numbers.scale.colours[bandOf(numbers.scale, pull[q])];
      this.trace(g, [[0, 1, 2, 3].map((i) => panel.corners[4 * q + i])]);
      g.fill();
      g.strokeStyle = g.fillStyle;
      g.lineWidth = 0.6;
      g.stroke();
    }
    this.hatch(g, state);
    g.strokeStyle = "#111";
    g.lineWidth = 1;
    for (let z = 0; z < panel.data.zones.length; ++z) {
      this.trace(g, panel.outlines(z));
      g.stroke();
    }
    const hot = step > 0 ? panel.data.steps[step - 1].zone : -1;
    if (hot >= 0)
      for (const [width, ink] of [[7, "#fff"], [4, "#000"]]) {
        this.trace(g, panel.outlines(hot));
        g.lineWidth = width;
        g.strokeStyle = ink;
        g.stroke();
      }
    if (numbers.can_slip) this.marks(g, step, factors.slip);
    this.twist(g, step, factors.twist);
    this.words(g);
    this.say(clock, step);
  }

  trace(g, pieces) {
    g.beginPath();
    for (const nodes of pieces) {
      nodes.forEach((n, i) => {
        const [x, y] = this.at(n);
        if (i) g.lineTo(x, y);
        else g.moveTo(x, y);
      });
      g.closePath();
    }
  }

  hatch(g, state) {
    for (const which of [0, 1]) {
      g.save();
      g.beginPath();
      for (let q = 0; q < this.panel.quadCount; ++q) {
        if (state[q] !== which) continue;
        [0, 1, 2, 3].forEach((i) => {
          const [x, y] = this.at(this.panel.corners[4 * q + i]);
          if (i) g.lineTo(x, y);
          else g.moveTo(x, y);
        });
        g.closePath();
      }
      g.clip();
      g.beginPath();
      for (let d = 0; d < this.width + this.height; d += 8) {
        g.moveTo(d, 0);
        g.lineTo(d - this.height, this.height);
        if (which === 0) {
          g.moveTo(this.width - d, 0);
          g.lineTo(this.width - d + this.height, this.height);
        }
      }
      g.strokeStyle = which === 0 ? "#8a8a8a" : "#fff";
      g.lineWidth = which === 0 ? 0.8 : 1.6;
      g.stroke();
      g.restore();
    }
  }

  // Pencil marks across the trailing edge: thin where they were made, heavy where the cloth has taken them.
  marks(g, step, factor) {
    const { rib_columns, edge_bays, rows, columns } = this.panel.data, slip = this.panel.fields.slip, now = slip.frame(step);
    for (let b = 0; b + 1 < rib_columns.length; ++b) {
      if (!edge_bays[b]) continue;
      const column = (rib_columns[b] + rib_columns[b + 1]) >> 1, x = this.at((rows - 1) * columns + column)[0];
      const moved = this.edge - factor * this.scale * slip.step * now[column];
      const line = (y, width) => {
        g.lineWidth = width;
        g.beginPath();
        g.moveTo(x - 11, y);
        g.lineTo(x + 11, y);
        g.stroke();
      };
      g.strokeStyle = "#111";
      line(this.edge, 1);
      line(moved, 4.5);
      if (Math.abs(moved - this.edge) > 5) {
        const toward = Math.sign(moved - this.edge);
        g.beginPath();
        g.moveTo(x, this.edge);
        g.lineTo(x, moved);
        g.lineWidth = 1.5;
        g.stroke();
        g.beginPath();
        g.moveTo(x, moved + 4 * toward);
        g.lineTo(x - 4, moved - 3 * toward);
        g.lineTo(x + 4, moved - 3 * toward);
        g.fillStyle = "#111";
        g.fill();
      }
    }
  }

  // Root chord thin, tip chord heavy, seen from the root: magnified, and beside it at true scale with the slide as it is.
  twist(g, step, factor) {
    const y = this.height - this.twistRoom / 2 - 8, reach = Math.min(90, this.width / 6.5), under = this.height - 6;
    this.chords(g, 0.25 * this.width, y, reach, factor * this.way.tip_turn[step]);
    g.font = "12px system-ui, sans-serif";
    g.fillStyle = "#111";
    g.textAlign = "center";
    g.fillText(`twist, ${factor} times`, 0.25 * this.width, under);
    this.chords(g, 0.58 * this.width, y, 0.5 * reach, this.way.tip_turn[step]);
    g.textAlign = "left";
    g.fillText(numbers.can_slip ? "true scale: twist and slide" : "true scale", 0.58 * this.width - 0.5 * reach, under);
    this.small(g, step, 0.86 * this.width, y);
  }

  chords(g, x, y, reach, turn) {
    g.strokeStyle = "#777";
    g.lineWidth = 1;
    g.beginPath();
    g.moveTo(x - reach, y);
    g.lineTo(x + reach, y);
    g.stroke();
    g.strokeStyle = "#111";
    g.lineWidth = 4 * Math.min(1, reach / 60);
    g.beginPath();
    g.moveTo(x - reach * Math.cos(turn), y + reach * Math.sin(turn));
    g.lineTo(x + reach * Math.cos(turn), y - reach * Math.sin(turn));
    g.stroke();
    if (reach < 40) return;
    g.font = "12px system-ui, sans-serif";
    g.fillStyle = "#111";
    g.textAlign = "right";
    g.fillText("LE", x - reach - 4, y + 4);
    g.textAlign = "left";
    g.fillText("TE", x + reach + 4, y + 4);
  }

  // The panel once more, small, with its marks where they really are.
  small(g, step, x, y) {
    const [left, top] = this.at(0), last = this.at(this.panel.nodeCount - 1), first = this.at(this.panel.nodeCount / 2);
    const right = Math.max(last[0], this.at(this.panel.columns - 1)[0]), bottom = Math.max(first[1], last[1]);
    const by = Math.min((0.24 * this.width) / (right - left), (this.twistRoom - 22) / (bottom - top));
    const put = ([px, py]) => [x + by * (px - (left + right) / 2), y + by * (py - (top + bottom) / 2)];
    const { rows, columns } = this.panel;
    g.strokeStyle = "#111";
    g.lineWidth = 1;
    for (const piece of this.panel.skinOutlines()) {
      g.beginPath();
      piece.forEach((n, i) => (i ? g.lineTo(...put(this.at(n))) : g.moveTo(...put(this.at(n)))));
      g.closePath();
      g.stroke();
    }
    if (!numbers.can_slip) return;
    const { rib_columns, edge_bays } = this.panel.data, slip = this.panel.fields.slip, now = slip.frame(step);
    for (let b = 0; b + 1 < rib_columns.length; ++b) {
      if (!edge_bays[b]) continue;
      const column = (rib_columns[b] + rib_columns[b + 1]) >> 1;
      const [mx, my] = put([this.at((rows - 1) * columns + column)[0], this.edge - this.scale * slip.step * now[column]]);
      g.lineWidth = 2;
      g.beginPath();
      g.moveTo(mx - 3, my);
      g.lineTo(mx + 3, my);
      g.stroke();
    }
  }

  words(g) {
    g.fillStyle = "#111";
    g.font = "12px system-ui, sans-serif";
    g.textAlign = "left";
    g.fillText("TOP", 6, 14);
    g.fillText("BOTTOM, rolled over", 6, this.height - this.twistRoom - 4);
    g.textAlign = "right";
    g.fillText("tip", this.width - 6, 14);
  }

  say(clock, step) {
    const w = this.way, slip = Math.abs(w.slip[step]), words = [];
    const zone = step > 0 ? this.panel.data.zones[this.panel.data.steps[step - 1].zone].label : "";
    words.push(`${step > 0 ? `${zone} just ironed` : "Not begun"}. Turned over ${w.turn_overs[step]} times.`);
    words.push(`Twist ${degrees(w.twist[step])}.`);
    if (numbers.can_slip)
      words.push(slip < 5e-5 ? "No slip." : `Slip ${(slip / METRES_PER_INCH).toFixed(2)} in (${(1000 * slip).toFixed(1)} mm) to the ${w.slip[step] > 0 ? "top" : "bottom"}.`);
    if (clock > this.last) words.push("The frame gave way here.");
    this.out.textContent = words.join(" ");
  }
}

function drawCurves(clock, last) {
  by("curves").replaceChildren(...numbers.curves.map((curve) => {
    const figure = document.createElement("figure"), caption = document.createElement("figcaption");
    caption.textContent = curve.title;
    if (curve.limit_words)
      caption.append(Object.assign(document.createElement("small"), { textContent: curve.limit_words }));
    const ns = "http://www.w3.org/2000/svg", svg = document.createElementNS(ns, "svg"), width = 320, height = 170;
    svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", curve.title + ": " + curve.ways.map((w, i) => `${numbers.ways[i].letter} largest ${largest([w]).toFixed(curve.decimals)}`).join(", ") +
      (curve.limit_words ? "; " + curve.limit_words : ""));
    const add = (name, attributes, text) => {
      const e = document.createElementNS(ns, name);
      for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
      if (text) e.textContent = text;
      svg.append(e);
    };
    const all = [...curve.ways.flat(), ...curve.limits], low = Math.min(0, ...all), high = Math.max(0, ...all), span = high - low || 1;
    const x = (i) => 44 + ((width - 66) * i) / Math.max(1, last), y = (v) => 8 + ((height - 30) * (high - v)) / span;
    const word = (v) => v.toFixed(curve.decimals).replace("-", "−");
    for (const v of new Set([Math.min(0, ...curve.ways.flat()), 0, Math.max(0, ...curve.ways.flat())])) {
      add("line", { x1: 44, x2: width - 22, y1: y(v), y2: y(v), stroke: v === 0 ? "#111" : "#999", "stroke-width": v === 0 ? 1.2 : 0.6 });
      if (v === 0 || Math.abs(y(v) - y(0)) > 14) add("text", { x: 38, y: y(v) + 4, "text-anchor": "end" }, word(v));
    }
    // Out of bounds lies beyond the strokes.
    curve.limits.forEach((v) => {
      add("line", { x1: 44, x2: width - 22, y1: y(v), y2: y(v), stroke: "#111", "stroke-width": 2.2, class: "limit" });
      for (let at = 52; at < width - 22; at += 9)
        add("line", { x1: at, x2: at - 5, y1: y(v), y2: y(v) - Math.sign(v) * 5, stroke: "#111", "stroke-width": 0.8 });
    });
    const at = Math.min(clock, last);
    add("line", { x1: x(at), x2: x(at), y1: 4, y2: height - 20, stroke: "#111", "stroke-width": 1 });
    let above = -99;
    curve.ways
      .map((way, i) => ({ way, i, end: y(way.at(-1)) }))
      .sort((a, b) => a.end - b.end)
      .forEach(({ way, i, end }) => {
        const pen = pens[i];
        add("polyline", { points: way.map((v, k) => `${x(k).toFixed(1)},${y(v).toFixed(1)}`).join(" "), fill: "none", stroke: pen.ink,
          "stroke-width": pen.width, "stroke-dasharray": pen.dash, "stroke-linecap": "round", "stroke-linejoin": "round" });
        above = Math.max(end, above + 14);
        add("text", { x: width - 16, y: above + 4, "font-weight": 700 }, numbers.ways[i].letter);
      });
    add("text", { x: 44, y: height - 3 }, "start");
    add("text", { x: width - 22, y: height - 3, "text-anchor": "end" }, `step ${last}`);
    figure.append(caption, svg);
    return figure;
  }));
}

function drawBar() {
  const { bounds, colours } = numbers.scale, each = Math.ceil(colours.length / 8);
  const names = document.createElement("b");
  for (const unit of ["lb/in", "N/m"]) names.append(Object.assign(document.createElement("span"), { textContent: unit }));
  by("bar").replaceChildren(names, ...colours.map((colour, i) => {
    const cell = document.createElement("div"), box = document.createElement("i");
    const upper = document.createElement("span"), lower = document.createElement("span");
    if (i % each === 0) {
      upper.textContent = (bounds[i] / NEWTONS_PER_METRE_OF_POUND_PER_INCH).toFixed(1);
      lower.textContent = bounds[i].toFixed(0);
    }
    box.style.background = colour;
    cell.append(upper, box, lower);
    return cell;
  }));
}

async function begin() {
  const panels = [];
  for (let i = 0; i < numbers.ways.length; ++i) {
    const about = JSON.parse(by("about-" + i).textContent);
    panels.push(new WayPanel(i, new PanelData(about, await unpackFields(by("fields-" + i).textContent, about.parts))));
  }
  const last = Math.max(...panels.map((p) => p.last)), slider = by("step");
  let factors = {}, playing = 0;
  slider.max = last;
  const draw = () => {
    const clock = Number(slider.value);
    for (const p of panels) p.draw(clock, factors);
    drawCurves(clock, last);
    by("clock-words").textContent = clock ? `Step ${clock} of ${last}` : "Before ironing";
    slider.setAttribute("aria-valuetext", by("clock-words").textContent);
  };
  const layOut = () => {
    for (const p of panels) p.layOut();
    const slip = largest(numbers.ways.map((w) => w.slip)) * panels[0].scale, turn = largest(numbers.ways.map((w) => w.tip_turn));
    factors = { slip: slip ? roundFactor((0.46 * skinGap) / slip) : 1, twist: turn ? roundFactor(0.26 / turn) : 1 };
    by("legend").textContent = "Pull, the larger one. White strokes: puckered. Crossed strokes: loose. Outlined: just ironed." +
      (numbers.can_slip ? ` Heavy marks between the skins: pencil marks on the cloth at the trailing edge, their slide drawn ${factors.slip} times.` : "") +
      ` Under the skins: the tip's chord (heavy) against the root's, seen from the root, turned ${factors.twist} times as much, and beside it at true scale.` +
      " Curves: A unbroken, B dashed, C dotted.";
    draw();
  };
  const play = () => {
    if (playing) {
      clearInterval(playing);
      playing = 0;
    } else {
      if (Number(slider.value) >= last) slider.value = 0;
      // The whole story takes a minute at most.
      playing = setInterval(() => {
        if (Number(slider.value) >= last) return play();
        slider.value = Number(slider.value) + 1;
        draw();
      }, Math.min(400, 50000 / Math.max(1, last)));
    }
    by("play").textContent = playing ? "Stop" : "Play";
  };
  // A guess comes back beside its answer.
  document.querySelectorAll(".questions input").forEach((choice) => {
    choice.addEventListener("change", () => {
      by(choice.name.replace("guess", "guessed")).textContent = `You guessed: ${choice.value}.`;
    });
  });
  slider.addEventListener("input", draw);
  by("play").addEventListener("click", play);
  slider.value = Math.min(numbers.telling, last);
  drawBar();
  layOut();
  addEventListener("resize", layOut);
  document.body.dataset.ready = "yes";
  performance.mark("ready");
}
begin();

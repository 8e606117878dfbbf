// The page of a plan: which zone is next, the ticks, the timer, the picture and its clock.
"use strict";

const about = JSON.parse(document.getElementById("about").textContent);
const by = (id) => document.getElementById(id);
const sideWords = ["TOP", "BOTTOM"];

const ticks = new Ticks(document.body.dataset.key);
const boxes = [...document.querySelectorAll("input[data-tick]")];
let picture = null;

// ---- readings before going on: what each says, and what all of them open ----

const windows = [...document.querySelectorAll("fieldset.readings")].map((element, i) => ({
  element, ...about.windows[i], fields: [...element.querySelectorAll("input")], unit: element.querySelector(".unit"), answer: "",
}));
function keepReadings() {
  ticks.keepReadings(Object.fromEntries(windows.map((w) => [w.stage, { unit: w.unit.value, read: w.fields.map((f) => f.value) }])));
}
function showReadings() {
  const all = ticks.readings();
  for (const w of windows) {
    const kept = all[w.stage];
    w.fields.forEach((field, i) => (field.value = kept?.read?.[i] ?? ""));
    if (kept?.unit) w.unit.value = kept.unit;
    judgeWindow(w);
  }
}
for (const w of windows)
  for (const field of [...w.fields, w.unit])
    field.addEventListener("input", () => {
      judgeWindow(w);
      keepReadings();
      showTicks();
    });

// A stage that only readings open is worked once they do.
function opened(stage) { return windows.some((w) => w.needed && w.next === stage && w.answer === "inside"); }
function stepsToWork() {
  const w = windows.find((each) => each.needed);
  return about.steps_to_work + (w && opened(w.next) ? about.steps_by_reading : 0);
}
// What was read stands against going on from one stage to the next.
function barredAfter(stage) {
  const w = windows.find((each) => each.stage === stage);
  return w && w.answer && w.answer !== "inside" ? w[w.answer === "not_believed" ? "again" : w.answer] : "";
}

function nextStep() {
  for (let i = 0; i < stepsToWork(); ++i) if (!ticks.has("step " + i)) return i;
  return -1;
}

function zoneOf(step) { return about.zones[about.steps[step].zone]; }

function showTicks() {
  const next = nextStep(), most = stepsToWork();
  for (const box of boxes) {
    if (box.dataset.tick.startsWith("step ")) box.disabled = Number(box.dataset.tick.slice(5)) >= most;
    box.checked = ticks.has(box.dataset.tick);
    const label = box.closest(".tick");
    if (!label) continue;
    label.classList.toggle("is-done", box.checked);
    label.classList.toggle("is-next", box.dataset.tick === "step " + next);
  }
  for (const pass of document.querySelectorAll(".pass")) {
    const all = [...pass.querySelectorAll("input")];
    pass.querySelector(".count").textContent = `${all.filter((b) => b.checked).length} of ${all.length} done`;
  }
  showNext(next);
  picture?.setNext(next);
}

function showNext(next) {
  const done = next < 0;
  by("done").disabled = done;
  by("back").disabled = !boxes.some((b) => b.checked && b.dataset.tick.startsWith("step"));
  by("next-turn").hidden = true;
  if (done) {
    const w = windows.find((each) => each.needed && !opened(each.next));
    by("next-zone").textContent = "All done";
    by("next-where").textContent = "Every zone of every pass is ticked.";
    by("next-stage").textContent = w
      ? `${w.answer ? w[w.answer === "not_believed" ? "again" : w.answer] + " " : ""}Hotter only if every bay reads inside its window: ${about.stages[w.next].words}.`
      : "Work through the last checks.";
    return;
  }
  const step = about.steps[next], zone = zoneOf(next), before = next > 0 ? zoneOf(next - 1) : null;
  const from = next > 0 ? about.steps[next - 1] : null;
  by("next-zone").textContent = zone.label;
  by("next-where").textContent =
    `${sideWords[zone.side]}, bay ${zone.bay + 1} from the root` +
    (about.strips > 1 ? `, strip ${zone.strip + 1} from the leading edge` : "");
  by("next-stage").textContent =
    `${about.stages[step.stage].words}, pass ${step.pass}: ${about.doses[step.dose]}. Step ${next + 1} of ${stepsToWork()}.`;
  by("done").textContent = `Done: ${zone.label}`;
  showPass(step);
  let turn = "";
  if (from && from.stage !== step.stage)
    turn = barredAfter(from.stage) || "New stage: check, then set the iron to " + about.stages[step.stage].words;
  else if (before && before.side !== zone.side) turn = about.both_sides ? "Change sides" : "Turn over";
  by("next-turn").textContent = turn;
  by("next-turn").hidden = !turn;
}

function openPassOf(step) {
  const box = boxes.find((b) => b.dataset.tick === "step " + step);
  if (box) box.closest("details").open = true;
}

for (const box of boxes)
  box.addEventListener("change", () => {
    ticks.put(box.dataset.tick, box.checked);
    showTicks();
  });
by("done").addEventListener("click", () => {
  const next = nextStep();
  if (next < 0) return;
  ticks.put("step " + next, true);
  stopTimer();
  showTicks();
  openPassOf(nextStep());
  picture?.setStep(next + 1);
});
// The same page open twice, or a browser that hands the ticks out late.
window.addEventListener("storage", (e) => {
  if (e.key !== ticks.key) return;
  ticks.read();
  showTicks();
});
window.addEventListener("storage", (e) => {
  if (e.key !== ticks.key + " readings") return;
  showReadings();
  showTicks();
});
by("back").addEventListener("click", () => {
  const done = boxes.filter((b) => b.checked && b.dataset.tick.startsWith("step"));
  const last = Math.max(...done.map((b) => Number(b.dataset.tick.slice(5))));
  ticks.put("step " + last, false);
  showTicks();
  picture?.setStep(last);
});
by("save-log").addEventListener("click", () =>
  saveForLog("ticks-and-readings.json", pageForLog(about.steps.length, (name) => ticks.has(name), windows)));
by("forget").addEventListener("click", () => {
  if (!confirm("Clear every tick of this plan?")) return;
  ticks.clear();
  showReadings();
  showTicks();
});
addEventListener("beforeprint", () => document.querySelectorAll("details.pass").forEach((d) => (d.open = true)));

// ---- the dwell timer ----

let timer = 0;
function stopTimer() {
  clearInterval(timer);
  timer = 0;
  by("start").textContent = "Start";
  by("left").textContent = "";
  by("left").classList.remove("over");
}
// What was set by hand stands for its pass; else the plan's dwell. A touch is too short for a clock.
const dwells = {};
let passShown = "";
// Over the nose the sheet drains the sole: a zone that has both asks for two times.
let overNose = false;
// As the words above have it.
const inSeconds = (s) => s.toFixed(s < 10 ? 1 : 0);
function showPass(step) {
  const pass = about.stages[step.stage].passes[step.pass - 1], two = Boolean(about.zones[step.zone].nose && pass?.nose_seconds);
  if (!two) overNose = false;
  const seconds = pass && (overNose ? pass.nose_seconds : pass.seconds), key = `${step.stage} ${step.pass}${overNose ? " nose" : ""}`;
  by("over-nose").hidden = !two;
  if (two)
    by("over-nose").textContent = overNose ? `Open cloth: ${inSeconds(pass.seconds)} s` : `Over the nose: ${inSeconds(pass.nose_seconds)} s`;
  by("how").textContent = pass ? pass.words[0].toUpperCase() + pass.words.slice(1) : "";
  by("clock").hidden = pass ? pass.seconds === null : false;
  if (key === passShown) return;
  passShown = key;
  if (key in dwells) by("dwell").value = dwells[key];
  else if (pass && pass.seconds !== null) by("dwell").value = inSeconds(seconds);
}
by("over-nose").addEventListener("click", () => {
  overNose = !overNose;
  stopTimer();
  showPass(about.steps[nextStep()]);
});
by("dwell").addEventListener("change", () => (dwells[passShown] = by("dwell").value));
by("start").addEventListener("click", () => {
  if (timer) return stopTimer();
  const seconds = Math.min(Math.max(Number(by("dwell").value) || 3, 0.1), 600), end = performance.now() + 1000 * seconds;
  by("start").textContent = "Stop";
  const show = () => {
    const left = (end - performance.now()) / 1000;
    by("left").textContent = left > 0 ? left.toFixed(1) : "move on";
    if (left <= 0 && !by("left").classList.contains("over")) {
      by("left").classList.add("over");
      navigator.vibrate?.(200);
    }
  };
  show();
  timer = setInterval(show, 100);
});

// ---- the picture ----

class Picture {
  constructor(panel) {
    this.panel = panel;
    this.fields = shownFields(about);
    this.view = new PanelView(by("cloth"), by("words"), panel);
    this.view.shown = this.fields.larger;
    for (const [name, f] of Object.entries(this.fields)) by("field").add(new Option(f.title, name));
    by("step").max = panel.moments - 1;
    this.playing = 0;
    this.listen();
    this.drawCurve();
    this.view.lieDown();
    this.field("larger");
  }

  listen() {
    by("field").addEventListener("change", () => this.field(by("field").value));
    by("factor").addEventListener("change", () => {
      this.view.factor = Number(by("factor").value);
      this.draw();
    });
    by("step").addEventListener("input", () => this.setStep(Number(by("step").value)));
    by("roll").addEventListener("click", () => this.rollOver());
    by("flat").addEventListener("click", () => {
      this.view.tilt = this.view.tilt === 0 ? 0.6 : 0;
      by("flat").textContent = this.view.tilt === 0 ? "Slanted" : "Straight on";
      this.view.lieDown();
      this.draw();
    });
    by("larger").addEventListener("click", () => this.zoom(1.25));
    by("smaller").addEventListener("click", () => this.zoom(0.8));
    by("play").addEventListener("click", () => this.play());
    new ResizeObserver(() => this.draw()).observe(by("stage-picture"));
    this.listenToFingers(by("words"));
  }

  listenToFingers(canvas) {
    const down = new Map();
    let moved = 0;
    canvas.addEventListener("pointerdown", (e) => {
      canvas.setPointerCapture(e.pointerId);
      down.set(e.pointerId, [e.clientX, e.clientY]);
      moved = 0;
    });
    canvas.addEventListener("pointermove", (e) => {
      const before = down.get(e.pointerId);
      if (!before) return;
      const dx = e.clientX - before[0], dy = e.clientY - before[1];
      const apart = () => { const p = [...down.values()]; return Math.hypot(p[0][0] - p[1][0], p[0][1] - p[1][1]); };
      const wide = down.size === 2 ? apart() : 0;
      down.set(e.pointerId, [e.clientX, e.clientY]);
      moved += Math.abs(dx) + Math.abs(dy);
      if (down.size === 2) {
        this.view.shift = [this.view.shift[0] + dx / 2, this.view.shift[1] + dy / 2];
        this.zoom(wide > 0 ? apart() / wide : 1);
      } else if (e.shiftKey || e.buttons === 4) {
        this.view.shift = [this.view.shift[0] + dx, this.view.shift[1] + dy];
        this.draw();
      } else this.turn(dx / 150, dy / 150);
    });
    for (const end of ["pointerup", "pointercancel"])
      canvas.addEventListener(end, (e) => {
        down.delete(e.pointerId);
        if (end === "pointerup" && moved < 6) this.pick(e.offsetX, e.offsetY);
      });
    canvas.addEventListener("wheel", (e) => {
      e.preventDefault();
      this.zoom(Math.exp(-e.deltaY / 600));
    }, { passive: false });
    canvas.addEventListener("keydown", (e) => {
      const by15 = Math.PI / 12;
      const act = {
        ArrowLeft: () => this.turn(by15, 0), ArrowRight: () => this.turn(-by15, 0), ArrowUp: () => this.turn(0, -by15),
        ArrowDown: () => this.turn(0, by15), "+": () => this.zoom(1.25), "=": () => this.zoom(1.25),
        "-": () => this.zoom(0.8), Enter: () => this.rollOver(),
      }[e.key];
      if (!act) return;
      e.preventDefault();
      act();
    });
  }

  turn(sideways, up) {
    this.view.turn -= sideways;
    this.view.tilt = Math.min(Math.max(this.view.tilt - up, -Math.PI / 2), Math.PI / 2);
    this.draw();
  }
  zoom(by) {
    this.view.zoom = Math.min(Math.max(this.view.zoom * by, 0.5), 12);
    this.draw();
  }
  rollTo(side) {
    this.view.roll = side ? Math.PI : 0;
  }
  rollOver() {
    this.rollTo(this.view.facingSide() ? 0 : 1);
    this.draw();
  }
  pick(x, y) {
    const zone = this.view.zoneAt(x, y);
    this.view.picked = zone === this.view.picked ? -1 : zone;
    this.draw();
    this.say();
  }

  field(name) {
    const f = this.fields[name];
    this.view.shown = f;
    by("legend").textContent = f.words + (f.unit && !f.frame ? `, ${f.unit}` : "") +
      (f.hatch ? ". Strokes: puckered. Crossed strokes: loose." : ".") + " Numbers: means of the zones.".repeat(f.frame ? 0 : 1);
    const bar = by("bar");
    bar.replaceChildren();
    bar.classList.toggle("named", Boolean(f.bandWords));
    bar.classList.toggle("single", !f.units);
    const each = Math.ceil(f.scale.colours.length / 8);
    const make = (kind, text, into) => {
      const e = document.createElement(kind);
      e.textContent = text;
      into.append(e);
      return e;
    };
    if (f.units) {
      const names = make("b", "", bar);
      for (const unit of f.units) make("span", unit, names);
    }
    f.scale.colours.forEach((colour, i) => {
      const cell = make("div", "", bar), words = f.bandWords ? [f.bandWords[i]] : f.scaleWords(f.scale.bounds[i]);
      if (words.length > 1) make("span", i % each ? "" : words[1], cell);
      make("i", "", cell).style.background = colour;
      make("span", !f.bandWords && i % each ? "" : words[0], cell);
    });
    this.draw();
    this.say();
  }

  setNext(step) {
    this.view.next = step < 0 ? -1 : about.steps[step].zone;
    if (step >= 0) this.rollTo(about.zones[this.view.next].side);
    this.draw();
  }
  setStep(step) {
    this.view.step = Math.min(Math.max(step, 0), this.panel.moments - 1);
    by("step").value = this.view.step;
    this.draw();
    this.say();
  }

  play() {
    if (this.playing) {
      clearInterval(this.playing);
      this.playing = 0;
    } else {
      if (this.view.step >= this.panel.moments - 1) this.setStep(0);
      this.playing = setInterval(() => {
        if (this.view.step >= this.panel.moments - 1) return this.play();
        this.setStep(this.view.step + 1);
      }, 200);
    }
    by("play").textContent = this.playing ? "Stop" : "Play";
  }

  hotterThanSafe() {
    const step = this.view.step;
    const stage = step > 0 ? about.steps[step - 1].stage : 0;
    return step > 0 && !about.stages[stage].safe && !opened(stage);
  }

  say() {
    const { step } = this.view, pounds = (v) => (v / NEWTONS_PER_METRE_OF_POUND_PER_INCH).toFixed(1);
    by("hotter").hidden = !this.hotterThanSafe();
    const chord = this.panel.zoneMeans(this.panel.quadValues("chord", step));
    const span = this.panel.zoneMeans(this.panel.quadValues("span", step));
    const state = this.panel.zoneMeans(this.panel.stateValues(step)), stateWord = this.fields.state.zone;
    const words = [step === 0 ? "Before ironing." : `After step ${step} of ${this.panel.moments - 1}: ${about.labels[step]}.`];
    words.push(`Frame: ${this.panel.largestUse(step).toFixed(2)} of its stress limit.`);
    const slip = this.panel.largestSlip(step);
    if (about.wrapped && Math.abs(slip) > 5e-5)
      words.push(`Cloth slipped round the trailing edge, at most ${(Math.abs(slip) / METRES_PER_INCH).toFixed(2)} in (${(1000 * Math.abs(slip)).toFixed(1)} mm), ${slip > 0 ? "to the top" : "to the bottom"}.`);
    const z = this.view.picked;
    if (z >= 0) words.push(`${about.zones[z].label}: ${pounds(chord[z])} lb/in along the chord, ${pounds(span[z])} along the span, ${stateWord(state[z])}.`);
    by("readout").textContent = words.join(" ");
    by("step").setAttribute("aria-valuetext", words[0]);
    by("zone-numbers").replaceChildren(...about.zones.map((zone, i) => {
      const row = document.createElement("tr");
      for (const text of [zone.label, pounds(chord[i]), pounds(span[i]), stateWord(state[i])]) row.insertCell().textContent = text;
      return row;
    }));
  }

  // The frame's use of its stress limit over the steps, above the slider.
  drawCurve() {
    const n = this.panel.moments, svg = by("curve"), make = (name, attributes, text) => {
      const e = document.createElementNS("http://www.w3.org/2000/svg", name);
      for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
      if (text) e.textContent = text;
      svg.append(e);
    };
    const use = Array.from({ length: n }, (_, i) => this.panel.largestUse(i));
    const top = Math.max(1.1, ...use), y = (v) => 44 - (40 * v) / top, x = (i) => (n > 1 ? (1000 * i) / (n - 1) : 0);
    svg.setAttribute("viewBox", "0 0 1000 46");
    about.stages.forEach((stage, s) => {
      const first = about.steps.findIndex((p) => p.stage === s), last = stage.end ?? n - 1;
      if (first < 0) return;
      make("rect", { x: x(first), y: 0, width: x(last) - x(first), height: 46, fill: s % 2 ? "#e6e2d6" : "#f4f2ec" });
    });
    make("line", { x1: 0, x2: 1000, y1: y(1), y2: y(1), stroke: "#111", "stroke-dasharray": "6 5", "vector-effect": "non-scaling-stroke" });
    make("polyline", { points: use.map((v, i) => `${x(i).toFixed(1)},${y(v).toFixed(1)}`).join(" "), fill: "none", stroke: "#2b2f6b",
      "stroke-width": 2.5, "vector-effect": "non-scaling-stroke" });
  }

  draw() {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      this.view.draw();
    });
  }
}

async function begin() {
  showReadings();
  showTicks();
  openPassOf(nextStep());
  try {
    const fields = await unpackFields(by("fields").textContent, about.parts);
    picture = new Picture(new PanelData(about, fields));
    const next = nextStep();
    picture.setNext(next);
    picture.setStep(next < 0 ? stepsToWork() : next);
  } catch (trouble) {
    by("no-picture").hidden = false;
    by("no-picture").title = String(trouble);
  }
  document.body.dataset.ready = "yes";
  performance.mark("ready");
}
begin();

// What sags that were typed in say of going on to the next stage (docs/model.md, section 10).
"use strict";

// Further off than this no panel reads: another unit, or a slip.
const farOff = 6;

function judgeWindow(w) {
  const unit = Number(w.unit.value), said = w.fields.map((field, i) => {
    const bay = w.bays[i], typed = field.value.trim();
    if (!typed) return "";
    const sag = Number(typed) * unit;
    if (!(sag > bay.expected / farOff && sag < bay.expected * farOff)) return "not_believed";
    return sag < bay.least ? "less" : sag > bay.most ? "more" : "inside";
  });
  const words = { inside: "inside", less: "less: stop", more: "more: work again", not_believed: "?", "": "" };
  w.fields.forEach((field, i) => {
    field.parentElement.querySelector("output").textContent = words[said[i]];
    field.parentElement.dataset.said = said[i];
  });
  const first = ["not_believed", "less", "more"].find((what) => said.includes(what));
  w.answer = first ?? (said.every((what) => what === "inside") ? "inside" : "");
  w.element.querySelector(".verdict").textContent =
    w.answer ? w[w.answer === "not_believed" ? "again" : w.answer] : `${said.filter((what) => what).length} of ${said.length} bays read.`;
  w.element.dataset.said = w.answer;
}

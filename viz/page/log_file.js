// Ticks and readings as a file that evenpull log takes over (--page).
"use strict";

const millimetre = 1e-3;

// Steps are counted from 1, as on the sheet; a reading that is not believed stays out.
function pageForLog(steps, has, windows) {
  const readings = [];
  for (const w of windows)
    w.fields.forEach((field, i) => {
      const typed = field.value.trim(), said = field.parentElement.dataset.said;
      if (!typed || said === "not_believed") return;
      const bay = w.bays[i];
      readings.push({ after_degF: w.after_degF, side: bay.side, bay: bay.bay, weight_g: w.weight_g,
        sag_mm: (Number(typed) * Number(w.unit.value)) / millimetre });
    });
  const worked = [];
  for (let i = 0; i < steps; ++i) if (has("step " + i)) worked.push(i + 1);
  return { evenpull_page: 1, steps, worked, readings };
}

function saveForLog(name, what) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([JSON.stringify(what) + "\n"], { type: "application/json" }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

// The least of a test runner: claims in plain words, all of them tried, a count of those that failed at the end.
import assert from "node:assert/strict";

let failed = 0;
export async function claim(words, look) {
  try {
    await look();
    console.log("holds: " + words);
  } catch (e) {
    ++failed;
    console.log(`DOES NOT HOLD: ${words}\n    ${String(e.message).split("\n").slice(0, 12).join("\n    ")}`);
  }
}
export const claims = {
  failed: () => failed,
  forget: () => { failed = 0; },
  verdict() {
    if (failed) console.log(`${failed} claims do not hold`);
    process.exitCode = failed ? 1 : 0;
  },
};
export { assert };

// Reads how many different colours a canvas shows and a number that changes with the picture.
export function look(page, canvas) {
  return page.evaluate(async (id) => {
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    const from = document.getElementById(id), copy = document.createElement("canvas");
    copy.width = from.width;
    copy.height = from.height;
    const g = copy.getContext("2d", { willReadFrequently: true });
    g.drawImage(from, 0, 0);
    const data = g.getImageData(0, 0, copy.width, copy.height).data, colours = new Set();
    let sum = 0;
    for (let i = 0; i < data.length; i += 4) {
      const c = (data[i] << 16) | (data[i + 1] << 8) | data[i + 2];
      colours.add(c);
      sum = (sum * 31 + c) >>> 0;
    }
    return { colours: colours.size, sum };
  }, canvas);
}

// What the accessibility checker finds, as words. Rules by WCAG 2.1, levels A and AA.
export async function barriers(page, axeSource) {
  await page.evaluate(axeSource);
  const found = await page.evaluate(() => axe.run({ runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"] }));
  return found.violations.map((v) => `${v.id}: ${v.help}: ${v.nodes.map((n) => n.target.join(" ")).slice(0, 4).join(", ")}`);
}

// Nothing may stick out sideways: on a small screen one would have to push the page about.
export function sidewaysScroll(page) {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}

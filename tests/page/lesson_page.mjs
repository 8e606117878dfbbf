// The page of a lesson in a real browser. node lesson_page.mjs <lesson.html> <folder for pictures of it>
import { mkdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { axeSource, inBrowser, openFile, sizes } from "./browser.mjs";
import { assert, barriers, claim, claims, look, sidewaysScroll } from "./check.mjs";

const [file, shots] = process.argv.slice(2);
mkdirSync(shots, { recursive: true });
await inBrowser(shots, claims, async (browser) => {
  await claim("the lesson stays under 4 MB", () => assert.ok(statSync(file).size < 4e6, `${statSync(file).size} bytes`));

  for (const [name, size] of Object.entries(sizes)) {
    const context = await browser.newContext(size);
    const { page, trouble, requests } = await openFile(context, file);
    const on = (words) => `${words} (${name})`, panels = ["panel-0", "panel-1", "panel-2"];
    const seen = async () => Promise.all(panels.map(async (p) => (await look(page, p)).sum));

    await claim(on("the lesson opens without asking the network for anything"), () => assert.deepEqual(requests, []));
    await claim(on("it opens at a telling moment, when the three ways look different"), async () => {
      assert.equal(new Set(await seen()).size, 3);
      assert.notEqual(await page.locator("#step").inputValue(), "0");
      await page.screenshot({ path: join(shots, `lesson_${name}.png`) });
    });
    await claim(on("one clock moves all three panels and their numbers"), async () => {
      const before = await seen(), said = await page.locator(".numbers").allTextContents();
      await page.locator("#step").fill("3");
      const after = await seen(), says = await page.locator(".numbers").allTextContents();
      before.forEach((sum, i) => assert.notEqual(after[i], sum));
      said.forEach((words, i) => assert.notEqual(says[i], words));
    });
    await claim(on("Play runs the clock, Stop holds it"), async () => {
      await page.locator("#step").fill("0");
      await page.locator("#play").click();
      await page.waitForFunction(() => Number(document.getElementById("step").value) >= 2);
      await page.locator("#play").click();
      const held = await page.locator("#step").inputValue();
      await page.waitForTimeout(900);
      assert.equal(await page.locator("#step").inputValue(), held);
    });
    await claim(on("there are curves with three lines each"), async () => {
      const lines = await page.locator("#curves svg").evaluateAll((all) => all.map((s) => s.querySelectorAll("polyline").length));
      assert.ok(lines.length >= 3);
      for (const n of lines) assert.equal(n, 3);
    });
    await claim(on("the questions come before the film, the answers after it"), async () => {
      const top = (what) => page.locator(what).first().evaluate((e) => e.getBoundingClientRect().top);
      const [asked, film, answered] = [await top(".questions"), await top("#play"), await top(".answers")];
      assert.ok(asked < film && film < answered, `${asked} ${film} ${answered}`);
    });
    await claim(on("how much order matters is said first, its numbers folded away until one has guessed"), async () => {
      assert.match(await page.locator("#matters-head").innerText(), /^On this panel /);
      assert.equal(await page.locator("#finding p").isVisible(), false);
      await page.locator("#finding summary").click();
      assert.match(await page.locator("#finding p").innerText(), /°/);
    });
    await claim(on("five questions to guess at, and a guess comes back beside its answer"), async () => {
      assert.equal(await page.locator(".questions li").count(), 5);
      const guess = page.locator(".questions li").nth(1).locator("input").first();
      await guess.check();
      assert.equal(await page.locator("#guessed-1").innerText(), "You guessed: " + (await guess.inputValue()) + ".");
    });
    await claim(on("five answers, each folded away"), async () => {
      assert.equal(await page.locator(".answers li").count(), 5);
      assert.equal(await page.locator(".answers details p").first().isVisible(), false);
      await page.locator(".answers summary").first().click();
      assert.ok(await page.locator(".answers details p").first().isVisible());
    });
    await claim(on("the limits of slip and twist are drawn, or said to lie off the chart"), async () => {
      const words = await page.locator("#curves figcaption small").allTextContents();
      const lines = await page.locator("#curves figure").evaluateAll((all) => all.map((f) => f.querySelectorAll("line.limit").length));
      assert.ok(words.length >= 2);
      words.forEach((w, i) => assert.ok(/off the chart/.test(w) ? lines[i] === 0 : /^hatched line: limit/.test(w) && lines[i] > 0, w));
    });
    await claim(on("the checker finds no barrier"), async () => assert.deepEqual(await barriers(page, axeSource), []));
    await claim(on("nothing sticks out sideways"), async () => assert.equal(await sidewaysScroll(page), 0));
    await claim(on("the browser complains of nothing"), () => assert.deepEqual(trouble, []));
    await context.close();
  }
});

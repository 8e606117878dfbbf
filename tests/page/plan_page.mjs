// The offline page of a plan in a real browser. node plan_page.mjs <plan.html> <folder for pictures of it>
import { statSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { axeSource, inBrowser, openFile, sizes } from "./browser.mjs";
import { assert, barriers, claim, claims, look, sidewaysScroll } from "./check.mjs";

const [file, shots] = process.argv.slice(2);
const most_bytes = 4e6; // what a memory stick and an old tablet take without a thought; our own measure
// Our own measure is one second on an idle machine; tests share theirs with others.
const most_milliseconds = 5000;
// A browser writes what a page keeps a moment later; on a busy machine a script is quicker than that, a person is not.
const pause_of_a_person = 2000;

mkdirSync(shots, { recursive: true });
await inBrowser(shots, claims, async (browser) => {
  await claim("the page stays under 4 MB", () => assert.ok(statSync(file).size < most_bytes, `${statSync(file).size} bytes`));

  for (const [name, size] of Object.entries(sizes)) {
    const context = await browser.newContext(size);
    const { page, trouble, requests } = await openFile(context, file);
    const on = (words) => `${words} (${name})`;

    await claim(on("the page opens without asking the network for anything"), () => assert.deepEqual(requests, []));
    await claim(on("it is ready soon"), async () => {
      const ready = await page.evaluate(() => performance.getEntriesByName("ready")[0].startTime);
      console.log(`    ready after ${Math.round(ready)} ms`);
      assert.ok(ready < most_milliseconds, `${ready} ms`);
    });
    await claim(on("the panel is drawn: cloth in more than one colour, words over it"), async () => {
      await page.locator("#step").fill("10");
      assert.ok((await look(page, "cloth")).colours > 8);
      assert.ok((await look(page, "words")).colours > 8);
      await page.screenshot({ path: join(shots, `plan_${name}.png`) });
    });
    await claim(on("the slider moves the field, and back again gives the same picture"), async () => {
      const before = await look(page, "cloth");
      await page.locator("#step").fill("30");
      const after = await look(page, "cloth");
      await page.locator("#step").fill("10");
      assert.notEqual(after.sum, before.sum);
      assert.equal((await look(page, "cloth")).sum, before.sum);
    });
    await claim(on("what is read out follows the slider"), async () => {
      await page.locator("#step").fill("30");
      assert.match(await page.locator("#readout").textContent(), /^After step 30 of \d+: \d+ °F, pass \d, [TB]\d+\./);
    });
    await claim(on("every field can be shown, each in a picture of its own"), async () => {
      const seen = new Set(), names = await page.locator("#field option").evaluateAll((o) => o.map((e) => e.value));
      assert.ok(names.length >= 5);
      for (const field of names) {
        await page.locator("#field").selectOption(field);
        seen.add((await look(page, "cloth")).sum);
      }
      assert.equal(seen.size, names.length);
      await page.locator("#field").selectOption(names[0]);
    });
    await claim(on("Done ticks the next zone, goes on to the one after it, and outlines that"), async () => {
      const first = await page.locator("#next-zone").textContent(), outlined = await look(page, "words");
      await page.locator("#done").click();
      assert.notEqual(await page.locator("#next-zone").textContent(), first);
      assert.ok(await page.locator('[data-tick="step 0"]').isChecked());
      assert.notEqual((await look(page, "words")).sum, outlined.sum);
      assert.equal(await page.locator("#step").inputValue(), "1");
    });
    await claim(on("ticks survive a reload"), async () => {
      await page.locator("#done").click();
      const next = await page.locator("#next-zone").textContent();
      await page.waitForTimeout(pause_of_a_person);
      await page.reload();
      await page.waitForFunction(() => document.body.dataset.ready === "yes");
      assert.equal(await page.locator("#next-zone").textContent(), next);
      assert.equal(await page.locator("[data-tick]:checked").count(), 2);
    });
    await claim(on("a tick can be taken back, and the same page in a second window follows"), async () => {
      const second = (await openFile(context, file)).page;
      assert.equal(await second.locator("[data-tick]:checked").count(), 2);
      await page.bringToFront();
      await page.locator("#back").click();
      assert.equal(await page.locator("[data-tick]:checked").count(), 1);
      await second.waitForFunction(() => document.querySelectorAll("[data-tick]:checked").length === 1);
      await second.close();
    });
    await claim(on("a tick that the browser hands out late is not written over by the next one"), async () => {
      const kept = await page.evaluate(() => {
        const key = "evenpull " + document.body.dataset.key, before = JSON.parse(localStorage.getItem(key));
        const box = [...document.querySelectorAll("input[data-tick]")].find((b) => !b.checked && !b.dataset.tick.startsWith("step"));
        localStorage.setItem(key, JSON.stringify([...before, box.dataset.tick]));  // no event comes to the same window
        document.getElementById("done").click();
        document.getElementById("back").click();
        const now = JSON.parse(localStorage.getItem(key)), shown = box.checked;
        localStorage.setItem(key, JSON.stringify(before));
        document.getElementById("done").click();
        document.getElementById("back").click();
        return { lost: !now.includes(box.dataset.tick), shown };
      });
      assert.deepEqual(kept, { lost: false, shown: true });
    });
    await claim(on("keys turn the panel"), async () => {
      const before = await look(page, "cloth");
      await page.locator("#words").focus();
      await page.keyboard.press("ArrowDown");
      assert.notEqual((await look(page, "cloth")).sum, before.sum);
    });
    await claim(on("the dwell is that of the pass that is next"), async () => {
      const done = page.locator("#done");
      while (await page.locator("#clock").isHidden()) await done.click();
      assert.match(await page.locator("#how").textContent(), /stay \d+\.?\d* s on each spot/i);
      const stated = Number((await page.locator("#how").textContent()).match(/stay (\d+\.?\d*) s/i)[1]);
      assert.ok(Math.abs(Number(await page.locator("#dwell").inputValue()) - stated) < 0.06);
    });
    await claim(on("a zone over the nose has a time of its own, one touch away"), async () => {
      const other = page.locator("#over-nose"), both = page.locator("#how");
      await page.evaluate(() => {
        const nose = about.steps.findIndex((s) => about.zones[s.zone].nose && about.stages[s.stage].passes[s.pass - 1].nose_seconds);
        showPass(about.steps[nose]);
      });
      const stated = Number((await both.textContent()).match(/over the nose (\d+\.?\d*) s/i)[1]);
      assert.match(await other.textContent(), new RegExp(`^Over the nose: ${stated}`));
      await page.evaluate(() => {
        overNose = true;
        showPass(about.steps.find((s) => about.zones[s.zone].nose && about.stages[s.stage].passes[s.pass - 1].nose_seconds));
      });
      assert.ok(Math.abs(Number(await page.locator("#dwell").inputValue()) - stated) < 0.06);
      assert.match(await other.textContent(), /^Open cloth/);
      await page.evaluate(() => {
        overNose = false;
        showTicks();
      });
    });
    await claim(on("the dwell timer runs down"), async () => {
      await page.locator("#dwell").fill("2");
      await page.locator("#start").click();
      assert.match(await page.locator("#left").textContent(), /^[12]\.\d$/);
      await page.waitForFunction(() => document.getElementById("left").textContent === "move on");
      await page.locator("#start").click();
    });
    await claim(on("the picture, which stays in sight, covers nothing that follows it"), async () => {
      for (const from of ["#numbers", "#cautions"]) {
        await page.locator(from).scrollIntoViewIfNeeded();
        const [over, under] = await page.evaluate((s) => ["#picture", s].map((q) => document.querySelector(q).getBoundingClientRect().toJSON()), from);
        assert.ok(over.bottom <= under.top + 1, `the picture ends at ${over.bottom}, ${from} begins at ${under.top}`);
      }
    });
    await claim(on("the table says what the picture shows"), async () => {
      await page.locator("#numbers summary").click();
      assert.ok((await page.locator("#zone-numbers tr").count()) > 3);
    });
    await claim(on("the checker finds no barrier"), async () => assert.deepEqual(await barriers(page, axeSource), []));
    await claim(on("nothing sticks out sideways"), async () => assert.equal(await sidewaysScroll(page), 0));
    await claim(on("the browser complains of nothing"), () => assert.deepEqual(trouble, []));
    if (name === "desktop") {
      await page.pdf({ path: join(shots, "plan_printed.pdf"), format: "A4" });
      await page.screenshot({ path: join(shots, "plan_desktop_whole.png"), fullPage: true });
    }
    await context.close();
  }
});

// The fields for readings in a real browser. node windows_page.mjs <plan.html> <folder for pictures of it>
import { mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { axeSource, inBrowser, openFile, sizes } from "./browser.mjs";
import { assert, barriers, claim, claims, sidewaysScroll } from "./check.mjs";

const [file, shots] = process.argv.slice(2);
mkdirSync(shots, { recursive: true });
await inBrowser(shots, claims, async (browser) => {
  for (const [name, size] of Object.entries(sizes)) {
    const context = await browser.newContext(size);
    const { page, trouble } = await openFile(context, file);
    const on = (words) => `${words} (${name})`;
    const window = (i) => page.locator("fieldset.readings").nth(i);
    const fill = async (i, value) => {
      const fields = window(i).locator("input");
      for (let k = 0; k < (await fields.count()); ++k) await fields.nth(k).fill(value);
    };
    const answer = (i) => window(i).locator(".verdict").textContent();

    await claim(on("readings inside every window say go on"), async () => {
      assert.match(await answer(0), /^0 of 6 bays read/);
      await fill(0, "3");
      assert.equal(await answer(0), "Inside in every bay: go on to 300 °F.");
    });
    await claim(on("less in one bay says stop, more says work again, another unit is not believed"), async () => {
      const first = window(0).locator("input").first();
      await first.fill("2.0");
      assert.match(await answer(0), /stop, do not iron that bay again, ask/);
      await first.fill("5.5");
      assert.match(await answer(0), /work that bay again at 250 °F/);
      await window(0).locator("select").selectOption({ label: "inches" });
      assert.match(await answer(0), /is it the right unit/);
      await fill(0, "0.12");
      assert.equal(await answer(0), "Inside in every bay: go on to 300 °F.");
    });
    await claim(on("what was read stands against going on in the Next card"), async () => {
      await window(0).locator("input").first().fill("0.05");
      await page.evaluate(() => {
        const first = about.steps.findIndex((s) => s.stage === 1);
        for (const box of document.querySelectorAll('input[data-tick^="step "]'))
          if (Number(box.dataset.tick.slice(5)) < first && !box.checked) box.click();
      });
      assert.match(await page.locator("#next-turn").textContent(), /stop, do not iron that bay again/);
      await fill(0, "0.12");
      assert.match(await page.locator("#next-turn").textContent(), /^New stage: check/);
    });
    await claim(on("the stage that only readings open stays shut until they do"), async () => {
      await page.evaluate(() => {
        for (const box of document.querySelectorAll('input[data-tick^="step "]')) if (!box.disabled && !box.checked) box.click();
      });
      assert.equal(await page.locator("#next-zone").textContent(), "All done");
      assert.match(await page.locator("#next-stage").textContent(), /Hotter only if every bay reads inside its window: 350 °F/);
      await window(1).locator("input").first().fill("2.0");
      assert.match(await page.locator("#next-stage").textContent(), /^Less than the window: stop/);
      await fill(1, "3");
      assert.notEqual(await page.locator("#next-zone").textContent(), "All done");
      assert.match(await page.locator("#next-stage").textContent(), /^350 °F/);
      await page.locator("#done").click();
      assert.ok(await page.locator("#hotter").isHidden());
    });
    await claim(on("ticks and readings are saved for the log, with side, bay, weight and sag"), async () => {
      const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#save-log").click()]);
      const saved = JSON.parse(readFileSync(await download.path(), "utf8"));
      assert.equal(saved.evenpull_page, 1);
      assert.equal(saved.steps, await page.evaluate(() => about.steps.length));
      assert.ok(saved.worked.length > 0 && saved.worked.every((n) => n >= 1 && n <= saved.steps));
      assert.equal(saved.readings.length, 12);
      const first = saved.readings[0];
      assert.deepEqual(Object.keys(first), ["after_degF", "side", "bay", "weight_g", "sag_mm"]);
      assert.ok(Math.abs(first.sag_mm - 0.12 * 25.4) < 1e-6);
      assert.equal(first.after_degF, 250);
    });
    await claim(on("readings survive a reload"), async () => {
      await page.waitForTimeout(2000);
      await page.reload();
      await page.waitForFunction(() => document.body.dataset.ready === "yes");
      assert.equal(await window(1).locator("input").first().inputValue(), "3");
      assert.match(await answer(1), /^Inside in every bay/);
    });
    await claim(on("the checker finds no barrier"), async () => assert.deepEqual(await barriers(page, axeSource), []));
    await claim(on("nothing sticks out sideways"), async () => assert.equal(await sidewaysScroll(page), 0));
    await claim(on("the browser complains of nothing"), () => assert.deepEqual(trouble, []));
    await window(0).scrollIntoViewIfNeeded();
    await page.screenshot({ path: join(shots, `windows_${name}.png`) });
    await context.close();
  }
});

// Opens pages in Debian's Chromium, without a screen and without a network, and keeps what goes wrong on them.
import { createRequire } from "node:module";
import { existsSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

// The driver and the checker are installed beside the build, not beside this file.
const tools = process.env.EVENPULL_PAGE_TOOLS;
const from = createRequire(join(tools, "package.json"));
const { chromium } = from("playwright-core");
export const axeSource = from("axe-core").source;

export const sizes = {
  phone: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 },
  desktop: { viewport: { width: 1280, height: 800 } },
};

async function startBrowser() {
  const executablePath = ["chromium", "chromium-browser", "google-chrome"].map((n) => join("/usr/bin", n)).find(existsSync);
  if (!executablePath) throw new Error("no Chromium found in /usr/bin: install the Debian package chromium");
  return chromium.launch({
    executablePath,
    args: ["--headless", "--no-sandbox", "--disable-dev-shm-usage", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"],
  });
}

// A page with `trouble` (console errors and exceptions) and `requests` (anything asked for but the file itself).
export async function openFile(context, file) {
  const page = await context.newPage(), trouble = [], requests = [], url = pathToFileURL(file).href;
  page.on("console", (m) => ["error", "warning"].includes(m.type()) && trouble.push(m.text()));
  page.on("pageerror", (e) => trouble.push(String(e)));
  page.on("request", (r) => r.url() !== url && !r.url().startsWith("data:") && !r.url().startsWith("blob:") && requests.push(r.url()));
  await page.goto(url);
  await page.waitForFunction(() => document.body.dataset.ready === "yes");
  return { page, trouble, requests };
}

// Whether the browser itself still does what a page leans on: draw, and keep what was stored over a reload. On a machine
// without memory or disk left parts of it die, and then no page is to blame.
async function isWell(browser, folder) {
  try {
    const empty = join(folder, "empty.html"), page = await browser.newPage();
    writeFileSync(empty, "<!doctype html><title>empty</title>");
    await page.goto(pathToFileURL(empty).href);
    await page.evaluate(() => localStorage.setItem("kept", "yes"));
    await page.waitForTimeout(2000);
    await page.reload();
    await page.screenshot();
    return (await page.evaluate(() => localStorage.getItem("kept"))) === "yes";
  } catch (e) {
    return false;
  }
}

// Does `work` in a browser and says whether all claims hold; once more from the start where it was the browser that failed.
export async function inBrowser(folder, claims, work) {
  for (const again of [true, false]) {
    const browser = await startBrowser();
    let thrown = null;
    try {
      await work(browser);
    } catch (e) {
      thrown = e;
    }
    const well = await isWell(browser, folder);
    await browser.close().catch(() => {});
    if (!well && again && (thrown || claims.failed() > 0)) {
      console.log("The browser does not draw or keep an empty page any more, so this says nothing of ours: once more.");
      claims.forget();
      continue;
    }
    if (thrown) throw thrown;
    return claims.verdict();
  }
}

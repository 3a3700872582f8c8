// The pre-build review in a real browser: every finding, nothing fetched, for the eye, the keyboard, the ear and the paper.
// `.ci/browser` runs it; what it has seen is left in `seen/`.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { after, before, describe, test } from "node:test";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const seen = join(here, "seen");
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const dryfit = process.env.DRYFIT ?? join(root, "target/debug/dryfit");
const executablePath = process.env.CHROMIUM ?? "/usr/bin/chromium";
const args = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
const DESKTOP = { width: 1280, height: 900 };
const PHONE = { width: 390, height: 844 };
/// More paper than that nobody reads before a build.
const PAGES = { "as-drawn": 40, revised: 20 };

let browser;
before(async () => {
  mkdirSync(seen, { recursive: true });
  browser = await chromium.launch({ executablePath, args });
});
after(() => browser?.close());

/// Reviews a spec as a page and as data; the page's address and the data.
function reviewed(name) {
  const spec = `examples/hut-hauler/${name}.machine.yaml`;
  const page = join(seen, `${name}.html`);
  const outputs = ["--as", "html", "--out", page, "--as", "json"];
  const said = execFileSync(dryfit, ["review", spec, ...outputs, "--refuse", "nothing", "--today", "2026-01-15"], {
    cwd: root,
    encoding: "utf8",
    maxBuffer: 1 << 28,
    stdio: ["ignore", "pipe", "ignore"],
  });
  return { address: pathToFileURL(page).href, report: JSON.parse(said) };
}

/// Spaces and line ends as a reader sees them: one.
const flat = (text) => text.replace(/\s+/g, " ");

async function open(address, { wants = {}, watch } = {}) {
  const context = await browser.newContext({ viewport: DESKTOP, ...wants });
  const page = await context.newPage();
  if (watch) {
    page.on("request", (request) => watch.push(`request: ${request.url()}`));
    page.on("console", (message) => watch.push(`console: ${message.type()}: ${message.text()}`));
    page.on("pageerror", (error) => watch.push(`error: ${error.message}`));
  }
  await page.goto(address);
  return { page, close: () => context.close() };
}

for (const name of ["as-drawn", "revised"]) {
  describe(`the review of the hut hauler, ${name}`, () => {
    let address, report;
    before(() => ({ address, report } = reviewed(name)));

    const told = () => report.findings.filter((one) => ["broken", "fails", "thin"].includes(one.verdict));

    async function tellsAll(page) {
      const text = flat(await page.locator("main").innerText());
      const wanted = report.findings.filter((one) => one.verdict !== "sound");
      for (const finding of wanted) {
        assert.ok(text.includes(flat(finding.happens)), `${finding.rule}: ${finding.happens}`);
      }
      const articles = await page.locator("section.findings article.finding").count();
      assert.equal(articles, told().length + report.remarks.length);
      const margins = report.findings.filter((one) => one.margin).length;
      assert.equal(await page.locator("table.margins tbody tr").count(), margins);
      assert.ok(text.includes(`${report.machine}, revision ${report.revision}`));
    }

    test("tells every finding, fetches nothing and complains of nothing", async () => {
      const watch = [];
      const { page, close } = await open(address, { watch });
      await tellsAll(page);
      assert.ok((await page.locator("svg.drawing").count()) >= 10);
      assert.deepEqual(watch, [`request: ${address}`]);
      await close();
    });

    test("needs no scripts", async () => {
      const { page, close } = await open(address, { wants: { javaScriptEnabled: false } });
      await tellsAll(page);
      assert.equal(await page.locator("script").count(), 0);
      await page.locator("nav a").nth(2).click();
      assert.match(page.url(), /#curves-1$/);
      await close();
    });

    for (const [look, wants] of Object.entries({
      desktop: { colorScheme: "light" },
      dark: { colorScheme: "dark" },
      phone: { viewport: PHONE, colorScheme: "light", hasTouch: true, deviceScaleFactor: 2 },
    })) {
      test(`shuts nobody out: ${look}`, async () => {
        const { page, close } = await open(address, { wants });
        await page.screenshot({ path: join(seen, `${name}-${look}.png`) });
        for (const part of ["curves", "circuit", "margins"]) {
          await page.locator(`section.${part}`).screenshot({ path: join(seen, `${name}-${look}-${part}.png`) });
        }
        await page.evaluate(axe);
        const { violations, passes } = await page.evaluate(() => globalThis.axe.run(document));
        const short = violations.map((one) => [one.id, one.help, one.nodes.slice(0, 3).map((node) => node.html)]);
        assert.deepEqual(short, []);
        assert.ok(passes.length > 20, `${passes.length} kinds of checks came to something`);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(wide <= 0, `${wide} px hang out at the side`);
        await close();
      });
    }

    test("is reached by keyboard alone", async () => {
      const { page, close } = await open(address);
      const links = await page.locator("nav a").evaluateAll((all) => all.map((link) => link.getAttribute("href")));
      assert.ok(links.length >= 10);
      for (const link of links) {
        await page.keyboard.press("Tab");
        const [href, outline] = await page.evaluate(() => {
          const at = document.activeElement;
          return [at.getAttribute("href"), getComputedStyle(at).outlineStyle];
        });
        assert.deepEqual([href, outline], [link, "solid"]);
      }
      await page.keyboard.press("Enter");
      assert.equal(new URL(page.url()).hash, links.at(-1));
      const [top, height] = await page.evaluate((id) => {
        const box = document.querySelector(id).getBoundingClientRect();
        return [box.top, innerHeight];
      }, links.at(-1));
      assert.ok(top >= -1 && top < height, `the part is seen at ${top}`);
      // From a finding to how it is worked out.
      const rule = page.locator("section.findings p.rule a").first();
      await rule.focus();
      await page.keyboard.press("Enter");
      const target = new URL(page.url()).hash.slice(1);
      assert.equal(await page.locator(`dt[id="${target}"]`).count(), 1);
      await close();
    });

    test("is printed on as much paper as is read", async () => {
      const { page, close } = await open(address);
      const paper = await page.pdf({ path: join(seen, `${name}.pdf`), preferCSSPageSize: true });
      const pages = paper.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g).length;
      assert.ok(pages > 5 && pages <= PAGES[name], `${pages} pages`);
      // Nothing that is told on the screen is left out on paper.
      await page.emulateMedia({ media: "print" });
      await tellsAll(page);
      await close();
    });
  });
}

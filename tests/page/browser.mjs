// SPDX-License-Identifier: MIT
// A person with a phone, one with a mouse and one with a keyboard try the shared page.
import { createRequire } from "node:module";
import assert from "node:assert/strict";

const [, , modules, executablePath, work] = process.argv;
const { chromium } = createRequire(modules + "/")("playwright-core");

const slowed = Number(process.env.PLUMB_PAGE_SLOWED ?? 1); // times slower than this machine
const PHONE = { viewport: { width: 360, height: 740 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true };
const DESK = { viewport: { width: 1280, height: 800 } };

const browser = await chromium.launch({
  executablePath,
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync"],
});

// Opens a page and keeps what it complains of and asks for.
async function open(file, options) {
  const context = await browser.newContext({ offline: true, ...options });
  const page = await context.newPage();
  if (slowed > 1) {
    await (await context.newCDPSession(page)).send("Emulation.setCPUThrottlingRate", { rate: slowed });
  }
  page.heard = [];
  page.asked = [];
  page.on("console", (message) => page.heard.push(message.text()));
  page.on("pageerror", (error) => page.heard.push(error.message));
  page.on("request", (request) => page.asked.push(request.url()));
  await page.goto(`file://${work}/${file}`);
  await page.waitForFunction(() => document.getElementById("status").textContent !== "");
  return page;
}

// Whatever was done: nothing was complained of and nothing but the file was asked for.
async function close(page) {
  assert.deepEqual(page.heard, []);
  assert.equal(page.asked.length, 1);
  await page.context().close();
}

const settle = (page) => page.evaluate(() => new Promise((done) => {
  requestAnimationFrame(() => requestAnimationFrame(done));
}));
const slider = (page, name) => page.getByRole("slider", { name, exact: true });
const value = async (page, name) => Number(await slider(page, name).getAttribute("aria-valuenow"));
const status = (page) => page.getByRole("status").textContent();

// Waits for what must come, however slow the machine; what does not come fails with what was seen.
async function until(see, fits, wanted) {
  const end = Date.now() + 15000;
  let seen = await see();
  while (!fits(seen) && Date.now() < end) {
    await new Promise((done) => setTimeout(done, 20));
    seen = await see();
  }
  assert.ok(fits(seen), `${seen} is not ${wanted}`);
}

const reads = (page, name, wanted, within = 1e-9) =>
  until(() => value(page, name), (seen) => Math.abs(seen - wanted) <= within, wanted);
const says = (page, wanted) => until(() => status(page), (seen) => seen === wanted, wanted);
const saysElse = (page, before) => until(() => status(page), (seen) => seen !== before, "another");

async function press(page, name, keys) {
  await slider(page, name).focus();
  for (const key of keys) {
    await page.keyboard.press(key);
  }
  await settle(page);
}

const tests = {
  async "every control has a role and a name"() {
    const page = await open("deadlift.html", PHONE);
    for (const name of ["stance", "toes", "grip", "hip height", "load"]) {
      const at = slider(page, name);
      assert.equal(await at.count(), 1, name);
      assert.ok(await at.getAttribute("aria-valuetext"));
      assert.ok(Number(await at.getAttribute("aria-valuemin")) < await value(page, name));
      assert.ok(Number(await at.getAttribute("aria-valuemax")) > await value(page, name));
      assert.equal(await page.getByRole("textbox", { name: `${name}, typed` }).count(), 1);
    }
    for (const name of ["from the side", "from the front", "metric", "pounds"]) {
      assert.equal(await page.getByRole("radio", { name }).count(), 1, name);
    }
    assert.equal(await page.getByRole("button", { name: "as shared" }).count(), 1);
    assert.ok(await page.locator("#views svg > title").first().textContent());
    assert.match(await page.locator("#views svg > desc").first().textContent(), /back angle .* above level/);
    assert.match(await page.locator("#table svg > desc").textContent(), /bar travel [\d.]+ cm; balance/);
    assert.match(await page.locator("#notes svg > desc").textContent(), /Window of the hip height/);
    await close(page);
  },

  async "keys nudge, go to the ends and back to what was shared"() {
    for (const options of [PHONE, DESK]) {
      const page = await open("squat.html", options);
      await reads(page, "stance", 0.55);
      const before = await status(page);
      await press(page, "stance", ["ArrowRight"]);
      await reads(page, "stance", 0.56);
      await saysElse(page, before);
      assert.match(await page.locator("#tracks").textContent(), /bar travel solid, hip arm dashed/);
      await press(page, "stance", ["ArrowDown", "ArrowLeft"]);
      await reads(page, "stance", 0.54);
      await press(page, "stance", ["Shift+ArrowRight"]);
      await reads(page, "stance", 0.64);
      await press(page, "stance", ["Home"]);
      await reads(page, "stance", 0.10);
      await press(page, "stance", ["End"]);
      await reads(page, "stance", 1.30);
      await press(page, "stance", ["Delete"]);
      await reads(page, "stance", 0.55);
      await says(page, before);
      await close(page);
    }
  },

  async "a mouse drags a ruler, the drawing follows, and the scale stays put meanwhile"() {
    const page = await open("squat.html", DESK);
    const box = await slider(page, "stance").boundingBox();
    const drawn = () => page.locator("#views").innerHTML();
    const first = await drawn();
    await page.mouse.move(box.x + box.width * 0.5, box.y + 20);
    await page.mouse.down();
    await settle(page);
    const scale = () => page.locator("#notes svg").textContent();
    const held = /1 : [\d.]+/.exec(await scale())[0];
    await page.mouse.move(box.x + box.width * 0.3, box.y + 20, { steps: 5 });
    await settle(page);
    assert.equal(/1 : [\d.]+/.exec(await scale())[0], held);
    await page.mouse.up();
    await settle(page);
    // 4 of the ruler's 71 mm are air at either end of its 10 to 130 cm.
    const share = (0.3 * box.width - 4 * 5.6) / (box.width - 8 * 5.6);
    await reads(page, "stance", Math.round(10 + 120 * share) / 100);
    assert.notEqual(await drawn(), first);
    await close(page);
  },

  async "a double click gives back what was shared, though the drawing changes under each press"() {
    const page = await open("squat.html", DESK);
    const box = await slider(page, "stance").boundingBox();
    await page.mouse.move(box.x + box.width * 0.3, box.y + 20);
    for (const clickCount of [1, 2]) {
      await page.mouse.down({ clickCount });
      await reads(page, "stance", 0.43);
      await settle(page);
      await page.mouse.up({ clickCount });
    }
    await reads(page, "stance", 0.55);
    await close(page);
  },

  async "a finger taps a ruler, and the page still scrolls"() {
    const page = await open("deadlift.html", PHONE);
    await slider(page, "load").scrollIntoViewIfNeeded();
    const box = await slider(page, "load").boundingBox();
    await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
    await settle(page);
    await reads(page, "load", 300);
    assert.equal(await slider(page, "load").evaluate((at) => getComputedStyle(at).touchAction), "pan-y");
    for (const name of ["stance", "load"]) {
      assert.ok((await slider(page, name).boundingBox()).height >= 44);
    }
    await close(page);
  },

  async "what is focused does not hide under the drawing that stays in sight"() {
    const page = await open("deadlift.html", PHONE);
    await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
    for (const name of ["load", "grip", "stance"]) {
      await slider(page, name).focus();
      await settle(page);
      const views = await page.locator(".views").boundingBox();
      const box = await slider(page, name).boundingBox();
      assert.ok(box.y >= views.y + views.height - 1, `${name} at ${box.y}, drawing to ${views.y + views.height}`);
      assert.ok(box.y + box.height <= 740);
    }
    await close(page);
  },

  async "typed figures are read with units or refused with what is allowed"() {
    const page = await open("deadlift.html", DESK);
    const field = page.getByRole("textbox", { name: "stance, typed" });
    const type = async (words) => {
      await field.fill(words);
      await field.press("Enter");
      await settle(page);
    };
    await type("41 cm");
    await reads(page, "stance", 0.41);
    await type("16 in");
    await reads(page, "stance", 0.4064);
    await type("38.5");
    await reads(page, "stance", 0.385);
    await type("banana");
    await reads(page, "stance", 0.385);
    assert.equal(await field.getAttribute("aria-invalid"), "true");
    assert.ok(await page.getByRole("alert").first().isVisible());
    await type("4 m");
    assert.match(await page.getByRole("alert").first().textContent(), /10\.0 cm to 130\.0 cm is allowed/);
    await type("40 cm");
    assert.equal(await page.getByRole("alert").count(), 0);
    await close(page);
  },

  async "pounds and inches everywhere, and back"() {
    const page = await open("deadlift.html", PHONE);
    const before = await status(page);
    await page.getByRole("radio", { name: "pounds" }).check();
    await settle(page);
    assert.match(await status(page), /Bar travel [\d.]+ in/);
    assert.match(await slider(page, "load").getAttribute("aria-valuetext"), / lb$/);
    assert.match(await page.locator("#table").textContent(), / in/);
    await press(page, "load", ["ArrowRight"]);
    await reads(page, "load", 380 * 0.45359237, 1e-6);
    await page.getByRole("radio", { name: "metric" }).check();
    await press(page, "load", ["Delete"]);
    await says(page, before);
    await close(page);
  },

  async "a squat's bar is chosen; pencilled and inked stand side by side"() {
    const page = await open("squat.html", PHONE);
    assert.ok(await page.getByRole("radio", { name: "high" }).isChecked());
    const before = await status(page);
    await page.getByRole("radio", { name: "low" }).check();
    await settle(page);
    await saysElse(page, before);
    assert.match(await page.locator("#tracks").textContent(), /pencilled 45\.0 cm/);
    assert.match(await page.locator("#table").textContent(), /difference to high-bar squat/);
    await page.getByRole("radio", { name: "from the front" }).check();
    await settle(page);
    assert.match(await page.locator("#views").textContent(), /stance/);
    await page.getByRole("button", { name: "as shared" }).click();
    await settle(page);
    await says(page, before);
    assert.ok(await page.getByRole("radio", { name: "high" }).isChecked());
    await close(page);
  },

  async "a press has its rulers, its three views, and elbows that follow until they are moved"() {
    const page = await open("bench.html", PHONE);
    for (const name of ["grip", "touch", "arch", "elbows", "load"]) {
      assert.equal(await slider(page, name).count(), 1, name);
    }
    assert.ok(!await page.getByRole("group", { name: "bar" }).isVisible());
    const before = await status(page);
    assert.match(before, /^Bar travel [\d.]+ cm, upper arm [\d.]+° from the trunk, hands [\d.]+ cm outside/);
    const drawn = new Set();
    for (const name of ["from the side", "from the head end", "from above"]) {
      await page.getByRole("radio", { name }).check();
      await settle(page);
      drawn.add(await page.locator("#views").innerHTML());
    }
    assert.equal(drawn.size, 3);
    const elbows = await value(page, "elbows");
    await press(page, "touch", ["ArrowRight"]);
    await reads(page, "touch", 0.105);
    assert.notEqual(await value(page, "elbows"), elbows);
    await press(page, "elbows", ["End"]);
    await reads(page, "elbows", Math.PI / 2);
    assert.match(await page.locator("#tracks").textContent(), /bar travel solid, elbow arm dashed/);
    await press(page, "elbows", ["Delete"]);
    await press(page, "touch", ["Delete"]);
    await says(page, before);
    await reads(page, "elbows", elbows);
    await close(page);
  },

  async "where nothing holds the last pose stays and the reason stands"() {
    const page = await open("deadlift.html", DESK);
    await press(page, "hip height", ["End"]);
    assert.match(await status(page), /^No pose meets this: .*cannot be met/);
    assert.equal(await page.getByRole("slider").count(), 5);
    await press(page, "hip height", ["Delete"]);
    assert.match(await status(page), /^Bar travel/);
    await close(page);
  },

  async "text is at least 14 px high and nothing is wider than the screen"() {
    for (const width of [360, 412, 768, 1280]) {
      const file = width === 412 || width === 1280 ? "bench.html" : "squat.html";
      const page = await open(file, { viewport: { width, height: 740 } });
      const seen = await page.evaluate(() => {
        const small = [];
        for (const text of document.querySelectorAll("svg text")) {
          const svg = text.ownerSVGElement;
          const px = Number(text.getAttribute("font-size")) * svg.clientWidth / svg.viewBox.baseVal.width;
          if (px < 13.95) {
            small.push(`${text.textContent}: ${px}`);
          }
        }
        for (const at of document.querySelectorAll("p, label, legend, button, input[type=text], span")) {
          if (parseFloat(getComputedStyle(at).fontSize) < 14) {
            small.push(at.textContent);
          }
        }
        return { small, wide: document.documentElement.scrollWidth };
      });
      assert.deepEqual(seen.small, []);
      assert.ok(seen.wide <= width, `${seen.wide} px wide at ${width}`);
      await close(page);
    }
  },

  async "the policy stops what is not the page's own"() {
    const page = await open("deadlift.html", DESK);
    const stopped = await page.evaluate(() => new Promise((done) => {
      const seen = [];
      addEventListener("securitypolicyviolation", (event) => {
        seen.push(event.effectiveDirective);
        if (seen.length === 4) {
          done(seen.sort());
        }
      });
      const script = document.createElement("script");
      script.textContent = "window.foreign = true";
      document.head.append(script);
      const style = document.createElement("style");
      style.textContent = "body { display: none }";
      document.head.append(style);
      new Image().src = "https://example.org/x.png";
      fetch("https://example.org/").catch(() => {});
      setTimeout(() => done(seen.sort()), 2000);
    }));
    assert.deepEqual(stopped, ["connect-src", "img-src", "script-src-elem", "style-src-elem"]);
    assert.equal(await page.evaluate(() => window.foreign), undefined);
    page.heard = []; // the browser's own words about these four, and what never left it
    page.asked = page.asked.filter((address) => address.startsWith("file:"));
    await close(page);
  },

  async "a lifter's name is text, whatever it holds"() {
    const page = await open("odd.html", PHONE);
    assert.match(await page.title(), /^Deadlift, 100 kg: <\/title><script>/);
    assert.match(await page.locator("h1").textContent(), /שלום/);
    assert.equal(await page.locator("h1 *").count(), 0);
    assert.match(await page.locator("#notes").textContent(), /<\/title>/);
    await close(page);
  },

  async "dark paper and print"() {
    const page = await open("squat.html", { ...DESK, colorScheme: "dark" });
    const paper = () => page.locator("#views svg > rect").first().getAttribute("fill");
    assert.equal(await paper(), "#1e1d1b");
    const pdf = await page.pdf({ format: "A4" });
    assert.equal(pdf.subarray(0, 5).toString(), "%PDF-");
    await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
    await page.emulateMedia({ media: "print" });
    assert.equal(await paper(), "#fbf8f0");
    assert.equal(await page.locator("#rulers").isVisible(), false);
    await page.emulateMedia({ media: "screen" });
    await page.evaluate(() => dispatchEvent(new Event("afterprint")));
    await settle(page);
    assert.equal(await paper(), "#1e1d1b");
    await close(page);
  },

  async "without scripts the drawings stand as they were shared"() {
    const context = await browser.newContext({ javaScriptEnabled: false, viewport: PHONE.viewport });
    const page = await context.newPage();
    await page.goto(`file://${work}/squat.html`);
    assert.equal(await page.locator("#views svg").count(), 2);
    assert.equal(await page.locator("#rulers").isVisible(), false);
    assert.match(await page.locator("#table").textContent(), /bar travel/);
    await context.close();
  },
};

let failed = 0;
for (const [name, test] of Object.entries(tests)) {
  try {
    await test();
    console.log(`ok      ${name}`);
  } catch (error) {
    failed++;
    console.log(`FAILED  ${name}\n${error.stack}`);
  }
}
await browser.close();
process.exit(failed === 0 ? 0 : 1);

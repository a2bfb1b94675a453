// SPDX-License-Identifier: MIT
// Opens the module of a shared page outside of a browser.
import { inflateSync } from "node:zlib";

export function block(page, id) {
  const found = page.match(new RegExp(`<script type="application/octet-stream" id="${id}">([^<]*)<`));
  return Buffer.from(found[1], "base64");
}

// The exports of the page's module, with the page's lifter opened in it.
export async function open(page) {
  const { instance } = await WebAssembly.instantiate(inflateSync(block(page, "module")), {});
  const solver = instance.exports;
  reopen(solver, page);
  return solver;
}

export function reopen(solver, page) {
  const lifter = block(page, "lifter");
  new Uint8Array(solver.memory.buffer).set(lifter, solver.page_input());
  if (solver.page_open(lifter.length) !== 1) {
    throw new Error("the module refuses the lifter");
  }
}

export function words(solver, address) {
  const memory = Buffer.from(solver.memory.buffer);
  return memory.toString("utf8", address, memory.indexOf(0, address));
}

"use strict";
// The page's hands and eyes. All figures, words and drawings come from the module; here they are
// only put in their places.
(() => {
  const PX_PER_MM = 5.6; // a drawing's millimetre on the screen: small text is 14 px
  const BOTH_MM = 108; // from this width on both views stand side by side
  const AIR_MM = 4; // from a ruler's end to the paper's
  const SQUAT = 1; // page_lift
  const PRESS = 2;
  const at = (id) => document.getElementById(id);
  const decoder = new TextDecoder();
  const encoder = new TextEncoder();
  const parser = new DOMParser();
  const dark = matchMedia("(prefers-color-scheme: dark)");
  let solver = null;
  let tracks = [];
  let sight = 1;
  let waiting = false;
  let printing = false; // both views, on light paper

  const bytesOf = (id) => Uint8Array.from(atob(at(id).textContent.trim()), (c) => c.charCodeAt(0));

  async function unpack(bytes) {
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
    return new Response(stream).arrayBuffer();
  }

  // Text that the module left at an address, to its NUL.
  function words(address) {
    const memory = new Uint8Array(solver.memory.buffer);
    return decoder.decode(memory.subarray(address, memory.indexOf(0, address)));
  }

  // Parsed as a picture alone: nothing in it can run.
  function picture(address) {
    const bytes = new Uint8Array(solver.memory.buffer, address, solver.page_length());
    const parsed = parser.parseFromString(decoder.decode(bytes), "image/svg+xml");
    return document.importNode(parsed.documentElement, true);
  }

  const wide = () => printing || at("views").clientWidth >= BOTH_MM * PX_PER_MM;
  const millimetres = (element) => Math.max(50, element.clientWidth / PX_PER_MM);

  function viewsHeight(width) {
    if (!wide()) {
      return Math.min(0.45 * innerHeight / PX_PER_MM, 1.2 * width);
    }
    return Math.min((solver.page_lift() === PRESS ? 0.46 : 0.62) * width, 110);
  }

  function drawViews() {
    const width = millimetres(at("views"));
    const height = Math.max(50, viewsHeight(width));
    document.querySelector(".sight").hidden = wide();
    at("views").replaceChildren(picture(solver.page_views(wide() ? 0 : sight, width, height)));
    // What is scrolled to must not end under the drawing that stays on top.
    const box = document.querySelector(".views");
    const sticky = getComputedStyle(box).position === "sticky";
    document.documentElement.style.scrollPaddingTop = sticky ? box.offsetHeight + 48 + "px" : "0";
  }

  function drawTrack(track, index) {
    const value = solver.page_value(index);
    const text = words(solver.page_words(index));
    const was = words(solver.page_pencil(index));
    const drawing = picture(solver.page_ruler(index, millimetres(track.slider)));
    drawing.setAttribute("aria-hidden", "true");
    drawing.querySelector("title").remove();
    track.slider.replaceChildren(drawing);
    track.slider.setAttribute("aria-valuenow", String(value));
    track.slider.setAttribute("aria-valuetext", text);
    track.key.textContent = words(solver.page_key(index));
    track.was.textContent = was === "" ? "" : "pencilled " + was;
    if (document.activeElement !== track.field) {
      track.field.value = text;
    }
  }

  function draw() {
    waiting = false;
    solver.page_paper(dark.matches && !printing ? 1 : 0);
    drawViews();
    tracks.forEach(drawTrack);
    for (const part of ["table", "notes"]) {
      at(part).replaceChildren(picture(solver["page_" + part](millimetres(at(part)))));
    }
    at("status").textContent = words(solver.page_status());
    for (const seat of document.getElementsByName("seat")) {
      seat.checked = Number(seat.value) === solver.page_seat();
    }
  }

  function later() {
    if (!waiting) {
      waiting = true;
      requestAnimationFrame(draw);
    }
  }

  function move(index, value) {
    solver.page_set(index, solver.page_round(index, value));
    later();
  }

  function nudge(index, steps) {
    move(index, solver.page_value(index) + steps * solver.page_step(index));
  }

  function onKey(event, index) {
    const far = event.shiftKey ? 10 : 1;
    const steps = { ArrowRight: far, ArrowUp: far, ArrowLeft: -far, ArrowDown: -far, PageUp: 10, PageDown: -10 };
    if (event.key in steps) {
      nudge(index, steps[event.key]);
    } else if (event.key === "Home") {
      move(index, solver.page_least(index));
    } else if (event.key === "End") {
      move(index, solver.page_most(index));
    } else if (event.key === "Delete") {
      solver.page_reset(index);
      later();
    } else {
      return;
    }
    event.preventDefault();
  }

  function drag(index, slider, event) {
    const box = slider.getBoundingClientRect();
    const air = AIR_MM * box.width / millimetres(slider);
    const share = (event.clientX - box.left - air) / (box.width - 2 * air);
    const least = solver.page_least(index);
    move(index, least + Math.min(1, Math.max(0, share)) * (solver.page_most(index) - least));
  }

  function listen(track, index) {
    const slider = track.slider;
    let held = false;
    slider.addEventListener("keydown", (event) => onKey(event, index));
    slider.addEventListener("focus", () => {
      solver.page_scan(index);
      later();
    });
    slider.addEventListener("dblclick", () => {
      solver.page_reset(index);
      later();
    });
    slider.addEventListener("pointerdown", (event) => {
      if (event.button === 0) {
        held = true;
        slider.setPointerCapture(event.pointerId);
        slider.focus();
        solver.page_scan(index);
        solver.page_hold(1);
        drag(index, slider, event);
      }
    });
    slider.addEventListener("pointermove", (event) => {
      if (held) {
        drag(index, slider, event);
      }
    });
    const release = () => {
      if (held) {
        held = false;
        solver.page_hold(0);
        solver.page_scan(index);
        later();
      }
    };
    slider.addEventListener("pointerup", release);
    slider.addEventListener("pointercancel", release);
    slider.addEventListener("keyup", () => {
      solver.page_scan(index);
      later();
    });
    track.field.addEventListener("change", () => type(track, index));
  }

  function type(track, index) {
    const bytes = encoder.encode(track.field.value.slice(0, 60));
    new Uint8Array(solver.memory.buffer).set(bytes, solver.page_input());
    const wrong = words(solver.page_type(index, bytes.length));
    track.wrong.hidden = wrong === "";
    track.wrong.textContent = wrong;
    track.field.setAttribute("aria-invalid", wrong === "" ? "false" : "true");
    if (wrong === "") {
      track.field.value = words(solver.page_words(index));
    }
    later();
  }

  function element(kind, name, parent) {
    const made = document.createElement(kind);
    made.className = name;
    parent.append(made);
    return made;
  }

  function addTrack(index) {
    const box = element("div", "ruler", at("tracks"));
    const head = element("div", "head", box);
    const label = element("span", "name", head);
    const was = element("span", "was", head);
    const field = element("input", "", head);
    const slider = element("div", "track", box);
    const key = element("p", "key", box);
    const wrong = element("p", "wrong", box);
    const name = words(solver.page_name(index));
    label.textContent = name;
    field.type = "text";
    field.autocomplete = "off";
    field.setAttribute("aria-label", name + ", typed");
    wrong.hidden = true;
    wrong.setAttribute("role", "alert");
    slider.tabIndex = 0;
    slider.setAttribute("role", "slider");
    slider.setAttribute("aria-label", name);
    slider.setAttribute("aria-description", words(solver.page_meaning(index)));
    slider.setAttribute("aria-orientation", "horizontal");
    slider.setAttribute("aria-valuemin", String(solver.page_least(index)));
    slider.setAttribute("aria-valuemax", String(solver.page_most(index)));
    const track = { field, slider, was, key, wrong };
    tracks.push(track);
    listen(track, index);
  }

  function choose(name, act) {
    for (const input of document.getElementsByName(name)) {
      input.addEventListener("change", () => {
        act(Number(input.value));
        later();
      });
    }
  }

  async function begin() {
    const compiled = await WebAssembly.instantiate(await unpack(bytesOf("module")), {});
    solver = compiled.instance.exports;
    const lifter = bytesOf("lifter");
    new Uint8Array(solver.memory.buffer).set(lifter, solver.page_input());
    if (solver.page_open(lifter.length) !== 1) {
      throw new Error("the lifter on this page cannot be read");
    }
    at("rulers").hidden = false;
    document.querySelector(".seat").hidden = solver.page_lift() !== SQUAT;
    for (let i = 0; i < solver.page_count(); i++) {
      addTrack(i);
    }
    for (const unit of document.getElementsByName("units")) {
      unit.checked = Number(unit.value) === solver.page_pounds();
    }
    choose("units", (pounds) => solver.page_units(pounds));
    choose("seat", (seat) => solver.page_sit(seat));
    choose("sight", (chosen) => {
      sight = chosen;
    });
    at("reset").addEventListener("click", () => {
      solver.page_reset(-1);
      later();
    });
    addEventListener("resize", later);
    addEventListener("beforeprint", () => {
      printing = true;
      draw();
    });
    addEventListener("afterprint", () => {
      printing = false;
      later();
    });
    dark.addEventListener("change", later);
    draw();
  }

  begin().catch(() => {
    at("rulers").hidden = true;
    at("status").textContent =
      "The rulers need a newer browser. The drawing stands as it was shared.";
  });
})();

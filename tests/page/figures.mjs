// SPDX-License-Identifier: MIT
// 300 random set-ups of all lifts: the page's module and `plumbar setup --json` give the same figures to the
// last digit that is shown, and the same numbers but for the last bits of two C libraries.
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { open, reopen, words } from "./module.mjs";

const [, , program, headers] = process.argv;
const CASES = 300;

// The order of the figures, as a header lists them.
const listed = (header, list) =>
  [...readFileSync(`${headers}/${header}`, "utf8").split(`${list}(X)`)[1].split("typedef")[0]
    .matchAll(/X\((\w+),/g)].map((found) => found[1]);
const poseOutputs = listed("effects.h", "PLUMB_OUTPUT_LIST");
const pressOutputs = listed("press_effects.h", "PLUMB_PRESS_OUTPUT_LIST");

let seed = 20260401;
const random = () => (seed = seed * 48271 % 2147483647) / 2147483647;
const between = (low, high, digits) => (low + random() * (high - low)).toFixed(digits);

function pressRequest(made) {
  made.push(`upper_arm=${between(-2, 2, 2)} sd`, `grip=${between(35, 85, 1)}cm`,
    `arch=${between(0, 15, 1)}cm`, `load=${between(20, 200, 1)}kg`);
  if (random() < 0.6) {
    made.push(`touch=${between(-5, 25, 1)}cm`);
  }
  if (random() < 0.5) {
    made.push(`elbows=${between(30, 90, 1)}deg`);
  }
  return made;
}

function request(lift) {
  const sex = random() < 0.5 ? "male" : "female";
  const made = [lift, `sex=${sex}`, `stature=${between(152, 198, 1)}cm`, `mass=${between(48, 130, 1)}kg`];
  if (lift === "bench") {
    return pressRequest(made);
  }
  made.push(`thigh=${between(-2, 2, 2)} sd`, `trunk=${between(-2, 2, 2)} sd`,
    `stance=${between(20, 70, 1)}cm`, `toes=${between(0, 40, 1)}deg`, `load=${between(20, 250, 1)}kg`);
  if (lift === "squat") {
    made.push(`bar=${["high", "low", "front"][Math.floor(random() * 3)]}`, `depth=${between(-8, 4, 1)}cm`,
      `heel_lift=${between(0, 30, 0)}mm`);
  } else {
    made.push(`grip=${between(35, 80, 1)}cm`);
    if (random() < 0.5) {
      made.push(`hip_height=${between(50, 80, 1)}cm`);
    }
  }
  return made;
}

function run(words) {
  try {
    return execFileSync(program, words, { encoding: "utf8", maxBuffer: 1 << 26 });
  } catch (failed) {
    if (failed.status === 1) {
      return failed.stdout; // no pose: an answer all the same
    }
    throw failed;
  }
}

// Where a figure stands in the JSON.
const atPose = {
  travel: (a) => a.travel_m,
  hip_height: (a) => a.pose.hip_height_m,
  balance: (a) => a.balance_frac,
  back_angle: (a) => a.angles_rad.back,
  shin_angle: (a) => a.angles_rad.shin,
  thigh_angle: (a) => a.angles_rad.thigh,
  knee_flexion: (a) => a.angles_rad.knee_flexion,
  dorsiflexion: (a) => a.angles_rad.ankle_dorsiflexion,
  hip_flexion: (a) => a.angles_rad.hip_flexion,
  hip_abduction: (a) => a.angles_rad.hip_abduction,
  frontal_shin: (a) => a.angles_rad.frontal_shin,
  summed_effort: (a) => a.summed_effort,
};
for (const joint of ["hip", "back", "knee", "ankle"]) {
  atPose[joint + "_arm"] = (a) => a.bar_arms_m[joint];
  atPose[joint + "_moment"] = (a) => a.moments_both_n_m[joint];
  atPose[joint + "_effort"] = (a) => a.relative_effort[joint];
}

const atPress = {
  travel: (a) => a.travel_m,
  path_length: (a) => a.path_length_m,
  side_arm: (a) => a.bar_arms_m.shoulder_sagittal,
  front_arm: (a) => a.bar_arms_m.shoulder_frontal,
  elbow_arm: (a) => a.bar_arms_m.elbow,
  adduction_moment: (a) => a.moments_per_arm_n_m.shoulder_adduction,
  flexion_moment: (a) => a.moments_per_arm_n_m.shoulder_flexion,
  elbow_moment: (a) => a.moments_per_arm_n_m.elbow_extension,
  adduction_effort: (a) => a.relative_effort.shoulder_adduction,
  flexion_effort: (a) => a.relative_effort.shoulder_flexion,
  elbow_effort: (a) => a.relative_effort.elbow_extension,
  summed_effort: (a) => a.summed_effort,
  upper_arm: (a) => a.angles_rad.abduction,
  elbow_flexion: (a) => a.angles_rad.elbow_flexion,
  forearm_front: (a) => a.angles_rad.forearm_front,
  elbow_off_hand: (a) => a.elbow_off_hand_m,
  elbow_below_rule: (a) => a.elbow_below_rule_m,
  // Where no angle keeps the forearms upright there is none on either side.
  elbows_upright: (a) => a.elbows_upright_rad ?? NaN,
};

// As a person is shown it: cm, degrees and N m with at most one digit, shares with two.
function shown(name, value) {
  if (name.endsWith("_moment")) {
    return value.toFixed(0);
  }
  if (name === "balance" || name.endsWith("_effort")) {
    return value.toFixed(3);
  }
  return (/angle|flexion|abduction|shin|upper_arm|forearm|upright/.test(name) ? value * 180 / Math.PI : value * 100).toFixed(1);
}

let solver = null;
let compared = 0;
let toTheBit = 0;
let held = 0;
let worst = 0;
const faults = [];
for (let i = 0; i < CASES; i++) {
  const lift = ["deadlift", "squat", "bench"][i % 3];
  const [at, outputs] = lift === "bench" ? [atPress, pressOutputs] : [atPose, poseOutputs];
  const asked = request(lift);
  const page = run(["share", ...asked]);
  const answer = JSON.parse(run(["setup", ...asked, "--json", "--samples", "0"]));
  if (solver === null) {
    solver = await open(page);
  } else {
    reopen(solver, page);
  }
  const outcome = ["held", "outside_window", "no_pose"][solver.page_outcome()];
  if (outcome !== answer.outcome) {
    faults.push(`${asked.join(" ")}: outcome ${outcome}, the program says ${answer.outcome}`);
  }
  if (answer.outcome === "no_pose") {
    continue;
  }
  held++;
  for (const [name, find] of Object.entries(at)) {
    const theirs = find(answer);
    const ours = solver.page_figure(outputs.indexOf(name));
    if (theirs === null || theirs === undefined) {
      faults.push(`${name}: not in the program's answer`);
      continue;
    }
    if (Number.isNaN(theirs) && Number.isNaN(ours)) {
      continue;
    }
    compared++;
    toTheBit += ours === theirs ? 1 : 0;
    // Sines and powers of musl and glibc differ in their last bit; Newton's steps end below 1e-10.
    const off = Math.abs(ours - theirs) / Math.max(1, Math.abs(theirs));
    worst = Math.max(worst, off);
    if (!(off < 1e-9) || shown(name, ours) !== shown(name, theirs)) {
      faults.push(`${asked.join(" ")}: ${name} ${ours}, the program says ${theirs}`);
    }
  }
  // The sentence for screen readers has the program's own digits.
  const travel = shown("travel", answer.travel_m);
  if (!words(solver, solver.page_status()).startsWith(`Bar travel ${travel} cm`)) {
    faults.push(`${asked.join(" ")}: status "${words(solver, solver.page_status())}"`);
  }
}
if (held < CASES / 2) {
  faults.push(`only ${held} of ${CASES} set-ups held a pose`);
}
console.log(`${held} of ${CASES} set-ups hold a pose; ${compared} figures compared, ` +
  `${toTheBit} equal to the bit, the greatest difference is ${worst.toExponential(1)} of the figure`);
faults.slice(0, 10).forEach((fault) => console.error(fault));
process.exit(faults.length === 0 ? 0 : 1);

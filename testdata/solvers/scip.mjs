// Solves a model in free MPS form by the WebAssembly build of SCIP that comes with
// or-tools-wasm, and prints its status, value and bound:
//
//	node scip.mjs FOLDER MODEL SECONDS GAP
//
// FOLDER is where npm has installed it.
import fs from "node:fs";
import { pathToFileURL } from "node:url";
const [dir, mps, seconds, gap] = process.argv.slice(2);
const { MPSolver, initMPSolver } = await import(pathToFileURL(dir + "/node_modules/or-tools-wasm/build/javascript/node/mp-solver.js"));
await initMPSolver();
const solver = MPSolver.CreateSolver("SCIP");
const infinity = solver.infinity();
const objectiveRow = solver.Objective();
const rows = new Map(), cols = new Map();
let section = "", whole = false, objective = "";
for (const line of fs.readFileSync(mps, "utf8").split("\n")) {
  if (!line.trim() || line[0] === "*") continue;
  const w = line.trim().split(/\s+/);
  if (line[0] !== " ") { section = w[0]; continue; }
  if (section === "ROWS") {
    if (w[0] === "N") { objective = w[1]; continue; }
    const [lo, hi] = { L: [-infinity, 0], G: [0, infinity], E: [0, 0] }[w[0]];
    rows.set(w[1], { row: solver.RowConstraint(lo, hi, w[1]), kind: w[0] });
  } else if (section === "COLUMNS") {
    if (w[1] === "'MARKER'") { whole = w[2] === "'INTORG'"; continue; }
    if (!cols.has(w[0])) cols.set(w[0], solver.Var(0, infinity, whole, w[0]));
    for (let i = 1; i + 1 < w.length; i += 2) {
      if (w[i] === objective) objectiveRow.SetCoefficient(cols.get(w[0]), Number(w[i + 1]));
      else rows.get(w[i]).row.SetCoefficient(cols.get(w[0]), Number(w[i + 1]));
    }
  } else if (section === "RHS") {
    for (let i = 1; i + 1 < w.length; i += 2) {
      const v = Number(w[i + 1]);
      if (w[i] === objective) { objectiveRow.SetOffset(-v); continue; }
      const r = rows.get(w[i]);
      r.rhs = v;
      r.row.SetBounds(r.kind === "L" ? -infinity : v, r.kind === "G" ? infinity : v);
    }
  } else if (section === "RANGES") {
    for (let i = 1; i + 1 < w.length; i += 2) {
      const r = rows.get(w[i]), d = Number(w[i + 1]), v = r.rhs ?? 0;
      const lo = r.kind === "G" || (r.kind === "E" && d >= 0) ? v : v - Math.abs(d);
      const hi = r.kind === "L" || (r.kind === "E" && d < 0) ? v : v + Math.abs(d);
      r.row.SetBounds(lo, hi);
    }
  } else if (section === "BOUNDS") {
    const c = cols.get(w[2]), v = Number(w[3]);
    if (w[0] === "UP") c.SetUb(v);
    else if (w[0] === "LO") c.SetLb(v);
    else if (w[0] === "FX") c.SetBounds(v, v);
    else if (w[0] === "FR") c.SetBounds(-infinity, infinity);
    else if (w[0] === "MI") c.SetLb(-infinity);
    else if (w[0] === "PL") c.SetUb(infinity);
    else if (w[0] === "BV") { c.SetBounds(0, 1); c.SetInteger(true); }
    else throw new Error("bound " + w[0]);
  } else if (section === "OBJSENSE") { if (/^max/i.test(w[0])) objectiveRow.SetMaximization(); }
}
solver.SetTimeLimit(Number(seconds) * 1000);
solver.SetSolverSpecificParametersAsString("limits/gap = " + gap);
const status = await solver.Solve();
console.log("status " + status + " value " + objectiveRow.Value() + " bound " + objectiveRow.BestBound());
process.exit(0);

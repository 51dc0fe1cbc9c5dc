// How long plans for several faults take in the browser's language: `python -m tests.benchmarks.joint_plans --records |
// node tests/benchmarks/joint_plans.mjs`. Prints seconds as JSON; Node is needed for nothing else of the benchmarks.
import { readFileSync } from "node:fs";
import { planSeveral } from "../../site_overrides/assets/js/core/joint.js";
import { NOBODY } from "../../site_overrides/assets/js/core/plan.js";

const seconds = JSON.parse(readFileSync(0, "utf-8")).map((parts) => {
  const started = process.cpuUsage();
  planSeveral(parts, NOBODY);
  const took = process.cpuUsage(started);
  return (took.user + took.system) / 1e6;
});
seconds.sort((one, other) => one - other);
process.stdout.write(`${JSON.stringify({ median: seconds[seconds.length >> 1], worst: seconds.at(-1) })}\n`);

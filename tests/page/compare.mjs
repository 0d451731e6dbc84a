// Usage: EXCHANGE | node compare.mjs CORE-FOLDER DATA-FILE
// Sends each request of an exchange to the WebAssembly and compares the SHA-256 of the reply. At a
// difference it prints the request and the reply; `page_exchange --ask` gives the native one.

import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { createInterface } from "node:readline";
import { runInThisContext } from "node:vm";

const [folder, data] = process.argv.slice(2);
runInThisContext(readFileSync(folder + "/core.js", "utf8"));
let core;
let request;
let compared = 0;
let questions = 0;
const items = new Set();
for await (const line of createInterface({ input: process.stdin })) {
  core ??= await startFootroomCore(readFileSync(folder + "/core.wasm"), readFileSync(data, "utf8"));
  if (request === undefined) {
    request = line;
    continue;
  }
  const reply = core.ask_text(request);
  if (createHash("sha256").update(reply).digest("hex") !== line) {
    console.log("another reply than the program's to\n" + request + "\n" + reply);
    process.exit(1);
  }
  const question = JSON.parse(reply).question;
  if (JSON.parse(request).ask === "question") {
    ++questions;
    items.add(question.item);
  }
  ++compared;
  request = undefined;
}
console.log(`replies: ${compared}, questions: ${questions}, items: ${items.size}; all the same`);
const [least_questions, least_items] = process.argv.slice(4).map(Number);
if (questions < least_questions || items.size < least_items) {
  console.log(`expected ${least_questions} questions of ${least_items} items`);
  process.exit(1);
}

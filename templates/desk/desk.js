// Two conveniences; everything works without them.
"use strict";

// Tells, while an answer is being typed, how it is understood.
for (const input of document.querySelectorAll("input[data-reading]")) {
  const output = document.getElementById(input.id + "-read");
  let waiting = 0;
  let asked = 0;
  input.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(async () => {
      const turn = ++asked;
      const address = input.dataset.reading + "&typed=" + encodeURIComponent(input.value);
      try {
        const answer = await fetch(address, { credentials: "same-origin" });
        const text = answer.ok ? await answer.text() : "";
        if (turn === asked) output.textContent = text;
      } catch {
        output.textContent = "";
      }
    }, 150);
  });
}

// Looks again at work that takes a while.
const work = document.querySelector("progress[data-work]");
if (work) {
  const look = async () => {
    const answer = await fetch(work.dataset.work, { credentials: "same-origin" });
    const state = await answer.json();
    if (!state.running) location.reload();
    work.max = Math.max(state.of, 1);
    work.value = state.done;
    setTimeout(look, 500);
  };
  setTimeout(look, 500);
}

// What is wrong is read first.
const wrong = document.querySelector(".wrong a");
if (wrong) wrong.focus();

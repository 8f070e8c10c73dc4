// After each action the page is fetched and its live part put in place of the old one, so that
// nothing jumps: scroll, focus and what was folded open stay. Without this script the forms work as
// forms do.
"use strict";

const live = document.getElementById("live");
const FOLDS = ["coming", "faults"];

function toTheEnd(thread) {
  thread.scrollTop = thread.scrollHeight;
}

function state() {
  const phones = document.getElementById("phones");
  const open = FOLDS.map((fold) => document.getElementById(fold).open);
  return { left: phones.scrollLeft, open, focused: document.activeElement.id };
}

function restore(before) {
  document.getElementById("phones").scrollLeft = before.left;
  FOLDS.forEach((fold, place) => (document.getElementById(fold).open = before.open[place]));
  document.querySelectorAll(".thread").forEach(toTheEnd);
  const same = before.focused && document.getElementById(before.focused);
  if (same) same.focus({ preventScroll: true });
}

async function act(form, button) {
  const fields = new URLSearchParams(new FormData(form, button));
  const phone = form.closest(".phone");
  const before = state();
  live.setAttribute("aria-busy", "true");
  try {
    const answer = await fetch(form.action, { method: "POST", body: fields });
    const fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
    live.replaceChildren(...fresh.getElementById("live").childNodes);
    restore(before);
    const first = phone && document.querySelector(`#${phone.id} [data-first], #${phone.id} [name="text"]`);
    if (first) first.focus({ preventScroll: true });
  } finally {
    live.removeAttribute("aria-busy");
  }
}

document.addEventListener("submit", (event) => {
  event.preventDefault();
  if (!live.hasAttribute("aria-busy")) act(event.target, event.submitter);
});

document.addEventListener("click", (event) => {
  const key = event.target.closest("[data-key]");
  if (!key) return;
  const typed = key.closest(".menu").querySelector("[name=typed]");
  typed.value += key.dataset.key;
  typed.focus({ preventScroll: true });
});

document.querySelectorAll(".thread").forEach(toTheEnd);
if (window.innerWidth < 700) FOLDS.forEach((fold) => (document.getElementById(fold).open = false));

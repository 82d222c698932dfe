/**
 * The page's only script, as text. Without it the page reads and prints; with it, values are held against their
 * limits as they are typed, the outcome they have is shown, waits say when they end, and a filled copy can be saved.
 *
 * It keeps nothing, sends nothing, and makes no markup from what is typed. `SCRIPT_HASH` is what the page's content
 * policy lets run; a test holds it to the script.
 */
export const SCRIPT = String.raw`
"use strict";
(() => {
  const number = (field) => {
    const typed = field.value.trim().replace(",", ".").replace("\u2212", "-");
    return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(typed) ? Number(typed) : undefined;
  };
  const inside = (value, { min, max, minOpen, maxOpen }) =>
    (min === undefined || (minOpen === undefined ? value >= Number(min) : value > Number(min))) &&
    (max === undefined || (maxOpen === undefined ? value <= Number(max) : value < Number(max)));
  const held = (field) => {
    const value = number(field);
    const bad = value === undefined ? field.value.trim() !== "" : !inside(value, field.dataset);
    field.classList.toggle("outside", bad);
    field.setAttribute("aria-invalid", String(bad));
    const step = field.closest(".step");
    if (step === null) return;
    const all = [...step.querySelectorAll("input[data-range]")].filter((one) => one.closest(".frame") === null);
    const values = all.map(number).filter((one) => one !== undefined);
    const outcomes = [...step.querySelectorAll(".outcome[data-range]")];
    const within = (outcome) => all.every((one) => ["min", "max"].every((end) => one.dataset[end] === outcome.dataset[end]));
    const has = outcomes.filter((outcome) => values.some((one) => inside(one, outcome.dataset)));
    const worst = has.filter((outcome) => !within(outcome));
    const shown = worst.length > 0 ? worst : values.length === all.length ? has : [];
    for (const outcome of outcomes) {
      outcome.classList.toggle("has", shown.includes(outcome));
      if (shown.includes(outcome)) outcome.setAttribute("role", "status");
      else outcome.removeAttribute("role");
    }
  };
  const carried = (field) => {
    for (const copy of document.querySelectorAll("input[data-copies]")) {
      if (copy.dataset.copies === field.id) copy.value = field.value;
    }
    for (const end of document.querySelectorAll("input[data-after]")) {
      if (end.dataset.after !== field.id || !/^\d+:\d+/.test(field.value)) continue;
      const [hours, minutes] = field.value.split(":").map(Number);
      const at = (hours * 60 + minutes + Number(end.dataset.minutes)) % 1440;
      end.value = String(Math.floor(at / 60)).padStart(2, "0") + ":" + String(at % 60).padStart(2, "0");
    }
  };
  let touched = false;
  document.addEventListener("input", ({ target }) => {
    touched = true;
    if (target.dataset.range !== undefined) held(target);
    carried(target);
  });
  addEventListener("beforeunload", (event) => {
    if (touched) event.preventDefault();
  });
  const save = () => {
    for (const field of document.querySelectorAll("input")) {
      if (field.type === "checkbox") field.toggleAttribute("checked", field.checked);
      else field.setAttribute("value", field.value);
    }
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob(["<!DOCTYPE html>\n", document.documentElement.outerHTML], { type: "text/html" }));
    link.download = document.title.replace(/[^\p{L}\p{N}]+/gu, "-") + ".html";
    link.click();
    touched = false;
  };
  for (const button of document.querySelectorAll("button[data-do]")) {
    button.addEventListener("click", button.dataset.do === "save" ? save : () => print());
  }
  for (const tools of document.querySelectorAll(".tools")) tools.hidden = false;
  for (const field of document.querySelectorAll("input[data-range]")) if (field.value !== "") held(field);
})();
`;

/** SHA-256 of the script, as a content policy names it. */
export const SCRIPT_HASH = "sha256-q7vkvHsmDeSyOay3ss5U/NiJMQDpGlR1xDFuPJ5Kno4=";

"use strict";
const inputs = [...document.querySelectorAll("main input")];
const told = document.getElementById("told");
const kind = (input) => input.type === "checkbox" ? "box" : "line";
document.getElementById("save").addEventListener("click", () => {
  const filled = {
    filled: 1,
    title: document.title,
    fields: inputs.map((input) => kind(input) === "box"
      ? { kind: "box", label: input.dataset.label, ticked: input.checked }
      : { kind: "line", label: input.dataset.label, written: input.value }),
  };
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([JSON.stringify(filled, null, 2) + "\n"], { type: "application/json" }));
  link.download = "filled.json";
  link.click();
  URL.revokeObjectURL(link.href);
});
document.getElementById("open").addEventListener("change", async (event) => {
  const file = event.target.files[0];
  event.target.value = "";
  if (!file) return;
  told.textContent = "";
  let fields = null;
  try {
    if (file.size < 4000000) fields = JSON.parse(await file.text()).fields;
  } catch { /* it is told below */ }
  // Another list's answers would stand behind the wrong questions: all is taken, or nothing.
  const fits = Array.isArray(fields) && fields.length === inputs.length && fields.every((field, i) =>
    field && field.kind === kind(inputs[i]) && field.label === inputs[i].dataset.label &&
    typeof (field.kind === "box" ? field.ticked : field.written) === (field.kind === "box" ? "boolean" : "string"));
  if (!fits) {
    told.textContent = told.dataset.other;
    return;
  }
  fields.forEach((field, i) => {
    if (field.kind === "box") inputs[i].checked = field.ticked;
    else inputs[i].value = field.written;
  });
});

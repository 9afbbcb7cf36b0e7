"use strict";
/* Ticks: steps that are done, model by model; how many models there are; paints that are at home; single boxes. */
{
  const { say, make, all, one, show, get: read, change, mine, onChange } = Maulstick;
  /* Until the reader says how many models there are: one; on a shopping list, as many as it is for. */
  const usual = Number(one("#slip-models")?.textContent ?? 1);
  const get = name => (name === mine ? { models: usual, ...read(name) } : read(name));
  /* So many models get a box each; of more one counts. */
  const MOST_BOXES = 40;

  const doneOf = (state, step, models) => (state.done[step] ?? []).filter(model => model <= models);
  const setDone = (step, models, isDone) => change(mine, state => {
    const others = (state.done[step] ?? []).filter(model => !models.includes(model));
    state.done[step] = isDone ? [...others, ...models].sort((a, b) => a - b) : others;
  });
  const upTo = count => Array.from({ length: count }, (_, at) => at + 1);
  const modelsOf = (field, state) => ("together" in field.dataset ? 1 : state.models);

  const modelBox = (step, model) => make("label", { className: "ticks-model" },
    make("input", { type: "checkbox", value: model, ariaLabel: say("ticks.model", { model }),
      onchange: event => setDone(step, [model], event.target.checked) }),
    make("span", {}, model));
  const counter = (step, models) => make("label", { className: "models" }, make("span", {}, say("ticks.number")), " ",
    make("input", { type: "number", min: 0, max: models, onchange: event => {
      const count = Math.min(models, Math.max(0, Math.round(Number(event.target.value) || 0)));
      change(mine, state => { state.done[step] = upTo(count); });
    } }));

  /* Boxes for the models of one step, made anew only when their number changes, so that focus stays where it is. */
  const layOut = (field, models) => {
    if (field.dataset.models === String(models)) return;
    field.dataset.models = models;
    one(".ticks-each", field)?.remove();
    if (models === 1) return;
    const step = field.dataset.step;
    const each = models > MOST_BOXES ? [counter(step, models)] : upTo(models).map(model => modelBox(step, model));
    field.append(make("div", { className: "ticks-each" }, ...each));
  };
  const showTicks = (field, state) => {
    const models = modelsOf(field, state);
    const done = doneOf(state, field.dataset.step, models);
    layOut(field, models);
    const whole = one(".ticks-all input", field);
    whole.checked = done.length === models;
    whole.indeterminate = done.length > 0 && done.length < models;
    one(".ticks-all span", field).textContent =
      whole.indeterminate ? say("ticks.some", { done: done.length, all: models }) : say("ticks.done");
    for (const box of all(".ticks-model input", field)) box.checked = done.includes(Number(box.value));
    const count = one(".ticks-each .models input", field);
    if (count) count.value = done.length;
    field.closest(".step")?.classList.toggle("step-done", whole.checked);
  };
  const fields = all(".ticks");
  /* Boxes in a text are known by their step and their words. */
  for (const box of all(".telling label > input")) {
    const step = box.closest(".step")?.id ?? fields[0]?.dataset.step ?? "";
    box.dataset.box = `list ${step} ${box.parentElement.textContent.trim()}`;
  }
  for (const field of fields) {
    one(".ticks-all input", field).onchange = event =>
      setDone(field.dataset.step, upTo(modelsOf(field, get(mine))), event.target.checked);
  }

  const showScheme = () => {
    const state = get(mine);
    fields.forEach(field => showTicks(field, state));
    for (const field of all("[data-models]:is(input)")) if (field !== document.activeElement) field.value = state.models;
    for (const box of all("[data-box]")) box.checked = state.boxes.includes(box.dataset.box);
    const line = one("[data-progress]");
    const done = fields.filter(field => one(".ticks-all input", field).checked).length;
    const text = say("ticks.count", { done, all: fields.length });
    if (line && line.textContent !== text) line.textContent = text;
    const clear = one(".progress [data-clear]");
    if (clear) clear.hidden = !Object.keys(state.done).length && !state.boxes.length;
  };
  const showHave = () => {
    const have = get("have");
    for (const box of all("[data-have]")) box.checked = box.defaultChecked || have.includes(box.dataset.have);
  };

  for (const field of all("[data-models]:is(input)")) {
    field.oninput = () => {
      const models = Number(field.value);
      if (Number.isInteger(models) && models >= 1 && models <= 999) change(mine, state => { state.models = models; });
    };
    field.onblur = () => { field.value = get(mine).models; };
  }
  const put = (list, value, isIn) => {
    const at = list.indexOf(value);
    if (isIn && at < 0) list.push(value);
    if (!isIn && at >= 0) list.splice(at, 1);
  };
  for (const box of all("[data-box]")) {
    box.onchange = () => change(mine, state => put(state.boxes, box.dataset.box, box.checked));
  }
  for (const box of all("[data-have]")) {
    box.onchange = () => change("have", have => put(have, box.dataset.have, box.checked));
  }
  const clear = one(".progress [data-clear]");
  if (clear) {
    clear.onclick = () => {
      if (!confirm(say("ticks.sure"))) return;
      change(mine, state => { state.done = {}; state.boxes = []; });
      one("[data-models]:is(input)")?.focus();
    };
  }

  onChange(name => (name === "have" ? showHave() : name === mine && showScheme()));
  showScheme();
  showHave();
  show(".ticks, .progress, .models, .have");
}
